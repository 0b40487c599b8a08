//! Reach, chained electrodes and both ends of a row.

use quillbore_calc::hole::{Context, Draw};
use quillbore_calc::input::{Ends, HoleEnd};
use quillbore_calc::{Figure, JobInput, RowInput, Tables};

use super::shop::*;
use super::{close, first, overruled, tube};

const INCH: f64 = 25.4;

/// The long head with a 36 in tube of 1 mm, wear ratio 1 at every depth, no overtravel.
fn plain() -> (Tables, JobInput) {
    let mut tables = tables();
    tables.materials[STEEL.at()].wear = spread(1.0, 1.0);
    tables.start.wear_at_100_diameters = spread(1.0, 1.0);
    // Deeper than any feed is known for, so that the closed forms show.
    tables.start.deepest_diameters = 1e9;
    tables.start.overtravel_least_mm = 0.0;
    tables.start.overtravel_diameters = 0.0;
    let row = RowInput {
        tube: Some(tube(&tables, 1.0, 914.4, 1)),
        ends: Some(Ends::One),
        ..through(1.1, 100.0)
    };
    let mut input = job(vec![row]);
    input.machine = Some(LONG);
    (tables, input)
}

/// Common practice, no source: of a 36 in tube, 8 in are held back and 28 in go into the hole; closed
/// form: at wear ratio 1 the electrodes reach 14, 21, 24.5 and 26.25 in.
#[test]
fn chain_of_a_long_electrode() {
    let (tables, mut input) = plain();
    for (electrodes, inches) in (1..).zip([14.0, 21.0, 24.5, 26.25]) {
        for (just, expected) in [(-1e-6, electrodes), (1e-6, electrodes + 1)] {
            input.rows[0].depth_mm = Some(inches * INCH + just);
            let found = first(&input, &tables);
            assert_eq!(found.electrodes_per_hole, Some(expected), "{inches}");
            close(found.usable_mm.unwrap(), 28.0 * INCH, 1e-9);
            close(found.limit_mm.unwrap(), 28.0 * INCH, 1e-9);
            close(found.reach_one_mm.unwrap(), 14.0 * INCH, 1e-9);
        }
    }
}

/// The limit itself is never reached, by any number of electrodes.
#[test]
fn the_limit_is_out_of_reach() {
    let (tables, mut input) = plain();
    for depth in [28.0 * INCH, 30.0 * INCH] {
        input.rows[0].depth_mm = Some(depth);
        let found = first(&input, &tables);
        assert_eq!(found.electrodes_per_hole, None);
        assert_eq!((found.minutes, found.minutes_in), (None, None));
        assert!(
            Context::new(&input, &tables)
                .drill(&input.rows[0])
                .is_none()
        );
    }
}

/// A hole of 0.9 U at wear ratio 1: four electrodes from one end, one from each of two, compared in
/// minutes. Both sides are recomputed here from the closed forms.
#[test]
fn both_ends_compared_in_minutes() {
    let (mut tables, mut input) = plain();
    tables.start.overlap_mm = 0.0;
    let depth = 0.9 * 28.0 * INCH;
    input.rows[0].depth_mm = Some(depth);
    let halved = f64::sqrt(6000.0);
    let feed = f64::sqrt(15.0 * 35.0);
    let full = |depth: f64| {
        let ratio = depth / halved;
        depth / feed * (1.0 + ratio * f64::sqrt(ratio) / 2.5)
    };
    let touch = f64::sqrt(75.0) / 60.0;

    let one = first(&input, &tables);
    assert_eq!(one.electrodes_per_hole, Some(4));
    let parts = one.minutes_in.unwrap();
    close(parts.full_metal, full(depth), 1e-6);
    let reentry = (14.0 + 21.0 + 24.5) * INCH;
    close(
        parts.changes,
        3.0 * (0.5 + touch) + 2.0 * reentry / 1000.0,
        1e-9,
    );
    close(parts.touch_off, touch, 1e-12);

    input.rows[0].ends = Some(Ends::Both);
    let both = first(&input, &tables);
    assert_eq!(both.electrodes_per_hole, Some(2));
    let parts = both.minutes_in.unwrap();
    close(parts.full_metal, 2.0 * full(depth / 2.0), 1e-6);
    close(parts.touch_off, 2.0 * touch, 1e-12);
    close(parts.retract, depth / 1000.0, 1e-9);
    assert_eq!(parts.changes, 0.0);
    close(both.limit_mm.unwrap(), 2.0 * 28.0 * INCH, 1e-9);
    assert!(both.minutes.unwrap().p50 < one.minutes.unwrap().p50);
    close(both.wear_mm.unwrap(), depth, 1e-9);
    close(both.target_depth_mm.unwrap(), 10.0 + depth / 2.0, 1e-9);
}

