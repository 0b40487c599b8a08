//! Angles: at an entry with what they are measured from, and plain ones.

use quillbore_calc::Angle;

use super::exact::Ratio;
use super::misread::{Misread, What};
use super::number::{Number, number};
use super::scan::Scan;
use crate::typed::field::{AngleBasis, TiltAngle};

/// Reads an angle at an entry; `basis` holds where the text doesn't say what it is measured from.
pub fn tilt(text: &str, basis: AngleBasis) -> Result<TiltAngle, Misread> {
    let what = What::Angle;
    let mut scan = Scan::new(text)?;
    if let Some(basis) = square_on(&mut scan) {
        return from_normal(Ratio::ZERO, basis);
    }
    let negative = scan.eat('-');
    let Some(degrees) = degrees(&mut scan)? else {
        return Err(Misread::Not {
            what,
            found: scan.rest(),
        });
    };
    let basis = said_basis(&mut scan).unwrap_or(basis);
    if !scan.at_end() {
        return Err(Misread::LeftOver {
            what,
            rest: scan.rest(),
        });
    }
    let from_surface = basis == AngleBasis::FromSurface;
    let tilt = if from_surface {
        Ratio::whole(90).sub(degrees)
    } else {
        Some(degrees)
    };
    match tilt {
        Some(tilt)
            if (!negative || degrees.is_zero())
                && !tilt.is_negative()
                // As a float: what rounds to a right angle is one.
                && tilt.to_f64() < 90.0 =>
        {
            from_normal(tilt, basis)
        }
        _ => Err(Misread::AngleRange { from_surface }),
    }
}

/// Reads a plain angle of any sign and size up to a few turns.
pub fn turn(text: &str) -> Result<Angle, Misread> {
    let what = What::Turn;
    let mut scan = Scan::new(text)?;
    let negative = scan.eat('-');
    if !negative {
        scan.eat('+');
    }
    let Some(degrees) = degrees(&mut scan)? else {
        return Err(Misread::Not {
            what,
            found: scan.rest(),
        });
    };
    if !scan.at_end() {
        return Err(Misread::LeftOver {
            what,
            rest: scan.rest(),
        });
    }
    let too_large = Misread::TooLarge {
        what,
        most: "3600\u{b0}",
    };
    if degrees.at_least(Ratio::whole(3600)) {
        return Err(too_large);
    }
    let degrees = if negative && !degrees.is_zero() {
        -degrees.to_f64()
    } else {
        degrees.to_f64()
    };
    Angle::from_deg(degrees).ok_or(too_large)
}

/// Reads what angles are measured from: `from normal`, `surface`.
pub fn angle_basis(text: &str) -> Result<AngleBasis, Misread> {
    let mut scan = Scan::new(text)?;
    match said_basis(&mut scan) {
        Some(basis) if scan.at_end() => Ok(basis),
        _ => Err(Misread::Not {
            what: What::AngleBasis,
            found: text.trim().to_owned(),
        }),
    }
}

fn from_normal(degrees: Ratio, basis: AngleBasis) -> Result<TiltAngle, Misread> {
    let from_normal = Angle::from_deg(degrees.to_f64()).ok_or(Misread::AngleRange {
        from_surface: basis == AngleBasis::FromSurface,
    })?;
    Ok(TiltAngle { from_normal, basis })
}

/// `normal`, `square`: along the normal, without a number.
fn square_on(scan: &mut Scan) -> Option<AngleBasis> {
    let words = ["normal", "square", "perpendicular", "straight"];
    let mark = scan.mark();
    if scan.eat_word(&words) {
        let _ = scan.eat_word(&["to"]) && (scan.eat_word(&["the"]), scan.eat_word(&["surface"])).1;
        if scan.at_end() {
            return Some(AngleBasis::FromNormal);
        }
    }
    scan.back_to(mark);
    None
}

fn said_basis(scan: &mut Scan) -> Option<AngleBasis> {
    scan.eat_word(&["from", "to", "off", "with", "against"]);
    scan.eat_word(&["the"]);
    if scan.eat_word(&["normal", "perpendicular"]) {
        Some(AngleBasis::FromNormal)
    } else if scan.eat_word(&["surface", "face", "wall"]) {
        Some(AngleBasis::FromSurface)
    } else {
        None
    }
}

/// Reads `30`, `30.5 deg`, `30\u{b0}15'`, `30\u{b0}15'30"`.
pub(super) fn degrees(scan: &mut Scan) -> Result<Option<Ratio>, Misread> {
    let Some(whole) = number(scan)? else {
        return Ok(None);
    };
    let marked = scan.eat('\u{b0}') || scan.eat_word(&["deg", "degs", "degree", "degrees"]);
    let mut degrees = whole.value;
    if marked {
        let minutes = arc_part(scan, '\'', &["min", "minutes"], 60)?;
        let seconds = arc_part(scan, '"', &["sec", "seconds"], 3600)?;
        for part in [minutes, seconds].into_iter().flatten() {
            degrees = degrees.add(part).ok_or_else(|| too_many(&whole))?;
        }
    }
    Ok(Some(degrees))
}

/// Reads minutes or seconds of arc as a part of a degree, where they stand here.
fn arc_part(
    scan: &mut Scan,
    sign: char,
    words: &[&str],
    in_a_degree: i128,
) -> Result<Option<Ratio>, Misread> {
    let mark = scan.mark();
    if let Some(part) = number(scan)? {
        if scan.eat(sign) || scan.eat_word(words) {
            if part.value.at_least(Ratio::whole(60)) {
                return Err(Misread::ArcPart);
            }
            let degree = Ratio::new(1, in_a_degree).and_then(|one| part.value.mul(one));
            return degree.map(Some).ok_or_else(|| too_many(&part));
        }
        scan.back_to(mark);
    }
    Ok(None)
}

fn too_many(number: &Number) -> Misread {
    Misread::TooManyDigits {
        number: number.typed.clone(),
    }
}
