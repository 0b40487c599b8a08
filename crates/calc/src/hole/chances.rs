//! Chances of tubes against limits, worked out once for all rows that ask the same.

use alloc::collections::BTreeMap;
use alloc::rc::Rc;
use core::cell::RefCell;

use super::remembered::{MOST, remember};
use crate::job_figures::Chance;
use crate::quantity::Limits;
use crate::size::Sized;

/// Shares of holes, quantile by quantile of the lot's gap.
type Shares = Rc<[f64]>;

/// What was worked out so far, for tubes whose gap goes by their diameter alone.
#[derive(Clone, Debug, Default)]
pub(super) struct Chances {
    /// By diameter, limits and taper.
    known: RefCell<BTreeMap<(u64, [u64; 3]), Chance>>,
    /// By diameter and upper limit, quantile by quantile: rows of one size and many depths differ by
    /// their taper alone, and that moves the lower limit.
    below_upper: RefCell<BTreeMap<(u64, u64), Shares>>,
}

impl Chances {
    /// A tube's chance against these limits; see [`Sized::chance`].
    pub(super) fn of(&self, tube: &Sized, limits_mm: Limits, taper_mm: f64) -> Chance {
        let Limits { lower, upper } = limits_mm;
        let diameter = tube.tube_mm.to_bits();
        let asked = (diameter, [lower, upper, taper_mm].map(f64::to_bits));
        if let Some(known) = self.known.borrow().get(&asked) {
            return *known;
        }
        let mut all = self.below_upper.borrow_mut();
        let of_upper = (diameter, upper.to_bits());
        let below_upper = all.get(&of_upper).cloned().unwrap_or_else(|| {
            let shares: Shares = tube.below(upper).collect();
            remember(&mut all, MOST, of_upper, Rc::clone(&shares));
            shares
        });
        let chance = tube.chance_by(&below_upper, lower + taper_mm);
        // Few rows later nobody asks for the same: by then their choice is remembered as a whole.
        let mut known = self.known.borrow_mut();
        remember(&mut known, MOST, asked, chance);
        chance
    }
}
