//! How the tool meets the surfaces that a hole begins and ends in.

use super::say::Voice;
use crate::entry::{Meeting, tilt_on_round};
use crate::finding::{Kind, Level};
use crate::input::{HoleEnd, RowInput, Surface};
use crate::surface::Met;

/// Metal beside a hole that is thinner than this share of its diameter is worth a check (our choice, no
/// source).
const THIN_SHARE: f64 = 0.25;

/// The same as a length [mm] (our choice, no source).
const THIN_MM: f64 = 0.2;

/// An offset and an angle that differ by less may be one and the same [deg].
const LIKELY_ONE_DEG: f64 = 1.0;

/// Angles that say the same differ by less [deg].
const SAME_DEG: f64 = 0.5;

impl Voice<'_> {
    /// What the surfaces of a row's ends make of it.
    pub(super) fn surfaces(&mut self) {
        let Some(met) = self.plan.met else { return };
        let row = self.row;
        let entered = met.entered;
        self.crossed(row.tilt_deg, &entered);
        self.missed(row.surface, entered.meeting);
        self.angle_twice(row);
        self.side_wall(row, &entered);
        if row.exit.is_some() && row.end == HoleEnd::Blind {
            self.say(Level::Check, Kind::ExitOfBlind, None);
        }
        let Some((exit, left)) = row.exit.zip(met.left) else {
            return;
        };
        self.crossed(exit.tilt_deg.unwrap_or(row.tilt_deg), &left);
        let Some((radius_mm, offset_mm)) = exit.surface.round_mm() else {
            if let Meeting::Overhang { by_mm } = left.meeting {
                self.say(Level::Check, Kind::Overhang { by_mm }, None);
            }
            return;
        };
        match left.meeting {
            Meeting::Whole => {}
            Meeting::Overhang { by_mm } if exit.surface.is_inside() => {
                self.say(Level::Check, Kind::ExitGrazes { by_mm }, None);
            }
            Meeting::Overhang { by_mm } => self.say(Level::Check, Kind::Overhang { by_mm }, None),
            Meeting::AxisMisses | Meeting::ToolMisses => {
                let kind = Kind::ExitMisses {
                    offset_mm,
                    radius_mm,
                };
                self.say(Level::Stop, kind, None);
            }
        }
    }

    /// A plane, or a cylinder, that lies along the axis or beyond.
    fn crossed(&mut self, tilt_deg: f64, met: &Met) {
        let misses = matches!(met.meeting, Meeting::AxisMisses | Meeting::ToolMisses);
        if met.zone.is_none() && !misses {
            self.say(Level::Stop, Kind::TiltOutOfRange { tilt_deg }, None);
        }
    }

    fn missed(&mut self, surface: Surface, meeting: Meeting) {
        let (radius_mm, offset_mm) = surface.round_mm().unwrap_or_default();
        match meeting {
            Meeting::Whole => {}
            Meeting::Overhang { by_mm } => self.say(Level::Check, Kind::Overhang { by_mm }, None),
            Meeting::AxisMisses => {
                let kind = Kind::AxisMisses {
                    offset_mm,
                    radius_mm,
                };
                self.say(Level::Stop, kind, None);
            }
            Meeting::ToolMisses => {
                let kind = Kind::ToolMisses {
                    offset_mm,
                    radius_mm,
                };
                self.say(Level::Stop, kind, None);
            }
        }
    }

    /// An offset is an angle: on a ball they may say two things where both are typed, on a cylinder or in a
    /// bore one of them lies along it, and alike they may be meant as one.
    fn angle_twice(&mut self, row: &RowInput) {
        let Some((radius_mm, offset_mm)) = row.surface.round_mm() else {
            return;
        };
        let by_offset = tilt_on_round(radius_mm, offset_mm);
        let both = by_offset.filter(|_| offset_mm != 0.0 && row.tilt_deg != 0.0);
        let Some(offset_deg) = both else { return };
        let typed_deg = row.tilt_deg;
        let apart_deg = (offset_deg - typed_deg.abs()).abs();
        let kind = if let Surface::Ball { .. } = row.surface {
            (apart_deg > SAME_DEG).then_some(Kind::AngleTwice {
                typed_deg,
                offset_deg,
            })
        } else {
            (apart_deg < LIKELY_ONE_DEG).then_some(Kind::AngleCountedTwice {
                typed_deg,
                offset_deg,
            })
        };
        if let Some(kind) = kind {
            self.say(Level::Check, kind, None);
        }
    }

    /// Metal beside the hole that is thin, or gone.
    fn side_wall(&mut self, row: &RowInput, entered: &Met) {
        let hole_mm = self.plan.limits_mm.map(|limits| limits.upper);
        let Some((hole_mm, wall_mm)) = hole_mm.and_then(|hole_mm| {
            let wall_mm = row.surface.side_wall_mm(row.tilt_deg, hole_mm)?;
            Some((hole_mm, wall_mm))
        }) else {
            return;
        };
        // A tool that hangs over is told already.
        if entered.meeting != Meeting::Whole {
            return;
        }
        if wall_mm <= 0.0 {
            self.say(Level::Check, Kind::Overhang { by_mm: -wall_mm }, None);
        } else if wall_mm < THIN_MM.max(THIN_SHARE * hole_mm) {
            self.say(Level::Check, Kind::ThinSideWall { wall_mm }, None);
        }
    }
}
