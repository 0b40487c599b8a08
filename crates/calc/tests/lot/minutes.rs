//! Minutes of a lot, done by hand from round counts and times.

use quillbore_calc::job_figures::SetupFigures;
use quillbore_calc::mount::Mount;
use quillbore_calc::quantity::Pace;
use quillbore_calc::rollup::{
    Broken, Changes, Counts, Proved, Times, TubeUse, roll_up, setup_counts,
};

use crate::shop::{machine, start};

/// Medians of the invented shop: set up 40, first piece 7, load 3, tilt 12, turn over 20, change 2.5
/// (thin 5), guide 7, dressing 0.7, receive 10, wash 2, pin 0.25, light 0.1, wire 0.2, air 0.4, pack 1; table 2000 mm/min; 0.4
/// attended.
fn times() -> Times {
    Times::new(&start(), &machine(), Pace::Median)
}

#[track_caller]
fn near(computed: f64, by_hand: f64) {
    assert!(
        (computed - by_hand).abs() < 1e-9,
        "{computed}, by hand {by_hand}"
    );
}

fn clamping(guide_changes: u32, tilts: u32, passes: u32, turned_over: bool) -> SetupFigures {
    SetupFigures {
        held: None,
        directions: 1,
        rows: vec![],
        holes: 1,
        turned_over,
        index_moves: 5,
        tilts,
        guide_changes,
        passes,
        travel_mm: Some(100.0),
        mount: Mount::Lying([1.0, 0.0, 0.0]),
        order: vec![],
    }
}

#[test]
fn every_kind_of_minute() {
    let counts = Counts {
        parts: 10,
        set_ups: 1,
        turn_overs: 1,
        loads: 20,
        index_moves: 50,
        tilts: 2,
        guide_changes: 1,
        travel_mm: 4000.0,
        ends: 100,
        proved: Proved {
            light: 10,
            wire: 20,
            air: 5,
        },
        masking_min: 12.5,
        hole_minutes: 300.0,
        inside: Changes { thin: 0, other: 4 },
        between: Changes { thin: 3, other: 6 },
        dressings: 90,
        broken: Broken {
            thin: 1.0,
            other: 2.0,
        },
        broken_hole_min: 6.0,
    };
    let (machine, labor) = roll_up(&counts, &times());
    near(machine.set_up, 40.0);
    near(machine.first_piece, 14.0);
    near(machine.load, 60.0);
    near(machine.index, 5.0 + 24.0);
    near(machine.turn_over, 20.0);
    near(machine.travel, 2.0);
    near(machine.holes, 300.0);
    near(machine.electrode_changes, 15.0 + 15.0);
    near(machine.guide_changes, 7.0);
    near(machine.dressing, 63.0);
    // One thin and two others changed, and six minutes in holes for nothing.
    near(machine.breakages, 5.0 + 5.0 + 6.0);
    near(machine.sum(), 581.0);

    near(labor.receive, 10.0);
    near(labor.set_up, 54.0);
    // Load, turn over, tilt, guide, changes between and inside by hand, dressing, broken ones.
    near(
        labor.handling,
        60.0 + 20.0 + 24.0 + 7.0 + 30.0 + 10.0 + 63.0 + 10.0,
    );
    // 0.4 of the holes less the changes in them, of those begun for nothing, of index moves, travel.
    near(labor.stand_by, 0.4 * (290.0 + 6.0 + 5.0 + 2.0));
    near(labor.masking, 12.5);
    near(labor.wash, 20.0);
    // Light 0.1, a wire 0.2, air 0.4 beside the pins.
    near(labor.inspect, 25.0 + 1.0 + 4.0 + 2.0);
    near(labor.pack, 10.0);

    // With a changer the same minutes run at the machine's own pace, and nobody's hand is in them.
    let changer = Times {
        changer: true,
        ..times()
    };
    let (_, labor) = roll_up(&counts, &changer);
    near(labor.handling, 60.0 + 20.0 + 24.0 + 7.0);
    near(
        labor.stand_by,
        0.4 * (300.0 + 30.0 + 63.0 + 16.0 + 5.0 + 2.0),
    );
}

