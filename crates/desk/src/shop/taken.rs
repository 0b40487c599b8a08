//! What another desk did, taken onto the page under what is being typed, and where both met.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use quillbore_job::shop::sheet::{ShopClash, ShopList, ShopRowAt as RowAt, ShopSheet, ShownRow};
use quillbore_job::shop_history::ShopHistory;
use quillbore_job::words::shop_sheet as words;

use super::{At, ShopPage};
use crate::grid::GridView;
use crate::words::shop as said;

/// Who changes the sheet.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum By {
    /// Whoever sits here: a row that is new is the one that was begun here.
    Us,
    /// Another desk.
    Others,
}

/// Something that two desks did, each in its way, as long as its place says what it did then.
#[derive(Clone, Debug)]
pub struct Met {
    /// What.
    pub clash: ShopClash,
    /// The sheet in which both were put together.
    of: Arc<ShopSheet>,
}

impl Met {
    /// What two desks did, with the sheet in which it was put together.
    pub(crate) fn all(clashes: Vec<ShopClash>, of: &Arc<ShopSheet>) -> impl Iterator<Item = Self> {
        clashes.into_iter().map(|clash| Self {
            clash,
            of: Arc::clone(of),
        })
    }

    /// Whether its place says in a sheet what it said when both were put together.
    fn stands_in(&self, now: &ShopSheet) -> bool {
        match &self.clash {
            ShopClash::Line(line, _) => now.line(*line) == self.of.line(*line),
            ShopClash::Cell(list, id, column, _) => {
                let cell = |sheet: &ShopSheet| {
                    let row = sheet.row(*list, *id)?;
                    Some(row.cell(*column).clone())
                };
                cell(now).is_some_and(|now| Some(now) == cell(&self.of))
            }
            ShopClash::Row(list, id, _) => now.row(*list, *id).is_some(),
            ShopClash::Logo => now.logo == self.of.logo,
        }
    }
}

impl ShopPage {
    /// Forgets what two desks did where something else stands there by now.
    pub(crate) fn drop_settled(&mut self) {
        let now = self.history.now();
        self.clashes.retain(|met| met.stands_in(now));
    }

    /// Whether something is being typed that is not in its place yet.
    pub(crate) fn is_typing(&self) -> bool {
        let in_a_cell = self.grids.values().any(|view| view.draft().is_some());
        in_a_cell || self.drafts.iter().any(|draft| !self.is_as_it_stands(draft))
    }

    /// Puts the sheet in place that stands on the shelf now: cursors stay in their rows, and a line in
    /// which nothing was typed says what stands there now.
    pub(crate) fn put_sheet(&mut self, sheet: ShopSheet) {
        let mut drafts = std::mem::take(&mut self.drafts);
        drafts.retain(|at, text| !self.is_as_it_stands((at, text)));
        self.drafts = drafts;
        self.in_its_row(By::Others, |page| page.history.put(sheet));
        self.drop_settled();
    }

    /// Takes a step of the sheet's history, with every cursor staying in its row.
    pub(crate) fn step<T>(&mut self, step: impl FnOnce(&mut ShopHistory) -> T) -> T {
        self.in_its_row(By::Us, |page| step(&mut page.history))
    }

    /// Has rows known by other identities, from the ones that they had.
    pub(crate) fn renumber(&mut self, renumbered: &BTreeMap<u32, u32>) {
        let sheet = self.history.now().renumbered(renumbered);
        self.history.put(sheet);
    }

    /// Does something to the rows of lists while every cursor stays in the row that it is in, also one that
    /// is only just begun.
    pub(super) fn in_its_row<T>(&mut self, by: By, change: impl FnOnce(&mut Self) -> T) -> T {
        let lists: Vec<ShopList> = self.grids.keys().copied().collect();
        let before: Vec<_> = lists.iter().map(|list| self.rows(*list)).collect();
        let done = change(self);
        for (list, before) in lists.into_iter().zip(before) {
            let after = self.rows(list);
            let Some(view) = self.grids.get_mut(&list) else {
                continue;
            };
            let is_typing = view.draft().is_some();
            let is_there = follow_row(view, &before, &after, by);
            if !is_there {
                self.row_is_gone(list, is_typing);
            }
        }
        done
    }

