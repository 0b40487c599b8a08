//! What is left of a broken tool in its hole, and what of it is burnt out.

use quillbore_calc::input::RowInput;
use quillbore_calc::job_figures::HoleFigures;

use super::hatch::hatch;
use crate::page::{Ink, Page, Path, Step, Stroke};

/// A broken tool in a section.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stub {
    /// Share of the hole's depth that lies above it.
    pub above: f64,
    /// Width of what is burnt out, relative to the tool; 0 where nothing burns it.
    pub burnt: f64,
}

impl Stub {
    /// What is left of a row's tool.
    pub(super) fn of(figures: &HoleFigures, input: &RowInput) -> Option<Self> {
        let tool = input.broken.as_deref()?;
        let (above_mm, left_mm) = (tool.below_face_mm, figures.depth_mm?);
        let plan = figures.burnt.as_deref().and_then(|burnt| burnt.tool);
        let burnt_mm = plan.and_then(|plan| plan.hole_mm).unwrap_or_default();
        Some(Self {
            above: above_mm / (above_mm + left_mm),
            burnt: (burnt_mm / tool.nominal_mm).min(1.0),
        })
    }

    /// Draws it between two points of the hole's axis, in a hole so wide to either side.
    pub(super) fn draw(&self, page: &mut Page, [top, bottom]: [(f64, f64); 2], half: f64) {
        let around = |half: f64| {
            [
                (top.0 - half, top.1),
                (top.0 + half, top.1),
                (bottom.0 + half, bottom.1),
                (bottom.0 - half, bottom.1),
            ]
        };
        let tool = around(half);
        hatch(page, &tool, 1.7, false, Stroke::HAIR);
        page.line(tool[0], tool[1], Stroke::OUTLINE);
        if self.burnt <= 0.0 {
            return;
        }
        let burnt = around(half * self.burnt);
        let mut steps: Vec<Step> = burnt.iter().map(|at| Step::Line(at.0, at.1)).collect();
        steps[0] = Step::Move(burnt[0].0, burnt[0].1);
        steps.push(Step::Close);
        page.path(Path {
            steps,
            fill: Some(Ink::Paper),
            ..Path::default()
        });
        let stroke = Stroke::new(0.6, Ink::Accent);
        page.line(burnt[0], burnt[3], stroke);
        page.line(burnt[1], burnt[2], stroke);
        page.line(burnt[3], burnt[2], stroke);
    }
}
