//! What is said of a size, with its figures: chances by the rules of `tests/golden/hole.py`, holes outside
//! by the lot of 120, circles from 1.5 mm on, and the tube named in place of a chosen one.

use quillbore_calc::finding::{Kind, Remedy};
use quillbore_calc::input::HoleEnd;
use quillbore_calc::tables::TubeMaterial::{self, Brass, Copper};
use quillbore_calc::{Figure, Idx, JobInput, Limits, Tables};

use super::shop::*;
use super::{close, first, overruled, tube};

/// What a row's findings say of its size, by code.
fn said(tables: &Tables, input: &JobInput, code: &str) -> Option<(Kind, Option<Remedy>)> {
    let findings = first(input, tables).findings;
    let mut of_code = findings
        .into_iter()
        .filter(|finding| finding.kind.code() == code);
    let said = of_code.next()?;
    assert!(of_code.next().is_none());
    Some((said.kind, said.remedy))
}

/// The shop with brass tubes of one channel of these diameters only.
fn shop_of(keep: impl Fn(f64) -> bool) -> Tables {
    let mut tables = tables();
    tables
        .tubes
        .retain(|tube| tube.material == Brass && tube.channels == 1 && keep(tube.outer_mm));
    tables
}

fn limits(limits_mm: Limits, depth_mm: f64) -> JobInput {
    let mut row = through(1.0, depth_mm);
    row.limits_mm = Some(limits_mm);
    job(vec![row])
}

fn in_tenths(outer_mm: f64) -> bool {
    (outer_mm * 10.0 - (outer_mm * 10.0).round()).abs() < 1e-9
}

#[test]
fn holes_outside_are_told_for_the_lot() {
    let tables = shop_of(in_tenths);
    let (tight, remedy) = said(
        &tables,
        &limits(Limits::new(0.95, 1.0), 20.0),
        "limits-tight",
    )
    .unwrap();
    let Kind::LimitsTight { held, outside, buy } = tight else {
        panic!("{tight:?}");
    };
    close(held, 0.900_269, 2e-6);
    close(outside, 120.0 * (1.0 - 0.900_269), 3e-4);
    assert_eq!((buy.unwrap().outer_mm, remedy), (0.85, None));
    let input = limits(Limits::new(0.37, 0.43), 5.0);
    let (not, _) = said(&tables, &input, "limits-not-to-be-promised").unwrap();
    let Kind::LimitsNotToBePromised {
        held,
        outside,
        lower_mm,
        upper_mm,
        buy,
    } = not
    else {
        panic!("{not:?}");
    };
    close(held, 0.745_281, 2e-6);
    close(outside, 120.0 * (1.0 - 0.745_281), 3e-4);
    assert_eq!([lower_mm, upper_mm], [0.37, 0.43]);
    assert_eq!(buy.unwrap().outer_mm, 0.35);
    // The same in the figures, with as many parts as are asked for, one where none is.
    let mut one = input.clone();
    one.quantity = None;
    close(
        first(&one, &tables).outside_in_lot.unwrap(),
        12.0 * (1.0 - 0.745_281),
        3e-5,
    );
}

/// With nothing but 1.3 mm in the drawer: held with 0.3818 below 1.48 mm and with 0.2713 below 1.5, and a
/// circle is told from 1.5 mm on; so where there is no tube at all.
#[test]
fn a_circle_from_one_and_a_half_millimeters() {
    let circle = |limits_mm, tables: &Tables| {
        let input = limits(limits_mm, 10.0);
        match said(tables, &input, "limits-not-held").or(said(tables, &input, "no-tube")) {
            Some((Kind::LimitsNotHeld { held, circle, .. }, _)) => (Some(held), circle),
            Some((Kind::NoTube { circle, .. }, _)) => (None, circle),
            other => panic!("{other:?}"),
        }
    };
    let drawer = shop_of(|outer_mm| outer_mm == 1.3);
    let (held, below) = circle(Limits::new(1.44, 1.48), &drawer);
    close(held.unwrap(), 0.3818, 5e-5);
    let (held, from) = circle(Limits::new(1.46, 1.50), &drawer);
    close(held.unwrap(), 0.2713, 5e-5);
    assert_eq!((below, from), (false, true));
    let none = shop_of(|outer_mm| outer_mm == 0.2);
    assert_eq!(circle(Limits::new(1.40, 1.499), &none), (None, false));
    assert_eq!(circle(Limits::new(1.40, 1.5), &none), (None, true));
}

