//! What holds a part against its flush in a setup. Source of all expectations: statics, by hand.

use quillbore_calc::assemble::quick;
use quillbore_calc::finding::{Finding, Kind, Level};
use quillbore_calc::input::{HoleEnd, JobInput, Place, Rest, RowInput};
use quillbore_calc::job_figures::{HeldInSetup, Moves};
use quillbore_calc::quantity::Limits;
use quillbore_calc::tables::Tilts;

use crate::rows::{job, row};
use crate::shop::tables;

/// A plate of 100 x 60 x 10 and 0.5 kg with one hole of 1.05 at most, square from above or leaning in x.
fn plate(at_x_mm: f64, lean_deg: f64, end: HoleEnd) -> JobInput {
    let lean = lean_deg.to_radians();
    let hole = RowInput {
        places: vec![Place {
            number: 1,
            point_mm: [at_x_mm, 30.0, 10.0],
            axis: [libm::sin(lean), 0.0, -libm::cos(lean)],
        }],
        end,
        ..row(1, 1, 1.0, 10.0)
    };
    JobInput {
        part_mm: Some([100.0, 60.0, 10.0]),
        mass_kg: Some(0.5),
        ..job(1, vec![hole])
    }
}

/// 60 bar are 6 N/mm2, on pi/4 1.05^2.
fn push() -> f64 {
    6.0 * std::f64::consts::FRAC_PI_4 * 1.05 * 1.05
}

const WEIGHT: f64 = 0.5 * 9.81;

fn held(input: &JobInput, tilts: Option<Tilts>) -> (HeldInSetup, Vec<Finding>) {
    let mut tables = tables();
    tables.machines[0].tilts = tilts;
    tables.machines[0].tilt_deg = tilts.map(|_| Limits::new(0.0, 60.0));
    let figures = quick(input, &tables);
    let moved = |finding: &Finding| matches!(finding.kind, Kind::PartMoved { .. });
    let findings = figures.findings.into_iter().filter(moved).collect();
    (figures.setups[0].held.unwrap(), findings)
}

#[track_caller]
fn near(found: f64, expected: f64) {
    assert!((found - expected).abs() < 1e-9, "{found} {expected}");
}

#[test]
fn on_its_whole_face_a_plate_stays_under_a_blind_hole() {
    let (held, findings) = held(&plate(95.0, 0.0, HoleEnd::Blind), None);
    near(held.push_n, push());
    assert_eq!((held.clamp_n, held.stop_n, held.moves), (0.0, 0.0, None));
    assert_eq!(findings, []);
}

#[test]
fn water_that_gets_under_it_lifts_it() {
    let mut input = plate(95.0, 0.0, HoleEnd::Through);
    let (lifted, findings) = held(&input, None);
    // About the far edge: at 95 up, the weight at 50 down; held at 50.
    near(lifted.clamp_n, (2.0 * push() * 95.0 - WEIGHT * 50.0) / 50.0);
    assert_eq!(lifted.moves, Some((Moves::Lifts, Some(input.rows[0].id))));
    assert_eq!((findings.len(), findings[0].level), (1, Level::Check));
    // Backing closes the way down.
    input.rows[0].backed = true;
    assert_eq!(held(&input, None).0.clamp_n, 0.0);
}

#[test]
fn beyond_what_it_rests_on_the_flush_tips_it() {
    let mut input = plate(95.0, 0.0, HoleEnd::Blind);
    input.rests_on = Some(Rest::Rectangle([40.0, 60.0]));
    let (tipped, _) = held(&input, None);
    near(tipped.clamp_n, (2.0 * push() * 25.0 - WEIGHT * 20.0) / 20.0);
    assert_eq!(tipped.moves, Some((Moves::Tips, Some(input.rows[0].id))));
    // A little more weight holds it, but not twice the push.
    input.mass_kg = Some(0.7);
    let (nearly, findings) = held(&input, None);
    assert_eq!(nearly.moves, Some((Moves::Nearly, None)));
    assert_eq!(findings[0].level, Level::Note);
    // Without locations the hole may be anywhere: at a corner, 30 beyond.
    input.mass_kg = Some(0.5);
    input.rows[0].places.clear();
    near(
        held(&input, None).0.clamp_n,
        (2.0 * push() * 30.0 - WEIGHT * 20.0) / 20.0,
    );
}

#[test]
fn a_stop_takes_what_goes_sideways() {
    let input = plate(50.0, 30.0, HoleEnd::Blind);
    near(held(&input, Some(Tilts::Head)).0.stop_n, 0.5 * push());
    // With a table the part leans, and its weight slides with it.
    near(
        held(&input, Some(Tilts::Table)).0.stop_n,
        0.5 * (push() + WEIGHT),
    );
}

#[test]
fn what_nobody_typed_holds_nothing() {
    for change in [
        |input: &mut JobInput| input.mass_kg = None,
        |input: &mut JobInput| input.part_mm = None,
        |input: &mut JobInput| input.machine = None,
    ] {
        let mut input = plate(95.0, 0.0, HoleEnd::Through);
        change(&mut input);
        assert_eq!(quick(&input, &tables()).setups[0].held, None);
    }
}
