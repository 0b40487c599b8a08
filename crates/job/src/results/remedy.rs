//! A remedy of the calculation as an edit of the job, with the words that offer it.

use std::cell::OnceCell;
use std::collections::BTreeSet;

use quillbore_calc::input::Ends;
use quillbore_calc::{Remedy, RowId, Tables};

use crate::edits::edit::{CellAt, Edit};
use crate::job::Job;
use crate::typed::field::Field;
use crate::typed::form::Form;
use crate::typed::row::Column;
use crate::words::english;

/// A remedy that the desk can offer: words to underline, and what they do.
#[derive(Clone, Debug, PartialEq)]
pub struct Offer {
    /// The words.
    pub words: String,
    /// The edit behind them.
    pub edit: Edit,
}

/// The offers of one job: what is the same for all of its rows is found once.
#[derive(Debug)]
pub struct Offers<'a> {
    job: &'a Job,
    tables: &'a Tables,
    free_mark: OnceCell<String>,
}

impl<'a> Offers<'a> {
    /// Offers about a job, with names out of the shop's tables.
    #[must_use]
    pub const fn new(job: &'a Job, tables: &'a Tables) -> Self {
        Self {
            job,
            tables,
            free_mark: OnceCell::new(),
        }
    }

    /// The offer that a remedy comes to; `None` where its row is gone. `at` is where its row
    /// stands in the table, where that is known.
    #[must_use]
    pub fn of(&self, remedy: Remedy, at: Option<usize>) -> Option<Offer> {
        let mark = || self.free_mark.get_or_init(|| free_mark(self.job)).clone();
        offer(self.job, self.tables, remedy, at, mark)
    }
}

fn offer(
    job: &Job,
    tables: &Tables,
    remedy: Remedy,
    at: Option<usize>,
    free_mark: impl Fn() -> String,
) -> Option<Offer> {
    let row_at = |row: RowId| {
        let here = |at: &usize| job.rows.get(*at).is_some_and(|there| there.id == row);
        at.filter(here).or_else(|| job.row_index(row))
    };
    let cell = |row: RowId, column: Column, text: String| {
        let index = row_at(row)?;
        Some(Edit::SetCells {
            at: CellAt { row: index, column },
            rows: vec![vec![Some(text)]],
            unit: job.unit,
        })
    };
    let field = |field: Field, text: String| {
        Some(Edit::SetField {
            field,
            text,
            unit: job.unit,
        })
    };
    let (words, edit) = match remedy {
        Remedy::AddBacking(row) => (
            english::remedy_backing().to_owned(),
            cell(row, Column::Backed, english::YES.to_owned())?,
        ),
        Remedy::DrillBothEnds(row) => (
            english::remedy_both_ends().to_owned(),
            cell(row, Column::Ends, english::ends(Ends::Both).to_owned())?,
        ),
        Remedy::DrillOneEnd(row) => (
            english::remedy_one_end().to_owned(),
            cell(row, Column::Ends, english::ends(Ends::One).to_owned())?,
        ),
        Remedy::UseTube(row, tube) => {
            let name = tube.of(&tables.tubes)?.name.clone();
            (english::remedy_tube(&name), cell(row, Column::Tube, name)?)
        }
        Remedy::UseMachine(machine) => {
            let name = &machine.of(&tables.machines)?.name;
            (
                english::remedy_machine(name),
                field(Field::Machine, name.clone())?,
            )
        }
        Remedy::IndexAbout(axis) => (
            english::remedy_index(axis),
            field(Field::IndexAbout, english::part_axis(Some(axis)).to_owned())?,
        ),
        Remedy::DepthFromLayers(row) => {
            let text = depth_of_layers(job, row_at(row)?)?;
            (
                english::remedy_depth_from_layers(&text),
                cell(row, Column::Depth, text)?,
            )
        }
        Remedy::NewMark(row) => {
            let mark = free_mark();
            (english::remedy_mark(&mark), cell(row, Column::Mark, mark)?)
        }
        Remedy::AskTestPiece => (
            english::remedy_test_piece().to_owned(),
            field(Field::HoldPoints, with_test_piece(job)?)?,
        ),
    };
    Some(Offer { words, edit })
}

/// What the layers of the row at a place come to, as it is typed.
fn depth_of_layers(job: &Job, at: usize) -> Option<String> {
    let layers = job.rows.get(at)?.layers.value()?;
    let sum = layers.iter().map(|layer| layer.thickness.mm()).sum();
    Some(Form::PLAIN.length_mm(sum, job.unit))
}

/// The hold points with one for a test piece; none where there is one already.
fn with_test_piece(job: &Job) -> Option<String> {
    let before = job.text(Field::HoldPoints);
    let line = english::HOLD_TEST_PIECE;
    if before.contains(line) {
        return None;
    }
    Some(if before.is_empty() {
        line.to_owned()
    } else {
        format!("{before}\n{line}")
    })
}

/// The first of A, B, ... Z, AA, AB, ... that no row carries.
fn free_mark(job: &Job) -> String {
    let marks = job.rows.iter().map(|row| row.mark.text().trim());
    let taken: BTreeSet<String> = marks.map(str::to_ascii_uppercase).collect();
    (0..=taken.len())
        .map(letters)
        .find(|mark| !taken.contains(mark))
        .unwrap_or_default()
}

/// 0 is A, 25 is Z, 26 is AA.
fn letters(mut index: usize) -> String {
    let mut mark = Vec::new();
    loop {
        mark.push(b'A' + u8::try_from(index % 26).unwrap_or(0));
        if index < 26 {
            break;
        }
        index = index / 26 - 1;
    }
    mark.reverse();
    String::from_utf8(mark).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::letters;

    #[test]
    fn marks_run_like_the_letters_of_a_drawing() {
        for (index, mark) in [
            (0, "A"),
            (25, "Z"),
            (26, "AA"),
            (27, "AB"),
            (51, "AZ"),
            (52, "BA"),
        ] {
            assert_eq!(letters(index), mark);
        }
    }
}
