//! Tables whose columns are understood, and what happens with those that are not.

#![expect(
    clippy::expect_used,
    reason = "helpers of the tests stand outside the test functions"
)]

use quillbore_intake::{
    Foreign, Holds, How, IntakeError, Meaning, Taken, Why, WorkbookError, holds_of, words,
};
use quillbore_job::report::LineOutcome;
use quillbore_job::{Column, Job, RowsAt, Unit, apply};

fn rows(text: &str) -> Vec<Vec<String>> {
    let cells = |line: &str| line.split('\t').map(str::to_owned).collect();
    text.lines().map(cells).collect()
}

/// The table's columns lie from the mark on, as under the cursor of an empty table.
fn table(text: &str) -> Foreign {
    let places: Vec<Option<Column>> = Column::ALL.iter().copied().map(Some).collect();
    Foreign::of_rows(&rows(text), &places).expect("a table")
}

fn job_of(taken: &Taken) -> Job {
    apply(&Job::default(), &taken.edit).expect("an edit").0
}

fn cell(job: &Job, row: usize, column: Column) -> String {
    job.rows[row].cell(column).text.to_owned()
}

const WITH_FINISH: &str =
    "hole\tqty\tdia\tfinish\tdepth\nA\t4\t0.8\tRa 1.6\t12\nB\t2\t1.2\tRa 3.2\t14";

#[test]
fn a_column_that_is_not_understood_is_asked_about_and_nothing_is_taken() {
    let table = table(WITH_FINISH);
    let questions = table.questions();
    assert_eq!(questions.len(), 1);
    assert_eq!(
        words::question(&questions[0]),
        "column 4 \u{201c}finish\u{201d} (Ra 1.6; Ra 3.2)"
    );
    let refused = table.take(&Job::default(), RowsAt::Over { row: 0 }, Unit::Mm);
    let error = refused.expect_err("nobody said what it is");
    assert_eq!(
        error.to_string(),
        "Column 4 \u{201c}finish\u{201d} (Ra 1.6; Ra 3.2) is not understood"
    );
    assert_eq!(error, IntakeError::NotUnderstood(questions));
}

#[test]
fn start_holes_are_understood_in_their_words() {
    for text in [
        "hole\tdia\tdepth\twire dia\tmin exit\tto contour\tproved by\nA\t0.8\t20\t0.25\t0.5\t1.5\tlight\nB\t0.5\t20\t0.1\t0.3\t2\twire",
        "Loch\tDurchmesser\tTiefe\tDraht\tMindestaustritt\tKonturabstand\tNachweis\nA\t0,8\t20\t0,25\t0,5\t1,5\tLicht\nB\t0,5\t20\t0,1\t0,3\t2\tDraht",
    ] {
        let table = table(text);
        assert!(table.questions().is_empty(), "{:?}", table.questions());
        let taken = table
            .take(&Job::default(), RowsAt::Over { row: 0 }, Unit::Mm)
            .expect("understood");
        let job = job_of(&taken);
        let lengths = |row: usize| {
            let row = &job.rows[row];
            [&row.wire, &row.least_exit, &row.to_profile]
                .map(|entry| entry.value().map(|mm| mm.mm()))
        };
        assert_eq!(lengths(0), [Some(0.25), Some(0.5), Some(1.5)]);
        assert_eq!(lengths(1), [Some(0.1), Some(0.3), Some(2.0)]);
        assert_eq!(cell(&job, 0, Column::Proved), "light");
        assert_eq!(cell(&job, 1, Column::Proved), "wire");
    }
}

#[test]
fn a_column_is_what_somebody_says() {
    let mut asked = table(WITH_FINISH);
    asked
        .say(3, Holds::A(Meaning::Ours(Column::Note)))
        .expect("free");
    let taken = asked
        .take(&Job::default(), RowsAt::Over { row: 0 }, Unit::Mm)
        .expect("understood");
    let job = job_of(&taken);
    assert_eq!(cell(&job, 0, Column::Note), "finish: Ra 1.6");
    assert_eq!(cell(&job, 1, Column::Depth), "14");
    assert!(
        taken
            .report
            .whole
            .iter()
            .any(|said| said == "Taken as note: column 4 \u{201c}finish\u{201d} (Ra 1.6; Ra 3.2).")
    );
}

