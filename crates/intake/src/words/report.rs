//! What became of a table and its lines.

use quillbore_job::words::english;
use quillbore_job::{Column, Unit};

use super::columns::{holds, question, why};
use super::units::named;
use super::{count, in_quotes, notes};
use crate::cell_words::TakenWord;
use crate::column::{Holds, Question, Why};
use crate::summary::{Summary, Units};

/// Longest text of a cell that the report of a line repeats, in characters.
const QUOTED: usize = 200;

/// That a line was taken as it stands.
pub(crate) const TAKEN: &str = "taken";

/// That a line is a further hole location of the row before.
pub(crate) const FURTHER_PLACE: &str = "taken as a further hole location of the row before";

/// That a size stood beside its tolerance and limits in no known way.
pub(crate) const SIZE_AND_LIMITS: &str = "the size and its limits could not be told apart";

/// That a row has no count where others have one.
pub(crate) const NO_COUNT: &str = "no count, where other rows have one: taken as one hole";

/// That a place lacks a coordinate.
pub(crate) const HALF_A_PLACE: &str =
    "a hole location needs x and y at least: what there was went into the note";

/// That an axis has no length.
pub(crate) const NO_DIRECTION: &str = "the direction has no length: it went into the note";

/// The head of a table: its line where that isn't the first, and the words that were known.
pub(crate) fn head_taken(line: Option<usize>, known: &[&str]) -> String {
    let line = line.map_or_else(
        || "The first line".to_owned(),
        |line| format!("Line {line}"),
    );
    match known {
        [] => format!("{line} was taken as the head."),
        known => {
            let known = known.join(", ");
            // The last may be an abbreviation.
            let known = known.strip_suffix('.').unwrap_or(&known);
            format!("{line} was taken as the head: {known}.")
        }
    }
}

/// Columns without a head that were taken in the hole table's order.
pub(crate) fn in_order(columns: &[&str]) -> String {
    format!(
        "There is no head: the columns were taken in the hole table's order, {}.",
        columns.join(", ")
    )
}

/// Columns with a head and nothing below it.
pub(crate) fn nothing_under(heads: &[&str]) -> String {
    let heads: Vec<String> = heads.iter().map(|head| in_quotes(head)).collect();
    format!("There is nothing under {}.", heads.join(", "))
}

/// What parts the cells.
pub(crate) fn separator(separator: char) -> String {
    let separated_by = match separator {
        '\t' => "tabs".to_owned(),
        ';' => "semicolons".to_owned(),
        ',' => "commas".to_owned(),
        '|' => "upright strokes".to_owned(),
        ' ' => "blanks".to_owned(),
        other => in_quotes(&other.to_string()),
    };
    format!("The cells are separated by {separated_by}.")
}

/// The letters of a file were taken as a code page that it doesn't name.
pub(crate) fn encoding_guessed(encoding: &str) -> String {
    format!(
        "The file does not say how its letters are stored; {encoding} was taken: check characters such as the diameter sign and \u{b1}."
    )
}

/// That sizes look as if they were meant in another unit than they were read in.
pub(crate) fn looks_like(unit: Unit) -> String {
    format!(
        "The sizes look like {}: see which unit is meant.",
        named(unit)
    )
}

/// How many holes there are in how many rows.
#[must_use]
pub fn holes_in_rows(holes: u64, rows: usize) -> String {
    format!(
        "{} in {}",
        count(holes, "hole", "holes"),
        count(rows as u64, "row", "rows")
    )
}

/// Rows whose count can't be read.
pub(crate) fn uncounted(rows: usize) -> String {
    match rows {
        1 => "the count of 1 row can't be read and stands for one hole".to_owned(),
        rows => format!("the counts of {rows} rows can't be read and stand for one hole each"),
    }
}

/// A table before it is taken, in one line: `69 holes in 14 rows`, what its sum says, and the unit
/// where that is a question.
#[must_use]
pub fn summary(summary: &Summary) -> String {
    let mut said = vec![holes_in_rows(summary.holes, summary.rows)];
    if summary.uncounted > 0 {
        said.push(uncounted(summary.uncounted));
    }
    if let Some(sum) = summary.sum.filter(|sum| sum.holes != summary.holes) {
        said.push(format!("line {} says {}", sum.line, sum.holes));
    }
    said.extend(notes::read(summary.from_notes));
    said.extend(units_question(summary.units));
    said.join("; ")
}

