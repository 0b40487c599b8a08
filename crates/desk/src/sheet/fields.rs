//! The single lines of a block, in two columns; more of them when they are asked for.

use egui::{Ui, vec2};
use quillbore_job::words::english;
use quillbore_job::{Block, Field};

use super::line::{is_long, line_ui};
use super::parts::{block_head, toggle};
use super::shared::{Anchors, Shared};
use crate::look;
use crate::spot::Spot;
use crate::view::{Ask, SheetView};
use crate::words::sheet as words;

/// The lines that a first quotation needs; the others are laid out when asked for, or once filled.
const ESSENTIAL: &[Field] = &[
    Field::Customer,
    Field::CustomerReference,
    Field::Part,
    Field::Revision,
    Field::Drawing,
    Field::DrawingRevision,
    Field::Material,
    Field::Condition,
    Field::Quantity,
    Field::Breaks,
    Field::SizeX,
    Field::SizeY,
    Field::SizeZ,
    Field::Mass,
    Field::Thickness,
    Field::AngleBasis,
    Field::Due,
    Field::PartValue,
    Field::Machine,
    Field::IndexAbout,
    Field::Margin,
    Field::LeadDays,
];

/// The block of the inquiry.
pub fn inquiry_ui(
    ui: &mut Ui,
    shared: &Shared<'_>,
    view: &mut SheetView,
    anchors: &mut Anchors,
    asks: &mut Vec<Ask>,
) {
    let summary = [
        Field::Customer,
        Field::Part,
        Field::Revision,
        Field::Material,
        Field::Quantity,
    ]
    .iter()
    .map(|field| shared.job.text(*field))
    .filter(|text| !text.is_empty())
    .collect::<Vec<_>>()
    .join("   ");
    if block_head(ui, Block::Inquiry, view, &summary) {
        fields_ui(ui, Block::Inquiry, shared, view, anchors, asks);
    }
}

/// The lines of a block, in two columns; long texts over both.
pub fn fields_ui(
    ui: &mut Ui,
    block: Block,
    shared: &Shared<'_>,
    view: &mut SheetView,
    anchors: &mut Anchors,
    asks: &mut Vec<Ask>,
) {
    let all = view.laid_out.contains(&block);
    let shown = |field: &&Field| {
        field.block() == block
            && (all || ESSENTIAL.contains(field) || !shared.job.field(**field).is_empty())
    };
    let fields: Vec<Spot> = Field::ALL
        .iter()
        .filter(shown)
        .map(|field| Spot::Field(*field))
        .collect();
    let short = fields.iter().filter(|spot| !is_long(**spot)).count();
    spots_ui(ui, &fields, shared, view, anchors, asks);
    let hidden = Field::ALL
        .iter()
        .filter(|field| field.block() == block)
        .count();
    let word = words::lines(all);
    if hidden > short || all {
        let response = look::quiet_word(ui, word);
        response.widget_info(|| {
            egui::WidgetInfo::labeled(
                egui::Role::Link,
                true,
                words::lines_of(all, english::block(block)),
            )
        });
        if response.clicked() {
            toggle(&mut view.laid_out, block);
        }
    }
}

/// Lines to type on, in two columns; long texts over both.
pub fn spots_ui(
    ui: &mut Ui,
    spots: &[Spot],
    shared: &Shared<'_>,
    view: &mut SheetView,
    anchors: &mut Anchors,
    asks: &mut Vec<Ask>,
) {
    let (long, short): (Vec<Spot>, Vec<Spot>) = spots.iter().partition(|spot| is_long(**spot));
    let column = (ui.available_width() - 24.0) / 2.0;
    let order: Vec<Spot> = short.iter().chain(&long).copied().collect();
    for pair in short.chunks(2) {
        ui.horizontal_top(|ui| {
            ui.spacing_mut().item_spacing.x = 0.0;
            for (index, spot) in pair.iter().enumerate() {
                if index > 0 {
                    ui.add_space(24.0);
                }
                let down = egui::Layout::top_down(egui::Align::Min);
                ui.allocate_ui_with_layout(vec2(column, 22.0), down, |ui| {
                    ui.set_width(column);
                    line_ui(ui, *spot, &order, shared, view, anchors, asks);
                });
            }
        });
    }
    for spot in long {
        line_ui(ui, spot, &order, shared, view, anchors, asks);
    }
}
