//! A test that no key of job files comes, goes or changes its name unless the format is raised.
//!
//! The keys of each format stand in `tests/old-jobs/keys-of-format-N.txt`. A list whose first line
//! says "open" belongs to a format that no release has written yet and may grow; one that says
//! "closed" never changes again.

use std::collections::{BTreeSet, VecDeque};
use std::fmt;
use std::path::PathBuf;

use serde::de::value::StrDeserializer;
use serde::de::{
    self, DeserializeOwned, DeserializeSeed, Deserializer, EnumAccess, MapAccess, SeqAccess,
    VariantAccess, Visitor,
};
use serde::forward_to_deserialize_any;

use super::format::FORMAT;
use super::parts::named;
use super::v2::JobFile;
use crate::pinned::slip::lists::SlipKind;

/// Set to anything, it makes the test write the list of an open format anew.
const WRITE_ANEW: &str = "QUILLBORE_WRITE_KEYS";

const OPEN: &str = "open: no release has written this format yet, keys may be added";
const CLOSED: &str = "closed: a release has written this format, nothing here changes";

#[test]
fn a_key_comes_or_goes_only_with_the_format() {
    let path = list_path(FORMAT);
    let now = keys();
    let stood = std::fs::read_to_string(&path).unwrap_or_default();
    let closed = stood.starts_with("closed");
    if std::env::var_os(WRITE_ANEW).is_some() && !closed {
        let lines: Vec<&str> = now.iter().map(String::as_str).collect();
        let text = format!("{OPEN}\n{}\n", lines.join("\n"));
        std::fs::write(&path, text).expect("the list can be written");
        return;
    }
    let then = listed(FORMAT);
    let came: Vec<&String> = now.difference(&then).collect();
    let went: Vec<&String> = then.difference(&now).collect();
    let what_to_do = if closed {
        "jobs of this format are out: raise FORMAT in crates/job/src/file/format.rs, then run this \
         test with QUILLBORE_WRITE_KEYS=1, which writes the list of the new format"
    } else {
        "no release has written this format yet: run this test with QUILLBORE_WRITE_KEYS=1 and \
         commit the list"
    };
    assert!(
        came.is_empty() && went.is_empty(),
        "keys that format {FORMAT} doesn't list: {came:?}; listed, but not in the code: {went:?}; \
         {what_to_do}"
    );
}

/// Every format but the newest is closed; what it had, the newest still reads.
#[test]
fn old_keys_are_still_read() {
    let now = keys();
    for format in 1..FORMAT {
        let text = std::fs::read_to_string(list_path(format)).expect("a list");
        assert_eq!(text.lines().next(), Some(CLOSED), "format {format}");
        let gone: Vec<String> = listed(format).difference(&now).cloned().collect();
        assert_eq!(gone, [""; 0], "format {format}");
    }
}

/// A closed format has jobs in `tests/old-jobs`, and one of them has every name of its list.
#[test]
fn a_closed_format_has_its_old_jobs() {
    for format in 1..=FORMAT {
        let text = std::fs::read_to_string(list_path(format)).expect("a list");
        if text.starts_with(OPEN) {
            continue;
        }
        let folder = old_jobs().join(format!("format-{format}"));
        assert!(folder.is_dir(), "format {format} is closed: add jobs of it");
        // Format 1 was closed before there was a job with all of its names.
        if format > 1 {
            let job = folder.join("every_key.ron");
            let job = std::fs::read_to_string(job).expect("a job with every name");
            for key in listed(format) {
                let word = key.rsplit([' ', '.']).next().unwrap_or_default();
                assert!(job.contains(word), "{key} is not in format {format}'s jobs");
            }
        }
    }
}

#[test]
fn the_walk_finds_what_stands_deep() {
    let keys = keys();
    for key in [
        "file format",
        "file issued.lines.each",
        "file overrules.figure.unit_price",
        "file rows.places.6",
        "file unit.inch",
        "field customer",
        "column depth",
        "slip order.each",
        "paper label",
        "check wall_behind",
        "answer agreed",
    ] {
        assert!(keys.contains(key), "{key} in {keys:#?}");
    }
}

fn old_jobs() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../tests/old-jobs")
}

fn list_path(format: u32) -> PathBuf {
    old_jobs().join(format!("keys-of-format-{format}.txt"))
}

fn listed(format: u32) -> BTreeSet<String> {
    let text = std::fs::read_to_string(list_path(format)).unwrap_or_default();
    text.lines().skip(1).map(str::to_owned).collect()
}

/// Every name that a job's file can hold, as the code is now.
fn keys() -> BTreeSet<String> {
    let mut keys = walked::<JobFile>();
    keys.extend(named());
    for kind in SlipKind::ALL {
        let lines = kind.lines().iter();
        keys.extend(lines.map(|line| format!("slip {}.{}", kind.key(), line.key())));
    }
    keys
}

/// The names of a disk type and of all that it holds, found by asking serde for them: each part of
/// a type is gone into in turn until one is reached whose parts are not known yet.
fn walked<T: DeserializeOwned>() -> BTreeSet<String> {
    let mut keys = BTreeSet::new();
    let mut seen = BTreeSet::new();
    let mut paths = VecDeque::from([(Vec::new(), String::new())]);
    while let Some((path, name)) = paths.pop_front() {
        let mut found = None;
        let walk = Walk {
            path: &path,
            found: &mut found,
        };
        // It never comes to a value: the walk ends where there is something to be told.
        let end = T::deserialize(walk).err();
        let Some(Parts { of, parts }) = found else {
            assert!(end.is_some(), "{name} was read out of nothing");
            continue;
        };
        let known = !of.is_empty() && !seen.insert(of);
        if known {
            continue;
        }
        for (at, part) in parts.into_iter().enumerate() {
            let dot = if name.is_empty() { "" } else { "." };
            let part = format!("{name}{dot}{part}");
            keys.insert(format!("file {part}"));
            paths.push_back(([path.as_slice(), &[at]].concat(), part));
        }
    }
    keys
}

