//! Side notes: what is pencilled in the margin about the lines in sight, equal ones of several rows as
//! one.

use std::cell::LazyCell;
use std::collections::BTreeMap;
use std::hash::{DefaultHasher, Hash as _, Hasher as _};

use egui::{FontId, Rangef, RichText, Ui};
use quillbore_calc::RowId;
use quillbore_calc::finding::Level;
use quillbore_job::Edit;
use quillbore_job::question::Question;
use quillbore_job::results::{Beside, SideNote, Telling};
use quillbore_job::slip::kind;
use quillbore_job::words::{answers, english};

use super::answer;
use super::shared::{Anchors, Shared};
use crate::look;
use crate::view::{Ask, SheetView};
use crate::words::sheet as words;

/// Notes that say the same of several rows, told once.
pub(super) struct NoteGroup<'a> {
    pub(super) first: &'a SideNote,
    pub(super) text: String,
    /// The words of what can be done about it.
    offer: Option<String>,
    rows: Vec<RowId>,
    /// Lines of the run records that say so, from 0.
    lines: Vec<usize>,
    edits: Vec<Edit>,
    questions: Vec<&'a Question>,
    /// Where the first line stands that it speaks of, if that is in sight.
    pub(super) at: Option<Rangef>,
}

impl NoteGroup<'_> {
    /// What tells it from every other note, from one frame to the next.
    pub(super) fn key(&self) -> u64 {
        let mut hasher = DefaultHasher::new();
        self.first.code().hash(&mut hasher);
        format!("{:?}", self.first.beside).hash(&mut hasher);
        self.text.hash(&mut hasher);
        hasher.finish()
    }

    /// Whether it is about a line.
    pub(super) fn speaks_of(&self, beside: Beside) -> bool {
        let of_row = |row: RowId| self.rows.contains(&row);
        self.first.beside == beside || matches!(beside, Beside::Row(row, _) if of_row(row))
    }

    /// How high it will be in a column, and a line more where an answer is typed to it.
    pub(super) fn height(&self, ui: &Ui, shared: &Shared<'_>, view: &SheetView, width: f32) -> f32 {
        const WORD: f32 = 20.0;
        let mut said = format!(
            "{}  {}: ",
            english::level(self.first.level),
            about(shared, self)
        );
        said += &self.text;
        said += self.offer.as_deref().unwrap_or("");
        if let Some(first) = self.questions.first() {
            said += &match first.answer {
                Some(_) => answers::DELETE.to_owned(),
                None => words::answers_in_one(),
            };
        }
        let font: FontId = look::small();
        let galley =
            ui.painter()
                .layout(said, font, egui::Color32::BLACK, (width - 24.0).max(40.0));
        let rows = galley.rows.len() as f32;
        let typed = if self.is_being_answered(view) {
            3.5
        } else {
            0.0
        };
        rows.mul_add(WORD - 3.0, typed * WORD) + 6.0
    }

    /// Whether an answer to it is being typed.
    pub(super) fn is_being_answered(&self, view: &SheetView) -> bool {
        let answered = view.answering.as_ref();
        let first = answered.and_then(|answering| answering.questions.first());
        let mut own = self.questions.iter();
        first.is_some_and(|first| own.any(|own| (own.row, own.concern) == *first))
    }
}

/// The notes of a job, and how many more there are.
pub(super) struct Gathered<'a> {
    /// Equal ones of several rows as one: stops first, then checks, then notes, each from the top down;
    /// those whose lines are out of sight last.
    pub(super) groups: Vec<NoteGroup<'a>>,
    /// Notes about lines out of sight that say something else.
    pub(super) hidden: usize,
}

/// Which notes are gathered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Wanted {
    /// Those about lines in sight; of the others those that rest on the same facts join them.
    InSight,
    /// All of them.
    All,
}

