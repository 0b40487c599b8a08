//! What somebody says of columns before a table is taken, and what is remembered of it.

#![expect(
    clippy::expect_used,
    reason = "helpers of the tests stand outside the test functions"
)]

use quillbore_intake::{
    Foreign, Holds, How, IntakeError, Known, Meaning, Sum, Taken, Units, holds_of, words,
};
use quillbore_job::{Column, Job, RowsAt, Unit, apply};

const SIZE: Holds = Holds::A(Meaning::Ours(Column::Size));
const DEPTH: Holds = Holds::A(Meaning::Ours(Column::Depth));
const NOTE: Holds = Holds::A(Meaning::Ours(Column::Note));

fn file(text: &str) -> Foreign {
    Foreign::of_file(text.as_bytes(), "holes.csv").expect("a table")
}

fn take(table: &Foreign) -> Taken {
    let taken = table.take(&Job::default(), RowsAt::Append, Unit::Mm);
    taken.expect("understood")
}

fn job_of(table: &Foreign) -> Job {
    apply(&Job::default(), &take(table).edit)
        .expect("an edit")
        .0
}

/// What each column holds, and how that is known.
fn known(table: &Foreign) -> Vec<(Option<Holds>, How)> {
    let columns = table.columns().into_iter();
    columns.map(|column| (column.holds, column.how)).collect()
}

const NINE: &str = "Mark;Qty;Dia;Finish;Depth;Lot;Heat;Angle;Remarks\n\
                    A;4;0,8;Ra 1.6;14;7;H-22;30;\n\
                    B;4;0,8;Ra 1.6;14;7;H-22;30;deburr\n";

#[test]
fn so_many_of_so_many_are_not_understood() {
    let mut table = file(NINE);
    let said = |table: &Foreign| {
        let (open, of) = table.not_understood();
        words::not_understood_of(open, of)
    };
    assert_eq!(
        said(&table),
        "3 of 9 columns not understood: which are they?"
    );
    table.say(3, NOTE).expect("notes repeat");
    table.say(5, Holds::LeftOut).expect("always possible");
    assert_eq!(said(&table), "1 of 9 columns not understood: which is it?");
    assert_eq!(table.columns()[3].how, How::Said);
    table.unsay(3).expect("there");
    assert_eq!(
        said(&table),
        "2 of 9 columns not understood: which are they?"
    );
    assert_eq!(table.columns()[3].holds, None);
    assert_eq!(
        table.unsay(9),
        Err(IntakeError::NoSuchColumn("10".to_owned()))
    );
    for column in [3, 6] {
        table.say(column, Holds::LeftOut).expect("always possible");
    }
    assert_eq!(table.not_understood(), (0, 9));
    assert_eq!(
        words::understood(table.guessed(), 9),
        "9 columns understood"
    );
    assert_eq!(job_of(&table).rows.len(), 2);
}

#[test]
fn any_column_can_be_said_to_be_another_until_it_is_taken() {
    let mut table = file("hole;D;T\nA;0,8;14\nB;1,2;10\n");
    assert_eq!(table.guessed(), 2);
    assert_eq!(
        words::understood(table.guessed(), 3),
        "3 columns understood, 2 of them guessed: see whether they are right"
    );
    // A guess gives way, and is asked about then.
    assert!(table.choices().contains(&SIZE));
    table.say(2, SIZE).expect("a guess gives way");
    assert_eq!(table.not_understood(), (1, 3));
    assert_eq!(table.columns()[1].how, How::NotUnderstood);
    table.say(1, DEPTH).expect("free");
    let job = job_of(&table);
    assert_eq!(
        (job.rows[0].size.text(), job.rows[0].depth.text()),
        ("14", "0,8")
    );
    // What a head says plainly, or somebody said, does not.
    assert_eq!(
        table.say(1, SIZE),
        Err(IntakeError::Twice(Meaning::Ours(Column::Size)))
    );
    let mark = Holds::A(Meaning::Ours(Column::Mark));
    assert_eq!(
        table.say(1, mark),
        Err(IntakeError::Twice(Meaning::Ours(Column::Mark)))
    );
    table.unsay(0).expect("there");
    table.say(0, NOTE).expect("notes repeat");
    assert_eq!(job_of(&table).rows[0].note.text(), "hole: A");
}

#[test]
fn a_guess_is_told_with_why() {
    let report = take(&file("hole;D;depth\nA;0,8;14\nB;1,2;10\n")).report;
    let told =
        "Taken as size, guessed by its head and values: column 2 \u{201c}D\u{201d} (0,8; 1,2).";
    assert!(
        report.whole.iter().any(|said| said == told),
        "{:?}",
        report.whole
    );
}

