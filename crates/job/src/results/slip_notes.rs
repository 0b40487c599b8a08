//! What is to be said beside slips: differences of orders, hold points, run records, open trouble.

use quillbore_calc::JobFigures;
use quillbore_calc::finding::Level;

use super::kind::NoteKind;
use super::note::{Beside, SideNote};
use crate::edits::edit::Edit;
use crate::job::Job;
use crate::life;
use crate::life::order;
use crate::life::order::difference::{Difference, Revised};
use crate::pinned::paper::Paper;
use crate::pinned::slip::lists::{Line, kind, line};
use crate::pinned::slip::view::View;
use crate::results::remedy::Offer;
use crate::results::run_fault::RunFault;
use crate::typed::field::Field;
use crate::typed::form::Form;
use crate::words::{english, issued, life as words, run_notes};

/// Everything that is to be said beside slips.
pub(super) fn all(job: &Job, figures: &JobFigures, form: Form) -> Vec<SideNote> {
    let mut notes: Vec<SideNote> = differences(job, form).collect();
    notes.extend(without_price(job));
    notes.extend(order_prices(job, figures, form));
    notes.extend(holds(job));
    notes.extend(grown_tubes(job));
    notes.extend(delivered_open(job));
    notes.extend(more_than_ordered(job, form));
    notes.extend(withdrawals(job));
    notes
}

/// What differs between each order and quotation or sheet.
fn differences(job: &Job, form: Form) -> impl Iterator<Item = SideNote> {
    job.slips_of::<kind::Order>().flat_map(move |order| {
        let all = order::differences(job, order).into_iter();
        all.map(move |difference| {
            let accepted = order::is_accepted(order, &difference);
            let note = to_accept(
                order,
                NoteKind::OrderDiffers,
                None,
                accepted,
                words::difference(&difference, form),
            );
            note.offering(make_agree(job, &difference).filter(|_| !accepted))
        })
    })
}

/// A note about an order that somebody may accept, or did.
fn to_accept(
    order: View<'_, kind::Order>,
    kind: NoteKind,
    line: Option<Line>,
    accepted: bool,
    said: String,
) -> SideNote {
    let by = order.get(line::Accepted);
    let beside = Beside::Slip(order.id(), line);
    if accepted {
        let said = format!("{said} {}", words::accepted(by));
        return SideNote::new(Level::Note, kind, beside, said);
    }
    let said = if by.is_empty() {
        said
    } else {
        format!("{said} {}", words::not_accepted(by))
    };
    SideNote {
        settled_by: Some((order.id(), Line::Accepted)),
        ..SideNote::new(Level::Check, kind, beside, said)
    }
}

/// What brings the sheet into line with the order, where an edit can do so.
fn make_agree(job: &Job, difference: &Difference) -> Option<Offer> {
    let (field, text) = match difference {
        Difference::Revision {
            of,
            ordered,
            on_sheet: Some(_),
            ..
        } => {
            let field = match of {
                Revised::Part => Field::Revision,
                Revised::Drawing => Field::DrawingRevision,
            };
            (field, ordered.clone())
        }
        Difference::Quantity { ordered, .. } => (Field::Quantity, ordered.to_string()),
        Difference::Due { ordered, .. } => (Field::Due, ordered.to_string()),
        _ => return None,
    };
    Some(Offer {
        words: words::put_on_sheet(&text),
        edit: Edit::SetField {
            field,
            text,
            unit: job.unit,
        },
    })
}

/// Orders that don't say what they pay.
fn without_price(job: &Job) -> impl Iterator<Item = SideNote> {
    let silent = |order: &View<'_, kind::Order>| order.entry(line::Each).is_empty();
    job.slips_of::<kind::Order>().filter(silent).map(|order| {
        let beside = Beside::Slip(order.id(), Some(Line::Each));
        let said = words::ORDER_WITHOUT_PRICE.to_owned();
        SideNote {
            settled_by: Some((order.id(), Line::Each)),
            ..SideNote::new(Level::Check, NoteKind::OrderWithoutPrice, beside, said)
        }
    })
}

