//! What is said of a workbook's sheet.

use super::in_quotes;

/// Lines that a sentence names; of more it says how many.
const NAMED: usize = 8;

/// Which sheet was taken, and which weren't.
pub(crate) fn sheet_taken(name: &str, others: &[&str]) -> String {
    let others: Vec<String> = others.iter().map(|name| in_quotes(name)).collect();
    let verb = if others.len() == 1 { "was" } else { "were" };
    let name = in_quotes(name);
    format!(
        "The sheet {name} was taken; {} {verb} not.",
        others.join(", ")
    )
}

/// Lines with a text that is merged over several.
pub(crate) fn merged(lines: &[usize]) -> String {
    format!(
        "What is merged over several lines was taken for each of them: {}.",
        named(lines)
    )
}

/// Lines in which a formula has no result.
pub(crate) fn uncalculated(lines: &[usize]) -> String {
    format!(
        "Formulas without a result were taken as empty: {}; open the workbook in a spreadsheet program, save it and \
         take it again.",
        named(lines)
    )
}

/// That rows or columns of the workbook are hidden.
pub(crate) const HIDES: &str =
    "Rows or columns of the workbook are hidden or filtered out: they are taken like all others.";

/// That text of the workbook is struck out.
pub(crate) const STRIKES: &str =
    "Text of the workbook is struck out, and taken as if it were not: look at it there.";

/// That cells of the workbook have comments.
pub(crate) const COMMENTS: &str =
    "Cells of the workbook have comments, which are not read: look at them there.";

/// Lines with a date.
pub(crate) fn dates(lines: &[usize]) -> String {
    format!(
        "There are dates: {}; a spreadsheet makes one of a fraction such as 3/8 that is typed into it.",
        named(lines)
    )
}

/// Lines with a number that is shown as a fraction.
pub(crate) fn fractions(lines: &[usize]) -> String {
    format!(
        "There are numbers shown as fractions: {}; a fraction is inches as a rule: see which unit is meant.",
        named(lines)
    )
}

/// Lines with a cell that is struck through.
pub(crate) fn struck(lines: &[usize]) -> String {
    format!(
        "There are cells that are struck through, and taken as if they were not: {}; leave out the rows that are void.",
        named(lines)
    )
}

fn named(lines: &[usize]) -> String {
    let first: Vec<String> = lines.iter().take(NAMED).map(ToString::to_string).collect();
    let word = if lines.len() == 1 { "line" } else { "lines" };
    match lines.len().saturating_sub(NAMED) {
        0 => format!("{word} {}", first.join(", ")),
        more => format!("{word} {} and {more} more", first.join(", ")),
    }
}
