//! Circles of plunges that leave nothing of a disc: as few plunges as circles about one axis allow.

use alloc::vec::Vec;
use core::f64::consts::{FRAC_PI_2, PI};

use super::MOST_PLUNGES;

/// Evenly spaced plunges on a circle.
#[derive(Clone, Copy)]
pub(super) struct Ring {
    /// Radius of the circle [mm].
    pub(super) radius: f64,
    /// Plunges on it.
    pub(super) plunges: u32,
}

/// How far out so many plunges cover, the outermost of them on this ring.
#[derive(Clone, Copy)]
struct Reach {
    radius: f64,
    outermost: Ring,
}

/// The circles, from outside inwards, whose plunges cover a disc of this radius; `None` where more than
/// [`MOST_PLUNGES`] would be needed.
///
/// How far k plunges reach is the most that any last ring of n makes of the reach of k - n: a dynamic
/// program over the count.
pub(super) fn cover(disc: f64, plunge: f64) -> Option<Vec<Ring>> {
    let middle = Ring {
        radius: 0.0,
        plunges: 1,
    };
    let none = Reach {
        radius: 0.0,
        outermost: middle,
    };
    let mut reaches = alloc::vec![none];
    while reaches.last()?.radius < disc {
        let plunges = reaches.len();
        if plunges > MOST_PLUNGES as usize {
            return None;
        }
        // One more than before reaches at least as far: the one in the middle where nothing else does.
        let mut best = Reach {
            radius: plunge,
            outermost: middle,
        };
        for on_ring in 3..=plunges {
            let Some(inner) = reaches.get(plunges - on_ring) else {
                continue;
            };
            if let Some(found) = around(inner.radius, u32::try_from(on_ring).ok()?, plunge)
                && found.radius > best.radius
            {
                best = found;
            }
        }
        reaches.push(best);
    }
    let (mut rings, mut left) = (Vec::new(), reaches.len() - 1);
    while let Some(reach) = reaches.get(left).filter(|_| left > 0) {
        rings.push(reach.outermost);
        left = left.saturating_sub(reach.outermost.plunges as usize);
    }
    Some(rings)
}

/// How far out a ring of so many covers that leaves nothing outside a disc of this radius.
///
/// Half way between two plunges their edges cross at `x` from the axis, `x^2 - 2 x r cos h + r^2 = R1^2`:
/// once at the disc, once further out, furthest where the two are `2 R1 cos h` apart.
fn around(disc: f64, plunges: u32, plunge: f64) -> Option<Reach> {
    let half = PI / f64::from(plunges);
    let (sine, cosine) = (libm::sin(half), libm::cos(half));
    let across = disc * sine;
    if across > plunge {
        return None;
    }
    let touching = disc * cosine + libm::sqrt(plunge * plunge - across * across);
    let radius = touching.min(plunge * libm::tan(FRAC_PI_2 - half));
    let off = radius * sine;
    Some(Reach {
        radius: radius * cosine + libm::sqrt((plunge * plunge - off * off).max(0.0)),
        outermost: Ring { radius, plunges },
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_disc_as_wide_as_a_plunge_takes_one() {
        let rings = cover(0.55, 0.55).expect("one covers it");
        let plunges: Vec<u32> = rings.iter().map(|ring| ring.plunges).collect();
        assert_eq!(plunges, [1]);
    }

    /// Five of radius 1 about a point that all of them pass through reach 2 cos 36 deg, by elementary geometry.
    #[test]
    fn five_about_a_point_reach_the_golden_ratio() {
        let reach = around(0.0, 5, 1.0).expect("they cover it");
        assert!((reach.outermost.radius - 1.0).abs() < 1e-12);
        assert!((reach.radius - 1.618_033_988_749_895).abs() < 1e-12);
    }
}
