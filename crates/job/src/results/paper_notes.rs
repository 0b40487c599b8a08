//! What is to be said of issued papers: entries that don't fit their seal, and travelers that are on
//! the floor while the sheet went on.

use quillbore_calc::finding::Level;

use super::kind::NoteKind;
use super::note::{Beside, SideNote};
use crate::issued::seal::SealState;
use crate::job::{Issued, Job};
use crate::life::state::State;
use crate::{life, words};

/// Everything that is to be said of them, each with how it stands to its seal.
pub(super) fn all(job: &Job, seals: &[SealState]) -> Vec<SideNote> {
    let mut notes = Vec::new();
    let mut unsealed: Vec<&str> = Vec::new();
    for (issued, seal) in job.issued.iter().zip(seals) {
        let Issued { number, .. } = issued.as_ref();
        match *seal {
            SealState::Sealed => {}
            SealState::Unsealed => unsealed.push(number),
            SealState::Broken => {
                notes.push(note(
                    Level::Check,
                    NoteKind::EntryChanged,
                    words::issued::entry_changed(number),
                ));
            }
            SealState::Unknown(version) => {
                let said = words::issued::seal_unknown(number, version);
                notes.push(note(Level::Check, NoteKind::SealUnknown, said));
            }
        }
    }
    if !unsealed.is_empty() {
        let said = words::issued::unsealed(&unsealed);
        notes.push(note(Level::Note, NoteKind::NotSealed, said));
    }
    notes.extend(outdated(job));
    notes
}

/// Travelers by which nobody should work any more; once all is delivered, or the job set aside, nobody
/// does.
fn outdated(job: &Job) -> Vec<SideNote> {
    if life::state(job) != State::OnTheFloor {
        return Vec::new();
    }
    let all = life::changed_since_release(job).into_iter();
    all.map(|(number, changes)| {
        let said = words::life::traveler_outdated(&number, &changes);
        note(Level::Check, NoteKind::TravelerOutdated, said)
    })
    .collect()
}

fn note(level: Level, kind: NoteKind, said: String) -> SideNote {
    SideNote::new(level, kind, Beside::Papers, said)
}
