//! "Done this before?": the jobs of the shelf most like this one, under the price.

use egui::{Grid, Ui};
use quillbore_calc::JobFigures;
use quillbore_job::show_quantity as show;
use quillbore_office::digest::Alike;

use super::parts::pencil;
use super::shared::Shared;
use quillbore_office::office::Wanted;

use crate::look;
use crate::view::Ask;
use crate::words::again as words;

/// The most similar jobs with price each and actual hours.
pub fn alike_ui(ui: &mut Ui, shared: &Shared<'_>, alike: &[Alike], asks: &mut Vec<Ask>) {
    if alike.is_empty() {
        return;
    }
    ui.add_space(8.0);
    let length =
        |mm: Option<f64>| mm.map_or_else(String::new, |mm| show::length_mm(mm, shared.job.unit));
    Grid::new("alike")
        .num_columns(7)
        .spacing([14.0, 2.0])
        .show(ui, |ui| {
            for head in words::ALIKE_HEADS {
                pencil(ui, head);
            }
            ui.end_row();
            for job in alike {
                let Ok(digest) = &job.summary.says else {
                    continue;
                };
                let summary = &digest.summary;
                if look::word(ui, &job.number).clicked() {
                    asks.extend(
                        job.summary
                            .job
                            .clone()
                            .map(|key| Ask::Open(Wanted::Key(key))),
                    );
                }
                ui.label(format!("{} {}", summary.customer, summary.part));
                ui.label(&summary.material);
                let (size, depth) = (length(summary.size_mm), length(summary.depth_mm));
                ui.label(words::size_and_depth(&size, &depth));
                ui.label(summary.quantity.map_or_else(String::new, |q| q.to_string()));
                ui.label(summary.price.map_or_else(
                    || summary.state.clone(),
                    |price| words::each_at(price.each, price.quantity),
                ));
                ui.label(summary.hours.map_or_else(String::new, |hours| {
                    let minutes = show::minutes(hours.each * 60.0);
                    words::minutes_each(&minutes, hours)
                }));
                ui.end_row();
            }
        });
    if let Some(said) = this_one(&shared.results.figures) {
        pencil(ui, &said);
    }
}

/// What a part of this job is planned to take.
fn this_one(figures: &JobFigures) -> Option<String> {
    let [sparking, by_clock] = planned_each(figures)?.map(show::minutes);
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
