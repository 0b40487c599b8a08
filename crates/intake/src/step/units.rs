//! What the numbers of a representation mean, by its context.

use super::args::Args;
use super::scan::Exchange;

/// No unit is defined by another more often than this.
const MOST_STEPS: usize = 8;

/// What the numbers of a representation mean.
#[derive(Clone, Copy, Debug)]
pub(super) struct Units {
    /// Millimeters in one of its lengths; `None` where it doesn't say.
    pub(super) length_mm: Option<f64>,
    /// Radians in one of its angles.
    pub(super) angle: f64,
}

impl Units {
    /// Those of a representation, by its context.
    pub(super) fn of(file: &Exchange<'_>, representation: u64) -> Self {
        let mut units = Self {
            length_mm: None,
            angle: 1.0,
        };
        let name = file.name(representation);
        let args = file
            .args(representation, name)
            .or_else(|| file.args(representation, "REPRESENTATION"));
        let context = args.and_then(|args| args.skip(2).reference());
        let assigned =
            context.and_then(|context| file.args(context, "GLOBAL_UNIT_ASSIGNED_CONTEXT"));
        for unit in assigned
            .map(|mut args| args.references())
            .unwrap_or_default()
        {
            if file.args(unit, "LENGTH_UNIT").is_some() {
                units.length_mm = measure(file, unit).map(|meters| meters * 1_000.0);
            } else if file.args(unit, "PLANE_ANGLE_UNIT").is_some() {
                units.angle = measure(file, unit).unwrap_or(1.0);
            }
        }
        units
    }
}

/// How many meters or radians a unit is, by the units that it is defined by; `None` where that leads
/// nowhere.
fn measure(file: &Exchange<'_>, mut unit: u64) -> Option<f64> {
    let mut factor = 1.0;
    for _ in 0..MOST_STEPS {
        if let Some(args) = file.args(unit, "SI_UNIT") {
            let whole = factor * prefix(args)?;
            // Hundredths of a degree and miles are units; what is further out is no unit of a part.
            return (whole > 1e-12 && whole < 1e12).then_some(whole);
        }
        let defined = file
            .args(unit, "CONVERSION_BASED_UNIT")?
            .skip(1)
            .reference()?;
        let kinds = [
            "LENGTH_MEASURE_WITH_UNIT",
            "PLANE_ANGLE_MEASURE_WITH_UNIT",
            "MEASURE_WITH_UNIT",
        ];
        let mut args = kinds.iter().find_map(|kind| file.args(defined, kind))?;
        factor *= args.real()?;
        unit = args.reference()?;
    }
    None
}

/// What the prefix of an SI unit multiplies by.
fn prefix(mut args: Args<'_>) -> Option<f64> {
    Some(match args.word() {
        None => 1.0,
        Some(b"EXA") => 1e18,
        Some(b"PETA") => 1e15,
        Some(b"TERA") => 1e12,
        Some(b"GIGA") => 1e9,
        Some(b"MEGA") => 1e6,
        Some(b"KILO") => 1e3,
        Some(b"HECTO") => 1e2,
        Some(b"DECA") => 1e1,
        Some(b"DECI") => 1e-1,
        Some(b"CENTI") => 1e-2,
        Some(b"MILLI") => 1e-3,
        Some(b"MICRO") => 1e-6,
        Some(b"NANO") => 1e-9,
        Some(b"PICO") => 1e-12,
        Some(_) => return None,
    })
}
