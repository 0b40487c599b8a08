//! A paper made ready to be issued: its PDF, and the entry that names it.

use std::collections::BTreeSet;
use std::sync::Arc;

use chrono::{Days, NaiveDate};
use quillbore_calc::JobFigures;
use quillbore_job::drawer::Thing;
use quillbore_job::file;
use quillbore_job::issued::IssuedLine;
use quillbore_job::results::{ByRuns, Results};
use quillbore_job::shop::QuotedIn;
use quillbore_job::slip::{Has, kind, line as slip_line};
use quillbore_job::{Field, Issued, Job, Paper, Shop, order};
use quillbore_paper::Sheet;

use crate::failure::Failure;
use crate::print::{self, Sitting};
use crate::words::issue as words;
use crate::words::rests_on as rows_of;

/// A paper made and ready to be written, with the entry that the job gets.
#[derive(Clone, Debug, PartialEq)]
pub struct Ready {
    /// The entry.
    pub issued: Issued,
    /// The PDF.
    pub bytes: Vec<u8>,
}

/// Makes a paper of one or several jobs, the first of which keeps it, under a number.
///
/// # Errors
/// Where the PDF can't be made.
pub fn ready(
    paper: Paper,
    number: String,
    sittings: &[Sitting<'_>],
    shop: &Shop,
    day: NaiveDate,
    sheet: Sheet,
) -> Result<Ready, Failure> {
    let Some(first) = sittings.first() else {
        return Err(words::no_job());
    };
    let valid_until = (paper == Paper::Quotation)
        .then(|| valid_until(first.job, day))
        .flatten();
    let stamp = print::Stamp {
        number: Some(&number),
        valid_until,
        why_not: None,
    };
    let (document, unprintable) = print::checked(paper, sittings, shop, day, sheet, stamp);
    if !unprintable.is_empty() {
        let said = print::unprintable_said(&unprintable);
        return Err(words::unprintable(&said));
    }
    let goes_by = shop.for_job(first.job);
    let bytes = print::pdf_of(paper, &document, first.job, shop, day)?;
    let lines: Vec<IssuedLine> = sittings
        .iter()
        .flat_map(|sitting| lines(paper, sitting.job, sitting.results))
        .collect();
    let has_prices = lines.iter().any(|line| line.each.is_some());
    let issued = Issued {
        file: format!("{number}.pdf"),
        paper,
        date: day,
        valid_until,
        kept_by: None,
        hash: file::hash(&bytes),
        lines,
        currency: has_prices.then(|| currency(paper, first.job, &goes_by)),
        rests_on: entry_rests_on(paper, first.job, first.results, &goes_by),
        replaces: replaces(paper, sittings),
        pages: print::texts(&document),
        inputs: Some(Arc::new(first.job.inputs())),
        seal: None,
        number,
    };
    let issued = issued.sealed();
    Ok(Ready { issued, bytes })
}

/// The currency of the prices of a paper: a confirmation has those of the order.
fn currency(paper: Paper, job: &Job, goes_by: &Shop) -> String {
    let mut orders = job.slips_of::<kind::Order>();
    let ordered = orders.find_map(|order| order::pays_in(job, order));
    let ordered = ordered.filter(|_| paper == Paper::Confirmation);
    let reckoned = goes_by.tables.rates.currency.as_str();
    ordered.unwrap_or(reckoned).to_owned()
}

/// The last day that a quotation stands.
fn valid_until(job: &Job, day: NaiveDate) -> Option<NaiveDate> {
    let days = job.count(Field::ValidDays)?;
    day.checked_add_days(Days::new(u64::from(days)))
}

/// Numbers of the papers that no longer stand once this one is issued.
fn replaces(paper: Paper, sittings: &[Sitting<'_>]) -> Vec<String> {
    let all = sittings
        .iter()
        .flat_map(|sitting| sitting.job.to_replace(paper));
    let all: BTreeSet<String> = all.collect();
    all.into_iter().collect()
}

fn lines(paper: Paper, job: &Job, results: &Results) -> Vec<IssuedLine> {
    let follows = order::followed(job);
    let on_sheet = job.text(Field::Revision).trim();
    let revision = match paper {
        Paper::Quotation => on_sheet,
        _ => follows.revision,
    };
    let line = |quantity, each| IssuedLine {
        job: job.number.clone(),
        part: job.text(Field::Part).trim().to_owned(),
        revision: revision.to_owned(),
        quantity,
        each,
    };
    match paper {
        Paper::Quotation => {
            let breaks = results.figures.price.iter().flat_map(|price| &price.breaks);
            breaks.map(|at| line(at.quantity, Some(at.each))).collect()
        }
        Paper::Confirmation => job
            .slips_of::<kind::Order>()
            .filter_map(|order| {
                let quantity = order::quantity_of(job, order)?;
                let own = order.get(slip_line::Revision);
                let line = line(quantity, order.get(slip_line::Each));
                Some(IssuedLine {
                    revision: if own.is_empty() {
                        line.revision
                    } else {
                        own.to_owned()
                    },
                    ..line
                })
            })
            .collect(),
        Paper::Receiving => counts::<kind::Received>(job)
            .map(|count| line(count, None))
            .collect(),
        Paper::Certificate | Paper::Packing | Paper::Label => counts::<kind::Delivery>(job)
            .map(|count| line(count, None))
            .collect(),
        Paper::ToolReceipt | Paper::Traveler | Paper::Inspection | Paper::FirstArticle => follows
            .quantity
            .map(|quantity| line(quantity, None))
            .into_iter()
            .collect(),
    }
}

/// Parts counted on the slips of a kind.
fn counts<K: Has<slip_line::Count>>(job: &Job) -> impl Iterator<Item = u32> {
    let slips = job.slips_of::<K>();
    slips.filter_map(|slip| slip.get(slip_line::Count))
}

/// What the entry of a paper rests on: the shop's rows, and for a traveler the kit that is kept
/// for it, and the holes that guides are kept for.
///
/// Where fewer parts are released than the kit was worked out for, their share of it is kept.
fn entry_rests_on(paper: Paper, job: &Job, results: &Results, shop: &Shop) -> Vec<(String, f64)> {
    let mut rows = rests_on(results, shop);
    let lot = results.figures.lot.as_ref();
    let Some(lot) = lot.filter(|_| paper == Paper::Traveler) else {
        return rows;
    };
    let parts = order::followed(job).quantity.unwrap_or(lot.quantity);
    let share = (f64::from(parts) / f64::from(lot.quantity.max(1))).min(1.0);
    let mut keep = |thing: Thing, name: &str, count: f64| {
        rows.push((thing.entry(name), (count * share).ceil()));
    };
    for used in &lot.electrodes {
        if let Some(tube) = used.tube.of(&shop.tables.tubes) {
            keep(Thing::Electrode, &tube.name, f64::from(used.kit));
        }
    }
    for used in &lot.guides {
        if let Some(guide) = used.guide.of(&shop.tables.guides) {
            keep(Thing::Guide, &guide.name, used.ends as f64);
        }
    }
    rows
}

/// The rows of the shop that the figures rest on, as numbers; `shop` is the one that the job goes by.
///
/// Money is in the shop's own currency, beside the exchange rate, so that a rate of today can be held
/// against it.
#[must_use]
pub fn rests_on(results: &Results, shop: &Shop) -> Vec<(String, f64)> {
    let own = shop.in_own_currency();
    let tables = &own.tables;
    let rates = &tables.rates;
    let mut rows: Vec<(String, f64)> = vec![
        (rows_of::LABOR.to_owned(), rates.labor_per_hour),
        (rows_of::DIELECTRIC.to_owned(), rates.dielectric_per_hour),
        (rows_of::POWER.to_owned(), rates.power_per_hour),
        (rows_of::MARGIN.to_owned(), rates.margin),
        (rows_of::MINIMUM_CHARGE.to_owned(), rates.minimum_charge),
        (rows_of::REDO.to_owned(), rates.redo_share),
        (rows_of::PART_RISK.to_owned(), rates.part_risk_share),
    ];
    let step = rates.price_step;
    rows.extend(step.map(|step| (rows_of::PRICE_STEP.to_owned(), step)));
    if let Some(QuotedIn {
        currency,
        rate,
        dated,
    }) = shop.quoted_in()
    {
        rows.push((rows_of::EXCHANGE_RATE.to_owned(), *rate));
        let dated = rows_of::exchange_of(*dated, &rates.currency, currency);
        rows.push((dated, *rate));
    }
    let asked = &results.asked.input;
    if let Some(machine) = asked.machine.and_then(|at| at.of(&tables.machines)) {
        rows.push((rows_of::machine_rate(&machine.name), machine.rate_per_hour));
        rows.push((rows_of::attended(&machine.name), machine.attended));
    }
    if let Some(material) = asked.material.and_then(|at| at.of(&tables.materials)) {
        let name = &material.name;
        for (what, spread) in [
            (rows_of::FEED, material.feed_mm_min),
            (rows_of::WEAR, material.wear),
        ] {
            rows.push((rows_of::low(name, what), spread.p10));
            rows.push((rows_of::high(name, what), spread.p90));
        }
    }
    if let Some(lot) = &results.figures.lot {
        for used in &lot.electrodes {
            if let Some(tube) = used.tube.of(&tables.tubes) {
                rows.push((rows_of::tube_price(&tube.name), tube.price));
                rows.push((rows_of::tube_length(&tube.name), tube.length_mm));
            }
        }
    }
    rows.extend(by_runs(&results.figures));
    if let Some(price) = &results.figures.price {
        let percent = to_a_tenth(price.not_yet_known_share * 100.0);
        rows.push((rows_of::NOT_YET_KNOWN.to_owned(), percent));
    }
    rows.retain(|(_, number)| number.is_finite());
    rows
}

/// To a tenth, as it is shown.
fn to_a_tenth(number: f64) -> f64 {
    libm::round(number * 10.0) / 10.0
}

/// What run records make of the figures, to two digits: what a record's age alone makes of it is no
/// change worth telling.
fn by_runs(figures: &JobFigures) -> [(String, f64); 3] {
    let ByRuns {
        behind,
        minutes,
        wear,
        wear_measured,
    } = ByRuns::of(figures);
    let records = behind.map_or(0, |behind| behind.grade);
    let rounded = |factor: f64| libm::round(factor * 100.0) / 100.0;
    [
        (rows_of::RECORDS.to_owned(), f64::from(records)),
        (rows_of::MINUTES_BY_RUNS.to_owned(), rounded(minutes)),
        (
            rows_of::wear_by_runs(wear_measured || behind.is_none()).to_owned(),
            rounded(wear),
        ),
    ]
}
