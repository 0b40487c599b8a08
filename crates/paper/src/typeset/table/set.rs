//! Sets a table's heads and rows, page by page.

use super::column::{Align, Column, Width};
use super::content::{Table, TableRow};
use super::layout::{self, Layout};
use crate::page::{Page, Role, Stroke, mm};
use crate::typeset::flow::Flow;
use crate::typeset::form;
use crate::typeset::look::{BODY, CAPTION, COLUMN, SMALL};
use crate::typeset::wrap::{self, SetLine, Span, wrap};

const PAD: f64 = 2.3;
/// Rows that are kept on one page at most: more are longer than a page.
const MOST_TOGETHER: usize = 100;

impl Table {
    /// Sets the table, or says in its place why there is none.
    pub fn set_or_say(&self, flow: &mut Flow, empty: &str) {
        if self.rows.is_empty() {
            flow.text(BODY, empty);
        } else {
            self.set(flow);
        }
    }

    /// Height of its heads and first rows: what must not be torn from the name above it.
    pub fn least(&self, flow: &Flow) -> f64 {
        least(self, flow)
    }

    /// Sets the table into the flow.
    pub fn set(&self, flow: &mut Flow) {
        if self.is_cut {
            flow.give_up();
        }
        set(self, flow);
    }
}

fn set(table: &Table, flow: &mut Flow) {
    let body = flow.body();
    let layout = layout::lay_out(table, body.left, body.width());
    let heads = heads(table, &layout);
    flow.need(least(table, flow));
    flow.page().begin(Role::Table);
    draw_heads(table, flow, &layout, &heads);
    rows(table, flow, &layout, &heads);
    flow.page().end();
}

fn rows(table: &Table, flow: &mut Flow, layout: &Layout, heads: &Heads) {
    let body = flow.body();
    for (at, row) in table.rows.iter().enumerate() {
        if flow.is_full() {
            return;
        }
        let lines = rows_lines(table, row, layout);
        let is_first = at == 0 || !table.rows[at - 1].with_next;
        if is_first && row.with_next {
            let together = together(table, &table.rows[at..], layout);
            if together > flow.room() + 1e-6 && heads.height + together <= flow.full() {
                flow.next_page();
                draw_heads_again(table, flow, layout, heads);
            }
        }
        if heads.height + lines.height > flow.full() {
            split(table, flow, layout, heads, &lines);
            continue;
        }
        // What follows the table is not set alone on a page.
        let after = if at + 1 == table.rows.len()
            && heads.height + lines.height + table.after <= flow.full()
        {
            table.after
        } else {
            0.0
        };
        if lines.height + after > flow.room() + 1e-6 {
            flow.next_page();
            draw_heads_again(table, flow, layout, heads);
        }
        let top = flow.take(lines.height);
        draw_row(table, flow.page(), row, layout, &lines, top, body.left);
        rule(table, flow, layout, top + lines.height);
    }
}

/// Height of the first rows as far as each stays with the next, of many as far as that matters.
fn together(table: &Table, rows: &[TableRow], layout: &Layout) -> f64 {
    let rest = rows.iter().position(|row| !row.with_next);
    let all = &rows[..rest.map_or(rows.len(), |last| last + 1)];
    let each = all.iter().take(MOST_TOGETHER);
    each.map(|row| rows_lines(table, row, layout).height).sum()
}

/// Height of heads and first row, with those that it stays with, as far as they go on one page.
fn least(table: &Table, flow: &Flow) -> f64 {
    let body = flow.body();
    let layout = layout::lay_out(table, body.left, body.width());
    let heads = heads(table, &layout).height;
    let of = |rows| heads + together(table, rows, &layout);
    let all = of(&table.rows);
    if all <= flow.full() {
        return all;
    }
    // What stays together is longer than a page.
    of(table.rows.get(..1).unwrap_or_default()).min(flow.full())
}

/// The line under a row: across the table, or one to write on for each column.
fn rule(table: &Table, flow: &mut Flow, layout: &Layout, y: f64) {
    let body = flow.body();
    if !table.written_on {
        flow.page().rule(body.left, body.right, y, Stroke::HAIR);
        return;
    }
    // Room that is left over is no column.
    let is_column =
        |column: &Column| !column.head.is_empty() || !matches!(column.width, Width::Share(_));
    for (column, (x, width)) in table.columns.iter().zip(&layout.places) {
        if is_column(column) {
            flow.page().rule(*x, x + width, y, Stroke::HAIR);
        }
    }
}

