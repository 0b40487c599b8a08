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
use crate::words::heads;
use crate::words::phrases;
use crate::words::traveler::holes::NO_HOLES;
use crate::words::{first_article, inspection as words};

pub(super) fn set(matter: &Matter<'_>, pieces: &Pieces, measured: &Measured<'_>, flow: &mut Flow) {
    put(matter, pieces, &table(matter, pieces, measured), flow);
}

/// The table of all pieces, a line for each mark.
pub(super) fn table(matter: &Matter<'_>, pieces: &Pieces, measured: &Measured<'_>) -> Table {
    let depth = matter.holes().any(|hole| hole.is_blind());
    let sign = matter.job.unit.symbol();
    let mut columns = vec![
        Column::text(heads::PIECE, Width::Fit(90.0)).style(STRONG),
        Column::text(heads::MARK, Width::Fit(46.0)).style(STRONG),
        Column::text(heads::SIZES_FOUND, Width::Share(1.4)).unit(sign),
    ];
    if depth {
        columns.push(Column::figures(
            words::DEPTH_FOUND,
            sign,
            Width::Fixed(mm(18.0)),
        ));
    }
    columns.extend([
        Column::figures(heads::HOLES, heads::CHECKED, Width::Fixed(mm(15.0))),
        Column::figures(heads::HOLES, heads::NOT_GOOD, Width::Fixed(mm(15.0))),
        Column::text(words::ACCEPTED, Width::Fixed(mm(17.0))),
        Column::text(heads::REMARK, Width::Share(1.6)),
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
            table.row(row(matter.form(), name, hole, known, depth));
        }
    }
    table
}

/// Sets the table below its name, with what is said of the pieces as a whole.
pub(super) fn put(matter: &Matter<'_>, pieces: &Pieces, table: &Table, flow: &mut Flow) {
    let keep = table.least(flow);
    flow.section(words::BY_PIECE, words::BY_PIECE_REMARK, keep);
    if let Some(uneven) = &pieces.uneven {
        flow.text(STRONG, uneven);
    }
    table.set_or_say(flow, NO_HOLES);
    if pieces.more > 0 {
        flow.text(BODY, &words::more_pieces(matter.form(), pieces.more));
    }
}

fn row(form: Form, piece: Cell, hole: &Hole<'_>, known: &OfPiece, depth: bool) -> TableRow {
    let count =
        |count: Option<u32>| count.map_or_else(String::new, |count| form.count(f64::from(count)));
    let checked = match (known.checked, hole.count()) {
        (Some(checked), Some(of)) => phrases::some_of(form, checked, of),
        (checked, _) => count(checked),
    };
    let mut cells = vec![
        piece,
        Cell::new(hole.mark()),
        Cell::new(known.sizes.join("; ")),
    ];
    if depth {
        cells.push(Cell::blank());
    }
    let accepted = inspected::accepted(known.checked, known.not_good, hole.count());
    cells.extend([
        Cell::new(checked),
        Cell::new(count(known.not_good)),
        Cell::new(accepted.map_or("", first_article::accepted)),
        Cell::new(known.remarks.join("; ")),
    ]);
    TableRow::new(cells).at_least(HAND)
}
