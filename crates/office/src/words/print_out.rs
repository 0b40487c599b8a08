//! What is said of the print command.

use std::io;

use crate::failure::Failure;

/// That the print command can't be run.
pub(crate) fn no_command(program: &str, error: &io::Error) -> Failure {
    let why = match error.kind() {
        io::ErrorKind::NotFound => "is not on this machine".to_owned(),
        _ => format!("can't be run ({error})"),
    };
    Failure::new(
        format!("The print command {program} {why}, so nothing was printed"),
        "name another in the settings, install the printing system's client (CUPS), or open the paper and print it there",
    )
}

/// That the print command refused.
pub(crate) fn refused(program: &str, why: &str) -> Failure {
    let why = if why.is_empty() {
        "it gave no reason"
    } else {
        why
    };
    Failure::new(
        format!("The print command {program} did not take the paper: {why}"),
        "look at the printer, or name another in the settings",
    )
}
