//! From the command line to the exit code.

use std::ffi::OsString;
use std::io::BufWriter;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::process::ExitCode;
use std::sync::Arc;

use quillbore_office::Failure;
use quillbore_office::clock::{Clock, SystemClock};
use quillbore_office::commands::{self, Asked, Ended};

use crate::fault;
use crate::window::Named;

/// What could not be done.
const NOT_DONE: u8 = 2;

/// Runs the program.
#[must_use]
pub fn run(words: &[OsString]) -> ExitCode {
    fault::tell_plainly();
    let ended = catch_unwind(AssertUnwindSafe(|| done(words, Arc::new(SystemClock))));
    match ended {
        Ok(Ok(Ended::Done)) => ExitCode::SUCCESS,
        Ok(Ok(Ended::DoneWithStop)) => ExitCode::from(1),
        Ok(Err(failure)) => {
            commands::tell_failure(&mut std::io::stderr(), &failure);
            ExitCode::from(NOT_DONE)
        }
        // What it was is told already.
        Err(_) => ExitCode::from(NOT_DONE),
    }
}

fn done(words: &[OsString], clock: Arc<dyn Clock>) -> Result<Ended, Failure> {
    match commands::read(words, clock.today())? {
        Asked::Window {
            job,
            shelf,
            shop,
            samples,
        } => {
            let named = Named {
                job: job.as_deref(),
                shelf: shelf.as_deref(),
                shop: shop.as_deref(),
                samples,
            };
            crate::window::open(named, clock)
        }
        asked => {
            // A job of many rows says many lines.
            let mut out = BufWriter::new(std::io::stdout());
            commands::run(&asked, &mut out, &mut std::io::stderr())
        }
    }
}
