//! The most valuable set of holes for one electrode.

use alloc::vec::Vec;

use super::lot::Lot;

/// The best value found, and the set that has it if it beats the value known before.
pub(super) struct Priced {
    pub(super) most: i64,
    /// Holes per item.
    pub(super) pattern: Option<Vec<u64>>,
}

/// The best value any set of holes has on an electrode of this usable length, or `known` if none is
/// better; none if `work` (sets looked at) runs out.
///
/// Items come in falling reach, so a set may grow by an item as long as its length stays within
/// usable - reach (dynamic program after Lawler and Moore «memory»). Of two sets the one that is no
/// longer and worth no less takes all the other could take (Nemhauser and Ullmann 1969 «memory»),
/// and a set that even the best value per length can't lift above the best known is dropped. Items
/// that consume nothing are left out. Exact: nothing is rounded.
pub(super) fn most_valuable(
    lot: &Lot,
    usable: i64,
    values: &[i64],
    known: i64,
    work: &mut u64,
) -> Option<Priced> {
    let fits = |&item: &usize| {
        let hole = &lot.items[item];
        values[item] > 0 && hole.wear > 0 && hole.reach + hole.wear <= usable
    };
    let items: Vec<usize> = (0..values.len()).filter(fits).collect();
    // No set grows longer than the last item's reach lets it.
    let room = items
        .last()
        .map_or(0, |&last| usable - lot.items[last].reach);
    let density = best_density_from(lot, &items, values);
    let mut sets = Sets {
        most: known,
        best: None,
        steps: Vec::new(),
    };
    let mut states = alloc::vec![State {
        length: 0,
        value: 0,
        step: None
    }];
    for (at, &item) in items.iter().enumerate() {
        let hole = &lot.items[item];
        let longest = usable - hole.reach - hole.wear;
        let mut layer = states.clone();
        for _ in 0..hole.count {
            layer.retain(|state| state.length <= longest);
            for state in &mut layer {
                *state = sets.grown(state, item, hole.wear, values[item]);
            }
            let most = sets.most;
            layer.retain(|state| state.may_beat(most, density[at], room));
            if layer.is_empty() {
                break;
            }
            (states, layer) = merged(&states, &layer);
            *work = work.checked_sub(states.len() as u64)?;
        }
        states.retain(|state| state.may_beat(sets.most, density[at + 1], room));
    }
    Some(Priced {
        most: sets.most,
        pattern: sets.pattern(values.len()),
    })
}

/// A set of holes by its length and value, and the last step that led to it.
#[derive(Clone, Copy)]
struct State {
    length: i64,
    value: i64,
    step: Option<usize>,
}

impl State {
    /// Whether the rest of the electrode, filled at the best value per length, would lift the set
    /// above the best.
    fn may_beat(&self, most: i64, density: f64, room: i64) -> bool {
        // A hair more, so that rounding drops nothing.
        let more = density * (room - self.length).max(0) as f64 * (1.0 + 1e-9);
        self.value as f64 + more + 1.0 > most as f64
    }
}

/// All steps taken, and the best set so far.
struct Sets {
    most: i64,
    best: Option<usize>,
    /// The step before, and the item added.
    steps: Vec<(Option<usize>, usize)>,
}

impl Sets {
    /// A set with one more hole.
    fn grown(&mut self, state: &State, item: usize, wear: i64, value: i64) -> State {
        let step = self.steps.len();
        self.steps.push((state.step, item));
        let value = state.value + value;
        if value > self.most {
            (self.most, self.best) = (value, Some(step));
        }
        State {
            length: state.length + wear,
            value,
            step: Some(step),
        }
    }

    /// Holes per item of the best set.
    fn pattern(&self, items: usize) -> Option<Vec<u64>> {
        let mut step = Some(self.best?);
        let mut pattern = alloc::vec![0; items];
        while let Some((before, item)) = step.map(|step| self.steps[step]) {
            pattern[item] += 1;
            step = before;
        }
        Some(pattern)
    }
}

/// Best value per length among the items from each place on; nothing past the end.
fn best_density_from(lot: &Lot, items: &[usize], values: &[i64]) -> Vec<f64> {
    let mut density = alloc::vec![0.0_f64; items.len() + 1];
    for (at, &item) in items.iter().enumerate().rev() {
        let own = values[item] as f64 / lot.items[item].wear as f64;
        density[at] = density[at + 1].max(own);
    }
    density
}

/// Old and new sets by rising length without those another makes needless; and the new ones left.
fn merged(old: &[State], new: &[State]) -> (Vec<State>, Vec<State>) {
    let mut all = Vec::with_capacity(old.len() + new.len());
    let mut fresh = Vec::new();
    let (mut old, mut new) = (old.iter().peekable(), new.iter().peekable());
    let mut most = -1;
    loop {
        let take_new = match (old.peek(), new.peek()) {
            (Some(one), Some(two)) => (two.length, -two.value) < (one.length, -one.value),
            (None, Some(_)) => true,
            (Some(_), None) => false,
            (None, None) => return (all, fresh),
        };
        let next = if take_new { new.next() } else { old.next() };
        if let Some(&state) = next.filter(|state| state.value > most) {
            most = state.value;
            all.push(state);
            if take_new {
                fresh.push(state);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::samples::{fits, sets, strewn};
    use super::*;
    use crate::dice::Dice;
    use crate::packing::worth::worth;

    /// Against all sets of small lots: as valuable as the best that fits, and one that does.
    #[test]
    fn no_set_that_fits_is_worth_more() {
        let mut dice = Dice::new(23);
        for round in 0..300 {
            let lot = strewn(&mut dice, 1 + round % 5);
            let values: Vec<i64> = lot.items.iter().map(|_| dice.below(30) as i64).collect();
            // What wears nothing is worth nothing here: any number of it goes anywhere.
            let counted: Vec<i64> = lot
                .items
                .iter()
                .zip(&values)
                .map(|(item, &value)| if item.wear > 0 { value } else { 0 })
                .collect();
            let usable = lot.full - dice.below(5) as i64;
            let all = sets(&lot);
            let best = all.iter().filter(|set| fits(&lot, usable, set));
            let best = best.map(|set| worth(set, &counted)).max().unwrap_or(0);
            let found = |known: i64| most_valuable(&lot, usable, &values, known, &mut 1_000_000);
            let priced = found(0).unwrap_or_else(|| panic!("enough work for {lot:?}"));
            assert_eq!(priced.most, best, "{lot:?}, {values:?}, {usable}");
            match priced.pattern {
                Some(pattern) => {
                    assert!(fits(&lot, usable, &pattern), "{pattern:?} on {lot:?}");
                    assert_eq!(worth(&pattern, &values), best);
                }
                None => assert_eq!(best, 0),
            }
            // Where as much is known already there is no better set; where less, the best one.
            let known = found(best).map(|priced| (priced.most, priced.pattern));
            assert_eq!(known, Some((best, None)));
            if best > 0 {
                let better = found(best - 1).map(|priced| (priced.most, priced.pattern.is_some()));
                assert_eq!(better, Some((best, true)));
            }
        }
    }

    /// Who may look at no set finds none.
    #[test]
    fn without_work_nothing_is_found() {
        let lot = strewn(&mut Dice::new(29), 4);
        let values: Vec<i64> = lot.items.iter().map(|_| 5).collect();
        assert!(most_valuable(&lot, lot.full, &values, 0, &mut 0).is_none());
    }
}
