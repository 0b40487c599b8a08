//! What was measured over several pieces: printed once, as what it is.

use super::measured::Measured;
use crate::matter::Matter;
use crate::typeset::flow::Flow;
use crate::typeset::look::STRONG;
use crate::typeset::table::{Cell, Column, Table, TableRow, Width};
use crate::words::heads;
use crate::words::inspection as words;

pub(super) fn set(matter: &Matter<'_>, measured: &Measured<'_>, flow: &mut Flow) {
    if measured.lot.is_empty() {
        return;
    }
    let mut table = Table::new([
        Column::text(heads::MARK, Width::Fit(60.0)).style(STRONG),
        Column::text(words::HOLE_NUMBERS, Width::Fit(60.0)),
        Column::text(heads::SIZES_FOUND, Width::Share(1.0)).unit(matter.job.unit.symbol()),
        Column::text(words::PIECES, Width::Share(1.0)),
        Column::figures(heads::HOLES, heads::CHECKED, Width::Fit(44.0)),
        Column::figures(heads::HOLES, heads::NOT_GOOD, Width::Fit(44.0)),
        Column::text(heads::DATE, Width::Fit(64.0)),
        Column::text(heads::NAME, Width::Fit(60.0)),
    ]);
    for record in &measured.lot {
        let pieces = if record.pieces.is_empty() {
            words::NO_PIECE_NAMED
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
    flow.section(words::OF_THE_LOT, words::OF_THE_LOT_REMARK, keep);
    table.set(flow);
}
