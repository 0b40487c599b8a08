//! Words of blank forms.

use crate::words::counted::count;
use crate::words::customer::Blank;

/// What they say in English.
pub(super) const WORDS: Blank = Blank {
    inspection: "blank inspection record",
    goes_with: |travelers| match travelers {
        [one] => format!("a further page, printed empty; it goes with traveler {one}"),
        _ => "a further page, printed empty; it goes with the traveler of its parts".to_owned(),
    },
    more_lines: |form, more| {
        let lines = count(
            form,
            more,
            "line of a piece and mark has",
            "lines of pieces and marks have",
        );
        format!("{lines} no room here: print more pages for them.")
    },
};
