//! What is planned beside the run records: the stretches of the electrode plan, each as it was taken.
#![expect(clippy::expect_used, reason = "a helper of tests fails by panic")]

mod hands;

use hands::{cells, day, done, field, pin};
use quillbore_job::file::read_job;
use quillbore_job::life::{RunPlan, stretches};
use quillbore_job::results::{Results, results_now};
use quillbore_job::run_lines::runs_of_plan;
use quillbore_job::slip::{kind, line};
use quillbore_job::taught::taught;
use quillbore_job::{Edit, Field, Form, Job, Line, Shop, SlipKind};

fn shop() -> &'static Shop {
    Shop::embedded().expect("the shop")
}

/// Two marks in a nickel alloy, 25 parts: A takes several electrodes, B is drilled by another tube.
fn job() -> Job {
    let job = cells(
        &Job::default(),
        0,
        &["A", "12", "0.80 +-0.05", "14", "through"],
    );
    let job = cells(&job, 1, &["B", "2", "1.20 +-0.05", "9", "through"]);
    let job = field(&job, Field::Material, "718");
    let job = field(&job, Field::Machine, "Wren");
    field(&job, Field::Quantity, "25")
}

fn planned(job: &Job) -> (Results, RunPlan) {
    let results = results_now(job, shop());
    let plan = RunPlan::of(job, &stretches(job, &results.figures, &shop().tables));
    (results, plan)
}

fn run(job: &Job, lines: &[(Line, &str)]) -> Job {
    pin(job, SlipKind::Run, lines)
}

/// All holes of the lot stand in the plan once, each electrode begins as long as its tube and goes on
/// where it stopped, and what is left at its end is what the electrode plan says.
#[test]
fn the_plan_holds_every_hole_of_the_lot_once() {
    let job = job();
    let (results, plan) = planned(&job);
    assert!(plan.beside.is_empty());
    for (row, holes) in job.rows.iter().zip([12.0, 2.0]) {
        let of_row = plan.left.iter().filter(|stretch| stretch.row == row.id);
        assert_eq!(
            of_row.map(|stretch| stretch.holes).sum::<f64>(),
            holes * 25.0
        );
    }
    let lot = results.figures.lot.as_ref().expect("a lot");
    for electrodes in &lot.electrodes {
        let of_tube: Vec<_> = plan
            .left
            .iter()
            .filter(|stretch| stretch.tube == electrodes.tube)
            .collect();
        assert_eq!(of_tube.last().expect("one").last, electrodes.needed);
        let loads = electrodes.plan.iter();
        let lefts = loads.flat_map(|load| (0..load.times).map(|_| load.left_mm));
        for (number, left) in (1..).zip(lefts) {
            let hole = results.figures.holes.iter();
            let mut hole = hole.filter(|hole| hole.tube == Some(electrodes.tube));
            let new = hole.next().expect("a hole").mounted_mm.expect("a length");
            let mut length = new;
            for stretch in of_tube.iter().filter(|stretch| stretch.first == number) {
                let [before, after] = stretch.length_mm.expect("lengths");
                assert!((before - length).abs() < 1e-9, "{before} after {length}");
                length = after;
            }
            let hole = results.figures.holes.iter();
            let mut hole = hole.filter(|hole| hole.tube == Some(electrodes.tube));
            let usable = hole.next().expect("a hole").usable_mm.expect("a length");
            assert!((new - length - (usable - left)).abs() < 1e-9);
        }
    }
    let first = &plan.left[0];
    let hole = &results.figures.holes[job.row_index(first.row).expect("a row")];
    let minutes = hole.minutes_in.expect("minutes").sparking() * first.holes;
    assert!((first.sparking_min.expect("minutes") - minutes).abs() < 1e-9);
    // By the clock all stretches together are the machine's minutes but for setting up, the first piece,
    // guides, turning over and broken electrodes.
    let by_clock: f64 = plan
        .left
        .iter()
        .filter_map(|stretch| stretch.clock_min)
        .sum();
    let machine = &lot.machine;
    let between = machine.load + machine.index + machine.travel;
    let between = between + machine.electrode_changes + machine.dressing;
    assert!(
        (by_clock - machine.holes - between).abs() < 1e-6 * by_clock,
        "{by_clock}"
    );
}

