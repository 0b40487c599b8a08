//! Every word of the papers that isn't the job's own: a second language is a second set of files.

pub mod answers;
pub mod axes;
pub mod cautions;
pub mod inspection;
pub mod kinds;
pub mod lessons;
pub mod life;
pub mod lifting;
pub mod of_order;
pub mod order;
pub mod quotation;
pub mod record;
pub mod traveler;
pub mod unprintable;
