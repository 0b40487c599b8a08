//! A row's plan: which tube, which way, what comes of it.

use alloc::rc::Rc;
use alloc::vec::Vec;

use super::aimed::{aimed_mm, dress_share};
use super::asked::Asked;
use super::context::Context;
use super::facts::{TubeFacts, drives};
use super::feed_wear::FeedWear;
use super::median_sigma::MedianSigma;
use super::meet::meet;
use super::own::Own;
use super::planned::Plan;
use super::profile::Profile;
use super::say_deep::is_thin_for_depth;
use super::stock::Stock;
use super::stuff::Stuff;
use super::way::{Along, Metal};
use crate::burn::DepthLaw;
use crate::figure::Figure;
use crate::idx::Idx;
use crate::input::{Ends, HoleEnd, RowInput};
use crate::learn::Breakage;
use crate::quantity::{Limits, ROUNDING_MM, Spread, Z90};
use crate::size::{NOT_HELD, Sized};
use crate::size_choice::{Candidate, Wish};
use crate::tables::Tube;
use crate::wear::rise_per_mm;

/// Deviate that one lot in fifty stays under.
const Z02: f64 = -2.053_748_910_631_823;

impl Context<'_> {
    /// A row's plan, worked out once for all rows that ask the same.
    pub(super) fn plan(&self, row: &RowInput) -> Rc<Plan> {
        if row.unread {
            return Rc::new(self.bare(row));
        }
        if self.overrules.concern(row.id) {
            return Rc::new(self.planned(row));
        }
        self.judgements.plans.of(row, || self.planned(row))
    }

    fn planned(&self, row: &RowInput) -> Plan {
        let bare = self.bare(row);
        if let Some(tool) = &row.broken {
            return self.planned_broken(row, tool, bare);
        }
        if let Some(outer_mm) = self.overruled(Figure::Electrode(row.id)) {
            let place = self.all.of_diameter(outer_mm, bare.wish);
            let lengths = place.map_or(&[][..], |place| self.all.lengths(place));
            return self.with_lengths(row, bare, lengths);
        }
        if let Some(tube) = row.tube.filter(|tube| tube.beside(&self.tubes).is_some()) {
            return self.with_lengths(row, bare, &[tube]);
        }
        let Some(asked) = bare.asked() else {
            return bare;
        };
        let mut best: Option<Plan> = None;
        let choosable = self.choosable(&asked);
        let bare = Plan {
            compared: choosable.len() > 1,
            ..bare
        };
        for lengths in choosable {
            let plan = self.with_lengths(row, bare.clone(), lengths);
            if best.as_ref().is_none_or(|best| plan.beats(best)) {
                best = Some(plan);
            }
        }
        let best = best.or_else(|| self.both_ends_alone(row));
        // A tube that hardly ever makes the size is no way to it where a thinner one can be led round.
        let is_held = |plan: &Plan| plan.held.is_some_and(|held| held.held >= NOT_HELD);
        if let Some(best) = best {
            let bare = Plan {
                held: best.held,
                ..bare
            };
            let opened = (!is_held(&best)).then(|| self.opened(row, &bare)).flatten();
            return opened.unwrap_or(best);
        }
        let bare = Plan {
            held: Some(self.held_by_none(&asked)),
            ..bare
        };
        self.opened(row, &bare).unwrap_or(bare)
    }

    /// A row from both ends, where only half of its taper fits between the limits.
    fn both_ends_alone(&self, row: &RowInput) -> Option<Plan> {
        if !row.is_open_behind() || row.ends.is_some() {
            return None;
        }
        let both = RowInput {
            ends: Some(Ends::Both),
            ..row.clone()
        };
        let plan = self.planned(&both);
        plan.tube.is_some().then_some(plan)
    }

    /// The lengths of each tube that may be begun with: tubes that this machine drives; where it drives
    /// none that would do, the shop's others, so that the machine can be told.
    pub(super) fn choosable(&self, asked: &Asked) -> Vec<&[Idx<Tube>]> {
        let of = |stock| move |place: &usize| Stock::lengths(stock, *place);
        let driven = self.choice(asked);
        if driven.best.is_empty() {
            let all = self.choice_of_all(asked);
            return all.best.iter().map(of(&self.all)).collect();
        }
        driven.best.iter().map(of(&self.driven)).collect()
    }

    /// A row's plan with a length that the whole lot takes.
    pub(super) fn plan_with(&self, row: &RowInput, tube: Idx<Tube>) -> Plan {
        if let Some(burnt) = self.plan(row).burnt.as_deref() {
            return self.burnt_with(row, burnt, tube);
        }
        self.with_lengths(row, self.bare(row), &[tube])
    }

    /// The length of a candidate's tube that costs a row least, by its place in [`Context::driven`].
    pub(super) fn cheapest_length(&self, row: &RowInput, place: usize) -> Option<Idx<Tube>> {
        let lengths = self.driven.lengths(place);
        self.with_lengths(row, self.bare(row), lengths).tube
    }

    /// What a row's plan begins with.
    pub(super) fn bare(&self, row: &RowInput) -> Plan {
        let depth_mm = aimed_mm(row);
        let limits_mm = row.limits_mm.filter(|Limits { lower, upper }| {
            *lower >= 0.0 && lower <= upper && *upper > 0.0 && upper.is_finite()
        });
        let both_asked = row.ends == Some(Ends::Both) && row.is_open_behind();
        let from_an_end = if both_asked { 0.5 } else { 1.0 } * depth_mm.unwrap_or(0.0);
        let taper = if row.end == HoleEnd::Blind {
            0.0
        } else {
            self.start.taper_mm_per_100
        };
        Plan {
            limits_mm,
            depth_mm,
            taper_mm: taper * from_an_end / 100.0,
            wish: Wish {
                several: row.end == HoleEnd::Blind || row.core_trapped,
                material: self.wished_material(row),
            },
            dress_share: dress_share(row),
            breakage: Breakage::default(),
            tube: None,
            facts: None,
            gap: None,
            gap_overruled: false,
            computed_gap_mm: None,
            made: None,
            chance: None,
            held: None,
            met: None,
            burnt: None,
            feed: None,
            computed_feed: None,
            feed_steps: None,
            way: None,
            stuff_sigmas: FeedWear::default(),
            typed: FeedWear::default(),
            sigmas: FeedWear::default(),
            start_sigmas: FeedWear::default(),
            own: self.own_of_none(),
            high: 1.0,
            too_deep: false,
            usable_mm: None,
            reach: None,
            times: None,
            compared: false,
            cost: None,
        }
    }

    /// A plan with one of these lengths of one tube, the one that costs the lot least.
    pub(super) fn with_lengths(
        &self,
        row: &RowInput,
        mut plan: Plan,
        lengths: &[Idx<Tube>],
    ) -> Plan {
        let first = lengths.first().copied();
        if let Some(facts) = first.and_then(|tube| tube.beside(&self.tubes)) {
            plan.tube = first;
            plan.facts = Some(*facts);
            self.gap(row, &mut plan, facts);
            if plan.burnt.is_none() {
                self.size(&mut plan, facts);
            }
            self.drilling(row, &mut plan, facts, lengths);
        }
        plan
    }

    /// The gap, as it is computed or as somebody overruled it.
    fn gap(&self, row: &RowInput, plan: &mut Plan, facts: &TubeFacts) {
        plan.computed_gap_mm = facts.gap.map(Spread::p50);
        let stands = self.overruled(Figure::Gap(row.id));
        plan.gap = match (stands, facts.gap) {
            (Some(stands), Some(gap)) => Some(gap.scaled(stands / gap.p50())),
            (Some(stands), None) => Spread::new(stands, stands),
            (None, gap) => gap,
        };
        plan.gap_overruled = stands.is_some();
    }

    /// With what chance the limits are met.
    fn size(&self, plan: &mut Plan, facts: &TubeFacts) {
        let place = plan.tube.and_then(|tube| self.all.of_tube(tube));
        let listed = place.and_then(|place| self.all.candidates.get(place));
        let own = listed.zip(plan.gap.filter(|_| plan.gap_overruled));
        let own = own.map(|(listed, gap)| {
            let start = &self.start;
            let (scatter, tolerance) = (&start.size_scatter_mm, start.tube_tolerance_mm);
            Rc::new(Candidate {
                sized: Sized::new(facts.outer_mm, gap, scatter, tolerance, &self.quantiles),
                ..(**listed).clone()
            })
        });
        let made = own.as_ref().or(listed).cloned();
        if let (Some(asked), Some(made)) = (plan.asked(), &made) {
            plan.chance = Some(if own.is_some() {
                made.sized.chance(asked.limits_mm, asked.taper_mm)
            } else {
                self.chance(&asked, &made.sized)
            });
            plan.held = Some(self.held(&asked, made));
        }
        plan.made = made;
    }

    fn drilling(&self, row: &RowInput, plan: &mut Plan, facts: &TubeFacts, lengths: &[Idx<Tube>]) {
        let start = &self.start;
        let met = meet(row, facts.outer_mm, plan.depth_mm);
        plan.met = Some(met);
        let overlap_mm = start.overlap_mm;
        let deep_mm = plan.depth_mm.unwrap_or(facts.outer_mm);
        let stuff = self.stuff(row, facts, plan, deep_mm);
        let stands = self.overruled(Figure::Feed(row.id));
        plan.computed_feed = stuff.feed.as_ref().map(Profile::first);
        plan.feed_steps = stuff.feed_steps;
        plan.feed = stands.or(plan.computed_feed);
        plan.own = stuff.own;
        let (Some(depth_mm), Some(zones)) = (plan.depth_mm, met.zones) else {
            return;
        };
        let overruled_wear_mm = self.overruled(Figure::Wear(row.id));
        let wear_known = stuff.ratio.is_some();
        let along = |feed: Option<Profile>, ratio: Option<Profile>| {
            let stands_mm = overruled_wear_mm.map(|stands| Profile::one(stands / depth_mm));
            Some(Along {
                feed: feed_that_stands(feed, stands),
                ratio: ratio.or(stands_mm)?,
            })
        };
        let from_both = self.lessons.filter(|_| row.is_open_behind()).map(|_| {
            let from_end_mm = f64::midpoint(depth_mm, overlap_mm.clamp(0.0, depth_mm));
            self.stuff(row, facts, plan, from_end_mm)
        });
        let first_of = |stuff: &Stuff| stuff.feed.as_ref().map(Profile::first);
        let of_both = (from_both.as_ref()).map(|stuff| (stuff.own, first_of(stuff)));
        let Some(one) = along(stuff.feed, stuff.ratio) else {
            return;
        };
        let both = from_both.and_then(|stuff| along(stuff.feed, stuff.ratio));
        plan.stuff_sigmas = stuff.sigmas;
        plan.typed = FeedWear {
            feed: stands.is_some() || self.overruled(Figure::HoleMinutes(row.id)).is_some(),
            wear: overruled_wear_mm.is_some(),
        };
        plan.sigmas = self.sigmas(plan, depth_mm, facts);
        let one_hole = self.one_hole(plan.sigmas.wear);
        let deepest = start.deepest_diameters.max(self.own_deepest(row, facts));
        let metal = Metal {
            depth_mm,
            tube_mm: facts.outer_mm,
            zones,
            held_mm: self.held_mm(row),
            behind_mm: met.behind_mm,
            both: both.unwrap_or_else(|| one.clone()),
            one,
            deepest_mm: if stands.is_some() {
                f64::INFINITY
            } else {
                deepest * facts.outer_mm
            },
            rise: rise_per_mm(self.wear_at_100.median, facts.outer_mm),
            law: self.law(facts),
            overruled_wear_mm,
            gap_mm: plan.gap.map_or(0.0, |gap| gap.p90),
            low: libm::exp(Z02 * one_hole),
            times: plan.burnt.as_ref().map_or(1.0, |burnt| burnt.minutes),
            wears: plan.burnt.as_ref().map_or(1.0, |burnt| burnt.wear),
        };
        self.choose_way(row, plan, facts, lengths, &metal);
        if let Some(way) = plan.way.as_ref() {
            let deepest_mm = way.deepest_mm();
            if let (Ends::Both, Some((own, computed))) = (way.ends, of_both) {
                plan.own = own;
                plan.computed_feed = computed;
                plan.feed = stands.or(computed);
            }
            plan.sigmas = self.sigmas(plan, deepest_mm, facts);
            plan.start_sigmas = self.start_sigmas(plan, deepest_mm, facts);
            plan.high = libm::exp(Z90 * self.one_hole(plan.sigmas.wear));
        }
        if let Some(way) = &mut plan.way {
            plan.too_deep = way.deepest_mm() > metal.deepest_mm + ROUNDING_MM;
            if !wear_known {
                way.computed_wear_mm = None;
            }
        }
    }

    /// Deviations of feed and wear that all holes of a lot share, as the shop's records make them.
    ///
    /// `depth_mm` is the depth from one end: a hole that is drilled from both is half as deep from each.
    pub(super) fn sigmas(&self, plan: &Plan, depth_mm: f64, facts: &TubeFacts) -> FeedWear<f64> {
        let start = self.start_sigmas(plan, depth_mm, facts);
        // What somebody typed, from a test burn or from experience, is off by the lot alone.
        let shared = |typed: bool, start: f64, own: &Own| {
            if typed { own.lot } else { start * own.narrowed }
        };
        FeedWear {
            feed: shared(plan.typed.feed, start.feed, &plan.own.feed),
            wear: shared(plan.typed.wear, start.wear, &plan.own.wear),
        }
    }

    /// The same by the start values: the larger of how far a shop's own figures may lie from them, and
    /// the material's own with that of the depth law or of the rise of wear.
    pub(super) fn start_sigmas(
        &self,
        plan: &Plan,
        depth_mm: f64,
        facts: &TubeFacts,
    ) -> FeedWear<f64> {
        let law = self.law(facts);
        let share = law.share(depth_mm);
        let by_law = law.exponent * share / (1.0 + share) * self.depth.sigma;
        let MedianSigma {
            median: at_100,
            sigma: at_100_sigma,
        } = self.wear_at_100;
        let depths = depth_mm / (100.0 * facts.outer_mm);
        let by_rise = at_100 * depths / (1.0 + (at_100 - 1.0) * depths) * at_100_sigma;
        let shop = self.start.deviations.process(facts.outer_mm, depth_mm);
        let shared = |material: f64, by_depth: f64| {
            libm::sqrt(material * material + by_depth * by_depth).max(shop)
        };
        // How much metal there is, and how it is led, is another thing than how fast a shop burns.
        let beside = plan.burnt.as_ref();
        let beside = beside.map_or([0.0; 2], |burnt| [burnt.feed_sigma, burnt.wear_sigma]);
        FeedWear {
            feed: libm::hypot(shared(plan.stuff_sigmas.feed, by_law), beside[0]),
            wear: libm::hypot(shared(plan.stuff_sigmas.wear, by_rise), beside[1]),
        }
    }

    /// Deepest hole in this row's materials that the shop drilled with such tubes, in diameters.
    pub(super) fn own_deepest(&self, row: &RowInput, facts: &TubeFacts) -> f64 {
        let Some(lessons) = self.lessons else {
            return 0.0;
        };
        let families = self
            .materials_of(row)
            .filter_map(|material| material.of(&self.tables.materials));
        let deepest = families
            .map(|material| lessons.deepest(material.family, is_thin_for_depth(facts.outer_mm)));
        deepest.reduce(f64::min).unwrap_or(0.0)
    }

    /// Length held back for a row more than by the machine's own stand-off [mm].
    pub(super) fn held_mm(&self, row: &RowInput) -> f64 {
        let clearance = row.clearance.zip(self.machine);
        clearance.map_or(0.0, |(clearance, machine)| {
            clearance.lost_mm(machine.stand_off_mm)
        })
    }

    pub(super) fn law(&self, facts: &TubeFacts) -> DepthLaw {
        DepthLaw {
            halved_mm: self.depth.median * facts.outer_mm,
            exponent: self.start.depth_m,
        }
    }

    /// Deviation of one hole: what the lot shares, and the hole's own scatter.
    pub(super) fn one_hole(&self, shared: f64) -> f64 {
        let own = self.start.hole_scatter;
        libm::sqrt(shared * shared + own * own)
    }

    /// True where this machine drives the tube.
    pub(super) fn is_driven(&self, facts: &TubeFacts) -> bool {
        self.machine
            .is_none_or(|machine| drives(machine, facts.outer_mm))
    }
}

/// The feed along the hole, scaled so that it begins with the one that somebody typed.
fn feed_that_stands(computed: Option<Profile>, typed: Option<f64>) -> Option<Profile> {
    match (computed, typed) {
        (Some(feed), Some(typed)) => {
            let factor = typed / feed.first();
            Some(feed.scaled(factor))
        }
        (computed, typed) => computed.or(typed.map(Profile::one)),
    }
}
