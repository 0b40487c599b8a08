//! Blank forms of a job: further pages of its records, printed whenever the floor runs out of them.

use quillbore_job::{Language, Paper};

use crate::language_of;
use crate::letterhead::frame::Frame;
use crate::matter::Matter;
use crate::page::Document;
use crate::papers::{inspection, traveler};
use crate::typeset::flow::Flow;
use crate::words::customer::Words;
use crate::words::traveler::record as of_record;

/// A form that is written on by hand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BlankForm {
    /// Pages of the run record.
    RunRecord,
    /// Pages of the inspection record, piece by piece.
    Inspection,
}

impl BlankForm {
    /// All of them.
    pub const ALL: &'static [Self] = &[Self::RunRecord, Self::Inspection];

    /// What it is called in files and on the command line.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::RunRecord => "run-record",
            Self::Inspection => "inspection",
        }
    }

    /// The paper that its pages are further pages of.
    #[must_use]
    pub const fn paper(self) -> Paper {
        match self {
            Self::RunRecord => Paper::Traveler,
            Self::Inspection => Paper::Inspection,
        }
    }

    /// What it is called for a customer of a language.
    #[must_use]
    pub const fn called(self, customers: Language) -> &'static str {
        match self {
            Self::RunRecord => of_record::BLANK,
            Self::Inspection => {
                let language = language_of(self.paper(), customers);
                Words::of(language).blank.inspection
            }
        }
    }
}

/// Sets blank pages of a form: so many, or as many as the form needs to begin with; in the language of the
/// paper that they are further pages of.
///
/// Nothing that was typed of runs and inspections stands on them. Their code has the job and the
/// paper that they belong to, and no revision: they are no sheets of an issued paper.
#[must_use]
pub fn blank(form: BlankForm, matter: &Matter<'_>, pages: Option<usize>) -> Document {
    let matter = &matter.told_in(language_of(form.paper(), matter.language));
    let words = matter.words();
    let (flow, title) = match form {
        BlankForm::RunRecord => {
            let mut flow = Flow::new(matter.sheet);
            for _ in 0..pages.unwrap_or(1) {
                traveler::record::blank(matter, &mut flow);
            }
            (flow, of_record::NAME)
        }
        BlankForm::Inspection => (
            inspection::blank::laid_out(matter, pages),
            words.inspection.title,
        ),
    };
    // A blank form has no number of its own, whatever the paper has that it goes with.
    let matter = &Matter {
        number: None,
        ..*matter
    };
    let travelers = matter.job.standing(Paper::Traveler);
    let travelers: Vec<&str> = travelers.map(|issued| issued.number.as_str()).collect();
    let note = (words.blank.goes_with)(&travelers);
    let frame = Frame::of(matter, form.paper(), title, &note);
    flow.finish(|page, number, of| frame.write(page, matter.sheet, number, of))
}
