//! Papers that left the house: both desks' stay, whatever their numbers.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::clash::Clash;
use super::three::Three;
use crate::issued::seal::SealState;
use crate::job::{Issued, Job};
use crate::pinned::read_line::read_line;
use crate::pinned::slip::lists::Line;

/// Characters of a hash that tell two papers apart.
const SHOWN: usize = 8;

/// The papers of both desks, theirs first; no paper that was issued goes.
pub(super) fn of_both(three: &Three) -> Vec<Arc<Issued>> {
    let there: BTreeSet<&str> = three.theirs.issued.iter().map(number).collect();
    let only_ours = three.ours.issued.iter();
    let only_ours = only_ours.filter(|issued| !there.contains(number(issued)));
    three
        .theirs
        .issued
        .iter()
        .chain(only_ours)
        .cloned()
        .collect()
}

fn number(issued: &Arc<Issued>) -> &str {
    &issued.number
}

/// Our job with another number for each paper of ours whose number theirs has given to another
/// paper. Both carry that number in print, so ours gets none that a paper could carry, but one that
/// says so; what we pinned about it goes with it.
pub(super) fn told_apart(base: &Job, ours: Job, theirs: &Job, clashes: &mut Vec<Clash>) -> Job {
    let mut ours = ours;
    let there: BTreeMap<&str, &Arc<Issued>> = theirs
        .issued
        .iter()
        .map(|issued| (number(issued), issued))
        .collect();
    let both = theirs.issued.iter().chain(&ours.issued);
    let mut taken: BTreeSet<String> = both.map(|issued| issued.number.clone()).collect();
    let mut renamed: BTreeMap<String, String> = BTreeMap::new();
    for issued in &mut ours.issued {
        if base.issued.contains(issued) {
            continue;
        }
        // One that takes the place of ours is not theirs that takes the place of theirs.
        if issued.replaces.iter().any(|old| renamed.contains_key(old)) {
            change(issued, |entry| {
                for old in &mut entry.replaces {
                    if let Some(new) = renamed.get(old) {
                        old.clone_from(new);
                    }
                }
            });
        }
        let same_number = there.get(number(issued));
        if same_number.is_none_or(|other| *other == issued) {
            continue;
        }
        let kept_as = free_name(issued, &taken);
        clashes.push(Clash::PaperTwice {
            paper: issued.paper,
            number: issued.number.clone(),
            date: issued.date,
            hash: issued.hash,
            kept_as: kept_as.clone(),
        });
        taken.insert(kept_as.clone());
        renamed.insert(issued.number.clone(), kept_as.clone());
        change(issued, |entry| entry.number = kept_as);
    }
    if !renamed.is_empty() {
        follow(base, &mut ours, &renamed);
    }
    ours
}

/// Changes an entry, with its seal where it fits: whoever reads it later is told by the name that it
/// was changed, and not taken for an edit of the file.
fn change(issued: &mut Arc<Issued>, how: impl FnOnce(&mut Issued)) {
    let fits = issued.seal_state() == SealState::Sealed;
    let entry = Arc::make_mut(issued);
    how(entry);
    if fits {
        *entry = entry.clone().sealed();
    }
}

/// A name for the second paper of a number: the number in print, and what its PDF is known by.
fn free_name(issued: &Issued, taken: &BTreeSet<String>) -> String {
    let hash: String = issued.hash.to_string().chars().take(SHOWN).collect();
    let number = &issued.number;
    let names = (1_u64..).map(|at| match at {
        1 => format!("{number} (another, hash {hash})"),
        at => format!("{number} (another, hash {hash}, {at})"),
    });
    let mut free = names.filter(|name| !taken.contains(name));
    free.next().unwrap_or_default()
}

/// What we pinned since about a paper of ours means that paper, not theirs.
fn follow(base: &Job, ours: &mut Job, renamed: &BTreeMap<String, String>) {
    for slip in &mut ours.slips {
        let entry = slip.line(Line::Paper);
        let named = entry.text().trim();
        let mut names = renamed.iter();
        let new = names.find(|(old, _)| old.eq_ignore_ascii_case(named));
        let (Some((_, new)), Some(unit)) = (new, entry.unit()) else {
            continue;
        };
        let before = base.slip(slip.id).map(|old| old.line(Line::Paper));
        if before == Some(entry) {
            continue;
        }
        let entry = read_line(Line::Paper, new, unit);
        let lines = &mut Arc::make_mut(slip).lines;
        Arc::make_mut(lines).insert(Line::Paper, entry);
    }
}
