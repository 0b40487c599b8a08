//! Texts of a page that speak of holes, in the order of reading.

use quillbore_job::{Column, Unit, read_quantity as read};

use super::behind::{Joined, join_behind};
use super::body::said;
use super::chart::Chart;
use super::charts::{Charts, charts};
use super::line::{Line, Marks, around};
use super::notice::Notice;
use super::seen::{Doubt, Part, SeenCallout, Spot};
use super::stacked::below;
use super::stacked_limits::{are_cells, are_limits};
use crate::callout::{Callout, split};
use crate::cell_words::{CellWord, cell_word, with_signs};
use crate::dxf::speaks_of_hole;
use crate::set_apart::{count_of_circle, is_circle_alone};

/// A callout is written in so many lines at most.
const MOST_LINES: usize = 3;

/// What speaks of holes on a page.
pub(super) struct Found {
    pub(super) callouts: Vec<SeenCallout>,
    /// The tables that some of them are lines of.
    pub(super) charts: Vec<Chart>,
    pub(super) notices: Vec<Notice>,
}

/// The callouts of a page, where `before` are the tables of the page before it.
pub(super) fn callouts(lines: &[Line], page: usize, size: [f64; 2], before: &[Chart]) -> Found {
    let Charts {
        charts,
        used,
        apart,
        mut notices,
        ..
    } = charts(lines, before);
    let mut found: Vec<SeenCallout> = Vec::new();
    for (number, chart) in charts.iter().enumerate() {
        for (row, place, marks) in chart.rows() {
            found.push(SeenCallout {
                text: chart.text(row),
                page,
                place,
                spot: Spot::of(place, size),
                count: None,
                parts: Vec::new(),
                doubts: doubts(marks, false),
                row: Some((number, row)),
            });
        }
    }
    let Joined {
        lines,
        apart,
        notices: told,
    } = join_behind(lines, &used, &apart);
    notices.extend(told);
    let lines = lines.as_slice();
    let mut used = vec![false; lines.len()];
    let mut below = below(lines);
    let all_below = below.clone();
    // Cells below each other are no callout.
    for (at, under) in below.iter_mut().enumerate() {
        let is_cell = |under: usize| {
            let number = |sign: char| sign.is_ascii_digit() || matches!(sign, '.' | ',');
            let is_bare = lines[at].text.trim().chars().all(number);
            apart[at] || apart[under] || (is_bare && are_cells(lines, at, under))
        };
        if under.is_some_and(is_cell) {
            *under = None;
        }
    }
    let speaks: Vec<bool> = lines.iter().map(|line| speaks(&line.text)).collect();
    let counts = counts(lines);
    for first in 0..lines.len() {
        if used[first] {
            continue;
        }
        let Some(mut chain) = chain(lines, first, &below, &speaks, &used) else {
            continue;
        };
        if let Some(before) = count_beside(lines, chain[0], &counts, &used) {
            chain.insert(0, before);
        }
        let text = said(lines, &chain);
        let parted = split_either(&text);
        let all = chain.iter().map(|at| &lines[*at]);
        let marks = all
            .clone()
            .fold(Marks::default(), |marks, line| marks.and(line.marks));
        let place = all.map(Line::place).reduce(around).unwrap_or_default();
        let under = chain.last().and_then(|last| all_below[*last]);
        if let Some(under) = under.filter(|under| is_other_limit(&text, &lines[*under].text)) {
            notices.push(Notice::NotJoined(text.clone(), lines[under].text.clone()));
        }
        for at in chain {
            used[at] = true;
        }
        found.push(SeenCallout {
            page,
            place,
            spot: Spot::of(place, size),
            count: parted.as_ref().and_then(count),
            doubts: doubts(marks, parted.is_none()),
            parts: parted.map(parts).unwrap_or_default(),
            text,
            row: None,
        });
    }
    let loose = (0..lines.len()).filter(|at| !used[*at] && !apart[*at]);
    let loose = loose.map(|at| lines[at].text.trim());
    let loose = loose.filter(|text| is_part_alone(text)).map(str::to_owned);
    let mut loose: Vec<String> = loose.collect();
    // What is told beside a callout needs no second word.
    loose.retain(|text| {
        let is_told =
            |notice: &Notice| matches!(notice, Notice::NotJoined(_, told) if told == text);
        !notices.iter().any(is_told)
    });
    if !loose.is_empty() {
        notices.push(Notice::Loose(loose));
    }
    found.sort_by(|a, b| {
        a.place[1]
            .total_cmp(&b.place[1])
            .then(a.place[0].total_cmp(&b.place[0]))
    });
    Found {
        callouts: found,
        charts,
        notices,
    }
}

/// Whether a number below a callout may be the other limit of its size.
fn is_other_limit(callout: &str, below: &str) -> bool {
    let is_number = |sign: char| sign.is_ascii_digit() || matches!(sign, '.' | ',');
    let number = callout.trim_end().rsplit(|sign| !is_number(sign)).next();
    let below = below.trim();
    number.is_some_and(|number| {
        below.chars().all(is_number) && (are_limits(number, below) || are_limits(below, number))
    })
}

/// Whether a text says how a hole ends or how deep it is, and nothing of its size: `THRU ALL`, `↧ 12`.
fn is_part_alone(text: &str) -> bool {
    let mut words = text.split_whitespace();
    let first = words.next().unwrap_or_default();
    let is_end = matches!(
        cell_word(first, Column::End),
        Some(CellWord::Through | CellWord::Blind)
    );
    let says_depth = || {
        let all: Vec<&str> = text.split_whitespace().collect();
        let is_deep = |word: &&str| cell_word(word, Column::Depth) == Some(CellWord::Deep);
        all.len() <= 3
            && all.iter().any(is_deep)
            && text.contains(|sign: char| sign.is_ascii_digit())
    };
    (is_end && words.count() <= 1) || text.starts_with('\u{21a7}') || says_depth()
}

