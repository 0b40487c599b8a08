//! How many holes a row is, where its cells leave room for a question.

use quillbore_job::{Column, read_quantity};

use crate::new_row::{Cells, NewRow};
use crate::several_marks::{Marks, marks_in};
use crate::words;

/// The count of a row that has none and whose mark names several holes; what is told of it.
pub(crate) fn by_mark(row: &mut Cells) -> Option<String> {
    let blank = |column| row.get(&column).is_none_or(|text| text.trim().is_empty());
    if !blank(Column::Count) || blank(Column::Size) {
        return None;
    }
    let mark = row.get(&Column::Mark)?.trim().to_owned();
    match marks_in(&mark) {
        Marks::One => None,
        Marks::Maybe => Some(words::maybe_several_marks(&mark)),
        Marks::Several(holes) => {
            row.insert(Column::Count, holes.to_string());
            Some(words::several_marks(&mark, holes))
        }
    }
}

/// What is told of a row without a count, where other rows have one.
pub(crate) fn without_count(row: &Cells) -> Option<String> {
    let blank = |column| row.get(&column).is_none_or(|text| text.trim().is_empty());
    (blank(Column::Count) && !blank(Column::Size)).then(|| words::NO_COUNT.to_owned())
}

/// That rows say another number of holes than they have locations.
pub(crate) fn counts_and_places(rows: &[NewRow]) -> Option<String> {
    const TOLD: usize = 5;
    let placed = rows.iter().filter(|row| !row.places.is_empty());
    let differs = placed.filter_map(|row| {
        let count = row.cells.get(&Column::Count)?;
        let count = read_quantity::holes(count).ok()?;
        let mark = row.cells.get(&Column::Mark).map_or("", |mark| mark.trim());
        // Lists of locations say one in each of their lines.
        let is_other = count > 1 && usize::try_from(count) != Ok(row.places.len());
        is_other.then(|| (mark.to_owned(), count, row.places.len()))
    });
    let mut differs: Vec<_> = differs.collect();
    let more = differs.len().saturating_sub(TOLD);
    differs.truncate(TOLD);
    (!differs.is_empty()).then(|| words::counts_and_places(&differs, more))
}
