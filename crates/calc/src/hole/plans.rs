//! Plans worked out once for all rows that ask the same.

use alloc::collections::BTreeMap;
use alloc::rc::Rc;
use alloc::vec::Vec;
use core::cell::RefCell;

use super::planned::Plan;
use super::remembered::{MOST, remember};
use crate::input::RowInput;
use crate::quantity::Limits;
use crate::surface::Surface;

/// Plans of rows of which nothing was overruled, by what tells most rows apart.
#[derive(Clone, Debug, Default)]
pub(super) struct Plans(RefCell<BTreeMap<[u64; 5], Vec<Known>>>);

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
            let mut kept = self.0.borrow_mut();
            match kept.get_mut(&key) {
                Some(alike) => alike.push(known),
                None => remember(&mut kept, MOST, key, alloc::vec![known]),
            }
            plan
        })
    }
}

fn key(row: &RowInput) -> [u64; 5] {
    let Limits { lower, upper } = row.limits_mm.unwrap_or_default();
    let [lower, upper, depth, tilt] =
        [lower, upper, row.depth_mm.unwrap_or_default(), row.tilt_deg].map(f64::to_bits);
    [lower, upper, depth, tilt, rest(row)]
}

/// A number of what else may differ in every one of many rows, where all of the above is alike
/// (FNV-1a, by words).
fn rest(row: &RowInput) -> u64 {
    let depth = row.depth_limits_mm.iter();
    let depth = depth.flat_map(|limits| [limits.lower, limits.upper]);
    let layers = row.layers.iter().map(|layer| layer.thickness_mm);
    // The others of a row's places hardly matter where the first is alike.
    let place = row.places.first().into_iter();
    let place = place.flat_map(|place| place.point_mm.into_iter().chain(place.axis));
    let lengths = row.behind_mm.into_iter().chain(depth).chain(layers);
    let surfaces = [Some(row.surface), row.exit.map(|exit| exit.surface)];
    let surfaces = surfaces.into_iter().flatten().flat_map(Surface::lengths_mm);
    let counts = [row.count, row.dress_every.unwrap_or_default()];
    let words = lengths.chain(place).chain(surfaces).map(f64::to_bits);
    let words = words.chain(counts.map(u64::from));
    words.fold(0xcbf2_9ce4_8422_2325, |number, word| {
        (number ^ word).wrapping_mul(0x0100_0000_01b3)
    })
}
