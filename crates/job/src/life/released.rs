//! What changed on the sheet while a traveler is on the floor.

use std::collections::BTreeSet;

use quillbore_calc::RowId;

use crate::job::{Issued, Job};
use crate::life::changed::{Changed, differing};
use crate::pinned::answer::Answer;
use crate::pinned::paper::Paper;
use crate::pinned::slip::lists::{Has, TypedLine, kind, line};
use crate::typed::entry::Entry;
use crate::typed::field::Field;
use crate::typed::overrule::FigureKey;
use crate::typed::row::Row;

/// Standing travelers that were released of another sheet than the one that is there now, by number,
/// with what differs of all that their readers work from.
///
/// One is told until a newer traveler stands: then it is that one that is told, where it differs
/// itself, and with it only those that were released of the same sheet, for other parts of the order.
/// An entry that doesn't fit its seal is told as such, not here.
#[must_use]
pub fn changed_since_release(job: &Job) -> Vec<(String, Vec<Changed>)> {
    let standing = job.standing(Paper::Traveler);
    let travelers: Vec<(&Issued, &Job)> = standing
        .filter_map(|paper| Some((paper, paper.inputs.as_deref()?)))
        .collect();
    let Some((_, newest)) = travelers.last() else {
        return Vec::new();
    };
    let found = changed(newest, job);
    if found.is_empty() {
        return Vec::new();
    }
    let of_the_same = travelers
        .iter()
        .filter(|(_, sheet)| changed(sheet, newest).is_empty());
    of_the_same
        .filter(|(paper, _)| paper.is_trusted())
        .map(|(paper, _)| (paper.number.clone(), found.clone()))
        .collect()
}

/// What differs between two sheets of all that the reader of a traveler works from; the orders are
/// those of `now`.
fn changed(then: &Job, now: &Job) -> Vec<Changed> {
    // Every column of the hole table is the drawing's or the plan's: all of them reach the floor.
    let mut found = differing(then, now, |field| reaches_floor(now, field));
    found.extend(overrules(then, now));
    found.extend(answers(then, now));
    found
}

/// Whether the reader of a traveler works from a field.
fn reaches_floor(job: &Job, field: Field) -> bool {
    match field {
        // Which parts these are.
        Field::Customer | Field::Part | Field::PartName | Field::Drawing => true,
        // Travelers follow the order; the sheet's stands on them only where that is silent.
        Field::Revision => is_silent::<kind::Order, _>(job, line::Revision),
        Field::DrawingRevision => is_silent::<kind::Order, _>(job, line::DrawingRevision),
        Field::Due => {
            is_silent::<kind::Order, _>(job, line::Due)
                && is_silent::<kind::Release, _>(job, line::Due)
        }
        // What electrodes, kit and minutes of the lot were worked out for.
        Field::Quantity => true,
        // What is drilled.
        Field::Material
        | Field::Condition
        | Field::Hardness
        | Field::Coating
        | Field::Resistivity
        | Field::SizeX
        | Field::SizeY
        | Field::SizeZ
        | Field::Mass
        | Field::Thickness
        | Field::DefaultTolerance => true,
        Field::AngleBasis => {
            let has_angle = |row: &Row| !row.angle.is_empty() || !row.exit.is_empty();
            job.rows.iter().any(|row| has_angle(row))
        }
        // How careful the floor is, and what there is to try it on: the STOP box says it.
        Field::PartValue | Field::LiabilityCap | Field::Spares => true,
        // What the floor waits for, asks, clamps by, measures and reads first.
        Field::HoldPoints
        | Field::AskBefore
        | Field::Datums
        | Field::FacesNotToClamp
        | Field::RecastLimit
        | Field::Notes
        | Field::Lessons => true,
        // The plan.
        Field::Machine
        | Field::IndexAbout
        | Field::Fixture
        | Field::RestsOn
        | Field::FlushPressure
        | Field::Masking
        | Field::MaskingMinutes
        | Field::Program
        | Field::Settings
        | Field::SetupText
        | Field::BackingText
        | Field::FirstPiece
        | Field::StopIf
        | Field::After
        | Field::Inspection => true,
        // An operation between two of ours, whatever it costs.
        Field::OutsideText | Field::OutsideDays => true,
        // Whom the office talks to, how papers reach them, and its reminders.
        Field::Contact
        | Field::ComesIn
        | Field::CustomerAddress
        | Field::OurNumber
        | Field::Language
        | Field::CustomerReference
        | Field::LaidAside
        | Field::FollowUp => false,
        // Only points back; what was learned there stands on this sheet.
        Field::Again => false,
        // Prices, costs and terms.
        Field::Breaks
        | Field::Margin
        | Field::AgreedMachineHour
        | Field::AgreedLaborHour
        | Field::Currency
        | Field::ExchangeRate
        | Field::ExchangeDay
        | Field::AmountsIn
        | Field::ValuesIn
        | Field::Payment
        | Field::Delivery
        | Field::Clauses
        | Field::FixtureCost
        | Field::TestPieceCost
        | Field::OutsideCost
        | Field::OutsidePerPart
        | Field::LeadDays
        | Field::ValidDays
        | Field::Exclusions => false,
    }
}

