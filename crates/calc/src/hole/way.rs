//! One way of drilling a hole: from its entry, or from both ends.

use super::depth::{Bottom, Depth, sure_depth};
use super::drill::{Chain, Side};
use super::profile::Profile;
use crate::burn::{Cut, DepthLaw, cut_minutes, feed_at, overtravel};
use crate::entry::{AtEnds, Zone};
use crate::input::{Ends, HoleEnd, RowInput};
use crate::job_figures::MinutesIn;
use crate::quantity::ROUNDING_MM;
use crate::tables::StartValues;

/// What a hole's ways have in common.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Metal {
    pub(super) depth_mm: f64,
    pub(super) tube_mm: f64,
    pub(super) zones: AtEnds<Zone>,
    /// Length held back more than by the machine's own stand-off [mm].
    pub(super) held_mm: f64,
    /// Free distance behind the exit [mm]; `None` where nothing is behind it.
    pub(super) behind_mm: Option<f64>,
    /// Along the axis, where it is drilled from one end.
    pub(super) one: Along,
    /// Along the axis, where it is drilled from both: the shop's records tell shallow from deep.
    pub(super) both: Along,
    /// Deepest from one end that this feed is known for [mm].
    pub(super) deepest_mm: f64,
    /// Rise of the wear ratio [1/mm].
    pub(super) rise: f64,
    pub(super) law: DepthLaw,
    /// Length that the estimator says one hole loses [mm].
    pub(super) overruled_wear_mm: Option<f64>,
    /// Gap per side at its ninetieth percentile [mm].
    pub(super) gap_mm: f64,
    /// One hole's wear that one lot in fifty stays under, relative to the median.
    pub(super) low: f64,
    /// Minutes and wear relative to one plunge [-].
    pub(super) times: f64,
    pub(super) wears: f64,
}

/// Feed and wear along a hole's axis.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Along {
    /// Feed at the face, where it is known [mm/min].
    pub(super) feed: Option<Profile>,
    /// Wear by length of a shallow hole.
    pub(super) ratio: Profile,
}

/// One way of drilling a hole.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Way {
    pub(super) ends: Ends,
    pub(super) sides: [Option<Side>; 2],
    /// Minutes that go with the feed [min]; the other parts are still 0.
    pub(super) sparking: Option<MinutesIn>,
    /// Travel in full metal [mm].
    pub(super) full_metal_mm: f64,
    pub(super) overtravel_mm: f64,
    /// What of the exit zone lies beyond the exit, drilled from one end [mm].
    pub(super) beyond_exit_mm: f64,
    /// How far before the axis crosses the surface the tool touches it, at each end that it begins from
    /// [mm].
    pub(super) touch_mm: AtEnds<f64>,
    /// How a blind depth, or one with a wall behind it, is come to.
    pub(super) depth: Option<Depth>,
    /// Length lost in one hole before the estimator overruled it [mm].
    pub(super) computed_wear_mm: Option<f64>,
    /// Wear relative to that of the plunge that the machine is set for [-].
    pub(super) wears: f64,
}

impl Way {
    /// Length lost in one hole, over all its ends [mm].
    pub(super) fn wear_mm(&self) -> f64 {
        self.sides.iter().flatten().map(|side| side.wear_mm).sum()
    }

    /// Depth that the tip must reach from the work's surface [mm], the larger of its ends.
    pub(super) fn tip_mm(&self) -> f64 {
        let tips = self.sides.iter().flatten().map(|side| side.tip_mm);
        tips.fold(0.0, f64::max)
    }

    /// Metal drilled from one end, the longer of its ends [mm].
    pub(super) fn deepest_mm(&self) -> f64 {
        let sides = self.sides.iter().flatten();
        sides.fold(0.0, |most, side| most.max(side.metal_mm))
    }

    /// True where each hole is drilled in two steps.
    pub(super) fn two_steps(&self) -> bool {
        self.depth.is_some_and(|depth| depth.plan.two_steps)
    }

    /// Usable length with which one electrode at each end does it [mm].
    pub(super) fn asks_mm(&self) -> f64 {
        let sides = self.sides.iter().flatten();
        sides.fold(0.0, |most, side| {
            most.max(side.tip_mm + side.held_mm + side.wear_mm)
        })
    }

    /// How the electrodes follow each other at every end.
    pub(super) fn chains(&self, usable_mm: f64) -> [Option<Chain>; 2] {
        let [near, far] = &self.sides;
        [near, far].map(|side| side.as_ref().map(|side| side.chain(usable_mm, 1.0)))
    }

    /// Puts the estimator's wear in the place of the computed one.
    fn overrule_wear(&mut self, stands_mm: Option<f64>) {
        let computed_mm = self.wear_mm();
        self.computed_wear_mm = Some(computed_mm);
        if let Some(stands_mm) = stands_mm {
            let factor = stands_mm / computed_mm;
            for side in self.sides.iter_mut().flatten() {
                side.wear_mm *= factor;
                side.ratio = core::mem::replace(&mut side.ratio, Profile::one(0.0)).scaled(factor);
            }
        }
    }
}

