//! Words that mean something where jobs are found: late, due, no answer, names and figures.

use std::ops::ControlFlow;

use chrono::{Days, NaiveDate};
use quillbore_job::Form;
use quillbore_job::quantity::{LimitsGiven, Size};
use quillbore_job::read_quantity::{Misread, date, days, length, money, size, whole};
use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive as _;

use super::query::Asking;
use super::wants::{Asked, Figure, Range, Want};
use crate::week::Week;

/// How far a diameter may be from the one that is asked for [mm]: an inch size rounded to three
/// decimals is still found.
const SIZE_WITHIN_MM: f64 = 0.005;

/// How far a depth may be from the one that is asked for [mm]: depths are asked for as they are
/// remembered, to a tenth.
const DEPTH_WITHIN_MM: f64 = 0.05;

/// Days of a week.
const WEEK: u32 = 7;

/// What the first of the words mean, and how many they are; `None` where they are only letters.
pub(super) fn meant(words: &[&str], by: &Asking<'_>) -> Option<(Want, usize)> {
    let (first, rest) = words.split_first()?;
    let named = |name| named(name, rest, by);
    let figure = |figure| sized(figure, rest, by);
    let (want, more) = match first.to_lowercase().as_str() {
        "late" => (Want::Late { today: by.today }, 0),
        "due" => due(rest, by)?,
        "no" => no_answer(rest, by)?,
        "customer" => named(Asked::Customer)?,
        "material" => named(Asked::Material)?,
        "machine" => named(Asked::Machine)?,
        "size" => figure(Figure::Size)?,
        "depth" => figure(Figure::Depth)?,
        "l/d" => figure(Figure::Slenderness)?,
        "price" => figure(Figure::Worth)?,
        _ => return None,
    };
    Some((want, more + 1))
}

fn is(word: Option<&&str>, one_of: &[&str]) -> bool {
    word.is_some_and(|word| one_of.iter().any(|one| word.eq_ignore_ascii_case(one)))
}

/// `today`, `this week`, `next week`, `2026-11-27`.
fn due(words: &[&str], by: &Asking<'_>) -> Option<(Want, usize)> {
    let due = |from, to| Want::Due { from, to };
    if is(words.first(), &["today"]) {
        return Some((due(by.today, by.today), 1));
    }
    if !is(words.get(1), &["week"]) {
        let want = match date(words.first()?) {
            Ok(day) => due(day, day),
            Err(why) => unclear(why)?,
        };
        return Some((want, 1));
    }
    let this = Week::of(by.today, by.calendar);
    if is(words.first(), &["this"]) {
        return Some((due(this.monday, this.through), 2));
    }
    let next = this.next(by.calendar);
    let from = this.through.succ_opt()?;
    is(words.first(), &["next"]).then(|| (due(from, next.through), 2))
}

/// `answer`, `answer 14 days`, `answer 2 weeks`.
fn no_answer(words: &[&str], by: &Asking<'_>) -> Option<(Want, usize)> {
    if !is(words.first(), &["answer"]) {
        return None;
    }
    let (days, more) = long(&words[1..]).unwrap_or((0, 0));
    let by = days_before(by.today, days);
    Some((Want::NoAnswer { by, days }, more + 1))
}

/// A number of days that is called so: a bare one may be the beginning of a job's number.
fn long(words: &[&str]) -> Option<(u32, usize)> {
    let count = words.first()?;
    let (days, more) = if is(words.get(1), &["day", "days"]) {
        (days(count, 1).ok()?, 2)
    } else if is(words.get(1), &["week", "weeks"]) {
        (whole(count, 1).ok()?.checked_mul(WEEK)?, 2)
    } else if count.ends_with(['d', 'D']) {
        (days(count, 1).ok()?, 1)
    } else {
        return None;
    };
    Some((days, more))
}

fn days_before(today: NaiveDate, days: u32) -> NaiveDate {
    let before = today.checked_sub_days(Days::new(u64::from(days)));
    before.unwrap_or(NaiveDate::MIN)
}

/// A name by the next word, unless that one means something itself.
fn named(name: Asked, words: &[&str], by: &Asking<'_>) -> Option<(Want, usize)> {
    let letters = (*words.first()?).to_owned();
    let is_letters = meant(words, by).is_none();
    let or = Vec::new();
    is_letters.then_some((Want::Named { name, letters, or }, 1))
}