#[test]
fn a_column_is_left_out_only_by_word_and_that_is_told_row_by_row() {
    let mut asked = table(WITH_FINISH);
    asked.say(3, Holds::LeftOut).expect("always possible");
    let taken = asked
        .take(&Job::default(), RowsAt::Over { row: 0 }, Unit::Mm)
        .expect("understood");
    let job = job_of(&taken);
    assert!(job.rows.iter().all(|row| row.note.is_empty()));
    assert!(
        taken
            .report
            .whole
            .iter()
            .any(|said| said == "Left out: column 4 \u{201c}finish\u{201d} (Ra 1.6; Ra 3.2).")
    );
    let says: Vec<&str> = taken
        .report
        .lines
        .iter()
        .map(|line| line.says.as_str())
        .collect();
    assert_eq!(
        says,
        [
            "left out: \u{201c}finish Ra 1.6\u{201d}",
            "left out: \u{201c}finish Ra 3.2\u{201d}"
        ]
    );
}

#[test]
fn what_another_column_holds_is_no_choice() {
    let mut asked = table(WITH_FINISH);
    let depth = Holds::A(Meaning::Ours(Column::Depth));
    let choices = asked.choices();
    assert!(!choices.contains(&depth));
    assert!(choices.contains(&Holds::LeftOut));
    assert!(choices.contains(&Holds::A(Meaning::Tolerance)));
    assert_eq!(
        asked.say(3, depth),
        Err(IntakeError::Twice(Meaning::Ours(Column::Depth)))
    );
    assert_eq!(asked.questions().len(), 1, "it is still asked about");
    assert_eq!(
        asked.say(9, Holds::LeftOut),
        Err(IntakeError::NoSuchColumn("10".to_owned()))
    );
}

#[test]
fn two_columns_that_look_alike_are_not_put_together() {
    let asked = table("hole\tlabel\tdia\tdepth\nA\tB\t0.8\t12");
    let questions = asked.questions();
    assert_eq!(questions.len(), 1);
    assert_eq!(
        (questions[0].column, questions[0].head.as_str()),
        (1, "label")
    );
}

#[test]
fn notes_and_remarks_are_both_notes() {
    let asked = table("hole\tdia\tnote\tremarks\nA\t0.8\tdeburr\tRa 1.6");
    let taken = asked
        .take(&Job::default(), RowsAt::Over { row: 0 }, Unit::Mm)
        .expect("understood");
    assert_eq!(cell(&job_of(&taken), 0, Column::Note), "deburr; Ra 1.6");
}

#[test]
fn an_empty_column_is_no_question() {
    let asked = table("hole\tdia\tfinish\tdepth\nA\t0.8\t\t12\nB\t0.9\t \t12");
    assert_eq!(asked.questions(), []);
    assert!(
        asked
            .take(&Job::default(), RowsAt::Over { row: 0 }, Unit::Mm)
            .is_ok()
    );
}

#[test]
fn cells_beyond_the_head_are_asked_about_or_guessed() {
    let asked = table("hole\tdia\tdepth\nA\t0.8\t12\nB\t0.9\t14\tRa 1.6");
    let [question] = asked.questions().try_into().expect("one question");
    assert_eq!(
        words::question(&question),
        "column 4 without a head (Ra 1.6)"
    );
    let guessed = table("hole\tdia\tdepth\nA\t0.8\t12\nB\t0.9\t14\tsee view C");
    assert_eq!(guessed.questions(), []);
    let view = guessed.columns().pop().expect("four columns");
    assert_eq!(view.holds, Some(Holds::A(Meaning::Ours(Column::Note))));
    assert_eq!(view.how, How::Guess(Why::Values));
}

#[test]
fn a_head_in_words_of_an_unknown_language_is_a_head_with_questions() {
    let text = "Otwór\tIlość\tŚrednica\tGłębokość\nA\t36\t1\t14\nB\t4\t2\t10";
    let mut asked = table(text);
    // Whole numbers alone say too little of which is the size.
    let heads: Vec<String> = asked.questions().into_iter().map(|q| q.head).collect();
    assert_eq!(heads, ["Ilość", "Średnica", "Głębokość"]);
    for (head, word) in [
        ("otwór", "mark"),
        ("Ilość", "Anzahl"),
        ("3", "size"),
        ("głębokość", "Depth"),
    ] {
        let column = asked.column_named(head).expect("there");
        let holds = holds_of(word).expect("a word");
        asked.say(column, holds).expect("free");
    }
    let taken = asked
        .take(&Job::default(), RowsAt::Over { row: 0 }, Unit::Mm)
        .expect("understood");
    let job = job_of(&taken);
    assert_eq!(job.rows.len(), 2);
    assert_eq!(cell(&job, 0, Column::Size), "1");
    assert_eq!(job.rows[0].count.value(), Some(&36));
}

