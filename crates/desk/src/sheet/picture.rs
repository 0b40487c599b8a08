//! The picture in the margin, as the papers draw it: the section of the hole under the cursor, the
//! electrodes of the lot, or the spread of hours and cost.

use egui::{Rect, Ui, pos2, vec2};
use quillbore_job::life::ordered_at;
use quillbore_paper::drawing::{section, spread, tubes};
use quillbore_paper::page::Page;

use super::pictured::Pictured;
use super::shared::Shared;
use crate::look;
use crate::preview::paint_picture;
use crate::view::SheetView;
use crate::words::plan as words;

/// Below the picture, for what it shows.
const SAID: f32 = 18.0;

/// Screen points a paper point; the smallest words on paper are as large as the smallest here.
const SCALE: f32 = 1.85;

/// More tubes have no room in it.
const MOST_TUBES: usize = 4;

/// The picture in a place that it always takes up.
pub(super) fn picture_ui(ui: &mut Ui, place: Rect, shared: &Shared<'_>, view: &SheetView) {
    let t = look::tokens(ui);
    let frame = place.with_max_y(place.bottom() - SAID);
    look::hairline_at(ui.painter(), place.x_range(), place.top(), t.hairline);
    let area = frame.shrink2(vec2(2.0, 6.0));
    let size = area.size() / SCALE;
    let drawn = drawn(shared, view, (f64::from(size.x), f64::from(size.y)));
    let Some((page, said)) = drawn else {
        return;
    };
    let id = ui.scope_id().with("picture");
    let response = ui.interact(frame, id, egui::Sense::hover());
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, &said));
    paint_picture(ui.painter(), area, SCALE, &page, t);
    let below = Rect::from_min_max(pos2(place.left(), frame.bottom()), place.max);
    look::clipped(ui, below, &said, look::small(), t.pencil);
}

/// What is drawn in so many points on paper, and what is said of it; nothing where it isn't known yet.
fn drawn(
    shared: &Shared<'_>,
    view: &SheetView,
    (width, height): (f64, f64),
) -> Option<(Page, String)> {
    let mut page = Page::default();
    let results = shared.results;
    let said = match view.picture_at.shown {
        Pictured::Hole => {
            let at = view.grid.cursor().row;
            let row = results.asked.input.rows.get(at)?;
            let section = section::of_row(results.figures.holes.get(at)?, row)?;
            section::draw(&mut page, &section, (2.0, 1.0, width - 4.0, height - 2.0));
            let tilt = shared.shop.form.number(section.tilt_deg, 3);
            let figures = results.figures.holes.get(at)?;
            let speaker = shared.speaker();
            let flow = figures.flush.as_deref().map(|flush| {
                let [free, bottom] = [flush.face, flush.bottom].map(|flow| flow.ml_min);
                speaker.form.flow_down(free, bottom)
            });
            let push = figures.push_n.map(|push| speaker.force(push));
            let flush = flow.as_deref().zip(push.as_deref());
            let flush = flush.map(|(flow, push)| [flow, push]);
            words::section(&speaker.hole(row.id), &tilt, flush)
        }
        Pictured::Electrodes => {
            let tables = &shared.shop.tables;
            let chart = tubes::Chart::of(
                shared.job,
                &results.figures,
                tables,
                shared.shop.form,
                MOST_TUBES,
            );
            if chart.loads.is_empty() {
                return None;
            }
            let drawn = tubes::draw(&mut page, &chart, (1.0, 1.0, width - 2.0, height - 2.0));
            words::electrodes_drawn(chart.all, drawn)
        }
        Pictured::Spread => {
            let ordered = ordered_at(shared.job);
            let rates = &shared.shop.tables.rates;
            // A price in another currency has no place on the scale of the cost.
            let ordered = ordered.filter(|at| at.currency.is_none_or(|of| of == rates.currency));
            let ordered = ordered.and_then(|at| at.each.checked_mul(at.parts.into()));
            let digits = rates.minor_digits;
            let spreads = spread::of(&results.figures, ordered, digits, shared.shop.form);
            if spreads.is_empty() {
                return None;
            }
            spread::draw(&mut page, &spreads, (1.0, 4.0, width - 2.0));
            words::SPREAD_DRAWN.to_owned()
        }
    };
    Some((page, said))
}
