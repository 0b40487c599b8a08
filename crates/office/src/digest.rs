//! What is known of a shelf without opening its jobs: one digest of each job, gathered from the
//! documents as they change.
//!
//! A job's truth is its own document. A digest says what lists, searches, the day's work and later
//! learning need of it; all of them together are kept as a cache that can be thrown away at any time.

mod base;
mod bits;
mod cache;
mod calls;
mod due;
mod facts;
mod follow;
mod half_joint;
mod index;
mod joint;
mod keyed;
mod line;
mod matters;
mod named;
mod of_job;
#[cfg(feature = "server")]
mod on_server;
mod open;
mod phrases;
mod query;
mod similar;
mod sort;
mod summary;
mod text;
pub(crate) mod wants;

pub use follow::{Follower, Looked};
pub use half_joint::{HalfJoint, half_joint};
pub use index::Index;
pub use joint::Joint;
pub use line::ShelfLine;
pub use of_job::Digest;
#[cfg(feature = "server")]
pub use on_server::digester;
pub use open::OpenMatter;
pub use query::{Asking, Query};
pub use similar::{Alike, Wanted, similar};
pub use sort::{Sort, SortBy};
pub use summary::{Hours, Price, Summary};
