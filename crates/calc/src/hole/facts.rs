//! What the shop's tables say of a material and of a tube.

use crate::idx::Idx;
use crate::interpolate::{log_log, log_log_held};
use crate::learn::Lessons;
use crate::quantity::{Limits, SAME_SIZE_MM, Spread};
use crate::reach::usable;
use crate::size::gap_of;
use crate::tables::{Guide, Machine, Material, StartValues, Tables, Tube, TubeMaterial};

/// Median and deviation of a material's feed and wear.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct MaterialFacts {
    pub(super) feed: f64,
    pub(super) feed_sigma: f64,
    pub(super) wear: f64,
    pub(super) wear_sigma: f64,
    pub(super) tube_material: TubeMaterial,
}

/// What a tube's size makes of gap, feed and wear.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct TubeFacts {
    pub(super) outer_mm: f64,
    pub(super) material: TubeMaterial,
    pub(super) several: bool,
    pub(super) gap: Option<Spread>,
    /// Feed of its size relative to 1 mm; `None` where nothing is known of such a size.
    pub(super) feed_by_size: Option<f64>,
    /// Feed of its channels relative to one.
    pub(super) feed_by_channels: f64,
    /// Wear relative to one channel of 1 mm.
    pub(super) wear: f64,
    /// Index of its guide in the tables.
    pub(super) guide: Option<Idx<Guide>>,
    /// Usable length on this machine [mm].
    pub(super) usable_mm: Option<f64>,
    /// Minutes of an electrode change on this machine [min].
    pub(super) change: Spread,
}

impl TubeFacts {
    /// Feed relative to one channel of 1 mm; `None` where nothing is known of such a size.
    pub(super) fn feed(&self) -> Option<f64> {
        self.feed_by_size
            .map(|by_size| by_size * self.feed_by_channels)
    }
}

/// True where a machine drives a tube of this diameter.
pub(super) fn drives(machine: &Machine, outer_mm: f64) -> bool {
    let Limits { lower, upper } = machine.tube_mm;
    outer_mm >= lower - SAME_SIZE_MM && outer_mm <= upper + SAME_SIZE_MM
}

pub(super) fn material_facts(material: &Material) -> MaterialFacts {
    MaterialFacts {
        feed: material.feed_mm_min.p50(),
        feed_sigma: material.feed_mm_min.sigma(),
        wear: material.wear.p50(),
        wear_sigma: material.wear.sigma(),
        tube_material: material.tube_material,
    }
}

/// Start values with what the shop's records make of them on a machine.
pub(super) struct ByRecords<'a> {
    pub(super) start: &'a StartValues,
    pub(super) lessons: Option<&'a Lessons>,
    pub(super) machine: Option<Idx<Machine>>,
}

impl ByRecords<'_> {
    /// Gap per side of a tube [mm].
    pub(super) fn gap(&self, outer_mm: f64) -> Option<Spread> {
        let start = self.start;
        let gap = gap_of(&start.gap_mm, outer_mm, start.deviations.gap())?;
        Some(match self.lessons {
            Some(lessons) => lessons.gap(start, self.machine, outer_mm, gap),
            None => gap,
        })
    }
}

pub(super) fn tube_facts(
    tube: &Tube,
    tables: &Tables,
    machine: Option<&Machine>,
    known: &ByRecords<'_>,
) -> TubeFacts {
    let start = known.start;
    let several = tube.channels > 1;
    let [feed, wear] = if several {
        [start.channels_feed, start.channels_wear]
    } else {
        [1.0, 1.0]
    };
    let change = match machine {
        Some(machine) if machine.changer => start.change_by_changer_min,
        _ if tube.outer_mm <= start.thin_tube_mm => start.change_thin_min,
        _ => start.change_by_hand_min,
    };
    TubeFacts {
        outer_mm: tube.outer_mm,
        material: tube.material,
        several,
        gap: known.gap(tube.outer_mm),
        feed_by_size: log_log(&start.feed_by_diameter, tube.outer_mm),
        feed_by_channels: feed,
        wear: log_log_held(&start.wear_by_diameter, tube.outer_mm).unwrap_or(1.0) * wear,
        guide: tables.guide_for(tube.outer_mm),
        // What is longer than the machine takes is cut down to what it takes.
        usable_mm: machine.map(|machine| {
            let length = tube.length_mm.min(machine.tube_length_mm);
            usable(length, machine.held_back_mm, machine.stroke_mm)
        }),
        change: change.at_least(start.deviations.handling()),
    }
}
