//! Guides of the offered lot: how many its holes wear out.

use alloc::collections::BTreeMap;
use alloc::vec::Vec;

use super::electrodes::clamp;
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
        let needed = needed(ends, guide.life_holes);
        figures.push(GuideFigures {
            guide: at,
            ends,
            needed,
        });
        let short = guide.stock.filter(|&stock| stock < needed);
        findings.extend(short.map(|stock| Finding {
            level: Level::Check,
            about: About::Job,
            kind: Kind::GuidesShort {
                tube_mm: guide.tube_mm,
                needed,
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

/// Guides that so many ends wear out, the last one begun. Nothing is drilled without one; where nobody
/// knows how long one lasts, nobody can say that it takes more.
fn needed(ends: u64, life_holes: f64) -> u32 {
    if ends == 0 {
        return 0;
    }
    if life_holes > 0.0 {
        clamp(libm::ceil(ends as f64 / life_holes) as u64).max(1)
    } else {
        1
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_guide_lasts_its_life_and_the_last_one_is_begun() {
        // One hole begins one; 400 holes are one guide's life, 401 begin the second; 1,000 / 400 = 2.5.
        for (ends, life, guides) in [
            (1, 400.0, 1),
            (400, 400.0, 1),
            (401, 400.0, 2),
            (1_000, 400.0, 3),
            (0, 400.0, 0),
            // A life of less than a hole takes a new one in each: 3 / 0.5.
            (3, 0.5, 6),
            // A life that nobody knows.
            (1_000, 0.0, 1),
            (u64::MAX, 400.0, u32::MAX),
        ] {
            assert_eq!(needed(ends, life), guides, "{ends} ends, life {life}");
        }
    }
}
