//! The hole table: what the drawing asks, and what the machine is set to.

use quillbore_calc::Limits;
use quillbore_calc::finding::Kind;
use quillbore_calc::input::Ends;
use quillbore_calc::job_figures::HoleFigures;
use quillbore_job::Form;
use quillbore_job::field::AngleBasis;
use quillbore_job::words::english;

use super::basis::{self, TypedFigures};
use crate::drawing::section;
use crate::matter::{Hole, Matter, Remark};
use crate::page::{Style, mm};
use crate::shown;
use crate::typeset::flow::Flow;
use crate::typeset::look::{BODY, FIGURE, STRONG};
use crate::typeset::table::{Cell, Column, Table, TableRow, Width};
use crate::words::heads;
use crate::words::hole as hole_words;
use crate::words::traveler::{self as floor, holes as words};

pub(super) fn set(matter: &Matter<'_>, flow: &mut Flow) {
    let unit = matter.job.unit;
    let sign = unit.symbol();
    let mut table = Table::new([
        Column::text(heads::MARK, Width::Fit(46.0)).style(STRONG),
        Column::figures(heads::HOLES, heads::IN_ONE_PART, Width::Fit(36.0)),
        Column::text(heads::DRAWING_SAYS, Width::Fit(86.0)),
        Column::figures(heads::AT_LEAST, sign, Width::Fit(40.0)),
        Column::figures(heads::AT_MOST, sign, Width::Fit(40.0)),
        Column::figures(heads::DEPTH, sign, Width::Fixed(38.0)),
        Column::text(heads::END, Width::Fit(38.0)),
        Column::figures(heads::FROM_NORMAL, "\u{b0}", Width::Fixed(32.0)),
        Column::figures(heads::FROM_SURFACE, "\u{b0}", Width::Fixed(35.0)),
        Column::text(heads::ELECTRODE, Width::Share(1.0)),
        Column::figures(words::SETTING, sign, Width::Fit(40.0)).style(STRONG),
        Column::figures(words::TIP, sign, Width::Fixed(36.0)),
        Column::figures(words::MINUTES, words::EACH, Width::Fit(36.0)),
    ])
    .tight();
    let fine = matter.fine();
    let remarks = matter.remarks_by_row();
    for hole in matter.holes() {
        let remarks = remarks.get(&hole.row.id).map_or(&[][..], Vec::as_slice);
        table.row(row(matter, &hole, fine, remarks));
    }
    let basis = english::angle_basis(matter.job.angle_basis());
    let keep = table.least(flow);
    flow.section(words::NAME, &words::hole_table_remark(unit, basis), keep);
    if table.rows.is_empty() {
        flow.text(BODY, words::NO_HOLES);
        return;
    }
    table.set(flow);
    if let Some(rests) = basis::rests_on(matter) {
        flow.take(mm(0.8));
        flow.text(STRONG, &floor::rests_on(rests));
    }
    section::strip(matter, flow);
}

fn row(matter: &Matter<'_>, hole: &Hole<'_>, fine: usize, remarks: &[&Remark]) -> TableRow {
    let unit = matter.job.unit;
    let figures = hole.figures;
    let limits = figures.and_then(|figures| figures.limits_mm);
    let (lower, upper) = match limits {
        Some(Limits { lower, upper }) => (
            shown::lower(matter.form(), lower, unit, fine),
            shown::length(matter.form(), upper, unit, fine),
        ),
        None => (shown::missing(), shown::missing()),
    };
    let minutes = figures
        .and_then(|figures| figures.minutes)
        .map_or_else(shown::missing, |minutes| {
            matter.form().fixed(minutes.p50, 2)
        });
    let (normal, surface) = angles(matter, hole);
    let Depths { setting, tip } = settings(matter, hole);
    let count = hole.count().map_or_else(
        || shown::or_missing(hole.row.count.text()),
        |count| matter.form().count(f64::from(count)),
    );
    let cells = [
        Cell::new(hole.mark()),
        Cell::new(count),
        Cell::new(shown::plus_minus(hole.row.size.text().trim())),
        Cell::new(lower),
        Cell::new(upper),
        Cell::new(hole.depth_text(unit)),
        Cell::new(hole.end_text()),
        normal,
        surface,
        Cell::new(
            figures
                .and_then(|figures| matter.tube(figures.tube?))
                .map_or_else(|| no_tube(hole).to_owned(), |tube| tube.name.clone()),
        ),
        Cell::new(setting),
        Cell::new(tip),
        Cell::new(minutes),
    ];
    TableRow::new(cells).note(note(matter, hole, remarks).join("\n"))
}

/// How deep a hole is drilled: of a depth that the first hole decides, the first try and the limit.
pub(super) struct Depths {
    /// What the machine is set to.
    pub(super) setting: String,
    /// How far the tip goes from the work's surface.
    pub(super) tip: String,
}

pub(super) fn settings(matter: &Matter<'_>, hole: &Hole<'_>) -> Depths {
    let unit = matter.job.unit;
    let decimals = shown::middling(unit);
    let Some(figures) = hole.figures else {
        return Depths {
            setting: shown::missing(),
            tip: shown::missing(),
        };
    };
    if let Some(plan) = figures.depth_plan {
        return Depths {
            setting: shown::at_most(matter.form(), plan.first_try_mm, unit, decimals),
            tip: shown::at_most(matter.form(), plan.never_beyond_mm, unit, decimals),
        };
    }
    let length = |mm: Option<f64>| {
        mm.map_or_else(shown::missing, |mm| {
            shown::length(matter.form(), mm, unit, decimals)
        })
    };
    Depths {
        setting: length(figures.machine_depth_mm),
        tip: length(tip_mm(matter, figures)),
    }
}

/// How far the tip goes from the work's surface [mm].
pub(super) fn tip_mm(matter: &Matter<'_>, figures: &HoleFigures) -> Option<f64> {
    let stand_off = matter.machine()?.stand_off_mm;
    figures.target_depth_mm.map(|target| target - stand_off)
}

/// Both angles, the drawing's own in bold; what can't be read stands as it was typed.
fn angles(matter: &Matter<'_>, hole: &Hole<'_>) -> (Cell, Cell) {
    let angle = &hole.row.angle;
    if angle.why().is_some() {
        return (Cell::new(angle.text().trim()), Cell::new(shown::missing()));
    }
    let from_normal = match (angle.value(), hole.figures) {
        (Some(angle), _) => angle.from_normal.deg(),
        (None, Some(figures)) => figures.tilt_deg,
        (None, None) => 0.0,
    };
    let basis = angle
        .value()
        .map_or_else(|| matter.job.angle_basis(), |angle| angle.basis);
    let cell = |deg: f64, own: bool| {
        let style: Style = if own { FIGURE.bold() } else { FIGURE };
        Cell::styled(matter.form().fixed(deg, 1), style)
    };
    (
        cell(from_normal, basis == AngleBasis::FromNormal),
        cell(90.0 - from_normal, basis == AngleBasis::FromSurface),
    )
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

/// Why a row has no electrode.
pub(super) fn no_tube(hole: &Hole<'_>) -> &'static str {
    let none_fits = hole.figures.is_some_and(|figures| {
        let mut findings = figures.findings.iter();
        findings.any(|finding| matches!(finding.kind, Kind::NoTube { .. }))
    });
    if none_fits {
        words::NONE_FITS
    } else {
        words::NOT_CHOSEN
    }
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
