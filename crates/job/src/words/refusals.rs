//! What is said when a text can't be read or an edit can't be done.

use super::{english, slips};
use crate::answer::How;
use crate::apply::EditRefused;
use crate::places::{PatternRefused, PlacesUnreadable};
use crate::read_quantity::{Misread, What};

/// Longest piece of typed text that a sentence repeats, in characters.
const QUOTED: usize = 40;

/// One sentence: what can't be read, and what to type instead.
pub(crate) fn misread(why: &Misread) -> String {
    format!("{}.", clause(why).trim_end_matches('.'))
}

fn clause(why: &Misread) -> String {
    match why {
        Misread::TooLong { most } => {
            format!("This is longer than the {most} characters that a quantity needs: type the value alone and the rest as a note")
        }
        Misread::NotOneOf { found, words } => {
            format!("\u{201c}{}\u{201d} is none of the words here: type {}", quoted(found), words.join(" or "))
        }
        Misread::Not { what, found } if found.trim().is_empty() => {
            format!("{} is missing: type {}", capital(noun(*what)), examples(*what))
        }
        Misread::Not { what, found } => {
            format!("\u{201c}{}\u{201d} is not {}: type {}", quoted(found), noun(*what), examples(*what))
        }
        Misread::LeftOver { what, rest } => {
            format!("\u{201c}{}\u{201d} is left over behind {}: type {}", quoted(rest), noun(*what), examples(*what))
        }
        Misread::TooManyDigits { number } => {
            format!("{} has more digits than can be meant: round it", quoted(number))
        }
        Misread::Separators { number } => {
            format!("The points and commas in {} don't group it: type it without grouping, such as 1250.5", quoted(number))
        }
        Misread::TwoReadings { text, one, other } => {
            format!("{} could be {one} or {other}: type the one that is meant", quoted(text))
        }
        Misread::ZeroBelow { fraction } => {
            format!("{} has zero below the line: type a fraction such as 1/32", quoted(fraction))
        }
        Misread::FractionWithoutUnit { fraction } => {
            format!("{0} has no unit, and bare numbers are millimeters here: type {0} in, or the decimal in mm", quoted(fraction))
        }
        Misread::MixedUnits => {
            "A number without a unit stands beside two different units: give each number its unit".to_owned()
        }
        Misread::DrillToleranceWithoutUnit => {
            "A drill size is in inches, and bare numbers are millimeters here: give the tolerance its unit, such as #60 +-0.05 mm".to_owned()
        }
        Misread::Negative { what } => format!("{} can't be below zero: type {}", capital(noun(*what)), examples(*what)),
        Misread::Zero { what } => format!("{} can't be zero: type {}, or leave it empty", capital(noun(*what)), examples(*what)),
        Misread::TooLarge { what, most } => format!("{} can't be larger than {most}: check the number and its unit", capital(noun(*what))),
        Misread::NotWhole { what, found } => format!("{} is not whole: type {}", quoted(found), examples(*what)),
        Misread::NoSuchDrill { drill } => {
            format!("There is no drill {}: numbers run from 97 to 1, letters from A to Z", quoted(drill))
        }
        Misread::DrillIsADiameter { drill } => {
            format!("{} is a drill size, which is a diameter: type a length, such as 14 mm or .55 in", quoted(drill))
        }
        Misread::MinimumAlone => {
            "A minimum alone leaves the hole open upward: type both limits, such as 0.78-0.82".to_owned()
        }
        Misread::OneDeviation { typed } => {
            format!("{} is one deviation only: type both, such as +0.05/0, or +-0.05", quoted(typed))
        }
        Misread::DeviationWithoutSign { typed } => {
            format!("The deviation {0} has no sign: type +{0} or -{0}", quoted(typed))
        }
        Misread::NoPair { first, second } => {
            format!("{0} and {1} are too far apart for two limits: type both limits, such as 0.78-0.82, or a tolerance, such as {0} +0/-{1}", quoted(first), quoted(second))
        }
        Misread::DrillAndSize { drill, size } => format!(
            "Drill {} and another size, {}, stand side by side: type one of them",
            quoted(drill),
            quoted(size)
        ),
        Misread::EqualLimits => {
            "The two limits are the same, which no hole can keep: type the size alone, or limits that differ".to_owned()
        }
        Misread::LowerLimitNotAboveZero => {
            "The tolerance takes the lower limit to zero or below: check the tolerance and its unit".to_owned()
        }
        Misread::ShaftClass { class } => {
            format!("{0} with a small letter is a class for shafts: type {1} for a hole", quoted(class), quoted(class).to_uppercase())
        }
        Misread::NoSuchClass { class } => {
            format!("{} is not in the table of hole classes at that size (D, E, F, G, H, JS with 5 to 14, up to 18 mm): type the limits, such as 3.000-3.010", quoted(class))
        }
        Misread::ClassOnInches { class } => {
            format!("ISO class {0} belongs to a size in mm, and bare numbers are inches here: type it with its unit, such as 3 mm {0}", quoted(class))
        }
        Misread::DepthLimitAlone { typed } => {
            format!("{} alone leaves the depth open to one side: type both limits, such as 12.0-12.4", quoted(typed))
        }
        Misread::AngleRange { from_surface: false } => {
            "An angle from the normal lies between 0 and less than 90 degrees: type 30, or 60 from surface".to_owned()
        }
        Misread::AngleRange { from_surface: true } => {
            "An angle from the surface lies between more than 0 and 90 degrees: type 60, or 30 from normal".to_owned()
        }
        Misread::ArcPart => "Minutes and seconds of arc stop at 59: type 30\u{b0}15', or 30.25".to_owned(),
        Misread::ShareRange => "A share has to stay below 100 %: type 30 %".to_owned(),
        Misread::NoSuchDay => "The calendar has no such day: type it as year-month-day, such as 2027-01-12".to_owned(),
        Misread::ShortYear => "The year needs four digits: type the day as 2027-01-12".to_owned(),
        Misread::ResistivityWithoutUnit { number } => {
            format!("{0} has no unit, and certificates use several: type {0} uohm cm or {0} ohm cm", quoted(number))
        }
        Misread::CurrencyMark { mark } => {
            format!("Amounts are in the rate card's currency: type the number without {}", quoted(mark))
        }
        Misread::LayerWithoutThickness { layer } => {
            format!("The layer \u{201c}{}\u{201d} doesn't start with its thickness: type layers as 1.2 Nickel alloy 718 + 3", quoted(layer))
        }
        Misread::TooMany { most } => format!("More than {most} in one cell: leave some out"),
        Misread::TextTooLong { most } => format!("This is longer than the {most} characters that fit here: shorten it, or move part of it to the notes"),
        Misread::Unprintable => "There are signs in it that can't be printed: type it anew".to_owned(),
    }
}

