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

use quillbore_job::{Language, Paper};

use papers::{
    certificate, confirmation, first_article, inspection, label, packing, receiving, tool_receipt,
};

/// Whether a paper is printed in the customer's language; the traveler is in the shop's own, since the floor
/// reads it.
#[must_use]
pub const fn is_in_customers_language(paper: Paper) -> bool {
    match paper {
        Paper::Quotation
        | Paper::Confirmation
        | Paper::Receiving
        | Paper::ToolReceipt
        | Paper::Inspection
        | Paper::FirstArticle
        | Paper::Certificate
        | Paper::Packing
        | Paper::Label => true,
        Paper::Traveler => false,
    }
}

/// The language of a paper for a customer of a language.
#[must_use]
pub const fn language_of(paper: Paper, customers: Language) -> Language {
    if is_in_customers_language(paper) {
        customers
    } else {
        Language::English
    }
}

/// Sets a paper of one job, or of several where it is a quotation; the first job leads.
#[must_use]
pub fn document(paper: Paper, matters: &[Matter<'_>]) -> Document {
    let Some(first) = matters.first() else {
        return quotation(matters);
    };
    let first = &first.told_in(language_of(paper, first.language));
    match paper {
        Paper::Quotation => quotation(matters),
        Paper::Confirmation => confirmation::confirmation(first),
        Paper::Receiving => receiving::receiving(first),
        Paper::ToolReceipt => tool_receipt::tool_receipt(first),
        Paper::Traveler => traveler(first),
        Paper::Inspection => inspection::inspection(first),
        Paper::FirstArticle => first_article::first_article(first),
        Paper::Certificate => certificate::certificate(first),
        Paper::Packing => packing::packing(first),
        Paper::Label => label::label(first),
    }
}

/// Sets the traveler of a job, in the shop's own language whatever the customer's is.
#[must_use]
pub fn traveler(matter: &Matter<'_>) -> Document {
    papers::traveler::traveler(&matter.told_in(Language::English))
}
