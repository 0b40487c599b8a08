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

#[cfg(test)]
mod tests {
    use super::*;

    const ROWS: [(f64, f64); 3] = [(0.5, 0.8), (1.0, 1.0), (2.0, 0.6)];

    #[test]
    fn rows_themselves_come_back() {
        for (x, y) in ROWS {
            assert!((linear_held(ROWS.into_iter(), x).unwrap() - y).abs() < 1e-12);
        }
    }

    #[test]
    fn ends_are_held_or_refused() {
        assert_eq!(linear_held(ROWS.into_iter(), 0.1), Some(0.8));
        assert_eq!(linear_held(ROWS.into_iter(), 9.0), Some(0.6));
        assert_eq!(linear_held(core::iter::empty(), 1.0), None);
    }
}
