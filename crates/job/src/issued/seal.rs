//! The seal of an issued paper's entry: a SHA-256 (FIPS 180-4) over all that the entry says, so that
//! a change of the file by hand shows. It shows an edit and proves no author: whoever edits the file
//! can compute another seal from what stands here, or take the seal out.
//!
//! # What is hashed, version 1
//!
//! A **part** is its name and its content, each led by its length:
//!
//! ```text
//! length of the name     u64, little-endian
//! name                   ASCII
//! length of the content  u64, little-endian
//! content
//! ```
//!
//! Lengths count bytes. A content is one of these:
//!
//! | kind | content |
//! |---|---|
//! | text | its UTF-8 bytes, as they are |
//! | day | text, `2026-11-25` |
//! | amount | text of the decimal with every digit that it has, as in the file: `48.20` is not `48.2` |
//! | whole | u32, little-endian, 4 bytes |
//! | bits | u64, little-endian, 8 bytes: the bits of the IEEE 754 binary64 |
//! | unit | text, `mm` or `inch` |
//! | place | a whole (the number), then six bits (x, y, z in mm, and the axis i, j, k), 52 bytes |
//! | parts | parts, one after the other, with nothing between them |
//!
//! What is optional and not there has no part; of what there are several, each has a part, in the
//! order of the file unless another one is said. Names of fields, columns, papers, checks and answers
//! are those of the file (`key()`). An entry is these parts, in this order:
//!
//! ```text
//! version      whole, 1
//! number       text
//! paper        text, its name
//! date         day
//! valid_until  day, optional
//! file         text
//! kept_by      text, optional
//! hash         text, 64 hexadecimal digits in small letters
//! line         parts, several: job text, part text, revision text, quantity whole,
//!              each amount (optional)
//! currency     text, optional
//! rests_on     parts, several: name text, value bits
//! page         text, several
//! replaces     text, several
//! inputs       parts, optional: the sheet
//! ```
//!
//! The sheet is these, in this order:
//!
//! ```text
//! number    text
//! opened    day, optional
//! unit      unit
//! field     parts, several, by the bytes of their names: key text, then a typed text
//! next_row  whole
//! row       parts, several: id whole,
//!           cell (parts, several, by the bytes of their names: key text, then a typed text),
//!           place (place, several)
//! overrule  parts, several: figure text, what it is of (optional: row whole, tube text or
//!           quantity whole), a typed text, reason text
//! answer    parts, several: row whole, concern text, given bits (several), by_mm bits, how text,
//!           said text, by text, date day
//! next_slip whole
//! ```
//!
//! A typed text is two parts: text text, unit unit; where nothing was typed there is neither, and of
//! an empty field or cell no part at all. Figures are named `gap`, `feed`, `hole_minutes`, `wear`
//! (each with its row), `electrodes` (with its tube), `machine_hours`, `labor_hours`,
//! `not_yet_known`, `unit_price` (with its quantity).
//!
//! What a text is read as is not hashed, so that a later version may read better. A frozen sheet has
//! no slips and no papers of its own: a file that has them there isn't opened.

use chrono::NaiveDate;
use quillbore_calc::RowId;
use quillbore_calc::input::Place;

use crate::ground::hash::hash;
use crate::job::{Issued, IssuedLine, Job, Seal};
use crate::pinned::answer::Answer;
use crate::pinned::concern::Facts;
use crate::typed::entry::{Entry, Unit};
use crate::typed::overrule::{FigureKey, Overrule};
use crate::typed::row::{Column, Row};

impl Seal {
    /// The version that papers are sealed with.
    pub const VERSION: u32 = 1;
}

/// How an entry stands to its seal.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SealState {
    /// It is as it was issued.
    Sealed,
    /// It was changed since.
    Broken,
    /// It has no seal: it was issued before there were any, or somebody took the seal out.
    Unsealed,
    /// It has a seal of a version that is not known here.
    Unknown(u32),
}

impl Issued {
    /// The entry with its seal, as it is when the paper is issued; nothing else ever seals one.
    #[must_use]
    pub fn sealed(self) -> Self {
        let seal = Seal {
            version: Seal::VERSION,
            hash: hash(&self.sealed_bytes()),
        };
        Self {
            seal: Some(seal),
            ..self
        }
    }

