//! What is said of papers and files that are opened, printed or attached.

use quillbore_office::names::AttachmentName;
use quillbore_office::office::Attached;

/// Opens a file.
pub const OPEN: &str = "open";

/// Opens the folder that it lies in.
pub const OPEN_FOLDER: &str = "open folder";

/// Prints it.
pub const PRINT: &str = "print";

/// Writes a letter with it.
pub const MAIL: &str = "mail";

/// Before the files that lie beside a job.
pub const ATTACHED: &str = "attached";

/// Asks for a file to attach.
pub const ATTACH: &str = "attach a file";

/// That nothing is attached, and how it would be.
pub const NOTHING_ATTACHED: &str = "nothing yet: drop drawings, mail and photos on the window";

/// That a file was handed to what opens it.
#[must_use]
pub fn opened(path: &str) -> String {
    format!("Opened: {path}")
}

/// That a file could not be opened.
#[must_use]
pub fn not_opened(path: &str, why: &str) -> String {
    format!("Nothing on this machine opens it ({why}); it is here: {path}")
}

/// That a paper is on its way to the printer.
#[must_use]
pub fn printing(printer: &str) -> String {
    match printer {
        "" => "Printing \u{2026}".to_owned(),
        printer => format!("Printing on {printer} \u{2026}"),
    }
}

/// That a paper was given to the printer.
#[must_use]
pub fn printed_out(file: &str, said: &str) -> String {
    match said {
        "" => format!("Given to the printer: {file}"),
        said => format!("Given to the printer: {file} ({said})"),
    }
}

/// A word about a paper by its number, told from the same word about the others.
#[must_use]
pub fn of_paper(word: &str, number: &str) -> String {
    format!("{word} {number}")
}

/// Opens a file beside the job.
#[must_use]
pub fn open_beside(name: &AttachmentName) -> String {
    format!("open {name}")
}

/// Size and beginning of the hash of a file.
#[must_use]
pub fn beside(file: &Attached) -> String {
    let hash = file.hash.to_string();
    let short = hash.get(..8).unwrap_or_default();
    format!("{}, SHA-256 {short}\u{2026}", size(file.bytes))
}

/// The whole hash of a file.
#[must_use]
pub fn hash(file: &Attached) -> String {
    format!("SHA-256 {}", file.hash)
}

fn size(bytes: u64) -> String {
    match bytes {
        0..1_000 => format!("{bytes} bytes"),
        1_000..1_000_000 => format!("{} KB", bytes.div_ceil(1_000)),
        _ => format!("{:.1} MB", bytes as f64 / 1e6),
    }
}
