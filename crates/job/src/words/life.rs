//! What is said of a job's life: its state, what differs, what is in the way, what changed.

use chrono::NaiveDate;
use rust_decimal::Decimal;

use super::speaker::capital;
use super::stands_in::stands_in;
use super::{answers, english, marks, names, slips};
use crate::life::blockers::Blocker;
use crate::life::changed::Changed;
use crate::life::order::difference::{Difference, FieldChange, HoleChange, Revised, Topic};
use crate::life::state::State;
use crate::pinned::concern::Concern;
use crate::pinned::paper::Paper;
use crate::pinned::slip::lists::{Line, SlipKind, kind, line};
use crate::pinned::slip::view::View;
use crate::typed::field::Field;
use crate::typed::form::Form;
use crate::typed::overrule::FigureKey;
use crate::typed::row::Column;

/// A state, in plain words.
#[must_use]
pub const fn state(state: State) -> &'static str {
    match state {
        State::Inquiry => "inquiry",
        State::Quoted => "quoted",
        State::Ordered => "ordered",
        State::PartsHere => "parts here",
        State::OnTheFloor => "on the floor",
        State::Delivered => "delivered",
        State::LaidAside => "set aside",
    }
}

/// One sentence: what differs between an order and quotation or sheet.
#[must_use]
pub fn difference(difference: &Difference, form: Form) -> String {
    let parts = |count| parts(count, form);
    match difference {
        Difference::NoQuotation => {
            "This job has no valid quotation to compare the order with.".to_owned()
        }
        Difference::OtherPaper { named } => format!(
            "The order names \u{201c}{named}\u{201d}, and there is no valid quotation of that number."
        ),
        Difference::Replaced { named, by } => {
            format!("The order names {named}, which was replaced by {by}.")
        }
        Difference::NotTrusted { named } => format!(
            "The order can't be compared with {named}: its entry in this job doesn't match its seal, so \
             its prices and revisions are not relied on."
        ),
        Difference::TooLate { until } => {
            format!(
                "The quotation was valid until {}; the order came later.",
                form.day(*until)
            )
        }
        Difference::NotPriced { ordered, nearest } => format!(
            "The order is for {}, a quantity that was not quoted; the nearest is {}.",
            parts(*ordered),
            form.count(f64::from(*nearest))
        ),
        Difference::Quantity {
            ordered,
            on_sheet: Some(on_sheet),
        } => format!(
            "The order is for {}, the sheet for {}.",
            parts(*ordered),
            form.count(f64::from(*on_sheet))
        ),
        Difference::Quantity {
            ordered,
            on_sheet: None,
        } => format!(
            "The order is for {}, the sheet has no quantity.",
            parts(*ordered)
        ),
        Difference::Price { ordered, quoted } => {
            format!(
                "The order pays {} each, {} was quoted.",
                form.amount(*ordered),
                form.amount(*quoted)
            )
        }
        Difference::Currency { ordered, quoted } => {
            format!("The order pays in {ordered}, and {quoted} were quoted.")
        }
        Difference::Revision {
            of,
            ordered,
            quoted,
            on_sheet,
        } => {
            let other = match (quoted, on_sheet) {
                (Some(quoted), Some(on_sheet)) if quoted.eq_ignore_ascii_case(on_sheet) => {
                    format!("quotation and sheet have {}", or_none(quoted))
                }
                (Some(quoted), Some(on_sheet)) => format!(
                    "the quotation has {}, the sheet {}",
                    or_none(quoted),
                    or_none(on_sheet)
                ),
                (Some(quoted), None) => format!("the quotation has {}", or_none(quoted)),
                (None, on_sheet) => format!(
                    "the sheet has {}",
                    or_none(on_sheet.as_deref().unwrap_or_default())
                ),
            };
            format!("The order is for {} {ordered}; {other}.", revised(*of))
        }
        Difference::RevisedSince {
            of,
            quoted,
            on_sheet,
        } => format!(
            "The order names no {of} and answers a quotation with {}; the sheet has {}.",
            or_none(quoted),
            or_none(on_sheet),
            of = revised(*of)
        ),
        Difference::Due { ordered, on_sheet } => {
            format!(
                "The order is due on {}, the sheet says {}.",
                form.day(*ordered),
                form.day(*on_sheet)
            )
        }
        Difference::DueEarly {
            ordered,
            lead_days,
            earliest,
        } => format!(
            "The order is due on {}; the quoted lead time of {lead_days} working days ends on {} at the earliest.",
            form.day(*ordered),
            form.day(*earliest)
        ),
        Difference::Holes { changed } => {
            let changed: Vec<String> = changed.iter().map(hole_change).collect();
            format!(
                "The sheet has other holes than the quotation: {}.",
                changed.join("; ")
            )
        }
        Difference::Scope { changed } => {
            let changed: Vec<String> = changed.iter().map(field_change).collect();
            format!(
                "The sheet says something else than the quotation: {}.",
                changed.join("; ")
            )
        }
        Difference::Terms { named } => {
            format!("The order has terms of its own: {named}.")
        }
    }
}

