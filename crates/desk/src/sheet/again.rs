//! A job that is done again: what was learned first, then the three prices on one line, then what
//! changed.

use egui::{RichText, Ui};
use quillbore_job::job::FigureKey;
use quillbore_job::reorder::LastPrice;
use quillbore_job::slip::{kind, line};
use quillbore_job::words::{issued::prices_not_trusted, life as life_words};
use quillbore_job::{
    Edit, Field, Job, Line, Paper, SlipKind, life, order, reorder, show_quantity as show,
};

use super::parts::{pencil, plain_head};
use super::shared::{Anchors, Shared};
use super::tracks::{flowed, tracks_ui};
use quillbore_office::names::JobKey;
use quillbore_office::office::Wanted;

use crate::look;
use crate::spot::Spot;
use crate::view::{Ask, SheetView};
use crate::words::again as words;

/// The block of the job before; nothing where this job is the first of its kind.
pub fn again_ui(ui: &mut Ui, shared: &Shared<'_>, view: &mut SheetView, asks: &mut Vec<Ask>) {
    let number = shared.job.text(Field::Again).trim();
    if number.is_empty() {
        return;
    }
    plain_head(ui, &words::head(number));
    let Some(old) = shared.before else {
        pencil(ui, words::NO_SUCH_JOB);
        return;
    };
    learned_ui(ui, shared, old, view, asks);
    prices_ui(ui, shared, old, asks);
    changed_ui(ui, shared, old);
}

fn learned_ui(
    ui: &mut Ui,
    shared: &Shared<'_>,
    old: &Job,
    view: &mut SheetView,
    asks: &mut Vec<Ask>,
) {
    let learned = reorder::learned(old);
    for open in &learned.open {
        let said = if open.is_empty() {
            words::NOT_WRITTEN_DOWN
        } else {
            open
        };
        ui.horizontal(|ui| {
            ui.label(RichText::new(words::OPEN_NONCONFORMANCE).font(look::bold()));
            ui.label(said);
            pencil(ui, words::CLOSE_IT_IN);
            if look::word(ui, &old.number).clicked() {
                asks.extend(
                    JobKey::new(&old.number)
                        .ok()
                        .map(|key| Ask::Open(Wanted::Key(key))),
                );
            }
        });
    }
    if let Some(order) = shared.job.slips_of::<kind::Order>().next_back()
        && !learned.open.is_empty()
    {
        tracks_ui(
            ui,
            &flowed([Spot::Line(order.id(), Line::GoOn)]),
            shared,
            view,
            &mut Anchors::default(),
            asks,
        );
    }
    for (label, texts) in [
        (words::DO_OTHERWISE, &learned.next_time),
        (words::SETTINGS_THAT_WORKED, &learned.settings),
        (words::TROUBLE, &learned.trouble),
    ] {
        for text in texts {
            ui.horizontal(|ui| {
                ui.label(RichText::new(label).font(look::bold()));
                ui.add(egui::Label::new(text).wrap());
            });
        }
    }
    if learned.next_time.is_empty() && learned.trouble.is_empty() && learned.settings.is_empty() {
        pencil(ui, words::NO_LESSONS);
    }
}

/// Last, today's and the order's price on one line, what differs, and what can be done.
fn prices_ui(ui: &mut Ui, shared: &Shared<'_>, old: &Job, asks: &mut Vec<Ask>) {
    let offered = shared.results.asked.input.quantity.unwrap_or(1);
    let today = shared.results.figures.price.as_ref();
    let today = today.and_then(|price| price.breaks.first());
    let last = reorder::last_price(old, offered);
    let left_out = reorder::not_trusted(old);
    let order = shared.job.slips_of::<kind::Order>().next_back();
    let order = order.and_then(|order| order.get(line::Each));
    ui.horizontal_wrapped(|ui| {
        let bold = |text: String| RichText::new(text).font(look::bold());
        if let Some(last) = &last {
            pencil(ui, words::LAST);
            ui.label(bold(last.each.to_string()));
            pencil(ui, &words::last_at(last.quantity, &last.paper, last.date));
        } else if left_out.is_empty() {
            pencil(ui, words::NO_PRICE_LAST_TIME);
        }
        if let Some(today) = today {
            pencil(ui, words::today(today.overruled));
            ui.label(bold(today.each.to_string()));
            pencil(ui, &words::at(today.quantity));
        }
        if let Some(order) = order {
            pencil(ui, words::THE_ORDER_PAYS);
            ui.label(bold(order.to_string()));
        }
        if let Some(hours) = life::actual_hours(old) {
            pencil(ui, words::LAST_HOURS);
            ui.label(bold(show::hours(hours)));
        }
    });
    if !left_out.is_empty() {
        ui.label(prices_not_trusted(&left_out));
    }
    differences_ui(ui, shared);
    ui.horizontal(|ui| {
        price_words_ui(ui, shared, (offered, last), asks);
        ui.add_space(8.0);
        if order.is_some() && look::word(ui, words::CONFIRM_ORDER).clicked() {
            asks.push(Ask::Issue(Paper::Confirmation));
        }
        ui.add_space(8.0);
        if look::word(ui, words::CALL_ABOUT_IT).clicked() {
            asks.push(Ask::Pin(SlipKind::Call));
        }
    });
}

/// What differs between order and sheet.
fn differences_ui(ui: &mut Ui, shared: &Shared<'_>) {
    let orders = shared.job.slips_of::<kind::Order>();
    for difference in orders.flat_map(|order| order::open(shared.job, order)) {
        ui.horizontal(|ui| {
            ui.label(RichText::new(words::DIFFERS).font(look::bold()));
            ui.add(egui::Label::new(life_words::difference(&difference)).wrap());
        });
    }
}

/// The words that keep the last price, or take today's again.
fn price_words_ui(
    ui: &mut Ui,
    shared: &Shared<'_>,
    (offered, last): (u32, Option<LastPrice>),
    asks: &mut Vec<Ask>,
) {
    let figure = FigureKey::UnitPrice(offered);
    let overruled = shared.job.overrule(&figure).is_some();
    if let Some(last) = last.filter(|_| !overruled)
        && look::word(ui, words::KEEP_LAST_PRICE).clicked()
    {
        asks.push(Ask::Edit(last.keep(offered, shared.job.unit)));
    }
    if overruled && look::word(ui, words::TAKE_TODAYS_PRICE).clicked() {
        asks.push(Ask::Edit(Edit::WithdrawOverrule { figure }));
    }
}

fn changed_ui(ui: &mut Ui, shared: &Shared<'_>, old: &Job) {
    let mut lines: Vec<String> = reorder::changed(old, shared.job)
        .iter()
        .map(life_words::changed)
        .collect();
    lines.extend(rates_changed(shared, old));
    if lines.is_empty() {
        pencil(ui, words::NOTHING_CHANGED);
        return;
    }
    for line in lines {
        ui.horizontal_wrapped(|ui| {
            pencil(ui, words::CHANGED);
            ui.label(line);
        });
    }
}

/// Rates that the last issued paper rested on and that are others today.
fn rates_changed(shared: &Shared<'_>, old: &Job) -> impl Iterator<Item = String> {
    let today = quillbore_office::issue::rests_on(shared.results, shared.shop);
    let others = reorder::other_rates(old, &today).into_iter();
    others.map(|rate| {
        let (was, is) = (show::number(rate.was, 4), show::number(rate.is, 4));
        words::rate(&rate.name, &was, &is)
    })
}