/// A line to write on for each column.
pub(super) fn rule_columns(flow: &mut Flow, layout: &Layout, y: f64, stroke: Stroke) {
    for (x, width) in &layout.places {
        flow.page().rule(*x, x + width, y, stroke);
    }
}

pub(super) struct Heads {
    lines: Vec<Vec<SetLine>>,
    pub(super) height: f64,
}

pub(super) fn heads(table: &Table, layout: &Layout) -> Heads {
    let lines: Vec<_> = table
        .columns
        .iter()
        .zip(&layout.places)
        .map(|(column, (_, width))| {
            let mut lines = wrap(&[Span::new(COLUMN, &column.head)], *width);
            if !column.unit.is_empty() {
                lines.extend(wrap(
                    &[Span::new(CAPTION, &column.unit)],
                    width.max(CAPTION.measure(&column.unit)),
                ));
            }
            lines
        })
        .collect();
    let height = lines
        .iter()
        .map(|lines| wrap::height(lines))
        .fold(0.0, f64::max)
        + PAD * 1.5;
    Heads { lines, height }
}

/// Heads stand on the rule under them.
fn draw_heads(table: &Table, flow: &mut Flow, layout: &Layout, heads: &Heads) {
    draw_heads_at(table, flow, layout, heads);
    heads_rule(flow);
}

/// Heads on a later page, which are read once.
fn draw_heads_again(table: &Table, flow: &mut Flow, layout: &Layout, heads: &Heads) {
    flow.page().begin(Role::Edge);
    draw_heads(table, flow, layout, heads);
    flow.page().end();
}

/// Heads without the rule under them.
pub(super) fn draw_heads_at(table: &Table, flow: &mut Flow, layout: &Layout, heads: &Heads) {
    let top = flow.take(heads.height);
    let bottom = top + heads.height;
    flow.page().begin(Role::Row);
    for ((column, place), lines) in table.columns.iter().zip(&layout.places).zip(&heads.lines) {
        let y = bottom - PAD - wrap::height(lines);
        flow.page().part(Role::Head, |page| {
            draw_lines(page, lines, *place, column.align, y);
        });
    }
    flow.page().end();
}

/// The rule that heads stand on, where the flow is now.
pub(super) fn heads_rule(flow: &mut Flow) {
    let (body, y) = (flow.body(), flow.y());
    let stroke = Stroke::new(0.5, crate::page::Ink::Text);
    flow.page().rule(body.left, body.right, y, stroke);
}

pub(super) struct RowLines {
    cells: Vec<Vec<SetLine>>,
    note: Vec<SetLine>,
    pub(super) height: f64,
}

pub(super) fn rows_lines(table: &Table, row: &TableRow, layout: &Layout) -> RowLines {
    let cells: Vec<_> = table
        .columns
        .iter()
        .zip(&layout.places)
        .enumerate()
        .map(|(index, (column, (_, width)))| match row.cells.get(index) {
            Some(cell) if !cell.text.is_empty() => {
                // A figure that fits within the rounding of its own measure stays on one line.
                wrap(
                    &[Span::new(cell.style.unwrap_or(column.style), &cell.text)],
                    width + 1e-6,
                )
            }
            _ => Vec::new(),
        })
        .collect();
    let note = if row.note.is_empty() {
        Vec::new()
    } else {
        let (first, last) = (layout.places.first(), layout.places.last());
        let width = match (first, last) {
            (Some(first), Some(last)) => last.0 + last.1 - first.0 - mm(6.0),
            _ => 0.0,
        };
        wrap(&[Span::new(table.notes.unwrap_or(SMALL), &row.note)], width)
    };
    let text = cells
        .iter()
        .map(|lines| wrap::height(lines))
        .fold(0.0, f64::max);
    let note_height = if note.is_empty() {
        0.0
    } else {
        wrap::height(&note) + 1.0
    };
    let height = (text + note_height + 2.0 * PAD)
        .max(row.least)
        .max(COLUMN.leading() + 2.0 * PAD);
    RowLines {
        cells,
        note,
        height,
    }
}

