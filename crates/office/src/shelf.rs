//! The shelf: jobs and the shop's data, with what lies beside them, shared by several desks.
//!
//! It knows bytes alone. Names are types and never paths; a document's version is the hash of its
//! content, in every form of the shelf; whatever is written goes through one [`Shelf::commit`],
//! which compares the versions that somebody rests on and writes under one lock. A form holds for
//! its calls what every form must hold; `tests/shelf_forms.rs` says what that is.

pub(crate) mod changes;
pub(crate) mod commit;
pub(crate) mod doc;
pub(crate) mod error;
pub mod folder;
mod form;
mod held;
pub mod loose;
pub(crate) mod mark;
pub mod memory;
#[cfg(feature = "server")]
pub mod server;

pub use changes::{Changes, Cursor, Unusable, Why};
pub use commit::{Attachment, Commit, CommitError, Committed, Write};
pub use doc::{Doc, Stored, Version};
pub use error::{ShelfError, Step};
pub use folder::Folder;
pub use form::{CopyPlace, Shelf, Wake, Watch};
pub use held::Held;
pub use loose::Loose;
pub use mark::Mark;
pub use memory::Memory;
