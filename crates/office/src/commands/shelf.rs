//! `quillbore shelf`: the shelf itself, made on a server and copied from one place to another.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::ended::{Came, Ended, Made};
use super::line::{Word, Words};
use super::named;
use super::saying::Saying;
use crate::copy_shelf::{Copied, NotCopied, copy};
use crate::disk::Disk;
use crate::failure::Failure;
use crate::places;
use crate::shelf_at::is_server;
use crate::words::{commands as words, copy_shelf as said};

/// What was asked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ShelfAsked {
    /// Make the tables of a shelf on a server, or bring them up.
    Make(PathBuf),
    /// Copy one shelf onto another.
    Copy {
        /// The first.
        from: PathBuf,
        /// The second.
        to: PathBuf,
    },
}

pub(super) fn read(mut line: Words<'_>) -> Result<ShelfAsked, Failure> {
    let mut names = Vec::new();
    while let Some(word) = line.take()? {
        match word {
            Word::Name(name) => names.push(name),
            word @ Word::Option(_) => return Err(word.unknown()),
        }
    }
    let asked = names.first().and_then(|name| name.to_str());
    let path = |at: usize| names.get(at).map(PathBuf::from);
    match (asked, names.len()) {
        (Some("make"), 2) => Ok(ShelfAsked::Make(path(1).unwrap_or_default())),
        (Some("copy"), 3) => Ok(ShelfAsked::Copy {
            from: path(1).unwrap_or_default(),
            to: path(2).unwrap_or_default(),
        }),
        _ => Err(words::shelf_usage()),
    }
}

pub(super) fn run(asked: &ShelfAsked, saying: &mut Saying<'_>) -> Result<Came, Failure> {
    let disk = named::disk();
    match asked {
        ShelfAsked::Make(place) => make(&disk, place, saying),
        ShelfAsked::Copy { from, to } => copy_all(&disk, from, to, saying),
    }
}

fn done(stop: bool) -> Came {
    Came {
        ended: Ended::with_stop(stop),
        made: Made::Nothing,
    }
}

#[cfg(feature = "server")]
fn make(disk: &Arc<dyn Disk>, place: &Path, saying: &mut Saying<'_>) -> Result<Came, Failure> {
    use crate::shelf::Shelf as _;
    use crate::shelf::server::Roles;
    let at = named::at(disk, place)?;
    let Some(server) = at.server else {
        return Err(said::no_server(place));
    };
    let roles = server.make()?;
    let is_new = server.mark()?.is_none();
    if is_new {
        server.adopt(&places::new_mark()?)?;
    }
    saying.line(said::made(is_new, &server.place()));
    if roles == Roles::NotMade {
        saying.tell(said::NO_ROLES);
    }
    Ok(done(false))
}

#[cfg(not(feature = "server"))]
fn make(disk: &Arc<dyn Disk>, place: &Path, _: &mut Saying<'_>) -> Result<Came, Failure> {
    named::at(disk, place)?;
    Err(said::no_server(place))
}

fn copy_all(
    disk: &Arc<dyn Disk>,
    from: &Path,
    to: &Path,
    saying: &mut Saying<'_>,
) -> Result<Came, Failure> {
    let (first, second) = (named::at(disk, from)?, named::at(disk, to)?);
    if first.shelf.mark()?.is_none() {
        let place = first.shelf.place();
        return Err(said::not_copied(NotCopied::NoShelf { place }));
    }
    if from == to || (!is_server(from) && !is_server(to) && is_within(to, from)) {
        return Err(said::within(to));
    }
    if !is_server(to) && !to.is_dir() {
        std::fs::create_dir_all(to).map_err(|error| said::not_made(&error, to))?;
    }
    let mut told = 0;
    let copied = copy(first.shelf.as_ref(), second.shelf.as_ref(), &mut |so_far| {
        // A line for each hundred, and one at the end.
        if so_far.done == so_far.of || so_far.done >= told + 100 {
            told = so_far.done;
            saying.tell(said::so_far(so_far));
        }
        true
    });
    let copied = copied.map_err(said::not_copied)?;
    saying.line(said::copied(&copied, &second.shelf.place()));
    tell_left(&copied, saying);
    #[cfg(feature = "server")]
    if let Some(server) = second.server.filter(|_| copied.is_new)
        && server.make()? == crate::shelf::server::Roles::NotMade
    {
        saying.tell(said::NO_ROLES);
    }
    Ok(done(!copied.is_all()))
}

/// Tells what was not copied.
fn tell_left(copied: &Copied, saying: &mut Saying<'_>) {
    let Copied {
        others,
        other_files,
        unusable,
        lost,
        not_read,
        strays,
        ..
    } = copied;
    let others = others.iter().map(said::other);
    let other_files = other_files
        .iter()
        .map(|(job, name)| said::other_file(job, name));
    let not_read = not_read
        .iter()
        .map(|((doc, name), why)| said::not_read(doc, name.as_ref(), why));
    let unusable = unusable.iter().map(said::unusable);
    let lost = lost.iter().map(|(job, name)| said::lost(job, name));
    let strays = strays.iter().map(|name| said::stray(name));
    let left = others
        .chain(other_files)
        .chain(not_read)
        .chain(unusable)
        .chain(lost)
        .chain(strays);
    left.for_each(|sentence| saying.tell(sentence));
}

/// Whether a place is a folder, or will be something in it.
fn is_within(place: &Path, folder: &Path) -> bool {
    let whole = |path: &Path| {
        let mut above = path.ancestors();
        above.find_map(|path| std::fs::canonicalize(path).ok())
    };
    let folder = std::fs::canonicalize(folder).ok();
    whole(place)
        .zip(folder)
        .is_some_and(|(place, folder)| place.starts_with(folder))
}
