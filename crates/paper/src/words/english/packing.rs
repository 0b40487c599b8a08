//! Words of the packing list.

use crate::words::customer::Packing;

/// What it says in English.
pub(super) const WORDS: Packing = Packing {
    title: "Packing list",
    cautions: [
        "Hole edges can be sharp, and thin cores can be left in blind holes: wear gloves and eye \
     protection, and follow the rules of your site.",
        "Parts may carry water or rust protection from the process: dry and protect them at once where \
     they can rust.",
        "Electrodes, fixtures and test pieces stay with the shop unless they are listed here.",
        "Count the parts against this list before they leave their packing, and tell us of what is \
     missing.",
    ],
    unpacking: "Unpacking",
    in_box: "In the box",
    enclosed: "Enclosed: ",
    sent: "Sent",
    carrier: "Carrier, tracking",
    packed_by: "Packed by",
    counted: "Counted",
    so_far: "sent so far",
    not_sent: "never delivered",
    still_to_come: "still to come",
    spares: "spares to return",
    packer: "packed by",
    boxes: "boxes",
    receiver: "received by, date",
    mass_of_parts,
};

/// What the parts weigh without their packing.
fn mass_of_parts(mass: &str) -> String {
    format!("{mass} of parts")
}
