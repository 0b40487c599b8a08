//! Words of drawing, part, material and receipt.

/// Heading of a drawing that was only mentioned.
pub const SPOKEN_OF: &str = "Only mentioned, not here: ";
/// What to do about it.
pub const SPOKEN_OF_THEN: &str = "Work to the revision above and ask when another one turns up.";
/// Drawing check.
pub const DRAWING_CHECK: &str =
    "The drawing at the machine is of this number and revision (who sets up).";
/// Receiving check.
pub const RECEIVED_CHECK: &str =
    "Counted and looked over; damage noted above and reported (who receives).";
/// The material isn't in the shop's tables.
pub const HAZARD_UNKNOWN: &str =
    "not known, the material is not in the shop's list; ask before the first burn";
/// The material brings no danger of its own.
pub const HAZARD_NONE: &str = "none on record beyond what holds for every metal and for the electrode: fume, mist and sludge \
     are harmful; read the cautions at the end";
/// Where the cautions stand.
pub const HAZARD_READ: &str = "read the cautions at the end";
/// Name beside the drawing.
pub const DRAWING: &str = "Drawing";
/// Caption of the drawing's revision.
pub const DRAWING_REVISION: &str = "drawing rev";
/// Caption of the drawing's general tolerance.
pub const TOLERANCE: &str = "title-block tolerance";
/// Caption of the datums.
pub const DATUMS: &str = "datums and pick-up";
/// Name beside the part.
pub const PART: &str = "Part";
/// Caption of the part's size.
pub const SIZE: &str = "size x, y, z";
/// Caption of the thickness of the wall.
pub const WALL: &str = "wall thickness";
/// Caption of the part's mass.
pub const MASS: &str = "mass of one part";
/// Lead of how the part is lifted.
pub const LIFTING: &str = "Lifting: ";
/// Name beside the material.
pub const MATERIAL: &str = "Material";
/// Caption of what is on the surface.
pub const COATING: &str = "coating, scale, bare spot";
/// Lead of a measured resistivity.
pub const RESISTIVITY: &str = "Resistivity, measured: ";
/// Name beside what came in.
pub const RECEIVED: &str = "Received";
/// Caption of heat and serial numbers.
pub const HEAT: &str = "heat and serial numbers";
/// Caption of the condition in which it came in.
pub const DAMAGE: &str = "condition, existing damage";

/// Lead of the dangers of the material, or of a layer's by its name.
pub fn hazard(layer: Option<&str>) -> String {
    match layer {
        Some(name) => format!("Hazard of {name}: "),
        None => "Hazard: ".to_owned(),
    }
}

/// Caption of the count, with what is expected.
pub fn expected(parts: Option<u32>, spares: Option<u32>) -> String {
    match (parts, spares) {
        (Some(parts), Some(spares)) if spares > 0 => {
            format!("count, of {parts} and {spares} spare")
        }
        (Some(parts), _) => format!("count, of {parts}"),
        (None, _) => "count".to_owned(),
    }
}
