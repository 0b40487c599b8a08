//! The cache's file: the user's own, on this machine, never on the shelf.

use std::io;
use std::path::Path;
use std::process;
use std::sync::atomic::{AtomicU32, Ordering};

use crate::digest::Follower;
use crate::disk::{Disk as _, RealDisk};

/// What an earlier start knew; nothing where there is no cache that can be used.
pub(super) fn read(cache: &Path) -> Follower {
    let bytes = std::fs::read(cache).ok();
    bytes
        .and_then(|bytes| Follower::from_cache(&bytes))
        .unwrap_or_default()
}

/// Keeps what is known; without a cache the next start only reads more.
pub(super) fn keep(cache: &Path, follower: &mut Follower) {
    let _ = write(cache, &follower.to_cache());
}

/// Writes it whole or not at all, readable for the user alone: it says what is in every job.
fn write(cache: &Path, bytes: &[u8]) -> io::Result<()> {
    static NEXT: AtomicU32 = AtomicU32::new(0);
    let disk = RealDisk::private();
    if let Some(folder) = cache.parent() {
        std::fs::create_dir_all(folder)?;
    }
    let name = cache.file_name().unwrap_or_default().to_string_lossy();
    // No other desk of this user writes to this one; what is left of an earlier write is of no use.
    let (desk, write) = (process::id(), NEXT.fetch_add(1, Ordering::Relaxed));
    let beside = cache.with_file_name(format!(".{name}.{desk}-{write}.new"));
    let _ = disk.remove(&beside);
    let written = disk.write_new(&beside, bytes);
    let renamed = written.and_then(|()| disk.rename(&beside, cache));
    renamed.inspect_err(|_| drop(disk.remove(&beside)))
}
