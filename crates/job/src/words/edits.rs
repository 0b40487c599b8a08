//! What an edit is called in the menu line of undo and redo.

use quillbore_calc::RowId;
use quillbore_calc::input::Place;

use super::{answers, english, names, slips};
use crate::edits::edit::{CellAt, Edit, RowsAt, RunAt};
use crate::job::Job;
use crate::pinned::slip::lists::{SlipKind, kind};
use crate::typed::entry::Unit;
use crate::typed::overrule::FigureKey;

/// Longest mark that a label repeats, in characters.
const LONGEST_MARK: usize = 12;

/// An edit's name in a few words, about the job before it: `type size of hole B`, `paste 40 rows`.
#[must_use]
pub fn label(job: &Job, edit: &Edit) -> String {
    match edit {
        Edit::SetField { field, text, .. } if text.trim().is_empty() => {
            format!("clear {}", names::field(*field))
        }
        Edit::SetField { field, .. } => format!("type {}", names::field(*field)),
        Edit::SetCells { at, rows, .. } => cells(job, *at, rows),
        Edit::InsertRows { count: 1, .. } => "add a row".to_owned(),
        Edit::InsertRows { count, .. } => format!("add {count} rows"),
        Edit::DeleteRows { rows } => match rows.as_slice() {
            [row] => format!("delete {}", hole(job, *row)),
            rows => format!("delete {} rows", rows.len()),
        },
        Edit::SetPlaces { row, places } => match places.len() {
            0 => format!("delete hole locations of {}", hole(job, *row)),
            1 => format!("set the hole location of {}", hole(job, *row)),
            count => format!("set {count} hole locations of {}", hole(job, *row)),
        },
        Edit::SetRows {
            at, cells, places, ..
        } => rows(*at, cells, places),
        Edit::Together { edits } => together(job, edits),
        Edit::AddSlip { kind, .. } => format!("add {}", slips::kind(*kind)),
        Edit::SetLine {
            slip, line, text, ..
        } => {
            let verb = if text.trim().is_empty() {
                "clear"
            } else {
                "type"
            };
            let label = slips::line_of(job, *slip, *line);
            format!("{verb} {label} of {}", slip_name(job, *slip))
        }
        Edit::SetRuns { at, rows, .. } => runs(job, *at, rows),
        Edit::RemoveSlip { slip } => format!("delete {}", slip_name(job, *slip)),
        Edit::SetUnit(Unit::Mm) => "show millimeters".to_owned(),
        Edit::SetUnit(Unit::Inch) => "show inches".to_owned(),
        Edit::Overrule { figure, .. } => format!("overrule {}", self::figure(job, figure)),
        Edit::Answer(answer) => format!(
            "answer {} of {}",
            answers::concern(answer.concern),
            hole(job, answer.row)
        ),
        Edit::WithdrawAnswer { row, concern } => format!(
            "delete the answer to {} of {}",
            answers::concern(*concern),
            hole(job, *row)
        ),
        Edit::WithdrawOverrule { figure } => {
            format!("go back to the computed {}", self::figure(job, figure))
        }
    }
}

fn slip_name(job: &Job, id: u32) -> &'static str {
    job.slip(id).map_or("slip", |slip| slips::kind(slip.kind))
}

fn together(job: &Job, edits: &[Edit]) -> String {
    let of_run = |edit: &Edit| match edit {
        Edit::RemoveSlip { slip } => job
            .slip(*slip)
            .is_some_and(|slip| slip.kind == SlipKind::Run),
        _ => false,
    };
    match edits {
        [] => "change nothing".to_owned(),
        [_, _, ..] if edits.iter().all(of_run) => format!("delete {}", records(edits.len())),
        [first, ..] => label(job, first),
    }
}

fn records(count: usize) -> String {
    match count {
        1 => slips::kind(SlipKind::Run).to_owned(),
        count => format!("{count} {}s", slips::kind(SlipKind::Run)),
    }
}

