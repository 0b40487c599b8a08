//! The slips pinned to the sheet: order and parts, what happened, calls.

use egui::{Align, Layout, Sense, Ui, UiBuilder, vec2};
use quillbore_job::life;
use quillbore_job::results::Beside;
use quillbore_job::slip::{RUN_COLUMNS, kind, line};
use quillbore_job::words::slips as kind_words;
use quillbore_job::{Edit, Line, Slip, SlipKind};

use super::parts::{block_head, pencil};
use super::runs::runs_ui;
use super::shared::{Anchors, Shared};
use super::tracks::{flowed, tracks_ui};
use crate::look;
use crate::spot::Spot;
use crate::view::{Ask, SheetView};
use crate::words::slips as words;

const ORDER: &[SlipKind] = &[
    SlipKind::Order,
    SlipKind::Release,
    SlipKind::Received,
    SlipKind::Hold,
];
const HAPPENED: &[SlipKind] = &[
    SlipKind::Run,
    SlipKind::Inspection,
    SlipKind::Nonconformance,
    SlipKind::Delivery,
];
const CALLS: &[SlipKind] = &[SlipKind::Call, SlipKind::Reply, SlipKind::Withdrawal];

/// The block of order and parts.
pub fn order_ui(
    ui: &mut Ui,
    shared: &Shared<'_>,
    view: &mut SheetView,
    anchors: &mut Anchors,
    asks: &mut Vec<Ask>,
) {
    let said = parts_said(shared);
    if block_head(ui, words::ORDER, view, &said) {
        block_ui(ui, ORDER, &said, shared, view, anchors, asks);
    }
}

/// The block of what happened, with estimate against actual.
pub fn records_ui(
    ui: &mut Ui,
    shared: &Shared<'_>,
    view: &mut SheetView,
    anchors: &mut Anchors,
    asks: &mut Vec<Ask>,
) {
    let said = took(shared);
    if !block_head(ui, words::RECORDS, view, &said) {
        return;
    }
    let toggled = runs_ui(ui, shared, view, anchors, asks);
    block_ui(ui, HAPPENED, &said, shared, view, anchors, asks);
    if let Some(slip) = toggled {
        super::parts::toggle(&mut view.open_slips, slip);
    }
}

/// What a part took by the run records, held against what it is planned to take.
fn took(shared: &Shared<'_>) -> String {
    let Some(recorded) = shared.whole.took_each else {
        return String::new();
    };
    let form = shared.shop.form;
    let planned = shared.whole.planned_each;
    let planned = planned.map(|[sparking, by_clock]| {
        form.minutes(if recorded.by_clock {
            by_clock
        } else {
            sparking
        })
    });
    let took = form.minutes(recorded.hours * 60.0);
    words::minutes_each(&took, recorded, planned)
}

/// The block of calls and replies.
pub fn calls_ui(
    ui: &mut Ui,
    shared: &Shared<'_>,
    view: &mut SheetView,
    anchors: &mut Anchors,
    asks: &mut Vec<Ask>,
) {
    if block_head(ui, words::CALLS, view, "") {
        block_ui(ui, CALLS, "", shared, view, anchors, asks);
    }
}

fn parts_said(shared: &Shared<'_>) -> String {
    let Some(ordered) = life::ordered(shared.job) else {
        return String::new();
    };
    let here = life::sum::<kind::Received, _>(shared.job, line::Count);
    let gone = life::sum::<kind::Delivery, _>(shared.job, line::Count);
    {
        let shown = [ordered, here, gone].map(|count| shared.shop.form.count(f64::from(count)));
        words::parts(&shown)
    }
}

