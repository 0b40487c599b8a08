//! A foreign table in short, before anything is taken.

use quillbore_job::Unit;

/// What a table comes to as its columns are understood now.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Summary {
    /// Rows of the hole table that it becomes.
    pub rows: usize,
    /// Holes of those rows in one part.
    pub holes: u64,
    /// Rows whose count can't be read; each stands for one hole.
    pub uncounted: usize,
    /// What a line of the table gives as its sum.
    pub sum: Option<Sum>,
    /// What the table says of the unit.
    pub units: Units,
    /// Ends and angles that are read from its notes.
    pub from_notes: FromNotes,
}

/// The sum that a table gives.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Sum {
    /// The number of the line that it stands in, from 1.
    pub line: usize,
    /// Holes in all.
    pub holes: u64,
}

/// What was read from the remarks of a table's rows.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct FromNotes {
    /// Ends.
    pub ends: usize,
    /// Angles.
    pub angles: usize,
    /// Rows whose remarks speak of an end or angle that was not read.
    pub in_doubt: usize,
}

impl FromNotes {
    /// Adds what was read from further remarks.
    pub(crate) const fn add(&mut self, other: Self) {
        self.ends += other.ends;
        self.angles += other.angles;
        self.in_doubt += other.in_doubt;
    }
}

/// What a table says of the unit of its lengths.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Units {
    /// Its heads, or a line beside its rows, name this one.
    Named(Unit),
    /// Its heads name several.
    Several,
    /// No head names one, but every size does.
    InCells,
    /// Nothing names one: the unit must be said.
    Unnamed {
        /// The unit that the sizes look like, where they do.
        looks: Option<Unit>,
    },
}

/// The unit that bare sizes look like, each given as it stands.
///
/// Tubes are 0.1 to 12.7 mm (common practice, no source), which is 0.004 to 0.5 in: more than an inch
/// is millimeters, and so is a decimal comma; below half an inch, without a zero before the point or
/// with three decimals in every size, they are inches.
pub(crate) fn unit_like<'a>(sizes: impl Iterator<Item = (&'a str, f64)>) -> Option<Unit> {
    let (mut any, mut inches) = (false, true);
    for (text, number) in sizes {
        let bare = text.trim_start_matches(|letter: char| !".,0123456789".contains(letter));
        let ends = bare.find(|letter: char| !".,0123456789".contains(letter));
        let bare = bare.get(..ends.unwrap_or(bare.len())).unwrap_or(bare);
        if number >= 1.0 || bare.contains(',') {
            return Some(Unit::Mm);
        }
        any = true;
        let decimals = bare.split_once('.').map_or(0, |(_, part)| part.len());
        let point_first = bare.starts_with('.') && decimals >= 2;
        inches &= number < 0.5 && (point_first || decimals >= 3);
    }
    (any && inches).then_some(Unit::Inch)
}

#[cfg(test)]
mod tests {
    use quillbore_job::Unit;

    use super::unit_like;

    #[test]
    fn sizes_tell_their_unit() {
        for (sizes, unit) in [
            (&[("0.80", 0.8), ("1.20", 1.2)][..], Some(Unit::Mm)),
            (&[(".0315", 0.0315), (".047", 0.047)], Some(Unit::Inch)),
            (
                &[("\u{d8}0.031", 0.031), ("0.0472", 0.0472)],
                Some(Unit::Inch),
            ),
            (&[("0,80 +-0,02", 0.8)], Some(Unit::Mm)),
            (&[("0.3", 0.3), ("0.5", 0.5)], None),
            (&[("0.80", 0.8)], None),
            (&[], None),
        ] {
            assert_eq!(unit_like(sizes.iter().copied()), unit, "{sizes:?}");
        }
    }
}
