//! Clampings, index moves, tilts and turn-overs. Source of all expectations: geometry, by hand.

use proptest::prelude::*;
use quillbore_calc::assemble::quick;
use quillbore_calc::direction::between;
use quillbore_calc::entry::AtEnds;
use quillbore_calc::finding::{Kind, Remedy};
use quillbore_calc::input::{Ends, PartAxis, RowInput};
use quillbore_calc::job_figures::{HoleFigures, HoleSteps, SetupFigures};
use quillbore_calc::mount::Mount;
use quillbore_calc::setup::{Setups, setups};
use quillbore_calc::tables::{Machine, Tilts};
use quillbore_calc::{Idx, Limits};

use crate::rows::{job, placed, row};
use crate::shop::{machine, tables};

/// Figures of a row as far as clampings need them.
fn hole(row: &RowInput, tube: usize, ends: Ends) -> HoleFigures {
    HoleFigures {
        row: row.id,
        places: row.count,
        limits_mm: row.limits_mm,
        depth_mm: row.depth_mm,
        tilt_deg: row.tilt_deg,
        tube: Some(Idx::new(tube)),
        guide: Some(Idx::new(tube)),
        gap_mm: None,
        size_mm: None,
        checked: row.checked(),
        start_hole: None,
        first_choice: None,
        held: None,
        bought: None,
        outside_in_lot: None,
        neighbors: vec![],
        depth_plan: None,
        verdict: None,
        feed_mm_min: None,
        wear_ratio: None,
        minutes: None,
        minutes_in: None,
        zones_mm: None,
        mouth_mm: None,
        wear_mm: None,
        wear_high_mm: None,
        dressings: 0.0,
        overtravel_mm: None,
        target_depth_mm: None,
        machine_depth_mm: None,
        half_settings_mm: None,
        touch_mm: AtEnds::default(),
        behind_mm: None,
        stand_off_mm: None,
        flush: None,
        burnt: None,
        push_n: None,
        usable_mm: None,
        mounted_mm: None,
        reach_one_mm: None,
        limit_mm: None,
        electrodes_per_hole: None,
        ends: Some(ends),
        steps: HoleSteps::default().into(),
        own: None,
        findings: vec![],
    }
}

/// Directions of a ring of `count` holes about z, each `from_axis` degrees from the axis upward.
fn ring(count: u32, from_axis: f64) -> Vec<[f64; 3]> {
    let (sine, cosine) = from_axis.to_radians().sin_cos();
    (0..count)
        .map(|at| {
            let (y, x) = (f64::from(at) / f64::from(count) * std::f64::consts::TAU).sin_cos();
            [-x * sine, -y * sine, -cosine]
        })
        .collect()
}

fn rotary(tilt_deg: Option<Limits>) -> Machine {
    Machine {
        index_axis: true,
        tilt_deg,
        ..machine()
    }
}

fn clamp(rows: Vec<RowInput>, ends: Ends, machine: &Machine, about: Option<PartAxis>) -> Setups {
    let holes: Vec<_> = rows.iter().map(|row| hole(row, 3, ends).into()).collect();
    let mut job = job(1, rows);
    job.index_about = about;
    setups(&job, &holes, Some(machine))
}

/// Directions, index moves, tilts, turned over; clamping by clamping.
fn shape(setups: &Setups) -> Vec<(u32, u32, u32, bool)> {
    let of = |setup: &SetupFigures| {
        (
            setup.directions,
            setup.index_moves,
            setup.tilts,
            setup.turned_over,
        )
    };
    setups.figures.iter().map(of).collect()
}

fn remedy(setups: &Setups) -> Option<Remedy> {
    let several =
        |finding: &&quillbore_calc::Finding| matches!(finding.kind, Kind::SeveralSetups { .. });
    setups.findings.iter().find(several)?.remedy
}

