//! The annex of places: where each hole is, as compact as can be read at a machine.

use quillbore_calc::input::Place;
use quillbore_job::Unit;

use crate::flow::Flow;
use crate::font::Face;
use crate::look::{BODY, CAPTION};
use crate::matter::{Hole, Matter};
use crate::page::{Stroke, Style, mm};
use crate::shown;
use crate::words::traveler as words;

const FINE: Style = Style::new(Face::Condensed, 7.0);
const LINE: f64 = 8.8;
const GAP: f64 = 4.5 * 72.0 / 25.4;
const HEADS: [&str; 6] = ["No.", "x", "y", "z", "tilt", "turn"];

pub(super) fn annex(matter: &Matter<'_>, flow: &mut Flow) {
    let placed: Vec<Hole<'_>> = matter
        .holes()
        .filter(|hole| !hole.row.places.is_empty())
        .collect();
    if placed.is_empty() {
        return;
    }
    flow.next_page();
    let unit = words::unit_in_full(matter.job.unit);
    flow.section(
        "Annex: places",
        &format!("points in {unit}, part coordinates; tilt of the axis from z, turn about z from x, in degrees"),
        mm(30.0),
    );
    for hole in placed {
        let rows: Vec<[String; 6]> = hole
            .row
            .places
            .iter()
            .map(|place| printed(place, matter.job.unit))
            .collect();
        let (alike, columns) = alike(&rows);
        flow.skip(mm(2.0));
        flow.need(mm(16.0));
        let size = hole.row.size.text().trim();
        let places = words::count(
            u32::try_from(rows.len()).unwrap_or(u32::MAX),
            "place",
            "places",
        );
        let text = format!("{}   {size}   {places}{alike}", hole.mark());
        flow.text(BODY.bold(), &text);
        grid(&rows, &columns, flow);
    }
}

/// What all places of a row share, in words, and the columns that still differ.
fn alike(rows: &[[String; 6]]) -> (String, Vec<usize>) {
    let mut text = String::new();
    let mut columns = vec![0];
    for (column, head) in HEADS.iter().enumerate().skip(1) {
        let first = rows.first().map(|row| &row[column]);
        if rows.len() > 1 && rows.iter().all(|row| Some(&row[column]) == first) {
            let value = first.map_or("", String::as_str);
            text += &format!(", {head}\u{a0}{value}");
        } else {
            columns.push(column);
        }
    }
    if text.is_empty() {
        return (text, columns);
    }
    (
        format!("   all at {}", text.trim_start_matches(", ")),
        columns,
    )
}

/// One place as the annex prints it: number, x, y, z, tilt, turn.
fn printed(place: &Place, unit: Unit) -> [String; 6] {
    let decimals = shown::middling(unit) + 1;
    let [x, y, z] = place.point_mm.map(|mm| shown::length(mm, unit, decimals));
    let (tilt, turn) = tilt_and_turn(place.axis);
    [
        place.number.to_string(),
        x,
        y,
        z,
        shown::fixed(tilt, 2),
        shown::fixed(turn, 2),
    ]
}

/// Angle of an axis from the part's z, and of its run about z from x [deg].
fn tilt_and_turn([x, y, z]: [f64; 3]) -> (f64, f64) {
    let across = libm::hypot(x, y);
    let tilt = libm::atan2(across, z.abs()).to_degrees();
    let turn = if across < 1e-9 {
        0.0
    } else {
        libm::atan2(y, x).to_degrees()
    };
    (tilt, turn)
}

/// Sets places in columns of blocks, down first, then across, page by page.
fn grid(rows: &[[String; 6]], columns: &[usize], flow: &mut Flow) {
    let body = flow.body();
    let widths: Vec<(usize, f64)> = columns
        .iter()
        .map(|&column| {
            let widest = rows
                .iter()
                .map(|row| FINE.measure(&row[column]))
                .fold(CAPTION.measure(HEADS[column]), f64::max);
            (column, widest + if column == 0 { 0.0 } else { 5.0 })
        })
        .collect();
    let block: f64 = widths.iter().map(|(_, width)| width).sum();
    let across = (((body.width() + GAP) / (block + GAP)).floor() as usize).max(1);
    let step = (body.width() + GAP) / across as f64;
    let mut rest = rows;
    while !rest.is_empty() {
        flow.need(LINE * 4.0);
        let fit = (((flow.room() - LINE * 1.4) / LINE).floor() as usize).max(1);
        let deep = fit.min(rest.len().div_ceil(across));
        let taken = rest.len().min(deep * across);
        let top = flow.take(LINE * (deep as f64 + 1.4));
        for (index, block) in rest[..taken].chunks(deep).enumerate() {
            let left = body.left + step * index as f64;
            write(flow, block, &widths, (left, top));
        }
        rest = &rest[taken..];
    }
}

fn write(flow: &mut Flow, rows: &[[String; 6]], widths: &[(usize, f64)], (left, top): (f64, f64)) {
    let page = flow.page();
    let block: f64 = widths.iter().map(|(_, width)| width).sum();
    let mut right = left;
    for (column, width) in widths {
        right += width;
        page.text_right(right, top + CAPTION.size, CAPTION, HEADS[*column]);
    }
    page.rule(left, left + block, top + LINE * 1.05, Stroke::HAIR);
    for (index, row) in rows.iter().enumerate() {
        let baseline = top + LINE * (index as f64 + 1.2) + FINE.size;
        let mut right = left;
        for (column, width) in widths {
            right += width;
            page.text_right(right, baseline, FINE, &row[*column]);
        }
        // Every fifth row a hairline guides the eye.
        if index % 5 == 4 {
            page.rule(left, left + block, baseline + 2.0, Stroke::HAIR);
        }
    }
}
