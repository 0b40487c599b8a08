//! Marks for rows that have none.

use std::collections::BTreeSet;

use quillbore_job::{Job, RowsAt};

/// Marks that no other row has: A to Z, AA and so on.
pub(crate) struct Marks {
    there: BTreeSet<String>,
    /// Those of a drawing that no row has yet.
    kept: BTreeSet<String>,
    next: usize,
}

impl Marks {
    /// Beside the rows that stay.
    pub(crate) fn beside(job: &Job, at: RowsAt) -> Self {
        let stay = match at {
            RowsAt::Append => job.rows.len(),
            RowsAt::Over { row } => row,
            RowsAt::Replace => 0,
        };
        let there = job.rows.iter().take(stay);
        Self {
            there: there
                .map(|row| row.mark.text().trim().to_uppercase())
                .collect(),
            kept: BTreeSet::new(),
            next: 0,
        }
    }

    /// Keeps a mark that a drawing gives for the rows that have it: no other row gets it.
    pub(crate) fn keep(&mut self, mark: &str) {
        let mark = mark.trim().to_uppercase();
        if !self.there.contains(&mark) {
            self.kept.insert(mark);
        }
    }

    /// A mark that a drawing gives, once, and the next one of ours where a row has it already.
    pub(crate) fn of_drawing(&mut self, mark: &str) -> String {
        if self.kept.remove(&mark.trim().to_uppercase()) {
            self.there.insert(mark.trim().to_uppercase());
            return mark.trim().to_owned();
        }
        self.next()
    }

    /// The next one.
    pub(crate) fn next(&mut self) -> String {
        loop {
            let mark = letters(self.next);
            self.next += 1;
            if !self.there.contains(&mark) && !self.kept.contains(&mark) {
                return mark;
            }
        }
    }
}

fn letters(mut at: usize) -> String {
    let mut letters = Vec::new();
    loop {
        letters.push(char::from(b'A' + u8::try_from(at % 26).unwrap_or(0)));
        match (at / 26).checked_sub(1) {
            Some(before) => at = before,
            None => return letters.into_iter().rev().collect(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::letters;

    #[test]
    fn marks_go_on_behind_the_alphabet() {
        let marks = [0, 25, 26, 51, 52, 701, 702].map(letters);
        assert_eq!(marks, ["A", "Z", "AA", "AZ", "BA", "ZZ", "AAA"]);
    }
}
