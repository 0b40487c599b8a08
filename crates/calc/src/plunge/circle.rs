//! Plunge beside plunge on circles about the hole's axis.

use alloc::vec::Vec;
use core::f64::consts::{PI, TAU};

use super::covered::Covered;
use super::rings::{Ring, cover};
use super::{Asked, MOST_PLUNGES, Manner, Opening, Radii, Way};
use crate::quantity::ROUNDING_MM;

/// Opening a hole by plunges beside each other.
///
/// Formula: with `R = D/2`, `R1 = d/2 + g` and cusp c, plunges on a circle `rc = R - R1`, as many as
/// `n = ceil(pi / acos((w^2 + rc^2 - R1^2) / (2 w rc)))` with `w = R - c`: two neighbors' edges then
/// cross no deeper than c inside the wall. Where `rc <= c` one plunge in the middle does it. Where
/// `rc > R1` a middle of radius `(rc^2 - R1^2) / w` is left: it falls out of a through hole; in a blind
/// one further circles cover it, with as few plunges as circles allow. Each plunge takes
/// `plunge_min max(a, least share)` and wears `rho L a`, where a is the share of its area that none
/// before it covered, the first one 1: the tube turns, so wear spreads round its tip.
///
/// - `asked`: hole, tube and one plunge.
/// - `manner`: highest cusp c [mm], above 0 and below R1, and least share [-], 0 to 1.
///
/// Result: minutes [min] and tube lost [mm]; `None` where a figure makes no sense, the tube is wider
/// than the hole, or more than [`MOST_PLUNGES`] would be needed. A wider through hole never takes less;
/// the count is whole, so minutes jump, by two least shares from one plunge to three. In a blind hole
/// the middle takes a least share at once, and may take less of one where other circles cover it.
///
/// A 3 mm hole with a 1 mm tube: w 1.48, rc 0.95, half the angle between plunges 0.124, n 26:
///
/// ```
/// use quillbore_calc::plunge::{Asked, Manner, on_circle};
/// let asked = Asked {
///     hole_mm: 3.0, depth_mm: 10.0, through: true, tube_mm: 1.0, gap_mm: 0.05,
///     plunge_min: 2.0, wear: 0.5,
/// };
/// let opening = on_circle(&asked, Manner::default()).unwrap();
/// assert_eq!((opening.plunges, opening.rings), (26, 1));
/// assert!((opening.slug_mm.unwrap() - 0.8).abs() < 1e-9); // 2 (0.95 - 0.55)
/// ```
///
/// Source: geometry; that minutes go with volume, and the least share, are ours.
#[must_use]
pub fn on_circle(asked: &Asked, manner: Manner) -> Option<Opening> {
    let radii = asked.radii()?;
    let Manner {
        cusp_mm,
        least_share,
        ..
    } = manner;
    let sound = cusp_mm > 0.0 && cusp_mm < radii.plunge && (0.0..=1.0).contains(&least_share);
    if !sound {
        return None;
    }
    let rings = rings(radii, cusp_mm, asked.through)?;
    let plunges = rings.iter().map(|ring| ring.plunges).sum();
    if plunges > MOST_PLUNGES {
        return None;
    }
    let whole = PI * radii.plunge * radii.plunge;
    let mut covered = Covered::new(radii.plunge);
    let (mut minutes, mut shares) = (0.0, 0.0);
    for ring in &rings {
        for place in 0..ring.plunges {
            let angle = TAU * f64::from(place) / f64::from(ring.plunges);
            let center = [
                ring.radius * libm::cos(angle),
                ring.radius * libm::sin(angle),
            ];
            let share = if shares == 0.0 {
                covered.add(center);
                1.0
            } else {
                covered.add(center) / whole
            };
            minutes += asked.plunge_min * share.max(least_share);
            shares += share;
        }
    }
    let left = radii.circle - radii.plunge;
    let of_hole = radii.plunge / radii.hole;
    Some(Opening {
        way: Way::OnCircle,
        plunges,
        rings: u32::try_from(rings.len()).ok()?,
        layers: 0,
        minutes,
        wear_mm: asked.wear * asked.depth_mm * shares,
        metal_share: shares * of_hole * of_hole,
        slug_mm: (asked.through && left > ROUNDING_MM).then_some(2.0 * left),
    })
}

/// The circles from the wall inwards.
fn rings(radii: Radii, cusp: f64, through: bool) -> Option<Vec<Ring>> {
    let Radii {
        hole,
        plunge,
        circle,
    } = radii;
    if circle <= cusp + ROUNDING_MM {
        return Some(alloc::vec![Ring {
            radius: 0.0,
            plunges: 1
        }]);
    }
    let wall = hole - cusp;
    let half = (wall * wall + circle * circle - plunge * plunge) / (2.0 * wall * circle);
    let mut rings = alloc::vec![Ring {
        radius: circle,
        plunges: count(libm::acos(half))?,
    }];
    // What the cusp allows stays uncovered, not what this count leaves: so that more is never less.
    let inside = (circle * circle - plunge * plunge) / wall;
    if !through && inside > ROUNDING_MM {
        rings.extend(cover(inside, plunge)?);
    }
    Some(rings)
}

/// Plunges all round, so that half the angle between two is at most this one [rad].
fn count(half: f64) -> Option<u32> {
    let plunges = libm::ceil(PI / half - 1e-9);
    // Any number that is none fails here, too.
    (plunges >= 1.0 && plunges <= f64::from(MOST_PLUNGES)).then_some(plunges as u32)
}
