//! What else must be known of the rows of the hole table: what many rows have alike is told once.

use std::collections::BTreeMap;

use quillbore_calc::input::Ends;
use quillbore_calc::{Limits, RowId};
use quillbore_job::Form;
use quillbore_job::words::english;

use super::basis::TypedFigures;
use crate::matter::{Hole, Matter, Remark};
use crate::shown;
use crate::words::hole as hole_words;
use crate::words::traveler::holes as words;

/// Rows from which a line is told once for all of them.
const SHARED_BY: usize = 3;
/// Letters up to which their marks are named before it.
const NAMED: usize = 60;

/// The lines of a hole table's rows.
pub(super) struct Notes {
    /// Marks, and the line that their rows have alike.
    pub(super) shared: Vec<(String, String)>,
    /// What is left for each row, in the table's order.
    pub(super) of_rows: Vec<String>,
}

/// All lines of the hole table.
pub(super) fn of(matter: &Matter<'_>) -> Notes {
    let remarks = matter.remarks_by_row();
    let all: Vec<(RowId, Vec<String>)> = matter
        .holes()
        .map(|hole| {
            let id = hole.row.id;
            let remarks = remarks.get(&id).map_or(&[][..], Vec::as_slice);
            (id, note(matter, &hole, remarks))
        })
        .collect();
    let mut lines: Vec<(&str, Vec<RowId>)> = Vec::new();
    let mut known: BTreeMap<&str, usize> = BTreeMap::new();
    for (row, of_row) in &all {
        for line in of_row {
            let at = *known.entry(line).or_insert(lines.len());
            match lines.get_mut(at) {
                Some((_, rows)) => rows.push(*row),
                None => lines.push((line, vec![*row])),
            }
        }
    }
    let mut shared: BTreeMap<&str, usize> = BTreeMap::new();
    let mut told = Vec::new();
    for (line, rows) in lines {
        if rows.len() < SHARED_BY {
            continue;
        }
        let marks = matter.marks(rows);
        if marks.chars().count() <= NAMED {
            shared.insert(line, told.len());
            told.push((marks, line.to_owned()));
        }
    }
    let of_rows = all.iter().map(|(_, lines)| {
        let own = lines
            .iter()
            .filter(|line| !shared.contains_key(line.as_str()));
        own.map(String::as_str).collect::<Vec<_>>().join("\n")
    });
    Notes {
        of_rows: of_rows.collect(),
        shared: told,
    }
}

/// What else must be known of a row, a line for each kind of it.
fn note(matter: &Matter<'_>, hole: &Hole<'_>, remarks: &[&Remark]) -> Vec<String> {
    let mut lines = vec![
        made_of(matter, hole).join(" "),
        chances(matter.form(), hole),
        spread(matter, hole),
    ];
    if !hole.row.note.is_empty() {
        lines.push(words::drawing(hole.row.note.text().trim()));
    }
    for remark in remarks.iter().filter(|remark| remark.floor) {
        lines.push(format!("{}: {}", words::level(remark.level), remark.text));
    }
    lines.retain(|line| !line.trim().is_empty());
    lines
}

