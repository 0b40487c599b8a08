//! Stand-offs worked by hand.

use quillbore_calc::head::{Touches, free_stand_off_on_plane};
use quillbore_calc::outline::Mouth;

use crate::{bar, block, clearance, head, tilted};

const PLATE: [[f64; 3]; 2] = [[-300.0, -300.0, 0.0], [300.0, 300.0, 20.0]];
const MIDDLE: [f64; 3] = [0.0, 0.0, 20.0];

#[track_caller]
fn is(found: quillbore_calc::head::Clearance, printed: f64, touches: Option<Touches>) {
    assert!((found.needed_mm - printed).abs() < 0.0005, "{found:?}");
    assert_eq!(found.touches, touches);
}

#[test]
fn planes() {
    let shoulder = head(12.0, 12.0, 40.0, 100.0, 40.0);
    let plate = block(PLATE);
    for (tilt, printed, touches) in [
        (0.0, 0.0, None),
        // 6 tan 30; the body stays 11 mm clear.
        (30.0, 3.464, Some(Touches::Nose)),
        // 6 tan 41 against 50 tan 41 - 40 = 3.464.
        (41.0, 5.216, Some(Touches::Nose)),
        // 50 tan 45 - 40 against 6.
        (45.0, 10.0, Some(Touches::Body)),
        // 50 tan 60 - 40 against 6 tan 60.
        (60.0, 46.603, Some(Touches::Body)),
        // 50 tan 80 - 40.
        (80.0, 243.564, Some(Touches::Body)),
    ] {
        is(
            clearance(&shoulder, &tilted(MIDDLE, tilt), &plate, None),
            printed,
            touches,
        );
        is(
            free_stand_off_on_plane(&shoulder, -tilt).unwrap(),
            printed,
            touches,
        );
    }
}

/// The plate ends 3 mm beside the mouth. Where it rises to that edge, this lies `3 cos 30` off and `3 sin 30`
/// high, and beyond it the side falls away; where it falls to it, it still rises on the other side.
#[test]
fn edges() {
    let shoulder = head(12.0, 12.0, 40.0, 100.0, 40.0);
    let rising = tilted([297.0, 0.0, 20.0], 30.0);
    is(
        clearance(&shoulder, &rising, &block(PLATE), None),
        1.5,
        Some(Touches::Nose),
    );
    let falling = tilted([-297.0, 0.0, 20.0], 30.0);
    is(
        clearance(&shoulder, &falling, &block(PLATE), None),
        3.464,
        Some(Touches::Nose),
    );
}

/// 60 degrees and an edge 50 mm up the slope: `50 sin 60 = 43.301` high and 25 off. A cone from 6 at 40 to 50
/// at 84 is 25 wide at a height of 59: it stays 15.699 below; the nose needs `6 tan 60`. With a cone from 10
/// to 30 it is 25 wide at 18.636 and needs 24.665.
#[test]
fn cones() {
    let plate = block([[-300.0, -300.0, 0.0], [50.0, 300.0, 20.0]]);
    let mouth = tilted(MIDDLE, 60.0);
    let slim = head(12.0, 12.0, 40.0, 100.0, 84.0);
    is(
        clearance(&slim, &mouth, &plate, None),
        10.392,
        Some(Touches::Nose),
    );
    let stout = head(12.0, 12.0, 10.0, 100.0, 30.0);
    is(
        clearance(&stout, &mouth, &plate, None),
        24.665,
        Some(Touches::Cone),
    );
}

/// A face of 60 degrees that rises faster than the cone meets it where it is widest, which is the body:
/// `50 tan 60 - 30`.
#[test]
fn the_upper_end_of_a_cone() {
    let stout = head(12.0, 12.0, 10.0, 100.0, 30.0);
    let mouth = tilted(MIDDLE, 60.0);
    is(
        clearance(&stout, &mouth, &block(PLATE), None),
        56.603,
        Some(Touches::Body),
    );
    is(
        free_stand_off_on_plane(&stout, 60.0).unwrap(),
        56.603,
        Some(Touches::Body),
    );
}

/// 20 mm within a bar along its axis, and 20 mm within a block: what is hollow counts as full.
#[test]
fn within_the_part_along_its_edges() {
    let shoulder = head(12.0, 12.0, 40.0, 100.0, 40.0);
    let sunk = Mouth {
        at_mm: [180.0, 5.0, 3.0],
        out: [1.0, 0.0, 0.0],
    };
    is(
        clearance(&shoulder, &sunk, &bar(0, 30.0, 400.0), None),
        20.0,
        Some(Touches::Nose),
    );
    let cube = block([[-200.0, -30.0, -30.0], [200.0, 30.0, 30.0]]);
    is(
        clearance(&shoulder, &sunk, &cube, None),
        20.0,
        Some(Touches::Nose),
    );
}

