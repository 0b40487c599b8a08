//! A list that is shared until somebody changes it, and looked up by key without being searched.

use std::collections::BTreeMap;
use std::fmt;
use std::ops::{Deref, DerefMut};
use std::slice;
use std::sync::{Arc, OnceLock};

/// What stands in such a list.
pub trait Keyed {
    /// What it is known by.
    type Key: Ord;

    /// What it is known by: that of its place in the list never changes but by taking it out.
    fn key(&self) -> Self::Key;
}

/// A list with what stands in it by key; cloning it copies nothing.
///
/// A hundred thousand rows that each look for another one are too many to search: where the things
/// stand is noted when the first is looked up, and forgotten when the list is changed.
pub struct KeyedList<T: Keyed>(Arc<Inner<T>>);

struct Inner<T: Keyed> {
    items: Vec<T>,
    places: OnceLock<BTreeMap<T::Key, usize>>,
}

/// A list as short as this is searched.
const SEARCHED: usize = 16;

impl<T: Keyed> KeyedList<T> {
    /// Where the first thing with this key stands.
    pub fn place(&self, key: &T::Key) -> Option<usize> {
        let items = &self.0.items;
        if items.len() <= SEARCHED {
            return items.iter().position(|item| item.key() == *key);
        }
        let places = self.0.places.get_or_init(|| {
            // The first of those with one key stands.
            let all = items.iter().enumerate().rev();
            all.map(|(at, item)| (item.key(), at)).collect()
        });
        places.get(key).copied()
    }

    /// The first thing with this key.
    pub fn get_by(&self, key: &T::Key) -> Option<&T> {
        self.place(key).and_then(|at| self.0.items.get(at))
    }
}

impl<T: Keyed + Clone> KeyedList<T> {
    /// Puts something at the end; what is known of the places of others stays known.
    pub fn push(&mut self, item: T) {
        let inner = self.own();
        if let Some(places) = inner.places.get_mut() {
            let at = inner.items.len();
            places.entry(item.key()).or_insert(at);
        }
        inner.items.push(item);
    }

    /// Puts something in the place of another with the same key.
    pub fn replace(&mut self, at: usize, item: T) {
        let inner = self.own();
        if let Some(there) = inner.items.get_mut(at) {
            debug_assert!(there.key() == item.key(), "another key");
            *there = item;
        }
    }

    fn own(&mut self) -> &mut Inner<T> {
        Arc::make_mut(&mut self.0)
    }
}

impl<T: Keyed + Clone> Clone for Inner<T> {
    fn clone(&self) -> Self {
        Self {
            items: self.items.clone(),
            places: OnceLock::new(),
        }
    }
}

impl<T: Keyed> Clone for KeyedList<T> {
    fn clone(&self) -> Self {
        Self(Arc::clone(&self.0))
    }
}

impl<T: Keyed> From<Vec<T>> for KeyedList<T> {
    fn from(items: Vec<T>) -> Self {
        let places = OnceLock::new();
        Self(Arc::new(Inner { items, places }))
    }
}

impl<T: Keyed> Default for KeyedList<T> {
    fn default() -> Self {
        Self::from(Vec::new())
    }
}

impl<T: Keyed> FromIterator<T> for KeyedList<T> {
    fn from_iter<I: IntoIterator<Item = T>>(items: I) -> Self {
        Self::from(Vec::from_iter(items))
    }
}

impl<T: Keyed + fmt::Debug> fmt::Debug for KeyedList<T> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.items.fmt(f)
    }
}

impl<T: Keyed + PartialEq> PartialEq for KeyedList<T> {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.0, &other.0) || self.0.items == other.0.items
    }
}

impl<T: Keyed + PartialEq, const N: usize> PartialEq<[T; N]> for KeyedList<T> {
    fn eq(&self, other: &[T; N]) -> bool {
        self.0.items == other
    }
}

impl<T: Keyed + PartialEq> PartialEq<Vec<T>> for KeyedList<T> {
    fn eq(&self, other: &Vec<T>) -> bool {
        self.0.items == *other
    }
}

impl<T: Keyed> Deref for KeyedList<T> {
    type Target = Vec<T>;

    fn deref(&self) -> &Vec<T> {
        &self.0.items
    }
}

impl<T: Keyed + Clone> DerefMut for KeyedList<T> {
    fn deref_mut(&mut self) -> &mut Vec<T> {
        let inner = self.own();
        inner.places.take();
        &mut inner.items
    }
}

impl<T: Keyed + Clone> IntoIterator for KeyedList<T> {
    type Item = T;
    type IntoIter = std::vec::IntoIter<T>;

    fn into_iter(self) -> Self::IntoIter {
        Arc::unwrap_or_clone(self.0).items.into_iter()
    }
}

impl<'a, T: Keyed> IntoIterator for &'a KeyedList<T> {
    type Item = &'a T;
    type IntoIter = slice::Iter<'a, T>;

    fn into_iter(self) -> slice::Iter<'a, T> {
        self.iter()
    }
}

impl<'a, T: Keyed + Clone> IntoIterator for &'a mut KeyedList<T> {
    type Item = &'a mut T;
    type IntoIter = slice::IterMut<'a, T>;

    fn into_iter(self) -> slice::IterMut<'a, T> {
        self.iter_mut()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[derive(Clone, Debug, PartialEq)]
    struct Named(u32, &'static str);

    impl Keyed for Named {
        type Key = u32;

        fn key(&self) -> u32 {
            self.0
        }
    }

    fn long() -> KeyedList<Named> {
        (0..100).rev().map(|key| Named(key, "")).collect()
    }

    #[test]
    fn what_is_looked_up_is_the_first_with_its_key() {
        for length in [4, 100] {
            let list: KeyedList<Named> = (0..length).map(|key| Named(key / 2, "")).collect();
            assert_eq!(list.place(&1), Some(2), "{length}");
            assert_eq!(list.place(&length), None, "{length}");
        }
    }

    #[test]
    fn a_changed_list_is_looked_up_anew_and_leaves_those_it_shared_with() {
        let before = long();
        assert_eq!(before.place(&99), Some(0));
        let mut after = before.clone();
        after.remove(0);
        assert_eq!((after.place(&99), after.place(&98)), (None, Some(0)));
        assert_eq!((before.place(&99), before.place(&98)), (Some(0), Some(1)));
    }

    #[test]
    fn what_comes_on_top_or_in_place_is_found() {
        let mut list = long();
        assert_eq!(list.place(&7), Some(92));
        list.push(Named(200, "new"));
        list.push(Named(7, "again"));
        assert_eq!((list.place(&200), list.place(&7)), (Some(100), Some(92)));
        list.replace(92, Named(7, "other"));
        assert_eq!(list.get_by(&7), Some(&Named(7, "other")));
        assert_eq!(list.len(), 102);
    }
}
