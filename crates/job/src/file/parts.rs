//! Single things as job files have them: days, amounts, hashes, places, names.

use std::marker::PhantomData;

use chrono::NaiveDate;
use quillbore_calc::direction::unit;
use quillbore_calc::input::Place;
use rust_decimal::Decimal;
use serde::de::{DeserializeSeed, Error as _, MapAccess, Visitor};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use crate::ground::hash::Hash;
use crate::ground::limits::is_reachable;
use crate::pinned::answer::How;
use crate::pinned::concern::Concern;
use crate::pinned::paper::Paper;
use crate::pinned::report::LineOutcome;
use crate::pinned::slip::lists::{Line, SlipKind};
use crate::typed::field::Field;
use crate::typed::row::Column;

#[expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "serde hands over a reference"
)]
pub(super) const fn is_zero(count: &u32) -> bool {
    *count == 0
}

/// A unit on disk.
#[derive(Clone, Copy, Debug, Deserialize, Serialize)]
#[serde(rename_all = "lowercase")]
pub(crate) enum UnitName {
    Mm,
    Inch,
}

/// A typed cell on disk: what was typed, and the unit it was committed in.
#[derive(Debug, Deserialize, Serialize)]
pub(crate) struct Cell(pub(crate) String, pub(crate) UnitName);

/// What a part of a job's file can't be.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub(crate) enum Unfit {
    KeyTwice { what: &'static str, key: String },
    Place { number: u32 },
    Day { text: String },
    ReasonMissing,
    Hash { text: String },
    Amount { text: String },
    NotFinite,
    ReportTooLong,
    ReportText,
}

/// A place on disk: number, point in mm, axis.
#[derive(Clone, Copy, Debug, Deserialize, Serialize)]
#[serde(try_from = "PlaceTuple", into = "PlaceTuple")]
pub(super) struct PlaceFile(pub(super) Place);

type PlaceTuple = (u32, f64, f64, f64, f64, f64, f64);

impl From<PlaceFile> for PlaceTuple {
    fn from(PlaceFile(place): PlaceFile) -> Self {
        let ([x, y, z], [i, j, k]) = (place.point_mm, place.axis);
        (place.number, x, y, z, i, j, k)
    }
}

impl TryFrom<PlaceTuple> for PlaceFile {
    type Error = Unfit;

    /// The axis must be a unit vector up to rounding; it is taken as it stands, so that what was
    /// saved is what is opened.
    fn try_from((number, x, y, z, i, j, k): PlaceTuple) -> Result<Self, Unfit> {
        let (point_mm, axis) = ([x, y, z], [i, j, k]);
        let close = |unit: [f64; 3]| {
            let mut parts = unit.iter().zip(axis);
            parts.all(|(exact, given)| (exact - given).abs() < 1e-9)
        };
        if unit(axis).is_some_and(close) && is_reachable(point_mm) {
            return Ok(Self(Place {
                number,
                point_mm,
                axis,
            }));
        }
        Err(Unfit::Place { number })
    }
}

/// A day on disk.
#[derive(Clone, Copy, Debug, Deserialize, Serialize)]
#[serde(try_from = "String", into = "String")]
pub(crate) struct Day(pub(crate) NaiveDate);

impl From<Day> for String {
    fn from(Day(day): Day) -> Self {
        day.format("%Y-%m-%d").to_string()
    }
}

impl TryFrom<String> for Day {
    type Error = Unfit;
    fn try_from(text: String) -> Result<Self, Unfit> {
        let day = NaiveDate::parse_from_str(&text, "%Y-%m-%d");
        day.map(Self).map_err(|_| Unfit::Day { text })
    }
}

/// Why a figure was overruled.
#[derive(Clone, Debug, Deserialize, Serialize)]
#[serde(try_from = "String", into = "String")]
pub(super) struct Reason(pub(super) String);

impl From<Reason> for String {
    fn from(Reason(reason): Reason) -> Self {
        reason
    }
}

impl TryFrom<String> for Reason {
    type Error = Unfit;
    fn try_from(text: String) -> Result<Self, Unfit> {
        if text.trim().is_empty() {
            return Err(Unfit::ReasonMissing);
        }
        Ok(Self(text))
    }
}

/// A hash on disk: 64 hexadecimal digits.
#[derive(Clone, Copy, Debug, Deserialize, Serialize)]
#[serde(try_from = "String", into = "String")]
pub(super) struct HashFile(pub(super) Hash);

impl From<HashFile> for String {
    fn from(HashFile(hash): HashFile) -> Self {
        hash.to_string()
    }
}

impl TryFrom<String> for HashFile {
    type Error = Unfit;
    fn try_from(text: String) -> Result<Self, Unfit> {
        let hash = Hash::from_hex(&text);
        hash.map(Self).ok_or(Unfit::Hash { text })
    }
}

