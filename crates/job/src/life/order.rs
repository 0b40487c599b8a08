//! What an order freezes: what papers follow from the order on, what differs between it and
//! quotation or sheet, and which of that somebody accepted.

pub(crate) mod difference;
mod since_quoted;

pub use difference::{Difference, FieldChange, HoleChange, Revised, Topic};

use chrono::{Datelike as _, NaiveDate, Weekday};
use rust_decimal::Decimal;

use crate::job::{Issued, Job};
use crate::life::on_floor::parts_on_floor;
use crate::life::parts::ordered;
use crate::pinned::number::is_number;
use crate::pinned::paper::Paper;
use crate::pinned::slip::holds::Line;
use crate::pinned::slip::lists::{Has, TypedLine, kind, line};
use crate::pinned::slip::view::View;
use crate::typed::field::{Field, Value};

/// What papers say of an order from the order on: the order's own where it names it, else the
/// sheet's.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Followed<'a> {
    /// Revision of the part.
    pub revision: &'a str,
    /// Revision of the drawing.
    pub drawing_revision: &'a str,
    /// Parts of this lot.
    pub quantity: Option<u32>,
    /// Parts of all that was ordered, where the lot is a part of them.
    pub of: Option<u32>,
    /// When it is due.
    pub due: Option<NaiveDate>,
}

/// What papers say from the order on.
#[must_use]
pub fn followed(job: &Job) -> Followed<'_> {
    let total = ordered(job);
    let lot = lot(job).quantity;
    Followed {
        revision: newest(job, line::Revision, Field::Revision),
        drawing_revision: newest(job, line::DrawingRevision, Field::DrawingRevision),
        quantity: lot.or(total).or_else(|| job.count(Field::Quantity)),
        of: total.filter(|total| lot.is_some_and(|lot| lot < *total)),
        due: due(job),
    }
}

/// What the newest order that names it says in a line, else the sheet's.
fn newest<L: TypedLine<Holds = Line>>(job: &Job, line: L, field: Field) -> &str
where
    kind::Order: Has<L>,
{
    let orders = job.slips_of::<kind::Order>().rev();
    let mut said = orders.map(|order| order.get(line));
    let ordered = said.find(|text| !text.is_empty());
    ordered.unwrap_or_else(|| job.text(field).trim())
}

/// The call-off's day, else the first of the orders'; the sheet's where none of them names one.
fn due(job: &Job) -> Option<NaiveDate> {
    let called = call_off(job).filter(|slip| !slip.entry(line::Due).is_empty());
    if let Some(called) = called {
        return called.get(line::Due);
    }
    let named = |order: &View<'_, kind::Order>| !order.entry(line::Due).is_empty();
    let mut orders = job.slips_of::<kind::Order>().filter(named).peekable();
    if orders.peek().is_some() {
        return orders.filter_map(|order| order.get(line::Due)).min();
    }
    job.date(Field::Due)
}

/// The parts that are worked on next.
struct Lot<'a> {
    /// Their call-off, where they were called off.
    call_off: Option<View<'a, kind::Release>>,
    /// How many, where a call-off or what the others left over says so.
    quantity: Option<u32>,
}

/// The first call-off that the released travelers don't cover; once all of them are covered, the rest
/// of an order that isn't called off bit by bit; the last call-off where nothing is left.
fn lot(job: &Job) -> Lot<'_> {
    let released = parts_on_floor(job);
    let mut called: u32 = 0;
    let uncovered = |slip: &View<'_, kind::Release>| {
        called = called.saturating_add(slip.get(line::Quantity).unwrap_or(0));
        called > released
    };
    let last = job.slips_of::<kind::Release>().next_back();
    let next = job.slips_of::<kind::Release>().find(uncovered);
    let left = ordered(job).map_or(0, |ordered| ordered.saturating_sub(released));
    let mut orders = job.slips_of::<kind::Order>();
    let waits = orders.any(|order| order.get(line::Blanket) == Some(true));
    if next.is_none() && last.is_some() && left > 0 && !waits {
        return Lot {
            call_off: None,
            quantity: Some(left),
        };
    }
    let call_off = next.or(last);
    Lot {
        call_off,
        quantity: call_off.and_then(|slip| slip.get(line::Quantity)),
    }
}

