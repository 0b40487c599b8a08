//! Text into the figures that an estimator puts in place of computed ones.

use rust_decimal::prelude::ToPrimitive;

use crate::typed::entry::{Entry, Unit};
use crate::typed::overrule::FigureKey;
use crate::typed::read_cell::entry;
use crate::typed::read_quantity as read;
use crate::typed::read_quantity::misread::Misread;

/// Reads a text as a figure, in the figure's own unit.
#[must_use]
pub fn read_overrule(figure: &FigureKey, text: &str, unit: Unit) -> Entry<f64> {
    entry(text, unit, |text| value(figure, text, unit))
}

fn value(figure: &FigureKey, text: &str, unit: Unit) -> Result<f64, Misread> {
    Ok(match figure {
        FigureKey::Gap(_) => read::length(text, unit)?.mm(),
        FigureKey::Feed(_) => read::feed_mm_min(text, unit)?,
        FigureKey::HoleMinutes(_) => read::minutes(text)?,
        FigureKey::Wear(_) => read::length_or_zero(text, unit)?.mm(),
        FigureKey::Electrodes(_) => f64::from(read::whole(text, 1)?),
        FigureKey::MachineHours | FigureKey::LaborHours => read::hours(text)?,
        FigureKey::NotYetKnown => read::share(text)?,
        FigureKey::UnitPrice(_) => {
            read::money(text)?
                .to_f64()
                .ok_or_else(|| Misread::TooManyDigits {
                    number: text.trim().to_owned(),
                })?
        }
    })
}
