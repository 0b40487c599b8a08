//! Blank pages of the inspection record: what is asked, the line of each piece and mark with nothing
//! in it, and lines without a name as far as the pages have room.

use std::collections::BTreeMap;

use super::measured::Measured;
use super::pieces::Pieces;
use super::{asked, piece_lines};
use crate::matter::Matter;
use crate::page::mm;
use crate::typeset::flow::Flow;
use crate::typeset::form;
use crate::typeset::look::BODY;
use crate::typeset::table::{Cell, Table, TableRow};

/// Height of a line [mm].
const LINE: f64 = 9.0;

/// Lays the lines out on so many pages, or on as many as all of them need.
pub(in crate::papers) fn laid_out(matter: &Matter<'_>, pages: Option<usize>) -> Flow {
    let nothing = Measured {
        lot: Vec::new(),
        pieces: BTreeMap::new(),
    };
    let pieces = Pieces::of(matter);
    let mut table = piece_lines::table(matter, &pieces, (&nothing, ""), 0..pieces.names.len());
    for row in &mut table.rows {
        row.least = mm(LINE);
    }
    let form = Lines {
        matter,
        pieces,
        table,
    };
    let all = form.table.rows.len();
    let whole = form.set(all, 0);
    let needed = pages_of(&whole);
    let pages = pages.unwrap_or(needed);
    if pages < needed {
        return form.set(form.most(pages), 0);
    }
    let below = (whole.room() / mm(LINE)).floor().max(0.0);
    let further = (whole.full() / mm(LINE)).floor() * (pages - needed) as f64;
    let mut blanks = (below + further) as usize;
    loop {
        let laid = form.set(all, blanks);
        // Heads and what is signed take of the room, too.
        if blanks == 0 || pages_of(&laid) <= pages {
            return laid;
        }
        blanks -= 1;
    }
}

fn pages_of(flow: &Flow) -> usize {
    flow.pages_done() + 1
}

struct Lines<'a> {
    matter: &'a Matter<'a>,
    pieces: Pieces,
    table: Table,
}

impl Lines<'_> {
    /// Sets the first lines of the table, and so many without a name.
    fn set(&self, lines: usize, blanks: usize) -> Flow {
        let mut table = self.table.clone();
        let more = table.rows.len() - lines;
        table.rows.truncate(lines);
        let cells = table.columns.len();
        let blank = TableRow::new((0..cells).map(|_| Cell::blank())).at_least(mm(LINE));
        for _ in 0..blanks {
            table.row(blank.clone());
        }
        let words = self.matter.words();
        let mut flow = Flow::in_language(self.matter.sheet, self.matter.language);
        asked(self.matter, &mut flow);
        piece_lines::put(self.matter, &self.pieces, &table, &mut flow);
        if more > 0 {
            let more = u32::try_from(more).unwrap_or(u32::MAX);
            flow.text(BODY, &(words.blank.more_lines)(self.matter.form(), more));
        }
        flow.together(|flow| {
            flow.take(mm(2.0));
            form::sign_off(flow, words.inspection.as_noted);
        });
        flow
    }

    /// The most lines that so many pages have room for; one, where what is asked fills them already.
    fn most(&self, pages: usize) -> usize {
        let (mut fit, mut beyond) = (1, self.table.rows.len());
        while beyond - fit > 1 {
            let middle = fit + (beyond - fit) / 2;
            if pages_of(&self.set(middle, 0)) <= pages {
                fit = middle;
            } else {
                beyond = middle;
            }
        }
        fit
    }
}
