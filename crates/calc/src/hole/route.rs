//! How a hole is drilled on the chosen machine: from one end or both, and with which length of tube,
//! whichever costs the lot least.

use alloc::vec::Vec;
use core::cell::OnceCell;

use super::burnt::Burnt;
use super::context::Context;
use super::drill::{Chain, Drill, Times};
use super::facts::TubeFacts;
use super::feed_wear::FeedWear;
use super::planned::{EndsCost, Plan, Reach, places};
use super::way::{Metal, Way};
use crate::figure::Figure;
use crate::idx::Idx;
use crate::input::{Ends, RowInput};
use crate::learn::{Breakage, BreakageClass, Lessons};
use crate::quantity::Pace;
use crate::tables::{Machine, Tube};

/// One way with what comes of it on the chosen machine.
struct Route {
    way: Way,
    tube: Option<Idx<Tube>>,
    usable_mm: f64,
    chains: [Option<Chain>; 2],
    reaches: bool,
    times: Option<Times>,
    /// What the row costs the lot [currency]; `None` where no minutes can be computed.
    cost: Option<f64>,
}

/// What is tried: a row with a diameter of tube on a machine.
struct Trial<'a> {
    row: &'a RowInput,
    plan: &'a Plan,
    facts: &'a TubeFacts,
    machine: &'a Machine,
    /// What it costs decides among tubes, lengths or ends.
    is_priced: bool,
}

impl Route {
    /// Electrodes used up whole inside one hole.
    fn whole(&self) -> u32 {
        let chains = self.chains.iter().flatten();
        chains.map(|chain| chain.stage.whole).sum()
    }

    /// Whether this one is to be planned rather than the other: what reaches, then what costs less.
    fn beats(&self, other: &Self) -> bool {
        match (self.reaches, other.reaches) {
            (true, false) => true,
            (false, true) => false,
            // Where neither reaches, the longest tube gets furthest.
            (false, false) => self.usable_mm > other.usable_mm,
            (true, true) => match (self.cost, other.cost) {
                (Some(mine), Some(others)) => mine < others,
                (None, None) => self.whole() < other.whole(),
                (mine, _) => mine.is_some(),
            },
        }
    }
}

