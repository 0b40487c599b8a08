//! What is in the way of a paper.

use std::collections::BTreeSet;

use quillbore_calc::RowId;

use super::on_floor::{is_called_off, parts_on_floor};
use super::parts::{ordered, sum};
use super::trouble::{holds_delivery, is_open};
use crate::ground::stands_in::{ShopSays, StandsIn};
use crate::job::Job;
use crate::life::inspected::same_mark;
use crate::life::order;
use crate::life::order::difference::Topic;
use crate::pinned::concern::Concern;
use crate::pinned::paper::Paper;
use crate::pinned::slip::lists::{Line, SlipKind, kind, line};
use crate::pinned::slip::view::View;
use crate::typed::field::Field;
use crate::typed::row::Row;

/// What is in the way of issuing a paper.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Blocker {
    /// The shop's own data can't be read or were never typed, and papers would leave under a sample's.
    StandsIn(StandsIn),
    /// A finding says stop.
    Stop,
    /// Something on the sheet can't be read.
    SheetUnread,
    /// Checks that concern the customer have no answer.
    Unanswered {
        /// Each by the mark of its row.
        checks: Vec<(Concern, String)>,
    },
    /// There is no price to quote.
    Unpriced,
    /// Currency, exchange rate or its day is missing.
    NoExchange,
    /// Amounts were typed when the shop had another currency.
    AmountsCurrency,
    /// An order pays in another currency than the sheet reckons in.
    OrderCurrency,
    /// There is no order.
    NoOrder,
    /// The order differs from quotation or sheet, and that is not accepted yet.
    OrderDiffers {
        /// In what, each once.
        topics: Vec<Topic>,
    },
    /// An order has no price of its own.
    NoOrderPrice,
    /// No parts were received.
    NoParts,
    /// No broken tool is on the sheet.
    NoBrokenTool,
    /// Fewer parts came than this lot needs.
    Missing {
        /// Parts here.
        here: u32,
        /// Parts ordered.
        ordered: u32,
    },
    /// More parts are to be released than are here and not on the floor yet.
    MoreThanHere {
        /// Parts to be released.
        parts: u32,
        /// Parts here.
        here: u32,
        /// Parts of them that have a traveler.
        released: u32,
    },
    /// A non-conformance of the job before is open, and nobody said why to go on.
    OpenTrouble,
    /// No delivery is on record.
    NothingToDeliver,
    /// A non-conformance of this job is open, and nobody said why parts are delivered all the same.
    Undecided,
    /// Nobody wrote down that the holes of these marks are good.
    NotInspected {
        /// The marks.
        marks: Vec<String>,
    },
    /// Several rows have one of these marks.
    SameMarks {
        /// The marks.
        marks: Vec<String>,
    },
    /// Lines of the order, its call-offs or the received parts can't be read.
    Unread {
        /// Each with the slip that it stands on, once.
        lines: Vec<(SlipKind, Line)>,
    },
}

impl Blocker {
    /// Whether the paper's time has only not come yet: an order, parts or a delivery is awaited.
    #[must_use]
    pub const fn is_waiting(&self) -> bool {
        matches!(
            self,
            Self::NoOrder
                | Self::NoParts
                | Self::Missing { .. }
                | Self::MoreThanHere { .. }
                | Self::NothingToDeliver
        )
    }
}

/// What the results of a job say of its next steps.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Found {
    /// What of the shop is a sample's, so that papers would leave under it.
    pub stands_in: Vec<StandsIn>,
    /// A finding says stop.
    pub stop: bool,
    /// Something on the sheet can't be read, so that the figures are without it.
    pub unread: bool,
    /// There is no price.
    pub unpriced: bool,
    /// The quotation is in another currency, and something is missing that its prices rest on.
    pub exchange: bool,
    /// Amounts were typed when the shop had another currency.
    pub amounts_currency: bool,
    /// An order pays in another currency than the sheet reckons in.
    pub order_currency: bool,
    /// An order pays another price than today's, and that is not accepted yet.
    pub order_price: bool,
    /// Checks that concern the customer and have no answer that counts, each with its row.
    pub unanswered: Vec<(Concern, RowId)>,
}

