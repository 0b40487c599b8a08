//! One length of a tube for rows that can share it.

use quillbore_calc::assemble::figures_now;
use quillbore_calc::input::RowInput;
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
    let short = |tube: &Tube| tube.outer_mm == 1.0 && tube.length_mm == 200.0;
    let typed = tables.tubes.iter().position(short);
    let length = |tube: usize| tables.tubes[tube].length_mm;
    let alone = figures_now(&job(1, vec![shallow.clone()]), &tables);
    assert_eq!(length(alone.holes[0].tube.unwrap()), 200.0);
    let together = figures_now(&job(1, vec![shallow, deep]), &tables);
    for hole in &together.holes {
        assert_eq!(length(hole.tube.unwrap()), 400.0);
    }
    let electrodes = &together.lot.unwrap().electrodes;
    assert_eq!(electrodes.len(), 1);
    assert_eq!(electrodes[0].needed, 1);

    // A length that somebody chose stays.
    let chosen = RowInput {
        tube: typed,
        ..row(1, 1, 1.0, 5.0)
    };
    let beside = figures_now(&job(1, vec![chosen, row(2, 1, 1.0, 85.0)]), &tables);
    assert_eq!(beside.holes[0].tube, typed);
    assert_eq!(length(beside.holes[1].tube.unwrap()), 400.0);
}
