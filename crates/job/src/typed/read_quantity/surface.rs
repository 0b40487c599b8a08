//! The surface at an entry: flat, cylinder, ball.

use quillbore_calc::input::Surface;

use super::measure::{Measure, bare_unit, measure, to_length};
use super::misread::{Misread, What};
use super::scan::Scan;
use crate::typed::entry::Unit;

/// Reads a surface: `flat`, `cylinder R20`, `round d40 offset 5`, `ball R10`.
pub fn surface(text: &str, unit: Unit) -> Result<Surface, Misread> {
    let what = What::Surface;
    let mut scan = Scan::new(text)?;
    if scan.eat_word(&["flat", "plane", "plain", "face", "f"]) {
        return if scan.at_end() {
            Ok(Surface::Flat)
        } else {
            Err(left_over(&mut scan))
        };
    }
    let ball = scan.eat_word(&["ball", "sphere", "spherical"]);
    if !ball {
        scan.eat_word(&["cylinder", "cyl", "cylindrical", "round", "od", "outside"]);
    }
    let halved = if scan.eat_word(&["r", "rad", "radius"]) {
        false
    } else if scan.eat('\u{d8}') || scan.eat_word(&["d", "dia", "diam", "diameter"]) {
        true
    } else {
        return Err(Misread::Not {
            what,
            found: text.trim().to_owned(),
        });
    };
    scan.eat('=');
    let Some(size) = measure(&mut scan)? else {
        return Err(Misread::Not {
            what,
            found: scan.rest(),
        });
    };
    let offset = offset(&mut scan)?;
    if !scan.at_end() {
        return Err(left_over(&mut scan));
    }
    let mut measures = vec![&size];
    measures.extend(&offset);
    let bare = bare_unit(&measures, unit)?;
    let size_mm = to_length(size.mm(bare, what)?, what)?.mm();
    if size_mm <= 0.0 {
        return Err(Misread::Zero { what });
    }
    let radius_mm = if halved { size_mm / 2.0 } else { size_mm };
    let offset_mm = match &offset {
        Some(offset) => to_length(offset.mm(bare, what)?, what)?.mm(),
        None => 0.0,
    };
    Ok(if ball {
        Surface::Ball {
            radius_mm,
            offset_mm,
        }
    } else {
        Surface::Cylinder {
            radius_mm,
            offset_mm,
        }
    })
}

/// Reads how far the hole's axis passes the surface's own; the side doesn't matter.
fn offset(scan: &mut Scan) -> Result<Option<Measure>, Misread> {
    scan.eat(',');
    if !scan.eat_word(&["offset", "off", "e"]) && !scan.eat('@') {
        return Ok(None);
    }
    scan.eat('=');
    let _ = scan.eat('-') || scan.eat('+');
    measure(scan)?.map_or_else(
        || {
            Err(Misread::Not {
                what: What::Surface,
                found: scan.rest(),
            })
        },
        |offset| Ok(Some(offset)),
    )
}

fn left_over(scan: &mut Scan) -> Misread {
    Misread::LeftOver {
        what: What::Surface,
        rest: scan.rest(),
    }
}