/// Gathers the notes of a job. Those about lines in sight come first, so that what is out of sight is
/// worded where all are wanted alone: there may be thousands.
pub(super) fn gathered<'a>(shared: &Shared<'a>, anchors: &Anchors, wanted: Wanted) -> Gathered<'a> {
    let notes = shared.results.notes.iter();
    let (seen, others): (Vec<_>, Vec<_>) = notes
        .map(|note| (note, anchors.find(note.beside)))
        .partition(|(_, at)| at.is_some());
    let mut hidden = 0;
    let telling = Telling::new(shared.job, &shared.shop.tables);
    let mut all: Vec<NoteGroup<'a>> = Vec::new();
    let lines = run_lines(shared);
    // Lines that say the same, by what they say: there may be as many as a job has slips.
    let mut by_text: BTreeMap<String, usize> = BTreeMap::new();
    for (note, at) in seen.into_iter().chain(others) {
        let is_worded = at.is_some() || wanted == Wanted::All;
        let (row, line) = match note.beside {
            Beside::Row(row, _) => (Some(row), None),
            Beside::Slip(slip, _) => (None, lines.get(&slip).copied()),
            Beside::Field(_) | Beside::Plan | Beside::Price | Beside::Papers => (None, None),
        };
        // Worded once at the most, and only where it may say what another one says.
        let text = LazyCell::new(|| telling.text(note));
        let offer = LazyCell::new(|| telling.offer(note));
        let words = || offer.as_ref().map(|offer| offer.words.as_str());
        let said = line.filter(|_| is_worded);
        let said = said.and_then(|_| by_text.get(text.as_ref()).copied());
        if let Some(told) = said.and_then(|at| all.get_mut(at)) {
            told.lines.extend(line);
            told.at = told.at.or(at);
            continue;
        }
        let same = row.and_then(|_| {
            all.iter_mut().find(|told| {
                !told.rows.is_empty()
                    && told.first.kind.is_like(&note.kind)
                    && (told.first.has_facts_of(note) || (is_worded && told.text == **text))
                    && told.offer.as_deref() == words()
            })
        });
        let offer = || offer.as_deref().cloned();
        if let Some(told) = same {
            told.rows.extend(row);
            told.edits.extend(offer().map(|offer| offer.edit));
            told.questions.extend(note.question.as_deref());
            told.at = told.at.or(at);
            continue;
        }
        if !is_worded {
            hidden += 1;
            continue;
        }
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
    for told in &mut all {
        told.rows.sort_by_key(|row| shared.job.row_index(*row));
        told.lines.sort_unstable();
    }
    let y = |told: &NoteGroup<'_>| told.at.map_or(f32::INFINITY, |at| at.min);
    all.sort_by(|a, b| {
        let by_level = b.first.level.cmp(&a.first.level);
        let seen = a.at.is_none().cmp(&b.at.is_none());
        seen.then(by_level).then(y(a).total_cmp(&y(b)))
    });
    Gathered {
        groups: all,
        hidden,
    }
}

/// One note: how much it matters, of what, what it says, and what can be done about it.
pub(super) fn note_ui(
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
        ui.spacing_mut().item_spacing = egui::vec2(0.0, 0.0);
        let ink = if level == Level::Note {
            t.pencil
        } else {
            t.ink
        };
        look::level_word(ui, level, english::level(level));
        ui.add_space(6.0);
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
            let word = look::word(ui, words);
            take_focus(told, &word, view);
            if word.clicked() {
                asks.extend(Edit::together(told.edits.clone()).map(Ask::Edit));
            }
            ui.add_space(8.0);
        }
        ui.add_space(5.0);
        if let Some(word) = answer::question_ui(ui, shared, view, &told.questions, &about, asks) {
            take_focus(told, &word, view);
        }
        if let Some(word) = answer::settle_ui(ui, shared, told.first, asks) {
            take_focus(told, &word, view);
        }
    });
}

/// Gives the keyboard to the word of a note that somebody went to.
fn take_focus(told: &NoteGroup<'_>, word: &egui::Response, view: &mut SheetView) {
    if view.go_to_note.is_some_and(|beside| told.speaks_of(beside)) {
        view.go_to_note = None;
        word.request_focus();
    }
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
