//! Holes whose end nobody gave: the calculation takes them for through ones.

use std::sync::Arc;

use quillbore_calc::finding::Level;

use super::kind::NoteKind;
use super::note::{Beside, SideNote};
use crate::job::Job;
use crate::typed::row::Column;
use crate::words::depth as words;

/// That a hole is taken for a through one, and where its row stands in the table.
pub(super) fn assumed(job: &Job) -> impl Iterator<Item = (SideNote, Option<usize>)> {
    let rows = job.rows.iter().enumerate();
    let open = rows.filter(|(_, row)| row.is_through_by_silence());
    let said: Arc<str> = words::END_ASSUMED.into();
    open.map(move |(at, row)| {
        let beside = Beside::Row(row.id, Some(Column::End));
        let note = SideNote::new(Level::Note, NoteKind::EndAssumed, beside, Arc::clone(&said));
        (note, Some(at))
    })
}
