//! Where a job stands in its life, what differs between order and quotation, and what is still in
//! the way of the next step. Everything here is read off the slips and the issued papers.

use chrono::NaiveDate;
use rust_decimal::Decimal;

use crate::field::{Field, Value};
use crate::issued::{Issued, Paper};
use crate::job::Job;
use crate::slip::{Line, Slip, SlipKind};

/// Where a job stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum State {
    /// Somebody asked.
    Inquiry,
    /// A quotation is out.
    Quoted,
    /// The order is here.
    Ordered,
    /// Order and parts are here.
    PartsHere,
    /// The traveler is released.
    OnTheFloor,
    /// Everything that was ordered went out.
    Delivered,
    /// Nobody goes on with it.
    LaidAside,
}

/// What differs between an order and what was quoted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Difference {
    /// No quotation stands that the order could be held against.
    NoQuotation,
    /// The order names a paper that was not issued, or was withdrawn.
    OtherPaper {
        /// What it names.
        named: String,
    },
    /// The order came after the last day of the quotation.
    TooLate {
        /// That day.
        until: NaiveDate,
    },
    /// A quantity that was not priced.
    Quantity {
        /// Ordered.
        ordered: u32,
        /// The nearest quantity that was priced.
        quoted: u32,
    },
    /// Another price.
    Price {
        /// In the order.
        ordered: Decimal,
        /// In the quotation, at that quantity.
        quoted: Decimal,
    },
    /// Another revision of the part.
    Revision {
        /// In the order.
        ordered: String,
        /// In the quotation.
        quoted: String,
    },
    /// Another revision of the drawing than the sheet has.
    DrawingRevision {
        /// In the order.
        ordered: String,
        /// On the sheet.
        quoted: String,
    },
    /// The order brings terms of its own.
    Terms {
        /// As it names them.
        named: String,
    },
}

/// What is in the way of issuing a paper.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Blocker {
    /// A finding says stop.
    Stop,
    /// Something on the sheet can't be read.
    SheetUnread,
    /// There is no order.
    NoOrder,
    /// The order differs from the quotation, and nobody accepted that.
    OrderDiffers,
    /// No parts were received.
    NoParts,
    /// Fewer parts came than this lot needs.
    Missing {
        /// Parts here.
        here: u32,
        /// Parts ordered.
        ordered: u32,
    },
    /// A non-conformance of the job before is open, and nobody said why to go on.
    OpenTrouble,
    /// No delivery is written down.
    NothingToDeliver,
    /// A non-conformance of this job is not closed.
    Undecided,
    /// An order pays less than the price of today, and nobody accepted that.
    Underpaid,
    /// Nobody wrote down that the holes of these marks are good.
    NotInspected {
        /// The marks.
        marks: Vec<String>,
    },
    /// A line of the order or of the received parts can't be read.
    Unread,
}

/// Where a job stands.
#[must_use]
pub fn state(job: &Job) -> State {
    if !job.text(Field::LaidAside).trim().is_empty() {
        return State::LaidAside;
    }
    let ordered = ordered(job);
    let delivered = sum(job, SlipKind::Delivery, Line::Count);
    if delivered > 0 && ordered.is_some_and(|ordered| delivered >= ordered) {
        State::Delivered
    } else if job.standing(Paper::Traveler).next().is_some() {
        State::OnTheFloor
    } else if ordered.is_some() && sum(job, SlipKind::Received, Line::Count) > 0 {
        State::PartsHere
    } else if ordered.is_some() {
        State::Ordered
    } else if job.standing(Paper::Quotation).next().is_some() {
        State::Quoted
    } else {
        State::Inquiry
    }
}

/// Parts of all orders; an order without a quantity is for the quantity of the sheet. `None`
/// without an order.
#[must_use]
pub fn ordered(job: &Job) -> Option<u32> {
    let on_sheet = job.count(Field::Quantity).unwrap_or(0);
    let of = |slip: &Slip| slip.count(Line::Quantity).unwrap_or(on_sheet);
    job.slips(SlipKind::Order)
        .map(of)
        .reduce(u32::saturating_add)
}

/// The sum of a line's counts over all slips of a kind.
#[must_use]
pub fn sum(job: &Job, kind: SlipKind, line: Line) -> u32 {
    let counts = job.slips(kind).filter_map(|slip| slip.count(line));
    counts.fold(0, u32::saturating_add)
}

