//! Every finding about a row: what brings it, its level, its remedy, and that the remedy mends it.

use quillbore_calc::finding::{About, Finding, Kind, Level, Remedy};
use quillbore_calc::hole::{material_findings, row_figures};
use quillbore_calc::input::{Ends, HoleEnd, JobInput, Surface};
use quillbore_calc::job_figures::Verdict;
use quillbore_calc::{RowInput, Tables};

use super::shop::*;
use super::{close, first, tube};

/// A job whose only row says nothing but that a core is left.
fn quiet() -> (Tables, JobInput) {
    (tables(), job(vec![through(0.8, 20.0)]))
}

fn find<'a>(findings: &'a [Finding], code: &str) -> Option<&'a Finding> {
    findings.iter().find(|finding| finding.kind.code() == code)
}

/// Puts a remedy into the job.
fn mend(input: &mut JobInput, tables: &Tables, remedy: Remedy) {
    let row = &mut input.rows[0];
    match remedy {
        Remedy::AddBacking(_) => row.backed = true,
        Remedy::DrillBothEnds(_) => row.ends = Some(Ends::Both),
        Remedy::DrillOneEnd(_) => row.ends = Some(Ends::One),
        Remedy::UseTube(_, tube) => {
            assert!(tube < tables.tubes.len());
            row.tube = Some(tube);
        }
        Remedy::UseMachine(machine) => input.machine = Some(machine),
        Remedy::DepthFromLayers(_) => {
            row.depth_mm = Some(row.layers.iter().map(|layer| layer.thickness_mm).sum());
        }
        Remedy::AskTestPiece | Remedy::NewMark(_) | Remedy::IndexAbout(_) => {}
    }
}

/// The finding that a change of job or tables brings, once and about the row.
fn said(code: &str, change: impl Fn(&mut Tables, &mut JobInput)) -> Finding {
    let (mut tables, mut input) = quiet();
    let before = first(&input, &tables);
    assert!(
        find(&before.findings, code).is_none(),
        "{code} is always said"
    );
    change(&mut tables, &mut input);
    let found = row_figures(&input, &input.rows[0], &tables);
    let codes: Vec<_> = found.findings.iter().map(|f| f.kind.code()).collect();
    let count = codes.iter().filter(|other| **other == code).count();
    assert_eq!(count, 1, "{code} in {codes:?}");
    let finding = find(&found.findings, code).unwrap().clone();
    assert_eq!(finding.about, About::Row(input.rows[0].id));
    if let Some(remedy) = finding.remedy
        && remedy != Remedy::AskTestPiece
    {
        mend(&mut input, &tables, remedy);
        let after = first(&input, &tables);
        assert!(
            find(&after.findings, code).is_none(),
            "{code} is still said after {remedy:?}"
        );
    }
    finding
}

/// The same where only the row changes.
fn of_row(code: &str, change: impl Fn(&mut RowInput)) -> Finding {
    said(code, |_, input| change(&mut input.rows[0]))
}

#[test]
fn a_quiet_row() {
    let (tables, input) = quiet();
    let found = first(&input, &tables);
    let codes: Vec<_> = found
        .findings
        .iter()
        .map(|f| (f.level, f.kind.code()))
        .collect();
    assert_eq!(
        codes,
        [(Level::Note, "core-left"), (Level::Note, "limits-tight")]
    );
}

#[test]
fn what_was_typed() {
    assert_eq!(
        of_row("size-missing", |row| row.limits_mm = None).level,
        Level::Stop
    );
    assert_eq!(
        of_row("depth-missing", |row| row.depth_mm = None).level,
        Level::Stop
    );
    let assumed = of_row("limits-assumed", |row| row.limits_assumed = true);
    let Kind::LimitsAssumed { lower_mm, upper_mm } = assumed.kind else {
        panic!("{assumed:?}");
    };
    close(lower_mm, 0.7, 1e-9);
    close(upper_mm, 0.9, 1e-9);
    let layers_off = of_row("layers-disagree", |row| {
        row.layers = layers(&[(STEEL, 19.9)]);
    });
    assert_eq!(layers_off.level, Level::Check);
    assert!(matches!(
        layers_off.remedy,
        Some(Remedy::DepthFromLayers(_))
    ));
    let closed = of_row("far-end-closed", |row| {
        row.end = HoleEnd::Into;
        row.ends = Some(Ends::Both);
    });
    assert!(matches!(closed.remedy, Some(Remedy::DrillOneEnd(_))));
}