/// The call-off whose parts are worked on next, where they were called off.
#[must_use]
pub fn call_off(job: &Job) -> Option<View<'_, kind::Release>> {
    lot(job).call_off
}

/// The quotation that an order is held against: the one it names, else the newest that stands; none
/// where its entry doesn't fit its seal.
#[must_use]
pub fn quotation_of<'a>(job: &'a Job, order: View<'_, kind::Order>) -> Option<&'a Issued> {
    answered(job, order).filter(|quotation| quotation.is_trusted())
}

/// The quotation that an order answers, whatever became of its entry.
fn answered<'a>(job: &'a Job, order: View<'_, kind::Order>) -> Option<&'a Issued> {
    let named = order.get(line::Paper);
    job.standing(Paper::Quotation)
        .rfind(|issued| named.is_empty() || is_number(&issued.number, named))
}

/// Parts of one order; one without a quantity is for the sheet's.
#[must_use]
pub fn quantity_of(job: &Job, order: View<'_, kind::Order>) -> Option<u32> {
    order
        .get(line::Quantity)
        .or_else(|| job.count(Field::Quantity))
}

/// The currency of an order's price: the one that it says, else that of the quotation that it answers, else
/// the one in which the sheet was typed; `None` where nothing says it.
#[must_use]
pub fn pays_in<'a>(job: &'a Job, order: View<'a, kind::Order>) -> Option<&'a str> {
    let quoted = || quotation_of(job, order)?.currency.as_deref();
    let said = order.get(line::Currency).or_else(quoted);
    said.or_else(|| named_currency(job))
}

/// The currency that a sheet names for its quotation, else the one in which its amounts were typed.
pub(crate) fn named_currency(job: &Job) -> Option<&str> {
    let text = |field: Field| job.field(field).value().and_then(Value::text);
    text(Field::Currency).or_else(|| text(Field::AmountsIn))
}

/// The price of one in the quotation that an order answers, at just its quantity and in its currency.
#[must_use]
pub fn quoted_price(job: &Job, order: View<'_, kind::Order>) -> Option<Decimal> {
    let quantity = quantity_of(job, order)?;
    let quotation = quotation_of(job, order)?;
    if other_currency(order, quotation).is_some() {
        return None;
    }
    let lines = &quotation.lines;
    let line = lines
        .iter()
        .find(|line| line.job == job.number && line.quantity == quantity)?;
    line.each
}

/// What differs between an order and the quotation that it answers, and between it and the sheet.
#[must_use]
pub fn differences(job: &Job, order: View<'_, kind::Order>) -> Vec<Difference> {
    let mut found = Vec::new();
    let quotation = quotation_of(job, order);
    match quotation {
        Some(quotation) => against(job, order, quotation, &mut found),
        None => found.extend(no_quotation(job, order)),
    }
    quantity(job, order, &mut found);
    let quoted =
        quotation.and_then(|quotation| quotation.lines.iter().find(|l| l.job == job.number));
    revision(
        Revised::Part,
        order.get(line::Revision),
        quoted.map(|line| line.revision.trim()),
        job.text(Field::Revision).trim(),
        &mut found,
    );
    let inputs = quotation.and_then(|quotation| quotation.inputs.as_deref());
    revision(
        Revised::Drawing,
        order.get(line::DrawingRevision),
        inputs.map(|job| job.text(Field::DrawingRevision).trim()),
        job.text(Field::DrawingRevision).trim(),
        &mut found,
    );
    due_dates(job, order, inputs.unwrap_or(job), &mut found);
    if let Some(quoted) = inputs {
        found.extend(since_quoted::scope(quoted, job));
        found.extend(since_quoted::holes(quoted, job));
    }
    if !order.get(line::Terms).is_empty() {
        found.push(Difference::Terms {
            named: order.get(line::Terms).to_owned(),
        });
    }
    found
}

