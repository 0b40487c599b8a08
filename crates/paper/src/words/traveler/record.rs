//! Words of the run record.

use quillbore_job::Line;
use quillbore_job::slip::{LineOf, kind, line};

/// What the record is for.
pub const REMARK: &str =
    "what really happened, one line for each electrode; the office types it in";
/// Name of the section.
pub const NAME: &str = "Run record";
/// Head of the holes.
pub const MARK: &str = "Mark, holes from \u{2013} to";
/// Head of the electrode's number.
pub const ELECTRODE: &str = "Electrode number";
/// Head of the tube's length before.
pub const BEFORE: &str = "Tube before";
/// Head of the tube's length after.
pub const AFTER: &str = "Tube after";
/// Head of the minutes of sparking.
pub const SPARKING: &str = "Sparking";
/// What the minutes of sparking are counted in.
pub const MINUTES: &str = "min";
/// Head of what went wrong.
pub const TROUBLE: &str = "Broke, stuck, redone";
/// Caption of the machine's hours.
pub const HOURS: &str = "machine hours from \u{2013} to, stops taken off";
/// Caption of the settings.
pub const SETTINGS: &str = "settings that worked, where they differ";
/// Caption of what was learned.
pub const NEXT_TIME: &str = "what to do otherwise next time";

/// Lines of a record that stand under its row, in their order.
pub const IN_NOTE: [LineOf<kind::Run>; 13] = [
    LineOf::new(line::TubeUsed),
    LineOf::new(line::Dressed),
    LineOf::new(line::DepthReached),
    LineOf::new(line::FloorMinutes),
    LineOf::new(line::StopMinutes),
    LineOf::new(line::Electrodes),
    LineOf::new(line::Good),
    LineOf::new(line::Scrap),
    LineOf::new(line::Pins),
    LineOf::new(line::Trouble),
    LineOf::new(line::Settings),
    LineOf::new(line::NextTime),
    LineOf::new(line::LeftOut),
];

/// A mark with the number of holes drilled.
pub fn holes(mark: &str, holes: &str) -> String {
    format!("{mark}, {holes} holes")
}

/// A line of a record under its row.
pub fn noted(line: Line, text: &str) -> String {
    match line {
        Line::TubeUsed => format!("drilled with {text}"),
        Line::Dressed => format!("{text} of the tube dressed or cut off"),
        Line::DepthReached => format!("{text} deep"),
        Line::LeftOut => format!("left out of learning: {text}"),
        Line::FloorMinutes => format!("{text} min by the clock"),
        Line::StopMinutes => format!("{text} min of them stops"),
        Line::Electrodes => format!("{text} electrodes used"),
        Line::Good => format!("{text} parts good"),
        Line::Scrap => format!("{text} spoiled"),
        Line::Pins => format!("sizes by pin {text}"),
        Line::Trouble => format!("went wrong: {text}"),
        Line::Settings => format!("settings that worked: {text}"),
        Line::NextTime => format!("next time: {text}"),
        _ => text.to_owned(),
    }
}
