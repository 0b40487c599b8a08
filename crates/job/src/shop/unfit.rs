//! What a row of a shop file can't be, and what a shop can't be without.

/// What is wrong with a row.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum RowUnfit {
    /// A figure that must be above 0.
    NotAboveZero {
        /// Its name in the row.
        figure: FigureNamed,
    },
    /// A figure that must be 0 or more.
    BelowZero {
        /// Its name in the row.
        figure: FigureNamed,
    },
    /// A figure that must lie from 0 to 1.
    NotFromZeroToOne {
        /// Its name in the row.
        figure: FigureNamed,
    },
    /// A figure that no shop has.
    BeyondAll {
        /// Its name in the row.
        figure: FigureNamed,
    },
    /// Two numbers that must rise.
    NotRising {
        /// Their name in the row.
        figure: FigureNamed,
    },
    /// A name that can't be spoken of.
    Name,
    /// No word on where the row comes from.
    PedigreeEmpty,
    /// A material without feed and wear.
    NoProcess,
    /// A band of a material's process that is none.
    ProcessBand {
        /// Its name in the row.
        figure: &'static str,
    },
    /// Another name that has no letter.
    OtherNameEmpty {
        /// That name.
        name: String,
    },
    /// A tube whose bore is as wide as the tube.
    BoreTooWide,
    /// A tube without a channel.
    NoChannel,
    /// A machine that holds back the whole tube.
    HeldBackTooLong,
    /// A stand-off that is longer than what is held back.
    StandOffTooLong,
    /// A day that is none.
    Day,
    /// A currency that is no code.
    Currency,
    /// More digits than money has.
    MinorDigits,
    /// A price step that is no whole number of the currency's smallest units.
    PriceStep,
    /// A margin that takes all.
    Margin,
    /// The rate of a machine that is not there.
    NoSuchMachine {
        /// The machine's name.
        name: String,
    },
    /// A day of more than 24 hours.
    DayTooLong,
    /// A week without a day of work.
    NoWorkDay,
    /// A start value that is typed in another form than it has.
    StartForm,
    /// A start value that format 2 says in two.
    SaidInTwo,
    /// A start value without its pedigree.
    StartPedigreeMissing,
    /// A start value that must be above 0.
    StartNotAboveZero,
    /// A start value that must be 0 or more.
    StartBelowZero,
    /// A start value that must lie from 0 to 1.
    StartNotFromZeroToOne,
    /// A start value that no shop has.
    StartBeyondAll,
    /// A deviation that says nothing any more.
    DeviationTooLarge,
    /// An exponent that makes more of a depth than there is.
    ExponentTooLarge,
    /// A band whose ends have nothing to do with each other.
    BandTooWide,
    /// A band that is none.
    Band,
    /// A chance of one and more.
    Chance,
    /// A curve whose diameters don't rise.
    CurveNotRising,
    /// A curve without a point.
    CurveEmpty,
}

/// What a shop can't be without.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Needed {
    /// A rate card.
    RateCard,
    /// The usual tolerance.
    UsualTolerance,
    /// The list of texts.
    Texts,
    /// The calendar.
    Calendar,
    /// The shop's name.
    Name,
    /// The shop's address.
    Address,
    /// A start value.
    StartValue {
        /// Its name.
        name: &'static str,
    },
}

/// Which figure of a row.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum FigureNamed {
    /// The one of this key, or of the machine of this name.
    Key(String),
    /// The smaller one of the pair of this key.
    Smallest(&'static str),
    /// The one along an axis, of the three of this key.
    Along(&'static str, char),
    /// The only one that there is.
    It,
}

impl From<&str> for FigureNamed {
    fn from(key: &str) -> Self {
        Self::Key(key.to_owned())
    }
}
