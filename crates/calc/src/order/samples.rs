//! Points that the tests of the hole order work on.

use alloc::vec::Vec;

use crate::dice::Dice;

/// Strewn, in a row either way, on one another, strewn within a millimeter, in clusters.
pub(super) fn samples() -> Vec<Vec<[f64; 2]>> {
    let mut dice = Dice::new(3);
    let mut below = move |most: usize| dice.below(most) as f64;
    let mut samples = Vec::new();
    for holes in [1, 2, 3, 7, 40, 150] {
        samples.push((0..holes).map(|_| [below(100), below(60)]).collect());
        samples.push((0..holes).map(|_| [below(1000) / 10.0, 5.0]).collect());
        samples.push((0..holes).map(|_| [-7.0, below(1000)]).collect());
        samples.push(alloc::vec![[2.0, 3.0]; holes]);
        let strewn = |_| [below(100) / 900.0, below(60) / 900.0 - 4.0];
        samples.push((0..holes).map(strewn).collect());
        let cluster = |at: usize| if at.is_multiple_of(2) { 0.0 } else { 500.0 };
        samples.push(
            (0..holes)
                .map(|at| [cluster(at) + below(9), cluster(at) - below(5)])
                .collect(),
        );
    }
    samples
}
