//! Texts of a page that speak of holes, in the order of reading.

use quillbore_job::{Column, Unit, read_quantity as read};

use super::chart::{Chart, charts};
use super::line::{Line, Marks, around};
use super::seen::{Doubt, Part, SeenCallout, Spot};
use super::stacked::below;
use crate::callout::{Callout, split};
use crate::cell_words::with_signs;
use crate::dxf::speaks_of_hole;

/// A callout is written in so many lines at most.
const MOST_LINES: usize = 3;

/// The callouts of a page, and the tables that some of them are lines of.
pub(super) fn callouts(
    lines: &[Line],
    page: usize,
    size: [f64; 2],
) -> (Vec<SeenCallout>, Vec<Chart>) {
    let (charts, mut used) = charts(lines);
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
    let below = below(lines);
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
    found.sort_by(|a, b| {
        a.place[1]
            .total_cmp(&b.place[1])
            .then(a.place[0].total_cmp(&b.place[0]))
    });
    (found, charts)
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
    let counts = is_count(&lines[first].text);
    while chain.len() < MOST_LINES {
        let last = chain.last().copied()?;
        let Some(next) = below[last].filter(|next| !used[*next]) else {
            break;
        };
        let goes_on = if speaks[next] {
            // A count over what it counts.
            counts && chain.len() == 1
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

/// Whether a text says how many and nothing else.
fn is_count(text: &str) -> bool {
    let text = text.trim();
    let bare = text.chars().all(|sign| sign.is_ascii_digit());
    !bare && read::holes(text).is_ok()
}

fn said(lines: &[Line], chain: &[usize]) -> String {
    let texts: Vec<&str> = chain.iter().map(|at| lines[*at].text.trim()).collect();
    texts.join(" ")
}

/// Whether a line reads as a hole's callout.
pub(super) fn speaks(text: &str) -> bool {
    speaks_of_hole(&with_signs(text))
}

/// A callout taken apart: in millimeters, or else in inches.
fn split_either(text: &str) -> Option<Callout> {
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
