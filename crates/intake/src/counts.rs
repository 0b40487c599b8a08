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

/// Settles rows that say another number of holes than they have locations; what is told of them. One
/// location of several holes is where the drawing begins to measure: the count is right.
pub(crate) fn counts_and_places(rows: &mut [NewRow]) -> [Option<String>; 2] {
    let (mut by_count, mut by_places) = (Vec::new(), Vec::new());
    for row in rows.iter_mut().filter(|row| !row.places.is_empty()) {
        let count = row.cells.get(&Column::Count);
        let Some(count) = count.and_then(|count| read_quantity::holes(count).ok()) else {
            continue;
        };
        // Lists of locations say one in each of their lines.
        if count <= 1 || usize::try_from(count) == Ok(row.places.len()) {
            continue;
        }
        let mark = row.cells.get(&Column::Mark).map_or("", |mark| mark.trim());
        let told = (mark.to_owned(), count, row.places.len());
        if let (1, Some(typed)) = (row.places.len(), row.typed_place.take()) {
            by_count.push(told);
            row.places.clear();
            row.add_to_note(&words::one_place_of(count, &typed));
        } else {
            by_places.push(told);
        }
    }
    [
        words::counts_and_one_place(&by_count),
        words::counts_and_places(&by_places),
    ]
}
