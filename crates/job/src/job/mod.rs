//! One job: everything that was typed, received and decided, and nothing that was computed.

use std::collections::BTreeMap;
use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_calc::RowId;
use rust_decimal::Decimal;

use crate::ground::hash::Hash;
use crate::ground::keyed_list::KeyedList;
use crate::pinned::answer::Answer;
use crate::pinned::concern::Concern;
use crate::pinned::paper::Paper;
use crate::pinned::report::Report;
use crate::pinned::slip::lists::{SlipKind, TypedKind};
use crate::pinned::slip::pinned::Slip;
use crate::pinned::slip::view::View;
use crate::typed::entry::{Entry, Unit};
use crate::typed::field::{AngleBasis, Field, Value};
use crate::typed::language::Language;
use crate::typed::row::Row;

mod copy;
pub(crate) mod part_unknown;
pub mod row_depth;

pub use crate::typed::overrule::{FigureKey, Overrule};

/// A job; cloning it is cheap, its rows are shared.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Job {
    /// Its number on the shelf; empty until it has one.
    pub number: String,
    /// The day it was opened.
    pub opened: Option<NaiveDate>,
    /// The unit that new text is read in and figures are shown in.
    pub unit: Unit,
    /// The single lines; a field that is not here is empty.
    pub fields: Arc<BTreeMap<Field, Entry<Value>>>,
    /// The hole table.
    pub rows: KeyedList<Arc<Row>>,
    /// The next row's identity: only ever grows.
    pub next_row: u32,
    /// Figures that the estimator put in place of computed ones.
    pub overrules: KeyedList<Overrule>,
    /// Answers to checks that concern the customer.
    pub answers: KeyedList<Answer>,
    /// The slips pinned to it, in the order they came.
    pub slips: Vec<Arc<Slip>>,
    /// The next slip's identity: only ever grows.
    pub next_slip: u32,
    /// The papers that left the house, in the order they did.
    pub issued: Vec<Arc<Issued>>,
    /// What became of hole tables that came from elsewhere, in the order they came.
    pub reports: Vec<Arc<Report>>,
}

/// One issued paper: it never changes, and is withdrawn only by a slip that says so.
#[derive(Clone, Debug, PartialEq)]
pub struct Issued {
    /// Its number: the job's, the paper's letter, the revision.
    pub number: String,
    /// Which paper.
    pub paper: Paper,
    /// The day on it.
    pub date: NaiveDate,
    /// The last day that it stands, where it has one.
    pub valid_until: Option<NaiveDate>,
    /// The name of its PDF in the folder of the job that keeps it.
    pub file: String,
    /// The job whose folder keeps the PDF, where that is another one.
    pub kept_by: Option<String>,
    /// What the PDF is known by.
    pub hash: Hash,
    /// What it offers, confirms or lists.
    pub lines: Vec<IssuedLine>,
    /// The currency of their prices, where they have some; papers of earlier versions don't say it.
    pub currency: Option<String>,
    /// The rows of the shop that it rests on, as numbers.
    pub rests_on: Vec<(String, f64)>,
    /// Its text, page by page.
    pub pages: Vec<String>,
    /// Numbers of the papers that it takes the place of: they no longer stand.
    pub replaces: Vec<String>,
    /// What had been typed, without slips and issued papers.
    pub inputs: Option<Arc<Job>>,
    /// What shows whether the entry was changed since; papers issued before there were seals have
    /// none.
    pub seal: Option<Seal>,
}

/// One line of prices or parts on an issued paper.
#[derive(Clone, Debug, PartialEq)]
pub struct IssuedLine {
    /// The job that it is about.
    pub job: String,
    /// Part number.
    pub part: String,
    /// Its revision.
    pub revision: String,
    /// How many.
    pub quantity: u32,
    /// Price of one, where the paper has prices.
    pub each: Option<Decimal>,
}

/// What an entry is sealed with when its paper is issued.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Seal {
    /// Which way of hashing it was.
    pub version: u32,
    /// What came out.
    pub hash: Hash,
}

impl Job {
    /// What was typed in a field.
    #[must_use]
    pub fn field(&self, field: Field) -> &Entry<Value> {
        self.fields.get(&field).unwrap_or(&Entry::EMPTY)
    }

    /// Whether a broken tool is to be burnt out.
    #[must_use]
    pub fn has_broken_tool(&self) -> bool {
        self.rows.iter().any(|row| !row.broken.is_empty())
    }

    /// Whether a paper is one that this job may have: the receipt for a broken tool wants one.
    #[must_use]
    pub fn may_have(&self, paper: Paper) -> bool {
        paper != Paper::ToolReceipt || self.has_broken_tool()
    }

    /// A field's text, as typed; empty where nothing was.
    #[must_use]
    pub fn text(&self, field: Field) -> &str {
        self.field(field).text()
    }

    /// A field's whole number.
    #[must_use]
    pub fn count(&self, field: Field) -> Option<u32> {
        self.field(field).value().and_then(Value::count)
    }

    /// A field's day.
    #[must_use]
    pub fn date(&self, field: Field) -> Option<NaiveDate> {
        self.field(field).value().and_then(Value::date)
    }

    /// The language of the papers that go to its customer: the shop's own where none was typed, and
    /// where what was typed can't be read.
    #[must_use]
    pub fn language(&self) -> Language {
        let typed = self.field(Field::Language).value();
        let word = typed.and_then(Value::text);
        word.and_then(Language::of_key).unwrap_or_default()
    }

    /// A field's length.
    #[must_use]
    pub fn length(&self, field: Field) -> Option<quillbore_calc::Length> {
        self.field(field).value().and_then(Value::length)
    }

    /// What the angles of this job are measured from, where their text doesn't say.
    #[must_use]
    pub fn angle_basis(&self) -> AngleBasis {
        match self.field(Field::AngleBasis).value() {
            Some(Value::AngleBasis(basis)) => *basis,
            _ => AngleBasis::default(),
        }
    }

    /// The row with an identity.
    #[must_use]
    pub fn row(&self, id: RowId) -> Option<&Row> {
        self.rows.get_by(&id).map(Arc::as_ref)
    }

    /// The slips of a kind, in the order they came.
    pub fn slips(&self, kind: SlipKind) -> impl DoubleEndedIterator<Item = &Slip> {
        self.slips
            .iter()
            .map(Arc::as_ref)
            .filter(move |slip| slip.kind == kind)
    }

    /// The slips of a kind, each as one of that kind, in the order they came.
    pub fn slips_of<K: TypedKind>(&self) -> impl DoubleEndedIterator<Item = View<'_, K>> {
        self.slips.iter().filter_map(|slip| slip.as_view())
    }

    /// The slip with an identity.
    #[must_use]
    pub fn slip(&self, id: u32) -> Option<&Slip> {
        self.slips
            .iter()
            .map(Arc::as_ref)
            .find(|slip| slip.id == id)
    }

    /// Where the row with an identity stands in the table, from 0.
    #[must_use]
    pub fn row_index(&self, id: RowId) -> Option<usize> {
        self.rows.place(&id)
    }

    /// What the estimator put in place of a figure.
    #[must_use]
    pub fn overrule(&self, figure: &FigureKey) -> Option<&Overrule> {
        self.overrules.get_by(figure)
    }

    /// The answer to a concern of a row.
    #[must_use]
    pub fn answer(&self, row: RowId, concern: Concern) -> Option<&Answer> {
        self.answers.get_by(&(row, concern))
    }
}
