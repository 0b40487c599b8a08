//! In which part two jobs differ, so that a refusal can say it.

use quillbore_job::{Field, Job};

/// The first part in which two jobs differ.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Differs {
    /// The number of the job.
    Number,
    /// The day that it was opened.
    Opened,
    /// The unit that it is typed in.
    Unit,
    /// A line of the sheet.
    Field(Field),
    /// A row of the hole table, from 0.
    Row(usize),
    /// Figures that were overruled.
    Overrules,
    /// Answers to checks.
    Answers,
    /// A slip, by its place among them.
    Slip(usize),
    /// An issued paper, by its place among them.
    Issued(usize),
    /// Reports on tables from elsewhere.
    Reports,
    /// The identities that come next.
    Identities,
}

/// The first part in which two jobs differ; `None` where they don't.
#[must_use]
pub fn differs(one: &Job, other: &Job) -> Option<Differs> {
    if one.number != other.number {
        return Some(Differs::Number);
    }
    if one.opened != other.opened {
        return Some(Differs::Opened);
    }
    if one.unit != other.unit {
        return Some(Differs::Unit);
    }
    let fields = || {
        let mut fields = Field::ALL.iter();
        fields.find(|field| one.field(**field) != other.field(**field))
    };
    if let Some(field) = fields() {
        return Some(Differs::Field(*field));
    }
    if let Some(row) = place(&one.rows, &other.rows) {
        return Some(Differs::Row(row));
    }
    if one.overrules != other.overrules {
        return Some(Differs::Overrules);
    }
    if one.answers != other.answers {
        return Some(Differs::Answers);
    }
    if let Some(slip) = place(&one.slips, &other.slips) {
        return Some(Differs::Slip(slip));
    }
    if let Some(issued) = place(&one.issued, &other.issued) {
        return Some(Differs::Issued(issued));
    }
    if one.reports != other.reports {
        return Some(Differs::Reports);
    }
    (one != other).then_some(Differs::Identities)
}

/// The first place in which two lists differ.
fn place<T: PartialEq>(one: &[T], other: &[T]) -> Option<usize> {
    let both = one.iter().zip(other);
    let differs = both.enumerate().find(|(_, (one, other))| one != other);
    let longer = || (one.len() != other.len()).then(|| one.len().min(other.len()));
    differs.map(|(at, _)| at).or_else(longer)
}
