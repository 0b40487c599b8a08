//! Entry zones against brute force over the tool's disc, and printed geometry.

use quillbore_calc::entry::{Meeting, Zone, flat, mouth, round, tilt_on_round};

/// Largest and smallest axial height of a surface over the disc, and the height on the axis: the
/// zone by its definition, on a fine grid in polar coordinates.
fn brute_force(tube: f64, height: impl Fn(f64, f64) -> f64) -> Zone {
    let (mut least, mut most) = (f64::MAX, f64::MIN);
    for ring in 0..=400 {
        let radius = tube / 2.0 * f64::from(ring) / 400.0;
        for step in 0..1440 {
            let angle = f64::from(step).to_radians() / 4.0;
            let here = height(radius * libm::cos(angle), radius * libm::sin(angle));
            least = least.min(here);
            most = most.max(here);
        }
    }
    let axis = height(0.0, 0.0);
    Zone {
        before_mm: most - axis,
        after_mm: axis - least,
    }
}

fn check(found: Zone, brute: Zone, what: &str) {
    assert!(
        (found.before_mm - brute.before_mm).abs() < 2e-4,
        "{what}: {found:?} {brute:?}"
    );
    assert!(
        (found.after_mm - brute.after_mm).abs() < 2e-4,
        "{what}: {found:?} {brute:?}"
    );
}

#[test]
fn planes() {
    for tilt in [0.0, 10.0, 30.0, 60.0, 75.0] {
        let slope = libm::tan(f64::to_radians(tilt));
        let brute = brute_force(0.8, |x, _| x * slope);
        check(flat(0.8, tilt).unwrap(), brute, "plane");
        assert_eq!(flat(0.8, tilt), flat(0.8, -tilt));
    }
}

#[test]
fn cylinders_square_to_the_axis() {
    for (radius, offset, tube) in [
        (0.6, 0.0, 1.0),
        (5.0, 2.0, 1.0),
        (5.0, 0.2, 1.0),
        (5.0, 4.4, 1.0),
        (20.0, -5.0, 3.0),
    ] {
        let height = |x: f64, _: f64| libm::sqrt(radius * radius - (offset + x) * (offset + x));
        let met = round(radius, offset, tube);
        assert_eq!(met.meeting, Meeting::Whole);
        check(met.zone, brute_force(tube, height), "cylinder");
    }
}

#[test]
fn balls() {
    for (radius, offset, tube) in [
        (0.6, 0.0, 1.0),
        (5.0, 2.0, 1.0),
        (5.0, 0.3, 1.0),
        (9.0, 8.0, 1.9),
    ] {
        let height =
            |x: f64, y: f64| libm::sqrt(radius * radius - (offset + x) * (offset + x) - y * y);
        check(
            round(radius, offset, tube).zone,
            brute_force(tube, height),
            "ball",
        );
    }
}

/// Travel through a whole round bar or ball, found by brute force over the disc: the longest chord
/// under the tool. Half the zones added to the depth would be too long.
#[test]
fn travel_through_a_round_is_its_longest_chord() {
    for (radius, offset, tube) in [(0.6, 0.0, 1.0), (5.0, 2.0, 1.0), (5.0, 0.2, 1.0)] {
        let met = round(radius, offset, tube);
        let cut = quillbore_calc::burn::Cut {
            depth_mm: met.axis_chord_mm,
            entry: met.zone,
            exit: met.zone.mirrored(),
        };
        let (mut longest, mut shortest): (f64, f64) = (0.0, f64::MAX);
        for step in -1000..=1000 {
            let from = offset + tube / 2.0 * f64::from(step) / 1000.0;
            let chord = 2.0 * libm::sqrt(radius * radius - from * from);
            longest = longest.max(chord);
            shortest = shortest.min(chord);
        }
        assert!(
            (cut.travel_mm() - longest).abs() < 1e-4,
            "{radius} {offset}"
        );
        assert!((met.longest_chord_mm - longest).abs() < 1e-4);
        assert!(
            (cut.full_metal_mm() - shortest).abs() < 1e-4,
            "{radius} {offset}"
        );
    }
    let met = round(0.6, 0.0, 1.0);
    let half_zones = met.axis_chord_mm + met.zone.length_mm();
    assert!(half_zones - met.longest_chord_mm > 0.26);
}

/// Worked by hand: R 0.6, r 0.5, e 0.
#[test]
fn printed_zone() {
    assert!((round(0.6, 0.0, 1.0).zone.length_mm() - 0.268).abs() < 0.0005);
}

/// Elementary geometry, computed apart: chords 2 sqrt(R^2 - e^2).
#[test]
fn chords() {
    for (radius, offset, chord, digit) in [
        (10.0, 6.0, 16.0, 1e-9),
        (10.0, 8.0, 12.0, 1e-9),
        (25.4, 12.7, 43.9941, 0.00005),
    ] {
        let found = round(radius, offset, 0.5).axis_chord_mm;
        assert!((found - chord).abs() < digit, "{radius} {offset}: {found}");
    }
    // Tube wall, Ro 20, Ri 18, e 5: half the difference of the two chords.
    let wall = (round(20.0, 5.0, 0.5).axis_chord_mm - round(18.0, 5.0, 0.5).axis_chord_mm) / 2.0;
    assert!((wall - 2.0733).abs() < 0.00005);
}

/// Elementary geometry: mouth ellipse d / cos t, and the long side of a wall starts d tan t earlier.
#[test]
fn tilted_mouths() {
    for (hole, tilt, printed) in [
        (1.0, 30.0, 1.1547),
        (10.0, 45.0, 14.142),
        (1.0, 60.0, 2.0000),
        (0.5, 75.0, 1.9319),
        (10.0, 70.0, 29.238),
    ] {
        let found = mouth(hole, tilt).unwrap();
        assert!((found - printed).abs() < 0.0005, "{hole} {tilt}: {found}");
    }
    assert!((flat(1.0, 30.0).unwrap().length_mm() - 0.577).abs() < 0.0005);
}

#[test]
fn how_the_tool_lies() {
    assert_eq!(round(5.0, 4.5, 1.0).meeting, Meeting::Whole);
    let Meeting::Overhang { by_mm } = round(5.0, 4.8, 1.0).meeting else {
        panic!("4.8 + 0.5 is beyond 5");
    };
    assert!((by_mm - 0.3).abs() < 1e-12);
    assert_eq!(round(5.0, 5.0, 1.0).meeting, Meeting::AxisMisses);
    assert_eq!(round(5.0, -5.4, 1.0).meeting, Meeting::AxisMisses);
    assert_eq!(round(5.0, 5.5, 1.0).meeting, Meeting::ToolMisses);
    let misses = round(5.0, 7.0, 1.0);
    assert_eq!((misses.axis_chord_mm, misses.longest_chord_mm), (0.0, 0.0));
}

#[test]
fn angles_from_ninety_degrees_on_have_no_zone() {
    for tilt in [90.0, -90.0, 120.0, f64::NAN] {
        assert_eq!(flat(1.0, tilt), None);
        assert_eq!(mouth(1.0, tilt), None);
    }
    assert_eq!(tilt_on_round(5.0, 5.0), None);
    assert_eq!(tilt_on_round(5.0, 0.0), Some(0.0));
}
