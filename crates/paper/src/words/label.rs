//! Words of the box label.

/// The label's name.
pub const TITLE: &str = "Box label";
/// What to do with the sheet.
pub const CUT: &str = "cut along the line, or fold the sheet behind it";
/// Caption of the sender.
pub const FROM: &str = "from";
/// Caption of the receiver.
pub const TO: &str = "to";
/// Caption of the parts in the box.
pub const PARTS: &str = "parts in this delivery";
/// Caption of the number of the box.
pub const BOX: &str = "box";
/// Between the number of the box and how many there are.
pub const OF: &str = "of";
