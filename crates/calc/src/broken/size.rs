//! How wide the burnt hole must be, and how wide it may be.

use super::{Broken, Kind, Start};
use crate::interpolate::linear;
use crate::quantity::{Limits, SAME_SIZE_MM};
use crate::standards::threads::{COARSE, Thread};

/// From this diameter on a tap has four flutes where nobody said, below three [mm] («memory»).
const FOUR_FLUTES_FROM_MM: f64 = 8.0;
/// Flutes of a reamer where nobody said («memory»).
const REAMER_FLUTES: f64 = 6.0;

/// What is burnt away and between which diameters [mm].
pub(super) struct Size {
    /// What must be gone, on the tool's own axis.
    pub(super) core: f64,
    /// What must stay whole.
    pub(super) bound: f64,
    /// Least and greatest burnt hole.
    pub(super) hole: Limits,
}

impl Size {
    /// The sizes; `None` where a figure makes no sense or the thread's pitch isn't known.
    pub(super) fn of(broken: &Broken, start: &Start) -> Option<Self> {
        let Broken {
            nominal_mm: nominal,
            gap_mm,
            margin_mm,
            run_out_mm,
            off_center_mm,
            ..
        } = *broken;
        let not_negative = [
            gap_mm,
            margin_mm,
            run_out_mm,
            off_center_mm,
            broken.below_face_mm,
        ]
        .into_iter()
        .all(|figure| figure.is_finite() && figure >= 0.0);
        if !not_negative || !nominal.is_finite() || nominal <= 0.0 {
            return None;
        }
        let bound = broken
            .bound_mm
            .or_else(|| own_bound(broken))
            .filter(|bound| bound.is_finite() && *bound > 0.0)?;
        let core = match broken.kind {
            Kind::Tap | Kind::Reamer => linear(&start.web_by_flutes, flutes(broken)) * nominal,
            Kind::Drill => start.drill_web * nominal,
            Kind::Stud => start.stud_share * bound,
            Kind::Extractor => start.extractor_body * nominal,
        };
        let off = 2.0 * (run_out_mm + off_center_mm);
        let least = match broken.kind {
            Kind::Tap | Kind::Reamer | Kind::Extractor => core + off,
            Kind::Drill => (core + off).max(start.drill_frees * nominal + 2.0 * gap_mm),
            // A coil that is thicker on one side still comes out: what counts is how much is gone.
            Kind::Stud => core,
        };
        let hole = Limits::new(least, bound - 2.0 * margin_mm);
        (core > 0.0 && least.is_finite()).then_some(Self { core, bound, hole })
    }
}

/// The thread's minor diameter, or the hole that the tool itself made.
fn own_bound(broken: &Broken) -> Option<f64> {
    if !matches!(broken.kind, Kind::Tap | Kind::Stud) {
        return Some(broken.nominal_mm);
    }
    let major_mm = broken.nominal_mm;
    let thread = match broken.pitch_mm {
        Some(pitch_mm) if pitch_mm > 0.0 => Thread {
            designation: "",
            major_mm,
            pitch_mm,
        },
        Some(_) => return None,
        None => *COARSE
            .iter()
            .find(|thread| (thread.major_mm - major_mm).abs() < SAME_SIZE_MM)?,
    };
    Some(thread.minor_mm())
}

fn flutes(broken: &Broken) -> f64 {
    match (broken.flutes, broken.kind) {
        (Some(flutes), _) => f64::from(flutes),
        (None, Kind::Reamer) => REAMER_FLUTES,
        (None, _) if broken.nominal_mm < FOUR_FLUTES_FROM_MM => 3.0,
        (None, _) => 4.0,
    }
}