impl Metal {
    /// From the entry only.
    pub(super) fn one_end(&self, row: &RowInput, start: &StartValues) -> Way {
        let AtEnds { entry, exit } = self.zones;
        let cut = Cut {
            depth_mm: self.depth_mm,
            entry,
            exit,
        };
        let mut way = Way {
            ends: Ends::One,
            sides: [Some(self.side(self.one.ratio.clone(), self.depth_mm)), None],
            sparking: None,
            full_metal_mm: cut.full_metal_mm(),
            overtravel_mm: 0.0,
            beyond_exit_mm: exit.after_mm,
            touch_mm: AtEnds {
                entry: entry.before_mm,
                exit: 0.0,
            },
            depth: None,
            computed_wear_mm: None,
            wears: self.wears,
        };
        way.overrule_wear(self.overruled_wear_mm);
        if row.end != HoleEnd::Blind {
            way.overtravel_mm = overtravel(
                self.tube_mm,
                start.overtravel_least_mm,
                start.overtravel_diameters,
            );
        }
        let bottom = Bottom {
            depth_mm: self.depth_mm,
            after_mm: exit.after_mm,
            gap_mm: self.gap_mm,
            wear_mm: way.wear_mm() / self.wears,
            low: self.low,
            wanted_mm: way.overtravel_mm,
            behind_mm: self.behind_mm,
            touch_mm: entry.before_mm,
        };
        way.depth = sure_depth(row, &bottom, start);
        if let Some(depth) = &way.depth {
            way.overtravel_mm = depth.overtravel_mm;
        }
        if let Some(side) = &mut way.sides[0] {
            side.tip_mm = self.depth_mm + way.beyond_exit_mm + way.overtravel_mm;
        }
        way.sparking = self.known_feed(&way).map(|feed| {
            let mut parts = self.minutes(&cut, feed, start);
            let last = feed_at(feed.at(self.depth_mm), self.depth_mm, self.law);
            parts.overtravel = self.times * way.overtravel_mm / (last * start.overtravel_feed);
            parts
        });
        way
    }

    /// From both ends, half of the depth and of the overlap each.
    pub(super) fn both_ends(&self, start: &StartValues) -> Way {
        let overlap = start.overlap_mm.clamp(0.0, self.depth_mm);
        let near_mm = f64::midpoint(self.depth_mm, overlap);
        let far_mm = self.depth_mm - near_mm;
        let AtEnds { entry, exit } = self.zones;
        let cut = |depth_mm, entry| Cut {
            depth_mm,
            entry,
            exit: Zone::NONE,
        };
        let near = cut(near_mm, entry);
        let far = cut(far_mm, exit.mirrored());
        let mut sides = [
            self.side(self.both.ratio.clone(), near_mm),
            self.side(self.both.ratio.reversed(self.depth_mm), far_mm),
        ];
        // The far end breaks through into the near one: its worn tip goes on as past a clear exit.
        let beyond_mm = overtravel(
            self.tube_mm,
            start.overtravel_least_mm,
            start.overtravel_diameters,
        )
        .max(overlap);
        sides[0].tip_mm = near_mm;
        sides[1].tip_mm = far_mm + beyond_mm;
        let mut way = Way {
            ends: Ends::Both,
            sides: sides.map(Some),
            sparking: None,
            full_metal_mm: near.full_metal_mm() + far.full_metal_mm(),
            overtravel_mm: beyond_mm,
            beyond_exit_mm: 0.0,
            touch_mm: AtEnds {
                entry: entry.before_mm,
                exit: far.entry.before_mm,
            },
            depth: None,
            computed_wear_mm: None,
            wears: self.wears,
        };
        way.overrule_wear(self.overruled_wear_mm);
        way.sparking = self.known_feed(&way).map(|feed| {
            let from_far = feed.reversed(self.depth_mm);
            let first = self.minutes(&near, feed, start);
            let second = self.minutes(&far, &from_far, start);
            MinutesIn {
                entry: first.entry,
                full_metal: first.full_metal + second.full_metal,
                exit: second.entry,
                overtravel: beyond_mm
                    / (feed_at(from_far.at(far_mm), far_mm, self.law) * start.overtravel_feed),
                ..MinutesIn::default()
            }
        });
        way
    }

    /// The feed, where it is known as deep as this.
    fn known_feed(&self, way: &Way) -> Option<&Profile> {
        let along = match way.ends {
            Ends::One => &self.one,
            Ends::Both => &self.both,
        };
        along
            .feed
            .as_ref()
            .filter(|_| way.deepest_mm() <= self.deepest_mm + ROUNDING_MM)
    }

    fn side(&self, ratio: Profile, metal_mm: f64) -> Side {
        let ratio = ratio.scaled(self.wears);
        Side {
            wear_mm: ratio.lost(0.0, metal_mm, self.rise),
            ratio,
            rise: self.rise,
            metal_mm,
            tip_mm: metal_mm,
            held_mm: self.held_mm,
        }
    }

    fn minutes(&self, cut: &Cut, feed: &Profile, start: &StartValues) -> MinutesIn {
        let full = |from, to| feed.minutes(from, to, self.law);
        let last = feed_at(feed.at(cut.depth_mm), cut.depth_mm, self.law);
        let parts = cut_minutes(
            cut,
            start.zone_feed,
            AtEnds {
                entry: feed.first(),
                exit: last,
            },
            full,
        );
        MinutesIn {
            entry: self.times * parts.entry,
            full_metal: self.times * parts.full_metal,
            exit: self.times * parts.exit,
            ..MinutesIn::default()
        }
    }
}