/// Where nobody has decided, whichever costs the lot less is planned, and both where only they reach.
#[test]
fn ends_left_to_the_calculation() {
    let (tables, mut input) = plain();
    input.rows[0].ends = None;
    let mut ends_at = |inches: f64| {
        input.rows[0].depth_mm = Some(inches * INCH);
        first(&input, &tables).ends
    };
    assert_eq!(ends_at(1.0), Some(Ends::One));
    // 120 holes of four electrodes each are dearer than turning ten parts over.
    assert_eq!(ends_at(26.0), Some(Ends::Both));
    assert_eq!(ends_at(29.0), Some(Ends::Both));
    assert_eq!(ends_at(55.0), Some(Ends::Both));
    // Beyond both: planned from one end, with a stop.
    assert_eq!(ends_at(57.0), Some(Ends::One));
    input.rows[0].end = HoleEnd::Into;
    input.rows[0].depth_mm = Some(29.0 * INCH);
    assert_eq!(first(&input, &tables).ends, Some(Ends::One));
}

/// Both ends with layers: the far side meets the last layer first. Recomputed by steps.
#[test]
fn both_ends_through_layers() {
    let (mut tables, mut input) = plain();
    tables.start.overlap_mm = 2.0;
    let row = &mut input.rows[0];
    row.depth_mm = Some(100.0);
    row.layers = layers(&[(CARBIDE, 10.0), (STEEL, 90.0)]);
    row.ends = Some(Ends::Both);
    let found = first(&input, &tables);
    let halved = f64::sqrt(6000.0);
    let [carbide, steel] = [f64::sqrt(20.0), f64::sqrt(15.0 * 35.0)];
    let steps = 100_000;
    let minutes = |depth: f64, feed: &dyn Fn(f64) -> f64| -> f64 {
        let width = depth / f64::from(steps);
        (0..steps)
            .map(|step| {
                let z = (f64::from(step) + 0.5) * width;
                let ratio = z / halved;
                width * (1.0 + ratio * f64::sqrt(ratio)) / feed(z)
            })
            .sum()
    };
    let near = minutes(51.0, &|z| if z < 10.0 { carbide } else { steel });
    let far = minutes(49.0, &|_| steel);
    close(found.minutes_in.unwrap().full_metal, near + far, 1e-4);
    let wear = 10.0 * f64::sqrt(4.0) + 90.0;
    close(found.wear_mm.unwrap(), wear, 1e-9);
}

/// The length that costs the lot least: by hand, 120 holes with tubes of 2 each, changed by hand in
/// sqrt(2 x 3) minutes. Longer ones of the same price are changed less often; dear ones are not.
#[test]
fn length_by_the_lot() {
    let mut tables = tables();
    for tube in &mut tables.tubes {
        tube.price = if tube.length_mm > 900.0 {
            30.0
        } else {
            tube.length_mm / 100.0
        };
    }
    let length_at = |machine, depth| {
        let row = RowInput {
            ends: Some(Ends::One),
            ..through(1.1, depth)
        };
        let mut input = job(vec![row]);
        input.machine = Some(machine);
        let found = first(&input, &tables);
        let length = tables.tubes[found.tube.unwrap().at()].length_mm;
        (length, found.usable_mm.unwrap(), found.electrodes_per_hole)
    };
    // 20 mm: 200 mm drill 5 holes for 2 and a change, 400 mm 19 holes for 4 and a change.
    assert_eq!(length_at(BENCH, 20.0), (400.0, 300.0, Some(1)));
    assert_eq!(length_at(BENCH, 60.0), (400.0, 300.0, Some(1)));
    // The bench head takes 450 mm of a 36 in tube: two of 400 are cheaper in a deep hole.
    assert_eq!(length_at(BENCH, 180.0), (400.0, 300.0, Some(2)));
    // 400 mm leave 197 of it on the long head, with which 190 mm take very many.
    let (length, usable, electrodes) = length_at(LONG, 190.0);
    assert_eq!((length, electrodes), (914.4, Some(1)));
    close(usable, 914.4 - 203.2, 1e-9);
}

