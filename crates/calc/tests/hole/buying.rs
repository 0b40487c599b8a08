//! Which tubes else would do for a size, of the drawer or bought. Figures by the rules of `tests/golden/hole.py`, which knows
//! nothing of this crate, with this shop's gaps and scatter, tubes in tenths of a millimeter in the
//! drawer and every twentieth to be bought.

use quillbore_calc::finding::{Kind, Remedy};
use quillbore_calc::hole::Context;
use quillbore_calc::job_figures::Bought;
use quillbore_calc::tables::TubeMaterial::{Brass, Copper};
use quillbore_calc::{Figure, Idx, JobInput, Limits, Tables};

use super::shop::*;
use super::{close, first, overruled};

/// The shop with brass tubes of one channel in tenths, and a hole between these limits.
fn in_tenths(limits_mm: Limits, depth_mm: f64) -> (Tables, JobInput) {
    let mut tables = tables();
    tables.tubes.retain(|tube| {
        let tenths = tube.outer_mm * 10.0;
        let tenth = (tenths - tenths.round()).abs() < 1e-9;
        tube.material == Brass && tube.channels == 1 && tenth
    });
    let mut row = through(1.0, depth_mm);
    row.limits_mm = Some(limits_mm);
    (tables, job(vec![row]))
}

fn held_and_bought(tables: &Tables, input: &JobInput) -> (f64, Option<Bought>) {
    let found = first(input, tables);
    (found.held.unwrap(), found.bought)
}

#[test]
fn a_tube_between_the_drawer_s_is_told_where_it_holds_more() {
    for (limits, depth, held, outer_mm, with_it) in [
        (Limits::new(0.37, 0.43), 5.0, 0.745_281, 0.35, 0.999_212),
        (Limits::new(0.60, 0.64), 10.0, 0.557_070, 0.55, 0.958_537),
        (Limits::new(0.95, 1.00), 20.0, 0.900_269, 0.85, 0.939_629),
        (Limits::new(1.45, 1.50), 10.0, 0.901_798, 1.35, 0.939_806),
    ] {
        let (tables, input) = in_tenths(limits, depth);
        let (found, bought) = held_and_bought(&tables, &input);
        let bought = bought.unwrap();
        close(found, held, 2e-6);
        assert_eq!(bought.outer_mm, outer_mm);
        close(bought.held, with_it, 2e-6);
    }
}

/// Nothing is told where the drawer has the best already (0.4 and 1.1 mm), where the size is comfortable,
/// or where 0.957 would only become 0.975.
#[test]
fn what_adds_too_little_is_not_told() {
    for (limits, depth, held) in [
        (Limits::new(0.47, 0.53), 8.0, 0.772_260),
        (Limits::new(1.20, 1.25), 8.0, 0.793_908),
        (Limits::new(0.75, 0.85), 10.0, 0.991_686),
        (Limits::new(1.05, 1.11), 10.0, 0.957_419),
    ] {
        let (tables, input) = in_tenths(limits, depth);
        let (found, bought) = held_and_bought(&tables, &input);
        close(found, held, 2e-6);
        assert_eq!(bought, None, "{limits:?}");
    }
}

/// A tube that this machine doesn't drive is not to be bought: 0.55 mm up to the machine's most, 0.35 mm
/// down to its least.
#[test]
fn only_what_the_machine_drives_is_bought() {
    for (limits, depth, driven, bought) in [
        (
            Limits::new(0.60, 0.64),
            10.0,
            Limits::new(0.3, 0.55),
            Some(0.55),
        ),
        (Limits::new(0.60, 0.64), 10.0, Limits::new(0.3, 0.54), None),
        (
            Limits::new(0.37, 0.43),
            5.0,
            Limits::new(0.35, 3.0),
            Some(0.35),
        ),
        (Limits::new(0.37, 0.43), 5.0, Limits::new(0.36, 3.0), None),
    ] {
        let (mut tables, input) = in_tenths(limits, depth);
        tables.machines[BENCH.at()].tube_mm = driven;
        let (_, told) = held_and_bought(&tables, &input);
        assert_eq!(told.map(|tube| tube.outer_mm), bought, "{driven:?}");
    }
}

/// Without a tube to begin with, the one to buy alone: from 0.1 to 12.7 mm, as far as it holds anything.
#[test]
fn a_size_beyond_the_drawer() {
    let buy = |limits, depth| {
        let (mut tables, mut input) = in_tenths(limits, depth);
        tables.tubes.retain(|tube| tube.outer_mm == 0.2);
        input.machine = None;
        let found = first(&input, &tables);
        assert_eq!((found.tube, found.held), (None, Some(0.0)));
        let mut told = found.findings.iter().filter_map(|said| match said.kind {
            Kind::NoTube { buy, .. } => Some(buy),
            _ => None,
        });
        told.next().unwrap()
    };
    let is = |told: Option<Bought>, outer_mm, held| {
        let told = told.unwrap();
        assert_eq!(told.outer_mm, outer_mm);
        close(told.held, held, 2e-6);
    };
    is(buy(Limits::new(5.95, 6.05), 20.0), 5.7, 0.628_265);
    // The best of the twentieths would be 12.75 and 0.05 mm.
    is(buy(Limits::new(13.0, 13.1), 20.0), 12.7, 0.501_275);
    is(buy(Limits::new(0.10, 0.13), 1.0), 0.1, 0.184_956);
    // Limits 0.003 mm apart: held by nothing.
    assert_eq!(buy(Limits::new(5.997, 6.0), 1.0), None);
}

