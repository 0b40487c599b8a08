//! The head over the part: stand-off by hand and against brute force, parts on the table, hours alone.
#![expect(
    clippy::unwrap_used,
    reason = "helpers of tests stop the test as tests do"
)]

mod alone;
mod brute;
mod hand;
mod loading;
mod nothing;
mod recess;
mod steps;

use quillbore_calc::head::{Clearance, Head, Recess, free_stand_off};
use quillbore_calc::outline::{Mouth, Outline, Round};

/// Heads of straight and conical noses, with shoulder and cone, and one whose nose narrows upward.
const HEADS: [Head; 6] = [
    head(12.0, 12.0, 40.0, 100.0, 40.0),
    head(12.0, 12.0, 30.0, 90.0, 70.0),
    head(10.0, 25.0, 50.0, 120.0, 50.0),
    head(14.0, 20.0, 35.0, 80.0, 60.0),
    head(15.0, 9.0, 40.0, 80.0, 70.0),
    head(3.0, 3.0, 0.0, 60.0, 25.0),
];

const fn head(nose: f64, top: f64, length: f64, body: f64, from: f64) -> Head {
    Head {
        nose_mm: nose,
        nose_top_mm: top,
        nose_length_mm: length,
        body_mm: body,
        body_from_mm: from,
    }
}

fn block(corners_mm: [[f64; 3]; 2]) -> Outline {
    Outline {
        corners_mm,
        round: None,
    }
}

/// A solid bar about an axis of the part, zero in its middle.
fn bar(axis: usize, radius: f64, length: f64) -> Outline {
    let mut corners_mm = [[-radius; 3], [radius; 3]];
    corners_mm[0][axis] = -length / 2.0;
    corners_mm[1][axis] = length / 2.0;
    Outline {
        corners_mm,
        round: Some(Round {
            axis,
            radius_mm: radius,
            inner_mm: None,
        }),
    }
}

/// A mouth whose way out is tilted from +z toward +x.
fn tilted(at_mm: [f64; 3], tilt_deg: f64) -> Mouth {
    let tilt = tilt_deg.to_radians();
    Mouth {
        at_mm,
        out: [libm::sin(tilt), 0.0, libm::cos(tilt)],
    }
}

fn clearance(head: &Head, mouth: &Mouth, part: &Outline, recess: Option<Recess>) -> Clearance {
    free_stand_off(head, mouth, part, recess).unwrap()
}

fn needed(head: &Head, mouth: &Mouth, part: &Outline, recess: Option<Recess>) -> f64 {
    clearance(head, mouth, part, recess).needed_mm
}

/// Figures from 0 to 1, the same in each run.
struct Figures(u64);

impl Figures {
    fn next(&mut self) -> f64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.next()
    }

    /// A unit vector within this angle of another.
    fn near(&mut self, normal: [f64; 3], most_deg: f64) -> [f64; 3] {
        // Every fifth one is square to the surface.
        if self.next() < 0.2 {
            return normal;
        }
        loop {
            let way = [(); 3].map(|()| self.between(-1.0, 1.0));
            let length = dot(way, way).sqrt();
            let way = way.map(|part| part / length);
            if length <= 1.0 && dot(way, normal) > libm::cos(most_deg.to_radians()) {
                return way;
            }
        }
    }

    /// A box, and a hole that begins on one of its faces, square to it or leaning by up to 85 degrees.
    fn in_block(&mut self) -> (Mouth, Outline) {
        let low = [(); 3].map(|()| self.between(-150.0, 0.0));
        let high = low.map(|low| low + self.between(2.0, 250.0));
        let mut at_mm = [0, 1, 2].map(|axis| self.between(low[axis], high[axis]));
        let axis = (self.next() * 3.0) as usize;
        let mut normal = [0.0; 3];
        if self.next() < 0.5 {
            (at_mm[axis], normal[axis]) = (low[axis], -1.0);
        } else {
            (at_mm[axis], normal[axis]) = (high[axis], 1.0);
        }
        let out = self.near(normal, 85.0);
        (Mouth { at_mm, out }, block([low, high]))
    }

    /// A bar, and a hole that begins on its side or its end.
    fn in_bar(&mut self) -> (Mouth, Outline) {
        let axis = (self.next() * 3.0) as usize;
        let (radius, length) = (self.between(1.0, 120.0), self.between(2.0, 250.0));
        let part = bar(axis, radius, length);
        let [one, other] = [(axis + 1) % 3, (axis + 2) % 3];
        let (mut at_mm, mut normal) = ([0.0; 3], [0.0; 3]);
        let turn = self.between(0.0, std::f64::consts::TAU);
        let off = if self.next() < 0.6 {
            (normal[one], normal[other]) = (libm::cos(turn), libm::sin(turn));
            at_mm[axis] = self.between(-0.5, 0.5) * length;
            radius
        } else {
            (normal[axis], at_mm[axis]) = (1.0, length / 2.0);
            radius * self.next()
        };
        (at_mm[one], at_mm[other]) = (off * libm::cos(turn), off * libm::sin(turn));
        let out = self.near(normal, 85.0);
        (Mouth { at_mm, out }, part)
    }

    fn head(&mut self) -> Head {
        HEADS[(self.next() * 6.0) as usize]
    }
}

fn dot(a: [f64; 3], b: [f64; 3]) -> f64 {
    (0..3).map(|axis| a[axis] * b[axis]).sum()
}
