//! From the spread of a lot's cost to the range of its price that is said.

use quillbore_calc::price::{Priced, Terms, price};
use quillbore_calc::{JobFigures, Tables};
use rust_decimal::{Decimal, RoundingStrategy};

/// Digits in which a range is said.
const DIGITS: u32 = 2;

/// The range of a price that is said by telephone.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct QuickRange {
    /// Parts in the lot.
    pub quantity: u32,
    /// Price of one part, from and to.
    pub each: [Decimal; 2],
    /// Price of the lot, from and to.
    pub lot: [Decimal; 2],
    /// What the shop's minimum charge has to do with it.
    pub minimum: Minimum,
    /// Machine hours of the lot, from and to [h].
    pub hours: [f64; 2],
}

/// What a minimum charge has to do with a range.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Minimum {
    /// Nothing: the range lies above it.
    Exceeded,
    /// The range begins with it.
    Begins,
    /// It is all there is.
    Decides,
}

/// A range to the last digit.
#[derive(Clone, Copy)]
struct Exact {
    low: Priced,
    high: Priced,
    hours: [f64; 2],
}

impl QuickRange {
    /// The range that figures of one quantity come to, of one material or of several; `None` where one
    /// of them has no price.
    #[must_use]
    pub fn of(figures: &[JobFigures], tables: &Tables) -> Option<Self> {
        let first = figures.first()?;
        let quantity = first.lot.as_ref()?.quantity;
        let terms = Terms {
            margin: first.price.as_ref()?.margin,
            minimum_charge: tables.rates.minimum_charge,
            minor_digits: tables.rates.minor_digits,
            price_step: tables.rates.price_step,
        };
        let exact = figures.iter().map(|of| Exact::of(of, quantity, &terms));
        let exact: Vec<Exact> = exact.collect::<Option<_>>()?;
        let exact = exact.into_iter().reduce(Exact::widened)?;
        exact.rounded(quantity, &price(0.0, quantity, &terms)?)
    }
}

impl Exact {
    /// The range from the cost that one lot in ten stays under to the one that one in ten goes beyond.
    fn of(figures: &JobFigures, quantity: u32, terms: &Terms) -> Option<Self> {
        let (prices, lot) = figures.price.as_ref().zip(figures.lot.as_ref())?;
        let (cost, expected) = (prices.lot_cost, prices.expected_cost);
        // A first tube that is not right is in the expected cost alone: where records have narrowed the
        // rest it may lie outside.
        Some(Self {
            low: price(cost.p10.min(expected), quantity, terms)?,
            high: price(cost.p90.max(expected), quantity, terms)?,
            hours: [lot.machine_hours.p10, lot.machine_hours.p90],
        })
    }

    /// The range that holds this one and another.
    fn widened(self, other: Self) -> Self {
        let is_lower = other.low.lot < self.low.lot;
        let is_higher = other.high.lot > self.high.lot;
        Self {
            low: if is_lower { other.low } else { self.low },
            high: if is_higher { other.high } else { self.high },
            hours: [
                self.hours[0].min(other.hours[0]),
                self.hours[1].max(other.hours[1]),
            ],
        }
    }

    /// The range in the digits that are said, outward, so that it still holds all that it held, but
    /// never below the least that a lot is sold for.
    fn rounded(self, quantity: u32, least: &Priced) -> Option<QuickRange> {
        let Self { low, high, hours } = self;
        let said = |each, lot, minimum| QuickRange {
            quantity,
            each,
            lot,
            minimum,
            hours,
        };
        if high.minimum {
            let both = |of: fn(&Priced) -> Decimal| [of(&low), of(&high)];
            let (each, lot) = (both(|at| at.each), both(|at| at.lot));
            return Some(said(each, lot, Minimum::Decides));
        }
        let down =
            |amount: Decimal| amount.round_sf_with_strategy(DIGITS, RoundingStrategy::ToZero);
        let up =
            |amount: Decimal| amount.round_sf_with_strategy(DIGITS, RoundingStrategy::AwayFromZero);
        let begins = low.minimum || down(low.lot)? < least.lot;
        let (each, lot, minimum) = if begins {
            (least.each, least.lot, Minimum::Begins)
        } else {
            (down(low.each)?, down(low.lot)?, Minimum::Exceeded)
        };
        Some(said([each, up(high.each)?], [lot, up(high.lot)?], minimum))
    }
}
