//! What the shop's records make of feed and wear.

use super::context::Context;
use super::facts::TubeFacts;
use super::feed_wear::FeedWear;
use super::planned::Plan;
use crate::idx::Idx;
use crate::input::RowInput;
use crate::job_figures::{Narrowed, OwnFigures};
use crate::learn::{Factor, Learns, Likeness, family_id, grade_id, machine_id};
use crate::size::gap_of;
use crate::tables::Material;

/// What the shop's records make of one start value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Own {
    /// Factor on the minutes that go with the feed, or on the length lost.
    pub(super) factor: f64,
    /// Deviation of the logarithm over that of the start values.
    pub(super) narrowed: f64,
    /// Deviation of the logarithm from lot to lot.
    pub(super) lot: f64,
}

impl Own {
    fn of(factor: &Factor, before: f64) -> Self {
        Self {
            factor: libm::exp(factor.mean),
            narrowed: if before > 0.0 {
                factor.sigma() / before
            } else {
                1.0
            },
            lot: libm::sqrt(factor.lot),
        }
    }

    /// Several together, each by its weight.
    pub(super) fn together(each: impl Iterator<Item = (f64, Self)>, none: Self) -> Self {
        let (mut weights, mut narrowed, mut lot, mut factor) = (0.0, 0.0, 0.0, 0.0);
        for (weight, own) in each {
            weights += weight;
            narrowed += weight * own.narrowed;
            lot += weight * own.lot;
            factor += weight * own.factor;
        }
        if weights > 0.0 {
            Self {
                factor: factor / weights,
                narrowed: narrowed / weights,
                lot: lot / weights,
            }
        } else {
            none
        }
    }
}

impl Context<'_> {
    /// What the start values alone say.
    pub(super) fn own_of_none(&self) -> FeedWear<Own> {
        let none = Own {
            factor: 1.0,
            narrowed: 1.0,
            lot: self.start.deviations.lot,
        };
        FeedWear {
            feed: none,
            wear: none,
        }
    }

    /// What the records make of a material drilled with a tube to a depth from one end [mm].
    pub(super) fn own(
        &self,
        material: Option<Idx<Material>>,
        facts: &TubeFacts,
        from_end_mm: f64,
    ) -> FeedWear<Own> {
        let like = material.and_then(|material| self.likeness(material, facts, from_end_mm));
        let foreseen = like.and_then(|like| self.lessons?.foresee(&like));
        let Some(foreseen) = foreseen else {
            return self.own_of_none();
        };
        let before = self.start.deviations.process(facts.outer_mm, from_end_mm);
        let [burn, wear, ..] = &foreseen.factors;
        FeedWear {
            feed: Own::of(burn, before),
            wear: Own::of(wear, before),
        }
    }

    /// What decides how a material burns with a tube to a depth from one end [mm].
    pub(super) fn likeness(
        &self,
        material: Idx<Material>,
        facts: &TubeFacts,
        from_end_mm: f64,
    ) -> Option<Likeness> {
        Some(Likeness {
            machine: machine_id(self.setting.machine),
            family: family_id(material.of(&self.tables.materials)?.family),
            grade: grade_id(material),
            electrode: facts.material as u32,
            tube_mm: facts.outer_mm,
            depth_mm: from_end_mm,
        })
    }

    /// The materials that a row goes through: its layers', else the job's.
    pub(super) fn materials_of(&self, row: &RowInput) -> impl Iterator<Item = Idx<Material>> {
        let layers = row.layers.iter().map(|layer| layer.material);
        layers.chain(self.setting.material.filter(|_| row.layers.is_empty()))
    }

    /// What the records make of a row's figures; `None` where there are none.
    pub(super) fn own_figures(&self, row: &RowInput, plan: &Plan) -> Option<OwnFigures> {
        let lessons = self.lessons?;
        let behind = self.materials_of(row).filter_map(|material| {
            let family = material.of(&self.tables.materials)?.family;
            Some((material, lessons.behind(material, family)))
        });
        let (material, behind) = behind.min_by_key(|(_, behind)| behind.grade)?;
        let (facts, deep_mm) = (plan.facts?, plan.way.as_ref()?.deepest_mm());
        let (now, start) = (plan.sigmas, plan.start_sigmas);
        let by_table = plan.facts.and_then(|facts| {
            let start = &self.start;
            gap_of(&start.gap_mm, facts.outer_mm, start.deviations.gap())
        });
        Some(OwnFigures {
            like: self.likeness(material, &facts, deep_mm)?,
            behind,
            burn: Narrowed {
                factor: plan.own.feed.factor,
                sigma: now.feed,
                start_sigma: start.feed,
            },
            wear: Narrowed {
                factor: plan.own.wear.factor,
                sigma: now.wear,
                start_sigma: start.wear,
            },
            wear_measured: lessons.speaks_of(Learns::Wear),
            gap: plan.gap.zip(by_table).map(|(gap, by_table)| Narrowed {
                factor: gap.p50() / by_table.p50(),
                sigma: gap.sigma(),
                start_sigma: by_table.sigma(),
            }),
        })
    }
}