/// 0.78 to 0.80 mm: a tube of 0.6 is right with 0.006, one of 0.7 with 0.1893 and over with 0.3183.
#[test]
fn a_chosen_tube_that_hardly_ever_fits_is_told_with_the_better_one() {
    let tables = shop_of(in_tenths);
    let mut input = limits(Limits::new(0.78, 0.80), 10.0);
    let id = input.rows[0].id;
    let mut with = |outer_mm, length_mm| {
        input.rows[0].tube = Some(tube(&tables, outer_mm, length_mm, 1));
        said(&tables, &input, "tube-misses")
    };
    for length_mm in [200.0, 400.0, 914.4] {
        let (told, remedy) = with(0.6, length_mm).unwrap();
        let Kind::TubeMisses { inside, over } = told else {
            panic!("{told:?}");
        };
        close(inside, 0.006, 5e-5);
        close(over, 0.0005, 5e-5);
        // The better one is as long.
        let better = tube(&tables, 0.7, length_mm, 1);
        assert_eq!(remedy, Some(Remedy::UseTube(id, better)));
    }
    assert!(with(0.7, 400.0).is_none());
    // Typed as a diameter it is told as well, and nothing left to choose.
    input.rows[0].tube = None;
    let row = &input.rows[0];
    let typed = overruled(row, Figure::Electrode(row.id), 0.6);
    let (_, remedy) = said(&tables, &typed, "tube-misses").unwrap();
    assert_eq!(remedy, None);
    // Left to the calculation, nobody chose it.
    assert!(said(&tables, &input, "tube-misses").is_none());
}

/// A length that the better diameter does not come in: the next longer one, or the longest.
#[test]
fn the_better_tube_is_at_least_as_long_where_it_can_be() {
    let mut tables = shop_of(in_tenths);
    let mut chosen = tables.tubes[tube(&tables, 0.6, 400.0, 1).at()].clone();
    let mut input = limits(Limits::new(0.78, 0.80), 10.0);
    for (length_mm, better_mm) in [(300.0, 400.0), (401.0, 914.4), (2000.0, 914.4)] {
        chosen.length_mm = length_mm;
        tables.tubes.push(chosen.clone());
        input.rows[0].tube = Idx::all(&tables.tubes).last();
        let (_, remedy) = said(&tables, &input, "tube-misses").unwrap();
        let better = tube(&tables, 0.7, better_mm, 1);
        assert_eq!(remedy, Some(Remedy::UseTube(input.rows[0].id, better)));
    }
}

/// Of the tubes of a typed diameter the one that the hole wants: several channels before the material.
#[test]
fn a_typed_diameter_takes_the_kind_that_the_hole_wants() {
    let tables = tables();
    let taken = |end, material| -> (TubeMaterial, u8) {
        let mut row = through(0.8, 20.0);
        row.end = end;
        let mut input = overruled(&row, Figure::Electrode(row.id), 0.65);
        input.material = Some(material);
        let tube = &tables.tubes[first(&input, &tables).tube.unwrap().at()];
        assert_eq!(tube.outer_mm, 0.65);
        (tube.material, tube.channels)
    };
    assert_eq!(taken(HoleEnd::Through, STEEL), (Brass, 1));
    assert_eq!(taken(HoleEnd::Blind, STEEL), (Brass, 4));
    assert_eq!(taken(HoleEnd::Through, CARBIDE), (Copper, 1));
    assert_eq!(taken(HoleEnd::Blind, CARBIDE), (Brass, 4));
}
