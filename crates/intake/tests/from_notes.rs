//! What notes say of ends and angles: what is read, what is not, and that both are told line by line.

#![expect(
    clippy::expect_used,
    reason = "helpers of the tests stand outside the test functions"
)]

use quillbore_intake::delimited::block;
use quillbore_intake::{Foreign, FromNotes, Taken};
use quillbore_job::report::LineOutcome;
use quillbore_job::{Column, Job, RowsAt, Unit, apply};

fn pasted(text: &str) -> Foreign {
    let places: Vec<Option<Column>> = Column::ALL.iter().copied().map(Some).collect();
    Foreign::of_rows(&block(text), &places).expect("a table")
}

fn file(text: &str) -> Foreign {
    Foreign::of_file(text.as_bytes(), "holes.csv").expect("a table")
}

fn take(table: &Foreign, job: &Job, at: RowsAt) -> (Job, Taken) {
    let taken = table.take(job, at, Unit::Mm).expect("understood");
    (apply(job, &taken.edit).expect("an edit").0, taken)
}

fn appended(table: &Foreign) -> (Job, Taken) {
    take(table, &Job::default(), RowsAt::Append)
}

fn says(taken: &Taken) -> Vec<(LineOutcome, &str)> {
    let lines = taken.report.lines.iter();
    lines
        .map(|line| (line.outcome, line.says.as_str()))
        .collect()
}

fn ends(job: &Job) -> Vec<&str> {
    job.rows.iter().map(|row| row.end.text()).collect()
}

const MAIL: &str = "Pos.\tBohrung\tDurchm. [mm]\tTiefe\tAnz.\tBemerkung\n\
                    1\tA\t0,80 +/-0,05\t14,0\t36\tdurchgehend\n\
                    2\tB\t0,50\t8\t12\tdurch\n\
                    3\tC\t1,20 H11\t22\t4\tSackloch\n\
                    4\tD\t0,30\t6\t24\tDurchgehend\n\
                    5\tE\t1,00\t40\t2\t30 Grad\n";

#[test]
fn what_is_read_from_a_note_is_told_as_a_guess_and_the_note_stays() {
    let table = pasted(MAIL);
    let (job, taken) = appended(&table);
    assert_eq!(
        says(&taken),
        [
            (
                LineOutcome::Guessed,
                "A: end through, read from the note \u{201c}durchgehend\u{201d}"
            ),
            (
                LineOutcome::Guessed,
                "B: end through, read from the note \u{201c}durch\u{201d}"
            ),
            (
                LineOutcome::Guessed,
                "C: end blind, read from the note \u{201c}Sackloch\u{201d}"
            ),
            (
                LineOutcome::Guessed,
                "D: end through, read from the note \u{201c}Durchgehend\u{201d}"
            ),
            (
                LineOutcome::Guessed,
                "E: angle 30 deg, read from the note \u{201c}30 Grad\u{201d}"
            ),
        ]
    );
    let notes: Vec<&str> = job.rows.iter().map(|row| row.note.text()).collect();
    assert_eq!(
        notes,
        ["durchgehend", "durch", "Sackloch", "Durchgehend", "30 Grad"]
    );
    let angle = job.rows[4].angle.value().expect("read");
    assert!((angle.from_normal.deg() - 30.0).abs() < 1e-12);
    let told = "4 ends and 1 angle read from the notes: see those lines.";
    assert!(taken.report.whole.iter().any(|said| said == told));
    let summary = table.summary(Unit::Mm);
    assert_eq!(
        summary.from_notes,
        FromNotes {
            ends: 4,
            angles: 1,
            in_doubt: 0
        }
    );
}

