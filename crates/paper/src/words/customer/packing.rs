//! Words of the packing list.

/// The packing list.
#[derive(Clone, Copy, Debug)]
pub struct Packing {
    /// The paper's name.
    pub title: &'static str,
    /// Cautions for whoever unpacks.
    pub cautions: [&'static str; 4],
    /// Name of the section for whoever unpacks.
    pub unpacking: &'static str,
    /// Name of the section of what was sent.
    pub in_box: &'static str,
    /// Lead of the papers that go with the parts.
    pub enclosed: &'static str,
    /// What the parts weigh without their packing.
    pub mass_of_parts: fn(&str) -> String,
    /// Head of the day of a delivery.
    pub sent: &'static str,
    /// Head of how it was sent.
    pub carrier: &'static str,
    /// Head of who packed.
    pub packed_by: &'static str,
    /// Head of the squares to check off.
    pub counted: &'static str,
    /// Caption of the parts that were sent.
    pub so_far: &'static str,
    /// Caption of the parts that never will be, as non-conformances say.
    pub not_sent: &'static str,
    /// Caption of the parts that were not.
    pub still_to_come: &'static str,
    /// Caption of the spare parts.
    pub spares: &'static str,
    /// Caption of who packed this box.
    pub packer: &'static str,
    /// Caption of the number of boxes.
    pub boxes: &'static str,
    /// Caption of who took the box in, and when.
    pub receiver: &'static str,
}
