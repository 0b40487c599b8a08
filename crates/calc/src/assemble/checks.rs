//! What is missing of a job, and whether its part fits its machine.

use alloc::collections::BTreeSet;
use alloc::vec::Vec;

use super::prepare::Prepared;
use crate::finding::{About, Finding, Kind, Level, Remedy};
use crate::idx::Idx;
use crate::input::{Place, RowInput};
use crate::outline::{Mouth, outline};
use crate::tables::Machine;

/// Findings about the job as a whole.
pub(super) fn checks(prepared: &Prepared<'_>) -> Vec<Finding> {
    let (input, tables) = (prepared.input, prepared.tables);
    let mut findings = Vec::new();
    let mut say = |level, about, kind, remedy| {
        findings.push(Finding {
            level,
            about,
            kind,
            remedy,
        });
    };
    let material = input.material.and_then(|at| at.of(&tables.materials));
    // Where every row is layered the layers are the material.
    let layered = !input.rows.is_empty() && input.rows.iter().all(|row| !row.layers.is_empty());
    if material.is_none() && !layered {
        say(Level::Stop, About::Job, Kind::MaterialMissing, None);
    }
    if prepared.machine.is_none() {
        say(Level::Stop, About::Job, Kind::MachineMissing, None);
    }
    if input.quantity.is_none_or(|quantity| quantity == 0) {
        say(Level::Stop, About::Job, Kind::QuantityMissing, None);
    }
    if input.part_value.is_none() {
        say(Level::Note, About::Price, Kind::PartValueUnknown, None);
    }
    if let Some(machine) = prepared.machine {
        if input.part_mm.is_none() || input.mass_kg.is_none() {
            say(Level::Note, About::Job, Kind::PartSizeUnknown, None);
        }
        // A machine that takes the part in size and in mass, where this one does not.
        let other = || {
            let takes = |machine: &Machine| {
                input.part_mm.is_none_or(|part| fits(part, machine.part_mm))
                    && input.mass_kg.is_none_or(|mass| mass <= machine.mass_kg)
            };
            Idx::find(&tables.machines, takes).map(Remedy::UseMachine)
        };
        if let Some(part_mm) = input.part_mm.filter(|&part| !fits(part, machine.part_mm)) {
            let kind = Kind::PartTooLarge {
                part_mm,
                machine_mm: machine.part_mm,
            };
            say(Level::Stop, About::Job, kind, other());
        }
        if let Some(mass_kg) = input.mass_kg.filter(|&mass| mass > machine.mass_kg) {
            let kind = Kind::PartTooHeavy {
                mass_kg,
                machine_kg: machine.mass_kg,
            };
            say(Level::Stop, About::Job, kind, other());
        }
    }
    findings.extend(places(prepared));
    findings
}

/// Locations that can't be as they are typed: outside of the part, or on each other.
fn places(prepared: &Prepared<'_>) -> Vec<Finding> {
    let input = prepared.input;
    let check = |about, kind| Finding {
        level: Level::Check,
        about,
        kind,
        remedy: None,
    };
    let mut findings = Vec::new();
    for row in &input.rows {
        let places = alike(&row.places);
        if places > 0 {
            findings.push(check(About::Row(row.id), Kind::PlacesAlike { places }));
        }
    }
    let Some(size_mm) = input.part_mm else {
        return findings;
    };
    let mouths_of = |row: &RowInput| -> Vec<Mouth> {
        let places = row.places.iter();
        places.map(Mouth::of).collect()
    };
    let lies_on = |mouths: &[Mouth]| mouths.is_empty() || outline(size_mm, None, mouths).is_some();
    let (mut all, mut is_out) = (Vec::new(), false);
    for row in &input.rows {
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

/// Whether a part fits in any position square to the machine's axes.
fn fits(part: [f64; 3], machine: [f64; 3]) -> bool {
    let sorted = |mut sides: [f64; 3]| {
        sides.sort_by(f64::total_cmp);
        sides
    };
    let pairs = sorted(part).into_iter().zip(sorted(machine));
    pairs.into_iter().all(|(part, machine)| part <= machine)
}
