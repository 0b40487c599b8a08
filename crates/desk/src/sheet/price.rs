//! The price: hours, cost lines, quantities; every figure opens its working, every line keeps its place.

use egui::{Rangef, Ui};
use quillbore_calc::Figure;
use quillbore_calc::figure::CostLine;
use quillbore_calc::job_figures::{CostLines, LotFigures, MachineMinutes, PriceFigures};
use quillbore_job::form::one_by_one;
use quillbore_job::results::Beside;
use quillbore_job::words::english;
use quillbore_job::words::own as job_own;
use quillbore_job::words::price as job_words;
use quillbore_job::words::promise::comes_first;
use quillbore_job::words::workings::cost_line;
use quillbore_job::{Block, Form};

use super::breaks::breaks_ui;
use super::columns::{Column, Columns};
use super::fields;
use super::parts::{block_head, figure_word, pencil};
use super::shared::{Anchors, Shared};
use crate::look;
use crate::view::{Ask, SheetView};
use crate::words::price as words;

/// Hours: what, low, likely, high, what run records make of them.
const HOURS: [Column; 5] = [
    Column::left(104.0),
    Column::right(62.0),
    Column::right(62.0),
    Column::right(62.0),
    Column::right(110.0),
];

/// Minutes of the machine: what, how many.
const MINUTES: [Column; 2] = [Column::left(152.0), Column::right(62.0)];

/// Cost: what, how much.
const COST: [Column; 2] = [Column::left(190.0), Column::right(146.0)];

/// Height of what run records make of the figures: two lines.
const OWN: f32 = 38.0;

/// Jobs done before that always have their place.
pub(super) const ALIKE: usize = 4;

/// The block of the price.
pub fn price_ui(
    ui: &mut Ui,
    shared: &Shared<'_>,
    view: &mut SheetView,
    anchors: &mut Anchors,
    asks: &mut Vec<Ask>,
) {
    let figures = &shared.results.figures;
    let (digits, form) = (shared.shop.tables.rates.minor_digits, shared.shop.form);
    let price = figures.price.as_ref();
    let first = price.and_then(|price| price.breaks.first());
    let summary = first.map_or_else(String::new, |first| {
        let quantity = form.count(f64::from(first.quantity));
        words::each_at(&form.money_exact(first.each, digits), &quantity)
    });
    let top = ui.cursor().top();
    let open = block_head(ui, english::block(Block::Price), view, &summary);
    anchors.put(Beside::Price, Rangef::new(top + 24.0, top + 44.0));
    if !open {
        return;
    }
    fields::fields_ui(ui, Block::Price, shared, view, anchors, asks);
    ui.add_space(8.0);
    ui.horizontal_top(|ui| {
        ui.spacing_mut().item_spacing.x = 0.0;
        ui.vertical(|ui| {
            let by_runs = &shared.whole.by_runs;
            let beside = by_runs
                .behind
                .map(|behind| job_own::beside(behind, by_runs.minutes, form));
            let beside = beside.unwrap_or_default();
            hours_ui(ui, figures.lot.as_ref(), &beside, form, view);
            let size = egui::vec2(400.0, OWN);
            let (place, _) = ui.allocate_exact_size(size, egui::Sense::hover());
            let own = (shared.whole.own.as_str(), look::body());
            look::clipped_lines(ui, place, 2, own, look::tokens(ui).ink);
            let is_located = shared.job.rows.iter().any(|row| !row.places.is_empty());
            let machine = figures.lot.as_ref().map(|lot| &lot.machine);
            minutes_ui(ui, machine, is_located, form);
        });
        ui.add_space(40.0);
        ui.vertical(|ui| costs_ui(ui, price, (digits, form), view));
    });
    ui.add_space(8.0);
    breaks_ui(ui, shared, price, view, asks);
    ui.add_space(8.0);
    let width = ui.available_width();
    let mut risk = price.map_or_else(Vec::new, |price| job_words::risk(price, digits, form));
    // Lines that are not known yet stay free, so that what stands below never jumps.
    risk.resize(job_words::RISK_LINES, String::new());
    for said in risk {
        one_line(ui, &said, width);
    }
    let promise = shared.promise.map_or_else(String::new, |promise| {
        let queue = shared.queue;
        let first = comes_first(queue.hours, queue.jobs, queue.without_hours, form);
        words::promised(&promise.said(form), &first)
    });
    one_line(ui, &promise, width);
    let alike = view.alike.as_ref().map_or(&[][..], |found| &found.2);
    super::alike::alike_ui(ui, shared, alike, asks);
}

/// A sentence on one line that it takes also where there is none; told whole on hover where it is cut.
pub(super) fn one_line(ui: &mut Ui, said: &str, width: f32) {
    let size = egui::vec2(width, 18.0);
    let (place, _) = ui.allocate_exact_size(size, egui::Sense::hover());
    look::clipped_label(ui, place, said, look::body(), look::tokens(ui).ink);
}

