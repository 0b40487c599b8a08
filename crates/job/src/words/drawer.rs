//! What a lot takes more of than lies in the drawer.

use quillbore_calc::RowId;

use super::speaker::Speaker;

/// Rows that are named one by one before they are only counted.
const SHOWN: usize = 3;

impl Speaker<'_> {
    /// Electrodes that are short, with what the pieces left of used ones would drill.
    pub(super) fn tubes_short(
        &self,
        tube_mm: f64,
        kit: u32,
        stock: u32,
        by_stubs: &[(RowId, u32)],
    ) -> String {
        let [kit, stock, short] = self.counts([kit, stock, kit.saturating_sub(stock)]);
        format!(
            "With wear at its high end and spares the kit takes {kit} electrodes of {}, the drawer holds {stock}: order {short} before a date is promised.{}",
            self.length(tube_mm),
            self.pieces_left(by_stubs)
        )
    }

    /// Guides that are short.
    pub(super) fn guides_short(
        &self,
        tube_mm: f64,
        needed: u32,
        together: u32,
        stock: u32,
    ) -> String {
        let guides = if needed == 1 { "guide" } else { "guides" };
        let is_more = together > needed;
        let short = together.saturating_sub(stock);
        let [needed, together, stock, short] = self.counts([needed, together, stock, short]);
        let floor = if is_more {
            format!(", with the jobs on the floor it is {together}")
        } else {
            String::new()
        };
        format!(
            "By the holes that one lasts the lot takes {needed} {guides} for electrodes of {}{floor}; the drawer holds {stock}: order {short} before a date is promised.",
            self.length(tube_mm)
        )
    }

    fn counts<const N: usize>(&self, counts: [u32; N]) -> [String; N] {
        counts.map(|count| self.form.count(f64::from(count)))
    }

    fn pieces_left(&self, by_stubs: &[(RowId, u32)]) -> String {
        if by_stubs.is_empty() {
            return String::new();
        }
        let holes = if by_stubs.len() > SHOWN {
            let holes: u64 = by_stubs.iter().map(|(_, holes)| u64::from(*holes)).sum();
            format!("{holes} holes of {} rows", by_stubs.len())
        } else {
            let of = by_stubs.iter();
            let of = of.map(|(row, holes)| format!("{holes} of {}", self.hole(*row)));
            of.collect::<Vec<_>>().join(", ")
        };
        format!(" The pieces left of used ones would drill {holes}.")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::Job;
    use crate::shop::Shop;
    use crate::typed::entry::Unit;

    #[test]
    fn what_pieces_would_drill_is_told_where_they_drill_any() {
        let (job, shop) = (Job::default(), Shop::embedded().expect("a shop"));
        let speaker = Speaker {
            job: &job,
            tables: &shop.tables,
            unit: Unit::Mm,
            form: shop.form,
        };
        let told = |by: &[u32]| {
            let rows: Vec<(RowId, u32)> = (1..).map(RowId).zip(by.iter().copied()).collect();
            let told = speaker.tubes_short(0.7, 5, 3, &rows);
            told.split_once("promised.")
                .expect("a sentence")
                .1
                .to_owned()
        };
        assert_eq!(told(&[]), "");
        assert_eq!(
            told(&[3, 1]),
            " The pieces left of used ones would drill 3 of hole ?, 1 of hole ?."
        );
        assert_eq!(
            told(&[3, 1, 2, 8]),
            " The pieces left of used ones would drill 14 holes of 4 rows."
        );
        assert_eq!(
            speaker.guides_short(0.7, 1, 1, 0),
            "By the holes that one lasts the lot takes 1 guide for electrodes of 0.70 mm; the drawer holds 0: order 1 before a date is promised."
        );
        assert_eq!(
            speaker.guides_short(0.7, 3, 5, 1),
            "By the holes that one lasts the lot takes 3 guides for electrodes of 0.70 mm, with the jobs on the floor it is 5; the drawer holds 1: order 4 before a date is promised."
        );
    }
}
