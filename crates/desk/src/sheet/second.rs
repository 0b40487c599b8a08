//! The second column of a wide window: the section, the map, and the price in short; it stands still.

use egui::{Grid, Rect, RichText, Ui, UiBuilder, pos2};
use quillbore_job::form::one_by_one;
use rust_decimal::prelude::ToPrimitive as _;

use super::map::map_ui;
use super::measures::{MAP, PICTURE};
use super::parts::pencil;
use super::picture::picture_ui;
use super::shared::Shared;
use crate::look;
use crate::view::SheetView;
use crate::words::price as words;
use crate::words::shelf::amount;

/// The section, and under it the map and the price in short.
pub fn second_ui(ui: &mut Ui, place: Rect, shared: &Shared<'_>, view: &mut SheetView) {
    let t = look::tokens(ui);
    let section = Rect::from_min_max(
        pos2(place.left(), place.top() + 24.0),
        pos2(place.right(), place.top() + 24.0 + PICTURE),
    );
    picture_ui(ui, section, shared, view);
    let map = Rect::from_min_max(
        pos2(place.left(), section.bottom() + 16.0),
        pos2(place.right(), section.bottom() + 16.0 + MAP),
    );
    map_ui(ui, map, shared, view);
    let below = place.with_min_y(map.bottom() + 24.0);
    ui.scope_builder(UiBuilder::new().max_rect(below), |ui| {
        ui.label(look::spaced_caps(words::IN_SHORT, t.ink));
        look::hairline(ui);
        ui.add_space(8.0);
        Grid::new("price in short")
            .num_columns(2)
            .spacing([24.0, 4.0])
            .show(ui, |ui| {
                for (what, said) in in_short(shared, view) {
                    pencil(ui, what);
                    ui.label(RichText::new(said).font(look::bold()));
                    ui.end_row();
                }
            });
    });
}

/// The price in short: each line with its label, empty where there is no figure yet.
fn in_short(shared: &Shared<'_>, view: &SheetView) -> [(&'static str, String); 6] {
    let figures = &shared.results.figures;
    let (digits, form) = (shared.shop.tables.rates.minor_digits, shared.shop.form);
    let own_currency = shared.shop.own().tables.rates.currency.as_str();
    let price = figures.price.as_ref();
    let first = price.and_then(|price| price.breaks.first());
    let currency = price.map_or("", |price| price.currency.as_str());
    let money = |amount: f64| format!("{} {currency}", form.money(amount, digits));
    let said = |text: Option<String>| text.unwrap_or_default();
    let hours = figures.lot.as_ref().map(|lot| lot.machine_hours);
    let last = view.alike.as_ref().and_then(|found| found.2.first());
    let last = last.and_then(|alike| {
        let summary = &alike.summary.says.as_ref().ok()?.summary;
        let price = summary.price.as_ref()?;
        Some(words::last_similar(
            &alike.number,
            &amount(price, (own_currency, digits, form)),
            &form.count(f64::from(price.quantity)),
        ))
    });
    let each = first.map(|first| format!("{} {currency}", form.money_exact(first.each, digits)));
    [
        (words::EACH, said(each)),
        (
            words::LOT,
            said(first.map(|first| money(first.lot.to_f64().unwrap_or(0.0)))),
        ),
        (
            words::COST,
            said(price.map(|price| money(price.expected_cost))),
        ),
        (
            words::MARGIN,
            said(price.map(|price| form.percent(price.margin))),
        ),
        (
            words::HOURS_IN_SHORT,
            said(hours.map(|band| {
                let hours = [band.p10, band.p50, band.p90];
                one_by_one(&hours.map(|hours| form.hours(hours)))
            })),
        ),
        (words::LAST_SIMILAR, said(last)),
    ]
}
