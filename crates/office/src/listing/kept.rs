//! The cache's file: the user's own, on this machine, never on the shelf.

use std::path::Path;
use std::sync::Arc;
use std::sync::mpsc::channel;
use std::time::Duration;

use crate::digest::Follower;
use crate::disk::{Disk, RealDisk};
use crate::shelf::{Shelf, folder};

/// How long the list waits for the shelf to say which one it is.
const PATIENCE: Duration = Duration::from_secs(1);

/// What an earlier start knew of the shelf; nothing where there is no cache of it that can be used. A
/// shelf that doesn't answer is taken for the one that it was: its jobs are listed, and the first look
/// finds out.
pub(super) fn read(cache: Option<&Path>, shelf: &Arc<dyn Shelf>) -> Follower {
    let (tell, told) = channel();
    let asked = Arc::clone(shelf);
    // A shelf that hangs holds this thread alone.
    std::thread::spawn(move || tell.send(asked.mark()));
    let known = cache.and_then(|cache| std::fs::read(cache).ok());
    let known = known.and_then(|bytes| Follower::from_cache(&bytes));
    let Some(known) = known else {
        return Follower::default();
    };
    match told.recv_timeout(PATIENCE) {
        Ok(Ok(Some(mark))) if !known.may_be_of(&mark) => Follower::default(),
        _ => known,
    }
}

/// Keeps what is known, readable for the user alone: it says what is in every job. Without a cache the
/// next start only reads more.
pub(super) fn keep(cache: &Path, follower: &mut Follower) {
    if let Some(folder) = cache.parent() {
        let _ = std::fs::create_dir_all(folder);
    }
    let disk: Arc<dyn Disk> = Arc::new(RealDisk::private());
    let _ = folder::write_whole(&disk, cache, &follower.to_cache());
}
