//! Every word of the papers that isn't the job's own: a second language is a second set of files.

pub mod answers;
pub mod cautions;
pub mod life;
pub mod order;
pub mod quotation;
pub mod traveler;
