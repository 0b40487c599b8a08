//! The shop's sheet on the shelf: read, saved, put together with what another desk saved meanwhile, and
//! the shop that it says, for everything that is figured or printed from then on.

use std::collections::BTreeMap;
use std::io::ErrorKind;
use std::path::Path;
use std::sync::{Arc, Mutex, PoisonError};

use quillbore_job::Shop;
use quillbore_job::shop::sheet::{
    ShopClash, ShopList, ShopSheet, merge_shop, read_sheet, write_sheet,
};
use quillbore_job::shop::{Logo, ShopError};
use quillbore_paper::logo::DrawnLogo;

use super::base::Office;
use super::shop_lost::{shop_file, unread};
use crate::failure::Failure;
use crate::files::read_capped;
use crate::shelf::{Commit, CommitError, Doc, Stored, Version};
use crate::shop_csv::{self, TakenIn};
use crate::words::shop as words;
use crate::words::shop_csv as csv_words;

/// How often somebody else may be first before a save gives up.
const TRIES: usize = 50;

/// The shop as this program knows it now.
#[derive(Clone, Debug)]
pub(super) struct ShopKept {
    now: Arc<Mutex<Now>>,
    /// Somebody named it on the command line.
    pub(super) is_named: bool,
}

#[derive(Debug)]
struct Now {
    shop: Arc<Shop>,
    /// The version of the sheet that it was made of, where it was made of one.
    version: Option<Version>,
}

impl ShopKept {
    pub(super) fn new(shop: Arc<Shop>) -> Self {
        let now = Now {
            shop,
            version: None,
        };
        Self {
            now: Arc::new(Mutex::new(now)),
            is_named: false,
        }
    }

    fn put(&self, shop: Arc<Shop>, version: Option<Version>) {
        let mut now = self.now.lock().unwrap_or_else(PoisonError::into_inner);
        *now = Now { shop, version };
    }
}

/// The shop's sheet as it stands on the shelf.
#[derive(Clone, Debug, Default)]
pub struct SheetStands {
    /// The sheet; an empty one where the shelf has none yet.
    pub sheet: Arc<ShopSheet>,
    /// What its content is known by; none where the shelf has none yet.
    pub version: Option<Version>,
}

/// How a sheet was saved.
#[derive(Clone, Debug)]
pub struct SheetSaved {
    /// What stands on the shelf now: with another desk's work in it, where there was some.
    pub stands: SheetStands,
    /// Where both changed the same thing.
    pub clashes: Vec<ShopClash>,
    /// Rows that are known by another identity now, from the one that they had here.
    pub renumbered: BTreeMap<u32, u32>,
    /// What has to be told beside that.
    pub told: Vec<String>,
}

impl Office {
    /// The shop as it stands.
    #[must_use]
    pub fn shop(&self) -> Arc<Shop> {
        let now = self.shop.now.lock().unwrap_or_else(PoisonError::into_inner);
        Arc::clone(&now.shop)
    }

    /// What the sheet is known by that the shop was made of; none where it was made of none.
    #[must_use]
    pub fn shop_version(&self) -> Option<Version> {
        let now = self.shop.now.lock().unwrap_or_else(PoisonError::into_inner);
        now.version
    }

    /// Whether the shop was named on the command line, so that the shelf's sheet counts for nothing.
    #[must_use]
    pub const fn has_named_shop(&self) -> bool {
        self.shop.is_named
    }

    /// The shop's sheet as it stands on the shelf; the shop goes by it from now on, where it is another
    /// one than before.
    ///
    /// # Errors
    /// Where the shelf can't be reached, or what is there is no sheet; the shop stays as it was then.
    pub fn look_at_shop(&self) -> Result<SheetStands, Failure> {
        let stands = self.sheet_stands()?;
        let known = {
            let now = self.shop.now.lock().unwrap_or_else(PoisonError::into_inner);
            now.version
        };
        if known != stands.version {
            self.goes_by(&stands)?;
        }
        Ok(stands)
    }

    fn sheet_stands(&self) -> Result<SheetStands, Failure> {
        match shop_file(self.shelf.as_ref())? {
            None => Ok(SheetStands::default()),
            Some(stored) => self.sheet_of(&stored),
        }
    }

    fn sheet_of(&self, stored: &Stored) -> Result<SheetStands, Failure> {
        let sheet = read_sheet(&stored.bytes).map_err(|error| self.no_shop(&error))?;
        Ok(SheetStands {
            sheet: Arc::new(sheet),
            version: Some(stored.version),
        })
    }