/// What of a hole is another than was quoted.
#[must_use]
pub fn hole_change(change: &HoleChange) -> String {
    match change {
        HoleChange::Said {
            mark,
            column,
            was,
            is,
        } => {
            let head = Column::of_key(column)
                .map_or(column.as_str(), |column| english::column(column).head);
            let mark = marks::mark(mark);
            format!(
                "{mark}, {head}: quoted {}, now {}",
                or_none(was),
                or_none(is)
            )
        }
        HoleChange::New(mark) => format!("{} was not quoted", marks::mark(mark)),
        HoleChange::Gone(mark) => format!("{} was quoted and is gone", marks::mark(mark)),
    }
}

/// What of the sheet is another than was quoted.
#[must_use]
pub fn field_change(change: &FieldChange) -> String {
    let name =
        Field::of_key(&change.field).map_or(change.field.as_str(), |field| english::field(field));
    let one_line = |text: &str| or_none(text).replace('\n', "; ");
    format!(
        "{name}: quoted {}, now {}",
        one_line(&change.was),
        one_line(&change.is)
    )
}

fn or_none(text: &str) -> &str {
    if text.is_empty() { "none" } else { text }
}

fn parts(count: u32, form: Form) -> String {
    if count == 1 {
        "1 part".to_owned()
    } else {
        format!("{} parts", form.count(f64::from(count)))
    }
}

const fn revised(of: Revised) -> &'static str {
    match of {
        Revised::Part => "part revision",
        Revised::Drawing => "drawing revision",
    }
}

/// What a difference is about, as a word or two.
#[must_use]
pub const fn topic(topic: Topic) -> &'static str {
    match topic {
        Topic::Quotation => "quotation",
        Topic::Quantity => "quantity",
        Topic::Price => "price",
        Topic::Revision(of) => revised(of),
        Topic::Due => "due date",
        Topic::Holes => "holes",
        Topic::Scope => "what was quoted",
        Topic::Terms => "terms",
    }
}

/// Offer: bring the sheet into line with the order.
#[must_use]
pub fn put_on_sheet(text: &str) -> String {
    format!("put {text} on the sheet")
}

/// One sentence: a difference that somebody accepted.
#[must_use]
pub fn accepted(by: &str) -> String {
    format!("Accepted: {}.", by.trim_end_matches('.'))
}

/// One sentence: a difference that came after somebody had accepted others.
#[must_use]
pub fn not_accepted(by: &str) -> String {
    format!(
        "What was accepted before (\u{201c}{}\u{201d}) was something else.",
        by.trim_end_matches('.')
    )
}

/// An order without a price.
pub const ORDER_WITHOUT_PRICE: &str =
    "The order has no price each yet: type what it says. It is not confirmed without one.";

/// Parts go out while a non-conformance is open.
pub const DELIVERED_OPEN: &str =
    "Parts go out while this is open: close it, or say why they may, and who said so.";

