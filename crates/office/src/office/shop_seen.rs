//! The shop that somebody saw figures by, held against the one that stands on the shelf.

use super::base::Office;
use crate::issue::NotIssued;
use crate::shelf::{Doc, Version, Write};

impl Office {
    /// What a paper rests on of the shop: its sheet as it stands on the shelf, which must stay as it is
    /// until the paper is written; none where there is no sheet, or where it counts for nothing.
    ///
    /// # Errors
    /// Where the sheet is another one than the figures were seen by (the shop goes by it from then on),
    /// or can't be read.
    pub(crate) fn shop_to_issue_by(
        &self,
        seen: Option<Version>,
    ) -> Result<Option<Write>, NotIssued> {
        if self.has_named_shop() {
            return Ok(None);
        }
        let stored = self.shelf.read(&Doc::Shop)?;
        let version = stored.as_ref().map(|stored| stored.version);
        if version != seen || self.shop_version() != seen {
            self.look_at_shop()?;
            return Err(NotIssued::ShopChanged { numbered: None });
        }
        // Its own bytes once more: the shelf compares them and finds nothing to write.
        Ok(stored.map(|stored| Write {
            doc: Doc::Shop,
            bytes: stored.bytes,
            expected: Some(stored.version),
        }))
    }
}
