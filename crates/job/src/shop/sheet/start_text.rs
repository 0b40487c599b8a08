//! Start values as they are typed: a number, a band, or a curve over the diameter.

use std::fmt::Write as _;

use crate::typed::read_quantity as read;
use crate::typed::read_quantity::misread::{Misread, What};

/// A start value as it was typed.
#[derive(Clone, Debug, PartialEq)]
pub enum StartTyped {
    /// A number.
    Number(f64),
    /// A band from P10 to P90.
    Band(f64, f64),
    /// Numbers by diameter [mm].
    Curve(Vec<(f64, f64)>),
    /// Bands by diameter [mm].
    Bands(Vec<(f64, (f64, f64))>),
}

/// Reads a start value: `1.5`, `60 to 100`, `0.1: 0.23; 0.15: 0.32`, `0.1: 0.01 to 0.03; 0.3: ...`.
pub(super) fn start_value(text: &str) -> Result<StartTyped, Misread> {
    let not = || Misread::Not {
        what: What::StartValue,
        found: text.trim().to_owned(),
    };
    if !text.contains(':') {
        return Ok(match one_or_band(text)? {
            (one, None) => StartTyped::Number(one),
            (low, Some(high)) => StartTyped::Band(low, high),
        });
    }
    let parts = text
        .split([';', '\n'])
        .filter(|part| !part.trim().is_empty());
    let mut points = Vec::new();
    for part in parts {
        let (at, value) = part.split_once(':').ok_or_else(not)?;
        points.push((read::plain_number(at)?, one_or_band(value)?));
    }
    let mut curve = Vec::new();
    let mut bands = Vec::new();
    for (at, value) in points {
        match value {
            (one, None) => curve.push((at, one)),
            (low, Some(high)) => bands.push((at, (low, high))),
        }
    }
    match (curve.is_empty(), bands.is_empty()) {
        (false, true) => Ok(StartTyped::Curve(curve)),
        (true, false) => Ok(StartTyped::Bands(bands)),
        _ => Err(not()),
    }
}

fn one_or_band(text: &str) -> Result<(f64, Option<f64>), Misread> {
    match text.split_once("to") {
        Some((low, high)) => {
            let (low, high) = (read::number_or_none(low)?, read::plain_number(high)?);
            Ok((low, Some(high)))
        }
        None => Ok((read::number_or_none(text)?, None)),
    }
}

impl StartTyped {
    /// The text that it is read from.
    #[must_use]
    pub(crate) fn text(&self) -> String {
        let mut text = String::new();
        // Writing to a String can't fail.
        match self {
            Self::Number(number) => {
                let _ = write!(text, "{number}");
            }
            Self::Band(low, high) => {
                let _ = write!(text, "{low} to {high}");
            }
            Self::Curve(points) => {
                for (at, value) in points {
                    let gap = if text.is_empty() { "" } else { "; " };
                    let _ = write!(text, "{gap}{at}: {value}");
                }
            }
            Self::Bands(points) => {
                for (at, (low, high)) in points {
                    let gap = if text.is_empty() { "" } else { "; " };
                    let _ = write!(text, "{gap}{at}: {low} to {high}");
                }
            }
        }
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_start_value_comes_back_from_its_text() {
        for value in [
            StartTyped::Number(0.5),
            StartTyped::Number(0.0),
            StartTyped::Band(60.0, 100.0),
            StartTyped::Curve(vec![(0.1, 0.23), (0.15, 0.32)]),
            StartTyped::Bands(vec![(0.1, (0.01, 0.03)), (0.3, (0.02, 0.05))]),
        ] {
            assert_eq!(start_value(&value.text()).as_ref(), Ok(&value));
        }
        for text in [
            "",
            "a",
            "1 to",
            "0.1: 2; 0.2: 3 to 4",
            "0.1 2: 3",
            "1: 2; 3",
        ] {
            assert!(start_value(text).is_err(), "{text:?}");
        }
    }
}
