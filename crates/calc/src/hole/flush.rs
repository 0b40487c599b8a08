//! How the flush of a hole flows, and what it pushes with.

use super::context::Context;
use super::planned::Plan;
use super::way::Way;
use crate::burn::feed_at;
use crate::flush::Path;
use crate::job_figures::Flushed;
use crate::push::hole_push_n;
use crate::reach::mounted;

impl Context<'_> {
    /// The flush of a row's holes; `None` where tube, machine or gap are not known.
    pub(super) fn flushed(&self, plan: &Plan, way: &Way) -> Option<Flushed> {
        let (pressure_bar, water) = (self.pressure_bar?, self.water?);
        let tube = plan.tube?.of(&self.tables.tubes)?;
        let gap_mm = plan.gap?.p50();
        let path = Path {
            // What stroke and machine can't use is cut off before.
            tube_length_mm: mounted(plan.usable_mm?, self.machine?.held_back_mm),
            bore_mm: tube.bore_mm,
            channels: tube.channels,
            tube_mm: tube.outer_mm,
            hole_mm: tube.outer_mm + 2.0 * gap_mm,
        };
        let depth_mm = way.deepest_mm();
        let most_ml_min = 1000.0 * self.start.pump_l_min;
        let at = |depth_mm| {
            let flow = path.at_depth(depth_mm, pressure_bar, &water)?;
            Some(flow.at_most(most_ml_min))
        };
        let (face, bottom) = (at(0.0)?, at(depth_mm)?);
        let feed = plan
            .feed
            .zip(plan.facts)
            .map(|(feed, facts)| feed_at(feed, depth_mm, self.law(&facts)));
        // One channel leaves a core as wide as its bore.
        let core_mm = if tube.channels == 1 {
            tube.bore_mm
        } else {
            0.0
        };
        let debris_share = feed.zip(plan.depth_mm).and_then(|(feed, depth_mm)| {
            path.debris_share(feed, way.wear_mm() / depth_mm, core_mm, bottom.ml_min)
        });
        Some(Flushed {
            pressure_bar,
            face,
            bottom,
            depth_mm,
            debris_share,
            weak_from_mm: path.weak_from(self.start.least_gap_m_s, depth_mm, pressure_bar, &water),
        })
    }

    /// What the flush pushes a part with at most where this row's holes are drilled [N].
    pub(super) fn push_n(&self, plan: &Plan) -> Option<f64> {
        let of_limits = plan.limits_mm.map(|limits| limits.upper);
        let hole_mm = of_limits.or(plan.made.as_ref().map(|made| made.sized.median_mm()));
        hole_push_n(self.pressure_bar?, hole_mm?)
    }
}
