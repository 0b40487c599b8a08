//! The page of the shop: its head and foot, the words that lead to its parts, and the parts themselves.

use chrono::NaiveDate;
use egui::{Align, Frame, Key, Layout, Margin, Modifiers, Panel, Rect, ScrollArea, Ui, UiBuilder};
use quillbore_job::shop::sheet::{ShopBlock, ShopList as List};
use quillbore_job::words::shop_sheet as words;
use quillbore_office::office::shop_lost::InPlaceOfLost;

use super::lines::{block_ui, commit_lines};
use super::list::{commit_lists, list_ui};
use super::logo::logo_ui;
use super::notes::notes_ui;
use super::{Part, ShopAsk, ShopPage};
use crate::actions::Action;
use crate::look;
use crate::sheet::parts::{pencil, plain_head};
use crate::words::commands;
use crate::words::shop as said;

/// The height of the first line of head and foot.
const FIRST: f32 = 28.0;

/// The height of the words that lead to the parts.
const PARTS_HIGH: f32 = 48.0;

/// Right of the sheet there is room for the scroll bar.
const BESIDE: f32 = 10.0;

/// The parts in the order of the page.
const PARTS: [Part; 12] = [
    Part::List(List::Electrodes),
    Part::List(List::Guides),
    Part::List(List::Rates),
    Part::List(List::Machines),
    Part::List(List::Customers),
    Part::List(List::Materials),
    Part::List(List::Families),
    Part::List(List::DaysOff),
    Part::List(List::StartValues),
    Part::Texts,
    Part::Identity,
    Part::Changes,
];

/// The head of the window while the page lies over the sheet.
pub fn shop_head_ui(ui: &mut Ui, page: &ShopPage, asks: &mut Vec<ShopAsk>) {
    let all = ui.max_rect();
    let first = all.with_max_y(all.top() + FIRST);
    let right = Layout::right_to_left(Align::Center);
    ui.scope_builder(UiBuilder::new().max_rect(first).layout(right), |ui| {
        ui.spacing_mut().item_spacing.x = 16.0;
        if look::keyed_word(ui, said::CLOSE, said::ESC).clicked() {
            asks.push(ShopAsk::Close);
        }
        for (action, ask, label) in [
            (Action::Redo, ShopAsk::Redo, page.history.redo_label()),
            (Action::Undo, ShopAsk::Undo, page.history.undo_label()),
        ] {
            ui.add_enabled_ui(label.is_some(), |ui| {
                let word = look::quiet_word(ui, commands::action(action));
                let word = word.on_hover_text(label.unwrap_or_default());
                if word.clicked() {
                    asks.push(ask);
                }
            });
        }
        let left = Layout::left_to_right(Align::Center);
        ui.with_layout(left, |ui| {
            ui.label(egui::RichText::new(said::PAGE).font(look::heading()));
        });
    });
    let second = all.with_min_y(first.bottom());
    let left = Layout::left_to_right(Align::Center);
    ui.scope_builder(UiBuilder::new().max_rect(second).layout(left), |ui| {
        if page.is_overruled {
            pencil(ui, said::OVERRULED);
        } else {
            pencil(ui, said::COUNTS_AT_ONCE);
        }
    });
}

/// The foot of the window while the page lies over the sheet: what is short or still a sample, then what
/// was done last.
pub fn shop_foot_ui(ui: &mut Ui, page: &mut ShopPage, sentence: &str, asks: &mut Vec<ShopAsk>) {
    let t = look::tokens(ui);
    let all = ui.max_rect();
    let first = all.with_max_y(all.top() + FIRST);
    let second = all.with_min_y(first.bottom());
    look::clipped_label(ui, first, sentence, look::foot_bold(), t.ink);
    let left = Layout::left_to_right(Align::Center);
    ui.scope_builder(UiBuilder::new().max_rect(second).layout(left), |ui| {
        let still: Vec<String> = {
            let kept = page.kept();
            kept.still
                .iter()
                .map(|still| words::still(*still))
                .collect()
        };
        // What went wrong, and the words that mend it, have the room before anything else.
        if page.failed.is_none() {
            pencil(ui, &said::still(&still));
            ui.add_space(16.0);
        }
        if let Some(why) = &page.failed {
            if page.is_lost {
                if look::word(ui, said::TAKE_BEFORE).clicked() {
                    asks.push(ShopAsk::ReplaceLost(InPlaceOfLost::TheVersionBefore));
                }
                if look::word(ui, said::BEGIN_ANEW).clicked() {
                    asks.push(ShopAsk::ReplaceLost(InPlaceOfLost::Nothing));
                }
            } else if look::word(ui, said::SAVE_AGAIN).clicked() {
                asks.push(ShopAsk::SaveAgain);
            }
            let room = ui.available_rect_before_wrap();
            look::clipped_label(ui, room, why, look::small(), t.accent);
        } else {
            let notice = if page.saving.is_some() {
                said::SAVING
            } else {
                &page.notice
            };
            let room = ui.available_rect_before_wrap();
            look::clipped_label(ui, room, notice, look::small(), t.accent);
        }
    });
}

