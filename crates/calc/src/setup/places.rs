//! Locations that can't be as they are typed: outside of the part, or on each other.

use alloc::collections::BTreeSet;
use alloc::vec::Vec;

use super::layout::{Layout, LayoutRow};
use crate::finding::{About, Finding, Kind, Level};
use crate::input::Place;
use crate::outline::{Mouth, outline};

/// What is said of the locations of a layout.
pub(super) fn said_of_places(layout: &Layout) -> Vec<Finding> {
    let check = |about, kind| Finding {
        level: Level::Check,
        about,
        kind,
        remedy: None,
    };
    let mut findings = Vec::new();
    for row in &layout.rows {
        let places = alike(&row.places);
        if places > 0 {
            findings.push(check(About::Row(row.id), Kind::PlacesAlike { places }));
        }
    }
    let Some(size_mm) = layout.part_mm else {
        return findings;
    };
    let mouths_of = |row: &LayoutRow| -> Vec<Mouth> {
        let places = row.places.iter();
        places.map(Mouth::of).collect()
    };
    let lies_on = |mouths: &[Mouth]| mouths.is_empty() || outline(size_mm, None, mouths).is_some();
    let (mut all, mut is_out) = (Vec::new(), false);
    for row in &layout.rows {
        let mouths = mouths_of(row);
        if !lies_on(&mouths) {
            is_out = true;
            let kind = Kind::OutsidePart { together: false };
            findings.push(check(About::Row(row.id), kind));
        }
        all.extend(mouths);
    }
    if !is_out && !lies_on(&all) {
        let kind = Kind::OutsidePart { together: true };
        findings.push(check(About::Job, kind));
    }
    findings
}

/// Places that are those of others before them, to a hundredth.
fn alike(places: &[Place]) -> u32 {
    let key = |place: &Place| {
        let rounded =
            |values: [f64; 3], steps: f64| values.map(|value| libm::round(value * steps) as i64);
        (rounded(place.point_mm, 100.0), rounded(place.axis, 1_000.0))
    };
    let known: BTreeSet<_> = places.iter().map(key).collect();
    u32::try_from(places.len() - known.len()).unwrap_or(u32::MAX)
}
