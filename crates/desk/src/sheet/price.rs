//! The price: hours, cost lines, quantities; every figure opens its working.

use egui::{Align, Grid, Layout, Ui, vec2};
use quillbore_calc::Figure;
use quillbore_calc::job_figures::{LotFigures, MachineMinutes, PriceFigures};
use quillbore_job::results::{Beside, ByRuns};
use quillbore_job::words::own as job_own;
use quillbore_job::words::price as job_words;
use quillbore_job::words::promise::comes_first;
use quillbore_job::{Block, show_quantity as show};

use super::fields;
use super::parts::{block_head, figure_word, pencil};
use super::shared::{Anchors, Shared};
use crate::look;
use crate::view::{Ask, SheetView};
use crate::words::{own, price as words};

/// Width of a column of figures.
const FIGURE: f32 = 64.0;
/// Width of a column of amounts, in which a band fits.
const AMOUNT: f32 = 124.0;

/// Width of the sentence about run records.
const OWN: f32 = 280.0;

/// The block of the price.
pub fn price_ui(
    ui: &mut Ui,
    shared: &Shared<'_>,
    view: &mut SheetView,
    anchors: &mut Anchors,
    asks: &mut Vec<Ask>,
) {
    let figures = &shared.results.figures;
    let summary = figures
        .price
        .as_ref()
        .and_then(|price| price.breaks.first())
        .map_or_else(String::new, |first| {
            let digits = shared.shop.tables.rates.minor_digits;
            words::each_at(&show::money_exact(first.each, digits), first.quantity)
        });
    let open = block_head(ui, Block::Price, view, &summary);
    anchors.put(Beside::Price, ui.cursor().top() + 10.0);
    if !open {
        return;
    }
    fields::fields_ui(ui, Block::Price, shared, view, anchors, asks);
    let (Some(lot), Some(price)) = (&figures.lot, &figures.price) else {
        return;
    };
    ui.add_space(6.0);
    ui.horizontal_top(|ui| {
        ui.vertical(|ui| {
            let by_runs = ByRuns::of(figures);
            let beside = by_runs
                .behind
                .map(|behind| job_own::beside(behind, by_runs.minutes));
            hours_ui(ui, lot, &beside.unwrap_or_default(), view, anchors);
            let of_rows = figures.holes.iter().filter_map(|hole| hole.own.as_deref());
            if let Some(said) = own::in_short(&of_rows.collect::<Vec<_>>()) {
                ui.add_space(4.0);
                ui.set_max_width(OWN);
                pencil(ui, &said);
            }
        });
        ui.add_space(28.0);
        ui.vertical(|ui| costs_ui(ui, shared, price, view, anchors));
    });
    ui.add_space(8.0);
    breaks_ui(ui, shared, price, view, anchors);
    let digits = shared.shop.tables.rates.minor_digits;
    let mut risk = job_words::risk(price, digits);
    // While it is drawn anew its lines stay free, so that what stands below never jumps.
    risk.resize(job_words::RISK_LINES, " ".to_owned());
    for said in risk {
        ui.label(said);
    }
    if let Some(promise) = shared.promise {
        ui.add_space(4.0);
        let queue = shared.queue;
        let first = comes_first(queue.hours, queue.jobs, queue.without_hours);
        ui.label(words::promised(&promise.said(), &first));
    }
    let alike = view.alike.as_ref().map_or(&[][..], |found| &found.2);
    super::alike::alike_ui(ui, shared, alike, asks);
}

/// Hours of machine and labor; beside the machine's stands what run records make of its minutes.
fn hours_ui(
    ui: &mut Ui,
    lot: &LotFigures,
    by_runs: &str,
    view: &mut SheetView,
    anchors: &mut Anchors,
) {
    Grid::new("hours")
        .num_columns(5)
        .spacing([14.0, 2.0])
        .show(ui, |ui| {
            pencil(ui, words::HOURS);
            for head in job_words::BAND {
                right_in(ui, FIGURE, |ui| pencil(ui, head));
            }
            ui.end_row();
            for (what, band, figure) in [
                (words::MACHINE, lot.machine_hours, Figure::MachineHours),
                (words::LABOR, lot.labor_hours, Figure::LaborHours),
            ] {
                ui.label(what);
                let [low, likely, high] = show::hours_band(band);
                right(ui, &low);
                right_in(ui, FIGURE, |ui| {
                    figure_word(ui, &likely, figure, look::bold(), view, Some(anchors));
                });
                right(ui, &high);
                if figure == Figure::MachineHours {
                    pencil(ui, by_runs);
                }
                ui.end_row();
            }
        });
    ui.add_space(6.0);
    minutes_ui(ui, &lot.machine);
}