/// Whether no slip of a kind says anything in a line.
fn is_silent<K: Has<L>, L: TypedLine>(job: &Job, line: L) -> bool {
    let mut slips = job.slips_of::<K>();
    slips.all(|slip| slip.text(line).is_empty())
}

/// The row that an overruled figure is of, or that it is of none; `None` where the floor doesn't work
/// from it.
const fn floors(figure: &FigureKey) -> Option<Option<RowId>> {
    match figure {
        // What machine, electrode and kit are set by.
        FigureKey::Gap(row)
        | FigureKey::Feed(row)
        | FigureKey::HoleMinutes(row)
        | FigureKey::Wear(row) => Some(Some(*row)),
        FigureKey::Electrodes(_) => Some(None),
        // What the lot costs and when it is done: nothing is set by it.
        FigureKey::MachineHours
        | FigureKey::LaborHours
        | FigureKey::NotYetKnown
        | FigureKey::UnitPrice(_) => None,
    }
}

fn overrules(then: &Job, now: &Job) -> Vec<Changed> {
    let value = |job: &Job, figure: &FigureKey| -> Entry<f64> {
        let found = job.overrule(figure);
        found.map_or(Entry::EMPTY, |overrule| overrule.value.clone())
    };
    let all = now.overrules.iter().chain(&then.overrules);
    let figures: BTreeSet<&FigureKey> = all.map(|overrule| &overrule.figure).collect();
    let told = figures.into_iter().filter_map(|figure| {
        let row = floors(figure)?;
        let (was, is) = (value(then, figure), value(now, figure));
        let differs = was.value() != is.value() || was.text().trim() != is.text().trim();
        let mark = row.map_or_else(String::new, |row| mark(then, now, row));
        let text = |entry: &Entry<f64>| entry.text().trim().to_owned();
        differs.then(|| Changed::Overrule(figure.clone(), mark, text(&was), text(&is)))
    });
    told.collect()
}

fn answers(then: &Job, now: &Job) -> Vec<Changed> {
    // The floor reads what was agreed or accepted, and of what; not who noted it on which day.
    let same = |was: &Answer, is: &Answer| {
        (&was.facts, was.how, was.said.trim()) == (&is.facts, is.how, is.said.trim())
    };
    let all = now.answers.iter().chain(&then.answers);
    let asked: BTreeSet<_> = all.map(|answer| (answer.row, answer.concern)).collect();
    let told = asked.into_iter().filter_map(|(row, concern)| {
        let alike = match (then.answer(row, concern), now.answer(row, concern)) {
            (Some(was), Some(is)) => same(was, is),
            (None, None) => true,
            _ => false,
        };
        (!alike).then(|| Changed::Answer(mark(then, now, row), concern))
    });
    told.collect()
}

/// A row's mark as it is now, or as it was.
fn mark(then: &Job, now: &Job, row: RowId) -> String {
    let row = now.row(row).or_else(|| then.row(row));
    row.map_or_else(String::new, |row| row.mark.text().trim().to_owned())
}
