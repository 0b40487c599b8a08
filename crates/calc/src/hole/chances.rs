//! Chances of tubes against limits, worked out once for all rows that ask the same.

use alloc::collections::BTreeMap;
use alloc::rc::Rc;
use core::cell::RefCell;

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
        let below_upper = all
            .entry((diameter, upper.to_bits()))
            .or_insert_with(|| tube.below(upper).collect());
        let chance = tube.chance_by(below_upper, lower + taper_mm);
        self.known.borrow_mut().insert(asked, chance);
        chance
    }
}