/// The page itself: the words that lead to its parts stand still above it, notes in the margin.
pub fn shop_ui(
    ui: &mut Ui,
    (sheet, margin, width): (Rect, Rect, f32),
    page: &mut ShopPage,
    day: NaiveDate,
    asks: &mut Vec<ShopAsk>,
) {
    let is_typing = !page.drafts.is_empty()
        || page
            .grids
            .values()
            .any(|view| view.draft().is_some() || view.is_active());
    if !is_typing && ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Escape)) {
        asks.push(ShopAsk::Close);
    }
    // Tables have more columns than the sheet has room for: where nothing stands in the margin it is theirs.
    let is_free = page.notes().is_empty() && page.clashes.is_empty();
    let right = if is_free {
        sheet.right().max(margin.right() - BESIDE)
    } else {
        sheet.right()
    };
    // The scroll bar stands beside the sheet, not on it.
    let area = sheet.with_max_x(right + BESIDE);
    ui.scope_builder(UiBuilder::new().max_rect(area), |ui| {
        Panel::top("parts of the shop")
            .resizable(false)
            .exact_size(PARTS_HIGH)
            .show_separator_line(false)
            .frame(Frame::new().inner_margin(Margin::symmetric(0, 4)))
            .show(ui, |ui| parts_ui(ui, page));
        let across = sheet.width() < width;
        let mut scroll = ScrollArea::new([across, true]).id_salt("shop");
        if std::mem::take(&mut page.is_fresh) {
            scroll = scroll.vertical_scroll_offset(0.0);
        }
        scroll.auto_shrink([false, false]).show(ui, |ui| {
            ui.set_width(width.max(right - sheet.left()));
            if page.stands.is_none() && page.failed.is_none() {
                pencil(ui, said::LOOKING);
                return;
            }
            for part in PARTS {
                part_ui(ui, (part, width), page, day, asks);
            }
            ui.add_space(48.0);
        });
    });
    notes_ui(ui, margin, page, asks);
}

/// The words that lead to the parts.
fn parts_ui(ui: &mut Ui, page: &mut ShopPage) {
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = egui::vec2(12.0, 0.0);
        for part in PARTS {
            let text = said::part(part);
            let word = look::quiet_word(ui, text);
            let named = said::go_to(text);
            word.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Link, true, &named));
            if word.clicked() {
                page.go = Some(part);
            }
        }
    });
}

/// A part: its tables are as wide as there is room, its lines as wide as a sheet.
fn part_ui(
    ui: &mut Ui,
    (part, width): (Part, f32),
    page: &mut ShopPage,
    day: NaiveDate,
    asks: &mut Vec<ShopAsk>,
) {
    let top = ui.cursor().min;
    plain_head(ui, said::part(part));
    let wanted = page.go == Some(part);
    if wanted && let Part::List(list) = part {
        page.grids.entry(list).or_default().take_keyboard();
    }
    let narrow = |ui: &mut Ui, page: &mut ShopPage, asks: &mut Vec<ShopAsk>, block| {
        ui.scope(|ui| {
            ui.set_max_width(width);
            block_ui(ui, block, page, asks);
        });
    };
    match part {
        Part::List(list) => {
            if list == List::DaysOff {
                narrow(ui, page, asks, ShopBlock::Calendar);
                ui.add_space(8.0);
            }
            list_ui(ui, list, page, day, asks);
        }
        Part::Texts => narrow(ui, page, asks, ShopBlock::Texts),
        Part::Identity => {
            narrow(ui, page, asks, ShopBlock::Identity);
            ui.add_space(8.0);
            logo_ui(ui, page, asks);
        }
        Part::Changes => changes_ui(ui, page),
    }
    if wanted {
        page.go = None;
        // A table that takes the keyboard comes into sight anywhere; its part comes to the top.
        let size = egui::vec2(10.0, ui.clip_rect().height());
        ui.scroll_to_rect(Rect::from_min_size(top, size), Some(Align::Min));
    }
}

/// What was changed last, the newest first.
fn changes_ui(ui: &mut Ui, page: &mut ShopPage) {
    let form = page.form();
    const SHOWN: usize = 30;
    let sheet = page.history.now();
    if sheet.changes.is_empty() {
        pencil(ui, said::NO_CHANGES);
    }
    for change in sheet.changes.iter().rev().take(SHOWN) {
        let line = said::change(change, form);
        let size = egui::vec2(ui.available_width(), 18.0);
        let (place, _) = ui.allocate_exact_size(size, egui::Sense::hover());
        let ink = look::tokens(ui).ink;
        look::clipped_label(ui, place, &line, look::small(), ink);
    }
}

/// What is being typed anywhere on the page put in its place, as leaving it would do.
pub(crate) fn commit_typed(page: &mut ShopPage, day: NaiveDate, asks: &mut Vec<ShopAsk>) {
    commit_lines(page, day, asks);
    commit_lists(page, day, asks);
}
