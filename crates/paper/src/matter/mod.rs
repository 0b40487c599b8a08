//! What the papers of a job are made of, gathered once.

pub(crate) mod answered;
pub mod axes;
pub(crate) mod day;
pub(crate) mod differs;
mod hole;
pub(crate) mod nonconformance;
mod ordered;
mod remark;
pub mod unprintable;

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_calc::input::{HoleEnd, RowInput};
use quillbore_calc::job_figures::HoleFigures;
use quillbore_calc::tables::{Machine, Material, Tube};
use quillbore_calc::{Idx, JobFigures, JobInput, RowId, Tables};
use quillbore_job::answer::Answer;
use quillbore_job::concern::Concern;
use quillbore_job::inspected::Marks;
use quillbore_job::keyed_list::Keyed;
use quillbore_job::order::{self, Followed};
use quillbore_job::shop::{Identity, Logo, UnknownName};
use quillbore_job::slip::{kind, line};
use quillbore_job::words::english;
use quillbore_job::{Field, FieldKind, Form, Issued, Job, Language, Paper, Row, Unit, Value};

pub use hole::Hole;
pub use remark::Remark;

use crate::logo::DrawnLogo;
use crate::page::PrintedOn;
use crate::shown;
use crate::words::customer::{Phrases, Words};
use crate::words::kinds::Kinds;
use hole::mark_of;

/// The mark of a row of a job, or its place in the table where it has none, for what stays in the shop.
pub(crate) fn mark_in(job: &Job, row: RowId) -> String {
    mark(job, row, &Words::of(Language::English).phrases)
}

fn mark(job: &Job, row: RowId, words: &Phrases) -> String {
    let index = job.row_index(row);
    index.map_or_else(String::new, |index| mark_of(&job.rows[index], index, words))
}

/// Everything a paper may say; borrowed, since a paper changes nothing.
#[derive(Clone, Copy, Debug)]
pub struct Matter<'a> {
    /// What was typed.
    pub job: &'a Job,
    /// What the calculation was asked.
    pub input: &'a JobInput,
    /// What it answered.
    pub figures: &'a JobFigures,
    /// What the shop knows.
    pub tables: &'a Tables,
    /// Names in the job that the shop's tables don't have.
    pub unknown: &'a [UnknownName],
    /// What is to be said beside the job's lines.
    pub remarks: &'a [Remark],
    /// The answers to checks that count, in the table's order.
    pub answers: &'a [Answer],
    /// Who issues the paper.
    pub issuer: &'a Issuer,
    /// The language of papers that go to the customer; the others stay in the shop's own.
    pub language: Language,
    /// What it is printed on.
    pub sheet: PrintedOn,
    /// The day it is printed.
    pub date: NaiveDate,
    /// The paper's number; a draft or preview has none.
    pub number: Option<&'a str>,
    /// The last day that the paper stands, where it is issued and has one.
    pub valid_until: Option<NaiveDate>,
    /// The quotation that the order answers, for the paper that confirms it.
    pub quotation: Option<&'a Issued>,
    /// Why it isn't valid yet, where it isn't.
    pub preview: Option<&'a str>,
    /// Whether the annex of places is printed too.
    pub annex: bool,
}

/// The shop as it signs its papers.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Issuer {
    /// Its name.
    pub name: String,
    /// Lines of its address.
    pub address: Vec<String>,
    /// How it is reached, and the number that its papers have to show.
    pub identity: Identity,
    /// How it writes numbers and days.
    pub form: Form,
    /// Whether its rates are still those of the samples.
    pub sample_rates: bool,
    /// Its logo, where it has one.
    pub logo: Option<Arc<Logo>>,
    /// Its terms, one paragraph each.
    pub terms: Vec<String>,
    /// What its quotations never include, one paragraph each.
    pub exclusions: Vec<String>,
    /// Cautions of its own, one paragraph each.
    pub cautions: Vec<String>,
}

