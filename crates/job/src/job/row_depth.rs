//! How deep the holes of a row are: as typed, or by what they go through.

use quillbore_calc::Limits;
use quillbore_calc::input::{HoleEnd, Layer};

use crate::job::Job;
use crate::typed::field::Field;
use crate::typed::row::Row;

/// The depth of a row's holes on their axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RowDepth {
    /// What is aimed at [mm]; `None` where nothing says it.
    pub mm: Option<f64>,
    /// Lower and upper limit [mm], where they were typed.
    pub limits_mm: Option<Limits>,
    /// What it comes from.
    pub from: DepthFrom,
}

/// What a row's depth comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DepthFrom {
    /// It was typed, or typed so that it can't be read.
    Typed,
    /// The sum of the layers.
    Layers,
    /// The wall's thickness along the hole's axis.
    Wall,
    /// What usually is left of a broken tool.
    BrokenTool,
    /// Nothing says it.
    Nothing,
}

/// The depth of a row: as typed, else the sum of its layers, else the wall along the hole's axis.
///
/// A hole that is to be blind doesn't go through the wall, whatever else is typed.
#[must_use]
pub fn row_depth(job: &Job, row: &Row, tilt_deg: f64, layers: &[Layer]) -> RowDepth {
    let typed = row.depth.value();
    if let Some(aim) = typed.and_then(|depth| depth.aim) {
        let limits = typed.and_then(|depth| depth.limits);
        return RowDepth {
            mm: Some(aim.mm()),
            limits_mm: limits.map(|limits| limits.map(quillbore_calc::Length::mm)),
            from: DepthFrom::Typed,
        };
    }
    let of = |mm, from| RowDepth {
        mm,
        limits_mm: None,
        from,
    };
    if row.depth.why().is_some() {
        return of(None, DepthFrom::Typed);
    }
    if let Some(tool) = row.broken.value() {
        return of(Some(tool.left_or_usual_mm()), DepthFrom::BrokenTool);
    }
    if !layers.is_empty() {
        let sum = layers.iter().map(|layer| layer.thickness_mm).sum();
        return of(Some(sum), DepthFrom::Layers);
    }
    let open = row.end.value().is_none_or(|end| *end != HoleEnd::Blind);
    let cos = libm::cos(tilt_deg.to_radians());
    match job.length(Field::Thickness) {
        Some(wall) if open && cos > 1e-6 => of(Some(wall.mm() / cos), DepthFrom::Wall),
        _ => of(None, DepthFrom::Nothing),
    }
}
