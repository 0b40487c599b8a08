//! The run record: what was typed of it already, then blanks for what really happened, high enough
//! for a hand.

use quillbore_job::slip::{Has, TypedLine, View, holds, kind, line};

use crate::matter::Matter;
use crate::matter::day::day;
use crate::page::mm;
use crate::shown;
use crate::typeset::flow::Flow;
use crate::typeset::form::{self, Captioned, HAND};
use crate::typeset::table::{Cell, Column, Table, TableRow, Width};
use crate::words::heads;
use crate::words::traveler::record as words;

/// Rows that are worth a page of their own.
const FEW: usize = 6;
/// Rows that a shift fills.
const MANY: usize = 14;
const ROW: f64 = HAND + 0.4 * 72.0 / 25.4;

pub(super) fn set(matter: &Matter<'_>, flow: &mut Flow) {
    let empty = flow.height_of(|flow| write(matter, flow, 0)).unwrap_or(0.0);
    let fit = ((flow.room() - mm(3.6) - empty) / ROW).floor().max(0.0) as usize;
    let rows = if fit < FEW { MANY } else { fit.min(MANY) };
    flow.together(|flow| write(matter, flow, rows));
}

fn write(matter: &Matter<'_>, flow: &mut Flow, rows: usize) {
    let unit = shown::unit(matter.job.unit);
    let mut table = Table::new([
        Column::text(heads::DATE, Width::Fixed(mm(20.0))),
        Column::text(heads::PIECE, Width::Share(1.0)),
        Column::text(words::MARK, Width::Share(1.2)),
        Column::text(words::ELECTRODE, Width::Fixed(mm(17.0))),
        Column::figures(words::BEFORE, unit, Width::Fixed(mm(16.0))),
        Column::figures(words::AFTER, unit, Width::Fixed(mm(16.0))),
        Column::figures(words::SPARKING, words::MINUTES, Width::Fixed(mm(16.0))),
        Column::text(words::TROUBLE, Width::Share(1.0)),
        Column::text(heads::NAME, Width::Fixed(mm(17.0))),
    ])
    .written_on();
    for run in matter.job.slips_of::<kind::Run>() {
        table.row(typed(matter, run));
    }
    for _ in 0..rows {
        table.row(TableRow::new((0..9).map(|_| Cell::blank())).at_least(ROW));
    }
    flow.section(words::NAME, words::REMARK, 0.0);
    table.set(flow);
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

/// A record that was typed already, as it was typed.
fn typed(matter: &Matter<'_>, run: View<'_, kind::Run>) -> TableRow {
    let text = |text: &str| text.replace('\n', " ");
    let holes = match [text(run.get(line::Mark)), text(run.text(line::Holes))] {
        [mark, holes] if holes.is_empty() => mark,
        [mark, holes] => words::holes(&mark, &holes),
    };
    let more: Vec<String> = words::IN_NOTE
        .iter()
        .map(|line| (line, text(run.one_of(line).text().trim())))
        .filter(|(_, text)| !text.is_empty())
        .map(|(line, text)| words::noted(line.line(), &text))
        .collect();
    TableRow::new([
        Cell::new(day(run, line::Date)),
        Cell::new(text(run.get(line::Serials))),
        Cell::new(holes),
        Cell::new(text(run.get(line::ElectrodeNumber))),
        Cell::new(length(matter, run, line::TubeBefore)),
        Cell::new(length(matter, run, line::TubeAfter)),
        Cell::new(text(run.text(line::SparkMinutes))),
        Cell::new(text(run.text(line::Breakages))),
        Cell::new(text(run.get(line::By))),
    ])
    .note(more.join("; "))
}

/// A length in the job's unit; what can't be read stands as it was typed.
fn length<L: TypedLine<Holds = holds::Length>>(
    matter: &Matter<'_>,
    run: View<'_, kind::Run>,
    line: L,
) -> String
where
    kind::Run: Has<L>,
{
    let unit = matter.job.unit;
    run.get(line).map_or_else(
        || run.text(line).replace('\n', " "),
        |length| shown::length(length.mm(), unit, shown::middling(unit) - 1),
    )
}
