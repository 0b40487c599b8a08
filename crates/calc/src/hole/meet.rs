//! How a row's tool meets the work where it enters and where it leaves.

use crate::entry::{AtEnds, Meeting, Zone, flat, round, tilt_on_round};
use crate::input::{HoleEnd, RowInput, Surface};

/// A hole at least this share of the chord on the axis goes through the whole round.
const THROUGH_SHARE: f64 = 0.99;

/// How a row's tool meets the work.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Met {
    /// Angle from the surface's normal [deg].
    pub(super) tilt_deg: f64,
    /// Entry and exit zone; `None` where the axis does not cross the surface.
    pub(super) zones: Option<AtEnds<Zone>>,
    /// How the tool lies to a round surface.
    pub(super) meeting: Meeting,
}

/// How a tool of this diameter meets the work.
///
/// A wall is taken to have parallel faces, so that a tilted hole leaves as it enters. A hole through a
/// whole round bar or ball leaves as it enters too; a shorter one is taken to end in a face square
/// to its axis. A blind hole has no exit zone.
pub(super) fn meet(row: &RowInput, tube_mm: f64, depth_mm: Option<f64>) -> Met {
    let open = row.end != HoleEnd::Blind;
    let (radius_mm, offset_mm) = match row.surface {
        Surface::Flat => {
            let exit = |zone| if open { zone } else { Zone::NONE };
            return Met {
                tilt_deg: row.tilt_deg,
                zones: flat(tube_mm, row.tilt_deg).map(|entry| AtEnds {
                    entry,
                    exit: exit(entry),
                }),
                meeting: Meeting::Whole,
            };
        }
        Surface::Cylinder {
            radius_mm,
            offset_mm,
        }
        | Surface::Ball {
            radius_mm,
            offset_mm,
        } => (radius_mm, offset_mm),
    };
    let met = round(radius_mm, offset_mm, tube_mm);
    let through = depth_mm.is_some_and(|depth| depth >= THROUGH_SHARE * met.axis_chord_mm);
    let mut entry = met.zone;
    if let (Meeting::Overhang { .. }, Some(depth)) = (met.meeting, depth_mm) {
        // No closed wall anywhere: all of it is zone.
        entry.after_mm = entry.after_mm.max(depth);
    }
    let exit = if open && through {
        met.zone.mirrored()
    } else {
        Zone::NONE
    };
    let crosses = matches!(met.meeting, Meeting::Whole | Meeting::Overhang { .. });
    Met {
        tilt_deg: tilt_on_round(radius_mm, offset_mm).unwrap_or(90.0),
        zones: crosses.then_some(AtEnds { entry, exit }),
        meeting: met.meeting,
    }
}
