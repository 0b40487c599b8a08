//! What is said of this machine and who works on it.

use std::fmt;

use crate::failure::Failure;

/// What a desk is called whose user and machine have no name.
pub(crate) const ANOTHER_DESK: &str = "another desk";

/// What a desk is called by who works on which machine.
pub(crate) fn user_on(user: &str, machine: &str) -> String {
    format!("{user} on {machine}")
}

/// That nothing can be told apart from all others.
pub(crate) fn no_random(error: &impl fmt::Display) -> Failure {
    Failure::new(
        format!("The system gives no random numbers: {error}"),
        "have the machine looked at",
    )
}

/// That the user has no folder here, so that there is no shelf unless one is named.
pub(crate) fn no_usual_shelf() -> Failure {
    let variable = if cfg!(windows) { "APPDATA" } else { "HOME" };
    Failure::new(
        format!("There is no usual shelf, since {variable} names no folder of the user's own"),
        "name the folder of jobs with --shelf DIR",
    )
}

/// That this program knows no servers.
#[cfg(not(feature = "server"))]
pub(crate) fn no_servers() -> Failure {
    Failure::new(
        "This program was built without shelves on servers",
        "name a folder, or use a program that was built with the feature server",
    )
}
