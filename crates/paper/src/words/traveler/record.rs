//! Words of the run record; the heads of its columns are those of the table in the window.

use quillbore_job::slip::{LineOf, kind, line};
use quillbore_job::{Form, Line};

use crate::words::phrases::typed_count;

/// What the record is for.
pub const REMARK: &str = "a pair of lines for each electrode; of several marks one each, the lengths in the first; the office types it in";
/// What its blank pages are called.
pub const BLANK: &str = "blank run record";
/// Name of the section.
pub const NAME: &str = "Run record";
/// Where electrodes and marks of the plan take more records than the page has.
pub fn more_sheets(form: Form, [electrodes, records]: [u64; 2]) -> String {
    let [electrodes, records] = [electrodes, records].map(|count| form.count(count as f64));
    format!(
        "The plan has {electrodes} electrodes and takes {records} records, one for each mark on each of them: continue on further \
         sheets of this page."
    )
}

/// Caption of the machine's hours.
pub const HOURS: &str = "machine hours from \u{2013} to, less stops";
/// Caption of the settings.
pub const SETTINGS: &str = "trouble, and settings that worked where they differ";
/// Caption of what was learned.
pub const NEXT_TIME: &str = "what to do differently next time";

/// Lines of a record that stand under its columns, in their order.
pub const IN_NOTE: [LineOf<kind::Run>; 5] = [
    LineOf::new(line::Electrodes),
    LineOf::new(line::Trouble),
    LineOf::new(line::Settings),
    LineOf::new(line::NextTime),
    LineOf::new(line::LeftOut),
];

/// A line of a record under its columns.
pub fn noted(line: Line, text: &str) -> String {
    match line {
        Line::Electrodes => match typed_count(text, "electrode", "electrodes") {
            Some(used) => format!("{used} used"),
            None => format!("electrodes used: {text}"),
        },
        Line::Trouble => format!("went wrong: {text}"),
        Line::Settings => format!("settings that worked: {text}"),
        Line::NextTime => format!("next time: {text}"),
        Line::LeftOut => format!("left out of learning: {text}"),
        _ => text.to_owned(),
    }
}
