//! The working of a figure, beside it: formula, inputs with where each came from, result, overrule.

mod kept;
mod runs;

pub use kept::WorkingKept;

use egui::{Align, Color32, FontId, Label, Layout, RichText, Sense, Ui, UiBuilder, pos2, vec2};
use quillbore_calc::figure::{Input, Working};
use quillbore_job::Edit;
use quillbore_job::remedy::Offers;
use quillbore_job::to_input::key_of;
use quillbore_job::words::speaker::capital;
use quillbore_job::words::workings::{self, formula, origin};

use crate::look;
use crate::sheet::parts::pencil;
use crate::sheet::shared::Shared;
use crate::view::{Ask, OverruleDraft, SheetView};
use crate::words::working as words;

/// The open figure's working.
pub fn working_ui(ui: &mut Ui, shared: &Shared<'_>, view: &mut SheetView, asks: &mut Vec<Ask>) {
    let Some(figure) = view.opened else {
        return;
    };
    head_ui(ui, &shared.speaker().figure(figure), view);
    let Some(working) = WorkingKept::of(&mut view.working, shared, figure) else {
        pencil(ui, words::NOTHING_YET);
        return;
    };
    pencil(ui, formula(working.formula));
    ui.add_space(3.0);
    let said = shared.speaker().inputs(&working);
    for (input, said) in working.inputs.iter().zip(&said) {
        input_ui(ui, shared, (input, said), view);
    }
    let t = look::tokens(ui);
    let result = shared.speaker().result(&working);
    line_ui(
        ui,
        (words::RESULT, ""),
        (&result, look::small_bold()),
        LineLabel::Said(t.ink),
    );
    if let Some(stands) = shared.speaker().stands(&working) {
        let value = (stands.as_str(), look::small_bold());
        line_ui(ui, (words::OVERRULED, ""), value, LineLabel::Said(t.accent));
    }
    for line in workings::goes_by(figure, shared.shop) {
        pencil(ui, &line);
    }
    runs::runs_ui(ui, shared, figure, asks);
    alternatives_ui(ui, shared, &working, asks);
    overrule_ui(ui, shared, view, asks);
}

/// The figure's name, and the word that puts its working away.
fn head_ui(ui: &mut Ui, name: &str, view: &mut SheetView) {
    let ink = look::tokens(ui).accent;
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new(capital(name)).font(look::bold()).color(ink));
        ui.add_space(6.0);
        if look::quiet_word(ui, words::CLOSE).clicked() {
            view.opened = None;
        }
    });
}

/// What went in, with where it came from; a figure opens its own working.
fn input_ui(ui: &mut Ui, shared: &Shared<'_>, (input, said): (&Input, &str), view: &mut SheetView) {
    let label = shared.speaker().input(input);
    let label = label.as_str();
    let value = (said, look::small());
    let from = origin(input.origin);
    match input.opens {
        Some(opens) => {
            if line_ui(ui, (label, from), value, LineLabel::Opens) {
                view.opened = Some(opens);
                view.overrule = OverruleDraft::default();
            }
        }
        None => {
            let ink = look::tokens(ui).ink;
            line_ui(ui, (label, from), value, LineLabel::Said(ink));
        }
    }
}

/// What the label of a line is.
#[derive(Clone, Copy, Debug, PartialEq)]
enum LineLabel {
    /// A word that opens another working.
    Opens,
    /// A text in an ink.
    Said(Color32),
}

