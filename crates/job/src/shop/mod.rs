//! The shop: its name and texts, what it has and what it knows, each row with its pedigree.
//!
//! The project's assets describe an invented shop; a shop's own file, in the same form, puts its
//! rows in their place.

mod bad_cards;
mod build;
mod calendar;
mod customer;
mod disk;
pub(crate) mod error;
mod goes_by;
mod load;
mod logo;
mod minor;
mod plain;
pub(crate) mod rows;
pub mod sheet;
mod start;
pub(crate) mod unfit;
pub(crate) mod unknown;

pub use crate::ground::stands_in::{NotSaid, ShopSays, StandsIn};
pub use calendar::Calendar;
pub use customer::{Customer, Exchange};
pub use error::ShopError;
pub use goes_by::{Agreed, GoesBy, QuotedIn};
pub use logo::{LARGEST_LOGO_KIB, Logo, LogoError, LogoKind};
pub use minor::minor_digits;
pub use rows::{Identity, Pedigree, RateCard, Shop, Texts};
pub use unfit::{FigureNamed, Needed, RowUnfit};
pub use unknown::UnknownName;