/// What else a hole could be begun with, most likely right first and oversize counted against it: chances
/// of a hundredth and more, six at most, each with the length that its diameter would be taken in.
#[test]
fn alternatives_by_their_chances() {
    let told = |limits, depth| {
        let (tables, input) = in_tenths(limits, depth);
        let row = &input.rows[0];
        let told = Context::new(&input, &tables).alternatives(row);
        for other in &told {
            let outer_mm = tables.tubes[other.tube.at()].outer_mm;
            let alone = overruled(row, Figure::Electrode(row.id), outer_mm);
            assert_eq!(first(&alone, &tables).tube, Some(other.tube));
            assert_eq!(other.remedy, Remedy::UseTube(row.id, other.tube));
        }
        let chances = told.iter().map(|other| {
            let outer_mm = tables.tubes[other.tube.at()].outer_mm;
            [outer_mm, other.chance.inside, other.chance.over]
        });
        chances.collect::<Vec<_>>()
    };
    let are = |told: Vec<[f64; 3]>, expected: &[[f64; 3]]| {
        assert_eq!(told.len(), expected.len(), "{told:?}");
        for (found, expected) in told.iter().flatten().zip(expected.iter().flatten()) {
            close(*found, *expected, 5e-5);
        }
    };
    are(
        told(Limits::new(0.75, 0.85), 10.0),
        &[
            [0.7, 0.8157, 0.0563],
            [0.6, 0.0325, 0.0],
            [0.8, 0.0817, 0.9183],
        ],
    );
    // 0.6 mm would be right with 0.006.
    are(
        told(Limits::new(0.78, 0.80), 10.0),
        &[[0.7, 0.1893, 0.318_34]],
    );
    // Eleven tubes from 0.4 to 1.4 mm have a chance of more than a hundredth.
    assert_eq!(told(Limits::new(0.50, 1.45), 10.0).len(), 6);
    let (tables, mut input) = in_tenths(Limits::new(0.7, 0.9), 10.0);
    input.rows[0].limits_mm = None;
    let none = Context::new(&input, &tables).alternatives(&input.rows[0]);
    assert!(none.is_empty());
}

/// Tubes are held against their like: of copper the drawer has tenths, so 0.35 mm is to be bought for 0.37 to
/// 0.43 mm though it lies there in brass; in brass it is 0.999 at once. One row after the other, in either
/// order.
#[test]
fn what_the_drawer_has_in_another_material_is_to_be_bought() {
    let mut tables = tables();
    tables.tubes.retain(|tube| {
        let tenths = tube.outer_mm * 10.0;
        let tenth = (tenths - tenths.round()).abs() < 1e-9;
        tube.channels == 1 && (tube.material == Brass || tenth)
    });
    let of = |material, outer_mm| {
        let found = Idx::find(&tables.tubes, |tube| {
            tube.material == material && tube.outer_mm == outer_mm
        });
        let mut row = through(1.0, 5.0);
        row.limits_mm = Some(Limits::new(0.37, 0.43));
        row.tube = found;
        assert!(found.is_some());
        row
    };
    let rows = [of(Copper, 0.3), of(Brass, 0.3)];
    let input = job(rows.to_vec());
    for order in [[0, 1], [1, 0]] {
        let context = Context::new(&input, &tables);
        for at in order {
            let found = context.row_figures(&rows[at]);
            let (held, bought) = [(0.745_281, Some(0.35)), (0.999_212, None)][at];
            close(found.held.unwrap(), held, 2e-6);
            assert_eq!(found.bought.map(|tube| tube.outer_mm), bought);
        }
    }
}

/// Among tubes that are as good money decides: 1.0 to 1.5 mm is as sure with 1.0 as with 1.1 or 1.2 mm.
/// Without a machine nothing has a price, and the likeliest is taken.
#[test]
fn money_decides_among_tubes_as_good() {
    let (tables, mut input) = in_tenths(Limits::new(1.0, 1.5), 20.0);
    let taken = |tables: &Tables, input: &JobInput| {
        let found = first(input, tables);
        tables.tubes[found.tube.unwrap().at()].outer_mm
    };
    for cheap in [1.0, 1.1, 1.2] {
        let mut priced = tables.clone();
        for tube in &mut priced.tubes {
            tube.price = if tube.outer_mm == cheap { 1.0 } else { 500.0 };
        }
        assert_eq!(taken(&priced, &input), cheap);
    }
    input.machine = None;
    let likeliest = Context::new(&input, &tables).alternatives(&input.rows[0])[0].tube;
    assert_eq!(
        taken(&tables, &input),
        tables.tubes[likeliest.at()].outer_mm
    );
}
