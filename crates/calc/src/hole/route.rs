//! How a hole is drilled on the chosen machine: from one end or both, and with which length of tube.

use super::context::{Context, TubeFacts};
use super::drill::{Chain, Drill};
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
    pub(super) both_reach: Option<bool>,
    /// Minutes from one end and from both, where both ends are faster.
    pub(super) faster: Option<[f64; 2]>,
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
        let one = metal.one_end(row, start);
        let mut both = (asked == Some(Ends::Both)).then(|| metal.both_ends(start));
        let Some(machine) = self.machine else {
            plan.way = Some(both.unwrap_or(one));
            return;
        };
        let (tube, usable_mm) = self.length(lengths, both.as_ref().unwrap_or(&one).asks_mm());
        plan.tube = tube;
        plan.usable_mm = Some(usable_mm);
        let one_chains = one.chains(usable_mm);
        let mut reach = Reach {
            chains: one_chains,
            reaches: false,
            one_reaches: reached(&one_chains),
            both_reach: None,
            faster: None,
        };
        let drill =
            |way: &Way, chains| self.drill_of(row, plan, way, facts, usable_mm, machine, chains);
        let mut found = drill(&one, &one_chains);
        let one_min = found.as_ref().map(|(_, minutes)| *minutes);
        let turn = self.turn_share(row, machine);
        let may_be_faster = one_min.is_none_or(|minutes| turn + self.touch_off_min < minutes);
        if open && asked != Some(Ends::One) && (may_be_faster || both.is_some()) {
            let way = both.take().unwrap_or_else(|| metal.both_ends(start));
            let chains = way.chains(usable_mm);
            let both_reach = reached(&chains);
            let both_drill = drill(&way, &chains);
            reach.both_reach = Some(both_reach);
            let needed = asked.is_none() && !reach.one_reaches && both_reach;
            if needed || asked == Some(Ends::Both) {
                reach.chains = chains;
                found = both_drill;
                both = Some(way);
            } else if let (Some(one_min), Some((_, both_min))) = (one_min, both_drill) {
                let both_min = both_min + turn;
                let faster = reach.one_reaches && both_reach && both_min < one_min;
                reach.faster = faster.then_some([one_min, both_min]);
            }
        }
        reach.reaches = reached(&reach.chains);
        plan.drill = found.filter(|_| reach.reaches).map(|(drill, _)| drill);
        plan.way = Some(both.unwrap_or(one));
        plan.reach = Some(reach);
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
    fn drill_of(
        &self,
        row: &RowInput,
        plan: &Plan,
        way: &Way,
        facts: &TubeFacts,
        usable_mm: f64,
        machine: &Machine,
        chains: &[Option<Chain>; 2],
    ) -> Option<(Drill, f64)> {
        let stands = self.overruled(Figure::HoleMinutes(row.id));
        let sides = way.sides.iter().flatten();
        let rapid_mm_min = machine.head_rapid_mm_min;
        let approach_min = sides
            .map(|side| self.touch_off_min + side.tip_mm / rapid_mm_min)
            .sum();
        let mut drill = Drill {
            sides: way.sides.clone(),
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
            .map(|chain| drill.changes_min(chain))
            .sum();
        let other = approach_min + changes;
        drill.sparking_min = match (&way.sparking, stands) {
            (Some(parts), _) => parts.sparking(),
            // Without a feed all that the estimator's minutes leave goes with it.
            (None, Some(stands)) => (stands - other).max(0.0),
            (None, None) => return None,
        };
        let minutes = drill.sparking_min + other;
        if let Some(stands) = stands {
            drill.overruled = stands / minutes;
        }
        let stands = minutes * drill.overruled;
        Some((drill, stands))
    }
}

fn reached(chains: &[Option<Chain>; 2]) -> bool {
    chains.iter().flatten().all(|chain| chain.reaches)
}
