//! A drilling order in words, as short as it can be told without leaving anything out.

use crate::matter::Matter;
use crate::matter::axes::PlacedStop;
use crate::words::axes as words;

/// A stop as it is told: its mark, with the side where it is the exit, and its number.
#[derive(Clone, Debug, PartialEq, Eq)]
struct NamedStop {
    mark: String,
    number: u32,
}

/// Marks that take turns over a range of numbers are told by that; else numbers that run on are told
/// by first and last.
pub(super) fn told(matter: &Matter<'_>, stops: &[PlacedStop]) -> Vec<String> {
    let list: Vec<NamedStop> = stops
        .iter()
        .filter_map(|stop| {
            let row = matter.job.row(stop.row)?;
            let side = words::from_exit(stop.far).trim();
            let mark = matter.mark(stop.row);
            Some(NamedStop {
                mark: format!("{mark} {side}").trim_end().to_owned(),
                number: row.places.get(stop.place)?.number,
            })
        })
        .collect();
    in_words(&list)
}

/// Marks that take turns, at most.
const TURNS: usize = 8;
/// Turns that are worth a shorter word.
const WORTH: usize = 3;

fn in_words(list: &[NamedStop]) -> Vec<String> {
    let mut said: Vec<String> = Vec::new();
    // Numbers of one mark that are still to be told.
    let mut open: &[NamedStop] = &[];
    let mut at = 0;
    while at < list.len() {
        if let Some((turns, times, last)) = in_turn(&list[at..]) {
            said.extend(of_one_mark(open));
            open = &[];
            let marks: Vec<&str> = list[at..at + turns]
                .iter()
                .map(|t| t.mark.as_str())
                .collect();
            said.push(words::in_turn(&marks.join(", "), list[at].number, last));
            at += turns * times;
            continue;
        }
        let start = at - open.len();
        if open
            .first()
            .is_some_and(|first| first.mark != list[at].mark)
        {
            said.extend(of_one_mark(open));
            open = &list[at..=at];
        } else {
            open = &list[start..=at];
        }
        at += 1;
    }
    said.extend(of_one_mark(open));
    said
}

/// How many marks take turns from here, how often, and the last number; `None` where they don't.
fn in_turn(list: &[NamedStop]) -> Option<(usize, usize, u32)> {
    let first = list.first()?;
    let turns = list
        .iter()
        // One more than are told is too many, however many there are.
        .take(TURNS + 1)
        .take_while(|told| told.number == first.number)
        .count();
    if !(2..=TURNS).contains(&turns) {
        return None;
    }
    let cycle = &list[..turns];
    [1_i64, -1]
        .into_iter()
        .map(|step| {
            let next = |times: usize| i64::from(first.number) + step * times as i64;
            let times = list
                .chunks(turns)
                .enumerate()
                .take_while(|(times, chunk)| {
                    chunk.len() == turns
                        && chunk.iter().zip(cycle).all(|(told, of)| {
                            told.mark == of.mark && i64::from(told.number) == next(*times)
                        })
                })
                .count();
            let last = list[turns * (times - 1)].number;
            (turns, times, last)
        })
        .filter(|(_, times, _)| *times >= WORTH)
        .max_by_key(|(_, times, _)| *times)
}

fn of_one_mark(list: &[NamedStop]) -> Option<String> {
    let mark = &list.first()?.mark;
    let numbers: Vec<u32> = list.iter().map(|told| told.number).collect();
    Some(format!("{mark} {}", runs(&numbers).join(", ")))
}

/// Numbers with those that rise or fall by one told by first and last.
fn runs(numbers: &[u32]) -> Vec<String> {
    let mut told = Vec::new();
    let mut rest = numbers;
    while let [first, ..] = rest {
        let along = |step: i64| {
            let next = |pair: &&[u32]| i64::from(pair[1]) - i64::from(pair[0]) == step;
            1 + rest.windows(2).take_while(next).count()
        };
        let length = along(1).max(along(-1));
        // Two in a row are two.
        let length = if length >= WORTH { length } else { 1 };
        told.push(if length > 1 {
            words::range(*first, rest[length - 1])
        } else {
            first.to_string()
        });
        rest = &rest[length..];
    }
    told
}

#[cfg(test)]
mod tests {
    use super::{NamedStop, in_words};

    #[test]
    fn an_order_is_told_short_and_whole() {
        let list = |text: &str| -> Vec<NamedStop> {
            let stops = text.split(' ').filter(|stop| !stop.is_empty());
            stops
                .map(|stop| NamedStop {
                    mark: stop[..1].to_owned(),
                    number: stop[1..].parse().unwrap_or_default(),
                })
                .collect()
        };
        for (order, told) in [
            ("", &[][..]),
            ("A1 A2", &["A 1, 2"]),
            ("A1 A2 A3 A9", &["A 1 to 3, 9"]),
            ("A5 A4 A3 B7", &["A 5 to 3", "B 7"]),
            (
                "C1 B1 C2 B2 C3 B3 C4 B4",
                &["C, B in turn of each number, 1 to 4"],
            ),
            (
                "A9 C3 B3 C2 B2 C1 B1 A8",
                &["A 9", "C, B in turn of each number, 3 to 1", "A 8"],
            ),
            ("C1 B1 B2 C2", &["C 1", "B 1, 2", "C 2"]),
            ("A1 A1 A2", &["A 1, 1, 2"]),
        ] {
            let said: Vec<String> = in_words(&list(order))
                .into_iter()
                .map(|said| said.replace('\u{a0}', " "))
                .collect();
            assert_eq!(said, told, "{order}");
        }
    }
}