/// A line of the working: a label, a word where it opens another working, with where the value came
/// from, and the value at the right; whether it was pressed.
fn line_ui(
    ui: &mut Ui,
    (label, from): (&str, &str),
    (value, font): (&str, FontId),
    is: LineLabel,
) -> bool {
    let t = look::tokens(ui);
    let size = vec2(ui.available_width(), 18.0);
    let (place, _) = ui.allocate_exact_size(size, Sense::hover());
    let painter = ui.painter();
    let galley = look::elided(painter, value, font.clone(), t.ink, place.width() * 0.6);
    let left = place.right() - galley.size().x;
    painter.galley(
        pos2(left, place.center().y - galley.size().y / 2.0),
        galley,
        t.ink,
    );
    let room = place.with_max_x(left - 6.0);
    let mut pressed = false;
    let layout = Layout::left_to_right(Align::Center);
    ui.scope_builder(UiBuilder::new().max_rect(room).layout(layout), |ui| {
        ui.spacing_mut().item_spacing.x = 6.0;
        match is {
            LineLabel::Opens => pressed = look::word(ui, label).clicked(),
            LineLabel::Said(ink) => {
                let said = RichText::new(label).font(font).color(ink);
                ui.add(Label::new(said).truncate());
            }
        }
        let room = ui.available_rect_before_wrap();
        if room.width() > 24.0 {
            look::clipped(ui, room, from, look::small(), t.pencil);
        }
    });
    pressed
}

/// What could be taken instead, each with its chance and taken by a click.
fn alternatives_ui(ui: &mut Ui, shared: &Shared<'_>, working: &Working, asks: &mut Vec<Ask>) {
    if working.alternatives.is_empty() {
        return;
    }
    let tables = &shared.shop.tables;
    let offers = Offers::new(shared.job, tables);
    ui.add_space(4.0);
    pencil(ui, workings::ALTERNATIVES);
    for other in &working.alternatives {
        let Some(tube) = other.tube.of(&tables.tubes) else {
            continue;
        };
        ui.horizontal_wrapped(|ui| {
            match offers.of(other.remedy, None) {
                Some(offer) => {
                    let taken = look::word(ui, &tube.name).on_hover_text(&offer.words);
                    if taken.clicked() {
                        asks.push(Ask::Edit(offer.edit));
                    }
                }
                None => {
                    ui.label(RichText::new(&tube.name).font(look::small()));
                }
            }
            ui.add_space(6.0);
            let chance = workings::alternative(other.chance, shared.shop.form);
            ui.label(RichText::new(chance).font(look::small()));
        });
    }
}

/// The place to overrule the figure, with the reason; or to let the computed one stand again.
fn overrule_ui(ui: &mut Ui, shared: &Shared<'_>, view: &mut SheetView, asks: &mut Vec<Ask>) {
    let Some(key) = view
        .opened
        .and_then(|figure| key_of(figure, &shared.shop.tables))
    else {
        return;
    };
    ui.add_space(4.0);
    if let Some(overrule) = shared.job.overrule(&key) {
        pencil(ui, &words::because(&overrule.reason));
        if look::word(ui, words::LET_COMPUTED_STAND).clicked() {
            asks.push(Ask::Edit(Edit::WithdrawOverrule { figure: key }));
        }
        return;
    }
    ui.horizontal(|ui| {
        pencil(ui, words::OVERRULE_WITH);
        let response = look::line_edit(ui, &mut view.overrule.value, 60.0);
        response.widget_info(|| {
            egui::WidgetInfo::labeled(egui::Role::TextInput, true, words::OVERRULING_VALUE)
        });
    });
    let mut entered = false;
    ui.horizontal(|ui| {
        pencil(ui, words::BECAUSE);
        let width = (ui.available_width() - 4.0).max(40.0);
        let response = look::line_edit(ui, &mut view.overrule.reason, width);
        response
            .widget_info(|| egui::WidgetInfo::labeled(egui::Role::TextInput, true, words::REASON));
        entered = response.lost_focus() && ui.input(|input| input.key_pressed(egui::Key::Enter));
    });
    let ready = !view.overrule.value.trim().is_empty() && !view.overrule.reason.trim().is_empty();
    if ready && (look::word(ui, words::OVERRULE).clicked() || entered) {
        let OverruleDraft { value, reason } = std::mem::take(&mut view.overrule);
        let unit = shared.job.unit;
        asks.push(Ask::Edit(Edit::Overrule {
            figure: key,
            text: value,
            reason,
            unit,
        }));
    }
}
