//! What the window asks under its head, and the answers to choose among.

use crate::view::Next;

/// Asks for a file to open, and opens it.
pub const OPEN_FILE: (&str, &str) = ("open the file", "open it");

/// Asks for a file to save to, and saves it.
pub const SAVE_FILE: (&str, &str) = ("save as the file", "save it");

/// Asks for a folder to print into, and prints there.
pub const PRINT_FOLDER: (&str, &str) = ("print into the folder", "print there");

/// Asks for an order, and begins the job again for it.
pub const AGAIN: (&str, &str) = (
    "customer's PO: number; quantity; price each; revision",
    "create the reorder",
);

/// Asks which printer it is to be, and prints.
pub const PRINTER: (&str, &str) = ("printer, empty for the system's usual one", "print");

/// Asks for a file to attach, and attaches it.
pub const ATTACH: (&str, &str) = ("attach the file", "attach");

/// Asks for a file with holes, and reads it.
pub const HOLES: (&str, &str) = ("take holes from the file", "read it");

/// How far a file is that is being read.
#[must_use]
pub fn reading(name: &str, hundredths: u32) -> String {
    format!("Reading {name}: {hundredths} %")
}

/// Stops it.
pub const STOP: &str = "stop";

/// The key that does.
pub const ESC: &str = "Esc";

/// Which printers there are.
#[must_use]
pub fn printers(names: &[String]) -> String {
    match names {
        [] => "no printer is known to this machine".to_owned(),
        names => format!("there are: {}", names.join(", ")),
    }
}

/// Opens the desktop's own dialog.
pub const BROWSE: &str = "browse";

/// Leaves it.
pub const NOT_NOW: &str = "not now";

/// The answers where work is not saved: save, discard, stay.
pub const GUARD_ANSWERS: [&str; 3] = ["save and close", "discard the changes", "cancel"];

/// That another desk saved the job.
pub const CHANGED: &str = "Another desk saved this job meanwhile; nothing was overwritten.";

/// The answers where another desk saved the job: merge, a copy, stay.
pub const CHANGED_ANSWERS: [&str; 3] = ["merge", "save mine as a new job", NOT_NOW];

/// The answers where work was left behind: take it, throw it away, stay.
pub const LEFT_ANSWERS: [&str; 3] = ["restore", "discard", "ask again next time"];

/// Asks for the password of the shelf's server, and goes on.
pub const PASSWORD: (&str, &str) = ("password of the shelf's server", "go on");

/// That the password is tried.
pub const PASSWORD_GIVEN: &str = "The password is tried; it is kept until the window closes.";

/// That the shelf stays away.
pub const WITHOUT_PASSWORD: &str = "Without the password nothing is read from the shelf or saved to it; it is asked again when you come back to the window.";

/// Makes a folder the shelf.
pub const ADOPT: &str = "use it as the shelf";

/// The name of the line that finds a command.
pub const FIND_COMMAND: &str = "find a command";

/// How many words are not laid out, and how to come to them.
#[must_use]
pub fn more_commands(more: usize) -> String {
    format!("{more} more: type a part of the one you want")
}

/// That no command is called so.
pub const NO_COMMAND: &str = "no command has that in it";

/// That work is not saved.
#[must_use]
pub const fn not_saved(next: Next) -> &'static str {
    match next {
        Next::CloseJob => "This job is not saved.",
        Next::CloseWindow => "There is work on the desk that is not saved.",
    }
}

/// That what was typed of the shop is not saved.
pub const SHOP_NOT_SAVED: &str =
    "What was typed of the shop is not saved; it is lost when the window closes without it.";

/// That work of an earlier run was not saved.
#[must_use]
pub fn left(number: &str) -> String {
    let job = if number.is_empty() {
        "A new job"
    } else {
        number
    };
    format!("{job} was not saved when the program ended last.")
}

/// That nobody said whether a folder is a shelf.
#[must_use]
pub fn adopt(jobs: usize) -> String {
    let holds = match jobs {
        0 => "no job".to_owned(),
        1 => "1 job".to_owned(),
        jobs => format!("{jobs} jobs"),
    };
    format!(
        "This folder holds {holds}, but nobody said yet that it is a shelf: nothing is saved to it."
    )
}
