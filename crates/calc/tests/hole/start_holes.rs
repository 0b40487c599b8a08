//! Start holes: whether the wire goes through, and whether the profile stays whole.

use quillbore_calc::finding::{Kind, Level, Remedy};
use quillbore_calc::input::{Ends, HoleEnd, Proof, StartHole};
use quillbore_calc::job_figures::HoleFigures;
use quillbore_calc::{Limits, RowInput};

use super::shop::{job, tables, through};
use super::{close, codes, figures, first, tube};

/// A start hole that nobody gave limits, of one size, in a plate.
fn start(size_mm: f64, depth_mm: f64, asked: StartHole) -> RowInput {
    RowInput {
        limits_mm: Some(Limits::new(size_mm - 0.05, size_mm + 0.05)),
        limits_assumed: true,
        start_hole: asked,
        ..through(size_mm, depth_mm)
    }
}

fn wire(mm: f64) -> StartHole {
    StartHole {
        wire_mm: Some(mm),
        ..StartHole::default()
    }
}

fn profile(mm: f64) -> StartHole {
    StartHole {
        to_profile_mm: Some(mm),
        ..StartHole::default()
    }
}

fn is_told(found: &HoleFigures, level: Level, code: &str) -> bool {
    codes(found, level).contains(&code)
}

/// Nobody asks for a wire: nothing is worked out and nothing is said.
#[test]
fn other_holes_have_no_wire() {
    let found = figures(&through(0.8, 20.0));
    assert_eq!(found.start_hole, None);
    assert!(found.checked.by_pin && found.checked.proof.is_none());
}

/// The exit is what the size says at both ends, by hand: 12 holes of ten parts, the median gap.
#[test]
fn the_exit_by_hand() {
    let row = start(0.8, 40.0, wire(0.25));
    let found = figures(&row);
    let exits = found.start_hole.as_ref().unwrap().exits.unwrap();
    let (size, gap) = (found.size_mm.unwrap(), found.gap_mm.unwrap());
    let tube_mm = tables().tubes[found.tube.unwrap().at()].outer_mm;
    let taper = 0.03 * 40.0 / 100.0;
    close(found.steps.taper_mm, taper, 1e-12);
    close(exits.expected_mm, tube_mm + 2.0 * gap.p50() - taper, 1e-9);
    close(exits.largest_mm, size.upper - taper, 1e-9);
    // As often as not one of the lot's holes is smaller than this many deviations below.
    let parts = job(vec![]).quantity.unwrap();
    let deviations = (size.lower - exits.smallest_mm) / 0.01;
    assert!(
        parts * 12 > 10 && deviations > 1.0 && deviations < 4.0,
        "{deviations}"
    );
    assert!(!is_told(&found, Level::Check, "exit-may-be-tight"));
}

/// A hole of 0.25 for a wire of 0.25: the wire may go through, with nothing to spare.
#[test]
fn a_hole_no_larger_than_its_wire() {
    let found = figures(&start(0.4, 10.0, wire(0.4)));
    assert!(
        is_told(&found, Level::Check, "exit-may-be-tight"),
        "{:?}",
        found.findings
    );
    // Thicker than any exit of the lot: there is no way through.
    let thick = figures(&start(0.4, 10.0, wire(0.6)));
    assert!(
        is_told(&thick, Level::Stop, "wire-too-thick"),
        "{:?}",
        thick.findings
    );
    assert!(!is_told(&thick, Level::Check, "exit-may-be-tight"));
}

