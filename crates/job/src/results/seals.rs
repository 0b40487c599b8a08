//! How the entries of issued papers stand to their seals, checked once for each entry: a long sheet
//! takes a millisecond.

use std::sync::Arc;

use crate::issued::seal::SealState;
use crate::job::Issued;

/// Entries that were checked, with what came out.
#[derive(Default)]
pub(super) struct KeptSeals(Vec<(Arc<Issued>, SealState)>);

impl KeptSeals {
    /// Of each entry, in their order; what was known of others is let go.
    pub(super) fn states(&mut self, issued: &[Arc<Issued>]) -> Vec<SealState> {
        let known = std::mem::take(&mut self.0);
        for entry in issued {
            let same = |(other, _): &&(Arc<Issued>, _)| Arc::ptr_eq(other, entry) || other == entry;
            let state = known.iter().find(same).map(|(_, state)| *state);
            let state = state.unwrap_or_else(|| entry.seal_state());
            self.0.push((Arc::clone(entry), state));
        }
        self.0.iter().map(|(_, state)| *state).collect()
    }
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::{Issued, KeptSeals, SealState};
    use crate::ground::hash::hash;
    use crate::pinned::paper::Paper;

    fn quotation(number: &str) -> Issued {
        let issued = Issued {
            number: number.to_owned(),
            paper: Paper::Quotation,
            date: chrono::NaiveDate::default(),
            valid_until: None,
            file: format!("{number}.pdf"),
            kept_by: None,
            hash: hash(number.as_bytes()),
            lines: Vec::new(),
            rests_on: Vec::new(),
            pages: vec!["a page".to_owned()],
            currency: None,
            replaces: Vec::new(),
            inputs: None,
            seal: None,
        };
        issued.sealed()
    }

    #[test]
    fn an_entry_that_was_changed_is_checked_again_and_another_is_not_taken_for_it() {
        let mut kept = KeptSeals::default();
        let one = Arc::new(quotation("26-0107-Q1"));
        let mut entries = vec![one, Arc::new(quotation("26-0107-Q2"))];
        assert_eq!(kept.states(&entries), [SealState::Sealed; 2]);
        Arc::make_mut(&mut entries[0]).pages[0].push('!');
        let broken = [SealState::Broken, SealState::Sealed];
        assert_eq!(kept.states(&entries), broken);
        assert_eq!(kept.states(&entries), broken, "as kept");
        entries.reverse();
        let reversed = [SealState::Sealed, SealState::Broken];
        assert_eq!(kept.states(&entries), reversed);
        assert_eq!(kept.states(&[]), []);
        assert_eq!(kept.states(&entries), reversed, "anew");
        // The same entry, read from the file again.
        let again: Vec<_> = entries
            .iter()
            .map(|entry| Arc::new(entry.as_ref().clone()))
            .collect();
        assert_eq!(kept.states(&again), reversed);
    }
}
