//! The tubes of a lot, and what each quantity asks of them; a tube whose rows are the same as before
//! is taken as it was.

use alloc::collections::BTreeMap;
use alloc::sync::Arc;
use alloc::vec::Vec;

use super::lengths::same;
use super::mean::at_quantiles;
use super::packing::Packing;
use super::rows::{Drilled, Planned};
use super::tube::{TubeDrawn, TubeLot};
use crate::idx::Idx;
use crate::tables::{Tables, Tube};

/// A tube of the lot.
pub(super) struct LotTube {
    pub(super) lot: Arc<TubeLot>,
    /// Where each of its rows stands among the job's.
    pub(super) places: Vec<usize>,
    /// What the offered lot asks for at high wear.
    pub(super) offered: Option<Arc<Offered>>,
    /// What each quantity asks, the offered one first.
    pub(super) quantities: Vec<Arc<OfQuantity>>,
}

/// What the offered lot alone asks of a tube.
pub(super) struct Offered {
    parts: u32,
    /// At the ninetieth percentile of wear.
    pub(super) kit: Packing,
}

/// What a quantity asks of a tube.
pub(super) struct OfQuantity {
    parts: u32,
    /// At the median wear.
    pub(super) packing: Packing,
    /// At each quantile of the wear.
    pub(super) mean: Vec<TubeDrawn>,
}

/// The tubes of a job as they were asked for.
#[derive(Default)]
pub(super) struct KeptTubes(Arc<[LotTube]>);

impl KeptTubes {
    /// The tubes of these rows, in the table's order, for these quantities.
    pub(super) fn plan(
        &mut self,
        rows: &[Planned],
        quantities: &[u32],
        tables: &Tables,
    ) -> Arc<[LotTube]> {
        let mut by_tube: BTreeMap<Idx<Tube>, Vec<usize>> = BTreeMap::new();
        for (at, row) in rows.iter().enumerate() {
            if let Some(drilled) = &row.drilled {
                by_tube.entry(drilled.tube).or_default().push(at);
            }
        }
        let tubes = by_tube.into_iter().map(|(index, places)| {
            let drilled = || places.iter().filter_map(|&at| rows[at].drilled.as_ref());
            let mut before = self.0.iter();
            let known =
                before.find(|tube| tube.lot.tube == index && same(&tube.lot.rows, drilled()));
            match known {
                Some(known) => known.for_quantities(quantities, places),
                None => {
                    let drilled: Vec<Arc<Drilled>> = drilled().cloned().collect();
                    let tube = LotTube {
                        lot: Arc::new(TubeLot::new(index, drilled, tables)),
                        places: Vec::new(),
                        offered: None,
                        quantities: Vec::new(),
                    };
                    tube.for_quantities(quantities, places)
                }
            }
        });
        let tubes: Arc<[LotTube]> = tubes.collect();
        self.0 = Arc::clone(&tubes);
        tubes
    }
}

impl LotTube {
    /// The same tube for these quantities; those that it was asked before are taken as they were.
    fn for_quantities(&self, quantities: &[u32], places: Vec<usize>) -> Self {
        let lot = &self.lot;
        let offered = quantities.first().map(|&parts| {
            let known = self.offered.as_ref().filter(|known| known.parts == parts);
            known.cloned().unwrap_or_else(|| {
                Arc::new(Offered {
                    parts,
                    kit: Packing::new(&lot.high, lot.usable_mm, parts, true),
                })
            })
        });
        let of_quantity = |&parts: &u32| {
            let known = self.quantities.iter().find(|known| known.parts == parts);
            known.cloned().unwrap_or_else(|| {
                Arc::new(OfQuantity {
                    parts,
                    packing: Packing::new(&lot.median, lot.usable_mm, parts, false),
                    mean: at_quantiles(lot, parts),
                })
            })
        };
        Self {
            lot: Arc::clone(lot),
            places,
            offered,
            quantities: quantities.iter().map(of_quantity).collect(),
        }
    }
}
