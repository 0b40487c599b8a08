//! What is said when a shop file can't be used.

use std::fmt;

use crate::ground::text::TextError;
use crate::shop::error::ShopError;
use crate::shop::unfit::{FigureNamed, Needed, RowUnfit};

impl fmt::Display for ShopError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&shop(self))
    }
}

/// One sentence: why a shop file can't be used.
fn shop(why: &ShopError) -> String {
    match why {
        ShopError::Text(why) => why.to_string(),
        ShopError::Row { list, name, what } => format!("In {list}, {name:?}: {what}"),
        ShopError::Twice { list, name } => format!("In {list}, the name {name:?} appears twice"),
        ShopError::NothingToLeaveOut { name } => {
            format!("No row has the name {name:?} that is to be left out")
        }
        ShopError::Missing { what } => format!("{what} is missing"),
        ShopError::Currencies { first, second } => {
            format!("The rate cards are in {first} and {second}")
        }
        ShopError::ListUnknown { name } => format!(
            "The shop's data have a list {name:?} that was written by a newer version: this version \
             would lose parts of it"
        ),
        ShopError::ColumnElsewhere { list, column } => format!(
            "The list {list} of the shop's data has a column {column:?} that was written by a newer \
             version: this version would lose parts of it"
        ),
        ShopError::TooManyRows { list, most } => {
            format!("The list {list} of the shop's data has more than {most} rows")
        }
        ShopError::RowIdentity { id } => {
            format!(
                "Two rows of the shop's data have the identity {id}, or it is yet to be given out"
            )
        }
        ShopError::LogoDamaged => "The logo in the shop's data is damaged".to_owned(),
        ShopError::IsJob => "The file is a job, and no data of a shop".to_owned(),
    }
}

impl ShopError {
    /// What to do about it.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        match self {
            ShopError::Text(
                TextError::Empty
                | TextError::Truncated { .. }
                | TextError::UnknownFormat { .. }
                | TextError::Broken { .. },
            ) => "Correct the shop file in a text editor.",
            ShopError::Text(why) => why.hint(),
            ShopError::Row { .. } => "Correct it in the shop file.",
            ShopError::Twice { .. } => "Delete one of the two from the shop file.",
            ShopError::NothingToLeaveOut { .. } => {
                "Spell the name as the list does, or delete it from the shop file."
            }
            ShopError::Missing { .. } => "Add it to the shop file.",
            ShopError::ListUnknown { .. } | ShopError::ColumnElsewhere { .. } => {
                "Open it with a newer version of the program; the file was left as it is."
            }
            ShopError::TooManyRows { .. }
            | ShopError::RowIdentity { .. }
            | ShopError::LogoDamaged => {
                "Correct it in a text editor, or take the version before the last save."
            }
            ShopError::IsJob => {
                "Put the shop's own file in its place; the job belongs under its own number beside it."
            }
            ShopError::Currencies { .. } => "Give all rates and prices in one currency.",
        }
    }
}

/// What is said of a number that no shop has.
const BEYOND_ALL: &str = "must be 0 or from 0.000000001 to 1000000000";

impl fmt::Display for RowUnfit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let said = match self {
            Self::NotAboveZero { figure } => {
                return write!(f, "{figure} must be a number above 0");
            }
            Self::BelowZero { figure } => {
                return write!(f, "{figure} must be a number of 0 or more");
            }
            Self::NotFromZeroToOne { figure } => {
                return write!(f, "{figure} must be from 0 to 1");
            }
            Self::BeyondAll { figure } => {
                return write!(f, "{figure} {BEYOND_ALL}");
            }
            Self::NotRising { figure } => {
                return write!(f, "{figure} needs two numbers, the smaller one first");
            }
            Self::ProcessBand { figure } => return write!(f, "{figure}: {}", Self::Band),
            Self::OtherNameEmpty { name } => {
                return write!(f, "the other name {name:?} has no letter in it");
            }
            Self::NoSuchMachine { name } => return write!(f, "no machine has the name {name:?}"),
            Self::Name => "the name is empty or begins or ends with a space",
            Self::PedigreeEmpty => "pedigree is empty; say where the row comes from",
            Self::NoProcess => "neither it nor its family has feed and wear",
            Self::BoreTooWide => "the bore must be smaller than the diameter of the electrode",
            Self::NoChannel => "channels must be at least 1",
            Self::HeldBackTooLong => {
                "the length held back must be smaller than that of the longest electrode"
            }
            Self::StandOffTooLong => {
                "the stand-off is a part of the length held back and can't be larger"
            }
            Self::Day => "the day is not a date like 2026-01-31",
            Self::Currency => "currency is not a code of three capitals such as USD (ISO 4217)",
            Self::MinorDigits => "minor_digits must be from 0 to 4",
            Self::PriceStep => {
                "price_step must be above 0 and a whole number of the currency's smallest unit (0.05, 0.5, 1); leave it out to round to that unit"
            }
            Self::Margin => "margin must be below 1",
            Self::DayTooLong => "a day has 24 hours",
            Self::NoWorkDay => "there is no working day",
            Self::StartForm => {
                "it has another form: a number, a band such as 60 to 100, or points such as 0.1: 0.23; 0.3: 0.55"
            }
            Self::SaidInTwo => {
                "format 2 says it in two: handling_deviation_shop and handling_deviation_machine"
            }
            Self::StartPedigreeMissing => "it does not say where it comes from",
            Self::StartNotAboveZero => "it must be a number above 0",
            Self::StartBelowZero => "it must be a number of 0 or more",
            Self::StartNotFromZeroToOne => "it must be a number from 0 to 1",
            Self::StartBeyondAll => return write!(f, "it {BEYOND_ALL}"),
            Self::DeviationTooLarge => {
                "it is the deviation of a logarithm and must be at most 3: at 1 nine lots in ten lie between a fifth and five times the median"
            }
            Self::ExponentTooLarge => "it is an exponent and must be at most 10",
            Self::BandTooWide => {
                "the larger number of a band must be at most 100 times the smaller"
            }
            Self::Band => "a band needs two numbers above 0, the smaller one first",
            Self::Chance => "a chance is below 1",
            Self::CurveNotRising => "its diameters must rise from above 0",
            Self::CurveEmpty => "it needs at least one point",
        };
        f.write_str(said)
    }
}

impl fmt::Display for Needed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::RateCard => "A rate card (rates)",
            Self::UsualTolerance => "The usual tolerance (usual_tolerance_mm)",
            Self::Texts => "The list of texts",
            Self::Calendar => "The calendar",
            Self::Name => "The shop's name",
            Self::Address => "The shop's address",
            Self::StartValue { name } => return write!(f, "The start value {name}"),
        })
    }
}

impl fmt::Display for FigureNamed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Key(key) => f.write_str(key),
            Self::Smallest(key) => write!(f, "the smallest {key}"),
            Self::Along(key, axis) => write!(f, "{key} along {axis}"),
            Self::It => f.write_str("it"),
        }
    }
}
