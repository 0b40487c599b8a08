//! One line of the sheet: its label, the place to type, and what is typed put in its place.

use egui::{Frame, Key, Label, Layout, Margin, Response, RichText, TextEdit, Ui, vec2};
use quillbore_job::FieldKind;
use quillbore_job::choices::begun;

use super::choices::choices_ui;
use super::shared::{Anchors, Shared};
use crate::look;
use crate::spot::Spot;
use crate::view::{Ask, SheetView};
use crate::words::sheet::with_unit;

const LABEL_WIDTH: f32 = 132.0;
/// Between a label and the place to type.
const GAP: f32 = 6.0;

/// Whether what is typed there may have several lines.
pub(super) fn is_long(spot: Spot) -> bool {
    spot.kind() == FieldKind::Lines
}

/// One line: its label and the place to type, its choices below while one is at it; `order` are the
/// lines that Enter goes through.
pub(super) fn line_ui(
    ui: &mut Ui,
    spot: Spot,
    order: &[Spot],
    shared: &Shared<'_>,
    view: &mut SheetView,
    anchors: &mut Anchors,
    asks: &mut Vec<Ask>,
) {
    let t = look::tokens(ui);
    let mut focused = false;
    ui.horizontal_top(|ui| {
        ui.spacing_mut().item_spacing.x = GAP;
        label_ui(ui, spot);
        let stands = shown_text(shared, spot);
        let mut text = view
            .drafts
            .get(&spot)
            .cloned()
            .unwrap_or_else(|| stands.clone());
        let response = edit_ui(ui, spot, &mut text);
        let name = spot.name(shared.job);
        response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::TextInput, true, &name));
        take_focus(spot, shared, view, &response);
        look::line_under(ui, &response, t.hairline, t.accent);
        if spot.entry(shared.job).why().is_some() {
            look::wavy_underline(
                ui.painter(),
                response.rect.x_range(),
                response.rect.bottom() - 1.0,
                t.accent,
            );
        }
        anchors.put(spot.beside(), response.rect.center().y);
        focused = response.has_focus();
        if response.has_focus() || response.changed() {
            view.drafts.insert(spot, text.clone());
        }
        if response.lost_focus() && !view.choosing {
            view.drafts.remove(&spot);
            leave(ui, spot, (text, &stands), order, shared, view, asks);
        }
    });
    if focused || (view.choosing && view.drafts.contains_key(&spot)) {
        choices_ui(ui, spot, LABEL_WIDTH + GAP, shared, view, asks);
    }
}

fn label_ui(ui: &mut Ui, spot: Spot) {
    let said = RichText::new(spot.label()).font(look::small());
    let said = said.color(look::tokens(ui).pencil);
    let layout = Layout::left_to_right(egui::Align::Center);
    ui.allocate_ui_with_layout(vec2(LABEL_WIDTH, 20.0), layout, |ui| {
        ui.set_width(LABEL_WIDTH);
        ui.add(Label::new(said).truncate());
    });
}

/// The place to type.
fn edit_ui(ui: &mut Ui, spot: Spot, text: &mut String) -> Response {
    let edit = if is_long(spot) {
        let rows = text.lines().count().clamp(1, 6);
        TextEdit::multiline(text).desired_rows(rows)
    } else {
        TextEdit::singleline(text)
    };
    ui.add(
        edit.id(ui.make_persistent_id(("line", spot.key())))
            .frame(Frame::NONE)
            .margin(Margin::symmetric(0, 1))
            .font(look::body())
            .desired_width(ui.available_width() - 4.0),
    )
}

/// Gives the line the keyboard where it was wanted there, or on the first empty line of its slip.
fn take_focus(spot: Spot, shared: &Shared<'_>, view: &mut SheetView, response: &Response) {
    let mut wanted = view.focus == Some(spot);
    if wanted {
        view.focus = None;
    }
    if let Spot::Line(slip, _) = spot
        && view.focus_slip == Some(slip)
        && spot.entry(shared.job).is_empty()
    {
        view.focus_slip = None;
        wanted = true;
    }
    if wanted {
        response.request_focus();
        response.scroll_to_me(None);
    }
}

/// Puts a typed text in its place when the line is left, unless by Escape; Enter goes on to the next
/// line, and takes what the typed beginning means.
fn leave(
    ui: &Ui,
    spot: Spot,
    (mut text, stands): (String, &str),
    order: &[Spot],
    shared: &Shared<'_>,
    view: &mut SheetView,
    asks: &mut Vec<Ask>,
) {
    let pressed = |key| ui.input(|input| input.key_pressed(key));
    if !is_long(spot) && pressed(Key::Enter) {
        let here = order.iter().position(|other| *other == spot);
        view.focus = here.and_then(|here| order.get(here + 1).copied());
        text = begun(spot.kind(), shared.shop, &text).unwrap_or(text);
    }
    if !pressed(Key::Escape) && text != stands {
        asks.push(set(spot, text, shared));
    }
}

/// A field's text; a bare number that was typed in the other unit says so.
fn shown_text(shared: &Shared<'_>, spot: Spot) -> String {
    let entry = spot.entry(shared.job);
    let other = entry.unit().is_some_and(|unit| unit != shared.job.unit);
    let measures = matches!(
        spot.kind(),
        FieldKind::Length | FieldKind::LengthOrNone | FieldKind::Tolerance
    );
    if other && measures {
        with_unit(entry.text(), entry.unit())
    } else {
        entry.text().to_owned()
    }
}

/// Every draft put into its place, as leaving the lines would do.
pub fn commit_drafts(shared: &Shared<'_>, view: &mut SheetView, asks: &mut Vec<Ask>) {
    for (spot, text) in std::mem::take(&mut view.drafts) {
        if text != shown_text(shared, spot) {
            asks.push(set(spot, text, shared));
        }
    }
}

fn set(spot: Spot, text: String, shared: &Shared<'_>) -> Ask {
    Ask::Edit(spot.edit(text, shared.job.unit))
}