/// What a line is pressed for that would settle a note.
#[must_use]
pub const fn settle(line: Line) -> &'static str {
    match line {
        Line::Accepted => "accept it",
        Line::Each => "type the price",
        Line::SendBecause => "say why",
        _ => "type it",
    }
}

/// The reason of a price that is kept from a paper.
pub(crate) fn kept_from(paper: &str) -> String {
    format!("kept from {paper}")
}

/// The reason of a price that is kept from an order, by the customer's number.
pub(crate) fn kept_from_order(number: &str) -> String {
    kept_from(&the_order(number))
}

/// Where a price comes from that no paper of ours gave.
pub(crate) fn by_the_order(number: &str) -> String {
    format!("by {}", the_order(number))
}

fn the_order(number: &str) -> String {
    const LETTERS: usize = 40;
    let number = marks::beginning(number, LETTERS);
    format!("the order {number}").trim_end().to_owned()
}

/// Where a price comes from, with the day where it is known.
pub(crate) fn on_day(from: &str, day: Option<NaiveDate>, form: Form) -> String {
    day.map_or_else(
        || from.to_owned(),
        |day| format!("{from}, {}", form.day(day)),
    )
}

/// A part of an order's words that can't be read, so that no job is made.
pub(crate) fn order_unread(line: Line, why: &str) -> String {
    let label = capital(slips::line_in(SlipKind::Order, line));
    format!("{label} of the order: {why} No job was made.")
}

/// That the price is to be the last one and there is none, so that no job is made.
pub(crate) fn no_last_price(word: &str) -> String {
    format!(
        "Price each of the order: the previous job has no price that \u{201c}{word}\u{201d} could mean, so \
         type it as a number such as 86.00. No job was made."
    )
}

/// Offer: let an earlier acceptance hold for what differs now, too.
pub const ACCEPT_TOO: &str = "accept this too";

/// One sentence: what an order pays against today's price.
#[must_use]
pub fn order_price(quantity: u32, pays: Decimal, today: Decimal, form: Form) -> String {
    let [pays, today] = [pays, today].map(|amount| form.amount(amount));
    let quantity = form.count(f64::from(quantity));
    format!("The order pays {pays} each; today's price at {quantity} is {today}.")
}

/// One sentence: an open hold point, and the notice that is owed.
#[must_use]
pub fn hold(hold: View<'_, kind::Hold>) -> String {
    let point = match hold.text(line::Point) {
        "" => "customer",
        point => point,
    };
    let notice = match (hold.get(line::NoticeDays), hold.text(line::Notified)) {
        (Some(1), "") => " The customer wants 1 day of notice, and none is on record.".to_owned(),
        (Some(days), "") if days > 0 => {
            format!(" The customer wants {days} days of notice, and none is on record.")
        }
        (_, "") => String::new(),
        (_, day) => format!(" Notice was given on {day}."),
    };
    format!("Work waits for the {point}: it is not released yet.{notice}")
}

/// A line of what the last run taught: something that went wrong in it.
#[must_use]
pub fn trouble(trouble: &str) -> String {
    format!("went wrong last time: {trouble}")
}

/// Why a paper that is printed without being issued isn't valid, by what is in its way.
#[must_use]
pub fn why_not(paper: Paper, in_the_way: &[Blocker]) -> String {
    because(not_issued(paper, in_the_way.is_empty()), in_the_way)
}

/// That a paper isn't issued, and whether nothing is in its way.
#[must_use]
pub const fn not_issued(paper: Paper, is_free: bool) -> &'static str {
    match paper {
        Paper::Traveler if is_free => "not released to the floor yet",
        Paper::Traveler => "not released",
        Paper::Quotation => "draft, not issued",
        _ => "not issued",
    }
}

/// A lead, in whatever language, with what is in the way: that is for the office alone.
#[must_use]
pub fn because(lead: &str, in_the_way: &[Blocker]) -> String {
    let said: Vec<String> = in_the_way.iter().map(blocker).collect();
    if said.is_empty() {
        lead.to_owned()
    } else {
        format!("{lead}: {}", said.join("; "))
    }
}

