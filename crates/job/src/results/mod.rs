//! Everything computed of a job, recomputed on each edit and never stored.

mod depth_notes;
mod found;
mod kind;
mod marks;
mod next;
mod note;
mod paper_notes;
mod questions;
pub mod remedy;
mod slip_notes;
mod telling;

pub use kind::{Missing, NoteKind};
pub use next::{NextStep, next_call};
pub use note::{Beside, SideNote};
pub use telling::Telling;

use std::cmp::Reverse;

use found::found;
use marks::marks_twice;

use quillbore_calc::assemble::{self, Answers, Question as Search};
use quillbore_calc::finding::Level;
use quillbore_calc::{JobFigures, JobInput, Tables};

use crate::asked::to_input::{Asked, to_input};
use crate::edits::edit::Edit;
use crate::ground::same_name::same_name;
use crate::job::Job;
use crate::life;
use crate::pinned::answer::Answer;
use crate::results::remedy::Offer;
use crate::shop::rows::Shop;
use crate::shop::unknown::UnknownName;
use crate::typed::field::{AngleBasis, Block, Field};
use crate::typed::row::Column;
use crate::words::speaker::Speaker;
use crate::words::{english, slips};

/// A job's figures, with everything that is to be said beside its lines.
#[derive(Clone, Debug, PartialEq)]
pub struct Results {
    /// What the calculation was asked.
    pub asked: Asked,
    /// Its figures.
    pub figures: JobFigures,
    /// Side notes, in the sheet's order.
    pub notes: Vec<SideNote>,
}

impl Results {
    /// True where a finding says that the job can't be done as it stands.
    #[must_use]
    pub fn stopped(&self) -> bool {
        self.notes.iter().any(|note| note.level == Level::Stop)
    }

    /// The answers that count, in the sheet's order.
    #[must_use]
    pub fn answers(&self) -> Vec<Answer> {
        let mut all: Vec<Answer> = Vec::new();
        let questions = self.notes.iter().filter_map(|note| note.question.as_ref());
        for answer in questions.filter_map(|question| question.answer.as_ref()) {
            if !all.contains(answer) {
                all.push(answer.clone());
            }
        }
        all
    }

    /// What they say of the job's next steps.
    #[must_use]
    pub fn found(&self) -> life::Found {
        let price = |note: &SideNote| note.kind.is_order_price() && note.level == Level::Check;
        let open = |note: &SideNote| {
            let question = note.question.as_ref()?;
            let asks = (question.concern, question.row);
            question.answer.is_none().then_some(asks)
        };
        let mut unanswered: Vec<_> = self.notes.iter().filter_map(open).collect();
        unanswered.dedup();
        life::Found {
            stop: self.stopped(),
            unpriced: self.figures.price.is_none(),
            order_price: self.notes.iter().any(price),
            unanswered,
            unread: self.notes.iter().any(|note| {
                let on_sheet = matches!(note.beside, Beside::Field(_) | Beside::Row(..));
                on_sheet && note.kind.is_unread()
            }),
        }
    }
}

/// What was worked out for a job, and what its searches and draws found: the next edit takes from it
/// what still holds.
#[derive(Default)]
pub struct Kept {
    rows: assemble::Kept,
    answers: Answers,
}

impl Kept {
    /// The job's results, and the searches and draws that are still open, the most urgent first; until
    /// they are answered what rests on them is a first plan or a quick estimate.
    pub fn results(&mut self, job: &Job, shop: &Shop) -> (Results, Vec<Search>) {
        let asked = to_input(job, shop);
        let prepared = self.rows.prepare(&asked.input, &shop.tables);
        self.answers.note(&prepared.questions());
        let open = prepared.open(&self.answers);
        let figures = prepared.figures(&self.answers);
        (with_notes(job, shop, asked, figures), open)
    }

    /// Keeps what a search or draw found.
    pub fn put(&mut self, asked: Search, answer: assemble::Answer) {
        self.answers.put(asked, answer);
    }
}

/// The job's results; what rests on searches and draws is a quick estimate.
#[must_use]
pub fn results_quick(job: &Job, shop: &Shop) -> Results {
    results_of(job, shop, assemble::quick)
}

/// The job's results with every search and draw done at once.
#[must_use]
pub fn results_now(job: &Job, shop: &Shop) -> Results {
    results_of(job, shop, assemble::figures_now)
}

fn results_of(job: &Job, shop: &Shop, figures: fn(&JobInput, &Tables) -> JobFigures) -> Results {
    let asked = to_input(job, shop);
    let figures = figures(&asked.input, &shop.tables);
    with_notes(job, shop, asked, figures)
}

fn with_notes(job: &Job, shop: &Shop, asked: Asked, figures: JobFigures) -> Results {
    let notes = notes(job, shop, &asked, &figures);
    Results {
        asked,
        figures,
        notes,
    }
}

