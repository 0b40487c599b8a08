//! The clock, passed in: what day it is.

use std::fmt::Debug;

use chrono::{Local, NaiveDate};

/// Says what day it is.
pub trait Clock: Debug + Send + Sync {
    /// Today.
    fn today(&self) -> NaiveDate;
}

/// The machine's own clock.
#[derive(Clone, Copy, Debug, Default)]
pub struct SystemClock;

impl Clock for SystemClock {
    fn today(&self) -> NaiveDate {
        Local::now().date_naive()
    }
}

/// A clock that stands still.
#[derive(Clone, Copy, Debug)]
pub struct FixedClock(pub NaiveDate);

impl Clock for FixedClock {
    fn today(&self) -> NaiveDate {
        self.0
    }
}
