//! How far the tip may go, and whether one looks at it on the way there.

use quillbore_calc::input::Ends;

use super::holes::tip_from_touch_mm;
use super::lengths::takes_several;
use crate::matter::{Hole, Matter};
use crate::shown;
use crate::words::traveler::on_the_way::{self as words, GoesOn, Told};

/// Travels that differ by less are one [mm].
const SAME_MM: f64 = 0.005;

/// The farthest that the tip may come from where it touched [mm]: the deepest bottom of a blind hole, a wall
/// behind an open one, for a half the other side; `None` where nothing is in its way.
pub(super) fn limit_mm(hole: &Hole<'_>) -> Option<f64> {
    let figures = hole.figures?;
    if let Some(plan) = figures.depth_plan {
        return Some(plan.never_beyond_mm);
    }
    let touch = figures.touch_mm.entry;
    if figures.ends == Some(Ends::Both) {
        return figures.depth_mm.map(|depth| touch + depth);
    }
    if hole.is_blind() {
        return None;
    }
    let wall = touch + figures.depth_mm? + figures.behind_mm?;
    // The spark bridges its gap.
    Some(wall - figures.gap_mm.map_or(0.0, |gap| gap.p90))
}

/// Where a hole is looked at before the setting is reached, or why it needn't be: up to a travel of its limit no
/// tip passes the limit, however little it wears.
pub(super) fn on_the_way(matter: &Matter<'_>, hole: &Hole<'_>, told: Told) -> Option<String> {
    let figures = hole.figures.filter(|figures| !takes_several(figures))?;
    let limit = limit_mm(hole)?;
    let plan = figures.depth_plan;
    let is_half = figures.ends == Some(Ends::Both);
    let setting = plan
        .map(|plan| plan.first_try_mm)
        .or(figures.machine_depth_mm)?;
    if setting <= limit + SAME_MM {
        // Short words are for what is to be done.
        let is_said = !is_half && told == Told::Whole;
        return is_said.then(|| words::out_of_reach(plan.is_some()).to_owned());
    }
    let unit = matter.job.unit;
    let decimals = shown::middling(unit);
    let at = shown::at_most(matter.form(), limit, unit, decimals);
    let at = format!("{at}\u{a0}{}", unit.symbol());
    let through = figures.depth_mm.zip(figures.wear_mm);
    Some(match plan {
        _ if is_half => words::first_looked_at(told, &at, GoesOn::NotThrough),
        Some(_) => words::first_looked_at(told, &at, GoesOn::ToItsDepth),
        // By the plan it is through before, with this travel.
        None if through
            .is_some_and(|(depth, wear)| figures.touch_mm.entry + depth + wear <= limit) =>
        {
            let tip = tip_from_touch_mm(figures).unwrap_or(limit);
            let tip = shown::with_unit(matter.form(), tip, unit, decimals);
            words::no_sign_by(told, &at, &tip)
        }
        None => words::first_looked_at(told, &at, GoesOn::ToItsSign),
    })
}
