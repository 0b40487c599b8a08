//! Reading start values between the rows of a table.

/// Value between two rows, linear in both; the ends are held. `None` for an empty table.
///
/// The rows are in rising order of their first figure.
pub(crate) fn linear_held(rows: impl Iterator<Item = (f64, f64)>, at: f64) -> Option<f64> {
    let mut before: Option<(f64, f64)> = None;
    for (x, y) in rows {
        if at <= x {
            return Some(match before {
                Some((x0, y0)) if x > x0 => y0 + (y - y0) * ((at - x0) / (x - x0)),
                _ => y,
            });
        }
        before = Some((x, y));
    }
    before.map(|(_, y)| y)
}

/// [`linear_held`] for a table of pairs; 0 for an empty one.
pub(crate) fn linear(rows: &[(f64, f64)], at: f64) -> f64 {
    linear_held(rows.iter().copied(), at).unwrap_or(0.0)
}

/// Value between two rows, linear between the logarithms of both; `None` outside the table.
///
/// The rows are in rising order of their first figure, all figures above 0.
pub(crate) fn log_log(rows: &[(f64, f64)], at: f64) -> Option<f64> {
    let (first, last) = (rows.first()?, rows.last()?);
    let inside = at >= first.0 && at <= last.0;
    inside.then(|| log_log_held(rows, at)).flatten()
}

/// Value between two rows, linear between the logarithms of both; the ends are held.
///
/// The rows are in rising order of their first figure, all figures above 0.
pub(crate) fn log_log_held(rows: &[(f64, f64)], at: f64) -> Option<f64> {
    let upper = rows.iter().position(|(x, _)| at <= *x);
    let (below, above) = match upper {
        None => return rows.last().map(|(_, y)| *y),
        Some(0) => return rows.first().map(|(_, y)| *y),
        Some(place) => (rows.get(place - 1)?, rows.get(place)?),
    };
    let share = libm::log(at / below.0) / libm::log(above.0 / below.0);
    Some(below.1 * libm::exp(share * libm::log(above.1 / below.1)))
}

#[cfg(test)]
mod tests {
    use super::*;

    const ROWS: [(f64, f64); 3] = [(0.5, 0.8), (1.0, 1.0), (2.0, 0.6)];

    #[test]
    fn rows_themselves_come_back() {
        for (x, y) in ROWS {
            assert!((log_log(&ROWS, x).unwrap() - y).abs() < 1e-12);
            assert!((linear_held(ROWS.into_iter(), x).unwrap() - y).abs() < 1e-12);
        }
    }

    #[test]
    fn between_rows_the_logarithms_are_linear() {
        // Half way between in the logarithm: the geometric means.
        let at = libm::sqrt(1.0 * 2.0);
        assert!((log_log(&ROWS, at).unwrap() - libm::sqrt(0.6)).abs() < 1e-12);
        assert!((linear_held(ROWS.into_iter(), 1.5).unwrap() - 0.8).abs() < 1e-12);
    }

    #[test]
    fn ends_are_held_or_refused() {
        assert_eq!(log_log(&ROWS, 0.49), None);
        assert_eq!(log_log(&ROWS, 2.01), None);
        assert_eq!(log_log(&ROWS, f64::NAN), None);
        assert_eq!(log_log_held(&ROWS, 0.1), Some(0.8));
        assert_eq!(log_log_held(&ROWS, 9.0), Some(0.6));
        assert_eq!(linear_held(ROWS.into_iter(), 0.1), Some(0.8));
        assert_eq!(linear_held(ROWS.into_iter(), 9.0), Some(0.6));
        assert_eq!(linear_held(core::iter::empty(), 1.0), None);
        assert_eq!(log_log(&[], 1.0), None);
    }
}
