//! A job that is done again: what was learned first, then the three prices on one line, then what
//! changed.

use egui::{RichText, Ui};
use quillbore_job::job::FigureKey;
use quillbore_job::reorder::LastPrice;
use quillbore_job::shop::minor_digits;
use quillbore_job::slip::{kind, line};
use quillbore_job::words::{issued::prices_not_trusted, life as life_words};
use quillbore_job::{Edit, Field, Job, Line, Paper, SlipKind, life, order, reorder};

use super::columns::{Column, Columns};
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
    let scrap = learned
        .scrap
        .iter()
        .map(|(mark, parts)| words::scrap(mark, *parts));
    let closed = learned
        .closed
        .iter()
        .filter(|what| !what.is_empty())
        .cloned();
    let went_wrong: Vec<String> = scrap.chain(closed).collect();
    for text in &went_wrong {
        ui.horizontal(|ui| {
            ui.label(RichText::new(words::WENT_WRONG).font(look::bold()));
            ui.add(egui::Label::new(text).wrap());
        });
    }
    let written = [
        &learned.next_time,
        &learned.trouble,
        &learned.settings,
        &went_wrong,
    ];
    if written.iter().all(|texts| texts.is_empty()) {
        pencil(ui, words::NO_LESSONS);
    }
}

/// What, last time, today, the order.
const PRICES: [Column; 4] = [
    Column::left(140.0),
    Column::right(180.0),
    Column::right(140.0),
    Column::right(180.0),
];

/// Last time, today and the order side by side: price each, quantity, minutes of a part; what differs,
/// and what can be done.
fn prices_ui(ui: &mut Ui, shared: &Shared<'_>, old: &Job, asks: &mut Vec<Ask>) {
    let offered = shared.results.asked.input.quantity.unwrap_or(1);
    let today = shared.results.figures.price.as_ref();
    let today = today.and_then(|price| price.breaks.first());
    let last = reorder::last_price(old, offered);
    let left_out = reorder::not_trusted(old);
    let order = shared.job.slips_of::<kind::Order>().next_back();
    let order_each = order.as_ref().and_then(|order| order.get(line::Each));
    let order_quantity = order.as_ref().and_then(|order| order.get(line::Quantity));
    let said = |text: Option<String>| text.unwrap_or_default();
    let (digits, form) = (shared.shop.tables.rates.minor_digits, shared.shop.form);
    let money = |amount| form.money_exact(amount, digits);
    let reckoned = shared.shop.tables.rates.currency.as_str();
    let in_its = |amount, currency: Option<&str>| match currency {
        Some(currency) => {
            let amount = form.money_exact(amount, minor_digits(currency));
            format!("{amount} {currency}")
        }
        // An older entry says none.
        None => money(amount),
    };
    let pays = order.and_then(|order| order::pays_in(shared.job, order));
    let count = |count: u32| form.count(f64::from(count));
    let columns = Columns::new(&PRICES);
    let of_last = last.as_ref().map(|last| words::last_at(&last.origin(form)));
    let today_is = words::today(today.is_some_and(|today| today.overruled));
    let heads = [
        String::new(),
        said(of_last),
        today_is.to_owned(),
        said(order.as_ref().map(|_| words::THE_ORDER.to_owned())),
    ];
    columns.row(ui, |at, ui| pencil(ui, &heads[at]));
    let took = life::hours_each(old);
    let planned = shared.whole.planned_each.zip(took);
    let planned = planned.map(|([sparking, by_clock], took)| {
        form.minutes(if took.by_clock { by_clock } else { sparking })
    });
    let took = took.map(|took| words::took(&form.minutes(took.hours * 60.0), took));
    for (what, cells) in [
        (
            words::PRICE_EACH,
            [
                last.as_ref()
                    .map(|last| in_its(last.each, last.currency.as_deref())),
                today.map(|today| in_its(today.each, Some(reckoned))),
                order_each.map(|each| in_its(each, pays)),
            ],
        ),
        (
            words::QUANTITY,
            [
                last.as_ref().map(|last| count(last.quantity)),
                today.map(|today| count(today.quantity)),
                order_quantity.map(count),
            ],
        ),
        (words::MINUTES_OF_A_PART, [took, planned, None]),
    ] {
        columns.row(ui, |at, ui| match at.checked_sub(1) {
            None => pencil(ui, what),
            Some(at) => {
                let text = cells.get(at).cloned().flatten().unwrap_or_default();
                ui.label(RichText::new(text).font(look::bold()));
            }
        });
    }
    if last.is_none() && left_out.is_empty() {
        pencil(ui, words::NO_PRICE_LAST_TIME);
    }
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
            ui.add(egui::Label::new(life_words::difference(&difference, shared.shop.form)).wrap());
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
    if let Some(last) =
        last.filter(|last| !overruled && last.other_currency(shared.job, shared.shop).is_none())
        && look::word(ui, words::KEEP_LAST_PRICE).clicked()
    {
        asks.push(Ask::Edit(last.keep(
            offered,
            shared.job.unit,
            shared.shop.form,
        )));
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
    let form = shared.shop.form;
    others.map(move |rate| {
        let [was, is] = [rate.was, rate.is].map(|value| form.number(value, 4));
        words::rate(&rate.name, &was, &is)
    })
}
