//! What was guessed of the holes of one row, each guess once.

use std::collections::BTreeMap;

use quillbore_job::Unit;

use crate::seen::{Guessed, SeenHole};
use crate::words::drawn as words;

/// So many sentences a row has at most.
const MOST: usize = 8;

/// What was guessed of holes, with how many of them where it is not said of all.
pub(super) fn guesses(holes: &[&SeenHole], unit: Unit) -> Vec<String> {
    // Of walls that are not quite round the worst stands for all.
    let off = |guess: &Guessed| match guess {
        Guessed::NotQuiteRound(off) => Some(*off),
        _ => None,
    };
    let all = || holes.iter().flat_map(|hole| &hole.guessed);
    let worst = all().filter_map(off).fold(0.0, f64::max);
    let mut said: BTreeMap<String, (usize, usize)> = BTreeMap::new();
    for guess in all() {
        let sentence = match off(guess) {
            Some(_) => words::guess(&Guessed::NotQuiteRound(worst), unit),
            None => words::guess(guess, unit),
        };
        let Some(sentence) = sentence else {
            continue;
        };
        let next = said.len();
        said.entry(sentence).or_insert((next, 0)).1 += 1;
    }
    let mut said: Vec<(usize, String, usize)> = said
        .into_iter()
        .map(|(sentence, (order, times))| (order, sentence, times))
        .collect();
    said.sort();
    let more = said.len().saturating_sub(MOST);
    said.truncate(MOST);
    let mut sentences: Vec<String> = said
        .into_iter()
        .map(|(_, sentence, times)| words::of_some(sentence, times, holes.len()))
        .collect();
    sentences.extend((more > 0).then(|| words::more_guesses(more)));
    sentences
}
