//! Pieces with their lines: what was measured of them, and on blank pages room for what is still to be.

use std::collections::BTreeSet;

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

/// Sets the lines of the pieces of which something was measured, names the others, and has it signed.
pub(super) fn set(
    matter: &Matter<'_>,
    (pieces, measured): (&Pieces, &Measured<'_>),
    flow: &mut Flow,
    signed: impl Fn(&mut Flow),
) {
    let known: BTreeSet<usize> = measured.pieces.keys().map(|(at, _)| *at).collect();
    let others: Vec<usize> = (0..pieces.names.len())
        .filter(|at| !known.contains(at))
        .collect();
    let words = &matter.words().inspection;
    let others = (!others.is_empty() && matter.holes().next().is_some()).then(|| {
        let many = u32::try_from(others.len()).unwrap_or(u32::MAX);
        (words.not_by_piece)(matter.form(), &pieces.named(&others), many)
    });
    let end = |flow: &mut Flow| {
        if let Some(others) = &others {
            flow.take(mm(1.0));
            flow.text(BODY, others);
        }
        signed(flow);
    };
    let lines = table(matter, pieces, (measured, words.not_measured), known);
    // Of very many that were not measured the list may take pages by itself.
    let height = flow.height_of(end).unwrap_or(0.0);
    put(matter, pieces, &lines.followed_by(height), flow);
    flow.together(end);
}

/// The table of these pieces, a line for each mark; what is remarked where nothing was measured.
pub(super) fn table(
    matter: &Matter<'_>,
    pieces: &Pieces,
    (measured, not_measured): (&Measured<'_>, &str),
    which: impl IntoIterator<Item = usize>,
) -> Table {
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
    let none = OfPiece {
        remarks: vec![not_measured.to_owned()],
        ..OfPiece::default()
    };
    let last = holes.len().saturating_sub(1);
    for at in which {
        let Some(piece) = pieces.names.get(at).filter(|_| !table.is_cut()) else {
            break;
        };
        for hole in &holes {
            let known = measured.pieces.get(&(at, hole.index)).unwrap_or(&none);
            // Every line names its piece: of very many marks a page may begin with any of them.
            let style = if hole.index == 0 { STRONG } else { FIGURE };
            let name = Cell::styled(piece.as_str(), style);
            let row = row((all, matter.form()), name, hole, known, depth);
            table.row(if hole.index < last {
                row.with_next()
            } else {
                row
            });
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
    if matter.holes().next().is_none() {
        flow.text(BODY, words.no_holes);
    } else if !table.rows.is_empty() {
        table.set(flow);
    }
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
