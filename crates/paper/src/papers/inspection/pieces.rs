//! The pieces of a job, by serial number or by number.

use std::collections::BTreeMap;

use quillbore_job::{inspected, serials};

use crate::matter::Matter;

/// The pieces of a job in the order of their lines.
pub(super) struct Pieces {
    /// Their names.
    pub(super) names: Vec<String>,
    at: BTreeMap<String, usize>,
    /// How many of them have a name of their own.
    named: usize,
    /// Why pieces and serial numbers don't come out even, where they don't.
    pub(super) uneven: Option<String>,
    /// Pieces that have no line any more.
    pub(super) more: u32,
}

impl Pieces {
    /// By serial numbers, as far as there are some; else by number. Every part that was counted has
    /// a line.
    pub(super) fn of(matter: &Matter<'_>) -> Self {
        let words = &matter.words().inspection;
        let parts = inspected::parts(matter.job);
        let count = (parts.count as usize).max(1);
        let numbered = |name: &String| {
            let number = name.parse::<usize>().ok();
            number.is_some_and(|number| (1..=count).contains(&number))
        };
        let named = parts.serials.len();
        let by_number = parts.serials.iter().all(numbered);
        let all = if by_number { count } else { count.max(named) };
        let shown = all.min(serials::MOST);
        let mut names: Vec<String> = if by_number {
            (1..=shown).map(|number| number.to_string()).collect()
        } else {
            parts.serials
        };
        names.truncate(shown);
        let own = names.len();
        for extra in 1..=shown.saturating_sub(names.len()) {
            names.push((words.without_serial)(extra));
        }
        let uneven = (!by_number && parts.count > 0 && named != parts.count as usize)
            .then(|| (words.uneven)(matter.form(), [parts.count, whole(named)]));
        let more = whole(all - shown);
        let at = names.iter().cloned().zip(0..).collect();
        Self {
            names,
            at,
            named: own,
            uneven,
            more,
        }
    }

    /// The names of pieces by their places in the list, what follows each other by first and last.
    pub(super) fn named(&self, places: &[usize]) -> String {
        let name = |at: usize| self.names.get(at).map_or("", String::as_str);
        let runs = places.chunk_by(|one, next| one + 1 == *next && *next != self.named);
        let told = runs.map(|run| match run {
            [first, .., last] => format!("{} \u{2013} {}", name(*first), name(*last)),
            [one] => name(*one).to_owned(),
            [] => String::new(),
        });
        told.collect::<Vec<_>>().join(", ")
    }

    /// Where a piece stands in the list, if it is one of it.
    pub(super) fn at(&self, piece: &str) -> Option<usize> {
        self.at.get(piece).copied()
    }
}

fn whole(count: usize) -> u32 {
    u32::try_from(count).unwrap_or(u32::MAX)
}