fn runs(job: &Job, at: RunAt, rows: &[Vec<Option<String>>]) -> String {
    let width = rows.iter().map(Vec::len).max().unwrap_or(0);
    let texts: Vec<&String> = rows.iter().flatten().flatten().collect();
    let nothing = texts.iter().all(|text| text.trim().is_empty());
    let here = job.slips_of::<kind::Run>().count();
    match (texts.len(), width) {
        (1, 0 | 1) => {
            let verb = if nothing { "clear" } else { "type" };
            format!("{verb} {} of {}", slips::line(at.line), records(1))
        }
        (cells, _) if nothing => format!("clear {cells} cells"),
        _ if at.row >= here => format!("add {}", records(rows.len())),
        (_, 0 | 1) => format!("fill {} of {}", slips::line(at.line), records(rows.len())),
        _ => format!("paste {}", records(rows.len())),
    }
}

fn cells(job: &Job, at: CellAt, rows: &[Vec<Option<String>>]) -> String {
    let width = rows.iter().map(Vec::len).max().unwrap_or(0);
    let texts: Vec<&String> = rows.iter().flatten().flatten().collect();
    if let [text] = texts.as_slice()
        && width <= 1
    {
        let verb = if text.trim().is_empty() {
            "clear"
        } else {
            "type"
        };
        let hole = job
            .rows
            .get(at.row)
            .map_or_else(|| "a new row".to_owned(), |row| hole(job, row.id));
        return format!("{verb} {} of {hole}", english::column(at.column).name);
    }
    let nothing_but_spaces = texts.iter().all(|text| text.trim().is_empty());
    match (nothing_but_spaces, width) {
        (true, _) => format!("clear {} cells", texts.len()),
        (false, 1) => format!(
            "fill {} of {} rows",
            english::column(at.column).name,
            rows.len()
        ),
        (false, _) if rows.len() == 1 => "paste a row".to_owned(),
        (false, _) => format!("paste {} rows", rows.len()),
    }
}

fn rows(at: RowsAt, cells: &[Vec<Option<String>>], places: &[Vec<Place>]) -> String {
    let rows = match cells.len().max(places.len()) {
        0 => return "keep what was left out".to_owned(),
        1 => "a row".to_owned(),
        count => format!("{count} rows"),
    };
    let texts: Vec<&String> = cells.iter().flatten().flatten().collect();
    let nothing = texts.iter().all(|text| text.trim().is_empty());
    match at {
        RowsAt::Replace => format!("replace the table with {rows}"),
        RowsAt::Over { .. } if nothing && places.iter().all(Vec::is_empty) => {
            format!("clear {} cells", texts.len())
        }
        RowsAt::Over { .. } | RowsAt::Append => format!("paste {rows}"),
    }
}

/// A row by its mark, or by its place in the table.
pub(crate) fn hole(job: &Job, row: RowId) -> String {
    let mark = job.row(row).map_or("", |row| row.mark.text().trim());
    let is_short = !mark.is_empty() && mark.chars().count() <= LONGEST_MARK;
    if is_short && !mark.contains(char::is_control) {
        return format!("hole {mark}");
    }
    job.row_index(row)
        .map_or_else(|| "a row".to_owned(), |index| format!("row {}", index + 1))
}

/// A figure's name inside a sentence.
pub(crate) fn figure(job: &Job, figure: &FigureKey) -> String {
    match figure {
        FigureKey::Gap(row) => format!("gap of {}", hole(job, *row)),
        FigureKey::Feed(row) => format!("feed of {}", hole(job, *row)),
        FigureKey::HoleMinutes(row) => format!("minutes of {}", hole(job, *row)),
        FigureKey::Wear(row) => format!("wear of {}", hole(job, *row)),
        FigureKey::Electrodes(tube) => format!("electrodes of {tube}"),
        FigureKey::MachineHours => "machine hours".to_owned(),
        FigureKey::LaborHours => "labor hours".to_owned(),
        FigureKey::NotYetKnown => "not yet known".to_owned(),
        FigureKey::UnitPrice(quantity) => format!("price each at {quantity}"),
    }
}
