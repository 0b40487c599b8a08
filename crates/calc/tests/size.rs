//! Electrode choice and verdict against the drawing.
#![expect(
    clippy::unwrap_used,
    reason = "helpers of tests stop the test as tests do"
)]

use quillbore_calc::Spread;
use quillbore_calc::job_figures::Verdict;
use quillbore_calc::size::{Candidate, Wish, choose, gap_of, made, verdict};
use quillbore_calc::tables::TubeMaterial::{self, Brass, Copper};

/// Start values, memory of common practice, no source.
fn gaps() -> Vec<(f64, Spread)> {
    [
        (0.3, 0.02, 0.05),
        (1.0, 0.03, 0.08),
        (3.0, 0.05, 0.12),
        (6.0, 0.08, 0.20),
    ]
    .map(|(d, low, high)| (d, Spread::new(low, high).unwrap()))
    .to_vec()
}

const TOLERANCE: f64 = 0.01;

/// Candidates of a drawer in the order that the choice asks for.
fn drawer(tubes: &[(f64, bool, TubeMaterial)]) -> Vec<Candidate> {
    let mut all: Vec<_> = tubes
        .iter()
        .enumerate()
        .map(|(tube, (outer_mm, several, material))| Candidate {
            tube,
            outer_mm: *outer_mm,
            made: made(
                *outer_mm,
                gap_of(&gaps(), *outer_mm).unwrap(),
                TOLERANCE,
                0.0,
            ),
            several: *several,
            material: *material,
        })
        .collect();
    all.sort_by(|a, b| b.made.largest_mm.total_cmp(&a.made.largest_mm));
    all
}

const ONE_BRASS: Wish = Wish {
    several: false,
    material: Some(Brass),
};

fn chosen(drawer: &[Candidate], limits: [f64; 2], taper: f64, wish: Wish) -> Option<usize> {
    choose(drawer, limits, taper, wish).map(|place| drawer[place].tube)
}

/// The design's rule written out plainly: the largest tube that holds both limits.
fn plain_rule(drawer: &[Candidate], [lower, upper]: [f64; 2], taper: f64) -> Option<f64> {
    drawer
        .iter()
        .filter(|tube| {
            let gap = gap_of(&gaps(), tube.outer_mm).unwrap();
            tube.outer_mm + 2.0 * gap.p90 + TOLERANCE <= upper
                && tube.outer_mm + 2.0 * gap.p10 - taper >= lower
        })
        .map(|tube| tube.outer_mm)
        .max_by(f64::total_cmp)
}

#[test]
fn largest_that_holds_both_limits() {
    let tubes: Vec<_> = (2..60)
        .map(|n| (f64::from(n) / 20.0, false, Brass))
        .collect();
    let drawer = drawer(&tubes);
    let mut held = 0;
    for nominal in 2..60 {
        for width in [0.02, 0.05, 0.1, 0.15, 0.3] {
            for taper in [0.0, 0.03] {
                let nominal = f64::from(nominal) / 20.0;
                let limits = [nominal - width, nominal + width];
                let Some(expected) = plain_rule(&drawer, limits, taper) else {
                    continue;
                };
                let place = choose(&drawer, limits, taper, ONE_BRASS).unwrap();
                assert_eq!(drawer[place].outer_mm, expected, "{limits:?} {taper}");
                held += 1;
            }
        }
    }
    assert!(held > 150, "{held}");
}

/// Where no tube holds both, the upper limit is kept and the median stays below the middle.
#[test]
fn upper_limit_first() {
    let tubes: Vec<_> = (2..60)
        .map(|n| (f64::from(n) / 20.0, false, Brass))
        .collect();
    let drawer = drawer(&tubes);
    for nominal in 10..60 {
        let nominal = f64::from(nominal) / 20.0;
        let limits = [nominal - 0.02, nominal + 0.02];
        assert_eq!(plain_rule(&drawer, limits, 0.0), None);
        let tube = drawer[choose(&drawer, limits, 0.0, ONE_BRASS).unwrap()];
        assert!(tube.made.largest_mm <= limits[1]);
        assert!(tube.made.entry_mm <= nominal);
        // The next larger one would break one of the two.
        let larger = drawer
            .iter()
            .rev()
            .find(|other| other.outer_mm > tube.outer_mm)
            .unwrap();
        assert!(larger.made.largest_mm > limits[1] || larger.made.entry_mm > nominal);
        assert_eq!(verdict(limits, &tube.made), Verdict::NotToBePromised);
    }
}

#[test]
fn nothing_keeps_the_upper_limit() {
    let drawer = drawer(&[(0.5, false, Brass), (0.6, false, Brass)]);
    assert_eq!(choose(&drawer, [0.3, 0.5], 0.0, ONE_BRASS), None);
    assert_eq!(choose(&[], [0.3, 0.5], 0.0, ONE_BRASS), None);
}

