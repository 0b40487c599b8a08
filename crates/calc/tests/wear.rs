//! Wear on both bases, rising with depth, layer by layer.

use quillbore_calc::span::Span;
use quillbore_calc::wear::{by_volume, lost, lost_over, rise_per_mm};

/// Geometry identity worked in a note on published process figures: tube 1.016 mm, bore 0.35 mm,
/// gap 0.05 mm a side; 100 % by length is 73 % by volume, 300 % is 219 %. Sources mix the bases.
#[test]
fn both_bases() {
    for (by_length, printed) in [(1.0, 0.73), (3.0, 2.19)] {
        let found = by_volume(by_length, 1.016, 0.35, 1.016 + 2.0 * 0.05, 0.0);
        assert!((found - printed).abs() < 0.005, "{found}");
    }
}

/// With a core left less work metal is removed: the ratio by volume is higher.
#[test]
fn a_core_raises_wear_by_volume() {
    let without = by_volume(1.0, 1.0, 0.4, 1.1, 0.0);
    let with = by_volume(1.0, 1.0, 0.4, 1.1, 0.3);
    assert!((without - 0.84 / 1.21).abs() < 1e-12);
    assert!((with - 0.84 / 1.12).abs() < 1e-12);
}

/// Common practice, no source: a hole 100 diameters deep wears 1.0 to 1.5 times as much.
#[test]
fn rises_with_depth() {
    let rise = rise_per_mm(1.5, 0.5);
    assert!((lost(1.0, rise, 0.0, 50.0) - 1.5 * 50.0).abs() < 1e-9);
    assert!((lost(1.0, rise, 0.0, 25.0) - 1.25 * 25.0).abs() < 1e-9);
    let parts = lost(1.0, rise, 0.0, 20.0) + lost(1.0, rise, 20.0, 50.0);
    assert!((parts - 75.0).abs() < 1e-9);
    assert_eq!(rise_per_mm(1.0, 0.5), 0.0);
}

#[test]
fn layers_lose_what_their_material_costs() {
    let layers = [
        Span {
            from_mm: 0.0,
            to_mm: 3.0,
            value: 2.0,
        },
        Span {
            from_mm: 3.0,
            to_mm: 13.0,
            value: 0.5,
        },
        Span {
            from_mm: 13.0,
            to_mm: 13.0,
            value: 9.0,
        },
    ];
    assert!((lost_over(layers, 0.0) - 11.0).abs() < 1e-12);
}
