//! What a row with a broken tool asks: the tool, what it is made of, how near the guide comes.

use quillbore_calc::broken::Broken;
use quillbore_calc::input::{HoleEnd, Layer, Recess};
use quillbore_calc::{Idx, Length, Limits};

use crate::job::row_depth::{DepthFrom, RowDepth};
use crate::shop::rows::Shop;
use crate::shop::unknown::UnknownName;
use crate::typed::row::Row;
use crate::words::english;

/// The tool as it sits in the part.
pub(super) fn tool(row: &Row, depth: &RowDepth, end: HoleEnd) -> Option<Box<Broken>> {
    let tool = row.broken.value()?;
    Some(Box::new(Broken {
        below_face_mm: below_mm(row),
        left_mm: depth.mm.filter(|_| depth.from == DepthFrom::Typed),
        through: end != HoleEnd::Blind,
        ..*tool
    }))
}

/// What a broken tool is made of, over the length that is left of it.
pub(super) fn layers(
    row: &Row,
    tool: &Broken,
    shop: &Shop,
    unknown: &mut Vec<UnknownName>,
) -> Vec<Layer> {
    let materials = &shop.tables.materials;
    let family = tool.stuff.family();
    let of_family = Idx::find(materials, |of| of.family == family && of.from_family)
        .or_else(|| Idx::find(materials, |of| of.family == family));
    let Some(material) = of_family else {
        let name = english::stuff(tool.stuff).to_owned();
        unknown.push(UnknownName::LayerMaterial(row.id, name));
        return Vec::new();
    };
    let typed = row.depth.value().and_then(|depth| depth.aim);
    vec![Layer {
        material,
        thickness_mm: typed.map_or_else(|| tool.left_or_usual_mm(), Length::mm),
    }]
}

/// How far the burn may stop short of the end of what is left of a tool in a blind hole, or go beyond: its
/// last half millimeter holds nothing, and as much of the bottom hardly ever matters (our choice).
pub(super) fn limits(left_mm: Option<f64>) -> Option<Limits> {
    const OFF_MM: f64 = 0.5;
    let left_mm = left_mm?;
    Some(Limits::new(
        (left_mm - OFF_MM).max(left_mm / 2.0),
        left_mm + OFF_MM,
    ))
}

/// The bore above a tool that broke below the part's face: the guide stays outside of it.
pub(super) fn above(row: &Row) -> Option<Recess> {
    let tool = row.broken.value()?;
    let depth_mm = below_mm(row);
    (depth_mm > 0.0).then_some(Recess {
        depth_mm,
        width_mm: tool.nominal_mm,
    })
}

fn below_mm(row: &Row) -> f64 {
    row.below.value().map_or(0.0, |below| below.mm())
}
