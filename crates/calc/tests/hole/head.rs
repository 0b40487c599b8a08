//! Nose and head over the part: what they keep the guide away by, and what that takes of the reach.

use quillbore_calc::finding::{Kind, Level};
use quillbore_calc::head::{Head, Touches, put_clearances};
use quillbore_calc::input::{Place, Recess};
use quillbore_calc::{JobInput, RowInput, Tables};

use super::shop::{job, tables, through};
use super::{close, first, tube};

/// A nose of 12 mm, 40 long, under a head of 100.
const HEAD: Head = Head {
    nose_mm: 12.0,
    nose_top_mm: 12.0,
    nose_length_mm: 40.0,
    body_mm: 100.0,
    body_from_mm: 40.0,
};

fn with_head() -> Tables {
    let mut tables = tables();
    tables.machines[0].head = Some(HEAD);
    tables
}

fn asked(row: RowInput, tables: &Tables) -> JobInput {
    let mut input = job(vec![row]);
    put_clearances(&mut input, tables);
    input
}

/// 60 degrees on a face that goes on: 50 tan 60 - 40 = 46.60 instead of 8.
#[test]
fn a_steep_hole_takes_of_the_reach_what_the_head_keeps_away() {
    let tables = with_head();
    let mut row = through(1.1, 20.0);
    row.tilt_deg = 60.0;
    row.tube = Some(tube(&tables, 1.0, 200.0, 1));
    let free = first(&job(vec![row.clone()]), &tables);
    let found = first(&asked(row, &tables), &tables);
    let needed = 50.0 * libm::tan(f64::to_radians(60.0)) - 40.0;
    close(found.stand_off_mm.unwrap(), needed, 1e-9);
    let lost = needed - 8.0;
    close(
        found.target_depth_mm.unwrap() - free.target_depth_mm.unwrap(),
        lost,
        1e-9,
    );
    close(free.limit_mm.unwrap() - found.limit_mm.unwrap(), lost, 1e-9);
    assert!(found.reach_one_mm < free.reach_one_mm);
    // What the machine is set to counts from the part, and stays.
    assert_eq!(found.machine_depth_mm, free.machine_depth_mm);
    let told = found
        .findings
        .iter()
        .find_map(|finding| match finding.kind {
            Kind::HeadTouches {
                needed_mm, touches, ..
            } => Some((finding.level, needed_mm, touches)),
            _ => None,
        });
    assert_eq!(
        told,
        Some((Level::Check, found.stand_off_mm.unwrap(), Touches::Body))
    );
}

/// U = min(200 - 100, 350) = 100: 60 mm of depth and 38.6 mm held back more leave no room for the wear.
#[test]
fn an_electrode_that_just_reaches_takes_a_second_one_under_the_head() {
    let tables = with_head();
    let mut row = through(1.1, 45.0);
    row.tilt_deg = 60.0;
    row.ends = Some(quillbore_calc::input::Ends::One);
    row.tube = Some(tube(&tables, 1.0, 200.0, 1));
    let of = |input: &JobInput| first(input, &tables).electrodes_per_hole.unwrap();
    assert_eq!(of(&job(vec![row.clone()])), 1);
    assert!(of(&asked(row, &tables)) > 1);
}

/// In a recess of 11 mm the nose of 12 stays out: as deep as that is. One of 13 lets it in up to the head.
#[test]
fn a_recess_that_the_nose_does_not_enter() {
    let tables = with_head();
    let in_recess = |width_mm, depth_mm| {
        let row = RowInput {
            recess: Some(Recess { depth_mm, width_mm }),
            ..through(1.1, 20.0)
        };
        let input = asked(row, &tables);
        input.rows[0].clearance.unwrap().needed_mm
    };
    close(in_recess(11.0, 25.0), 25.0, 1e-9);
    close(in_recess(13.0, 25.0), 0.0, 1e-9);
    close(in_recess(13.0, 55.0), 15.0, 1e-9);
}

/// A block of 40 x 40 x 30: at its edge the head of 100 leans over air, in a face that goes on it would touch.
#[test]
fn a_small_part_is_leaned_over() {
    let tables = with_head();
    let lean = f64::to_radians(50.0);
    let row = RowInput {
        tilt_deg: 50.0,
        places: vec![Place {
            number: 1,
            point_mm: [38.0, 20.0, 30.0],
            axis: [-libm::sin(lean), 0.0, -libm::cos(lean)],
        }],
        ..through(1.1, 10.0)
    };
    let mut input = job(vec![row]);
    let on = |input: &mut JobInput| {
        put_clearances(input, &tables);
        input.rows[0].clearance.unwrap().needed_mm
    };
    // Nobody typed its size: 50 tan 50 - 40.
    input.part_mm = None;
    close(on(&mut input), 50.0 * libm::tan(lean) - 40.0, 1e-9);
    // Uphill of the hole stand 2 mm of face and then nothing: 2 sin 50 at most.
    input.part_mm = Some([40.0, 40.0, 30.0]);
    assert!(on(&mut input) <= 2.0 * libm::sin(lean) + 1e-9);
    // Where nothing is known of the head nothing is said.
    input.machine = None;
    put_clearances(&mut input, &tables);
    assert_eq!(input.rows[0].clearance, None);
}
