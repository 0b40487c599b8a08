//! Among several ways, tubes and lengths: what is taken, and what is offered in its place.

use quillbore_calc::finding::{Finding, Kind, Remedy};
use quillbore_calc::input::{Ends, HoleEnd, JobInput, Overrule};
use quillbore_calc::tables::TubeMaterial::{Brass, Copper};
use quillbore_calc::tables::{Material, Tube};
use quillbore_calc::{Figure, Idx, Limits, RowInput, Tables};

use super::shop::*;
use super::{close, figures, first, overruled, tube};

fn said(tables: &Tables, input: &JobInput, code: &str) -> Option<Finding> {
    let findings = first(input, tables).findings;
    findings.into_iter().find(|said| said.kind.code() == code)
}

/// Of two tubes that are alike and cost the same the one that stands first in the tables is taken.
#[test]
fn of_equals_the_first_in_the_tables_is_taken() {
    let mut tables = tables();
    tables.tubes.retain(|tube| tube.length_mm == 400.0);
    let input = job(vec![through(0.8, 20.0)]);
    let alone = first(&input, &tables).tube.unwrap();
    let twin = tables.tubes[alone.at()].clone();
    tables.tubes.push(twin);
    assert_eq!(first(&input, &tables).tube, Some(alone));
}

/// Without a machine the way is as asked for; nothing but a through hole has a far end.
#[test]
fn ends_without_a_machine() {
    let tables = tables();
    let ends = |end, ends| {
        let mut input = job(vec![RowInput {
            end,
            ends,
            ..through(1.1, 60.0)
        }]);
        input.machine = None;
        first(&input, &tables).ends
    };
    assert_eq!(ends(HoleEnd::Through, None), Some(Ends::One));
    assert_eq!(ends(HoleEnd::Through, Some(Ends::One)), Some(Ends::One));
    assert_eq!(ends(HoleEnd::Through, Some(Ends::Both)), Some(Ends::Both));
    assert_eq!(ends(HoleEnd::Into, Some(Ends::Both)), Some(Ends::One));
    assert_eq!(ends(HoleEnd::Blind, Some(Ends::Both)), Some(Ends::One));
}

/// The longer tube offered for a hole of several electrodes is of the same diameter, material and channels,
/// and long enough: 90 mm from 100 mm usable take several, from 300 mm one.
#[test]
fn the_longer_tube_offered_is_of_the_same_kind() {
    let (mut tables, mut input) = (tables(), job(vec![through(1.1, 90.0)]));
    let short = tube(&tables, 1.0, 200.0, 1);
    input.rows[0].tube = Some(short);
    input.rows[0].ends = Some(Ends::One);
    let offered = |tables: &Tables, input: &JobInput| {
        let told = said(tables, input, "chained-electrodes").unwrap();
        told.remedy.map(|remedy| match remedy {
            Remedy::UseTube(row, tube) => {
                assert_eq!(row, input.rows[0].id);
                tube
            }
            other => panic!("{other:?}"),
        })
    };
    let same = |tables: &Tables, index: Idx<Tube>| {
        let tube = &tables.tubes[index.at()];
        (tube.outer_mm, tube.material, tube.channels, tube.length_mm)
    };
    let index = offered(&tables, &input).unwrap();
    assert_eq!(same(&tables, index), (1.0, Brass, 1, 400.0));
    // Of 160 mm too little is usable, of 300 mm enough: 90 + 2.5 mm and 75.0 of wear are asked for.
    tables.tubes[index.at()].length_mm = 260.0;
    let index = offered(&tables, &input).unwrap();
    assert_eq!(same(&tables, index), (1.0, Brass, 1, 914.4));
    // Nothing else is of the same kind.
    tables.tubes[index.at()].outer_mm = 3.0;
    assert_eq!(offered(&tables, &input), None);
    // A tube of several channels is offered its like, a copper one another of copper.
    let found = |tables: &Tables, material, channels| {
        Idx::find(&tables.tubes, |tube| {
            tube.outer_mm == 1.0 && tube.material == material && tube.channels == channels
        })
    };
    for (material, channels) in [(Brass, 4), (Copper, 1)] {
        let mut tables = tables.clone();
        let long = found(&tables, material, channels).unwrap();
        let mut shorter = tables.tubes[long.at()].clone();
        shorter.length_mm = 200.0;
        tables.tubes.push(shorter);
        input.rows[0].tube = Idx::all(&tables.tubes).last();
        assert_eq!(offered(&tables, &input), Some(long));
    }
}

/// Limits closer than any effort holds are computed at the least that is known, half of the feed.
#[test]
fn limits_closer_than_any_effort_take_the_most_effort() {
    let feed = |half: f64| {
        let found = figures(&RowInput {
            tube: Some(tube(&tables(), 0.7, 400.0, 1)),
            limits_mm: Some(Limits::new(0.8 - half, 0.8 + half)),
            ..through(0.8, 10.0)
        });
        found.feed_mm_min.unwrap()
    };
    close(feed(0.004) / feed(0.1), 0.5, 1e-12);
}