#[test]
fn conductivity_layer_by_layer() {
    let with = |ohm_cm: Option<[f64; 2]>| {
        move |tables: &mut Tables, input: &mut JobInput| {
            tables.materials[CARBIDE].resistivity_ohm_cm = ohm_cm;
            // The same material twice is judged once.
            input.rows[0].layers = layers(&[(CARBIDE, 5.0), (STEEL, 10.0), (CARBIDE, 5.0)]);
        }
    };
    let check = |code, ohm_cm, level, remedy: Option<Remedy>| {
        let finding = said(code, with(ohm_cm));
        assert_eq!((finding.level, finding.remedy), (level, remedy), "{code}");
    };
    let test_piece = Some(Remedy::AskTestPiece);
    check("conductivity-check", Some([0.5, 5.0]), Level::Check, None);
    check(
        "conductivity-test-piece",
        Some([0.5, 50.0]),
        Level::Check,
        test_piece,
    );
    check("does-not-conduct", Some([0.5, 500.0]), Level::Stop, None);
    check("conductivity-unknown", None, Level::Check, test_piece);
    let family = said("family-values", |tables, input| {
        tables.materials[CARBIDE].from_family = true;
        input.rows[0].layers = layers(&[(CARBIDE, 5.0), (STEEL, 15.0)]);
    });
    assert_eq!(family.level, Level::Note);
}

/// The job's own material is judged once for the job; a reading wins over the table.
#[test]
fn conductivity_of_the_job() {
    let (mut tables, mut input) = quiet();
    assert!(material_findings(&input, &tables).is_empty());
    tables.materials[STEEL].resistivity_ohm_cm = Some([1.0, 1000.0]);
    tables.materials[STEEL].from_family = true;
    let codes = |input: &JobInput, tables: &Tables| -> Vec<&str> {
        let findings = material_findings(input, tables);
        assert!(findings.iter().all(|finding| finding.about == About::Job));
        findings.iter().map(|finding| finding.kind.code()).collect()
    };
    assert_eq!(
        codes(&input, &tables),
        ["does-not-conduct", "family-values"]
    );
    input.measured_resistivity_ohm_cm = Some(0.01);
    assert_eq!(codes(&input, &tables), ["family-values"]);
    input.measured_resistivity_ohm_cm = Some(20.0);
    assert_eq!(
        codes(&input, &tables),
        ["conductivity-test-piece", "family-values"]
    );
    // Rows that are all layered speak for themselves, and the job's reading is for its material.
    input.rows[0].layers = layers(&[(STEEL, 20.0)]);
    assert!(codes(&input, &tables).is_empty());
    let of_layer = first(&input, &tables);
    assert!(find(&of_layer.findings, "conductivity-test-piece").is_some());
    input.material = None;
    let by_table = first(&input, &tables);
    assert!(find(&by_table.findings, "does-not-conduct").is_some());
}

#[test]
fn tubes_and_guides() {
    let none = of_row("no-tube", |row| row.limits_mm = Some([0.05, 0.1]));
    assert_eq!(none.level, Level::Stop);
    let guide = said("no-guide", |tables, _| tables.guides.clear());
    assert_eq!(guide.level, Level::Stop);
    let unknown = said("feed-unknown", |tables, _| {
        tables.start.feed_by_diameter = vec![(1.0, 1.0), (2.0, 0.6)];
    });
    assert_eq!(
        (unknown.level, unknown.remedy),
        (Level::Check, Some(Remedy::AskTestPiece))
    );
}

