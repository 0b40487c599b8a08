//! Start holes: the smallest of many, the exit, the way to the profile.

use quillbore_calc::Limits;
use quillbore_calc::spread::normal_at;
use quillbore_calc::start_hole::{StartHole, exits, smallest_of, toward_profile};

fn close(found: f64, expected: f64, within: f64) {
    assert!(
        (found - expected).abs() <= within,
        "{found} is not {expected} within {within}"
    );
}

/// Numbers that are spread evenly over 0 to 1 and look like chance (Steele's splitting generator).
struct Even(u64);

impl Even {
    fn next(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^= mixed >> 31;
        ((mixed >> 11) as f64 + 0.5) / (1_u64 << 53) as f64
    }
}

/// Brute force: lots of n holes drawn one by one; half of the lots have their smallest below.
#[test]
fn half_of_the_lots_have_their_smallest_below() {
    for (holes, lots) in [(1_u64, 20_000), (7, 20_000), (60, 6_000), (1_000, 1_000)] {
        let (mean, deviation) = (0.5, 0.008);
        let told = smallest_of(mean, deviation, holes);
        let mut even = Even(holes);
        let below = (0..lots)
            .filter(|_| (0..holes).any(|_| mean + deviation * normal_at(even.next()) < told))
            .count();
        let share = below as f64 / f64::from(lots);
        // Three deviations of a share of one half.
        close(share, 0.5, 1.5 / f64::from(lots).sqrt());
    }
}

/// Deviates by the inverse of the normal distribution in another program (Python's `statistics`).
#[test]
fn deviates_of_another_program() {
    for (holes, z) in [
        (2, -0.544_952_135_617_336),
        (10, -1.498_767_275_358_975_4),
        (1_000, -3.197_589_495_384_008_3),
    ] {
        close(smallest_of(0.0, 1.0, holes), z, 1e-9);
    }
    assert_eq!(smallest_of(0.5, 0.01, 0), smallest_of(0.5, 0.01, 1));
    // More holes never make the smallest larger, and all of them stay numbers.
    let mut before = f64::INFINITY;
    for holes in (0..64).map(|power| 1_u64 << power) {
        let found = smallest_of(0.5, 0.01, holes);
        assert!(found.is_finite() && found <= before, "{holes}: {found}");
        before = found;
    }
}

#[test]
fn the_least_exit_is_the_typed_one_the_wire_or_the_wire_with_its_clearance() {
    let asked = |wire_mm, least_exit_mm| {
        let asked = StartHole {
            wire_mm,
            least_exit_mm,
            to_profile_mm: Some(1.0),
        };
        asked.needed_mm(0.1)
    };
    assert_eq!(asked(None, None), None);
    assert_eq!(asked(None, Some(0.4)), Some(0.4));
    assert_eq!(asked(Some(0.25), None), Some(0.35));
    assert_eq!(asked(Some(0.25), Some(0.3)), Some(0.3));
    // What is typed below the wire lets no wire through.
    assert_eq!(asked(Some(0.25), Some(0.2)), Some(0.25));
}

/// From both ends the halves miss each other: sqrt 2 x 0.2 mm in 100 on halves of 50 mm take 0.1414 from the
/// smallest exit, sqrt 2 x 0.1 take 0.0707 from the expected one.
#[test]
fn halves_that_miss_leave_a_smaller_exit() {
    let halves = Some((Limits::new(0.1, 0.2), 50.0));
    let found = exits(Limits::new(0.54, 0.62), 0.57, 0.015, 0.008, 1, halves);
    assert!((found.smallest_mm - (0.525 - 0.141_421)).abs() < 5e-7);
    assert!((found.expected_mm - (0.555 - 0.070_711)).abs() < 5e-7);
    assert!((found.largest_mm - 0.605).abs() < 1e-12);
}

#[test]
fn no_exit_is_below_nothing() {
    let found = exits(Limits::new(0.3, 0.4), 0.35, 0.5, 0.01, 1_000, None);
    assert_eq!(
        [found.smallest_mm, found.expected_mm, found.largest_mm],
        [0.0; 3]
    );
}

/// Brute force: every point of a round hole, leaned and drifted, seen along the profile's wall.
#[test]
fn no_point_of_the_hole_is_farther_than_told() {
    for (hole, tilt, drift, depth) in [
        (0.6, 0.0, 0.2, 3.0),
        (1.0, 0.0, 0.2, 300.0),
        (0.8, 35.0_f64, 0.1, 40.0),
    ] {
        let told = toward_profile(hole, tilt, drift, depth, 0.03).unwrap();
        let mut farthest = 0.0_f64;
        for step in 0..3_600 {
            let angle = (f64::from(step) / 10.0).to_radians();
            // A cut square to the wall's direction stretches the circle along the lean.
            let along = hole / 2.0 * libm::cos(angle) / libm::cos(tilt.to_radians());
            farthest = farthest.max(along + drift * depth / 100.0 + 0.03);
        }
        close(told, farthest, 1e-9);
    }
    assert_eq!(toward_profile(1.0, 90.0, 0.2, 10.0, 0.03), None);
}
