//! Every piece with its lines: what was measured of it, and room for what is still to be.

use quillbore_job::{Form, inspected};

use super::measured::{Measured, OfPiece};
use super::pieces::Pieces;
use crate::matter::{Hole, Matter};
use crate::page::mm;
use crate::typeset::flow::Flow;
use crate::typeset::form::HAND;
use crate::typeset::look::{BODY, FIGURE, STRONG};
use crate::typeset::table::{Cell, Column, Table, TableRow, Width};
use crate::words::customer::Words;

pub(super) fn set(matter: &Matter<'_>, pieces: &Pieces, measured: &Measured<'_>, flow: &mut Flow) {
    put(matter, pieces, &table(matter, pieces, measured), flow);
}

/// The table of all pieces, a line for each mark.
pub(super) fn table(matter: &Matter<'_>, pieces: &Pieces, measured: &Measured<'_>) -> Table {
    let all = matter.words();
    let words = &all.inspection;
    let mut known = measured.pieces.values();
    let is_known = known.any(|of| !of.depths.is_empty());
    let depth = is_known || matter.holes().any(|hole| hole.is_blind());
    let sign = matter.job.unit.symbol();
    let mut columns = vec![
        Column::text(words.piece, Width::Fit(90.0)).style(STRONG),
        Column::text(all.heads.mark, Width::Fit(46.0)).style(STRONG),
        Column::text(words.sizes_found, Width::Share(1.4)).unit(sign),
    ];
    if depth {
        columns.push(Column::figures(
            words.depth_found,
            sign,
            Width::Fixed(mm(18.0)),
        ));
    }
    columns.extend([
        Column::figures(words.counted, words.checked, Width::Fixed(mm(15.0))),
        Column::figures(words.counted, words.not_good, Width::Fixed(mm(15.0))),
        Column::text(words.accepted, Width::Fixed(mm(17.0))),
        Column::text(all.heads.remark, Width::Share(1.6)),
    ]);
    let mut table = Table::new(columns).written_on();
    let holes: Vec<Hole<'_>> = matter.holes().collect();
    let none = OfPiece::default();
    for (at, piece) in pieces.names.iter().enumerate() {
        if table.is_cut() {
            break;
        }
        for hole in &holes {
            let known = measured.pieces.get(&(at, hole.index)).unwrap_or(&none);
            // Every line names its piece: a page may begin with any of them.
            let style = if hole.index == 0 { STRONG } else { FIGURE };
            let name = Cell::styled(piece.as_str(), style);
            table.row(row((all, matter.form()), name, hole, known, depth));
        }
    }
    table
}

/// Sets the table below its name, with what is said of the pieces as a whole.
pub(super) fn put(matter: &Matter<'_>, pieces: &Pieces, table: &Table, flow: &mut Flow) {
    let words = &matter.words().inspection;
    let keep = table.least(flow);
    flow.section(words.by_piece, words.by_piece_remark, keep);
    if let Some(uneven) = &pieces.uneven {
        flow.text(STRONG, uneven);
    }
    table.set_or_say(flow, words.no_holes);
    if pieces.more > 0 {
        flow.text(BODY, &(words.more_pieces)(matter.form(), pieces.more));
    }
}

fn row(
    (words, form): (&Words, Form),
    piece: Cell,
    hole: &Hole<'_>,
    known: &OfPiece,
    depth: bool,
) -> TableRow {
    let count =
        |count: Option<u32>| count.map_or_else(String::new, |count| form.count(f64::from(count)));
    let checked = match (known.checked, hole.count()) {
        (Some(checked), Some(of)) => (words.phrases.some_of)(form, checked, of),
        (checked, _) => count(checked),
    };
    let mut cells = vec![
        piece,
        Cell::new(hole.mark()),
        Cell::new(known.sizes.join("; ")),
    ];
    if depth {
        cells.push(Cell::new(known.depths.join("; ")));
    }
    let whole = !hole.is_blind() || !known.depths.is_empty();
    let accepted = inspected::accepted(known.checked, known.not_good, hole.count(), whole);
    cells.extend([
        Cell::new(checked),
        Cell::new(count(known.not_good)),
        Cell::new(accepted.map_or("", words.inspection.is_accepted)),
        Cell::new(known.remarks.join("; ")),
    ]);
    TableRow::new(cells).at_least(HAND)
}
