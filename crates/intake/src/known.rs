//! What was said of the heads of a customer's tables, to be said of the next one.

use crate::column::{ForeignColumn, Holds, How};
use crate::foreign::Foreign;
use crate::meaning::Meaning;
use crate::understand::understand;

/// What columns hold, by their folded heads; one for each customer.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Known {
    heads: Vec<(String, Holds)>,
}

impl Known {
    /// What is known of some heads, the later of two that are the same.
    #[must_use]
    pub fn of(heads: impl IntoIterator<Item = (String, Holds)>) -> Self {
        let mut known = Self::default();
        known.learn(heads);
        known
    }

    /// Adds what was said of another table; what was said before of the same head goes.
    pub fn learn(&mut self, said: impl IntoIterator<Item = (String, Holds)>) {
        for (head, holds) in said {
            match self.heads.iter_mut().find(|(known, _)| *known == head) {
                Some((_, before)) => *before = holds,
                None => self.heads.push((head, holds)),
            }
        }
    }

    /// The folded heads and what their columns hold, in the order in which they were learned.
    #[must_use]
    pub fn heads(&self) -> &[(String, Holds)] {
        &self.heads
    }

    pub(crate) fn of_head(&self, folded: &str) -> Option<Holds> {
        let mut heads = self.heads.iter();
        heads
            .find(|(head, _)| head == folded)
            .map(|(_, holds)| *holds)
    }
}

impl Foreign {
    /// Takes over what was said of the heads of this customer's earlier tables; what somebody said of
    /// this one stays, and the other columns are understood anew beside it.
    pub fn remember(&mut self, known: &Known) {
        for at in 0..self.columns.len() {
            let Some(holds) = self.head_once(at).and_then(|head| known.of_head(head)) else {
                continue;
            };
            let free = |meaning: Meaning| {
                let mut others = self.columns.iter();
                meaning.may_repeat() || !others.any(|other| other.holds(meaning) && other.is_said())
            };
            let fits = match holds {
                Holds::A(meaning) => free(meaning),
                Holds::LeftOut => true,
            };
            if let Some(column) = self.columns.get_mut(at)
                && fits
                && column.how != How::Said
            {
                column.set(holds, How::Memory);
            }
        }
        let laid = understand(&mut self.columns);
        self.laid = laid;
    }

    /// What somebody said of columns with a head, by their folded heads, for the customer's next table.
    #[must_use]
    pub fn learned(&self) -> Vec<(String, Holds)> {
        let columns = self.columns.iter().enumerate();
        let said = columns.filter(|(_, column)| column.how == How::Said);
        said.filter_map(|(at, column)| Some((self.head_once(at)?.to_owned(), column.holds?)))
            .collect()
    }

    /// The folded head of a column, where it has one that no other has.
    fn head_once(&self, column: usize) -> Option<&str> {
        let folded = &self.columns.get(column)?.head.folded;
        let same = |other: &&ForeignColumn| other.head.folded == *folded;
        let once = !folded.is_empty() && self.columns.iter().filter(same).count() == 1;
        once.then_some(folded.as_str())
    }
}
