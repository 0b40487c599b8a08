//! What a wire finds in a row's holes, and how near they come to the profile.

use super::context::Context;
use super::planned::{Plan, places};
use crate::input::{Ends, RowInput, StartHole};
use crate::job_figures::StartHoleFigures;
use crate::quantity::Limits;
use crate::size::Sized;
use crate::start_hole::{Exits, exits, toward_profile};

impl Context<'_> {
    /// What a wire finds; `None` where nobody asks for one, nor for an exit or a profile.
    pub(super) fn start_hole(&self, row: &RowInput, plan: &Plan) -> Option<StartHoleFigures> {
        let asked = row.start_hole;
        if asked == StartHole::default() {
            return None;
        }
        let sized = plan.made.as_ref().map(|made| &made.sized);
        let reaches_mm = asked.to_profile_mm.and(sized);
        Some(StartHoleFigures {
            exits: sized.map(|sized| self.exits(row, plan, sized)),
            needed_mm: asked.needed_mm(self.start.wire_clearance_mm),
            reaches_mm: reaches_mm.and_then(|sized| self.toward_profile(row, plan, sized)),
        })
    }

    /// The free exit of a row's holes with this tube.
    pub(super) fn exits(&self, row: &RowInput, plan: &Plan, sized: &Sized) -> Exits {
        let way = plan.way.as_ref().filter(|way| way.ends == Ends::Both);
        let drift = self.start.drift_mm_per_100;
        let drift = Limits::new(drift.p50(), drift.p90);
        exits(
            sized.range_mm(0.0),
            sized.median_mm(),
            plan.taper_mm,
            sized.deviation_mm,
            self.holes_in_lot(row),
            way.map(|way| (drift, way.deepest_mm())),
        )
    }

    /// How far from its center a hole can reach toward the profile with this tube [mm].
    pub(super) fn toward_profile(&self, row: &RowInput, plan: &Plan, sized: &Sized) -> Option<f64> {
        toward_profile(
            sized.range_mm(0.0).upper,
            row.tilt_deg,
            self.start.drift_mm_per_100.p90,
            Self::from_an_end_mm(plan)?,
            self.start.white_layer_mm,
        )
    }

    /// What the axis may drift on the way [mm].
    pub(super) fn drift_mm(&self, plan: &Plan) -> Option<f64> {
        Some(self.start.drift_mm_per_100.p90 * Self::from_an_end_mm(plan)? / 100.0)
    }

    pub(super) fn holes_in_lot(&self, row: &RowInput) -> u64 {
        u64::from(places(row)) * u64::from(self.setting.parts())
    }

    /// How deep it is drilled from one end [mm].
    fn from_an_end_mm(plan: &Plan) -> Option<f64> {
        let depth_mm = plan.depth_mm?;
        let both = plan.way.as_ref().filter(|way| way.ends == Ends::Both);
        Some(both.map_or(depth_mm, |way| way.deepest_mm().min(depth_mm)))
    }
}
