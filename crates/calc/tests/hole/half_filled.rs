//! Half-filled rows and wild ones: what can be computed is, and nothing ever panics.

use proptest::prelude::*;
use quillbore_calc::finding::Level;
use quillbore_calc::hole::{Context, Draw, row_figures};
use quillbore_calc::input::{Ends, Exit, HoleEnd, Surface};
use quillbore_calc::job_figures::HoleFigures;
use quillbore_calc::{Idx, JobInput, Limits, RowInput};

use super::shop::*;
use super::{codes, first};

fn with(change: impl Fn(&mut JobInput)) -> HoleFigures {
    let mut input = job(vec![through(0.8, 20.0)]);
    change(&mut input);
    first(&input, &tables())
}

#[test]
fn without_a_size() {
    let found = with(|input| input.rows[0].limits_mm = None);
    assert_eq!(codes(&found, Level::Stop), ["size-missing"]);
    assert_eq!(
        (found.tube, found.minutes, found.depth_mm),
        (None, None, Some(20.0))
    );
}

/// A tube that the estimator chose needs no size to be drilled with.
#[test]
fn without_a_size_but_with_a_tube() {
    let found = with(|input| {
        input.rows[0].limits_mm = None;
        input.rows[0].tube = Some(Idx::new(40));
    });
    assert_eq!(codes(&found, Level::Stop), ["size-missing"]);
    assert!(found.minutes.is_some() && found.size_mm.is_some());
    assert_eq!(found.verdict, None);
}

#[test]
fn without_a_depth() {
    let found = with(|input| input.rows[0].depth_mm = None);
    assert_eq!(codes(&found, Level::Stop), ["depth-missing"]);
    assert!(found.tube.is_some() && found.size_mm.is_some() && found.verdict.is_some());
    assert!(found.feed_mm_min.is_some() && found.guide.is_some());
    assert_eq!((found.minutes, found.wear_mm), (None, None));
}

#[test]
fn depth_from_the_layers() {
    let found = with(|input| {
        input.rows[0].depth_mm = None;
        input.rows[0].layers = layers(&[(CARBIDE, 5.0), (STEEL, 15.0)]);
    });
    assert_eq!(found.depth_mm, Some(20.0));
    assert!(found.minutes.is_some());
}

#[test]
fn without_a_material() {
    let found = with(|input| input.material = None);
    assert!(codes(&found, Level::Stop).is_empty());
    assert!(found.tube.is_some() && found.verdict.is_some() && found.zones_mm.is_some());
    assert_eq!(
        (found.feed_mm_min, found.minutes, found.wear_mm),
        (None, None, None)
    );
}

#[test]
fn without_a_machine() {
    let found = with(|input| input.machine = None);
    assert!(found.wear_mm.is_some() && found.feed_mm_min.is_some());
    assert!(found.ends.is_some() && found.machine_depth_mm.is_some());
    assert_eq!(
        (found.minutes, found.usable_mm, found.limit_mm),
        (None, None, None)
    );
    assert_eq!(
        (found.target_depth_mm, found.electrodes_per_hole),
        (None, None)
    );
}

#[test]
fn indexes_that_lead_nowhere_are_as_good_as_none() {
    let found = with(|input| {
        input.material = Some(Idx::new(99));
        input.machine = Some(Idx::new(99));
        input.rows[0].tube = Some(Idx::new(9999));
    });
    assert!(found.tube.is_some());
    assert_eq!(found.minutes, None);
    let layered = with(|input| input.rows[0].layers = layers(&[(Idx::new(99), 20.0)]));
    assert_eq!((layered.minutes, layered.wear_mm), (None, None));
}

#[test]
fn limits_that_are_none() {
    for limits in [
        Limits::new(0.9, 0.7),
        Limits::new(-0.1, 0.7),
        Limits::new(0.0, 0.0),
        Limits::new(f64::NAN, 0.7),
        Limits::new(0.7, f64::INFINITY),
    ] {
        let found = with(|input| input.rows[0].limits_mm = Some(limits));
        assert_eq!(codes(&found, Level::Stop), ["size-missing"], "{limits:?}");
    }
}

#[test]
fn depths_that_are_none() {
    for depth in [0.0, -3.0, f64::NAN, f64::INFINITY] {
        let found = with(|input| input.rows[0].depth_mm = Some(depth));
        assert_eq!(codes(&found, Level::Stop), ["depth-missing"], "{depth}");
    }
}

