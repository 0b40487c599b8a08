//! The job's sheet: blocks stacked in the order of the trade, notes beside them, the foot below.

pub mod again;
pub mod alike;
pub mod answer;
pub mod fields;
pub mod foot;
pub mod head;
pub mod holes;
pub mod notes;
pub mod papers;
pub mod places;
pub mod plan;
pub mod price;
pub mod reports;
pub mod settings;
pub mod shelf_list;
pub mod slips;
pub mod waiting;

use std::collections::BTreeMap;

use egui::{RichText, ScrollArea, Ui, vec2};
use quillbore_calc::Figure;
use quillbore_job::results::{Beside, Results};
use quillbore_job::words::english;
use quillbore_job::words::findings::Speaker;
use quillbore_job::{Block, Job, Shop};

use crate::look;
use crate::view::{Ask, View};

/// What every panel may read.
#[derive(Clone, Copy)]
pub struct Shared<'a> {
    /// The job.
    pub job: &'a Job,
    /// What was computed of it.
    pub results: &'a Results,
    /// The shop.
    pub shop: &'a Shop,
    /// Today.
    pub day: chrono::NaiveDate,
    /// Letter paper instead of A4.
    pub letter: bool,
    /// The job that this one does again, where the shelf has it.
    pub before: Option<&'a Job>,
    /// Numbers of the other open inquiries of the same customer: a quotation may hold them all.
    pub together: &'a [String],
    /// What this desk calls itself: who notes an answer.
    pub by: &'a str,
    /// What tells this sheet from the others on the desk.
    pub sheet_id: u64,
}

impl<'a> Shared<'a> {
    /// Who puts findings and figures into words.
    #[must_use]
    pub const fn speaker(&self) -> Speaker<'a> {
        Speaker {
            job: self.job,
            tables: &self.shop.tables,
            unit: self.job.unit,
        }
    }
}

/// Where on the screen a line stands that a side note can speak of.
#[derive(Default)]
pub struct Anchors {
    lines: BTreeMap<Beside, f32>,
    /// Where the figure stands whose working is open.
    pub opened: Option<f32>,
    /// Where the hole table stands, for rows of it that are out of sight.
    pub table: Option<f32>,
}

impl Anchors {
    /// Notes where a line stands.
    pub fn put(&mut self, beside: Beside, y: f32) {
        self.lines.entry(beside).or_insert(y);
    }

    /// Where a line stands; a cell's row, or its block, where the cell itself is not drawn.
    #[must_use]
    pub fn find(&self, beside: Beside) -> Option<f32> {
        let direct = self.lines.get(&beside).copied();
        direct.or_else(|| match beside {
            Beside::Row(row, _) => {
                let row = self.lines.get(&Beside::Row(row, None)).copied();
                row.or(self.table)
            }
            Beside::Field(field) if field.block() == Block::Price => {
                self.lines.get(&Beside::Price).copied()
            }
            Beside::Field(field) if field.block() == Block::Plan => {
                self.lines.get(&Beside::Plan).copied()
            }
            Beside::Field(_) => self.lines.values().copied().reduce(f32::min),
            Beside::Slip(slip, Some(_)) => self.lines.get(&Beside::Slip(slip, None)).copied(),
            Beside::Plan | Beside::Price | Beside::Papers | Beside::Slip(..) => None,
        })
    }
}

const NOTES_WIDTH: f32 = 268.0;
const GAP: f32 = 26.0;
const MARGIN: f32 = 18.0;

