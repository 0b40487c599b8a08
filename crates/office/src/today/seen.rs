//! What waits in a job, as the day's list sees it on a day.

use chrono::NaiveDate;
use quillbore_job::{Field, Line, Paper, SlipKind};

use super::group::Group;
use super::spot::Spot;
use crate::digest::{OpenMatter, ShelfLine};
use crate::week::Week;

/// The group that a matter stands in on a day; none while its day has not come.
pub(super) fn group(open: &OpenMatter, today: NaiveDate, week: &Week) -> Option<Group> {
    Some(match open {
        OpenMatter::Due { day, .. } if *day < today => Group::Late,
        OpenMatter::Due { day, .. } if *day <= week.through => Group::DueThisWeek,
        OpenMatter::Call { day, .. } if *day <= today => Group::CallToday,
        OpenMatter::Due { .. } | OpenMatter::Call { .. } => return None,
        OpenMatter::Quotation { follow_up, .. } => match follow_up {
            Some(day) if *day <= today => Group::CallToday,
            _ => Group::NoAnswer,
        },
        OpenMatter::Unread { kind, .. } => match kind {
            SlipKind::Call => Group::CallToday,
            SlipKind::Received => Group::WaitingForParts,
            _ => Group::OrderDiffers,
        },
        OpenMatter::OrderDiffers { .. } | OpenMatter::DueUnread { .. } => Group::OrderDiffers,
        OpenMatter::ToRelease { .. } | OpenMatter::SheetChanged { .. } => Group::ToRelease,
        OpenMatter::Parts { .. } => Group::WaitingForParts,
        OpenMatter::Nonconformance { .. } => Group::Nonconformance,
        OpenMatter::EntryChanged { .. } => Group::CantRead,
    })
}

/// Which of the job's matters in a group it is.
pub(super) fn of(open: &OpenMatter) -> String {
    match open {
        OpenMatter::Quotation { number, .. } | OpenMatter::EntryChanged { number } => {
            number.clone()
        }
        OpenMatter::OrderDiffers { slip, .. }
        | OpenMatter::Nonconformance { slip, .. }
        | OpenMatter::Call { slip, .. } => format!("slip {slip}"),
        OpenMatter::Unread { slip, line, .. } => format!("slip {slip} {}", line.key()),
        OpenMatter::DueUnread { .. } => Field::Due.key().to_owned(),
        OpenMatter::Parts { .. } | OpenMatter::ToRelease { .. } => String::new(),
        OpenMatter::Due { day, .. } => day.to_string(),
        OpenMatter::SheetChanged { traveler } => traveler.clone(),
    }
}

/// The day by which it is wanted: its own, else when the job's parts are due.
pub(super) fn when(open: &OpenMatter, line: &ShelfLine, today: NaiveDate) -> Option<NaiveDate> {
    match open {
        OpenMatter::Due { day, .. } | OpenMatter::Call { day, .. } => Some(*day),
        OpenMatter::Quotation {
            date, follow_up, ..
        } => Some(follow_up.filter(|day| *day <= today).unwrap_or(*date)),
        OpenMatter::Nonconformance { date, .. } => *date,
        OpenMatter::EntryChanged { .. } => None,
        OpenMatter::OrderDiffers { .. }
        | OpenMatter::Unread { .. }
        | OpenMatter::DueUnread { .. }
        | OpenMatter::Parts { .. }
        | OpenMatter::ToRelease { .. }
        | OpenMatter::SheetChanged { .. } => line.due(),
    }
}

/// The day since which it waits.
pub(super) fn since(open: &OpenMatter, line: &ShelfLine, today: NaiveDate) -> Option<NaiveDate> {
    match open {
        OpenMatter::Due { day, .. } if *day >= today => line.opened(),
        OpenMatter::Due { day, .. } | OpenMatter::Call { day, .. } => Some(*day),
        OpenMatter::Quotation { date, .. } => Some(*date),
        OpenMatter::OrderDiffers { date, .. } | OpenMatter::Nonconformance { date, .. } => *date,
        OpenMatter::Parts { since, .. } | OpenMatter::ToRelease { since, .. } => *since,
        OpenMatter::Unread { .. }
        | OpenMatter::DueUnread { .. }
        | OpenMatter::SheetChanged { .. }
        | OpenMatter::EntryChanged { .. } => None,
    }
}

/// Where it is seen to.
pub(super) fn spot(open: &OpenMatter, today: NaiveDate) -> Spot {
    let line = |slip, line| Spot::Line { slip, line };
    match open {
        OpenMatter::Quotation {
            follow_up, number, ..
        } => match follow_up {
            Some(day) if *day <= today => Spot::Field(Field::FollowUp),
            _ => Spot::Issued {
                number: number.clone(),
            },
        },
        OpenMatter::OrderDiffers { slip, .. } => line(*slip, Line::Accepted),
        OpenMatter::Unread {
            slip, line: unread, ..
        } => line(*slip, *unread),
        OpenMatter::Parts { .. } => Spot::NewSlip(SlipKind::Received),
        OpenMatter::ToRelease { .. } | OpenMatter::SheetChanged { .. } => {
            Spot::Issue(Paper::Traveler)
        }
        OpenMatter::Due {
            slip: Some(slip), ..
        } => line(*slip, Line::Due),
        OpenMatter::Due { slip: None, .. } | OpenMatter::DueUnread { .. } => {
            Spot::Field(Field::Due)
        }
        OpenMatter::Nonconformance { slip, .. } => line(*slip, Line::Decision),
        OpenMatter::EntryChanged { number } => Spot::Issued {
            number: number.clone(),
        },
        OpenMatter::Call { slip, .. } => line(*slip, Line::CallAgain),
    }
}
