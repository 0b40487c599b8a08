//! Counts beside locations of another number: the locations are what is drilled, and what is paid.

use quillbore_calc::finding::Level;

use super::kind::NoteKind;
use super::note::{Beside, SideNote};
use super::remedy::Offer;
use crate::edits::edit::{CellAt, Edit};
use crate::job::Job;
use crate::typed::row::Column;
use crate::words::counts as words;

/// That a count is another than the number of the row's locations, and where the row stands in the table.
pub(super) fn not_the_places(job: &Job) -> impl Iterator<Item = (SideNote, Option<usize>)> {
    let rows = job.rows.iter().enumerate();
    rows.filter_map(|(at, row)| {
        let (count, places) = (*row.count.value()?, row.holes());
        if row.places.is_empty() || count == places {
            return None;
        }
        let column = Column::Count;
        let beside = Beside::Row(row.id, Some(column));
        let said = words::count_is_not_places(count, places);
        let note = SideNote::new(Level::Check, NoteKind::CountIsNotPlaces, beside, said);
        let text = places.to_string();
        let offer = Offer {
            words: words::count_as_places(places),
            edit: Edit::SetCells {
                at: CellAt { row: at, column },
                rows: vec![vec![Some(text)]],
                unit: job.unit,
            },
        };
        Some((note.offering(Some(offer)), Some(at)))
    })
}
