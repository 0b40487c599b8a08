//! Figures that the estimator put others in the place of.

use alloc::vec::Vec;

use crate::figure::Figure;
use crate::finding::{About, Finding, Kind, Level};
use crate::input::JobInput;
use crate::quantity::Band;

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

/// A band moved to the value that stands; one that was nothing becomes just that value.
pub(super) fn overruled_band(band: Band, overruled: Overruled) -> Band {
    if overruled.computed > 0.0 {
        band.scaled(overruled.ratio())
    } else {
        Band::exact(overruled.stands)
    }
}
