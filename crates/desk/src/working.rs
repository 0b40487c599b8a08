//! The working of a figure, beside it: formula, inputs with where each came from, result, overrule.

mod runs;

use egui::{Grid, RichText, Ui};
use quillbore_calc::figure::{Input, Working};
use quillbore_job::Edit;
use quillbore_job::remedy::Offers;
use quillbore_job::results::foot::opened;
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
    let Some(working) = opened(
        shared.job,
        shared.results,
        shared.shop,
        shared.promise,
        figure,
    ) else {
        pencil(ui, words::NOTHING_YET);
        return;
    };
    pencil(ui, formula(working.formula));
    ui.add_space(3.0);
    Grid::new("working")
        .num_columns(2)
        .spacing([10.0, 1.0])
        .show(ui, |ui| {
            for input in &working.inputs {
                input_ui(ui, shared, input, view);
            }
            let result = shared.speaker().result(&working);
            ui.label(RichText::new(words::RESULT).font(look::small_bold()));
            ui.label(RichText::new(result).font(look::small_bold()));
            ui.end_row();
            if let Some(stands) = shared.speaker().stands(&working) {
                let ink = look::tokens(ui).accent;
                for said in [words::OVERRULED, stands.as_str()] {
                    ui.label(RichText::new(said).font(look::small_bold()).color(ink));
                }
                ui.end_row();
            }
        });
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
fn input_ui(ui: &mut Ui, shared: &Shared<'_>, input: &Input, view: &mut SheetView) {
    let label = shared.speaker().input(input);
    match input.opens {
        Some(opens) => {
            if look::quiet_word(ui, &label).clicked() {
                view.opened = Some(opens);
                view.overrule = OverruleDraft::default();
            }
        }
        None => {
            ui.label(RichText::new(label).font(look::small()));
        }
    }
    let ink = look::tokens(ui).pencil;
    ui.horizontal(|ui| {
        let said = shared.speaker().said(input.value);
        ui.label(RichText::new(said).font(look::small()));
        ui.add_space(6.0);
        let from = RichText::new(origin(input.origin)).font(look::tiny());
        ui.add(egui::Label::new(from.color(ink)).truncate());
    });
    ui.end_row();
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
            let chance = workings::alternative(other.chance);
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
