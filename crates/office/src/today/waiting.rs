//! One line of the day's list.

use chrono::NaiveDate;
use quillbore_job::drawer::Thing;

use super::group::Group;
use super::matter::Matter;
use super::spot::Spot;
use crate::digest::Price;
use crate::names::JobKey;

/// A line of the day's list.
#[derive(Clone, Debug, PartialEq)]
pub struct Waiting {
    /// What it is about, and the group that it stands in.
    pub matter: Matter,
    /// The day by which it is wanted: when parts are due, a call was promised, a quotation or a
    /// non-conformance was written.
    pub when: Option<NaiveDate>,
    /// The job's number; empty where it is no job's.
    pub number: String,
    /// Who asked.
    pub customer: String,
    /// Part number.
    pub part: String,
    /// Its revision.
    pub revision: String,
    /// What waits, in one sentence.
    pub says: String,
    /// What a part of the job costs, at which quantity.
    pub price: Option<Price>,
    /// Machine hours that the job still takes [h], where they are known.
    pub hours: Option<f64>,
    /// Days that it has waited by now: since parts were due, came or were ordered, since the call was
    /// promised, since the day of order, quotation or non-conformance; of parts that are only due, since
    /// the job was opened.
    pub age: Option<i64>,
    /// Where it is seen to.
    pub spot: Spot,
    /// The groups of what else waits in the same job, in the list's order.
    pub others: Vec<Group>,
    /// The day on which it stands in the list again, where it is put off.
    pub put_off: Option<NaiveDate>,
}

impl Waiting {
    /// The same, put off until a day.
    pub(super) fn put_off(self, until: NaiveDate) -> Self {
        Self {
            put_off: Some(until),
            ..self
        }
    }
}

/// An electrode or guide of which fewer lie in the drawer than are wanted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Short {
    /// Which of the two it is.
    pub thing: Thing,
    /// What it is called.
    pub name: String,
    /// How many lie there.
    pub here: u32,
    /// How many are wanted.
    pub wanted: u32,
    /// The job that wants them.
    pub job: Option<JobKey>,
}
