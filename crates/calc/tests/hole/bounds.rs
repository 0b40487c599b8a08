//! Where one rule ends and the next begins: a machine's tubes, thin tubes, several figures typed at once.

use quillbore_calc::finding::Kind;
use quillbore_calc::hole::{Context, Draw};
use quillbore_calc::input::{Ends, HoleEnd, Overrule, Surface};
use quillbore_calc::job_figures::HoleFigures;
use quillbore_calc::tables::Tube;
use quillbore_calc::{Figure, Idx, Limits, RowId};

use super::shop::*;
use super::{close, first, tube};

fn codes(found: &HoleFigures) -> Vec<&'static str> {
    let codes = found.findings.iter().map(|finding| finding.kind.code());
    codes.collect()
}

/// A machine drives the tubes at its very bounds, which are compared to a thousandth of a millimeter.
#[test]
fn a_machine_drives_its_thinnest_and_its_thickest_tube() {
    for (bounds, outside) in [
        (Limits::new(0.7, 3.0), false),
        (Limits::new(0.3, 0.7), false),
        (Limits::new(0.7005, 3.0), false),
        (Limits::new(0.3, 0.6995), false),
        (Limits::new(0.702, 3.0), true),
        (Limits::new(0.3, 0.698), true),
    ] {
        let mut tables = tables();
        tables.machines[BENCH.at()].tube_mm = bounds;
        let mut row = through(0.8, 20.0);
        row.tube = Some(tube(&tables, 0.7, 400.0, 1));
        let found = first(&job(vec![row]), &tables);
        let said = codes(&found).contains(&"tube-outside-machine");
        assert_eq!(said, outside, "{bounds:?}");
    }
}

/// Tubes up to 0.3 mm are changed in 4 to 6 minutes, thicker ones in 2 to 3, any of them by a changer in
/// half a minute. 30 mm with 300 mm of wear typed, ten times the depth: of 300 mm usable the first electrode
/// goes to 300 / 11 mm, the second does the rest.
#[test]
fn thin_tubes_are_changed_more_slowly() {
    for (outer_mm, changer, change) in [
        (0.3, false, 24.0_f64.sqrt()),
        (0.35, false, 6.0_f64.sqrt()),
        (0.3, true, 0.5),
        (0.35, true, 0.5),
    ] {
        let mut tables = tables();
        tables.start.wear_at_100_diameters = spread(1.0, 1.0);
        tables.machines[BENCH.at()].changer = changer;
        let mut row = through(outer_mm + 0.1, 30.0);
        row.tube = Some(tube(&tables, outer_mm, 400.0, 1));
        row.ends = Some(Ends::One);
        let mut input = job(vec![row.clone()]);
        input.overrules.push(Overrule {
            figure: Figure::Wear(row.id),
            value: 300.0,
        });
        let found = first(&input, &tables);
        assert_eq!(found.electrodes_per_hole, Some(2));
        let touch = 75.0_f64.sqrt() / 60.0;
        let by_hand = change + touch + 2.0 * (300.0 / 11.0) / 1000.0;
        close(found.minutes_in.unwrap().changes, by_hand, 1e-9);
    }
}

/// Figures of several rows typed at once, in any order: each stands where it belongs.
#[test]
fn every_figure_typed_stands() {
    let row = through(0.8, 20.0);
    let typed = [
        (Figure::Wear(row.id), 5.0),
        (Figure::Gap(RowId(3)), 0.011),
        (Figure::Gap(row.id), 0.03),
        (Figure::Feed(RowId(9)), 1.0),
        (Figure::HoleMinutes(row.id), 4.0),
        (Figure::Feed(row.id), 10.0),
        (Figure::Electrode(row.id), 0.65),
    ];
    let mut input = job(vec![row.clone()]);
    input.overrules = typed
        .iter()
        .map(|(figure, value)| Overrule {
            figure: *figure,
            value: *value,
        })
        .collect();
    let tables = tables();
    let found = first(&input, &tables);
    assert_eq!(tables.tubes[found.tube.unwrap().at()].outer_mm, 0.65);
    close(found.gap_mm.unwrap().p50(), 0.03, 1e-12);
    assert_eq!(found.feed_mm_min, Some(10.0));
    close(found.wear_mm.unwrap(), 5.0, 1e-12);
    close(found.minutes.unwrap().p50, 4.0, 1e-12);
    let said = found.findings.iter();
    let told = said.filter(|finding| matches!(finding.kind, Kind::Overruled { .. }));
    assert_eq!(told.count(), 5);
}