#[test]
fn a_ring_on_an_index_axis_is_one_clamping() {
    let z = Some(PartAxis::Z);
    let radial = clamp(
        vec![placed(1, &ring(36, 90.0))],
        Ends::One,
        &rotary(None),
        z,
    );
    assert_eq!(shape(&radial), [(36, 35, 0, false)]);
    assert!(radial.row_findings.is_empty());

    // 60 degrees from the axis: the axis lies and the head leans 30, or it stands and the head 60.
    let tilting = rotary(Some(Limits::new(0.0, 45.0)));
    let slanted = clamp(vec![placed(1, &ring(36, 60.0))], Ends::One, &tilting, z);
    assert_eq!(shape(&slanted), [(36, 35, 0, false)]);
    assert!(slanted.row_findings.is_empty());

    // Without a tilt the fixture has to give the 30 degrees.
    let fixture = clamp(
        vec![placed(1, &ring(36, 60.0))],
        Ends::One,
        &rotary(None),
        z,
    );
    assert_eq!(shape(&fixture), [(36, 35, 0, false)]);
    let Kind::TiltOutOfRange { tilt_deg } = fixture.row_findings[0].1.kind else {
        panic!("{:?}", fixture.row_findings);
    };
    assert!((tilt_deg - 30.0).abs() < 0.01);
}

#[test]
fn a_ring_without_an_index_axis_is_clamped_hole_by_hole_and_says_what_would_mend_it() {
    let not_used = clamp(
        vec![placed(1, &ring(12, 90.0))],
        Ends::One,
        &rotary(None),
        None,
    );
    assert_eq!(not_used.figures.len(), 12);
    assert_eq!(remedy(&not_used), Some(Remedy::IndexAbout(PartAxis::Z)));
    // Four of the twelve lie on faces of the part, so the row is told about the other eight, once.
    assert_eq!(not_used.row_findings.len(), 1);

    let none_there = clamp(
        vec![placed(1, &ring(12, 90.0))],
        Ends::One,
        &machine(),
        None,
    );
    assert_eq!((none_there.figures.len(), remedy(&none_there)), (12, None));
}

#[test]
fn opposite_directions_turn_the_part_over_or_swing_it_round() {
    let down_and_up = [[0.0, 0.0, -1.0], [0.0, 0.0, 1.0]];
    let turned = clamp(
        vec![placed(1, &down_and_up)],
        Ends::One,
        &rotary(None),
        None,
    );
    assert_eq!(shape(&turned), [(1, 0, 0, false), (1, 0, 0, true)]);
    assert!(matches!(remedy(&turned), Some(Remedy::IndexAbout(_))));

    let about_x = Some(PartAxis::X);
    let swung = clamp(
        vec![placed(1, &down_and_up)],
        Ends::One,
        &rotary(None),
        about_x,
    );
    assert_eq!(shape(&swung), [(2, 1, 0, false)]);

    // Drilled from both ends a single direction is two.
    let both = clamp(vec![row(1, 4, 1.0, 90.0)], Ends::Both, &machine(), None);
    assert_eq!(shape(&both), [(1, 0, 0, false), (1, 0, 0, true)]);
    assert_eq!(both.figures[1].holes, 4);
}

#[test]
fn tilts_of_one_clamping_lie_in_one_plane() {
    let lean = |degrees: f64, turn: f64| {
        let (sine, cosine) = degrees.to_radians().sin_cos();
        let (y, x) = turn.to_radians().sin_cos();
        [-x * sine, -y * sine, -cosine]
    };
    let in_plane = [lean(0.0, 0.0), lean(30.0, 0.0), lean(30.0, 180.0)];
    let to_both = Machine {
        tilt_deg: Some(Limits::new(-45.0, 45.0)),
        ..machine()
    };
    let to_one = Machine {
        tilt_deg: Some(Limits::new(0.0, 45.0)),
        ..machine()
    };
    let rows = || vec![placed(1, &in_plane)];
    assert_eq!(
        shape(&clamp(rows(), Ends::One, &to_both, None)),
        [(3, 0, 2, false)]
    );
    assert_eq!(clamp(rows(), Ends::One, &to_one, None).figures.len(), 2);

    let round_about = [0.0, 90.0, 180.0, 270.0].map(|turn| lean(30.0, turn));
    let crossed = clamp(vec![placed(1, &round_about)], Ends::One, &to_both, None);
    assert_eq!(shape(&crossed), [(2, 0, 1, false), (2, 0, 1, false)]);
}

#[test]
fn rows_without_places_run_straight_or_by_their_tilt() {
    let tilted = RowInput {
        tilt_deg: 30.0,
        ..row(2, 5, 1.0, 20.0)
    };
    let rows = vec![row(1, 4, 1.0, 20.0), tilted, row(3, 2, 1.0, 20.0)];
    let assumed = clamp(rows, Ends::One, &machine(), None);
    assert_eq!(assumed.figures.len(), 2);
    assert_eq!(assumed.figures[0].holes, 6);
    assert!(
        assumed
            .findings
            .iter()
            .any(|finding| finding.kind == Kind::DirectionsAssumed { rows: 3 })
    );
    assert_eq!(assumed.row_findings.len(), 1);
}

