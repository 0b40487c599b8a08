//! What broke in a customer's part: `M6 tap`, `1/4-20 tap, carbide`, `3.3 drill`, `M8 screw`.

use quillbore_calc::broken::{Broken, Kind, Stuff};
use quillbore_calc::standards::threads::{Thread, named};

use super::measure::{bare_unit, measure, to_length};
use super::misread::{Misread, What};
use super::number::number;
use super::scan::Scan;
use crate::typed::entry::Unit;

const WHAT: What = What::Broken;
const MM_PER_INCH: f64 = 25.4;

/// Words that a tool goes by.
const KINDS: [(Kind, &[&str]); 5] = [
    (Kind::Tap, &["tap", "taps"]),
    (Kind::Drill, &["drill", "drills", "bit"]),
    (Kind::Stud, &["screw", "stud", "bolt", "pin"]),
    (Kind::Reamer, &["reamer"]),
    (Kind::Extractor, &["extractor"]),
];

/// Words that what it is made of goes by.
const STUFFS: [(Stuff, &[&str]); 3] = [
    (Stuff::Hss, &["hss", "hsse", "cobalt"]),
    (Stuff::Carbide, &["carbide", "hm"]),
    (Stuff::Steel, &["steel"]),
];

/// Reads what broke: its thread or size, what it is, what it is made of, its flutes, in any order; an
/// extractor may name the thread that its screw sits in, as `5 extractor in M8`.
pub fn broken(text: &str, unit: Unit) -> Result<Broken, Misread> {
    let mut scan = Scan::new(text)?;
    let (mut kind, mut stuff, mut flutes) = (None, None, None);
    let (mut size, mut sits_in) = (None, None);
    while !scan.at_end() {
        if scan.eat(',') {
            continue;
        }
        if scan.eat_word(&["in"]) {
            sits_in = Some(thread(&mut scan)?.ok_or_else(|| not(text))?);
        } else if let Some(found) = word(&mut scan, &KINDS) {
            once(&mut kind, found, text)?;
        } else if let Some(found) = word(&mut scan, &STUFFS) {
            once(&mut stuff, found, text)?;
        } else if let Some(found) = flutes_of(&mut scan) {
            once(&mut flutes, found, text)?;
        } else if let Some(found) = of_thread(&mut scan)? {
            once(&mut size, found, text)?;
        } else if let Some(found) = of_diameter(&mut scan, unit)? {
            once(&mut size, found, text)?;
        } else {
            return Err(Misread::LeftOver {
                what: WHAT,
                rest: scan.rest(),
            });
        }
    }
    let (Some(kind), Some((major_mm, pitch_mm))) = (kind, size) else {
        return Err(not(text));
    };
    let usual = match kind {
        Kind::Stud => Stuff::Steel,
        _ => Stuff::Hss,
    };
    Ok(Broken {
        pitch_mm,
        flutes,
        bound_mm: sits_in.map(|thread: Thread| thread.minor_mm()),
        ..Broken::new(kind, stuff.unwrap_or(usual), major_mm)
    })
}

fn not(text: &str) -> Misread {
    Misread::Not {
        what: WHAT,
        found: text.trim().to_owned(),
    }
}

/// Puts a value in its place, which must still be free.
fn once<T>(place: &mut Option<T>, found: T, text: &str) -> Result<(), Misread> {
    match place.replace(found) {
        None => Ok(()),
        Some(_) => Err(not(text)),
    }
}

fn word<T: Copy>(scan: &mut Scan, words: &[(T, &[&str])]) -> Option<T> {
    let found = words.iter().find(|(_, words)| scan.eat_word(words));
    found.map(|(of, _)| *of)
}

/// `3 flutes`, `4fl`.
fn flutes_of(scan: &mut Scan) -> Option<u32> {
    let start = scan.mark();
    let digit = scan.peek().and_then(|c| c.to_digit(10))?;
    scan.step();
    if (2..=8).contains(&digit) && scan.eat_word(&["flutes", "flute", "fl"]) {
        return Some(digit);
    }
    scan.back_to(start);
    None
}

fn of_thread(scan: &mut Scan) -> Result<Option<(f64, Option<f64>)>, Misread> {
    let found = thread(scan)?;
    Ok(found.map(|thread| (thread.major_mm, Some(thread.pitch_mm))))
}

/// A thread: `M6`, `M6x0.75`, `1/4-20`, `#10-32`, `10-32 UNF`.
fn thread(scan: &mut Scan) -> Result<Option<Thread>, Misread> {
    let start = scan.mark();
    let found = if scan.eat_all("m") {
        metric(scan)?
    } else {
        inch(scan)
    };
    if found.is_none() {
        scan.back_to(start);
    }
    Ok(found)
}

