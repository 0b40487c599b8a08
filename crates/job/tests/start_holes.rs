//! Start holes on the sheet: what is typed, what it is asked as, and what is said of it.

#![expect(
    clippy::expect_used,
    reason = "helpers of the tests stand outside the test functions"
)]

use quillbore_calc::input::{Proof, StartHole};
use quillbore_calc::tables::Rates;
use quillbore_job::edit::CellAt;
use quillbore_job::results::{Telling, results_now};
use quillbore_job::{Column, Edit, Field, Job, Shop, Unit, apply};

fn done(job: &Job, edit: &Edit) -> Job {
    apply(job, edit).expect("an edit").0
}

fn field(job: &Job, field: Field, text: &str) -> Job {
    let text = text.to_owned();
    let unit = job.unit;
    done(job, &Edit::SetField { field, text, unit })
}

fn cells(job: &Job, row: usize, cells: &[(Column, &str)]) -> Job {
    cells.iter().fold(job.clone(), |job, (column, text)| {
        let edit = Edit::SetCells {
            at: CellAt {
                row,
                column: *column,
            },
            rows: vec![vec![Some((*text).to_owned())]],
            unit: job.unit,
        };
        done(&job, &edit)
    })
}

/// A die plate of 40 mm with twelve start holes.
fn plate() -> Job {
    let mut job = Job::default();
    for (name, text) in [
        (Field::Material, "Tool steel D2"),
        (Field::Machine, "Wren"),
        (Field::Quantity, "5"),
    ] {
        job = field(&job, name, text);
    }
    cells(
        &job,
        0,
        &[
            (Column::Mark, "A"),
            (Column::Count, "12"),
            (Column::Size, "0.8"),
            (Column::Depth, "40"),
            (Column::Wire, "0.25"),
        ],
    )
}

fn said(job: &Job) -> Vec<String> {
    let shop = Shop::embedded().expect("the shop").for_job(job);
    let results = results_now(job, &shop);
    let telling = Telling::new(job, &shop);
    let notes = results.notes.iter();
    notes.map(|note| telling.text(note).to_string()).collect()
}

fn says(job: &Job, part: &str) -> bool {
    said(job).iter().any(|said| said.contains(part))
}

#[test]
fn what_is_typed_is_asked() {
    let job = cells(
        &plate(),
        0,
        &[
            (Column::LeastExit, ".02 in"),
            (Column::ToProfile, "1.5"),
            (Column::Proved, "light"),
        ],
    );
    let shop = Shop::embedded().expect("the shop").for_job(&job);
    let input = results_now(&job, &shop).asked.input.clone();
    let asked = StartHole {
        wire_mm: Some(0.25),
        least_exit_mm: Some(0.508),
        to_profile_mm: Some(1.5),
    };
    assert_eq!(input.rows[0].start_hole, asked);
    assert_eq!(input.rows[0].proved, Some(Proof::Light));
    assert!(input.rows[0].limits_assumed && !input.rows[0].checked().by_pin);
}

/// A wire of nothing is no wire, and a row with it has no price.
#[test]
fn a_wire_that_can_not_be_read_is_told_and_not_priced() {
    for (column, text) in [
        (Column::Wire, "0"),
        (Column::LeastExit, "wide"),
        (Column::ToProfile, "-1"),
        (Column::Proved, "sound"),
    ] {
        let job = cells(&plate(), 0, &[(column, text)]);
        let shop = Shop::embedded().expect("the shop").for_job(&job);
        let results = results_now(&job, &shop);
        assert!(results.figures.price.is_none(), "{column:?}");
        assert!(job.rows[0].cell(column).why.is_some(), "{column:?}");
        assert_eq!(job.rows[0].cell(column).text, text);
    }
}

#[test]
fn what_is_wrong_is_told_in_words() {
    assert!(!says(&plate(), "wire"), "{:?}", said(&plate()));
    let tight = cells(&plate(), 0, &[(Column::LeastExit, "0.8")]);
    assert!(says(&tight, "The smallest exit of 60 holes may be"));
    assert!(says(&tight, "less than the least free exit, 0.8"));
    let thick = cells(&plate(), 0, &[(Column::Wire, "1.2")]);
    let words = "A wire of 1.20 mm doesn't go through: the exit is";
    assert!(says(&thick, words), "{:?}", said(&thick));
    let near = cells(&plate(), 0, &[(Column::ToProfile, "0.5")]);
    assert!(says(&near, "may cut into the finished profile"));
    let cut = cells(&plate(), 0, &[(Column::ToProfile, "0.3")]);
    assert!(says(&cut, "cuts into the finished profile"));
    let nobody = cells(&plate(), 0, &[(Column::Wire, ""), (Column::Proved, "wire")]);
    assert!(says(&nobody, "nobody said which"));
    let blind = cells(&plate(), 0, &[(Column::End, "blind")]);
    assert!(says(&blind, "asked of a blind hole"));
}

