//! The plan: machine and texts, clampings, electrodes for the lot.

use egui::{Grid, Sense, Ui, vec2};
use quillbore_calc::Figure;
use quillbore_job::results::Beside;
use quillbore_job::{Block, Field, show_quantity as show};
use quillbore_paper::drawing::section;
use quillbore_paper::page::Page;

use super::fields;
use super::parts::{block_head, figure_word, pencil};
use super::shared::{Anchors, Shared};
use crate::look;
use crate::preview::paint_picture;
use crate::view::{Ask, SheetView};
use crate::words::plan as words;

/// The block of the plan.
pub fn plan_ui(
    ui: &mut Ui,
    shared: &Shared<'_>,
    view: &mut SheetView,
    anchors: &mut Anchors,
    asks: &mut Vec<Ask>,
) {
    let summary = shared.job.text(Field::Machine).to_owned();
    let open = block_head(ui, Block::Plan, view, &summary);
    anchors.put(Beside::Plan, ui.cursor().top() + 10.0);
    if !open {
        return;
    }
    fields::fields_ui(ui, Block::Plan, shared, view, anchors, asks);
    let figures = &shared.results.figures;
    if !figures.setups.is_empty() {
        ui.add_space(4.0);
        ui.horizontal_wrapped(|ui| {
            let count = figures.setups.len();
            let word = words::clampings(count);
            figure_word(ui, &word, Figure::Setups, look::body(), view, Some(anchors));
            let said: Vec<String> = (figures.setups.iter().enumerate())
                .map(|(index, setup)| words::clamping(index + 1, setup))
                .collect();
            pencil(ui, &said.join("; "));
        });
    }
    ui.horizontal_top(|ui| {
        ui.vertical(|ui| electrodes_ui(ui, shared, view, anchors));
        ui.add_space(24.0);
        section_ui(ui, shared, view);
    });
}

/// The section of the hole under the cursor, as the traveler draws it.
fn section_ui(ui: &mut Ui, shared: &Shared<'_>, view: &SheetView) {
    /// Width and height on paper, in points.
    const PAPER: (f64, f64) = (76.0, 60.0);
    const SCALE: f32 = 1.7;
    let at = view.grid.cursor().row;
    let figures = shared.results.figures.holes.get(at);
    let row = shared.results.asked.input.rows.get(at);
    let section = figures
        .zip(row)
        .and_then(|(figures, row)| section::of_row(figures, row));
    let (Some(section), Some(row)) = (section, row) else {
        return;
    };
    ui.vertical(|ui| {
        let mut page = Page::default();
        let area = (2.0, 1.0, PAPER.0 - 4.0, PAPER.1 - 2.0);
        section::draw(&mut page, &section, area);
        let size = vec2(PAPER.0 as f32, PAPER.1 as f32) * SCALE;
        let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
        let tilt = show::number(section.tilt_deg, 3);
        let said = words::section(&shared.speaker().hole(row.id), &tilt);
        response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, &said));
        if ui.is_rect_visible(rect) {
            paint_picture(ui.painter(), rect, SCALE, &page, look::tokens(ui));
        }
        pencil(ui, &said);
    });
}

/// Electrodes by tube: needed, the bound, the kit, and changing only when one no longer reaches.
fn electrodes_ui(ui: &mut Ui, shared: &Shared<'_>, view: &mut SheetView, anchors: &mut Anchors) {
    let Some(lot) = shared
        .results
        .figures
        .lot
        .as_ref()
        .filter(|lot| !lot.electrodes.is_empty())
    else {
        return;
    };
    ui.add_space(4.0);
    Grid::new("electrodes")
        .num_columns(6)
        .spacing([18.0, 2.0])
        .show(ui, |ui| {
            for head in words::ELECTRODE_HEADS {
                pencil(ui, head);
            }
            ui.end_row();
            for electrodes in &lot.electrodes {
                let name = electrodes
                    .tube
                    .of(&shared.shop.tables.tubes)
                    .map_or(words::NO_TUBE, |tube| tube.name.as_str());
                ui.label(name);
                let figure = Figure::Electrodes(electrodes.tube);
                figure_word(
                    ui,
                    &electrodes.needed.to_string(),
                    figure,
                    look::bold(),
                    view,
                    Some(anchors),
                );
                ui.label(electrodes.at_least.to_string());
                ui.label(electrodes.kit.to_string());
                ui.label(electrodes.by_order.to_string());
                ui.end_row();
            }
        });
}