/// An edge and a corner on a cone that rises half a millimeter for each of radius, from 6 at the guide's end.
#[test]
fn feet_of_edges_and_corners() {
    let plate = block([[-300.0, -300.0, 0.0], [10.0, 4.0, 20.0]]);
    let cone = head(12.0, 12.0, 0.0, 100.0, 22.0);
    // Tilted by 45 degrees toward an edge 10 mm off: at its foot this is 7.071 high and as far off, where the
    // cone is at 0.536; the nose alone would need 6.
    is(
        clearance(&cone, &tilted(MIDDLE, 45.0), &plate, None),
        6.536,
        Some(Touches::Cone),
    );
    // Tilted toward the corner at 10 and 4: it is (10 + 4) / 2 high and sqrt(116 - 49) = 8.185 off, where the
    // cone is at 1.093. On both edges the height still grows toward it faster than the cone.
    let diagonal = Mouth {
        at_mm: MIDDLE,
        out: [0.5, 0.5, 0.5_f64.sqrt()],
    };
    is(
        clearance(&cone, &diagonal, &plate, None),
        5.907,
        Some(Touches::Cone),
    );
}

#[test]
fn bars() {
    let shoulder = head(12.0, 12.0, 40.0, 100.0, 40.0);
    let along = bar(0, 30.0, 400.0);
    // Into the crown, and leaning along the bar: 6 tan 45 on the crown's line.
    is(
        clearance(&shoulder, &tilted([0.0, 0.0, 30.0], 0.0), &along, None),
        0.0,
        None,
    );
    let crown = clearance(&shoulder, &tilted([0.0, 0.0, 30.0], 40.0), &along, None);
    is(crown, 5.035, Some(Touches::Nose));
    // 10 mm beside the crown: 6 mm nearer to it the bar is higher by sqrt(900 - 16) - sqrt(900 - 100).
    let beside = Mouth {
        at_mm: [0.0, 10.0, 800.0_f64.sqrt()],
        out: [0.0, 0.0, 1.0],
    };
    is(
        clearance(&shoulder, &beside, &along, None),
        1.448,
        Some(Touches::Nose),
    );
    // 28 mm beside it, the crown itself lies under the body, 30 - sqrt(900 - 784) = 19.230 higher than the
    // mouth and 20.770 below the body; the nose needs sqrt(900 - 484) - sqrt(900 - 784).
    let far = Mouth {
        at_mm: [0.0, 28.0, 116.0_f64.sqrt()],
        out: [0.0, 0.0, 1.0],
    };
    is(
        clearance(&shoulder, &far, &along, None),
        9.626,
        Some(Touches::Nose),
    );
    let low = head(12.0, 12.0, 5.0, 100.0, 5.0);
    is(
        clearance(&low, &far, &along, None),
        14.230,
        Some(Touches::Body),
    );
    // Along its own axis, out of the end.
    let end = Mouth {
        at_mm: [200.0, 5.0, 3.0],
        out: [1.0, 0.0, 0.0],
    };
    is(clearance(&shoulder, &end, &along, None), 0.0, None);
}

/// A needle of 0.2 mm 9 mm beside the crown of a bar of 20, on either side of it: a tenth nearer to the crown
/// the bar is higher by `sqrt(100 - 79.21) - sqrt(100 - 81)`.
#[test]
fn a_needle_beside_a_crown() {
    let needle = head(0.2, 0.2, 30.0, 120.0, 30.0);
    for side in [-9.0, 9.0] {
        let mouth = Mouth {
            at_mm: [0.0, side, 19.0_f64.sqrt()],
            out: [0.0, 0.0, 1.0],
        };
        let found = clearance(&needle, &mouth, &bar(0, 10.0, 60.0), None);
        is(found, 0.2007, Some(Touches::Nose));
    }
}

/// The least tube, a deep hole and a wide one stand in the same head: it is the nose that counts.
#[test]
fn heads_of_odd_sizes() {
    let plate = block(PLATE);
    let mouth = tilted(MIDDLE, 30.0);
    // A needle of a nose touches nothing, its body does: 60 tan 30 - 30 = 4.641.
    let needle = head(0.2, 0.2, 30.0, 120.0, 30.0);
    is(
        clearance(&needle, &mouth, &plate, None),
        4.641,
        Some(Touches::Body),
    );
    // No nose at all: 40 tan 30.
    let blunt = head(80.0, 80.0, 0.0, 80.0, 0.0);
    is(
        clearance(&blunt, &mouth, &plate, None),
        23.094,
        Some(Touches::Nose),
    );
    // A nose of 20 that narrows to 10 is met at its lower end: 10 tan 30.
    let collar = head(20.0, 10.0, 40.0, 60.0, 80.0);
    is(
        clearance(&collar, &mouth, &plate, None),
        5.774,
        Some(Touches::Nose),
    );
}
