//! Two tables as one whose rows take two lines: for more columns than a sheet is wide.

use super::content::Table;
use super::layout::{self, Layout};
use super::set::{
    Heads, RowLines, draw_heads_at, draw_row, heads, heads_rule, rows_lines, rule_columns, split,
};
use crate::page::{Ink, Role, Stroke};
use crate::typeset::flow::Flow;

/// The lines to write on: thin ones of the upper tier, and those that end a row.
const RULES: [Stroke; 2] = [Stroke::HAIR, Stroke::new(0.6, Ink::Text)];

/// Sets two tables with as many rows each, every row of the lower one below its like of the upper one:
/// heads in two tiers, rows in two lines, the lower one ruled more strongly.
pub fn set_in_tiers(tiers: &[Table; 2], flow: &mut Flow) {
    if tiers.iter().any(Table::is_cut) {
        flow.give_up();
    }
    let body = flow.body();
    let layouts = tiers
        .each_ref()
        .map(|table| layout::lay_out(table, body.left, body.width()));
    let heads = [0, 1].map(|tier| heads(&tiers[tier], &layouts[tier]));
    let first = lines_of(tiers, &layouts, 0).map_or(0.0, |lines| height(&lines));
    flow.need((height_of_heads(&heads) + first).min(flow.full()));
    flow.page().begin(Role::Table);
    draw_heads(tiers, flow, &layouts, &heads);
    rows(tiers, flow, &layouts, &heads);
    flow.page().end();
}

fn rows(tiers: &[Table; 2], flow: &mut Flow, layouts: &[Layout; 2], heads: &[Heads; 2]) {
    let count = tiers[0].rows.len().min(tiers[1].rows.len());
    for row in 0..count {
        if flow.is_full() {
            return;
        }
        let Some(lines) = lines_of(tiers, layouts, row) else {
            return;
        };
        if height_of_heads(heads) + height(&lines) > flow.full() {
            for tier in [0, 1] {
                split(
                    &tiers[tier],
                    flow,
                    &layouts[tier],
                    &heads[tier],
                    &lines[tier],
                );
            }
            continue;
        }
        if height(&lines) > flow.room() + 1e-6 {
            flow.next_page();
            flow.page().begin(Role::Edge);
            draw_heads(tiers, flow, layouts, heads);
            flow.page().end();
        }
        draw_lines(tiers, flow, layouts, &lines, row);
    }
}

fn draw_lines(
    tiers: &[Table; 2],
    flow: &mut Flow,
    layouts: &[Layout; 2],
    lines: &[RowLines; 2],
    row: usize,
) {
    let body = flow.body();
    for tier in [0, 1] {
        let (table, layout, lines) = (&tiers[tier], &layouts[tier], &lines[tier]);
        let Some(of_table) = table.rows.get(row) else {
            return;
        };
        let top = flow.take(lines.height);
        draw_row(table, flow.page(), of_table, layout, lines, top, body.left);
        let bottom = top + lines.height;
        rule_columns(flow, layout, bottom, RULES[tier]);
    }
}

fn draw_heads(tiers: &[Table; 2], flow: &mut Flow, layouts: &[Layout; 2], heads: &[Heads; 2]) {
    draw_heads_at(&tiers[0], flow, &layouts[0], &heads[0]);
    let between = flow.y();
    rule_columns(flow, &layouts[0], between, RULES[0]);
    draw_heads_at(&tiers[1], flow, &layouts[1], &heads[1]);
    heads_rule(flow);
}

fn lines_of(tiers: &[Table; 2], layouts: &[Layout; 2], row: usize) -> Option<[RowLines; 2]> {
    let upper = rows_lines(&tiers[0], tiers[0].rows.get(row)?, &layouts[0]);
    let lower = rows_lines(&tiers[1], tiers[1].rows.get(row)?, &layouts[1]);
    Some([upper, lower])
}

fn height(lines: &[RowLines; 2]) -> f64 {
    lines.iter().map(|lines| lines.height).sum()
}

fn height_of_heads(heads: &[Heads; 2]) -> f64 {
    heads.iter().map(|heads| heads.height).sum()
}
