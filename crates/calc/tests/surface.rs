//! Surfaces that holes begin and end in, against brute force over the tool's disc.
#![expect(
    clippy::unwrap_used,
    reason = "helpers of tests stop the test as tests do"
)]

use quillbore_calc::entry::{Meeting, Zone};
use quillbore_calc::surface::Surface;

/// Where a column changes from outside of a body to inside of it, between a height outside and one
/// inside; by halving.
fn change(inside: impl Fn(f64) -> bool, mut outside: f64, mut within: f64) -> f64 {
    assert!(!inside(outside) && inside(within));
    for _ in 0..80 {
        let middle = f64::midpoint(outside, within);
        if inside(middle) {
            within = middle;
        } else {
            outside = middle;
        }
    }
    within
}

/// Places on the disc, the axis first.
fn disc(tube: f64) -> Vec<(f64, f64)> {
    let mut places = vec![(0.0, 0.0)];
    for ring in [20, 40, 60, 80, 100, 110, 118, 120] {
        for step in 0..720 {
            let angle = f64::from(step).to_radians() / 2.0;
            let from_axis = tube / 2.0 * f64::from(ring) / 120.0;
            places.push((from_axis * libm::cos(angle), from_axis * libm::sin(angle)));
        }
    }
    places
}

/// The zone by its definition, from the heights at which the columns of the disc change.
fn zone(tube: f64, height: impl Fn(f64, f64) -> f64) -> Zone {
    let heights: Vec<f64> = disc(tube).iter().map(|(x, y)| height(*x, *y)).collect();
    let most = heights.iter().copied().fold(f64::MIN, f64::max);
    let least = heights.iter().copied().fold(f64::MAX, f64::min);
    Zone {
        before_mm: most - heights[0],
        after_mm: heights[0] - least,
    }
}

#[track_caller]
fn same(found: Option<Zone>, brute: Zone) {
    let found = found.unwrap();
    let off = (found.before_mm - brute.before_mm).abs() + (found.after_mm - brute.after_mm).abs();
    // The grid of the disc misses its lowest and highest points by less than this.
    assert!(off < 2e-4, "{found:?} {brute:?}");
}

/// A cylinder whose axis is tilted in the plane of x by `tilt`, `offset` beside the hole's axis in y.
fn in_cylinder(radius: f64, offset: f64, tilt: f64) -> impl Fn(f64, f64, f64) -> bool {
    let (sine, cosine) = (libm::sin(tilt.to_radians()), libm::cos(tilt.to_radians()));
    move |x, y, z| {
        let across = z * cosine - x * sine;
        libm::hypot(y + offset, across) < radius
    }
}

#[test]
fn tilted_cylinders_and_bores() {
    for (radius, offset, tilt, tube) in [
        (5.0, 0.0, 30.0, 1.0),
        (5.0, 2.0, 30.0, 1.0),
        (5.0, 4.4, 60.0, 1.0),
        (0.6, 0.0, 45.0, 1.0),
        (0.6, 0.05, 20.0, 1.0),
        (20.0, -7.0, 75.0, 3.0),
        (2.0, 1.4, 10.0, 1.0),
        (3.0, 0.0, 0.0, 1.0),
    ] {
        let inside = in_cylinder(radius, offset, tilt);
        let level = |x: f64| x * libm::tan(f64::to_radians(tilt));
        let far = 20.0 * radius;
        let near_side = zone(tube, |x, y| {
            change(|z| inside(x, y, z), level(x) + far, level(x))
        });
        let far_side = zone(tube, |x, y| {
            change(|z| inside(x, y, z), level(x) - far, level(x))
        });
        let cylinder = Surface::Cylinder {
            radius_mm: radius,
            offset_mm: offset,
        };
        let bore = Surface::Bore {
            radius_mm: radius,
            offset_mm: offset,
        };
        // Into a round bar by its near side, out of it by its far one; into a bore by its near side, out
        // of one into the metal by its far one.
        same(cylinder.entered(tilt, tube).zone, near_side);
        same(cylinder.left(tilt, tube).zone, far_side);
        same(bore.left(tilt, tube).zone, near_side);
        same(bore.entered(tilt, tube).zone, far_side);
        assert_eq!(cylinder.entered(tilt, tube).meeting, Meeting::Whole);
        // The free way: from where the axis is through down to where the other side is first touched.
        let axis = change(|z| inside(0.0, 0.0, z), far, 0.0);
        let other = disc(tube)
            .into_iter()
            .map(|(x, y)| change(|z| inside(x, y, z), level(x) - far, level(x)));
        let room = axis - other.fold(f64::MIN, f64::max);
        let found = bore.left(tilt, tube).room_mm.unwrap();
        assert!((found - room).abs() < 2e-4, "{found} {room}");
        let below = change(|z| inside(0.0, 0.0, z), -far, 0.0);
        let chord = cylinder.entered(tilt, tube).chord_mm.unwrap();
        assert!((chord - (axis - below)).abs() < 1e-9);
    }
}

