//! How a hole is drilled on the chosen machine: from one end or both, and with which length of tube.

use super::context::{Context, TubeFacts};
use super::drill::{Chain, Times};
use super::plan::{Plan, places};
use super::way::{Metal, Way};
use crate::figure::Figure;
use crate::input::{Ends, HoleEnd, RowInput};
use crate::tables::Machine;

/// How the electrodes reach, where a machine is chosen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Reach {
    pub(super) chains: [Option<Chain>; 2],
    /// The bottom is reached.
    pub(super) reaches: bool,
    /// It would be reached from the entry alone.
    pub(super) one_reaches: bool,
    /// It would be reached from both ends; asked only where it matters.
    pub(super) both_reach: bool,
    /// Minutes from one end and from both, where both ends are faster.
    pub(super) faster: Option<[f64; 2]>,
}

/// One way with what comes of it on the chosen machine.
struct Route {
    way: Way,
    tube: Option<usize>,
    usable_mm: f64,
    chains: [Option<Chain>; 2],
    reaches: bool,
    times: Option<Times>,
    /// Minutes of one hole, as they stand [min].
    minutes: Option<f64>,
}

impl Context<'_> {
    /// One end or both, the tube's length, and what comes of them.
    pub(super) fn choose_way(
        &self,
        row: &RowInput,
        plan: &mut Plan,
        facts: &TubeFacts,
        lengths: &[usize],
        metal: &Metal,
    ) {
        let start = &self.tables.start;
        let open = row.end == HoleEnd::Through;
        let asked = if open { row.ends } else { Some(Ends::One) };
        let Some(machine) = self.machine else {
            plan.way = Some(if asked == Some(Ends::Both) {
                metal.both_ends(start)
            } else {
                metal.one_end(row, start)
            });
            return;
        };
        let route = |way| self.route(row, plan, way, facts, lengths, machine);
        let one = route(metal.one_end(row, start));
        let one_reaches = one.reaches;
        let turn = self.turn_share(row, machine);
        // From both ends the feed falls less, at best not at all, and there may be fewer changes: that
        // settles most holes without looking any further.
        let at_best = |times: &Times| {
            let slowing = 1.0 + metal.law.slowing(metal.depth_mm);
            turn + 2.0 * self.touch_off_min
                + (times.sparking_min - one.way.sparking.map_or(0.0, |parts| parts.overtravel))
                    / slowing
        };
        let may_be_faster = asked.is_none()
            && one
                .times
                .zip(one.minutes)
                .is_some_and(|(times, minutes)| at_best(&times) * times.overruled < minutes);
        let looked_at = open && (asked == Some(Ends::Both) || !one_reaches || may_be_faster);
        let both = looked_at.then(|| route(metal.both_ends(start)));
        let both_reach = both.as_ref().is_some_and(|both| both.reaches);
        let (taken, faster) = match both {
            Some(both)
                if asked == Some(Ends::Both) || asked.is_none() && !one_reaches && both_reach =>
            {
                (both, None)
            }
            both => {
                let both_min = both.and_then(|both| both.minutes).map(|both| both + turn);
                let compared = one.minutes.zip(both_min);
                let faster = compared.filter(|(one, both)| one_reaches && both_reach && both < one);
                (one, faster)
            }
        };
        plan.tube = taken.tube;
        plan.usable_mm = Some(taken.usable_mm);
        plan.times = taken.times;
        plan.reach = Some(Reach {
            chains: taken.chains,
            reaches: taken.reaches,
            one_reaches,
            both_reach,
            faster: faster.map(|(one, both)| [one, both]),
        });
        plan.way = Some(taken.way);
    }

    /// What comes of one way with the length of tube that suits it.
    fn route(
        &self,
        row: &RowInput,
        plan: &Plan,
        way: Way,
        facts: &TubeFacts,
        lengths: &[usize],
        machine: &Machine,
    ) -> Route {
        let (tube, usable_mm) = self.length(lengths, way.asks_mm());
        let chains = way.chains(usable_mm);
        let reaches = chains.iter().flatten().all(|chain| chain.reaches);
        let timed = if reaches {
            self.times_of(row, plan, &way, facts, usable_mm, machine, &chains)
        } else {
            None
        };
        let (times, minutes) = timed.unzip();
        Route {
            way,
            tube,
            usable_mm,
            chains,
            reaches,
            times,
            minutes,
        }
    }

    /// The shortest of these tubes that does it in one, else the longest to be of use.
    pub(super) fn length(&self, lengths: &[usize], asks_mm: f64) -> (Option<usize>, f64) {
        let usable = |tube: &usize| {
            let facts = self.tubes.get(*tube);
            facts.and_then(|facts| facts.usable_mm).unwrap_or(0.0)
        };
        let longest = lengths.last().map_or(0.0, usable);
        let least = asks_mm.min(longest);
        let tube = lengths.iter().find(|tube| usable(tube) >= least);
        (tube.copied(), tube.map_or(0.0, usable))
    }

    /// Minutes of turning one part to its far side, shared by the row's holes in it [min].
    fn turn_share(&self, row: &RowInput, machine: &Machine) -> f64 {
        let start = &self.tables.start;
        let indexed = machine.index_axis && self.input.index_about.is_some();
        let turn = if indexed {
            start.index_min
        } else {
            start.turn_over_min
        };
        turn.p50() / f64::from(places(row).max(1))
    }

    #[expect(
        clippy::too_many_arguments,
        reason = "what a way of drilling consists of"
    )]
    fn times_of(
        &self,
        row: &RowInput,
        plan: &Plan,
        way: &Way,
        facts: &TubeFacts,
        usable_mm: f64,
        machine: &Machine,
        chains: &[Option<Chain>; 2],
    ) -> Option<(Times, f64)> {
        let stands = self.overruled(Figure::HoleMinutes(row.id));
        let sides = way.sides.iter().flatten();
        let rapid_mm_min = machine.head_rapid_mm_min;
        let approach_min = sides
            .map(|side| self.touch_off_min + side.tip_mm / rapid_mm_min)
            .sum();
        let mut times = Times {
            usable_mm,
            sparking_min: 0.0,
            approach_min,
            change_min: facts.change_min + self.touch_off_min,
            rapid_mm_min,
            overruled: 1.0,
            sigmas: plan.sigmas,
        };
        let changes: f64 = chains
            .iter()
            .flatten()
            .map(|chain| times.changes_min(chain))
            .sum();
        let other = approach_min + changes;
        times.sparking_min = match (&way.sparking, stands) {
            (Some(parts), _) => parts.sparking(),
            // Without a feed all that the estimator's minutes leave goes with it.
            (None, Some(stands)) => (stands - other).max(0.0),
            (None, None) => return None,
        };
        let minutes = times.sparking_min + other;
        if !minutes.is_finite() {
            return None;
        }
        if let Some(stands) = stands {
            times.overruled = stands / minutes;
        }
        let stands = minutes * times.overruled;
        Some((times, stands))
    }
}
