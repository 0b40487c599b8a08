//! A list of the shop's sheet as a table, and what is typed in it as one edit.

use std::borrow::Cow;
use std::collections::BTreeMap;
use std::sync::Arc;

use quillbore_job::read_quantity::date;
use quillbore_job::shop::sheet::{
    ShopColumn as Column, ShopEdit, ShopKind, ShopList as List, ShopRefused, ShopRowAt as RowAt,
    ShopSheet, ShownRow,
};
use quillbore_job::words::shop_sheet as words;
use quillbore_job::{Form, Unit};

use super::columns::{grid_columns, is_given};
use crate::grid::{CellState, GridAt, GridColumn, GridModel};
use crate::words::sheet::with_unit;

/// What is worked out for rows, by their lists, names and columns.
pub(crate) type Computed = BTreeMap<(List, String, Column), String>;

/// A list as the grid shows it.
pub(super) struct Rows {
    /// What is worked out for rows by their names.
    computed: Arc<Computed>,
    pub(super) list: List,
    pub(super) rows: Arc<[ShownRow]>,
    columns: Vec<GridColumn>,
    unit: Unit,
    /// How the page writes numbers and days.
    form: Form,
}

impl Rows {
    pub(super) fn new(
        list: List,
        rows: Arc<[ShownRow]>,
        (unit, form): (Unit, Form),
        computed: Arc<Computed>,
    ) -> Self {
        Self {
            form,
            computed,
            list,
            rows,
            columns: grid_columns(list, unit),
            unit,
        }
    }

    pub(super) fn column(&self, at: usize) -> Option<Column> {
        self.list.columns().get(at).copied()
    }

    fn cell(&self, at: GridAt) -> Option<(&ShownRow, Column)> {
        Some((self.rows.get(at.row)?, self.column(at.col)?))
    }

    fn row_at(&self, row: usize) -> RowAt {
        self.rows.get(row).map_or(RowAt::New, |row| row.at.clone())
    }

    /// A block of texts from a cell on as one edit; what a row needs beside them is filled in: the day of a
    /// count, the day of a new card, as the shop writes it.
    ///
    /// # Errors
    /// Where it reaches past the last column: nothing is dropped in silence.
    pub(super) fn set_cells(
        &self,
        at: GridAt,
        rows: Vec<Vec<String>>,
        day: &str,
    ) -> Result<ShopEdit, ShopRefused> {
        let columns = self.list.columns();
        let room = columns.len().saturating_sub(at.col);
        let width = |cells: &Vec<String>| {
            let last = cells.iter().rposition(|text| !text.trim().is_empty());
            last.map_or(0, |last| last + 1)
        };
        if let Some(columns) = rows.iter().map(width).find(|width| *width > room) {
            return Err(ShopRefused::PastLastColumn { columns, room });
        }
        let mut typed = Vec::new();
        for (index, texts) in rows.into_iter().enumerate() {
            let row = self.row_at(at.row + index);
            let cells = columns.iter().skip(at.col).copied().zip(texts);
            let cells = cells.filter(|(column, _)| !is_given(self.list, *column));
            let mut cells: Vec<(Column, String)> = cells.collect();
            self.fill_in(&row, &mut cells, day);
            typed.extend(each_day(row, cells, self.form));
        }
        Ok(ShopEdit::SetCells {
            list: self.list,
            rows: typed,
            unit: self.unit,
        })
    }

    /// Whether a block of texts begins a card without saying from which day on it counts.
    pub(super) fn begins_card_without_day(&self, at: GridAt, rows: &[Vec<String>]) -> bool {
        let is_typed = |text: &String| !text.trim().is_empty();
        let day = self.list.columns().iter();
        let day = day.skip(at.col).position(|one| *one == Column::ValidFrom);
        let lacks_day = |texts: &Vec<String>| {
            let day = day.and_then(|day| texts.get(day));
            texts.iter().any(is_typed) && !day.is_some_and(is_typed)
        };
        let new = rows.iter().skip(self.rows.len().saturating_sub(at.row));
        self.list == List::Rates && new.clone().any(lacks_day)
    }

