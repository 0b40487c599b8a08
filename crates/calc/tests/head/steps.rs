//! What must hold whatever the figures: which way the stand-off goes, in small steps, turned and mirrored.

use quillbore_calc::head::{Head, Recess};
use quillbore_calc::outline::{Mouth, Outline, Round};

use crate::{Figures, HEADS, bar, block, needed};

/// Every so many places, in boxes and bars in turn.
fn places(seed: u64, number: usize) -> impl Iterator<Item = (Head, Mouth, Outline)> {
    let mut figures = Figures(seed);
    (0..number).map(move |turn| {
        let (mouth, part) = if turn % 2 == 0 {
            figures.in_block()
        } else {
            figures.in_bar()
        };
        (figures.head(), mouth, part)
    })
}

#[test]
fn slimmer_and_longer_heads_need_no_more() {
    for (head, mouth, part) in places(5, 2000) {
        let at = needed(&head, &mouth, &part, None);
        for slimmer in [
            Head {
                nose_mm: head.nose_mm * 0.9,
                ..head
            },
            Head {
                nose_top_mm: head.nose_top_mm * 0.9,
                ..head
            },
            Head {
                body_mm: head.body_mm * 0.9,
                ..head
            },
            Head {
                body_from_mm: head.body_from_mm + 5.0,
                ..head
            },
            Head {
                nose_length_mm: head.nose_length_mm + 5.0,
                body_from_mm: head.body_from_mm + 5.0,
                ..head
            },
        ] {
            let less = needed(&slimmer, &mouth, &part, None);
            assert!(
                less <= at + 1e-6,
                "{less} {at} {slimmer:?} {mouth:?} {part:?}"
            );
        }
    }
}

#[test]
fn smaller_parts_need_no_more() {
    for (head, mouth, mut part) in places(6, 2000) {
        let at = needed(&head, &mouth, &part, None);
        // Drawn in toward the mouth along each axis; of a round one along its own.
        let axes = part.round.map_or(0..3, |round| round.axis..round.axis + 1);
        for axis in axes {
            for end in 0..2 {
                let corner = &mut part.corners_mm[end][axis];
                *corner = mouth.at_mm[axis] + 0.7 * (*corner - mouth.at_mm[axis]);
            }
        }
        let less = needed(&head, &mouth, &part, None);
        assert!(less <= at + 1e-6, "{less} {at} {head:?} {mouth:?} {part:?}");
    }
}

#[test]
fn deeper_and_narrower_recesses_need_no_less() {
    for (head, mouth, part) in places(7, 2000) {
        let at =
            |depth_mm, width_mm| needed(&head, &mouth, &part, Some(Recess { depth_mm, width_mm }));
        let (tight, wide, deep) = (at(30.0, 20.0), at(30.0, 40.0), at(50.0, 20.0));
        assert!(
            wide <= tight + 1e-6 && tight <= deep + 1e-6,
            "{head:?} {mouth:?} {part:?}"
        );
        // A recess that is none changes nothing.
        let none = needed(&head, &mouth, &part, None);
        assert!(
            (at(0.0, 0.0) - none).abs() < 1e-6,
            "{head:?} {mouth:?} {part:?}"
        );
    }
}

/// The axes change places, or one is mirrored.
#[test]
fn turned_and_mirrored() {
    let turn = |a: [f64; 3]| [a[2], a[0], a[1]];
    for (head, mouth, part) in places(8, 2000) {
        let at = needed(&head, &mouth, &part, None);
        let turned = Outline {
            corners_mm: part.corners_mm.map(turn),
            round: part.round.map(|round| Round {
                axis: (round.axis + 1) % 3,
                ..round
            }),
        };
        let seen = Mouth {
            at_mm: turn(mouth.at_mm),
            out: turn(mouth.out),
        };
        assert!((needed(&head, &seen, &turned, None) - at).abs() < 1e-6);
        for axis in 0..3 {
            let mirror = |a: [f64; 3]| {
                [0, 1, 2].map(|other| if other == axis { -a[other] } else { a[other] })
            };
            let [mut low, mut high] = part.corners_mm;
            (low[axis], high[axis]) = (-high[axis], -low[axis]);
            let mirrored = Outline {
                corners_mm: [low, high],
                ..part
            };
            let seen = Mouth {
                at_mm: mirror(mouth.at_mm),
                out: mirror(mouth.out),
            };
            let same = needed(&head, &seen, &mirrored, None);
            assert!(
                (same - at).abs() < 1e-6,
                "{at} {same} {head:?} {mouth:?} {part:?}"
            );
        }
    }
}

/// A bar's own turn about its axis, by any angle.
#[test]
fn bars_turned_about_their_axis() {
    let mut figures = Figures(9);
    for _ in 0..500 {
        let ((mouth, part), head) = (figures.in_bar(), figures.head());
        let axis = part.round.unwrap().axis;
        let (sine, cosine) = figures.between(0.0, 6.0).sin_cos();
        let turn = |a: [f64; 3]| {
            let [one, other] = [(axis + 1) % 3, (axis + 2) % 3];
            let mut b = a;
            b[one] = cosine * a[one] - sine * a[other];
            b[other] = sine * a[one] + cosine * a[other];
            b
        };
        let seen = Mouth {
            at_mm: turn(mouth.at_mm),
            out: turn(mouth.out),
        };
        let [at, turned] = [mouth, seen].map(|mouth| needed(&head, &mouth, &part, None));
        assert!((at - turned).abs() < 1e-6, "{at} {turned}");
        let deep = Some(Recess {
            depth_mm: 5.0,
            width_mm: 15.0,
        });
        let [at, turned] = [mouth, seen].map(|mouth| needed(&head, &mouth, &part, deep));
        assert!((at - turned).abs() < 1e-6, "{at} {turned}");
    }
}

/// A hundredth of a degree changes little, and so does a hundredth of a millimeter: nothing jumps where a
/// corner, an edge or a face takes over from another.
#[test]
fn small_steps() {
    let plate = block([[-70.0, -90.0, 0.0], [8.0, 5.0, 20.0]]);
    let shaft = bar(1, 20.0, 90.0);
    let hole = |tilt: f64, at_mm| {
        let (sine, cosine) = tilt.to_radians().sin_cos();
        Mouth {
            at_mm,
            out: [0.8 * sine, 0.6 * sine, cosine],
        }
    };
    for head in HEADS {
        for (part, top) in [(plate, 20.0), (shaft, 20.0)] {
            let tilted = (0..6000).map(|step| hole(f64::from(step) * 0.01, [0.0, 0.0, top]));
            // A point 120 mm off moves by 0.021, and seven times that along the steepest cone.
            let jump = largest(&head, &part, tilted);
            assert!(jump > 0.0 && jump < 0.15, "{jump} {head:?} {part:?}");
            let moved = (0..4900).map(|step| hole(40.0, [0.0, 4.9 - f64::from(step) * 0.01, top]));
            let jump = largest(&head, &part, moved);
            assert!(jump > 0.0 && jump < 0.08, "{jump} {head:?} {part:?}");
        }
    }
}

/// The largest step from place to place.
fn largest(head: &Head, part: &Outline, places: impl Iterator<Item = Mouth>) -> f64 {
    let found: Vec<f64> = places
        .map(|mouth| needed(head, &mouth, part, None))
        .collect();
    let steps = found.windows(2).map(|pair| (pair[1] - pair[0]).abs());
    steps.fold(0.0, f64::max)
}
