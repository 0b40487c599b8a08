//! How the texts of the shop's sheet are read, and what they are read as.

pub(super) mod words;

use chrono::{NaiveDate, Weekday};
use quillbore_calc::Length;
use quillbore_calc::tables::Hazard;
use rust_decimal::Decimal;

use super::start_text::{StartTyped, start_value};
use crate::typed::entry::{Entry, Unit};
use crate::typed::form::{Dates, Numbers};
use crate::typed::read_cell::entry;
use crate::typed::read_quantity as read;
use crate::typed::read_quantity::misread::Misread;
use words::{days, hazards, machine_rates, names, stubs};

/// Longest single line, in characters.
const LONGEST_LINE: usize = 400;

/// Longest text of several lines, in characters.
const LONGEST_LINES: usize = 20_000;

/// How a text of the shop's sheet is read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ShopKind {
    /// One line of text.
    Line,
    /// Several lines of text.
    Lines,
    /// A length.
    Length,
    /// A length, or nothing at all.
    LengthOrNone,
    /// A mass in kg or lb.
    Mass,
    /// A whole number of things.
    Count,
    /// A whole number of things, or none of them.
    CountOrNone,
    /// An amount of the shop's currency.
    Money,
    /// A share in percent, below all.
    Percent,
    /// A share in percent, up to all.
    Share,
    /// A day.
    Date,
    /// Yes or no.
    YesNo,
    /// One of these words.
    OneOf(&'static [&'static str]),
    /// A number above 0.
    Number,
    /// Hours, at most a day of them.
    Hours,
    /// The same, or none.
    HoursOrNone,
    /// A plain angle.
    Degrees,
    /// A currency by its ISO 4217 code.
    Currency,
    /// Days of the week.
    WorkDays,
    /// A rate for all machines, or for each by its name.
    MachineRates,
    /// Several names.
    Names,
    /// Dangers of a material.
    Hazards,
    /// Pieces left of electrodes, by their length.
    Stubs,
    /// A number, a band or a curve.
    StartValue,
    /// Nothing that is typed: it is worked out.
    Computed,
}

impl ShopKind {
    /// Whether a bare number of it is in the unit that the sheet is typed in.
    #[must_use]
    pub const fn is_measured(self) -> bool {
        matches!(
            self,
            Self::Length | Self::LengthOrNone | Self::Mass | Self::Stubs
        )
    }

    /// Whether figures stand under each other at the right.
    #[must_use]
    pub const fn is_figure(self) -> bool {
        matches!(
            self,
            Self::Length
                | Self::LengthOrNone
                | Self::Mass
                | Self::Count
                | Self::CountOrNone
                | Self::Money
                | Self::Percent
                | Self::Share
                | Self::Number
                | Self::Hours
                | Self::HoursOrNone
                | Self::Degrees
        )
    }

    /// What the place chooses among, where it does.
    #[must_use]
    pub const fn choices(self) -> &'static [&'static str] {
        match self {
            Self::OneOf(words) => words,
            Self::YesNo => words::YES_NO,
            _ => &[],
        }
    }
}

/// What a text of the shop's sheet was read as.
#[derive(Clone, Debug, PartialEq)]
pub enum ShopValue {
    /// Text as it stands, or one word of a list.
    Text(String),
    /// A length.
    Length(Length),
    /// A whole number.
    Count(u32),
    /// An amount of money.
    Money(Decimal),
    /// A day.
    Date(NaiveDate),
    /// Yes or no.
    YesNo(bool),
    /// A number: kilograms, a share from 0 to 1, hours, degrees, or what the column says.
    Number(f64),
    /// Days of the week.
    WorkDays(Vec<Weekday>),
    /// What an hour of the machines costs.
    MachineRates(MachineRates),
    /// Several names.
    Names(Vec<String>),
    /// Dangers.
    Hazards(Vec<Hazard>),
    /// How many pieces there are of each length.
    Stubs(Vec<(u32, Length)>),
    /// A start value.
    Start(StartTyped),
}

/// What an hour of the machines costs.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct MachineRates {
    /// Of every machine that is not named.
    pub all: Option<Decimal>,
    /// Of machines by their names.
    pub named: Vec<(String, Decimal)>,
}