#[test]
fn balls_at_an_angle() {
    let (radius, tilt, tube) = (6.0, 35.0, 1.2);
    let offset = radius * libm::sin(f64::to_radians(tilt));
    let inside =
        |x: f64, y: f64, z: f64| x * x + (y + offset) * (y + offset) + z * z < radius * radius;
    let brute = zone(tube, |x, y| change(|z| inside(x, y, z), 50.0, 0.0));
    let ball = |offset_mm| Surface::Ball {
        radius_mm: radius,
        offset_mm,
    };
    same(ball(0.0).entered(tilt, tube).zone, brute);
    same(ball(offset).entered(0.0, tube).zone, brute);
    // What the offset says counts, whatever angle stands beside it.
    assert_eq!(
        ball(offset).entered(10.0, tube),
        ball(offset).entered(0.0, tube)
    );
    assert!((ball(0.0).entered(tilt, tube).tilt_deg - tilt).abs() < 1e-9);
}

#[test]
fn edges() {
    for (included, first, offset, tube) in [
        (90.0, 45.0, 0.0, 1.0),
        (90.0, 30.0, 0.0, 1.0),
        (90.0, 30.0, 0.2, 1.0),
        (120.0, 20.0, 0.3, 1.0),
        (60.0, 60.0, 0.1, 0.8),
        (90.0, 80.0, 0.49, 1.0),
        (90.0, 30.0, 0.5, 1.0),
        (90.0, 30.0, 3.0, 1.0),
    ] {
        let second: f64 = 180.0 - included - first;
        // Metal lies below both planes; the edge stands at x = offset, the first plane before it.
        let fall = |deg: f64| libm::tan(deg.to_radians());
        let across = offset * libm::cos(f64::to_radians(first));
        let inside = |x: f64, _: f64, z: f64| {
            let from_edge = x - across;
            z < from_edge * fall(first) && z < -from_edge * fall(second)
        };
        let height = |x, y| change(|z| inside(x, y, z), 50.0, -50.0);
        let mut brute = zone(tube, height);
        // The edge itself lies between the places of the grid.
        let ridge = height(across.min(tube / 2.0), 0.0) - height(0.0, 0.0);
        brute.before_mm = brute.before_mm.max(ridge);
        let edge = Surface::Edge {
            included_deg: included,
            offset_mm: offset,
        };
        let met = edge.entered(first, tube);
        same(met.zone, brute);
        assert_eq!(met.meeting, Meeting::Whole);
        same(edge.left(first, tube).zone, brute.mirrored());
    }
}

/// By hand: a 1 mm tool along a square edge, 0.2 mm inside of it, hangs over by 0.3.
#[test]
fn along_a_side_face() {
    let edge = |offset_mm| Surface::Edge {
        included_deg: 90.0,
        offset_mm,
    };
    let met = edge(0.2).entered(0.0, 1.0);
    assert!(matches!(met.meeting, Meeting::Overhang { by_mm } if (by_mm - 0.3).abs() < 1e-12));
    assert_eq!(met.zone, Some(Zone::NONE));
    assert_eq!(edge(0.5).entered(0.0, 1.0).meeting, Meeting::Whole);
    assert!((edge(0.65).side_wall_mm(0.0, 1.1).unwrap() - 0.1).abs() < 1e-12);
    // A side face that leans away from the hole, or into it, is none to measure a wall to.
    assert_eq!(edge(0.65).side_wall_mm(30.0, 1.1), None);
    let sharp = Surface::Edge {
        included_deg: 60.0,
        offset_mm: 0.65,
    };
    assert!((sharp.side_wall_mm(30.0, 1.1).unwrap() - 0.1).abs() < 1e-12);
    assert_eq!(sharp.side_wall_mm(31.0, 1.1), None);
    let round = Surface::Cylinder {
        radius_mm: 5.0,
        offset_mm: -4.3,
    };
    assert!((round.side_wall_mm(0.0, 1.1).unwrap() - 0.15).abs() < 1e-12);
    assert_eq!(round.side_wall_mm(5.0, 1.1), None);
    assert_eq!(Surface::Flat.side_wall_mm(0.0, 1.1), None);
}