/// Why no quotation is there to hold an order against; a reorder answers the job before, whose
/// prices stand side by side on the sheet.
fn no_quotation(job: &Job, order: View<'_, kind::Order>) -> Option<Difference> {
    if let Some(changed) = answered(job, order) {
        let named = changed.number.clone();
        return Some(Difference::NotTrusted { named });
    }
    let named = order.get(line::Paper);
    let before = job.text(Field::Again).trim();
    if named.is_empty() {
        return before.is_empty().then_some(Difference::NoQuotation);
    }
    if !before.is_empty() && is_quotation_of(before, named) {
        return None;
    }
    let issued = job.issued_as(named);
    let later = issued.and_then(|issued| job.replaced_by(&issued.number));
    let named = named.to_owned();
    Some(match later {
        Some(later) => Difference::Replaced {
            named,
            by: later.number.clone(),
        },
        None => Difference::OtherPaper { named },
    })
}

/// Whether a number is one of a quotation of the job of that number: `26-0101-Q2` of `26-0101`.
fn is_quotation_of(job: &str, named: &str) -> bool {
    let digits = named.trim().rsplit(['q', 'Q']).next().unwrap_or_default();
    let is_count = !digits.is_empty() && digits.chars().all(|sign| sign.is_ascii_digit());
    is_count && is_number(&format!("{job}-Q{digits}"), named)
}

/// The currencies of an order and of the quotation that it answers, where both are known and differ.
fn other_currency<'a>(
    order: View<'a, kind::Order>,
    quotation: &'a Issued,
) -> Option<(&'a str, &'a str)> {
    // One that doesn't say it pays in that of the quotation.
    let ordered = order.get(line::Currency)?;
    let quoted = quotation.currency.as_deref()?;
    (ordered != quoted).then_some((ordered, quoted))
}

fn against(
    job: &Job,
    order: View<'_, kind::Order>,
    quotation: &Issued,
    found: &mut Vec<Difference>,
) {
    if let (Some(until), Some(came)) = (quotation.valid_until, order.get(line::Date))
        && came > until
    {
        found.push(Difference::TooLate { until });
    }
    let currency = other_currency(order, quotation);
    if let Some((ordered, quoted)) = currency {
        found.push(Difference::Currency {
            ordered: ordered.to_owned(),
            quoted: quoted.to_owned(),
        });
    }
    let lines = quotation.lines.iter().filter(|line| line.job == job.number);
    let Some(ordered) = quantity_of(job, order) else {
        return;
    };
    if lines.clone().any(|line| line.quantity == ordered) {
        if let (Some(ordered), Some(quoted)) = (order.get(line::Each), quoted_price(job, order))
            && ordered != quoted
            && currency.is_none()
        {
            found.push(Difference::Price { ordered, quoted });
        }
    } else if let Some(near) = lines.min_by_key(|line| line.quantity.abs_diff(ordered)) {
        found.push(Difference::NotPriced {
            ordered,
            nearest: near.quantity,
        });
    }
}

/// Whether the parts of all orders are those of the sheet; told on the newest order. A lot that is
/// called off may be the sheet's too.
fn quantity(job: &Job, order: View<'_, kind::Order>, found: &mut Vec<Difference>) {
    let newest = job.slips_of::<kind::Order>().next_back();
    if newest.is_none_or(|newest| newest.id() != order.id()) {
        return;
    }
    let (Some(ordered), on_sheet) = (ordered(job), job.count(Field::Quantity)) else {
        return;
    };
    let called = |slip: View<'_, kind::Release>| slip.get(line::Quantity) == on_sheet;
    let is_lot = on_sheet.is_some() && job.slips_of::<kind::Release>().any(called);
    // No order names a number of parts, and the sheet doesn't either: that is told elsewhere.
    if on_sheet != Some(ordered) && !is_lot && ordered > 0 {
        found.push(Difference::Quantity { ordered, on_sheet });
    }
}

