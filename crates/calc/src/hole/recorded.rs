//! What the start values say of holes that were drilled: what a run record is held against.

use alloc::rc::Rc;
use alloc::vec::Vec;

use super::context::Context;
use super::draw::{Draw, DrawnHole};
use super::planned::Plan;
use super::say_deep::is_thin_for_depth;
use crate::idx::Idx;
use crate::input::RowInput;
use crate::learn::{BreakageClass, Likeness};
use crate::quantity::{Pace, ROUNDING_MM, Spread};
use crate::rollup::Times;
use crate::tables::{Material, Tube};

/// What the start values say of holes that were drilled.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct PlannedFor {
    pub(crate) like: Likeness,
    pub(crate) tube: Idx<Tube>,
    /// Minutes that go with the feed [min].
    pub(crate) burn_min: f64,
    /// Minutes that go with the wear: electrode changes and dressings [min].
    pub(crate) wear_min: f64,
    /// Minutes of touch-off, drawing out, index moves and loading [min].
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

/// Why the start values say nothing of a row.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum NotPlanned {
    NoMaterial,
    SeveralMaterials,
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
    ) -> Result<PlannedFor, NotPlanned> {
        let material = self.one_material(row)?;
        let machine = self.machine.ok_or(NotPlanned::NoMachine)?;
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
        );
        let change_min = if facts.outer_mm <= self.start.thin_tube_mm {
            times.change_thin
        } else {
            times.change
        };
        let between_min = changes * change_min + dressings * times.dressing;
        let in_a_part = f64::from(super::planned::places(row)).max(1.0);
        let parts = holes / in_a_part;
        let moves = index_moves(row);
        let ends = hole.stages.iter().flatten().count() as f64;
        Ok(PlannedFor {
            like: like.ok_or(NotPlanned::NoMaterial)?,
            tube,
            burn_min: holes * hole.sparking_min,
            wear_min: holes * inside_min + between_min,
            handling_min: holes * approach_min + parts * (times.load + moves * times.index),
            wear_mm: holes * hole.wear_mm,
            gap: plan.gap,
            taper_mm: plan.taper_mm,
            ends: holes * ends,
            class: self.breakage_class(&facts, way),
            deep: deep_mm / facts.outer_mm,
            thin: is_thin_for_depth(facts.outer_mm),
        })
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

/// Electrode changes between holes of one kind, and dressings.
fn between(
    hole: &DrawnHole,
    usable_mm: f64,
    dressed_mm: f64,
    dress_share: f64,
    holes: f64,
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
    [(electrodes - 1.0).max(0.0), dressings]
}

/// Index moves of one part: one for each direction where there are several.
fn index_moves(row: &RowInput) -> f64 {
    let mut seen: Vec<[u64; 3]> = (row.places.iter())
        .map(|place| place.axis.map(f64::to_bits))
        .collect();
    seen.sort_unstable();
    seen.dedup();
    if seen.len() > 1 {
        seen.len() as f64
    } else {
        0.0
    }
}
