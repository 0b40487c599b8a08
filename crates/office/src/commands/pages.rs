//! A drawing in PDF as the file of a hole table: its callouts are listed, or those that were chosen are taken.

use std::path::Path;

use quillbore_intake::pdf::Offered;
use quillbore_intake::words::pages as intake_words;

use super::ended::{Came, Ended, Made};
use super::saying::Saying;
use crate::failure::Failure;
use crate::hole_file;
use crate::words::intake as said;

/// Which callouts are taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Chosen {
    /// All of them.
    All,
    /// From one to another, by their numbers in the list.
    Some(Vec<(usize, usize)>),
}

/// Reads `all`, or numbers as `1,3,5-9`.
pub(super) fn chosen(text: &str) -> Result<Chosen, Failure> {
    if text.trim().eq_ignore_ascii_case("all") {
        return Ok(Chosen::All);
    }
    let number = |text: &str| {
        text.trim()
            .parse::<usize>()
            .ok()
            .filter(|number| *number > 0)
    };
    let parts = text.split(',').map(|part| {
        let (from, to) = part.split_once('-').unwrap_or((part, part));
        let (from, to) = (number(from)?, number(to)?);
        (from <= to).then_some((from, to))
    });
    let parts: Option<Vec<(usize, usize)>> = parts.collect();
    parts
        .map(Chosen::Some)
        .ok_or_else(|| said::no_callouts(text))
}

/// Chooses the callouts of a file that are to be taken.
pub(super) fn choose(
    offered: &mut Offered,
    chosen: Option<&Chosen>,
    path: &Path,
) -> Result<(), Failure> {
    let all = offered.callouts().count();
    let numbers: Vec<usize> = match chosen {
        None => Vec::new(),
        Some(Chosen::All) => (0..all).collect(),
        // One number beyond the last is enough to be told.
        Some(Chosen::Some(parts)) => parts
            .iter()
            .flat_map(|(from, to)| (*from).min(all + 1)..=(*to).min(all + 1))
            .map(|number| number - 1)
            .collect(),
    };
    let done = offered.take_only(&numbers);
    done.map_err(|error| hole_file::of_pages(&error, path))
}

/// Lists the callouts with their numbers, and how some are chosen.
pub(super) fn list(offered: &Offered, saying: &mut Saying<'_>) -> Came {
    for (number, callout) in (1..).zip(offered.callouts()) {
        saying.line(intake_words::listed(number, callout));
    }
    let pages = intake_words::of_pages(offered.paged());
    pages.iter().for_each(|page| saying.line(page));
    saying.line(said::nothing_taken());
    Came {
        ended: Ended::Done,
        made: Made::Nothing,
    }
}
