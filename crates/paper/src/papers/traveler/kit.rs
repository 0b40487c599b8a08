//! What to fetch: electrodes with spares and why so many, guides, gauge pins.

use std::collections::BTreeMap;

use quillbore_calc::job_figures::ElectrodeFigures;
use quillbore_calc::tables::{Guide, Tube};
use quillbore_calc::{Idx, Limits, RowId};

use crate::matter::{Hole, Matter};
use crate::page::mm;
use crate::shown;
use crate::typeset::flow::Flow;
use crate::typeset::look::{BODY, SMALL, STRONG};
use crate::typeset::side::side;
use crate::typeset::table::{Cell, Column, Table, TableRow, Width};
use crate::words::heads;
use crate::words::inspection::{GO, NO_GO};
use crate::words::traveler::kit as words;

/// Marks that are named of those that an electrode is for: the hole table names it at each.
const MARKS: usize = 12;
const ROW: f64 = 5.6 * 72.0 / 25.4;

pub(super) fn set(matter: &Matter<'_>, flow: &mut Flow) {
    side(flow, words::NAME, |flow| {
        flow.beside(0.64, |flow| tubes(matter, flow), |flow| pins(matter, flow));
    });
}

fn tubes(matter: &Matter<'_>, flow: &mut Flow) {
    let electrodes = matter
        .figures
        .lot
        .as_ref()
        .map_or(&[][..], |lot| &lot.electrodes);
    if electrodes.is_empty() {
        flow.text(BODY, words::NO_KIT);
        return;
    }
    let head = |name: &str| {
        Table::new([
            Column::center("", Width::Fixed(mm(3.2))),
            Column::text(name, Width::Share(1.0)),
            Column::figures(words::TAKE, "", Width::Fit(40.0)).style(STRONG),
            Column::text(words::FOR, Width::Fit(mm(34.0))),
            Column::text(words::GUIDE, Width::Fit(mm(26.0))),
        ])
    };
    let row = |tube: Idx<Tube>, take: u32, rows: Vec<RowId>, guide: String| {
        let name = matter.tube(tube).map_or("", |tube| tube.name.as_str());
        TableRow::new([
            Cell::square(),
            Cell::new(name),
            Cell::new(matter.form().count(f64::from(take))),
            Cell::new(matter.few_marks(rows, MARKS)),
            Cell::new(guide),
        ])
        .at_least(ROW)
    };
    let mut table = head(heads::ELECTRODE);
    let mut named = Vec::new();
    for electrode in electrodes {
        let rows = drilled(matter, electrode).collect();
        let guide = guides(matter, electrode.tube, &mut named);
        table.row(row(electrode.tube, electrode.kit, rows, guide).note(why(electrode)));
    }
    table.set(flow);
    let mut table = head(words::NEIGHBORS);
    for (tube, rows) in neighbors(matter) {
        table.row(row(tube, 1, rows, guide(matter, tube)));
    }
    if !table.rows.is_empty() {
        flow.take(mm(1.6));
        table.set(flow);
        flow.take(mm(0.8));
        flow.text(SMALL, words::NEIGHBORS_NOTE);
    }
}

/// Why so many: what the plan uses, what more a high wear asks for, and the spares.
fn why(electrode: &ElectrodeFigures) -> String {
    let ElectrodeFigures {
        needed,
        if_wear_high,
        kit,
        spares,
        ..
    } = *electrode;
    // Where the number needed was overruled, what the kit has beyond it stayed.
    let more = if if_wear_high >= needed && if_wear_high.saturating_add(spares) == kit {
        if_wear_high - needed
    } else {
        kit.saturating_sub(needed).saturating_sub(spares)
    };
    words::kit(needed, more, spares)
}

/// Rows that an electrode drills.
fn drilled(matter: &Matter<'_>, electrode: &ElectrodeFigures) -> impl Iterator<Item = RowId> {
    let holes = matter.figures.holes.iter();
    let tube = electrode.tube;
    holes
        .filter(move |hole| hole.tube == Some(tube))
        .map(|hole| hole.row)
}

/// Tubes next in size that nobody takes anyway, each with the rows it is for.
fn neighbors(matter: &Matter<'_>) -> Vec<(Idx<Tube>, Vec<RowId>)> {
    let mut found: Vec<(Idx<Tube>, Vec<RowId>)> = Vec::new();
    for hole in &matter.figures.holes {
        for &tube in &hole.neighbors {
            match found.iter_mut().find(|(known, _)| *known == tube) {
                Some((_, rows)) => rows.push(hole.row),
                None => found.push((tube, vec![hole.row])),
            }
        }
    }
    found
}

/// The guide of a tube.
fn guide(matter: &Matter<'_>, tube: Idx<Tube>) -> String {
    let guides = &matter.tables.guides;
    let guide = guide_of(matter, tube).and_then(|guide| guide.of(guides));
    guide.map_or_else(|| words::NO_GUIDE.to_owned(), |guide| guide.name.clone())
}

/// The same, with how many the lot wears out where it is `named` first: electrodes of one diameter share
/// them.
fn guides(matter: &Matter<'_>, tube: Idx<Tube>, named: &mut Vec<Idx<Guide>>) -> String {
    let name = guide(matter, tube);
    let Some(guide) = guide_of(matter, tube).filter(|guide| !named.contains(guide)) else {
        return name;
    };
    named.push(guide);
    let lot = matter.figures.lot.as_ref();
    let needed = lot.and_then(|lot| lot.guides.iter().find(|figure| figure.guide == guide));
    let life = guide.of(&matter.tables.guides);
    let life = life
        .map(|guide| guide.life_holes)
        .filter(|life| *life >= 1.0);
    let every = life.map(|life| matter.form().count(life.floor()));
    words::guides(
        needed.map_or(1, |figure| figure.needed),
        &name,
        every.as_deref(),
    )
}

fn guide_of(matter: &Matter<'_>, tube: Idx<Tube>) -> Option<Idx<Guide>> {
    matter.tables.guide_for(matter.tube(tube)?.outer_mm)
}

fn pins(matter: &Matter<'_>, flow: &mut Flow) {
    let unit = matter.job.unit;
    let sign = unit.symbol();
    let mut table = Table::new([
        Column::center("", Width::Fixed(mm(3.2))),
        Column::text(words::PINS, Width::Share(1.0)),
        Column::figures(GO, sign, Width::Fit(60.0)),
        Column::figures(NO_GO, sign, Width::Fit(60.0)),
    ]);
    let mut sizes: Vec<(Limits, Vec<RowId>)> = Vec::new();
    let mut known: BTreeMap<[u64; 2], usize> = BTreeMap::new();
    for hole in matter.holes().filter(Hole::is_pinned) {
        let Some(limits) = hole.limits_mm() else {
            continue;
        };
        // Zero is one number, whatever its sign.
        let bits = [limits.lower, limits.upper].map(|mm| (mm + 0.0).to_bits());
        match known.get(&bits) {
            Some(at) => sizes[*at].1.push(hole.row.id),
            None => {
                known.insert(bits, sizes.len());
                sizes.push((limits, vec![hole.row.id]));
            }
        }
    }
    let fine = matter.fine();
    for (Limits { lower, upper }, rows) in sizes {
        table.row(
            TableRow::new([
                Cell::square(),
                Cell::new(matter.marks(rows)),
                Cell::new(shown::lower(matter.form(), lower, unit, fine)),
                Cell::new(shown::length(matter.form(), upper, unit, fine)),
            ])
            .at_least(ROW),
        );
    }
    if !table.rows.is_empty() {
        table.set(flow);
    }
}
