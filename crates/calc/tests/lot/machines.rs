//! The machines of the shop compared, and what the chosen one does alone: by figures of single jobs and by hand.

use quillbore_calc::assemble::quick;
use quillbore_calc::figure::{Name, Working};
use quillbore_calc::input::{JobInput, Place, RowInput};
use quillbore_calc::tables::Tables;
use quillbore_calc::working::machines;
use quillbore_calc::{Idx, Limits};
use rust_decimal::prelude::ToPrimitive;

use crate::rows::{job, row};
use crate::shop::tables;

fn shop() -> Tables {
    let mut tables = tables();
    // As the first but dearer, and one that drives no tube of this job.
    let mut dearer = tables.machines[0].clone();
    dearer.rate_per_hour *= 3.0;
    let mut thin = tables.machines[0].clone();
    thin.tube_mm = Limits::new(0.1, 0.25);
    tables.machines = vec![thin, dearer, tables.machines[0].clone()];
    tables
}

fn asked() -> JobInput {
    let mut input = job(10, vec![row(1, 4, 1.0, 20.0)]);
    input.machine = Some(Idx::new(2));
    input
}

fn compared(input: &JobInput, tables: &Tables, hours: f64) -> Working {
    machines(input, tables, &quick(input, tables), hours).unwrap()
}

fn value(working: &Working, name: Name) -> Option<f64> {
    let found = working.inputs.iter().find(|input| input.name == name);
    found.map(|input| input.value.value)
}

#[test]
fn each_machine_has_one_line_the_cheapest_first() {
    let (input, tables) = (asked(), shop());
    let working = compared(&input, &tables, 0.0);
    let names: Vec<Name> = working.inputs.iter().map(|input| input.name).collect();
    let [thin, dearer, own] = [0, 1, 2].map(Idx::new);
    assert_eq!(
        names[..3],
        [
            Name::OnMachine(own),
            Name::OnMachine(dearer),
            Name::StopsOn(thin)
        ]
    );
    // The prices are those of the job on that machine.
    for machine in [dearer, own] {
        let mut alone = input.clone();
        alone.machine = Some(machine);
        let price = quick(&alone, &tables).price.unwrap().breaks[0].each;
        assert_eq!(value(&working, Name::OnMachine(machine)), price.to_f64());
    }
    assert_eq!(
        Some(working.result.value),
        value(&working, Name::OnMachine(own))
    );
    // Nobody chose one: the least there is.
    let mut open = input;
    open.machine = None;
    let least = compared(&open, &tables, 0.0);
    assert_eq!(least.result.value, working.result.value);
    assert_eq!(value(&least, Name::PiecesPerLoading), None);
}

/// Parts of 100 x 80 on 400 x 300 with 20 between: 3 x 3 as they lie, 4 x 2 turned. Of 2 kg, a table that
/// bears 7 kg bears 3.
#[test]
fn parts_on_the_table_at_once() {
    let (input, mut tables) = (asked(), shop());
    let pieces = |tables: &Tables| {
        let working = compared(&input, tables, 0.0);
        value(&working, Name::PiecesPerLoading)
    };
    assert_eq!(pieces(&tables), Some(9.0));
    tables.machines[2].mass_kg = 7.0;
    assert_eq!(pieces(&tables), Some(3.0));
}

/// A ring of 90 on its face: round parts stand closer than squares of 90 would. In a chuck there is one.
#[test]
fn round_parts_and_parts_in_a_chuck() {
    let (mut input, mut tables) = (asked(), shop());
    tables.machines[2].index_axis = true;
    let place = |number: u32, turn: f64| {
        let out = [libm::cos(turn), libm::sin(turn), 0.0];
        Place {
            number,
            point_mm: [45.0 * out[0], 45.0 * out[1], 10.0],
            axis: [-out[0], -out[1], 0.0],
        }
    };
    let turns = (0..4).map(|quarter| f64::from(quarter) * std::f64::consts::FRAC_PI_2);
    input.rows = vec![RowInput {
        places: (1..)
            .zip(turns)
            .map(|(number, turn)| place(number, turn))
            .collect(),
        ..row(1, 4, 1.0, 8.0)
    }];
    input.part_mm = Some([90.0, 90.0, 20.0]);
    input.index_about = Some(quillbore_calc::input::PartAxis::Z);
    let working = compared(&input, &tables, 0.0);
    assert_eq!(value(&working, Name::PiecesPerLoading), Some(1.0));
}

/// By hand it runs as long as one electrode lasts; a changer as long as its twelve do, the parts do, or until
/// somebody comes.
#[test]
fn what_it_does_with_nobody_at_it() {
    let (mut input, mut tables) = (asked(), shop());
    input.quantity = Some(200);
    input.breaks.clear();
    let figures = quick(&input, &tables);
    let lot = figures.lot.unwrap();
    let needed: u32 = lot.electrodes.iter().map(|tube| tube.needed).sum();
    let of = lot.machine;
    let each =
        (of.holes + of.travel + of.index + of.electrode_changes + of.dressing) / 200.0 / 60.0;
    let parts_of_one = 200.0 / f64::from(needed);
    let run = |tables: &Tables, hours| {
        let working = compared(&input, tables, hours);
        value(&working, Name::HoursAlone)
    };
    let near = |found: Option<f64>, expected: f64| {
        let found = found.unwrap();
        assert!((found - expected).abs() < 1e-9, "{found} {expected}");
    };
    assert!(parts_of_one < 9.0);
    near(run(&tables, 24.0), parts_of_one * each);
    assert_eq!(run(&tables, 0.0), None);
    tables.machines[2].changer = true;
    let by_changer = run(&tables, 1e3).unwrap();
    assert!(by_changer > parts_of_one * each);
    near(run(&tables, by_changer / 2.0), by_changer / 2.0);
}