/// Which side of a value.
#[derive(Clone, Copy)]
enum Side {
    Over,
    Under,
}

/// A figure by a value, or by the side of one.
fn sized(figure: Figure, words: &[&str], by: &Asking<'_>) -> Option<(Want, usize)> {
    let side = match words.first() {
        word if is(word, &["over"]) => Some(Side::Over),
        word if is(word, &["under"]) => Some(Side::Under),
        _ => None,
    };
    let before = usize::from(side.is_some());
    let words = &words[before..];
    let value = words.first()?;
    if figure == Figure::Worth {
        let range = match (side?, worth(value, by.form)) {
            (Side::Over, Ok(value)) => Range::Over(value.to_f64()?),
            (Side::Under, Ok(value)) => Range::Under(value.to_f64()?),
            (_, Err(why)) => return Some((unclear(why)?, before + 1)),
        };
        return Some((Want::Figure { figure, range }, before + 1));
    }
    // A unit may stand by itself.
    let with_unit = is(words.get(1), &["mm", "in", "inch", "inches", "\""])
        .then(|| format!("{value} {}", words[1]));
    let read = |text: &str| range(figure, side, text, by);
    let both = with_unit.and_then(|text| Some((read(&text)?, 2)));
    let (range, more) = both.or_else(|| Some((read(value)?, 1)))?;
    Some((Want::Figure { figure, range }, before + more))
}

/// The range of a figure that a text asks for.
fn range(figure: Figure, side: Option<Side>, text: &str, by: &Asking<'_>) -> Option<Range> {
    let value = match figure {
        Figure::Size => match of_size(&size(text, by.unit).ok()?) {
            ControlFlow::Break(range) => return side.is_none().then_some(range),
            ControlFlow::Continue(value) => value,
        },
        Figure::Depth => length(text, by.unit).ok()?.mm(),
        Figure::Slenderness => ratio(text)?,
        // What a lot costs to the cent nobody remembers.
        Figure::Worth => return None,
    };
    Some(match (side, figure) {
        (Some(Side::Over), _) => Range::Over(value),
        (Some(Side::Under), _) => Range::Under(value),
        (None, Figure::Size) => Range::About {
            value,
            within: SIZE_WITHIN_MM,
        },
        (None, Figure::Depth) => Range::About {
            value,
            within: DEPTH_WITHIN_MM,
        },
        (None, _) => Range::AtLeast(value),
    })
}

/// A diameter by itself, or the range of one that has limits.
fn of_size(size: &Size) -> ControlFlow<Range, f64> {
    match size.nominal {
        Some(nominal) if size.given == LimitsGiven::None => ControlFlow::Continue(nominal.mm()),
        _ => ControlFlow::Break(Range::Between {
            least: size.lower.mm(),
            most: size.upper.mm(),
            within: SIZE_WITHIN_MM,
        }),
    }
}

/// An amount of money; one that has two readings as the shop writes numbers, where that decides it.
fn worth(text: &str, form: Form) -> Result<Decimal, Misread> {
    let read = money(text);
    let Err(Misread::TwoReadings { .. }) = read else {
        return read;
    };
    let sign = text.chars().find(|c| matches!(c, '.' | ','));
    if sign == form.numbers.group() {
        let digits: String = text.chars().filter(|c| Some(*c) != sign).collect();
        money(&digits)
    } else if sign == Some(form.numbers.point()) {
        // A fourth digit behind the sign groups nothing.
        money(&format!("{text}0"))
    } else {
        read
    }
}

/// What was typed, where it has two readings; none where it has no reading.
fn unclear(why: Misread) -> Option<Want> {
    match why {
        Misread::TwoReadings { one, other, .. } => Some(Want::TwoReadings {
            readings: [one, other],
        }),
        _ => None,
    }
}

/// A bare number, a lone comma being a decimal comma.
fn ratio(text: &str) -> Option<f64> {
    let ratio: f64 = text.replace(',', ".").parse().ok()?;
    (ratio.is_finite() && ratio > 0.0).then_some(ratio)
}
