//! The annex of hole locations: where each hole is on the part, in which setup it is drilled, and
//! where the machine's axes stand for it; as compact as can be read at a machine.

mod grid;
mod printed_place;
mod sequence;

use std::collections::BTreeMap;

use quillbore_calc::RowId;
use quillbore_calc::direction::tilt_turn;
use quillbore_calc::input::Place;
use quillbore_job::{Form, Unit};

use crate::matter::axes::{self, Mounted, PlacedStop};
use crate::matter::{Hole, Matter};
use crate::page::mm;
use crate::shown;
use crate::typeset::flow::Flow;
use crate::typeset::look::{BODY, SMALL, STRONG};
use crate::typeset::wrap::Span;
use crate::words::axes as words;
use crate::words::phrases;
use crate::words::traveler as floor;
use printed_place::PrintedPlace;

pub(super) fn annex(matter: &Matter<'_>, flow: &mut Flow) {
    let (placed, unplaced): (Vec<Hole<'_>>, Vec<Hole<'_>>) =
        matter.holes().partition(|hole| !hole.row.places.is_empty());
    if placed.is_empty() {
        return;
    }
    let unit = phrases::unit_in_full(matter.job.unit);
    flow.section(words::ANNEX, &words::annex_remark(unit), mm(60.0));
    let mounted = axes::mounted(matter);
    let mut stops = mounted.iter().flat_map(|setup| &setup.stops);
    let leaning = stops
        .any(PlacedStop::is_tilted)
        .then(|| words::leaning(axes::tilting(matter)));
    flow.text(BODY, &words::legend(leaning));
    flow.take(mm(1.0));
    for (index, setup) in mounted.iter().enumerate() {
        order(matter, index, setup, flow);
    }
    if !unplaced.is_empty() {
        let marks = matter.marks(unplaced.iter().map(|hole| hole.row.id));
        flow.text(STRONG, &floor::unplaced(&marks));
    }
    let stops = by_place(&mounted);
    let mut blocks = Vec::new();
    for hole in &placed {
        for far in [false, true] {
            let lines = lines(matter, hole, far, &stops);
            if !lines.is_empty() {
                blocks.push((hole, far, lines));
            }
        }
    }
    let last = blocks.len().saturating_sub(1);
    for (at, (hole, far, lines)) in blocks.iter().enumerate() {
        // No page holds but a line or two.
        if at + 1 == last && blocks[last].2.len() <= FEW {
            flow.need(least(lines.len()) + least(blocks[last].2.len()));
        }
        block(hole, matter.job.unit, *far, lines, flow);
    }
}

/// Height of a block of so many lines that a page must have room for: its name, the heads of its columns and its
/// lines, or the first of many.
fn least(lines: usize) -> f64 {
    mm(18.0) + grid::LINE * (lines.min(FEW) - 1) as f64
}

/// Lines of a block that are kept together.
const FEW: usize = 3;

/// How a setup is mounted, and its drilling order.
fn order(matter: &Matter<'_>, index: usize, setup: &Mounted, flow: &mut Flow) {
    let mount = setup.mounting(matter.form());
    let mut told = sequence::told(matter, &setup.stops);
    if !setup.unplaced.is_empty() {
        told.push(words::unplaced(&matter.marks(setup.unplaced.clone())));
    }
    let [name, mount, order] = words::order(index + 1, &mount, &told.join("; "));
    flow.paragraph(
        &[
            Span::new(STRONG, &name),
            Span::new(BODY, &mount),
            Span::new(SMALL, &order),
        ],
        0.0,
    );
    flow.take(mm(0.6));
}

type Stops<'a> = BTreeMap<(RowId, usize, bool), &'a PlacedStop>;

fn by_place(mounted: &[Mounted]) -> Stops<'_> {
    let stops = mounted.iter().flat_map(|setup| &setup.stops);
    stops
        .map(|stop| ((stop.row, stop.place, stop.far), stop))
        .collect()
}

/// The locations of a row as printed; from the exit only those that are drilled from there.
fn lines(matter: &Matter<'_>, hole: &Hole<'_>, far: bool, stops: &Stops<'_>) -> Vec<PrintedPlace> {
    let depth = hole.figures.and_then(|figures| figures.depth_mm);
    let places = hole.row.places.iter().enumerate();
    places
        .filter_map(|(index, place)| {
            let stop = stops.get(&(hole.row.id, index, far)).copied();
            let place = if far {
                stop?;
                axes::seen_from_exit(place, depth?)
            } else {
                *place
            };
            Some(line(&place, stop, matter.job.unit, matter.form()))
        })
        .collect()
}

fn line(place: &Place, stop: Option<&PlacedStop>, unit: Unit, form: Form) -> PrintedPlace {
    let decimals = shown::middling(unit) + 1;
    let length = |mm| shown::length(form, mm, unit, decimals);
    let [x, y, z] = place.point_mm.map(length);
    let (down, turn) = tilt_turn(place.axis);
    // A way straight down or up has no turn.
    let turn = if (0.001..179.999).contains(&down) {
        turn
    } else {
        0.0
    };
    let degrees = |deg| form.fixed(deg, 2);
    let setup = stop.map_or_else(shown::missing, |stop| (stop.setup + 1).to_string());
    let table = stop.and_then(|stop| stop.table_mm).map(|at| at.map(length));
    let [table_x, table_y] = table.unwrap_or_else(|| [(); 2].map(|()| shown::missing()));
    let angles = stop.map(|stop| [stop.angles.tilt_deg, stop.angles.index_deg].map(degrees));
    let [tilt, index] = angles.unwrap_or_else(|| [(); 2].map(|()| shown::missing()));
    [
        place.number.to_string(),
        x,
        y,
        z,
        degrees(down),
        degrees(turn),
        setup,
        table_x,
        table_y,
        tilt,
        index,
    ]
}

/// One row's locations under its name, with what they all share told once.
fn block(hole: &Hole<'_>, unit: Unit, far: bool, lines: &[PrintedPlace], flow: &mut Flow) {
    let (alike, columns) = alike(lines);
    let size = hole.size_text(unit);
    let count = words::locations(hole.form, u32::try_from(lines.len()).unwrap_or(u32::MAX));
    flow.skip(mm(2.0));
    flow.need(least(1));
    let name = words::block(&hole.mark(), &size, &count, words::from_exit(far));
    flow.paragraph(
        &[Span::new(BODY.bold(), &name), Span::new(BODY, &alike)],
        0.0,
    );
    grid::set(lines, &columns, &words::goes_on(&hole.mark(), &alike), flow);
}

/// What all locations of a row share, in words, and the columns that still differ.
fn alike(lines: &[PrintedPlace]) -> (String, Vec<usize>) {
    let mut told: Vec<String> = Vec::new();
    let mut columns = vec![0];
    let [x, y, table_x, table_y] = words::SAME;
    let as_on_part = lines
        .iter()
        .all(|line| line[x] == line[table_x] && line[y] == line[table_y]);
    for (column, head) in words::HEADS.iter().enumerate().skip(1) {
        if as_on_part && (column == table_x || column == table_y) {
            continue;
        }
        let first = lines.first().map_or("", |line| line[column].as_str());
        if lines.len() > 1 && lines.iter().all(|line| line[column] == first) {
            told.push(format!("{head}\u{a0}{first}").replace(' ', "\u{a0}"));
        } else {
            columns.push(column);
        }
    }
    let mut said = String::new();
    if !told.is_empty() {
        said = words::all_at(&told.join(", "));
    }
    if as_on_part {
        said += words::AS_ON_PART;
    }
    (said, columns)
}