/// The sheet with its side notes, in one scrolling area.
pub fn sheet_ui(
    ui: &mut Ui,
    shared: &Shared<'_>,
    settings: &crate::settings::Settings,
    view: &mut View,
    asks: &mut Vec<Ask>,
) {
    ScrollArea::vertical()
        .id_salt(("sheet", shared.sheet_id))
        .auto_shrink([false, false])
        .show(ui, |ui| {
            let full = ui.available_rect_before_wrap();
            let width = (full.width() - NOTES_WIDTH - GAP - 2.0 * MARGIN).max(420.0);
            let left = full.left() + MARGIN;
            let mut anchors = Anchors::default();
            let top = ui.cursor().top() + 10.0;
            let area = egui::Rect::from_min_size(egui::pos2(left, top), vec2(width, f32::INFINITY));
            let sheet = ui.scope_builder(egui::UiBuilder::new().max_rect(area), |ui| {
                ui.set_width(width);
                ui.spacing_mut().item_spacing.y = 4.0;
                settings::settings_ui(ui, settings, view, asks);
                again::again_ui(ui, shared, view, asks);
                fields::inquiry_ui(ui, shared, view, &mut anchors, asks);
                holes::holes_ui(ui, shared, view, &mut anchors, asks);
                plan::plan_ui(ui, shared, view, &mut anchors, asks);
                price::price_ui(ui, shared, view, &mut anchors, asks);
                papers::papers_ui(ui, shared, view, &mut anchors, asks);
                slips::order_ui(ui, shared, view, &mut anchors, asks);
                slips::records_ui(ui, shared, view, &mut anchors, asks);
                slips::calls_ui(ui, shared, view, &mut anchors, asks);
                ui.add_space(30.0);
            });
            let bottom = sheet.response.rect.bottom();
            let notes = egui::Rect::from_min_size(
                egui::pos2(left + width + GAP, top),
                vec2(NOTES_WIDTH, (bottom - top).max(100.0)),
            );
            let reached = notes::notes_ui(ui, shared, view, &anchors, notes, left + width, asks);
            let all = egui::Rect::from_min_max(
                full.min,
                egui::pos2(full.right(), bottom.max(reached) + 20.0),
            );
            ui.advance_cursor_after_rect(all);
        });
}

/// A block's head: its name in spaced capitals, a word that folds it; true where it is laid open.
pub fn block_head(ui: &mut Ui, block: Block, view: &mut View, summary: &str) -> bool {
    let t = look::tokens(ui);
    ui.add_space(9.0);
    look::hairline(ui);
    let folded = view.folded.contains(&block);
    ui.horizontal(|ui| {
        let name = look::spaced_caps(english::block(block), t.ink);
        let head = ui
            .add(egui::Label::new(name).sense(egui::Sense::click()))
            .on_hover_cursor(egui::CursorIcon::PointingHand);
        head.widget_info(|| {
            egui::WidgetInfo::labeled(egui::Role::Link, true, english::block(block))
        });
        if head.clicked() {
            toggle(&mut view.folded, block);
        }
        if folded {
            ui.add_space(8.0);
            ui.add(egui::Label::new(RichText::new(summary).font(look::small())).truncate());
        }
    });
    !folded
}

/// A heading for a block that does not fold.
pub fn plain_head(ui: &mut Ui, text: &str) {
    let t = look::tokens(ui);
    ui.add_space(9.0);
    look::hairline(ui);
    ui.label(look::spaced_caps(text, t.ink));
}

/// Takes a value into a set, or out of it where it is in.
pub fn toggle<T: Ord + Copy>(set: &mut std::collections::BTreeSet<T>, value: T) {
    if !set.remove(&value) {
        set.insert(value);
    }
}

/// A figure that opens its working when it is clicked.
pub fn figure_word(
    ui: &mut Ui,
    text: &str,
    figure: Figure,
    font: egui::FontId,
    view: &mut View,
    anchors: Option<&mut Anchors>,
) {
    let t = look::tokens(ui);
    let open = view.opened == Some(figure);
    let color = if open { t.accent } else { t.ink };
    let label =
        egui::Label::new(RichText::new(text).font(font).color(color)).sense(egui::Sense::click());
    let response = ui
        .add(label)
        .on_hover_cursor(egui::CursorIcon::PointingHand);
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Link, true, text));
    if response.hovered() || open {
        look::dashed_underline(
            ui.painter(),
            response.rect.x_range(),
            response.rect.bottom() - 1.0,
            t.accent,
        );
    }
    if response.clicked() {
        view.opened = if open { None } else { Some(figure) };
        view.overrule = crate::view::OverruleDraft::default();
    }
    if open && let Some(anchors) = anchors {
        anchors.opened = Some(response.rect.center().y);
    }
}

/// Pencilled text: hints, units, explanations.
pub fn pencil(ui: &mut Ui, text: &str) {
    let t = look::tokens(ui);
    ui.label(RichText::new(text).font(look::small()).color(t.pencil));
}