/// A drawer whose smallest tube keeps the upper limit but lies above the middle still gives it.
#[test]
fn smallest_where_none_is_below_the_middle() {
    let drawer = drawer(&[(0.5, false, Brass), (0.55, false, Brass)]);
    // 0.5: median 0.568 + ..., largest 0.624; middle of the limits 0.51.
    assert_eq!(chosen(&drawer, [0.38, 0.64], 0.2, ONE_BRASS), Some(0));
}

/// Limits that are met to the last digit are met: 0.3 + 2 x 0.05 + 0.01 = 0.41, which binary fractions
/// miss by a hair.
#[test]
fn met_to_the_last_digit() {
    let drawer = drawer(&[(0.25, false, Brass), (0.3, false, Brass)]);
    assert_eq!(chosen(&drawer, [0.39, 0.41], 0.0, ONE_BRASS), Some(1));
    assert_eq!(chosen(&drawer, [0.39, 0.4099], 0.0, ONE_BRASS), Some(0));
    let sizes = made(0.3, Spread::new(0.02, 0.05).unwrap(), 0.01, 0.0);
    assert_eq!(verdict([0.30, 0.41], &sizes), Verdict::Tight);
    assert_eq!(verdict([0.34, 0.41], &sizes), Verdict::Tight);
    // 0.3 + 2 x 0.02 = 0.34 at the lower, with exactly a tenth of room at both.
    assert_eq!(verdict([0.33125, 0.41875], &sizes), Verdict::Comfortable);
    assert_eq!(verdict([0.3313, 0.41875], &sizes), Verdict::Tight);
}

/// Only a maximum: the largest tube below it.
#[test]
fn only_a_maximum() {
    let drawer = drawer(&[
        (0.5, false, Brass),
        (0.6, false, Brass),
        (0.7, false, Brass),
    ]);
    let tube = choose(&drawer, [0.0, 0.80], 0.0, ONE_BRASS).unwrap();
    assert_eq!(drawer[tube].outer_mm, 0.6);
    assert_eq!(
        verdict([0.0, 0.80], &drawer[tube].made),
        Verdict::Comfortable
    );
}

/// A size without any tolerance is met by the median, never above.
#[test]
fn one_size_without_tolerance() {
    let drawer = drawer(&[
        (0.6, false, Brass),
        (0.7, false, Brass),
        (0.75, false, Brass),
    ]);
    // Medians by the geometric mean: 0.7 + 2 sqrt(0.02571 x 0.06714) = 0.783.
    assert_eq!(chosen(&drawer, [0.8, 0.8], 0.0, ONE_BRASS), Some(1));
}

/// Channels before material before size among the tubes that hold both limits.
#[test]
fn wishes() {
    let drawer = drawer(&[
        (0.80, false, Brass),
        (0.75, false, Copper),
        (0.70, true, Brass),
        (0.65, true, Copper),
    ]);
    let limits = [0.6, 1.2];
    let wish = |several, material| Wish { several, material };
    assert_eq!(
        chosen(&drawer, limits, 0.0, wish(false, Some(Brass))),
        Some(0)
    );
    assert_eq!(
        chosen(&drawer, limits, 0.0, wish(false, Some(Copper))),
        Some(1)
    );
    assert_eq!(
        chosen(&drawer, limits, 0.0, wish(true, Some(Brass))),
        Some(2)
    );
    assert_eq!(
        chosen(&drawer, limits, 0.0, wish(true, Some(Copper))),
        Some(3)
    );
    assert_eq!(chosen(&drawer, limits, 0.0, wish(false, None)), Some(0));
    // A wish is no reason to break a limit.
    assert_eq!(
        chosen(&drawer, [0.84, 1.2], 0.0, wish(true, Some(Copper))),
        Some(0)
    );
}

#[test]
fn verdicts_at_their_edges() {
    let sizes = made(0.7, Spread::new(0.03, 0.06).unwrap(), 0.01, 0.02);
    // smallest 0.740, median at the exit 0.76485, largest 0.830.
    let expect = |limits, verdict_expected| {
        assert_eq!(verdict(limits, &sizes), verdict_expected, "{limits:?}");
    };
    expect([0.70, 0.87], Verdict::Comfortable);
    expect([0.739, 0.87], Verdict::Tight);
    expect([0.70, 0.831], Verdict::Tight);
    expect([0.764, 0.831], Verdict::Tight);
    expect([0.765, 0.831], Verdict::NotToBePromised);
    expect([0.70, 0.829], Verdict::NotToBePromised);
}

#[test]
fn gaps_are_interpolated_without_steps() {
    let gap = |d| gap_of(&gaps(), d).unwrap();
    assert_eq!(gap(0.1), gap(0.3));
    assert_eq!(gap(9.0), gap(6.0));
    let middle = gap(2.0);
    assert!((middle.p10 - 0.04).abs() < 1e-12 && (middle.p90 - 0.10).abs() < 1e-12);
    assert_eq!(gap_of(&[], 1.0), None);
}