/// What is offered instead is the next tube that is wide enough, and the finding is gone with it.
#[test]
fn a_larger_tube_mends_it() {
    let tables = tables();
    let row = start(0.4, 10.0, wire(0.4));
    let found = figures(&row);
    let remedy = found
        .findings
        .iter()
        .find_map(|finding| match finding.kind {
            Kind::ExitMayBeTight { .. } => finding.remedy,
            _ => None,
        });
    let Some(Remedy::UseTube(_, larger)) = remedy else {
        panic!("{remedy:?}")
    };
    let sizes = [found.tube.unwrap(), larger].map(|tube| tables.tubes[tube.at()].outer_mm);
    assert!(sizes[0] < sizes[1]);
    let mended = RowInput {
        tube: Some(larger),
        ..row.clone()
    };
    let mended = figures(&mended);
    assert!(!is_told(&mended, Level::Check, "exit-may-be-tight"));
    // Limits that somebody gave are not left for it.
    let limited = RowInput {
        limits_assumed: false,
        ..row.clone()
    };
    let limited = figures(&limited);
    let told = limited
        .findings
        .iter()
        .find(|finding| finding.kind.code() == "exit-may-be-tight");
    assert_eq!(told.unwrap().remedy, None);
    // Nor is the profile cut for it.
    let near = StartHole {
        to_profile_mm: Some(found.start_hole.unwrap().exits.unwrap().largest_mm / 2.0 + 0.06),
        ..row.start_hole
    };
    let near = figures(&RowInput {
        start_hole: near,
        ..row
    });
    let told = near
        .findings
        .iter()
        .find(|finding| finding.kind.code() == "exit-may-be-tight");
    assert_eq!(told.unwrap().remedy, None, "{:?}", near.findings);
}

/// A lot of a thousand has a smaller smallest hole than one hole alone, and the deeper plate a smaller exit.
#[test]
fn many_holes_and_deep_plates_leave_less() {
    let tables = tables();
    let smallest = |depth_mm, count, quantity| {
        let row = RowInput {
            count,
            tube: Some(tube(&tables, 0.8, 400.0, 1)),
            ..start(0.9, depth_mm, wire(0.25))
        };
        let mut input = job(vec![row]);
        input.quantity = Some(quantity);
        first(&input, &tables)
            .start_hole
            .unwrap()
            .exits
            .unwrap()
            .smallest_mm
    };
    let one = smallest(10.0, 1, 1);
    let thousand = smallest(10.0, 100, 10);
    // 3.1976 deviations of a hole's scatter with the tube's tolerance, by the shop's own tables.
    let deviation = f64::hypot(scatter(0.8), 0.01 / f64::sqrt(3.0));
    close(one - thousand, 3.197_589_5 * deviation, 1e-7);
    close(one - smallest(60.0, 1, 1), 0.03 * 50.0 / 100.0, 1e-9);
    // A thin plate takes next to nothing of it.
    assert!(one - smallest(0.5, 1, 1) < 0.0);
}

/// Scatter of the tests' shop, linear between its points.
fn scatter(tube_mm: f64) -> f64 {
    let table = tables().start.size_scatter_mm;
    let above = table.iter().position(|(at, _)| *at >= tube_mm).unwrap();
    let (from, to) = (table[above - 1], table[above]);
    from.1 + (to.1 - from.1) * (tube_mm - from.0) / (to.0 - from.0)
}

/// Two halves that miss each other leave less of the way than either end.
#[test]
fn from_both_ends_the_halves_may_miss() {
    let row = |ends| RowInput {
        ends: Some(ends),
        ..start(0.9, 80.0, wire(0.25))
    };
    let [one, both] = [Ends::One, Ends::Both].map(|ends| figures(&row(ends)));
    let told = both.findings.iter().find_map(|finding| match finding.kind {
        Kind::EndsMayMiss { by_mm } => Some(by_mm),
        _ => None,
    });
    let exits = |found: &HoleFigures| found.start_hole.as_ref().unwrap().exits.unwrap();
    let sizes = |found: &HoleFigures| found.size_mm.unwrap().lower;
    close(
        exits(&one).smallest_mm - exits(&both).smallest_mm,
        told.unwrap() + sizes(&one) - sizes(&both),
        1e-9,
    );
}

/// 0.9 mm: half of its largest size, 0.2 mm of drift in 100, and 0.03 of white layer.
#[test]
fn the_profile_by_hand() {
    for (depth_mm, drift_mm) in [(1.0, 0.002), (40.0, 0.08), (200.0, 0.4)] {
        let asked = |mm| RowInput {
            tube: Some(tube(&tables(), 0.8, 914.4, 1)),
            ends: Some(Ends::One),
            ..start(0.9, depth_mm, profile(mm))
        };
        let found = figures(&asked(5.0));
        let reaches = found.size_mm.unwrap().upper / 2.0 + drift_mm + 0.03;
        close(
            found.start_hole.as_ref().unwrap().reaches_mm.unwrap(),
            reaches,
            1e-9,
        );
        assert!(!is_told(&found, Level::Check, "profile-in-reach"));
        let near = figures(&asked(reaches + 0.001));
        assert!(!is_told(&near, Level::Check, "profile-in-reach"));
        let nearer = figures(&asked(reaches - 0.001));
        assert!(is_told(&nearer, Level::Check, "profile-in-reach"));
        let told = nearer
            .findings
            .iter()
            .find_map(|finding| match finding.kind {
                Kind::ProfileInReach { drift_mm, .. } => Some(drift_mm),
                _ => None,
            });
        close(told.unwrap(), drift_mm, 1e-12);
        // As wide as it is drilled it is in the profile already.
        let cut = figures(&asked(0.4));
        assert!(is_told(&cut, Level::Stop, "profile-cut"));
        assert!(!is_told(&cut, Level::Check, "profile-in-reach"));
    }
}

