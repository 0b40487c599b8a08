//! Why a text can't be read, and what to type instead.

use std::fmt;

use super::speaker::capital;
use crate::typed::read_quantity::misread::{Misread, What};

/// Longest piece of typed text that a sentence repeats, in characters.
const QUOTED: usize = 40;

impl fmt::Display for Misread {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&misread(self))
    }
}

/// One sentence: what can't be read, and what to type instead.
fn misread(why: &Misread) -> String {
    format!("{}.", clause(why).trim_end_matches('.'))
}

fn clause(why: &Misread) -> String {
    match why {
        Misread::TooLong { most } => {
            format!("This is longer than the {most} characters that a quantity needs: type the value alone and the rest as a note")
        }
        Misread::NotOneOf { found, words } => {
            format!("\u{201c}{}\u{201d} is not one of the words here: type {}", quoted(found), words.join(" or "))
        }
        Misread::Not { what, found } if found.trim().is_empty() => {
            format!("{} is missing: type {}", capital(noun(*what)), examples(*what))
        }
        Misread::Not { what, found } => {
            format!("\u{201c}{}\u{201d} is not {}: type {}", quoted(found), noun(*what), examples(*what))
        }
        Misread::LeftOver { what, rest } => {
            format!("\u{201c}{}\u{201d} is left over after {}: type {}", quoted(rest), noun(*what), examples(*what))
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
            format!("{0} has no unit, and numbers without a unit are millimeters here: type {0} in, or the decimal in mm", quoted(fraction))
        }
        Misread::TwoUnits { first, second } => {
            format!("{} and {} are not the same length: type the one that is meant, or two limits in one unit", quoted(first), quoted(second))
        }
        Misread::MixedUnits => {
            "A number without a unit stands beside two different units: give each number its unit".to_owned()
        }
        Misread::DrillToleranceWithoutUnit => {
            "A drill size is in inches, and numbers without a unit are millimeters here: give the tolerance its unit, such as #60 \u{b1}0.05 mm".to_owned()
        }
        Misread::Negative { what } => format!("{} can't be below zero: type {}", capital(noun(*what)), examples(*what)),
        Misread::Zero { what } => format!("{} can't be zero: type {}, or leave it empty", capital(noun(*what)), examples(*what)),
        Misread::TooLarge { what, most } => too_large(*what, most),
        Misread::MoneyTooLarge { what } => too_large(*what, "a trillion"),
        Misread::NotWhole { what, found } => format!("{} is not whole: type {}", quoted(found), examples(*what)),
        Misread::NoSuchDrill { drill } => {
            format!("There is no drill {}: numbers run from 97 to 1, letters from A to Z", quoted(drill))
        }
        Misread::DrillIsADiameter { drill } => {
            format!("{} is a drill size, which is a diameter: type a length, such as 14 mm or .55 in", quoted(drill))
        }
        Misread::MinimumAlone => {
            "A minimum alone gives no upper limit: type both limits, such as 0.78-0.82".to_owned()
        }
        Misread::OneDeviation { typed } => {
            format!("{} is one deviation only: type both, such as +0.05/0, or \u{b1}0.05", quoted(typed))
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
        Misread::IsADate { date } => format!(
            "{} is a date, which a spreadsheet makes of a fraction such as 3/8: type the number",
            quoted(date)
        ),
        Misread::EqualLimits => {
            "The two limits are the same, which no hole can meet: type the size alone, or limits that differ".to_owned()
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
            format!("ISO class {0} belongs to a size in mm, and numbers without a unit are inches here: type it with its unit, such as 3 mm {0}", quoted(class))
        }
        Misread::DepthLimitAlone { typed } => {
            format!("{} alone gives the depth one limit only: type both limits, such as 12.0-12.4", quoted(typed))
        }
        Misread::AngleRange { from_surface: false } => {
            "An angle from the normal lies between 0 and less than 90 degrees: type 30, or 60 from surface".to_owned()
        }
        Misread::AngleRange { from_surface: true } => {
            "An angle from the surface lies between more than 0 and 90 degrees: type 60, or 30 from normal".to_owned()
        }
        Misread::EdgeRange => "The angle of the metal at an edge lies between 20 and less than 180 degrees: type edge, or edge 120; a distance from it is edge offset 0.3".to_owned(),
        Misread::ArcPart => "Minutes and seconds of arc stop at 59: type 30\u{b0}15', or 30.25".to_owned(),
        Misread::ShareRange => "A share has to stay below 100 %: type 30 %".to_owned(),
        Misread::NoSuchDay => "The calendar has no such date: type it as year-month-day, such as 2027-01-12".to_owned(),
        Misread::ShortYear => "The year needs four digits: type the date as 2027-01-12".to_owned(),
        Misread::ResistivityWithoutUnit { number } => {
            format!("{0} has no unit, and certificates use several: type {0} uohm cm or {0} ohm cm", quoted(number))
        }
        Misread::CurrencyMark { mark } => {
            format!("An amount is typed without its currency: leave out {}", quoted(mark))
        }
        Misread::LayerWithoutThickness { layer } => {
            format!("The layer \u{201c}{}\u{201d} doesn't start with its thickness: type layers as 1.2 Nickel alloy 718 + 3", quoted(layer))
        }
        Misread::TooMany { most } => format!("More than {most} in one cell: leave some out"),
        Misread::TextTooLong { most } => format!("This is longer than the {most} characters that fit here: shorten it, or move part of it to the notes"),
        Misread::Unprintable => "There are characters in it that can't be printed: type it again".to_owned(),
    }
}

fn too_large(what: What, most: &str) -> String {
    let what = capital(noun(what));
    format!("{what} can't be larger than {most}: check the number and its unit")
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
        What::Pressure => "a pressure",
        What::Exit => "an exit",
        What::RestsOn => "what a part rests on",
        What::Recess => "a recess",
        What::Broken => "a broken tool",
        What::ThreadPitch => "a thread whose pitch is known",
        What::Proof => "a way to prove a hole open",
        What::Money => "an amount of money",
        What::Percent => "a share in percent",
        What::Date => "a date",
        What::Resistivity => "a resistivity",
        What::PartAxis => "an axis of the part",
        What::AngleBasis => "what angles are measured from",
        What::Feed => "a feed",
        What::Minutes => "a time in minutes",
        What::Hours => "a time in hours",
        What::VectorPart => "a component of a direction",
        What::Turn => "an angle",
        What::Number => "a number",
        What::Currency => "a currency",
        What::WorkDays => "days of the week",
        What::MachineRates => "a rate per hour",
        What::Hazards => "a hazard",
        What::StartValue => "a start value",
        What::InspectionLevel => "an inspection level of ISO 2859-1",
        What::AcceptanceLimit => "an acceptance quality limit",
    }
}

