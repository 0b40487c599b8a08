//! Side notes: what is pencilled beside the lines, each tied to its line by a thin leader.

use std::cell::LazyCell;
use std::collections::BTreeMap;

use egui::{Rect, RichText, Ui, UiBuilder, pos2, vec2};
use quillbore_calc::RowId;
use quillbore_calc::finding::Level;
use quillbore_job::Edit;
use quillbore_job::question::Question;
use quillbore_job::results::{Beside, SideNote, Telling};
use quillbore_job::slip::kind;
use quillbore_job::words::english;

use super::answer;
use super::shared::{Anchors, Shared};
use crate::look;
use crate::view::{Ask, SheetView};
use crate::words::sheet as words;
use crate::working::working_ui;

/// Between two notes.
const BETWEEN: f32 = 16.0;

/// Notes that say the same of several rows, told once.
struct NoteGroup<'a> {
    first: &'a SideNote,
    text: String,
    /// The words of what can be done about it.
    offer: Option<String>,
    rows: Vec<RowId>,
    /// Lines of the run records that say so, from 0.
    lines: Vec<usize>,
    edits: Vec<Edit>,
    questions: Vec<&'a Question>,
    at: f32,
}

/// The column of the notes, filled from the top down.
#[derive(Clone, Copy)]
struct NoteColumn {
    rect: Rect,
    /// Where the sheet ends and leaders begin.
    sheet_right: f32,
    /// Where there is room again.
    next: f32,
}

impl NoteColumn {
    /// Draws something beside the line at `at`, or below what stands there, with its leader.
    fn put(&mut self, ui: &mut Ui, at: f32, add: impl FnOnce(&mut Ui)) -> Rect {
        let column = self.rect;
        let top = at.max(self.next) - 8.0;
        let area = Rect::from_min_size(
            pos2(column.left(), top.max(column.top())),
            vec2(column.width(), 2_000.0),
        );
        let shown = ui.scope_builder(UiBuilder::new().max_rect(area), |ui| {
            ui.set_width(column.width());
            ui.spacing_mut().item_spacing = vec2(0.0, 1.0);
            add(ui);
        });
        let rect = shown.response.rect;
        look::leader(
            ui.painter(),
            pos2(self.sheet_right + 4.0, at),
            pos2(rect.left() - 4.0, rect.top() + 8.0),
            look::tokens(ui).hairline,
        );
        self.next = rect.bottom() + BETWEEN;
        rect
    }
}

/// The notes in their column; gives how far down they reach.
pub fn notes_ui(
    ui: &mut Ui,
    shared: &Shared<'_>,
    view: &mut SheetView,
    anchors: &Anchors,
    column: Rect,
    sheet_right: f32,
    asks: &mut Vec<Ask>,
) -> f32 {
    let mut column = NoteColumn {
        rect: column,
        sheet_right,
        next: column.top(),
    };
    // The working stands right beside its figure; notes above it that would run into it stand below.
    let open = view.opened.is_some();
    let beside = anchors.opened.filter(|_| open);
    let mut working = beside.map(|at| {
        let mut beside = column;
        beside.put(ui, at, |ui| working_ui(ui, shared, view, asks))
    });
    let mut below = working.map(|rect| rect.bottom() + BETWEEN);
    for told in gathered(shared, anchors) {
        let free = working.is_none_or(|rect| {
            told.at.max(column.next) + height_of(&told) < rect.top() || below.is_none()
        });
        if !free && let Some(from) = below.take() {
            column.next = column.next.max(from);
        }
        column.put(ui, told.at, |ui| note_ui(ui, shared, view, &told, asks));
    }
    if let Some(rect) = working {
        column.next = column.next.max(rect.bottom() + BETWEEN);
    } else if open {
        let at = column.next;
        working = Some(column.put(ui, at, |ui| working_ui(ui, shared, view, asks)));
    }
    // A working that was just opened, perhaps from the foot, is brought into sight once.
    if view.opened_seen != view.opened {
        view.opened_seen = view.opened;
        if let Some(rect) = working.filter(|rect| !ui.clip_rect().contains_rect(*rect)) {
            ui.scroll_to_rect(rect.expand(12.0), None);
        }
    }
    column.next
}

/// About how high a note will be: enough to see whether it runs into what stands below it.
fn height_of(told: &NoteGroup<'_>) -> f32 {
    const LETTERS: usize = 38;
    const LINE: f32 = 16.0;
    let offer = told.offer.as_ref().map_or(0, String::len);
    let asks = if told.questions.is_empty() {
        0
    } else {
        LETTERS
    };
    let lines = (told.text.len() + offer + asks + 16).div_ceil(LETTERS) + 1;
    lines as f32 * LINE
}

