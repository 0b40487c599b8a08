//! What to fetch: tubes with spares, guides, gauge pins.

use quillbore_calc::RowId;
use quillbore_calc::job_figures::ElectrodeFigures;

use crate::flow::Flow;
use crate::look::{BODY, STRONG};
use crate::matter::Matter;
use crate::page::mm;
use crate::shown;
use crate::side::side;
use crate::table::{Cell, Column, Row, Table, Width};

pub(super) fn set(matter: &Matter<'_>, flow: &mut Flow) {
    side(flow, "Kit", |flow| {
        flow.beside(0.62, |flow| tubes(matter, flow), |flow| pins(matter, flow));
    });
}

fn tubes(matter: &Matter<'_>, flow: &mut Flow) {
    let electrodes = matter
        .figures
        .lot
        .as_ref()
        .map_or(&[][..], |lot| &lot.electrodes);
    if electrodes.is_empty() {
        flow.text(
            BODY,
            "Tubes and guides are not worked out yet: ask the office.",
        );
        return;
    }
    let mut table = Table::new([
        Column::center("", Width::Fixed(mm(4.0))),
        Column::text("Tube", Width::Fit(mm(46.0))),
        Column::figures("Take", "tubes", Width::Fit(40.0)).style(STRONG),
        Column::figures("spare", "in it", Width::Fit(38.0)),
        Column::text("for", Width::Share(1.0)),
        Column::text("Guide", Width::Fit(mm(26.0))),
    ]);
    for electrode in electrodes {
        let Some(tube) = matter.tube(electrode.tube) else {
            continue;
        };
        table.row(
            Row::new([
                Cell::square(),
                Cell::new(&tube.name),
                Cell::new(electrode.kit.to_string()),
                Cell::new(electrode.spares.to_string()),
                Cell::new(marks_on(matter, electrode)),
                Cell::new(guide(matter, electrode.tube)),
            ])
            .at_least(mm(5.6)),
        );
    }
    table.set(flow);
}

/// The marks that a tube drills.
fn marks_on(matter: &Matter<'_>, electrode: &ElectrodeFigures) -> String {
    let holes = matter.figures.holes.iter();
    let on = holes.filter(|hole| hole.tube == Some(electrode.tube));
    matter.marks(on.map(|hole| hole.row))
}

fn guide(matter: &Matter<'_>, tube: usize) -> String {
    matter
        .figures
        .holes
        .iter()
        .filter(|hole| hole.tube == Some(tube))
        .find_map(|hole| matter.tables.guides.get(hole.guide?))
        .map_or_else(|| "none in the shop".to_owned(), |guide| guide.name.clone())
}

fn pins(matter: &Matter<'_>, flow: &mut Flow) {
    let unit = matter.job.unit;
    let sign = shown::unit(unit);
    let mut table = Table::new([
        Column::center("", Width::Fixed(mm(4.0))),
        Column::text("Pins for", Width::Share(1.0)),
        Column::figures("goes", sign, Width::Fit(60.0)),
        Column::figures("not", sign, Width::Fit(60.0)),
    ]);
    let mut sizes: Vec<([f64; 2], Vec<RowId>)> = Vec::new();
    for hole in matter.holes() {
        let Some(limits) = hole.figures.and_then(|figures| figures.limits_mm) else {
            continue;
        };
        match sizes.iter_mut().find(|(known, _)| *known == limits) {
            Some((_, rows)) => rows.push(hole.row.id),
            None => sizes.push((limits, vec![hole.row.id])),
        }
    }
    let fine = matter.fine();
    for ([lower, upper], rows) in sizes {
        table.row(
            Row::new([
                Cell::square(),
                Cell::new(matter.marks(rows)),
                Cell::new(shown::lower(lower, unit, fine)),
                Cell::new(shown::length(upper, unit, fine)),
            ])
            .at_least(mm(5.6)),
        );
    }
    if !table.rows.is_empty() {
        table.set(flow);
    }
}
