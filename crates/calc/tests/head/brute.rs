//! Stand-offs against brute force: over the part's surface, and over the head's.

use std::f64::consts::TAU;

use quillbore_calc::head::{Head, Recess};
use quillbore_calc::outline::{Mouth, Outline};

use crate::{Figures, dot, needed};

/// Height of the lowest ring of the head that is as wide as this; none where it is nowhere.
fn height(head: &Head, radius: f64) -> Option<f64> {
    let profile = [
        (0.0, head.nose_mm / 2.0),
        (head.nose_length_mm, head.nose_top_mm / 2.0),
        (head.body_from_mm, head.body_mm / 2.0),
    ];
    if radius <= profile[0].1 {
        return Some(0.0);
    }
    profile.windows(2).find_map(|ends| {
        let [(low, from), (high, to)] = [ends[0], ends[1]];
        let share = (radius - from) / (to - from);
        (radius <= to).then_some(low + (high - low) * share)
    })
}

/// Stand-off that one point of the part asks for.
fn asked(head: &Head, mouth: &Mouth, free: f64, point: [f64; 3]) -> f64 {
    let from = [0, 1, 2].map(|axis| point[axis] - mouth.at_mm[axis]);
    let along = dot(from, mouth.out);
    let off = (dot(from, from) - along * along).max(0.0).sqrt();
    if off < free {
        return f64::NEG_INFINITY;
    }
    height(head, off).map_or(f64::NEG_INFINITY, |height| along - height)
}

/// The point of a sheet for a place on it, each coordinate from 0 to 1.
type Sheet = Box<dyn Fn(f64, f64) -> [f64; 3]>;

/// Surfaces of a part, as sheets.
fn sheets(part: &Outline) -> Vec<Sheet> {
    let [low, high] = part.corners_mm;
    let mut sheets: Vec<Sheet> = Vec::new();
    let within = move |axis: usize, share: f64| low[axis] + (high[axis] - low[axis]) * share;
    if let Some(round) = part.round {
        let (axis, radius) = (round.axis, round.radius_mm);
        let at = move |along: f64, off: f64, turn: f64| {
            let mut point = [0.0; 3];
            point[axis] = along;
            point[(axis + 1) % 3] = off * libm::cos(turn * TAU);
            point[(axis + 2) % 3] = off * libm::sin(turn * TAU);
            point
        };
        sheets.push(Box::new(move |u, v| at(within(axis, u), radius, v)));
        for end in [0.0, 1.0] {
            sheets.push(Box::new(move |u, v| at(within(axis, end), radius * u, v)));
        }
    } else {
        for axis in 0..3 {
            for end in [0.0, 1.0] {
                sheets.push(Box::new(move |u, v| {
                    let mut point = [0.0; 3];
                    point[axis] = within(axis, end);
                    point[(axis + 1) % 3] = within((axis + 1) % 3, u);
                    point[(axis + 2) % 3] = within((axis + 2) % 3, v);
                    point
                }));
            }
        }
    }
    sheets
}

/// The greatest over a sheet: a grid, then finer ones about its best places.
fn over(sheet: &Sheet, asked: impl Fn([f64; 3]) -> f64) -> f64 {
    const GRID: u32 = 140;
    let mut starts = vec![];
    for i in 0..=GRID {
        for j in 0..=GRID {
            let (u, v) = (
                f64::from(i) / f64::from(GRID),
                f64::from(j) / f64::from(GRID),
            );
            starts.push((asked(sheet(u, v)), u, v));
        }
    }
    starts.sort_by(|a, b| b.0.total_cmp(&a.0));
    let mut most = f64::NEG_INFINITY;
    for start in starts.into_iter().step_by(7).take(6) {
        let (mut best, mut step) = (start, 1.0 / f64::from(GRID));
        while step > 1e-10 {
            for (du, dv) in (-6..=6).flat_map(|du| (-6..=6).map(move |dv| (du, dv))) {
                let u = (start_of(best.1, du, step)).clamp(0.0, 1.0);
                let v = (start_of(best.2, dv, step)).clamp(0.0, 1.0);
                let value = asked(sheet(u, v));
                if value > best.0 {
                    best = (value, u, v);
                }
            }
            step *= 0.6;
        }
        most = most.max(best.0);
    }
    most
}