const fn noun(what: What) -> &'static str {
    match what {
        What::Length => "a length",
        What::Depth => "a depth",
        What::Size => "a hole size",
        What::Tolerance => "a tolerance",
        What::Angle => "an angle at the entry",
        What::Holes => "a count of holes",
        What::DressEvery => "how often the tip is dressed",
        What::Whole => "a whole number",
        What::Days => "a number of days",
        What::Quantities => "a list of quantities",
        What::End => "where a hole ends",
        What::Surface => "a surface",
        What::YesNo => "yes or no",
        What::Ends => "a choice of ends",
        What::Layers => "a layer's thickness",
        What::Mass => "a mass",
        What::Money => "an amount of money",
        What::Percent => "a share in percent",
        What::Date => "a day",
        What::Resistivity => "a resistivity",
        What::PartAxis => "an axis of the part",
        What::AngleBasis => "what angles are measured from",
        What::Feed => "a feed",
        What::Minutes => "a time in minutes",
        What::Hours => "a time in hours",
        What::VectorPart => "a part of a direction",
        What::Turn => "an angle",
    }
}

const fn examples(what: What) -> &'static str {
    match what {
        What::Length => "0.8 mm, .031 in or 1/32 in",
        What::Depth => "14 mm, .55 in, 12 +-0.2, 12.0-12.4 or thru",
        What::Size => "0.80 +-0.02, .031 +.003/-0, 0.78-0.82, 0.82 MAX, 3 H7 or #60",
        What::Tolerance => "+-0.05 or +.003/-0",
        What::Angle => "30, 30\u{b0}15' or 60 from surface",
        What::Holes => "36 or 36x",
        What::DressEvery => "3 for every third hole, 1 for every hole, or never",
        What::Whole => "a number such as 25",
        What::Days => "10 days",
        What::Quantities => "10, 25, 50",
        What::End => "through, into or blind",
        What::Surface => "flat, cylinder R20, cylinder R20 offset 5 or ball R10",
        What::YesNo => "yes or no",
        What::Ends => "one or both",
        What::Layers => "1.2 Nickel alloy 718 + 3",
        What::Mass => "12.5 kg or 28 lb",
        What::Money => "1250.50",
        What::Percent => "30 %",
        What::Date => "2027-01-12",
        What::Resistivity => "120 uohm cm or 1.2e-4 ohm cm",
        What::PartAxis => "x, y, z or none",
        What::AngleBasis => "from normal or from surface",
        What::Feed => "15 mm/min or 0.6 in/min",
        What::Minutes => "2.5 or 90 s",
        What::Hours => "3.5 or 210 min",
        What::VectorPart => "a number such as -0.5",
        What::Turn => "30 or -12.5",
    }
}

