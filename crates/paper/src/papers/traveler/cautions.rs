//! Cautions at the end of the traveler.

use quillbore_calc::tables::Hazard;
use quillbore_job::{Field, Unit, Value};

use super::part::layer_materials;
use crate::matter::Matter;
use crate::page::{Ink, mm};
use crate::typeset::flow::Flow;
use crate::typeset::look::{BODY, CAPTION, COLUMN, STRONG};
use crate::typeset::side::side;
use crate::typeset::wrap::Span;
use crate::words::cautions;

pub(in crate::papers) fn set(matter: &Matter<'_>, flow: &mut Flow) {
    let list = list(matter);
    flow.section(cautions::NAME, "", mm(40.0));
    flow.paragraph(&[Span::new(STRONG, cautions::FIRST)], 0.0);
    flow.take(mm(1.0));
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

/// The same in small type, for a paper of one page: of the materials what can kill in full, the rest in
/// short.
pub(in crate::papers) fn small(matter: &Matter<'_>, flow: &mut Flow) {
    let words = &matter.words().cautions;
    flow.section(words.name, "", mm(20.0));
    let small = CAPTION.ink(Ink::Text);
    flow.text(small, words.first);
    let (deadly, others): (Vec<_>, Vec<_>) = dangers(matter)
        .into_iter()
        .partition(|(hazard, _)| matches!(hazard, Hazard::BurningFines | Hazard::Beryllium));
    let mut all: Vec<(&str, String)> = deadly
        .into_iter()
        .map(|(hazard, names)| (words.of)(hazard, &names.join(", ")))
        .collect();
    if !others.is_empty() {
        let shorts: Vec<&str> = others.iter().map(|(of, _)| (words.short)(*of)).collect();
        all.push((words.materials, (words.of_materials)(&shorts.join(", "))));
    }
    // What is said of sludge stands with the materials already.
    let told = |(name, _): &(&str, String)| others.is_empty() || *name != words.sludge;
    let always = (words.always)(pressure(matter).as_deref());
    all.extend(always.into_iter().filter(told));
    let own = matter.issuer.cautions.iter();
    all.extend(own.map(|text| (words.in_this_shop, text.clone())));
    for (name, text) in all {
        let name = format!("{name}: ");
        flow.paragraph(&[Span::new(COLUMN, &name), Span::new(small, &text)], 0.0);
    }
}

/// Each caution with its name: of the materials, of every job, the shop's own.
fn list(matter: &Matter<'_>) -> Vec<(&'static str, String)> {
    let mut list: Vec<(&'static str, String)> = dangers(matter)
        .into_iter()
        .map(|(hazard, names)| cautions::of(hazard, &names.join(", ")))
        .collect();
    list.extend(cautions::always(pressure(matter).as_deref()));
    let own = matter.issuer.cautions.iter();
    list.extend(own.map(|text| (cautions::IN_THIS_SHOP, text.clone())));
    list
}

/// The greatest pressure of machine and job, in both units.
fn pressure(matter: &Matter<'_>) -> Option<String> {
    let of_job = match matter.job.field(Field::FlushPressure).value() {
        Some(Value::PressureBar(bar)) => *bar,
        _ => 0.0,
    };
    let machine = matter.machine()?;
    let most = machine.pressure_bar.max(of_job);
    Some(cautions::pressure(
        &matter.form().fixed(most, 0),
        &matter.form().fixed(psi(most), 0),
    ))
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

/// Pressure in pounds a square inch, to tens of them, as gauges show it.
fn psi(bar: f64) -> f64 {
    (Unit::psi(bar) / 10.0).round() * 10.0
}
