//! What holds the part against its flush, and how the flush flows.

use std::collections::BTreeMap;

use quillbore_calc::input::Rest;
use quillbore_calc::job_figures::SetupFigures;
use quillbore_calc::quantity::MM_PER_INCH;
use quillbore_job::{Field, Unit, Value};

use crate::matter::Matter;
use crate::typeset::flow::Flow;
use crate::typeset::look::{BODY, STRONG};
use crate::typeset::wrap::Span;
use crate::words::traveler::held as words;

/// Electrodes whose flow is told; nobody compares more.
const MOST: usize = 6;

/// A stop that takes less is told nowhere [N].
const LEAST_STOP_N: f64 = 0.5;

/// What holds the part in a setup, as the end of its sentence; nothing where no push is known.
pub(super) fn in_setup(matter: &Matter<'_>, setup: &SetupFigures) -> String {
    let force = |newtons| matter.form().force(newtons, matter.job.unit);
    let Some(held) = setup.held else {
        let holes = matter.figures.holes.iter();
        let there = holes.filter(|hole| setup.rows.contains(&hole.row));
        let pushes = there.filter_map(|hole| hole.push_n);
        let push = pushes.reduce(f64::max);
        return push.map_or_else(String::new, |push| words::not_known(&force(push)));
    };
    let push = force(held.push_n);
    let clamp = held.moves.map(|(how, _)| (force(held.clamp_n), how));
    let stop = (held.stop_n >= LEAST_STOP_N).then(|| force(held.stop_n));
    words::holds(&words::Holds {
        push: &push,
        clamp: clamp.as_ref().map(|(clamp, how)| (clamp.as_str(), *how)),
        stop: stop.as_deref(),
    })
}

/// What the part rests on, where somebody typed it.
pub(super) fn rests_on(matter: &Matter<'_>, flow: &mut Flow) {
    let Some(says) = rest(matter) else { return };
    let spans = [Span::new(STRONG, words::RESTS_ON), Span::new(BODY, &says)];
    flow.paragraph(&spans, 0.0);
}

/// What the part rests on, with its unit; what can't be read stands as it was typed.
fn rest(matter: &Matter<'_>) -> Option<String> {
    let unit = matter.job.unit;
    let side = |mm: &f64| {
        let side = match unit {
            Unit::Mm => *mm,
            Unit::Inch => mm / MM_PER_INCH,
        };
        matter.form().number(side, 5)
    };
    match matter.job.field(Field::RestsOn).value() {
        Some(Value::RestsOn(Rest::Face)) => Some(words::WHOLE_FACE.to_owned()),
        Some(Value::RestsOn(Rest::Rectangle(mm))) => Some(words::rectangle(
            &mm.each_ref().map(side).join(" x "),
            unit.symbol(),
        )),
        Some(Value::RestsOn(Rest::Ring(mm))) => Some(words::ring(&side(mm), unit.symbol())),
        _ => matter
            .has(Field::RestsOn)
            .then(|| matter.text(Field::RestsOn).to_owned()),
    }
}

/// Pressure and flow, electrode by electrode; the least at the bottom counts.
pub(super) fn flush(matter: &Matter<'_>, flow: &mut Flow) {
    let mut flows: BTreeMap<_, (f64, f64)> = BTreeMap::new();
    let mut pressure_bar = None;
    for hole in &matter.figures.holes {
        let (Some(tube), Some(flush)) = (hole.tube, hole.flush.as_deref()) else {
            continue;
        };
        pressure_bar = Some(flush.pressure_bar);
        let at = flows
            .entry(tube)
            .or_insert((flush.face.ml_min, f64::INFINITY));
        at.1 = at.1.min(flush.bottom.ml_min);
    }
    let typed = matter.has(Field::FlushPressure);
    let Some(pressure_bar) = pressure_bar else {
        if typed {
            let says = matter.text(Field::FlushPressure);
            flow.paragraph(
                &[Span::new(STRONG, words::FLUSH), Span::new(BODY, says)],
                0.0,
            );
        }
        return;
    };
    let form = matter.form();
    let mut said: Vec<String> = flows
        .iter()
        .take(MOST)
        .filter_map(|(tube, (free, bottom))| {
            let tube = matter.tube(*tube)?;
            Some(words::flow(&tube.name, &form.flow_down(*free, *bottom)))
        })
        .collect();
    if flows.len() > MOST {
        said.push(words::more(flows.len() - MOST));
    }
    let pressure = form.pressure(pressure_bar, matter.job.unit);
    let says = words::flush(&pressure, typed, &said);
    flow.paragraph(
        &[Span::new(STRONG, words::FLUSH), Span::new(BODY, &says)],
        0.0,
    );
}
