//! Every word of the papers that isn't the job's own: what goes to a customer in each language's folder,
//! what stays in the shop beside them, in the shop's own English.

pub mod axes;
pub mod cautions;
pub mod characteristic;
pub mod counted;
pub mod customer;
pub mod drawing;
mod english;
mod german;
pub mod kinds;
pub mod logo;
pub mod nonconformance;
pub mod pdf;
pub mod traveler;
pub mod unprintable;

// Papers that stay in the shop take these by name.
pub use english::{answers, captions, heads, hole, inspection, opening, order, phrases};
