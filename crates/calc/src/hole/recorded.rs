//! What the start values say of holes that were drilled: what a run record is held against.

use alloc::collections::BTreeMap;
use alloc::rc::Rc;
use alloc::sync::Arc;
use alloc::vec::Vec;

use super::context::Context;
use super::draw::{Draw, DrawnHole};
use super::planned::Plan;
use super::say_deep::is_thin_for_depth;
use crate::idx::Idx;
use crate::input::{JobInput, RowInput};
use crate::job_figures::HoleFigures;
use crate::learn::{BreakageClass, Likeness};
use crate::quantity::{Pace, ROUNDING_MM, Spread};
use crate::rollup::{Times, setup_counts};
use crate::setup::setups;
use crate::tables::{Material, Tube};

/// What the start values say of holes that were drilled.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct PlannedFor {
    pub(crate) like: Likeness,
    pub(crate) tube: Idx<Tube>,
    /// Minutes that go with the feed [min].
    pub(crate) burn_min: f64,
    /// Minutes that go with the wear: electrode changes [min].
    pub(crate) wear_min: f64,
    /// Minutes of touch-off, drawing out, index moves, loading and dressing [min]: how often a tip is
    /// dressed goes by the holes, and how long it takes by whoever does it.
    pub(crate) handling_min: f64,
    /// Length of electrode lost [mm].
    pub(crate) wear_mm: f64,
    /// Gap per side [mm].
    pub(crate) gap: Option<Spread>,
    /// How much smaller the exit is than the entry [mm].
    pub(crate) taper_mm: f64,
    pub(crate) ends: f64,
    pub(crate) class: BreakageClass,
    /// Depth from one end in tube diameters.
    pub(crate) deep: f64,
    pub(crate) thin: bool,
}

/// What the records of a lot share: what is done once for holes of several.
#[derive(Clone, Debug, Default)]
pub(crate) struct SharedByLot {
    /// A hole's share of loading the parts and of indexing them, as the clampings of the whole job ask for
    /// it [min].
    loading_min: f64,
    /// Holes of the lot by the tube they are planned with.
    of_tubes: BTreeMap<usize, f64>,
}

/// Why the start values say nothing of a row.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum NotPlanned {
    NoMaterial,
    SeveralMaterials,
    /// A broken tool, or a hole that was opened: it says nothing of plunges into full metal.
    NotFullMetal,
    NoMachine,
    NoFigures,
}

