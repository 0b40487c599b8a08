//! What the flush pushes with, and what a part rests on.

use quillbore_calc::input::Rest;

use super::amounts::{at_end, unsigned};
use super::exact::Ratio;
use super::measure::{bare_unit, diameter, measure, to_length};
use super::misread::{Misread, What};
use super::scan::Scan;
use super::whole::grouped_or_not;
use crate::typed::entry::Unit;

/// Reads a pressure in bar; a bare number is bar in a metric job, psi in an inch one.
pub fn pressure_bar(text: &str, unit: Unit) -> Result<f64, Misread> {
    const BAR: (i128, i128) = (1, 1);
    let what = What::Pressure;
    let mut scan = Scan::new(text)?;
    if text.contains('/') {
        return Err(Misread::Not {
            what,
            found: text.trim().to_owned(),
        });
    }
    let (value, typed) = unsigned(&mut scan, what)?;
    if let Some(readings) = grouped_or_not(&typed) {
        return Err(readings);
    }
    let (above, below) = if scan.eat_word(&["bar", "bars", "barg"]) {
        BAR
    } else if scan.eat_word(&["mpa"]) {
        (10, 1)
    } else if scan.eat_word(&["kpa"]) {
        (1, 100)
    } else if scan.eat_word(&["psi", "psig"]) || unit == Unit::Inch {
        (i128::from(Unit::PSI), 10_000_000_000)
    } else {
        BAR
    };
    at_end(&mut scan, what)?;
    if value.is_zero() {
        return Err(Misread::Zero { what });
    }
    let bar = Ratio::new(above, below)
        .and_then(|factor| value.mul(factor))
        .ok_or(Misread::TooManyDigits { number: typed })?;
    if bar.at_least(Ratio::whole(1_000)) {
        return Err(Misread::TooLarge {
            what,
            most: "1000 bar",
        });
    }
    Ok(bar.to_f64())
}

/// Reads what a part rests on: `60 x 40`, `ring d80`, `whole face`.
pub fn rests_on(text: &str, unit: Unit) -> Result<Rest, Misread> {
    let what = What::RestsOn;
    let mut scan = Scan::new(text)?;
    scan.eat_word(&["whole", "all"]);
    if scan.eat_word(&["face"]) {
        return if scan.at_end() {
            Ok(Rest::Face)
        } else {
            Err(left_over(&mut scan))
        };
    }
    let ring = scan.eat_word(&["ring", "round"]);
    let round = if scan.eat_word(&["d", "dia", "diam", "diameter"]) {
        measure(&mut scan)?
    } else if ring {
        diameter(&mut scan)?
    } else {
        None
    };
    let positive = |mm: f64| {
        if mm > 0.0 {
            Ok(mm)
        } else {
            Err(Misread::Zero { what })
        }
    };
    if let Some(across) = round {
        let bare = bare_unit(&[&across], unit)?;
        let mm = to_length(across.mm(bare, what)?, what)?.mm();
        return if scan.at_end() {
            Ok(Rest::Ring(positive(mm)?))
        } else {
            Err(left_over(&mut scan))
        };
    }
    let not = |scan: &mut Scan| Misread::Not {
        what,
        found: if scan.mark() == 0 {
            text.trim().to_owned()
        } else {
            scan.rest()
        },
    };
    let one = measure(&mut scan)?.ok_or_else(|| not(&mut scan))?;
    if !(scan.eat_word(&["x", "by"]) || scan.eat('*') || scan.eat('\u{d7}')) {
        return Err(not(&mut scan));
    }
    let other = measure(&mut scan)?.ok_or_else(|| not(&mut scan))?;
    let bare = bare_unit(&[&one, &other], unit)?;
    if !scan.at_end() {
        return Err(left_over(&mut scan));
    }
    let mm = |side: &super::measure::Measure| to_length(side.mm(bare, what)?, what);
    let sides = [mm(&one)?.mm(), mm(&other)?.mm()];
    Ok(Rest::Rectangle([positive(sides[0])?, positive(sides[1])?]))
}

fn left_over(scan: &mut Scan) -> Misread {
    Misread::LeftOver {
        what: What::RestsOn,
        rest: scan.rest(),
    }
}