/// Layers want the tube of the slowest of them, a row of one material that of the job's.
#[test]
fn the_slowest_layer_says_which_tube() {
    let tables = tables();
    let taken = |of: &[(Idx<Material>, f64)], material| {
        let mut row = through(0.8, 20.0);
        row.layers = layers(of);
        let mut input = job(vec![row]);
        input.material = Some(material);
        tables.tubes[first(&input, &tables).tube.unwrap().at()].material
    };
    assert_eq!(taken(&[(STEEL, 15.0), (CARBIDE, 5.0)], STEEL), Copper);
    assert_eq!(taken(&[(CARBIDE, 5.0), (STEEL, 15.0)], STEEL), Copper);
    assert_eq!(taken(&[(STEEL, 20.0)], CARBIDE), Brass);
    assert_eq!(taken(&[], CARBIDE), Copper);
    assert_eq!(taken(&[], STEEL), Brass);
}

/// Electrodes told are those of all ends: 250 mm on 350 usable take several from one end, 600 from each of
/// both.
#[test]
fn electrodes_told_are_those_of_all_ends() {
    let tables = tables();
    for (depth_mm, ends) in [(250.0, Ends::One), (600.0, Ends::Both)] {
        let mut row = through(1.1, depth_mm);
        row.tube = Some(tube(&tables, 1.0, 914.4, 1));
        row.ends = Some(ends);
        let mut input = job(vec![row.clone()]);
        // Wear of 0.8 of the depth is typed, and so is the feed, as deep as that nobody knows it.
        for (figure, value) in [
            (Figure::Feed(row.id), 10.0),
            (Figure::Wear(row.id), 0.8 * depth_mm),
        ] {
            input.overrules.push(Overrule { figure, value });
        }
        let found = first(&input, &tables);
        let told = said(&tables, &input, "chained-electrodes").unwrap();
        let Kind::ChainedElectrodes { electrodes } = told.kind else {
            panic!("{told:?}");
        };
        assert_eq!(found.electrodes_per_hole, Some(electrodes));
        assert!(electrodes >= if ends == Ends::One { 2 } else { 4 });
    }
}

/// Layers and depth agree to 0.05 mm.
#[test]
fn layers_agree_with_the_depth_to_a_twentieth() {
    let tables = tables();
    let disagree = |thickness_mm| {
        let mut row = through(0.8, 20.0);
        row.layers = layers(&[(STEEL, thickness_mm)]);
        said(&tables, &job(vec![row]), "layers-disagree").is_some()
    };
    assert!(!disagree(20.049) && !disagree(19.951));
    assert!(disagree(20.051) && disagree(19.949));
    assert!(disagree(f64::NAN));
}

/// Layers of one material are that material: a tube of 0.5 mm (feed 0.8, wear 1.3 of one of 1 mm) and limits
/// 0.05 mm apart (feed 0.8 again).
#[test]
fn layers_of_one_material_are_that_material() {
    let mut row = through(0.6, 40.0);
    row.limits_mm = Some(Limits::new(0.575, 0.625));
    row.tube = Some(tube(&tables(), 0.5, 400.0, 1));
    row.ends = Some(Ends::One);
    let plain = figures(&row);
    close(plain.feed_mm_min.unwrap(), 0.64 * 525.0_f64.sqrt(), 1e-9);
    let rise = (1.5_f64.sqrt() - 1.0) * 0.8;
    close(
        plain.wear_mm.unwrap(),
        1.3 * 0.48_f64.sqrt() * 40.0 * (1.0 + rise),
        1e-9,
    );
    for of in [&[(STEEL, 40.0)][..], &[(STEEL, 10.0), (STEEL, 30.0)]] {
        row.layers = layers(of);
        let layered = figures(&row);
        assert_eq!(layered.feed_mm_min, plain.feed_mm_min);
        close(layered.wear_mm.unwrap(), plain.wear_mm.unwrap(), 1e-9);
        let [layered, plain] = [&layered, &plain].map(|figures| figures.minutes.unwrap());
        close(layered.p50, plain.p50, 1e-9);
        close(layered.p90, plain.p90, 1e-9);
    }
}