/// What the stages of a chain lose adds up to the wear of the hole, for one material from the closed
/// form: after n whole electrodes z(n) = U (1 - (rho/(1+rho))^n).
#[test]
fn stages_add_up() {
    let (tables, mut input) = plain();
    let usable = 28.0 * INCH;
    for depth in [100.0, 400.0, 600.0, 690.0] {
        input.rows[0].depth_mm = Some(depth);
        let drill = Context::new(&input, &tables).drill(&input.rows[0]).unwrap();
        for factor in [0.3, 1.0, 2.0, 4.0] {
            let hole = drill.at(&Draw {
                wear: factor,
                ..Draw::MEDIAN
            });
            let stage = hole.stages[0].unwrap();
            let whole = f64::from(stage.whole);
            let reached = usable * (1.0 - libm::pow(factor / (1.0 + factor), whole));
            close(stage.wear_mm, (depth - reached) * factor, 1e-6);
            assert!(stage.target_mm + stage.wear_mm <= usable + 1e-9);
            assert_eq!(stage.target_mm, depth);
            assert_eq!(hole.electrodes_per_hole, stage.whole + 1);
            close(hole.wear_mm, depth * factor, 1e-9);
        }
    }
}

/// A hole at 45 degrees from both ends, by hand: tube 1 mm, so each zone is half a millimeter before and half
/// after where the axis enters; 20 mm/min, half of it in the zones, three times as fast in the open. Near and
/// far end drill half of the depth and of the overlap, and the far one goes on by 2.5 mm or by the overlap.
#[test]
fn both_ends_of_a_tilted_hole() {
    let mut tables = tables();
    tables.start.depth_s = spread(1e9, 1e9);
    for (overlap, [near, far], beyond) in [(1.0, [30.5, 29.5], 2.5), (4.0, [32.0, 28.0], 4.0)] {
        tables.start.overlap_mm = overlap;
        let row = RowInput {
            tilt_deg: 45.0,
            ends: Some(Ends::Both),
            tube: Some(tube(&tables, 1.0, 400.0, 1)),
            ..through(1.1, 60.0)
        };
        let found = first(&overruled(&row, Figure::Feed(row.id), 20.0), &tables);
        let parts = found.minutes_in.unwrap();
        close(parts.entry, 0.1, 1e-9);
        close(parts.exit, 0.1, 1e-9);
        close(parts.full_metal, (near + far - 1.0) / 20.0, 1e-9);
        close(parts.overtravel, beyond / 60.0, 1e-9);
        close(parts.retract, (near + far + beyond) / 1000.0, 1e-9);
        assert_eq!(found.overtravel_mm, Some(beyond));
        // The far end's tip goes deepest, from the stand-off of 8 mm on.
        close(found.target_depth_mm.unwrap(), 8.0 + far + beyond, 1e-9);
        // Wear by length, 0.6928 rising to 1.2247 of it at 100 mm, for both ends.
        let wear =
            |depth: f64| 0.48_f64.sqrt() * depth * (1.0 + (1.5_f64.sqrt() - 1.0) * depth / 100.0);
        close(found.wear_mm.unwrap(), wear(near) + wear(far), 1e-9);
        // At 45 degrees a square end touches half its diameter above the axis, on either side.
        let touch = 0.5;
        let deepest = touch + far + beyond + wear(far);
        close(
            found.machine_depth_mm.unwrap(),
            deepest.max(touch + near + wear(near)),
            1e-9,
        );
        let [entry, exit] = found.half_settings_mm.unwrap();
        close(entry, touch + near + wear(near), 1e-9);
        close(exit, deepest, 1e-9);
    }
}

/// Full metal from both ends is that of one and of the other: equal halves leave it, and so does a wall of 2 mm
/// at tan t = 2, where the near end of 1.5 mm has 0.8 behind its zone of 0.7 and the far end of 0.5 has none.
#[test]
fn full_metal_from_both_ends() {
    let none = |overlap_mm, depth_mm, tilt_deg| {
        let mut tables = tables();
        tables.start.overlap_mm = overlap_mm;
        let row = RowInput {
            tilt_deg,
            ends: Some(Ends::Both),
            tube: Some(tube(&tables, 0.7, 400.0, 1)),
            ..through(0.8, depth_mm)
        };
        let findings = first(&job(vec![row]), &tables).findings;
        let mut codes = findings.iter().map(|said| said.kind.code());
        codes.any(|code| code == "no-full-metal")
    };
    let steep = f64::to_degrees(libm::atan(2.0));
    assert!(!none(0.0, 20.0, 0.0));
    assert!(!none(1.0, 2.0, steep));
    assert!(none(0.0, 1.3, steep));
}
