//! What the lines of slips hold, each in its own type.

use chrono::NaiveDate;
use quillbore_calc::Length as Mm;
use rust_decimal::Decimal;

use super::choices::{Outcome as Ended, Point as WaitsFor};
use crate::typed::entry::Entry;
use crate::typed::field::{FieldKind, Value};

/// What a line holds: how its text is read, and how it comes back.
pub trait Holds {
    /// What comes back.
    type Value<'a>;

    /// How its text is read.
    const KIND: FieldKind;

    /// What was typed, in its own type.
    fn of(entry: &Entry<Value>) -> Self::Value<'_>;
}

macro_rules! holds {
    ($($(#[$doc:meta])+ $Name:ident, $kind:expr => $Type:ty, $of:expr;)+) => {
        $($(#[$doc])+
        #[derive(Clone, Copy, Debug)]
        pub struct $Name;

        impl Holds for $Name {
            type Value<'a> = $Type;

            const KIND: FieldKind = $kind;

            fn of(entry: &Entry<Value>) -> Self::Value<'_> {
                ($of)(entry)
            }
        })+
    };
}

holds! {
    /// One line of text, without outer blanks; empty where nothing was typed.
    Line, FieldKind::Line => &'a str, text;
    /// Several lines of text, without outer blanks; empty where nothing was typed.
    Lines, FieldKind::Lines => &'a str, text;
    /// A day.
    Date, FieldKind::Date => Option<NaiveDate>, |entry| value(entry).and_then(Value::date);
    /// A whole number of things.
    Count, FieldKind::Count => Option<u32>, |entry| value(entry).and_then(Value::count);
    /// A whole number of things, or none of them.
    CountOrNone, FieldKind::CountOrNone => Option<u32>, |entry| value(entry).and_then(Value::count);
    /// An amount of the rate card's currency.
    Money, FieldKind::Money => Option<Decimal>, |entry| value(entry).and_then(Value::money);
    /// A currency, by its ISO 4217 code.
    Currency, FieldKind::Currency => Option<&'a str>, |entry| value(entry).and_then(Value::text);
    /// A length.
    Length, FieldKind::Length => Option<Mm>, |entry| value(entry).and_then(Value::length);
    /// A length, or nothing at all.
    LengthOrNone, FieldKind::LengthOrNone => Option<Mm>, |entry| value(entry).and_then(Value::length);
    /// Minutes.
    Minutes, FieldKind::Minutes => Option<f64>, |entry| value(entry).and_then(Value::minutes);
    /// Minutes, or none of them.
    MinutesOrNone, FieldKind::MinutesOrNone => Option<f64>, |entry| value(entry).and_then(Value::minutes);
    /// Yes or no.
    YesNo, FieldKind::YesNo => Option<bool>, |entry| value(entry).and_then(Value::yes_no);
    /// How a quotation ended.
    Outcome, FieldKind::OneOf(Ended::KEYS) => Option<Ended>, |entry| word(entry, Ended::of_key);
    /// What work waits for.
    Point, FieldKind::OneOf(WaitsFor::KEYS) => Option<WaitsFor>, |entry| word(entry, WaitsFor::of_key);
}

fn text(entry: &Entry<Value>) -> &str {
    entry.text().trim()
}

fn value(entry: &Entry<Value>) -> Option<&Value> {
    entry.value()
}

/// The one of a list that was read.
fn word<T>(entry: &Entry<Value>, of_key: impl Fn(&str) -> Option<T>) -> Option<T> {
    value(entry).and_then(Value::text).and_then(of_key)
}
