//! The currency that amounts are typed in, noted beside them: a shop that changes its currency changes no
//! amount that somebody typed before.

use crate::asked::currency::is_the_shops;
use crate::edits::apply::apply;
use crate::edits::edit::Edit;
use crate::job::Job;
use crate::life::order::{pays_in, quotation_of};
use crate::pinned::slip::lists::{Line, kind, line};
use crate::shop::rows::Shop;
use crate::typed::field::{Field, FieldKind, Value};
use crate::typed::overrule::FigureKey;

/// An edit together with the currencies of the amounts that it brings; `None` where it brings none, or all
/// of them are noted already.
#[must_use]
pub fn with_currencies(job: &Job, shop: &Shop, edit: &Edit) -> Option<Edit> {
    if is_of_tables(edit) {
        return None;
    }
    let (after, _) = apply(job, edit).ok()?;
    let mut edits = Vec::new();
    // What stands there without an amount says nothing of the first one that is typed.
    let is_open = after.field(Field::AmountsIn).is_empty() || !has_amounts(job);
    let own = &shop.own().tables.rates.currency;
    if has_amounts(&after) && is_open && after.text(Field::AmountsIn) != own {
        edits.push(Edit::SetField {
            field: Field::AmountsIn,
            text: own.clone(),
            unit: job.unit,
        });
    }
    // Amounts that stand there since before any was noted are in what the sheet reckoned in until now.
    let keeps = keeps_amount_of_quotation(job, &after);
    let reckoned = reckoned_in(if keeps { job } else { &after }, shop);
    if has_amounts_of_quotation(&after)
        && (after.field(Field::ValuesIn).is_empty() || !keeps)
        && after.text(Field::ValuesIn) != reckoned
    {
        edits.push(Edit::SetField {
            field: Field::ValuesIn,
            text: reckoned.to_owned(),
            unit: job.unit,
        });
    }
    for order in after.slips_of::<kind::Order>() {
        if order.get(line::Each).is_none() || !order.entry(line::Currency).is_empty() {
            continue;
        }
        let quoted =
            || quotation_of(&after, order).and_then(|quotation| quotation.currency.clone());
        let reckoned = || shop.for_job(&after).tables.rates.currency.clone();
        // A price that stood there before is in what it was in.
        let mut before = job.slips_of::<kind::Order>();
        let stood = before.any(|known| {
            known.id() == order.id() && known.get(line::Each) == order.get(line::Each)
        });
        let stands = || pays_in(&after, order).map(str::to_owned);
        let text = if stood { stands() } else { quoted() };
        edits.push(Edit::SetLine {
            slip: order.id(),
            line: Line::Currency,
            text: text.unwrap_or_else(reckoned),
            unit: job.unit,
        });
    }
    if edits.is_empty() {
        return None;
    }
    edits.insert(0, edit.clone());
    Some(Edit::Together { edits })
}

/// Whether an edit is of the table of holes or of run records: they have no amounts, and are not read twice.
fn is_of_tables(edit: &Edit) -> bool {
    match edit {
        Edit::SetCells { .. }
        | Edit::InsertRows { .. }
        | Edit::DeleteRows { .. }
        | Edit::SetPlaces { .. }
        | Edit::SetRows { .. }
        | Edit::SetRuns { .. } => true,
        Edit::Together { edits } => edits.iter().all(is_of_tables),
        _ => false,
    }
}

/// The currency that the shop had when the amounts of a sheet were typed, where it has another one now and
/// they would count in that.
#[must_use]
pub fn of_another_currency<'a>(job: &'a Job, shop: &Shop) -> Option<&'a str> {
    let typed_in = job.field(Field::AmountsIn).value()?.text()?;
    if typed_in == shop.own().tables.rates.currency {
        return None;
    }
    let names_currency = job.field(Field::Currency).value().is_some();
    // Where theirs is noted, that tells.
    let of_quotation = has_amounts_of_quotation(job) && job.field(Field::ValuesIn).is_empty();
    let counts = has_own_amounts(job) || of_quotation && !names_currency;
    counts.then_some(typed_in)
}

/// The currency of the quotation when part value, cap or prices were typed and the one that they would
/// count in now, where it is another.
#[must_use]
pub fn values_of_another_currency<'a>(job: &'a Job, shop: &'a Shop) -> Option<[&'a str; 2]> {
    let typed_in = job.field(Field::ValuesIn).value()?.text()?;
    let reckoned = reckoned_in(job, shop);
    let counts = has_amounts_of_quotation(job) && typed_in != reckoned;
    counts.then_some([typed_in, reckoned])
}

/// The currency of the quotation: the one that the sheet names, else the shop's own.
fn reckoned_in<'a>(job: &'a Job, shop: &'a Shop) -> &'a str {
    let named = job.field(Field::Currency).value().and_then(Value::text);
    named.unwrap_or(&shop.own().tables.rates.currency)
}

/// Whether an amount in the currency of the quotation stands after an edit as it stood before.
fn keeps_amount_of_quotation(before: &Job, after: &Job) -> bool {
    let money = |job: &Job, field: Field| job.field(field).value().and_then(Value::money);
    let mut kept = amounts(before).filter(|field| !is_the_shops(*field));
    let prices = |job: &Job| -> Vec<(FigureKey, String)> {
        let overrules = job.overrules.iter();
        let prices = overrules.filter(|over| is_price(&over.figure));
        prices
            .map(|over| (over.figure.clone(), over.value.text().to_owned()))
            .collect()
    };
    let of_after = prices(after);
    kept.any(|field| money(before, field) == money(after, field))
        || prices(before).iter().any(|price| of_after.contains(price))
}

const fn is_price(key: &FigureKey) -> bool {
    matches!(key, FigureKey::UnitPrice(_))
}

fn has_amounts(job: &Job) -> bool {
    has_own_amounts(job) || has_amounts_of_quotation(job)
}

/// Whether an amount of the shop's own is typed on the sheet, or a rate of exchange, which is of its currency.
fn has_own_amounts(job: &Job) -> bool {
    job.field(Field::ExchangeRate).value().is_some() || amounts(job).any(is_the_shops)
}

/// Whether an amount in the currency of the quotation is: of the part, or a price.
fn has_amounts_of_quotation(job: &Job) -> bool {
    amounts(job).any(|field| !is_the_shops(field))
        || job.overrules.iter().any(|over| is_price(&over.figure))
}

fn amounts(job: &Job) -> impl Iterator<Item = Field> {
    let money = Field::ALL.iter().copied();
    let money = money.filter(|field| field.kind() == FieldKind::Money);
    money.filter(|field| job.field(*field).value().and_then(Value::money).is_some())
}
