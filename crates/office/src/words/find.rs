//! How a text that finds jobs was understood.

use quillbore_job::{Form, Unit};
use rust_decimal::Decimal;

use super::days;
use crate::digest::wants::{Asked, Figure, Range, Want};

/// What is wanted, one thing after the other, and behind it the words that are only letters; empty
/// where all of them are.
pub(crate) fn understood(
    wants: &[Want],
    letters: &[String],
    currency: &str,
    goes_by: (Unit, Form),
) -> String {
    let mut said: Vec<String> = wants
        .iter()
        .map(|wanted| want(wanted, currency, goes_by))
        .collect();
    if said.is_empty() {
        return String::new();
    }
    if !letters.is_empty() {
        said.push(format!("with \u{201c}{}\u{201d}", letters.join(" ")));
    }
    said.join("; ")
}

fn want(want: &Want, currency: &str, (unit, form): (Unit, Form)) -> String {
    match want {
        Want::Late { .. } => "late".to_owned(),
        Want::Due { from, to } if from == to => format!("due on {}", form.day(*from)),
        Want::Due { from, to } => format!("due from {}", form.days(*from, *to)),
        Want::NoAnswer { days: 0, .. } => "no answer".to_owned(),
        Want::NoAnswer { days, .. } => {
            format!(
                "no answer for {} or more",
                days::days(u64::from(*days), form)
            )
        }
        Want::Named { name, letters, .. } => format!("{} {letters}", asked(*name)),
        // There is room for few words below the line; what was typed stands in it.
        Want::TwoReadings { readings } => {
            let [one, other] = readings;
            format!("{other} or {one}? Type {one}")
        }
        Want::Figure { figure, range } => {
            let show = |value| shown(*figure, value, currency, (unit, form));
            format!("{} {}", self::figure(*figure), self::range(*range, show))
        }
    }
}

const fn asked(name: Asked) -> &'static str {
    match name {
        Asked::Customer => "customer",
        Asked::Material => "material",
        Asked::Machine => "machine",
    }
}

const fn figure(figure: Figure) -> &'static str {
    match figure {
        Figure::Size => "size",
        Figure::Depth => "depth",
        Figure::Slenderness => "l/d",
        Figure::Worth => "lot",
    }
}

fn range(range: Range, show: impl Fn(f64) -> String) -> String {
    match range {
        Range::About { value, .. } => show(value),
        Range::Between { least, most, .. } => format!("from {} to {}", show(least), show(most)),
        Range::AtLeast(least) => format!("{} or more", show(least)),
        Range::Over(least) => format!("over {}", show(least)),
        Range::Under(most) => format!("under {}", show(most)),
    }
}

fn shown(figure: Figure, value: f64, currency: &str, (unit, form): (Unit, Form)) -> String {
    match figure {
        Figure::Size | Figure::Depth => form.length_with_unit(value, unit),
        Figure::Slenderness => form.exact(value),
        Figure::Worth => {
            let amount = Decimal::try_from(value).map(|amount| amount.normalize());
            let amount = amount.map_or_else(|_| form.exact(value), |amount| form.amount(amount));
            format!("{amount} {currency}")
        }
    }
}