/// A tube that only another machine drives: still computed, with a stop and the other machine.
#[test]
fn tube_outside_the_machine() {
    let outside = said("tube-outside-machine", |tables, input| {
        tables.machines[BENCH].tube_mm = [1.0, 3.0];
        assert!(input.rows[0].tube.is_none());
    });
    assert_eq!(
        (outside.level, outside.remedy),
        (Level::Stop, Some(Remedy::UseMachine(LONG)))
    );
    let Kind::TubeOutsideMachine {
        tube_mm, least_mm, ..
    } = outside.kind
    else {
        panic!("{outside:?}");
    };
    assert_eq!((tube_mm, least_mm), (0.75, 1.0));
    // Where the machine drives a tube that keeps the upper limit, that one is taken.
    let (mut tables, input) = quiet();
    tables.machines[BENCH].tube_mm = [0.3, 0.6];
    let found = first(&input, &tables);
    assert_eq!(tables.tubes[found.tube.unwrap()].outer_mm, 0.6);
}

#[test]
fn another_tube_material() {
    // The drawer has no copper, and carbide wants it.
    let other = said("other-tube-material", |tables, input| {
        tables
            .tubes
            .retain(|tube| tube.material == quillbore_calc::tables::TubeMaterial::Brass);
        input.material = Some(CARBIDE);
    });
    assert_eq!((other.level, other.remedy), (Level::Check, None));
    // It has, but the estimator took brass.
    let chosen = said("other-tube-material", |tables, input| {
        input.rows[0].tube = Some(tube(tables, 0.7, 400.0, 1));
        input.material = Some(CARBIDE);
    });
    assert!(matches!(chosen.remedy, Some(Remedy::UseTube(..))));
    // Left to itself the calculation takes copper.
    let (tables, mut input) = quiet();
    input.material = Some(CARBIDE);
    let found = first(&input, &tables);
    let taken = tables.tubes[found.tube.unwrap()].material;
    assert_eq!(taken, quillbore_calc::tables::TubeMaterial::Copper);
}

#[test]
fn cores() {
    let (tables, mut input) = quiet();
    let level = |input: &JobInput, code| {
        let found = first(input, &tables);
        find(&found.findings, code).map(|finding| finding.level)
    };
    assert_eq!(level(&input, "core-left"), Some(Level::Note));
    // A blind hole gets several channels, and no core is left.
    input.rows[0].end = HoleEnd::Blind;
    assert_eq!(level(&input, "core-left"), None);
    let found = first(&input, &tables);
    assert_eq!(tables.tubes[found.tube.unwrap()].channels, 4);
    // Too thin for several channels: the spike at the bottom is worth a check.
    input.rows[0].limits_mm = Some([0.4, 0.6]);
    assert_eq!(level(&input, "core-left"), Some(Level::Check));
    let trapped = of_row("core-trapped", |row| {
        row.core_trapped = true;
        row.tube = Some(tube(&tables, 0.75, 400.0, 1));
    });
    assert_eq!(trapped.level, Level::Check);
    assert!(matches!(trapped.remedy, Some(Remedy::UseTube(..))));
}

#[test]
fn verdicts() {
    let (tables, mut input) = quiet();
    input.rows[0].limits_mm = Some([0.6, 1.0]);
    let found = first(&input, &tables);
    assert_eq!(found.verdict, Some(Verdict::Comfortable));
    assert!(find(&found.findings, "limits-tight").is_none());
    let tight = of_row("limits-not-to-be-promised", |row| {
        row.limits_mm = Some([0.78, 0.82]);
    });
    assert_eq!((tight.level, tight.remedy), (Level::Check, None));
    // The estimator's tube is judged, and the better one named.
    let thick = of_row("limits-not-to-be-promised", |row| {
        row.tube = Some(tube(&tables, 0.8, 200.0, 1));
    });
    let Kind::LimitsNotToBePromised {
        largest_mm,
        upper_mm,
        ..
    } = thick.kind
    else {
        panic!("{thick:?}");
    };
    assert!(largest_mm > upper_mm);
    assert!(matches!(thick.remedy, Some(Remedy::UseTube(..))));
}