#[test]
fn a_note_in_doubt_is_asked_about_and_changes_nothing() {
    let (job, taken) = appended(&file(
        "hole;dia (mm);depth;note\n\
         A;0.8;14;blind or through?\n\
         B;0.8;14;nicht durchgehend\n\
         C;0.8;14;30\u{b0} or 45\u{b0}\n\
         D;0.8;14;deburr\n",
    ));
    assert_eq!(ends(&job), ["", "", "", ""]);
    assert!(job.rows.iter().all(|row| row.angle.is_empty()));
    assert_eq!(
        says(&taken),
        [
            (
                LineOutcome::Guessed,
                "A: the note \u{201c}blind or through?\u{201d} speaks of where the hole ends: say the end"
            ),
            (
                LineOutcome::Guessed,
                "B: the note \u{201c}nicht durchgehend\u{201d} speaks of where the hole ends: say the end"
            ),
            (
                LineOutcome::Guessed,
                "C: the note \u{201c}30\u{b0} or 45\u{b0}\u{201d} speaks of an angle: say the angle"
            ),
            (LineOutcome::Taken, "taken"),
        ]
    );
    let told = "The notes of 3 lines speak of ends or angles that were not read: see those lines.";
    assert!(taken.report.whole.iter().any(|said| said == told));
}

#[test]
fn what_the_line_itself_says_stands_against_its_note() {
    let (job, taken) = appended(&file(
        "hole;dia (mm);depth;end;angle;note\n\
         A;0.8;14;through;30;Sackloch\n\
         B;0.8;14;blind;30;blind, 45 deg\n\
         C;0.8;14;through;;not through\n\
         D;0.8;14;blind;30;blind 30\u{b0}\n\
         E;0.8;14 thru;;;Sackloch\n\
         F;0.8;14;as drawn;;Sackloch\n",
    ));
    assert_eq!(
        ends(&job),
        ["through", "blind", "through", "blind", "", "as drawn"]
    );
    let told = says(&taken);
    assert_eq!(
        told[..5],
        [
            (
                LineOutcome::Guessed,
                "A: the note \u{201c}Sackloch\u{201d} says blind, the line itself through, which stands: see which is right"
            ),
            (
                LineOutcome::Guessed,
                "B: the note \u{201c}blind, 45 deg\u{201d} says 45 deg, the line itself 30, which stands: see which is right"
            ),
            (
                LineOutcome::Guessed,
                "C: the note \u{201c}not through\u{201d} speaks of where the hole ends, the line itself says through, which stands: see which is right"
            ),
            (LineOutcome::Taken, "taken"),
            (
                LineOutcome::Guessed,
                "E: the note \u{201c}Sackloch\u{201d} says blind, the line itself through, which stands: see which is right"
            ),
        ]
    );
    assert_eq!(told[5].0, LineOutcome::Unread);
}

#[test]
fn a_size_that_says_its_end_stands_too() {
    let (job, taken) = appended(&file("hole;size;note\nA;4x \u{2300}0.80 THRU;blind\n"));
    assert_eq!(ends(&job), ["THRU"]);
    assert!(
        says(&taken)[0]
            .1
            .starts_with("A: the note \u{201c}blind\u{201d} says blind")
    );
}

#[test]
fn ends_that_rows_have_are_not_written_over_from_notes() {
    let (job, _) = appended(&file("hole;dia;depth;end\nA;0.8;14;through\nB;0.8;14;\n"));
    let table = pasted("hole\tdia\tnote\nA\t0.8\tSackloch, 30\u{b0}\nB\t0.8\tdeburr");
    let (over, taken) = take(&table, &job, RowsAt::Over { row: 0 });
    assert_eq!(ends(&over), ["through", ""]);
    assert_eq!(over.rows[0].angle.text(), "30\u{b0}");
    assert_eq!(
        says(&taken)[0].1,
        "A: the note \u{201c}Sackloch, 30\u{b0}\u{201d} says blind, which was not taken over rows that have ends: say the end; \
         A: angle 30\u{b0}, read from the note \u{201c}Sackloch, 30\u{b0}\u{201d}"
    );
    let (below, _) = take(&table, &job, RowsAt::Over { row: 2 });
    assert_eq!(ends(&below), ["through", "", "blind", ""]);
}

#[test]
fn notes_that_were_laid_over_notes_are_typing() {
    let table = Foreign::of_rows(&block("Sackloch\ndurchgehend"), &[Some(Column::Note)]);
    let (job, taken) = appended(&table.expect("a table"));
    assert_eq!(ends(&job), ["", ""]);
    assert!(job.reports.is_empty() && taken.report.whole.is_empty());
}

#[test]
fn words_of_a_note_without_a_hole_say_nothing() {
    let (job, _) = appended(&file("hole;dia;note\nA;0.8;deburr\n;;Sackloch\n"));
    assert_eq!(ends(&job), ["", ""]);
}