    /// Says what becomes of what was being typed in a row that is gone: nothing of it goes into another one.
    fn row_is_gone(&mut self, list: ShopList, in_a_cell: bool) {
        if in_a_cell {
            self.told_when_saved = said::row_taken_out(list);
        }
        let of_list = |at: &At| matches!(at, At::Long(of, _) if *of == list);
        let long = self.drafts.extract_if(.., |at, _| of_list(at));
        for (at, text) in long.collect::<Vec<_>>() {
            if let At::Long(_, column) = at {
                self.told_when_saved = said::text_taken_out(list, words::column(column), &text);
            }
        }
    }

    /// Whether a line that has the keyboard says what stands there.
    fn is_as_it_stands(&self, (at, text): (&At, &String)) -> bool {
        let sheet = self.history.now();
        match at {
            At::Line(line) => sheet.line(*line).text() == *text,
            // Which row that is, and what stands at the first start, the page alone knows.
            At::Long(..) | At::Start(_) => false,
        }
    }
}

/// Keeps the cursor of a list in the row that it is in; what is selected keeps its shape. False where that
/// row is gone.
fn follow_row(view: &mut GridView, before: &[ShownRow], after: &[ShownRow], by: By) -> bool {
    let cursor = view.cursor();
    let place = |row: &ShownRow| after.iter().position(|other| is_row(row, other));
    let (row, is_there) = match before.get(cursor.row) {
        Some(row) => match place(row) {
            Some(row) => (row, true),
            // What is being typed is begun anew rather than put into another row.
            None if view.draft().is_some() => (after.len(), false),
            None => {
                let mut below = before.iter().skip(cursor.row);
                (below.find_map(place).unwrap_or(after.len()), false)
            }
        },
        // Below the last row new ones are begun.
        None => {
            let begun = cursor.row - before.len();
            let known: BTreeSet<&RowAt> = before.iter().map(|row| &row.at).collect();
            let is_new = |row: &ShownRow| {
                let own = row.own.as_ref();
                own.is_some_and(|own| own.stands_for.is_none()) && !known.contains(&row.at)
            };
            let all = after.iter().enumerate();
            let new = all.filter(|(_, row)| by == By::Us && is_new(row));
            let new: Vec<usize> = new.map(|(at, _)| at).collect();
            let below = after.len() + begun.saturating_sub(new.len());
            (new.get(begun).copied().unwrap_or(below), true)
        }
    };
    if row != cursor.row {
        view.stand_in(row);
    }
    is_there
}

/// Whether it is the same row, also where one began to stand for a sample.
fn is_row(before: &ShownRow, after: &ShownRow) -> bool {
    let sample = |row: &ShownRow| match &row.at {
        RowAt::Sample(name) => Some(name.clone()),
        _ => row.own.as_ref().and_then(|own| own.stands_for.clone()),
    };
    before.at == after.at || sample(before).is_some_and(|name| sample(after) == Some(name))
}

#[cfg(test)]
mod tests {
    use quillbore_job::Unit;
    use quillbore_job::shop::sheet::{
        ShopColumn as Column, ShopEdit, ShopLine, apply_shop, merge_shop,
    };

    use super::*;
    use crate::grid::GridAt;

    fn machine(sheet: &ShopSheet, at: RowAt, cells: &[(Column, &str)]) -> ShopSheet {
        let texts = cells.iter();
        let edit = ShopEdit::SetCells {
            list: ShopList::Machines,
            rows: vec![(
                at,
                texts.map(|(c, text)| (*c, (*text).to_owned())).collect(),
            )],
            unit: Unit::Mm,
        };
        apply_shop(sheet, &edit).expect("an edit")
    }

    fn name(sheet: &ShopSheet, text: &str) -> ShopSheet {
        let edit = ShopEdit::SetLine {
            line: ShopLine::Name,
            text: text.to_owned(),
            unit: Unit::Mm,
        };
        apply_shop(sheet, &edit).expect("an edit")
    }

    fn page(sheet: ShopSheet) -> ShopPage {
        let mut page = ShopPage::default();
        page.put_sheet(sheet);
        page
    }

