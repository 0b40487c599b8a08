//! What is to be said of a quotation in another currency than the shop's.

use quillbore_calc::JobFigures;
use quillbore_calc::finding::Level;

use super::kind::NoteKind;
use super::note::{Beside, SideNote};
use crate::job::Job;
use crate::life;
use crate::life::state::State;
use crate::shop::QuotedIn;
use crate::shop::rows::Shop;
use crate::typed::field::{Field, Value};
use crate::words::exchange as words;

/// Days after which an exchange rate is told.
const OLD_DAYS: i64 = 90;
/// The most units of one currency that a unit of another is, with room (our choice, no source).
const MOST_RATE: f64 = 200_000.0;

/// What is missing or doubtful of currency, rate and day; `shop` is the one that the job goes by.
pub(super) fn all(job: &Job, shop: &Shop, figures: &JobFigures) -> Vec<SideNote> {
    let missing = |field, said| check(NoteKind::ExchangeMissing, field, said);
    if let Some(quoted) = shop.quoted_in() {
        let mut notes: Vec<SideNote> = of_other_day(job, shop, quoted).into_iter().collect();
        notes.extend(odd_rate(job, quoted));
        let prices = figures.price.iter().flat_map(|price| &price.breaks);
        if prices
            .into_iter()
            .any(|at| at.each.is_zero() && at.unit_cost > 0.0)
        {
            let said = words::price_of_nothing(&quoted.currency);
            notes.push(missing(Field::ExchangeRate, said));
        }
        return notes;
    }
    let own = shop.own().tables.rates.currency.as_str();
    let [currency, rate, day] = [Field::Currency, Field::ExchangeRate, Field::ExchangeDay];
    let is_typed = |field: Field| !job.field(field).is_empty();
    let typed = job.field(currency).value().and_then(Value::text);
    let note = match typed {
        // What can't be read is told as that.
        None if is_typed(currency) => None,
        None if is_typed(rate) || is_typed(day) => {
            Some(missing(currency, words::NO_CURRENCY.to_owned()))
        }
        None => None,
        Some(typed) if typed == own => (is_typed(rate) || is_typed(day)).then(|| {
            let (beside, said) = (Beside::Field(rate), words::not_needed(own));
            SideNote::new(Level::Note, NoteKind::ExchangeNotNeeded, beside, said)
        }),
        Some(typed) if !is_typed(rate) => {
            Some(missing(rate, words::no_rate(own, typed, !is_typed(day))))
        }
        Some(typed) if !is_typed(day) => Some(missing(day, words::no_day(own, typed))),
        Some(_) => None,
    };
    note.into_iter().collect()
}

/// A rate that another country reads as another number, or beyond any between two currencies.
fn odd_rate(job: &Job, quoted: &QuotedIn) -> Option<SideNote> {
    let typed = job.text(Field::ExchangeRate).trim();
    let beyond = !(1.0 / MOST_RATE..=MOST_RATE).contains(&quoted.rate);
    // A rate that no currencies have is none, and prices by it keep the quotation back.
    let (kind, said) = if beyond {
        (NoteKind::ExchangeMissing, words::odd_rate(&quoted.currency))
    } else if is_read_two_ways(typed) {
        (NoteKind::ExchangeOdd, words::two_ways(typed))
    } else {
        return None;
    };
    Some(check(kind, Field::ExchangeRate, said))
}

/// Whether one sign stands before three last digits, as in `1,000`: it may part thousands or decimals.
fn is_read_two_ways(typed: &str) -> bool {
    let Some((whole, last)) = typed.split_once(',') else {
        return false;
    };
    let digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
    last.len() == 3
        && digits(last)
        && digits(whole)
        && (1..=3).contains(&whole.len())
        && !whole.starts_with('0')
}

/// A rate that is older than a quotation should rest on, or of a day that has not come; from the order
/// on the price stands.
fn of_other_day(job: &Job, shop: &Shop, quoted: &QuotedIn) -> Option<SideNote> {
    if !matches!(life::state(job), State::Inquiry | State::Quoted) {
        return None;
    }
    let age = shop.day?.signed_duration_since(quoted.dated).num_days();
    let said = match age {
        ..0 => words::not_come(quoted.dated, shop.form),
        0..=OLD_DAYS => return None,
        _ => words::old(quoted.dated, age, shop.form),
    };
    Some(check(
        NoteKind::ExchangeOfOtherDay,
        Field::ExchangeDay,
        said,
    ))
}

fn check(kind: NoteKind, field: Field, said: String) -> SideNote {
    SideNote::new(Level::Check, kind, Beside::Field(field), said)
}