/// The next in size below and above of the same kind, the shortest of each; none beyond the smallest and
/// the largest.
#[test]
fn neighbors_of_a_tube() {
    let tables = tables();
    let neighbors = |outer_mm, channels| {
        let mut row = through(0.8, 20.0);
        row.tube = Some(tube(&tables, outer_mm, 400.0, channels));
        let found = first(&job(vec![row]), &tables);
        let of = |tube: &Idx<Tube>| {
            let tube = &tables.tubes[tube.at()];
            assert_eq!(tube.channels, channels);
            (tube.outer_mm, tube.length_mm)
        };
        found.neighbors.iter().map(of).collect::<Vec<_>>()
    };
    assert_eq!(neighbors(0.7, 1), [(0.65, 200.0), (0.75, 200.0)]);
    assert_eq!(neighbors(0.7, 4), [(0.65, 400.0), (0.75, 400.0)]);
    assert_eq!(neighbors(0.6, 4), [(0.65, 400.0)]);
    assert_eq!(neighbors(2.0, 1), [(1.95, 200.0)]);
}

/// A tube's guide is the one of its diameter, to a thousandth of a millimeter.
#[test]
fn a_tube_s_own_guide() {
    let mut tables = tables();
    let mut row = through(0.8, 20.0);
    row.tube = Some(tube(&tables, 0.7, 400.0, 1));
    let input = job(vec![row]);
    let guide = first(&input, &tables).guide.unwrap();
    assert_eq!(tables.guides[guide.at()].tube_mm, 0.7);
    tables.guides[guide.at()].tube_mm = 0.7005;
    assert_eq!(first(&input, &tables).guide, Some(guide));
    tables.guides[guide.at()].tube_mm = 0.702;
    assert_eq!(first(&input, &tables).guide, None);
}

/// The mouth of a hole with a maximum alone is that of the maximum, otherwise that of the middle; without
/// limits that of the size that the tube makes.
#[test]
fn the_mouth_is_that_of_the_size_aimed_at() {
    let mut row = through(0.8, 20.0);
    row.tilt_deg = 60.0;
    let tables = tables();
    let mut mouth = |limits| {
        row.limits_mm = limits;
        row.tube = Some(tube(&tables, 0.7, 400.0, 1));
        let found = first(&job(vec![row.clone()]), &tables);
        (found.mouth_mm.unwrap(), found.gap_mm.unwrap())
    };
    // cos 60 is one half.
    close(mouth(Some(Limits::new(0.7, 0.9))).0, 1.6, 1e-9);
    close(mouth(Some(Limits::new(0.0, 0.85))).0, 1.7, 1e-9);
    let (by_tube, gap) = mouth(None);
    close(
        by_tube,
        2.0 * (0.7 + 2.0 * (gap.p10 * gap.p90).sqrt()),
        1e-9,
    );
}

/// A hole that ends inside a round bar leaves it nowhere: 6 mm of bar on the axis, through from 99 % of it
/// on; a blind hole has no exit whatever its depth.
#[test]
fn an_exit_zone_where_the_bar_is_drilled_through() {
    let tables = tables();
    let exit = |depth_mm, end| {
        let mut row = through(1.1, depth_mm);
        row.end = end;
        row.surface = Surface::Cylinder {
            radius_mm: 3.0,
            offset_mm: 0.0,
        };
        row.tube = Some(tube(&tables, 1.0, 400.0, 1));
        first(&job(vec![row]), &tables).zones_mm.unwrap().exit
    };
    let zone = 3.0 - f64::sqrt(9.0 - 0.25);
    close(exit(6.0, HoleEnd::Through), zone, 1e-12);
    close(exit(5.95, HoleEnd::Through), zone, 1e-12);
    assert_eq!(exit(5.93, HoleEnd::Through), 0.0);
    assert_eq!(exit(3.0, HoleEnd::Into), 0.0);
    assert_eq!(exit(6.0, HoleEnd::Blind), 0.0);
}