/// Entry, layers, ends, what is behind the exit.
fn made_of(matter: &Matter<'_>, hole: &Hole<'_>) -> Vec<String> {
    let row = hole.row;
    let mut said: Vec<String> = Vec::new();
    let named = [row.characteristic.text(), row.zone.text()].map(str::trim);
    said.extend(words::characteristic(named));
    if !row.surface.text().trim().is_empty() {
        said.push(hole_words::entry(row.surface.text().trim()));
    }
    said.extend(hole.tool_told(matter.job.unit));
    if !row.recess.text().trim().is_empty() {
        said.push(hole_words::recess(row.recess.text().trim()));
    }
    said.extend(hole.asked_of_wire(matter.job.unit));
    if !row.exit.text().trim().is_empty() {
        said.push(hole_words::exit(row.exit.text().trim()));
    }
    if let Some(layers) = hole.layers_text(matter.job.unit, &matter.material_named()) {
        said.push(hole_words::layers(&layers));
    }
    if let Some(clearance) = hole.clearance(matter.job.unit) {
        said.push(hole_words::clearance(&clearance));
    }
    // A depth with limits, or with words, stands as the drawing gives it too.
    let depth = row.depth.text().trim();
    if depth
        .chars()
        .any(|ch| !(ch.is_ascii_digit() || ".,".contains(ch)))
    {
        said.push(words::depth_drawn(&shown::plus_minus(depth)));
    }
    if hole
        .figures
        .is_some_and(|figures| figures.depth_plan.is_some())
    {
        said.push(words::FIRST_BELOW.to_owned());
    }
    said.extend(of_choice(
        row.backed.text(),
        row.backed.value().copied(),
        words::BACKED,
        words::NOT_BACKED,
    ));
    said.extend(of_choice(
        row.core_trapped.text(),
        row.core_trapped.value().copied(),
        words::CORE_TRAPPED,
        words::CORE_FREE,
    ));
    match hole.figures.and_then(|figures| figures.ends) {
        Some(Ends::Both) => said.push(words::BOTH_ENDS.to_owned()),
        _ if row.ends.value() == Some(&Ends::One) => said.push(words::ONE_END.to_owned()),
        _ => {}
    }
    said.extend(dressing(hole));
    let chained = hole.figures.and_then(|figures| figures.electrodes_per_hole);
    let both = hole.figures.and_then(|figures| figures.ends) == Some(Ends::Both);
    said.extend(words::electrodes_in(chained.unwrap_or(1), both));
    said
}

/// How often the tip is dressed.
pub(super) fn dressing(hole: &Hole<'_>) -> Option<String> {
    let every = &hole.row.dress_every;
    words::dressing(every.value().copied(), every.text().trim(), hole.is_blind())
}

/// A yes or no in a sentence; what can't be read stands as it was typed.
fn of_choice(typed: &str, read: Option<bool>, yes: &str, no: &str) -> Option<String> {
    match (typed.trim(), read) {
        (_, Some(true)) => Some(yes.to_owned()),
        (_, Some(false)) => Some(no.to_owned()),
        ("", None) => None,
        (typed, None) => Some(format!("\u{201c}{typed}\u{201d}.")),
    }
}

/// How likely the first choice of electrode is right, and what it comes to then.
fn chances(form: Form, hole: &Hole<'_>) -> String {
    let Some(figures) = hole.figures else {
        return String::new();
    };
    let mut said = Vec::new();
    if let Some(chance) = figures.first_choice {
        let [inside, over] = [chance.inside, chance.over].map(|share| shown::percent(form, share));
        said.push(words::chance(&inside, &over));
        if let Some(verdict) = figures.verdict {
            said.push(words::held(english::verdict(verdict)));
        }
    }
    said.join(" ")
}

/// How far minutes and wear may be off, and which of them were typed.
fn spread(matter: &Matter<'_>, hole: &Hole<'_>) -> String {
    let Some(figures) = hole.figures else {
        return String::new();
    };
    let unit = matter.job.unit;
    let decimals = shown::middling(unit) - 1;
    let typed = TypedFigures::of(matter, hole.row.id);
    let minutes = figures.minutes.filter(|_| !typed.minutes);
    let minutes =
        minutes.map(|band| Limits::new(band.p10, band.p90).map(|min| matter.form().fixed(min, 2)));
    let wear = figures
        .wear_mm
        .zip(figures.wear_high_mm)
        .filter(|_| !typed.wear);
    let shown = |mm| shown::with_unit(matter.form(), mm, unit, decimals);
    let wear = wear.map(|(median, high)| words::UsedUp {
        planned: shown(median),
        high: shown(high),
    });
    let mut said = words::spread(minutes, wear);
    let figures: Vec<&str> = [
        (typed.minutes, words::OWN_MINUTES),
        (typed.wear, words::OWN_WEAR),
    ]
    .into_iter()
    .filter_map(|(typed, name)| typed.then_some(name))
    .collect();
    if !figures.is_empty() {
        said = format!("{said} {}", words::typed(&figures));
    }
    said.trim().to_owned()
}
