//! The words that a job is ordered again with.

use chrono::NaiveDate;

use super::reorder::last_price;
use crate::edits::edit::Edit;
use crate::job::Job;
use crate::life::order::followed;
use crate::pinned::read_line::read_line;
use crate::pinned::slip::lists::{Line, SlipKind};
use crate::typed::field::{Field, Value};
use crate::typed::form::Form;
use crate::words::life as words;

/// Words that take a price or revision over from last time.
const SAME: [&str; 2] = ["same", "as before"];

/// Why the words of an order are not taken.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum OrderRefused {
    /// A part of them can't be read.
    #[error("{}", words::order_unread(*.line, .why))]
    Unread {
        /// The line of the order that it would stand in.
        line: Line,
        /// Why, as a sentence.
        why: String,
    },
    /// The price is to be that of last time, and there is none.
    #[error("{}", words::no_last_price(.word))]
    NoLastPrice {
        /// The word that was typed for it.
        word: String,
    },
}

/// What an order typed as "number; quantity; price each; revision" comes to, of a job that is done
/// again: its slip, with whatever is typed behind these as its note, and the quantity and the
/// customer's reference of the sheet. None where nothing was typed: somebody only asks again, and
/// there is no order yet.
///
/// "same" and "as before" stand for the last price and the last revision; what is left out was not
/// said, and stands on no line. The day and the last price are written in `form`.
///
/// # Errors
///
/// Where a part can't be read, or the price is to be the same and there is none: nothing is to be
/// made of such an order.
pub fn order_edits(
    order: &str,
    old: &Job,
    day: NaiveDate,
    form: Form,
) -> Result<Vec<Edit>, OrderRefused> {
    if order.trim().is_empty() {
        return Ok(Vec::new());
    }
    let unit = old.unit;
    let mut parts = order.split(';').map(|part| part.trim().to_owned());
    let mut next = || parts.next().unwrap_or_default();
    let (number, quantity, each, revision) = (next(), next(), next(), next());
    let rest: Vec<String> = parts.filter(|part| !part.is_empty()).collect();
    let (each, currency) = price(each, &quantity, old, form)?;
    let mut lines = vec![
        (Line::Date, form.day(day)),
        (Line::Number, number.clone()),
        (Line::Quantity, quantity.clone()),
        (Line::Each, each),
        (Line::Currency, currency),
        (Line::Revision, revised(revision, old)),
        (Line::Note, rest.join("; ")),
    ];
    lines.retain(|(_, text)| !text.is_empty());
    for (line, text) in &lines {
        if let Some(why) = read_line(*line, text, unit).why() {
            let (line, why) = (*line, why.to_owned());
            return Err(OrderRefused::Unread { line, why });
        }
    }
    let slip = Edit::AddSlip {
        kind: SlipKind::Order,
        lines,
        unit,
    };
    let on_sheet = [
        (Field::Quantity, quantity),
        (Field::CustomerReference, number),
    ];
    let fields = on_sheet.into_iter().filter(|(_, text)| !text.is_empty());
    let fields = fields.map(|(field, text)| Edit::SetField { field, text, unit });
    Ok(std::iter::once(slip).chain(fields).collect())
}

/// The price each as its line takes it, with its currency where it is that of last time.
fn price(
    typed: String,
    quantity: &str,
    old: &Job,
    form: Form,
) -> Result<(String, String), OrderRefused> {
    if !is_same(&typed) {
        return Ok((typed, String::new()));
    }
    let ordered = read_line(Line::Quantity, quantity, old.unit);
    let ordered = ordered.value().and_then(Value::count);
    let ordered = ordered.or_else(|| old.count(Field::Quantity)).unwrap_or(1);
    match last_price(old, ordered) {
        Some(last) => {
            let text = last.text(form);
            Ok((text, last.currency.unwrap_or_default()))
        }
        None => Err(OrderRefused::NoLastPrice { word: typed }),
    }
}

/// The revision as its line takes it.
fn revised(typed: String, old: &Job) -> String {
    if is_same(&typed) {
        return followed(old).revision.to_owned();
    }
    typed
}

fn is_same(typed: &str) -> bool {
    SAME.iter().any(|word| typed.eq_ignore_ascii_case(word))
}
