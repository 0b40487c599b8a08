//! The unit of a number that stands bare beside deviations with a unit: `0.80 0/+20 µm`.

use super::deviations::Deviations;
use super::exact::Ratio;
use super::measure::{Bare, LengthUnit, Measure};
use super::misread::{Misread, What};
use crate::typed::entry::Unit;

/// The units of bare numbers, before a tolerance and in it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Units {
    pub(super) nominal: Bare,
    pub(super) deviations: Bare,
}

/// The units that a value and its deviations are meant in: deviations share theirs, and a value that has
/// one gives it to bare deviations.
pub(super) fn units(
    first: &Measure,
    deviations: &Deviations,
    context: Unit,
    what: What,
) -> Result<Units, Misread> {
    let measures = deviations.measures();
    let mut named = measures.iter().filter_map(|measure| measure.unit());
    let of_deviations = named.next();
    let differ = named.any(|other| Some(other) != of_deviations);
    let is_bare = first.unit().is_none() && !first.is_drill();
    // A unit at the end is that of both deviations, one before the last is not.
    let is_open = measures
        .last()
        .is_some_and(|last| last.unit().is_none() && !last.is_zero());
    let of_others = first
        .unit()
        .is_some_and(|own| of_deviations.is_some_and(|unit| unit != own));
    if (differ && is_bare) || (is_open && of_others) {
        return Err(Misread::MixedUnits);
    }
    if let (Some(own), None) = (first.unit(), of_deviations) {
        no_parts_of_small(own, &measures)?;
    }
    let nominal = match (first.unit(), of_deviations) {
        (None, Some(unit)) if is_bare => Some(beside(first, unit, context, what)?),
        (own, _) => own,
    };
    let bare = |unit: Option<LengthUnit>| Bare {
        unit: unit.unwrap_or_else(|| context.into()),
        said: unit.is_some(),
    };
    Ok(Units {
        nominal: bare(nominal),
        deviations: bare(of_deviations.or(nominal)),
    })
}

/// `800 µm ±0.02`: nobody gives a tolerance in parts of a micrometer.
fn no_parts_of_small(own: LengthUnit, deviations: &[&Measure]) -> Result<(), Misread> {
    let (large, least) = match own {
        LengthUnit::Micron => (LengthUnit::Millimeter, Ratio::new(1, 2)),
        LengthUnit::Thou => (LengthUnit::Inch, Ratio::new(1, 20)),
        _ => return Ok(()),
    };
    let mut filled = deviations.iter().filter(|measure| !measure.is_zero());
    let small = |measure: &&&Measure| match measure {
        Measure::Number { value, .. } => least.is_some_and(|least| !value.at_least(least)),
        Measure::Drill { .. } => false,
    };
    match filled.clone().next() {
        Some(first) if filled.all(|measure| small(&measure)) => Err(Misread::TwoReadings {
            text: first.typed().to_owned(),
            one: format!("{} {}", first.typed(), large.sign()),
            other: format!("{} {}", first.typed(), own.sign()),
        }),
        _ => Ok(()),
    }
}

/// Between which numbers of a unit a value is likely.
#[derive(Clone, Copy)]
struct Likely {
    least: Ratio,
    most: Ratio,
}

impl Likely {
    /// Sizes of drilled holes, and depths.
    const fn of(unit: LengthUnit, what: What) -> Self {
        let is_depth = matches!(what, What::Depth);
        let (least, most) = match (unit, is_depth) {
            (LengthUnit::Micron, false) => (Ratio::whole(40), Ratio::whole(60_000)),
            (LengthUnit::Micron, true) => (Ratio::whole(100), Ratio::whole(2_000_000)),
            (LengthUnit::Thou, false) => (Ratio::whole(2), Ratio::whole(2_500)),
            (LengthUnit::Thou, true) => (Ratio::whole(10), Ratio::whole(60_000)),
            (LengthUnit::Inch, false) => (Ratio::ZERO, Ratio::whole(2)),
            (LengthUnit::Inch, true) => (Ratio::ZERO, Ratio::whole(60)),
            (_, false) => (Ratio::ZERO, Ratio::whole(60)),
            (_, true) => (Ratio::ZERO, Ratio::whole(1_500)),
        };
        Self { least, most }
    }

    fn has(self, value: Ratio) -> bool {
        value.at_least(self.least) && self.most.at_least(value)
    }
}

/// The unit of a bare number before deviations in another.
///
/// Micrometers and thousandths are units of tolerances: the number before them is in the context's,
/// unless it is far too large for that. Where both are likely nothing tells.
fn beside(
    first: &Measure,
    deviations: LengthUnit,
    context: Unit,
    what: What,
) -> Result<LengthUnit, Misread> {
    let Measure::Number { value, typed, .. } = first else {
        return Ok(deviations);
    };
    let of_context = LengthUnit::from(context);
    let refused = |one: LengthUnit, other: LengthUnit| {
        Err(Misread::TwoReadings {
            text: typed.clone(),
            one: format!("{typed} {}", one.sign()),
            other: format!("{typed} {}", other.sign()),
        })
    };
    match deviations {
        LengthUnit::Thou if context == Unit::Mm => {
            // Nobody writes a tolerance in thousandths of an inch beside millimeters.
            match value.at_least(Ratio::whole(10)) {
                true => Ok(deviations),
                false => refused(LengthUnit::Millimeter, LengthUnit::Inch),
            }
        }
        LengthUnit::Micron | LengthUnit::Thou => {
            let is = |unit| Likely::of(unit, what).has(*value);
            match (is(of_context), is(deviations)) {
                (true, false) => Ok(of_context),
                (false, true) => Ok(deviations),
                (true, true) | (false, false) => refused(of_context, deviations),
            }
        }
        // A size of inches that is no small hole, in a table of millimeters, and one of millimeters that
        // is none in a table of inches.
        LengthUnit::Inch if of_context != deviations && what == What::Size => {
            match value
                .add(*value)
                .is_some_and(|twice| twice.at_least(Ratio::whole(1)))
            {
                true => refused(of_context, deviations),
                false => Ok(deviations),
            }
        }
        LengthUnit::Millimeter if of_context != deviations && what == What::Size => {
            let least = value.mul(Ratio::whole(25));
            match least.is_some_and(|least| least.at_least(Ratio::whole(1))) {
                true => Ok(deviations),
                false => refused(of_context, deviations),
            }
        }
        LengthUnit::Millimeter | LengthUnit::Centimeter | LengthUnit::Inch | LengthUnit::Foot => {
            Ok(deviations)
        }
    }
}
