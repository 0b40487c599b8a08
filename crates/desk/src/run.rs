//! From the command line to the exit code.

use std::process::ExitCode;
use std::sync::Arc;

use quillbore_office::Failure;
use quillbore_office::clock::{Clock, SystemClock};
use quillbore_office::commands::{self, Asked, Ended};

/// Runs the program.
#[must_use]
pub fn run(words: &[String]) -> ExitCode {
    match done(words, Arc::new(SystemClock)) {
        Ok(Ended::Done) => ExitCode::SUCCESS,
        Ok(Ended::DoneWithStop) => ExitCode::from(1),
        Err(failure) => {
            eprintln!("{failure}");
            ExitCode::from(2)
        }
    }
}

fn done(words: &[String], clock: Arc<dyn Clock>) -> Result<Ended, Failure> {
    match commands::read(words, clock.today())? {
        Asked::Window { job, shelf, shop } => {
            crate::window::open(job.as_deref(), shelf.as_deref(), shop.as_deref(), clock)
        }
        asked => commands::run(
            &asked,
            &mut std::io::stdout().lock(),
            &mut std::io::stderr().lock(),
        ),
    }
}