/// Whether a text speaks of a thread, or of a tap that would sit in one: `M6 tap broken 12 deep`.
fn speaks_of_thread(text: &str) -> bool {
    let words = text.split(|c: char| !c.is_alphanumeric());
    let mut words = words.map(str::to_lowercase);
    words.any(|word| {
        let metric = word
            .strip_prefix('m')
            .is_some_and(|size| !size.is_empty() && size.chars().all(|c| c.is_ascii_digit()));
        metric
            || matches!(
                word.as_str(),
                "tap" | "taps" | "thread" | "threads" | "unc" | "unf" | "gewinde" | "gewindebohrer"
            )
    })
}

impl<'a> Matter<'a> {
    /// The shop's logo, where it has one that can be drawn; of one that can't, [`unprintable::of`] tells.
    pub fn logo(&self) -> Option<Arc<DrawnLogo>> {
        DrawnLogo::of(self.issuer.logo.as_deref()?).ok()
    }

    /// The same matter as a paper in another language says it.
    pub(crate) const fn told_in(self, language: Language) -> Self {
        Self { language, ..self }
    }

    /// What papers say in its language.
    pub const fn words(&self) -> &'static Words {
        Words::of(self.language)
    }

    /// How numbers and days are written: as the shop does, or as its language does.
    pub fn form(&self) -> Form {
        (self.words().form)(self.issuer.form)
    }

    /// Whether a broken tool or a thread is spoken of.
    pub fn has_thread(&self) -> bool {
        let rows = self.job.rows.iter();
        let rows = rows.flat_map(|row| [row.note.text(), row.size.text()]);
        let fields = [Field::PartName, Field::Notes].map(|field| self.job.text(field));
        rows.chain(fields).any(speaks_of_thread)
    }

    /// What one part weighs as printed; what can't be read stands as it was typed.
    pub fn mass_of_one(&self) -> String {
        match self.mass_text(1) {
            unread if unread.is_empty() => self.text(Field::Mass).to_owned(),
            read => read,
        }
    }

    /// What so many parts weigh as printed; empty where nobody said what one does.
    pub fn mass_text(&self, parts: u32) -> String {
        const KG_PER_LB: f64 = 0.453_592_37;
        let Some(Value::MassKg(each)) = self.job.field(Field::Mass).value() else {
            return String::new();
        };
        let kg = each * f64::from(parts);
        match self.job.unit {
            Unit::Mm => format!("{}\u{a0}kg", self.form().number(kg, 3)),
            Unit::Inch => format!("{}\u{a0}lb", self.form().number(kg / KG_PER_LB, 3)),
        }
    }

    /// What was typed in a field.
    pub fn text(&self, field: Field) -> &'a str {
        self.job.text(field).trim()
    }

    /// Whether anything was typed in a field.
    pub fn has(&self, field: Field) -> bool {
        !self.text(field).is_empty()
    }

    /// The paper's number, or the job's with the paper's letter; empty where the job has none yet.
    pub fn number_of(&self, paper: Paper) -> String {
        match (self.number, self.job.number.trim()) {
            (Some(number), _) => number.to_owned(),
            (None, "") => String::new(),
            (None, job) => format!("{job}-{}", paper.letter()),
        }
    }

    /// What every paper but the quotation says of the order: from the order on it follows that.
    pub fn follows(&self) -> Followed<'a> {
        order::followed(self.job)
    }

    /// The part and its revision as ordered; before an order, as on the sheet.
    pub fn part(&self) -> String {
        self.part_in(self.follows().revision)
    }

    /// The part and its revision as on the sheet, for what is offered.
    pub fn part_offered(&self) -> String {
        self.part_in(self.text(Field::Revision))
    }

    /// The part in a revision, where it has one.
    pub fn part_in(&self, revision: &str) -> String {
        match [self.text(Field::Part), revision] {
            [part, ""] => part.to_owned(),
            [part, revision] => (self.words().phrases.revised)(part, revision),
        }
    }

    /// A field's date.
    pub fn date_of(&self, field: Field) -> Option<NaiveDate> {
        self.job.date(field)
    }

    /// A field's count.
    pub fn count_of(&self, field: Field) -> Option<u32> {
        self.job.count(field)
    }

    /// A field's length or tolerance as it was typed, with the unit that it was read in where the text names none.
    pub fn typed_length(&self, field: Field) -> String {
        let text = self.text(field);
        match self.job.field(field).unit() {
            // Free text, as inspection and the like, has no unit of its own.
            Some(unit)
                if matches!(
                    field.kind(),
                    FieldKind::Length | FieldKind::LengthOrNone | FieldKind::Tolerance
                ) && text.ends_with(|ch: char| ch.is_ascii_digit())
                    && !text.contains(char::is_alphabetic) =>
            {
                format!("{text}\u{a0}{}", unit.symbol())
            }
            _ => text.to_owned(),
        }
    }

    /// A field's amount of money as papers show it; what can't be read stands as it was typed.
    pub fn amount_of(&self, field: Field) -> Option<String> {
        let entry = self.job.field(field);
        match entry.value() {
            Some(Value::Money(amount)) => {
                let mut amount = *amount;
                // A whole amount stays one; a broken one has all its digits.
                if amount.scale() > 0 {
                    amount.rescale(amount.scale().max(self.tables.rates.minor_digits));
                }
                Some(self.form().amount(amount))
            }
            _ => (!entry.is_empty()).then(|| entry.text().trim().to_owned()),
        }
    }

    /// The work material in the shop's tables.
    pub fn material(&self) -> Option<&'a Material> {
        self.input.material?.of(&self.tables.materials)
    }

    /// The work material by the shop's own name, with the drawing's name where that tells more.
    pub fn material_named(&self) -> String {
        let own = self.material().map(|row| row.name.as_str());
        english::material_named(own, self.text(Field::Material))
    }

    /// The drawing and its revision.
    pub fn drawing(&self) -> String {
        let drawing = match [self.text(Field::Drawing), self.follows().drawing_revision] {
            [drawing, ""] => drawing.to_owned(),
            [drawing, revision] => (self.words().phrases.revised)(drawing, revision),
        };
        drawing.trim().to_owned()
    }

    /// Heats of the parts that came in.
    pub fn heats(&self) -> String {
        let received = self.job.slips_of::<kind::Received>();
        let heats = received.map(|slip| slip.get(line::Heat));
        let heats = heats.filter(|heat| !heat.is_empty());
        heats.collect::<Vec<_>>().join(", ")
    }

    /// The machine in the shop's tables.
    pub fn machine(&self) -> Option<&'a Machine> {
        self.input.machine?.of(&self.tables.machines)
    }

    /// Which kinds of holes the job has: open at the far end, closed, or both.
    pub fn kinds(&self) -> Kinds {
        let closed = |row: &Row| row.end.value() == Some(&HoleEnd::Blind);
        // Nobody measures what is burnt out of a broken tool, so it is of no kind beside holes.
        let only_tools = self.job.rows.iter().all(|row| !row.broken.is_empty());
        let counts = move |row: &&Row| only_tools || row.broken.is_empty();
        let rows = || self.job.rows.iter().map(AsRef::as_ref).filter(counts);
        Kinds {
            open: rows().any(|row| !closed(row)),
            blind: rows().any(closed),
            all_by_pin: self.holes().all(|hole| hole.is_pinned()),
            some_by_pin: self.holes().any(|hole| hole.is_pinned()),
            proved: rows().any(|row| !row.proved.is_empty()),
        }
    }

    /// A tube of the shop's tables.
    pub fn tube(&self, tube: Idx<Tube>) -> Option<&'a Tube> {
        tube.of(&self.tables.tubes)
    }

    /// The rows of holes in the table's order.
    pub fn holes(&self) -> impl Iterator<Item = Hole<'a>> {
        let figures = &self.figures.holes;
        self.job.rows.iter().enumerate().map(|(index, row)| {
            let same = |hole: &&Arc<HoleFigures>| hole.row == row.id;
            // The figures come in the table's order; a search is only the way back from a mistake.
            let known = figures.get(index).filter(same);
            Hole {
                row,
                figures: known.or_else(|| figures.iter().find(same)).map(Arc::as_ref),
                index,
                form: self.form(),
                words: self.words(),
            }
        })
    }

    /// Decimals that the limits of all rows are told with.
    pub fn fine(&self) -> usize {
        let limits = self.figures.holes.iter().filter_map(|hole| hole.limits_mm);
        shown::fine(self.job.unit, limits)
    }

    /// The mark of a row, or its place in the table where it has none.
    pub fn mark(&self, row: RowId) -> String {
        mark(self.job, row, &self.words().phrases)
    }

    /// The rows by the marks that slips name them by, whatever the paper's language.
    pub(crate) fn marks_typed(&self) -> Marks {
        let phrases = &Words::of(Language::English).phrases;
        let rows = self.job.rows.iter().enumerate();
        let marks: Vec<String> = rows
            .map(|(index, row)| mark_of(row, index, phrases))
            .collect();
        Marks::of(marks.iter().map(String::as_str))
    }

    /// The marks of rows in the table's order; four and more neighbors are told by first and last.
    pub fn marks(&self, rows: impl IntoIterator<Item = RowId>) -> String {
        self.runs_of_marks(rows).join(", ")
    }

    /// The same, but of many only the first, and how many more there are.
    pub fn few_marks(&self, rows: impl IntoIterator<Item = RowId>, most: usize) -> String {
        let mut told = self.runs_of_marks(rows);
        let more = told.len().saturating_sub(most);
        told.truncate(most);
        if more > 0 {
            told.push((self.words().phrases.and_more)(more));
        }
        told.join(", ")
    }

    /// Marks in the table's order, each a run of rows that follow each other or one row.
    fn runs_of_marks(&self, rows: impl IntoIterator<Item = RowId>) -> Vec<String> {
        let mut at: Vec<usize> = rows
            .into_iter()
            .filter_map(|row| self.job.row_index(row))
            .collect();
        at.sort_unstable();
        at.dedup();
        let phrases = &self.words().phrases;
        let mark = |index: usize| mark_of(&self.job.rows[index], index, phrases);
        let runs = at.chunk_by(|a, b| a + 1 == *b);
        runs.flat_map(|run| match run {
            [first, .., last] if run.len() > 3 => {
                vec![(phrases.first_to_last)(&mark(*first), &mark(*last))]
            }
            few => few.iter().map(|index| mark(*index)).collect(),
        })
        .collect()
    }

    /// The sentences about rows, row by row, the weightiest first.
    pub fn remarks_by_row(&self) -> BTreeMap<RowId, Vec<&'a Remark>> {
        let mut by_row: BTreeMap<RowId, Vec<&'a Remark>> = BTreeMap::new();
        for remark in self.remarks {
            if let Some(row) = remark.row {
                by_row.entry(row).or_default().push(remark);
            }
        }
        for found in by_row.values_mut() {
            found.sort_by_key(|remark| std::cmp::Reverse(remark.level));
        }
        by_row
    }

    /// What was answered of which rows.
    pub fn answered(&self) -> BTreeSet<(RowId, Concern)> {
        self.answers.iter().map(Keyed::key).collect()
    }

    /// What the calculation was asked of a row.
    pub fn asked(&self, row: RowId) -> Option<&'a RowInput> {
        let same = |asked: &&RowInput| asked.id == row;
        // They come in the table's order; a search is only the way back from a mistake.
        let known = self
            .job
            .row_index(row)
            .and_then(|at| self.input.rows.get(at));
        known
            .filter(same)
            .or_else(|| self.input.rows.iter().find(same))
    }

    /// What it answered of a row.
    pub fn figures_of(&self, row: RowId) -> Option<&'a HoleFigures> {
        let holes = &self.figures.holes;
        let same = |hole: &&Arc<HoleFigures>| hole.row == row;
        let known = self.job.row_index(row).and_then(|at| holes.get(at));
        let known = known.filter(same).or_else(|| holes.iter().find(same));
        known.map(Arc::as_ref)
    }
}
