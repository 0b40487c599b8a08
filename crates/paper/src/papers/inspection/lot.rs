//! What was measured over several pieces: printed once, as what it is.

use super::measured::Measured;
use crate::matter::Matter;
use crate::typeset::flow::Flow;
use crate::typeset::look::STRONG;
use crate::typeset::table::{Cell, Column, Table, TableRow, Width};

pub(super) fn set(matter: &Matter<'_>, measured: &Measured<'_>, flow: &mut Flow) {
    if measured.lot.is_empty() {
        return;
    }
    let all = matter.words();
    let words = &all.inspection;
    let mut table = Table::new([
        Column::text(all.heads.mark, Width::Fit(60.0)).style(STRONG),
        Column::text(words.hole_numbers, Width::Fit(60.0)),
        Column::text(words.sizes_found, Width::Share(1.0)).unit(matter.job.unit.symbol()),
        Column::text(words.pieces, Width::Share(1.0)),
        Column::figures(words.counted, words.checked, Width::Fit(44.0)),
        Column::figures(words.counted, words.not_good, Width::Fit(44.0)),
        Column::text(words.date, Width::Fit(64.0)),
        Column::text(words.name, Width::Fit(60.0)),
    ]);
    for record in &measured.lot {
        let pieces = if record.pieces.is_empty() {
            words.no_piece_named
        } else {
            record.pieces
        };
        let [checked, not_good] = record.counts;
        table.row(
            TableRow::new([
                Cell::new(record.mark),
                Cell::new(record.numbers),
                Cell::new(record.sizes),
                Cell::new(pieces),
                Cell::new(checked),
                Cell::new(not_good),
                Cell::new(record.date.as_str()),
                Cell::new(record.by),
            ])
            .note(record.note.as_str()),
        );
    }
    let keep = table.least(flow);
    flow.section(words.of_the_lot, words.of_the_lot_remark, keep);
    table.set(flow);
}
