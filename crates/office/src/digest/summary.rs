//! What the shelf knows of a job without opening it.

use std::collections::BTreeSet;

use chrono::NaiveDate;
use quillbore_job::life::{self, State};
use quillbore_job::slip::{kind, line};
use quillbore_job::{Field, Job, Paper, Row, reorder, words};
use rust_decimal::Decimal;
use serde::{Deserialize, Serialize};

use super::due::next_due;

/// Most characters of the notes that are searched.
const LONGEST_NOTES: usize = 400;

/// A job in a few lines, for list, search and comparison.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Summary {
    /// The number that the file says.
    pub number: String,
    /// Who asked.
    pub customer: String,
    /// Part number.
    pub part: String,
    /// What the part is.
    pub part_name: String,
    /// Revision of the part.
    pub revision: String,
    /// Drawing number.
    pub drawing: String,
    /// Work material, as typed.
    pub material: String,
    /// Machine, as typed.
    pub machine: String,
    /// Customer's references and order numbers.
    pub references: String,
    /// The beginning of the notes.
    pub notes: String,
    /// Where it stands, in the word of its state.
    pub state: String,
    /// The day it was opened.
    pub opened: Option<NaiveDate>,
    /// When it is due.
    pub due: Option<NaiveDate>,
    /// When to ask what became of the quotation, while nobody said.
    pub follow_up: Option<NaiveDate>,
    /// Parts in the lot.
    pub quantity: Option<u32>,
    /// Diameter of the row with the most holes, as the drawing gives it [mm].
    pub size_mm: Option<f64>,
    /// Its depth [mm].
    pub depth_mm: Option<f64>,
    /// Diameter and depth of each other kind of hole [mm]; what a row doesn't give is not there.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub other_kinds: Vec<(Option<f64>, Option<f64>)>,
    /// Holes in one part.
    pub holes: u32,
    /// What the newest order pays, else what was confirmed or quoted last.
    pub price: Option<Price>,
    /// Hours of one part by the run records.
    pub hours: Option<Hours>,
}

/// Hours of one part by the run records [h], and what they are.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Hours {
    /// Hours of one part [h].
    pub each: f64,
    /// By the clock, and not of sparking alone.
    pub by_clock: bool,
    /// Rows without a record were reckoned by those with one.
    pub scaled: bool,
}

/// A price of one part at a quantity.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Price {
    /// Its currency, where something says it; else it is the shop's own.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub currency: String,
    /// How much of that currency one unit of the shop's own is, where the job names it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rate: Option<f64>,
    /// Parts.
    pub quantity: u32,
    /// Price of one, as its decimal text.
    #[serde(with = "rust_decimal::serde::str")]
    pub each: Decimal,
}

impl Summary {
    /// What the shelf knows of a job.
    #[must_use]
    pub fn of(job: &Job) -> Self {
        let text = |field: Field| job.text(field).trim().to_owned();
        let quantity = job.count(Field::Quantity);
        let state = life::state(job);
        let main = job.rows.iter().max_by_key(|row| row.holes());
        let last = reorder::last_price(job, quantity.unwrap_or(1));
        Self {
            number: job.number.clone(),
            customer: text(Field::Customer),
            part: text(Field::Part),
            part_name: text(Field::PartName),
            revision: text(Field::Revision),
            drawing: text(Field::Drawing),
            material: text(Field::Material),
            machine: text(Field::Machine),
            references: references(job),
            notes: text(Field::Notes).chars().take(LONGEST_NOTES).collect(),
            state: words::life::state(state).to_owned(),
            opened: job.opened,
            due: next_due(job).map(|next| next.day),
            follow_up: job
                .date(Field::FollowUp)
                .filter(|_| state == State::Quoted && life::outcome(job).is_none()),
            quantity,
            size_mm: main.and_then(|row| drawing_size_mm(row)),
            depth_mm: main.and_then(|row| depth_mm(job, row)),
            other_kinds: other_kinds(job, main.map(AsRef::as_ref)),
            holes: job
                .rows
                .iter()
                .map(|row| row.holes())
                .fold(0, u32::saturating_add),
            price: ordered_price(job).or_else(|| {
                let last = last?;
                Some(price(
                    job,
                    last.quantity,
                    last.each,
                    last.currency.as_deref(),
                ))
            }),
            hours: life::hours_each(job).map(|of| Hours {
                each: of.hours,
                by_clock: of.by_clock,
                scaled: of.scaled,
            }),
        }
    }
}