/// What a type consists of; tuples without a name are told apart by where they stand.
struct Parts {
    of: &'static str,
    parts: Vec<String>,
}

/// Goes down one path of parts and tells what lies at its end.
struct Walk<'a> {
    path: &'a [usize],
    found: &'a mut Option<Parts>,
}

impl<'a> Walk<'a> {
    /// The next step down, or the parts that there are to choose from.
    fn step(self, of: &'static str, parts: Vec<String>) -> Result<(usize, Self), Stop> {
        let Some((first, path)) = self.path.split_first() else {
            *self.found = Some(Parts { of, parts });
            return Err(Stop);
        };
        let found = self.found;
        Ok((*first, Walk { path, found }))
    }
}

#[derive(Debug)]
struct Stop;

impl fmt::Display for Stop {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("the walk stops here")
    }
}

impl std::error::Error for Stop {}

impl de::Error for Stop {
    fn custom<T: fmt::Display>(_: T) -> Self {
        Self
    }
}

fn names(names: &[&str]) -> Vec<String> {
    names.iter().map(|name| (*name).to_owned()).collect()
}

fn numbers(len: usize) -> Vec<String> {
    (0..len).map(|part| part.to_string()).collect()
}

impl<'de> Deserializer<'de> for Walk<'_> {
    type Error = Stop;

    forward_to_deserialize_any! {
        bool i8 i16 i32 i64 i128 u8 u16 u32 u64 u128 f32 f64 char str string bytes byte_buf unit
        unit_struct map identifier ignored_any
    }

    fn deserialize_any<V: Visitor<'de>>(self, _: V) -> Result<V::Value, Stop> {
        Err(Stop)
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Stop> {
        visitor.visit_some(self)
    }

    fn deserialize_newtype_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        visitor: V,
    ) -> Result<V::Value, Stop> {
        visitor.visit_newtype_struct(self)
    }

    fn deserialize_seq<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Stop> {
        visitor.visit_seq(Inside {
            before: 0,
            walk: Some(self),
        })
    }

    fn deserialize_tuple<V: Visitor<'de>>(self, len: usize, visitor: V) -> Result<V::Value, Stop> {
        self.deserialize_tuple_struct("", len, visitor)
    }

    fn deserialize_tuple_struct<V: Visitor<'de>>(
        self,
        name: &'static str,
        len: usize,
        visitor: V,
    ) -> Result<V::Value, Stop> {
        let (before, walk) = self.step(name, numbers(len))?;
        visitor.visit_seq(Inside {
            before,
            walk: Some(walk),
        })
    }

    fn deserialize_struct<V: Visitor<'de>>(
        self,
        name: &'static str,
        fields: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Stop> {
        let (at, walk) = self.step(name, names(fields))?;
        visitor.visit_map(Named(fields[at], walk))
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        name: &'static str,
        variants: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Stop> {
        let (at, walk) = self.step(name, names(variants))?;
        visitor.visit_enum(Named(variants[at], walk))
    }
}

/// One part by its name: a field of a struct, a variant of an enum.
struct Named<'a>(&'static str, Walk<'a>);

impl<'de> MapAccess<'de> for Named<'_> {
    type Error = Stop;

    fn next_key_seed<K: DeserializeSeed<'de>>(
        &mut self,
        seed: K,
    ) -> Result<Option<K::Value>, Stop> {
        seed.deserialize(StrDeserializer::new(self.0)).map(Some)
    }

    fn next_value_seed<V: DeserializeSeed<'de>>(&mut self, seed: V) -> Result<V::Value, Stop> {
        let Walk { path, found } = &mut self.1;
        seed.deserialize(Walk { path, found })
    }
}

impl<'de> EnumAccess<'de> for Named<'_> {
    type Error = Stop;
    type Variant = Self;

    fn variant_seed<V: DeserializeSeed<'de>>(self, seed: V) -> Result<(V::Value, Self), Stop> {
        let name = seed.deserialize(StrDeserializer::<Stop>::new(self.0))?;
        Ok((name, self))
    }
}

impl<'de> VariantAccess<'de> for Named<'_> {
    type Error = Stop;

    fn unit_variant(self) -> Result<(), Stop> {
        Err(Stop)
    }

    fn newtype_variant_seed<T: DeserializeSeed<'de>>(self, seed: T) -> Result<T::Value, Stop> {
        seed.deserialize(self.1)
    }

    fn tuple_variant<V: Visitor<'de>>(self, len: usize, visitor: V) -> Result<V::Value, Stop> {
        self.1.deserialize_tuple_struct("", len, visitor)
    }

    fn struct_variant<V: Visitor<'de>>(
        self,
        fields: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Stop> {
        self.1.deserialize_struct("", fields, visitor)
    }
}

/// One part by its place: what stands before it is filled with nothing.
struct Inside<'a> {
    before: usize,
    walk: Option<Walk<'a>>,
}

impl<'de> SeqAccess<'de> for Inside<'_> {
    type Error = Stop;

    fn next_element_seed<T: DeserializeSeed<'de>>(
        &mut self,
        seed: T,
    ) -> Result<Option<T::Value>, Stop> {
        if self.before > 0 {
            self.before -= 1;
            return seed.deserialize(StrDeserializer::new("")).map(Some);
        }
        let walk = self.walk.take().ok_or(Stop)?;
        seed.deserialize(walk).map(Some)
    }
}