impl Context<'_> {
    /// What the start values say of so many holes of a row, drilled with this tube; without one, with the
    /// tube that the row is planned with.
    ///
    /// The context is one of start values alone, see [`Context::by_start_values`].
    pub(crate) fn planned_for(
        &self,
        row: &RowInput,
        tube: Option<Idx<Tube>>,
        holes: f64,
        lot: &SharedByLot,
    ) -> Result<PlannedFor, NotPlanned> {
        let material = self.one_material(row)?;
        let machine = self.machine.ok_or(NotPlanned::NoMachine)?;
        if row.broken.is_some() || self.plan(row).burnt.is_some() {
            return Err(NotPlanned::NotFullMetal);
        }
        // As if somebody had chosen the tube for the row: rows that ask the same are planned once.
        let plan: Rc<Plan> = match tube.filter(|_| tube != row.tube) {
            Some(tube) => self.plan(&RowInput {
                tube: Some(tube),
                ..row.clone()
            }),
            None => self.plan(row),
        };
        let tube = plan.tube.ok_or(NotPlanned::NoFigures)?;
        let facts = plan.facts.ok_or(NotPlanned::NoFigures)?;
        let (way, drill) = (plan.way.as_ref().zip(plan.drill())).ok_or(NotPlanned::NoFigures)?;
        let deep_mm = way.deepest_mm();
        let like = self.likeness(material, &facts, deep_mm);
        let hole = drill.at(&Draw::MEDIAN);
        let approach_min = drill.times.approach_min(Pace::Median);
        let inside_min = (hole.other_min - approach_min).max(0.0);
        let times = Times::new(&self.start, machine, Pace::Median);
        let dressed_mm = plan.dress_share * self.start.dressing_mm;
        let [changes, dressings] = between(
            &hole,
            drill.times.usable_mm,
            dressed_mm,
            plan.dress_share,
            holes,
            lot.holes_of(tube),
        );
        let change_min = if facts.outer_mm <= self.start.thin_tube_mm {
            times.change_thin
        } else {
            times.change
        };
        let ends = hole.stages.iter().flatten().count() as f64;
        Ok(PlannedFor {
            like: like.ok_or(NotPlanned::NoMaterial)?,
            tube,
            burn_min: holes * hole.sparking_min,
            wear_min: holes * inside_min + changes * change_min,
            handling_min: holes * (approach_min + lot.loading_min) + dressings * times.dressing,
            wear_mm: holes * hole.wear_mm,
            gap: plan.gap,
            taper_mm: plan.taper_mm,
            ends: holes * ends,
            class: self.breakage_class(&facts, way),
            deep: deep_mm / facts.outer_mm,
            thin: is_thin_for_depth(facts.outer_mm),
        })
    }

    /// What the records of a job's lot share.
    pub(crate) fn shared_by_lot(&self, input: &JobInput) -> SharedByLot {
        let holes: Vec<Arc<HoleFigures>> = (input.rows.iter())
            .map(|row| Arc::new(self.row_figures(row)))
            .collect();
        let parts = input.quantity.unwrap_or(1).max(1);
        let mut of_tubes = BTreeMap::new();
        for hole in &holes {
            if let Some(tube) = hole.tube {
                *of_tubes.entry(tube.at()).or_insert(0.0) += f64::from(hole.places);
            }
        }
        of_tubes.values_mut().for_each(|of| *of *= f64::from(parts));
        let loading_min = self.machine.map_or(0.0, |machine| {
            let times = Times::new(&self.start, machine, Pace::Median);
            let clampings = setups(input, &holes, Some(machine)).figures;
            let counts = setup_counts(&clampings, parts, &times);
            let minutes =
                counts.loads as f64 * times.load + counts.index_moves as f64 * times.index;
            let in_a_part: f64 = holes.iter().map(|hole| f64::from(hole.places)).sum();
            minutes / (f64::from(parts) * in_a_part.max(1.0))
        });
        SharedByLot {
            loading_min,
            of_tubes,
        }
    }

    /// The one material that a row is drilled in.
    fn one_material(&self, row: &RowInput) -> Result<Idx<Material>, NotPlanned> {
        let Some(first) = row.layers.first() else {
            return self.setting.material.ok_or(NotPlanned::NoMaterial);
        };
        let alike = row
            .layers
            .iter()
            .all(|layer| layer.material == first.material);
        if alike {
            Ok(first.material)
        } else {
            Err(NotPlanned::SeveralMaterials)
        }
    }
}

impl SharedByLot {
    /// Holes of the lot that are planned with a tube.
    fn holes_of(&self, tube: Idx<Tube>) -> f64 {
        self.of_tubes.get(&tube.at()).copied().unwrap_or(0.0)
    }
}

/// Electrode changes between holes of one kind, and dressings. The first electrode of a tube goes in with
/// its guide, before the clock runs: all holes of the lot that it drills share that.
fn between(
    hole: &DrawnHole,
    usable_mm: f64,
    dressed_mm: f64,
    dress_share: f64,
    holes: f64,
    of_lot: f64,
) -> [f64; 2] {
    let (mut electrodes, mut ends) = (0.0, 0.0);
    for stage in hole.stages.iter().flatten() {
        let consumed = stage.wear_mm + dressed_mm;
        let room = usable_mm + dressed_mm - stage.target_mm;
        let each = libm::floor((room + ROUNDING_MM) / consumed.max(ROUNDING_MM)).max(1.0);
        electrodes += holes / each;
        ends += holes;
    }
    let dressings = (ends - electrodes).max(0.0) * dress_share;
    let first = holes / of_lot.max(holes);
    [(electrodes - first).max(0.0), dressings]
}
