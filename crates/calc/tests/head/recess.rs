//! Holes at the bottom of a pocket or bore.

use quillbore_calc::head::{Head, Recess, Touches};
use quillbore_calc::outline::{Mouth, Outline};

use crate::{bar, block, clearance, head, needed, tilted};

const SHOULDER: Head = head(12.0, 12.0, 40.0, 100.0, 40.0);
const CONE: Head = head(12.0, 12.0, 40.0, 100.0, 84.0);

fn in_recess(head: &Head, depth_mm: f64, width_mm: f64) -> (f64, Option<Touches>) {
    let recess = Some(Recess { depth_mm, width_mm });
    // Once on the face that its depth is counted from, once as deep within the plate as that.
    let plate = |thick: f64| block([[-300.0, -300.0, -50.0], [300.0, 300.0, thick]]);
    let mouth = tilted([0.0; 3], 0.0);
    let found = [0.0, depth_mm].map(|thick| clearance(head, &mouth, &plate(thick), recess));
    assert!(
        (found[0].needed_mm - found[1].needed_mm).abs() < 1e-9,
        "{found:?}"
    );
    assert_eq!(found[0].touches, found[1].touches);
    (found[0].needed_mm, found[0].touches)
}

#[test]
fn pockets_by_hand() {
    for (head, depth, width, printed, touches) in [
        (SHOULDER, 20.0, 16.0, 0.0, None),
        // As wide as the nose: it just goes in, and doesn't if the pocket is a hair narrower.
        (SHOULDER, 20.0, 12.0, 0.0, None),
        (SHOULDER, 20.0, 11.99, 20.0, Some(Touches::Nose)),
        // The shoulder sits on the rim.
        (SHOULDER, 60.0, 16.0, 20.0, Some(Touches::Body)),
        // The cone is 8 mm in radius at a height of 42.
        (CONE, 60.0, 16.0, 18.0, Some(Touches::Cone)),
        (CONE, 40.0, 16.0, 0.0, None),
        // 20 mm in radius at 40 + 30 x 15.5 / 35.5, past a nose that narrows from 7.5 to 4.5.
        (
            head(15.0, 9.0, 40.0, 80.0, 70.0),
            60.0,
            40.0,
            20.0 - 30.0 * 15.5 / 35.5,
            Some(Touches::Cone),
        ),
        // Wider than the body.
        (CONE, 500.0, 100.0, 0.0, None),
        (CONE, 0.0, 2.0, 0.0, None),
    ] {
        let (found, by) = in_recess(&head, depth, width);
        assert!((found - printed).abs() < 1e-9, "{depth} {width}: {found}");
        assert_eq!(by, touches);
    }
}

/// A hole beside a wall: the box's upper face is a step 25 mm above the mouth, and the wall 8 mm off.
#[test]
fn beside_a_wall() {
    let part: Outline = block([[-100.0, -100.0, -30.0], [100.0, 100.0, 25.0]]);
    let mouth = tilted([0.0; 3], 0.0);
    let free = |width_mm| {
        Some(Recess {
            depth_mm: 25.0,
            width_mm,
        })
    };
    assert_eq!(needed(&SHOULDER, &mouth, &part, free(16.0)), 0.0);
    let low = head(12.0, 12.0, 15.0, 100.0, 15.0);
    assert!((needed(&low, &mouth, &part, free(16.0)) - 10.0).abs() < 1e-9);
    assert!((needed(&low, &mouth, &part, free(10.0)) - 25.0).abs() < 1e-9);
    // Nobody said how wide: nothing gets in.
    assert!((needed(&low, &mouth, &part, None) - 25.0).abs() < 1e-9);
}

