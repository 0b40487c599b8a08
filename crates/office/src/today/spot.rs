//! Where a matter is seen to.

use quillbore_job::drawer::Thing;
use quillbore_job::{Field, Line, Paper, SlipKind};

/// The place in a job, or beside it, where a matter is seen to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Spot {
    /// A field of the sheet.
    Field(Field),
    /// A line of a slip.
    Line {
        /// The slip's identity in the job.
        slip: u32,
        /// The line.
        line: Line,
    },
    /// Where the next slip of a kind is pinned.
    NewSlip(SlipKind),
    /// Where a paper of a kind is issued.
    Issue(Paper),
    /// The entry of an issued paper.
    Issued {
        /// The paper's number.
        number: String,
    },
    /// The shop's drawer of electrodes and guides.
    Drawer {
        /// Which of the two it is.
        thing: Thing,
        /// The electrode or guide.
        name: String,
    },
    /// The job's file, which can't be opened.
    File,
}