#[test]
fn round_surfaces() {
    let ball = |offset_mm| Surface::Ball {
        radius_mm: 5.0,
        offset_mm,
    };
    let overhang = of_row("overhang", |row| {
        row.surface = ball(4.9);
        row.depth_mm = Some(1.9);
    });
    let Kind::Overhang { by_mm } = overhang.kind else {
        panic!("{overhang:?}");
    };
    close(by_mm, 4.9 + 0.375 - 5.0, 1e-9);
    assert_eq!(overhang.level, Level::Check);
    assert_eq!(
        of_row("axis-misses", |row| row.surface = ball(5.2)).level,
        Level::Stop
    );
    assert_eq!(
        of_row("tool-misses", |row| row.surface = ball(-6.0)).level,
        Level::Stop
    );
    assert_eq!(
        of_row("tilt-out-of-range", |row| row.tilt_deg = 90.0).level,
        Level::Stop
    );
}

#[test]
fn steep_and_thin() {
    let steep = of_row("no-full-metal", |row| {
        row.tilt_deg = 75.0;
        row.depth_mm = Some(2.0);
    });
    let Kind::NoFullMetal { zones_mm, depth_mm } = steep.kind else {
        panic!("{steep:?}");
    };
    close(
        zones_mm,
        2.0 * 0.75 * libm::tan(f64::to_radians(75.0)),
        1e-9,
    );
    assert_eq!((depth_mm, steep.level), (2.0, Level::Note));
}

#[test]
fn room_behind() {
    let backing = of_row("backing-needed", |row| row.behind_mm = Some(1.0));
    let Kind::BackingNeeded {
        behind_mm,
        needed_mm,
    } = backing.kind
    else {
        panic!("{backing:?}");
    };
    assert_eq!((behind_mm, backing.level), (1.0, Level::Check));
    assert!(matches!(backing.remedy, Some(Remedy::AddBacking(_))));
    // Overtravel 1.875 and what 16.4 mm of wear may fall short of at its P10.
    let (tables, input) = quiet();
    let found = first(&input, &tables);
    let (wear, high) = (found.wear_mm.unwrap(), found.wear_high_mm.unwrap());
    close(needed_mm, 1.875 + wear * (1.0 - wear / high), 1e-9);
    // A blind hole has nothing behind it.
    let mut blind = input;
    blind.rows[0].behind_mm = Some(1.0);
    blind.rows[0].end = HoleEnd::Blind;
    assert!(find(&first(&blind, &tables).findings, "backing-needed").is_none());
}

#[test]
fn reach() {
    let deep = |depth_mm, ends| {
        move |row: &mut RowInput| {
            row.limits_mm = Some([1.0, 1.2]);
            row.depth_mm = Some(depth_mm);
            row.ends = ends;
        }
    };
    // 350 mm to use on the bench head.
    let out = of_row("out-of-reach", deep(400.0, Some(Ends::One)));
    assert!(matches!(out.remedy, Some(Remedy::DrillBothEnds(_))));
    let Kind::OutOfReach { depth_mm, limit_mm } = out.kind else {
        panic!("{out:?}");
    };
    close(depth_mm, 402.5, 1e-9);
    assert_eq!((limit_mm, out.level), (350.0, Level::Stop));
    let hopeless = of_row("out-of-reach", deep(900.0, None));
    assert_eq!(hopeless.remedy, None);
    let both = of_row("out-of-reach", deep(900.0, Some(Ends::Both)));
    let Kind::OutOfReach { limit_mm, .. } = both.kind else {
        panic!("{both:?}");
    };
    close(limit_mm, 2.0 * 350.0 - 1.0, 1e-9);

    let chained = of_row("chained-electrodes", deep(250.0, Some(Ends::One)));
    assert_eq!((chained.level, chained.remedy), (Level::Note, None));
    let short = of_row("chained-electrodes", |row| {
        deep(90.0, Some(Ends::One))(row);
        row.tube = Some(tube(&tables(), 1.0, 200.0, 1));
    });
    assert!(matches!(short.remedy, Some(Remedy::UseTube(..))));
}