/// At a tilt of 30 degrees the plate rises beyond the rim: 20 mm off by `20 tan 30 = 11.547`, and 50 mm off,
/// where the body ends, by `50 tan 30 = 28.868`.
#[test]
fn tilted_beyond_the_rim() {
    let part = block([[-300.0, -300.0, -30.0], [300.0, 300.0, 0.0]]);
    let mouth = tilted([0.0; 3], 30.0);
    let free = |depth_mm| {
        Some(Recess {
            depth_mm,
            width_mm: 40.0,
        })
    };
    // The nose is within the recess, the body touches: 28.868 - 15.
    let low = head(12.0, 12.0, 15.0, 100.0, 15.0);
    assert!((needed(&low, &mouth, &part, free(0.0)) - 13.868).abs() < 0.0005);
    // A cone that rises slower than the plate, 10 on 44: the body, 28.868 - 10.
    let stout = head(12.0, 12.0, 0.0, 100.0, 10.0);
    assert!((needed(&stout, &mouth, &part, free(0.0)) - 18.868).abs() < 0.0005);
    // One that rises faster, 30 on 44, is 20 wide at 9.545: the rim, 11.547 - 9.545.
    let slim = head(12.0, 12.0, 0.0, 100.0, 30.0);
    assert!((needed(&slim, &mouth, &part, free(0.0)) - 2.002).abs() < 0.0005);
    assert!((needed(&slim, &mouth, &part, free(30.0)) - 20.455).abs() < 0.0005);
}

/// The plate ends 10 mm uphill, within a recess of 15 about the axis: the rim crosses the edge to the left and to
/// the right of that place, `sqrt(225 - 75) = 12.247` aside, and is `10 sin 30` high there. Where the plate ends
/// on one side it still crosses on the other. Where it ends on both, 12 mm aside at most, the edge that goes down
/// from that corner is `sqrt(225 - 144) = 9` off uphill where it is z deep with `10 cos 30 + z sin 30 = 9`, and
/// `10 sin 30 - z cos 30` high.
#[test]
fn a_rim_that_crosses_an_edge() {
    let flat = head(80.0, 80.0, 0.0, 80.0, 0.0);
    let mouth = tilted([0.0; 3], 30.0);
    let rim = Some(Recess {
        depth_mm: 0.0,
        width_mm: 30.0,
    });
    let high = |left: f64, right: f64| {
        let plate = block([[-300.0, -left, -30.0], [10.0, right, 0.0]]);
        needed(&flat, &mouth, &plate, rim)
    };
    for (left, right) in [(13.0, 13.0), (3.0, 13.0), (13.0, 3.0), (12.25, 3.0)] {
        assert!((high(left, right) - 5.0).abs() < 1e-9, "{left} {right}");
    }
    let deep = (9.0 - 10.0 * 0.75_f64.sqrt()) / 0.5;
    assert!((high(12.0, 3.0) - (5.0 - deep * 0.75_f64.sqrt())).abs() < 1e-9);
}

/// 10 mm beside the crown of a bar, in a recess of 15 about the axis: the rim crosses the crown, which is
/// `30 - sqrt(800) = 1.716` higher than the mouth. A cone that rises 1 mm from 3 to 50 is 12 / 47 up there.
#[test]
fn a_rim_that_crosses_a_crown() {
    let cone = head(6.0, 6.0, 0.0, 100.0, 1.0);
    let mouth = Mouth {
        at_mm: [0.0, 10.0, 800.0_f64.sqrt()],
        out: [0.0, 0.0, 1.0],
    };
    let rim = Some(Recess {
        depth_mm: 0.0,
        width_mm: 30.0,
    });
    let found = clearance(&cone, &mouth, &bar(0, 30.0, 400.0), rim);
    let by_hand = 30.0 - 800.0_f64.sqrt() - 12.0 / 47.0;
    assert!((found.needed_mm - by_hand).abs() < 1e-9, "{found:?}");
    assert_eq!(found.touches, Some(Touches::Cone));
}

/// Ten millimeters deep in a thin bar, leaning by 30 degrees from its axis, in a recess three times as wide as
/// the bar: 15 mm off the axis there is bar on one side alone, behind the mouth and lower than it. On the other
/// side a line along the tool is past the end before it would come to the bar.
#[test]
fn a_recess_wider_than_the_bar() {
    let flat = head(80.0, 80.0, 0.0, 80.0, 0.0);
    let mouth = tilted([190.0, 0.0, 0.0], 60.0);
    let rim = Some(Recess {
        depth_mm: 0.0,
        width_mm: 30.0,
    });
    assert_eq!(needed(&flat, &mouth, &bar(0, 5.0, 400.0), rim), 0.0);
}
