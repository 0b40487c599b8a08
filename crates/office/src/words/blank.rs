//! What is said of blank forms.

use quillbore_job::Language;
use quillbore_paper::BlankForm;

use crate::failure::Failure;

/// What a form is called.
#[must_use]
pub const fn form(form: BlankForm) -> &'static str {
    form.called(Language::English)
}

/// That a form is of another sheet than the traveler on the floor.
pub(crate) fn outdated(traveler: &str) -> String {
    format!("the sheet was changed since traveler {traveler} was released")
}

/// That there is nothing that could be written on a form.
pub(crate) fn no_holes(of: BlankForm, job: &str) -> Failure {
    let job = match job.trim() {
        "" => "The job".to_owned(),
        job => format!("Job {job}"),
    };
    Failure::new(
        format!(
            "{job} has no rows of holes, so nothing could be written on a {}",
            form(of)
        ),
        "type or paste its holes first",
    )
}

/// How many pages can be asked for.
pub(crate) fn pages(most: usize) -> Failure {
    Failure::new(
        "The number of blank pages can't be that",
        format!("give a whole number from 1 to {most}"),
    )
}
