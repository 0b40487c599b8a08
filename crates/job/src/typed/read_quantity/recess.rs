//! The pocket or bore that a hole begins in.

use quillbore_calc::input::Recess;

use super::measure::{Measure, bare_unit, measure, to_length};
use super::misread::{Misread, What};
use super::scan::Scan;
use crate::typed::entry::Unit;

/// Reads how wide and how deep a recess is: `d12 x 8`, `12 wide 8 deep`, `8 deep d12`.
pub fn recess(text: &str, unit: Unit) -> Result<Recess, Misread> {
    let what = What::Recess;
    let mut scan = Scan::new(text)?;
    let not = || Misread::Not {
        what,
        found: text.trim().to_owned(),
    };
    let first = part(&mut scan)?.ok_or_else(not)?;
    let _ = scan.eat(',') || scan.eat('*') || scan.eat('\u{d7}') || scan.eat_word(&["x", "by"]);
    let second = part(&mut scan)?.ok_or_else(not)?;
    if !scan.at_end() {
        return Err(Misread::LeftOver {
            what,
            rest: scan.rest(),
        });
    }
    // Where nobody says which is which, the width comes first.
    let (width, depth) = match (first.1, second.1) {
        (Some(Says::Depth), Some(Says::Depth)) | (Some(Says::Width), Some(Says::Width)) => {
            return Err(not());
        }
        (Some(Says::Depth), _) | (_, Some(Says::Width)) => (second.0, first.0),
        _ => (first.0, second.0),
    };
    // In `12 x 8 mm` the unit is that of both; where each says what it is, of its own number alone.
    let named = first.1.is_some() && second.1.is_some();
    let mm = |measure: &Measure| {
        let both = [&width, &depth];
        let own = [measure];
        let bare = bare_unit(if named { &own } else { &both }, unit)?;
        let mm = to_length(measure.mm(bare, what)?, what)?.mm();
        if mm > 0.0 {
            Ok(mm)
        } else {
            Err(Misread::Zero { what })
        }
    };
    Ok(Recess {
        width_mm: mm(&width)?,
        depth_mm: mm(&depth)?,
    })
}

/// What a measure says that it is.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Says {
    Width,
    Depth,
}

fn part(scan: &mut Scan) -> Result<Option<(Measure, Option<Says>)>, Misread> {
    let round = scan.eat('\u{d8}') || scan.eat_word(&["d", "dia", "diam", "diameter"]);
    let deep = !round && scan.eat('\u{21a7}');
    let Some(measure) = measure(scan)? else {
        return Ok(None);
    };
    let says = if round || scan.eat_word(&["wide", "across"]) {
        Some(Says::Width)
    } else if deep || scan.eat_word(&["deep", "down"]) {
        Some(Says::Depth)
    } else {
        None
    };
    Ok(Some((measure, says)))
}
