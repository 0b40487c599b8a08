//! Page model, drawings and PDF of the papers: returns bytes, writes no file.

mod answered;
pub mod axes;
pub mod certificate;
pub mod code;
pub mod confirmation;
pub mod drawing;
pub mod flow;
pub mod font;
pub mod form;
pub mod frame;
pub mod glyphs;
pub mod inspection;
pub mod label;
pub mod look;
pub mod matter;
mod nonconformance;
mod opening;
mod ordered;
pub mod packing;
pub mod page;
pub mod pdf;
pub mod quotation;
pub mod receiving;
mod remark;
pub mod shown;
pub mod side;
pub mod sink;
pub mod symbol;
pub mod table;
pub mod traveler;
pub mod words;
pub mod wrap;

pub use matter::{Issuer, Matter};
pub use page::{Document, Sheet};
pub use quotation::quotation;
pub use remark::Remark;
pub use traveler::traveler;

use quillbore_job::Paper;

/// Sets a paper of one job, or of several where it is a quotation; the first job leads.
#[must_use]
pub fn document(paper: Paper, matters: &[Matter<'_>]) -> Document {
    let Some(first) = matters.first() else {
        return Document {
            sheet: Sheet::A4,
            pages: Vec::new(),
        };
    };
    match paper {
        Paper::Quotation => quotation(matters),
        Paper::Confirmation => confirmation::confirmation(first),
        Paper::Receiving => receiving::receiving(first),
        Paper::Traveler => traveler(first),
        Paper::Inspection => inspection::inspection(first),
        Paper::Certificate => certificate::certificate(first),
        Paper::Packing => packing::packing(first),
        Paper::Label => label::label(first),
    }
}
