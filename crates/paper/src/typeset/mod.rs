//! The setting of texts, forms and tables on pages; it knows nothing of jobs.

pub mod flow;
pub mod form;
pub mod look;
pub mod side;
pub mod table;
pub mod wrap;
