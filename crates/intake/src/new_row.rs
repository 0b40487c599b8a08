//! A row on its way into the hole table.

use std::collections::BTreeMap;
use std::sync::Arc;

use quillbore_calc::input::Place;
use quillbore_job::{Column, Edit, Report, RowsAt, Unit};

/// The texts of a row's cells, of those that the table says something of.
pub(crate) type Cells = BTreeMap<Column, String>;

/// A row on its way into the hole table.
pub(crate) struct NewRow {
    pub(crate) cells: Cells,
    pub(crate) places: Vec<Place>,
    /// Its first location as it is typed, where it has one and a count of its own.
    pub(crate) typed_place: Option<String>,
}

impl NewRow {
    /// Gives it a further place, where there is one; true where there is.
    pub(crate) fn add(&mut self, place: Option<Place>) -> bool {
        let number = u32::try_from(self.places.len() + 1).unwrap_or(u32::MAX);
        let place = place.map(|place| Place { number, ..place });
        self.places.extend(place);
        place.is_some()
    }

    pub(crate) fn add_to_note(&mut self, more: &str) {
        let note = self.cells.entry(Column::Note).or_default();
        if !note.is_empty() && !more.is_empty() {
            note.push_str("; ");
        }
        note.push_str(more);
    }

    pub(crate) fn is_blank(&self) -> bool {
        self.places.is_empty() && is_blank(&self.cells)
    }
}

/// The rows that an edit writes.
pub(crate) fn rows_of(edit: Edit) -> Vec<NewRow> {
    let Edit::SetRows { cells, places, .. } = edit else {
        return Vec::new();
    };
    let rows = cells.into_iter().zip(places);
    rows.map(|(cells, places)| {
        let texts: Vec<Option<String>> = cells;
        let filled = Column::ALL.iter().copied().zip(texts);
        NewRow {
            cells: filled
                .filter_map(|(column, text)| Some((column, text?)))
                .collect(),
            places,
            typed_place: None,
        }
    })
    .collect()
}

/// Whether nothing stands in any of the cells.
pub(crate) fn is_blank(cells: &Cells) -> bool {
    cells.values().all(|text| text.trim().is_empty())
}

/// The edit that writes rows, with the report of where they come from.
pub(crate) fn edit_of(
    at: RowsAt,
    rows: Vec<NewRow>,
    unit: Unit,
    report: Option<Arc<Report>>,
) -> Edit {
    let (mut cells, mut places) = (Vec::new(), Vec::new());
    for row in rows {
        let last = row.cells.last_key_value();
        let mut texts = Vec::with_capacity(last.map_or(0, |(column, _)| *column as usize + 1));
        for (column, text) in row.cells {
            texts.resize(column as usize, None);
            texts.push(Some(text));
        }
        cells.push(texts);
        places.push(row.places);
    }
    Edit::SetRows {
        at,
        cells,
        places,
        unit,
        report,
    }
}