#[test]
fn all_holes_of_one_tube_come_before_the_guide_is_changed() {
    let rows = [placed(1, &ring(6, 90.0)), placed(2, &ring(6, 90.0))];
    let holes = [
        hole(&rows[0], 3, Ends::One).into(),
        hole(&rows[1], 5, Ends::One).into(),
    ];
    let mut job = job(1, rows.to_vec());
    job.index_about = Some(PartAxis::Z);
    let setup = setups(&job, &holes, Some(&rotary(None)));
    let [setup] = &setup.figures[..] else {
        panic!("one clamping");
    };
    // Five moves there, five back from where the first tube ended.
    assert_eq!(
        (setup.guide_changes, setup.passes, setup.index_moves),
        (1, 2, 10)
    );
}

/// The clamping with the most holes comes first, however many directions or rows they are.
#[test]
fn the_clamping_with_the_most_holes_comes_first() {
    let tilted = |id, holes| RowInput {
        tilt_deg: 30.0,
        ..row(id, holes, 1.0, 20.0)
    };
    let holes = |rows| {
        let found = clamp(rows, Ends::One, &machine(), None).figures;
        found.iter().map(|setup| setup.holes).collect::<Vec<_>>()
    };
    assert_eq!(holes(vec![row(1, 3, 1.0, 20.0), tilted(2, 8)]), [8, 3]);
    assert_eq!(holes(vec![tilted(1, 3), row(2, 8, 1.0, 20.0)]), [8, 3]);
    assert_eq!(
        holes(vec![
            tilted(1, 5),
            row(2, 3, 1.0, 20.0),
            row(3, 4, 1.0, 20.0)
        ]),
        [7, 5]
    );
}

/// Where every hole has its place nothing was assumed; where some have none, their rows are counted.
#[test]
fn directions_are_assumed_only_where_no_place_says_them() {
    let assumed = |rows: Vec<RowInput>| {
        let found = clamp(rows, Ends::One, &machine(), None).findings;
        let rows = found.iter().filter_map(|finding| match finding.kind {
            Kind::DirectionsAssumed { rows } => Some(rows),
            _ => None,
        });
        rows.collect::<Vec<_>>()
    };
    let down = [[0.0, 0.0, -1.0]; 3];
    assert_eq!(assumed(vec![placed(1, &down)]), []);
    assert_eq!(assumed(vec![placed(1, &down), row(2, 4, 1.0, 20.0)]), [1]);
}

/// The plane of tilting is laid toward the part's positive axis, so that tilts read alike from job to
/// job; the other way only where the machine does not tilt there.
#[test]
fn the_plane_of_tilting_is_laid_toward_the_positive_axis() {
    let laid = |flat: [f64; 2], range: Limits| {
        // 30 degrees from square, the tool coming from this side.
        let cosine = 0.75_f64.sqrt();
        let axes = [[-0.5 * flat[0], -0.5 * flat[1], -cosine]];
        let leaning = Machine {
            tilt_deg: Some(range),
            ..machine()
        };
        let setups = clamp(vec![placed(1, &axes)], Ends::One, &leaning, None);
        let [setup] = &setups.figures[..] else {
            panic!("one clamping");
        };
        let Mount::Face { up, toward } = setup.mount else {
            panic!("on a face");
        };
        assert_eq!(up, [0.0, 0.0, 1.0]);
        let tilt = setup
            .mount
            .seat(axes[0], [0.0; 3], Tilts::Table)
            .angles
            .tilt_deg;
        (toward.map(|part| (part * 1e6).round() / 1e6), tilt.round())
    };
    let (both, one_way) = (Limits::new(-45.0, 45.0), Limits::new(0.0, 45.0));
    for (flat, range, toward, tilt) in [
        ([1.0, 0.0], both, [1.0, 0.0, 0.0], 30.0),
        ([-1.0, 0.0], both, [1.0, 0.0, 0.0], -30.0),
        ([0.0, 1.0], both, [0.0, 1.0, 0.0], 30.0),
        ([0.0, -1.0], both, [0.0, 1.0, 0.0], -30.0),
        // The first of x and y that it leans along by more than half.
        ([0.28, -0.96], both, [-0.28, 0.96, 0.0], -30.0),
        ([-0.6, 0.8], both, [0.6, -0.8, 0.0], -30.0),
        ([-1.0, 0.0], one_way, [-1.0, 0.0, 0.0], 30.0),
        ([0.28, -0.96], one_way, [0.28, -0.96, 0.0], 30.0),
    ] {
        assert_eq!(laid(flat, range), (toward, tilt), "{flat:?}");
    }
}