    fn goes_by(&self, stands: &SheetStands) -> Result<(), Failure> {
        if self.shop.is_named {
            return Ok(());
        }
        let shop = Shop::of_sheet(&stands.sheet).map_err(|error| self.no_shop(&error))?;
        self.shop.put(Arc::new(shop), stands.version);
        Ok(())
    }

    fn no_shop(&self, error: &ShopError) -> Failure {
        unread(self.shelf.as_ref(), error)
    }

    /// A file as the shop's logo.
    ///
    /// # Errors
    /// Where it can't be read, is neither PNG nor SVG, or can't be drawn on papers.
    pub fn logo(&self, path: &Path) -> Result<Logo, Failure> {
        let bytes = read_capped(self.disk.as_ref(), path)?;
        let logo = Logo::new(bytes)
            .map_err(|error| Failure::new(error.to_string(), error.hint()).at(path))?;
        DrawnLogo::of(&logo)
            .map_err(|fault| Failure::new(fault.to_string(), fault.hint()).at(path))?;
        Ok(logo)
    }

    /// Writes a list of a sheet as CSV into a new file.
    ///
    /// # Errors
    /// Where a file of that name is there already, or it can't be written.
    pub fn list_to(&self, sheet: &ShopSheet, list: ShopList, path: &Path) -> Result<(), Failure> {
        let text = shop_csv::write(sheet, list);
        match self.disk.write_new(path, text.as_bytes()) {
            Ok(()) => Ok(()),
            Err(error) if error.kind() == ErrorKind::AlreadyExists => {
                Err(csv_words::stands_already().at(path))
            }
            Err(error) => Err(csv_words::not_written(&error).at(path)),
        }
    }

    /// What a file of CSV says of a list of a sheet.
    ///
    /// # Errors
    /// Where it can't be read, or is no table of that list.
    pub fn list_from(
        &self,
        sheet: &ShopSheet,
        list: ShopList,
        path: &Path,
    ) -> Result<TakenIn, Failure> {
        let bytes = read_capped(self.disk.as_ref(), path)?;
        shop_csv::read(sheet, list, &bytes).map_err(|failure| failure.at(path))
    }

    /// Saves the shop's sheet that was made of `base`; what another desk saved meanwhile is put together
    /// with it. The shop goes by what stands there then.
    ///
    /// # Errors
    /// Where the shelf doesn't take it, or what another desk saved can't be read; nothing of either
    /// desk's work is lost then.
    pub fn save_shop(&self, base: &SheetStands, ours: &ShopSheet) -> Result<SheetSaved, Failure> {
        let (mut rests_on, mut sheet) = (base.clone(), ours.clone());
        let mut clashes = Vec::new();
        let mut renumbered: BTreeMap<u32, u32> = BTreeMap::new();
        let mut was_gone = false;
        for _ in 0..TRIES {
            let text = write_sheet(&sheet);
            // Only what opens again as this sheet is ever written.
            match read_sheet(text.as_bytes()) {
                Ok(back) if back == sheet => {}
                _ => return Err(words::would_not_open()),
            }
            let bytes = text.into_bytes();
            let version = Version::of(&bytes);
            let commit = Commit::one(Doc::Shop, bytes, rests_on.version);
            let mut told = match self.shelf.commit(&commit) {
                Ok(done) if done.locked || rests_on.version.is_none() => Vec::new(),
                Ok(_) => vec![words::NO_LOCKS.to_owned()],
                Err(CommitError::NotSettled { error, .. }) => vec![words::not_settled(&error)],
                Err(CommitError::Changed(_) | CommitError::Taken(_)) => {
                    let theirs = self.sheet_stands()?;
                    let merged = merge_shop(&rests_on.sheet, &sheet, &theirs.sheet);
                    clashes.extend(merged.clashes);
                    let mut again = merged.renumbered;
                    for id in renumbered.values_mut() {
                        *id = again.remove(id).unwrap_or(*id);
                    }
                    renumbered.extend(again);
                    sheet = merged.sheet;
                    rests_on = theirs;
                    continue;
                }
                // Somebody took it off the shelf: what was on it is in ours.
                Err(CommitError::Gone(_)) => {
                    was_gone = true;
                    rests_on.version = None;
                    continue;
                }
                Err(error) => return Err(error.into()),
            };
            told.extend(was_gone.then(|| words::WAS_GONE.to_owned()));
            let stands = SheetStands {
                sheet: Arc::new(sheet),
                version: Some(version),
            };
            self.goes_by(&stands)?;
            return Ok(SheetSaved {
                stands,
                clashes,
                renumbered,
                told,
            });
        }
        Err(words::always_first())
    }
}
