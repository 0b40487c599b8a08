//! Rows that one plunge into full metal doesn't make: broken tools, and holes that no tube fits.

use alloc::boxed::Box;
use alloc::vec::Vec;

use super::context::Context;
use super::facts::{ByRecords, TubeFacts};
use super::planned::Plan;
use super::profile::Profile;
use crate::broken::{self, Broken, Choice};
use crate::figure::Figure;
use crate::idx::Idx;
use crate::input::{HoleEnd, RowInput};
use crate::plunge::{Asked, LARGEST_MM, Manner, Opening, ways};
use crate::quantity::{Limits, ROUNDING_MM, Spread};
use crate::tables::Tube;

/// Smallest hole that a tube is led along a circle in [mm] («memory» of common practice, no source).
pub(super) const CIRCLE_FROM_MM: f64 = 1.5;
/// Limits that an opened hole needs between them [mm] (our choice, no source): cusps, the tube's
/// run-out and its being pushed aside by plunges that cut on one side.
const CIRCLE_WIDTH_MM: f64 = 0.1;
/// Deviation of the minutes and the wear of an opened hole beside those of one plunge (ours).
const OPENED_SIGMA: f64 = 0.25;

/// How many of the widest tubes are tried that open a hole: a thinner one takes more plunges (ours).
const WIDEST: usize = 3;

/// What makes a row's burn another one than a plunge into full metal.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Burnt {
    /// What broke, and with what it is burnt out.
    pub(super) tool: Option<broken::Plan>,
    /// How a tube that is too thin opens the hole.
    pub(super) opening: Option<Opening>,
    /// Feed relative to full metal [-].
    pub(super) feed_share: f64,
    /// Minutes and wear relative to one plunge with the same tube [-].
    pub(super) minutes: f64,
    pub(super) wear: f64,
    /// Deviations of the logarithm of minutes and wear beside those of one plunge.
    pub(super) feed_sigma: f64,
    pub(super) wear_sigma: f64,
}

impl Burnt {
    /// Plunges of one hole after the first, each beside those before it.
    pub(super) fn more_plunges(&self) -> u32 {
        let plunges = self.opening.map_or(1, |opening| opening.plunges);
        plunges.saturating_sub(1)
    }

    /// Least and greatest burnt hole of a broken tool [mm]; `None` where none takes its core and spares
    /// the thread, and for all else.
    fn limits_mm(&self) -> Option<Limits> {
        let burnt = self.tool.as_ref()?.burnt_mm;
        (burnt.lower <= burnt.upper).then_some(burnt)
    }

    /// Smallest and largest hole that comes of it [mm]: what the tube burns in one plunge, and what it is
    /// led to where it opens.
    pub(super) fn hole_mm(&self, gap: Option<Spread>, limits: Option<Limits>) -> Option<Limits> {
        match (self.opening, self.tool, gap) {
            (Some(_), Some(tool), _) => tool.hole_mm.map(|hole| Limits::new(hole, hole)),
            (Some(_), None, _) => {
                limits.map(|limits| Limits::new(limits.middle(), limits.middle()))
            }
            (None, Some(tool), Some(gap)) => {
                let outer_mm = tool.electrode()?.outer_mm;
                Some(Limits::new(
                    outer_mm + 2.0 * gap.p10,
                    outer_mm + 2.0 * gap.p90,
                ))
            }
            _ => None,
        }
    }

    fn opened_by(mut self, opening: Opening, one: &Asked) -> Self {
        self.minutes = opening.minutes / one.plunge_min;
        self.wear = opening.wear_mm / (one.wear * one.depth_mm);
        self.feed_sigma = libm::hypot(self.feed_sigma, OPENED_SIGMA);
        self.wear_sigma = OPENED_SIGMA;
        self.opening = Some(opening);
        self
    }

    fn of_tool(plan: broken::Plan, share: Spread) -> Self {
        Self {
            tool: Some(plan),
            opening: None,
            feed_share: share.p50(),
            minutes: 1.0,
            wear: 1.0,
            feed_sigma: share.sigma(),
            wear_sigma: 0.0,
        }
    }

    const fn full_metal() -> Self {
        Self {
            tool: None,
            opening: None,
            feed_share: 1.0,
            minutes: 1.0,
            wear: 1.0,
            feed_sigma: 0.0,
            wear_sigma: 0.0,
        }
    }
}

