//! Lines of hole locations in columns of blocks, down first, then across, page by page.

use super::printed_place::PrintedPlace;
use crate::page::Face;
use crate::page::{Stroke, Style};
use crate::typeset::flow::Flow;
use crate::typeset::look::{CAPTION, LEAST, SMALL};
use crate::words::axes::HEADS;

const FINE: Style = Style::new(Face::Condensed, LEAST);
/// From one line to the next.
pub(super) const LINE: f64 = 9.8;
const GAP: f64 = 2.6 * 72.0 / 25.4;

/// A column and how wide it is.
type Wide = (usize, f64);

/// Sets the lines; on every page that they go on to, what they are of stands first.
pub(super) fn set(lines: &[PrintedPlace], columns: &[usize], of: &str, flow: &mut Flow) {
    let body = flow.body();
    let widths: Vec<Wide> = columns
        .iter()
        .map(|&column| {
            let widest = lines
                .iter()
                .map(|line| FINE.measure(&line[column]))
                .fold(CAPTION.measure(HEADS[column]), f64::max);
            (column, widest + if column == 0 { 0.0 } else { 5.2 })
        })
        .collect();
    let block: f64 = widths.iter().map(|(_, width)| width).sum();
    let across = (((body.width() + GAP) / (block + GAP)).floor() as usize).max(1);
    let step = (body.width() + GAP) / across as f64;
    let mut rest = lines;
    while !rest.is_empty() {
        if rest.len() < lines.len() {
            flow.need(LINE * 5.0);
            flow.text(SMALL, of);
        }
        let fit = (((flow.room() - LINE * 1.4) / LINE).floor() as usize).max(1);
        let deep = fit.min(rest.len().div_ceil(across));
        let (now, later) = rest.split_at(rest.len().min(deep * across));
        let top = flow.take(LINE * (deep as f64 + 1.4));
        for (index, block) in now.chunks(deep).enumerate() {
            let left = body.left + step * index as f64;
            write(flow, block, &widths, (left, top));
        }
        rest = later;
    }
}

fn write(flow: &mut Flow, lines: &[PrintedPlace], widths: &[Wide], (left, top): (f64, f64)) {
    let page = flow.page();
    let block: f64 = widths.iter().map(|(_, width)| width).sum();
    let mut right = left;
    for (column, width) in widths {
        right += width;
        page.text_right(right, top + CAPTION.size, CAPTION, HEADS[*column]);
    }
    page.rule(left, left + block, top + LINE * 1.05, Stroke::HAIR);
    for (index, line) in lines.iter().enumerate() {
        let baseline = top + LINE * (index as f64 + 1.2) + FINE.size;
        let mut right = left;
        for (column, width) in widths {
            right += width;
            page.text_right(right, baseline, FINE, &line[*column]);
        }
        // Every fifth line a hairline guides the eye.
        if index % 5 == 4 {
            page.rule(left, left + block, baseline + 2.0, Stroke::HAIR);
        }
    }
}
