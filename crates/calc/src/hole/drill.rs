//! A row ready to be drilled under sampled lot factors.

use super::draw::{Draw, DrawnHole, Stage};
use super::feed_wear::FeedWear;
use super::profile::Profile;
use crate::learn::Breakage;
use crate::quantity::{Pace, ROUNDING_MM, Spread};
use crate::reach::{MOST_ELECTRODES, next_through};

/// A row ready to be drilled under sampled lot factors, see [`Drill::at`].
#[derive(Clone, Debug, PartialEq)]
pub struct Drill {
    pub(super) sides: [Option<Side>; 2],
    pub(super) times: Times,
    /// How often tubes break.
    pub(super) breakage: Breakage,
    /// Dressings for each end drilled.
    pub(super) dress_share: f64,
}

/// A row's minutes, and what its electrodes take.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Times {
    /// Usable length U of the electrode [mm].
    pub(super) usable_mm: f64,
    /// Minutes that go with the feed, median [min].
    pub(super) sparking_min: f64,
    /// Touch-offs in one hole, and how long one takes [min].
    pub(super) touch_offs: f64,
    pub(super) touch_off: Spread,
    /// Drawing out of every end and every step [min].
    pub(super) retract_min: f64,
    /// An electrode change, apart from the way down and up again [min].
    pub(super) change: Spread,
    /// Rapid speed of the drilling axis [mm/min].
    pub(super) rapid_mm_min: f64,
    /// What the estimator's minutes are of the computed ones.
    pub(super) overruled: f64,
    /// Deviations of the logarithm of feed and wear.
    pub(super) sigmas: FeedWear<f64>,
    /// The same by the start values alone.
    pub(super) start_sigmas: FeedWear<f64>,
    /// What of the deviations is from lot to lot.
    pub(super) lots: FeedWear<f64>,
}

/// One end of a hole, as far as its electrodes are concerned.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Side {
    /// Wear by length of a shallow hole along the axis.
    pub(super) ratio: Profile,
    /// Rise of the wear ratio [1/mm].
    pub(super) rise: f64,
    /// Depth of metal drilled from this end [mm].
    pub(super) metal_mm: f64,
    /// Depth that the tip must reach from the work's surface [mm].
    pub(super) tip_mm: f64,
    /// Length lost, median [mm].
    pub(super) wear_mm: f64,
    /// Length that is held back more than by the machine's own stand-off, since the head touches before
    /// [mm].
    pub(super) held_mm: f64,
}

/// How the electrodes of one end follow each other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Chain {
    pub(super) stage: Stage,
    /// Sum of the depths at which a new electrode was put in [mm].
    pub(super) reentry_mm: f64,
    /// The bottom was reached.
    pub(super) reaches: bool,
}

impl Side {
    /// Drills to the bottom with as many electrodes as it takes, wear multiplied by `factor`.
    ///
    /// Each one goes on until its usable length is used up; the last one stops at the bottom.
    /// What is not reached with [`MOST_ELECTRODES`] is given up there.
    pub(super) fn chain(&self, usable_mm: f64, factor: f64) -> Chain {
        let mut left_mm = self.wear_mm * factor;
        // What is held back more has to be there like depth.
        let target_mm = self.tip_mm + self.held_mm;
        let mut chain = Chain {
            stage: Stage {
                whole: 0,
                target_mm,
                wear_mm: left_mm,
            },
            reentry_mm: 0.0,
            reaches: true,
        };
        if target_mm + left_mm <= usable_mm + ROUNDING_MM {
            return chain;
        }
        let ratio = self.ratio.clone().scaled(factor);
        let mut depth = 0.0;
        loop {
            let spans = ratio.spans(depth, f64::INFINITY);
            let free_mm = (usable_mm - self.held_mm).max(0.0);
            let reached = next_through(free_mm, self.rise, depth, spans).min(self.metal_mm);
            let whole = chain.stage.whole + 1;
            if reached <= depth + ROUNDING_MM || whole >= MOST_ELECTRODES {
                chain.reaches = false;
                chain.stage.wear_mm = (usable_mm - target_mm).clamp(0.0, left_mm);
                return chain;
            }
            depth = reached;
            left_mm = ratio.lost(depth, self.metal_mm, self.rise);
            chain.stage.whole = whole;
            chain.stage.wear_mm = left_mm;
            chain.reentry_mm += depth;
            if target_mm + left_mm <= usable_mm + ROUNDING_MM {
                return chain;
            }
        }
    }
}

