//! Cautions at the end of the traveler.

use quillbore_calc::tables::Hazard;
use quillbore_job::{Field, Value};

use super::part::layer_materials;
use crate::matter::Matter;
use crate::page::mm;
use crate::typeset::flow::Flow;
use crate::typeset::look::{BODY, STRONG};
use crate::typeset::side::side;
use crate::typeset::wrap::Span;
use crate::words::cautions;

pub(super) fn set(matter: &Matter<'_>, flow: &mut Flow) {
    let of_job = match matter.job.field(Field::FlushPressure).value() {
        Some(Value::PressureBar(bar)) => *bar,
        _ => 0.0,
    };
    let pressure = matter.machine().map(|machine| {
        let most = machine.pressure_bar.max(of_job);
        cautions::pressure(
            &matter.form().fixed(most, 0),
            &matter.form().fixed(psi(most), 0),
        )
    });
    let mut list: Vec<(&str, String)> = dangers(matter)
        .into_iter()
        .map(|(hazard, names)| cautions::of(hazard, &names.join(", ")))
        .collect();
    list.extend(cautions::always(pressure.as_deref()));
    let own = &matter.issuer.cautions;
    flow.section(cautions::NAME, "", mm(40.0));
    flow.paragraph(&[Span::new(STRONG, cautions::FIRST)], 0.0);
    flow.take(mm(1.0));
    list.extend(
        own.iter()
            .map(|text| (cautions::IN_THIS_SHOP, text.clone())),
    );
    // No page holds but one of them.
    let (first, last) = list.split_at(list.len().saturating_sub(2));
    for (name, text) in first {
        side(flow, name, |flow| flow.text(BODY, text));
    }
    flow.together(|flow| {
        for (name, text) in last {
            side(flow, name, |flow| flow.text(BODY, text));
        }
    });
}

/// Each danger once, with the materials that bring it: the job's own, then those of layers.
fn dangers<'a>(matter: &Matter<'a>) -> Vec<(Hazard, Vec<&'a str>)> {
    let layers = layer_materials(matter).into_iter();
    let layers = layers.filter_map(|material| material.of(&matter.tables.materials));
    let mut found: Vec<(Hazard, Vec<&'a str>)> = Vec::new();
    for material in matter.material().into_iter().chain(layers) {
        for &hazard in &material.hazards {
            match found.iter_mut().find(|(known, _)| *known == hazard) {
                Some((_, names)) => names.push(&material.name),
                None => found.push((hazard, vec![&material.name])),
            }
        }
    }
    found
}

/// Pressure in pounds a square inch, to two figures, as gauges show it.
fn psi(bar: f64) -> f64 {
    // 1 bar = 100 kPa; 1 psi = 6.894757 kPa (NIST SP 811, appendix B.8).
    (bar * 100.0 / 6.894_757 / 10.0).round() * 10.0
}
