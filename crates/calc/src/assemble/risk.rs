//! The chance that the offered lot is sold below its cost, and what drives the cost's spread.

use alloc::vec::Vec;

use crate::job_figures::{Drivers, Risk, TestBurn};
use crate::spread::{Factor, Part, percentiles, sum_of_parts};

/// Numbers of holes that a test burn may have, none first, to be compared with (our choice, no source).
const TEST_BURNS: [u32; 3] = [0, 3, 10];

/// What the offered lot costs in one draw [currency].
#[derive(Clone, Copy)]
pub(super) struct DrawnCost {
    pub(super) full: f64,
    /// Without the machine's hours, which are there whether or not it runs.
    pub(super) paid_out: f64,
}

/// What the price of the offered lot risks; `None` until the lot was drawn.
///
/// `parts_after` gives what the cost is made of once so many holes were burned for a test.
pub(super) fn risk(
    drawn: &[DrawnCost],
    lot_price: f64,
    quantity: u32,
    parts_after: impl Fn(u32) -> [Part; 4],
) -> Option<Risk> {
    let count = drawn.len() as f64;
    let share = |is_loss: &dyn Fn(&DrawnCost) -> bool| {
        drawn.iter().filter(|cost| is_loss(cost)).count() as f64 / count
    };
    let full: Vec<f64> = drawn.iter().map(|cost| cost.full).collect();
    let tenth = percentiles(&full)?.p90;
    let test_burns = TEST_BURNS.map(|holes| {
        let (p10, p90) = sum_of_parts(&parts_after(holes));
        TestBurn { holes, p10, p90 }
    });
    Some(Risk {
        below_full_cost: share(&|cost| lot_price < cost.full),
        below_paid_out: share(&|cost| lot_price < cost.paid_out),
        lot_at_a_tenth: tenth,
        each_at_a_tenth: tenth / f64::from(quantity.max(1)),
        drivers: drivers(&full),
        test_burns,
    })
}

/// Shares of the cost's variance that go with each factor of the draw.
fn drivers(full: &[f64]) -> Drivers {
    let of = |factor: Factor| squared_correlation(full, &factor.deviates(full.len()));
    let (feed, wear) = (of(Factor::Feed), of(Factor::Wear));
    let handling = of(Factor::Handling);
    Drivers {
        burn: feed,
        wear,
        handling,
        rest: (1.0 - feed - wear - handling).max(0.0),
    }
}

fn squared_correlation(one: &[f64], other: &[f64]) -> f64 {
    let count = one.len() as f64;
    let mean = |values: &[f64]| values.iter().sum::<f64>() / count;
    let (of_one, of_other) = (mean(one), mean(other));
    let [mut both, mut ones, mut others] = [0.0; 3];
    for (a, b) in one.iter().zip(other) {
        let (a, b) = (a - of_one, b - of_other);
        both += a * b;
        ones += a * a;
        others += b * b;
    }
    if ones > 0.0 && others > 0.0 {
        both * both / (ones * others)
    } else {
        0.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_price_in_the_middle_of_ten_costs_loses_in_half_of_them() {
        let drawn: Vec<DrawnCost> = (1..=10)
            .map(|at| DrawnCost {
                full: f64::from(at) * 10.0,
                paid_out: f64::from(at) * 5.0,
            })
            .collect();
        let risk = risk(&drawn, 50.0, 4, |_| [(50.0, 0.0); 4]).unwrap();
        // 60 to 100 are above 50, and none of 5 to 50 is.
        assert_eq!((risk.below_full_cost, risk.below_paid_out), (0.5, 0.0));
        // Hazen: of ten values the ninetieth percentile lies half way from the ninth to the tenth.
        assert!((risk.lot_at_a_tenth - 95.0).abs() < 1e-9);
        assert!((risk.each_at_a_tenth - 23.75).abs() < 1e-9);
        assert_eq!(super::risk(&[], 50.0, 4, |_| [(50.0, 0.0); 4]), None);
    }
}
