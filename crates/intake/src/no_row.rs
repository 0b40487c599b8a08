//! Lines of a table that are no rows, each by itself: rules, sums, remarks.

use quillbore_job::Column;

use crate::fold::{Key, Token, tokens};
use crate::lines::Line;
use crate::meaning::Meaning;
use crate::trade_words::{Heading, heading, is_filler, is_hole_word, is_total_word};
use crate::values::{Kind, is_hole_and_mark, kind};

/// What a line is that is no row.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Role {
    /// It says what separates the cells.
    Separator,
    /// It stands above the head.
    Title,
    /// It is the head, or a part of it.
    Head,
    /// It repeats the head.
    HeadAgain,
    /// It is drawn: `|---|---|`.
    Rule,
    /// It sums up; the number of holes in all, where it gives one.
    Sum(Option<u64>),
    /// It has words and nothing else, where holes have several cells.
    Words,
    /// It belongs to a further table below, whose head is another.
    Further,
}

/// What a line is by itself that is no row.
pub(crate) fn role_by_itself(at: usize, line: Line<'_>, width: usize, laid: bool) -> Option<Role> {
    let mut cells = filled_cells(line);
    let (_, first) = cells.next()?;
    if at == 0 && cells.next().is_none() && is_separator(first) {
        return Some(Role::Separator);
    }
    if is_rule(line, laid) {
        return Some(Role::Rule);
    }
    (width >= 2).then(|| sum_of(line)).flatten().map(Role::Sum)
}

/// `sep=`, as spreadsheets write it above everything.
fn is_separator(cell: &str) -> bool {
    let cell = cell.trim();
    cell.len() <= 5
        && cell
            .get(..4)
            .is_some_and(|sep| sep.eq_ignore_ascii_case("sep="))
}

/// Cells of strokes alone, three at least; where cells were laid one by one, in each of them.
fn is_rule(line: Line<'_>, laid: bool) -> bool {
    let mut strokes = 0;
    let drawn = |(_, cell): (usize, &str)| {
        let cell = cell.trim();
        let dashes = cell
            .chars()
            .filter(|sign| "-=_\u{2500}".contains(*sign))
            .count();
        strokes += dashes;
        let others = cell.chars().any(|sign| !"-=_:+ \u{2500}".contains(sign));
        !others && dashes >= if laid { 3 } else { 1 }
    };
    filled_cells(line).all(drawn) && strokes >= 3
}

/// The sum that a line gives: words for it in its first cell, and numbers alone in the others.
/// The inner is none where it is no whole number.
fn sum_of(line: Line<'_>) -> Option<Option<u64>> {
    let mut cells = filled_cells(line);
    let (_, first) = cells.next()?;
    let begins = first.trim_start().chars().next()?;
    if first.len() > 60 || !(begins.is_alphabetic() || begins == '\u{3a3}' || begins == '\u{2211}')
    {
        return None;
    }
    let words = tokens(first);
    if !words.iter().any(|word| is_total_word(&Key::of([word]))) {
        return None;
    }
    let (numbers, words): (Vec<&Token>, Vec<&Token>) = words
        .iter()
        .partition(|word| word.spelled().chars().all(|l| l.is_ascii_digit()));
    if !words.iter().all(|word| is_of_a_sum(word)) || numbers.len() > 1 {
        return None;
    }
    let mut found: Vec<&str> = numbers.iter().map(|word| word.spelled()).collect();
    for (_, cell) in cells {
        let cell = cell.trim();
        let cell = cell.trim_end_matches(['x', 'X', '\u{d7}']).trim_end();
        if !cell
            .chars()
            .all(|letter| letter.is_ascii_digit() || ".,".contains(letter))
        {
            return None;
        }
        found.push(cell);
    }
    Some(found.iter().find_map(|number| number.parse().ok()))
}

/// A word that can stand in a sum: total, holes, count.
fn is_of_a_sum(word: &Token) -> bool {
    let key = Key::of([word]);
    let count = |says| match says {
        Heading::One(meaning) => meaning == Meaning::Ours(Column::Count),
        Heading::OneOf { meanings, .. } => meanings.contains(&Meaning::Ours(Column::Count)),
        Heading::Other => false,
    };
    is_total_word(&key) || is_hole_word(&key) || is_filler(&key) || heading(&key).is_some_and(count)
}

/// Words that are no mark: two at least, or a caption with a colon.
pub(crate) fn is_a_remark(cell: &str) -> bool {
    let words: Vec<&str> = cell.split_whitespace().collect();
    let letters = |word: &&&str| word.chars().filter(|letter| letter.is_alphabetic()).count() >= 2;
    let spoken = words.iter().filter(letters).count();
    !is_hole_and_mark(&words) && (spoken >= 2 || (spoken >= 1 && cell.trim().ends_with(':')))
}

/// Whether a cell that stands alone in its line marks no hole: a caption such as `Side 2`, a name.
pub(crate) fn is_no_mark(cell: &str) -> bool {
    let cell = cell.trim();
    let digits = cell.chars().all(|letter| letter.is_ascii_digit());
    !digits
        && !matches!(
            kind(cell),
            Kind::Mark
                | Kind::FitOrMark
                | Kind::Numbered
                | Kind::Callout
                | Kind::Size
                | Kind::Limited
        )
}

/// The cells of a line that anything stands in, with their columns.
pub(crate) fn filled_cells(line: Line<'_>) -> impl Iterator<Item = (usize, &str)> {
    line.cells()
        .enumerate()
        .filter(|(_, cell)| !cell.trim().is_empty())
}
