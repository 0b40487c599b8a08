//! What a row's figures and findings rest on.

use crate::job_figures::FeedSteps;
use alloc::boxed::Box;
use alloc::rc::Rc;

use super::asked::{Asked, Held};
use super::burnt::Burnt;
use super::drill::{Chain, Drill, Times};
use super::facts::TubeFacts;
use super::feed_wear::FeedWear;
use super::meet::Met;
use super::own::Own;
use super::way::Way;
use crate::chance::Chance;
use crate::idx::Idx;
use crate::input::RowInput;
use crate::learn::Breakage;
use crate::quantity::{Limits, Spread};
use crate::size::effort;
use crate::size_choice::{Candidate, Wish};
use crate::tables::Tube;

/// Lower limit that is assumed where the drawing gives a maximum alone (our choice, no source).
const LOWER_OF_MAX: f64 = 0.8;

/// What a row's figures and findings rest on; what can't be computed yet is `None`.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Plan {
    /// Limits as the drawing gives them, the lower one 0 where it gives a maximum alone.
    pub(super) limits_mm: Option<Limits>,
    pub(super) depth_mm: Option<f64>,
    /// How much smaller the exit is than the entry [mm].
    pub(super) taper_mm: f64,
    pub(super) wish: Wish,
    /// Dressings for each hole.
    pub(super) dress_share: f64,
    /// How often tubes break.
    pub(super) breakage: Breakage,
    pub(super) tube: Option<Idx<Tube>>,
    pub(super) facts: Option<TubeFacts>,
    /// Gap per side, and its median before it was overruled [mm].
    pub(super) gap: Option<Spread>,
    pub(super) computed_gap_mm: Option<f64>,
    pub(super) gap_overruled: bool,
    /// The tube as it makes holes.
    pub(super) made: Option<Rc<Candidate>>,
    pub(super) chance: Option<Chance>,
    pub(super) held: Option<Held>,
    pub(super) met: Option<Met>,
    /// What makes it another burn than one plunge into full metal.
    pub(super) burnt: Option<Box<Burnt>>,
    /// Feed at the face, and before it was overruled [mm/min].
    pub(super) feed: Option<f64>,
    pub(super) computed_feed: Option<f64>,
    /// What the feed is a product of.
    pub(super) feed_steps: Option<FeedSteps>,
    pub(super) way: Option<Way>,
    /// Deviations of feed and wear that the material's own bands come to.
    pub(super) stuff_sigmas: FeedWear<f64>,
    /// Whether feed and wear were typed.
    pub(super) typed: FeedWear<bool>,
    /// Deviations of feed and wear that all holes of a lot share.
    pub(super) sigmas: FeedWear<f64>,
    /// The same by the start values alone.
    pub(super) start_sigmas: FeedWear<f64>,
    /// What the shop's records made of feed and wear.
    pub(super) own: FeedWear<Own>,
    /// One hole's wear at its ninetieth percentile relative to the median.
    pub(super) high: f64,
    /// The deepest way is deeper than feed and wear are known for.
    pub(super) too_deep: bool,
    pub(super) usable_mm: Option<f64>,
    pub(super) reach: Option<Reach>,
    pub(super) times: Option<Times>,
    /// Other tubes are planned too, and the cost decides.
    pub(super) compared: bool,
    /// What the row costs the lot with this plan [currency]; `None` where nothing is compared.
    pub(super) cost: Option<f64>,
}

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
    /// What the row costs the lot from one end and from both, where somebody asked for the dearer
    /// [currency].
    pub(super) cheaper: Option<EndsCost>,
}

/// What a row costs the lot by the ends it is drilled from [currency].
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct EndsCost {
    pub(super) one: f64,
    pub(super) both: f64,
}

impl Plan {
    /// What the size is judged by; `None` without limits that leave room for a hole.
    pub(super) fn asked(&self) -> Option<Asked> {
        let Limits { lower, upper } = self
            .limits_mm
            .filter(|Limits { lower, upper }| lower < upper)?;
        let lower = if lower > 0.0 {
            lower
        } else {
            LOWER_OF_MAX * upper
        };
        Some(Asked {
            limits_mm: Limits::new(lower, upper),
            taper_mm: self.taper_mm,
            wish: self.wish,
        })
    }

    /// Factor on the feed for close limits; a maximum alone asks for no effort, and what no effort
    /// holds is told as a finding.
    pub(super) fn effort(&self, table: &[(f64, f64)]) -> f64 {
        let is_tool = self
            .burnt
            .as_ref()
            .is_some_and(|burnt| burnt.tool.is_some());
        let typed = self
            .limits_mm
            .filter(|limits| limits.lower > 0.0 && !is_tool);
        let least = table.first().map_or(1.0, |(_, factor)| *factor);
        typed.map_or(1.0, |limits| effort(table, limits.width()).unwrap_or(least))
    }

    /// Whether this plan is to be taken rather than the other: what reaches, then what costs less.
    pub(super) fn beats(&self, other: &Self) -> bool {
        match (self.cost, other.cost) {
            (Some(mine), Some(others)) => mine < others,
            (mine, others) => mine.is_some() && others.is_none(),
        }
    }

    /// The row ready to be drilled under sampled lot factors.
    pub(super) fn drill(&self) -> Option<Drill> {
        let (way, times) = self.way.as_ref().zip(self.times)?;
        Some(Drill {
            sides: way.sides.clone(),
            times,
            breakage: self.breakage,
            dress_share: self.dress_share,
        })
    }
}

/// Holes of a row in one part.
pub(crate) fn places(row: &RowInput) -> u32 {
    if row.places.is_empty() {
        row.count
    } else {
        u32::try_from(row.places.len()).unwrap_or(u32::MAX)
    }
}
