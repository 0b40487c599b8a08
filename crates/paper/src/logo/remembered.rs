//! The logo that was read last: a shop has one, and every paper and preview asks for it.

use std::sync::{Arc, Mutex};

use quillbore_job::file::Hash;

use super::DrawnLogo;
use super::fault::LogoFault;

type Read = Result<Arc<DrawnLogo>, LogoFault>;

/// What a logo with this hash was read as; `read` is asked where it is not the last one.
pub(super) fn of(hash: Hash, read: impl FnOnce() -> Result<DrawnLogo, LogoFault>) -> Read {
    static LAST: Mutex<Option<(Hash, Read)>> = Mutex::new(None);
    // A thread that panicked left either the one before or none.
    let mut last = LAST
        .lock()
        .unwrap_or_else(std::sync::PoisonError::into_inner);
    match &*last {
        Some((known, read)) if *known == hash => read.clone(),
        _ => {
            let read = read().map(Arc::new);
            *last = Some((hash, read.clone()));
            read
        }
    }
}
