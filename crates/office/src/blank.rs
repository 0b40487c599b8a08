//! Blank forms of a job: made whenever the floor runs out of them, and never an issued paper.

use chrono::NaiveDate;
use quillbore_job::life::{Blocker, changed_since_release};
use quillbore_job::words::life;
use quillbore_job::{Job, Language, Paper, Shop};
use quillbore_paper::words::customer::Words;
use quillbore_paper::{BlankForm, Sheet, language_of};

use crate::failure::Failure;
use crate::print::{self, Printed, Sitting, Stamp};
use crate::words::blank as said;

/// Most blank pages of a form at once: a quarter of a ream.
pub const MOST_BLANK_PAGES: usize = 125;

/// Why the floor should not write on a form yet; none where a traveler of the job stands on whose sheet
/// the form rests.
#[must_use]
pub fn why_not(form: BlankForm, sitting: Sitting<'_>) -> Option<String> {
    why_not_in(Language::English, form, sitting)
}

/// The same as it stands on the pages of a form in a language.
fn why_not_in(language: Language, form: BlankForm, sitting: Sitting<'_>) -> Option<String> {
    if let Some(in_the_way) = in_the_way(sitting) {
        let frame = &Words::of(language).frame;
        let lead = (frame.not_issued)(Paper::Traveler, in_the_way.is_empty());
        return Some(life::because(lead, &in_the_way));
    }
    outdated(form, sitting.job).map(|traveler| said::outdated(&traveler))
}

/// What is in the way of the traveler that a form would go with; none where one stands.
#[must_use]
pub fn in_the_way(sitting: Sitting<'_>) -> Option<Vec<Blocker>> {
    let released = sitting.job.standing(Paper::Traveler).next().is_some();
    (!released).then(|| print::in_the_way(Paper::Traveler, sitting))
}

/// The traveler of another sheet than the one that the form would be made of. A run record says nothing
/// of the sheet but which part it is.
fn outdated(form: BlankForm, job: &Job) -> Option<String> {
    match form {
        BlankForm::RunRecord => None,
        BlankForm::Inspection => {
            let changed = changed_since_release(job).into_iter().next_back();
            changed.map(|(number, _)| number)
        }
    }
}

/// Blank pages of a form: so many, or as many as it needs.
///
/// # Errors
/// Where the job has no rows of holes, more pages are asked for than anybody writes on, or the PDF can't
/// be made.
pub fn print(
    form: BlankForm,
    pages: Option<usize>,
    sitting: Sitting<'_>,
    shop: &Shop,
    day: NaiveDate,
    sheet: Sheet,
) -> Result<Printed, Failure> {
    if sitting.job.rows.is_empty() {
        return Err(said::no_holes(form, &sitting.job.number));
    }
    if pages.is_some_and(|pages| !(1..=MOST_BLANK_PAGES).contains(&pages)) {
        return Err(said::pages(MOST_BLANK_PAGES));
    }
    let customers = sitting.job.language();
    let called = form.called(customers);
    let why_not = why_not_in(language_of(form.paper(), customers), form, sitting);
    let stamp = Stamp {
        why_not: why_not.as_deref(),
        ..Stamp::default()
    };
    let (document, unprintable) = print::laid_out(&[sitting], shop, day, sheet, stamp, |matters| {
        quillbore_paper::blank(form, &matters[0], pages)
    });
    let bytes = print::pdf_called(called, &document, sitting.job, shop, day)?;
    Ok(Printed {
        name: file_key(form),
        ending: "pdf",
        bytes,
        unprintable,
    })
}

/// What the file of a form is called by.
const fn file_key(form: BlankForm) -> &'static str {
    match form {
        BlankForm::RunRecord => "blank-run-record",
        BlankForm::Inspection => "blank-inspection",
    }
}