/// What is in the way of issuing a paper; `before` is the job that this one does again.
#[must_use]
pub fn blockers(paper: Paper, job: &Job, results: &Found, before: Option<&Job>) -> Vec<Blocker> {
    let mut found = Vec::new();
    let stands_in = results.stands_in.iter();
    let stands_in = stands_in.filter(|of| is_on(of, paper, job)).cloned();
    found.extend(stands_in.map(Blocker::StandsIn));
    match paper {
        Paper::Quotation => {
            sheet(job, results, &mut found);
            found.extend(results.unpriced.then_some(Blocker::Unpriced));
            found.extend(results.exchange.then_some(Blocker::NoExchange));
            found.extend(results.amounts_currency.then_some(Blocker::AmountsCurrency));
        }
        Paper::Confirmation => {
            // What the order pays is in the currency of the quotation.
            found.extend(results.exchange.then_some(Blocker::NoExchange));
            // The cap for a spoiled part is printed.
            found.extend(results.amounts_currency.then_some(Blocker::AmountsCurrency));
            found.extend(results.order_currency.then_some(Blocker::OrderCurrency));
            order(job, results, before, &mut found);
            let no_price = |order: View<'_, kind::Order>| order.entry(line::Each).is_empty();
            if job.slips_of::<kind::Order>().any(no_price) {
                found.push(Blocker::NoOrderPrice);
            }
        }
        Paper::Receiving => {
            if sum::<kind::Received, _>(job, line::Count) == 0 {
                found.push(Blocker::NoParts);
            }
        }
        Paper::ToolReceipt => {
            sheet(job, results, &mut found);
            found.extend(results.unpriced.then_some(Blocker::Unpriced));
            found.extend((!job.has_broken_tool()).then_some(Blocker::NoBrokenTool));
        }
        Paper::Traveler => {
            sheet(job, results, &mut found);
            same_marks(job, &mut found);
            order(job, results, before, &mut found);
            parts(job, &mut found);
        }
        Paper::Inspection | Paper::FirstArticle => {}
        Paper::Certificate | Paper::Packing | Paper::Label => {
            if sum::<kind::Delivery, _>(job, line::Count) == 0 {
                found.push(Blocker::NothingToDeliver);
            }
            if paper == Paper::Certificate {
                differs(job, results, &mut found);
                inspected(job, &mut found);
            }
            if job.slips_of::<kind::Nonconformance>().any(holds_delivery) {
                found.push(Blocker::Undecided);
            }
        }
    }
    found
}

/// Whether a paper prints or rests on what a sample stands in for.
fn is_on(of: &StandsIn, paper: Paper, job: &Job) -> bool {
    let is_offer = matches!(paper, Paper::Quotation | Paper::Confirmation);
    match of {
        StandsIn::File
        | StandsIn::Said(ShopSays::Name | ShopSays::Address | ShopSays::Reached, _) => true,
        StandsIn::Said(ShopSays::Cautions, _) => matches!(paper, Paper::Traveler),
        StandsIn::Said(ShopSays::Currency, _) => {
            is_offer || (paper == Paper::Traveler && has_amounts(job))
        }
        StandsIn::Said(ShopSays::Terms | ShopSays::Exclusions, _) | StandsIn::Card { .. } => {
            is_offer
        }
    }
}

/// Whether amounts stand on the sheet that its traveler prints.
fn has_amounts(job: &Job) -> bool {
    let amounts = [Field::PartValue, Field::LiabilityCap];
    let typed = |field: &Field| !job.text(*field).trim().is_empty();
    amounts.iter().any(typed)
}

/// What the sheet itself still wants.
fn sheet(job: &Job, results: &Found, found: &mut Vec<Blocker>) {
    found.extend(results.stop.then_some(Blocker::Stop));
    found.extend(results.unread.then_some(Blocker::SheetUnread));
    let open = results.unanswered.iter();
    let checks: Vec<_> = open
        .map(|(concern, row)| (*concern, named(job, *row)))
        .collect();
    if !checks.is_empty() {
        found.push(Blocker::Unanswered { checks });
    }
}

/// In what the orders differ from quotation and sheet, as long as that is not accepted, and whether
/// they can be read at all.
fn differs(job: &Job, results: &Found, found: &mut Vec<Blocker>) {
    let orders = job.slips_of::<kind::Order>();
    let open = orders.flat_map(|order| order::open(job, order));
    let mut topics: Vec<Topic> = open.map(|difference| difference.topic()).collect();
    topics.extend(results.order_price.then_some(Topic::Price));
    topics.sort_unstable();
    topics.dedup();
    if !topics.is_empty() {
        found.push(Blocker::OrderDiffers { topics });
    }
    unread(job, &[SlipKind::Order, SlipKind::Release], found);
}