/// An amount of money on disk, as decimal text.
#[derive(Clone, Copy, Debug, Deserialize, Serialize)]
#[serde(try_from = "String", into = "String")]
pub(super) struct Amount(pub(super) Decimal);

impl From<Amount> for String {
    fn from(Amount(amount): Amount) -> Self {
        amount.to_string()
    }
}

impl TryFrom<String> for Amount {
    type Error = Unfit;
    fn try_from(text: String) -> Result<Self, Unfit> {
        let amount = text.parse();
        amount.map(Self).map_err(|_| Unfit::Amount { text })
    }
}

/// A number on disk that is one.
#[derive(Clone, Copy, Debug, Deserialize, Serialize)]
#[serde(try_from = "f64", into = "f64")]
pub(super) struct Finite(pub(super) f64);

impl From<Finite> for f64 {
    fn from(Finite(number): Finite) -> Self {
        number
    }
}

impl TryFrom<f64> for Finite {
    type Error = Unfit;
    fn try_from(number: f64) -> Result<Self, Unfit> {
        if number.is_finite() {
            return Ok(Self(number));
        }
        Err(Unfit::NotFinite)
    }
}

/// Something by its name in files.
#[derive(Clone, Copy, Debug)]
pub(super) struct Named<K>(pub(super) K);

impl<K: Key> Serialize for Named<K> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.0.key())
    }
}

impl<'de, K: Key> Deserialize<'de> for Named<K> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let read = deserializer.deserialize_str(KeyVisitor(PhantomData))?;
        read.map(Self)
            .map_err(|key| D::Error::unknown_variant(&key, &[]))
    }
}

/// Reads a name; one that is not known is given back as it stands.
struct KeyVisitor<K>(PhantomData<K>);

impl<K: Key> Visitor<'_> for KeyVisitor<K> {
    type Value = Result<K, String>;

    fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "the name of a {}", K::WHAT)
    }

    fn visit_str<E: serde::de::Error>(self, name: &str) -> Result<Self::Value, E> {
        let found = K::ALL.iter().copied().find(|known| known.key() == name);
        Ok(found.ok_or_else(|| name.to_owned()))
    }
}

/// A name among others, as a key.
struct KeySeed<K>(PhantomData<K>);

impl<'de, K: Key> DeserializeSeed<'de> for KeySeed<K> {
    type Value = Result<K, String>;

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<Self::Value, D::Error> {
        deserializer.deserialize_str(KeyVisitor(PhantomData))
    }
}

/// Something that has a name of its own in files.
pub(crate) trait Key: Copy + PartialEq + 'static {
    const WHAT: &'static str;
    const ALL: &'static [Self];
    fn key(self) -> &'static str;
}

macro_rules! keys {
    ($($name:ident $what:literal;)+) => {
        $(impl Key for $name {
            const WHAT: &'static str = $what;
            const ALL: &'static [Self] = Self::ALL;
            fn key(self) -> &'static str {
                Self::key(self)
            }
        })+

        /// Every name of all of these, with what it is a name of.
        #[cfg(test)]
        pub(super) fn named() -> Vec<String> {
            let mut named = Vec::new();
            $(named.extend($name::ALL.iter().map(|name| format!("{} {}", $what, name.key())));)+
            named
        }
    };
}

keys! {
    Field "field";
    Column "column";
    SlipKind "slip";
    Line "line of a slip";
    Paper "paper";
    Concern "check";
    How "answer";
    LineOutcome "outcome";
}

/// Typed cells by name, in the order of sheet or table; each name once.
#[derive(Debug)]
pub(crate) struct Cells<K>(pub(crate) Vec<(K, Cell)>);

impl<K> Cells<K> {
    pub(crate) const fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

impl<K> Default for Cells<K> {
    fn default() -> Self {
        Self(Vec::new())
    }
}

impl<K: Key> Serialize for Cells<K> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_map(self.0.iter().map(|(key, cell)| (key.key(), cell)))
    }
}

impl<'de, K: Key> Deserialize<'de> for Cells<K> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_map(CellsVisitor(PhantomData))
    }
}

struct CellsVisitor<K>(PhantomData<K>);

impl<'de, K: Key> Visitor<'de> for CellsVisitor<K> {
    type Value = Cells<K>;

    fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "cells by the name of their {}", K::WHAT)
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Cells<K>, A::Error> {
        let what = K::WHAT;
        let mut cells: Vec<(K, Cell)> = Vec::new();
        while let Some(read) = map.next_key_seed(KeySeed(PhantomData))? {
            let key: K = read.map_err(|name| A::Error::unknown_field(&name, &[]))?;
            if cells.iter().any(|(there, _)| *there == key) {
                let key = key.key().to_owned();
                return Err(A::Error::custom(Unfit::KeyTwice { what, key }));
            }
            cells.push((key, map.next_value()?));
        }
        Ok(Cells(cells))
    }
}
