//! What the desk says of its job.

use quillbore_job::words::{names, slips};
use quillbore_job::{Field, Paper};

/// What stands for the name of a desk that has none.
pub const ANOTHER_DESK: &str = "another desk";

/// What files of a job begin with that has no number yet.
pub const NEW_JOB_FILE: &str = "new-job";

/// The folder of previews of a job that stands nowhere.
pub const PAPERS_FOLDER: &str = "papers";

/// That nothing can be taken back while a merge is being saved.
pub const WAIT_FOR_MERGE: &str = "Wait until the merged job is saved.";

/// That the job is being saved.
pub const SAVING: &str = "Saving \u{2026}";

/// That the job was not saved.
#[must_use]
pub fn not_saved(why: &str) -> String {
    format!("Not saved: {why}")
}

/// That a paper is on its way.
#[must_use]
pub fn issuing(paper: Paper) -> String {
    format!("Issuing the {} \u{2026}", slips::paper(paper))
}

/// That a paper is on its way already.
#[must_use]
pub fn still_issuing(paper: Paper) -> String {
    format!(
        "The {} is still being issued: wait until that is told.",
        slips::paper(paper)
    )
}

/// That a paper was not issued, since the sheet went on while it waited.
#[must_use]
pub fn not_issued_as_pressed(paper: Paper) -> String {
    format!(
        "Not issued: the sheet was changed while the {} waited for the shelf. Look at it, then issue it.",
        slips::paper(paper)
    )
}

/// The name that a copy of a job is offered to be saved under.
#[must_use]
pub fn copy_name(job: &str) -> String {
    format!("{job}-copy.ron")
}

/// A message with its hint, as one sentence.
#[must_use]
pub fn with_hint(message: &str, hint: &str) -> String {
    format!("{}; {hint}", message.trim_end_matches('.'))
}

/// Where the stored file of an issued paper is, which nobody changed.
#[must_use]
pub fn reprint(place: &str) -> String {
    format!("As it was issued: {place}")
}

/// Where previews were printed to.
#[must_use]
pub fn printed(places: &[String]) -> String {
    format!("Printed: {}", places.join(", "))
}

/// That a job is for the only machine that there is.
#[must_use]
pub fn only_machine(name: &str) -> String {
    format!("Machine: {name}, the shop's only one.")
}

/// Which lines of the sheet go by what was agreed with the customer.
#[must_use]
pub fn taken_on(fields: &[Field]) -> String {
    let taken: Vec<&str> = fields.iter().map(|field| names::field(*field)).collect();
    format!("As agreed with the customer: {}.", taken.join(", "))
}

/// How it begins that run records could not be read.
pub(crate) const NO_RECORDS: &str = "The shelf's run records can't be read now";

/// That run records could not be read, so that figures go by those that are known.
#[must_use]
pub fn records_not_read(why: &str) -> String {
    format!("{NO_RECORDS}, and figures go without those not known yet: {why}.")
}
