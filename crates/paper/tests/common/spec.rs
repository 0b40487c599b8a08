//! A row of holes as a sample names it.

use quillbore_calc::Limits;

pub(super) struct HoleSpec {
    pub(super) cells: [&'static str; 6],
    pub(super) places: u32,
    pub(super) limits: Limits,
    pub(super) depth: f64,
    pub(super) tilt: f64,
    pub(super) blind: bool,
    pub(super) behind: Option<f64>,
    pub(super) tube: &'static str,
    pub(super) minutes: f64,
    pub(super) wear: f64,
}
