//! From a lot's cost to the price of one part: the one place where floats become money.
//!
//! A unit price is rounded once, half away from zero, to the shop's price step or the currency's minor
//! unit; the lot's price is that unit price extended. One-off charges stand apart and carry the same
//! margin.

use rust_decimal::{Decimal, RoundingStrategy};

/// A price of so many steps is moved by a fortieth at most when it is rounded to one.
const LEAST_STEPS: Decimal = Decimal::from_parts(20, 0, 0, false, 0);

/// How a lot is priced.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Terms {
    /// Margin on price, 0 to below 1.
    pub margin: f64,
    /// Least that one lot is sold for [currency].
    pub minimum_charge: f64,
    /// Digits after the point in the currency.
    pub minor_digits: u32,
    /// Step that prices are rounded to [currency], a whole number of minor units; those where there is
    /// none.
    pub price_step: Option<f64>,
}

/// A lot's price.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Priced {
    /// Price of one part.
    pub each: Decimal,
    /// Price of the lot: the unit price extended.
    pub lot: Decimal,
    /// True where the minimum charge decided it.
    pub minimum: bool,
}

/// Markup on cost that a margin on price comes to.
///
/// Formula: `markup = margin / (1 - margin)`; the other way round `margin = markup / (1 + markup)`.
///
/// - `margin`: share of the price [-], below 1.
///
/// Result: share of the cost [-]; `None` from a margin of 1 on.
///
/// ```
/// use quillbore_calc::price::markup;
/// assert!((markup(0.2).unwrap() - 0.25).abs() < 1e-12);
/// ```
///
/// Source: arithmetic.
#[must_use]
pub fn markup(margin: f64) -> Option<f64> {
    (margin < 1.0).then(|| margin / (1.0 - margin))
}

/// Margin on price that a markup on cost comes to.
///
/// Formula: `margin = markup / (1 + markup)`.
///
/// - `markup`: share of the cost [-], above -1.
///
/// Result: share of the price [-]; `None` at a markup of -1 or less.
///
/// ```
/// use quillbore_calc::price::margin;
/// assert!((margin(0.5).unwrap() - 0.3333).abs() < 0.00005);
/// ```
///
/// Source: arithmetic.
#[must_use]
pub fn margin(markup: f64) -> Option<f64> {
    (markup > -1.0).then(|| markup / (1.0 + markup))
}

/// Price of one part and of the lot.
///
/// Formula: `lot price = max(cost / (1 - margin), minimum charge)`; `each = lot price / quantity`,
/// rounded half away from zero by [`round_price`]; `lot = each x quantity`. Where that would fall below
/// the minimum charge, `each` is the minimum charge over the quantity, rounded up by the same step.
///
/// - `lot_cost`: full cost of the lot [currency], 0 and up.
/// - `quantity`: parts, 1 and up.
/// - `terms`: margin [-], 0 to below 1; minimum charge [currency], 0 and up; minor digits; price step.
///
/// Result: prices; `None` where quantity or margin allows none or the amount is beyond 28 digits.
///
/// ```
/// use quillbore_calc::price::{Terms, price};
/// let terms = Terms { margin: 0.3, minimum_charge: 0.0, minor_digits: 2, price_step: None };
/// let priced = price(120.0 + 50.0 * 8.5, 50, &terms).unwrap();
/// assert_eq!((priced.each.to_string(), priced.lot.to_string()), ("15.57".into(), "778.50".into()));
/// ```
///
/// Source: arithmetic; round once, at the unit price, then extend.
#[must_use]
pub fn price(lot_cost: f64, quantity: u32, terms: &Terms) -> Option<Priced> {
    let asked = lot_price(lot_cost, terms)?;
    if quantity == 0 {
        return None;
    }
    let least = money(terms.minimum_charge, terms.minor_digits)?;
    let each = round_price(asked / f64::from(quantity), terms)?;
    let priced = extended(each, quantity, terms.minor_digits, false)?;
    if asked >= terms.minimum_charge && priced.lot >= least {
        return Some(priced);
    }
    let shared = least.checked_div(Decimal::from(quantity))?;
    let each = in_steps(
        shared,
        step_for(shared, terms)?,
        RoundingStrategy::AwayFromZero,
    )?;
    extended(each, quantity, terms.minor_digits, true)
}

/// A price rounded by the shop's price step.
///
/// Formula: the nearest whole number of steps, half away from zero. Below 20 steps, where that could
/// move the price by more than a fortieth of it, the step is a tenth as large, and so on, as long as it
/// is a whole number of minor units; then it is the minor unit. So nothing is rounded away to nothing:
/// by steps of 1, 147.36 is 147, 14.74 is 14.7, 0.32 is 0.32.
///
/// - `amount`: price [currency], 0 and up.
/// - `terms`: their step [currency] and minor digits; a step that is no whole number of minor units
///   counts as none.
///
/// Result: money with the currency's digits; `None` where it is not finite or beyond 28 digits.
///
/// ```
/// use quillbore_calc::price::{Terms, round_price};
/// let terms = Terms { margin: 0.3, minimum_charge: 0.0, minor_digits: 2, price_step: Some(0.5) };
/// assert_eq!(round_price(67.36, &terms).unwrap().to_string(), "67.50");
/// assert_eq!(round_price(3.24, &terms).unwrap().to_string(), "3.25");
/// ```
///
/// Source: arithmetic; the bound of a fortieth is the project's.
#[must_use]
pub fn round_price(amount: f64, terms: &Terms) -> Option<Decimal> {
    if terms.price_step.is_none() {
        return money(amount, terms.minor_digits);
    }
    let amount = decimal(amount)?;
    let step = step_for(amount, terms)?;
    let mut rounded = in_steps(amount, step, RoundingStrategy::MidpointAwayFromZero)?;
    rounded.rescale(terms.minor_digits);
    Some(rounded)
}

