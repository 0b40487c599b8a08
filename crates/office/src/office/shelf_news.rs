//! Hears of what other desks save, where the shelf tells.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use crate::shelf::{Shelf, Watch};

/// Says whether another desk may have saved something.
#[derive(Debug)]
pub struct ShelfNews {
    is_news: Arc<AtomicBool>,
    /// The shelf tells as long as this is there.
    _watch: Watch,
}

impl ShelfNews {
    /// Listens to a shelf, and calls `wake` where there is news; `None` where the shelf doesn't tell.
    #[must_use]
    pub fn of(shelf: &dyn Shelf, wake: impl Fn() + Send + Sync + 'static) -> Option<Self> {
        let is_news = Arc::new(AtomicBool::new(false));
        let tells = Arc::clone(&is_news);
        let watch = shelf.watch(Arc::new(move || {
            tells.store(true, Ordering::Release);
            wake();
        }))?;
        Some(Self {
            is_news,
            _watch: watch,
        })
    }

    /// Whether there was news since this was asked last.
    #[must_use]
    pub fn take(&self) -> bool {
        self.is_news.swap(false, Ordering::Acquire)
    }
}
