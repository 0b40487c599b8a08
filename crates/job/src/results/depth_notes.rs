//! What is to be said of rows whose depth says through.

use quillbore_calc::finding::Level;
use quillbore_calc::input::HoleEnd;

use super::kind::NoteKind;
use super::note::{Beside, SideNote};
use crate::asked::to_input::Asked;
use crate::job::row_depth::row_depth;
use crate::typed::row::Column;
use crate::words::depth as words;
use crate::words::speaker::Speaker;

/// What is said of rows whose depth says through, and where each stands in the table.
pub(super) fn through(speaker: &Speaker<'_>, asked: &Asked) -> Vec<(SideNote, Option<usize>)> {
    let Speaker { job, .. } = *speaker;
    let rows = job.rows.iter().zip(&asked.input.rows).enumerate();
    let notes = rows.filter_map(|(at, (row, input))| {
        let depth = row.depth.value().filter(|depth| depth.through)?;
        let end = row.end.value().copied().unwrap_or_default();
        let note = |level, kind, column, text| {
            SideNote::new(level, kind, Beside::Row(row.id, Some(column)), text)
        };
        if end == HoleEnd::Blind {
            let text = words::through_and_blind().to_owned();
            return Some((
                note(Level::Stop, NoteKind::ThroughAndBlind, Column::End, text),
                at,
            ));
        }
        // A depth typed with it says itself how deep the hole is.
        if depth.aim.is_some() {
            return None;
        }
        let found = row_depth(job, row, input.tilt_deg, &input.layers);
        let text = words::through(found, end, input.tilt_deg, |mm| speaker.length(mm))?;
        Some((
            note(Level::Note, NoteKind::DepthFromWall, Column::Depth, text),
            at,
        ))
    });
    notes.map(|(note, at)| (note, Some(at))).collect()
}
