//! Rows that carry one mark.

use std::collections::BTreeMap;

use quillbore_calc::finding::{About, Finding, Kind, Level};
use quillbore_calc::{Remedy, RowId};

use super::found::found;
use super::note::SideNote;
use crate::job::Job;

/// Rows whose mark an earlier row carries, capitals and outer blanks aside.
pub(super) fn marks_twice(job: &Job) -> Vec<(SideNote, Option<usize>)> {
    // Thousands of marks are told apart by a number each; only those that share it are read.
    let rows = job.rows.iter().zip(0_usize..);
    let mut marks: Vec<(u64, usize)> = rows
        .filter_map(|(row, at)| Some((mark_number(row.mark.text().trim())?, at)))
        .collect();
    marks.sort_unstable();
    let lowered = |at: usize| job.rows[at].mark.text().trim().to_lowercase();
    let shared = marks.chunk_by(|(one, _), (other, _)| one == other);
    let shared = shared.filter(|alike| alike.len() > 1);
    let mut twice: Vec<(SideNote, Option<usize>)> = shared
        .flat_map(|alike| {
            let mut first: BTreeMap<String, RowId> = BTreeMap::new();
            let again = alike.iter().filter_map(|(_, at)| {
                let there = first.entry(lowered(*at)).or_insert(job.rows[*at].id);
                (*there != job.rows[*at].id).then_some((*there, *at))
            });
            again.collect::<Vec<_>>()
        })
        .map(|(other, at)| {
            let row = job.rows[at].id;
            let finding = Finding {
                level: Level::Check,
                about: About::Row(row),
                kind: Kind::MarkTwice { other },
                remedy: Some(Remedy::NewMark(row)),
            };
            (found(&finding, Some(at)), Some(at))
        })
        .collect();
    twice.sort_by_key(|(_, at)| *at);
    twice
}

/// A number that marks share where they differ in capitals alone (FNV-1a); none for no mark.
fn mark_number(mark: &str) -> Option<u64> {
    let number = |bytes: &mut dyn Iterator<Item = u8>| {
        bytes.fold(0xcbf2_9ce4_8422_2325_u64, |number, byte| {
            (number ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)
        })
    };
    if mark.is_empty() {
        return None;
    }
    Some(if mark.is_ascii() {
        number(&mut mark.bytes().map(|byte| byte.to_ascii_lowercase()))
    } else {
        number(&mut mark.to_lowercase().bytes())
    })
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::typed::entry::{Entry, Unit};
    use crate::typed::row::Row;

    fn twice(marks: &[&str]) -> Vec<(u32, usize)> {
        let row = |(id, mark): (u32, &&str)| {
            let mark = Entry::read(*mark, Unit::Mm, (*mark).to_owned());
            Arc::new(Row {
                id: RowId(id),
                mark,
                ..Row::default()
            })
        };
        let job = Job {
            rows: (0..).zip(marks).map(row).collect(),
            ..Job::default()
        };
        let notes = marks_twice(&job).into_iter();
        notes
            .map(|(note, at)| {
                let super::super::NoteKind::Found(Kind::MarkTwice { other }) = note.kind else {
                    panic!("{note:?}");
                };
                (other.0, at.expect("a place"))
            })
            .collect()
    }

    #[test]
    fn every_later_row_names_the_first_of_its_mark() {
        assert_eq!(twice(&["A", "B", "", "", " "]), []);
        assert_eq!(
            twice(&["A", "b", " a ", "B", "a"]),
            [(0, 2), (1, 3), (0, 4)]
        );
        // A Kelvin sign is a K in small letters; a sharp s has no capital of its own.
        assert_eq!(
            twice(&["k1", "\u{212a}1", "\u{c4}", "\u{e4}"]),
            [(0, 1), (2, 3)]
        );
    }
}