/// The size as the drawing gives it: the nominal one, else the middle of its limits; a maximum alone
/// counts as it is.
fn drawing_size_mm(row: &Row) -> Option<f64> {
    let size = row.size.value()?;
    let (lower, upper) = (size.lower.mm(), size.upper.mm());
    let middle = if lower > 0.0 {
        f64::midpoint(lower, upper)
    } else {
        upper
    };
    Some(size.nominal.map_or(middle, quillbore_calc::Length::mm))
}

/// What the newest order pays for a part.
fn ordered_price(job: &Job) -> Option<Price> {
    let orders = job.slips_of::<kind::Order>();
    let mut priced = orders.filter_map(|order| {
        let quantity = order
            .get(line::Quantity)
            .or_else(|| job.count(Field::Quantity));
        let each = order.get(line::Each)?;
        Some(price(
            job,
            quantity?,
            each,
            quillbore_job::order::pays_in(job, order),
        ))
    });
    priced.next_back()
}

/// A price in its currency, else in the one that the job is quoted in.
fn price(job: &Job, quantity: u32, each: Decimal, currency: Option<&str>) -> Price {
    let quoted_in = job.text(Field::Currency).trim().to_uppercase();
    let currency = currency.map_or_else(|| quoted_in.clone(), str::to_owned);
    let rate = job.field(Field::ExchangeRate).value();
    let rate = rate.and_then(quillbore_job::Value::number);
    Price {
        quantity,
        each,
        rate: rate.filter(|rate| *rate > 0.0 && currency == quoted_in),
        currency,
    }
}

/// Each kind of hole that `main` is not of, once.
fn other_kinds(job: &Job, main: Option<&Row>) -> Vec<(Option<f64>, Option<f64>)> {
    let kind = |row: &Row| (drawing_size_mm(row), depth_mm(job, row));
    let bits = |(size, depth): (Option<f64>, Option<f64>)| {
        (size.map(f64::to_bits), depth.map(f64::to_bits))
    };
    let mut seen: BTreeSet<_> = main.map(|row| bits(kind(row))).into_iter().collect();
    let kinds = job.rows.iter().map(|row| kind(row));
    let known = kinds.filter(|kind| *kind != (None, None));
    known.filter(|kind| seen.insert(bits(*kind))).collect()
}

fn depth_mm(job: &Job, row: &Row) -> Option<f64> {
    let wall = || job.length(Field::Thickness);
    let typed = row.depth.value().and_then(|depth| depth.aim);
    typed.or_else(wall).map(quillbore_calc::Length::mm)
}

/// The references of the inquiry and the numbers of orders and papers, one after the other.
fn references(job: &Job) -> String {
    let orders = job.slips_of::<kind::Order>();
    let orders = orders.map(|order| order.get(line::Number));
    let releases = job.slips_of::<kind::Release>();
    let orders = orders.chain(releases.map(|called| called.get(line::Number)));
    let papers = job
        .issued
        .iter()
        .filter(|issued| issued.paper == Paper::Quotation && issued.kept_by.is_some())
        .map(|issued| issued.number.as_str());
    let all = [Field::CustomerReference, Field::Again]
        .into_iter()
        .map(|field| job.text(field).trim())
        .chain(orders)
        .chain(papers);
    let named: Vec<&str> = all.filter(|text| !text.is_empty()).collect();
    named.join(" ")
}
