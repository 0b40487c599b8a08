//! The hole table: what the drawing asks, and what the machine is set to.

use quillbore_calc::Limits;
use quillbore_calc::finding::Kind;
use quillbore_calc::job_figures::HoleFigures;
use quillbore_job::field::AngleBasis;
use quillbore_job::words::english;

use super::{basis, row_notes};
use crate::drawing::section;
use crate::matter::{Hole, Matter};
use crate::page::{Style, mm};
use crate::shown;
use crate::typeset::flow::Flow;
use crate::typeset::look::{BODY, FIGURE, STRONG};
use crate::typeset::table::{Cell, Column, Table, TableRow, Width};
use crate::typeset::wrap::Span;
use crate::words::heads;
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
    let notes = row_notes::of(matter);
    for (hole, note) in matter.holes().zip(&notes.of_rows) {
        table.row(row(matter, &hole, fine, note));
    }
    let keep = table.least(flow);
    let remark = words::hole_table_remark(unit, measured_from(matter));
    flow.section(words::NAME, &remark, keep);
    if table.rows.is_empty() {
        flow.text(BODY, words::NO_HOLES);
        return;
    }
    for (marks, line) in &notes.shared {
        let marks = words::of_rows(marks);
        flow.paragraph(&[Span::new(STRONG, &marks), Span::new(BODY, line)], 0.0);
    }
    flow.take(mm(0.8));
    table.set(flow);
    if let Some(rests) = basis::rests_on(matter) {
        flow.take(mm(0.8));
        flow.text(STRONG, &floor::rests_on(rests));
    }
    section::strip(matter, flow);
}

fn row(matter: &Matter<'_>, hole: &Hole<'_>, fine: usize, note: &str) -> TableRow {
    let unit = matter.job.unit;
    let figures = hole.figures;
    let limits = hole.limits_mm();
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
    let Depths { setting, .. } = settings(matter, hole);
    let tip = figures.and_then(tip_from_touch_mm);
    let tip = tip.map_or_else(shown::missing, |mm| {
        shown::length(matter.form(), mm, unit, shown::middling(unit))
    });
    let count = hole.count().map_or_else(
        || shown::or_missing(hole.row.count.text()),
        |count| matter.form().count(f64::from(count)),
    );
    let cells = [
        Cell::new(hole.mark()),
        Cell::new(count),
        Cell::new(hole.size_text(unit)),
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
    TableRow::new(cells).note(note)
}

/// How deep a hole is drilled: of a depth that the first hole decides, the first try and the limit.
pub(super) struct Depths {
    /// What the machine is set to.
    pub(super) setting: String,
    /// How far the tip goes from where it touches.
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
        tip: length(tip_from_touch_mm(figures)),
    }
}

/// How far the tip goes from where it touches [mm]: on a slope that is before its axis meets the surface.
pub(super) fn tip_from_touch_mm(figures: &HoleFigures) -> Option<f64> {
    let touch = figures.touch_mm;
    tip_mm(figures).map(|tip| tip + touch.entry.max(touch.exit))
}

/// Length of electrode that is held back more than usual, since the guide stands off farther [mm].
pub(super) fn held_more_mm(matter: &Matter<'_>, figures: &HoleFigures) -> f64 {
    let usual = matter.machine().map(|machine| machine.stand_off_mm);
    let more = figures.stand_off_mm.zip(usual);
    more.map_or(0.0, |(stand_off, usual)| (stand_off - usual).max(0.0))
}

/// How far the tip goes from where the hole's axis meets the surface [mm].
pub(super) fn tip_mm(figures: &HoleFigures) -> Option<f64> {
    Some(figures.target_depth_mm? - figures.stand_off_mm?)
}

/// What the drawing measures its angles from, of the rows that have one.
fn measured_from(matter: &Matter<'_>) -> words::Measured {
    let angles = matter.holes().filter_map(|hole| hole.row.angle.value());
    let mut bases = angles.map(|angle| angle.basis);
    match bases.next() {
        None => words::Measured::Nothing,
        Some(first) if bases.all(|basis| basis == first) => {
            words::Measured::From(english::angle_basis(first))
        }
        Some(_) => words::Measured::Mixed,
    }
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
    let basis = angle.value().map(|angle| angle.basis);
    let cell = |deg: f64, own: bool| {
        let style: Style = if own { FIGURE.bold() } else { FIGURE };
        Cell::styled(matter.form().fixed(deg, 1), style)
    };
    (
        cell(from_normal, basis == Some(AngleBasis::FromNormal)),
        cell(90.0 - from_normal, basis == Some(AngleBasis::FromSurface)),
    )
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