    fn fill_in(&self, row: &RowAt, cells: &mut Vec<(Column, String)>, day: &str) {
        let has = |cells: &[(Column, String)], wanted: Column| {
            let mut all = cells.iter();
            all.any(|(column, text)| *column == wanted && !text.trim().is_empty())
        };
        let is_counted = has(cells, Column::InDrawer) && !has(cells, Column::Counted);
        if is_counted {
            cells.retain(|(column, _)| *column != Column::Counted);
            cells.push((Column::Counted, day.to_owned()));
        }
        // A rate of exchange is today's, unless a day is typed with it.
        let is_rated = has(cells, Column::ExchangeRate) && !has(cells, Column::ExchangeDay);
        if is_rated {
            cells.retain(|(column, _)| *column != Column::ExchangeDay);
            cells.push((Column::ExchangeDay, day.to_owned()));
        }
        let any = cells.iter().any(|(_, text)| !text.trim().is_empty());
        let is_new_card = self.list == List::Rates && *row == RowAt::New && any;
        if is_new_card && !has(cells, Column::ValidFrom) {
            cells.retain(|(column, _)| *column != Column::ValidFrom);
            cells.push((Column::ValidFrom, day.to_owned()));
        }
    }

    /// Rows taken out, as one edit; none where there are none.
    pub(super) fn delete(&self, at: usize, count: usize) -> Option<ShopEdit> {
        let gone = self.rows.iter().skip(at).take(count);
        let rows: Vec<RowAt> = gone.map(|row| row.at.clone()).collect();
        let list = self.list;
        (!rows.is_empty()).then_some(ShopEdit::DeleteRows { list, rows })
    }
}

/// Most days that one text may name.
const MOST_DAYS: i64 = 100;

/// A row as it is; one whose day is a range of them, `24.12.2026 to 3.1.2027`, is a row for each day.
fn each_day(
    row: RowAt,
    cells: Vec<(Column, String)>,
    form: Form,
) -> Vec<(RowAt, Vec<(Column, String)>)> {
    let range = cells.iter().find_map(|(column, text)| {
        let (from, to) = text.split_once(" to ").or_else(|| text.split_once(" - "))?;
        let days = (date(from).ok()?, date(to).ok()?);
        (*column == Column::Day).then_some(days)
    });
    let Some((from, to)) =
        range.filter(|(from, to)| (0..MOST_DAYS).contains(&(*to - *from).num_days()))
    else {
        return vec![(row, cells)];
    };
    let days = from.iter_days().take_while(|day| *day <= to);
    let rows = std::iter::once(row).chain(std::iter::repeat(RowAt::New));
    let each = rows.zip(days).map(|(row, day)| {
        let cells = cells.iter().map(|(column, text)| match column {
            Column::Day => (*column, form.day(day)),
            _ => (*column, text.clone()),
        });
        (row, cells.collect())
    });
    each.collect()
}

/// The edit of a list with what goes with it: the first machine of its own leaves the samples out, since no
/// shop has machines that it invented.
pub(super) fn with_samples_out(sheet: &ShopSheet, edit: ShopEdit) -> ShopEdit {
    let ShopEdit::SetCells { list, rows, .. } = &edit else {
        return edit;
    };
    let list = *list;
    let is_new = rows.iter().any(|(at, _)| *at == RowAt::New);
    let has_own = !sheet.own(list).is_empty() || sheet.without_samples.contains(&list);
    if list != List::Machines || !is_new || has_own {
        return edit;
    }
    ShopEdit::Together(vec![edit, ShopEdit::Samples { list, count: false }])
}

impl GridModel for Rows {
    fn row_name(&self) -> &str {
        words::row(self.list)
    }

    fn row_count(&self) -> usize {
        self.rows.len()
    }

    fn columns(&self) -> &[GridColumn] {
        &self.columns
    }

