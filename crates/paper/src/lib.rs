//! Page model, drawings and PDF of the papers: returns bytes, writes no file.

pub mod code;
pub mod drawing;
pub mod flow;
pub mod font;
pub mod form;
pub mod frame;
pub mod look;
pub mod matter;
pub mod page;
pub mod pdf;
pub mod quotation;
pub mod shown;
pub mod side;
pub mod sink;
pub mod symbol;
pub mod table;
pub mod traveler;
pub mod words;
pub mod wrap;

pub use matter::{Issuer, Matter, Remark};
pub use page::{Document, Sheet};
pub use quotation::quotation;
pub use traveler::traveler;

/// TEMPORARY
pub fn document(paper: quillbore_job::Paper, matters: &[Matter<'_>]) -> Document {
    match paper {
        quillbore_job::Paper::Quotation => quotation(&matters[0]),
        _ => traveler(&matters[0]),
    }
}