/// The way in of a tool that comes from one vector turned so far toward another, square to it.
fn from_side(one: [f64; 3], other: [f64; 3], degrees: f64) -> [f64; 3] {
    let (sine, cosine) = degrees.to_radians().sin_cos();
    [0, 1, 2].map(|at| -cosine * one[at] - sine * other[at])
}

const X: [f64; 3] = [1.0, 0.0, 0.0];
const Y: [f64; 3] = [0.0, 1.0, 0.0];
const Z: [f64; 3] = [0.0, 0.0, 1.0];

/// The largest set that one face and one plane reach is taken again and again, counting what is left: of
/// z and three in the plane of z and x, two in that of z and y, and two beside the second of these toward
/// x, first go the four, then that one and its two neighbors, then the one left over.
#[test]
fn the_largest_set_of_what_is_left_is_taken() {
    let leaning = Machine {
        tilt_deg: Some(Limits::new(-90.0, 90.0)),
        ..machine()
    };
    let shared = from_side(Z, Y, 50.0);
    let axes = [
        from_side(Z, X, 0.0),
        from_side(Z, X, 20.0),
        from_side(Z, X, 40.0),
        from_side(Z, X, 60.0),
        from_side(Z, Y, 30.0),
        shared,
        from_side(shared.map(|part| -part), X, 30.0),
        from_side(shared.map(|part| -part), X, 60.0),
    ];
    let found = clamp(vec![placed(1, &axes)], Ends::One, &leaning, None);
    let directions: Vec<u32> = shape(&found).iter().map(|of| of.0).collect();
    assert_eq!(directions, [4, 3, 1]);
}

/// Tilts to either side of a face share its clamping where the machine tilts to both, each as far as it
/// goes: 30 degrees to the one and 10 to the other, with a range of -45 to 10.
#[test]
fn opposite_tilts_share_a_clamping_as_far_as_the_machine_goes() {
    let clampings = |range: Limits, tilts: [f64; 2], flat: [f64; 3]| {
        let leaning = Machine {
            tilt_deg: Some(range),
            ..machine()
        };
        let axes = tilts.map(|tilt| from_side(Z, flat, tilt));
        let found = clamp(vec![placed(1, &axes)], Ends::One, &leaning, None);
        assert!(found.row_findings.is_empty());
        found.figures.len()
    };
    for flat in [
        X,
        Y,
        X.map(|part| -part),
        Y.map(|part| -part),
        [0.6, -0.8, 0.0],
    ] {
        assert_eq!(clampings(Limits::new(-45.0, 10.0), [30.0, -10.0], flat), 1);
        assert_eq!(clampings(Limits::new(-10.0, 45.0), [30.0, -10.0], flat), 1);
        assert_eq!(clampings(Limits::new(-10.0, 45.0), [30.0, -20.0], flat), 2);
    }
}

/// Planes of tilting less than a tenth of a degree apart are one, also where the turn begins anew.
#[test]
fn planes_closer_than_a_tenth_of_a_degree_are_one() {
    let leaning = Machine {
        tilt_deg: Some(Limits::new(0.0, 45.0)),
        ..machine()
    };
    for from in [0.0, 45.0, 90.0, 180.0, 300.0] {
        for (apart, number) in [(-0.06, 1), (0.06, 1), (-0.5, 2), (0.5, 2), (20.0, 2)] {
            let flat = |turn: f64| from_side(X, Y, turn).map(|part| -part);
            let axes = [
                from_side(Z, flat(from), 20.0),
                from_side(Z, flat(from + apart), 40.0),
            ];
            let found = clamp(vec![placed(1, &axes)], Ends::One, &leaning, None);
            assert_eq!(found.figures.len(), number, "{apart} from {from}");
        }
    }
}

