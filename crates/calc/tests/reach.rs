//! Reach of electrodes one after another and from both ends.

use quillbore_calc::reach::{after, enough_for, limit_from_both, miss, next, next_through, usable};
use quillbore_calc::span::Span;

fn one_material(ratio: f64, from_mm: f64) -> [Span; 1] {
    [Span {
        from_mm,
        to_mm: 1e6,
        value: ratio,
    }]
}

/// Common practice, no source: of a 36 in electrode about 28 in can go into a hole.
#[test]
fn long_electrode() {
    assert!((usable(36.0, 8.0, 100.0) - 28.0).abs() < 1e-12);
    assert_eq!(usable(36.0, 8.0, 20.0), 20.0);
    assert_eq!(usable(5.0, 8.0, 20.0), 0.0);
}

/// Closed form: wear ratio 1, usable 28 in.
#[test]
fn chain() {
    let mut depth = 0.0;
    let mut walked = 0.0;
    for (electrodes, printed) in (1..).zip([14.0, 21.0, 24.5, 26.25]) {
        depth = next(28.0, 1.0, depth);
        walked = next_through(28.0, 0.0, walked, one_material(1.0, walked));
        assert_eq!(depth, printed);
        assert!((walked - printed).abs() < 1e-12);
        assert!((after(28.0, 1.0, electrodes) - printed).abs() < 1e-12);
    }
}

#[test]
fn chain_at_other_ratios() {
    for ratio in [0.0, 0.3, 0.8, 2.5, 4.0] {
        let mut depth = 0.0;
        for electrodes in 1..=12 {
            depth = next_through(300.0, 0.0, depth, one_material(ratio, depth));
            let closed = after(300.0, ratio, electrodes);
            assert!((depth - closed).abs() < 1e-9, "{ratio} {electrodes}");
            assert!(ratio == 0.0 || depth < 300.0);
        }
    }
}

/// Every step through layers uses up exactly the usable length: tip depth and what was lost since.
#[test]
fn layered_chain_uses_the_whole_length() {
    let layers = [(0.0, 40.0, 3.0), (40.0, 90.0, 0.4), (90.0, 400.0, 1.2)];
    let rise = 0.004;
    let spans_from = |from: f64| {
        layers
            .into_iter()
            .filter(move |(_, end, _)| *end > from)
            .map(move |(start, end, value)| Span {
                from_mm: f64::max(start, from),
                to_mm: end,
                value,
            })
    };
    // Wear summed in small steps, apart from the closed form: local ratio rho (1 + 2 a z).
    let lost_by_steps = |from: f64, to: f64| {
        let steps = 200_000;
        let width = (to - from) / f64::from(steps);
        (0..steps)
            .map(|step| {
                let z = from + (f64::from(step) + 0.5) * width;
                let ratio = layers.iter().find(|(_, end, _)| z < *end).unwrap().2;
                ratio * (1.0 + 2.0 * rise * z) * width
            })
            .sum::<f64>()
    };
    let mut depth = 0.0;
    for _ in 0..8 {
        let reached = next_through(300.0, rise, depth, spans_from(depth));
        let used = reached + lost_by_steps(depth, reached);
        assert!((used - 300.0).abs() < 1e-3, "{depth} -> {reached}: {used}");
        assert!(reached > depth);
        depth = reached;
    }
}

/// A hole of 0.9 U at wear ratio 1: four electrodes from one end, one from each of two.
#[test]
fn both_ends() {
    let (length, depth) = (300.0, 270.0);
    let electrodes = (1..).find(|n| after(length, 1.0, *n) >= depth);
    assert_eq!(electrodes, Some(4));
    assert!(after(length, 1.0, 1) >= depth / 2.0);
    assert_eq!(limit_from_both(300.0, 2.0), 598.0);
}

#[test]
fn misses_grow_with_length() {
    assert!((miss(0.2, 100.0) - 0.2 * 2.0_f64.sqrt()).abs() < 1e-12);
    assert_eq!(miss(0.2, 0.0), 0.0);
}

#[test]
fn nothing_left_to_use_reaches_no_further() {
    assert_eq!(next_through(20.0, 0.0, 30.0, one_material(1.0, 30.0)), 30.0);
    assert_eq!(next_through(20.0, 0.0, 5.0, []), 5.0);
}

/// After the hole just what is held back is left above the tip's place.
#[test]
fn an_electrode_of_just_the_length_drills_one_more_hole() {
    for (held, tip, wear) in [(80.0, 3.3, 5.7), (60.0, 120.0, 140.0), (0.0, 0.4, 0.0)] {
        let length = enough_for(held, tip, wear);
        assert!((usable(length, held, 1e9) - (tip + wear)).abs() < 1e-9);
        assert!((length - wear - held - tip).abs() < 1e-9);
    }
}