impl Drill {
    /// One hole under sampled lot factors.
    ///
    /// Formula: sparking minutes by the feed factor; wear and the electrodes one after another by the
    /// wear factor, see [`crate::reach`]; touch-off and changes by the pace of handling. An overruled
    /// time multiplies all minutes alike.
    ///
    /// - `draw`: factors about the median [-], above 0, and the pace of handling.
    ///
    /// Result: minutes [min], wear and target depth [mm], electrodes. Where a heavy wear leaves the
    /// bottom out of reach, the most electrodes that are ever put into one hole are counted.
    ///
    /// ```
    /// use quillbore_calc::hole::{Context, Draw};
    /// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
    /// # use shop::*;
    /// let tables = tables();
    /// let input = job(vec![through(0.8, 20.0)]);
    /// let drill = Context::new(&input, &tables).drill(&input.rows[0]).unwrap();
    /// let [median, slow] = [1.0, 0.5].map(|feed| drill.at(&Draw { feed, ..Draw::MEDIAN }));
    /// assert_eq!(slow.sparking_min, 2.0 * median.sparking_min);
    /// assert_eq!(slow.other_min, median.other_min);
    /// ```
    ///
    /// Source: ours.
    #[must_use]
    pub fn at(&self, draw: &Draw) -> DrawnHole {
        self.at_usable(self.times.usable_mm, draw)
    }

    /// The same with an electrode of another usable length [mm].
    pub(crate) fn at_usable(&self, usable_mm: f64, draw: &Draw) -> DrawnHole {
        let times = &self.times;
        let mut hole = DrawnHole {
            sparking_min: times.sparking_min / draw.feed * times.overruled,
            other_min: 0.0,
            wear_mm: 0.0,
            target_mm: 0.0,
            electrodes_per_hole: 0,
            stages: [None; 2],
        };
        let mut other = times.approach_min(draw.pace);
        for (side, stage) in self.sides.iter().zip(&mut hole.stages) {
            let Some(side) = side else { continue };
            let chain = side.chain(usable_mm, draw.wear);
            other += times.changes_min(&chain, draw.pace);
            hole.wear_mm += side.wear_mm * draw.wear;
            hole.target_mm = hole.target_mm.max(side.tip_mm + side.held_mm);
            hole.electrodes_per_hole += chain.stage.whole + 1;
            *stage = Some(chain.stage);
        }
        hole.other_min = other * times.overruled;
        hole
    }

    /// How often its tubes break, as the shop's records make the start value.
    #[must_use]
    pub const fn breakage(&self) -> Breakage {
        self.breakage
    }

    /// What of the deviations of feed and wear is from lot to lot.
    pub(crate) const fn lots(&self) -> FeedWear<f64> {
        self.times.lots
    }

    /// Deviations of feed and wear by the start values alone.
    pub(crate) const fn start_sigmas(&self) -> FeedWear<f64> {
        self.times.start_sigmas
    }

    /// Dressings for each end drilled [-]: 1 before every hole, 0 for none.
    #[must_use]
    pub const fn dress_share(&self) -> f64 {
        self.dress_share
    }

    /// Minutes of an electrode change.
    pub(crate) const fn change(&self) -> Spread {
        self.times.change
    }

    /// Usable length U of its electrode [mm].
    pub(crate) const fn usable_mm(&self) -> f64 {
        self.times.usable_mm
    }

    /// Whether electrodes of a usable length [mm] reach the bottom at the median wear.
    pub(crate) fn reaches(&self, usable_mm: f64) -> bool {
        let sides = self.sides.iter().flatten();
        sides
            .map(|side| side.chain(usable_mm, 1.0))
            .all(|chain| chain.reaches)
    }

    /// Deviations of the logarithm that a lot's holes share: of the feed, the depth law's own
    /// included, and of the wear.
    ///
    /// Formula: the larger of the table's own band (the material's deviation and, by its sensitivity,
    /// the depth law's, added as squares) and [`crate::tables::Deviations::process`]; what was typed
    /// keeps only the deviation from lot to lot.
    ///
    /// Result: of feed and of wear [-].
    ///
    /// ```
    /// use quillbore_calc::hole::{Context, FeedWear};
    /// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
    /// # use shop::*;
    /// let tables = tables();
    /// let input = job(vec![through(1.1, 20.0)]); // about 20 diameters of a tube of about 1 mm
    /// let FeedWear { feed, .. } = Context::new(&input, &tables).drill(&input.rows[0]).unwrap().sigmas();
    /// assert!((feed - 0.617).abs() < 0.001);
    /// ```
    ///
    /// Source: deviations added to first order.
    #[must_use]
    pub fn sigmas(&self) -> FeedWear<f64> {
        self.times.sigmas
    }
}

impl Times {
    /// Minutes of every touch-off and of drawing out.
    pub(super) fn approach_min(&self, pace: Pace) -> f64 {
        self.touch_offs * self.touch_off.pick(pace) + self.retract_min
    }

    /// Minutes of electrode changes inside one end: each further one is changed, touched off, sent
    /// down to the depth so far and drawn out again.
    pub(super) fn changes_min(&self, chain: &Chain, pace: Pace) -> f64 {
        if chain.stage.whole == 0 {
            return 0.0;
        }
        let each = self.change.pick(pace) + self.touch_off.pick(pace);
        f64::from(chain.stage.whole) * each + 2.0 * chain.reentry_mm / self.rapid_mm_min
    }
}