/// The words that add a slip, what is said of the block, and its slips below them: a new one doesn't
/// move the words.
fn block_ui(
    ui: &mut Ui,
    kinds: &[SlipKind],
    said: &str,
    shared: &Shared<'_>,
    view: &mut SheetView,
    anchors: &mut Anchors,
    asks: &mut Vec<Ask>,
) {
    let line = vec2(ui.available_width(), 20.0);
    let layout = Layout::left_to_right(Align::Center);
    ui.allocate_ui_with_layout(line, layout, |ui| {
        ui.set_min_size(line);
        ui.spacing_mut().item_spacing.x = 12.0;
        pencil(ui, words::ADD);
        for kind in kinds {
            if look::word(ui, kind_words::kind(*kind)).clicked() {
                asks.push(Ask::Pin(*kind));
            }
        }
        ui.add_space(12.0);
        let room = ui.available_rect_before_wrap();
        look::clipped_label(ui, room, said, look::small(), look::tokens(ui).ink);
    });
    for slip in &shared.job.slips {
        if kinds.contains(&slip.kind) && is_laid_out(slip, view) {
            slip_ui(ui, slip, shared, view, anchors, asks);
        }
    }
}

/// Whether a slip has lines of its own on the sheet: a run record does where more is written on it than
/// its line of the table holds.
fn is_laid_out(slip: &Slip, view: &SheetView) -> bool {
    let in_table = |line: &Line| RUN_COLUMNS.iter().any(|column| column.line() == *line);
    slip.kind != SlipKind::Run
        || view.open_slips.contains(&slip.id)
        || slip.lines.keys().any(|line| !in_table(line))
}

fn slip_ui(
    ui: &mut Ui,
    slip: &Slip,
    shared: &Shared<'_>,
    view: &mut SheetView,
    anchors: &mut Anchors,
    asks: &mut Vec<Ask>,
) {
    let t = look::tokens(ui);
    let open = view.open_slips.contains(&slip.id);
    let size = vec2(ui.available_width(), 24.0);
    let (line, _) = ui.allocate_exact_size(size, Sense::hover());
    anchors.put(Beside::Slip(slip.id, None), line.y_range());
    let named = words::slip(kind_words::kind(slip.kind), slip.id);
    ui.scope_builder(UiBuilder::new().max_rect(line), |ui| {
        ui.horizontal_centered(|ui| {
            let head = look::toggle_word(ui, kind_words::kind(slip.kind), open);
            head.widget_info(|| egui::WidgetInfo::selected(egui::Role::Link, true, open, &named));
            if head.clicked() {
                super::parts::toggle(&mut view.open_slips, slip.id);
            }
            ui.add_space(12.0);
            if open {
                if look::quiet_word(ui, words::DELETE).clicked() {
                    asks.push(Ask::Edit(Edit::RemoveSlip { slip: slip.id }));
                }
            } else {
                let room = ui.available_rect_before_wrap();
                look::clipped_label(ui, room, &in_one_line(slip), look::body(), t.ink);
            }
        });
    });
    if open {
        let typed = slip.kind.lines().iter().filter(|line| line.is_typed());
        let spots = typed.map(|line| Spot::Line(slip.id, *line));
        tracks_ui(ui, &flowed(spots), shared, view, anchors, asks);
        ui.add_space(8.0);
    }
}

/// A slip in one line: what was typed, each with its label where the text alone says too little.
fn in_one_line(slip: &Slip) -> String {
    let plain = [
        Line::Date,
        Line::Who,
        Line::Said,
        Line::Outcome,
        Line::Point,
        Line::Mark,
        Line::What,
        Line::By,
    ];
    let told_above = |line: &Line| {
        let in_table = || RUN_COLUMNS.iter().any(|column| column.line() == *line);
        slip.kind == SlipKind::Run && !plain.contains(line) && in_table()
    };
    let typed = slip.kind.lines().iter().filter(|line| line.is_typed());
    let typed = typed.filter(|line| !told_above(line));
    let lines = typed.filter_map(|line| {
        let text = slip.line(*line).text().trim().replace('\n', " / ");
        if text.is_empty() {
            return None;
        }
        Some(if plain.contains(line) {
            text
        } else {
            words::labeled(kind_words::line_in(slip.kind, *line), &text)
        })
    });
    lines.collect::<Vec<_>>().join(", ")
}
