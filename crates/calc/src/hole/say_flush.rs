//! What flush and head have to say of a row.

use super::say::Voice;
use crate::finding::{Kind, Level};
use crate::input::{HoleEnd, Surface};
use crate::job_figures::Flushed;
use crate::push::plug_n;

/// A push on what closes a cavity is worth a check from here on [N] (our choice, no source): some ten
/// kilograms.
const HARD_N: f64 = 100.0;

/// Stand-offs that differ by less are one [mm].
const SAME_MM: f64 = 0.05;

impl Voice<'_> {
    /// A flush that grows weaker than the shop's least on the way down.
    pub(super) fn flush(&mut self, flush: &Flushed) {
        if let Some(from_mm) = flush.weak_from_mm {
            let kind = Kind::FlushWeak {
                from_mm,
                gap_m_s: flush.bottom.gap_m_s,
                least_m_s: self.context.start.least_gap_m_s,
            };
            self.say(Level::Check, kind, None);
        }
    }

    /// A recess that the hole doesn't fit into, leaning as it does.
    pub(super) fn recess(&mut self) {
        let hole_mm = self.plan.limits_mm.map(|limits| limits.upper);
        let (Some(recess), Some(hole_mm)) = (self.row.recess, hole_mm) else {
            return;
        };
        let width_mm = recess.leaning(self.row.tilt_deg).width_mm;
        if width_mm < hole_mm {
            let kind = Kind::RecessTooNarrow { width_mm, hole_mm };
            self.say(Level::Stop, kind, None);
        }
    }

    /// Nose or head that touch the part before the guide is as near as it should be.
    pub(super) fn head(&mut self) {
        let (Some(clearance), Some(machine)) = (self.row.clearance, self.context.machine) else {
            return;
        };
        let stand_off_mm = machine.stand_off_mm;
        if let Some(touches) = clearance
            .touches
            .filter(|_| clearance.lost_mm(stand_off_mm) > SAME_MM)
        {
            let kind = Kind::HeadTouches {
                needed_mm: clearance.needed_mm,
                stand_off_mm,
                touches,
            };
            self.say(Level::Check, kind, None);
        }
    }

    /// A cavity that is closed while a hole is drilled into it: what closes it takes the pressure.
    pub(super) fn cavity(&mut self) {
        let Some((exit, pressure_bar)) = self.row.exit.zip(self.context.pressure_bar) else {
            return;
        };
        let Surface::Bore { radius_mm, .. } = exit.surface else {
            return;
        };
        let cavity_mm = 2.0 * radius_mm;
        let push_n = plug_n(pressure_bar, cavity_mm);
        let is_closed = self.row.backed && self.row.end != HoleEnd::Blind;
        if let Some(push_n) = push_n.filter(|_| is_closed) {
            let level = if push_n >= HARD_N {
                Level::Check
            } else {
                Level::Note
            };
            self.say(level, Kind::PlugPushed { push_n, cavity_mm }, None);
        }
    }
}
