//! What was ordered, delivered and drilled, added up over the slips.

use rust_decimal::Decimal;

use crate::job::Job;
use crate::life::order::pays_in;
use crate::pinned::slip::holds::CountOrNone;
use crate::pinned::slip::lists::{Has, TypedLine, kind, line};
use crate::pinned::slip::view::View;
use crate::typed::field::Field;

/// Parts of all orders; an order without a quantity is for the quantity of the sheet. `None`
/// without an order.
#[must_use]
pub fn ordered(job: &Job) -> Option<u32> {
    let on_sheet = job.count(Field::Quantity).unwrap_or(0);
    let of = |order: View<'_, kind::Order>| order.get(line::Quantity).unwrap_or(on_sheet);
    job.slips_of::<kind::Order>()
        .map(of)
        .reduce(u32::saturating_add)
}

/// What an order pays.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct OrderedAt<'a> {
    /// The price each.
    pub each: Decimal,
    /// The parts of all orders.
    pub parts: u32,
    /// The currency of the price, where the order says it.
    pub currency: Option<&'a str>,
}

/// The price and the parts of the order, where it says a price; of several orders the last one's price.
#[must_use]
pub fn ordered_at(job: &Job) -> Option<OrderedAt<'_>> {
    let orders = job.slips_of::<kind::Order>();
    let mut priced = orders.filter_map(|order| Some((order.get(line::Each)?, order)));
    let (each, order) = priced.next_back()?;
    Some(OrderedAt {
        each,
        parts: ordered(job)?,
        currency: pays_in(job, order),
    })
}

/// The sum of a line's counts over all slips of a kind.
#[must_use]
pub fn sum<K: Has<L>, L: TypedLine<Holds = CountOrNone>>(job: &Job, line: L) -> u32 {
    let counts = job.slips_of::<K>().filter_map(|slip| slip.get(line));
    counts.fold(0, u32::saturating_add)
}

/// Parts that are still to be delivered; `None` without an order.
#[must_use]
pub fn left_to_deliver(job: &Job) -> Option<u32> {
    ordered(job).map(|ordered| ordered.saturating_sub(settled(job)))
}

/// Parts that need not be delivered any more: those that went out, and those of which a non-conformance
/// says that they never will.
#[must_use]
pub fn settled(job: &Job) -> u32 {
    sum::<kind::Delivery, _>(job, line::Count).saturating_add(not_sent(job))
}

/// Parts of which a non-conformance says that they are not delivered.
#[must_use]
pub fn not_sent(job: &Job) -> u32 {
    sum::<kind::Nonconformance, _>(job, line::NotSent)
}

/// Machine hours that the run records tell: floor minutes less stops, else sparking; `None` without.
#[must_use]
pub fn actual_hours(job: &Job) -> Option<f64> {
    let minutes = job.slips_of::<kind::Run>().filter_map(|run| {
        let stops = run.get(line::StopMinutes).unwrap_or(0.0);
        let floor = run
            .get(line::FloorMinutes)
            .map(|min| (min - stops).max(0.0));
        floor.or_else(|| run.get(line::SparkMinutes))
    });
    minutes.reduce(|a, b| a + b).map(|minutes| minutes / 60.0)
}