/// The step that an amount is rounded to.
fn step_for(amount: Decimal, terms: &Terms) -> Option<Decimal> {
    let minor = Decimal::new(1, terms.minor_digits);
    let Some(mut step) = terms.price_step.and_then(decimal) else {
        return Some(minor);
    };
    let whole = |step: Decimal| step > minor && (step % minor).is_zero();
    while whole(step) && amount < step.checked_mul(LEAST_STEPS)? {
        step /= Decimal::TEN;
    }
    Some(if whole(step) { step } else { minor })
}

/// The whole number of steps that an amount comes to.
fn in_steps(amount: Decimal, step: Decimal, strategy: RoundingStrategy) -> Option<Decimal> {
    let steps = amount.checked_div(step)?;
    steps.round_dp_with_strategy(0, strategy).checked_mul(step)
}

/// A lot at a unit price that somebody set.
///
/// Formula: the unit price rounded half away from zero, then extended.
///
/// - `each`: price of one part [currency], any finite one.
/// - `quantity`: parts, 1 and up.
/// - `minor_digits`: digits after the point in the currency, 0 to 4 in ISO 4217.
///
/// Result: prices; `None` where the amount is not finite or beyond 28 digits.
///
/// ```
/// use quillbore_calc::price::price_set;
/// assert_eq!(price_set(19.0, 25, 2).unwrap().lot.to_string(), "475.00");
/// ```
///
/// Source: arithmetic.
#[must_use]
pub fn price_set(each: f64, quantity: u32, minor_digits: u32) -> Option<Priced> {
    extended(money(each, minor_digits)?, quantity, minor_digits, false)
}

/// An amount of money from a float: rounded half away from zero to the minor unit.
///
/// Formula: the float's 15 significant digits, so that 2.675 counts as typed and not as the binary
/// number just below it; then rounded once.
///
/// - `amount`: [currency], up to 1e15 either way; above that more than 15 digits of the float count.
/// - `minor_digits`: digits after the point (ISO 4217 minor unit), 0 to 4 there.
///
/// Result: money with that many digits after the point, or as many as leave no more than 29 digits in
/// all; `None` where it is not finite or beyond 28 digits before the point.
///
/// ```
/// use quillbore_calc::price::money;
/// assert_eq!(money(2.675, 2).unwrap().to_string(), "2.68");
/// assert_eq!(money(-0.5, 0).unwrap().to_string(), "-1");
/// ```
///
/// Source: ISO 4217 for the digits; the rule is the project's.
#[must_use]
pub fn money(amount: f64, minor_digits: u32) -> Option<Decimal> {
    let strategy = RoundingStrategy::MidpointAwayFromZero;
    let mut rounded = decimal(amount)?.round_dp_with_strategy(minor_digits, strategy);
    rounded.rescale(minor_digits);
    Some(rounded)
}

/// What the margin asks for a lot, before minimum charge and rounding.
///
/// Formula: `cost / (1 - margin)`.
///
/// - `lot_cost`: full cost of the lot [currency], 0 and up.
/// - `terms`: their margin [-], 0 to below 1.
///
/// Result: price [currency]; `None` for any other margin.
///
/// ```
/// use quillbore_calc::price::{Terms, lot_price};
/// let terms = Terms { margin: 0.3, minimum_charge: 500.0, minor_digits: 2, price_step: None };
/// assert!((lot_price(100.0, &terms).unwrap() - 142.857).abs() < 0.0005);
/// assert_eq!(lot_price(100.0, &Terms { margin: 1.0, ..terms }), None);
/// ```
///
/// Source: arithmetic.
#[must_use]
pub fn lot_price(lot_cost: f64, terms: &Terms) -> Option<f64> {
    let allowed = (0.0..1.0).contains(&terms.margin);
    allowed.then(|| lot_cost / (1.0 - terms.margin))
}

/// What a part's price comes to for each of its holes.
///
/// Formula: the price as it stands, over the holes, rounded half away from zero.
///
/// - `each`: price of one part as it is offered [currency].
/// - `holes`: holes in one part, 1 and up.
/// - `minor_digits`: decimals of the currency, 0 to 28.
///
/// Result: price of a hole [currency]; `None` without holes.
///
/// ```
/// use quillbore_calc::price::per_hole;
/// # let of = |text: &str| text.parse::<rust_decimal::Decimal>().unwrap();
/// assert_eq!(per_hole(of("67.50"), 12, 2), Some(of("5.63"))); // 5.625
/// assert_eq!(per_hole(of("67.50"), 0, 2), None);
/// ```
///
/// Source: arithmetic.
#[must_use]
pub fn per_hole(each: Decimal, holes: u32, minor_digits: u32) -> Option<Decimal> {
    let strategy = RoundingStrategy::MidpointAwayFromZero;
    let exact = each.checked_div(Decimal::from(holes))?;
    let mut rounded = exact.round_dp_with_strategy(minor_digits, strategy);
    rounded.rescale(minor_digits);
    Some(rounded)
}

fn extended(each: Decimal, quantity: u32, minor_digits: u32, minimum: bool) -> Option<Priced> {
    let mut each = each;
    each.rescale(minor_digits);
    let lot = each.checked_mul(Decimal::from(quantity))?;
    Some(Priced { each, lot, minimum })
}

fn decimal(amount: f64) -> Option<Decimal> {
    Decimal::try_from(amount).ok()
}