/// Parts that are still to be delivered; `None` without an order.
#[must_use]
pub fn left_to_deliver(job: &Job) -> Option<u32> {
    let delivered = sum(job, SlipKind::Delivery, Line::Count);
    ordered(job).map(|ordered| ordered.saturating_sub(delivered))
}

/// The quotation that an order is held against: the one it names, else the newest that stands.
#[must_use]
pub fn quotation_of<'a>(job: &'a Job, order: &Slip) -> Option<&'a Issued> {
    let named = order.text(Line::Paper);
    job.standing(Paper::Quotation)
        .rfind(|issued| named.is_empty() || issued.number.eq_ignore_ascii_case(named))
}

/// What differs between an order and the quotation that it answers.
#[must_use]
pub fn differences(job: &Job, order: &Slip) -> Vec<Difference> {
    let mut found = Vec::new();
    match quotation_of(job, order) {
        Some(quotation) => against(job, order, quotation, &mut found),
        // A reorder answers the job before: its prices stand side by side on the sheet.
        None if order.text(Line::Paper).is_empty() && !job.text(Field::Again).trim().is_empty() => {
            revision(order, job.text(Field::Revision).trim(), &mut found);
        }
        None => found.push(match order.text(Line::Paper) {
            "" => Difference::NoQuotation,
            named => Difference::OtherPaper {
                named: named.to_owned(),
            },
        }),
    }
    let ordered = order.text(Line::DrawingRevision);
    let on_sheet = job.text(Field::DrawingRevision).trim();
    if !ordered.is_empty() && !ordered.eq_ignore_ascii_case(on_sheet) {
        found.push(Difference::DrawingRevision {
            ordered: ordered.to_owned(),
            quoted: on_sheet.to_owned(),
        });
    }
    if !order.text(Line::Terms).is_empty() {
        found.push(Difference::Terms {
            named: order.text(Line::Terms).to_owned(),
        });
    }
    found
}

fn against(job: &Job, order: &Slip, quotation: &Issued, found: &mut Vec<Difference>) {
    if let (Some(until), Some(came)) = (quotation.valid_until, order.day(Line::Date))
        && came > until
    {
        found.push(Difference::TooLate { until });
    }
    let lines = quotation.lines.iter().filter(|line| line.job == job.number);
    let Some(first) = lines.clone().next() else {
        return;
    };
    revision(order, first.revision.trim(), found);
    let Some(quantity) = order.count(Line::Quantity) else {
        return;
    };
    match lines.clone().find(|line| line.quantity == quantity) {
        Some(line) => {
            if let (Some(ordered), Some(quoted)) = (order.money(Line::Each), line.each)
                && ordered != quoted
            {
                found.push(Difference::Price { ordered, quoted });
            }
        }
        None => {
            if let Some(near) = lines.min_by_key(|line| line.quantity.abs_diff(quantity)) {
                found.push(Difference::Quantity {
                    ordered: quantity,
                    quoted: near.quantity,
                });
            }
        }
    }
}

fn revision(order: &Slip, quoted: &str, found: &mut Vec<Difference>) {
    let ordered = order.text(Line::Revision);
    if !ordered.is_empty() && !ordered.eq_ignore_ascii_case(quoted) {
        found.push(Difference::Revision {
            ordered: ordered.to_owned(),
            quoted: quoted.to_owned(),
        });
    }
}

/// What the results of a job say of its next steps.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Found {
    /// A finding says stop.
    pub stop: bool,
    /// An order pays less than the price of today, and nobody accepted that.
    pub underpaid: bool,
    /// Something on the sheet can't be read, so that the figures are without it.
    pub unread: bool,
}

/// What is in the way of issuing a paper; `before` is the job that this one does again.
#[must_use]
pub fn blockers(paper: Paper, job: &Job, results: Found, before: Option<&Job>) -> Vec<Blocker> {
    let mut found = Vec::new();
    let order = |found: &mut Vec<Blocker>| {
        order(job, before, found);
        if results.underpaid && !found.contains(&Blocker::OrderDiffers) {
            found.push(Blocker::Underpaid);
        }
    };
    match paper {
        Paper::Quotation => {
            found.extend(results.stop.then_some(Blocker::Stop));
            found.extend(results.unread.then_some(Blocker::SheetUnread));
        }
        Paper::Confirmation => order(&mut found),
        Paper::Receiving => {
            if sum(job, SlipKind::Received, Line::Count) == 0 {
                found.push(Blocker::NoParts);
            }
        }
        Paper::Traveler => {
            found.extend(results.stop.then_some(Blocker::Stop));
            found.extend(results.unread.then_some(Blocker::SheetUnread));
            order(&mut found);
            parts(job, &mut found);
        }
        Paper::Inspection => {}
        Paper::Certificate | Paper::Packing | Paper::Label => {
            if sum(job, SlipKind::Delivery, Line::Count) == 0 {
                found.push(Blocker::NothingToDeliver);
            }
            if paper == Paper::Certificate {
                inspected(job, &mut found);
            }
        }
    }
    found
}

