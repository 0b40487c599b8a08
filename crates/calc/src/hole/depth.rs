//! Depths that are only as sure as the wear: blind ones, and those with a wall behind them.
//!
//! Before the first hole nobody knows the lot's wear, so the machine is set for the wear that one
//! lot in fifty stays under, about 70 percent of the depth; depth and electrode are measured, and
//! the same hole is corrected. After that holes still scatter about the lot.

use crate::input::{HoleEnd, RowInput};
use crate::job_figures::DepthPlan;
use crate::quantity::{Limits, Z90};
use crate::standards::general;
use crate::tables::StartValues;

/// What two steps leave of the scatter: the second one drills a fifth of the depth.
const LEFT_BY_TWO_STEPS: f64 = 0.2;

/// How a depth is come to, and what is behind it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Depth {
    pub(super) plan: DepthPlan,
    /// Overtravel that is left [mm].
    pub(super) overtravel_mm: f64,
    /// `None` for a blind hole.
    pub(super) wall: Option<Wall>,
}

/// The room behind an exit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Wall {
    /// Free distance to the wall [mm].
    pub(super) behind_mm: f64,
    /// What overtravel and scatter ask for there [mm].
    pub(super) needed_mm: f64,
}

/// What a depth is come to from: the metal down to it, and what is worn away meanwhile.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Bottom {
    /// Depth on the axis [mm].
    pub(super) depth_mm: f64,
    /// Length of the exit zone past it [mm].
    pub(super) after_mm: f64,
    /// Gap per side at its ninetieth percentile [mm].
    pub(super) gap_mm: f64,
    /// Electrode length lost in one hole, median [mm].
    pub(super) wear_mm: f64,
    /// One hole's wear that one lot in fifty stays under, relative to the median.
    pub(super) low: f64,
    /// Overtravel past a clear exit [mm].
    pub(super) wanted_mm: f64,
    /// Free distance behind the exit [mm]; `None` where nothing is behind it.
    pub(super) behind_mm: Option<f64>,
    /// How far before the axis crosses the surface the tool touches it [mm].
    pub(super) touch_mm: f64,
}

impl Depth {
    /// True where holes scatter further than they may, in two steps too.
    pub(super) fn exceeds(&self) -> bool {
        self.plan.scatter_mm > self.plan.allowed_mm
    }
}

/// How far holes of one lot scatter in depth, to either side.
///
/// Formula: `1.28 L rho / (1 + rho) s` with s the deviation from hole to hole.
///
/// - `depth_mm`: depth L [mm].
/// - `wear_mm`: electrode length lost in it, `rho L` [mm].
/// - `hole_scatter`: s [-].
pub(super) fn depth_scatter(depth_mm: f64, wear_mm: f64, hole_scatter: f64) -> f64 {
    Z90 * depth_mm * wear_mm / (depth_mm + wear_mm) * hole_scatter
}

/// How a row's depth is come to; `None` where nothing closes the hole and nothing is near behind it.
pub(super) fn sure_depth(row: &RowInput, bottom: &Bottom, start: &StartValues) -> Option<Depth> {
    let Bottom {
        depth_mm,
        after_mm,
        gap_mm,
        wear_mm,
        low,
        wanted_mm,
        behind_mm,
        touch_mm,
    } = *bottom;
    // The machine counts from where the tool touched.
    let first_try = |tip_mm: f64| touch_mm + tip_mm + wear_mm * low;
    let one_step_mm = depth_scatter(depth_mm, wear_mm, start.hole_scatter);
    let two_steps_mm = one_step_mm * LEFT_BY_TWO_STEPS;
    if row.end == HoleEnd::Blind {
        let limits = blind_limits(row, depth_mm);
        let allowed_mm = limits.width() / 2.0;
        let two_steps = one_step_mm > allowed_mm;
        return Some(Depth {
            plan: DepthPlan {
                first_try_mm: first_try(depth_mm),
                never_beyond_mm: touch_mm + limits.upper,
                two_steps,
                scatter_mm: if two_steps { two_steps_mm } else { one_step_mm },
                allowed_mm,
            },
            overtravel_mm: 0.0,
            wall: None,
        });
    }
    let behind_mm = behind_mm.filter(|_| !row.backed)?;
    let by_lot_mm = wear_mm * (1.0 - low);
    // The tip is past the axis by the exit zone before it is through.
    let room_mm = (behind_mm - after_mm).max(0.0);
    // Whatever the lot wears, and however its holes scatter, the wall is out of reach.
    if wanted_mm + by_lot_mm.max(one_step_mm) <= room_mm {
        return None;
    }
    let left = |scatter_mm: f64| (room_mm - scatter_mm).clamp(0.0, wanted_mm);
    let least_mm = wanted_mm.min(start.overtravel_least_mm);
    let two_steps = left(one_step_mm) < least_mm;
    let scatter_mm = if two_steps { two_steps_mm } else { one_step_mm };
    let overtravel_mm = left(scatter_mm);
    Some(Depth {
        plan: DepthPlan {
            first_try_mm: first_try(depth_mm + after_mm + overtravel_mm),
            // Sparks cross the gap, so the wall is reached that much before the tip is there.
            never_beyond_mm: touch_mm + depth_mm + (behind_mm - gap_mm).max(0.0),
            two_steps,
            scatter_mm,
            allowed_mm: room_mm,
        },
        overtravel_mm,
        wall: Some(Wall {
            behind_mm,
            needed_mm: after_mm + wanted_mm + one_step_mm,
        }),
    })
}

/// Limits of a blind depth: the drawing's, else the general tolerance.
pub(super) fn blind_limits(row: &RowInput, depth_mm: f64) -> Limits {
    row.given_depth_limits().unwrap_or_else(|| {
        let general = general::medium(depth_mm).unwrap_or(0.001 * depth_mm);
        Limits::new(depth_mm - general, depth_mm + general)
    })
}
