//! What run records make of an open figure: how much, by what, and which records.

use egui::{RichText, Ui};
use quillbore_calc::Figure;
use quillbore_calc::learn::Learns;
use quillbore_job::Line;
use quillbore_office::learned::behind;

use crate::look;
use crate::sheet::parts::pencil;
use crate::sheet::shared::Shared;
use crate::view::Ask;
use crate::words::own as words;

/// Most records that are listed under a figure.
const MOST: usize = 8;

/// What run records make of a row's figure; nothing where there are none.
pub(super) fn runs_ui(ui: &mut Ui, shared: &Shared<'_>, figure: Figure, asks: &mut Vec<Ask>) {
    let Some(factor) = factor_of(figure) else {
        return;
    };
    let holes = &shared.results.figures.holes;
    let mut of_row = holes.iter().filter(|hole| Some(hole.row) == figure.row());
    let Some(own) = of_row.find_map(|hole| hole.own.as_deref()) else {
        return;
    };
    let Some(behind) = behind(shared.teaching, shared.shop, &own.like, factor) else {
        return;
    };
    let form = shared.shop.form;
    ui.add_space(4.0);
    pencil(ui, &words::made(&behind, own.behind, form));
    pencil(ui, &words::parts(&behind.parts, form));
    for (source, weight) in behind.records.iter().take(MOST) {
        ui.horizontal_wrapped(|ui| {
            let named = words::record(source, shared.job.number.as_str(), form);
            match &source.job {
                Some(job) => {
                    if look::word(ui, &named).clicked() {
                        let slip = source.taught.slip;
                        asks.push(Ask::OpenRecord(job.clone(), slip, Line::Mark));
                    }
                }
                None => {
                    ui.label(RichText::new(named).font(look::small()));
                }
            }
            ui.add_space(6.0);
            pencil(ui, &words::weight(*weight, form));
        });
    }
    if behind.records.len() > MOST {
        pencil(ui, &words::and_more(behind.records.len() - MOST));
    }
}

/// The factor that a figure goes with.
const fn factor_of(figure: Figure) -> Option<Learns> {
    match figure {
        Figure::Feed(_) | Figure::HoleMinutes(_) => Some(Learns::Burn),
        Figure::Wear(_) | Figure::ReachOne(_) | Figure::ElectrodesPerHole(_) => Some(Learns::Wear),
        Figure::Gap(_) | Figure::Electrode(_) => Some(Learns::Gap),
        Figure::TargetDepth(_)
        | Figure::Flush(_)
        | Figure::Push(_)
        | Figure::Clamp(_)
        | Figure::Machines
        | Figure::Electrodes(_)
        | Figure::AllElectrodes
        | Figure::Setups
        | Figure::MachineHours
        | Figure::LaborHours
        | Figure::NotYetKnown
        | Figure::Cost(_)
        | Figure::LotCost
        | Figure::UnitPrice(_)
        | Figure::LotPrice(_)
        | Figure::WorkingDays => None,
    }
}