fn metric(scan: &mut Scan) -> Result<Option<Thread>, Misread> {
    let Some(major) = number(scan)? else {
        return Ok(None);
    };
    let major_mm = major.value.to_f64();
    if scan.eat('x') || scan.eat('X') || scan.eat('*') {
        let pitch = number(scan)?;
        return Ok(pitch.map(|pitch| Thread {
            designation: "",
            major_mm,
            pitch_mm: pitch.value.to_f64(),
        }));
    }
    named(&format!("M{major_mm}")).map_or_else(
        || {
            Err(Misread::Not {
                what: What::ThreadPitch,
                found: format!("M{major_mm}"),
            })
        },
        |thread| Ok(Some(thread)),
    )
}

/// A size by number or fraction of an inch, a dash, threads per inch.
fn inch(scan: &mut Scan) -> Option<Thread> {
    scan.eat('#');
    let first = digits(scan)?;
    let major_in = if scan.here() == Some('/') {
        scan.step();
        let below = digits(scan).filter(|below| *below > 0)?;
        f64::from(first) / f64::from(below)
    } else if first <= 12 {
        // ASME B1.1: number sizes begin at 0.060 in and go up by 0.013 in.
        0.060 + 0.013 * f64::from(first)
    } else {
        return None;
    };
    if scan.here() != Some('-') {
        return None;
    }
    scan.step();
    let per_inch = digits(scan).filter(|count| (4..=120).contains(count))?;
    scan.eat_word(&["unc", "unf", "un", "unef"]);
    Some(Thread {
        designation: "",
        major_mm: major_in * MM_PER_INCH,
        pitch_mm: MM_PER_INCH / f64::from(per_inch),
    })
}

fn digits(scan: &mut Scan) -> Option<u32> {
    scan.skip_spaces();
    let mut found: Option<u32> = None;
    while let Some(digit) = scan.here().and_then(|c| c.to_digit(10)) {
        found = Some(found.unwrap_or(0).checked_mul(10)?.checked_add(digit)?);
        scan.step();
    }
    found
}

/// A plain diameter: `3.3`, `3.3 mm`, `1/8 in`.
fn of_diameter(scan: &mut Scan, unit: Unit) -> Result<Option<(f64, Option<f64>)>, Misread> {
    let _ = scan.eat('\u{d8}') || scan.eat_word(&["d", "dia"]);
    let Some(found) = measure(scan)? else {
        return Ok(None);
    };
    let bare = bare_unit(&[&found], unit)?;
    let mm = to_length(found.mm(bare, WHAT)?, WHAT)?.mm();
    if mm > 0.0 {
        Ok(Some((mm, None)))
    } else {
        Err(Misread::Zero { what: WHAT })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Result<Broken, Misread> {
        broken(text, Unit::Mm)
    }

    #[test]
    fn a_tool_is_read_in_any_order() {
        let tap = read("M6 tap").unwrap();
        assert_eq!((tap.kind, tap.stuff), (Kind::Tap, Stuff::Hss));
        assert_eq!((tap.nominal_mm, tap.pitch_mm), (6.0, Some(1.0)));
        let carbide = read("carbide tap, M8x1, 4 flutes").unwrap();
        assert_eq!((carbide.stuff, carbide.flutes), (Stuff::Carbide, Some(4)));
        assert_eq!((carbide.nominal_mm, carbide.pitch_mm), (8.0, Some(1.0)));
        let drill = read("3.3 mm drill").unwrap();
        assert_eq!((drill.kind, drill.nominal_mm), (Kind::Drill, 3.3));
        assert_eq!(drill.pitch_mm, None);
        let stud = read("M10 stud").unwrap();
        assert_eq!((stud.kind, stud.stuff), (Kind::Stud, Stuff::Steel));
    }

    /// ASME B1.1 as tabulated: 1/4-20 has 0.2500 in, #10 has 0.190 in.
    #[test]
    fn inch_threads_are_read_by_fraction_and_by_number() {
        let quarter = read("1/4-20 tap").unwrap();
        assert_eq!((quarter.nominal_mm, quarter.pitch_mm), (6.35, Some(1.27)));
        for text in ["#10-32 tap", "10-32 UNF tap", "tap 10-32"] {
            let ten = read(text).unwrap();
            assert!((ten.nominal_mm - 4.826).abs() < 1e-9, "{text}");
            assert!((ten.pitch_mm.unwrap() - 0.79375).abs() < 1e-9, "{text}");
        }
        let drill = broken("1/8 drill", Unit::Inch).unwrap();
        assert!((drill.nominal_mm - 3.175).abs() < 1e-9);
    }

    #[test]
    fn an_extractor_names_the_thread_that_its_screw_sits_in() {
        let extractor = read("4 mm extractor in M8").unwrap();
        assert_eq!(extractor.kind, Kind::Extractor);
        assert!((extractor.bound_mm.unwrap() - 6.647).abs() < 0.0005);
    }

    #[test]
    fn what_is_no_tool_is_refused() {
        for text in [
            "M6",
            "tap",
            "M6 tap drill",
            "M6 M8 tap",
            "0 drill",
            "M6 tap soft",
            "M17 tap",
            "-3 drill",
        ] {
            assert!(read(text).is_err(), "{text}");
        }
    }
}
