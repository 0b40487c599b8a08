//! The floor's block: mark by mark what one drills by, to be read at arm's length in bad light.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use quillbore_calc::RowId;
use quillbore_calc::input::Ends;
use quillbore_calc::job_figures::HoleFigures;
use quillbore_calc::mount::Angles;
use quillbore_calc::quantity::MM_PER_INCH;
use quillbore_calc::reach::enough_for;
use quillbore_job::Unit;

use super::floor_note::{self, ends_of, is_backed};
use super::holes::{held_more_mm, no_tube, settings, tip_mm};
use super::lengths::{lost_mm, takes_several};
use super::tip;
use crate::matter::axes::mounted;
use crate::matter::{Hole, Matter};
use crate::page::mm;
use crate::shown;
use crate::typeset::flow::Flow;
use crate::typeset::look::{BODY, FLOOR, FLOOR_STRONG, STRONG};
use crate::typeset::table::{Cell, Column, Table, TableRow, Width};
use crate::words::heads;
use crate::words::traveler::floor as words;
use crate::words::traveler::on_the_way::{self, Told};

/// Marks from which they have short words.
const MANY: usize = 12;

/// Where tilt and index stand for the places of each row.
type Seats = BTreeMap<RowId, Vec<Angles>>;

pub(super) fn set(matter: &Matter<'_>, flow: &mut Flow) {
    let unit = matter.job.unit;
    let sign = unit.symbol();
    let change = match unit {
        Unit::Mm => words::CHANGE_UNIT,
        Unit::Inch => words::CHANGE_UNIT_INCH,
    };
    let mut table = Table::new([
        Column::text(heads::MARK, Width::Fit(60.0)).style(FLOOR_STRONG),
        Column::text(words::ELECTRODE, Width::Share(1.0)).style(FLOOR),
        Column::figures(words::SET, sign, Width::Fixed(62.0)).style(FLOOR_STRONG),
        Column::figures(words::NEVER_BEYOND, sign, Width::Fixed(58.0)).style(FLOOR_STRONG),
        Column::figures(words::BEHIND, sign, Width::Fixed(64.0)).style(FLOOR),
        Column::text(words::AXES, Width::Fixed(72.0)).style(FLOOR),
        Column::figures(words::CHANGE, change, Width::Fixed(66.0)).style(FLOOR_STRONG),
    ])
    .notes(BODY);
    let mounted = mounted(matter);
    let mut seats = Seats::new();
    for stop in mounted.iter().flat_map(|setup| &setup.stops) {
        seats.entry(stop.row).or_default().push(stop.angles);
    }
    // Of many marks what holds for all is told once, below.
    let told = if matter.job.rows.len() > MANY {
        Told::Short
    } else {
        Told::Whole
    };
    // Rows that are drilled alike are one line: there may be hundreds.
    let mut lines: Vec<(Vec<RowId>, Arc<Line>)> = Vec::new();
    let mut known: BTreeMap<Arc<Line>, usize> = BTreeMap::new();
    for hole in matter.holes() {
        let line = Arc::new(line(matter, &hole, &seats, told));
        let at = *known.entry(Arc::clone(&line)).or_insert(lines.len());
        match lines.get_mut(at) {
            Some((rows, _)) => rows.push(hole.row.id),
            None => lines.push((vec![hole.row.id], line)),
        }
    }
    let has_limit = matter.holes().any(|hole| tip::limit_mm(&hole).is_some());
    for (rows, line) in lines {
        let marks = Cell::new(matter.marks(rows));
        let cells = std::iter::once(marks).chain(line.cells.iter().map(Cell::new));
        table.row(TableRow::new(cells.collect::<Vec<_>>()).note(&line.note));
    }
    if table.rows.is_empty() {
        return;
    }
    let keep = table.least(flow);
    flow.section(words::NAME, words::REMARK, keep);
    table.set(flow);
    flow.take(mm(0.8));
    if let Some(cut) = cut(matter) {
        flow.text(STRONG, &cut);
    }
    flow.text(BODY, words::HOW);
    if told == Told::Short {
        flow.text(BODY, on_the_way::LEGEND);
    }
    if has_limit {
        flow.text(BODY, words::TIP);
        let leans = matter.holes().any(|hole| is_leaning(&hole));
        let is_round =
            |hole: &Hole<'_>| !is_leaning(hole) && !hole.row.surface.text().trim().is_empty();
        let is_round = matter.holes().any(|hole| is_round(&hole));
        if leans || is_round {
            flow.text(BODY, words::same_height([leans, is_round]));
        }
    }
}