/// A wall with room for the overtravel and the scatter: one step, also where the overtravel is the least
/// there is, 1 mm with a thin tube. Tilted by 30 degrees the tip goes on by half a zone before it is clear.
/// 1.2816 x 20 w / (20 + w) x 0.15 of scatter; the lot that wears least in fifty makes the first try.
#[test]
fn a_wall_with_room_enough_takes_one_step() {
    let tables = tables();
    let mut row = through(0.45, 20.0);
    row.tilt_deg = 30.0;
    row.tube = Some(tube(&tables, 0.35, 400.0, 1));
    let wear = first(&job(vec![row.clone()]), &tables).wear_mm.unwrap();
    let scatter = 1.281_551_565_5 * 20.0 * wear / (20.0 + wear) * 0.15;
    let at = |behind_mm| {
        let mut row = row.clone();
        row.behind_mm = Some(behind_mm);
        first(&job(vec![row]), &tables)
    };
    // The exit zone past the axis takes of the room as well.
    let after = 0.175 * libm::tan(f64::to_radians(30.0));
    let found = at(after + 1.0 + scatter + 0.01);
    let plan = found.depth_plan.unwrap();
    assert!(!plan.two_steps);
    close(found.overtravel_mm.unwrap(), 1.0, 1e-12);
    let deviation = libm::hypot(tables.start.deviations.process(0.35, 20.0), 0.15);
    let least = wear * libm::exp(-2.053_748_910_6 * deviation);
    // The edge of a square end touches the slope as far above the axis as it leaves below it.
    let touch = after;
    close(plan.first_try_mm, touch + 20.0 + after + 1.0 + least, 1e-6);
    // A hair less room, and the overtravel would fall below the least: two steps.
    let closer = at(after + 1.0 + scatter - 0.01);
    assert!(closer.depth_plan.unwrap().two_steps);
    close(closer.overtravel_mm.unwrap(), 1.0, 1e-12);
}

/// Limits of a blind depth that are none (turned round, without width, from the surface on) leave the
/// general tolerance: ISO 2768-1 m, 0.2 mm at 20 mm. It gives none beyond 4 m, where a thousandth of the
/// depth is taken.
#[test]
fn blind_limits_that_are_none_leave_the_general_tolerance() {
    let tables = tables();
    let plan = |depth_mm, limits_mm| {
        let mut row = through(0.8, depth_mm);
        row.end = HoleEnd::Blind;
        row.depth_limits_mm = limits_mm;
        first(&job(vec![row]), &tables).depth_plan.unwrap()
    };
    for (lower, upper) in [(20.5, 19.5), (20.0, 20.0), (0.0, 20.5), (-1.0, 20.5)] {
        assert_eq!(
            plan(20.0, Some(Limits::new(lower, upper))),
            plan(20.0, None)
        );
    }
    close(plan(20.0, None).never_beyond_mm, 20.2, 1e-12);
    close(
        plan(20.0, Some(Limits::new(19.5, 20.5))).never_beyond_mm,
        20.5,
        1e-12,
    );
    let beyond = plan(5000.0, None);
    close(beyond.never_beyond_mm, 5005.0, 1e-9);
    close(beyond.allowed_mm, 5.0, 1e-9);
}

/// Limits of the depth move the aim of a blind hole only: a hole that goes through is as deep as it is.
#[test]
fn only_a_blind_hole_is_aimed_at_the_middle_of_its_limits() {
    let tables = tables();
    let depth = |end| {
        let mut row = through(0.8, 25.0);
        row.end = end;
        row.depth_limits_mm = Some(Limits::new(20.0, 26.0));
        first(&job(vec![row]), &tables).depth_mm.unwrap()
    };
    assert_eq!(depth(HoleEnd::Blind), 23.0);
    assert_eq!(depth(HoleEnd::Through), 25.0);
    assert_eq!(depth(HoleEnd::Into), 25.0);
}

