//! One field of the sheet in its place: its label above what is typed, and that put where it belongs.

use egui::{
    Align2, Frame, Id, Key, Margin, Rect, Response, ScrollArea, Sense, TextEdit, Ui, UiBuilder,
    pos2, vec2,
};
use quillbore_job::choices::begun;
use quillbore_job::currency::currency_of;
use quillbore_job::slip::kind;
use quillbore_job::{FieldKind, Job, Line, Shop, order};

use super::shared::{Anchors, Shared};
use super::suggestions::{marked_name, suggestions_ui};
use crate::look;
use crate::spot::Spot;
use crate::view::{Ask, SheetView};
use crate::words::sheet::{label, with_unit};

/// From the top of a field to what is typed in it.
const LABEL: f32 = 15.0;

/// Lines of a long text that are in sight.
const LONG_LINES: usize = 3;

/// The height of a long text, its label included.
pub(super) const LONG: f32 = LABEL + LONG_LINES as f32 * 17.0 + 4.0;

/// Whether what is typed there may have several lines.
pub(super) fn is_long(spot: Spot) -> bool {
    spot.kind() == FieldKind::Lines
}

/// A field with its place; Enter goes on to the one that stands below.
#[derive(Clone, Copy, Debug)]
pub(super) struct FieldAt {
    pub(super) spot: Spot,
    pub(super) place: Rect,
    pub(super) down: Option<Spot>,
}

/// A field in its place.
pub(super) fn field_ui(
    ui: &mut Ui,
    FieldAt { spot, place, down }: FieldAt,
    shared: &Shared<'_>,
    view: &mut SheetView,
    anchors: &mut Anchors,
    asks: &mut Vec<Ask>,
) {
    let t = look::tokens(ui);
    let currency = currency(spot, shared.job, shared.shop);
    let said = label(
        spot.label(shared.job),
        spot.kind(),
        shared.job.unit,
        currency,
    );
    let at = label_ui(ui, place, &said);
    let id = ui.make_persistent_id(("line", spot.key()));
    suggestions_ui(ui, at, (spot, id), down, shared, view, asks);
    let stands = shown_text(shared, spot);
    let followed = follow(spot, &stands, view);
    let draft = view.drafts.get(&spot);
    let mut text = draft.cloned().unwrap_or_else(|| stands.clone());
    let response = edit_ui(ui, at, (spot, id), &mut text);
    let name = spot.name(shared.job);
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::TextInput, true, &name));
    if followed && response.has_focus() {
        look::mark_whole(ui, &response, &text);
    }
    take_focus(spot, shared, view, &response);
    look::line_under(ui, &response);
    if spot.entry(shared.job).why().is_some() {
        let under = response.rect.bottom() - 2.0;
        look::wavy_underline(ui.painter(), response.rect.x_range(), under, t.accent);
    }
    anchors.put(spot.beside(), place.y_range());
    if response.gained_focus() {
        view.typed_in = None;
    }
    if response.changed() {
        view.typed_in = Some(spot);
    }
    if response.has_focus() {
        view.at_field = Some(spot);
        view.stood = Some((spot, stands.clone()));
    }
    if response.has_focus() || response.changed() {
        view.drafts.insert(spot, text.clone());
    }
    if response.lost_focus() && !view.choosing {
        view.drafts.remove(&spot);
        leave(ui, spot, (text, &stands), down, shared, view, asks);
    }
}

/// The currency of an amount typed there: an order says its own, what other slips name is the customer's.
fn currency<'a>(spot: Spot, job: &'a Job, shop: &'a Shop) -> Option<&'a str> {
    match spot {
        Spot::Field(field) => currency_of(field, job, shop),
        Spot::Line(slip, line) => {
            let mut orders = job.slips_of::<kind::Order>();
            let order = orders.find(|order| order.id() == slip && line == Line::Each);
            let pays = order.and_then(|order| order::pays_in(job, order));
            let quoted = shop.tables.rates.currency.as_str();
            (spot.kind() == FieldKind::Money).then_some(pays.unwrap_or(quoted))
        }
    }
}

/// A draft in which nothing was typed goes with what stands there: with the customer, say, comes the contact,
/// when the keyboard is on its line already. Whether it did.
fn follow(spot: Spot, stands: &str, view: &mut SheetView) -> bool {
    let stood = view.stood.as_ref().filter(|(of, _)| *of == spot);
    let Some((_, stood)) = stood.filter(|(_, stood)| stood != stands) else {
        return false;
    };
    let follows = view.drafts.get(&spot) == Some(stood);
    if follows {
        view.drafts.insert(spot, stands.to_owned());
    }
    follows
}

