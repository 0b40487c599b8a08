//! How much metal each of several equal plunges still meets: exact areas of a union of discs.

use alloc::vec::Vec;
use core::f64::consts::{PI, TAU};

/// Discs of one radius, laid one after another.
pub(super) struct Covered {
    radius: f64,
    discs: Vec<Disc>,
}

/// A disc and what the arcs of its edge that lie in no other disc add to the area of the union.
struct Disc {
    center: [f64; 2],
    part: f64,
}

impl Covered {
    /// Nothing covered yet, by discs of this radius [mm].
    pub(super) const fn new(radius: f64) -> Self {
        Self {
            radius,
            discs: Vec::new(),
        }
    }

    /// Lays one more disc; what it covers that none before did [mm2].
    pub(super) fn add(&mut self, center: [f64; 2]) -> f64 {
        let near: Vec<usize> = self.near(center).collect();
        // The same disc once more covers nothing; its edge would hide the other's and be hidden by it.
        if near.iter().any(|at| {
            self.discs
                .get(*at)
                .is_some_and(|disc| distance(disc.center, center) < self.radius * 1e-12)
        }) {
            return 0.0;
        }
        let place = self.discs.len();
        self.discs.push(Disc { center, part: 0.0 });
        let mut added = 0.0;
        for at in near.into_iter().chain([place]) {
            let part = self.part(at);
            if let Some(disc) = self.discs.get_mut(at) {
                added += part - disc.part;
                disc.part = part;
            }
        }
        added.clamp(0.0, PI * self.radius * self.radius)
    }

    /// Discs whose edges cross that of a disc with this center.
    fn near(&self, center: [f64; 2]) -> impl Iterator<Item = usize> {
        self.discs
            .iter()
            .enumerate()
            .filter(move |(_, disc)| distance(disc.center, center) < 2.0 * self.radius)
            .map(|(at, _)| at)
    }

    /// `1/2 (x dy - y dx)` along the arcs of a disc's edge that lie in no other disc (Green).
    fn part(&self, at: usize) -> f64 {
        let Some(center) = self.discs.get(at).map(|disc| disc.center) else {
            return 0.0;
        };
        let mut hidden: Vec<(f64, f64)> = Vec::new();
        for other in self.near(center).filter(|other| *other != at) {
            let Some(disc) = self.discs.get(other) else {
                continue;
            };
            let towards = [disc.center[0] - center[0], disc.center[1] - center[1]];
            let half = libm::acos((distance(disc.center, center) / (2.0 * self.radius)).min(1.0));
            let from = libm::atan2(towards[1], towards[0]) - half;
            let from = if from < 0.0 { from + TAU } else { from };
            let to = from + 2.0 * half;
            hidden.push((from, to.min(TAU)));
            if to > TAU {
                hidden.push((0.0, to - TAU));
            }
        }
        hidden.sort_by(|a, b| a.0.total_cmp(&b.0));
        let (mut sum, mut behind) = (0.0, 0.0_f64);
        for (from, to) in hidden.into_iter().chain([(TAU, TAU)]) {
            if from > behind {
                sum += self.arc(center, behind, from);
            }
            behind = behind.max(to);
        }
        sum
    }

    /// The same along one arc between two angles [rad].
    fn arc(&self, [x, y]: [f64; 2], from: f64, to: f64) -> f64 {
        let across = x * (libm::sin(to) - libm::sin(from));
        let along = y * (libm::cos(to) - libm::cos(from));
        0.5 * self.radius * (self.radius * (to - from) + across - along)
    }
}

fn distance(a: [f64; 2], b: [f64; 2]) -> f64 {
    libm::hypot(a[0] - b[0], a[1] - b[1])
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two discs: closed form of the lens (elementary geometry).
    #[test]
    fn two_discs_share_a_lens() {
        for apart in [0.01, 0.3, 0.55, 1.0, 1.0999] {
            let radius: f64 = 0.55;
            let lens = 2.0 * radius * radius * libm::acos(apart / (2.0 * radius))
                - apart / 2.0 * libm::sqrt(4.0 * radius * radius - apart * apart);
            let mut covered = Covered::new(radius);
            let first = covered.add([0.4, -0.2]);
            let second = covered.add([0.4 + 0.6 * apart, -0.2 + 0.8 * apart]);
            assert!((first - PI * radius * radius).abs() < 1e-12);
            assert!((second - (first - lens)).abs() < 1e-12, "{apart}: {second}");
        }
    }

    #[test]
    fn the_same_disc_again_covers_nothing() {
        for center in [[3.0, 3.0], [-3.0, 3.0], [-3.0, -3.0]] {
            let mut covered = Covered::new(2.0);
            assert!((covered.add(center) - 4.0 * PI).abs() < 1e-12);
            assert_eq!(covered.add(center), 0.0, "{center:?}");
            let touching = [center[0] + 4.0, center[1]];
            assert!((covered.add(touching) - 4.0 * PI).abs() < 1e-12);
        }
    }
}
