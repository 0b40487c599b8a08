//! A job again: a new sheet from an old one, what was learned, and what changed since.

use std::collections::BTreeMap;
use std::sync::Arc;

use chrono::NaiveDate;
use rust_decimal::Decimal;

use crate::asked::agreed::{amount_typed, with_customer};
use crate::edits::apply::apply;
use crate::edits::edit::Edit;
use crate::job::{Issued, Job};
use crate::life::changed::{Changed, differing};
use crate::life::order::{named_currency, pays_in, quantity_of};
use crate::life::parts::{actual_hours, sum};
use crate::life::trouble::is_open;
use crate::pinned::paper::Paper;
use crate::pinned::report::Report;
use crate::pinned::slip::lists::{Has, TypedLine, kind, line};
use crate::pinned::slip::view::View;
use crate::shop::rows::Shop;
use crate::typed::entry::Unit;
use crate::typed::field::Field;
use crate::typed::form::Form;
use crate::typed::overrule::FigureKey;
use crate::words::life as words;

/// Fields that belong to one order and are not taken over to the next.
const OF_ONE_ORDER: &[Field] = &[
    Field::CustomerReference,
    Field::Due,
    Field::ComesIn,
    Field::LaidAside,
    Field::FollowUp,
    Field::Again,
    Field::Spares,
    Field::FixtureCost,
    Field::TestPieceCost,
    // A rate is of its day: today's is asked for, and the quotation waits for it.
    Field::ExchangeRate,
    Field::ExchangeDay,
];

/// What was learned when the job was done before: what is read first.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Learned {
    /// What to do otherwise, as the floor wrote it.
    pub next_time: Vec<String>,
    /// Settings that worked.
    pub settings: Vec<String>,
    /// What went wrong.
    pub trouble: Vec<String>,
    /// Machine hours of the whole lot, by the run records.
    pub hours: Option<f64>,
    /// Parts that were delivered.
    pub delivered: u32,
    /// Non-conformances that are open, with nobody's word to go on: what is wrong.
    pub open: Vec<String>,
    /// Non-conformances that were closed: what was wrong.
    pub closed: Vec<String>,
    /// Parts that were scrap by the run records, by mark.
    pub scrap: Vec<(String, u32)>,
}

/// The price that was asked or paid before.
#[derive(Clone, Debug, PartialEq)]
pub struct LastPrice {
    /// What it stands on.
    pub from: LastFrom,
    /// The day of that paper or order, where one is known.
    pub date: Option<NaiveDate>,
    /// Parts.
    pub quantity: u32,
    /// Price of one.
    pub each: Decimal,
    /// The currency that it is in; `None` where nothing says it, so that it is the shop's.
    pub currency: Option<String>,
}

/// What a last price stands on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LastFrom {
    /// An issued paper, by its number.
    Paper(String),
    /// The order, by the customer's number, where it has one.
    Order(String),
}

/// The same work on a new sheet, without number; it points back by number.
///
/// Prices that were overruled belonged to that order; every other overrule is kept. Answers to checks
/// are kept too: they count as long as their facts are the same. The settings that worked last stand
/// in the plan where it had none, and so does what the last run taught.
#[must_use]
pub fn again(old: &Job, opened: NaiveDate) -> Job {
    let mut job = Job {
        number: String::new(),
        opened: Some(opened),
        // The files that its holes came from: whoever has the reorder's drawing can tell whether it changed.
        reports: old.reports.iter().filter(of_file).cloned().collect(),
        ..old.inputs()
    };
    let fields = Arc::make_mut(&mut job.fields);
    fields.retain(|field, _| !OF_ONE_ORDER.contains(field));
    let unit = job.unit;
    let set = |fields: &mut BTreeMap<_, _>, field, text: &str| {
        fields.insert(
            field,
            crate::typed::read_field::read_field(field, text, unit),
        );
    };
    if !old.number.is_empty() {
        set(fields, Field::Again, &old.number);
    }
    let lessons = lessons(old);
    if !lessons.is_empty() {
        set(fields, Field::Lessons, &lessons.join("\n"));
    }
    if !fields.contains_key(&Field::Settings) {
        let worked = learned(old).settings.join("\n");
        if !worked.is_empty() {
            set(fields, Field::Settings, &worked);
        }
    }
    job.overrules
        .retain(|overrule| !matches!(overrule.figure, FigureKey::UnitPrice(_)));
    job
}