/// What can't be read on slips of these kinds, as one with what can't be read on others.
fn unread(job: &Job, kinds: &[SlipKind], found: &mut Vec<Blocker>) {
    let slips = kinds.iter().flat_map(|kind| job.slips(*kind));
    let lines = slips.flat_map(|slip| {
        let unread = slip.lines.iter().filter(|(_, entry)| entry.why().is_some());
        unread.map(|(line, _)| (slip.kind, *line))
    });
    let lines: BTreeSet<(SlipKind, Line)> = lines.collect();
    let there = found.iter_mut().find_map(|blocker| match blocker {
        Blocker::Unread { lines } => Some(lines),
        _ => None,
    });
    match there {
        Some(there) => there.extend(lines),
        None if lines.is_empty() => {}
        None => found.push(Blocker::Unread {
            lines: lines.into_iter().collect(),
        }),
    }
}

fn inspected(job: &Job, found: &mut Vec<Blocker>) {
    let marks = not_inspected(job);
    if !marks.is_empty() {
        found.push(Blocker::NotInspected { marks });
    }
}

/// Marks whose holes no run record and no inspection says were measured, or came out good.
fn not_inspected(job: &Job) -> Vec<String> {
    let runs = job.slips_of::<kind::Run>().filter_map(|run| {
        let counted = run.get(line::Good).is_some_and(|good| good > 0);
        let told = counted || !run.get(line::Pins).is_empty();
        same_mark(run.get(line::Mark)).filter(|_| told)
    });
    let inspections = job.slips_of::<kind::Inspection>().filter_map(|slip| {
        let counted = slip.get(line::Checked).is_some_and(|holes| holes > 0);
        let told = counted || !slip.get(line::Pins).is_empty();
        same_mark(slip.get(line::Mark)).filter(|_| told)
    });
    let told: BTreeSet<String> = runs.chain(inspections).collect();
    let is_told = |row: &Row| same_mark(row.mark.text()).is_some_and(|mark| told.contains(&mark));
    let rows = job.rows.iter();
    rows.filter(|row| !is_told(row))
        .map(|row| named(job, row.id))
        .collect()
}

/// Marks that several rows have: whoever drills could not tell their holes apart.
fn same_marks(job: &Job, found: &mut Vec<Blocker>) {
    let mut seen = BTreeSet::new();
    let mut twice = BTreeSet::new();
    for row in &job.rows {
        if let Some(mark) = same_mark(row.mark.text())
            && !seen.insert(mark)
        {
            twice.insert(row.mark.text().trim().to_owned());
        }
    }
    if !twice.is_empty() {
        found.push(Blocker::SameMarks {
            marks: twice.into_iter().collect(),
        });
    }
}

/// The mark of a row, or its place in the table where it has none.
fn named(job: &Job, row: RowId) -> String {
    let mark = job.row(row).map_or("", |row| row.mark.text().trim());
    match job.row_index(row) {
        _ if !mark.is_empty() => mark.to_owned(),
        Some(index) => format!("row {}", index + 1),
        None => "?".to_owned(),
    }
}

fn order(job: &Job, results: &Found, before: Option<&Job>, found: &mut Vec<Blocker>) {
    let mut orders = job.slips_of::<kind::Order>().peekable();
    if orders.peek().is_none() {
        found.push(Blocker::NoOrder);
    }
    differs(job, results, found);
    let trouble = |job: &Job| job.slips_of::<kind::Nonconformance>().any(is_open);
    let told = orders.any(|order| !order.get(line::GoOn).is_empty());
    if before.is_some_and(trouble) && !told {
        found.push(Blocker::OpenTrouble);
    }
}

fn parts(job: &Job, found: &mut Vec<Blocker>) {
    unread(job, &[SlipKind::Received], found);
    let here = sum::<kind::Received, _>(job, line::Count);
    match ordered(job) {
        _ if here == 0 => found.push(Blocker::NoParts),
        // Parts may come in several deliveries; each lot of them gets its traveler.
        Some(ordered) if here < ordered && !is_partial(job) => {
            found.push(Blocker::Missing { here, ordered });
        }
        _ => found.extend(more_than_here(job, here)),
    }
}

/// Whether parts are to be released that nobody has, or that are on a traveler already. Without call-offs a
/// traveler that is released once more takes the place of the one before.
fn more_than_here(job: &Job, here: u32) -> Option<Blocker> {
    let parts = order::followed(job).quantity?;
    let released = if is_called_off(job) {
        parts_on_floor(job)
    } else {
        0
    };
    (parts > here.saturating_sub(released)).then_some(Blocker::MoreThanHere {
        parts,
        here,
        released,
    })
}

/// Whether the order is called off or due in parts, so that fewer parts than ordered may be here.
fn is_partial(job: &Job) -> bool {
    job.slips_of::<kind::Release>().next().is_some()
        || job
            .slips_of::<kind::Order>()
            .any(|order| order.get(line::Blanket) == Some(true))
}