    /// How it stands to its seal.
    #[must_use]
    pub fn seal_state(&self) -> SealState {
        match self.seal {
            None => SealState::Unsealed,
            Some(seal) if seal.version != Seal::VERSION => SealState::Unknown(seal.version),
            Some(seal) if seal.hash == hash(&self.sealed_bytes()) => SealState::Sealed,
            Some(_) => SealState::Broken,
        }
    }

    /// Whether reprint, comparison and reorder may rest on it: nothing shows that it is not as it was
    /// issued.
    #[must_use]
    pub fn is_trusted(&self) -> bool {
        match self.seal_state() {
            SealState::Sealed | SealState::Unsealed => true,
            SealState::Broken | SealState::Unknown(_) => false,
        }
    }

    /// What its seal is the hash of, in version 1: two entries that differ never give the same bytes.
    #[must_use]
    pub fn sealed_bytes(&self) -> Vec<u8> {
        // Taken apart without a rest, here and below: what is added must be decided on.
        let Self {
            number,
            paper,
            date,
            valid_until,
            file,
            kept_by,
            hash,
            lines,
            currency,
            rests_on,
            pages,
            replaces,
            inputs,
            seal: _,
        } = self;
        let mut parts = Parts::default();
        parts.whole("version", 1);
        parts.text("number", number);
        parts.text("paper", paper.key());
        parts.day("date", *date);
        if let Some(day) = valid_until {
            parts.day("valid_until", *day);
        }
        parts.text("file", file);
        if let Some(job) = kept_by {
            parts.text("kept_by", job);
        }
        parts.text("hash", &hash.to_string());
        for line in lines {
            parts.within("line", |parts| issued_line(parts, line));
        }
        if let Some(currency) = currency {
            parts.text("currency", currency);
        }
        for (name, value) in rests_on {
            parts.within("rests_on", |parts| {
                parts.text("name", name);
                parts.bits("value", *value);
            });
        }
        for page in pages {
            parts.text("page", page);
        }
        for number in replaces {
            parts.text("replaces", number);
        }
        if let Some(job) = inputs {
            parts.within("inputs", |parts| sheet(parts, job));
        }
        parts.0
    }
}

fn issued_line(parts: &mut Parts, line: &IssuedLine) {
    let IssuedLine {
        job,
        part,
        revision,
        quantity,
        each,
    } = line;
    parts.text("job", job);
    parts.text("part", part);
    parts.text("revision", revision);
    parts.whole("quantity", *quantity);
    if let Some(amount) = each {
        parts.text("each", &amount.to_string());
    }
}

fn sheet(parts: &mut Parts, job: &Job) {
    let Job {
        number,
        opened,
        unit,
        fields,
        rows,
        next_row,
        overrules,
        answers,
        // What is frozen has none of these: no file with them is opened.
        slips: _,
        issued: _,
        reports: _,
        next_slip,
    } = job;
    parts.text("number", number);
    if let Some(day) = opened {
        parts.day("opened", *day);
    }
    parts.unit(*unit);
    let fields = fields.iter();
    let fields = fields.map(|(field, entry)| (field.key(), typed(entry)));
    cells(parts, "field", fields.collect());
    parts.whole("next_row", *next_row);
    for each in rows {
        parts.within("row", |parts| row(parts, each));
    }
    for each in overrules {
        parts.within("overrule", |parts| overrule(parts, each));
    }
    for each in answers {
        parts.within("answer", |parts| answer(parts, each));
    }
    parts.whole("next_slip", *next_slip);
}

fn row(parts: &mut Parts, of: &Row) {
    let (RowId(id), places) = of.beside_cells();
    parts.whole("id", *id);
    let all = Column::ALL.iter().map(|column| {
        let look = of.cell(*column);
        (column.key(), look.unit.map(|unit| (look.text, unit)))
    });
    cells(parts, "cell", all.collect());
    for each in places.iter() {
        parts.within("place", |parts| place(parts, each));
    }
}

