//! What is told of ends and angles that remarks speak of.

use super::report::shortened;
use super::{count, in_quotes};
use crate::summary::FromNotes;

/// A row's mark and its remarks, which sentences begin with and quote.
#[derive(Clone, Copy)]
pub(crate) struct Of<'a> {
    pub(crate) mark: &'a str,
    pub(crate) note: &'a str,
}

impl Of<'_> {
    fn row(&self) -> String {
        match self.mark {
            "" => String::new(),
            mark => format!("{}: ", shortened(mark)),
        }
    }

    fn quoted(&self) -> String {
        in_quotes(&shortened(self.note))
    }

    /// An end was read.
    pub(crate) fn end_read(&self, end: &str) -> String {
        format!(
            "{}end {end}, read from the note {}",
            self.row(),
            self.quoted()
        )
    }

    /// An angle was read.
    pub(crate) fn angle_read(&self, angle: &str) -> String {
        format!(
            "{}angle {angle}, read from the note {}",
            self.row(),
            self.quoted()
        )
    }

    /// A remark speaks of an end, and what it says is not sure.
    pub(crate) fn end_in_doubt(&self) -> String {
        format!(
            "{}the note {} speaks of where the hole ends: say the end",
            self.row(),
            self.quoted()
        )
    }

    /// A remark speaks of an angle, and what it says is not sure.
    pub(crate) fn angle_in_doubt(&self) -> String {
        format!(
            "{}the note {} speaks of an angle: say the angle",
            self.row(),
            self.quoted()
        )
    }

    /// A remark says another end than its line.
    pub(crate) fn end_stands(&self, end: &str, there: &str) -> String {
        format!(
            "{}the note {} says {end}, the line itself {there}, which stands: see which is right",
            self.row(),
            self.quoted()
        )
    }

    /// A remark seems to say another end than its line.
    pub(crate) fn other_end_stands(&self, there: &str) -> String {
        format!(
            "{}the note {} speaks of where the hole ends, the line itself says {there}, which stands: see which is right",
            self.row(),
            self.quoted()
        )
    }

    /// A remark says another angle than its line.
    pub(crate) fn angle_stands(&self, angle: &str, there: &str) -> String {
        format!(
            "{}the note {} says {angle}, the line itself {there}, which stands: see which is right",
            self.row(),
            self.quoted()
        )
    }

    /// A remark says an end, and the table lies over rows with ends of their own.
    pub(crate) fn not_over_ends(&self, end: &str) -> String {
        format!(
            "{}the note {} says {end}, which was not taken over rows that have ends: say the end",
            self.row(),
            self.quoted()
        )
    }

    /// A remark says an angle, and the table lies over rows with angles of their own.
    pub(crate) fn not_over_angles(&self, angle: &str) -> String {
        format!(
            "{}the note {} says {angle}, which was not taken over rows that have angles: say the angle",
            self.row(),
            self.quoted()
        )
    }
}

/// How much was read from remarks; nothing where that is none.
pub(crate) fn read(found: FromNotes) -> Option<String> {
    let ends = (found.ends > 0).then(|| count(found.ends as u64, "end", "ends"));
    let angles = (found.angles > 0).then(|| count(found.angles as u64, "angle", "angles"));
    let read: Vec<String> = ends.into_iter().chain(angles).collect();
    (!read.is_empty()).then(|| format!("{} read from the notes", read.join(" and ")))
}

/// What is told of the whole table: how much was read, and how much is in doubt.
pub(crate) fn of_the_whole(found: FromNotes) -> Option<String> {
    let doubt = match found.in_doubt {
        0 => None,
        1 => Some("the note of 1 line speaks of an end or angle that was not read".to_owned()),
        lines => Some(format!(
            "the notes of {lines} lines speak of ends or angles that were not read"
        )),
    };
    let told: Vec<String> = read(found).into_iter().chain(doubt).collect();
    let mut told = told.join("; ");
    let first = told.get(..1)?.to_uppercase();
    told.replace_range(..1, &first);
    Some(format!("{told}: see those lines."))
}
