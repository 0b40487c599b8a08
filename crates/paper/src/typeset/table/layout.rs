//! How wide the columns of a table become.

use super::column::{Column, Width};
use super::content::Table;
use crate::typeset::look::{CAPTION, COLUMN};

/// Left edge and width of every column.
pub(super) struct Layout {
    pub(super) places: Vec<(f64, f64)>,
}

/// Least space between two columns.
const GAP: f64 = 8.0;
/// The same where many columns stand close together.
const TIGHT: f64 = 5.5;

/// Lays the columns of a table out between `left` and `left + width`.
pub(super) fn lay_out(table: &Table, left: f64, width: f64) -> Layout {
    let count = table.columns.len();
    let least = if table.tight { TIGHT } else { GAP };
    let room = width - least * (count.saturating_sub(1)) as f64;
    let mut widths: Vec<f64> = (0..count).map(|index| natural(table, index)).collect();
    let taken: f64 = widths.iter().sum();
    let shares: f64 = table.columns.iter().map(share).sum();
    let mut gap = least;
    if taken > room {
        // Too much for the sheet: the wide columns give way, and their cells wrap.
        shrink(&mut widths, room);
    } else if shares > 0.0 {
        for (wide, column) in widths.iter_mut().zip(&table.columns) {
            *wide += (room - taken) * share(column) / shares;
        }
    } else if count > 1 {
        gap += (room - taken) / (count - 1) as f64;
    }
    let mut x = left;
    let places = widths
        .into_iter()
        .map(|wide| {
            let place = (x, wide);
            x += wide + gap;
            place
        })
        .collect();
    Layout { places }
}

fn share(column: &Column) -> f64 {
    match column.width {
        Width::Share(share) => share,
        Width::Fixed(_) | Width::Fit(_) => 0.0,
    }
}

fn natural(table: &Table, index: usize) -> f64 {
    let column = &table.columns[index];
    match column.width {
        Width::Fixed(points) => points,
        Width::Share(_) => head_width(column),
        Width::Fit(most) => table
            .rows
            .iter()
            .filter_map(|row| row.cells.get(index))
            .map(|cell| cell.style.unwrap_or(column.style).measure(&cell.text))
            .fold(head_width(column), f64::max)
            .min(most.max(head_width(column))),
    }
}

/// Heads wrap at spaces, so their longest word counts.
fn head_width(column: &Column) -> f64 {
    column
        .head
        .split(' ')
        .map(|word| COLUMN.measure(word))
        .fold(CAPTION.measure(&column.unit), f64::max)
}

/// Cuts the widest columns down to a common width until all fit.
fn shrink(widths: &mut [f64], room: f64) {
    let mut sorted = widths.to_vec();
    sorted.sort_by(f64::total_cmp);
    let mut left = room;
    let mut cap = 0.0;
    for (index, wide) in sorted.iter().enumerate() {
        let fair = left / (sorted.len() - index) as f64;
        if *wide > fair {
            cap = fair;
            break;
        }
        left -= wide;
        cap = *wide;
    }
    for wide in widths {
        *wide = wide.min(cap);
    }
}