/// A ring whose tools come from below, 150 degrees from the axis: it stands upside down and the head
/// tilts 30.
#[test]
fn a_ring_from_below_stands_upside_down() {
    let tilting = rotary(Some(Limits::new(0.0, 45.0)));
    let below = clamp(
        vec![placed(1, &ring(12, 150.0))],
        Ends::One,
        &tilting,
        Some(PartAxis::Z),
    );
    assert_eq!(shape(&below), [(12, 11, 0, false)]);
    assert_eq!(below.figures[0].mount, Mount::Upright([0.0, 0.0, -1.0]));
    assert!(below.row_findings.is_empty());
    // From above it stands as it is; 120 degrees are 30 beyond lying, the axis the other way round.
    for (from_axis, mount) in [
        (30.0, Mount::Upright([0.0, 0.0, 1.0])),
        (60.0, Mount::Lying([0.0, 0.0, 1.0])),
        (120.0, Mount::Lying([0.0, 0.0, -1.0])),
    ] {
        let rows = vec![placed(1, &ring(12, from_axis))];
        let found = clamp(rows, Ends::One, &tilting, Some(PartAxis::Z));
        assert_eq!(shape(&found), [(12, 11, 0, false)]);
        assert_eq!(found.figures[0].mount, mount, "{from_axis}");
    }
}

proptest! {
    #[test]
    fn every_hole_is_drilled_once_and_moves_are_fewest(
        turns in prop::collection::vec((0_u32..24, 0_u32..7), 1..40),
        index in prop::sample::select(vec![None, Some(PartAxis::X), Some(PartAxis::Z)]),
        tilt in prop::sample::select(vec![
            None,
            Some(Limits::new(0.0, 30.0)),
            Some(Limits::new(-45.0, 90.0)),
        ]),
    ) {
        let axes: Vec<[f64; 3]> = turns
            .iter()
            .map(|&(turn, lean)| {
                let (sine, cosine) = f64::from(lean * 30).to_radians().sin_cos();
                let (y, x) = f64::from(turn * 15).to_radians().sin_cos();
                [x * sine, y * sine, -cosine]
            })
            .collect();
        let setups = clamp(vec![placed(1, &axes)], Ends::One, &rotary(tilt), index);
        let holes: u32 = setups.figures.iter().map(|setup| setup.holes).sum();
        let directions: u32 = setups.figures.iter().map(|setup| setup.directions).sum();
        prop_assert_eq!(holes, turns.len() as u32);
        prop_assert_eq!(directions, setups.directions);
        for setup in &setups.figures {
            prop_assert_eq!(setup.index_moves + setup.tilts, setup.directions - 1);
        }
    }

    /// On a face that is up the tool comes from where the hole opens: the axes stand in their range, at
    /// the angle that the hole leans by, whichever way the plane of tilting was laid.
    #[test]
    fn tilts_are_in_range_and_true(
        turns in prop::collection::vec((0_u32..8, 0_u32..7), 1..12),
        tilt in prop::sample::select(vec![
            Limits::new(0.0, 0.0),
            Limits::new(0.0, 30.0),
            Limits::new(-60.0, 0.0),
            Limits::new(-10.0, 60.0),
            Limits::new(-45.0, 90.0),
        ]),
    ) {
        let axes: Vec<[f64; 3]> = turns
            .iter()
            .map(|&(turn, lean)| {
                let (sine, cosine) = f64::from(lean * 15).to_radians().sin_cos();
                let (y, x) = f64::from(turn * 45).to_radians().sin_cos();
                [x * sine, y * sine, -cosine]
            })
            .collect();
        let mut tables = tables();
        tables.machines[0].tilt_deg = Some(tilt);
        let job = job(1, vec![placed(1, &axes)]);
        let figures = quick(&job, &tables);
        let mut drilled = 0;
        for setup in &figures.setups {
            for stop in &setup.order {
                let place = job.rows[0].places[stop.place.unwrap()];
                let seat = setup.mount.seat(place.axis, place.point_mm, Tilts::Table);
                drilled += 1;
                if let Mount::Face { up, .. } = setup.mount {
                    let found = seat.angles.tilt_deg;
                    prop_assert!(found >= tilt.lower - 0.1 && found <= tilt.upper + 0.1, "{found}");
                    let leans = between(place.axis.map(|part| -part), up);
                    prop_assert!((found.abs() - leans).abs() < 0.11, "{found} {leans}");
                }
            }
        }
        prop_assert_eq!(drilled, axes.len());
    }
}