fn place(parts: &mut Parts, place: &Place) {
    let Place {
        number,
        point_mm,
        axis,
    } = place;
    parts.0.extend(number.to_le_bytes());
    for length in point_mm.iter().chain(axis) {
        parts.0.extend(length.to_bits().to_le_bytes());
    }
}

fn overrule(parts: &mut Parts, overrule: &Overrule) {
    let Overrule {
        figure,
        value,
        reason,
    } = overrule;
    match figure {
        FigureKey::Gap(row) => parts.figure_of_row("gap", *row),
        FigureKey::Feed(row) => parts.figure_of_row("feed", *row),
        FigureKey::HoleMinutes(row) => parts.figure_of_row("hole_minutes", *row),
        FigureKey::Wear(row) => parts.figure_of_row("wear", *row),
        FigureKey::Electrodes(tube) => {
            parts.text("figure", "electrodes");
            parts.text("tube", tube);
        }
        FigureKey::MachineHours => parts.text("figure", "machine_hours"),
        FigureKey::LaborHours => parts.text("figure", "labor_hours"),
        FigureKey::NotYetKnown => parts.text("figure", "not_yet_known"),
        FigureKey::UnitPrice(quantity) => {
            parts.text("figure", "unit_price");
            parts.whole("quantity", *quantity);
        }
    }
    if let Some(typed) = typed(value) {
        parts.typed(typed);
    }
    parts.text("reason", reason);
}

fn answer(parts: &mut Parts, answer: &Answer) {
    let Answer {
        row: RowId(row),
        concern,
        facts: Facts { given, by: by_mm },
        how,
        said,
        by,
        date,
    } = answer;
    parts.whole("row", *row);
    parts.text("concern", concern.key());
    for number in given {
        parts.bits("given", *number);
    }
    parts.bits("by_mm", *by_mm);
    parts.text("how", how.key());
    parts.text("said", said);
    parts.text("by", by);
    parts.day("date", *date);
}

/// What was typed, where something was.
type Typed<'a> = Option<(&'a str, Unit)>;

fn typed<T>(entry: &Entry<T>) -> Typed<'_> {
    Some((entry.text(), entry.unit()?))
}

/// Those in which something was typed, by the bytes of their names: no later order of ours moves them.
fn cells(parts: &mut Parts, name: &str, mut all: Vec<(&'static str, Typed<'_>)>) {
    all.sort_unstable_by_key(|(key, _)| *key);
    for (key, typed) in all {
        if let Some(typed) = typed {
            parts.within(name, |parts| {
                parts.text("key", key);
                parts.typed(typed);
            });
        }
    }
}

/// Parts, one after the other.
#[derive(Default)]
struct Parts(Vec<u8>);

impl Parts {
    fn within(&mut self, name: &str, fill: impl FnOnce(&mut Self)) {
        const LENGTH: usize = size_of::<u64>();
        self.0.extend((name.len() as u64).to_le_bytes());
        self.0.extend(name.as_bytes());
        let start = self.0.len() + LENGTH;
        self.0.extend([0; LENGTH]);
        fill(self);
        // The length is known once the content stands there.
        let length = (self.0.len() - start) as u64;
        self.0[start - LENGTH..start].copy_from_slice(&length.to_le_bytes());
    }

    fn part(&mut self, name: &str, content: &[u8]) {
        self.within(name, |parts| parts.0.extend(content));
    }

    fn text(&mut self, name: &str, text: &str) {
        self.part(name, text.as_bytes());
    }

    fn day(&mut self, name: &str, day: NaiveDate) {
        self.text(name, &day.format("%Y-%m-%d").to_string());
    }

    fn whole(&mut self, name: &str, number: u32) {
        self.part(name, &number.to_le_bytes());
    }

    fn bits(&mut self, name: &str, number: f64) {
        self.part(name, &number.to_bits().to_le_bytes());
    }

    fn unit(&mut self, unit: Unit) {
        let name = match unit {
            Unit::Mm => "mm",
            Unit::Inch => "inch",
        };
        self.text("unit", name);
    }

    fn typed(&mut self, (text, unit): (&str, Unit)) {
        self.text("text", text);
        self.unit(unit);
    }

    fn figure_of_row(&mut self, figure: &str, RowId(row): RowId) {
        self.text("figure", figure);
        self.whole("row", row);
    }
}
