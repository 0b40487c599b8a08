//! Words of the packing list.

/// The packing list's name.
pub const TITLE: &str = "Packing list";
/// Cautions for whoever unpacks.
pub const CAUTIONS: [&str; 4] = [
    "Hole edges can be sharp, and thin cores can be left in blind holes: wear gloves and eye \
     protection, and follow the rules of your site.",
    "Parts may carry water or rust protection from the process: dry and protect them at once where \
     they can rust.",
    "Electrodes, fixtures and test pieces stay with the shop unless they are listed here.",
    "Count the parts against this list before they leave their packing, and tell us of what is \
     missing.",
];
/// Name of the section for whoever unpacks.
pub const UNPACKING: &str = "Unpacking";
/// Name of the section of what was sent.
pub const IN_BOX: &str = "In the box";
/// Lead of the papers that go with the parts.
pub const ENCLOSED: &str = "Enclosed: ";
/// What the parts weigh without their packing.
pub fn mass_of_parts(mass: &str) -> String {
    format!("{mass} of parts")
}
/// Head of the day of a delivery.
pub const SENT: &str = "Sent";
/// Head of how it was sent.
pub const CARRIER: &str = "Carrier, tracking";
/// Head of who packed.
pub const PACKED_BY: &str = "Packed by";
/// Head of the squares to check off.
pub const COUNTED: &str = "Counted";
/// Caption of the parts that were sent.
pub const SO_FAR: &str = "sent so far";
/// Caption of the parts that never will be, as non-conformances say.
pub const NOT_SENT: &str = "never delivered";
/// Caption of the parts that were not.
pub const STILL_TO_COME: &str = "still to come";
/// Caption of the spare parts.
pub const SPARES: &str = "spares to return";
/// Caption of who packed this box.
pub const PACKER: &str = "packed by";
/// Caption of the number of boxes.
pub const BOXES: &str = "boxes";
/// Caption of who took the box in, and when.
pub const RECEIVER: &str = "received by, date";
