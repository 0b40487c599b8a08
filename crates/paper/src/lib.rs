//! Page model, drawings and PDF of the papers: returns bytes, writes no file.

pub mod code;
pub mod drawing;
pub mod letterhead;
pub mod logo;
pub mod matter;
pub mod page;
pub mod papers;
pub mod pdf;
pub mod shown;
pub mod typeset;
pub mod words;

pub use matter::{Issuer, Matter, Remark};
pub use page::{Document, Sheet};
pub use papers::quotation::quotation;

use quillbore_job::{Language, Paper};

use papers::{certificate, confirmation, inspection, label, packing, receiving};

/// Sets a paper of one job, or of several where it is a quotation; the first job leads.
#[must_use]
pub fn document(paper: Paper, matters: &[Matter<'_>]) -> Document {
    let Some(first) = matters.first() else {
        return Document {
            sheet: Sheet::A4,
            pages: Vec::new(),
            is_cut: false,
            language: Language::default(),
        };
    };
    match paper {
        Paper::Quotation => quotation(matters),
        Paper::Confirmation => confirmation::confirmation(first),
        Paper::Receiving => receiving::receiving(first),
        Paper::Traveler => traveler(first),
        // These have no words in other languages yet.
        Paper::Inspection => inspection::inspection(&first.told_in(Language::English)),
        Paper::Certificate => certificate::certificate(&first.told_in(Language::English)),
        Paper::Packing => packing::packing(first),
        Paper::Label => label::label(first),
    }
}

/// Sets the traveler of a job, in the shop's own language whatever the customer's is.
pub fn traveler(matter: &Matter<'_>) -> Document {
    papers::traveler::traveler(&matter.told_in(Language::English))
}
