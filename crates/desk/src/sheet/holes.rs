//! The hole table: typed columns, and what was computed of them beside.

use std::borrow::Cow;
use std::sync::Arc;

use egui::Ui;
use quillbore_calc::Figure;
use quillbore_calc::job_figures::HoleFigures;
use quillbore_intake::Foreign;
use quillbore_job::read_cell::CellKind;
use quillbore_job::results::{Beside, Results};
use quillbore_job::words::english;
use quillbore_job::{CellAt as JobCell, Column, Edit, Job, Shop, Unit, show_quantity as show};

use super::parts::plain_head;
use super::shared::{Anchors, Shared};
use crate::grid::{CellAt, CellState, GridAsk, GridColumn, GridModel, SetWhy, grid_ui};
use crate::look;
use crate::view::{Ask, Pasting, View};

/// A column of the table on the screen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Shown {
    Typed(Column),
    Made(Made),
}

/// A computed column.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Made {
    Electrode,
    Drills,
    Verdict,
    Minutes,
    Wear,
    PerHole,
}

const USUAL: &[Shown] = &[
    Shown::Typed(Column::Mark),
    Shown::Typed(Column::Count),
    Shown::Typed(Column::Size),
    Shown::Typed(Column::Depth),
    Shown::Typed(Column::End),
    Shown::Typed(Column::Angle),
    Shown::Typed(Column::Behind),
    Shown::Made(Made::Electrode),
    Shown::Made(Made::Verdict),
    Shown::Made(Made::Minutes),
    Shown::Made(Made::Wear),
];

const MADE: &[Made] = &[
    Made::Electrode,
    Made::Drills,
    Made::Verdict,
    Made::Minutes,
    Made::Wear,
    Made::PerHole,
];

/// The block of the holes.
pub fn holes_ui(
    ui: &mut Ui,
    shared: &Shared<'_>,
    view: &mut View,
    anchors: &mut Anchors,
    asks: &mut Vec<Ask>,
) {
    plain_head(ui, "Holes");
    anchors.table = Some(ui.cursor().top() + 10.0);
    let shown = if view.all_columns {
        let typed = Column::ALL.iter().map(|column| Shown::Typed(*column));
        typed
            .chain(MADE.iter().map(|made| Shown::Made(*made)))
            .collect()
    } else {
        USUAL.to_vec()
    };
    let model = Holes::new(shared, shown);
    let mut wanted = Vec::new();
    let height = (model.row_count() as f32 + 1.0)
        .mul_add(21.0, 46.0)
        .clamp(120.0, 420.0);
    let table = grid_ui(ui, "holes", &model, &mut view.grid, height, &mut wanted);
    for (row, y) in table.rows {
        if let Some(row) = shared.job.rows.get(row) {
            anchors.put(Beside::Row(row.id, None), y);
            if view
                .opened
                .is_some_and(|figure| row_of(figure) == Some(row.id))
            {
                anchors.opened = Some(y);
            }
        }
    }
    for want in wanted {
        translate(want, &model, shared, view, asks);
    }
    ui.horizontal(|ui| {
        if look::quiet_word(
            ui,
            if view.all_columns {
                "fewer columns"
            } else {
                "all columns"
            },
        )
        .clicked()
        {
            view.all_columns = !view.all_columns;
        }
        ui.add_space(8.0);
        if look::quiet_word(ui, "insert row").clicked() {
            view.grid.press_later(egui::Key::Insert);
        }
        ui.add_space(8.0);
        if look::quiet_word(ui, "take row out").clicked() {
            view.grid.press_later(egui::Key::Delete);
        }
        ui.add_space(8.0);
        let row = shared.job.rows.get(view.grid.cursor().row);
        let word = row.map_or_else(String::new, |row| match row.places.len() {
            0 => format!("places of {}", shared.speaker().hole(row.id)),
            count => format!("{count} places of {}", shared.speaker().hole(row.id)),
        });
        if let Some(row) = row
            && look::quiet_word(ui, &word).clicked()
        {
            view.places = match view.places {
                Some((open, _)) if open == row.id => None,
                _ => Some((row.id, super::places::text_of(row))),
            };
        }
    });
    super::places::places_ui(ui, shared, view, asks);
    super::reports::reports_ui(ui, shared.job, view);
}

const fn row_of(figure: Figure) -> Option<quillbore_calc::RowId> {
    match figure {
        Figure::Electrode(row)
        | Figure::Gap(row)
        | Figure::Feed(row)
        | Figure::HoleMinutes(row)
        | Figure::Wear(row)
        | Figure::TargetDepth(row)
        | Figure::ReachOne(row)
        | Figure::ElectrodesPerHole(row) => Some(row),
        _ => None,
    }
}