/// Lines that say how many and nothing else.
fn counts(lines: &[Line]) -> Vec<usize> {
    let all = (0..lines.len()).filter(|at| is_count(&lines[*at].text));
    all.take(MOST_COUNTS).collect()
}

/// So many lines of a page are looked at for a count beside a callout.
const MOST_COUNTS: usize = 1_000;

/// The count that stands before a callout, where a sign between them is drawn as lines and no letter: `4X`, room for
/// one, `0.80 THRU`.
fn count_beside(lines: &[Line], first: usize, counts: &[usize], used: &[bool]) -> Option<usize> {
    let line = &lines[first];
    let is_counted = split_either(&line.text).is_none_or(|callout| count(&callout).is_some());
    if is_counted {
        return None;
    }
    let stands = |at: &usize| {
        let before = &lines[*at];
        let turn = before.along[0] * line.along[0] + before.along[1] * line.along[1];
        let gap = (line.from - before.to) / line.size;
        !used[*at]
            && turn > 1.0 - 1e-3
            && (before.base - line.base).abs() <= OFF * line.size
            && (0.0..=ROOM).contains(&gap)
    };
    counts.iter().copied().find(stands)
}

/// In parts of the letters' size: how far a count may stand off the base line of its callout, and the room of a sign
/// between them; common practice, no source.
const OFF: f64 = 0.35;
const ROOM: f64 = 2.0;

/// The lines that are one callout, from its first; `None` where that begins none.
fn chain(
    lines: &[Line],
    first: usize,
    below: &[Option<usize>],
    speaks: &[bool],
    used: &[bool],
) -> Option<Vec<usize>> {
    let mut chain = vec![first];
    let mut best = speaks[first].then(|| chain.clone());
    let counts = counts_below(&lines[first].text);
    while chain.len() < MOST_LINES {
        let last = chain.last().copied()?;
        let Some(next) = below[last].filter(|next| !used[*next]) else {
            break;
        };
        let goes_on = if speaks[next] {
            // A count over what it counts, or the circle that holes lie on.
            (counts && chain.len() == 1)
                || is_circle_alone(&lines[next].text)
                || is_counted_below(lines, &chain, next, below)
        } else {
            goes_on(lines, next, below, speaks)
        };
        if !goes_on {
            break;
        }
        chain.push(next);
        let text = said(lines, &chain);
        if self::speaks(&text) && split_either(&text).is_some() {
            best = Some(chain.clone());
        }
    }
    best
}

/// Whether a line that is no callout itself may go on with one: it says more than a number, and is no count of
/// what stands below it.
fn goes_on(lines: &[Line], at: usize, below: &[Option<usize>], speaks: &[bool]) -> bool {
    let text = lines[at].text.trim();
    let number = |sign: char| sign.is_ascii_digit() || ".,".contains(sign) || sign.is_whitespace();
    let counts_other = is_count(text) && below[at].is_some_and(|under| speaks[under]);
    !text.chars().all(number) && !counts_other
}

/// Whether a line says how many there are of the callout above it, and none stands below it that it could count.
fn is_counted_below(lines: &[Line], chain: &[usize], next: usize, below: &[Option<usize>]) -> bool {
    let is_uncounted = |text: &str| split_either(text).is_some_and(|parts| count(&parts).is_none());
    let counts = count_of_circle(&lines[next].text).is_some_and(|count| is_count(&count));
    counts
        && is_uncounted(&said(lines, chain))
        && !below[next].is_some_and(|under| is_uncounted(&lines[under].text))
}

/// Whether a text says how many holes what stands below it speaks of: `4X`, `8 HOLES EQ SP ON ⌀40 B.C.`.
fn counts_below(text: &str) -> bool {
    is_count(text) || count_of_circle(text).is_some_and(|count| is_count(&count))
}

/// Whether a text says how many and nothing else.
pub(super) fn is_count(text: &str) -> bool {
    let text = text.trim();
    let bare = text.chars().all(|sign| sign.is_ascii_digit());
    !bare && read::holes(text).is_ok()
}

/// Whether a line reads as a hole's callout.
pub(super) fn speaks(text: &str) -> bool {
    speaks_of_hole(&with_signs(text))
}

/// A callout taken apart: in millimeters, or else in inches.
pub(super) fn split_either(text: &str) -> Option<Callout> {
    split(text, Unit::Mm).or_else(|| split(text, Unit::Inch))
}

fn count(callout: &Callout) -> Option<u32> {
    let said = callout
        .parts
        .iter()
        .find(|(column, _)| *column == Column::Count);
    said.and_then(|(_, text)| read::holes(text).ok())
}

fn parts(callout: Callout) -> Vec<Part> {
    let parts = callout.parts.into_iter();
    parts.map(|(column, text)| Part { column, text }).collect()
}

fn doubts(marks: Marks, as_text: bool) -> Vec<Doubt> {
    let all = [
        (as_text, Doubt::AsText),
        (marks.is_unseen, Doubt::Unseen),
        (marks.sign_by_font, Doubt::SignByFont),
        (marks.no_letter, Doubt::NoLetter),
    ];
    all.into_iter()
        .filter(|(is, _)| *is)
        .map(|(_, doubt)| doubt)
        .collect()
}
