//! What is said of foreign tables: heads, values, what was guessed and left out.

mod columns;
pub mod compare;
mod drawing;
pub mod drawn;
mod errors;
pub(crate) mod notes;
mod notices;
pub mod pages;
mod report;
mod sheets;
mod solids;
mod units;

pub use columns::{LEAVE_OUT, holds, how, not_understood_of, question, understood};
pub use report::{holes_in_rows, summary, units_question};

pub(crate) use report::{
    FURTHER_PLACE, HALF_A_PLACE, NO_COUNT, NO_DIRECTION, SENSE_OF_AXES, SIZE_AND_LIMITS, TAKEN,
    above_the_head, blind_by_depth, cell_left_out, counts_and_one_place, counts_and_places,
    encoding_guessed, further_table, guessed, head_again, head_taken, in_order, left_for_limits,
    line_breaks, looks_like, maybe_several_marks, no_cross, no_hole, nothing_under, one_place_of,
    part_in_note, part_of_head, place_unread, read_as, remembered, rule, said, separator,
    separator_line, several_marks, split, split_cells, sum, sum_differs, uncounted, unread,
    words_taken,
};

pub(crate) use units::{
    comma_in_doubt, comma_read, tolerance_in_its_unit, tolerance_in_units, unit_of_section, units,
};

pub(crate) use sheets::{
    COMMENTS, HIDES, STRIKES, dates, fractions, merged, sheet_taken, struck, uncalculated,
};

/// A text in quotes.
fn in_quotes(text: &str) -> String {
    format!("\u{201c}{text}\u{201d}")
}

/// So many of a thing, in one of its two forms.
fn count(count: u64, one: &str, several: &str) -> String {
    match count {
        1 => format!("1 {one}"),
        count => format!("{count} {several}"),
    }
}

/// How many of a kind a sentence names.
const NAMED: usize = 6;

/// The first few of some texts, and how many more there are.
fn first_of(texts: &[String]) -> String {
    let more = match texts.len().saturating_sub(NAMED) {
        0 => String::new(),
        more => format!(" and {more} more"),
    };
    let first: Vec<&str> = texts.iter().take(NAMED).map(String::as_str).collect();
    format!("{}{more}", first.join(", "))
}
