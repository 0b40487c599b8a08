//! A paper's pages over the sheet, and in the margin what can be done with them.

use egui::{Key, Modifiers, Rect, ScrollArea, Sense, Ui, UiBuilder, vec2};
use quillbore_job::life::blockers;
use quillbore_job::results::Telling;
use quillbore_job::words::{life, slips};
use quillbore_job::{Edit, Field, Job, Paper};

use super::pages::Pages;
use super::parts::pencil;
use super::shared::Shared;
use crate::actions::Action;
use crate::look;
use crate::preview::paint_page;
use crate::view::{Ask, SheetView};
use crate::words::papers as words;

/// How long a quotation usually stands (common practice, no source).
const VALID_DAYS: u32 = 30;

/// Whether the key of the next step issues a paper that is on the screen.
#[must_use]
pub fn issues_by_key(job: &Job, paper: Paper) -> bool {
    job.standing(paper).next().is_none()
}

/// The pages of the paper that is open, as they will be printed.
pub fn preview_ui(ui: &mut Ui, place: Rect, shared: &Shared<'_>, view: &mut SheetView) {
    let Some(paper) = view.paper else {
        return;
    };
    // Another paper than the one before is shown from its first page on.
    let is_fresh = view.pages.as_ref().is_none_or(|pages| pages.paper != paper);
    let pages = match view.pages.take() {
        Some(pages) if pages.are_of(paper, shared) => pages,
        _ => Pages::of(paper, shared),
    };
    let pages = view.pages.insert(pages);
    let document = &pages.document;
    ui.scope_builder(UiBuilder::new().max_rect(place), |ui| {
        let scroll =
            ScrollArea::vertical().id_salt(("preview", slips::paper(paper), shared.sheet_id));
        let scroll = scroll.auto_shrink(false);
        let scroll = if is_fresh {
            scroll.vertical_scroll_offset(0.0)
        } else {
            scroll
        };
        scroll.show(ui, |ui| {
            if document.is_cut {
                pencil(ui, &words::too_long());
                return;
            }
            let (width, height) = document.sheet.size();
            let scale = ui.available_width() / width as f32;
            for (at, page) in document.pages.iter().enumerate() {
                ui.add_space(12.0);
                let size = vec2(width as f32, height as f32) * scale;
                let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
                let named = words::page(at + 1, document.pages.len());
                response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, &named));
                if ui.is_rect_visible(rect) {
                    paint_page(ui.painter(), rect, scale, page);
                    let edge = egui::Stroke::new(1.0, look::tokens(ui).hairline);
                    ui.painter()
                        .rect_stroke(rect, 0.0, edge, egui::StrokeKind::Inside);
                }
            }
            ui.add_space(12.0);
        });
    });
}

/// What can be done with the paper that is open, in the margin; Esc closes it.
pub fn preview_words_ui(
    ui: &mut Ui,
    place: Rect,
    shared: &Shared<'_>,
    view: &mut SheetView,
    asks: &mut Vec<Ask>,
) {
    let Some(paper) = view.paper else {
        return;
    };
    ui.scope_builder(UiBuilder::new().max_rect(place), |ui| {
        let area = ScrollArea::vertical().id_salt("words of a preview");
        area.auto_shrink(false)
            .show(ui, |ui| words_ui(ui, paper, shared, view, asks));
    });
}

fn words_ui(
    ui: &mut Ui,
    paper: Paper,
    shared: &Shared<'_>,
    view: &mut SheetView,
    asks: &mut Vec<Ask>,
) {
    ui.add_space(12.0);
    ui.label(egui::RichText::new(slips::paper(paper)).font(look::bold()));
    if let Some(pages) = &view.pages {
        pencil(ui, &words::pages(pages.document.pages.len()));
    }
    ui.add_space(8.0);
    issue_ui(ui, paper, shared, asks);
    terms_ui(ui, paper, shared, asks);
    short_ui(ui, paper, shared);
    ui.add_space(8.0);
    // Letters alone are keys while nothing is being typed.
    let is_free = view.waiting.is_none() && !ui.ctx().text_edit_focused();
    let took = |key: Key| is_free && ui.input_mut(|input| input.consume_key(Modifiers::NONE, key));
    let (print, mail) = (took(Key::P), took(Key::M));
    if look::keyed_word(ui, words::PRINT_PREVIEWS, Key::P.name()).clicked() || print {
        asks.push(Ask::Do(Action::Print));
    }
    mail_ui(ui, paper, mail, shared, asks);
    ui.add_space(12.0);
    others_ui(ui, paper, shared.job, view);
    ui.add_space(12.0);
    let close = look::keyed_word(ui, words::CLOSE_PREVIEW, words::ESC);
    let escaped = || ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Escape));
    if close.clicked() || escaped() {
        view.paper = None;
        view.pages = None;
    }
}

