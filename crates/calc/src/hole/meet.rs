//! How a row's tool meets the work where it enters and where it leaves.

use crate::entry::{AtEnds, Meeting, Zone};
use crate::input::{HoleEnd, RowInput, Surface};
use crate::surface::Met as Surfaced;

/// A hole at least this share of the chord on the axis goes through the whole round.
const THROUGH_SHARE: f64 = 0.99;

/// How a row's tool meets the work.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Met {
    /// The entry.
    pub(super) entered: Surfaced,
    /// The exit; `None` for a closed end, and for a face square to the axis.
    pub(super) left: Option<Surfaced>,
    /// Entry and exit zone; `None` where the axis does not cross a surface.
    pub(super) zones: Option<AtEnds<Zone>>,
    /// Free distance behind the exit [mm]: as typed, else across the bore that the hole opens into.
    pub(super) behind_mm: Option<f64>,
}

/// How a tool of this diameter meets the work.
///
/// Where nobody told the exit, a wall is taken to have parallel faces, so that a tilted hole leaves as it
/// enters; a hole through a whole round bar or ball leaves as it enters too, a shorter one is taken to
/// end in a face square to its axis. A blind hole has no exit zone.
pub(super) fn meet(row: &RowInput, tube_mm: f64, depth_mm: Option<f64>) -> Met {
    let entered = row.surface.entered(row.tilt_deg, tube_mm);
    let left = if row.end == HoleEnd::Blind {
        None
    } else {
        left(row, tube_mm, depth_mm, &entered)
    };
    let mut entry = entered.zone;
    if let (Meeting::Overhang { .. }, Some(depth), Some(zone)) =
        (entered.meeting, depth_mm, &mut entry)
    {
        // No closed wall anywhere: all of it is zone.
        zone.after_mm = zone.after_mm.max(depth);
    }
    let exit = left.map_or(Some(Zone::NONE), |left| left.zone);
    Met {
        entered,
        left,
        zones: entry.zip(exit).map(|(entry, exit)| AtEnds { entry, exit }),
        behind_mm: row.behind_mm.or(left.and_then(|left| left.room_mm)),
    }
}

/// How it leaves; `None` for a face square to the axis.
fn left(
    row: &RowInput,
    tube_mm: f64,
    depth_mm: Option<f64>,
    entered: &Surfaced,
) -> Option<Surfaced> {
    if let Some(exit) = row.exit {
        let tilt_deg = exit.tilt_deg.unwrap_or(row.tilt_deg);
        let mut left = exit.surface.left(tilt_deg, tube_mm);
        if let (Surface::Bore { .. }, Some(room_mm)) = (exit.surface, &mut left.room_mm) {
            // Nobody says whether it leans along the bore or across: the shorter way counts.
            let square = exit.surface.left(0.0, tube_mm).room_mm;
            *room_mm = square.map_or(*room_mm, |square| room_mm.min(square));
        }
        return Some(left);
    }
    match row.surface {
        Surface::Flat => Some(row.surface.left(row.tilt_deg, tube_mm)),
        Surface::Cylinder { .. } | Surface::Ball { .. } => {
            let chord_mm = entered.chord_mm?;
            let through = depth_mm.is_some_and(|depth| depth >= THROUGH_SHARE * chord_mm);
            let left = row.surface.left(row.tilt_deg, tube_mm);
            through.then_some(Surfaced {
                // Whatever it leaves is told of its entry.
                meeting: Meeting::Whole,
                ..left
            })
        }
        Surface::Edge { .. } | Surface::Bore { .. } => None,
    }
}