/// Wear typed where no material is known is taken along the depth: as much as the depth is a ratio of 1, so one
/// electrode of 300 mm gets to 150 mm; a quarter more gets it to 300 / 2.25.
#[test]
fn typed_wear_without_a_material_is_a_ratio_too() {
    let mut tables = tables();
    tables.start.wear_at_100_diameters = spread(1.0, 1.0);
    let mut row = through(1.1, 20.0);
    row.tube = Some(tube(&tables, 1.0, 400.0, 1));
    for (wear_mm, reach_mm) in [(20.0, 150.0), (25.0, 300.0 / 2.25)] {
        let mut input = job(vec![row.clone()]);
        input.material = None;
        input.overrules.push(Overrule {
            figure: Figure::Wear(row.id),
            value: wear_mm,
        });
        let found = first(&input, &tables);
        close(found.wear_mm.unwrap(), wear_mm, 1e-9);
        close(found.reach_one_mm.unwrap(), reach_mm, 1e-9);
    }
}

/// 200 diameters are still known, and nothing is said of them.
#[test]
fn as_deep_as_is_known_is_known() {
    let mut tables = tables();
    tables.machines[LONG.at()].stroke_mm = 2000.0;
    let mut row = through(0.65, 100.0);
    row.tube = Some(tube(&tables, 0.5, 914.4, 1));
    row.ends = Some(Ends::One);
    let mut input = job(vec![row]);
    input.machine = Some(LONG);
    let found = first(&input, &tables);
    assert!(found.minutes.is_some());
    assert!(!codes(&found).contains(&"depth-unknown"));
}

/// Limits without width leave no room for a hole: no tube is begun with, nothing is judged, and it is told.
#[test]
fn limits_without_width_are_told_and_not_judged() {
    let mut row = through(0.8, 20.0);
    row.limits_mm = Some(Limits::new(0.8, 0.8));
    let found = first(&job(vec![row]), &tables());
    assert_eq!((found.tube, found.held, found.verdict), (None, None, None));
    assert!(codes(&found).contains(&"limits-too-close"));
}

/// What an electrode reaches exactly it reaches. Of 300 mm usable: 147.5 mm with 2.5 beyond and 150 of wear
/// take one. At a wear ratio of 1 the first gets to 150 mm, and 223.75 with 2.5 beyond and 73.75 left to lose
/// take two.
#[test]
fn an_electrode_that_just_reaches_is_enough() {
    let mut tables = tables();
    tables.start.wear_at_100_diameters = spread(1.0, 1.0);
    for (depth_mm, wear_mm, electrodes) in [
        (147.5, 150.0, 1),
        (147.5, 150.001, 2),
        (223.75, 223.75, 2),
        (223.751, 223.751, 3),
    ] {
        let mut row = through(1.1, depth_mm);
        row.tube = Some(tube(&tables, 1.0, 400.0, 1));
        row.ends = Some(Ends::One);
        let mut input = job(vec![row.clone()]);
        for (figure, value) in [
            (Figure::Wear(row.id), wear_mm),
            (Figure::Feed(row.id), 10.0),
        ] {
            input.overrules.push(Overrule { figure, value });
        }
        let found = first(&input, &tables);
        assert_eq!(found.electrodes_per_hole, Some(electrodes), "{depth_mm}");
    }
}

/// Where so heavy a wear leaves the bottom out of reach, 99 electrodes are counted, and the last is used up
/// as far as it goes: 350 mm usable less 330 and 2.5 beyond.
#[test]
fn an_electrode_that_does_not_reach_is_used_up() {
    let mut tables = tables();
    tables.start.deepest_diameters = 1e9;
    let mut row = through(1.1, 330.0);
    row.tube = Some(tube(&tables, 1.0, 914.4, 1));
    row.ends = Some(Ends::One);
    let input = job(vec![row]);
    let drill = Context::new(&input, &tables).drill(&input.rows[0]).unwrap();
    let hole = drill.at(&Draw {
        wear: 1e3,
        ..Draw::MEDIAN
    });
    let stage = hole.stages[0].unwrap();
    assert_eq!(hole.electrodes_per_hole, 99);
    close(stage.wear_mm, 17.5, 1e-9);
}