fn inspected(job: &Job, found: &mut Vec<Blocker>) {
    let marks = not_inspected(job);
    if !marks.is_empty() {
        found.push(Blocker::NotInspected { marks });
    }
    let open = |slip: &Slip| slip.text(Line::Closed).is_empty();
    if job.slips(SlipKind::Nonconformance).any(open) {
        found.push(Blocker::Undecided);
    }
}

/// Marks whose holes no run record says were measured by pin, or came out good.
fn not_inspected(job: &Job) -> Vec<String> {
    let told = |mark: &str| {
        job.slips(SlipKind::Run).any(|run| {
            let counted = run.count(Line::Good).is_some_and(|good| good > 0);
            run.text(Line::Mark) == mark && (counted || !run.text(Line::Pins).is_empty())
        })
    };
    let marks = job.rows.iter().map(|row| row.mark.text().trim());
    marks
        .filter(|mark| !told(mark))
        .map(str::to_owned)
        .collect()
}

fn order(job: &Job, before: Option<&Job>, found: &mut Vec<Blocker>) {
    let mut orders = job.slips(SlipKind::Order).peekable();
    if orders.peek().is_none() {
        found.push(Blocker::NoOrder);
    }
    let open =
        |order: &Slip| order.text(Line::Accepted).is_empty() && !differences(job, order).is_empty();
    if job.slips(SlipKind::Order).any(open) {
        found.push(Blocker::OrderDiffers);
    }
    if job.slips(SlipKind::Order).any(Slip::is_unread) {
        found.push(Blocker::Unread);
    }
    let trouble = |job: &Job| job.slips(SlipKind::Nonconformance).any(is_open);
    let told = orders.any(|order| !order.text(Line::GoOn).is_empty());
    if before.is_some_and(trouble) && !told {
        found.push(Blocker::OpenTrouble);
    }
}

fn parts(job: &Job, found: &mut Vec<Blocker>) {
    if job.slips(SlipKind::Received).any(Slip::is_unread) && !found.contains(&Blocker::Unread) {
        found.push(Blocker::Unread);
    }
    let here = sum(job, SlipKind::Received, Line::Count);
    match ordered(job) {
        _ if here == 0 => found.push(Blocker::NoParts),
        // Parts may come in several deliveries; each lot of them gets its traveler.
        Some(ordered) if here < ordered && !is_partial(job) => {
            found.push(Blocker::Missing { here, ordered });
        }
        _ => {}
    }
}

/// Whether the order is called off or due in parts, so that fewer parts than ordered may be here.
fn is_partial(job: &Job) -> bool {
    job.slips(SlipKind::Release).next().is_some()
        || job
            .slips(SlipKind::Order)
            .any(|order| order.says_yes(Line::Blanket))
}

/// Whether a non-conformance is open and nobody said why to go on.
#[must_use]
pub fn is_open(trouble: &Slip) -> bool {
    trouble.text(Line::Closed).is_empty() && trouble.text(Line::GoOn).is_empty()
}

/// How the newest quotation ended, in the word of the slip; `None` while nobody said.
#[must_use]
pub fn outcome(job: &Job) -> Option<&str> {
    let slip = job.slips(SlipKind::Reply).next_back()?;
    match slip.line(Line::Outcome).value() {
        Some(Value::Text(word)) => Some(word),
        _ => None,
    }
}

/// Machine hours that the run records tell: floor minutes less stops, else sparking; `None` without.
#[must_use]
pub fn actual_hours(job: &Job) -> Option<f64> {
    let minutes = job.slips(SlipKind::Run).filter_map(|run| {
        let stops = run.minutes(Line::StopMinutes).unwrap_or(0.0);
        let floor = run
            .minutes(Line::FloorMinutes)
            .map(|min| (min - stops).max(0.0));
        floor.or_else(|| run.minutes(Line::SparkMinutes))
    });
    minutes.reduce(|a, b| a + b).map(|minutes| minutes / 60.0)
}