fn start_of(from: f64, steps: i32, step: f64) -> f64 {
    from + f64::from(steps) / 6.0 * step
}

/// A vector square to the way out, at an angle about it.
fn square_to(out: [f64; 3], turn: f64) -> [f64; 3] {
    let help = if out[0].abs() < 0.8 {
        [1.0, 0.0, 0.0]
    } else {
        [0.0, 1.0, 0.0]
    };
    let cross = |a: [f64; 3], b: [f64; 3]| {
        [
            a[1] * b[2] - a[2] * b[1],
            a[2] * b[0] - a[0] * b[2],
            a[0] * b[1] - a[1] * b[0],
        ]
    };
    let first = cross(out, help);
    let first = first.map(|part| part / dot(first, first).sqrt());
    let second = cross(out, first);
    [0, 1, 2].map(|axis| libm::cos(turn) * first[axis] + libm::sin(turn) * second[axis])
}

/// Where a line from a point along the tool leaves the part; none where it misses it.
fn leaves(part: &Outline, from: [f64; 3], out: [f64; 3]) -> Option<f64> {
    let (mut enters, mut leaves) = (f64::NEG_INFINITY, f64::INFINITY);
    let mut clip = |one: f64, other: f64| {
        enters = enters.max(one.min(other));
        leaves = leaves.min(one.max(other));
    };
    for axis in 0..3 {
        let to = |end: usize| (part.corners_mm[end][axis] - from[axis]) / out[axis];
        if part.round.is_none_or(|round| round.axis == axis) {
            clip(to(0), to(1));
        }
    }
    if let Some(round) = part.round {
        let flat = |vector: [f64; 3]| {
            [0, 1, 2].map(|axis| {
                if axis == round.axis {
                    0.0
                } else {
                    vector[axis]
                }
            })
        };
        let (at, by) = (flat(from), flat(out));
        let (a, b) = (dot(by, by), dot(at, by));
        let c = dot(at, at) - round.radius_mm * round.radius_mm;
        let root = (b * b - a * c).sqrt();
        // Along its axis all of a line lies within, or none.
        if root.is_nan() || a == 0.0 && c > 0.0 {
            return None;
        }
        clip((-b - root) / a, (-b + root) / a);
    }
    (enters <= leaves).then_some(leaves)
}

/// Ring by ring of the head, from the middle or the recess on, with each place above which it is struck.
fn rings(head: &Head, mouth: &Mouth, part: &Outline, free: f64) -> f64 {
    let ends = [0.0, head.nose_mm, head.nose_top_mm, head.body_mm].map(|d| (d / 2.0).max(free));
    let over_ring = |low: f64, high: f64| {
        let sheet: Sheet = Box::new(move |u, v| [low + (high - low) * u, v * TAU, 0.0]);
        over(&sheet, |[radius, turn, _]| {
            let way = square_to(mouth.out, turn);
            let from = [0, 1, 2].map(|axis| mouth.at_mm[axis] + radius * way[axis]);
            let struck = leaves(part, from, mouth.out).zip(height(head, radius));
            struck.map_or(f64::NEG_INFINITY, |(top, height)| top - height)
        })
    };
    let widen = ends.windows(2).filter(|ends| ends[1] > ends[0]);
    widen
        .map(|ends| over_ring(ends[0], ends[1]))
        .fold(0.0, f64::max)
}

fn brute(head: &Head, mouth: &Mouth, part: &Outline, free: f64) -> f64 {
    let sheets = sheets(part);
    let sheets = sheets.iter();
    sheets
        .map(|sheet| over(sheet, |point| asked(head, mouth, free, point)))
        .fold(rings(head, mouth, part, free), f64::max)
}

