//! The surfaces that a hole begins and ends in: flat, cylinder, ball, edge, bore.

use quillbore_calc::input::{Exit, Surface};

use super::angle::{degrees, tilt};
use super::exact::Ratio;
use super::measure::{Measure, bare_unit, measure, to_length};
use super::misread::{Misread, What};
use super::scan::Scan;
use crate::typed::entry::Unit;
use crate::typed::field::AngleBasis;

/// The angle of the metal at an edge that doesn't say its own [deg].
const SQUARE_DEG: f64 = 90.0;

/// Reads a surface: `flat`, `cylinder R20`, `round d40 offset 5`, `ball R10`, `edge`, `edge 120 offset 0.3`,
/// `bore d12`, `crossing hole d3 offset 1`.
pub fn surface(text: &str, unit: Unit) -> Result<Surface, Misread> {
    let mut scan = Scan::new(text)?;
    let surface = shape(&mut scan, text, unit)?;
    if scan.at_end() {
        Ok(surface)
    } else {
        Err(left_over(&mut scan))
    }
}

/// Reads the surface that a hole ends in, with the angle at which it does: `flat`, `30`, `flat 30 from
/// surface`, `bore d12 offset 2 at 30`; `basis` holds where the angle doesn't say what it is measured from.
pub fn exit(text: &str, unit: Unit, basis: AngleBasis) -> Result<Exit, Misread> {
    let what = Misread::Not {
        what: What::Exit,
        found: text.trim().to_owned(),
    };
    let mut scan = Scan::new(text)?;
    let at = |text: &str| tilt(text, basis).map(|angle| Some(angle.from_normal.deg()));
    let mark = scan.mark();
    if is_angle(&mut scan) {
        // A fraction is a size that somebody forgot to name, and no angle.
        return if text.contains('/') {
            Err(what)
        } else {
            Ok(Exit {
                surface: Surface::Flat,
                tilt_deg: at(text)?,
            })
        };
    }
    scan.back_to(mark);
    // Of a size alone nobody knows whether the hole leaves a bar or comes into a bore; an at sign stands for
    // an offset to some, for an angle to others.
    let is_named = SHAPES.iter().any(|words| scan.eat_word(words));
    scan.back_to(mark);
    if !is_named || text.contains('@') {
        return Err(what);
    }
    let surface = shape(&mut scan, text, unit)?;
    let comma = scan.eat(',');
    let says_at = scan.eat_word(&["at", "angle", "under"]);
    let tilt_deg = if scan.at_end() {
        if comma || says_at {
            return Err(what);
        }
        // Through the middle of an edge, where nobody says how the axis leans to it.
        match surface {
            Surface::Edge { included_deg, .. } => Some(bisecting_deg(included_deg)),
            _ => None,
        }
    } else {
        at(&scan.rest())?
    };
    Ok(Exit { surface, tilt_deg })
}

/// How an axis leans that bisects an edge, from the normal of either of its planes [deg].
#[must_use]
pub fn bisecting_deg(included_deg: f64) -> f64 {
    (180.0 - included_deg) / 2.0
}

/// Whether a text begins with an angle alone.
fn is_angle(scan: &mut Scan) -> bool {
    scan.eat_word(&["normal", "square", "perpendicular", "straight"])
        || matches!(degrees(scan), Ok(Some(_)))
}

/// The words that name a surface.
const FLAT: &[&str] = &["flat", "plane", "plain", "face", "f"];
const EDGE: &[&str] = &["edge", "corner"];
const BORE: &[&str] = &["bore", "id", "inside"];
const CROSSING: &[&str] = &["crossing", "cross"];
const BALL: &[&str] = &["ball", "sphere", "spherical"];
const CYLINDER: &[&str] = &["cylinder", "cyl", "cylindrical", "round", "od", "outside"];
const SHAPES: &[&[&str]] = &[FLAT, EDGE, BORE, CROSSING, BALL, CYLINDER];

fn shape(scan: &mut Scan, text: &str, unit: Unit) -> Result<Surface, Misread> {
    if scan.eat_word(FLAT) {
        return Ok(Surface::Flat);
    }
    if scan.eat_word(EDGE) {
        return edge(scan, unit);
    }
    let bore = scan.eat_word(BORE) || is_crossing(scan);
    let ball = !bore && scan.eat_word(BALL);
    if !bore && !ball {
        scan.eat_word(CYLINDER);
    }
    let what = What::Surface;
    // Of a bore the bare number is its diameter.
    let mut halved = bore;
    if scan.eat_word(&["r", "rad", "radius"]) {
        halved = false;
    } else if scan.eat('\u{d8}') || scan.eat_word(&["d", "dia", "diam", "diameter"]) {
        halved = true;
    } else if !bore {
        return Err(Misread::Not {
            what,
            found: text.trim().to_owned(),
        });
    }
    scan.eat('=');
    let Some(size) = measure(scan)? else {
        return Err(Misread::Not {
            what,
            found: scan.rest(),
        });
    };
    let offset = offset(scan)?;
    let [size_mm, offset_mm] = lengths(Some(&size), offset.as_ref(), unit)?;
    if size_mm <= 0.0 {
        return Err(Misread::Zero { what });
    }
    let radius_mm = if halved { size_mm / 2.0 } else { size_mm };
    Ok(if bore {
        Surface::Bore {
            radius_mm,
            offset_mm,
        }
    } else if ball {
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

/// `crossing hole`, `cross bore`.
fn is_crossing(scan: &mut Scan) -> bool {
    let crossing = scan.eat_word(CROSSING);
    if crossing {
        scan.eat_word(&["hole", "bore", "drilling"]);
    }
    crossing
}

/// Reads what follows an edge: the angle of its metal, and how far from it the axis enters.
fn edge(scan: &mut Scan, unit: Unit) -> Result<Surface, Misread> {
    let included_deg = match degrees(scan)? {
        None => SQUARE_DEG,
        Some(included)
            if included.at_least(Ratio::whole(20)) && !included.at_least(Ratio::whole(180)) =>
        {
            included.to_f64()
        }
        Some(_) => return Err(Misread::EdgeRange),
    };
    let offset = offset(scan)?;
    let [_, offset_mm] = lengths(None, offset.as_ref(), unit)?;
    Ok(Surface::Edge {
        included_deg,
        offset_mm,
    })
}

/// Both lengths, 0 for one that isn't there [mm]. A unit holds for what follows it, never for what stood before:
/// of `d12 offset 1/16"` the first is in the job's own.
fn lengths(
    size: Option<&Measure>,
    offset: Option<&Measure>,
    unit: Unit,
) -> Result<[f64; 2], Misread> {
    let what = What::Surface;
    let with_unit = size.filter(|size| size.unit().is_some());
    let mm = |measure: Option<&Measure>, before: Option<&Measure>| match measure {
        Some(measure) => {
            let said: Vec<&Measure> = match measure.unit() {
                Some(_) => vec![measure],
                None => before.into_iter().chain([measure]).collect(),
            };
            let bare = bare_unit(&said, unit)?;
            Ok(to_length(measure.mm(bare, what)?, what)?.mm())
        }
        None => Ok(0.0),
    };
    Ok([mm(size, None)?, mm(offset, with_unit)?])
}

/// Reads how far the hole's axis passes the surface's own; the side doesn't matter.
fn offset(scan: &mut Scan) -> Result<Option<Measure>, Misread> {
    let mark = scan.mark();
    scan.eat(',');
    if !scan.eat_word(&["offset", "off", "e"]) && !scan.eat('@') {
        scan.back_to(mark);
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
