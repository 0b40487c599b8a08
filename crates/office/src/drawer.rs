//! What lies in the drawer by now: what was counted, less what was used since, and what is kept for
//! released travelers.

use std::collections::BTreeMap;

use quillbore_job::Shop;
use quillbore_job::drawer::{Drawn, Used};
use quillbore_job::same_name::same_name;

use crate::names::JobKey;
use crate::pool::Pool;

/// A used electrode that is shorter than a new one by this share was no new one: a piece left of another
/// run was taken.
const STUB: f64 = 0.9;

/// What lies of one electrode.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct InDrawer {
    /// How many were counted; none where nobody counted.
    pub counted: Option<u32>,
    /// How many new ones run records used up since.
    pub used: u32,
    /// How many are kept for jobs on the floor.
    pub reserved: u32,
}

impl InDrawer {
    /// How many are free; below zero where more is promised than lies there. None where nobody counted.
    #[must_use]
    pub fn free(&self) -> Option<i64> {
        let left = i64::from(self.counted?) - i64::from(self.used);
        Some(left - i64::from(self.reserved))
    }

    /// Whether more is promised than lies there.
    #[must_use]
    pub fn is_short(&self) -> bool {
        self.free().is_some_and(|free| free < 0)
    }
}

/// What lies in the drawer by the names of electrodes, as far as anything is known of one; what `but` itself
/// keeps doesn't count, so that a job's own kit is not held against it.
///
/// What was used on the day of the count is taken to be counted already.
#[must_use]
pub fn drawer(shop: &Shop, pool: &Pool, but: Option<&JobKey>) -> BTreeMap<String, InDrawer> {
    let tubes = shop.tables.tubes.iter();
    let counted = tubes.filter(|tube| tube.stock.is_some());
    let mut all: BTreeMap<String, InDrawer> = counted
        .map(|tube| {
            let counted = tube.stock;
            let lies = InDrawer {
                counted,
                ..InDrawer::default()
            };
            (tube.name.clone(), lies)
        })
        .collect();
    for (key, drawn) in pool.drawn() {
        let Some(tube) = shop
            .tables
            .tubes
            .iter()
            .find(|tube| same_name(&tube.name, &drawn.electrode))
        else {
            continue;
        };
        let lies = all.entry(tube.name.clone()).or_default();
        lies.used = lies
            .used
            .saturating_add(used_since(shop, &tube.name, tube.length_mm, drawn));
        if Some(key) != but {
            lies.reserved = lies.reserved.saturating_add(drawn.reserved);
        }
    }
    all
}

/// New ones used up after the count.
fn used_since(shop: &Shop, name: &str, new_mm: f64, drawn: &Drawn) -> u32 {
    let counted = shop.counted.get(name);
    let is_since = |used: &&Used| match (used.date, counted) {
        (Some(date), Some(counted)) => date > *counted,
        // Without both days nobody can say that it was counted before.
        _ => false,
    };
    let new_ones = drawn.used.iter().filter(is_since).map(|used| {
        let is_stub = used.before_mm.is_some_and(|before| before < new_mm * STUB);
        used.count - u32::from(is_stub && used.count > 0)
    });
    new_ones.fold(0, u32::saturating_add)
}

/// Puts what is free in the place of what was counted by `as_counted`: what a lot's kit is held against.
pub fn put_free(shop: &mut Shop, as_counted: &Shop, pool: &Pool, but: Option<&JobKey>) {
    let lies = drawer(as_counted, pool, but);
    for tube in &mut shop.tables.tubes {
        let free = lies.get(&tube.name).and_then(InDrawer::free);
        if let Some(free) = free {
            tube.stock = Some(u32::try_from(free).unwrap_or(0));
        }
    }
}
