//! What on the sheet is in the way of a paper, note by note, as the window tells it beside the lines.

use quillbore_calc::finding::Level;
use quillbore_job::life::Blocker;
use quillbore_job::results::{Beside, Results, SideNote, Telling};
use quillbore_job::words::speaker::Speaker;
use quillbore_job::{Job, Shop};

use crate::words::figures as words;

/// Most notes that are told: a table that was read by the wrong columns has one for each cell.
const MOST_TOLD: usize = 20;

/// The notes that some of `blockers` speak of, each as a line; `shop` is the one that the job goes by.
pub(super) fn told(blockers: &[Blocker], job: &Job, results: &Results, shop: &Shop) -> Vec<String> {
    let telling = Telling::new(job, shop);
    let speaker = Speaker {
        job,
        tables: &shop.tables,
        unit: job.unit,
        form: shop.form,
    };
    let notes = results.notes.iter();
    let notes: Vec<&SideNote> = notes.filter(|note| is_meant(blockers, note)).collect();
    let lines = notes.iter().take(MOST_TOLD);
    let mut lines: Vec<String> = lines
        .map(|note| words::note_at_its_place(note, &telling, &speaker))
        .collect();
    let more = notes.len() - lines.len();
    lines.extend((more > 0).then(|| words::more_notes(more)));
    lines
}

fn is_meant(blockers: &[Blocker], note: &SideNote) -> bool {
    let is_slip = matches!(note.beside, Beside::Slip(..));
    blockers.iter().any(|blocker| match blocker {
        Blocker::Stop => note.level == Level::Stop,
        Blocker::SheetUnread => note.kind.is_unread() && !is_slip,
        Blocker::Unread { .. } => note.kind.is_unread() && is_slip,
        _ => false,
    })
}
