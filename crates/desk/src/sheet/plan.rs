//! The plan: machine and texts, setups, electrodes for the lot.

use egui::{Align, Layout, Rangef, Ui, vec2};
use quillbore_calc::Figure;
use quillbore_job::results::Beside;
use quillbore_job::words::english;
use quillbore_job::{Block, Field};

use super::columns::{Column, Columns};
use super::fields;
use super::parts::{block_head, figure_word, pencil};
use super::shared::{Anchors, Shared};
use crate::look;
use crate::view::{Ask, SheetView};
use crate::words::plan as words;

/// Name, needed, fewest possible, kit, drilled row by row.
const WIDTHS: [Column; 5] = [
    Column::left(230.0),
    Column::right(70.0),
    Column::right(100.0),
    Column::right(110.0),
    Column::right(110.0),
];

/// What holds the part, setup by setup as far as there is room; the rest is on the traveler.
const HELD: [Column; 5] = [
    Column::left(120.0),
    Column::left(150.0),
    Column::left(150.0),
    Column::left(150.0),
    Column::left(150.0),
];

/// Rows of electrodes that always have their place.
const LEAST_ROWS: usize = 3;

/// The block of the plan.
pub fn plan_ui(
    ui: &mut Ui,
    shared: &Shared<'_>,
    view: &mut SheetView,
    anchors: &mut Anchors,
    asks: &mut Vec<Ask>,
) {
    let summary = shared.job.text(Field::Machine).to_owned();
    let top = ui.cursor().top();
    let open = block_head(ui, english::block(Block::Plan), view, &summary);
    anchors.put(Beside::Plan, Rangef::new(top + 24.0, top + 44.0));
    if !open {
        return;
    }
    fields::fields_ui(ui, Block::Plan, shared, view, anchors, asks);
    ui.add_space(8.0);
    let line = vec2(ui.available_width(), 20.0);
    let layout = Layout::left_to_right(Align::Center);
    // The line is there also where there is no setup yet, so that what stands below never jumps.
    ui.allocate_ui_with_layout(line, layout, |ui| {
        ui.set_min_size(line);
        // First in the line: what stands before it would move it.
        figure_word(ui, words::COMPARE, Figure::Machines, look::body(), view);
        let figures = &shared.results.figures;
        let count = figures.setups.len();
        if count == 0 {
            return;
        }
        figure_word(
            ui,
            &words::setups(count),
            Figure::Setups,
            look::body(),
            view,
        );
        let said: Vec<String> = (figures.setups.iter().enumerate())
            .map(|(index, setup)| words::setup(index + 1, setup))
            .collect();
        let room = ui.available_rect_before_wrap();
        let pencil = look::tokens(ui).pencil;
        look::clipped_label(ui, room, &said.join("; "), look::small(), pencil);
    });
    held_ui(ui, shared, view);
    electrodes_ui(ui, shared, view);
}

/// What must hold the part against the flush, setup by setup, each in a place of its own.
fn held_ui(ui: &mut Ui, shared: &Shared<'_>, view: &mut SheetView) {
    let setups = &shared.results.figures.setups;
    let is_known = setups.iter().any(|setup| setup.held.is_some());
    Columns::new(&HELD).row(ui, |column, ui| {
        let Some(at) = column.checked_sub(1) else {
            if is_known {
                pencil(ui, words::HELD);
            } else if !setups.is_empty() {
                pencil(ui, words::NOT_HELD);
            }
            return;
        };
        let Some(held) = setups.get(at).and_then(|setup| setup.held) else {
            return;
        };
        let clamp = (held.clamp_n > 0.0).then(|| shared.speaker().force(held.clamp_n));
        let said = words::held(at + 1, clamp.as_deref());
        let figure = Figure::Clamp(u32::try_from(at).unwrap_or(u32::MAX));
        figure_word(ui, &said, figure, look::body(), view);
    });
}

/// Electrodes by tube: needed, the bound, the kit, and the fewest in any order.
fn electrodes_ui(ui: &mut Ui, shared: &Shared<'_>, view: &mut SheetView) {
    let lot = shared.results.figures.lot.as_ref();
    let electrodes = lot.map_or(&[][..], |lot| &lot.electrodes);
    ui.add_space(4.0);
    Columns::new(&WIDTHS).row(ui, |at, ui| {
        if let Some(head) = words::ELECTRODE_HEADS.get(at) {
            pencil(ui, head);
        }
    });
    for at in 0..electrodes.len().max(LEAST_ROWS) {
        Columns::new(&WIDTHS).row(ui, |column, ui| {
            let Some(electrodes) = electrodes.get(at) else {
                return;
            };
            let tube = electrodes.tube.of(&shared.shop.tables.tubes);
            let name = tube.map_or(words::NO_TUBE, |tube| tube.name.as_str());
            let figure = Figure::Electrodes(electrodes.tube);
            let count = |count: u32| shared.shop.form.count(f64::from(count));
            match column {
                0 => {
                    ui.label(name);
                }
                1 => {
                    let needed = count(electrodes.needed);
                    figure_word(ui, &needed, figure, look::bold(), view);
                }
                2 => {
                    ui.label(count(electrodes.at_least));
                }
                3 => {
                    ui.label(count(electrodes.kit));
                }
                _ => {
                    ui.label(count(electrodes.fewest));
                }
            }
        });
    }
}