/// The same in a shop: what it has agreed with the customer by now fills what the sheet has nothing of,
/// the exchange rate of today first of all.
///
/// Rates and terms that were agreed before are kept as they stand on the sheet, since somebody may have
/// typed them for this work; address and number there, too.
#[must_use]
pub fn again_in(shop: &Shop, old: &Job, opened: NaiveDate) -> Job {
    let job = again(old, opened);
    let agreed = with_customer(&job, shop, job.text(Field::Customer), job.unit);
    let done = agreed.and_then(|edit| apply(&job, &edit).ok());
    done.map_or(job, |(job, _)| job)
}

fn of_file(report: &&Arc<Report>) -> bool {
    report.from.file().is_some_and(|file| file.stamp.is_some())
}

/// What the next run is to know: what was known before, then what this one taught, each once.
fn lessons(old: &Job) -> Vec<String> {
    let before = old.text(Field::Lessons).lines().map(str::to_owned);
    let mut told: Vec<String> = before.filter(|line| !line.trim().is_empty()).collect();
    let learned = learned(old);
    let trouble = learned.trouble.iter();
    let trouble = trouble.map(|trouble| words::trouble(trouble));
    for lesson in learned.next_time.iter().cloned().chain(trouble) {
        for line in lesson
            .lines()
            .map(str::trim)
            .filter(|line| !line.is_empty())
        {
            if !told.iter().any(|there| there.trim() == line) {
                told.push(line.to_owned());
            }
        }
    }
    told
}

/// What the slips of a job that was done tell.
#[must_use]
pub fn learned(old: &Job) -> Learned {
    let troubles = old.slips_of::<kind::Nonconformance>();
    let (open, closed): (Vec<_>, Vec<_>) = troubles.partition(|slip| is_open(*slip));
    Learned {
        next_time: texts(old, line::NextTime),
        settings: texts(old, line::Settings),
        trouble: texts(old, line::Trouble),
        hours: actual_hours(old),
        delivered: sum::<kind::Delivery, _>(old, line::Count),
        open: open.into_iter().map(what_is_wrong).collect(),
        closed: closed.into_iter().map(what_is_wrong).collect(),
        scrap: scrap(old),
    }
}

/// Parts that are scrap by the run records, by mark.
fn scrap(old: &Job) -> Vec<(String, u32)> {
    let mut scrap: Vec<(String, u32)> = Vec::new();
    for run in old.slips_of::<kind::Run>() {
        let Some(parts) = run.get(line::Scrap).filter(|parts| *parts > 0) else {
            continue;
        };
        let mark = run.get(line::Mark).trim();
        match scrap.iter_mut().find(|(of, _)| of == mark) {
            Some((_, sum)) => *sum = sum.saturating_add(parts),
            None => scrap.push((mark.to_owned(), parts)),
        }
    }
    scrap
}

/// What the run records say in a line, each once.
fn texts<L: TypedLine>(old: &Job, line: L) -> Vec<String>
where
    kind::Run: Has<L>,
{
    let mut told: Vec<String> = Vec::new();
    for run in old.slips_of::<kind::Run>() {
        let text = run.text(line);
        if !text.is_empty() && !told.iter().any(|there| there == text) {
            told.push(text.to_owned());
        }
    }
    told
}

fn what_is_wrong(slip: View<'_, kind::Nonconformance>) -> String {
    let said = [slip.get(line::HolesNamed), slip.get(line::What)];
    let said: Vec<&str> = said.into_iter().filter(|text| !text.is_empty()).collect();
    said.join(": ")
}

/// The price that was confirmed last, else quoted last, else that of the job's orders, at the quantity
/// nearest to `quantity`; papers whose entries don't fit their seal are left out.
#[must_use]
pub fn last_price(old: &Job, quantity: u32) -> Option<LastPrice> {
    let of = |paper| {
        let papers = old.standing(paper).rev();
        papers
            .filter(|issued| issued.is_trusted())
            .find_map(|issued| {
                let lines = issued.lines.iter().filter(|line| line.job == old.number);
                let near = lines
                    .filter(|line| line.each.is_some())
                    .min_by_key(|line| line.quantity.abs_diff(quantity))?;
                Some(LastPrice {
                    currency: issued.currency.clone().or_else(|| {
                        let then = issued.inputs.as_deref().unwrap_or(old);
                        named_currency(then).map(str::to_owned)
                    }),
                    from: LastFrom::Paper(issued.number.clone()),
                    date: Some(issued.date),
                    quantity: near.quantity,
                    each: near.each?,
                })
            })
    };
    let issued = of(Paper::Confirmation).or_else(|| of(Paper::Quotation));
    issued.or_else(|| ordered_price(old, quantity))
}

