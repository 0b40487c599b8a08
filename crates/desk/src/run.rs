//! From the command line to the exit code: the one place that reads the clock.

use std::process::ExitCode;

use chrono::{Local, NaiveDate};

use crate::commands::{self, Asked, Ended, Failure};

/// Runs the program.
#[must_use]
pub fn run(words: &[String]) -> ExitCode {
    match done(words, Local::now().date_naive()) {
        Ok(Ended::Done) => ExitCode::SUCCESS,
        Ok(Ended::DoneWithStop) => ExitCode::from(1),
        Err(failure) => {
            eprintln!("{failure}");
            ExitCode::from(2)
        }
    }
}

fn done(words: &[String], today: NaiveDate) -> Result<Ended, Failure> {
    match commands::read(words, today)? {
        Asked::Window { job, shelf, shop } => {
            crate::window::open(job.as_deref(), shelf.as_deref(), shop.as_deref(), today)
        }
        asked => commands::run(
            &asked,
            &mut std::io::stdout().lock(),
            &mut std::io::stderr().lock(),
        ),
    }
}