/// Whether the electrode comes at an angle to the surface.
fn is_leaning(hole: &Hole<'_>) -> bool {
    let tilt = hole.figures.map_or(0.0, |figures| figures.tilt_deg);
    tilt.abs() > 0.005
}

/// How a row is drilled, without its mark.
#[derive(PartialEq, Eq, PartialOrd, Ord)]
struct Line {
    cells: [String; 6],
    note: String,
}

fn line(matter: &Matter<'_>, hole: &Hole<'_>, seats: &Seats, told: Told) -> Line {
    let unit = matter.job.unit;
    let decimals = shown::middling(unit);
    let length = |mm: f64| shown::length(matter.form(), mm, unit, decimals);
    let figures = hole.figures;
    let tube = figures.and_then(|figures| matter.tube(figures.tube?));
    let guide = figures.and_then(|figures| figures.guide?.of(&matter.tables.guides));
    let electrode = tube.map_or_else(
        || no_tube(hole).to_owned(),
        |tube| match guide {
            Some(guide) => format!("{}\n{}", tube.name, guide.name),
            None => tube.name.clone(),
        },
    );
    let mut depths = settings(matter, hole);
    // What several electrodes drill one after the other has no one setting.
    if figures.is_some_and(takes_several) {
        depths.setting = words::BY_STEPS.to_owned();
    }
    let is_decided = figures.is_some_and(|figures| figures.depth_plan.is_some());
    let is_half = ends_of(hole) == Some(Ends::Both);
    if is_half {
        depths.tip = words::NOT_THROUGH.to_owned();
    } else if !is_decided && !hole.is_blind() {
        // An open hole ends where it is through: only a wall is a limit.
        depths.tip = tip::limit_mm(hole).map_or_else(
            || {
                if is_backed(matter, hole) {
                    words::INTO_BACKING.to_owned()
                } else {
                    words::KEEP_FREE.to_owned()
                }
            },
            |mm| shown::at_most(matter.form(), mm, unit, decimals),
        );
    }
    let behind = figures.and_then(|figures| figures.behind_mm);
    let behind = behind.map(|behind| {
        let touch = figures.map_or(0.0, |figures| figures.touch_mm.entry);
        let depth = figures.and_then(|figures| figures.depth_mm);
        let wall = depth.map(|depth| length(touch + depth + behind));
        [Some(length(behind)), wall].into_iter().flatten()
    });
    let behind = behind.map(|lines| lines.collect::<Vec<_>>().join("\n"));
    let not_typed = if hole.is_blind() {
        words::BOTTOM
    } else {
        words::NO_WALL
    };
    Line {
        cells: [
            electrode,
            depths.setting,
            depths.tip,
            behind.unwrap_or_else(|| not_typed.to_owned()),
            axes(matter, hole, seats),
            figures.map_or_else(shown::missing, |figures| change_at(matter, figures)),
        ],
        note: floor_note::of(matter, hole, told),
    }
}