/// Each price over the holes of a part, rounded once; a part with another kind of hole has none.
#[test]
fn start_holes_have_a_price_each() {
    let shop = Shop::embedded().expect("the shop");
    let price = |job: &Job| {
        let shop = shop.for_job(job);
        results_now(job, &shop)
            .figures
            .price
            .clone()
            .expect("a price")
    };
    let Rates { minor_digits, .. } = shop.tables.rates;
    let found = price(&plate());
    for line in &found.breaks {
        let exact = line.each / rust_decimal::Decimal::from(12);
        let per_hole = line.per_hole.expect("start holes");
        let half = rust_decimal::Decimal::new(5, minor_digits + 1);
        assert!((per_hole - exact).abs() <= half, "{per_hole} of {exact}");
        assert!(per_hole.scale() <= minor_digits);
    }
    let mixed = cells(
        &plate(),
        1,
        &[
            (Column::Mark, "B"),
            (Column::Size, "1.2"),
            (Column::Depth, "40"),
        ],
    );
    assert!(
        price(&mixed)
            .breaks
            .iter()
            .all(|line| line.per_hole.is_none())
    );
}

/// Minutes of checks go by how holes are proved; masking takes what was typed, for each part.
#[test]
fn checks_and_masking_take_their_minutes() {
    let shop = Shop::embedded().expect("the shop");
    let labor = |job: &Job| {
        let shop = shop.for_job(job);
        results_now(job, &shop)
            .figures
            .lot
            .as_ref()
            .expect("a lot")
            .labor
    };
    let start = &shop.tables.start;
    let holes = 12.0 * 5.0;
    let close =
        |found: f64, by_hand: f64| assert!((found - by_hand).abs() < 1e-9, "{found} {by_hand}");
    let by_pin = labor(&plate());
    close(by_pin.inspect, holes * start.pin_check_min.p50());
    let light = cells(&plate(), 0, &[(Column::Proved, "light")]);
    close(labor(&light).inspect, holes * start.light_check_min.p50());
    // Limits that somebody gave are checked by pin as well.
    let limits = cells(&light, 0, &[(Column::Size, "0.8 +-0.05")]);
    let both = start.pin_check_min.p50() + start.light_check_min.p50();
    close(labor(&limits).inspect, holes * both);
    for through in ["wire", "pin-through"] {
        let job = cells(&plate(), 0, &[(Column::Proved, through)]);
        close(labor(&job).inspect, holes * start.wire_check_min.p50());
    }
    let air = cells(&plate(), 0, &[(Column::Proved, "air")]);
    close(labor(&air).inspect, holes * start.air_check_min.p50());
    let masked = field(&plate(), Field::MaskingMinutes, "6");
    let found = labor(&masked);
    close(found.masking, 30.0);
    close(found.sum() - by_pin.sum(), 30.0);
    assert_eq!(by_pin.masking, 0.0);
    // The price goes with it.
    let each = |job: &Job| {
        let shop = shop.for_job(job);
        results_now(job, &shop)
            .figures
            .price
            .as_ref()
            .expect("a price")
            .expected_cost
    };
    let rates = &shop.tables.rates;
    let more = 0.5 * rates.labor_per_hour * (1.0 + rates.redo_share);
    let grown = each(&masked) - each(&plate());
    assert!(
        (grown - more).abs() < 0.05 * more,
        "{grown} is not about {more}"
    );
}

/// The same in a job in inches: wire and distances are what they are.
#[test]
fn inches_mean_the_same() {
    let inch = done(&Job::default(), &Edit::SetUnit(Unit::Inch));
    let inch = cells(
        &inch,
        0,
        &[(Column::Wire, ".010"), (Column::ToProfile, "1.5 mm")],
    );
    let row = &inch.rows[0];
    assert!((row.wire.value().expect("a wire").mm() - 0.254).abs() < 1e-12);
    assert!((row.to_profile.value().expect("a distance").mm() - 1.5).abs() < 1e-12);
}