/// Each material of the layers has its say once, wherever it lies.
#[test]
fn each_material_of_the_layers_is_judged_once() {
    let mut tables = tables();
    tables.materials[CARBIDE.at()].resistivity_ohm_cm = Some(Limits::new(0.5, 5.0));
    tables.materials[STEEL.at()].from_family = true;
    let codes = |of: &[(Idx<Material>, f64)]| {
        let mut row = through(0.8, 20.0);
        row.layers = layers(of);
        let found = first(&job(vec![row]), &tables);
        let codes = found.findings.iter().map(|said| said.kind.code());
        let of_materials = ["conductivity-check", "family-values"];
        codes
            .filter(|code| of_materials.contains(code))
            .collect::<Vec<_>>()
    };
    let both = ["family-values", "conductivity-check"];
    assert_eq!(codes(&[(STEEL, 5.0), (CARBIDE, 15.0)]), both);
    assert_eq!(
        codes(&[(STEEL, 5.0), (CARBIDE, 5.0), (STEEL, 5.0), (CARBIDE, 5.0)]),
        both
    );
    assert_eq!(codes(&[(CARBIDE, 10.0), (CARBIDE, 10.0)]), [both[1]]);
}

/// A hole of exactly 50, 100 or 150 diameters is not deeper than that.
#[test]
fn as_deep_as_the_bound_is_not_deeper() {
    let tables = tables();
    let code = |depth_mm| {
        let mut row = through(0.65, depth_mm);
        row.tube = Some(tube(&tables, 0.5, 914.4, 1));
        row.ends = Some(Ends::One);
        let mut input = job(vec![row]);
        input.machine = Some(LONG);
        let findings = first(&input, &tables).findings;
        let mut codes = findings.iter().map(|said| said.kind.code());
        codes.find(|code| code.starts_with("deep-"))
    };
    assert_eq!(code(25.0), None);
    assert_eq!(code(50.0), Some("deep-note"));
    assert_eq!(code(75.0), Some("deep-check"));
    assert_eq!(code(75.1), Some("deep-test-piece"));
}

/// A tube just past the end of the tables is none, so one is chosen.
#[test]
fn a_tube_past_the_end_is_none() {
    let tables = tables();
    let mut row = through(0.8, 20.0);
    row.tube = Some(Idx::new(tables.tubes.len()));
    let found = first(&job(vec![row]), &tables);
    assert_eq!(tables.tubes[found.tube.unwrap().at()].outer_mm, 0.7);
    let last = Idx::all(&tables.tubes).last().unwrap();
    let mut row = through(2.1, 20.0);
    row.tube = Some(last);
    assert_eq!(first(&job(vec![row]), &tables).tube, Some(last));
}

/// A maximum alone is no close tolerance, however small: 0.09 mm leaves the feed of a tube of 0.2 mm, 0.4 of
/// that of 1 mm, as it is.
#[test]
fn a_small_maximum_alone_asks_for_no_effort() {
    let mut row = through(0.3, 5.0);
    row.tube = Some(tube(&tables(), 0.2, 400.0, 1));
    row.limits_mm = Some(Limits::new(0.0, 0.09));
    let found = figures(&row);
    close(found.feed_mm_min.unwrap(), 0.4 * 525.0_f64.sqrt(), 1e-9);
}

/// Where no feed is known, and so no cost, the length with the fewest changes is taken, the shortest of those:
/// 70 mm lose about 48 with a tube of 1 mm, so 100 mm usable take two electrodes and 300 one.
#[test]
fn without_a_cost_the_fewest_changes_decide() {
    let mut tables = tables();
    tables.start.feed_by_diameter = vec![(3.0, 0.35), (6.0, 0.12)];
    let mut row = through(1.1, 70.0);
    row.ends = Some(Ends::One);
    let input = overruled(&row, Figure::Electrode(row.id), 1.0);
    let found = first(&input, &tables);
    assert_eq!((found.minutes, found.electrodes_per_hole), (None, Some(1)));
    assert_eq!(tables.tubes[found.tube.unwrap().at()].length_mm, 400.0);
}

/// Where no length reaches, the one that gets furthest is shown, and told with its limit.
#[test]
fn out_of_reach_the_longest_gets_furthest() {
    let tables = tables();
    let mut row = through(1.1, 900.0);
    row.ends = Some(Ends::One);
    let found = first(&overruled(&row, Figure::Electrode(row.id), 1.0), &tables);
    assert_eq!(tables.tubes[found.tube.unwrap().at()].length_mm, 914.4);
    close(found.limit_mm.unwrap(), 350.0, 1e-9);
    assert_eq!((found.minutes, found.electrodes_per_hole), (None, None));
}

/// A hole that doesn't go through has no far end: none is offered, however dear or deep it is.
#[test]
fn no_far_end_is_offered_where_there_is_none() {
    let tables = tables();
    for depth_mm in [200.0, 400.0] {
        let mut row = through(1.1, depth_mm);
        row.end = HoleEnd::Into;
        row.tube = Some(tube(&tables, 1.0, 914.4, 1));
        let found = first(&job(vec![row]), &tables);
        assert_eq!(found.ends, Some(Ends::One));
        for said in &found.findings {
            assert!(
                !matches!(said.kind, Kind::OtherEndsCheaper { .. }),
                "{said:?}"
            );
            assert!(
                !matches!(said.remedy, Some(Remedy::DrillBothEnds(_))),
                "{said:?}"
            );
        }
    }
}
