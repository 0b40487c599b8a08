//! Clampings of a job and the orders in them that are worth a search; a layout that is the same as
//! before is taken as it was.

use alloc::sync::Arc;
use alloc::vec::Vec;

use super::travel::{OrderQuestion, SEARCHED_FROM};
use crate::setup::{Layout, Run, Setups, clamp};

/// Clampings, and the orders in them.
#[derive(Default)]
pub(super) struct Clamped {
    pub(super) setups: Setups,
    /// Orders that are worth a search, clamping by clamping, run by run.
    pub(super) orders: Vec<Vec<Option<OrderQuestion>>>,
}

/// The clampings of a layout.
#[derive(Default)]
pub(super) struct KeptClamped {
    layout: Layout,
    clamped: Arc<Clamped>,
}

impl KeptClamped {
    /// The clampings of this layout.
    pub(super) fn plan(&mut self, layout: Layout) -> Arc<Clamped> {
        if self.layout != layout {
            let setups = clamp(&layout);
            *self = Self {
                layout,
                clamped: Arc::new(Clamped {
                    orders: orders(&setups),
                    setups,
                }),
            };
        }
        Arc::clone(&self.clamped)
    }
}

fn orders(setups: &Setups) -> Vec<Vec<Option<OrderQuestion>>> {
    let searched = |run: &&Run| run.points.len() >= SEARCHED_FROM;
    let runs = setups.runs.iter().flatten().filter(searched);
    let all = runs.map(|run| run.points.len()).sum();
    let of_run = |run: &Run| searched(&run).then(|| OrderQuestion::new(&run.points, all));
    let of_clamping = |runs: &Vec<Run>| runs.iter().map(of_run).collect();
    setups.runs.iter().map(of_clamping).collect()
}
