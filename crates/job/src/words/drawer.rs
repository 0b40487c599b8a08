//! What a lot takes more of than lies in the drawer.

use quillbore_calc::tables::{Guide, Tube};
use quillbore_calc::{Idx, RowId};

use super::speaker::Speaker;

/// Rows that are named one by one before they are only counted.
const SHOWN: usize = 3;

impl Speaker<'_> {
    /// Electrodes that are short, with what the pieces left of used ones would drill.
    pub(super) fn tubes_short(
        &self,
        tube: Idx<Tube>,
        [kit, together, stock]: [u32; 3],
        by_stubs: &[(RowId, u32)],
    ) -> String {
        let name = tube.of(&self.tables.tubes).map_or("?", |tube| &tube.name);
        let floor = self.with_floor(kit, together);
        let short = together.saturating_sub(stock);
        let [kit, stock, short] = self.counts([kit, stock, short]);
        format!(
            "With wear at its high end and spares the kit takes {kit} of {name}{floor}; the drawer holds {stock}: order {short} before a date is promised.{}",
            self.pieces_left(by_stubs)
        )
    }

    /// Guides that are short.
    pub(super) fn guides_short(
        &self,
        guide: Idx<Guide>,
        needed: u32,
        together: u32,
        stock: u32,
    ) -> String {
        let name = guide.of(&self.tables.guides).map_or("?", |row| &row.name);
        let floor = self.with_floor(needed, together);
        let short = together.saturating_sub(stock);
        let [needed, stock, short] = self.counts([needed, stock, short]);
        format!(
            "By the holes that one lasts the lot takes {needed} of {name}{floor}; the drawer holds {stock}: order {short} before a date is promised."
        )
    }

    /// What the jobs on the floor make of a count, where they want any.
    fn with_floor(&self, needed: u32, together: u32) -> String {
        if together <= needed {
            return String::new();
        }
        let [together] = self.counts([together]);
        format!(", with the jobs on the floor it is {together}")
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
        let tube = Idx::find(&shop.tables.tubes, |tube| tube.name == "brass 0.30 x 300");
        let tube = tube.expect("an electrode");
        let guide = Idx::find(&shop.tables.guides, |guide| guide.name == "guide 0.30");
        let guide = guide.expect("a guide");
        let told = |by: &[u32]| {
            let rows: Vec<(RowId, u32)> = (1..).map(RowId).zip(by.iter().copied()).collect();
            let told = speaker.tubes_short(tube, [5, 5, 3], &rows);
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
        // 60 kept for the floor and 89 for this lot, of which 2 lie there.
        assert_eq!(
            speaker.tubes_short(tube, [89, 149, 2], &[]),
            "With wear at its high end and spares the kit takes 89 of brass 0.30 x 300, with the jobs on the floor it is 149; the drawer holds 2: order 147 before a date is promised."
        );
        assert_eq!(
            speaker.guides_short(guide, 1, 1, 0),
            "By the holes that one lasts the lot takes 1 of guide 0.30; the drawer holds 0: order 1 before a date is promised."
        );
        assert_eq!(
            speaker.guides_short(guide, 3, 5, 1),
            "By the holes that one lasts the lot takes 3 of guide 0.30, with the jobs on the floor it is 5; the drawer holds 1: order 4 before a date is promised."
        );
    }
}
