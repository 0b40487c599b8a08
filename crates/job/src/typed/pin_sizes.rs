//! Sizes of holes by pin, where they are written as numbers.

use quillbore_calc::Length;

use super::entry::Unit;
use super::read_quantity::length;

/// The sizes that a text names, where it is made of sizes alone: `0.80 / 0.82`, `.0315 in; .032 in`.
///
/// `None` where anything else stands in it: words, a sign, or nothing at all.
#[must_use]
pub fn pin_sizes(text: &str, unit: Unit) -> Option<Vec<Length>> {
    let text = text.trim();
    if text.is_empty() {
        return None;
    }
    if let Ok(one) = length(text, unit) {
        return Some(vec![one]);
    }
    let pieces: Vec<&str> = if text.contains([';', '/', '\n']) {
        text.split([';', '/', '\n']).collect()
    } else if text.contains(", ") {
        text.split(", ").collect()
    } else {
        text.split_whitespace().collect()
    };
    let sizes = pieces
        .into_iter()
        .map(str::trim)
        .filter(|piece| !piece.is_empty());
    sizes.map(|piece| length(piece, unit).ok()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Option<Vec<f64>> {
        let sizes = pin_sizes(text, Unit::Mm)?;
        Some(sizes.iter().map(|size| size.mm()).collect())
    }

    #[test]
    fn numbers_are_sizes_and_words_are_none() {
        assert_eq!(read("0.80"), Some(vec![0.8]));
        assert_eq!(read("0.80 / 0.82"), Some(vec![0.8, 0.82]));
        assert_eq!(read("0,80; 0,82"), Some(vec![0.8, 0.82]));
        assert_eq!(read("0.8 0.81 0.82"), Some(vec![0.8, 0.81, 0.82]));
        assert_eq!(read("0.8 mm, 0.81 mm"), Some(vec![0.8, 0.81]));
        assert_eq!(read("1/32 in"), Some(vec![25.4 / 32.0]));
        for words in ["", "0.80 go, 0.82 no go", "all good", "-1", "0"] {
            assert_eq!(read(words), None, "{words}");
        }
    }
}