/// The price of the order nearest to a quantity, of several the newest; one free of charge made up for
/// something and is no price to ask again.
fn ordered_price(old: &Job, quantity: u32) -> Option<LastPrice> {
    let orders = old.slips_of::<kind::Order>().rev();
    let priced = orders.filter_map(|order| {
        Some(LastPrice {
            currency: pays_in(old, order).map(str::to_owned),
            from: LastFrom::Order(order.get(line::Number).to_owned()),
            date: order.get(line::Date),
            quantity: quantity_of(old, order)?,
            each: order.get(line::Each).filter(|each| !each.is_zero())?,
        })
    });
    priced.min_by_key(|price| price.quantity.abs_diff(quantity))
}

impl LastPrice {
    /// Its currency, where that is another one than a job is quoted in now: the price can't be kept for it.
    #[must_use]
    pub fn other_currency(&self, job: &Job, shop: &Shop) -> Option<&str> {
        let currency = self.currency.as_deref()?;
        (currency != shop.for_job(job).tables.rates.currency).then_some(currency)
    }

    /// Where it comes from, with its day: "26-0107-Q1, 2026-03-02", "by the order PO 7, 2026-03-02".
    #[must_use]
    pub fn origin(&self, form: Form) -> String {
        let from = match &self.from {
            LastFrom::Paper(number) => number.clone(),
            LastFrom::Order(number) => words::by_the_order(number),
        };
        words::on_day(&from, self.date, form)
    }

    /// The price of one as a text that is read as just this price.
    #[must_use]
    pub fn text(&self, form: Form) -> String {
        amount_typed(self.each, form)
    }

    /// Keeps this price for the quantity that is asked for now, with where it comes from as the reason.
    #[must_use]
    pub fn keep(&self, quantity: u32, unit: Unit, form: Form) -> Edit {
        Edit::Overrule {
            figure: FigureKey::UnitPrice(quantity),
            text: self.text(form),
            reason: match &self.from {
                LastFrom::Paper(number) => words::kept_from(number),
                LastFrom::Order(number) => words::kept_from_order(number),
            },
            unit,
        }
    }
}

/// A number that the job before rested on and that is another one today.
#[derive(Clone, Debug, PartialEq)]
pub struct OtherRate {
    /// What it is.
    pub name: String,
    /// What the last paper rested on.
    pub was: f64,
    /// What it is today.
    pub is: f64,
}

/// Numbers that the last price of a job rested on and that are others among those of `today`, where it has
/// none those of its last paper: what its run records taught since is another number, too. Papers whose
/// entries don't fit their seal are left out, and so is what today's don't have.
#[must_use]
pub fn other_rates(old: &Job, today: &[(String, f64)]) -> Vec<OtherRate> {
    /// Numbers closer than this are the same, as a share.
    const SAME: f64 = 1e-9;
    let rests = |paper: &&Arc<Issued>| !paper.rests_on.is_empty() && paper.is_trusted();
    let is_priced = |paper: &&Arc<Issued>| {
        rests(paper) && matches!(paper.paper, Paper::Quotation | Paper::Confirmation)
    };
    let mut papers = old.issued.iter();
    let priced = papers.clone().rfind(is_priced);
    let Some(paper) = priced.or_else(|| papers.rfind(rests)) else {
        return Vec::new();
    };
    let now = |name: &str| today.iter().find(|row| row.0 == name).map(|row| row.1);
    let rests_on = paper.rests_on.iter();
    rests_on
        .filter_map(|(name, was)| {
            let (name, was, is) = (name.clone(), *was, now(name)?);
            let differs = (is - was).abs() > SAME * was.abs();
            differs.then_some(OtherRate { name, was, is })
        })
        .collect()
}

/// The standing papers with prices that [`last_price`] leaves out since their entries don't fit their
/// seal.
#[must_use]
pub fn not_trusted(old: &Job) -> Vec<&str> {
    let priced = [Paper::Confirmation, Paper::Quotation];
    let standing = priced.into_iter().flat_map(|paper| old.standing(paper));
    standing
        .filter(|issued| !issued.is_trusted())
        .map(|issued| issued.number.as_str())
        .collect()
}

/// What differs on the sheet from the job before, in the sheet's order.
#[must_use]
pub fn changed(old: &Job, new: &Job) -> Vec<Changed> {
    // What was learned is told first, as such.
    differing(old, new, |field| {
        !OF_ONE_ORDER.contains(&field) && field != Field::Lessons
    })
}