/// The words with their first letter as a capital.
fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters
        .next()
        .map(|first| first.to_uppercase().chain(letters).collect())
        .unwrap_or_default()
}

/// A piece of typed text short enough for a sentence.
fn quoted(text: &str) -> String {
    let text = text.trim();
    if text.chars().count() <= QUOTED {
        return text.to_owned();
    }
    let start: String = text.chars().take(QUOTED).collect();
    format!("{}\u{2026}", start.trim_end())
}

/// One sentence: what can't be done.
pub(crate) fn edit(why: &EditRefused) -> String {
    match why {
        EditRefused::NoSuchRow { .. } => "That row is no longer in the table".to_owned(),
        EditRefused::BelowTheTable { row, rows } => {
            format!(
                "Row {} lies below the table, which has {rows} rows",
                row.saturating_add(1)
            )
        }
        EditRefused::PastLastColumn {
            from,
            columns,
            room,
        } => format!(
            "The block has {columns} columns, but from {} on the table has only {room}",
            english::column(*from).name
        ),
        EditRefused::TooManyRows { most } => format!("A table can't have more than {most} rows"),
        EditRefused::TextTooLong { most } => {
            format!("A text in it is longer than {most} characters")
        }
        EditRefused::TooManyPlaces { most } => {
            format!("A row can't have more than {most} places")
        }
        EditRefused::PlaceUnusable { number } => {
            format!("Place {number} has no usable point or direction")
        }
        EditRefused::PlaceTwice { number } => format!("Place {number} is there twice"),
        EditRefused::TooManyReports { most } => {
            format!("A job can't keep more than {most} reports of pasted tables")
        }
        EditRefused::ReportTooLong { most } => {
            format!("There is more to tell of that table than {most} lines")
        }
        EditRefused::TooManySlips { most } => format!("A job can't have more than {most} slips"),
        EditRefused::NoSuchSlip => "That slip is no longer on the sheet".to_owned(),
        EditRefused::NoSuchLine { line } => {
            format!("A slip of that kind has no line for {}", slips::line(*line))
        }
        EditRefused::WithdrawalStays { number } => {
            format!("The slip that withdraws {number} stays on the sheet, with that number on it")
        }
        EditRefused::ReasonMissing => "An overruled figure needs a reason".to_owned(),
        EditRefused::ValueMissing => "An overruled figure needs a value".to_owned(),
        EditRefused::NotOverruled => "That figure is not overruled".to_owned(),
        EditRefused::AnswerMissing { how: How::Agreed } => "Nobody is named who agreed".to_owned(),
        EditRefused::AnswerMissing { how: How::Accepted } => {
            "Nothing says why it is accepted".to_owned()
        }
        EditRefused::AnswerUnfit { most } => {
            format!("An answer has at most {most} characters, all of which can be printed")
        }
        EditRefused::NotAnswered => "That check has no answer".to_owned(),
    }
}