/// Hours of machine and labor; beside the machine's stands what run records make of its minutes.
fn hours_ui(
    ui: &mut Ui,
    lot: Option<&LotFigures>,
    by_runs: &str,
    form: Form,
    view: &mut SheetView,
) {
    let columns = Columns::new(&HOURS);
    columns.row(ui, |at, ui| match at {
        0 => pencil(ui, words::HOURS),
        at => {
            if let Some(head) = job_words::BAND.get(at - 1) {
                pencil(ui, head);
            }
        }
    });
    for (what, figure) in [
        (words::MACHINE, Figure::MachineHours),
        (words::LABOR, Figure::LaborHours),
    ] {
        let is_machine = figure == Figure::MachineHours;
        let band = lot.map(|lot| {
            if is_machine {
                lot.machine_hours
            } else {
                lot.labor_hours
            }
        });
        let band = band.map(|band| form.hours_band(band));
        columns.row(ui, |at, ui| match (at, &band) {
            (0, _) => {
                ui.label(what);
            }
            (1, Some([low, ..])) => {
                ui.label(low);
            }
            (2, Some([_, likely, _])) => {
                figure_word(ui, likely, figure, look::bold(), view);
            }
            (3, Some([.., high])) => {
                ui.label(high);
            }
            (4, Some(_)) if is_machine => pencil(ui, by_runs),
            _ => {}
        });
    }
}

/// The minutes of the machine, by what it does; travel is not known where no hole has a location.
fn minutes_ui(ui: &mut Ui, machine: Option<&MachineMinutes>, is_located: bool, form: Form) {
    let columns = Columns::new(&MINUTES);
    columns.row(ui, |at, ui| {
        if at == 0 {
            pencil(ui, words::MACHINE_MINUTES);
        }
    });
    type Part = fn(&MachineMinutes) -> f64;
    let parts: [(&str, Part); 11] = [
        (words::IN_HOLES, |machine| machine.holes),
        (words::SETTING_UP, |machine| machine.set_up),
        (words::FIRST_PIECE, |machine| machine.first_piece),
        (words::LOADING, |machine| machine.load),
        (words::INDEX_AND_TILT, |machine| machine.index),
        (words::TURNING_OVER, |machine| machine.turn_over),
        (words::TRAVEL, |machine| machine.travel),
        (words::ELECTRODE_CHANGES, |machine| {
            machine.electrode_changes
        }),
        (words::GUIDE_CHANGES, |machine| machine.guide_changes),
        (words::DRESSING, |machine| machine.dressing),
        (words::BROKEN_ELECTRODES, |machine| machine.breakages),
    ];
    for (what, part) in parts {
        let minutes = machine.map(part);
        columns.row(ui, |at, ui| match (at, minutes) {
            (0, _) => {
                ui.label(what);
            }
            // How far it is from hole to hole is not known: that is nothing, and no zero.
            (_, Some(minutes)) if is_located || what != words::TRAVEL || minutes > 0.0 => {
                ui.label(form.minutes(minutes));
            }
            (_, Some(_)) => pencil(ui, words::NOT_LOCATED),
            _ => {}
        });
    }
}

fn costs_ui(
    ui: &mut Ui,
    price: Option<&PriceFigures>,
    (digits, form): (u32, Form),
    view: &mut SheetView,
) {
    let columns = Columns::new(&COST);
    let currency = price.map_or("", |price| price.currency.as_str());
    columns.row(ui, |at, ui| pencil(ui, [words::COST, currency][at.min(1)]));
    let cost = price.map(|price| &price.cost);
    let money = |amount: f64| form.money(amount, digits);
    for line in CostLine::ALL {
        let amount = cost.map(|cost| cost.line(line));
        columns.row(ui, |at, ui| match (at, amount) {
            (0, _) => {
                ui.label(cost_line(line));
            }
            (_, Some(amount)) => {
                let figure = Figure::Cost(line);
                figure_word(ui, &money(amount), figure, look::body(), view);
            }
            _ => {}
        });
    }
    let share = cost.map_or(0.0, CostLines::share_not_yet_known);
    for (what, amount, figure, font) in [
        (
            job_words::not_yet_known(share, form),
            cost.map(|cost| cost.not_yet_known),
            Figure::NotYetKnown,
            look::body(),
        ),
        (
            job_words::EXPECTED_COST.to_owned(),
            price.map(|price| price.expected_cost),
            Figure::LotCost,
            look::bold(),
        ),
    ] {
        columns.row(ui, |at, ui| match (at, amount) {
            (0, _) => {
                ui.label(&what);
            }
            (_, Some(amount)) => {
                figure_word(ui, &money(amount), figure, font.clone(), view);
            }
            _ => {}
        });
    }
    let band = price.map(|price| [price.lot_cost.p10, price.lot_cost.p50, price.lot_cost.p90]);
    let band = band.map(|band| one_by_one(&band.map(|cost| form.money(cost, 0))));
    amount_ui(ui, &job_words::BAND.join(", "), &band.unwrap_or_default());
    let share = |share: Option<f64>| share.map_or_else(String::new, |share| form.percent(share));
    amount_ui(ui, words::MARGIN, &share(price.map(|price| price.margin)));
    amount_ui(ui, words::MARKUP, &share(price.map(|price| price.markup)));
}

/// A line of the costs that opens no working.
fn amount_ui(ui: &mut Ui, what: &str, amount: &str) {
    Columns::new(&COST).row(ui, |at, ui| {
        ui.label(if at == 0 { what } else { amount });
    });
}
