//! Whether a wire goes through a start hole, and whether the profile stays whole.

use super::say::Voice;
use crate::finding::{Kind, Level, Remedy};
use crate::input::{HoleEnd, Proof};
use crate::job_figures::StartHoleFigures;
use crate::quantity::{ROUNDING_MM, SAME_SIZE_MM};
use crate::size::Sized;

impl Voice<'_> {
    /// What is to go through the hole, where that can't be or nobody said what it is.
    pub(super) fn proof(&mut self) {
        let row = self.row;
        let asked = row.start_hole;
        let goes_through = row.checked().proof.is_some()
            || asked.wire_mm.is_some()
            || asked.least_exit_mm.is_some();
        if row.end == HoleEnd::Blind && goes_through {
            self.say(Level::Check, Kind::BlindProof, None);
        }
        if row.proved == Some(Proof::Wire) && asked.wire_mm.is_none() {
            self.say(Level::Check, Kind::WireMissing, None);
        }
        if let Some((least_mm, wire_mm)) = asked.least_exit_mm.zip(asked.wire_mm)
            && least_mm < wire_mm
        {
            let kind = Kind::ExitBelowWire { least_mm, wire_mm };
            self.say(Level::Check, kind, None);
        }
    }

    /// The exit against the wire, and the hole against the profile.
    pub(super) fn start_hole(&mut self, found: &StartHoleFigures) {
        if self.row.end != HoleEnd::Blind {
            self.exit(found);
        }
        self.profile(found);
    }

    fn exit(&mut self, found: &StartHoleFigures) {
        let (Some(exits), Some(needed_mm)) = (found.exits, found.needed_mm) else {
            return;
        };
        if exits.smallest_mm >= needed_mm - ROUNDING_MM {
            return;
        }
        let larger = self.larger(needed_mm);
        let wire_mm = self.row.start_hole.wire_mm;
        if let Some(wire_mm) = wire_mm.filter(|wire_mm| exits.largest_mm < *wire_mm) {
            let largest_mm = exits.largest_mm;
            let kind = Kind::WireTooThick {
                wire_mm,
                largest_mm,
            };
            self.say(Level::Stop, kind, larger);
            return;
        }
        let kind = Kind::ExitMayBeTight {
            smallest_mm: exits.smallest_mm,
            needed_mm,
            holes: self.context.holes_in_lot(self.row),
            typed: self.row.start_hole.least_exit_mm.is_some(),
        };
        self.say(Level::Check, kind, larger);
    }

    /// The next larger tube of the same kind whose exits are wide enough, where it stays within limits that
    /// somebody gave, and clear of the profile.
    fn larger(&self, needed_mm: f64) -> Option<Remedy> {
        let made = self.plan.made.as_ref()?;
        let (context, row, plan) = (self.context, self.row, self.plan);
        let limits_mm = plan.limits_mm.filter(|_| !row.limits_assumed);
        let fits = |sized: &Sized| {
            let reaches_mm = context.toward_profile(row, plan, sized);
            let clear = (row.start_hole.to_profile_mm.zip(reaches_mm))
                .is_none_or(|(distance_mm, reaches_mm)| reaches_mm <= distance_mm);
            sized.tube_mm > made.sized.tube_mm + SAME_SIZE_MM
                && context.exits(row, plan, sized).smallest_mm >= needed_mm
                && limits_mm.is_none_or(|limits| sized.range_mm(0.0).upper <= limits.upper)
                && clear
        };
        let mut like = context.driven.class_of(made);
        let found = like.find(|tube| fits(&tube.sized))?.tube;
        let place = context.driven.of_tube(found)?;
        Some(Remedy::UseTube(
            row.id,
            context.cheapest_length(row, place)?,
        ))
    }

    fn profile(&mut self, found: &StartHoleFigures) {
        let (Some(distance_mm), Some(exits)) = (self.row.start_hole.to_profile_mm, found.exits)
        else {
            return;
        };
        let Some((reaches_mm, drift_mm)) = (found.reaches_mm).zip(self.context.drift_mm(self.plan))
        else {
            return;
        };
        if exits.expected_mm / 2.0 >= distance_mm {
            let hole_mm = exits.expected_mm;
            let kind = Kind::ProfileCut {
                distance_mm,
                hole_mm,
            };
            self.say(Level::Stop, kind, None);
        } else if reaches_mm > distance_mm + ROUNDING_MM {
            let kind = Kind::ProfileInReach {
                distance_mm,
                reaches_mm,
                drift_mm,
            };
            self.say(Level::Check, kind, None);
        }
    }
}