/// Half a sentence: what is in the way of the floor.
#[must_use]
pub fn blocker(blocker: &Blocker) -> String {
    match blocker {
        Blocker::StandsIn(of) => stands_in(of),
        Blocker::Stop => "a side note says stop".to_owned(),
        Blocker::SheetUnread => {
            "something on the sheet can't be read, and the figures are without it".to_owned()
        }
        Blocker::AmountsCurrency => {
            "amounts were typed when the shop had another currency: see the note beside them"
                .to_owned()
        }
        Blocker::OrderCurrency => {
            "the order pays in another currency than the sheet reckons in".to_owned()
        }
        Blocker::NoOrder => "the order is not here".to_owned(),
        Blocker::OrderDiffers { topics } => {
            let topics: Vec<&str> = topics.iter().map(|about| topic(*about)).collect();
            format!(
                "the order differs ({}), which is not accepted yet",
                topics.join(", ")
            )
        }
        Blocker::NoOrderPrice => "the order has no price each: type what it says".to_owned(),
        Blocker::Unanswered { checks } => unanswered(checks),
        Blocker::Unpriced => "there is no price yet".to_owned(),
        Blocker::NoExchange => {
            "currency, exchange rate or the day of that rate is missing".to_owned()
        }
        Blocker::NoParts => "the parts are not here".to_owned(),
        Blocker::NoBrokenTool => "no broken tool is on the sheet".to_owned(),
        Blocker::Missing { here, ordered } => {
            format!("{here} of {ordered} parts are here, and the order is not due in parts")
        }
        Blocker::MoreThanHere {
            parts,
            here,
            released,
        } => more_than_here(*parts, *here, *released),
        Blocker::OpenTrouble => {
            "a non-conformance of the previous job is open, and nobody said why to go on".to_owned()
        }
        Blocker::Undecided => {
            "a non-conformance is open: close it, or say on it why the parts may be delivered"
                .to_owned()
        }
        Blocker::NotInspected { marks } => format!(
            "no run record and no inspection says that holes {} are good",
            marks::list(marks.iter().map(String::as_str))
        ),
        Blocker::SameMarks { marks } => format!(
            "several rows have the mark {}: on the floor nobody could tell them apart",
            marks::list(marks.iter().map(String::as_str))
        ),
        Blocker::NothingToDeliver => "no delivery is on record".to_owned(),
        Blocker::Unread { lines } => unread(lines),
    }
}

fn more_than_here(lot: u32, here: u32, released: u32) -> String {
    let [lot, here] = [lot, here].map(|count| match count {
        1 => "1 part is".to_owned(),
        count => format!("{count} parts are"),
    });
    let of_them = match released {
        0 => "release those that are here by themselves".to_owned(),
        released => format!(
            "{released} of them on a traveler already: release the others by themselves, or withdraw that \
             traveler first"
        ),
    };
    format!("{lot} to be released, {here} here, {of_them}")
}

/// Lines of slips that can't be read: "price each of the order can't be read".
fn unread(lines: &[(SlipKind, Line)]) -> String {
    let named = |(kind, line): &(SlipKind, Line)| {
        format!(
            "{} of the {}",
            slips::line_in(*kind, *line),
            slips::kind(*kind)
        )
    };
    let named: Vec<String> = lines.iter().map(named).collect();
    format!("{} can't be read: correct it", named.join(" and "))
}

/// Checks without an answer, those that ask the same together.
fn unanswered(checks: &[(Concern, String)]) -> String {
    let said = Concern::ALL.iter().filter_map(|wanted| {
        let asks = checks.iter().filter(|(concern, _)| concern == wanted);
        let marks: Vec<&str> = asks.map(|(_, mark)| mark.as_str()).collect();
        let named = marks::list(marks.iter().copied());
        (!marks.is_empty()).then(|| format!("{} ({named})", answers::concern(*wanted)))
    });
    let said: Vec<String> = said.collect();
    format!("no answer yet to {}", said.join(", "))
}