/// What to do instead.
pub(crate) const fn edit_hint(why: &EditRefused) -> &'static str {
    match why {
        EditRefused::NoSuchRow { .. } => "Choose the row in the table as it is now.",
        EditRefused::BelowTheTable { .. } => "Start at the empty row below the last one.",
        EditRefused::PastLastColumn { .. } => {
            "Start further left, or leave out the columns that don't belong to the table."
        }
        EditRefused::TooManyRows { .. } => {
            "Give holes of one specification one row with places, or make a second job."
        }
        EditRefused::TextTooLong { .. } => "Check what was copied: a cell holds a short text.",
        EditRefused::TooManyPlaces { .. } => "Spread the places over several rows.",
        EditRefused::PlaceUnusable { .. } => {
            "Check its coordinates, and that its direction is not zero."
        }
        EditRefused::PlaceTwice { .. } => "Give each place of a row its own number.",
        EditRefused::TooManyReports { .. } => "Go on in a new job that does this one again.",
        EditRefused::ReportTooLong { .. } => {
            "Take the table in several parts, or put right first what can't be read."
        }
        EditRefused::TooManySlips { .. } => "Begin another job for what comes next.",
        EditRefused::NoSuchSlip => "Choose among the slips as they are now.",
        EditRefused::NoSuchLine { .. } => "Put it into the note, or on another slip.",
        EditRefused::WithdrawalStays { .. } => {
            "Undo it if it was added just now; to let that paper stand again type why, and who says so, \
             into \u{201c}stands again because\u{201d}; another paper gets a slip of its own."
        }
        EditRefused::ReasonMissing => "Say in a few words why the figure is another one.",
        EditRefused::ValueMissing => {
            "Type the figure, or let the computed one stand by withdrawing the overrule."
        }
        EditRefused::NotOverruled => "The computed figure stands already.",
        EditRefused::AnswerMissing { how: How::Agreed } => "Type the name of who agreed.",
        EditRefused::AnswerMissing { how: How::Accepted } => "Type in a few words why.",
        EditRefused::AnswerUnfit { .. } => "Put the rest into the notes.",
        EditRefused::NotAnswered => "The check asks as it did before.",
    }
}

/// One sentence: why a pattern of places can't be made.
pub(crate) const fn pattern(why: PatternRefused) -> &'static str {
    match why {
        PatternRefused::NoHoles => "The pattern has no holes",
        PatternRefused::TooMany => "The pattern has more holes than a row can have places",
        PatternRefused::Unusable => "A length or direction of the pattern is zero or missing",
    }
}

/// What to do instead.
pub(crate) const fn pattern_hint(why: PatternRefused) -> &'static str {
    match why {
        PatternRefused::NoHoles => "Give it at least one hole.",
        PatternRefused::TooMany => "Spread the holes over several rows.",
        PatternRefused::Unusable => "Give it a radius or steps, and a direction that is not zero.",
    }
}

/// One sentence: why a list of places can't be read.
pub(crate) fn places(why: &PlacesUnreadable) -> String {
    match why {
        PlacesUnreadable::Empty => "There are no places in the list".to_owned(),
        PlacesUnreadable::ColumnsUnknown { columns: 1 } => {
            "The list has one column, and nothing says what it is".to_owned()
        }
        PlacesUnreadable::ColumnsUnknown { columns } => {
            format!("The list has {columns} columns, and nothing says which is which")
        }
        PlacesUnreadable::ColumnTwice { head } => {
            format!("The column \u{201c}{}\u{201d} is there twice", quoted(head))
        }
        PlacesUnreadable::TooMany => "The list has more places than a row can have".to_owned(),
    }
}

/// What to do instead.
pub(crate) const fn places_hint(why: &PlacesUnreadable) -> &'static str {
    match why {
        PlacesUnreadable::Empty => "Copy the lines with their numbers.",
        PlacesUnreadable::ColumnsUnknown { .. } => {
            "Put a line above it: number, x, y, z and i, j, k or tilt, turn."
        }
        PlacesUnreadable::ColumnTwice { .. } => "Leave out one of the two columns.",
        PlacesUnreadable::TooMany => "Spread the places over several rows.",
    }
}

/// What is said beside a line whose number an earlier place has.
pub(crate) fn place_number_twice(number: u32) -> String {
    format!("Place {number} is there already: give each place its own number.")
}

/// What is said beside a line with more cells than columns.
pub(crate) fn place_cell_left_over(cell: &str) -> String {
    format!(
        "\u{201c}{}\u{201d} stands under no column: give it a column, or leave it out.",
        quoted(cell)
    )
}

/// What is said beside a line whose direction is zero.
pub(crate) fn place_without_direction() -> String {
    "The direction is zero, or a view's angle reaches 90: type its parts, such as 0, 0, -1."
        .to_owned()
}