/// By hand: normal of a cylinder R 10 at offset 6 stands 36.87 degrees off; tilted by 30 degrees along it
/// cos 30 x 0.8 = cos 46.15.
#[test]
fn angles_of_tilted_surfaces() {
    let cylinder = Surface::Cylinder {
        radius_mm: 10.0,
        offset_mm: 6.0,
    };
    assert!((cylinder.entered(0.0, 1.0).tilt_deg - 36.87).abs() < 0.005);
    assert!((cylinder.entered(30.0, 1.0).tilt_deg - 46.15).abs() < 0.005);
    assert_eq!(Surface::Flat.entered(30.0, 1.0).tilt_deg, 30.0);
}

#[test]
fn what_isnt_crossed() {
    let bore = |offset_mm| Surface::Bore {
        radius_mm: 1.0,
        offset_mm,
    };
    for (offset, meeting) in [
        (1.0, Meeting::AxisMisses),
        (1.5, Meeting::ToolMisses),
        (-2.0, Meeting::ToolMisses),
    ] {
        let met = bore(offset).left(0.0, 1.0);
        assert_eq!((met.meeting, met.zone, met.room_mm), (meeting, None, None));
    }
    let met = bore(0.8).left(0.0, 1.0);
    assert!(matches!(met.meeting, Meeting::Overhang { by_mm } if (by_mm - 0.3).abs() < 1e-12));
    for tilt in [90.0, 120.0, f64::NAN, f64::INFINITY] {
        for surface in [
            Surface::Flat,
            bore(0.0),
            Surface::Cylinder {
                radius_mm: 5.0,
                offset_mm: 0.0,
            },
        ] {
            assert_eq!(surface.entered(tilt, 1.0).zone, None, "{surface:?} {tilt}");
        }
    }
}

/// A little more tilt or offset is a little more zone: no jumps, on either side of a tool's edge.
#[test]
fn zones_have_no_jumps() {
    let step = 1e-4;
    let mut most: f64 = 0.0;
    let mut look = |surface: &dyn Fn(f64) -> (Surface, f64), places: std::ops::Range<u32>| {
        let lengths = places.map(|place| {
            let (surface, tilt) = surface(f64::from(place) * step);
            surface.entered(tilt, 1.0).zone.unwrap().length_mm()
        });
        let lengths: Vec<f64> = lengths.collect();
        for pair in lengths.windows(2) {
            most = most.max((pair[1] - pair[0]).abs());
        }
    };
    let edge = |offset_mm| Surface::Edge {
        included_deg: 90.0,
        offset_mm,
    };
    look(&|at| (edge(at), 40.0), 0..10_000);
    // Nearly along the side face the zone has no end: there the edge hangs over.
    look(&|at| (edge(0.2), at * 80.0), 700..10_000);
    let round = |offset_mm| Surface::Cylinder {
        radius_mm: 5.0,
        offset_mm,
    };
    look(&|at| (round(at * 4.4), 25.0), 0..10_000);
    look(&|at| (round(1.5), at * 70.0), 0..10_000);
    assert!(most < 0.01, "{most}");
}

/// The height over the rim in a million steps is no higher and no lower than what was found.
#[test]
fn tilted_cylinders_to_a_nanometer() {
    for (radius, offset, tilt, tube) in [
        (5.0, 0.0, 30.0, 1.0),
        (5.0, 4.4, 60.0, 1.0),
        (5.0, 4.499, 3.0, 1.0),
        (0.501, 0.0, 45.0, 1.0),
        (0.6, 0.09, 20.0, 1.0),
        (20.0, 7.0, 85.0, 3.0),
        (2.0, 1.49, 10.0, 1.0),
        (300.0, 20.0, 0.01, 6.0),
    ] {
        let (r, slope) = (tube / 2.0, f64::to_radians(tilt));
        let height = |angle: f64| {
            let (x, y) = (r * libm::cos(angle), offset + r * libm::sin(angle));
            x * libm::tan(slope) + libm::sqrt(radius * radius - y * y) / libm::cos(slope)
        };
        let heights =
            (0..1_000_000).map(|step| height(f64::from(step) * 1e-6 * std::f64::consts::TAU));
        let (least, most) = heights.fold((f64::MAX, f64::MIN), |(least, most), height| {
            (least.min(height), most.max(height))
        });
        let axis = libm::sqrt(radius * radius - offset * offset) / libm::cos(slope);
        let surface = Surface::Cylinder {
            radius_mm: radius,
            offset_mm: offset,
        };
        let zone = surface.entered(tilt, tube).zone.unwrap();
        // The crown lies inside of the disc where the axis is nearly over it.
        let highest = (most - axis).max(0.0);
        let (before, after) = (zone.before_mm - highest, zone.after_mm - (axis - least));
        assert!(
            before > -1e-6 && after.abs() < 1e-6,
            "{radius} {tilt}: {before} {after}"
        );
    }
}
