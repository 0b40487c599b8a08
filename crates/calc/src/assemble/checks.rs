//! What is missing of a job, and whether its part fits its machine.

use alloc::vec::Vec;

use super::prepare::Prepared;
use crate::finding::{About, Finding, Kind, Level, Remedy};
use crate::idx::Idx;
use crate::input::{JobInput, Rest};
use crate::tables::Machine;

/// What a part rests on may be larger than it by so much [mm]: sizes are typed rounded.
const SLACK_MM: f64 = 0.5;

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
        if let Some(bar) = input.pressure_bar.filter(|bar| *bar > machine.pressure_bar) {
            let kind = Kind::PressureAbovePump {
                bar,
                pump_bar: machine.pressure_bar,
            };
            say(Level::Check, About::Job, kind, None);
        }
        if rests_on_more(input) {
            say(Level::Check, About::Job, Kind::RestsOnMore, None);
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
    findings
}

/// Whether a part is said to rest on more than any of its faces has.
fn rests_on_more(input: &JobInput) -> bool {
    let (Some(mut part), Some(rests_on)) = (input.part_mm, input.rests_on) else {
        return false;
    };
    part.sort_by(f64::total_cmp);
    let [_, shorter, longer] = part;
    match rests_on {
        Rest::Face => false,
        Rest::Rectangle([one, other]) => {
            one.min(other) > shorter + SLACK_MM || one.max(other) > longer + SLACK_MM
        }
        Rest::Ring(across) => across > longer + SLACK_MM,
    }
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
