//! What inspection slips say was checked: nothing counts as checked that nobody wrote down.

use std::collections::{BTreeMap, BTreeSet};

use quillbore_calc::standards::sampling::InspectionLevel;

use crate::job::Job;
use crate::life::parts::{ordered, sum};
use crate::pinned::slip::lists::{Has, kind, line};
use crate::pinned::slip::view::View;
use crate::typed::field::Field;
use crate::typed::read_quantity;
use crate::typed::row::Row;
use crate::typed::serials;

/// Parts that a paper speaks of.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Parts {
    /// Their serial numbers, as far as they have some.
    pub serials: Vec<String>,
    /// How many they are; 0 where nobody said.
    pub count: u32,
}

/// How much of a row's holes was checked, over the parts of a paper.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Checked {
    /// Parts on which every hole of the row was checked.
    pub parts: u32,
    /// Holes that were found not good.
    pub not_good: u32,
}

/// The parts to be inspected: those received, else those ordered or asked for.
///
/// Serial numbers are those of received parts, else of what was drilled, measured or delivered.
#[must_use]
pub fn parts(job: &Job) -> Parts {
    let received = sum::<kind::Received, _>(job, line::Count);
    let count = match received {
        0 => ordered(job)
            .or_else(|| job.count(Field::Quantity))
            .unwrap_or(0),
        parts => parts,
    };
    let of: [fn(&Job) -> Vec<String>; 4] = [
        serials_of::<kind::Received>,
        serials_of::<kind::Run>,
        serials_of::<kind::Inspection>,
        serials_of::<kind::Delivery>,
    ];
    let found = of.into_iter().map(|serials| serials(job));
    let serials = found.into_iter().find(|named| !named.is_empty());
    Parts {
        serials: serials.unwrap_or_default(),
        count,
    }
}

/// The parts that went out.
#[must_use]
pub fn delivered(job: &Job) -> Parts {
    Parts {
        serials: serials_of::<kind::Delivery>(job),
        count: sum::<kind::Delivery, _>(job, line::Count),
    }
}

/// The inspection slips of a job, by the mark that they speak of.
#[derive(Debug)]
pub struct Inspections<'a> {
    parts: &'a Parts,
    by_mark: BTreeMap<String, Vec<View<'a, kind::Inspection>>>,
}

impl<'a> Inspections<'a> {
    /// Those of a job, asked about these parts.
    #[must_use]
    pub fn of(job: &'a Job, parts: &'a Parts) -> Self {
        let mut by_mark: BTreeMap<String, Vec<_>> = BTreeMap::new();
        for slip in job.slips_of::<kind::Inspection>() {
            if let Some(mark) = same_mark(slip.get(line::Mark)) {
                by_mark.entry(mark).or_default().push(slip);
            }
        }
        Self { parts, by_mark }
    }

    /// How much of a row's holes was checked on the parts.
    ///
    /// A slip that names pieces checks them where it counts every hole of each; one that names no
    /// piece counts for as many parts as its holes make up. A slip that names holes of one piece
    /// checks the piece once all its holes are named.
    #[must_use]
    pub fn checked(&self, row: &Row) -> Checked {
        let slips = same_mark(row.mark.text()).and_then(|mark| self.by_mark.get(&mark));
        slips.map_or_else(Checked::default, |slips| checked(slips, row, self.parts))
    }
}

/// Whether so many holes are accepted of which some were checked and some found not good: not known where
/// none was bad and not all were looked at, or where a pin alone doesn't tell (`whole` is false: the depth of
/// a blind hole is not on record).
#[must_use]
pub fn accepted(
    checked: Option<u32>,
    not_good: Option<u32>,
    holes: Option<u32>,
    whole: bool,
) -> Option<bool> {
    let checked = checked.zip(holes);
    let all = whole && checked.is_some_and(|(checked, holes)| checked >= holes);
    match not_good {
        Some(1..) => Some(false),
        _ => all.then_some(true),
    }
}

/// Whether a first article report was asked for: by what is typed of the inspection, or by characteristic
/// numbers in the hole table.
#[must_use]
pub fn wants_first_article(job: &Job) -> bool {
    let asked = job.text(Field::Inspection).to_lowercase();
    let mut words = asked.split(|ch: char| !ch.is_alphanumeric());
    let named = words.any(|word| matches!(word, "as9102" | "9102" | "fai"));
    let numbered = |row: &Row| !row.characteristic.text().trim().is_empty();
    let mut rows = job.rows.iter();
    let in_words = ["first article", "erstmuster"].map(|words| asked.contains(words));
    named || in_words.contains(&true) || rows.any(|row| numbered(row))
}