pub(super) fn draw_row(
    table: &Table,
    page: &mut Page,
    row: &TableRow,
    layout: &Layout,
    lines: &RowLines,
    top: f64,
    left: f64,
) {
    let mut low: f64 = 0.0;
    page.begin(Role::Row);
    for (index, (column, place)) in table.columns.iter().zip(&layout.places).enumerate() {
        page.begin(Role::Cell { columns: 1 });
        if row.cells.get(index).is_some_and(|cell| cell.square) {
            let side = mm(2.8);
            let x = match column.align {
                Align::Left => place.0,
                Align::Center => place.0 + (place.1 - side) / 2.0,
                Align::Right => place.0 + place.1 - side,
            };
            form::square(
                page,
                x,
                top + (row.least.max(side + 2.0 * PAD) + side) / 2.0,
                side,
            );
        }
        draw_lines(page, &lines.cells[index], *place, column.align, top + PAD);
        page.end();
        low = low.max(wrap::height(&lines.cells[index]));
    }
    page.end();
    if lines.note.is_empty() {
        return;
    }
    let mut y = top + PAD + low + 1.0;
    let columns = u32::try_from(table.columns.len()).unwrap_or(u32::MAX);
    page.begin(Role::Row);
    page.begin(Role::Cell { columns });
    for line in &lines.note {
        line.set(page, left + mm(4.0), y);
        y += line.leading;
    }
    page.end();
    page.end();
}

fn draw_lines(page: &mut Page, lines: &[SetLine], (x, width): (f64, f64), align: Align, top: f64) {
    let mut y = top;
    for line in lines {
        let left = match align {
            Align::Left => x,
            Align::Center => x + (width - line.width) / 2.0,
            Align::Right => x + width - line.width,
        };
        line.set(page, left, y);
        y += line.leading;
    }
}

/// A row taller than a page goes on line by line.
pub(super) fn split(
    table: &Table,
    flow: &mut Flow,
    layout: &Layout,
    heads: &Heads,
    lines: &RowLines,
) {
    let body = flow.body();
    let deepest = lines.cells.iter().map(Vec::len).max().unwrap_or(0);
    // Line by line no cell is read as a whole: each line is a row.
    for index in 0..deepest {
        let leading = lines
            .cells
            .iter()
            .filter_map(|cell| cell.get(index))
            .map(|line| line.leading)
            .fold(0.0, f64::max);
        if leading > flow.room() {
            flow.next_page();
            draw_heads_again(table, flow, layout, heads);
        }
        let top = flow.take(leading);
        flow.page().begin(Role::Row);
        for ((column, place), cell) in table.columns.iter().zip(&layout.places).zip(&lines.cells) {
            let line = cell.get(index).map(std::slice::from_ref);
            flow.page().part(Role::Cell { columns: 1 }, |page| {
                draw_lines(page, line.unwrap_or_default(), *place, column.align, top);
            });
        }
        flow.page().end();
    }
    let columns = u32::try_from(table.columns.len()).unwrap_or(u32::MAX);
    for line in &lines.note {
        if line.leading > flow.room() {
            flow.next_page();
        }
        let top = flow.take(line.leading);
        flow.page().begin(Role::Row);
        flow.page().part(Role::Cell { columns }, |page| {
            line.set(page, body.left + mm(4.0), top);
        });
        flow.page().end();
    }
    let y = flow.take(PAD);
    flow.page()
        .rule(body.left, body.right, y + PAD, Stroke::HAIR);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::page::{MOST_PAGES, Sheet};
    use crate::typeset::table::content::MOST_ROWS;

    /// A table is never given up while its rows, however low, might still fit on a paper.
    #[test]
    fn a_table_keeps_more_rows_than_a_paper_has_room_for() {
        for sheet in [Sheet::A4, Sheet::Letter] {
            let lowest = COLUMN.leading() + 2.0 * PAD;
            let on_a_page = Flow::new(sheet).full() / lowest;
            assert!(
                on_a_page * (MOST_PAGES as f64) < MOST_ROWS as f64,
                "{on_a_page}"
            );
        }
    }
}
