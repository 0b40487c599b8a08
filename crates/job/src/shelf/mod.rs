//! The shelf: a folder of jobs, listed, searched and numbered, shared by several desks.
//!
//! A job's truth is its own file. What is known of many jobs at once is gathered from the files and
//! kept as a cache that can be thrown away at any time.

mod bits;
mod cache;
mod hold;
mod number;
mod scan;
mod search;
mod similar;
mod summary;

pub use cache::{read_cache, write_cache};
pub use hold::{Held, hold};
pub use number::{free_number, save_under_next_number};
pub use scan::{Scan, ShelfLine, Stamp, scan};
pub use search::Index;
pub use similar::{Alike, Wanted, similar};
pub use summary::{Price, Summary};
