//! The papers, each a file or folder of its own that makes a document of a matter.

mod agreed;
pub mod blank;
pub mod certificate;
mod charged_once;
pub mod confirmation;
mod differences;
pub mod first_article;
pub mod inspection;
pub mod label;
pub mod packing;
pub mod quotation;
pub mod receiving;
mod sample;
mod scope;
mod settled;
pub mod tool_receipt;
pub mod traveler;
