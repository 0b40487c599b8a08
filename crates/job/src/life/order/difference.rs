//! What can differ between an order and quotation or sheet.

use chrono::NaiveDate;
use rust_decimal::Decimal;
use serde::{Deserialize, Serialize};

/// What differs between an order and what it is held against.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Difference {
    /// No quotation stands that the order could be held against.
    NoQuotation,
    /// The order names a paper that was not issued, or was withdrawn.
    OtherPaper {
        /// What it names.
        named: String,
    },
    /// The order names a quotation that a later one replaced.
    Replaced {
        /// What it names.
        named: String,
        /// The later one.
        by: String,
    },
    /// The order answers a quotation whose entry doesn't fit its seal.
    NotTrusted {
        /// Its number.
        named: String,
    },
    /// The order came after the last day of the quotation.
    TooLate {
        /// That day.
        until: NaiveDate,
    },
    /// A quantity that was not priced.
    NotPriced {
        /// Ordered.
        ordered: u32,
        /// The nearest quantity that was priced.
        nearest: u32,
    },
    /// Another quantity than the sheet's.
    Quantity {
        /// Of all orders together.
        ordered: u32,
        /// On the sheet, where it has one.
        on_sheet: Option<u32>,
    },
    /// Another price.
    Price {
        /// In the order.
        ordered: Decimal,
        /// In the quotation, at that quantity.
        quoted: Decimal,
    },
    /// Another currency, so that the prices can't be compared.
    Currency {
        /// Of the order.
        ordered: String,
        /// Of the quotation.
        quoted: String,
    },
    /// Another revision of the part or of the drawing.
    Revision {
        /// Of which.
        of: Revised,
        /// In the order.
        ordered: String,
        /// In the quotation, where that is another one.
        quoted: Option<String>,
        /// On the sheet, where that is another one.
        on_sheet: Option<String>,
    },
    /// The order names no revision, and the sheet has another one than the quotation that it answers.
    RevisedSince {
        /// Of which.
        of: Revised,
        /// In the quotation.
        quoted: String,
        /// On the sheet.
        on_sheet: String,
    },
    /// Due on another day than the sheet says.
    Due {
        /// In the order.
        ordered: NaiveDate,
        /// On the sheet.
        on_sheet: NaiveDate,
    },
    /// Due before the lead time that was quoted is over.
    DueEarly {
        /// In the order.
        ordered: NaiveDate,
        /// Working days that were quoted.
        lead_days: u32,
        /// The first day after them, days off left out of account.
        earliest: NaiveDate,
    },
    /// The sheet has other holes than the quotation that the order answers.
    Holes {
        /// What differs, in the sheet's order.
        changed: Vec<HoleChange>,
    },
    /// The sheet says other things of what was quoted than the quotation that the order answers.
    Scope {
        /// What differs, in the sheet's order.
        changed: Vec<FieldChange>,
    },
    /// The order brings terms of its own.
    Terms {
        /// As it names them.
        named: String,
    },
}

/// A line of the sheet that says something else than was quoted.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct FieldChange {
    /// The field's key.
    pub field: String,
    /// As it was quoted.
    pub was: String,
    /// As it is now.
    pub is: String,
}

/// What of a hole is another than was quoted.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum HoleChange {
    /// What the drawing says of it.
    Said {
        /// The hole's mark.
        mark: String,
        /// The column's key.
        column: String,
        /// As it was quoted.
        was: String,
        /// As it is now.
        is: String,
    },
    /// A hole that was not quoted, by its mark.
    New(String),
    /// A hole that was quoted and is no more, by its mark.
    Gone(String),
}

impl HoleChange {
    fn kept(&self) -> String {
        match self {
            Self::Said {
                mark,
                column,
                was,
                is,
            } => format!("{mark} {column}: {was}; {is}"),
            Self::New(mark) => format!("new {mark}"),
            Self::Gone(mark) => format!("gone {mark}"),
        }
    }
}

/// What has a revision.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Revised {
    /// The part.
    Part,
    /// Its drawing.
    Drawing,
}

/// What a difference is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Topic {
    /// The quotation that it is held against.
    Quotation,
    /// The quantity.
    Quantity,
    /// The price.
    Price,
    /// The revision of part or drawing.
    Revision(Revised),
    /// The due date.
    Due,
    /// The holes.
    Holes,
    /// What the quotation is about, beside its holes: material, cap, what it leaves out.
    Scope,
    /// The terms.
    Terms,
}

impl Difference {
    /// What it is about.
    #[must_use]
    pub const fn topic(&self) -> Topic {
        match self {
            Self::NoQuotation
            | Self::OtherPaper { .. }
            | Self::Replaced { .. }
            | Self::NotTrusted { .. }
            | Self::TooLate { .. } => Topic::Quotation,
            Self::NotPriced { .. } | Self::Quantity { .. } => Topic::Quantity,
            Self::Price { .. } | Self::Currency { .. } => Topic::Price,
            Self::Revision { of, .. } | Self::RevisedSince { of, .. } => Topic::Revision(*of),
            Self::Due { .. } | Self::DueEarly { .. } => Topic::Due,
            Self::Holes { .. } => Topic::Holes,
            Self::Scope { .. } => Topic::Scope,
            Self::Terms { .. } => Topic::Terms,
        }
    }

    /// The difference with its facts as it is kept beside an acceptance: the same difference gives the
    /// same text, another one never does.
    pub(super) fn kept(&self) -> String {
        let text = |text: &Option<String>| text.clone().unwrap_or_default();
        match self {
            Self::NoQuotation => "no quotation".to_owned(),
            Self::OtherPaper { named } => format!("other paper: {named}"),
            Self::Replaced { named, by } => format!("replaced: {named}; {by}"),
            Self::NotTrusted { named } => format!("not trusted: {named}"),
            Self::TooLate { until } => format!("too late: {until}"),
            Self::NotPriced { ordered, nearest } => format!("not priced: {ordered}; {nearest}"),
            Self::Quantity { ordered, on_sheet } => {
                let on_sheet = on_sheet.map_or_else(String::new, |count| count.to_string());
                format!("quantity: {ordered}; {on_sheet}")
            }
            Self::Price { ordered, quoted } => {
                format!("price: {}; {}", ordered.normalize(), quoted.normalize())
            }
            Self::Currency { ordered, quoted } => format!("currency: {ordered}; {quoted}"),
            Self::Revision {
                of,
                ordered,
                quoted,
                on_sheet,
            } => format!(
                "{} revision: {ordered}; {}; {}",
                revised(*of),
                text(quoted),
                text(on_sheet)
            ),
            Self::RevisedSince {
                of,
                quoted,
                on_sheet,
            } => format!("{} revision since: {quoted}; {on_sheet}", revised(*of)),
            Self::Due { ordered, on_sheet } => format!("due: {ordered}; {on_sheet}"),
            Self::DueEarly {
                ordered, earliest, ..
            } => format!("due early: {ordered}; {earliest}"),
            Self::Holes { changed } => {
                let changed: Vec<String> = changed.iter().map(HoleChange::kept).collect();
                format!("holes: {}", changed.join("; "))
            }
            Self::Scope { changed } => {
                let kept = |change: &FieldChange| {
                    format!("{}: {}; {}", change.field, change.was, change.is)
                };
                let changed: Vec<String> = changed.iter().map(kept).collect();
                format!("scope: {}", changed.join("; "))
            }
            Self::Terms { named } => format!("terms: {named}"),
        }
    }
}

const fn revised(of: Revised) -> &'static str {
    match of {
        Revised::Part => "part",
        Revised::Drawing => "drawing",
    }
}
