//! The spread of hours and cost: bars from nothing up, hatched from low to high, a tick at likely.

use quillbore_calc::Band;
use quillbore_calc::job_figures::JobFigures;
use quillbore_job::Form;
use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive as _;

use super::hatch::hatch;
use crate::page::{Ink, Page, Stroke, Style};
use crate::typeset::look::CAPTION;
use crate::words::drawing as words;

/// Height of a bar.
const BAR: f64 = 3.4 * 72.0 / 25.4;
/// Above a bar: what it is, and its figures.
const TITLE: f64 = 3.4 * 72.0 / 25.4;
/// Below it: what is marked on it.
const MARKS: f64 = 3.4 * 72.0 / 25.4;
const BETWEEN: f64 = 1.6 * 72.0 / 25.4;

/// A figure with its spread.
#[derive(Clone, Debug, PartialEq)]
pub struct Spread {
    /// What it is, with its unit.
    pub what: String,
    /// Low, likely and high.
    pub band: Band,
    /// The same as text.
    pub said: [String; 3],
    /// What else is marked on the bar, in words, and where.
    pub marked: Option<(f64, String)>,
}

/// The spreads of a job's lot: hours of machine and labor, and its cost with what the lot is sold for, an
/// order's price or today's.
#[must_use]
pub fn of(
    figures: &JobFigures,
    ordered: Option<Decimal>,
    minor_digits: u32,
    form: Form,
) -> Vec<Spread> {
    let mut spreads = Vec::new();
    if let Some(lot) = &figures.lot {
        for (what, band) in [
            (words::MACHINE_HOURS, lot.machine_hours),
            (words::LABOR_HOURS, lot.labor_hours),
        ] {
            spreads.push(Spread {
                what: what.to_owned(),
                band,
                said: form.hours_band(band),
                marked: None,
            });
        }
    }
    if let Some(price) = &figures.price {
        let band = price.lot_cost;
        let today = price.breaks.first().map(|first| first.lot);
        let sold = ordered.or(today).and_then(|lot| lot.to_f64());
        spreads.push(Spread {
            what: words::cost_of_lot(&price.currency),
            band,
            said: [band.p10, band.p50, band.p90].map(|cost| form.money(cost, 0)),
            marked: sold.map(|lot| (lot, words::sold_for(&form.money(lot, minor_digits)))),
        });
    }
    spreads
}

/// Draws spreads below each other into a place of left, top and width.
pub fn draw(page: &mut Page, spreads: &[Spread], (left, top, width): (f64, f64, f64)) {
    let mut y = top;
    for spread in spreads {
        one(page, spread, (left, y, width));
        y += TITLE + BAR + BETWEEN;
        if spread.marked.is_some() {
            y += MARKS;
        }
    }
}

fn one(page: &mut Page, spread: &Spread, (left, top, width): (f64, f64, f64)) {
    let title = words::spread(&spread.what, &spread.said);
    page.text(left, top + CAPTION.size, QUIET, &title);
    let marked = spread.marked.as_ref().map_or(0.0, |(at, _)| *at);
    let most = spread.band.p90.max(marked);
    if !(most.is_finite() && most > 0.0) {
        return;
    }
    let scale = width / (most * 1.04);
    let (upper, lower) = (top + TITLE, top + TITLE + BAR);
    let at = |value: f64| left + value.max(0.0) * scale;
    let [low, likely, high] = [spread.band.p10, spread.band.p50, spread.band.p90].map(at);
    page.rule(left, left + width, lower, Stroke::HAIR);
    page.line((left, upper), (left, lower), Stroke::HAIR);
    let outline = [(low, upper), (high, upper), (high, lower), (low, lower)];
    hatch(page, &outline, 2.0, true, Stroke::new(0.3, Ink::Text));
    let size = (high - low, BAR);
    page.rect((low, upper), size, None, Some(Stroke::OUTLINE));
    let tick = Stroke::new(1.4, Ink::Text);
    page.line((likely, upper - 1.2), (likely, lower + 1.2), tick);
    if let Some((value, said)) = &spread.marked {
        let x = at(*value);
        let ends = ((x, upper - 2.0), (x, lower + 2.0));
        page.line(ends.0, ends.1, Stroke::new(1.0, Ink::Accent));
        let style = CAPTION.ink(Ink::Accent);
        let wide = style.measure(said);
        // The words stay within the bar's own width.
        let from = (x - wide / 2.0).min(left + width - wide).max(left);
        page.text(from, lower + MARKS, style, said);
    }
}

/// Captions with figures that are read, not only looked at.
const QUIET: Style = CAPTION.ink(Ink::Text);
