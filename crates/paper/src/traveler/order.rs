//! In which order, on which electrode, and when to change it.

use quillbore_calc::job_figures::{ElectrodeFigures, ElectrodeLoad};

use crate::drawing::tubes;
use crate::flow::Flow;
use crate::look::BODY;
use crate::matter::Matter;
use crate::page::mm;
use crate::shown;
use crate::table::{Cell, Column, Row, Table, Width};

/// Kinds of loads drawn and listed for one tube; what is beyond them is summed up.
const SHOWN: usize = 12;

pub(super) fn set(matter: &Matter<'_>, flow: &mut Flow) {
    let electrodes = matter
        .figures
        .lot
        .as_ref()
        .map_or(&[][..], |lot| &lot.electrodes);
    flow.section(
        "Order, and when to change the tube",
        "planned at the usual wear; measure the tube and go by what is left of it",
        mm(30.0),
    );
    if electrodes.iter().all(|electrode| electrode.plan.is_empty()) {
        flow.text(
            BODY,
            "Deep holes first on a new tube. Change when what is left no longer reaches the machine depth.",
        );
        return;
    }
    let unit = matter.job.unit;
    let mut table = Table::new([
        Column::text("Tube", Width::Fit(120.0)),
        Column::figures("Electrode", "number", Width::Fit(60.0)),
        Column::text("drills, in this order", Width::Share(1.0)),
        Column::figures("then left to use", shown::unit(unit), Width::Fixed(50.0)),
        Column::text("what to do with the rest", Width::Fixed(92.0)),
    ]);
    for electrode in electrodes {
        rows(matter, electrode, &mut table);
    }
    table.set(flow);
    tubes::strip(matter, flow);
}

fn rows(matter: &Matter<'_>, electrode: &ElectrodeFigures, table: &mut Table) {
    let unit = matter.job.unit;
    let name = matter
        .tube(electrode.tube)
        .map_or("", |tube| tube.name.as_str());
    let mut next = 1;
    for (index, load) in electrode.plan.iter().take(SHOWN).enumerate() {
        let last = next + load.times.saturating_sub(1);
        let numbers = if load.times > 1 {
            format!("{next}\u{2013}{last}")
        } else {
            next.to_string()
        };
        next = last + 1;
        let keep = keeps(matter, electrode, load);
        table.row(Row::new([
            Cell::new(if index == 0 { name } else { "" }),
            Cell::new(numbers),
            Cell::new(drills(matter, load)),
            Cell::new(shown::length(load.left_mm, unit, shown::coarse(unit))),
            Cell::new(if keep {
                "keep, mark its length"
            } else {
                "scrap"
            }),
        ]));
    }
    let more: u32 = electrode
        .plan
        .iter()
        .skip(SHOWN)
        .map(|load| load.times)
        .sum();
    if more > 0 {
        table.row(Row::new([
            Cell::default(),
            Cell::new(format!("{next}\u{2013}{}", next + more - 1)),
            Cell::new("as what is left allows: the deepest hole that the tube still reaches first"),
            Cell::default(),
            Cell::default(),
        ]));
    }
}

/// The holes on one electrode, in drilling order.
fn drills(matter: &Matter<'_>, load: &ElectrodeLoad) -> String {
    load.holes
        .iter()
        .map(|(row, count)| format!("{}\u{a0}\u{d7}\u{a0}{count}", matter.mark(*row)))
        .collect::<Vec<_>>()
        .join(", then ")
}

/// Whether what is left still drills some hole of the job.
fn keeps(matter: &Matter<'_>, electrode: &ElectrodeFigures, load: &ElectrodeLoad) -> bool {
    matter
        .figures
        .holes
        .iter()
        .filter(|hole| hole.tube == Some(electrode.tube))
        .filter_map(|hole| Some(hole.depth_mm? + hole.wear_mm?))
        .any(|takes| takes <= load.left_mm)
}
