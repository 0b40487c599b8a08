//! In which order, on which electrode, and when to change it.

use std::collections::BTreeSet;

use quillbore_calc::RowId;
use quillbore_calc::input::Ends;
use quillbore_calc::job_figures::{ElectrodeFigures, ElectrodeLoad, HoleFigures};

use super::basis;
use super::lengths::{lost_mm, takes_several};
use crate::drawing::{map, tubes};
use crate::matter::Matter;
use crate::page::mm;
use crate::shown;
use crate::typeset::flow::Flow;
use crate::typeset::look::BODY;
use crate::typeset::table::{Cell, Column, Table, TableRow, Width};
use crate::words::drawing;
use crate::words::heads;
use crate::words::phrases;
use crate::words::traveler::order as words;

/// Marks that are named of those that a rest still drills.
const MARKS: usize = 6;
/// Lines of one electrode; a floor goes by its length, not by a longer list.
const MOST: usize = 40;

pub(super) fn set(matter: &Matter<'_>, flow: &mut Flow) {
    let electrodes = matter
        .figures
        .lot
        .as_ref()
        .map_or(&[][..], |lot| &lot.electrodes);
    let remark = words::remark(basis::rests_on(matter));
    flow.section(words::NAME, &remark, mm(30.0));
    map::unplaced(matter, flow);
    if electrodes.iter().all(|electrode| electrode.plan.is_empty()) {
        flow.text(BODY, words::NO_LOADS);
    } else {
        loads(matter, electrodes, flow);
    }
    map::strip(matter, flow);
}

fn loads(matter: &Matter<'_>, electrodes: &[ElectrodeFigures], flow: &mut Flow) {
    if let Some(lot) = &matter.figures.lot {
        let both_ends = setups_made_twice(matter);
        flow.text(
            BODY,
            &words::work(lot.quantity, &lot.part_by_part, &both_ends),
        );
        flow.take(mm(1.0));
    }
    let unit = matter.job.unit;
    let mut table = Table::new([
        Column::text(heads::ELECTRODE, Width::Fit(120.0)),
        Column::figures(words::NUMBER, "", Width::Fit(60.0)),
        Column::text(words::DRILLS, Width::Share(1.0)),
        Column::figures(words::LEFT, unit.symbol(), Width::Fixed(50.0)),
        Column::text(words::REST, Width::Fixed(150.0)),
    ]);
    for electrode in electrodes {
        rows(matter, electrode, &mut table);
    }
    table.set(flow);
    tubes::strip(matter, flow);
}

/// The numbers of the setups that the first piece goes through before the lot does: those in which a hole from both
/// ends has one of them, where there are other parts.
pub(super) fn setups_made_twice(matter: &Matter<'_>) -> Vec<usize> {
    let parts = matter.figures.lot.as_ref().map_or(1, |lot| lot.quantity);
    if parts < 2 || matter.figures.setups.len() < 2 {
        return Vec::new();
    }
    let holes = matter.figures.holes.iter();
    let halves = holes.filter(|hole| hole.ends == Some(Ends::Both));
    let halves: BTreeSet<RowId> = halves.map(|hole| hole.row).collect();
    let setups = (1..).zip(&matter.figures.setups);
    let with = setups.filter(|(_, setup)| setup.rows.iter().any(|row| halves.contains(row)));
    with.map(|(number, _)| number).collect()
}

fn rows(matter: &Matter<'_>, electrode: &ElectrodeFigures, table: &mut Table) {
    let unit = matter.job.unit;
    let name = matter
        .tube(electrode.tube)
        .map_or("", |tube| tube.name.as_str());
    let mut next = 1;
    let takes = takes(matter, electrode);
    for load in electrode.plan.iter().take(MOST) {
        let last = next + load.times.saturating_sub(1);
        let numbers = shown::numbers(next, last);
        next = last + 1;
        table.row(TableRow::new([
            Cell::new(name),
            Cell::new(numbers),
            Cell::new(drills(matter, load)),
            Cell::new(shown::length(
                matter.form(),
                load.left_mm,
                unit,
                shown::coarse(unit),
            )),
            Cell::new(words::rest(&still_drills(matter, &takes, load))),
        ]));
    }
    let all: u64 = electrode
        .plan
        .iter()
        .map(|load| u64::from(load.times))
        .sum();
    let more = all
        .max(electrode.needed.into())
        .saturating_sub(u64::from(next - 1));
    if more > 0 && electrode.plan.len() >= MOST {
        let said = words::and_so_on(matter.form(), more);
        table.row(TableRow::new(["", "", &said, "", ""].map(Cell::new)));
    }
}

/// The holes on one electrode, in drilling order.
fn drills(matter: &Matter<'_>, load: &ElectrodeLoad) -> String {
    let several = matter.figures.setups.len() > 1;
    let mut said = String::new();
    let mut before = None;
    for (at, (row, count)) in load.holes.iter().enumerate() {
        let setup = load.setups.get(at).copied();
        if several && setup != before {
            let lead = setup.map_or_else(String::new, |setup| phrases::in_setup(setup + 1));
            let comma = if said.is_empty() { "" } else { "; " };
            said += &format!("{comma}{lead}");
        } else if !said.is_empty() {
            said += ", ";
        }
        before = setup;
        said += &drawing::times(&matter.mark(*row), *count);
    }
    said
}

/// Marks of which what is left still drills a whole hole.
fn still_drills(matter: &Matter<'_>, takes: &[(f64, RowId)], load: &ElectrodeLoad) -> String {
    // The rows that take least come first.
    let fit = takes.partition_point(|(mm, _)| *mm <= load.left_mm);
    matter.few_marks(takes[..fit].iter().map(|(_, row)| *row), MARKS)
}

/// What one more hole of each row takes of an electrode, the least first.
fn takes(matter: &Matter<'_>, electrode: &ElectrodeFigures) -> Vec<(f64, RowId)> {
    let holes = matter.figures.holes.iter();
    let on_it = holes.filter(|hole| hole.tube == Some(electrode.tube));
    let takes = on_it.filter_map(|hole| Some((takes_mm(matter, hole)?, hole.row)));
    let mut takes: Vec<(f64, RowId)> = takes.filter(|(mm, _)| !mm.is_nan()).collect();
    takes.sort_by(|one, other| one.0.total_cmp(&other.0));
    takes
}

/// Length that one more hole takes of an electrode that has drilled before [mm]: the travel to its
/// target, exit and overtravel in it, the wear, and a dressing where the hole asks for one. What
/// takes several electrodes from one end begins on a new one.
fn takes_mm(matter: &Matter<'_>, hole: &HoleFigures) -> Option<f64> {
    hole.electrodes_per_hole?;
    if takes_several(hole) {
        return None;
    }
    let held_mm = super::holes::held_more_mm(matter, hole);
    Some(held_mm + super::holes::tip_mm(hole)? + lost_mm(matter, hole)?)
}