impl Context<'_> {
    /// One end or both, the tube's length, and what comes of them.
    pub(super) fn choose_way(
        &self,
        row: &RowInput,
        plan: &mut Plan,
        facts: &TubeFacts,
        lengths: &[Idx<Tube>],
        metal: &Metal,
    ) {
        let start = &self.start;
        // What is led on circles, or along what is left of a tool, comes from one end.
        let open = row.is_open_behind() && plan.burnt.is_none();
        let asked = if open { row.ends } else { Some(Ends::One) };
        let Some(machine) = self.machine else {
            plan.way = Some(if asked == Some(Ends::Both) {
                metal.both_ends(start)
            } else {
                metal.one_end(row, start)
            });
            return;
        };
        let trial = Trial {
            row,
            plan,
            facts,
            machine,
            is_priced: plan.compared || lengths.len() > 1 || open,
        };
        let route = |way: Way| self.cheapest(&trial, &way, lengths);
        let one = route(metal.one_end(row, start));
        let both_looked_at =
            open && (asked == Some(Ends::Both) || !one.reaches || self.both_may_pay(&one, metal));
        let both = both_looked_at.then(|| route(metal.both_ends(start)));
        let one_reaches = one.reaches;
        let both_reach = both.as_ref().is_some_and(|both| both.reaches);
        let both_cost = both.as_ref().and_then(|both| both.cost);
        let costs = one.cost.zip(both_cost);
        let costs = costs.map(|(one, both)| EndsCost { one, both });
        let both_pays = both.as_ref().is_some_and(|both| both.beats(&one));
        // A wire catches on the step where two halves miss each other: it takes what one end reaches.
        let in_one = row.start_hole.wire_mm.is_some() && one_reaches;
        let taken = match (both, asked) {
            (Some(both), Some(Ends::Both)) => both,
            (Some(both), None) if both_pays && !in_one => both,
            _ => one,
        };
        let dearer = match asked {
            Some(Ends::One) => both_pays,
            Some(Ends::Both) => one_reaches && !both_pays,
            None => false,
        };
        plan.tube = taken.tube;
        plan.usable_mm = Some(taken.usable_mm);
        plan.times = taken.times;
        plan.cost = taken.cost;
        plan.breakage = self.breakage(facts, &taken.way);
        plan.reach = Some(Reach {
            chains: taken.chains,
            reaches: taken.reaches,
            one_reaches,
            both_reach,
            cheaper: costs.filter(|_| dearer && one_reaches && both_reach),
        });
        plan.way = Some(taken.way);
    }

    /// Whether drilling from both ends could save minutes: from both the feed falls less, at best not
    /// at all, and there may be fewer changes. That settles most holes without looking any further.
    fn both_may_pay(&self, one: &Route, metal: &Metal) -> bool {
        let Some(times) = &one.times else {
            return true;
        };
        let slowing = 1.0 + metal.law.share(metal.depth_mm);
        let saved = times.sparking_min * (1.0 - 1.0 / slowing);
        one.whole() > 0 || saved > self.touch_off.p50()
    }

    /// One way with the length of tube that costs the lot least.
    fn cheapest(&self, trial: &Trial<'_>, way: &Way, lengths: &[Idx<Tube>]) -> Route {
        let wears = OnceCell::new();
        let mut best: Option<Route> = None;
        for &tube in lengths {
            let route = self.route(trial, way.clone(), tube, &wears);
            if best.as_ref().is_none_or(|best| route.beats(best)) {
                best = Some(route);
            }
        }
        best.unwrap_or_else(|| Route {
            way: way.clone(),
            tube: None,
            usable_mm: 0.0,
            chains: way.chains(0.0),
            reaches: false,
            times: None,
            cost: None,
        })
    }

    /// What comes of one way with one tube.
    fn route(
        &self,
        trial: &Trial<'_>,
        way: Way,
        tube: Idx<Tube>,
        wears: &OnceCell<Vec<f64>>,
    ) -> Route {
        let usable = tube.beside(&self.tubes).and_then(|facts| facts.usable_mm);
        let usable_mm = usable.unwrap_or(0.0);
        let chains = way.chains(usable_mm);
        let reaches = chains.iter().flatten().all(|chain| chain.reaches);
        let times = if reaches {
            self.times_of(trial, &way, usable_mm, &chains)
        } else {
            None
        };
        let cost = times.and_then(|times| self.cost_of(trial, &way, tube, &times, wears));
        Route {
            way,
            tube: Some(tube),
            usable_mm,
            chains,
            reaches,
            times,
            cost,
        }
    }

    /// What a row costs the lot; the factors on its wear are the same for all lengths.
    fn cost_of(
        &self,
        trial: &Trial<'_>,
        way: &Way,
        tube: Idx<Tube>,
        times: &Times,
        wears: &OnceCell<Vec<f64>>,
    ) -> Option<f64> {
        let money = self.money.as_ref().filter(|_| trial.is_priced)?;
        let drill = Drill {
            sides: way.sides.clone(),
            times: *times,
            breakage: self.breakage(trial.facts, way),
            dress_share: trial.plan.dress_share,
        };
        let price = tube.of(&self.tables.tubes)?.price;
        let far_end = match way.ends {
            Ends::One => 0.0,
            Ends::Both => money.far_end(),
        };
        let wears = wears.get_or_init(|| money.wears(times.sigmas.wear));
        Some(
            money.of(
                &drill,
                wears,
                places(trial.row),
                trial.row.checked().by_pin,
                price,
            ) + far_end,
        )
    }

    /// How often tubes break.
    fn breakage(&self, facts: &TubeFacts, way: &Way) -> Breakage {
        let class = self.breakage_class(facts, way);
        match self.lessons {
            Some(lessons) => lessons.breakage(&self.start, class),
            None => Lessons::default().breakage(&self.start, class),
        }
    }

    /// How easily tubes break in holes that are drilled this way.
    pub(super) fn breakage_class(&self, facts: &TubeFacts, way: &Way) -> BreakageClass {
        if facts.outer_mm > self.start.thin_tube_mm {
            BreakageClass::Usual
        } else if way.deepest_mm() > self.start.thin_deep_diameters * facts.outer_mm {
            BreakageClass::ThinDeep
        } else {
            BreakageClass::Thin
        }
    }

    fn times_of(
        &self,
        trial: &Trial<'_>,
        way: &Way,
        usable_mm: f64,
        chains: &[Option<Chain>; 2],
    ) -> Option<Times> {
        let Trial {
            row,
            plan,
            facts,
            machine,
            is_priced: _,
        } = trial;
        let stands = self.overruled(Figure::HoleMinutes(row.id));
        let rapid_mm_min = machine.head_rapid_mm_min;
        let (mut touch_offs, mut retract_min) = (0.0, 0.0);
        for side in way.sides.iter().flatten() {
            // In two steps the electrode is drawn out and touched off once more.
            let steps = if way.two_steps() { 2.0 } else { 1.0 };
            touch_offs += steps;
            retract_min += steps * side.tip_mm / rapid_mm_min;
            // Between two plunges beside each other the electrode comes out and goes down again.
            let more = plan.burnt.as_deref().map_or(0, Burnt::more_plunges);
            retract_min += 2.0 * f64::from(more) * side.tip_mm / rapid_mm_min;
        }
        let mut times = Times {
            usable_mm,
            sparking_min: 0.0,
            touch_offs,
            touch_off: self.touch_off,
            retract_min,
            change: facts.change,
            rapid_mm_min,
            overruled: 1.0,
            sigmas: self.sigmas(plan, way.deepest_mm(), facts),
            start_sigmas: self.start_sigmas(plan, way.deepest_mm(), facts),
            lots: FeedWear {
                feed: plan.own.feed.lot,
                wear: plan.own.wear.lot,
            },
        };
        let changes: f64 = chains
            .iter()
            .flatten()
            .map(|chain| times.changes_min(chain, Pace::Median))
            .sum();
        let other = times.approach_min(Pace::Median) + changes;
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
        Some(times)
    }
}
