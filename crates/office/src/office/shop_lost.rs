//! A shop's file that can't be read, or was here and is gone: nothing is written over it until somebody
//! takes the version before, or begins anew.

use std::io::ErrorKind;
use std::path::Path;

use quillbore_job::shop::ShopError;
use quillbore_job::shop::sheet::{MOST_CHANGES, ShopChange, ShopSheet, read_sheet, write_sheet};
use quillbore_job::{Shop, file};

use super::base::Office;
use super::shop::SheetStands;
use crate::failure::Failure;
use crate::shelf::{Commit, Doc, Shelf, Stored};
use crate::words::shop as words;

/// What takes the place of a shop's file that is lost.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum InPlaceOfLost {
    /// The version before it.
    TheVersionBefore,
    /// A shop of which nothing is typed.
    Nothing,
}

/// The shop's file as it stands; none where there never was one.
///
/// # Errors
/// Where the shelf can't be reached, or the file was here and is gone.
pub(crate) fn shop_file(shelf: &dyn Shelf) -> Result<Option<Stored>, Failure> {
    let stored = shelf.read(&Doc::Shop)?;
    if stored.is_none() && shelf.previous(&Doc::Shop)?.is_some() {
        return Err(words::gone(&shelf.place()));
    }
    Ok(stored)
}

/// The samples, as they stand in for a shop whose file is lost: no paper is issued of them.
///
/// # Errors
/// Where the samples can't be used; a test proves that they can.
pub fn samples_for_lost() -> Result<Shop, Failure> {
    Shop::of_lost_file().map_err(|error| Failure::new(error.to_string(), error.hint()))
}

/// Whether a shop's file is good as it stands, if only for a newer version of the program.
fn is_to_be_kept(stored: &Stored) -> bool {
    match read_sheet(&stored.bytes) {
        Ok(_) => true,
        Err(error) => error.is_of_newer_version(),
    }
}

impl Office {
    /// Whether the shop's file can't be read, or was here and is gone; not where the shelf can't be reached.
    #[must_use]
    pub fn has_lost_shop(&self) -> bool {
        match self.shelf.read(&Doc::Shop) {
            Err(_) => false,
            Ok(Some(stored)) => !is_to_be_kept(&stored),
            Ok(None) => matches!(self.shelf.previous(&Doc::Shop), Ok(Some(_))),
        }
    }

    /// The last change that the version before the shop's file has and the file itself lacks: somebody put
    /// an older one in its place. A save always has the changes of what it replaces.
    #[must_use]
    pub fn lacks(&self, stands: &SheetStands) -> Option<ShopChange> {
        let before = self.shelf.previous(&Doc::Shop).ok()??;
        let before = read_sheet(&before.bytes).ok()?;
        let last = before.changes.last()?;
        let has = stands.sheet.changes.contains(last);
        // Of very many changes the first ones are forgotten.
        let may_be_forgotten = stands.sheet.changes.len() >= MOST_CHANGES;
        (!has && !may_be_forgotten).then(|| last.as_ref().clone())
    }

    /// Puts something in the place of a shop's file that is lost; one that can't be read is kept beside
    /// it under another name.
    ///
    /// # Errors
    /// Where the file can be read after all or by a newer version, there is no version before that can, or a step fails;
    /// nothing is lost then.
    pub fn replace_lost_shop(&self, by: InPlaceOfLost) -> Result<SheetStands, Failure> {
        let place = self.shelf.place();
        let now = self.shelf.read(&Doc::Shop)?;
        if now.as_ref().is_some_and(is_to_be_kept) {
            return self.look_at_shop();
        }
        let bytes = match by {
            InPlaceOfLost::Nothing => write_sheet(&ShopSheet::default()).into_bytes(),
            InPlaceOfLost::TheVersionBefore => {
                let before = self.shelf.previous(&Doc::Shop)?;
                let before = before.ok_or_else(|| words::no_version_before(&place))?;
                read_sheet(&before.bytes)
                    .map_err(|error| words::version_before_unread(&error.to_string(), &place))?;
                before.bytes
            }
        };
        if let Some(now) = &now {
            self.keep_unread(&now.bytes)?;
        }
        let commit = Commit::one(Doc::Shop, bytes, now.map(|now| now.version));
        self.shelf.commit(&commit)?;
        self.look_at_shop()
    }

    /// Keeps what can't be read under a name that says so; the same content has the same name.
    fn keep_unread(&self, bytes: &[u8]) -> Result<(), Failure> {
        let Some(root) = &self.root else {
            return Ok(());
        };
        let hash = file::hash(bytes).to_string();
        let short = hash.get(..12).unwrap_or(&hash);
        let path = root.join(format!("shop-unread-{short}.txt"));
        match self.disk.write_new(&path, bytes) {
            Ok(()) => {}
            Err(error) if error.kind() == ErrorKind::AlreadyExists => return Ok(()),
            Err(error) => return Err(words::not_kept(&error).at(&path)),
        }
        let synced = self.disk.sync_file(&path);
        synced.map_err(|error| words::not_kept(&error).at(&path))
    }
}

/// Why a shop's file can't be used, with what to do about it where there is a version before it.
pub(crate) fn unread(shelf: &dyn Shelf, error: &ShopError) -> Failure {
    let why = Failure::new(error.to_string(), error.hint());
    let has_before = matches!(shelf.previous(&Doc::Shop), Ok(Some(_)));
    let place = Path::new(&shelf.place()).join("shop.ron");
    if has_before && !error.is_of_newer_version() {
        words::unread(&why, &place)
    } else {
        why.at(&place)
    }
}
