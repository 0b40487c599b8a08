//! What is remembered of rows that were worked out, and when it is forgotten.

use alloc::collections::BTreeMap;

/// Most that is remembered of one kind. Rows alike mostly stand close together, and a hundred
/// thousand unlike ones gain nothing from being remembered but a gigabyte.
pub(super) const MOST: usize = 5_000;

/// Remembers what was worked out; where `most` are known already, those are forgotten.
pub(super) fn remember<K: Ord, V>(known: &mut BTreeMap<K, V>, most: usize, key: K, value: V) {
    if known.len() >= most {
        known.clear();
    }
    known.insert(key, value);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hundred_thousand_unlike_ones_are_not_kept() {
        let mut known = BTreeMap::new();
        for key in 0..100_000 {
            remember(&mut known, 50, key, -key);
            assert!(known.len() <= 50 && known.get(&key) == Some(&-key));
        }
    }
}