/// The sampling plan that was asked for, as `AQL 1.0` or `level II, AQL 0.65` in what is typed of the
/// inspection; none where that can't be read, which its field says.
#[must_use]
pub fn sampling_asked(job: &Job) -> Option<(InspectionLevel, f64)> {
    read_quantity::sampling(job.text(Field::Inspection)).ok()?
}

fn checked(slips: &[View<'_, kind::Inspection>], row: &Row, parts: &Parts) -> Checked {
    let each = u64::from(row.holes()).max(1);
    let mut whole: BTreeSet<String> = BTreeSet::new();
    let mut holes: BTreeSet<(String, String)> = BTreeSet::new();
    let (mut unnamed, mut not_good) = (0_u64, 0_u32);
    for slip in slips {
        not_good = not_good.saturating_add(slip.get(line::NotGood).unwrap_or(0));
        let Some(count) = slip.get(line::Checked).map(u64::from) else {
            continue;
        };
        let pieces = serials::read(slip.get(line::Serials));
        let numbers = serials::read(slip.get(line::HoleNumbers));
        match (pieces.as_slice(), numbers.is_empty()) {
            ([], true) => unnamed = unnamed.saturating_add(count),
            (several, true) if count >= each.saturating_mul(several.len() as u64) => {
                whole.extend(pieces);
            }
            ([piece], false) if count >= numbers.len() as u64 => {
                holes.extend(numbers.into_iter().map(|hole| (piece.clone(), hole)));
            }
            // Some holes of several pieces, or of none named: nobody can say which they were.
            _ => {}
        }
    }
    for run in holes.iter().collect::<Vec<_>>().chunk_by(|a, b| a.0 == b.0) {
        if run.len() as u64 >= each {
            whole.extend(run.first().map(|(piece, _)| piece.clone()));
        }
    }
    let named = if parts.serials.is_empty() {
        whole.len()
    } else {
        parts
            .serials
            .iter()
            .filter(|one| whole.contains(*one))
            .count()
    };
    let found = (named as u64).saturating_add(unnamed / each);
    Checked {
        parts: u32::try_from(found).unwrap_or(u32::MAX).min(parts.count),
        not_good,
    }
}

/// Whether every hole of these parts was checked, by what was written down.
#[must_use]
pub fn all_checked(job: &Job, parts: &Parts) -> bool {
    let known = |row: &Row| row.count.why().is_none() || !row.places.is_empty();
    let inspections = Inspections::of(job, parts);
    parts.count > 0
        && !job.rows.is_empty()
        && job
            .rows
            .iter()
            .all(|row| known(row) && inspections.checked(row).parts >= parts.count)
}

/// Rows by their marks, for marks that somebody typed.
///
/// Marks agree without regard to case and outer blanks; no mark agrees with none.
#[derive(Clone, Debug, Default)]
pub struct Marks(BTreeMap<String, usize>);

impl Marks {
    /// Those of rows in the table's order; of several with one mark the first.
    #[must_use]
    pub fn of<'m>(marks: impl IntoIterator<Item = &'m str>) -> Self {
        let mut rows = BTreeMap::new();
        for (at, mark) in marks.into_iter().enumerate() {
            if let Some(mark) = same_mark(mark) {
                rows.entry(mark).or_insert(at);
            }
        }
        Self(rows)
    }

    /// Where the row stands that somebody meant.
    #[must_use]
    pub fn row(&self, typed: &str) -> Option<usize> {
        self.0.get(&same_mark(typed)?).copied()
    }
}

/// What marks that agree have in common; none where there is no mark.
pub(crate) fn same_mark(mark: &str) -> Option<String> {
    let mark = mark.trim().to_lowercase();
    (!mark.is_empty()).then_some(mark)
}

fn serials_of<K: Has<line::Serials>>(job: &Job) -> Vec<String> {
    let slips = job.slips_of::<K>();
    let all: Vec<&str> = slips.map(|slip| slip.get(line::Serials)).collect();
    serials::read(&all.join(", "))
}
