//! A shelf as somebody names it: a folder, or the address of a server.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use crate::disk::Disk;
use crate::failure::Failure;
use crate::shelf::{Folder, Mark, Shelf};

/// A shelf that was named.
#[derive(Clone, Debug)]
pub struct ShelfAt {
    /// The shelf.
    pub shelf: Arc<dyn Shelf>,
    /// Its folder, where it is one.
    pub root: Option<PathBuf>,
    /// The server, where it is one.
    #[cfg(feature = "server")]
    pub server: Option<Arc<crate::shelf::server::Server>>,
}

impl ShelfAt {
    /// A shelf in a folder.
    #[must_use]
    pub fn folder(shelf: Arc<Folder>) -> Self {
        Self {
            root: Some(shelf.root().to_owned()),
            shelf,
            #[cfg(feature = "server")]
            server: None,
        }
    }
}

/// Whether a place is meant as the address of a server and not as a folder, well written or not: what may
/// hold a password is never taken for the name of a folder, and never shown.
#[must_use]
pub fn is_server(place: &Path) -> bool {
    let text = place.to_string_lossy().trim().to_lowercase();
    text.contains("://")
        || text.starts_with("postgres:")
        || text.starts_with("postgresql:")
        || text.contains("password=")
}

/// The shelf at a place; `known` is the mark that it must have, where somebody knows that, and `desk`
/// what the history calls whoever saves. Nothing is asked of it yet.
///
/// # Errors
/// Where it is no address that can be read.
pub fn shelf_at(
    disk: &Arc<dyn Disk>,
    place: &Path,
    known: Option<Mark>,
    desk: &str,
) -> Result<ShelfAt, Failure> {
    if is_server(place) {
        return on_server(place, known, desk);
    }
    Ok(ShelfAt {
        shelf: Arc::new(Folder::new(Arc::clone(disk), place, known)),
        root: Some(place.to_owned()),
        #[cfg(feature = "server")]
        server: None,
    })
}

#[cfg(feature = "server")]
fn on_server(place: &Path, known: Option<Mark>, desk: &str) -> Result<ShelfAt, Failure> {
    use crate::shelf::server::{Address, Brings, Kept, Server};
    use crate::words::server as words;
    let text = place.to_str().unwrap_or_default();
    let address = Address::read(text).map_err(words::no_address)?;
    let server = Arc::new(Server::new(
        address,
        Brings {
            known,
            desk: desk.to_owned(),
            kept: Kept::by_environment(),
            digester: Some(crate::digest::digester()),
            seen: crate::places::seen_folder(place),
            lease: None,
        },
    ));
    Ok(ShelfAt {
        shelf: Arc::clone(&server) as Arc<dyn Shelf>,
        root: None,
        server: Some(server),
    })
}

#[cfg(not(feature = "server"))]
fn on_server(place: &Path, _: Option<Mark>, _: &str) -> Result<ShelfAt, Failure> {
    Err(crate::words::places::no_servers().at(place))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_may_hold_a_password_is_no_folder() {
        for place in [
            "postgresql://kim@db/shelf",
            " postgresql://kim:secret@db/shelf",
            "POSTGRESQL://kim:secret@db/shelf",
            "other://kim:secret@db/shelf",
            "postgresql:/kim:secret@db/shelf",
            "host=db user=kim password=secret dbname=shelf",
        ] {
            assert!(is_server(Path::new(place)), "{place}");
        }
        for place in [
            "/home/kim/shelf",
            "shelf",
            "C:\\shelf",
            "postgresql/shelf",
            "jobs: all",
        ] {
            assert!(!is_server(Path::new(place)), "{place}");
        }
    }
}
