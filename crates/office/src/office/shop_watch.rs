//! The shop's sheet on the shelf watched by a thread, so that a window rests until another desk changes
//! it.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{RecvTimeoutError, Sender, channel};
use std::time::Duration;

use crate::shelf::{Doc, Shelf, Version};

/// What the sheet was like at the last look.
#[derive(PartialEq)]
enum Seen {
    Version(Option<Version>),
    /// The shelf can't be reached.
    Unreached,
}

/// Says whether the shop's sheet is another one than before.
#[derive(Debug)]
pub struct ShopWatch {
    changed: Arc<AtomicBool>,
    /// The thread ends once this is gone.
    _listens: Sender<()>,
}

impl ShopWatch {
    /// Looks at the sheet again and again on a thread, and calls `wake` where it changed.
    #[must_use]
    pub fn on_thread(
        shelf: Arc<dyn Shelf>,
        every: Duration,
        wake: impl Fn() + Send + 'static,
    ) -> Self {
        let (listens, ended) = channel();
        let changed = Arc::new(AtomicBool::new(false));
        let tells = Arc::clone(&changed);
        std::thread::spawn(move || {
            // The first look tells, too: whoever looks then misses nothing that happened before.
            let mut known = None;
            loop {
                let now = Some(seen(shelf.as_ref()));
                if now != known {
                    known = now;
                    tells.store(true, Ordering::Release);
                    wake();
                }
                if ended.recv_timeout(every) != Err(RecvTimeoutError::Timeout) {
                    return;
                }
            }
        });
        Self {
            changed,
            _listens: listens,
        }
    }

    /// Whether it changed since this was asked last.
    #[must_use]
    pub fn take_changed(&self) -> bool {
        self.changed.swap(false, Ordering::Acquire)
    }
}

fn seen(shelf: &dyn Shelf) -> Seen {
    match shelf.read(&Doc::Shop) {
        Ok(stored) => Seen::Version(stored.map(|stored| stored.version)),
        Err(_) => Seen::Unreached,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::disk::{Disk, RealDisk};
    use crate::shelf::Folder;

    #[test]
    fn a_changed_sheet_wakes_once_and_an_unchanged_one_never() {
        let folder = tempfile::tempdir().expect("a folder");
        let disk: Arc<dyn Disk> = Arc::new(RealDisk::default());
        let shelf = Arc::new(Folder::new(disk, folder.path(), None));
        let (woken, wakes) = channel();
        let watch = ShopWatch::on_thread(shelf, Duration::from_millis(10), move || {
            let _ = woken.send(());
        });
        let long = Duration::from_secs(60);
        let short = Duration::from_millis(200);
        wakes.recv_timeout(long).expect("woken by the first look");
        assert!(watch.take_changed());
        assert!(wakes.recv_timeout(short).is_err() && !watch.take_changed());
        for text in ["one", "two"] {
            std::fs::write(folder.path().join("shop.ron"), text).expect("written");
            wakes.recv_timeout(long).expect("woken");
            // The system may show the file before all of it is written: that wakes twice.
            while wakes.recv_timeout(short).is_ok() {}
            assert!(watch.take_changed() && !watch.take_changed());
        }
        drop(watch);
        std::fs::remove_file(folder.path().join("shop.ron")).expect("removed");
        assert!(matches!(
            wakes.recv_timeout(long),
            Err(RecvTimeoutError::Disconnected)
        ));
    }
}