    fn text(&self, at: GridAt) -> Cow<'_, str> {
        let Some((row, column)) = self.cell(at) else {
            return Cow::Borrowed("");
        };
        if column.kind() == ShopKind::Computed {
            let known = self
                .computed
                .get(&(self.list, row.text(Column::Name).to_owned(), column));
            return Cow::Owned(known.cloned().unwrap_or_default());
        }
        let typed = row.typed(column);
        if typed.is_empty() && column == Column::MachineHour && self.list == List::Machines {
            // What the rates in force say of it counts, and not what machines usually cost.
            let name = row.text(Column::Name).to_owned();
            if let Some(rate) = self.computed.get(&(self.list, name, column)) {
                return Cow::Owned(rate.clone());
            }
        }
        let (text, unit) = if typed.is_empty() {
            (row.usual(column), Some(Unit::Mm))
        } else {
            (typed.text(), typed.unit())
        };
        if self.list == List::StartValues && column == Column::Name {
            return Cow::Owned(words::start_value(text).to_owned());
        }
        if column.kind() == ShopKind::Lines {
            return Cow::Owned(text.lines().collect::<Vec<_>>().join("; "));
        }
        let other = unit.is_some_and(|unit| unit != self.unit);
        if other && column.kind().is_measured() {
            return Cow::Owned(with_unit(text, unit));
        }
        Cow::Borrowed(text)
    }

    fn state(&self, at: GridAt) -> CellState {
        let Some((row, column)) = self.cell(at) else {
            return CellState::Plain;
        };
        let typed = row.typed(column);
        if typed.why().is_some() {
            CellState::Unread
        } else if typed.is_empty() {
            CellState::Usual
        } else {
            CellState::Plain
        }
    }
}

#[cfg(test)]
mod tests {
    use quillbore_job::shop::sheet::{apply_shop, shown_rows};

    use super::*;

    fn model(sheet: &ShopSheet, list: List) -> Rows {
        Rows::new(
            list,
            shown_rows(sheet, list, true).into(),
            (Unit::Mm, Form::default()),
            Arc::default(),
        )
    }

