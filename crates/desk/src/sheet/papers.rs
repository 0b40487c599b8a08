//! The papers: those that left the house, words that lay out, issue or print the others, and their
//! pages as they will be printed.

use egui::{RichText, Sense, Ui, vec2};
use quillbore_job::Paper;
use quillbore_job::results::Beside;
use quillbore_job::words::{life, slips};

use super::pages::Pages;
use super::parts::{pencil, plain_head};
use super::shared::{Anchors, Shared};
use crate::actions::Action;
use crate::look;
use crate::preview::paint_page;
use crate::view::{Ask, SheetView};
use crate::words::papers as words;

/// The block of the papers.
pub fn papers_ui(
    ui: &mut Ui,
    shared: &Shared<'_>,
    view: &mut SheetView,
    anchors: &mut Anchors,
    asks: &mut Vec<Ask>,
) {
    plain_head(ui, words::HEAD);
    anchors.put(Beside::Papers, ui.cursor().top() + 10.0);
    issued_ui(ui, shared, asks);
    ui.horizontal_wrapped(|ui| {
        pencil(ui, words::PREVIEW);
        for paper in Paper::ALL {
            if look::word(ui, slips::paper(*paper)).clicked() {
                view.paper = if view.paper == Some(*paper) {
                    None
                } else {
                    Some(*paper)
                };
            }
            ui.add_space(8.0);
        }
        if look::word(ui, words::PRINT_PREVIEWS).clicked() {
            asks.push(Ask::Do(Action::Print));
        }
    });
    let Some(paper) = view.paper else {
        return;
    };
    if view.paper_seen != Some(paper) {
        view.paper_seen = Some(paper);
        ui.scroll_to_cursor(Some(egui::Align::Min));
    }
    issue_ui(ui, paper, shared, asks);
    if look::quiet_word(ui, words::HIDE).clicked() {
        view.paper = None;
        view.paper_seen = None;
        view.pages = None;
    }
    pages_ui(ui, paper, shared, view);
}

fn issued_ui(ui: &mut Ui, shared: &Shared<'_>, asks: &mut Vec<Ask>) {
    for issued in &shared.job.issued {
        ui.horizontal(|ui| {
            ui.label(RichText::new(life::paper(issued.paper, &issued.number)).font(look::bold()));
            let mut said = words::of(issued.date);
            if let Some(until) = issued.valid_until {
                said += &words::valid_until(until);
            }
            if let Some(line) = issued.lines.first()
                && let Some(each) = line.each
            {
                said += &words::each_at(each, line.quantity);
            }
            if shared.job.is_withdrawn(issued) {
                said += words::WITHDRAWN;
            } else if let Some(later) = shared.job.replaced_by(&issued.number) {
                said += &words::replaced_by(&later.number);
            }
            pencil(ui, &said);
            let response = look::quiet_word(ui, words::REPRINT);
            let name = words::reprint(&issued.number);
            response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Link, true, &name));
            if response.clicked() {
                asks.push(Ask::Reprint(issued.number.clone()));
            }
        });
    }
}

/// What is in the way of issuing the paper laid out, or the word that issues it.
fn issue_ui(ui: &mut Ui, paper: Paper, shared: &Shared<'_>, asks: &mut Vec<Ask>) {
    let before = shared.before;
    let found = shared.results.found();
    let in_the_way = quillbore_job::life::blockers(paper, shared.job, &found, before);
    ui.horizontal_wrapped(|ui| {
        if in_the_way.is_empty() {
            if look::word(ui, &words::issue(paper)).clicked() {
                asks.push(Ask::Issue(paper));
            }
            if paper == Paper::Quotation && !shared.together.is_empty() {
                ui.add_space(8.0);
                let word = words::issue_together(shared.together);
                if look::word(ui, &word).clicked() {
                    asks.push(Ask::IssueTogether);
                }
            }
        } else {
            let said: Vec<String> = in_the_way.iter().map(life::blocker).collect();
            pencil(ui, &words::in_the_way(&said));
        }
    });
}

fn pages_ui(ui: &mut Ui, paper: Paper, shared: &Shared<'_>, view: &mut SheetView) {
    let pages = match view.pages.take() {
        Some(pages) if pages.are_of(paper, shared) => pages,
        _ => Pages::of(paper, shared),
    };
    let pages = view.pages.insert(pages);
    let document = &pages.document;
    if document.is_cut {
        pencil(ui, &words::too_long());
        return;
    }
    let (width, height) = document.sheet.size();
    let scale = ui.available_width() / width as f32;
    for page in &document.pages {
        ui.add_space(10.0);
        let size = vec2(width as f32, height as f32) * scale;
        let (rect, _) = ui.allocate_exact_size(size, Sense::hover());
        if ui.is_rect_visible(rect) {
            paint_page(ui.painter(), rect, scale, page);
        }
    }
}