const fn examples(what: What) -> &'static str {
    match what {
        What::Length => "0.8 mm, .031 in or 1/32 in",
        What::Depth => "14 mm, .55 in, 12 \u{b1}0.2 (typed as +-), 12.0-12.4 or thru",
        What::Size => {
            "0.80 \u{b1}0.02 (typed as +-), .031 +.003/-0, 0.78-0.82, 0.82 MAX, 3 H7 or #60"
        }
        What::Tolerance => "\u{b1}0.05 (typed as +-) or +.003/-0",
        What::Angle => "30, 30\u{b0}15' or 60 from surface",
        What::Holes => "36 or 36x",
        What::DressEvery => "3 for every third hole, 1 for every hole, or never",
        What::Whole => "a number such as 25",
        What::Days => "10 days",
        What::Quantities => "10, 25, 50",
        What::End => "through, into or blind",
        What::Surface => {
            "flat, cylinder R20, cylinder R20 offset 5, ball R10, edge, bore d12 or crossing hole d3"
        }
        What::YesNo => "yes or no",
        What::Ends => "one or both",
        What::Layers => "1.2 Nickel alloy 718 + 3",
        What::Mass => "12.5 kg or 28 lb",
        What::Pressure => "70 bar or 1000 psi",
        What::Exit => "flat 30, bore d12, crossing hole d3 at 30, cylinder R20 or 30 alone",
        What::RestsOn => "60 x 40, ring d80 or whole face",
        What::Recess => "d12 x 8, or 12 wide 8 deep",
        What::Broken => "M6 tap, 1/4-20 tap carbide, 3.3 mm drill, M8 screw or 5 extractor in M8",
        What::ThreadPitch => "M16x2, with the pitch behind the size",
        What::Proof => "pin, light, wire, air or pin-through",
        What::Money => "a number such as 86.00",
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
        What::Number => "a number such as 8.2",
        What::Currency => "a code such as USD or EUR (ISO 4217)",
        What::WorkDays => "Mon-Fri, or Mon Tue Thu",
        What::MachineRates => "68 for all machines, or each by its name: big one 70; small one 76",
        What::Hazards => {
            "burning fines, nickel, cobalt, chromium, beryllium, copper or lead, with semicolons between, or none"
        }
        What::StartValue => {
            "a number such as 1.5, a band such as 60 to 100, or points by diameter such as 0.1: 0.23; 0.3: 0.55"
        }
        What::InspectionLevel => "level I, II, III, S-1, S-2, S-3 or S-4",
        What::AcceptanceLimit => "AQL 1.0 or AQL 0.65",
    }
}

/// A piece of typed text short enough for a sentence.
pub(super) fn quoted(text: &str) -> String {
    let text = text.trim();
    if text.chars().count() <= QUOTED {
        return text.to_owned();
    }
    let start: String = text.chars().take(QUOTED).collect();
    format!("{}\u{2026}", start.trim_end())
}
