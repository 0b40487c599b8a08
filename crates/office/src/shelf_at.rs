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

/// Whether a place is the address of a server.
#[must_use]
pub fn is_server(place: &Path) -> bool {
    place
        .to_str()
        .is_some_and(|text| text.starts_with("postgresql://") || text.starts_with("postgres://"))
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