#[test]
fn both_ends() {
    let deep = |row: &mut RowInput| {
        row.limits_mm = Some([1.0, 1.2]);
        row.depth_mm = Some(300.0);
    };
    let faster = of_row("both-ends-faster", deep);
    let Kind::BothEndsFaster { one_min, both_min } = faster.kind else {
        panic!("{faster:?}");
    };
    assert!(matches!(faster.remedy, Some(Remedy::DrillBothEnds(_))));
    let (tables, mut input) = quiet();
    deep(&mut input.rows[0]);
    close(one_min, first(&input, &tables).minutes.unwrap().p50, 1e-9);
    // The row's twelve holes share one turn-over of sqrt(15 x 30) minutes.
    input.rows[0].ends = Some(Ends::Both);
    let both = first(&input, &tables);
    let turn = f64::sqrt(15.0 * 30.0) / 12.0;
    close(both_min, both.minutes.unwrap().p50 + turn, 1e-9);
    assert!(both_min < one_min);
    // Who asked for one end is not asked again.
    input.rows[0].ends = Some(Ends::One);
    assert!(find(&first(&input, &tables).findings, "both-ends-faster").is_none());
    // A shallow hole is not worth turning over.
    input.rows[0].ends = None;
    input.rows[0].depth_mm = Some(30.0);
    assert!(find(&first(&input, &tables).findings, "both-ends-faster").is_none());

    let miss = of_row("ends-may-miss", |row| {
        deep(row);
        row.ends = Some(Ends::Both);
    });
    let Kind::EndsMayMiss { by_mm } = miss.kind else {
        panic!("{miss:?}");
    };
    close(by_mm, f64::sqrt(2.0) * 0.2 * 150.5 / 100.0, 1e-9);
    assert!(matches!(miss.remedy, Some(Remedy::DrillOneEnd(_))));
}

/// Depth over diameter, from 0.5 mm on and below (common practice, no source).
#[test]
fn deep_holes() {
    let (tables, mut input) = quiet();
    input.machine = Some(LONG);
    let mut code = |outer, ratio: f64| {
        let row = &mut input.rows[0];
        row.tube = Some(tube(&tables, outer, 914.4, 1));
        row.limits_mm = Some([outer, outer + 0.3]);
        row.depth_mm = Some(outer * ratio);
        row.ends = Some(Ends::One);
        let found = first(&input, &tables);
        let codes = found.findings.iter().map(|finding| finding.kind.code());
        codes
            .filter(|code| code.starts_with("deep-"))
            .collect::<Vec<_>>()
    };
    for (outer, [note, check, test_piece]) in
        [(0.5, [50.0, 100.0, 150.0]), (0.4, [30.0, 60.0, 100.0])]
    {
        assert!(code(outer, note - 0.1).is_empty());
        assert_eq!(code(outer, note + 0.1), ["deep-note"]);
        assert_eq!(code(outer, check - 0.1), ["deep-note"]);
        assert_eq!(code(outer, check + 0.1), ["deep-check"]);
        assert_eq!(code(outer, test_piece - 0.1), ["deep-check"]);
        assert_eq!(code(outer, test_piece + 0.1), ["deep-test-piece"]);
    }
}

#[test]
fn blind_depth_is_as_sure_as_the_wear() {
    let blind = of_row("blind-depth", |row| row.end = HoleEnd::Blind);
    let Kind::BlindDepth { by_mm } = blind.kind else {
        panic!("{blind:?}");
    };
    let (tables, mut input) = quiet();
    input.rows[0].end = HoleEnd::Blind;
    let found = first(&input, &tables);
    close(
        by_mm,
        found.wear_high_mm.unwrap() - found.wear_mm.unwrap(),
        1e-9,
    );
}
