//! Words of the traveler's hole table.

use quillbore_calc::Limits;
use quillbore_calc::finding::Level;
use quillbore_job::Unit;

use crate::words::phrases::unit_in_full;

/// There are no rows.
pub const NO_HOLES: &str = "The hole table is empty: nothing may be drilled from this paper.";
/// Holes drilled from both ends.
pub const BOTH_ENDS: &str = "Drill half from the entry, half from the exit.";
/// Holes drilled from their entry because somebody said so.
pub const ONE_END: &str = "Drill from the entry only.";
/// A row whose setting is a first try.
pub const FIRST_BELOW: &str = "Setting is a first try: see the depths that the first hole decides.";
/// A loose core could be trapped.
pub const CORE_TRAPPED: &str = "A loose core could be trapped: take it out, keep it with the part and show it to who inspects.";
/// Somebody said that no core can be trapped.
pub const CORE_FREE: &str = "No core can be trapped here.";
/// Backing is planned.
pub const BACKED: &str = "Backing behind the exit.";
/// Somebody said that none is.
pub const NOT_BACKED: &str = "No backing behind the exit.";
/// Name of the section.
pub const NAME: &str = "Holes";
/// Head of what the machine is set to.
pub const SETTING: &str = "Setting";
/// Head of how deep the tip goes.
pub const TIP: &str = "Tip, planned";
/// Head of the minutes.
pub const MINUTES: &str = "Minutes";
/// Of one hole.
pub const EACH: &str = "each";
/// There is no electrode yet.
pub const NOT_CHOSEN: &str = "not chosen yet";
/// The characteristic's number and zone on the drawing, as far as they are typed.
pub fn characteristic([number, zone]: [&str; 2]) -> Option<String> {
    match [number, zone] {
        ["", ""] => None,
        [number, ""] => Some(format!("Characteristic {number}.")),
        ["", zone] => Some(format!("Drawing zone {zone}.")),
        [number, zone] => Some(format!("Characteristic {number}, drawing zone {zone}.")),
    }
}
/// No electrode of the shop makes the size.
pub const NONE_FITS: &str = "none of the shop fits";
/// Minutes, among the figures that were typed.
pub const OWN_MINUTES: &str = "minutes";
/// Wear, among the figures that were typed.
pub const OWN_WEAR: &str = "wear";

/// What a drawing measures its angles from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measured {
    /// No row has an angle.
    Nothing,
    /// All from the same.
    From(&'static str),
    /// Some from the surface, some from its normal.
    Mixed,
}

/// The hole table's remark.
pub fn hole_table_remark(unit: Unit, measured: Measured) -> String {
    let unit = unit_in_full(unit);
    let measured = match measured {
        Measured::Nothing => String::new(),
        Measured::From(basis) => format!(", the drawing measures {basis} (bold)"),
        Measured::Mixed => ", those of the drawing are bold".to_owned(),
    };
    format!(
        "lengths in {unit}; angles in degrees{measured}; setting and tip: from touch-off; minutes for one \
         hole"
    )
}

/// A finding's level before its sentence.
pub fn level(level: Level) -> &'static str {
    match level {
        Level::Stop => "Stop",
        Level::Check => "Check",
        Level::Note => "Note",
    }
}

/// The chance of a size with the electrode to begin with.
pub fn chance(inside: &str, over: &str) -> String {
    format!("Chance that the first hole is within its limits: {inside}; too large: {over}.")
}

/// What the size comes to once the first piece was measured.
pub fn held(verdict: &str) -> String {
    format!("Once that is measured and corrected, the limits are {verdict}.")
}

/// A depth as the drawing gives it.
pub fn depth_drawn(depth: &str) -> String {
    format!("Depth as drawn: {depth}.")
}

/// When the electrode's tip is dressed; where nobody said so, by the trade's rule.
pub fn dressing(every: Option<u32>, typed: &str, blind: bool) -> Option<String> {
    match (every, typed) {
        (Some(0), _) => Some("No dressing.".to_owned()),
        (Some(1), _) => Some("Dress the tip before every hole.".to_owned()),
        (Some(holes), _) => Some(format!("Dress the tip before every {holes} holes.")),
        (None, "") if blind => Some("Dress the tip before every hole.".to_owned()),
        (None, "") => None,
        (None, typed) => Some(format!("Dressing: {typed}.")),
    }
}

/// How many electrodes one hole takes, where it is more than one.
pub fn electrodes_in(count: u32, both_ends: bool) -> Option<String> {
    match (count, both_ends) {
        (0 | 1, _) => None,
        (2, true) => Some("One electrode reaches from each end.".to_owned()),
        (count, true) => Some(format!("{count} electrodes in each hole, over both ends.")),
        (count, false) => Some(format!(
            "{count} electrodes one after another in each hole."
        )),
    }
}

/// How much of an electrode one hole uses up.
pub struct UsedUp {
    /// As planned.
    pub planned: String,
    /// If wear is high.
    pub high: String,
}

/// How far a row's planned figures may be off.
pub fn spread(minutes: Option<Limits<String>>, wear: Option<UsedUp>) -> String {
    let mut said = Vec::new();
    if let Some(Limits { lower, upper }) = minutes {
        said.push(format!("minutes {lower} to {upper}"));
    }
    if let Some(UsedUp { planned, high }) = wear {
        said.push(format!(
            "electrode used up {planned}, if wear is high {high}"
        ));
    }
    if said.is_empty() {
        return String::new();
    }
    format!("One hole: {}.", said.join("; "))
}

/// Figures that the office typed in place of computed ones.
pub fn typed(figures: &[&str]) -> String {
    format!("Typed by the office, not computed: {}.", figures.join(", "))
}

/// The rows that have a line alike, before it.
pub fn of_rows(marks: &str) -> String {
    format!("{marks}: ")
}

/// What the drawing says of a row.
pub fn drawing(note: &str) -> String {
    format!("Drawing: {note}")
}