/// The place to type. A text that is too long for its place ends in a sign that says so, and is told
/// whole where the pointer is on it.
fn edit_ui(ui: &mut Ui, at: Rect, (spot, id): (Spot, Id), text: &mut String) -> Response {
    if is_long(spot) {
        return ui
            .scope_builder(UiBuilder::new().max_rect(at), |ui| {
                let area = ScrollArea::vertical().id_salt(("long", spot.key()));
                let area = area.auto_shrink(false).max_height(at.height());
                let edit = TextEdit::multiline(text)
                    .id(id)
                    .frame(Frame::NONE)
                    .margin(Margin::ZERO)
                    .font(look::body())
                    .desired_rows(LONG_LINES)
                    .desired_width(at.width());
                let typed = area.show(ui, |ui| ui.add(edit)).inner;
                // The rule stands under the place, not under a text that is scrolled in it.
                typed.with_new_rect(at)
            })
            .inner;
    }
    let response = single_edit(ui, at, id, text);
    if !response.has_focus() {
        tell_whole(ui, &response, text);
    }
    response
}

/// One line to type on, in its place under a label.
pub(super) fn single_edit(ui: &mut Ui, at: Rect, id: Id, text: &mut String) -> Response {
    let at = at.with_max_y(at.bottom() - 2.0);
    let edit = TextEdit::singleline(text)
        .id(id)
        .frame(Frame::NONE)
        .margin(Margin::ZERO)
        .font(look::body())
        .align(Align2::LEFT_CENTER)
        .desired_width(at.width());
    let response = ui.put(at, edit).with_new_rect(at);
    look::mark_all(ui, &response, text);
    response
}

/// The label of a field, and the place to type below it.
pub(crate) fn label_ui(ui: &mut Ui, place: Rect, label: &str) -> Rect {
    let above = Rect::from_min_size(place.min, vec2(place.width(), LABEL));
    let pencil = look::tokens(ui).pencil;
    look::clipped(ui, above, label, look::small(), pencil);
    place.with_min_y(place.top() + LABEL)
}

/// Marks a text that is wider than its place, and tells it whole where the pointer is on it.
fn tell_whole(ui: &mut Ui, response: &Response, text: &str) {
    let t = look::tokens(ui);
    let at = response.rect;
    let painter = ui.painter();
    let whole = painter.layout_no_wrap(text.to_owned(), look::body(), t.ink);
    if whole.size().x <= at.width() + 0.5 {
        return;
    }
    let dots = painter.layout_no_wrap("\u{2026}".to_owned(), look::body(), t.pencil);
    let from = pos2(
        at.right() - dots.size().x,
        at.center().y - dots.size().y / 2.0,
    );
    // What is typed is clipped a little beyond its place.
    let under = Rect::from_x_y_ranges(from.x - 2.0..=at.right() + 3.0, at.y_range());
    painter.rect_filled(under, 0.0, t.paper);
    painter.galley(from, dots, t.pencil);
    let id = response.id.with("whole");
    ui.interact(at, id, Sense::hover()).on_hover_text(text);
}

/// Gives the field the keyboard where it was wanted there, or on the first empty line of its slip.
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

/// Puts a typed text in its place when the field is left, unless one of a single line by Escape; Enter goes
/// down, and takes what the typed beginning means.
fn leave(
    ui: &Ui,
    spot: Spot,
    (mut text, stands): (String, &str),
    down: Option<Spot>,
    shared: &Shared<'_>,
    view: &mut SheetView,
    asks: &mut Vec<Ask>,
) {
    let pressed = |key| ui.input(|input| input.key_pressed(key));
    if !is_long(spot) && pressed(Key::Enter) {
        view.focus = down;
        text = begun(spot.kind(), shared.shop, &text).unwrap_or(text);
    }
    // Whoever goes on by Tab has chosen what keys marked.
    if pressed(Key::Tab)
        && let Some(name) = marked_name(spot, &text, shared, view)
    {
        view.marked = None;
        text = name;
    }
    // A text of several lines is more than a slip of the hand: undo takes it back.
    let given_up = pressed(Key::Escape) && !is_long(spot);
    if !given_up && text != stands {
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

/// Every draft put into its place, as leaving the fields would do.
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
