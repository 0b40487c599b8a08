//! Every piece with its lines: what was measured of it, and room for what is still to be.

use std::collections::BTreeMap;

use quillbore_job::{inspected, serials};

use super::measured::{Measured, OfPiece};
use crate::flow::Flow;
use crate::form::HAND;
use crate::look::{BODY, FIGURE, STRONG};
use crate::matter::{Hole, Matter};
use crate::page::mm;
use crate::shown;
use crate::table::{Cell, Column, Row, Table, Width};
use crate::words::inspection as words;
use crate::words::traveler as floor;

/// The pieces of a job in the order of their lines.
pub(super) struct Pieces {
    names: Vec<String>,
    at: BTreeMap<String, usize>,
    /// Why pieces and serial numbers don't come out even, where they don't.
    uneven: Option<String>,
    /// Pieces that have no line any more.
    more: usize,
}

impl Pieces {
    /// By serial numbers, as far as there are some; else by number. Every part that was counted has
    /// a line.
    pub(super) fn of(matter: &Matter<'_>) -> Self {
        let parts = inspected::parts(matter.job);
        let count = (parts.count as usize).max(1);
        let numbered = |name: &String| {
            let number = name.parse::<usize>().ok();
            number.is_some_and(|number| (1..=count).contains(&number))
        };
        let named = parts.serials.len();
        let by_number = parts.serials.iter().all(numbered);
        let mut names = if by_number {
            (1..=count).map(|number| number.to_string()).collect()
        } else {
            parts.serials
        };
        for extra in 1..=count.saturating_sub(names.len()) {
            names.push(words::without_serial(extra));
        }
        let uneven = (!by_number && parts.count > 0 && named != parts.count as usize)
            .then(|| words::uneven(parts.count as usize, named));
        let more = names.len().saturating_sub(serials::MOST);
        names.truncate(serials::MOST);
        let at = names.iter().cloned().zip(0..).collect();
        Self {
            names,
            at,
            uneven,
            more,
        }
    }

    /// Where a piece stands in the list, if it is one of it.
    pub(super) fn at(&self, piece: &str) -> Option<usize> {
        self.at.get(piece).copied()
    }
}

pub(super) fn set(matter: &Matter<'_>, pieces: &Pieces, measured: &Measured<'_>, flow: &mut Flow) {
    let depth = matter.holes().any(|hole| hole.is_blind());
    let sign = shown::unit(matter.job.unit);
    let mut columns = vec![
        Column::text("Piece, serial", Width::Fit(90.0)).style(STRONG),
        Column::text("Mark", Width::Fit(46.0)).style(STRONG),
        Column::text("Sizes found", Width::Share(1.4)).unit(sign),
    ];
    if depth {
        columns.push(Column::figures("Depth found", sign, Width::Fixed(mm(18.0))));
    }
    columns.extend([
        Column::figures("Holes", "checked", Width::Fixed(mm(15.0))),
        Column::figures("Holes", "not good", Width::Fixed(mm(15.0))),
        Column::text("Remark", Width::Share(1.6)),
    ]);
    let mut table = Table::new(columns).written_on();
    let holes: Vec<Hole<'_>> = matter.holes().collect();
    let none = OfPiece::default();
    for (at, piece) in pieces.names.iter().enumerate() {
        for hole in &holes {
            let known = measured.pieces.get(&(at, hole.index)).unwrap_or(&none);
            // Every line names its piece: a page may begin with any of them.
            let style = if hole.index == 0 { STRONG } else { FIGURE };
            let name = Cell::styled(piece.as_str(), style);
            table.row(row(name, hole, known, depth));
        }
    }
    let keep = table.least(flow);
    flow.section(words::BY_PIECE, words::BY_PIECE_REMARK, keep);
    if let Some(uneven) = &pieces.uneven {
        flow.text(STRONG, uneven);
    }
    table.set_or_say(flow, floor::NO_HOLES);
    if pieces.more > 0 {
        flow.text(BODY, &words::more_pieces(pieces.more));
    }
}

fn row(piece: Cell, hole: &Hole<'_>, known: &OfPiece, depth: bool) -> Row {
    let count = |count: Option<u32>| count.map_or_else(String::new, |count| count.to_string());
    let checked = match (known.checked, hole.count()) {
        (Some(checked), Some(of)) => format!("{checked} of {of}"),
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
    cells.extend([
        Cell::new(checked),
        Cell::new(count(known.not_good)),
        Cell::new(known.remarks.join("; ")),
    ]);
    Row::new(cells).at_least(HAND)
}