/// Nothing goes through a blind hole, and a wire that nobody gave can't be put through any.
#[test]
fn what_can_not_be_proved() {
    let with = |end, proved, start_hole| {
        figures(&RowInput {
            end,
            proved,
            start_hole,
            ..through(0.8, 20.0)
        })
    };
    let none = StartHole::default();
    for proof in [Proof::Light, Proof::Wire, Proof::Air, Proof::PinThrough] {
        let blind = with(HoleEnd::Blind, Some(proof), none);
        assert!(is_told(&blind, Level::Check, "blind-proof"), "{proof:?}");
        let open = with(HoleEnd::Into, Some(proof), none);
        assert!(!is_told(&open, Level::Check, "blind-proof"), "{proof:?}");
        let told = is_told(&open, Level::Check, "wire-missing");
        assert_eq!(told, proof == Proof::Wire, "{proof:?}");
    }
    assert!(is_told(
        &with(HoleEnd::Blind, None, wire(0.25)),
        Level::Check,
        "blind-proof"
    ));
    assert!(!is_told(
        &with(HoleEnd::Blind, Some(Proof::Pin), none),
        Level::Check,
        "blind-proof"
    ));
    // An exit as wide as its wire is told elsewhere.
    let as_wide = StartHole {
        least_exit_mm: Some(0.25),
        ..wire(0.25)
    };
    let as_wide = with(HoleEnd::Through, None, as_wide);
    assert!(!is_told(&as_wide, Level::Check, "exit-below-wire"));
    let less = StartHole {
        least_exit_mm: Some(0.2),
        ..wire(0.25)
    };
    assert!(is_told(
        &with(HoleEnd::Through, None, less),
        Level::Check,
        "exit-below-wire"
    ));
}

/// Pins stay where somebody gave limits, and go where a light is all that is asked.
#[test]
fn pins_go_by_limits() {
    let checked = |proved, limits_assumed| {
        let row = RowInput {
            proved,
            limits_assumed,
            ..through(0.8, 20.0)
        };
        let checked = row.checked();
        (checked.by_pin, checked.proof)
    };
    assert_eq!(checked(None, true), (true, None));
    assert_eq!(checked(Some(Proof::Pin), true), (true, None));
    assert_eq!(
        checked(Some(Proof::Light), true),
        (false, Some(Proof::Light))
    );
    assert_eq!(checked(Some(Proof::Air), false), (true, Some(Proof::Air)));
}

/// Limits that nobody gave are asked about where a pin checks them, and only told where none does.
#[test]
fn limits_that_no_pin_checks_are_no_question() {
    let told = |proved| {
        let row = RowInput {
            proved,
            ..start(0.8, 20.0, wire(0.25))
        };
        let found = figures(&row);
        [Level::Check, Level::Note].map(|level| is_told(&found, level, "limits-assumed"))
    };
    assert_eq!(told(None), [true, false]);
    assert_eq!(told(Some(Proof::Light)), [false, true]);
}

/// From both ends a large lot would cost less, and a wire would find a step in the middle of each hole.
#[test]
fn a_wire_is_threaded_through_a_hole_from_one_end() {
    let planned = |start_hole| {
        let row = RowInput {
            count: 200,
            proved: Some(Proof::Light),
            ..start(0.4, 25.0, start_hole)
        };
        let mut input = job(vec![row]);
        input.quantity = Some(50);
        first(&input, &tables()).ends
    };
    assert_eq!(planned(StartHole::default()), Some(Ends::Both));
    assert_eq!(planned(wire(0.1)), Some(Ends::One));
}
