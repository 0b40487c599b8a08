//! Figures that are none: no answer, and never a panic.

use quillbore_calc::head::{
    Clearance, Head, Recess, Touches, free_stand_off, free_stand_off_on_plane,
};
use quillbore_calc::outline::{Mouth, Outline};

use crate::{HEADS, bar, block, head, needed, tilted};

const WILD: [f64; 7] = [
    f64::NAN,
    f64::INFINITY,
    f64::NEG_INFINITY,
    -1.0,
    0.0,
    1e-300,
    1e300,
];

#[test]
fn no_head() {
    let plate = block([[-30.0, -30.0, 0.0], [30.0, 30.0, 20.0]]);
    let mouth = tilted([0.0, 0.0, 20.0], 30.0);
    for none in [
        head(0.0, 12.0, 40.0, 100.0, 40.0),
        head(12.0, -1.0, 40.0, 100.0, 40.0),
        head(12.0, 12.0, f64::NAN, 100.0, 40.0),
        head(12.0, 12.0, 40.0, f64::INFINITY, 40.0),
        head(12.0, 12.0, 40.0, 100.0, 39.0),
        head(12.0, 12.0, -1.0, 100.0, 40.0),
    ] {
        assert_eq!(free_stand_off(&none, &mouth, &plate, None), None);
        assert_eq!(free_stand_off_on_plane(&none, 30.0), None);
    }
    for tilt in [90.0, -90.0, 120.0, f64::NAN, f64::INFINITY] {
        assert_eq!(free_stand_off_on_plane(&HEADS[0], tilt), None);
    }
}

#[test]
fn no_part_and_no_mouth() {
    let plate = block([[-30.0, -30.0, 0.0], [30.0, 30.0, 20.0]]);
    let mouth = tilted([0.0, 0.0, 20.0], 30.0);
    let none = |mouth: &Mouth, part: &Outline, recess| {
        assert_eq!(free_stand_off(&HEADS[0], mouth, part, recess), None);
    };
    none(
        &Mouth {
            out: [0.0; 3],
            ..mouth
        },
        &plate,
        None,
    );
    none(
        &Mouth {
            at_mm: [f64::NAN, 0.0, 0.0],
            ..mouth
        },
        &plate,
        None,
    );
    none(
        &mouth,
        &block([[30.0, -30.0, 0.0], [-30.0, 30.0, 20.0]]),
        None,
    );
    let mut nowhere = bar(0, 20.0, 60.0);
    nowhere.round.as_mut().unwrap().axis = 3;
    none(&mouth, &nowhere, None);
    for radius_mm in [0.0, -20.0, f64::NAN, f64::INFINITY] {
        let mut thin = bar(0, 20.0, 60.0);
        thin.round.as_mut().unwrap().radius_mm = radius_mm;
        none(&mouth, &thin, None);
    }
    let recess = |depth_mm, width_mm| Some(Recess { depth_mm, width_mm });
    none(&mouth, &plate, recess(f64::NAN, 10.0));
    none(&mouth, &plate, recess(10.0, f64::NAN));
    none(&mouth, &plate, recess(10.0, -1.0));
    // A part that lies elsewhere is met by nothing.
    let away = tilted([0.0, 500.0, 20.0], 30.0);
    assert_eq!(needed(&HEADS[0], &away, &plate, None), 0.0);
}

/// Whatever is put in, what comes out is a stand-off or nothing.
#[test]
fn wild_figures() {
    let sane = |found: Option<Clearance>, what: &dyn std::fmt::Debug| {
        let good = found.is_none_or(|found| found.needed_mm >= 0.0);
        assert!(good, "{found:?} {what:?}");
    };
    for (a, b) in WILD.into_iter().flat_map(|a| WILD.map(|b| (a, b))) {
        for part in [
            block([[a, -30.0, 0.0], [30.0, b, 20.0]]),
            block([[-30.0; 3], [a, b, b]]),
            bar(0, a, b),
            bar(2, b, 60.0),
        ] {
            for recess in [
                None,
                Some(Recess {
                    depth_mm: a,
                    width_mm: b,
                }),
            ] {
                for mouth in [
                    tilted([0.0, 0.0, 20.0], 30.0),
                    Mouth {
                        at_mm: [a, 0.0, b],
                        out: [0.0, 0.6, 0.8],
                    },
                    Mouth {
                        at_mm: [0.0; 3],
                        out: [a, b, 1.0],
                    },
                ] {
                    for head in [
                        HEADS[1],
                        Head {
                            nose_mm: a,
                            body_from_mm: b,
                            ..HEADS[1]
                        },
                    ] {
                        let found = free_stand_off(&head, &mouth, &part, recess);
                        sane(found, &(head, mouth, part, recess));
                    }
                }
            }
        }
    }
}

#[test]
fn lost_length() {
    let clearance = Clearance {
        needed_mm: 12.0,
        touches: Some(Touches::Nose),
    };
    for (stand_off, lost) in [
        (8.0, 4.0),
        (12.0, 0.0),
        (20.0, 0.0),
        (-3.0, 12.0),
        (f64::NAN, 12.0),
    ] {
        assert_eq!(clearance.lost_mm(stand_off), lost);
    }
}