/// What is in the way of issuing the paper, and the word that issues it where nothing is.
fn issue_ui(ui: &mut Ui, paper: Paper, shared: &Shared<'_>, asks: &mut Vec<Ask>) {
    let found = shared.results.found();
    let in_the_way = blockers(paper, shared.job, &found, shared.before);
    if !in_the_way.is_empty() {
        pencil(ui, words::IN_THE_WAY);
        for blocker in &in_the_way {
            ui.label(life::blocker(blocker));
        }
        return;
    }
    let word = if issues_by_key(shared.job, paper) {
        let keys = Action::NextStep.told_keys(ui.ctx());
        look::keyed_word(ui, &words::issue(paper), &keys)
    } else {
        look::word(ui, &words::issue_another(paper))
    };
    if word.clicked() {
        asks.push(Ask::Issue(paper));
    }
    if paper == Paper::Quotation && !shared.together.is_empty() {
        let word = words::issue_together(shared.together);
        if look::word(ui, &word).clicked() {
            asks.push(Ask::IssueTogether);
        }
    }
}

/// What the quotation says of its terms, and a word for each that is left open, with what the shop knows
/// of it.
fn terms_ui(ui: &mut Ui, paper: Paper, shared: &Shared<'_>, asks: &mut Vec<Ask>) {
    if paper != Paper::Quotation {
        return;
    }
    let is_open = |field: &Field| shared.job.text(*field).trim().is_empty();
    let open: Vec<Field> = [Field::LeadDays, Field::ValidDays]
        .into_iter()
        .filter(is_open)
        .collect();
    ui.add_space(8.0);
    pencil(ui, &words::terms(&open));
    let days = shared.promise.map(|promise| promise.days.p90);
    let terms = [
        (Field::LeadDays, days, words::lead_days as fn(u32) -> String),
        (Field::ValidDays, Some(VALID_DAYS), words::valid_days),
    ];
    for (field, days, word) in terms {
        let Some(days) = days else {
            continue;
        };
        // The word keeps its place once it is said: what stands below is aimed at next.
        let is_open = is_open(&field);
        let shown = word(shared.job.count(field).unwrap_or(days));
        let word = ui.add_enabled_ui(is_open, |ui| look::word(ui, &shown));
        if is_open && word.inner.clicked() {
            asks.push(Ask::Edit(Edit::SetField {
                field,
                text: days.to_string(),
                unit: shared.job.unit,
            }));
        }
    }
}

/// What would have to be bought before a date is promised or the floor begins.
fn short_ui(ui: &mut Ui, paper: Paper, shared: &Shared<'_>) {
    if !matches!(
        paper,
        Paper::Quotation | Paper::Confirmation | Paper::Traveler
    ) {
        return;
    }
    let telling = Telling::new(shared.job, shared.shop);
    let notes = shared.results.notes.iter();
    for note in notes.filter(|note| note.kind.is_short_supply()) {
        ui.add_space(8.0);
        ui.label(telling.text(note).as_ref());
    }
}

/// The word that writes a letter with the paper: the one of its kind that stands, since a preview is not
/// sent.
fn mail_ui(ui: &mut Ui, paper: Paper, pressed: bool, shared: &Shared<'_>, asks: &mut Vec<Ask>) {
    let number = shared.job.standing(paper).next_back();
    let number = number.map(|issued| issued.number.as_str());
    let word = ui
        .add_enabled_ui(number.is_some(), |ui| {
            let word = look::keyed_word(ui, &words::mail(number), Key::M.name());
            word.on_disabled_hover_text(words::ISSUE_FIRST)
        })
        .inner;
    if word.clicked() || pressed {
        asks.push(match number {
            Some(number) => Ask::Mail(number.to_owned()),
            None => Ask::Tell(words::ISSUE_FIRST.to_owned()),
        });
    }
}

/// The other papers, each a word that shows it instead.
fn others_ui(ui: &mut Ui, paper: Paper, job: &Job, view: &mut SheetView) {
    for other in Paper::ALL.iter().filter(|other| job.may_have(**other)) {
        let on = *other == paper;
        if look::toggle_word(ui, slips::paper(*other), on).clicked() {
            view.paper = Some(*other);
        }
    }
}
