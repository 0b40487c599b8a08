//! The papers: words that show the others before they are issued, and those that left the house.

use egui::{Align, Layout, Rangef, RichText, Ui, vec2};
use quillbore_job::Paper;
use quillbore_job::results::Beside;
use quillbore_job::words::{life, slips};
use quillbore_paper::BlankForm;

use super::parts::{block_head, pencil};
use super::shared::{Anchors, Shared};
use crate::actions::Action;
use crate::desk::Then;
use crate::look;
use crate::view::{Ask, SheetView};
use crate::words::{hand_over, papers as words};

/// Lines for issued papers that always have their place.
const LEAST: usize = 3;

/// The height of the line of an issued paper.
const LINE: f32 = 22.0;

/// The block of the papers.
pub fn papers_ui(
    ui: &mut Ui,
    shared: &Shared<'_>,
    view: &mut SheetView,
    anchors: &mut Anchors,
    asks: &mut Vec<Ask>,
) {
    let top = ui.cursor().top();
    let issued = shared.job.issued.iter();
    let numbers: Vec<&str> = issued.map(|issued| issued.number.as_str()).collect();
    let open = block_head(ui, words::HEAD, view, &numbers.join(", "));
    anchors.put(Beside::Papers, Rangef::new(top + 24.0, top + 44.0));
    if !open {
        return;
    }
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 12.0;
        pencil(ui, words::PREVIEW);
        for paper in (Paper::ALL.iter()).filter(|paper| shared.job.may_have(**paper)) {
            if look::word(ui, slips::paper(*paper)).clicked() {
                asks.push(Ask::Preview(*paper));
            }
        }
        if look::word(ui, words::PRINT_PREVIEWS).clicked() {
            asks.push(Ask::Do(Action::Print));
        }
        if look::quiet_word(ui, hand_over::OPEN_FOLDER).clicked() {
            asks.push(Ask::OpenFolder);
        }
    });
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 12.0;
        pencil(ui, words::FOR_THE_FLOOR);
        for form in BlankForm::ALL {
            if look::word(ui, words::blank(*form)).clicked() {
                asks.push(Ask::BlankForm(*form));
            }
        }
        if look::word(ui, words::THREADING).clicked() {
            asks.push(Ask::Threading);
        }
    });
    issued_ui(ui, shared, asks);
    beside_ui(ui, shared, asks);
}

/// The files beside the job, each by name, size and hash, opened by a press.
fn beside_ui(ui: &mut Ui, shared: &Shared<'_>, asks: &mut Vec<Ask>) {
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 12.0;
        pencil(ui, hand_over::ATTACHED);
        if shared.beside.is_empty() {
            pencil(ui, hand_over::NOTHING_ATTACHED);
        }
        if look::quiet_word(ui, hand_over::ATTACH).clicked() {
            asks.push(Ask::AskToAttach);
        }
    });
    for file in shared.beside {
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = 12.0;
            let word = look::word(ui, file.name.as_str());
            let named = hand_over::open_beside(&file.name);
            word.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Link, true, &named));
            if word.on_hover_text(hand_over::hash(file)).clicked() {
                asks.push(Ask::OpenBeside(file.name.clone()));
            }
            pencil(ui, &hand_over::beside(file));
        });
    }
}

fn issued_ui(ui: &mut Ui, shared: &Shared<'_>, asks: &mut Vec<Ask>) {
    let form = shared.shop.form;
    for issued in &shared.job.issued {
        let line = vec2(ui.available_width(), LINE);
        ui.allocate_ui_with_layout(line, Layout::left_to_right(Align::Center), |ui| {
            ui.set_min_size(line);
            ui.label(RichText::new(life::paper(issued.paper, &issued.number)).font(look::bold()));
            let mut said = words::of(&form.day(issued.date));
            if let Some(until) = issued.valid_until {
                said += &words::valid_until(&form.day(until));
            }
            if let Some(line) = issued.lines.first()
                && let Some(each) = line.each
            {
                let mut each = form.amount(each);
                if let Some(currency) = &issued.currency {
                    each = format!("{each} {currency}");
                }
                said += &words::each_at(&each, &form.count(f64::from(line.quantity)));
            }
            if shared.job.is_withdrawn(issued) {
                said += words::WITHDRAWN;
            } else if let Some(later) = shared.job.replaced_by(&issued.number) {
                said += &words::replaced_by(&later.number);
            }
            pencil(ui, &said);
            let number = &issued.number;
            for (word, ask) in [
                (hand_over::OPEN, Ask::Reprint(number.clone(), Then::Open)),
                (hand_over::PRINT, Ask::Reprint(number.clone(), Then::Print)),
                (hand_over::MAIL, Ask::Mail(number.clone())),
            ] {
                ui.add_space(6.0);
                let response = look::quiet_word(ui, word);
                let name = hand_over::of_paper(word, number);
                response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Link, true, &name));
                if response.clicked() {
                    asks.push(ask);
                }
            }
        });
    }
    let left = LEAST.saturating_sub(shared.job.issued.len());
    ui.add_space(left as f32 * LINE);
}
