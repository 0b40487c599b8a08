//! What a row's figures and findings rest on.

use super::context::{Context, SAME_MM, TubeFacts, drives};
use super::drill::{Drill, Times};
use super::meet::{Met, meet};
use super::profile::Profile;
use super::route::Reach;
use super::way::{Metal, Way};
use crate::burn::DepthLaw;
use crate::figure::Figure;
use crate::input::{Ends, HoleEnd, Layer, RowInput};
use crate::quantity::{Spread, Z90};
use crate::size::{Made, Wish, choose, made};
use crate::tables::TubeMaterial;
use crate::wear::rise_per_mm;

/// What a row's figures and findings rest on; what can't be computed yet is `None`.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Plan {
    pub(super) limits_mm: Option<[f64; 2]>,
    pub(super) depth_mm: Option<f64>,
    /// How much smaller the exit is than the entry [mm].
    pub(super) taper_mm: f64,
    pub(super) wish: Wish,
    pub(super) tube: Option<usize>,
    pub(super) facts: Option<TubeFacts>,
    /// Gap per side, and its median before it was overruled [mm].
    pub(super) gap: Option<Spread>,
    pub(super) computed_gap_mm: Option<f64>,
    pub(super) made: Option<Made>,
    pub(super) met: Option<Met>,
    /// Feed at the face, and before it was overruled [mm/min].
    pub(super) feed: Option<f64>,
    pub(super) computed_feed: Option<f64>,
    pub(super) way: Option<Way>,
    pub(super) sigmas: [f64; 2],
    /// One hole's wear at its ninetieth percentile relative to the median.
    pub(super) high: f64,
    pub(super) usable_mm: Option<f64>,
    pub(super) reach: Option<Reach>,
    pub(super) times: Option<Times>,
}

/// Deviations of a row's material, weighted over its layers, and the tube material it wants.
struct Stuff {
    feed: Option<Profile>,
    ratio: Option<Profile>,
    feed_sigma: f64,
    wear_sigma: f64,
}

