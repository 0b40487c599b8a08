//! One list of the shop: its table, the texts of several lines of the row one is at, and its words.

use std::sync::Arc;

use chrono::NaiveDate;
use egui::{Key, Role, Ui, WidgetInfo};
use quillbore_job::shop::sheet::{
    ShopColumn, ShopEdit, ShopKind, ShopList as List, ShopRowAt as RowAt,
};
use quillbore_job::words::shop_sheet as words;
use quillbore_office::places;
use quillbore_office::shop_csv::LISTS;

use super::lines::{Typing, line_ui, long_height};
use super::model::{Rows, with_samples_out};
use super::taken::By;
use super::{At, ShopAsk, ShopPage, is_short};
use crate::grid::{GridAsk, GridModel as _, GridView, commit, grid_ui, size};
use crate::look;
use crate::sheet::parts::{pencil, toggle};
use crate::words::desk::with_hint;
use crate::words::grid as grid_words;
use crate::words::shop as said;

/// Rows of a table that always have their place.
const LEAST_ROWS: usize = 3;

/// Rows of a table that are in sight at most.
const MOST_ROWS: usize = 9;

/// A list as it is shown.
pub(super) fn list_ui(
    ui: &mut Ui,
    list: List,
    page: &mut ShopPage,
    day: NaiveDate,
    asks: &mut Vec<ShopAsk>,
) {
    pencil(ui, words::list_about(list));
    ui.add_space(4.0);
    let model = model(page, list);
    let rows = (model.row_count() + 1).clamp(LEAST_ROWS, MOST_ROWS);
    let size = size(&model, ui.available_width(), rows);
    let mut wanted = Vec::new();
    let view = page.grids.entry(list).or_default();
    let salt = format!("shop {}", list.key());
    grid_ui(ui, &salt, &model, view, size, &mut wanted);
    let day = page.form().day(day);
    for want in wanted {
        asked(want, &model, page, &day, asks);
    }
    long_ui(ui, &model, page, asks);
    words_ui(ui, &model, page, asks);
    if LISTS.contains(&list) {
        file_ui(ui, list, page, asks);
    }
}

fn model(page: &mut ShopPage, list: List) -> Rows {
    let (rows, form) = (page.rows(list), page.form());
    Rows::new(
        list,
        rows,
        (page.history.now().unit, form),
        Arc::clone(&page.computed),
    )
}

/// Puts what is being typed in a cell of any list in its place, as leaving the cell would do.
pub(super) fn commit_lists(page: &mut ShopPage, day: NaiveDate, asks: &mut Vec<ShopAsk>) {
    let day = page.form().day(day);
    for list in List::ALL {
        let typed = |view: &GridView| view.draft().is_some();
        if page.grids.get(list).is_none_or(|view| !typed(view)) {
            continue;
        }
        let model = model(page, *list);
        let mut wanted = Vec::new();
        if let Some(view) = page.grids.get_mut(list) {
            commit(&model, view, &mut wanted);
        }
        for want in wanted {
            asked(want, &model, page, &day, asks);
        }
    }
}

/// What the table wants, as one edit of the sheet, and what is told of it.
fn asked(want: GridAsk, model: &Rows, page: &ShopPage, day: &str, asks: &mut Vec<ShopAsk>) {
    match want {
        GridAsk::SetCells { at, rows, .. } => {
            let is_dated = model.begins_card_without_day(at, &rows);
            match model.set_cells(at, rows, day) {
                Ok(edit) => {
                    let edit = with_samples_out(page.history.now(), edit);
                    asks.push(ShopAsk::Edit(edit));
                    let told = || ShopAsk::TellWhenSaved(said::card_counts_from(day));
                    asks.extend(is_dated.then(told));
                }
                Err(refused) => {
                    let said = with_hint(&refused.to_string(), refused.hint());
                    asks.push(ShopAsk::Tell(said));
                }
            }
        }
        GridAsk::DeleteRows { at, count } => {
            asks.extend(model.delete(at, count).map(ShopAsk::Edit));
        }
        // New rows come below the last, and nothing here is computed.
        GridAsk::InsertRows { .. } | GridAsk::OpenWorking(_) => {}
        GridAsk::NotTyped(at) => {
            let column = model.list.columns().get(at.col);
            let head = column.map_or("", |column| words::column(*column));
            asks.push(ShopAsk::Tell(grid_words::not_typed(head)));
        }
    }
}

