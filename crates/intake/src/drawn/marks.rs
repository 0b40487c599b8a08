//! Marks for rows that have none.

use quillbore_job::{Job, RowsAt};

/// Marks that no other row has: A to Z, AA and so on.
pub(crate) struct Marks {
    there: Vec<String>,
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
            next: 0,
        }
    }

    /// The next one.
    pub(crate) fn next(&mut self) -> String {
        loop {
            let mark = letters(self.next);
            self.next += 1;
            if !self.there.contains(&mark) {
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