impl Context<'_> {
    pub(super) fn plan(&self, row: &RowInput) -> Plan {
        let layers_mm: f64 = row.layers.iter().map(|layer| layer.thickness_mm).sum();
        let depth = row.depth_mm.unwrap_or(layers_mm);
        let depth_mm = (depth > 0.0 && depth.is_finite()).then_some(depth);
        let limits_mm = row.limits_mm.filter(|[lower, upper]| {
            *lower >= 0.0 && lower <= upper && *upper > 0.0 && upper.is_finite()
        });
        let both_asked = row.ends == Some(Ends::Both) && row.end == HoleEnd::Through;
        let from_an_end = if both_asked { 0.5 } else { 1.0 } * depth_mm.unwrap_or(0.0);
        let mut plan = Plan {
            limits_mm,
            depth_mm,
            taper_mm: self.tables.start.taper_mm_per_100 * from_an_end / 100.0,
            wish: Wish {
                several: row.end == HoleEnd::Blind || row.core_trapped,
                material: self.wished_material(row),
            },
            tube: None,
            facts: None,
            gap: None,
            computed_gap_mm: None,
            made: None,
            met: None,
            feed: None,
            computed_feed: None,
            way: None,
            sigmas: [0.0; 2],
            high: 1.0,
            usable_mm: None,
            reach: None,
            times: None,
        };
        let lengths = self.lengths(row, &plan);
        let first = lengths.first().copied();
        if let Some(facts) = first.and_then(|tube| self.tubes.get(tube)) {
            plan.tube = first;
            plan.facts = Some(*facts);
            self.size(row, &mut plan, facts);
            self.drilling(row, &mut plan, facts, lengths);
        }
        plan
    }

    /// The tubes to take one length of: the estimator's, or the ones that fit the limits best.
    fn lengths<'b>(&'b self, row: &'b RowInput, plan: &Plan) -> &'b [usize] {
        if let Some(outer_mm) = self.overruled(Figure::Electrode(row.id)) {
            return self.of_diameter(outer_mm, plan.wish);
        }
        if row.tube.is_some_and(|tube| tube < self.tubes.len()) {
            return row.tube.as_slice();
        }
        self.computed_lengths(plan)
    }

    /// The tubes, of all lengths, that fit the limits best.
    pub(super) fn computed_lengths(&self, plan: &Plan) -> &[usize] {
        let Some(limits) = plan.limits_mm else {
            return &[];
        };
        [&self.driven, &self.all]
            .into_iter()
            .find_map(|tubes| {
                let place = choose(&tubes.candidates, limits, plan.taper_mm, plan.wish)?;
                Some(tubes.lengths(place))
            })
            .unwrap_or_default()
    }

    /// The tubes of one diameter, of all lengths, that meet the wish best.
    fn of_diameter(&self, outer_mm: f64, wish: Wish) -> &[usize] {
        [&self.driven, &self.all]
            .into_iter()
            .find_map(|tubes| {
                let alike = tubes.candidates.iter().enumerate();
                let (place, _) = alike
                    .filter(|(_, tube)| (tube.outer_mm - outer_mm).abs() < SAME_MM)
                    .max_by_key(|(_, tube)| tube.meets(wish))?;
                Some(tubes.lengths(place))
            })
            .unwrap_or_default()
    }

    /// The tube material that the start values were taken with; of layers, that of the slowest.
    fn wished_material(&self, row: &RowInput) -> Option<TubeMaterial> {
        let of = |index: usize| self.materials.get(index);
        if row.layers.is_empty() {
            return self
                .input
                .material
                .and_then(of)
                .map(|facts| facts.tube_material);
        }
        let facts = row.layers.iter().filter_map(|layer| of(layer.material));
        facts
            .min_by(|a, b| a.feed.total_cmp(&b.feed))
            .map(|facts| facts.tube_material)
    }

    fn size(&self, row: &RowInput, plan: &mut Plan, facts: &TubeFacts) {
        plan.computed_gap_mm = facts.gap.map(Spread::p50);
        plan.gap = match (self.overruled(Figure::Gap(row.id)), facts.gap) {
            (Some(stands), Some(gap)) => Some(gap.scaled(stands / gap.p50())),
            (Some(stands), None) => Spread::new(stands, stands),
            (None, gap) => gap,
        };
        plan.made = plan.gap.map(|gap| {
            let tolerance = self.tables.start.tube_tolerance_mm;
            made(facts.outer_mm, gap, tolerance, plan.taper_mm)
        });
    }

    /// Feed and wear of the row's material or layers with a tube.
    fn stuff(&self, row: &RowInput, facts: &TubeFacts, depth_mm: Option<f64>) -> Stuff {
        let of = |index: usize| self.materials.get(index);
        if row.layers.is_empty() {
            let material = self.input.material.and_then(of);
            return Stuff {
                feed: material
                    .zip(facts.feed)
                    .map(|(material, factor)| Profile::one(material.feed * factor)),
                ratio: material.map(|material| Profile::one(material.wear * facts.wear)),
                feed_sigma: material.map_or(0.0, |material| material.feed_sigma),
                wear_sigma: material.map_or(0.0, |material| material.wear_sigma),
            };
        }
        let layers = || {
            let of_layer = |layer: &Layer| (layer.thickness_mm.max(0.0), of(layer.material));
            row.layers.iter().map(of_layer)
        };
        // Each layer's deviation counts by the minutes and by the length that the layer takes.
        let [mut minutes, mut feed_sum, mut lost, mut wear_sum] = [0.0; 4];
        let mut left = depth_mm.unwrap_or(f64::MAX);
        for (thickness, material) in layers() {
            let thickness = thickness.clamp(0.0, left);
            left -= thickness;
            if let Some(material) = material {
                minutes += thickness / material.feed;
                feed_sum += thickness / material.feed * material.feed_sigma;
                lost += thickness * material.wear;
                wear_sum += thickness * material.wear * material.wear_sigma;
            }
        }
        let share = |sum: f64, all: f64| if all > 0.0 { sum / all } else { 0.0 };
        Stuff {
            feed: Profile::layered(layers().map(|(thickness, material)| {
                let feed = material.zip(facts.feed);
                (
                    thickness,
                    feed.map(|(material, factor)| material.feed * factor),
                )
            })),
            ratio: Profile::layered(layers().map(|(thickness, material)| {
                (
                    thickness,
                    material.map(|material| material.wear * facts.wear),
                )
            })),
            feed_sigma: share(feed_sum, minutes),
            wear_sigma: share(wear_sum, lost),
        }
    }

    fn drilling(&self, row: &RowInput, plan: &mut Plan, facts: &TubeFacts, lengths: &[usize]) {
        let start = &self.tables.start;
        let met = meet(row, facts.outer_mm, plan.depth_mm);
        plan.met = Some(met);
        let stuff = self.stuff(row, facts, plan.depth_mm);
        let stands = self.overruled(Figure::Feed(row.id));
        plan.computed_feed = stuff.feed.as_ref().map(Profile::first);
        plan.feed = stands.or(plan.computed_feed);
        let feed = match (stuff.feed, stands) {
            (Some(feed), Some(stands)) => {
                let factor = stands / feed.first();
                Some(feed.scaled(factor))
            }
            (feed, stands) => feed.or(stands.map(Profile::one)),
        };
        let (Some(depth_mm), Some(zones)) = (plan.depth_mm, met.zones) else {
            return;
        };
        let overruled_wear_mm = self.overruled(Figure::Wear(row.id));
        let wear_known = stuff.ratio.is_some();
        let Some(ratio) = stuff
            .ratio
            .or(overruled_wear_mm.map(|stands| Profile::one(stands / depth_mm)))
        else {
            return;
        };
        let law = DepthLaw {
            halved_mm: self.depth[0] * facts.outer_mm,
            exponent: start.depth_m,
        };
        plan.sigmas = self.sigmas(&[stuff.feed_sigma, stuff.wear_sigma], depth_mm, facts, law);
        plan.high = libm::exp(Z90 * self.one_hole(plan.sigmas[1]));
        let metal = Metal {
            depth_mm,
            tube_mm: facts.outer_mm,
            zones,
            feed,
            ratio,
            rise: rise_per_mm(self.wear_at_100[0], facts.outer_mm),
            law,
            overruled_wear_mm,
            wears_less: 1.0 - 1.0 / plan.high,
        };
        self.choose_way(row, plan, facts, lengths, &metal);
        if let (Some(way), false) = (&mut plan.way, wear_known) {
            way.computed_wear_mm = None;
        }
    }

    /// Deviations that all holes of a lot share: material, and depth law or rise of wear.
    fn sigmas(
        &self,
        material: &[f64; 2],
        depth_mm: f64,
        facts: &TubeFacts,
        law: DepthLaw,
    ) -> [f64; 2] {
        let share = law.share(depth_mm);
        let by_law = law.exponent * share / (1.0 + share);
        let [at_100, at_100_sigma] = self.wear_at_100;
        let depths = depth_mm / (100.0 * facts.outer_mm);
        let by_rise = at_100 * depths / (1.0 + (at_100 - 1.0) * depths);
        let both = |a: f64, b: f64| libm::sqrt(a * a + b * b);
        [
            both(material[0], by_law * self.depth[1]),
            both(material[1], by_rise * at_100_sigma),
        ]
    }

    /// Deviation of one hole: what the lot shares, and the hole's own scatter.
    pub(super) fn one_hole(&self, shared: f64) -> f64 {
        let own = self.tables.start.hole_scatter;
        libm::sqrt(shared * shared + own * own)
    }

    /// True where this machine drives the tube.
    pub(super) fn is_driven(&self, facts: &TubeFacts) -> bool {
        self.machine
            .is_none_or(|machine| drives(machine, facts.outer_mm))
    }
}

impl Plan {
    /// The row ready to be drilled under sampled lot factors.
    pub(super) fn drill(self) -> Option<Drill> {
        let (way, times) = self.way.zip(self.times)?;
        Some(Drill {
            sides: way.sides,
            times,
        })
    }
}

/// Holes of a row in one part.
pub(super) fn places(row: &RowInput) -> u32 {
    if row.places.is_empty() {
        row.count
    } else {
        u32::try_from(row.places.len()).unwrap_or(u32::MAX)
    }
}
