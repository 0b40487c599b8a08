//! The run record, on a page of its own: what was typed of it already, then blanks for what really
//! happened, high enough for a hand in a wet glove. Its columns are those of the table that the office
//! types it into, in two tiers.

use std::collections::BTreeSet;

use quillbore_calc::RowId;
use quillbore_calc::job_figures::ElectrodeLoad;
use quillbore_job::slip::{LineOf, RUN_COLUMNS, View, kind};
use quillbore_job::words::runs::{WHICH_MINUTES, head};
use quillbore_job::words::speaker::capital;
use quillbore_job::{FieldKind, Line, Value};

use crate::matter::Matter;
use crate::matter::day::typed as as_typed;
use crate::page::mm;
use crate::shown;
use crate::typeset::flow::Flow;
use crate::typeset::form::{self, Captioned};
use crate::typeset::look::SMALL;
use crate::typeset::table::{Align, Cell, Column, Table, TableRow, Width, set_in_tiers};
use crate::words::traveler::record as words;

/// Blank records where those that were typed already fill a page.
const MANY: usize = 8;
/// Height of a record: two lines to write on.
const RECORD: f64 = 2.0 * ROW;
const ROW: f64 = 9.0 * 72.0 / 25.4;
/// Share of a page that it goes on with where a little stands on it already, so that this isn't alone.
const NEARLY_WHOLE: f64 = 0.75;
/// Columns of the upper tier; the others stand below.
const UPPER: usize = 9;

/// Sets the page with what was typed already, and what of the plan goes beyond it.
pub(super) fn set(matter: &Matter<'_>, flow: &mut Flow) {
    page(matter, flow, matter.job.slips_of().collect(), true);
}

/// Sets a further page on which nothing is written yet.
pub(in crate::papers) fn blank(matter: &Matter<'_>, flow: &mut Flow) {
    page(matter, flow, Vec::new(), false);
}

fn page(matter: &Matter<'_>, flow: &mut Flow, typed: Vec<View<'_, kind::Run>>, of_plan: bool) {
    if flow.room() < flow.full() * NEARLY_WHOLE {
        flow.next_page();
    }
    let page = Records {
        matter,
        typed,
        of_plan,
    };
    let height = flow.height_of(|flow| page.write(flow, 0));
    let fit = height.map(|height| ((flow.room() - height) / RECORD).floor().max(0.0) as usize);
    page.write(flow, fit.unwrap_or(MANY));
}

/// A page of records.
struct Records<'a> {
    matter: &'a Matter<'a>,
    /// Those that were typed already.
    typed: Vec<View<'a, kind::Run>>,
    /// Whether it is told where the plan has more electrodes than the page has records.
    of_plan: bool,
}

impl Records<'_> {
    fn write(&self, flow: &mut Flow, records: usize) {
        let matter = self.matter;
        let (upper, lower) = RUN_COLUMNS.split_at(UPPER);
        let mut tiers = [upper, lower].map(|lines| {
            let columns = lines.iter().map(|line| column(matter, line.line()));
            Table::new(columns).written_on()
        });
        for run in self.typed.iter().copied() {
            let cells = |lines: &[LineOf<kind::Run>]| {
                let cells = lines.iter().map(|line| cell(matter, run, line));
                TableRow::new(cells.collect::<Vec<_>>())
            };
            tiers[0].row(cells(upper));
            tiers[1].row(cells(lower).note(more(run)));
        }
        for _ in 0..records {
            for (tier, lines) in tiers.iter_mut().zip([upper, lower]) {
                tier.row(TableRow::new(lines.iter().map(|_| Cell::blank())).at_least(ROW));
            }
        }
        flow.section(words::NAME, words::REMARK, 0.0);
        flow.text(SMALL, &capital(WHICH_MINUTES));
        set_in_tiers(&tiers, flow);
        if self.of_plan
            && let Some(planned) = planned_beyond(matter, tiers[0].rows.len())
        {
            flow.take(mm(1.0));
            flow.text(SMALL, &words::more_sheets(matter.form(), planned));
        }
        flow.take(mm(2.0));
        form::fields(
            flow,
            &[
                Captioned::blank(words::HOURS, 1.0),
                Captioned::blank(words::SETTINGS, 1.6),
                Captioned::blank(words::NEXT_TIME, 1.6),
            ],
        );
    }
}

/// Electrodes of the plan and the records that their marks take, where these are more than the page has.
fn planned_beyond(matter: &Matter<'_>, records: usize) -> Option<[u64; 2]> {
    let electrodes = &matter.figures.lot.as_ref()?.electrodes;
    let of_load = |load: &ElectrodeLoad| {
        let marks: BTreeSet<RowId> = load.holes.iter().map(|(row, _)| *row).collect();
        u64::from(load.times) * marks.len() as u64
    };
    let planned: u64 = electrodes.iter().map(|used| u64::from(used.needed)).sum();
    let loads = electrodes.iter().flat_map(|used| &used.plan);
    // Loads that are not listed have a record each at least.
    let wanted = loads.map(of_load).sum::<u64>().max(planned);
    (wanted > records as u64).then_some([planned, wanted])
}

fn column(matter: &Matter<'_>, line: Line) -> Column {
    let head = head(line, matter.job.unit);
    let column = Column::text(&capital(&head.name()), width(line)).unit(head.unit);
    Column {
        align: match line.kind() {
            FieldKind::Length
            | FieldKind::LengthOrNone
            | FieldKind::Minutes
            | FieldKind::MinutesOrNone => Align::Right,
            FieldKind::Count => Align::Center,
            _ => Align::Left,
        },
        ..column
    }
}

/// Wide enough for a hand; what is named or listed shares what is left.
fn width(line: Line) -> Width {
    match line {
        Line::Date => Width::Fixed(mm(20.0)),
        Line::Serials => Width::Share(1.5),
        Line::Mark | Line::By => Width::Share(1.0),
        Line::TubeUsed => Width::Share(1.8),
        Line::Pins => Width::Share(2.2),
        Line::Holes | Line::Good | Line::Scrap => Width::Fixed(mm(12.0)),
        Line::ElectrodeNumber => Width::Fixed(mm(16.0)),
        Line::SparkMinutes | Line::FloorMinutes => Width::Fixed(mm(21.0)),
        _ => Width::Fixed(mm(15.0)),
    }
}

/// What was typed in a line: days and lengths as papers show them, all else as it stands.
fn cell(matter: &Matter<'_>, run: View<'_, kind::Run>, line: &LineOf<kind::Run>) -> Cell {
    let entry = run.one_of(line);
    let unit = matter.job.unit;
    let text = match entry.value().and_then(Value::length) {
        Some(length) => shown::length(matter.form(), length.mm(), unit, shown::middling(unit) - 1),
        None => as_typed(matter.form(), entry).replace('\n', " "),
    };
    Cell::new(text)
}

/// What else is on record, under it.
fn more(run: View<'_, kind::Run>) -> String {
    let lines = words::IN_NOTE.iter().filter_map(|line| {
        let text = run.one_of(line).text().trim().replace('\n', " ");
        (!text.is_empty()).then(|| words::noted(line.line(), &text))
    });
    lines.collect::<Vec<_>>().join("; ")
}
