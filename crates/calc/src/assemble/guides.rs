//! Guides of the offered lot: how many its holes wear out.

use alloc::collections::BTreeMap;
use alloc::vec::Vec;

use super::prepare::Prepared;
use crate::finding::{About, Finding, Kind, Level};
use crate::idx::Idx;
use crate::input::Ends;
use crate::job_figures::{GuideFigures, HoleFigures};
use crate::tables::Guide;

/// Guides of the offered lot; those that are short in the drawer are told.
pub(super) fn guide_figures(
    prepared: &Prepared<'_>,
    parts: u32,
    findings: &mut Vec<Finding>,
) -> Vec<GuideFigures> {
    let mut through: BTreeMap<Idx<Guide>, u64> = BTreeMap::new();
    for hole in &prepared.holes {
        if let Some(guide) = hole.guide {
            let ends = through.entry(guide).or_default();
            *ends = ends.saturating_add(ends_in_lot(hole, parts));
        }
    }
    let guides = &prepared.tables.guides;
    let known = through
        .into_iter()
        .filter_map(|(at, ends)| Some((at, ends, at.of(guides)?)));
    let mut figures = Vec::new();
    for (at, ends, guide) in known {
        let needed = guide.needed_for(ends);
        figures.push(GuideFigures {
            guide: at,
            ends,
            needed,
        });
        // One guide does for several small jobs, one after the other.
        let together = guide.needed_for(ends.saturating_add(guide.kept_ends));
        let short = guide.stock.filter(|&stock| stock < together);
        findings.extend(short.map(|stock| Finding {
            level: Level::Check,
            about: About::Job,
            kind: Kind::GuidesShort {
                guide: at,
                needed,
                together,
                stock,
            },
            remedy: None,
        }));
    }
    figures
}

/// Ends of a row's holes in a lot: each wears its guide as a hole does.
pub(super) fn ends_in_lot(hole: &HoleFigures, parts: u32) -> u64 {
    let ends = if hole.ends == Some(Ends::Both) { 2 } else { 1 };
    let holes = u64::from(hole.places) * u64::from(parts);
    holes.saturating_mul(ends)
}
