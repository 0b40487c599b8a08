//! The lot: its counts, minutes and hours, with what was overruled.

use alloc::vec::Vec;

use super::electrodes::{Tube, electrode_figures};
use super::prepare::{Prepared, Ready};
use super::{Answers, bands};
use crate::figure::Figure;
use crate::finding::{About, Finding, Kind, Level};
use crate::input::JobInput;
use crate::job_figures::LotFigures;
use crate::rollup::{Counts, TubeUse, roll_up, setup_counts};

/// A figure that was overruled: what was computed, and what stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Overruled {
    pub(super) computed: f64,
    pub(super) stands: f64,
}

impl Overruled {
    /// The overrule of a figure, told as a finding; a value that is no number counts for nothing.
    pub(super) fn of(
        input: &JobInput,
        figure: Figure,
        computed: f64,
        findings: &mut Vec<Finding>,
    ) -> Option<Self> {
        let overrule = input
            .overrules
            .iter()
            .find(|overrule| overrule.figure == figure)?;
        let stands = overrule.value;
        if !(stands.is_finite() && stands >= 0.0) {
            return None;
        }
        findings.push(Finding {
            level: Level::Note,
            about: About::Job,
            kind: Kind::Overruled {
                figure,
                computed: Some(computed),
                stands,
            },
            remedy: None,
        });
        Some(Self { computed, stands })
    }

    /// What stands over what was computed; 1 where nothing was.
    pub(super) fn ratio(self) -> f64 {
        if self.computed > 0.0 {
            self.stands / self.computed
        } else {
            1.0
        }
    }
}

/// The offered lot.
pub(super) struct Lot {
    pub(super) figures: LotFigures,
    pub(super) counts: Counts,
    /// Electrodes that stand over electrodes computed, tube by tube.
    pub(super) electrode_ratios: Vec<f64>,
}

impl Prepared<'_> {
    /// Figures of the offered lot.
    pub(super) fn lot(
        &self,
        ready: &Ready,
        quantity: u32,
        answers: Option<&Answers>,
        findings: &mut Vec<Finding>,
    ) -> Lot {
        let (electrodes, electrode_ratios): (Vec<_>, Vec<_>) =
            electrode_figures(self, ready, quantity, answers, findings)
                .into_iter()
                .unzip();
        let uses: Vec<TubeUse> = ready
            .tubes
            .iter()
            .zip(&electrodes)
            .map(|(tube, figure)| used(tube, quantity, u64::from(figure.needed)))
            .collect();
        let computed = self.setups.figures.len() as f64;
        Overruled::of(self.input, Figure::Setups, computed, findings);
        let counts = self.counts(ready, quantity, &uses);
        let (machine, labor) = roll_up(&counts, &ready.times);
        let mut hours = bands::hours(self, ready, &counts, [machine.sum(), labor.sum()], answers);
        let figures = [Figure::MachineHours, Figure::LaborHours];
        for (hours, figure) in hours.iter_mut().zip(figures) {
            if let Some(overruled) = Overruled::of(self.input, figure, hours.p50, findings) {
                *hours = overruled_band(*hours, overruled);
            }
        }
        let [machine_hours, labor_hours] = hours;
        Lot {
            figures: LotFigures {
                quantity,
                machine_hours,
                labor_hours,
                machine,
                labor,
                electrodes,
            },
            counts,
            electrode_ratios,
        }
    }

    /// How often everything is done in a lot with these uses of its tubes.
    pub(super) fn counts(&self, ready: &Ready, quantity: u32, uses: &[TubeUse]) -> Counts {
        let mut counts = self.setup_counts(ready, quantity);
        let parts = f64::from(quantity);
        for row in &ready.rows {
            let minutes = row.at_median.minutes();
            let ends = row.ends() * parts;
            counts.ends += ends as u64;
            counts.hole_minutes += f64::from(row.holes) * parts * minutes;
            let broken = ends * row.drill.breakage();
            let each = row.ends() / f64::from(row.holes.max(1));
            counts.broken_hole_min += broken * minutes / each.max(1.0) / 2.0;
            let thin = ready
                .tubes
                .iter()
                .any(|tube| tube.tube == row.tube && tube.thin);
            counts.broken[usize::from(!thin)] += broken;
        }
        for (tube, used) in ready.tubes.iter().zip(uses) {
            used.add_to(&mut counts, tube.thin);
        }
        counts
    }

    /// Counts of clamping, with an overruled number of setups.
    ///
    /// More or fewer setups than were found are set up and loaded as the others are on average.
    pub(super) fn setup_counts(&self, ready: &Ready, quantity: u32) -> Counts {
        let setups = &self.setups.figures;
        let mut counts = setup_counts(setups, quantity, &ready.times);
        let mut unsaid = Vec::new();
        let computed = setups.len() as f64;
        let overruled = Overruled::of(self.input, Figure::Setups, computed, &mut unsaid);
        if let Some(overruled) = overruled {
            let stands = libm::round(overruled.stands) as u64;
            counts.turn_overs = counts.turn_overs.min(stands.saturating_sub(1));
            counts.set_ups = stands - counts.turn_overs.min(stands);
            counts.loads = libm::round(counts.loads as f64 * overruled.ratio()) as u64;
        }
        counts
    }
}

/// Uses of a tube in a lot that takes so many electrodes of it in all.
pub(super) fn used(tube: &Tube, quantity: u32, electrodes: u64) -> TubeUse {
    let whole = tube.median.used(quantity, 0).whole;
    TubeUse {
        whole: whole.min(electrodes),
        ..tube.median.used(quantity, electrodes.saturating_sub(whole))
    }
}

/// A band moved to the value that stands; one that was nothing becomes just that value.
pub(super) fn overruled_band(
    band: crate::quantity::Band,
    overruled: Overruled,
) -> crate::quantity::Band {
    if overruled.computed > 0.0 {
        band.scaled(overruled.ratio())
    } else {
        crate::quantity::Band::exact(overruled.stands)
    }
}