/// What the grid wants, as edits of the job.
fn translate(
    want: GridAsk,
    model: &Holes<'_>,
    shared: &Shared<'_>,
    view: &mut View,
    asks: &mut Vec<Ask>,
) {
    let unit = shared.job.unit;
    match want {
        GridAsk::SetCells { at, rows, why } => {
            if why == SetWhy::Pasted
                && let Ok(table) = Foreign::of_rows(rows.clone(), &model.typed_from(at.col))
            {
                let row = at.row;
                asks.push(Ask::Paste(Box::new(Pasting { table, row, unit })));
                return;
            }
            if let Some(edit) = model.set_cells(at, rows, unit) {
                asks.push(Ask::Edit(edit));
            }
        }
        GridAsk::InsertRows { at, count } => {
            asks.push(Ask::Edit(Edit::InsertRows { before: at, count }));
        }
        GridAsk::DeleteRows { at, count } => {
            let rows = shared
                .job
                .rows
                .iter()
                .skip(at)
                .take(count)
                .map(|row| row.id)
                .collect();
            asks.push(Ask::Edit(Edit::DeleteRows { rows }));
        }
        GridAsk::OpenWorking(at) => {
            if let (Some(Shown::Made(made)), Some(row)) =
                (model.shown.get(at.col), shared.job.rows.get(at.row))
            {
                view.overrule = crate::view::OverruleDraft::default();
                view.opened = Some(match made {
                    Made::Electrode | Made::Verdict => Figure::Electrode(row.id),
                    Made::Drills => Figure::Gap(row.id),
                    Made::Minutes => Figure::HoleMinutes(row.id),
                    Made::Wear => Figure::Wear(row.id),
                    Made::PerHole => Figure::ElectrodesPerHole(row.id),
                });
            }
        }
    }
}

/// The hole table as the grid reads it.
struct Holes<'a> {
    job: &'a Job,
    results: &'a Results,
    shop: &'a Shop,
    shown: Vec<Shown>,
    columns: Vec<GridColumn>,
}

impl<'a> Holes<'a> {
    fn new(shared: &Shared<'a>, shown: Vec<Shown>) -> Self {
        let columns = shown
            .iter()
            .map(|shown| grid_column(*shown, shared.job.unit))
            .collect();
        Self {
            job: shared.job,
            results: shared.results,
            shop: shared.shop,
            shown,
            columns,
        }
    }

    fn figures(&self, row: usize) -> Option<&HoleFigures> {
        self.results.figures.holes.get(row).map(Arc::as_ref)
    }

    /// The typed columns from a column of the screen on; computed ones between are none.
    fn typed_from(&self, col: usize) -> Vec<Option<Column>> {
        let shown = self.shown.iter().skip(col);
        shown
            .map(|shown| match shown {
                Shown::Typed(column) => Some(*column),
                Shown::Made(_) => None,
            })
            .collect()
    }

    /// A block from a cell on, spread over the typed columns that it lies on; what falls on computed
    /// columns is computed there anyway.
    fn set_cells(&self, at: CellAt, rows: Vec<Vec<String>>, unit: Unit) -> Option<Edit> {
        let width = rows.iter().map(Vec::len).max().unwrap_or(0);
        let typed: Vec<usize> = (at.col..(at.col + width).min(self.shown.len()))
            .filter_map(|col| match self.shown.get(col) {
                Some(Shown::Typed(column)) => Column::ALL.iter().position(|known| known == column),
                _ => None,
            })
            .collect();
        let first = typed.iter().min().copied()?;
        let block = rows
            .into_iter()
            .map(|cells| self.spread(at.col, first, cells))
            .collect();
        let column = *Column::ALL.get(first)?;
        Some(Edit::SetCells {
            at: JobCell {
                row: at.row,
                column,
            },
            rows: block,
            unit,
        })
    }

    fn spread(&self, from: usize, first: usize, cells: Vec<String>) -> Vec<Option<String>> {
        let mut row = vec![None; Column::ALL.len() - first];
        for (index, text) in cells.into_iter().enumerate() {
            let place = match self.shown.get(from + index) {
                Some(Shown::Typed(column)) => Column::ALL
                    .iter()
                    .position(|known| known == column)
                    .and_then(|all| all.checked_sub(first)),
                Some(Shown::Made(_)) | None => None,
            };
            if let Some(cell) = place.and_then(|place| row.get_mut(place)) {
                *cell = Some(text);
            }
        }
        while row.len() > 1 && row.last().is_some_and(Option::is_none) {
            row.pop();
        }
        row
    }

    fn made(&self, made: Made, row: usize) -> Option<String> {
        let hole = self.figures(row)?;
        let unit = self.job.unit;
        Some(match made {
            Made::Electrode => {
                let tube = hole.tube?.of(&self.shop.tables.tubes)?;
                let channels = if tube.channels > 1 { " multi" } else { "" };
                format!("{}{channels}", show::length_mm(tube.outer_mm, unit))
            }
            Made::Drills => show::limits(hole.size_mm?, unit),
            Made::Verdict => english::verdict(hole.verdict?).to_owned(),
            Made::Minutes => show::minutes(hole.minutes?.p50),
            Made::Wear => show::length_mm(hole.wear_mm?, unit),
            Made::PerHole => hole.electrodes_per_hole?.to_string(),
        })
    }
}

