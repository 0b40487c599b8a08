//! What can wait in a job.

use chrono::NaiveDate;
use quillbore_job::order::Difference;
use quillbore_job::{Line, SlipKind};
use serde::{Deserialize, Serialize};

use super::keyed;

/// Something that waits in a job.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum OpenMatter {
    /// A quotation that stands and that nobody answered.
    Quotation {
        /// Its number.
        number: String,
        /// The day on it.
        date: NaiveDate,
        /// When to ask what became of it, while nobody did.
        follow_up: Option<NaiveDate>,
    },
    /// An order differs from quotation or sheet, and nobody accepted that.
    OrderDiffers {
        /// The slip's identity in the job.
        slip: u32,
        /// The day of the order.
        date: Option<NaiveDate>,
        /// The first difference.
        what: Difference,
        /// How many more there are.
        more: usize,
    },
    /// A line on which something waits can't be read.
    Unread {
        /// The slip's identity in the job.
        slip: u32,
        /// What the slip is.
        #[serde(with = "keyed::slip_kind")]
        kind: SlipKind,
        /// Which line.
        #[serde(with = "keyed::line")]
        line: Line,
        /// What is typed there.
        typed: String,
    },
    /// No order names a day, and the sheet's due date can't be read.
    DueUnread {
        /// What is typed there.
        typed: String,
    },
    /// An order waits for parts.
    Parts {
        /// Parts here, without those of lots before it.
        here: u32,
        /// Parts that the lot needs.
        ordered: u32,
        /// The day on which they were ordered or called off.
        since: Option<NaiveDate>,
    },
    /// Parts are here, and no traveler is released for them.
    ToRelease {
        /// How many.
        parts: u32,
        /// The day on which the last of them came.
        since: Option<NaiveDate>,
    },
    /// Ordered parts are due and not delivered.
    Due {
        /// The day.
        day: NaiveDate,
        /// The order or call-off that names it, by its identity in the job; the sheet where it is none.
        slip: Option<u32>,
        /// Parts that are due by then and not delivered, where an order says how many.
        left: Option<u32>,
    },
    /// A non-conformance is not closed.
    Nonconformance {
        /// The slip's identity in the job.
        slip: u32,
        /// The day.
        date: Option<NaiveDate>,
        /// What is wrong.
        what: String,
    },
    /// The sheet is another one than a traveler was released with.
    SheetChanged {
        /// The traveler.
        traveler: String,
    },
    /// The entry of an issued paper doesn't fit its seal.
    EntryChanged {
        /// The paper.
        number: String,
    },
    /// Somebody is to be called again.
    Call {
        /// The slip's identity in the job.
        slip: u32,
        /// When.
        day: NaiveDate,
        /// Whom.
        who: String,
    },
}