fn notes(job: &Job, shop: &Shop, asked: &Asked, figures: &JobFigures) -> Vec<SideNote> {
    let speaker = Speaker {
        job,
        tables: &shop.tables,
        unit: job.unit,
    };
    // A note, and where its row stands: what comes of a row's own figures stands there for sure.
    let mut notes: Vec<(SideNote, Option<usize>)> = unread(job);
    let names = asked.unknown.iter();
    notes.extend(names.map(|name| (unknown(name, &speaker), None)));
    notes.extend(marks_twice(job));
    notes.extend(other_name(job, shop, asked).map(|note| (note, None)));
    notes.extend(depth_notes::through(job, asked));
    notes.extend(
        slip_notes::all(job, figures)
            .into_iter()
            .map(|note| (note, None)),
    );
    notes.extend(paper_notes::all(job).into_iter().map(|note| (note, None)));
    notes.extend(angles_assumed(job).into_iter().map(|note| (note, None)));
    let of_job = figures.findings.iter();
    notes.extend(of_job.map(|finding| (found(finding, None), None)));
    notes.extend(questions::of_rows(job, asked, figures));
    // Nearly in order already, which a sort by key alone makes use of.
    notes.sort_by_key(|(note, at)| (place(job, note.beside, *at), Reverse(note.level)));
    notes.into_iter().map(|(note, _)| note).collect()
}

/// Where a line stands on the sheet: inquiry, rows, plan, price, papers, slips.
fn place(job: &Job, beside: Beside, at: Option<usize>) -> (u8, usize, usize) {
    match beside {
        Beside::Field(field) => match field.block() {
            Block::Inquiry => (0, field as usize, 0),
            Block::Plan => (2, field as usize, 0),
            Block::Price => (3, field as usize, 0),
        },
        Beside::Row(row, column) => (
            1,
            at.or_else(|| job.row_index(row)).unwrap_or(usize::MAX),
            column.map_or(0, |column| column as usize + 1),
        ),
        Beside::Plan => (2, usize::MAX, 0),
        Beside::Price => (3, usize::MAX, 0),
        Beside::Papers => (4, 0, 0),
        Beside::Slip(slip, line) => (
            5,
            usize::try_from(slip).unwrap_or(usize::MAX),
            line.map_or(0, |line| line as usize + 1),
        ),
    }
}

/// Every cell that could not be read, with its own sentence.
fn unread(job: &Job) -> Vec<(SideNote, Option<usize>)> {
    let note = |beside, label: &str, text: &str, why: &str| {
        let text = format!("{label} \u{201c}{text}\u{201d}: {why}");
        SideNote::new(Level::Check, NoteKind::Unread, beside, text)
    };
    let fields = job.fields.iter().filter_map(|(field, entry)| {
        let why = entry.why()?;
        let beside = Beside::Field(*field);
        let label = english::field(*field);
        Some((note(beside, label, entry.text(), why), None))
    });
    let rows = job.rows.iter().enumerate();
    let unread = rows.filter(|(_, row)| row.is_unread());
    let cells = unread.flat_map(|(at, row)| {
        Column::ALL.iter().filter_map(move |column| {
            let cell = row.cell(*column);
            let why = cell.why?;
            let beside = Beside::Row(row.id, Some(*column));
            let label = english::column(*column).head;
            let mut note = note(beside, label, cell.text, why);
            if *column == Column::Count && row.places.is_empty() {
                // One hole stands in for them: nobody may quote or drill by that.
                note.level = Level::Stop;
            }
            Some((note, Some(at)))
        })
    });
    let slips = job.slips.iter().flat_map(|slip| {
        slip.lines.iter().filter_map(move |(line, entry)| {
            let why = entry.why()?;
            let beside = Beside::Slip(slip.id, Some(*line));
            let label = slips::line(*line);
            Some((note(beside, label, entry.text(), why), None))
        })
    });
    fields.chain(cells).chain(slips).collect()
}

/// Angles whose text doesn't say what they are measured from, while the sheet doesn't either.
fn angles_assumed(job: &Job) -> Option<SideNote> {
    let silent = |text: &str| !text.chars().any(char::is_alphabetic);
    let tilted = job.rows.iter().any(|row| {
        let angle = row.angle.value();
        angle.is_some_and(|angle| angle.from_normal.deg() != 0.0) && silent(row.angle.text())
    });
    let field = Field::AngleBasis;
    let words = english::angle_basis(AngleBasis::FromNormal).to_owned();
    let offer = Offer {
        words: words.clone(),
        edit: Edit::SetField {
            field,
            text: words,
            unit: job.unit,
        },
    };
    let said = english::angles_assumed().to_owned();
    let note = SideNote::new(
        Level::Check,
        NoteKind::AngleBasisAssumed,
        Beside::Field(field),
        said,
    );
    (tilted && job.field(field).is_empty()).then(|| note.offering(Some(offer)))
}

/// A material that is written by another name than the shop's own.
fn other_name(job: &Job, shop: &Shop, asked: &Asked) -> Option<SideNote> {
    let row = asked.input.material?.of(&shop.tables.materials)?;
    let field = Field::Material;
    let written = job.text(field).trim();
    let said = || english::material_by_other_name(written, &row.name);
    (!same_name(written, &row.name)).then(|| {
        let beside = Beside::Field(field);
        SideNote::new(Level::Note, NoteKind::MaterialByOtherName, beside, said())
    })
}

fn unknown(name: &UnknownName, speaker: &Speaker<'_>) -> SideNote {
    let beside = match name {
        UnknownName::Material(_) => Beside::Field(Field::Material),
        UnknownName::Machine(_) => Beside::Field(Field::Machine),
        UnknownName::Tube(row, _) => Beside::Row(*row, Some(Column::Tube)),
        UnknownName::LayerMaterial(row, _) => Beside::Row(*row, Some(Column::Layers)),
    };
    SideNote::new(
        Level::Check,
        NoteKind::UnknownName,
        beside,
        speaker.unknown(name),
    )
}