/// Orders that pay another price than today's, where neither a quotation nor a
/// confirmation of ours binds the shop.
fn order_prices(job: &Job, figures: &JobFigures, form: Form) -> impl Iterator<Item = SideNote> {
    let price = figures.price.as_ref();
    job.slips_of::<kind::Order>().filter_map(move |order| {
        let pays = order.get(line::Each)?;
        let quantity = order::quantity_of(job, order)?;
        let mut confirmed = job
            .standing(Paper::Confirmation)
            .filter(|paper| paper.is_trusted())
            .flat_map(|paper| &paper.lines);
        let bound = order::quoted_price(job, order).is_some()
            || confirmed.any(|line| line.quantity == quantity && line.each == Some(pays));
        // Where the sheet doesn't price this quantity, what is said of the price is said of the nearest.
        let price = price?;
        let breaks = price.breaks.iter();
        let near = breaks.min_by_key(|at| at.quantity.abs_diff(quantity))?;
        let today = near.each;
        // Prices in two currencies can't be held against each other.
        let is_other = order::pays_in(job, order).is_some_and(|pays| pays != price.currency);
        if bound || pays == today || is_other {
            return None;
        }
        let said = words::order_price(near.quantity, pays, today, form);
        let accepted = order::is_price_accepted(order);
        let kind = if pays < today {
            NoteKind::OrderBelowPrice
        } else {
            NoteKind::OrderAbovePrice
        };
        let note = to_accept(order, kind, Some(Line::Each), accepted, said);
        Some(note)
    })
}

/// Hold points that are not released yet.
fn holds(job: &Job) -> impl Iterator<Item = SideNote> {
    let open = |slip: &View<'_, kind::Hold>| slip.get(line::Freed).is_none();
    job.slips_of::<kind::Hold>().filter(open).map(|hold| {
        let beside = Beside::Slip(hold.id(), None);
        SideNote::new(Level::Check, NoteKind::HoldOpen, beside, words::hold(hold))
    })
}

/// Run records in which a tube grew.
fn grown_tubes(job: &Job) -> impl Iterator<Item = SideNote> {
    job.slips_of::<kind::Run>().filter_map(|run| {
        let before = run.get(line::TubeBefore)?.mm();
        let after = run.get(line::TubeAfter)?.mm();
        let beside = Beside::Slip(run.id(), Some(Line::TubeAfter));
        let said = english::tube_grew().to_owned();
        (after > before).then(|| SideNote::new(Level::Check, NoteKind::TubeGrew, beside, said))
    })
}

/// Withdrawals that withdraw nothing, and papers that stand again after one.
fn withdrawals(job: &Job) -> impl Iterator<Item = SideNote> {
    job.slips_of::<kind::Withdrawal>().filter_map(move |slip| {
        let Some(paper) = job.taken_back_by(slip) else {
            let beside = Beside::Slip(slip.id(), Some(Line::Paper));
            let said = issued::withdraws_nothing(slip.get(line::Paper));
            return Some(SideNote {
                settled_by: Some((slip.id(), Line::Paper)),
                ..SideNote::new(Level::Check, NoteKind::WithdrawsNothing, beside, said)
            });
        };
        let why = slip.get(line::StandsAgain);
        let beside = Beside::Slip(slip.id(), Some(Line::StandsAgain));
        let again = !why.is_empty() && job.stands(paper);
        again.then(|| {
            let said = issued::stands_again(&paper.number, why);
            SideNote::new(Level::Note, NoteKind::StandsAgain, beside, said)
        })
    })
}

/// Parts that went out together with those of which non-conformances say that they never will, where these
/// are more than were ordered; told at the newest non-conformance that counts any.
fn more_than_ordered(job: &Job, form: Form) -> Option<SideNote> {
    let not_sent = life::not_sent(job);
    let (settled, ordered) = (life::settled(job), life::ordered(job)?);
    if not_sent == 0 || settled <= ordered {
        return None;
    }
    let mut slips = job.slips_of::<kind::Nonconformance>();
    let newest = slips.rfind(|slip| slip.get(line::NotSent).is_some())?;
    let beside = Beside::Slip(newest.id(), Some(Line::NotSent));
    let said = run_notes::more_than_ordered(settled - not_sent, not_sent, ordered, form);
    let kind = NoteKind::Run(RunFault::MoreThanOrdered);
    Some(SideNote::new(Level::Check, kind, beside, said))
}

/// Non-conformances that are open while parts are on their way out.
fn delivered_open(job: &Job) -> impl Iterator<Item = SideNote> {
    let leaves = job.slips_of::<kind::Delivery>().next().is_some();
    let slips = job.slips_of::<kind::Nonconformance>();
    let open = slips.filter(move |slip| leaves && life::holds_delivery(*slip));
    open.map(|slip| {
        let beside = Beside::Slip(slip.id(), Some(Line::SendBecause));
        let said = words::DELIVERED_OPEN.to_owned();
        SideNote {
            settled_by: Some((slip.id(), Line::SendBecause)),
            ..SideNote::new(Level::Check, NoteKind::DeliveredOpen, beside, said)
        }
    })
}