    #[test]
    fn what_two_desks_did_is_told_until_something_else_stands_there() {
        let base = machine(
            &ShopSheet::default(),
            RowAt::New,
            &[(Column::Name, "Plover")],
        );
        let row = base.own(ShopList::Machines)[0].id;
        let stroke =
            |sheet: &ShopSheet, text| machine(sheet, RowAt::Own(row), &[(Column::Stroke, text)]);
        let ours = name(&stroke(&base, "300"), "ours");
        let theirs = name(&stroke(&base, "400"), "theirs");
        let merged = merge_shop(&base, &ours, &theirs);
        assert_eq!(merged.clashes.len(), 2);
        let both = Arc::new(merged.sheet);
        let mut page = page((*both).clone());
        page.clashes.extend(Met::all(merged.clashes, &both));
        // What is typed elsewhere changes nothing of it.
        page.put_sheet(machine(&both, RowAt::Own(row), &[(Column::Pressure, "60")]));
        assert_eq!(page.clashes.len(), 2);
        page.put_sheet(stroke(&both, "350"));
        assert!(
            matches!(page.clashes.as_slice(), [met] if matches!(met.clash, ShopClash::Line(..))),
            "{:?}",
            page.clashes
        );
        page.put_sheet(name(&both, "a third name"));
        assert!(page.clashes.is_empty());
    }

    #[test]
    fn a_cursor_stays_in_its_row_whatever_another_desk_put_above_or_took_out() {
        let mut sheet = ShopSheet::default();
        for name in ["Plover", "Dunlin", "Knot"] {
            sheet = machine(&sheet, RowAt::New, &[(Column::Name, name)]);
        }
        let mut page = page(sheet.clone());
        let list = ShopList::Machines;
        let at = |page: &mut ShopPage, name: &str| {
            let rows = page.rows(list);
            rows.iter().position(|row| row.text(Column::Name) == name)
        };
        let stands = at(&mut page, "Dunlin").expect("the row");
        page.grids
            .entry(list)
            .or_default()
            .go_to(GridAt::new(stands, 2));
        let first = sheet.own(list)[0].id;
        let without = ShopEdit::DeleteRows {
            list,
            rows: vec![RowAt::Own(first)],
        };
        page.put_sheet(apply_shop(&sheet, &without).expect("an edit"));
        let now = at(&mut page, "Dunlin").expect("the row");
        assert_eq!(now, stands - 1);
        assert_eq!(page.grids[&list].cursor(), GridAt::new(now, 2));
        // A new row that is being begun stays a new row.
        let last = page.rows(list).len();
        page.grids
            .entry(list)
            .or_default()
            .go_to(GridAt::new(last, 0));
        let more = machine(page.history.now(), RowAt::New, &[(Column::Name, "Ruff")]);
        page.put_sheet(more);
        assert_eq!(page.grids[&list].cursor(), GridAt::new(last + 1, 0));
    }

    #[test]
    fn a_text_of_a_row_that_is_taken_out_goes_into_no_other_row_and_is_told() {
        let mut sheet = ShopSheet::default();
        let list = ShopList::Customers;
        for name in ["Alder", "Heron"] {
            let edit = ShopEdit::SetCells {
                list,
                rows: vec![(RowAt::New, vec![(Column::Name, name.to_owned())])],
                unit: Unit::Mm,
            };
            sheet = apply_shop(&sheet, &edit).expect("an edit");
        }
        let mut page = page(sheet.clone());
        page.grids.entry(list).or_default().go_to(GridAt::new(0, 0));
        let at = At::Long(list, Column::Address);
        page.drafts.insert(at, "2 Mill Lane".to_owned());
        let without = |row: usize| {
            let rows = vec![RowAt::Own(sheet.own(list)[row].id)];
            let edit = ShopEdit::DeleteRows { list, rows };
            apply_shop(&sheet, &edit).expect("an edit")
        };
        page.put_sheet(without(1));
        assert_eq!(page.drafts[&at], "2 Mill Lane", "its row is there");
        page.put_sheet(without(0));
        assert!(page.drafts.is_empty(), "it would go into Heron's row");
        let told = &page.told_when_saved;
        assert!(told.contains("2 Mill Lane"), "{told}");
    }

    #[test]
    fn a_line_with_the_keyboard_is_typed_in_only_where_it_says_something_else() {
        let mut page = page(name(&ShopSheet::default(), "first"));
        let at = At::Line(ShopLine::Name);
        page.drafts.insert(at, "first".to_owned());
        assert!(!page.is_typing());
        page.put_sheet(name(&ShopSheet::default(), "second"));
        assert!(page.drafts.is_empty(), "it would put the old name back");
        page.drafts.insert(at, "thi".to_owned());
        assert!(page.is_typing());
        page.put_sheet(name(&ShopSheet::default(), "fourth"));
        assert_eq!(page.drafts[&at], "thi");
    }
}