/// One line: something that differs from the job before.
#[must_use]
pub fn changed(changed: &Changed) -> String {
    differs(changed, |was, is| match (was, is) {
        ("", is) => format!("now {is}"),
        (was, "") => format!("was {was}, now empty"),
        (was, is) => format!("{was} \u{2192} {is}"),
    })
}

/// One sentence: a traveler on the floor that is not of the sheet as it is now.
#[must_use]
pub fn traveler_outdated(number: &str, changes: &[Changed]) -> String {
    const SHOWN: usize = 6;
    const LETTERS: usize = 60;
    let short = |text: &str| marks::beginning(text, LETTERS);
    let shown = changes.iter().take(SHOWN);
    let mut said: Vec<String> = shown
        .map(|change| {
            differs(change, |was, is| match (short(was), short(is)) {
                (was, is) if was.is_empty() => format!("was empty, now {is}"),
                (was, is) if is.is_empty() => format!("was {was}, now empty"),
                (was, is) => format!("was {was}, now {is}"),
            })
        })
        .collect();
    let more = changes.len().saturating_sub(SHOWN);
    if more > 0 {
        said.push(format!("{more} more"));
    }
    format!(
        "Traveler {number} was released before these changes: {}. Release it again, or undo them.",
        said.join("; ")
    )
}

fn differs(changed: &Changed, arrow: impl Fn(&str, &str) -> String) -> String {
    let hole = |mark: &str| format!("hole {}", marks::mark(mark));
    match changed {
        Changed::Field(field, was, is) => {
            format!("{}: {}", names::field(*field), arrow(was, is))
        }
        Changed::Cell(mark, column, was, is) => format!(
            "{}, {}: {}",
            hole(mark),
            english::column(*column).head,
            arrow(was, is)
        ),
        Changed::NewRow(mark) => format!("{} is new", hole(mark)),
        Changed::RowGone(mark) => format!("{} is gone", hole(mark)),
        Changed::Places(mark) => format!("{}: the hole locations changed", hole(mark)),
        Changed::Overrule(figure, mark, was, is) => {
            format!("{}: {}", overruled(figure, &hole(mark)), arrow(was, is))
        }
        Changed::Answer(mark, concern) => format!(
            "{}: the answer to {} changed",
            hole(mark),
            answers::concern(*concern)
        ),
    }
}

/// An overruled figure, of a row by its hole.
fn overruled(figure: &FigureKey, hole: &str) -> String {
    match figure {
        FigureKey::Gap(_) => format!("gap of {hole}"),
        FigureKey::Feed(_) => format!("feed of {hole}"),
        FigureKey::HoleMinutes(_) => format!("minutes of {hole}"),
        FigureKey::Wear(_) => format!("wear of {hole}"),
        FigureKey::Electrodes(tube) => format!("electrodes of {tube}"),
        FigureKey::MachineHours => "machine hours".to_owned(),
        FigureKey::LaborHours => "labor hours".to_owned(),
        FigureKey::NotYetKnown => "not yet known".to_owned(),
        FigureKey::UnitPrice(quantity) => format!("price each at {quantity}"),
    }
}

/// A paper's name with its number.
#[must_use]
pub fn paper(paper: Paper, number: &str) -> String {
    format!("{} {number}", slips::paper(paper))
}

/// That parts go out that the run records don't tell of: each mark with the parts that it came out good on.
#[must_use]
pub(crate) fn records_behind(parts: u32, behind: &[(String, u64)], form: Form) -> String {
    let count = |parts: u64| form.count(parts as f64);
    let marks = behind.iter().map(|(mark, good)| {
        let mark = marks::mark(mark);
        format!("{mark} on {}", count(*good))
    });
    format!(
        "By the run records fewer parts came out good than {} out: {}. Record the rest, or see why they \
         are not there.",
        match parts {
            1 => "the one that goes".to_owned(),
            parts => format!("the {} that go", count(u64::from(parts))),
        },
        marks.collect::<Vec<_>>().join(", ")
    )
}
