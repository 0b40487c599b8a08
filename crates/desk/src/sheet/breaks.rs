//! The quantities with their prices; a price that is typed over is set, and the margin answers.

use egui::text::{CCursor, CCursorRange};
use egui::text_edit::TextEditState;
use egui::{Event, Frame, Key, Margin, TextEdit, Ui};
use quillbore_calc::Figure;
use quillbore_calc::job_figures::{Break, PriceFigures};
use quillbore_job::Edit;
use quillbore_job::job::FigureKey;
use rust_decimal::prelude::ToPrimitive as _;

use super::columns::{Column, Columns};
use super::parts::{figure_word, pencil};
use super::price::one_line;
use super::shared::Shared;
use crate::look;
use crate::view::{Ask, SheetView};
use crate::words::price as words;

/// Quantity, cost each, price each, margin, the lot, what is said of it.
const WIDTHS: [Column; 6] = [
    Column::right(64.0),
    Column::right(92.0),
    Column::right(92.0),
    Column::right(72.0),
    Column::right(110.0),
    Column::left(330.0),
];

/// Quantities that always have their place.
const LEAST: usize = 5;

/// The quantities, and below them what is charged once.
pub(super) fn breaks_ui(
    ui: &mut Ui,
    shared: &Shared<'_>,
    price: Option<&PriceFigures>,
    view: &mut SheetView,
    asks: &mut Vec<Ask>,
) {
    let columns = Columns::new(&WIDTHS);
    columns.row(ui, |at, ui| {
        if let Some(head) = words::BREAK_HEADS.get(at) {
            pencil(ui, head);
        }
    });
    let (digits, form) = (shared.shop.tables.rates.minor_digits, shared.shop.form);
    let breaks = price.map_or(&[][..], |price| &price.breaks);
    for at in 0..breaks.len().max(LEAST) {
        columns.row(ui, |column, ui| {
            if let Some(offered) = breaks.get(at) {
                cell_ui(ui, column, offered, shared, view, asks);
            }
        });
    }
    let one_off = price.map_or(&[][..], |price| &price.one_off);
    let once = one_off
        .iter()
        .map(|(what, amount)| words::once(what, &form.money_exact(*amount, digits)));
    let once: Vec<String> = once.collect();
    one_line(ui, &once.join("; "), ui.available_width());
}

fn cell_ui(
    ui: &mut Ui,
    column: usize,
    offered: &Break,
    shared: &Shared<'_>,
    view: &mut SheetView,
    asks: &mut Vec<Ask>,
) {
    let (digits, form) = (shared.shop.tables.rates.minor_digits, shared.shop.form);
    match column {
        0 => {
            ui.label(form.count(f64::from(offered.quantity)));
        }
        1 => {
            ui.label(form.money(offered.unit_cost, digits));
        }
        2 => each_ui(ui, offered, shared, view, asks),
        3 => {
            let each = offered.each.to_f64().unwrap_or(0.0);
            if each > 0.0 {
                ui.label(form.percent(1.0 - offered.unit_cost / each));
            }
        }
        4 => {
            let lot = form.money_exact(offered.lot, digits);
            let figure = Figure::LotPrice(offered.quantity);
            figure_word(ui, &lot, figure, look::body(), view);
        }
        _ => {
            let said = [
                (offered.minimum, words::BY_MINIMUM),
                (offered.overruled, words::OVERRULED),
            ];
            let said = said.iter().filter(|(holds, _)| *holds);
            let said = said.map(|(_, said)| (*said).to_owned());
            let per_hole = offered.per_hole.map(|price| {
                let price = form.money_exact(price, digits);
                words::per_hole(&price)
            });
            let said: Vec<String> = said.chain(per_hole).collect();
            ui.add_space(16.0);
            pencil(ui, &said.join(", "));
        }
    }
}

/// The price of one part: a press opens its working, a digit typed on it begins another price.
fn each_ui(
    ui: &mut Ui,
    offered: &Break,
    shared: &Shared<'_>,
    view: &mut SheetView,
    asks: &mut Vec<Ask>,
) {
    let quantity = offered.quantity;
    if let Some((of, text)) = &mut view.price_draft
        && *of == quantity
    {
        let id = ui.make_persistent_id(("price each", quantity));
        if !ui.memory(|memory| memory.has_focus(id)) && text.chars().count() <= 1 {
            // The caret stands behind the digit that began it.
            let mut state = TextEditState::load(ui.ctx(), id).unwrap_or_default();
            let end = CCursor::new(text.chars().count());
            state.cursor.set_char_range(Some(CCursorRange::one(end)));
            state.store(ui.ctx(), id);
        }
        let edit = TextEdit::singleline(text)
            .id(id)
            .frame(Frame::NONE)
            .margin(Margin::ZERO)
            .font(look::bold())
            .align(egui::Align2::RIGHT_CENTER)
            .desired_width(ui.available_width() - 4.0);
        let response = ui.add(edit);
        let name = words::price_at(quantity);
        response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::TextInput, true, &name));
        look::line_under(ui, &response);
        if response.lost_focus() {
            let text = text.trim().to_owned();
            let given_up = ui.input(|input| input.key_pressed(Key::Escape));
            view.price_draft = None;
            if !given_up && !text.is_empty() {
                asks.push(Ask::Edit(Edit::Overrule {
                    figure: FigureKey::UnitPrice(quantity),
                    text,
                    reason: words::set_by(shared.by),
                    unit: shared.job.unit,
                }));
            }
        } else if !response.has_focus() {
            response.request_focus();
        }
        return;
    }
    let (digits, form) = (shared.shop.tables.rates.minor_digits, shared.shop.form);
    let each = form.money_exact(offered.each, digits);
    let figure = Figure::UnitPrice(quantity);
    let response = figure_word(ui, &each, figure, look::bold(), view);
    let response = response.on_hover_text(words::TYPE_OVER);
    if response.clicked() {
        response.request_focus();
    }
    if response.has_focus()
        && let Some(text) = typed_figure(ui)
    {
        view.price_draft = Some((quantity, text));
        ui.request_repaint();
    }
}

/// A digit or a decimal sign that was typed in this frame, taken out of the input.
fn typed_figure(ui: &Ui) -> Option<String> {
    let is_figure = |text: &str| {
        let mut signs = text.chars();
        signs.all(|sign| sign.is_ascii_digit() || matches!(sign, '.' | ','))
    };
    ui.input_mut(|input| {
        let typed = |event: &Event| matches!(event, Event::Text(text) if is_figure(text));
        let at = input.events.iter().position(typed)?;
        match input.events.remove(at) {
            Event::Text(text) => Some(text),
            _ => None,
        }
    })
}
