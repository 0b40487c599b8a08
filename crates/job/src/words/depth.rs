//! What is said of holes whose depth says through.

use quillbore_calc::input::HoleEnd;

use crate::job::row_depth::{DepthFrom, RowDepth};

/// Nobody gave the end of a hole.
pub(crate) const END_ASSUMED: &str = "No end is given: taken for a through hole.";

/// The depth says through, the end says blind.
pub(crate) const fn through_and_blind() -> &'static str {
    "The depth says through, the end says blind: check the drawing and correct one of the two."
}

/// Where the depth of a hole that goes through comes from; `None` where nothing says it, which is
/// told as a missing depth.
pub(crate) fn through(
    depth: RowDepth,
    end: HoleEnd,
    tilt_deg: f64,
    shown: impl Fn(f64) -> String,
) -> Option<String> {
    let deep = shown(depth.mm?);
    let whither = match end {
        HoleEnd::Into => "Through the wall into the cavity",
        HoleEnd::Through | HoleEnd::Blind => "Through",
    };
    let by_what = match depth.from {
        DepthFrom::Layers => "the sum of its layers",
        DepthFrom::Wall if tilt_deg == 0.0 => "the wall's thickness",
        DepthFrom::Wall => "the wall's thickness along the hole's axis",
        DepthFrom::Typed | DepthFrom::BrokenTool | DepthFrom::Nothing => return None,
    };
    Some(format!("{whither}: {deep} deep, by {by_what}."))
}