/// Notes beside lines in sight, equal ones of several rows as one, from the top down.
fn gathered<'a>(shared: &Shared<'a>, anchors: &Anchors) -> Vec<NoteGroup<'a>> {
    let telling = Telling::new(shared.job, &shared.shop.tables);
    let mut all: Vec<NoteGroup<'a>> = Vec::new();
    let lines = run_lines(shared);
    // Lines that say the same, by what they say: there may be as many as a job has slips.
    let mut by_text: BTreeMap<String, usize> = BTreeMap::new();
    for note in &shared.results.notes {
        let (row, line) = match note.beside {
            Beside::Row(row, _) => (Some(row), None),
            Beside::Slip(slip, _) => (None, lines.get(&slip).copied()),
            Beside::Field(_) | Beside::Plan | Beside::Price | Beside::Papers => (None, None),
        };
        // Worded once at the most, and only where it may say what another one says.
        let text = LazyCell::new(|| telling.text(note));
        let offer = LazyCell::new(|| telling.offer(note));
        let words = || offer.as_ref().map(|offer| offer.words.as_str());
        let said = line.and_then(|_| by_text.get(text.as_ref()).copied());
        if let Some(told) = said.and_then(|at| all.get_mut(at)) {
            told.lines.extend(line);
            continue;
        }
        let same = row.and_then(|_| {
            all.iter_mut().find(|told| {
                !told.rows.is_empty()
                    && told.first.kind.is_like(&note.kind)
                    && (told.first.has_facts_of(note) || told.text == **text)
                    && told.offer.as_deref() == words()
            })
        });
        let offer = || offer.as_deref().cloned();
        if let Some(told) = same {
            told.rows.extend(row);
            told.edits.extend(offer().map(|offer| offer.edit));
            told.questions.extend(note.question.as_deref());
            continue;
        }
        let Some(at) = anchors.find(note.beside) else {
            continue;
        };
        if line.is_some() {
            by_text.insert(text.clone().into_owned(), all.len());
        }
        let (words, edit) = offer().map(|offer| (offer.words, offer.edit)).unzip();
        all.push(NoteGroup {
            first: note,
            text: text.clone().into_owned(),
            offer: words,
            rows: row.into_iter().collect(),
            lines: line.into_iter().collect(),
            edits: edit.into_iter().collect(),
            questions: note.question.as_deref().into_iter().collect(),
            at,
        });
    }
    all.sort_by(|a, b| a.at.total_cmp(&b.at));
    all
}

fn note_ui(
    ui: &mut Ui,
    shared: &Shared<'_>,
    view: &mut SheetView,
    told: &NoteGroup<'_>,
    asks: &mut Vec<Ask>,
) {
    let t = look::tokens(ui);
    let level = told.first.level;
    let about = about(shared, told);
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 0.0;
        let ink = if level == Level::Note {
            t.pencil
        } else {
            t.ink
        };
        let word = RichText::new(format!("{}  ", english::level(level)))
            .font(look::small_bold())
            .color(ink);
        ui.label(word);
        if !about.is_empty() {
            ui.label(
                RichText::new(format!("{about}: "))
                    .font(look::small())
                    .color(ink),
            );
        }
        ui.label(RichText::new(&told.text).font(look::small()).color(ink));
        if let Some(words) = &told.offer {
            ui.add_space(5.0);
            if look::word(ui, words).clicked() {
                asks.extend(Edit::together(told.edits.clone()).map(Ask::Edit));
            }
            ui.add_space(8.0);
        }
        answer::question_ui(ui, shared, view, &told.questions, &about, asks);
        answer::settle_ui(ui, shared, told.first, asks);
    });
}

/// Where each run record stands in their table.
fn run_lines(shared: &Shared<'_>) -> BTreeMap<u32, usize> {
    let runs = shared.job.slips_of::<kind::Run>();
    runs.enumerate()
        .map(|(line, run)| (run.id(), line))
        .collect()
}

/// The rows or lines that a note is about, the first of them by name.
fn about(shared: &Shared<'_>, told: &NoteGroup<'_>) -> String {
    const SHOWN: usize = 6;
    if !told.lines.is_empty() {
        let shown = told.lines.iter().take(SHOWN).copied();
        return words::lines_of_runs(shown, told.lines.len());
    }
    let rows = &told.rows;
    let speaker = shared.speaker();
    let marks: Vec<String> = rows
        .iter()
        .take(SHOWN)
        .map(|row| speaker.mark(*row))
        .collect();
    words::about(&marks, rows.len().saturating_sub(SHOWN))
}
