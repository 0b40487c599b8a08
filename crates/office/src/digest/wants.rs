//! What can be wanted of a line beside its letters.

use chrono::NaiveDate;

use super::facts::Facts;
use super::text::Name;

/// Something that is wanted of a line, with the words that it was asked in where they are shown again.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Want {
    /// Ordered parts were due before a day and are not delivered.
    Late {
        /// The day.
        today: NaiveDate,
    },
    /// Parts are due from one day to another.
    Due {
        /// The first day.
        from: NaiveDate,
        /// The last day.
        to: NaiveDate,
    },
    /// A quotation of a day or before it has no answer.
    NoAnswer {
        /// The day.
        by: NaiveDate,
        /// How many days ago that is.
        days: u32,
    },
    /// A name has these letters in it.
    Named {
        /// Which name.
        name: Asked,
        /// As they were typed.
        letters: String,
        /// Other names of what they mean, in small letters: one of them may stand there instead.
        or: Vec<String>,
    },
    /// Something that has two readings: no job is that.
    TwoReadings {
        /// Each reading, written so that it can only mean that.
        readings: [String; 2],
    },
    /// A figure is as large as that.
    Figure {
        /// Which.
        figure: Figure,
        /// How large.
        range: Range,
    },
}

/// A name that is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Asked {
    /// Who asked.
    Customer,
    /// The work material.
    Material,
    /// The machine.
    Machine,
}

impl Asked {
    pub(super) const fn name(self) -> Name {
        match self {
            Self::Customer => Name::Customer,
            Self::Material => Name::Material,
            Self::Machine => Name::Machine,
        }
    }
}

/// A figure that is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Figure {
    /// Diameter of one of its kinds of holes [mm].
    Size,
    /// Depth of one of them [mm].
    Depth,
    /// Depth over diameter of one of them.
    Slenderness,
    /// What the lot is worth.
    Worth,
}

/// How large a figure is to be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Range {
    /// About so large: at most so far from it.
    About {
        /// How large.
        value: f64,
        /// How far.
        within: f64,
    },
    /// From one value to another, at most so far beyond them.
    Between {
        /// The least.
        least: f64,
        /// The most.
        most: f64,
        /// How far.
        within: f64,
    },
    /// That large or larger.
    AtLeast(f64),
    /// Larger.
    Over(f64),
    /// Smaller.
    Under(f64),
}

/// What binary fractions are off by, of figures that lie just at a limit.
const ROUNDING: f64 = 1e-9;

impl Range {
    fn holds(self, figure: f64) -> bool {
        match self {
            Self::About { value, within } => (figure - value).abs() <= within + ROUNDING,
            Self::Between {
                least,
                most,
                within,
            } => {
                let beyond = within + ROUNDING;
                figure >= least - beyond && figure <= most + beyond
            }
            Self::AtLeast(least) => figure >= least - ROUNDING,
            Self::Over(least) => figure > least + ROUNDING,
            Self::Under(most) => figure < most - ROUNDING,
        }
    }
}

impl Want {
    /// Whether a line is what is wanted, by its days and figures; one of names is by none of them.
    pub(super) fn holds(&self, facts: &Facts) -> bool {
        match self {
            Self::Late { today } => facts.ordered_due.is_some_and(|day| day < *today),
            Self::Due { from, to } => facts.due.is_some_and(|day| day >= *from && day <= *to),
            Self::NoAnswer { by, .. } => facts.unanswered.is_some_and(|day| day <= *by),
            Self::Named { .. } => true,
            Self::TwoReadings { .. } => false,
            Self::Figure { figure, range } => match figure {
                Figure::Size => facts.has_kind(|kind| range.holds(kind.size_mm)),
                Figure::Depth => facts.has_kind(|kind| range.holds(kind.depth_mm)),
                Figure::Slenderness => {
                    facts.has_kind(|kind| range.holds(kind.depth_mm / kind.size_mm))
                }
                Figure::Worth => range.holds(facts.worth),
            },
        }
    }
}
