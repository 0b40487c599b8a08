//! The offered lot: its counts, minutes and hours, with what was overruled.

use alloc::vec::Vec;

use super::bands;
use super::by_whom::ByWhom;
use super::electrodes::electrode_figures;
use super::guides::guide_figures;
use super::known::{Known, LotDrawn};
use super::overruled::overruled_band;
use crate::figure::Figure;
use crate::finding::Finding;
use crate::idx::Idx;
use crate::job_figures::LotFigures;
use crate::quantity::Band;
use crate::rollup::{Counts, TubeUse, roll_up};
use crate::tables::Tube;

/// The offered lot.
pub(super) struct Lot {
    pub(super) figures: LotFigures,
    pub(super) counts: Counts,
    /// Electrodes that stand over electrodes computed, tube by tube.
    pub(super) electrode_ratios: Vec<f64>,
    /// The same lot draw by draw; empty until it was drawn.
    pub(super) drawn: Vec<LotDrawn>,
}

impl Known<'_> {
    /// Figures of the offered lot.
    pub(super) fn lot(&self, quantity: u32, findings: &mut Vec<Finding>) -> Lot {
        let clamped = self.setup_counts(quantity);
        let drawn = self.drawn(&clamped);
        let (electrodes, electrode_ratios): (Vec<_>, Vec<_>) =
            electrode_figures(self, quantity, &drawn, findings)
                .into_iter()
                .unzip();
        let guides = guide_figures(self.prepared, quantity, findings);
        let uses: Vec<TubeUse> = self
            .ready
            .tubes
            .iter()
            .zip(&electrodes)
            .map(|(tube, figure)| tube.lot.used(quantity, u64::from(figure.needed)))
            .collect();
        self.overruled(Figure::Setups, self.setups.len() as f64, findings);
        let counts = self.counts(clamped, &uses);
        let (machine, labor) = roll_up(&counts, &self.ready.times);
        let minutes = ByWhom {
            machine: machine.sum(),
            labor: labor.sum(),
        };
        let hours = bands::hours(self, &counts, minutes, &drawn);
        let calibrated = bands::hours_calibrated(self, &counts, minutes);
        let mut stand = |figure, hours: Band| match self.overruled(figure, hours.p50, findings) {
            Some(overruled) => overruled_band(hours, overruled),
            None => hours,
        };
        let machine_hours = stand(Figure::MachineHours, hours.machine);
        let labor_hours = stand(Figure::LaborHours, hours.labor);
        Lot {
            figures: LotFigures {
                quantity,
                machine_hours,
                labor_hours,
                machine_hours_calibrated: calibrated.machine,
                labor_hours_calibrated: calibrated.labor,
                machine,
                labor,
                hole_minutes: self.hole_minutes(quantity),
                electrodes,
                guides,
                part_by_part: self.part_by_part(quantity),
            },
            counts,
            electrode_ratios,
            drawn,
        }
    }

    /// Minutes in the holes of each row.
    fn hole_minutes(&self, quantity: u32) -> Vec<f64> {
        let rows = self.ready.rows.iter();
        rows.map(|row| row.in_holes_min(f64::from(quantity)))
            .collect()
    }

    /// How often everything is done in a lot with these uses of its tubes.
    fn counts(&self, clamped: Counts, uses: &[TubeUse]) -> Counts {
        let mut counts = clamped;
        let parts = counts.parts as f64;
        let thin: Vec<Idx<Tube>> = self
            .ready
            .tubes
            .iter()
            .filter(|tube| tube.lot.thin)
            .map(|tube| tube.lot.tube)
            .collect();
        for row in &self.ready.rows {
            let minutes = row.at_median.minutes();
            let ends = row.ends() * parts;
            counts.add_checks(row.checks(parts));
            counts.hole_minutes += row.in_holes_min(parts);
            let broken = ends * row.drill.breakage().chance;
            let each = row.ends() / f64::from(row.holes.max(1));
            counts.broken_hole_min += broken * minutes / each.max(1.0) / 2.0;
            counts.broken.add(broken, thin.contains(&row.tube));
        }
        for (tube, used) in self.ready.tubes.iter().zip(uses) {
            used.add_to(&mut counts, tube.lot.thin);
        }
        self.put_inspected(&mut counts);
        counts
    }
}
