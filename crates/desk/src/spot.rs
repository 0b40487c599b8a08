//! A line that is typed on: of the sheet, or of a slip pinned to it.

use quillbore_job::results::Beside;
use quillbore_job::words::{english, slips};
use quillbore_job::{Edit, Entry, Field, FieldKind, Job, Line, Unit, Value};

use crate::words::{commands::SLIP, sheet::line_of, slips::slip};

/// A line that is typed on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Spot {
    /// A single line of the sheet.
    Field(Field),
    /// A line of a slip, by the slip's identity.
    Line(u32, Line),
}

impl Spot {
    /// How its text is read.
    #[must_use]
    pub const fn kind(self) -> FieldKind {
        match self {
            Self::Field(field) => field.kind(),
            Self::Line(_, line) => line.kind(),
        }
    }

    /// What tells it from every other line of the sheet.
    #[must_use]
    pub const fn key(self) -> (Option<u32>, &'static str) {
        match self {
            Self::Field(field) => (None, field.key()),
            Self::Line(slip, line) => (Some(slip), line.key()),
        }
    }

    /// Its label on the sheet.
    #[must_use]
    pub fn label(self, job: &Job) -> &'static str {
        match self {
            Self::Field(field) => english::field(field),
            Self::Line(id, line) => slips::line_of(job, id, line),
        }
    }

    /// Its name for readers of the screen: no two lines of a sheet have the same.
    #[must_use]
    pub fn name(self, job: &Job) -> String {
        match self {
            Self::Field(field) => english::field(field).to_owned(),
            Self::Line(id, _) => {
                let kind = job.slip(id).map_or(SLIP, |slip| slips::kind(slip.kind));
                line_of(self.label(job), &slip(kind, id))
            }
        }
    }

    /// What stands there.
    #[must_use]
    pub fn entry(self, job: &Job) -> &Entry<Value> {
        match self {
            Self::Field(field) => job.field(field),
            Self::Line(id, line) => job.slip(id).map_or(&Entry::EMPTY, |slip| slip.line(line)),
        }
    }

    /// The edit that puts a text there.
    #[must_use]
    pub const fn edit(self, text: String, unit: Unit) -> Edit {
        match self {
            Self::Field(field) => Edit::SetField { field, text, unit },
            Self::Line(slip, line) => Edit::SetLine {
                slip,
                line,
                text,
                unit,
            },
        }
    }

    /// Where side notes find it.
    #[must_use]
    pub const fn beside(self) -> Beside {
        match self {
            Self::Field(field) => Beside::Field(field),
            Self::Line(slip, line) => Beside::Slip(slip, Some(line)),
        }
    }
}
