//! The linear program over all patterns, by column generation (Gilmore and Gomory 1961 «memory»).

use alloc::vec::Vec;

use super::{
    ascent::ascend,
    basis::Basis,
    farley::Farley,
    first_fit::needed,
    group::Group,
    lot::Lot,
    pattern::most_valuable,
    worth::{ONE, worth},
};
use crate::stop::Stop;

/// Gain below which a new column is not worth a pivot.
const GAIN: i64 = ONE / 1_000_000;
/// Sets looked at for a column, on average, at most.
const WORK: u64 = 50_000;
/// How far values are drawn to the best ones known, first, after one doubt, after two.
const PULLS: [f64; 3] = [0.8, 0.4, 0.0];

/// What the program tells.
pub(super) struct Columns {
    /// No plan takes fewer new electrodes.
    pub(super) at_least: u64,
    /// Patterns of the last basis with how often each is used: holes per item, a fraction of
    /// electrodes.
    pub(super) patterns: Vec<(Vec<u64>, f64)>,
}

/// Starts from a plan and ascended values, runs at most `budget` columns, and ends early when the
/// bound meets the plan; none where it is stopped.
///
/// The duals jump about at first, so patterns are priced between them and the values with the best
/// bound so far (smoothing after Wentges 1997 «memory»); where that finds no gain it is tried
/// closer to the duals, at last on them alone. Then no gain means the end.
pub(super) fn generate(lot: &Lot, plan: &[Group], budget: u32, stop: Stop<'_>) -> Option<Columns> {
    let mut work = u64::from(budget) * WORK;
    // The simplex is to have its half.
    let mut half = work / 2;
    let ascent = ascend(lot, budget, needed(plan), &mut half, stop)?;
    work = work / 2 + half;
    let mut at_least = ascent.at_least;
    let Some(mut basis) = Basis::new(lot).filter(|_| at_least < needed(plan)) else {
        return Some(Columns {
            at_least,
            patterns: Vec::new(),
        });
    };
    basis.enter_plan(lot, plan);
    let (mut center, mut best_bound) = (ascent.values, ascent.bound);
    let mut doubts = 0;
    for _ in 0..budget {
        if stop() {
            return None;
        }
        let duals = basis.values(lot.items.len());
        let pull = PULLS[doubts];
        let values = between(&center, &duals, pull);
        // On the duals alone a column is worth one; less what it may leave out, a little more.
        let known = if pull > 0.0 {
            basis.best_value(&values)
        } else {
            ONE
        };
        let Some(priced) = most_valuable(lot, lot.full, &values, known, &mut work) else {
            break;
        };
        let bound = Farley::new(lot, &values, priced.most, &mut work);
        at_least = at_least.max(bound.rounded_up());
        if at_least >= needed(plan) {
            break;
        }
        if bound.value() > best_bound {
            (center, best_bound) = (values, bound.value());
        }
        let gains = |pattern: &Vec<u64>| worth(pattern, &duals) > ONE + GAIN;
        match priced.pattern.filter(gains) {
            Some(pattern) if basis.enter(&pattern) => doubts = 0,
            _ if doubts + 1 < PULLS.len() => doubts += 1,
            _ => break,
        }
    }
    Some(Columns {
        at_least,
        patterns: basis.amounts(),
    })
}

/// Values so far from the duals towards the center.
fn between(center: &[i64], duals: &[i64], pull: f64) -> Vec<i64> {
    let pairs = center.iter().zip(duals);
    pairs
        .map(|(&center, &dual)| dual + (pull * (center - dual) as f64) as i64)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::super::first_fit::best_of_all;
    use super::super::samples::lot;
    use super::*;
    use crate::stop::never;

    /// Four fifths of the way from 20 to 10 are 12, from 10 to 20 they are 18.
    #[test]
    fn values_are_drawn_toward_the_center() {
        assert_eq!(between(&[10, 20], &[20, 10], 0.8), [12, 18]);
        assert_eq!(between(&[10, 20], &[20, 10], 0.0), [20, 10]);
    }

    /// A program solved by hand: of 51, 27, 26 and 23 on 100 electrodes are filled to the end by 51 + 26 + 23
    /// and by twice 27 + 23, so that 6, 6, 6 and 12 of them take 9; the hardest first takes 11.
    #[test]
    fn patterns_come_to_the_least() {
        let lot = lot(
            100,
            None,
            &[(0, 51, 6), (0, 27, 6), (0, 26, 6), (0, 23, 12)],
        );
        let plan = best_of_all(&lot);
        assert_eq!(needed(&plan), 11);
        let Some(found) = generate(&lot, &plan, 500, &never) else {
            panic!("nobody stopped it");
        };
        assert_eq!(found.at_least, 9);
        let used: f64 = found.patterns.iter().map(|(_, amount)| amount).sum();
        assert!((used - 9.0).abs() < 1e-6, "{used}");
        for (at, item) in lot.items.iter().enumerate() {
            let patterns = found.patterns.iter();
            let drilled: f64 = patterns.map(|(set, amount)| set[at] as f64 * amount).sum();
            assert!(
                (drilled - item.count as f64).abs() < 1e-6,
                "{at}: {drilled}"
            );
        }
    }
}
