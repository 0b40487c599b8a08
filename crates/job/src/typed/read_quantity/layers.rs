//! Layers of a part along a hole: `1.2 Nickel alloy 718 + 3`.

use super::measure::{bare_unit, measure, to_length};
use super::misread::{Misread, What};
use super::scan::Scan;
use crate::typed::entry::Unit;
use crate::typed::quantity::LayerText;

/// Most layers in one row.
const MOST_LAYERS: usize = 20;

/// Longest text of layers, in characters: names are longer than quantities.
const LONGEST: usize = 1_000;

/// Reads layers from the entry on: a thickness, and a material where it isn't the job's own.
pub fn layers(text: &str, unit: Unit) -> Result<Vec<LayerText>, Misread> {
    if text.chars().count() > LONGEST {
        return Err(Misread::TooLong { most: LONGEST });
    }
    let parts: Vec<&str> = text.split([';', '+', '\n']).collect();
    if parts.len() > MOST_LAYERS {
        return Err(Misread::TooMany { most: MOST_LAYERS });
    }
    parts.into_iter().map(|part| layer(part, unit)).collect()
}

fn layer(part: &str, unit: Unit) -> Result<LayerText, Misread> {
    let what = What::Layers;
    let mut scan = Scan::new(part)?;
    let thickness = measure(&mut scan)?.ok_or_else(|| Misread::LayerWithoutThickness {
        layer: part.trim().to_owned(),
    })?;
    scan.eat_word(&["of"]);
    let material = scan.rest();
    let mm = thickness.mm(bare_unit(&[&thickness], unit)?, what)?;
    if mm.is_zero() {
        return Err(Misread::Zero { what });
    }
    Ok(LayerText {
        material: (!material.is_empty()).then_some(material),
        thickness: to_length(mm, what)?,
    })
}
