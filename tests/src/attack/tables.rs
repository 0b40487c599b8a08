//! Hole tables from files and from the clipboard.

use std::collections::BTreeSet;

use quillbore_intake::delimited;
use quillbore_intake::encoding::decode;
use quillbore_intake::{Foreign, Holds, IntakeError, Meaning, Taken};
use quillbore_job::{Column, Job, RowsAt, Unit, apply};

use super::files::comes_back;
use super::pick::Pick;

/// Whatever the bytes: every line that anything stands in is taken or told, or one sentence.
pub(super) fn file(bytes: &[u8]) {
    let mut foreign = match Foreign::of_file(bytes, "holes.csv") {
        Ok(foreign) => foreign,
        Err(error) => return is_sentence(&error),
    };
    say_all(&mut foreign, bytes);
    let taken = taken(&foreign, &Job::default(), RowsAt::Append);
    let text = decode(bytes).map(|decoded| decoded.text.into_owned());
    let text = text.unwrap_or_default();
    let Ok(cells) = delimited::split(&text, &|_| false) else {
        panic!("read, but not to be split");
    };
    // Lines in are lines read, and each of those is the head, or told, and no other.
    let mut belongs = BTreeSet::new();
    for line in cells.lines.from(0) {
        for number in line.number..=line.number + line.breaks {
            assert!(belongs.insert(number), "line {number} twice");
        }
    }
    let blanks = [cells.separator, '"'];
    for (number, line) in (1..).zip(lines_of(&text)) {
        let is_blank = line.trim_matches(|l: char| l.is_whitespace() || blanks.contains(&l));
        if !is_blank.is_empty() {
            assert!(belongs.contains(&number), "line {number} {line:?} is lost");
        }
    }
    let told: BTreeSet<usize> = taken
        .report
        .lines
        .iter()
        .map(|l| l.number as usize)
        .collect();
    let heads = usize::from(foreign.is_headed());
    let read: Vec<usize> = cells.lines.from(0).map(|line| line.number).collect();
    assert!(
        told.len() == taken.report.lines.len(),
        "a line is told twice"
    );
    let lost: Vec<&usize> = read
        .iter()
        .filter(|number| !told.contains(number))
        .collect();
    assert!(
        lost.len() == heads,
        "lines {lost:?} are neither taken nor told"
    );
}

/// Whatever the text on the clipboard: every line is in a row, and the paste is a job that is read
/// as it was written.
pub(super) fn block(bytes: &[u8]) {
    let text = String::from_utf8_lossy(bytes);
    let rows = delimited::block(&text);
    let ends = |text: &str| lines_of(text).count() - 1;
    let inside: usize = rows.iter().flatten().map(|cell| ends(cell)).sum();
    let last = usize::from(text.ends_with(['\n', '\r']) && !text.ends_with('"'));
    assert!(
        rows.len() + inside + last == lines_of(&text).count() || inside > 0,
        "{} rows with {inside} line ends of {text:?}",
        rows.len()
    );
    let letters = |text: &str| text.chars().filter(|l| !"\t\r\n\"".contains(*l)).count();
    let kept: usize = rows.iter().flatten().map(|cell| letters(cell)).sum();
    assert!(kept == letters(&text), "letters are lost: {rows:?}");
    let places: Vec<Option<Column>> = Column::ALL.iter().copied().map(Some).collect();
    let mut foreign = match Foreign::of_rows(&rows, &places) {
        Ok(foreign) => foreign,
        Err(error) => return is_sentence(&error),
    };
    say_all(&mut foreign, bytes);
    let (job, _) = match apply(&Job::default(), &there()) {
        Ok(done) => done,
        Err(refused) => panic!("{refused}"),
    };
    let row = usize::from(bytes.first().copied().unwrap_or(0)) % 4;
    taken(&foreign, &job, RowsAt::Over { row });
}

fn there() -> quillbore_job::Edit {
    quillbore_job::Edit::InsertRows {
        before: 0,
        count: 3,
    }
}

/// Says of every column that is asked about something that it may be.
pub(super) fn say_all(foreign: &mut Foreign, bytes: &[u8]) {
    let mut pick = Pick::new(bytes);
    for question in foreign.questions() {
        let choices = foreign.choices();
        let holds = pick.of(&choices);
        let said = foreign.say(question.column, holds);
        assert!(said.is_ok(), "{said:?} of a choice");
    }
    for question in foreign.questions() {
        let said = foreign.say(question.column, Holds::LeftOut);
        assert!(said.is_ok(), "{said:?}");
    }
    // A file without sizes is taken where somebody says what it is.
    if foreign.take(&Job::default(), RowsAt::Append, Unit::Mm) == Err(IntakeError::NoSizes) {
        let columns = foreign.columns();
        let first = columns
            .iter()
            .find_map(|column| Some((column.about.column, column.holds?)));
        if let Some((first, holds)) = first {
            let said = foreign.say(first, holds);
            assert!(said.is_ok(), "{said:?} of what it holds");
        }
    }
}

/// What a table comes to whose columns are all said: the edit is done and read again, or refused with a reason.
pub(super) fn taken(foreign: &Foreign, job: &Job, at: RowsAt) -> Taken {
    let taken = match foreign.take(job, at, Unit::Mm) {
        Ok(taken) => taken,
        Err(error) => panic!("{error} though every column is said"),
    };
    match apply(job, &taken.edit) {
        Ok((job, _)) => comes_back(&job),
        Err(refused) => assert!(!refused.to_string().is_empty() && !refused.hint().is_empty()),
    }
    taken
}

fn lines_of(text: &str) -> impl Iterator<Item = &str> {
    // A carriage return and a line feed are one line end.
    let mut rest = Some(text);
    std::iter::from_fn(move || {
        let text = rest?;
        let Some(end) = text.find(['\n', '\r']) else {
            rest = None;
            return Some(text);
        };
        let after = &text[end..];
        let after = after.strip_prefix("\r\n").unwrap_or(&after[1..]);
        rest = Some(after);
        Some(&text[..end])
    })
}

fn is_sentence(error: &IntakeError) {
    assert!(!error.to_string().is_empty() && !error.hint().is_empty());
    assert!(
        !matches!(error, IntakeError::Twice(Meaning::Tolerance)),
        "nobody said anything yet"
    );
}
