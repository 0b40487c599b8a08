//! What was known of a shelf, kept between two starts in the user's cache folder.

use std::sync::Arc;

use serde::{Deserialize, Serialize};

use super::scan::ShelfLine;
use crate::file::FORMAT;

/// Raised whenever a summary says more than before: an older cache is thrown away.
const VERSION: u32 = 1;

#[derive(Deserialize)]
struct Cache {
    version: u32,
    /// The newest job format of the program that wrote it: what an older one couldn't read, this
    /// one perhaps can.
    format: u32,
    lines: Vec<Arc<ShelfLine>>,
}

#[derive(Serialize)]
struct CacheRef<'a> {
    version: u32,
    format: u32,
    lines: &'a [Arc<ShelfLine>],
}

/// The lines of a cache; none where it is of another version or damaged, since it is only a cache.
#[must_use]
pub fn read_cache(bytes: &[u8]) -> Vec<Arc<ShelfLine>> {
    match serde_json::from_slice::<Cache>(bytes) {
        Ok(cache) if (cache.version, cache.format) == (VERSION, FORMAT) => cache.lines,
        _ => Vec::new(),
    }
}

/// The bytes of a cache of these lines.
#[must_use]
pub fn write_cache(lines: &[Arc<ShelfLine>]) -> Vec<u8> {
    let cache = CacheRef {
        version: VERSION,
        format: FORMAT,
        lines,
    };
    // Plain data always can be written; if it ever couldn't, no cache is the same as an empty one.
    serde_json::to_vec(&cache).unwrap_or_default()
}
