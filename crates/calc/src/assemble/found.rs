//! What was found of a job's questions: the settled answers, else a first plan, else quick bounds.

use alloc::vec::Vec;

use super::answers::Answers;
use super::draws::DrawnLot;
use super::packing::Packing;
use super::prepare::Prepared;
use crate::packing::Packed;

/// What is known of a job's searches and draws.
pub(super) struct Found<'a> {
    /// Orders that were searched, clamping by clamping, run by run.
    pub(super) orders: Vec<Vec<Option<&'a [u32]>>>,
    /// In the order of the job's tubes.
    pub(super) tubes: Vec<OfTube<'a>>,
    /// The draws of the offered lot.
    pub(super) draws: &'a [DrawnLot],
    /// Everything that was asked is here.
    pub(super) settled: bool,
}

/// What is known of a tube's packings.
pub(super) struct OfTube<'a> {
    /// Plan of the offered lot.
    pub(super) plan: Option<&'a Packed>,
    /// Electrodes of the kit at high wear, shared ones.
    pub(super) kit: Option<u64>,
    /// Shared electrodes of each quantity; the bound where nothing was packed.
    pub(super) shared: Vec<u64>,
}

impl<'a> Found<'a> {
    /// What these answers know of a job.
    pub(super) fn of(prepared: &Prepared<'_>, answers: &'a Answers) -> Self {
        let mut settled = true;
        let ready = prepared.ready.as_ref();
        // Until the lot is ready nothing is asked.
        let asked = ready.map_or(&[][..], |_| &prepared.clamped.orders);
        let orders = asked.iter().map(|runs| {
            let of_run = |run: &Option<_>| {
                let order = run.as_ref().map(|asked| answers.order(asked));
                settled &= order.is_none_or(|order| order.is_some());
                order.flatten()
            };
            runs.iter().map(of_run).collect()
        });
        let orders = orders.collect();
        let mut packed = |packing: &Packing| {
            let known = answers.packing(packing.settled());
            settled &= known.is_some();
            known.or_else(|| answers.packing(&packing.first))
        };
        let mut tubes = Vec::new();
        for tube in ready.iter().flat_map(|ready| ready.tubes.iter()) {
            let kit = tube
                .offered
                .as_ref()
                .and_then(|offered| packed(&offered.kit).map(|found| offered.kit.shared(found)));
            let plans: Vec<Option<&Packed>> = tube
                .quantities
                .iter()
                .map(|of| packed(&of.packing))
                .collect();
            let shared = tube.quantities.iter().zip(&plans).map(|(of, plan)| {
                let packing = &of.packing;
                plan.map_or(packing.bound, |found| packing.shared(found))
            });
            tubes.push(OfTube {
                kit,
                shared: shared.collect(),
                plan: plans.first().copied().flatten(),
            });
        }
        let asked = ready.and_then(|ready| ready.draw.as_ref());
        let draws = asked.map(|asked| answers.draw(asked));
        settled &= draws.is_none_or(|draws| draws.is_some());
        Self {
            orders,
            tubes,
            draws: draws.flatten().unwrap_or_default(),
            settled,
        }
    }
}
