//! Which tube a hole is begun with, and how much of its length a machine lets it use.

use super::shop::*;
use super::{close, figures, first, tube};

/// The exit is smaller than the entry, so a deep hole wants a larger tube. Figures by the rules of
/// `tests/golden/hole.py`: 1.4 to 1.6 mm, 80 mm deep, tubes in steps of 0.05 mm; without taper 1.35
/// would be right with .961.
#[test]
fn taper_counts_in_the_choice() {
    let found = figures(&through(1.5, 80.0));
    assert_eq!(tables().tubes[found.tube.unwrap().at()].outer_mm, 1.4);
    let chance = found.first_choice.unwrap();
    close(chance.inside, 0.949, 0.0005);
    close(chance.over, 0.051, 0.0005);
    let mut tables = tables();
    tables.start.taper_mm_per_100 = 0.0;
    let straight = first(&job(vec![through(1.5, 80.0)]), &tables);
    assert_eq!(tables.tubes[straight.tube.unwrap().at()].outer_mm, 1.35);
    close(straight.first_choice.unwrap().inside, 0.961, 0.0005);
}

/// A tube that is longer than its machine takes is cut down to what it takes: 450 mm, 100 held back.
#[test]
fn a_machine_takes_no_longer_tube_than_it_can() {
    let mut tables = tables();
    tables.machines[BENCH.at()].stroke_mm = 720.0;
    let mut row = through(1.1, 20.0);
    row.tube = Some(tube(&tables, 1.0, 914.4, 1));
    let found = first(&job(vec![row]), &tables);
    close(found.usable_mm.unwrap(), 350.0, 1e-9);
}
