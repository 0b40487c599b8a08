//! Words of the run records: heads of their columns, the same on the screen and on the traveler, and
//! what is said of entries that can't be.

use super::slips;
use crate::pinned::slip::lists::Line;
use crate::pinned::slip::run_columns::RUN_COLUMNS;
use crate::pinned::slip::view::LineOf;
use crate::typed::entry::Unit;

/// The head of a column, in two parts that stand below each other where the column is narrow.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct RunHead {
    /// Its first word or two.
    pub first: &'static str,
    /// What goes on below; empty for nothing.
    pub rest: &'static str,
    /// What it is counted in; empty for nothing.
    pub unit: &'static str,
}

impl RunHead {
    /// The head as one name.
    #[must_use]
    pub fn name(self) -> String {
        [self.first, self.rest].join(" ").trim_end().to_owned()
    }

    /// What stands below the first part: the rest and the unit.
    #[must_use]
    pub fn below(self) -> String {
        match (self.rest, self.unit) {
            (rest, "") => rest.to_owned(),
            ("", unit) => unit.to_owned(),
            (rest, unit) => format!("{rest}, {unit}"),
        }
    }
}

/// The head of a column of the run records.
#[must_use]
pub const fn head(line: Line, unit: Unit) -> RunHead {
    let length = unit.symbol();
    let (first, rest, unit) = match line {
        Line::Date => ("date", "", ""),
        Line::Serials => ("pieces", "or serials", ""),
        Line::Mark => ("mark", "", ""),
        Line::Holes => ("holes", "", ""),
        Line::ElectrodeNumber => ("electrode", "no.", ""),
        Line::TubeUsed => ("electrode", "used", ""),
        Line::TubeBefore => ("length", "before", length),
        Line::TubeAfter => ("length", "after", length),
        Line::Dressed => ("dressed", "off", length),
        Line::DepthReached => ("depth", "if other", length),
        Line::SparkMinutes => ("sparking", "", MINUTES),
        Line::FloorMinutes => ("floor", "", MINUTES),
        Line::StopMinutes => ("stops", "", MINUTES),
        Line::Breakages => ("broke", "", ""),
        Line::Good => ("good", "parts", ""),
        Line::Scrap => ("scrap", "parts", ""),
        Line::Pins => ("pin", "sizes", length),
        Line::By => ("name", "", ""),
        _ => (slips::line(line), "", ""),
    };
    RunHead { first, rest, unit }
}

const MINUTES: &str = "min";

/// What the two columns of minutes hold.
pub const WHICH_MINUTES: &str = "sparking by the counter, or floor minutes by the clock from the first touch-off to the last hole, \
     setup and stops apart";

/// The line of a run record that a head names: as on the screen, on the traveler, or on the record's own line; what
/// stands in brackets or behind a comma is its unit.
#[must_use]
pub fn line_named(named: &str) -> Option<Line> {
    let words = letters(named.split(['(', '[', ',']).next().unwrap_or_default());
    RUN_COLUMNS.iter().map(LineOf::line).find(|line| {
        let own = head(*line, Unit::Mm).name();
        let label = slips::line(*line).split(',').next().unwrap_or_default();
        !words.is_empty()
            && [own.as_str(), label, also(*line)]
                .into_iter()
                .any(|name| letters(name) == words)
    })
}

/// What else a column is headed with on the floor.
const fn also(line: Line) -> &'static str {
    match line {
        Line::TubeBefore => "tube before",
        Line::TubeAfter => "tube after",
        Line::ElectrodeNumber => "no",
        Line::Pins => "pin",
        Line::Good => "good",
        Line::Scrap => "scrap",
        _ => "",
    }
}

fn letters(text: &str) -> String {
    let letters = text.chars().filter(|sign| sign.is_alphanumeric());
    letters.flat_map(char::to_lowercase).collect()
}