impl GridModel for Holes<'_> {
    fn row_name(&self) -> &str {
        "hole"
    }

    fn row_count(&self) -> usize {
        self.job.rows.len()
    }

    fn columns(&self) -> &[GridColumn] {
        &self.columns
    }

    fn text(&self, at: CellAt) -> Cow<'_, str> {
        let Some(row) = self.job.rows.get(at.row) else {
            return Cow::Borrowed("");
        };
        match self.shown.get(at.col) {
            Some(Shown::Typed(column)) => {
                if *column == Column::Count && row.count.is_empty() && !row.places.is_empty() {
                    return Cow::Owned(row.places.len().to_string());
                }
                let look = row.cell(*column);
                let other =
                    column.is_measured() && look.unit.is_some_and(|unit| unit != self.job.unit);
                if other {
                    Cow::Owned(with_other_unit(look.text, look.unit, true))
                } else {
                    Cow::Borrowed(look.text)
                }
            }
            Some(Shown::Made(made)) => Cow::Owned(self.made(*made, at.row).unwrap_or_default()),
            None => Cow::Borrowed(""),
        }
    }

    fn state(&self, at: CellAt) -> CellState {
        match self.shown.get(at.col) {
            Some(Shown::Typed(column)) => {
                let why = self
                    .job
                    .rows
                    .get(at.row)
                    .and_then(|row| row.cell(*column).why);
                if why.is_some() {
                    CellState::Unread
                } else {
                    CellState::Plain
                }
            }
            Some(Shown::Made(made)) => {
                let overruled = self.job.overrules.iter().any(|overrule| {
                    use quillbore_job::job::FigureKey as Key;
                    let row = self.job.rows.get(at.row).map(|row| row.id);
                    match (&overrule.figure, made) {
                        (Key::HoleMinutes(id), Made::Minutes)
                        | (Key::Wear(id), Made::Wear)
                        | (Key::Gap(id), Made::Drills) => Some(*id) == row,
                        _ => false,
                    }
                });
                if overruled {
                    CellState::Overruled
                } else {
                    CellState::Computed
                }
            }
            None => CellState::Plain,
        }
    }
}

/// A bare number that was typed in the other unit, with that unit behind it.
#[must_use]
pub fn with_other_unit(text: &str, unit: Option<Unit>, other: bool) -> String {
    let bare = !text.is_empty()
        && !text
            .chars()
            .any(|letter| letter.is_alphabetic() || matches!(letter, '"' | '#' | '\u{2033}'));
    match (other && bare, unit) {
        (true, Some(Unit::Mm)) => format!("{text} mm"),
        (true, Some(Unit::Inch)) => format!("{text} in"),
        _ => text.to_owned(),
    }
}

fn grid_column(shown: Shown, unit: Unit) -> GridColumn {
    let length = english::unit_of_length(unit);
    let (head, unit, width, right) = match shown {
        Shown::Typed(column) => (
            english::column(column).head,
            english::column_unit(column, unit),
            width(column),
            is_number(column.kind()),
        ),
        Shown::Made(made) => match made {
            Made::Electrode => ("electrode", length, 72.0, true),
            Made::Drills => ("drills", length, 92.0, true),
            Made::Verdict => ("verdict", "", 104.0, false),
            Made::Minutes => ("a hole", "min", 54.0, true),
            Made::Wear => ("wear", length, 54.0, true),
            Made::PerHole => ("per hole", "", 58.0, true),
        },
    };
    GridColumn {
        head: head.to_owned(),
        unit: unit.to_owned(),
        word: head.to_owned(),
        width,
        stretch: matches!(shown, Shown::Typed(column) if is_long(column.kind())),
        right,
        read_only: matches!(shown, Shown::Made(_)),
    }
}

/// How wide a typed column is painted.
const fn width(column: Column) -> f32 {
    match column.kind() {
        CellKind::Mark => 46.0,
        CellKind::Holes => 48.0,
        CellKind::Size => 104.0,
        CellKind::Depth | CellKind::Every => 84.0,
        CellKind::Angle => 62.0,
        CellKind::HoleEnd => 64.0,
        // Its head is longer than what stands below it.
        CellKind::YesNo if matches!(column, Column::CoreTrapped) => 84.0,
        CellKind::Length | CellKind::YesNo | CellKind::Ends => 70.0,
        CellKind::Surface | CellKind::Layers | CellKind::Tube => 120.0,
        CellKind::Note => 150.0,
    }
}

/// Whether cells stand to the right, figure under figure.
const fn is_number(kind: CellKind) -> bool {
    match kind {
        CellKind::Holes
        | CellKind::Depth
        | CellKind::Angle
        | CellKind::Length
        | CellKind::Every => true,
        CellKind::Mark
        | CellKind::Size
        | CellKind::HoleEnd
        | CellKind::Surface
        | CellKind::YesNo
        | CellKind::Layers
        | CellKind::Ends
        | CellKind::Tube
        | CellKind::Note => false,
    }
}

/// Whether a column takes the room that is left.
const fn is_long(kind: CellKind) -> bool {
    matches!(kind, CellKind::Size | CellKind::Note)
}
