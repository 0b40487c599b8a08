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
pub use page::{Document, PrintedOn, Sheet, Sides};
pub use papers::blank::{BlankForm, blank};
pub use papers::quotation::quotation;
pub use papers::traveler::traveler;

use quillbore_job::Paper;

use papers::{certificate, confirmation, first_article, inspection, label, packing, receiving};

/// Sets a paper of one job, or of several where it is a quotation; the first job leads.
#[must_use]
pub fn document(paper: Paper, matters: &[Matter<'_>]) -> Document {
    let Some(first) = matters.first() else {
        return Document {
            sheet: Sheet::A4,
            pages: Vec::new(),
            is_cut: false,
        };
    };
    match paper {
        Paper::Quotation => quotation(matters),
        Paper::Confirmation => confirmation::confirmation(first),
        Paper::Receiving => receiving::receiving(first),
        Paper::Traveler => traveler(first),
        Paper::Inspection => inspection::inspection(first),
        Paper::FirstArticle => first_article::first_article(first),
        Paper::Certificate => certificate::certificate(first),
        Paper::Packing => packing::packing(first),
        Paper::Label => label::label(first),
    }
}
