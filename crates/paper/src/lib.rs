//! Page model, drawings and PDF of the papers: returns bytes, writes no file.

pub mod flow;
pub mod font;
pub mod form;
pub mod frame;
pub mod look;
pub mod page;
pub mod pdf;
pub mod sink;
pub mod symbol;
pub mod table;
pub mod wrap;