#[test]
fn without_a_head_the_cells_stand_where_they_were_put() {
    let places = [Some(Column::Size), Some(Column::Depth), None];
    let text = "0,8 +-0,05\t12\n0,9 +-0,05\t14";
    let asked = Foreign::of_rows(&rows(text), &places).expect("a table");
    assert!(!asked.is_headed());
    let taken = asked
        .take(&Job::default(), RowsAt::Over { row: 0 }, Unit::Mm)
        .expect("understood");
    assert_eq!(cell(&job_of(&taken), 1, Column::Depth), "14");
    // A cell over a computed column and one beyond the last are both asked about.
    let text = "0.8\t12\t0.70\tRa 1.6";
    let asked = Foreign::of_rows(&rows(text), &places).expect("a table");
    let columns: Vec<usize> = asked.questions().iter().map(|q| q.column).collect();
    assert_eq!(columns, [2, 3]);
}

#[test]
fn words_alone_are_no_head() {
    for text in [
        "through",
        "through\nblind",
        "thru\t12\nblind\t14",
        "A\tthrough",
    ] {
        let places = [Some(Column::End), Some(Column::Depth)];
        let asked = Foreign::of_rows(&rows(text), &places).expect("a table");
        assert!(!asked.is_headed(), "{text}");
    }
    let head = table("depth\n12\n14");
    assert!(head.is_headed());
}

#[test]
fn empty_cells_of_a_block_empty_what_they_lie_over() {
    let first = table("A\t4\t0.8\t12");
    let job = job_of(
        &first
            .take(&Job::default(), RowsAt::Over { row: 0 }, Unit::Mm)
            .expect("understood"),
    );
    let second = table("A\t\t0.9\t12")
        .take(&job, RowsAt::Over { row: 0 }, Unit::Mm)
        .expect("understood");
    let job = apply(&job, &second.edit).expect("an edit").0;
    assert_eq!(cell(&job, 0, Column::Count), "");
    assert_eq!(cell(&job, 0, Column::Size), "0.9");
}

#[test]
fn what_cannot_be_read_is_told_line_by_line() {
    let taken = table(
        "hole\tqty\tdia\tdepth\nA\tfour\t0.8\t12\nB\t4\tabout 1\tdeep enough\nC\t4\t0.8\tthru",
    )
    .take(&Job::default(), RowsAt::Over { row: 0 }, Unit::Mm)
    .expect("understood");
    let outcomes: Vec<LineOutcome> = taken.report.lines.iter().map(|line| line.outcome).collect();
    assert_eq!(
        outcomes,
        [LineOutcome::Unread, LineOutcome::Unread, LineOutcome::Taken]
    );
    let says = &taken.report.lines[1].says;
    assert!(
        says.starts_with("size \u{201c}about 1\u{201d}: ")
            && says.contains("depth \u{201c}deep enough\u{201d}: "),
        "{says}"
    );
}

#[test]
fn a_coordinate_alone_is_no_place() {
    let heads = |text: &str| -> Vec<String> {
        table(text)
            .questions()
            .into_iter()
            .map(|q| q.head)
            .collect()
    };
    assert_eq!(heads("hole\tdia\tx\tz\nA\t0.8\t10\t0"), ["x", "z"]);
    assert_eq!(heads("hole\tdia\tx\ty\tz\nA\t0.8\t10\t5\t0"), [""; 0]);
}

#[test]
fn files_without_a_table_are_refused() {
    let refused = |bytes: &[u8]| Foreign::of_file(bytes, "holes.csv").expect_err("no table");
    assert_eq!(refused(b"A\0B"), IntakeError::NotText);
    let cut = refused(b"PK\x03\x04\0\0");
    assert!(
        matches!(cut, IntakeError::Workbook(WorkbookError::Damaged(_))),
        "{cut:?}"
    );
    assert_eq!(refused(b""), IntakeError::Empty);
    assert_eq!(refused(b" ; ;\n\n"), IntakeError::Empty);
    assert_eq!(refused(b"hole;qty;dia\n"), IntakeError::HeadAlone);
}

#[test]
fn every_word_for_a_column_is_read_back() {
    let mut seen = Vec::new();
    for holds in Meaning::all()
        .into_iter()
        .map(Holds::A)
        .chain([Holds::LeftOut])
    {
        let word = words::holds(holds);
        assert!(!seen.contains(&word), "{word} stands twice");
        seen.push(word);
        assert_eq!(holds_of(word), Some(holds), "{word}");
    }
    assert_eq!(
        holds_of("Remarks"),
        Some(Holds::A(Meaning::Ours(Column::Note)))
    );
    assert_eq!(holds_of("whatever"), None);
}
