//! What is missing of a job, and whether its part fits its machine. Expectations: sizes and masses
//! compared by hand.

use quillbore_calc::assemble::{Question, questions, quick};
use quillbore_calc::finding::{Kind, Remedy};
use quillbore_calc::input::{JobInput, Layer, RowInput};
use quillbore_calc::tables::{Machine, Tables};
use quillbore_calc::{Finding, Idx};

use crate::rows::{job, placed, row};
use crate::shop::{machine, tables};

fn findings(input: &JobInput, tables: &Tables) -> Vec<Finding> {
    quick(input, tables).findings
}

fn says(input: &JobInput, code: &str) -> bool {
    let findings = findings(input, &tables());
    findings.iter().any(|finding| finding.kind.code() == code)
}

/// Layers name their own materials: the job's is asked for where any row has none, or no row is there.
#[test]
fn the_material_is_asked_for_unless_layers_name_it() {
    let layered = RowInput {
        layers: vec![Layer {
            material: Idx::new(1),
            thickness_mm: 20.0,
        }],
        ..row(1, 2, 1.0, 20.0)
    };
    let asks = |material: Option<usize>, rows: Vec<RowInput>| {
        let input = JobInput {
            material: material.map(Idx::new),
            ..job(5, rows)
        };
        says(&input, "material-missing")
    };
    assert!(!asks(None, vec![layered.clone()]));
    assert!(asks(None, vec![layered.clone(), row(2, 2, 1.0, 20.0)]));
    assert!(asks(None, vec![row(2, 2, 1.0, 20.0)]));
    assert!(asks(None, vec![]));
    for rows in [vec![], vec![layered], vec![row(2, 2, 1.0, 20.0)]] {
        assert!(!asks(Some(0), rows.clone()));
        // One that the shop's tables don't hold is none.
        assert_eq!(asks(Some(99), rows.clone()), asks(None, rows));
    }
}

/// Whether a part fits can't be told without its size, nor without its mass.
#[test]
fn size_and_mass_are_both_asked_for() {
    let with = |part_mm, mass_kg| JobInput {
        part_mm,
        mass_kg,
        ..job(5, vec![row(1, 2, 1.0, 20.0)])
    };
    let size = Some([100.0, 80.0, 40.0]);
    for (part_mm, mass_kg, told) in [
        (size, Some(2.0), false),
        (size, None, true),
        (None, Some(2.0), true),
        (None, None, true),
    ] {
        assert_eq!(says(&with(part_mm, mass_kg), "part-size-unknown"), told);
    }
}

/// The bench head carries 100 kg: 100 it takes, a pound more it does not.
#[test]
fn a_machine_carries_what_it_is_rated_for() {
    let of = |mass_kg| JobInput {
        mass_kg: Some(mass_kg),
        ..job(5, vec![row(1, 2, 1.0, 20.0)])
    };
    assert!(!says(&of(99.5), "part-too-heavy"));
    assert!(!says(&of(100.0), "part-too-heavy"));
    assert!(says(&of(100.454), "part-too-heavy"));
}

/// Another machine is named only where it takes the part in size and in mass.
#[test]
fn the_machine_that_is_named_takes_the_part() {
    let sized = |part_mm, mass_kg| Machine {
        part_mm,
        mass_kg,
        ..machine()
    };
    let tables = Tables {
        machines: vec![
            machine(),
            sized([400.0, 300.0, 200.0], 300.0),
            sized([800.0, 600.0, 500.0], 100.0),
            sized([800.0, 600.0, 500.0], 500.0),
        ],
        ..tables()
    };
    let named = |part_mm, mass_kg| {
        let input = JobInput {
            part_mm,
            mass_kg,
            ..job(5, vec![row(1, 2, 1.0, 20.0)])
        };
        let findings = findings(&input, &tables);
        let unfit = findings.iter().filter_map(|finding| match finding.kind {
            Kind::PartTooLarge { .. } => Some(("large", finding.remedy)),
            Kind::PartTooHeavy { .. } => Some(("heavy", finding.remedy)),
            _ => None,
        });
        unfit.collect::<Vec<_>>()
    };
    let use_machine = |at| Some(Remedy::UseMachine(Idx::new(at)));
    let (small, large) = (Some([100.0, 80.0, 40.0]), Some([500.0, 80.0, 40.0]));
    assert_eq!(named(small, Some(2.0)), []);
    // Too heavy alone: the next one of that size carries it, also where the part's size is not known.
    assert_eq!(named(small, Some(300.0)), [("heavy", use_machine(1))]);
    assert_eq!(named(None, Some(300.0)), [("heavy", use_machine(1))]);
    // Too large alone: the third takes it, up to the 100 kg that it carries.
    assert_eq!(named(large, Some(100.0)), [("large", use_machine(2))]);
    assert_eq!(named(large, None), [("large", use_machine(2))]);
    // Too large for the second and too heavy for the third.
    let both = [("large", use_machine(3)), ("heavy", use_machine(3))];
    assert_eq!(named(large, Some(101.0)), both);
    // Nobody takes this one.
    assert_eq!(
        named(large, Some(501.0)),
        [("large", None), ("heavy", None)]
    );
}

/// Up to three holes are swept at once: of four on, their order is asked.
#[test]
fn the_order_of_few_holes_is_not_asked() {
    let orders = |holes: usize| {
        let mut places = placed(1, &vec![[0.0, 0.0, -1.0]; holes]);
        for (at, place) in (0_u8..).zip(&mut places.places) {
            place.point_mm = [f64::from(at) * 5.0, 0.0, 0.0];
        }
        let asked = questions(&job(5, vec![places]), &tables());
        let is_order = |asked: &&Question| matches!(asked, Question::Order(_));
        asked.iter().filter(is_order).count()
    };
    assert_eq!([1, 2, 3, 4, 5, 9].map(orders), [0, 0, 0, 1, 1, 1]);
}
