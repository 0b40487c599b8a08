//! The embedded shop, and a shop's own file laid over it.

use std::sync::OnceLock;

use super::error::ShopError;
use super::rows::Shop;
use super::sheet::disk::is_sheet;
use super::sheet::{ShopSheet, read_sheet};
use super::{build, disk};
use crate::ground::stands_in::{NotSaid, ShopSays, StandsIn};

/// The project's assets, laid over each other in this order.
const ASSETS: [&str; 7] = [
    include_str!("../../../../assets/shop.ron"),
    include_str!("../../../../assets/materials.ron"),
    include_str!("../../../../assets/tubes.ron"),
    include_str!("../../../../assets/guides.ron"),
    include_str!("../../../../assets/machines.ron"),
    include_str!("../../../../assets/rates.ron"),
    include_str!("../../../../assets/start.ron"),
];

impl Shop {
    /// The invented shop of the project's assets.
    ///
    /// # Errors
    /// Where the assets that were built in can't be read; a test proves that they can.
    pub fn embedded() -> Result<&'static Self, ShopError> {
        static SHOP: OnceLock<Result<Shop, ShopError>> = OnceLock::new();
        SHOP.get_or_init(|| build::build(embedded_file()?))
            .as_ref()
            .map_err(Clone::clone)
    }

    /// The embedded shop where nothing of a shop's own was ever typed: it is figured with, and no paper
    /// leaves the house under its name.
    ///
    /// # Errors
    /// As [`Shop::embedded`].
    pub fn of_nobody() -> Result<Self, ShopError> {
        Self::of_sheet(&ShopSheet::default())
    }

    /// The embedded shop where a file of the shop's own can't be read, or is gone.
    ///
    /// # Errors
    /// As [`Shop::embedded`].
    pub fn of_lost_file() -> Result<Self, ShopError> {
        let mut shop = Self::embedded()?.clone();
        shop.samples_say = vec![StandsIn::File];
        Ok(shop)
    }

    /// The embedded shop with a shop's own file laid over it: rows of the same name are replaced,
    /// others added, those named under `without` left out; its rate cards replace all others. What a
    /// sheet says that can't be used is left out alone, see [`Shop::not_used`].
    ///
    /// # Errors
    /// Where the file is not one of ours or a row of it can't be; nothing is taken from it then.
    pub fn with_file(own: &[u8]) -> Result<Self, ShopError> {
        if is_sheet(own) {
            return Self::of_sheet(&read_sheet(own)?);
        }
        let own = disk::read(own).map_err(|error| error.of(own))?;
        let missing = [
            (own.name.is_none(), ShopSays::Name),
            (own.address.is_none(), ShopSays::Address),
            (own.rates.is_empty(), ShopSays::Currency),
        ];
        let mut shop = build::build(embedded_file()?.laid_under(own)?)?;
        let missing = missing.into_iter().filter(|(is_missing, _)| *is_missing);
        let missing = missing.map(|(_, says)| StandsIn::Said(says, NotSaid::NotTyped));
        shop.samples_say = missing.collect();
        Ok(shop)
    }
}

/// The assets as one file: read once, since every shop is laid over them.
pub(super) fn embedded_file() -> Result<disk::ShopFile, ShopError> {
    static FILE: OnceLock<Result<disk::ShopFile, ShopError>> = OnceLock::new();
    let read = FILE.get_or_init(|| {
        let mut file = disk::ShopFile::default();
        for asset in ASSETS {
            file = file.laid_under(disk::read(asset.as_bytes())?)?;
        }
        Ok(file)
    });
    read.clone()
}
