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

fn place(point_mm: [f64; 3], out: [f64; 3]) -> Place {
    Place {
        number: 1,
        point_mm,
        axis: out.map(|part| -part),
    }
}

/// The way out that leans by 30 degrees from one of the part's axes to another.
fn leaning(from: usize, to: usize, way: f64) -> [f64; 3] {
    let mut out = [0.0; 3];
    (out[from], out[to]) = (libm::cos(f64::to_radians(30.0)), way * 0.5);
    out
}

/// What the guide keeps away by, row by row, in a part of a size.
fn kept(part_mm: [f64; 3], rows: Vec<RowInput>) -> Vec<f64> {
    let mut input = job(rows);
    input.part_mm = Some(part_mm);
    put_clearances(&mut input, &with_head());
    let rows = input.rows.iter();
    rows.map(|row| row.clearance.unwrap().needed_mm).collect()
}

fn drilled(tilt_deg: f64, places: Vec<Place>) -> RowInput {
    RowInput {
        tilt_deg,
        places,
        ..through(1.1, 10.0)
    }
}

/// A recess 20 deep that the hole leans in by 30 degrees: at its rim the axis has gone 20 tan 30 = 11.547
/// aside, and what is left beside it is seen at cos 30. For a nose of 12 with half a millimeter beside it,
/// half the width is 11.547 + 12.5 / (2 cos 30) = 18.764; narrower, all of 20 / cos 30 is in the way, wider
/// the 6 tan 30 of a face.
#[test]
fn a_nose_that_leans_in_a_recess() {
    let tables = with_head();
    let in_recess = |width_mm, tilt_deg| {
        let row = RowInput {
            recess: Some(Recess {
                depth_mm: 20.0,
                width_mm,
            }),
            tilt_deg,
            ..through(1.1, 20.0)
        };
        asked(row, &tables).rows[0].clearance.unwrap().needed_mm
    };
    for tilt in [30.0, -30.0] {
        close(in_recess(2.0 * 18.77, tilt), 3.4641, 1e-4);
        close(in_recess(2.0 * 18.76, tilt), 23.0940, 1e-4);
    }
}

/// On a block of 40 x 40 x 30, leaning by 30 degrees to the edge: 2 mm before it this is 2 sin 30 high, 20 mm
/// before it the nose meets the face first, at 6 tan 30. The worst of a row's places counts, wherever it stands
/// in the list.
#[test]
fn the_worst_place_counts() {
    let out = leaning(2, 0, 1.0);
    let near = place([38.0, 20.0, 30.0], out);
    let far = place([20.0, 20.0, 30.0], out);
    let kept = |places| kept([40.0, 40.0, 30.0], vec![drilled(30.0, places)])[0];
    close(kept(vec![near]), 1.0, 1e-9);
    close(kept(vec![far]), 3.4641, 1e-4);
    close(kept(vec![near, far]), 3.4641, 1e-4);
    close(kept(vec![far, near]), 3.4641, 1e-4);
    // One of many, and none is passed over.
    let mut many = vec![near; 50];
    many[1] = far;
    close(kept(many), 3.4641, 1e-4);
}

/// At an edge, and a hundredth of a millimeter beside it, nothing rises above the mouth. Below the face without
/// a recess nobody knows what is around: a face that goes on.
#[test]
fn a_mouth_on_the_part_and_one_in_it() {
    let block = |point_mm, out| {
        kept(
            [40.0, 40.0, 30.0],
            vec![drilled(30.0, vec![place(point_mm, out)])],
        )[0]
    };
    let [left, right] = [-1.0, 1.0].map(|way| leaning(2, 0, way));
    for (x, out) in [(0.0, left), (-0.01, left), (40.0, right), (40.01, right)] {
        close(block([x, 20.0, 30.0], out), 0.0, 1e-9);
    }
    close(block([38.0, 20.0, 20.0], right), 3.4641, 1e-4);
}

/// A bar of 40 along x. 10 mm beside its crown and straight down: 6 mm nearer to it the bar is higher by
/// sqrt(400 - 16) - sqrt(400 - 100) = 2.275. Into its end, 2 mm before the rim and leaning to it: 2 sin 30.
/// In its middle nobody knows.
#[test]
fn on_and_in_a_round_bar() {
    let side = drilled(
        0.0,
        vec![place([20.0, 10.0, libm::sqrt(300.0)], [0.0, 0.0, 1.0])],
    );
    let end = |y| {
        let [mut out, at] = [leaning(0, 1, 1.0), [0.0, y, 0.0]];
        out[0] = -out[0];
        drilled(30.0, vec![place(at, out)])
    };
    let sunk = drilled(0.0, vec![place([50.0, 0.0, 10.0], [0.0, 0.0, 1.0])]);
    let found = kept([100.0, 40.0, 40.0], vec![side, end(18.0), end(20.0), sunk]);
    for (found, by_hand) in found.into_iter().zip([2.2754, 1.0, 0.0, 0.0]) {
        close(found, by_hand, 1e-4);
    }
}
