//! Lines of text that are heads of a table of holes.

use quillbore_job::Column;

use super::across::begins_as_number;
use super::callouts::speaks;
use super::line::Line;
use crate::head::{Head, Says};
use crate::meaning::Meaning;

/// Heads are no farther apart, in parts of the letters' size; common practice, no source.
const APART: f64 = 30.0;

/// A table has few columns.
const MOST_COLUMNS: usize = 30;

/// Parts of a line of texts that are heads of a table of holes.
pub(super) fn heads(lines: &[Line], row: &[usize], used: &[bool]) -> Vec<Vec<usize>> {
    let mut parts: Vec<Vec<usize>> = Vec::new();
    for at in row.iter().copied().filter(|at| !used[*at]) {
        let near = parts
            .last()
            .and_then(|part| part.last())
            .is_some_and(|last| {
                let (last, line) = (&lines[*last], &lines[at]);
                line.from - last.to <= APART * line.size
            });
        match parts.last_mut() {
            Some(part) if near => part.push(at),
            _ => parts.push(vec![at]),
        }
    }
    let parts = parts.into_iter().flat_map(|part| {
        let apart = side_by_side(lines, &part);
        match apart.iter().all(|part| are_heads(lines, part)) {
            true => apart,
            false => vec![part],
        }
    });
    parts.filter(|part| are_heads(lines, part)).collect()
}

/// Heads of tables that stand side by side: each begins with what the first one begins with, or says the same.
fn side_by_side(lines: &[Line], part: &[usize]) -> Vec<Vec<usize>> {
    let Some(first) = part.first().map(|at| Head::of(&lines[*at].text)) else {
        return Vec::new();
    };
    let begins = |at: &usize| {
        let head = Head::of(&lines[*at].text);
        head.folded == first.folded
            || (matches!(first.says, Says::Plainly(_)) && head.says == first.says)
    };
    let mut apart: Vec<Vec<usize>> = Vec::new();
    for at in part {
        match apart.last_mut() {
            Some(last) if !begins(at) => last.push(*at),
            _ => apart.push(vec![*at]),
        }
    }
    apart
}

fn are_heads(lines: &[Line], part: &[usize]) -> bool {
    let says = |at: &usize| Head::of(&lines[*at].text).says;
    let is_size = |at: &usize| is_of_sizes(&lines[*at].text);
    let known = part
        .iter()
        .filter(|at| says(at).may_be(None) || is_size(at));
    let known = known.count();
    // Callouts in a row are no heads.
    let callouts = part.iter().filter(|at| speaks(&lines[**at].text)).count();
    let numbers = part.iter().any(|at| begins_as_number(&lines[*at].text));
    part.len() <= MOST_COLUMNS
        && !numbers
        && callouts < 2
        && (known >= 3 || (known >= 2 && part.iter().any(is_size)))
        && 2 * known >= part.len()
}

/// Whether sizes stand below a head.
pub(super) fn is_of_sizes(head: &str) -> bool {
    let size = Meaning::Ours(Column::Size);
    Head::of(head).says.may_be(Some(size)) || names_a_size(head)
}

/// Whether one of the few words of a text is one for a size: `SIZE AND DEPTH`, `DIA +`.
fn names_a_size(text: &str) -> bool {
    let size = Says::Plainly(Meaning::Ours(Column::Size));
    let words: Vec<&str> = text.split_whitespace().collect();
    words.len() <= 3 && words.iter().any(|word| Head::of(word).says == size)
}

/// The one head that names a size beside other things, where none says plainly where the sizes stand: `SIZE AND
/// DEPTH`, above callouts.
pub(super) fn of_size_and_more(heads: &[String]) -> Option<usize> {
    let sizes = [Meaning::Ours(Column::Size), Meaning::Lower, Meaning::Upper];
    let says_so = |head: &String| {
        sizes
            .iter()
            .any(|size| Head::of(head).says.may_be(Some(*size)))
    };
    if heads.iter().any(says_so) {
        return None;
    }
    let mut named = (0..heads.len()).filter(|at| {
        heads
            .get(*at)
            .is_some_and(|head| names_a_size(head) && signed_size(head).is_none())
    });
    let only = named.next()?;
    named.next().is_none().then_some(only)
}

/// The sign behind a word for a size: `DIA +`.
pub(super) fn signed_size(text: &str) -> Option<char> {
    let text = text.trim();
    let sign = text.chars().next_back()?;
    let word = text.trim_end_matches(sign);
    (matches!(sign, '+' | '-') && names_a_size(word)).then_some(sign)
}

/// Whether every line of its own has a cell under such a head: what stands under others may go on below.
pub(super) fn is_of_every_row(head: &str) -> bool {
    let meaning = match Head::of(head).says {
        Says::Plainly(meaning) | Says::InPart(meaning) => Some(meaning),
        Says::OneOf { meanings, .. } => meanings.first().copied(),
        Says::Nothing | Says::Other => None,
    };
    matches!(
        meaning,
        Some(
            Meaning::Ours(Column::Mark | Column::Count | Column::Size)
                | Meaning::Lower
                | Meaning::Upper
                | Meaning::Point(_)
        )
    )
}

/// Whether a text below a head is a part of it: a unit, or a word that says with it what the column holds.
pub(super) fn goes_on(head: &str, below: &str) -> bool {
    let both = Head::of(&format!("{head} {below}"));
    let own = Head::of(below);
    crate::head_unit::is_unit_alone(below)
        || (matches!(both.says, Says::Plainly(_))
            && matches!(own.says, Says::Plainly(_) | Says::OneOf { .. }))
}