/// The texts of several lines of the row one is at; their places are there whatever row it is.
fn long_ui(ui: &mut Ui, model: &Rows, page: &mut ShopPage, asks: &mut Vec<ShopAsk>) {
    let columns = model.list.columns().iter();
    let long = columns.filter(|column| column.kind() == ShopKind::Lines);
    let long: Vec<ShopColumn> = long.copied().collect();
    if long.is_empty() {
        return;
    }
    ui.add_space(4.0);
    let at = page.grids.get(&model.list).map(|view| view.cursor().row);
    let row = at.and_then(|at| model.rows.get(at));
    let gap = 16.0;
    let width = (ui.available_width() - gap * (long.len() as f32 - 1.0)) / long.len() as f32;
    let (place, _) = ui.allocate_exact_size(
        egui::vec2(ui.available_width(), long_height()),
        egui::Sense::hover(),
    );
    for (index, column) in long.into_iter().enumerate() {
        let left = place.left() + index as f32 * (width + gap);
        let size = egui::vec2(width, place.height());
        let place = egui::Rect::from_min_size(egui::pos2(left, place.top()), size);
        let who = row.map_or("", |row| row.text(ShopColumn::Name));
        let label = said::of_row(words::column(column), who);
        let Some(row) = row else {
            look::clipped(
                ui,
                place.with_max_y(place.top() + 15.0),
                &label,
                look::small(),
                look::tokens(ui).disabled,
            );
            continue;
        };
        let typing = Typing {
            at: At::Long(model.list, column),
            label: &label,
            about: words::column_about(column),
            stands: row.typed(column),
            usual: row.usual(column),
            choices: &[],
            is_long: true,
            place,
        };
        if let Some(text) = line_ui(ui, &typing, page) {
            asks.push(ShopAsk::Edit(ShopEdit::SetCells {
                list: model.list,
                rows: vec![(row.at.clone(), vec![(column, text)])],
                unit: page.history.now().unit,
            }));
        }
    }
}

/// The file that a list is written into or taken from.
fn file_ui(ui: &mut Ui, list: List, page: &mut ShopPage, asks: &mut Vec<ShopAsk>) {
    let path = page.list_paths.entry(list).or_default();
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 16.0;
        pencil(ui, said::LIST_FILE);
        let label = said::of_row(said::LIST_FILE, words::list(list));
        let line = look::line_edit(ui, path, 320.0);
        line.widget_info(|| WidgetInfo::labeled(Role::TextInput, true, &label));
        line.on_hover_text(said::LIST_FILE_ABOUT);
        let mut word = |text: &str| {
            let word = look::quiet_word(ui, text);
            name(&word, text, list);
            word.clicked()
        };
        if word(said::CHOOSE_LOGO) {
            asks.push(ShopAsk::ChooseList(list));
        }
        let [takes_in, writes] = [word(said::LIST_FROM), word(said::LIST_TO)];
        if !takes_in && !writes {
            return;
        }
        let typed = path.trim();
        asks.push(if typed.is_empty() {
            ShopAsk::Tell(said::NO_LIST_FILE.to_owned())
        } else if takes_in {
            ShopAsk::ListFrom(list, places::typed(typed))
        } else {
            ShopAsk::ListTo(list, places::typed(typed))
        });
    });
}

/// The words under a table.
fn words_ui(ui: &mut Ui, model: &Rows, page: &mut ShopPage, asks: &mut Vec<ShopAsk>) {
    let list = model.list;
    let sheet = Arc::clone(page.history.now());
    let are_out = sheet.without_samples.contains(&list);
    let some_out = sheet.left_out.iter().any(|(of, _)| *of == list);
    let samples = model.rows.iter().filter(|row| row.own.is_none()).count();
    let has_samples = !matches!(list, List::Customers | List::DaysOff);
    let are_given = matches!(list, List::Families | List::StartValues);
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 16.0;
        if !is_short(list) && !are_out {
            let is_shown = page.shown_samples.contains(&list);
            let word = look::toggle_word(ui, said::SHOW_SAMPLES, is_shown);
            name(&word, said::SHOW_SAMPLES, list);
            if word.clicked() {
                page.in_its_row(By::Us, |page| toggle(&mut page.shown_samples, list));
            }
        }
        let edit = |count| ShopAsk::Edit(ShopEdit::Samples { list, count });
        if has_samples && !are_given && list != List::Rates {
            if are_out || some_out {
                let word = look::quiet_word(ui, said::SAMPLES_BACK);
                name(&word, said::SAMPLES_BACK, list);
                if word.clicked() {
                    asks.push(edit(true));
                }
            }
            if !are_out && (samples > 0 || !is_short(list)) {
                let word = look::quiet_word(ui, said::SAMPLES_OUT);
                name(&word, said::SAMPLES_OUT, list);
                if word.clicked() {
                    asks.push(edit(false));
                }
            }
        }
        let view = page.grids.entry(list).or_default();
        let at = model.rows.get(view.cursor().row);
        let can_delete = at.is_some_and(|row| !are_given || matches!(row.at, RowAt::Own(_)));
        ui.add_enabled_ui(can_delete, |ui| {
            let text = if are_given {
                said::AS_SAMPLE
            } else {
                said::DELETE_ROW
            };
            let word = look::quiet_word(ui, text);
            name(&word, text, list);
            if word.clicked() {
                view.press_later(Key::Delete);
            }
        });
        let about = model.column(view.cursor().col).map(words::column_about);
        let room = ui.available_rect_before_wrap();
        let pencil = look::tokens(ui).pencil;
        if view.is_active() {
            look::clipped(ui, room, about.unwrap_or_default(), look::small(), pencil);
        }
    });
}

/// Names a word by its list, too: several lists have the same one.
fn name(word: &egui::Response, text: &str, list: List) {
    let named = said::of_list(text, words::list(list));
    word.widget_info(|| WidgetInfo::labeled(Role::Link, word.enabled(), &named));
}
