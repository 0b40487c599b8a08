//! What stands under a mark of the floor's block.

use quillbore_calc::finding::Kind;
use quillbore_calc::input::Ends;
use quillbore_job::Field;

use super::basis::TypedFigures;
use super::holes::{tip_from_touch_mm, tip_mm};
use super::lengths::{dressing_mm, takes_several};
use super::row_notes::dressing;
use super::tip;
use crate::matter::{Hole, Matter};
use crate::shown;
use crate::words::traveler::floor as words;
use crate::words::traveler::on_the_way::{self, Told};

/// What a touch is early by at least to be told [mm].
const SHOWN_MM: f64 = 0.05;

/// What is drilled from each end, what is seen on the way, how the tip is dressed.
pub(super) fn of(matter: &Matter<'_>, hole: &Hole<'_>, told: Told) -> String {
    let unit = matter.job.unit;
    let decimals = shown::middling(unit);
    let mut said = Vec::new();
    if let Some(figures) = hole.figures
        && figures.ends == Some(Ends::Both)
        && let Some(depth) = figures.depth_mm
    {
        let shown = |mm| shown::with_unit(matter.form(), mm, unit, decimals);
        let first = f64::midpoint(depth, matter.tables.start.overlap_mm.clamp(0.0, depth));
        // So far the second half still meets it.
        let least = tip_mm(figures).map_or(depth / 2.0, |each| depth - each);
        let has_core = figures.tube.and_then(|tube| matter.tube(tube));
        let has_core = has_core.is_some_and(|tube| tube.channels == 1);
        // What several electrodes drill one after the other has no one setting.
        let settings = figures.half_settings_mm.filter(|_| !takes_several(figures));
        let settings = settings.map(|both| both.map(shown));
        let halves = words::Halves {
            whole: shown(depth),
            first: shown(figures.touch_mm.entry + first),
            least: shown(figures.touch_mm.entry + least.min(first)),
            second: tip_from_touch_mm(figures).map(shown).unwrap_or_default(),
            settings,
            further: figures.overtravel_mm.map(shown).unwrap_or_default(),
            has_core,
        };
        said.push(words::half(&halves));
    }
    if let Some(figures) = hole.figures.filter(|figures| takes_several(figures)) {
        let reach = figures.reach_one_mm;
        let reach = reach.map(|mm| shown::with_unit(matter.form(), mm, unit, decimals));
        let count = figures.electrodes_per_hole.unwrap_or(0);
        said.push(words::several(count, reach.as_deref()));
    }
    if hole
        .figures
        .is_some_and(|figures| figures.depth_plan.is_some())
    {
        said.push(on_the_way::first_try(told).to_owned());
    }
    said.extend(guide_off(matter, hole, told));
    said.extend(touches_early(matter, hole, told));
    said.extend(open(matter, hole, told).unwrap_or_default());
    said.extend(tip::on_the_way(matter, hole, told));
    said.extend(dressing(hole));
    if let Some(off) = dressing_mm(matter, hole.row.id).filter(|off| *off > 0.0) {
        let off = shown::with_unit(matter.form(), off, unit, decimals);
        said.push(words::dressed_off(&off));
    }
    if hole.row.backed.value() == Some(&true) {
        said.push(words::BACKED.to_owned());
    }
    if pushes_a_plug(hole) {
        said.push(words::PLUG.to_owned());
    }
    if TypedFigures::of(matter, hole.row.id).wear {
        said.push(words::OWN_WEAR.to_owned());
    }
    said.join(" ")
}

/// Whether the flush presses on what closes the bore that a hole opens into.
fn pushes_a_plug(hole: &Hole<'_>) -> bool {
    let mut findings = hole.figures.into_iter().flat_map(|of| &of.findings);
    findings.any(|finding| matches!(finding.kind, Kind::PlugPushed { .. }))
}

/// How far the guide stands off, where nose or head would touch the part at the usual distance.
fn guide_off(matter: &Matter<'_>, hole: &Hole<'_>, told: Told) -> Option<String> {
    let stand_off = hole.figures?.stand_off_mm?;
    let usual = matter.machine()?.stand_off_mm;
    let (unit, form) = (matter.job.unit, matter.form());
    let shown = |mm| shown::with_unit(form, mm, unit, 1);
    (stand_off > usual + SHOWN_MM).then(|| words::guide_off(told, &shown(stand_off), &shown(usual)))
}

/// How much earlier than its axis an electrode touches a slope, where a rule would show it.
fn touches_early(matter: &Matter<'_>, hole: &Hole<'_>, told: Told) -> Option<String> {
    let touch = hole.figures?.touch_mm.entry;
    let shows = told == Told::Whole && touch >= SHOWN_MM;
    let (unit, form) = (matter.job.unit, matter.form());
    shows.then(|| words::touches_early(&shown::with_unit(form, touch, unit, shown::middling(unit))))
}

/// When an open hole is through, and what it wants behind its exit until it is.
fn open(matter: &Matter<'_>, hole: &Hole<'_>, told: Told) -> Option<Vec<String>> {
    let figures = hole.figures?;
    let is_half = ends_of(hole) == Some(Ends::Both);
    if hole.is_blind() || is_half || takes_several(figures) {
        return None;
    }
    let unit = matter.job.unit;
    let length = |mm| shown::with_unit(matter.form(), mm, unit, shown::middling(unit));
    let depth = figures.depth_mm?;
    let touch = figures.touch_mm.entry;
    let tip = tip_from_touch_mm(figures)?;
    let further = length(tip - touch - depth);
    if figures.depth_plan.is_some() {
        return Some(vec![on_the_way::through_at_wall(told, &further)]);
    }
    let mut said = vec![if is_backed(matter, hole) {
        on_the_way::through_backed(
            told,
            &further,
            [
                &length(touch + depth),
                &length(touch + depth + figures.wear_mm?),
            ],
        )
    } else {
        on_the_way::through(told, &further)
    }];
    said.push(on_the_way::not_through_at_it(told, &length(tip)));
    if figures.behind_mm.is_none() {
        said.push(on_the_way::free_below(
            told,
            &length(figures.machine_depth_mm? - touch - depth),
        ));
    }
    Some(said)
}

/// Whether backing stands behind the exit.
pub(super) fn is_backed(matter: &Matter<'_>, hole: &Hole<'_>) -> bool {
    hole.row.backed.value() == Some(&true) || matter.has(Field::BackingText)
}

/// From which ends a hole is drilled, where that is known.
pub(super) fn ends_of(hole: &Hole<'_>) -> Option<Ends> {
    hole.figures?.ends
}
