//! Every word of the papers that isn't the job's own: a second language is a second set of files.

pub mod agreed;
pub mod answers;
pub mod axes;
pub mod captions;
pub mod cautions;
pub mod certificate;
pub mod confirmation;
pub mod drawing;
pub mod frame;
pub mod heads;
pub mod hole;
pub mod inspection;
pub mod kinds;
pub mod label;
pub mod logo;
pub mod nonconformance;
pub mod opening;
pub mod order;
pub mod packing;
pub mod pdf;
pub mod phrases;
pub mod quotation;
pub mod receiving;
pub mod traveler;
pub mod unprintable;
pub mod who;