/// A record that says no holes takes one stretch of its mark, the next record the next one; one that says
/// many takes as many stretches as come nearest to them; a mark that no row has takes none.
#[test]
fn records_take_the_stretches_of_their_mark_in_order() {
    let job = job();
    let (_, plan) = planned(&job);
    let of_mark = |row: usize| -> Vec<_> {
        let id = job.rows[row].id;
        plan.left
            .iter()
            .filter(|of| of.row == id)
            .copied()
            .collect()
    };
    let (a, b) = (of_mark(0), of_mark(1));
    assert!(a.len() >= 3, "A takes several electrodes: {}", a.len());
    // Nearer to two electrodes than to one or to three.
    let two = a[1].holes + a[2].holes - 1.0;
    let job = run(&job, &[(Line::Mark, "a")]);
    let job = run(&job, &[(Line::Mark, "Z")]);
    let job = run(&job, &[(Line::Mark, "B"), (Line::Holes, "1")]);
    let job = run(&job, &[(Line::Mark, "A"), (Line::Holes, &two.to_string())]);
    let job = run(&job, &[]);
    let (_, plan) = planned(&job);
    let [first, unknown, of_b, both, none] = plan.beside.as_slice() else {
        panic!("five records: {:?}", plan.beside);
    };
    assert_eq!(*first, Some(a[0]));
    assert_eq!((*unknown, *none), (None, None));
    assert_eq!(*of_b, Some(b[0]));
    let both = both.expect("two stretches");
    assert_eq!((both.first, both.last), (a[1].first, a[2].last));
    assert_eq!(both.holes, a[1].holes + a[2].holes);
    assert_eq!(both.length_mm, None, "two electrodes have no one length");
    assert_eq!(plan.left.len(), a.len() - 3 + b.len() - 1);
}

/// The lines that are added say what is planned and nothing that somebody would have to measure; then
/// nothing is left.
#[test]
fn a_line_for_each_electrode_says_what_is_known() {
    let job = run(&job(), &[(Line::Mark, "A")]);
    let (_, plan) = planned(&job);
    let tubes = &shop().tables.tubes;
    let edit = runs_of_plan(&job, &plan, day(3, 9), Form::PLAIN, "Ada", tubes).expect("lines");
    let filled = done(&job, &edit);
    let runs: Vec<_> = filled.slips_of::<kind::Run>().skip(1).collect();
    assert_eq!(runs.len(), plan.left.len());
    for (run, stretch) in runs.iter().zip(&plan.left) {
        assert_eq!(run.get(line::Date), Some(day(3, 9)));
        assert_eq!(run.get(line::By), "Ada");
        assert_eq!(run.get(line::ElectrodeNumber), stretch.first.to_string());
        assert_eq!(run.get(line::Holes).map(f64::from), Some(stretch.holes));
        for measured in [
            Line::TubeBefore,
            Line::TubeAfter,
            Line::SparkMinutes,
            Line::Good,
        ] {
            assert_eq!(run.slip().line(measured).text(), "");
        }
    }
    let (_, plan) = planned(&filled);
    assert!(plan.left.is_empty());
    assert_eq!(
        runs_of_plan(&filled, &plan, day(3, 9), Form::PLAIN, "Ada", tubes),
        None
    );
}

/// Nothing planned, a row without figures, one row whose records name no mark.
#[test]
fn odd_jobs_have_what_plan_there_is() {
    let (_, plan) = planned(&run(&Job::default(), &[(Line::Mark, "A")]));
    assert_eq!(
        (plan.beside.as_slice(), plan.left.len()),
        ([None].as_slice(), 0)
    );
    let one = cells(
        &Job::default(),
        0,
        &["", "1", "0.80 +-0.05", "5", "through"],
    );
    let one = field(&one, Field::Material, "718");
    let one = field(&one, Field::Machine, "Wren");
    let one = field(&one, Field::Quantity, "1");
    let (_, plan) = planned(&run(&one, &[(Line::Holes, "1")]));
    assert_eq!(plan.beside.len(), 1);
    assert!(plan.beside[0].is_some_and(|stretch| stretch.holes == 1.0));
    let unread = done(
        &one,
        &Edit::SetField {
            field: Field::Quantity,
            text: "many".to_owned(),
            unit: quillbore_job::Unit::Mm,
        },
    );
    assert_eq!(planned(&unread).1, RunPlan::default());
}