fn number() -> impl Strategy<Value = f64> {
    prop_oneof![
        4 => 0.01..500.0,
        1 => -100.0..100.0,
        1 => prop_oneof![
            Just(0.0),
            Just(f64::NAN),
            Just(f64::INFINITY),
            Just(f64::MIN_POSITIVE),
            Just(f64::MAX),
        ],
    ]
}

fn surface() -> impl Strategy<Value = Surface> {
    prop_oneof![
        Just(Surface::Flat),
        (number(), number()).prop_map(|(radius_mm, offset_mm)| Surface::Cylinder {
            radius_mm,
            offset_mm
        }),
        (number(), number()).prop_map(|(radius_mm, offset_mm)| Surface::Ball {
            radius_mm,
            offset_mm
        }),
        (number(), number()).prop_map(|(included_deg, offset_mm)| Surface::Edge {
            included_deg,
            offset_mm
        }),
        (number(), number()).prop_map(|(radius_mm, offset_mm)| Surface::Bore {
            radius_mm,
            offset_mm
        }),
    ]
}

prop_compose! {
    fn wild_row()(
        limits in proptest::option::of((0.2..2.5, 0.0..0.5)),
        wild in proptest::option::weighted(0.1, [number(), number()]),
        depth_mm in proptest::option::weighted(0.9, number()),
        end in prop_oneof![Just(HoleEnd::Through), Just(HoleEnd::Into), Just(HoleEnd::Blind)],
        tilt_deg in prop_oneof![3 => -95.0..95.0, 1 => number()],
        surface in surface(),
        exit in proptest::option::of((surface(), prop_oneof![3 => -95.0..95.0, 1 => number()])),
        behind_mm in proptest::option::of(number()),
        flags in any::<[bool; 2]>(),
        layered in proptest::collection::vec(((0..4_usize).prop_map(Idx::new), number()), 0..4),
        ends in proptest::option::of(prop_oneof![Just(Ends::One), Just(Ends::Both)]),
        tube in proptest::option::of(0..200_usize),
    ) -> RowInput {
        RowInput {
            limits_mm: wild.or(limits.map(|(lower, width)| [lower, lower + width])).map(|[lower, upper]| Limits::new(lower, upper)),
            depth_mm,
            end,
            tilt_deg,
            surface,
            exit: exit.map(|(surface, tilt_deg)| Exit { surface, tilt_deg: Some(tilt_deg) }),
            behind_mm,
            backed: flags[0],
            core_trapped: flags[1],
            layers: layers(&layered),
            ends,
            tube: tube.map(Idx::new),
            ..through(0.8, 20.0)
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 3000, failure_persistence: None, ..ProptestConfig::default() })]

    /// No input makes a panic; whatever minutes come out are numbers in order and hang together.
    #[test]
    fn wild_rows(row in wild_row(), material in 0..3_usize, machine in 0..3_usize) {
        let tables = tables();
        let mut input = job(vec![row.clone()]);
        input.material = Some(Idx::new(material));
        input.machine = Some(Idx::new(machine));
        let found = row_figures(&input, &row, &tables);
        if let Some(band) = found.minutes {
            prop_assert!(0.0 < band.p10 && band.p10 <= band.p50 && band.p50 <= band.p90, "{band:?}");
            prop_assert!(band.p90.is_finite());
            let wear = found.wear_mm.unwrap();
            prop_assert!(wear > 0.0 && wear.is_finite());
            prop_assert!(found.wear_high_mm.unwrap() >= wear);
            let drill = Context::new(&input, &tables).drill(&row).unwrap();
            let hole = drill.at(&Draw::MEDIAN);
            prop_assert!((hole.sparking_min + hole.other_min - band.p50).abs() < 1e-6 * band.p50);
            for stage in hole.stages.iter().flatten() {
                prop_assert!(stage.target_mm + stage.wear_mm <= found.usable_mm.unwrap() + 1e-6);
            }
            if let Some(parts) = found.minutes_in {
                let all = [parts.touch_off, parts.entry, parts.full_metal, parts.exit,
                    parts.overtravel, parts.retract, parts.changes];
                prop_assert!(all.iter().all(|part| *part >= 0.0), "{parts:?}");
            }
        }
    }
}
