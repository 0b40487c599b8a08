//! One length of a tube for rows that can share it.

use quillbore_calc::Idx;
use quillbore_calc::assemble::figures_now;
use quillbore_calc::input::RowInput;
use quillbore_calc::job_figures::HoleFigures;
use quillbore_calc::tables::Tube;

use crate::rows::{job, row};
use crate::shop::tables;

/// By itself a shallow row takes the short, cheap tube; beside a deep one it rides on what that leaves
/// of a long tube, and saves a tube and a change.
#[test]
fn a_shallow_row_rides_on_the_tubes_of_a_deep_one() {
    let mut tables = tables();
    let short: Vec<Tube> = tables
        .tubes
        .iter()
        .map(|tube| Tube {
            name: format!("{} short", tube.name),
            length_mm: 200.0,
            price: 1.0,
            ..tube.clone()
        })
        .collect();
    tables.tubes.extend(short);
    let (shallow, deep) = (row(1, 1, 1.0, 5.0), row(2, 1, 1.0, 85.0));
    let length = |tube: Idx<Tube>| tables.tubes[tube.at()].length_mm;
    let alone = figures_now(&job(1, vec![shallow.clone()]), &tables);
    let short = alone.holes[0].tube;
    assert_eq!(length(short.unwrap()), 200.0);
    let together = figures_now(&job(1, vec![shallow, deep]), &tables);
    for hole in &together.holes {
        assert_eq!(length(hole.tube.unwrap()), 400.0);
    }
    let electrodes = &together.lot.unwrap().electrodes;
    assert_eq!(electrodes.len(), 1);
    assert_eq!(electrodes[0].needed, 1);

    // A length that somebody chose stays.
    let chosen = RowInput {
        tube: short,
        ..row(1, 1, 1.0, 5.0)
    };
    let beside = figures_now(&job(1, vec![chosen, row(2, 1, 1.0, 85.0)]), &tables);
    assert_eq!(beside.holes[0].tube, short);
    assert_eq!(length(beside.holes[1].tube.unwrap()), 400.0);
}

/// What one part leaves of a dear tube, many parts use up: three deep holes of 85 mm with about 60 of wear go on
/// 300 mm usable, so the one of a single part leaves room for 20 shallow ones of 3.5 mm of wear. Those of ten
/// parts, on four tubes, leave about 600 mm, and 200 shallow ones ask for 700: one more tube of 1,000 costs more
/// than ten cheap short ones with their changes. The short ones, 80 mm usable, never reach the deep hole,
/// however cheap they are.
#[test]
fn many_parts_use_up_what_one_leaves() {
    let mut tables = tables();
    let short: Vec<Tube> = tables
        .tubes
        .iter()
        .map(|tube| Tube {
            name: format!("{} short", tube.name),
            length_mm: 180.0,
            price: 0.2,
            ..tube.clone()
        })
        .collect();
    for tube in &mut tables.tubes {
        tube.price = 1000.0;
    }
    tables.tubes.extend(short);
    let (shallow, deep) = (row(1, 20, 1.0, 5.0), row(2, 1, 1.0, 85.0));
    let lengths = |parts| {
        let both = figures_now(&job(parts, vec![shallow.clone(), deep.clone()]), &tables);
        let of = |hole: &HoleFigures| tables.tubes[hole.tube.unwrap().at()].length_mm;
        both.holes.iter().map(|hole| of(hole)).collect::<Vec<_>>()
    };
    assert_eq!(lengths(1), [400.0, 400.0]);
    assert_eq!(lengths(10), [180.0, 400.0]);
}