/// The length at which the electrode is changed, as a rule shows it, never shorter than it has to be.
fn change_at(matter: &Matter<'_>, figures: &HoleFigures) -> String {
    if takes_several(figures) {
        return words::EACH_HOLE.to_owned();
    }
    let length = (|| {
        // Where the guide can't come as near as usual, so much more of it is held back.
        let held_mm = matter.machine()?.held_back_mm + held_more_mm(matter, figures);
        // It is measured before the tip is dressed.
        let lost_mm = lost_mm(matter, figures)?;
        Some(enough_for(held_mm, tip_mm(figures)?, lost_mm))
    })();
    match (length, figures.mounted_mm) {
        (None, _) => shown::missing(),
        (Some(length), Some(new)) if length >= new => words::EACH_HOLE.to_owned(),
        (Some(length), _) => {
            let unit = matter.job.unit;
            let (length, decimals) = on_a_rule(unit, length, f64::ceil);
            shown::length(matter.form(), length, unit, decimals)
        }
    }
}

/// A length rounded up or down to what a rule shows, a millimeter or a twentieth of an inch: it [mm], and
/// its decimals.
fn on_a_rule(unit: Unit, length_mm: f64, round: fn(f64) -> f64) -> (f64, usize) {
    match unit {
        Unit::Mm => (round(length_mm), 0),
        Unit::Inch => (
            round(length_mm / MM_PER_INCH * 20.0) / 20.0 * MM_PER_INCH,
            2,
        ),
    }
}

/// Where tilt and index stand for a row, as far as all its places have them alike.
fn axes(matter: &Matter<'_>, hole: &Hole<'_>, seats: &Seats) -> String {
    let degrees = |deg: f64| matter.form().fixed(deg, 2);
    let of_row = seats.get(&hole.row.id).map_or(&[][..], Vec::as_slice);
    let mut said = Vec::new();
    let each = |angle: fn(&Angles) -> f64| -> BTreeSet<String> {
        of_row.iter().map(|seat| degrees(angle(seat))).collect()
    };
    let (tilts, turns) = (each(|seat| seat.tilt_deg), each(|seat| seat.index_deg));
    for (name, values) in [(words::TILT, tilts), (words::INDEX, turns)] {
        let mut all = values.iter();
        match (all.next(), all.next()) {
            (Some(one), None) if one.trim_matches(['0', '.', ',', '\u{2212}']).is_empty() => {}
            (Some(one), None) => said.push(words::axis(name, one)),
            (Some(_), Some(_)) => said.push(format!("{name} {}", words::IN_ANNEX)),
            (None, _) => {}
        }
    }
    if of_row.is_empty() && is_leaning(hole) {
        let tilt = hole.figures.map_or(0.0, |figures| figures.tilt_deg);
        said.push(words::axis(words::TILT, &degrees(tilt)));
        said.push(words::WAY_ON_DRAWING.to_owned());
    }
    let here = |(at, setup): (usize, &quillbore_calc::job_figures::SetupFigures)| {
        setup.rows.contains(&hole.row.id).then_some(at + 1)
    };
    let setups: Vec<usize> = (matter.figures.setups.iter().enumerate())
        .filter_map(here)
        .collect();
    if matter.figures.setups.len() > 1 && !setups.is_empty() {
        said.insert(0, words::setup(&setups));
    }
    if said.is_empty() {
        return words::UPRIGHT.to_owned();
    }
    said.join("\n")
}

/// What new electrodes are cut down to, where the machine can't use all of them.
fn cut(matter: &Matter<'_>) -> Option<String> {
    let machine = matter.machine()?;
    let holes = matter.figures.holes.iter();
    let mut too_long = holes.filter_map(|hole| {
        let (mounted, tube) = (hole.mounted_mm?, matter.tube(hole.tube?)?);
        (tube.length_mm - mounted > 0.05).then_some(mounted)
    });
    // All that are cut are cut to what the machine takes.
    let mounted = too_long.next()?;
    let unit = matter.job.unit;
    let (length, decimals) = on_a_rule(unit, mounted, f64::floor);
    let length = shown::with_unit(matter.form(), length, unit, decimals);
    Some(words::cut(&length, &machine.name))
}
