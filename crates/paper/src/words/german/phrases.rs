//! Phrases that several papers build their lines of.

use crate::words::customer::Phrases;

/// What customers read of them in German.
pub(super) const WORDS: Phrases = Phrases {
    then: ", dann ",
    not_named: "nicht genannt",
    no_delivery: "Es ist noch keine Lieferung verzeichnet.",
    revised: |what, revision| format!("{what} Rev. {revision}"),
    and_more: |more| format!("{more}\u{a0}weitere"),
    first_to_last: |first, last| format!("{first}\u{a0}bis\u{a0}{last}"),
    row: |number| format!("Zeile {number}"),
    hole: |mark| format!("Bohrung {mark}: "),
    some_of: |form, some, all| {
        let [some, all] = [some, all].map(|count| form.count(f64::from(count)));
        format!("{some} von {all}")
    },
    at_most: |limit| format!("höchstens {limit}"),
    of_day: |number, day| format!("{number} vom {day}"),
};