/// What is asked of the unit; nothing where the table names one.
#[must_use]
pub fn units_question(units: Units) -> Option<String> {
    match units {
        Units::Named(_) | Units::InCells => None,
        Units::Several => Some("the heads name several units".to_owned()),
        Units::Unnamed { looks: None } => {
            Some("no unit is named: millimeters or inches?".to_owned())
        }
        Units::Unnamed { looks: Some(unit) } => Some(format!(
            "no unit is named: the sizes look like {}",
            named(unit)
        )),
    }
}

/// A column that was guessed.
pub(crate) fn guessed(question: &Question, what: Holds, by: Why) -> String {
    let said = self::question(question);
    match what {
        Holds::LeftOut => format!("Left out, {}: {said}.", why(by)),
        Holds::A(_) => format!("Taken as {}, {}: {said}.", holds(what), why(by)),
    }
}

/// A column that was understood by what was said of an earlier table.
pub(crate) fn remembered(question: &Question, what: Holds) -> String {
    let said = self::question(question);
    match what {
        Holds::LeftOut => format!("Left out, as before: {said}."),
        Holds::A(_) => format!("Taken as {}, as before: {said}.", holds(what)),
    }
}

/// A column was said to hold something.
pub(crate) fn said(question: &Question, what: Holds) -> String {
    match what {
        Holds::LeftOut => format!("Left out: {}.", self::question(question)),
        Holds::A(_) => format!("Taken as {}: {}.", holds(what), self::question(question)),
    }
}

/// A cell of a line that is left out.
pub(crate) fn cell_left_out(head: &str, cell: &str) -> String {
    let head = if head.is_empty() {
        String::new()
    } else {
        format!("{head} ")
    };
    format!("left out: {}", in_quotes(&format!("{head}{cell}")))
}

/// A cell that can't be read; the table keeps its whole text.
pub(crate) fn unread(column: Column, text: &str, why: &str) -> String {
    let why = why.trim_end_matches('.');
    format!(
        "{} {}: {why}",
        english::column(column).head,
        in_quotes(&shortened(text))
    )
}

/// The beginning of a long text.
pub(super) fn shortened(text: &str) -> String {
    let mut start: String = text.chars().take(QUOTED).collect();
    if start.len() < text.len() {
        start.push('\u{2026}');
    }
    start
}

/// Line ends inside the quoted cells of a line.
pub(crate) fn line_breaks(breaks: usize) -> String {
    let more = match breaks {
        1 => "the line after it belongs".to_owned(),
        breaks => format!("the {breaks} lines after it belong"),
    };
    format!("{more} to it: a cell in quotes goes on there")
}

/// That both limits count and the size beside them doesn't.
pub(crate) fn left_for_limits(nominal: &str, lower: &str, upper: &str) -> String {
    format!("the limits {lower} and {upper} were taken, not the size {nominal}")
}

/// That a place can't be read.
pub(crate) fn place_unread(why: &str) -> String {
    format!("the hole location went into the note: {why}")
}

/// A cell whose parts went into cells of their own.
pub(crate) fn split(cell: &str, parts: &[(Column, String)]) -> String {
    let parts: Vec<String> = parts
        .iter()
        .map(|(column, part)| format!("{} {part}", english::column(*column).head))
        .collect();
    format!("{} became {}", in_quotes(cell), parts.join(", "))
}

/// A cell that was put into English.
pub(crate) fn read_as(cell: &str, english: &str) -> String {
    format!("{} read as {english}", in_quotes(cell))
}

/// How many cells were taken apart, and the first of them.
pub(crate) fn split_cells(cells: usize, line: usize, first: &str) -> String {
    match cells {
        1 => format!("One cell was taken apart, in line {line}: {first}."),
        cells => format!("{cells} cells were taken apart, the first in line {line}: {first}."),
    }
}

/// A part of a cell that another cell of the line contradicts.
pub(crate) fn part_in_note(part: &str, cell: &str, column: Column) -> String {
    format!(
        "{} of {} went into the note: the line has another {}",
        in_quotes(part),
        in_quotes(cell),
        english::column(column).name
    )
}

/// A callout whose depth stands without THRU.
pub(crate) fn blind_by_depth(callout: &str) -> String {
    format!(
        "{} has a depth and no THRU: taken as blind",
        in_quotes(callout)
    )
}

