//! The fields of the blocks, at fixed places: those of a first quotation in rows as on a title block,
//! the others below them where they are asked for.

use egui::{Layout, Rect, Ui, UiBuilder};
use quillbore_job::words::english;
use quillbore_job::{Block, Field, Job};

use super::parts::{block_head, toggle};
use super::shared::{Anchors, Shared};
use super::tracks::{TrackRow, flowed, tracks_ui};
use crate::look;
use crate::spot::Spot;
use crate::view::{Ask, SheetView};
use crate::words::sheet as words;

/// The rows of the inquiry, as on a title block: each field with its tracks.
const INQUIRY: &[&[(Field, u8)]] = &[
    &[
        (Field::Customer, 4),
        (Field::Contact, 3),
        (Field::CustomerReference, 3),
        (Field::Due, 2),
    ],
    &[
        (Field::Part, 3),
        (Field::Revision, 1),
        (Field::PartName, 3),
        (Field::Drawing, 3),
        (Field::DrawingRevision, 2),
    ],
    &[
        (Field::Material, 4),
        (Field::Condition, 4),
        (Field::Hardness, 2),
        (Field::Mass, 2),
    ],
    &[
        (Field::SizeX, 1),
        (Field::SizeY, 1),
        (Field::SizeZ, 1),
        (Field::Thickness, 2),
        (Field::DefaultTolerance, 4),
        (Field::AngleBasis, 3),
    ],
    &[
        (Field::Quantity, 2),
        (Field::Breaks, 4),
        (Field::PartValue, 2),
        (Field::LiabilityCap, 2),
    ],
];

/// The rows of the plan.
const PLAN: &[&[(Field, u8)]] = &[
    &[
        (Field::Machine, 3),
        (Field::IndexAbout, 3),
        (Field::Fixture, 2),
        (Field::Program, 2),
    ],
    &[
        (Field::RestsOn, 3),
        (Field::FlushPressure, 3),
        (Field::MaskingMinutes, 3),
    ],
];

/// The rows of the price.
const PRICE: &[&[(Field, u8)]] = &[
    &[
        (Field::Margin, 2),
        (Field::LeadDays, 3),
        (Field::ValidDays, 2),
        (Field::FollowUp, 2),
        (Field::FixtureCost, 3),
    ],
    &[
        (Field::TestPieceCost, 3),
        (Field::OutsideText, 3),
        (Field::OutsideCost, 3),
        (Field::OutsidePerPart, 3),
    ],
    &[(Field::OutsideDays, 3)],
];

/// The block of the inquiry.
pub fn inquiry_ui(
    ui: &mut Ui,
    shared: &Shared<'_>,
    view: &mut SheetView,
    anchors: &mut Anchors,
    asks: &mut Vec<Ask>,
) {
    let said = [
        Field::Customer,
        Field::Part,
        Field::Revision,
        Field::Material,
        Field::Quantity,
    ];
    let said = said.iter().map(|field| shared.job.text(*field));
    let summary: Vec<&str> = said.filter(|text| !text.is_empty()).collect();
    let name = english::block(Block::Inquiry);
    if block_head(ui, name, view, &summary.join("   ")) {
        fields_ui(ui, Block::Inquiry, shared, view, anchors, asks);
    }
}

/// The fields of a block: its own rows, and the others where they are asked for.
pub fn fields_ui(
    ui: &mut Ui,
    block: Block,
    shared: &Shared<'_>,
    view: &mut SheetView,
    anchors: &mut Anchors,
    asks: &mut Vec<Ask>,
) {
    let others: Vec<Field> = others(block).collect();
    let filled = others.iter().filter(|field| is_filled(shared.job, **field));
    let filled = filled.count();
    let open = view.more.contains(&block);
    let rows: Vec<TrackRow> = rows(block)
        .iter()
        .map(|row| {
            row.iter()
                .map(|(field, n)| (Spot::Field(*field), *n))
                .collect()
        })
        .collect();
    let free = tracks_ui(ui, &rows, shared, view, anchors, asks);
    more_ui(ui, free, (block, open, filled), view);
    if open {
        let others = flowed(others.into_iter().map(Spot::Field));
        tracks_ui(ui, &others, shared, view, anchors, asks);
    }
}

/// The word that opens the other fields, in the place that is free at the end of the rows.
fn more_ui(
    ui: &mut Ui,
    free: Rect,
    (block, open, filled): (Block, bool, usize),
    view: &mut SheetView,
) {
    let layout = Layout::right_to_left(egui::Align::Max);
    let ui = &mut ui.new_child(UiBuilder::new().max_rect(free).layout(layout));
    let word = look::toggle_word(ui, &words::more_lines(filled), open);
    let name = words::lines_of(english::block(block));
    word.widget_info(|| egui::WidgetInfo::selected(egui::Role::Link, true, open, &name));
    if word.clicked() {
        toggle(&mut view.more, block);
    }
}

const fn rows(block: Block) -> &'static [&'static [(Field, u8)]] {
    match block {
        Block::Inquiry => INQUIRY,
        Block::Plan => PLAN,
        Block::Price => PRICE,
    }
}

/// The fields of a block that stand in none of its rows.
fn others(block: Block) -> impl Iterator<Item = Field> {
    let in_rows = move |field: &Field| {
        let mut all = rows(block).iter().flat_map(|row| row.iter());
        all.any(|(other, _)| other == field)
    };
    let of_block = Field::ALL.iter().copied();
    of_block.filter(move |field| field.block() == block && !in_rows(field))
}

/// Whether something stands in a field that has its place among the others.
fn is_filled(job: &Job, field: Field) -> bool {
    !job.field(field).is_empty()
}

/// Opens the other fields of a block where a field stands among them that somebody wants to go to.
pub fn show_field(field: Field, view: &mut SheetView) {
    let block = field.block();
    view.folded.remove(english::block(block));
    if others(block).any(|other| other == field) {
        view.more.insert(block);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheet::measures::TRACKS;

    #[test]
    fn every_field_has_one_place_and_every_row_fits() {
        for block in [Block::Inquiry, Block::Plan, Block::Price] {
            for row in rows(block) {
                let taken: u8 = row.iter().map(|(_, tracks)| tracks).sum();
                assert!(taken <= TRACKS, "{row:?}");
                assert!(row.iter().all(|(field, _)| field.block() == block));
            }
            // The word that opens the others needs two tracks.
            let last = rows(block).last().expect("a row");
            let taken: u8 = last.iter().map(|(_, tracks)| tracks).sum();
            assert!(taken + 2 <= TRACKS, "{last:?}");
            let placed = rows(block).iter().map(|row| row.len()).sum::<usize>();
            let all = Field::ALL.iter().filter(|field| field.block() == block);
            assert_eq!(placed + others(block).count(), all.count());
        }
    }
}