/// A candidate's place with what one plunge of it takes.
struct Plunge {
    place: usize,
    meets: (bool, bool),
    stock: broken::Stock,
    gap_mm: f64,
}

impl Context<'_> {
    /// The plan of a row with a broken tool in it.
    pub(super) fn planned_broken(&self, row: &RowInput, tool: &Broken, bare: Plan) -> Plan {
        let gap_mm = self.gap_near(tool);
        let tool = Broken { gap_mm, ..*tool };
        let looked_at = match self.typed_place(row, &bare) {
            Some(typed) => alloc::vec![typed],
            None => {
                let Some(outer) = tool.electrode_mm(&self.start.broken) else {
                    return bare;
                };
                let least_mm = outer.lower - ROUNDING_MM;
                self.looked_at(&bare, least_mm, |facts| {
                    facts.outer_mm <= outer.upper + ROUNDING_MM
                })
            }
        };
        let plunges = self.plunges(row, &bare, &looked_at);
        // A tube of the wished kind, if one fits; what fits comes before what must be led on a circle.
        let liked: Vec<&Plunge> = plunges.iter().filter(|p| p.meets == (true, true)).collect();
        let all: Vec<&Plunge> = plunges.iter().collect();
        let of = |among: &[&Plunge]| {
            let stock: Vec<broken::Stock> = among.iter().map(|plunge| plunge.stock).collect();
            broken::plan(&tool, &stock, &self.start.broken)
        };
        let rank = |plan: &broken::Plan| match plan.choice {
            Choice::Fits(_) => 0,
            Choice::Opened(..) => 1,
            Choice::ThreadAtRisk {
                electrode: Some(_), ..
            } => 2,
            _ => 3,
        };
        let both = [of(&liked), of(&all)].into_iter().flatten();
        let Some(found) = both.min_by_key(rank) else {
            return bare;
        };
        let share = tool.feed_share(&self.start.broken);
        let with = |stock: broken::Stock| all.iter().find(|plunge| plunge.stock == stock);
        let mut burnt = Burnt::of_tool(found, share);
        let place = found.electrode().and_then(with);
        if let Choice::Opened(stock, opening) = found.choice {
            let one = Asked {
                hole_mm: found.hole_mm.unwrap_or_default(),
                depth_mm: found.left_mm,
                through: true,
                tube_mm: stock.outer_mm,
                gap_mm,
                plunge_min: found.left_mm / stock.feed_mm_min,
                wear: stock.wear,
            };
            burnt = burnt.opened_by(opening, &one);
        }
        let plan = Plan {
            limits_mm: burnt.limits_mm(),
            burnt: Some(Box::new(burnt)),
            ..bare
        };
        match place {
            Some(plunge) => self.with_lengths(row, plan, self.all.lengths(plunge.place)),
            None => plan,
        }
    }

    /// The plan of a row whose size no tube makes by one plunge, opened by the one that takes the
    /// fewest minutes; `None` where its limits are closer than that holds or its size is out of range.
    pub(super) fn opened(&self, row: &RowInput, bare: &Plan) -> Option<Plan> {
        let limits = bare.asked()?.limits_mm;
        let is_wide = limits.width() - bare.taper_mm >= CIRCLE_WIDTH_MM;
        if !is_wide || limits.lower < CIRCLE_FROM_MM || limits.upper > LARGEST_MM {
            return None;
        }
        let hole_mm = limits.middle() + bare.taper_mm / 2.0;
        let depth_mm = bare.depth_mm?;
        let goes_in = |facts: &TubeFacts| {
            let gap = facts.gap.map(Spread::p50);
            gap.is_some_and(|gap_mm| facts.outer_mm + 2.0 * gap_mm <= hole_mm)
        };
        let looked_at = self.looked_at(bare, f64::INFINITY, goes_in);
        let mut plunges = self.plunges(row, bare, &looked_at);
        // Of what the row wishes for, where any of that goes in.
        let best = plunges.iter().map(|plunge| plunge.meets).max();
        plunges.retain(|plunge| Some(plunge.meets) == best);
        let with = plunges.iter().filter_map(|plunge| {
            let one = Asked {
                hole_mm,
                depth_mm,
                through: row.end == HoleEnd::Through,
                tube_mm: plunge.stock.outer_mm,
                gap_mm: plunge.gap_mm,
                plunge_min: depth_mm / plunge.stock.feed_mm_min,
                wear: plunge.stock.wear,
            };
            let opening = ways(&one, Manner::default()).cheaper()?;
            Some((plunge, opening, one))
        });
        let (plunge, opening, one) =
            with.min_by(|(_, a, _), (_, b, _)| a.minutes.total_cmp(&b.minutes))?;
        let burnt = Burnt::full_metal().opened_by(opening, &one);
        let plan = Plan {
            burnt: Some(Box::new(burnt)),
            ..bare.clone()
        };
        Some(self.with_lengths(row, plan, self.all.lengths(plunge.place)))
    }

    /// What one plunge takes of each tube that is looked at, see [`Self::looked_at`].
    fn plunges(&self, row: &RowInput, plan: &Plan, places: &[usize]) -> Vec<Plunge> {
        let depth_mm = plan.depth_mm.unwrap_or(1.0);
        let places = places.iter().filter_map(|place| {
            let candidate = self.all.candidates.get(*place)?;
            let facts = candidate.tube.beside(&self.tubes)?;
            let stuff = self.stuff(row, facts, plan, depth_mm);
            Some(Plunge {
                place: *place,
                meets: candidate.meets(plan.wish),
                gap_mm: facts.gap?.p50(),
                stock: broken::Stock {
                    outer_mm: facts.outer_mm,
                    feed_mm_min: stuff.feed.as_ref().map(Profile::first)?,
                    wear: stuff.ratio.as_ref().map(Profile::first)?,
                },
            })
        });
        places.collect()
    }

    /// The tubes that a burnt hole may be made with, of those that the machine drives: the thinnest from
    /// `least_mm` on, which do it in one plunge, and the widest of all that go in, which open it; of what
    /// the row wishes for, and of all others.
    fn looked_at(
        &self,
        plan: &Plan,
        least_mm: f64,
        goes_in: impl Fn(&TubeFacts) -> bool,
    ) -> Vec<usize> {
        let candidates = self.all.candidates.iter().enumerate();
        let clear = candidates.filter_map(|(place, candidate)| {
            let facts = candidate.tube.beside(&self.tubes)?;
            let is_clear = self.is_driven(facts) && goes_in(facts);
            is_clear.then_some((
                place,
                facts.outer_mm,
                candidate.meets(plan.wish) == (true, true),
            ))
        });
        // They come by rising diameter.
        let (liked, others): (Vec<_>, Vec<_>) = clear.partition(|(.., is_liked)| *is_liked);
        let mut places = Vec::new();
        for class in [liked, others] {
            let fits = class.iter().filter(|(_, outer, _)| *outer >= least_mm);
            let widest = class.iter().rev().take(WIDEST);
            places.extend(fits.take(1).chain(widest).map(|(place, ..)| *place));
        }
        places.sort_unstable();
        places.dedup();
        places
    }

    /// The same plan with a length of its tube that the whole lot takes.
    pub(super) fn burnt_with(&self, row: &RowInput, burnt: &Burnt, tube: Idx<Tube>) -> Plan {
        let bare = self.bare(row);
        let plan = Plan {
            limits_mm: burnt.limits_mm().or(bare.limits_mm),
            burnt: Some(Box::new(burnt.clone())),
            ..bare
        };
        self.with_lengths(row, plan, &[tube])
    }

    /// The tube that somebody chose for a row.
    fn typed_place(&self, row: &RowInput, plan: &Plan) -> Option<usize> {
        let overruled = self.overruled(Figure::Electrode(row.id));
        match overruled {
            Some(outer_mm) => self.all.of_diameter(outer_mm, plan.wish),
            None => self.all.of_tube(row.tube?),
        }
    }

    /// Gap per side of a tube about as wide as a broken tool is [mm]: it grows with the tube, so that the
    /// one that is taken, which is thinner, has less of it.
    fn gap_near(&self, tool: &Broken) -> f64 {
        let known = ByRecords {
            start: &self.start,
            lessons: self.lessons,
            machine: self.setting.machine,
        };
        let of = |outer_mm| known.gap(outer_mm).map(Spread::p50);
        of(tool.nominal_mm).unwrap_or(tool.gap_mm)
    }
}