/// In every job of the demo shelf the plan's holes are those of the lot; a hole drilled from both ends, or
/// by several electrodes, is one.
#[test]
fn demo_jobs_are_planned_hole_by_hole() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../demo-jobs");
    let mut planned_rows = 0;
    for entry in std::fs::read_dir(folder).expect("the demo jobs") {
        let bytes = std::fs::read(entry.expect("a file").path()).expect("a job");
        let mut job = read_job(&bytes).expect("a job");
        job.slips.retain(|slip| slip.kind != SlipKind::Run);
        let (results, plan) = planned(&job);
        let Some(lot) = &results.figures.lot else {
            continue;
        };
        for (row, hole) in job.rows.iter().zip(&results.figures.holes) {
            let of_row = plan.left.iter().filter(|stretch| stretch.row == row.id);
            let holes: f64 = of_row.map(|stretch| stretch.holes).sum();
            let all = f64::from(hole.places) * f64::from(lot.quantity);
            assert_eq!(holes, all, "{} {}", job.number, row.mark.text());
            planned_rows += 1;
        }
    }
    assert!(planned_rows >= 10, "{planned_rows}");
}

/// What the pencil says by the clock is what a record is held against: a lot that goes as planned teaches
/// that it did, however many marks share the loading of its parts.
#[test]
fn a_lot_that_goes_by_the_pencil_teaches_nothing_new() {
    let mut of_one_size = Job::default();
    for (at, mark) in ["A", "B", "C", "D", "E"].into_iter().enumerate() {
        of_one_size = cells(
            &of_one_size,
            at,
            &[mark, "1", "0.80 +-0.05", "14", "through"],
        );
    }
    let of_one_size = field(&of_one_size, Field::Material, "718");
    let of_one_size = field(&of_one_size, Field::Machine, "Wren");
    // A blind mark among open ones: only it is dressed for.
    let mixed = cells(&of_one_size, 4, &["E", "4", "1.20 +-0.05", "9", "blind"]);
    for job in [
        job(),
        field(&of_one_size, Field::Quantity, "30"),
        field(&mixed, Field::Quantity, "30"),
    ] {
        let (_, plan) = planned(&job);
        let mut recorded = job.clone();
        let mut pencil = Vec::new();
        for row in &job.rows {
            let of_row = plan.left.iter().filter(|stretch| stretch.row == row.id);
            let (holes, clock) = of_row.fold((0.0, 0.0), |(holes, clock), stretch| {
                (
                    holes + stretch.holes,
                    clock + stretch.clock_min.expect("minutes"),
                )
            });
            let (holes, minutes) = (format!("{holes}"), format!("{clock:.1}"));
            let lines = [
                (Line::Mark, row.mark.text()),
                (Line::Holes, &holes),
                (Line::FloorMinutes, &minutes),
            ];
            recorded = run(&recorded, &lines);
            pencil.push(clock);
        }
        let held = taught(&recorded, shop());
        assert_eq!(held.len(), pencil.len());
        let against = held
            .iter()
            .map(|held| held.says.as_ref().expect("a plan").planned.clock_min);
        let against: Vec<f64> = against.collect();
        // Mark by mark, and in all.
        for (pencil, against) in pencil.iter().zip(&against) {
            assert!((pencil / against - 1.0).abs() < 0.02, "{pencil} {against}");
        }
        let off = pencil.iter().sum::<f64>() / against.iter().sum::<f64>();
        assert!((off - 1.0).abs() < 0.01, "{off}");
    }
}

/// Lengths of several electrodes in one line say nothing of the wear, whether they are counted or numbered.
#[test]
fn lengths_of_several_electrodes_teach_no_wear() {
    let lost = |line: (Line, &str)| {
        let lines = [
            (Line::Mark, "A"),
            (Line::Holes, "30"),
            (Line::TubeUsed, "brass 0.70 x 400"),
            (Line::TubeBefore, "400"),
            (Line::TubeAfter, "100"),
            (Line::SparkMinutes, "40"),
            line,
        ];
        let held = taught(&run(&job(), &lines), shop());
        let told = held[0].says.as_ref().expect("a record");
        told.evidence.record.wear.is_some()
    };
    assert!(lost((Line::ElectrodeNumber, "7")));
    assert!(!lost((Line::ElectrodeNumber, "1 to 3")));
    assert!(!lost((Line::Electrodes, "3")));
}
