//! Sizes measured by pin, as a record of the floor holds them.

use quillbore_calc::Length;

use super::measure::{Measure, bare_unit, measure, to_length};
use super::misread::What;
use super::scan::Scan;
use crate::typed::entry::Unit;

/// The sizes in a text of numbers, units and what stands between them; `None` where there
/// are other words in it, a size is nothing, or none is there: `0.80 / 0.82`, `.031, .032 in`,
/// `0.80 to 0.82`.
#[must_use]
pub fn pin_sizes(text: &str, unit: Unit) -> Option<Vec<Length>> {
    if has_deviation(text) {
        return None;
    }
    let mut scan = Scan::new(text).ok()?.without_brackets();
    let mut measures: Vec<Measure> = Vec::new();
    while !scan.at_end() {
        scan.eat('\u{d8}');
        measures.push(measure(&mut scan).ok()??);
        while between(&mut scan) {}
    }
    let all: Vec<&Measure> = measures.iter().collect();
    let bare = bare_unit(&all, unit).ok()?;
    let sizes = measures.iter().map(|measure| {
        let mm = measure.mm(bare, What::Size).ok()?;
        (!mm.is_zero()).then_some(())?;
        to_length(mm, What::Size).ok()
    });
    let sizes: Option<Vec<Length>> = sizes.collect();
    sizes.filter(|sizes| !sizes.is_empty())
}

/// Takes what may stand between two sizes.
fn between(scan: &mut Scan) -> bool {
    ["..", "/", ",", ";", "-", "&", "|"]
        .into_iter()
        .any(|signs| scan.eat_all(signs))
        || scan.eat_word(&["and", "to"])
}

/// Whether a number stands right behind a minus that has a blank before it: `0.80 -0.02` is one size.
fn has_deviation(text: &str) -> bool {
    let signs: Vec<char> = text.chars().collect();
    signs.windows(3).any(|three| match three {
        [before, '-' | '\u{2013}' | '\u{2212}', after] => {
            before.is_whitespace() && (after.is_ascii_digit() || *after == '.')
        }
        _ => false,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(text: &str, unit: Unit) -> Option<Vec<f64>> {
        let sizes = pin_sizes(text, unit)?;
        Some(sizes.into_iter().map(Length::mm).collect())
    }

    #[test]
    fn sizes_are_read_where_the_text_is_sizes() {
        for (text, sizes) in [
            ("0.80", &[0.8][..]),
            ("0.80 / 0.82", &[0.8, 0.82]),
            ("0.80/0.82", &[0.8, 0.82]),
            ("0,80 / 0,82", &[0.8, 0.82]),
            ("0.80, 0.82; 0.81", &[0.8, 0.82, 0.81]),
            ("0.80 0.82", &[0.8, 0.82]),
            ("0.80-0.82", &[0.8, 0.82]),
            ("0.80 \u{2013} 0.82 mm", &[0.8, 0.82]),
            ("0.80 to 0.82", &[0.8, 0.82]),
            ("0.80..0.82", &[0.8, 0.82]),
            ("\u{2300}0.80, \u{2300}0.82", &[0.8, 0.82]),
            ("(0.80) (0.82)", &[0.8, 0.82]),
            ("1/32 in", &[0.793_75]),
            (".031 / .032 in", &[0.7874, 0.8128]),
            ("800 um / 0.82 mm", &[0.8, 0.82]),
            ("0.80\n0.82", &[0.8, 0.82]),
            ("0,80; 0,82", &[0.8, 0.82]),
            ("1.250", &[1.25]),
        ] {
            assert_eq!(mm(text, Unit::Mm).as_deref(), Some(sizes), "{text}");
        }
        assert_eq!(
            mm(".031/.032", Unit::Inch).as_deref(),
            Some(&[0.7874, 0.8128][..])
        );
        assert_eq!(
            mm("0.80 / 0.82 mm", Unit::Inch).as_deref(),
            Some(&[0.8, 0.82][..])
        );
        assert_eq!(mm("1/32", Unit::Inch).as_deref(), Some(&[0.793_75][..]));
    }

    #[test]
    fn other_words_are_no_sizes() {
        for text in [
            "",
            "  ",
            "0.80 go",
            "go 0.80",
            "0.80 go / 0.82 no-go",
            "ok",
            "/",
            "0",
            "0.80 / 0",
            "-0.80",
            "0.80 +-0.02",
            "0.80 -0.02",
            "0.80 +0.02",
            "0.80 mm / .031 in / 0.82",
            "1/32",
            "0.80 < 0.82",
            "0.80 go, 0.82 no go",
            "all good",
            "F",
            "0.80 A",
            "#68",
            "-1",
            "1 km",
            "9999999999",
            "0.80\u{0}",
        ] {
            assert_eq!(mm(text, Unit::Mm), None, "{text}");
        }
        assert_eq!(
            pin_sizes(&"0.8 ".repeat(100), Unit::Mm),
            None,
            "too long to be read"
        );
    }
}
