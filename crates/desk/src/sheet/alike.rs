//! "Done this before?": the jobs of the shelf most like this one, under the price.

use egui::Ui;
use quillbore_calc::JobFigures;
use quillbore_job::Form;
use quillbore_office::digest::{Alike, Summary};

use super::columns::{Column, Columns};
use super::parts::pencil;
use super::price::{ALIKE, one_line};
use super::shared::Shared;
use quillbore_office::office::Wanted;

use crate::look;
use crate::view::Ask;
use crate::words::again as words;
use crate::words::shelf::amount;

/// Number, who and what, material, size x depth, quantity, price each, minutes each.
const WIDTHS: [Column; 7] = [
    Column::left(76.0),
    Column::left(160.0),
    Column::left(108.0),
    Column::right(92.0),
    Column::right(48.0),
    Column::right(148.0),
    Column::right(144.0),
];

/// Between two columns.
const GAP: f32 = 8.0;

/// The most similar jobs with price each and actual hours.
pub fn alike_ui(ui: &mut Ui, shared: &Shared<'_>, alike: &[Alike], asks: &mut Vec<Ask>) {
    ui.add_space(8.0);
    let columns = Columns::new(&WIDTHS);
    // The lines are there also where the shelf has nothing like it, so that nothing jumps.
    columns.row(ui, |at, ui| {
        if let Some(head) = words::ALIKE_HEADS.get(at).filter(|_| !alike.is_empty()) {
            pencil(ui, head);
        }
    });
    for at in 0..ALIKE {
        let job = alike.get(at);
        let says = job.and_then(|job| Some((job, job.summary.says.as_ref().ok()?)));
        columns.row(ui, |column, ui| {
            if let Some((job, digest)) = says {
                cell_ui(ui, column, (job, &digest.summary), shared, asks);
            }
        });
    }
    let said = this_one(shared.whole.planned_each, shared.shop.form).filter(|_| !alike.is_empty());
    one_line(ui, &said.unwrap_or_default(), ui.available_width());
}

fn cell_ui(
    ui: &mut Ui,
    column: usize,
    (job, summary): (&Alike, &Summary),
    shared: &Shared<'_>,
    asks: &mut Vec<Ask>,
) {
    let form = shared.shop.form;
    let length =
        |mm: Option<f64>| mm.map_or_else(String::new, |mm| form.length_mm(mm, shared.job.unit));
    let count = |count: u32| form.count(f64::from(count));
    let said = match column {
        0 => {
            if look::word(ui, &job.number).clicked() {
                let key = job.summary.job.clone();
                asks.extend(key.map(|key| Ask::Open(Wanted::Key(key))));
            }
            return;
        }
        1 => format!("{} {}", summary.customer, summary.part),
        2 => summary.material.clone(),
        3 => words::size_and_depth(&length(summary.size_mm), &length(summary.depth_mm)),
        4 => summary.quantity.map_or_else(String::new, count),
        5 => summary.price.as_ref().map_or_else(
            || summary.state.clone(),
            |price| {
                let own = &shared.shop.own().tables.rates;
                let each = amount(price, (&own.currency, own.minor_digits, form));
                words::each_at(&each, &count(price.quantity))
            },
        ),
        _ => summary.hours.map_or_else(String::new, |hours| {
            let minutes = form.minutes(hours.each * 60.0);
            words::minutes_each(&minutes, hours)
        }),
    };
    if column < 3 {
        let room = ui.available_rect_before_wrap();
        let room = room.with_max_x(room.right() - GAP);
        look::clipped_label(ui, room, &said, look::body(), look::tokens(ui).ink);
    } else {
        // A figure that fills its column still stands apart from the one before.
        ui.set_max_width(ui.available_width() - GAP);
        ui.add(egui::Label::new(said).truncate());
    }
}

/// What a part of this job is planned to take.
fn this_one(planned_each: Option<[f64; 2]>, form: Form) -> Option<String> {
    let [sparking, by_clock] = planned_each?.map(|minutes| form.minutes(minutes));
    Some(words::this_one(&sparking, &by_clock))
}

/// Minutes that a part is planned to take: sparking, and by the clock without setting up.
pub fn planned_each(figures: &JobFigures) -> Option<[f64; 2]> {
    let lot = figures.lot.as_ref()?;
    let sparking = figures.holes.iter().filter_map(|hole| {
        let sparking = hole.minutes_in?.sparking();
        Some(f64::from(hole.places) * sparking)
    });
    let parts = f64::from(lot.quantity.max(1));
    let machine = &lot.machine;
    let by_clock = (machine.sum() - machine.set_up - machine.first_piece) / parts;
    Some([sparking.sum(), by_clock])
}
