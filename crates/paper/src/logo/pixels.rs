//! Pixels made ready for paper: white edges cut off, and no finer than a printer shows.

use super::fault::LogoFault;
use super::{BOX_MM, is_white};
use crate::page::Pixels;

/// The finest that a logo stands on paper [pixels per inch].
const FINEST: f64 = 1200.0;

/// Pixels without their white edges, made smaller where they are finer than a printer shows.
pub(super) fn tidy(width: usize, rgb: &[u8]) -> Result<Pixels, LogoFault> {
    let inked = inked(width, rgb).ok_or(LogoFault::Blank)?;
    let [left, top, right, bottom] = inked;
    let rows = rgb.chunks_exact(width * 3).take(bottom).skip(top);
    let cut: Vec<u8> = rows
        .flat_map(|row| &row[left * 3..right * 3])
        .copied()
        .collect();
    let (width, height) = (right - left, bottom - top);
    let (most_wide, most_high) = finest(FINEST);
    let scale = (most_wide / width as f64).min(most_high / height as f64);
    if scale >= 1.0 {
        return Ok(Pixels::new(width, cut));
    }
    let to = |count: usize| ((count as f64 * scale).round() as usize).max(1);
    let narrow = averaged(&cut, width, height, to(width));
    // The rows go the same way as the pixels in them, once rows and columns have changed places.
    let turned = turned(&narrow, to(width), height);
    let low = averaged(&turned, height, to(width), to(height));
    let rgb = self::turned(&low, to(height), to(width));
    Ok(Pixels::new(to(width), rgb))
}

/// Most pixels across and down that a logo has on paper.
pub(super) fn finest(per_inch: f64) -> (f64, f64) {
    let of = |mm: f64| mm / 25.4 * per_inch;
    (of(BOX_MM.0), of(BOX_MM.1))
}

/// Left, top, right and bottom of what is not white.
fn inked(width: usize, rgb: &[u8]) -> Option<[usize; 4]> {
    let mut edges: Option<[usize; 4]> = None;
    for (y, row) in rgb.chunks_exact(width * 3).enumerate() {
        let mut inked = row.chunks_exact(3).map(|pixel| !is_white(pixel));
        let Some(first) = inked.clone().position(|inked| inked) else {
            continue;
        };
        let last = inked.rposition(|inked| inked).unwrap_or(first);
        let [left, top, right, _] = edges.unwrap_or([first, y, last + 1, y]);
        edges = Some([left.min(first), top, right.max(last + 1), y + 1]);
    }
    edges
}

/// Rows of `from` pixels as rows of `to`: each is the mean of what it covers, in whole numbers.
fn averaged(rgb: &[u8], from: usize, height: usize, to: usize) -> Vec<u8> {
    let mut out = Vec::with_capacity(to * height * 3);
    for row in rgb.chunks_exact(from * 3) {
        for x in 0..to {
            // In parts of which a pixel of before has `to`, and one of after `from`.
            let (begin, end) = (x * from, (x + 1) * from);
            let mut sum = [0_usize; 3];
            for at in begin / to..end.div_ceil(to) {
                let part = end.min((at + 1) * to) - begin.max(at * to);
                for (sum, color) in sum.iter_mut().zip(&row[at * 3..]) {
                    *sum += usize::from(*color) * part;
                }
            }
            out.extend(sum.map(|sum| ((sum + from / 2) / from) as u8));
        }
    }
    out
}

/// Rows as columns.
fn turned(rgb: &[u8], width: usize, height: usize) -> Vec<u8> {
    let at = |x: usize, y: usize| (y * width + x) * 3;
    let columns = (0..width).flat_map(|x| (0..height).map(move |y| at(x, y)));
    columns
        .flat_map(|at| [rgb[at], rgb[at + 1], rgb[at + 2]])
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    const WHITE: [u8; 3] = [255; 3];
    const RED: [u8; 3] = [200, 10, 20];

    fn filled(width: usize, height: usize, ink: impl Fn(usize, usize) -> [u8; 3]) -> Vec<u8> {
        let rows = (0..height).flat_map(|y| (0..width).map(move |x| (x, y)));
        rows.flat_map(|(x, y)| ink(x, y)).collect()
    }

    #[test]
    fn white_edges_are_cut_off() {
        let inside = |x, y| (3..7).contains(&x) && (1..4).contains(&y);
        let rgb = filled(10, 6, |x, y| if inside(x, y) { RED } else { WHITE });
        let tidied = tidy(10, &rgb).unwrap();
        assert_eq!((tidied.width(), tidied.height()), (4, 3));
        assert!(tidied.rgb().chunks_exact(3).all(|pixel| pixel == RED));
        // A single pixel in a corner is enough, and the one far off keeps what lies between.
        let rgb = filled(10, 6, |x, y| {
            if (x, y) == (9, 5) || (x, y) == (0, 2) {
                RED
            } else {
                WHITE
            }
        });
        let tidied = tidy(10, &rgb).unwrap();
        assert_eq!((tidied.width(), tidied.height()), (10, 4));
        let nothing = filled(10, 6, |x, _| [255, 253, 250 + x as u8 / 2]);
        assert_eq!(tidy(10, &nothing), Err(LogoFault::Blank));
    }

    #[test]
    fn what_is_finer_than_paper_is_averaged_and_keeps_its_proportions() {
        // Stripes of black and red, one pixel each: their mean is the same everywhere.
        let rgb = filled(4000, 500, |x, _| if x % 2 == 0 { [0; 3] } else { RED });
        let tidied = tidy(4000, &rgb).unwrap();
        assert_eq!((tidied.width(), tidied.height()), (1890, 236));
        let sum: u64 = tidied.rgb().iter().map(|part| u64::from(*part)).sum();
        let mean = sum as f64 / tidied.rgb().len() as f64;
        let before: u64 = rgb.iter().map(|part| u64::from(*part)).sum();
        let expected = before as f64 / rgb.len() as f64;
        assert!((mean - expected).abs() < 0.5, "{mean} {expected}");
        // A high one goes by its height.
        let tidied = tidy(300, &filled(300, 1200, |_, _| RED)).unwrap();
        assert_eq!((tidied.width(), tidied.height()), (165, 661));
        assert!(tidied.rgb().chunks_exact(3).all(|pixel| pixel == RED));
    }

    #[test]
    fn a_mean_is_that_of_the_parts() {
        // Three pixels in two: each covers one and a half, by hand.
        let row = [0, 0, 0, 90, 90, 90, 240, 240, 240];
        assert_eq!(averaged(&row, 3, 1, 2), [30, 30, 30, 190, 190, 190]);
        assert_eq!(turned(&[1, 1, 1, 2, 2, 2], 2, 1), [1, 1, 1, 2, 2, 2]);
        assert_eq!(
            turned(&[1, 1, 1, 2, 2, 2, 3, 3, 3, 4, 4, 4], 2, 2),
            [1, 1, 1, 3, 3, 3, 2, 2, 2, 4, 4, 4]
        );
    }
}