impl MachineRates {
    /// What these say over what was said before: a rate for all machines ends all before it, one of a
    /// machine only that machine's.
    #[must_use]
    pub(super) fn over(self, before: Self) -> Self {
        if self.all.is_some() {
            return self;
        }
        let says = |name: &str| {
            let name = name.to_lowercase();
            self.named.iter().any(|(own, _)| own.to_lowercase() == name)
        };
        let kept = before.named.into_iter().filter(|(name, _)| !says(name));
        let named: Vec<_> = kept.chain(self.named.iter().cloned()).collect();
        Self {
            all: before.all,
            named,
        }
    }

    /// As a text that is read as these.
    pub(super) fn text(&self) -> String {
        let all = self.all.iter().map(ToString::to_string);
        let named = self
            .named
            .iter()
            .map(|(name, rate)| format!("{name} {rate}"));
        all.chain(named).collect::<Vec<_>>().join("; ")
    }
}

/// Reads a text as an entry of this kind; white space alone is an empty one.
#[must_use]
pub fn read_shop(kind: ShopKind, text: &str, unit: Unit) -> Entry<ShopValue> {
    entry(text, unit, |text| value(kind, text, unit))
}

/// The form of numbers or days, where the words are forms, that a text is another example of.
fn form_like(words: &'static [&'static str], text: &str) -> Option<&'static str> {
    if words == Numbers::KEYS {
        return Numbers::like(text).map(Numbers::key);
    }
    (words == Dates::KEYS).then(|| Dates::like(text).map(Dates::key))?
}

fn value(kind: ShopKind, text: &str, unit: Unit) -> Result<ShopValue, Misread> {
    Ok(match kind {
        ShopKind::Line | ShopKind::Computed => ShopValue::Text(read::line(text, LONGEST_LINE)?),
        ShopKind::Lines => ShopValue::Text(read::lines(text, LONGEST_LINES)?),
        ShopKind::Length => ShopValue::Length(read::length(text, unit)?),
        ShopKind::LengthOrNone => ShopValue::Length(read::length_or_zero(text, unit)?),
        ShopKind::Mass => ShopValue::Number(read::mass_kg(text, unit)?),
        ShopKind::Count => ShopValue::Count(read::whole(text, 1)?),
        ShopKind::CountOrNone => ShopValue::Count(read::whole(text, 0)?),
        ShopKind::Money => ShopValue::Money(read::money(text)?),
        ShopKind::Percent => ShopValue::Number(read::share(text)?),
        ShopKind::Share => ShopValue::Number(whole_share(text)?),
        ShopKind::Date => ShopValue::Date(read::date(text)?),
        ShopKind::YesNo => ShopValue::YesNo(read::yes_no(text)?),
        ShopKind::OneOf(words) => {
            let read = read::one_of(text, words);
            // A form is an example, and so may what is typed be.
            let word = read.or_else(|misread| form_like(words, text).ok_or(misread))?;
            ShopValue::Text(word.to_owned())
        }
        ShopKind::Number => ShopValue::Number(read::plain_number(text)?),
        ShopKind::Hours => ShopValue::Number(read::hours(text)?),
        ShopKind::HoursOrNone => ShopValue::Number(hours_or_none(text)?),
        ShopKind::Degrees => ShopValue::Number(read::degrees_of_tilt(text)?),
        ShopKind::Currency => ShopValue::Text(read::currency(text)?),
        ShopKind::WorkDays => ShopValue::WorkDays(days(text)?),
        ShopKind::MachineRates => ShopValue::MachineRates(machine_rates(text)?),
        ShopKind::Names => ShopValue::Names(names(text)?),
        ShopKind::Hazards => ShopValue::Hazards(hazards(text)?),
        ShopKind::Stubs => ShopValue::Stubs(stubs(text, unit)?),
        ShopKind::StartValue => ShopValue::Start(start_value(text)?),
    })
}

/// A share that may be all: somebody stands by the whole time.
fn whole_share(text: &str) -> Result<f64, Misread> {
    let plain = text.trim().trim_end_matches('%').trim_end();
    if plain == "100" {
        return Ok(1.0);
    }
    read::share(text)
}

fn hours_or_none(text: &str) -> Result<f64, Misread> {
    match read::hours(text) {
        Err(Misread::Zero { .. }) => Ok(0.0),
        read => read,
    }
}
