//! Side notes: what is pencilled in the margin about the lines in sight, equal ones of several rows as
//! one.

use std::collections::BTreeMap;
use std::hash::{DefaultHasher, Hash as _, Hasher as _};
use std::sync::Arc;

use egui::{FontId, Rangef, RichText, Ui};
use quillbore_calc::RowId;
use quillbore_calc::finding::Level;
use quillbore_job::Edit;
use quillbore_job::question::Question;
use quillbore_job::results::{Beside, SideNote, Telling};
use quillbore_job::slip::kind;
use quillbore_job::words::{answers, english, life};

use super::answer;
use super::note_index::{NoteIndex, row_of};
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
    notes: &'a [SideNote],
    /// The notes about rows that say so, by their places among all: those that say the same without being
    /// worded, and further ones whose words are the same.
    alike: Vec<Arc<[u32]>>,
    /// Lines of the run records that say so, from 0.
    lines: Vec<usize>,
    /// Where the first line stands that it speaks of, if that is in sight.
    pub(super) at: Option<Rangef>,
}

impl<'a> NoteGroup<'a> {
    /// What tells it from every other note, from one frame to the next; an answer to it changes nothing.
    pub(super) fn key(&self) -> u64 {
        let mut hasher = DefaultHasher::new();
        format!("{:?}", (&self.first.kind, self.first.beside)).hash(&mut hasher);
        self.first.own_words().hash(&mut hasher);
        hasher.finish()
    }

    /// Whether it is about a line.
    pub(super) fn speaks_of(&self, beside: Beside) -> bool {
        let of_row = |row: RowId| self.all().any(|note| row_of(note) == Some(row));
        self.first.beside == beside || matches!(beside, Beside::Row(row, _) if of_row(row))
    }

    /// Every note that it tells, one for each row.
    fn all(&self) -> impl Iterator<Item = &'a SideNote> {
        let notes = self.notes;
        let of_rows = self.alike.iter().flat_map(|alike| alike.iter());
        let of_rows = of_rows.filter_map(move |at| notes.get(*at as usize));
        let only = self.alike.is_empty().then_some(self.first);
        of_rows.chain(only)
    }

    /// How many rows it is about.
    fn rows(&self) -> usize {
        self.alike.iter().map(|alike| alike.len()).sum()
    }

    /// How many notes it tells.
    fn count(&self) -> usize {
        self.rows().max(self.lines.len()).max(1)
    }

    /// What it asks, row by row.
    fn questions(&self) -> Vec<&'a Question> {
        let asked = self.all().filter_map(|note| note.question.as_deref());
        asked.collect()
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
        if let Some(first) = &self.first.question {
            said += &match first.answer {
                Some(_) => answers::DELETE.to_owned(),
                None => words::answers_in_one(),
            };
        }
        if let Some((_, line)) = self.first.settled_by {
            said += "  ";
            said += life::settle(line);
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
        first.is_some_and(|first| {
            let mut own = self.all().filter_map(|note| note.question.as_deref());
            own.any(|own| (own.row, own.concern) == *first)
        })
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
pub(super) fn gathered<'a>(
    shared: &Shared<'a>,
    anchors: &Anchors,
    wanted: Wanted,
    kept: &mut Option<NoteIndex>,
) -> Gathered<'a> {
    let index = NoteIndex::of(kept, shared.results);
    let notes = shared.results.notes.as_slice();
    let mut told = index.seen(anchors);
    if wanted == Wanted::All {
        let seen = told.len();
        told.extend((0..notes.len()).filter_map(|at| u32::try_from(at).ok()));
        let (first, rest) = told.split_at(seen);
        let rest = rest.iter().filter(|at| first.binary_search(at).is_err());
        told = first.iter().chain(rest).copied().collect();
    }
    let telling = Telling::new(shared.job, shared.shop);
    let mut all: Vec<NoteGroup<'a>> = Vec::new();
    let lines = run_lines(shared);
    // Groups by the notes in them and by what they say: there may be as many as a job has rows.
    let mut by_notes: BTreeMap<*const u32, usize> = BTreeMap::new();
    let mut by_text: BTreeMap<(&str, bool, String, Option<String>), usize> = BTreeMap::new();
    for at in told {
        let Some(note) = notes.get(at as usize) else {
            continue;
        };
        let stands = anchors.find(note.beside);
        let alike = row_of(note).map(|_| index.alike(at, shared, &telling));
        let known = alike
            .as_ref()
            .and_then(|alike| by_notes.get(&alike.as_ptr()));
        if let Some(told) = known.and_then(|group| all.get_mut(*group)) {
            told.at = told.at.or(stands);
            continue;
        }
        let line = match note.beside {
            Beside::Slip(slip, _) => lines.get(&slip).copied(),
            _ => None,
        };
        let text = telling.text(note).into_owned();
        let offer = telling.offer(note).map(|offer| offer.words.clone());
        let says = (note.code(), line.is_some(), text.clone(), offer.clone());
        let is_joint = alike.is_some() || line.is_some();
        let same = is_joint.then(|| by_text.get(&says).copied()).flatten();
        if let Some(told) = same.and_then(|group| all.get_mut(group)) {
            if let (Some(alike), Some(group)) = (&alike, same) {
                by_notes.insert(alike.as_ptr(), group);
            }
            told.alike.extend(alike);
            told.lines.extend(line);
            told.at = told.at.or(stands);
            continue;
        }
        if is_joint {
            by_text.insert(says, all.len());
        }
        if let Some(alike) = &alike {
            by_notes.insert(alike.as_ptr(), all.len());
        }
        all.push(NoteGroup {
            first: note,
            text,
            offer,
            notes,
            alike: alike.into_iter().collect(),
            lines: line.into_iter().collect(),
            at: stands,
        });
    }
    for told in &mut all {
        told.lines.sort_unstable();
    }
    let y = |told: &NoteGroup<'_>| told.at.map_or(f32::INFINITY, |at| at.min);
    all.sort_by(|a, b| {
        let by_level = b.first.level.cmp(&a.first.level);
        let seen = a.at.is_none().cmp(&b.at.is_none());
        seen.then(by_level).then(y(a).total_cmp(&y(b)))
    });
    let counted: usize = all.iter().map(NoteGroup::count).sum();
    Gathered {
        hidden: notes.len().saturating_sub(counted),
        groups: all,
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
                let telling = Telling::new(shared.job, shared.shop);
                let edits = told.all().filter_map(|note| telling.offer(note));
                let edits = edits.map(|offer| offer.edit.clone());
                asks.extend(Edit::together(edits.collect()).map(Ask::Edit));
            }
            ui.add_space(8.0);
        }
        ui.add_space(5.0);
        let first = told.first.question.as_deref();
        let all = || told.questions();
        let asked = first.map(|first| (first, &all as &dyn Fn() -> Vec<_>));
        if let Some(word) = answer::question_ui(ui, shared, view, asked, &about, asks) {
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
    let speaker = shared.speaker();
    let first = |alike: &Arc<[u32]>| {
        let notes = alike.iter().take(SHOWN);
        let rows = notes.filter_map(|at| row_of(told.notes.get(*at as usize)?));
        rows.collect::<Vec<RowId>>()
    };
    let mut rows: Vec<RowId> = told.alike.iter().flat_map(first).collect();
    rows.sort_by_key(|row| shared.job.row_index(*row));
    rows.truncate(SHOWN);
    let marks: Vec<String> = rows.into_iter().map(|row| speaker.mark(row)).collect();
    words::about(&marks, told.rows().saturating_sub(marks.len()))
}