fn revision(
    of: Revised,
    ordered: &str,
    quoted: Option<&str>,
    on_sheet: &str,
    found: &mut Vec<Difference>,
) {
    if ordered.is_empty() {
        if let Some(quoted) = quoted.filter(|quoted| !quoted.eq_ignore_ascii_case(on_sheet)) {
            found.push(Difference::RevisedSince {
                of,
                quoted: quoted.to_owned(),
                on_sheet: on_sheet.to_owned(),
            });
        }
        return;
    }
    let other = |there: &&str| !there.eq_ignore_ascii_case(ordered);
    let quoted = quoted.filter(other).map(str::to_owned);
    let on_sheet = Some(on_sheet).filter(other).map(str::to_owned);
    if quoted.is_some() || on_sheet.is_some() {
        found.push(Difference::Revision {
            of,
            ordered: ordered.to_owned(),
            quoted,
            on_sheet,
        });
    }
}

fn due_dates(job: &Job, order: View<'_, kind::Order>, quoted: &Job, found: &mut Vec<Difference>) {
    let Some(ordered) = order.get(line::Due) else {
        return;
    };
    if let Some(on_sheet) = job.date(Field::Due).filter(|day| *day != ordered) {
        found.push(Difference::Due { ordered, on_sheet });
    }
    let earliest = quoted.count(Field::LeadDays).and_then(|lead_days| {
        let earliest = working_days_after(order.get(line::Date)?, lead_days)?;
        Some((lead_days, earliest))
    });
    if let Some((lead_days, earliest)) = earliest.filter(|(_, earliest)| *earliest > ordered) {
        found.push(Difference::DueEarly {
            ordered,
            lead_days,
            earliest,
        });
    }
}

/// So many days from Monday to Friday after a day.
fn working_days_after(day: NaiveDate, count: u32) -> Option<NaiveDate> {
    let is_off = |day: NaiveDate| matches!(day.weekday(), Weekday::Sat | Weekday::Sun);
    // From a day off one counts as from the Friday before it.
    let mut day = day;
    while is_off(day) {
        day = day.pred_opt()?;
    }
    let weeks = chrono::Days::new(7 * u64::from(count / 5));
    day = day.checked_add_days(weeks)?;
    for _ in 0..count % 5 {
        day = day.succ_opt()?;
        while is_off(day) {
            day = day.succ_opt()?;
        }
    }
    Some(day)
}

/// The differences of an order that nobody accepted.
#[must_use]
pub fn open(job: &Job, order: View<'_, kind::Order>) -> Vec<Difference> {
    let mut all = differences(job, order);
    all.retain(|difference| !is_accepted(order, difference));
    all
}

/// Whether somebody accepted just this difference: one that came later, or came out otherwise, is
/// not accepted by an earlier word.
#[must_use]
pub fn is_accepted(order: View<'_, kind::Order>, difference: &Difference) -> bool {
    accepts(order, &difference.kept())
}

/// Whether somebody accepted the price that an order pays, whatever it is held against.
#[must_use]
pub fn is_price_accepted(order: View<'_, kind::Order>) -> bool {
    accepts(order, &pays(order))
}

fn accepts(order: View<'_, kind::Order>, kept: &str) -> bool {
    let what = order.get(line::AcceptedWhat);
    let mut lines = what.lines();
    // Format 1 kept no record of what was accepted: the word stood for everything.
    let there = what.is_empty() || lines.any(|line| line.trim_end() == kept.trim_end());
    there && !order.get(line::Accepted).is_empty()
}

/// What is kept beside a word of acceptance: every difference that there is, and the price paid.
#[must_use]
pub fn accepted_what(job: &Job, order: View<'_, kind::Order>) -> String {
    let all = differences(job, order);
    let all = all.iter().map(Difference::kept);
    all.chain([pays(order)]).collect::<Vec<_>>().join("\n")
}

fn pays(order: View<'_, kind::Order>) -> String {
    let each = order.get(line::Each);
    let each = each.map_or_else(String::new, |each| each.normalize().to_string());
    format!("pays: {each}")
}