/// An end that a line without a cross has.
pub(crate) fn no_cross(crossed: &str, other: &str) -> String {
    format!("not crossed as {crossed}: taken as {other}")
}

/// Words of cells that were taken as others.
pub(crate) fn words_taken<'a>(words: impl Iterator<Item = &'a TakenWord>) -> String {
    let each = words.map(|taken| match taken.english {
        "" => format!("{} left out", in_quotes(&taken.word)),
        english => format!("{} as {english}", in_quotes(&taken.word)),
    });
    format!(
        "Words of cells were taken: {}.",
        each.collect::<Vec<_>>().join(", ")
    )
}

/// A line above the head.
pub(crate) fn above_the_head(text: &str) -> String {
    format!("above the head: {}", in_quotes(text))
}

/// A line that says what separates the cells.
pub(crate) fn separator_line(separator: char) -> String {
    format!(
        "taken: {} says what parts the cells",
        in_quotes(&format!("sep={separator}"))
    )
}

/// A further line of the head.
pub(crate) fn part_of_head(text: &str) -> String {
    format!("taken as a part of the head: {}", in_quotes(text))
}

/// A line that repeats the head.
pub(crate) fn head_again(text: &str) -> String {
    format!("taken as the head once more: {}", in_quotes(text))
}

/// A line that is drawn.
pub(crate) fn rule(text: &str) -> String {
    format!("taken as a rule: {}", in_quotes(text))
}

/// A line of words among the rows.
pub(crate) fn no_hole(text: &str) -> String {
    format!("words without a hole: {}", in_quotes(text))
}

/// Which way the directions of a table are taken to point.
pub(crate) const SENSE_OF_AXES: &str = "I, J and K are taken as the way that the tool goes, into the part; a list that gives the tool's axis out of the part has every sign the other way.";

/// A line of a further table below.
pub(crate) fn further_table(text: &str) -> String {
    format!(
        "of a further table below, whose head is another: {}; take it by itself",
        in_quotes(text)
    )
}

/// A mark that names several holes, in a line without a count.
pub(crate) fn several_marks(mark: &str, holes: u32) -> String {
    format!("no count: {} names {holes} holes", in_quotes(mark))
}

/// A mark that may name several holes.
pub(crate) fn maybe_several_marks(mark: &str) -> String {
    format!(
        "no count: taken as one hole, and {} may name several",
        in_quotes(mark)
    )
}

/// Rows whose count is another than the number of their several locations, by mark.
pub(crate) fn counts_and_places(rows: &[(String, u32, usize)]) -> Option<String> {
    let each = each_count(rows)?;
    Some(format!(
        "The count is not the number of locations, and the locations count: {each}."
    ))
}

/// Rows of several holes with one location, by mark.
pub(crate) fn counts_and_one_place(rows: &[(String, u32, usize)]) -> Option<String> {
    let each = each_count(rows)?;
    Some(format!(
        "Several holes and one location in a line: the count counts, and the location stands in the note: {each}."
    ))
}

/// Rows with what they say and have, the first of them.
fn each_count(rows: &[(String, u32, usize)]) -> Option<String> {
    const TOLD: usize = 5;
    let each = rows.iter().take(TOLD).map(|(mark, count, places)| {
        let name = if mark.is_empty() {
            "a row without a mark"
        } else {
            mark
        };
        format!("{name} says {count} and has {places}")
    });
    let each = each.collect::<Vec<_>>().join(", ");
    match rows.len().saturating_sub(TOLD) {
        _ if rows.is_empty() => None,
        0 => Some(each),
        more => Some(format!("{each}, and so {more} more")),
    }
}

/// The one location of several holes, for their note.
pub(crate) fn one_place_of(count: u32, typed: &str) -> String {
    format!("one location of {count}: {typed}")
}

/// A line that sums up.
pub(crate) fn sum(text: &str, agrees: bool) -> String {
    let agrees = if agrees {
        ", which the rows come to"
    } else {
        ""
    };
    format!("a sum{agrees}: {}", in_quotes(text))
}

/// A sum that the rows don't come to.
pub(crate) fn sum_differs(text: &str, holes: u64) -> String {
    format!(
        "a sum: {}, but the rows come to {}: see which is right",
        in_quotes(text),
        count(holes, "hole", "holes")
    )
}