#[test]
fn a_lot_is_run_part_by_part_or_pass_by_pass() {
    // One guide change of 7 against one more load of 3 for each part.
    let setups = [clamping(1, 0, 2, false)];
    for (parts, loads, changes) in [(1, 1, 1), (2, 4, 1), (50, 100, 1)] {
        let counts = setup_counts(&setups, parts, &times());
        assert_eq!(
            (counts.loads, counts.guide_changes),
            (loads, changes),
            "{parts}"
        );
    }
    // Dear to load: the guide is changed for each part.
    let heavy = Times {
        load: 30.0,
        ..times()
    };
    let counts = setup_counts(&setups, 50, &heavy);
    assert_eq!((counts.loads, counts.guide_changes), (50, 50));
    // Ten guide changes, 70, are less than one and three more loads of each of ten parts, 7 + 90.
    let counts = setup_counts(&[clamping(1, 0, 4, false)], 10, &times());
    assert_eq!((counts.loads, counts.guide_changes), (10, 10));
    // Two tilts of 12 for each of three parts, 72, are less than two and seven more loads, 24 + 63 ...
    let counts = setup_counts(&[clamping(0, 2, 8, false)], 3, &times());
    assert_eq!((counts.loads, counts.tilts), (3, 6));
    // ... but not than two and five more, 24 + 45.
    let counts = setup_counts(&[clamping(0, 2, 6, false)], 3, &times());
    assert_eq!((counts.loads, counts.tilts), (18, 2));
}

/// Nothing to do takes no time, and a table without a speed is not waited for.
#[test]
fn nothing_takes_no_minutes() {
    let (machine, labor) = roll_up(&Counts::default(), &times());
    assert_eq!((machine.sum(), labor.sum()), (0.0, 0.0));
    let still = Times {
        table_mm_min: 0.0,
        ..times()
    };
    let counts = Counts {
        parts: 1,
        travel_mm: 500.0,
        ..Counts::default()
    };
    let (machine, labor) = roll_up(&counts, &still);
    assert_eq!(machine.travel, 0.0);
    // Receive, wash, pack.
    near(labor.sum(), 13.0);
}

#[test]
fn clampings_add_up() {
    let setups = [clamping(0, 0, 1, false), clamping(0, 0, 1, true)];
    let counts = setup_counts(&setups, 4, &times());
    assert_eq!((counts.set_ups, counts.turn_overs, counts.loads), (1, 1, 8));
    assert_eq!(counts.index_moves, 40);
    near(counts.travel_mm, 800.0);
}

#[test]
fn every_time_is_taken_at_its_pace() {
    // Setting up: median 40, P90 56: deviation ln 1.4 / 1.2816 = 0.2626, but handling is off by at
    // least sqrt(0.35^2 + 0.2^2) = 0.4031: mean 40 exp(0.4031^2 / 2) = 43.386.
    let at = |pace| Times::new(&start(), &machine(), pace);
    let deviation = (0.35_f64 * 0.35 + 0.2 * 0.2).sqrt();
    near(
        at(Pace::Mean).set_up,
        40.0 * libm::exp(deviation * deviation / 2.0),
    );
    near(at(Pace::Off(1.0)).load, 3.0 * libm::exp(deviation));
    // Touch-off and load are wider in their own bands only where those are wider than that.
    let widest = libm::log(1.6) / quillbore_calc::quantity::Z90;
    assert!(widest < deviation);
}

#[test]
fn electrodes_bring_changes_and_dressings() {
    // Nine electrodes drill a hundred blind holes, each dressed: eight changes, and 91 tips dressed.
    let blind = TubeUse {
        ends: 100,
        shared: 9,
        dressed: 100.0,
        fresh_undressed: 1.0,
        ..TubeUse::default()
    };
    assert_eq!(
        (
            blind.electrodes(),
            blind.changes_between(),
            blind.dressings()
        ),
        (9, 8, 91)
    );
    // Through holes are not dressed at all; nor is a mixture spared what its blind ones need.
    let through = TubeUse {
        dressed: 0.0,
        fresh_undressed: 0.0,
        ..blind
    };
    assert_eq!(through.dressings(), 0);
    let mixed = TubeUse {
        dressed: 40.0,
        fresh_undressed: 0.0,
        ..blind
    };
    assert_eq!(mixed.dressings(), 40);
    // Ten holes of two electrodes each, the second shared by five: each hole starts on a fresh one.
    let chained = TubeUse {
        ends: 10,
        chained: 10,
        whole: 10,
        shared: 2,
        ..TubeUse::default()
    };
    assert_eq!((chained.electrodes(), chained.changes_between()), (12, 9));
    let nothing = TubeUse::default();
    assert_eq!((nothing.changes_between(), nothing.dressings()), (0, 0));
}

/// One tilt (12 min) saves five more loads of each part (3 min): two parts are tilted each, 24 min
/// against 12 + 30, and so are ten, 120 against 12 + 150. Where it saves one load, ten are loaded twice
/// and the head is tilted once, 12 + 30 against 120.
#[test]
fn each_part_is_tilted_where_that_takes_less() {
    let tilted = |passes, parts| {
        let counts = setup_counts(&[clamping(0, 1, passes, false)], parts, &times());
        (counts.tilts, counts.loads)
    };
    assert_eq!(tilted(6, 2), (2, 2));
    assert_eq!(tilted(6, 10), (10, 10));
    assert_eq!(tilted(2, 10), (1, 20));
}