#[test]
fn what_was_said_of_a_head_is_remembered_for_the_customers_next_table() {
    let first = "Bohrung;Anzahl;Maß 1;Maß 2;Prüfung\nA;4;1;14;ja\nB;2;2;10;ja\n";
    let mut table = file(first);
    assert_eq!(table.not_understood(), (3, 5));
    assert_eq!(table.learned(), []);
    table.say(2, SIZE).expect("free");
    table.say(3, DEPTH).expect("free");
    table.say(4, Holds::LeftOut).expect("always possible");
    // What the head says plainly needs no memory.
    table
        .say(0, Holds::A(Meaning::Ours(Column::Mark)))
        .expect("the same");
    let learned = table.learned();
    let heads: Vec<&str> = learned.iter().map(|(head, _)| head.as_str()).collect();
    assert_eq!(heads, ["mass 1", "mass 2", "pruefung"]);
    let mut customer = Known::default();
    customer.learn(learned);

    // In another order and other writing.
    let mut next = file("Pruefung;MASS 2;Maß-1;Bohrung\nnein;8;3;C\nja;9;4;D\n");
    next.remember(&customer);
    assert_eq!(
        known(&next),
        [
            (Some(Holds::LeftOut), How::Memory),
            (Some(DEPTH), How::Memory),
            (Some(SIZE), How::Memory),
            (Some(Holds::A(Meaning::Ours(Column::Mark))), How::Head),
        ]
    );
    assert_eq!(
        words::how(How::Memory),
        "as said of this customer's tables before"
    );
    let report = take(&next).report;
    for told in [
        "Left out, as before: column 1 \u{201c}Pruefung\u{201d} (nein; ja).",
        "Taken as depth, as before: column 2 \u{201c}MASS 2\u{201d} (8; 9).",
    ] {
        assert!(
            report.whole.iter().any(|said| said == told),
            "{:?}",
            report.whole
        );
    }
    // It is no sentence of its own until somebody says it again.
    assert_eq!(next.learned(), []);
    next.say(1, Holds::LeftOut).expect("always possible");
    customer.learn(next.learned());
    assert_eq!(customer.heads()[1], ("mass 2".to_owned(), Holds::LeftOut));
    assert_eq!(customer.heads().len(), 3);
}

#[test]
fn memory_wins_over_heads_and_guesses_and_loses_to_what_is_said_now() {
    let customer = Known::of([
        ("no".to_owned(), Holds::A(Meaning::Ours(Column::Count))),
        ("min".to_owned(), DEPTH),
    ]);
    let text = "hole;No.;dia;min\nA;1;0,8;14\nB;2;0,9;12\nC;3;0,9;12\n";
    let mut table = file(text);
    assert_eq!(table.not_understood(), (1, 4), "1, 2, 3 may be a numbering");
    table.remember(&customer);
    assert_eq!(table.not_understood(), (0, 4));
    assert_eq!(table.columns()[3].holds, Some(DEPTH));
    let mut said = file(text);
    said.say(3, Holds::LeftOut).expect("always possible");
    said.remember(&customer);
    assert_eq!(said.columns()[3].holds, Some(Holds::LeftOut));
    // A head that stands twice is nobody's.
    let mut twice = file("hole;min;min;dia\nA;14;12;0,8\nB;13;12;0,8\n");
    twice.remember(&customer);
    assert_ne!(twice.columns()[1].how, How::Memory);
}

#[test]
fn a_table_in_short() {
    let table = file("hole;qty;dia\nA;40;0,8\nB;four;0,9\nC;28;0,9\nTotal;70;\n");
    let summary = table.summary(Unit::Mm);
    assert_eq!((summary.rows, summary.holes, summary.uncounted), (3, 69, 1));
    assert_eq!(summary.sum, Some(Sum { line: 5, holes: 70 }));
    assert_eq!(
        summary.units,
        Units::Unnamed {
            looks: Some(Unit::Mm)
        }
    );
    assert_eq!(
        words::summary(&summary),
        "69 holes in 3 rows; the count of 1 row can't be read and stands for one hole; \
         line 5 says 70; no unit is named: the sizes look like millimeters"
    );
    let units = |text: &str| file(text).summary(Unit::Mm).units;
    assert_eq!(units("hole;dia (in)\nA;.03\n"), Units::Named(Unit::Inch));
    assert_eq!(
        units("hole;dia (in);depth (mm)\nA;.03;14\n"),
        Units::Several
    );
    assert_eq!(units("hole;dia\nA;0.8 mm\nB;1/32\"\n"), Units::InCells);
    assert_eq!(
        units("hole;dia\nA;0.3\nB;0.5\n"),
        Units::Unnamed { looks: None }
    );
    assert_eq!(
        units("All dimensions in inches\nhole;dia\nA;.03\n"),
        Units::Named(Unit::Inch)
    );
}

#[test]
fn a_unit_beside_the_table_holds_for_it_unless_heads_say_otherwise() {
    let depth = |text: &str| {
        let job = job_of(&file(text));
        let depth = job.rows[0].depth.value().copied().expect("read");
        depth.nominal.expect("a number").mm()
    };
    let inches = depth("hole;dia;depth\nA;.03;1\nAll dimensions in inches\n");
    assert!((inches - 25.4).abs() < 1e-12, "{inches}");
    let mm = depth("hole;dia (mm);depth\nA;.8;1\nAll dimensions in inches\n");
    assert!((mm - 1.0).abs() < 1e-12, "{mm}");
}

#[test]
fn sizes_that_look_like_another_unit_are_told() {
    let report = take(&file("hole,dia\nA,.0315\nB,.047\n")).report;
    let told = "The sizes look like inches: see which unit is meant.";
    assert!(
        report.whole.iter().any(|said| said == told),
        "{:?}",
        report.whole
    );
}

#[test]
fn words_for_columns_are_read_in_every_language() {
    for (word, holds) in [
        ("Tiefe", DEPTH),
        ("profondità", DEPTH),
        ("d", SIZE),
        ("lower deviation", Holds::A(Meaning::LowerDeviation)),
        ("Tiefentoleranz", Holds::A(Meaning::DepthTolerance)),
    ] {
        assert_eq!(holds_of(word), Some(holds), "{word}");
    }
    assert_eq!(holds_of("t"), None, "depth or tolerance");
}

#[test]
fn titles_and_a_head_without_rows_are_no_table() {
    let refused = Foreign::of_file(b"Drawing 4-118\nHole;Qty;Dia\n", "holes.csv");
    assert_eq!(refused.expect_err("no table"), IntakeError::HeadAlone);
}