/// The minutes of the machine, by what it does.
fn minutes_ui(ui: &mut Ui, machine: &MachineMinutes) {
    Grid::new("minutes")
        .num_columns(2)
        .spacing([14.0, 1.0])
        .show(ui, |ui| {
            pencil(ui, words::MACHINE_MINUTES);
            pencil(ui, "");
            ui.end_row();
            for (what, minutes) in [
                (words::IN_HOLES, machine.holes),
                (words::SETTING_UP, machine.set_up),
                (words::FIRST_PIECE, machine.first_piece),
                (words::LOADING, machine.load),
                (words::INDEX_AND_TILT, machine.index),
                (words::TURNING_OVER, machine.turn_over),
                (words::TRAVEL, machine.travel),
                (words::ELECTRODE_CHANGES, machine.electrode_changes),
                (words::GUIDE_CHANGES, machine.guide_changes),
                (words::DRESSING, machine.dressing),
                (words::BROKEN_ELECTRODES, machine.breakages),
            ] {
                if minutes > 0.0 {
                    ui.label(what);
                    right(ui, &show::minutes(minutes));
                    ui.end_row();
                }
            }
        });
}

fn costs_ui(
    ui: &mut Ui,
    shared: &Shared<'_>,
    price: &PriceFigures,
    view: &mut SheetView,
    anchors: &mut Anchors,
) {
    let digits = shared.shop.tables.rates.minor_digits;
    Grid::new("costs")
        .num_columns(2)
        .spacing([14.0, 1.0])
        .show(ui, |ui| {
            pencil(ui, words::COST);
            right_in(ui, AMOUNT, |ui| pencil(ui, &price.currency));
            ui.end_row();
            for (what, amount) in [
                (words::MACHINE, price.cost.machine),
                (words::LABOR, price.cost.labor),
                (words::ELECTRODES, price.cost.electrodes),
                (words::GUIDES, price.cost.guides),
                (words::DIELECTRIC, price.cost.dielectric),
                (words::POWER, price.cost.power),
                (words::OUTSIDE_WORK, price.cost.outside),
                (words::REDONE_WORK, price.cost.redo),
                (words::PART_AT_RISK, price.cost.part_risk),
            ] {
                if amount > 0.0 {
                    amount_ui(ui, what, &show::money(amount, digits));
                }
            }
            let not_yet_known = show::money(price.cost.not_yet_known, digits);
            ui.label(job_words::not_yet_known(price.cost.share_not_yet_known()));
            right_in(ui, AMOUNT, |ui| {
                let font = look::body();
                let figure = Figure::NotYetKnown;
                figure_word(ui, &not_yet_known, figure, font, view, Some(anchors));
            });
            ui.end_row();
            let total = show::money(price.expected_cost, digits);
            ui.label(job_words::EXPECTED_COST);
            right_in(ui, AMOUNT, |ui| {
                let font = look::bold();
                figure_word(ui, &total, Figure::LotCost, font, view, Some(anchors));
            });
            ui.end_row();
            let band = [price.lot_cost.p10, price.lot_cost.p50, price.lot_cost.p90];
            let band = band.map(|cost| show::money(cost, 0));
            amount_ui(ui, &job_words::BAND.join(", "), &band.join(", "));
            amount_ui(ui, words::MARGIN, &show::percent(price.margin));
            amount_ui(ui, words::MARKUP, &show::percent(price.markup));
        });
}

/// A line of the costs that opens no working.
fn amount_ui(ui: &mut Ui, what: &str, amount: &str) {
    ui.label(what);
    right_in(ui, AMOUNT, |ui| {
        ui.label(amount);
    });
    ui.end_row();
}

fn breaks_ui(
    ui: &mut Ui,
    shared: &Shared<'_>,
    price: &PriceFigures,
    view: &mut SheetView,
    anchors: &mut Anchors,
) {
    let digits = shared.shop.tables.rates.minor_digits;
    Grid::new("breaks")
        .num_columns(4)
        .spacing([22.0, 2.0])
        .show(ui, |ui| {
            for head in words::BREAK_HEADS {
                right_in(ui, FIGURE, |ui| pencil(ui, head));
            }
            ui.end_row();
            for offered in &price.breaks {
                right(ui, &offered.quantity.to_string());
                right(ui, &show::money(offered.unit_cost, digits));
                let each = show::money_exact(offered.each, digits);
                right_in(ui, FIGURE, |ui| {
                    let figure = Figure::UnitPrice(offered.quantity);
                    figure_word(ui, &each, figure, look::bold(), view, Some(anchors));
                });
                right(ui, &show::money_exact(offered.lot, digits));
                let mut says = Vec::new();
                if offered.minimum {
                    says.push(words::BY_MINIMUM);
                }
                if offered.overruled {
                    says.push(words::OVERRULED);
                }
                pencil(ui, &says.join(", "));
                ui.end_row();
            }
        });
    for (what, amount) in &price.one_off {
        pencil(ui, &words::once(what, &show::money_exact(*amount, digits)));
    }
}

/// A figure set right in its column.
fn right(ui: &mut Ui, text: &str) {
    right_in(ui, FIGURE, |ui| {
        ui.label(text);
    });
}

/// Something set right in a column of a width, which it takes up whole.
fn right_in(ui: &mut Ui, width: f32, add: impl FnOnce(&mut Ui)) {
    let size = vec2(width, 18.0);
    ui.allocate_ui_with_layout(size, Layout::right_to_left(Align::Center), |ui| {
        // Without this the cell would be as wide as its text and the next one would begin under it.
        ui.set_min_size(size);
        add(ui);
    });
}