    fn day() -> &'static str {
        "27.11.2026"
    }

    #[test]
    fn a_range_of_days_off_is_a_row_for_each() {
        let sheet = ShopSheet::default();
        let days = model(&sheet, List::DaysOff);
        let typed = vec![
            "24.12.2026 to 3.1.2027".to_owned(),
            "works holiday".to_owned(),
        ];
        let edit = days
            .set_cells(GridAt::new(0, 0), vec![typed], day())
            .expect("an edit");
        let sheet = apply_shop(&sheet, &edit).expect("typed");
        let rows = sheet.own(List::DaysOff);
        let said = |row: &Arc<_>, column| -> String {
            let row: &quillbore_job::shop::sheet::ShopRow = row;
            row.cell(column).text().to_owned()
        };
        assert_eq!(rows.len(), 11);
        assert_eq!(said(&rows[0], Column::Day), "24 Dec 2026");
        assert_eq!(said(&rows[10], Column::Day), "3 Jan 2027");
        assert!(
            rows.iter()
                .all(|row| said(row, Column::What) == "works holiday")
        );
        // What is no range stays for its reader to refuse.
        for text in [
            "24.12.2026 to 3.1.2020",
            "24.12.2026 to later",
            "1.1.2026 to 1.1.2030",
        ] {
            let typed = vec![vec![text.to_owned()]];
            let edit = days
                .set_cells(GridAt::new(0, 0), typed, day())
                .expect("an edit");
            let sheet = apply_shop(&ShopSheet::default(), &edit).expect("typed");
            let rows = sheet.own(List::DaysOff);
            assert!(
                rows.len() == 1 && rows[0].cell(Column::Day).why().is_some(),
                "{text}"
            );
        }
    }

    #[test]
    fn a_count_gets_its_day_and_a_new_card_too() {
        let sheet = ShopSheet::default();
        let guides = model(&sheet, List::Guides);
        let at = GridAt::new(0, 4);
        assert_eq!(guides.column(4), Some(Column::InDrawer));
        let edit = guides
            .set_cells(at, vec![vec!["3".to_owned()]], day())
            .expect("an edit");
        let sheet = apply_shop(&sheet, &edit).expect("typed");
        let row = &sheet.own(List::Guides)[0];
        assert_eq!(row.cell(Column::Counted).text(), "27.11.2026");
        let rates = model(&sheet, List::Rates);
        let at = GridAt::new(rates.rows.len(), 2);
        let edit = rates
            .set_cells(at, vec![vec!["45".to_owned()]], day())
            .expect("an edit");
        let sheet = apply_shop(&sheet, &edit).expect("typed");
        assert_eq!(
            sheet.own(List::Rates)[0].cell(Column::ValidFrom).text(),
            "27.11.2026"
        );
    }

    #[test]
    fn a_rate_of_exchange_gets_its_day_unless_one_is_typed_with_it() {
        let sheet = ShopSheet::default();
        let customers = model(&sheet, List::Customers);
        let at = List::Customers.columns();
        let at = at.iter().position(|one| *one == Column::ExchangeRate);
        let at = GridAt::new(0, at.expect("a column"));
        assert_eq!(customers.column(at.col + 1), Some(Column::ExchangeDay));
        let typed = |texts: &[&str]| {
            let texts = texts.iter().map(|text| (*text).to_owned()).collect();
            let edit = customers.set_cells(at, vec![texts], day());
            let sheet = apply_shop(&sheet, &edit.expect("an edit")).expect("typed");
            // Of nothing typed no row is made.
            let row = sheet.own(List::Customers).first();
            row.map_or_else(String::new, |row| {
                row.cell(Column::ExchangeDay).text().to_owned()
            })
        };
        assert_eq!(typed(&["0.92"]), "27.11.2026");
        assert_eq!(typed(&["0.92", "2026-11-20"]), "2026-11-20");
        assert_eq!(typed(&[""]), "");
    }

    /// An electrode and a guide of one name each show what is free of themselves.
    #[test]
    fn what_is_free_is_shown_by_list_and_name() {
        let named = |sheet: &ShopSheet, list| {
            let edit = ShopEdit::SetCells {
                list,
                rows: vec![(RowAt::New, vec![(Column::Name, "fine".to_owned())])],
                unit: Unit::Mm,
            };
            apply_shop(sheet, &edit).expect("typed")
        };
        let sheet = named(&ShopSheet::default(), List::Electrodes);
        let sheet = named(&sheet, List::Guides);
        let of = |list, free: &str| ((list, "fine".to_owned(), Column::Free), free.to_owned());
        let computed = Computed::from([of(List::Electrodes, "4"), of(List::Guides, "-1")]);
        let computed = Arc::new(computed);
        for (list, free) in [(List::Electrodes, "4"), (List::Guides, "-1")] {
            let rows = shown_rows(&sheet, list, false).into();
            let model = Rows::new(
                list,
                rows,
                (Unit::Mm, Form::default()),
                Arc::clone(&computed),
            );
            let column = list
                .columns()
                .iter()
                .position(|column| *column == Column::Free);
            let at = GridAt::new(0, column.expect("a column"));
            assert_eq!(model.text(at), free, "{list:?}");
        }
    }

    #[test]
    fn the_first_machine_leaves_the_samples_out_and_no_other_row_does() {
        let sheet = ShopSheet::default();
        let machines = model(&sheet, List::Machines);
        let new = GridAt::new(machines.rows.len(), 0);
        let name = || vec![vec!["Plover".to_owned()]];
        let edit = machines.set_cells(new, name(), day()).expect("an edit");
        let sheet = apply_shop(&sheet, &with_samples_out(&sheet, edit)).expect("typed");
        assert_eq!(shown_rows(&sheet, List::Machines, true).len(), 1);
        let over = model(&ShopSheet::default(), List::Machines);
        let edit = over.set_cells(GridAt::new(0, 1), vec![vec!["71".to_owned()]], day());
        let edit = with_samples_out(&ShopSheet::default(), edit.expect("an edit"));
        assert!(matches!(edit, ShopEdit::SetCells { .. }));
    }

    #[test]
    fn a_block_that_is_too_wide_is_refused_whole() {
        let sheet = ShopSheet::default();
        let days = model(&sheet, List::DaysOff);
        let row = vec![
            "2026-12-24".to_owned(),
            "Christmas Eve".to_owned(),
            "x".to_owned(),
        ];
        let refused = days.set_cells(GridAt::new(0, 0), vec![row], day());
        assert_eq!(
            refused,
            Err(ShopRefused::PastLastColumn {
                columns: 3,
                room: 2
            })
        );
    }
}
