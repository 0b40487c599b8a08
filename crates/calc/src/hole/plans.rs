//! Plans worked out once for all rows that ask the same.

use alloc::collections::BTreeMap;
use alloc::rc::Rc;
use alloc::vec::Vec;
use core::cell::RefCell;

use super::planned::Plan;
use crate::input::RowInput;
use crate::quantity::Limits;

/// Plans of rows of which nothing was overruled, by what tells most rows apart.
#[derive(Clone, Debug, Default)]
pub(super) struct Plans(RefCell<BTreeMap<[u64; 4], Vec<Known>>>);

#[derive(Clone, Debug)]
struct Known {
    row: RowInput,
    plan: Rc<Plan>,
}

impl Plans {
    /// The plan of a row that asks the same, or what `plan` makes of this one.
    pub(super) fn of(&self, row: &RowInput, plan: impl FnOnce() -> Plan) -> Rc<Plan> {
        let key = key(row);
        let known = self.0.borrow().get(&key).and_then(|alike| {
            let known = alike.iter().find(|known| known.row.asks_as(row))?;
            Some(Rc::clone(&known.plan))
        });
        known.unwrap_or_else(|| {
            let plan = Rc::new(plan());
            let known = Known {
                row: row.clone(),
                plan: Rc::clone(&plan),
            };
            self.0.borrow_mut().entry(key).or_default().push(known);
            plan
        })
    }
}

fn key(row: &RowInput) -> [u64; 4] {
    let Limits { lower, upper } = row.limits_mm.unwrap_or_default();
    [lower, upper, row.depth_mm.unwrap_or_default(), row.tilt_deg].map(f64::to_bits)
}