#[track_caller]
fn agrees(head: &Head, mouth: &Mouth, part: &Outline, recess: Option<Recess>) -> f64 {
    let found = needed(head, mouth, part, recess);
    let free = recess.map_or(0.0, |recess| recess.width_mm / 2.0);
    let brute = brute(head, mouth, part, free);
    let rim = recess.map_or(0.0, |recess| {
        let wider = height(head, free + 1e-9);
        wider.map_or(0.0, |height| recess.depth_mm - height)
    });
    let brute = brute.max(rim);
    // No sample asks for more; the best one falls short by what the finest grid misses.
    let off = found - brute;
    assert!(
        (-1e-9..1e-6).contains(&off),
        "{found} {brute} {head:?} {mouth:?} {part:?} {recess:?}"
    );
    found
}

#[test]
fn boxes() {
    let mut figures = Figures(1);
    let touched = (0..150)
        .filter(|_| {
            let (mouth, part) = figures.in_block();
            agrees(&figures.head(), &mouth, &part, None) > 0.0
        })
        .count();
    // Both answers come up.
    assert!((100..140).contains(&touched), "{touched}");
}

#[test]
fn bars() {
    let mut figures = Figures(2);
    for _ in 0..150 {
        let (mouth, part) = figures.in_bar();
        agrees(&figures.head(), &mouth, &part, None);
    }
}

#[test]
fn recesses() {
    let mut figures = Figures(3);
    for turn in 0..160 {
        let (mut mouth, part) = if turn % 2 == 0 {
            figures.in_block()
        } else {
            figures.in_bar()
        };
        let recess = Recess {
            depth_mm: figures.between(0.0, 60.0),
            width_mm: figures.between(2.0, 90.0),
        };
        // Some of them lie within the part.
        let sunk = figures.between(-10.0, 20.0).max(0.0);
        for axis in 0..3 {
            mouth.at_mm[axis] -= sunk * mouth.out[axis];
        }
        agrees(&figures.head(), &mouth, &part, Some(recess));
    }
}

/// The head itself, as a net of points a hair within it: none lies in the part at the stand-off that is
/// needed, at a little less one does.
#[test]
fn points_of_the_head() {
    let mut figures = Figures(4);
    for turn in 0..60 {
        let (mouth, part) = if turn % 2 == 0 {
            figures.in_block()
        } else {
            figures.in_bar()
        };
        let head = figures.head();
        let least = needed(&head, &mouth, &part, None);
        assert!(
            !meets(&head, &mouth, &part, least + 1e-6),
            "{head:?} {mouth:?} {part:?}"
        );
        if least > 0.3 {
            assert!(
                meets(&head, &mouth, &part, least - 0.3),
                "{head:?} {mouth:?} {part:?}"
            );
        }
    }
}

fn meets(head: &Head, mouth: &Mouth, part: &Outline, stand_off: f64) -> bool {
    let out = mouth.out;
    let [low, high] = part.corners_mm;
    let inside = |point: [f64; 3]| {
        let within = |axis: usize| low[axis] < point[axis] && point[axis] < high[axis];
        let round = part.round.is_none_or(|round| {
            let [one, other] = [(round.axis + 1) % 3, (round.axis + 2) % 3];
            point[one].hypot(point[other]) < round.radius_mm
        });
        round && (0..3).all(within)
    };
    (0..=300_u32).any(|ring| {
        let radius = head.body_mm.max(head.nose_mm) / 2.0 * f64::from(ring) / 300.0;
        let up = stand_off + height(head, radius).unwrap();
        (0..720_u32).any(|turn| {
            let way = square_to(out, f64::from(turn) / 720.0 * TAU);
            inside([0, 1, 2].map(|axis| mouth.at_mm[axis] + up * out[axis] + radius * way[axis]))
        })
    })
}
