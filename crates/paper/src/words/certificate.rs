//! Words of the certificate of conformance.

/// The certificate's name.
pub const TITLE: &str = "Certificate of conformance";
/// What was done, in words.
pub const PROCESS: &str = "The holes named on the drawing were drilled by electrical discharge \
     machining with a rotating tube electrode, flushed with dielectric. A thin recast layer and \
     below it a thin layer changed by heat remain in the holes unless their removal was ordered.";
/// What is not stated.
pub const NOT_STATED: &str = "Material, heat treatment and all features that we did not make are as \
     supplied by the customer and are not covered by this statement.";
/// No deviation is on record.
pub const NO_DEVIATIONS: &str = "No deviation is on record.";
/// No inspection record was issued.
pub const NO_RECORD: &str = "none was issued";
/// Name of the section of what is stated.
pub const STATEMENT: &str = "Statement";
/// Name beside how the holes were made.
pub const MADE_HOW: &str = "Process";
/// Name beside what differs in the revision.
pub const REVISION: &str = "Revision";
/// Name beside what was checked.
pub const CHECKED: &str = "Checked";
/// Name beside the deviations.
pub const DEVIATIONS: &str = "Deviations";
/// Name beside the statement itself.
pub const STATED: &str = "Stated";
/// Caption of the work material.
pub const MATERIAL: &str = "material, as supplied";
/// Caption of the material's heat.
pub const HEAT: &str = "heat, as supplied";
/// Caption of the inspection record.
pub const RECORD: &str = "inspection record";
/// Caption of the place of issue.
pub const PLACE: &str = "place of issue";
/// What the statement is made by.
pub const DECLARED: &str = "A supplier's declaration with the elements of ISO/IEC 17050-1: issuer and address above, object, \
     requirements, place, date and signature.";
/// Name beside the requirements.
pub const REQUIREMENTS: &str = "Conforms to";
/// Caption of the signer's position.
pub const POSITION: &str = "position";
/// Name of the section of what was delivered.
pub const PARTS: &str = "Parts";
/// Head of the day of delivery.
pub const DELIVERED: &str = "Delivered";

/// How many of the parts had every hole of a mark checked.
pub fn checked(mark: &str, parts: u32, of: u32, not_good: u32) -> String {
    let mut said = match (parts, of) {
        (0, _) => format!("{mark}: no check of every hole is on record"),
        (parts, of) => format!("{mark}: every hole checked on {parts} of {of} parts"),
    };
    if not_good > 0 {
        said += &format!(", {not_good} found not good");
    }
    said
}

/// What the parts are stated to conform to.
pub fn requirements(drawing: &str, order: &str) -> String {
    match (drawing, order) {
        ("", "") => "No drawing and no order number are on record.".to_owned(),
        (drawing, "") => format!("drawing {drawing}"),
        ("", order) => format!("order {order}"),
        (drawing, order) => format!("drawing {drawing}; order {order}"),
    }
}

/// What the certificate states, and only as far as it was checked.
pub fn statement(all_checked: bool, record: Option<&str>) -> String {
    let record = record.map_or_else(String::new, |number| {
        format!(" What was measured is in inspection record {number}.")
    });
    let checked = if all_checked {
        " Every hole of these parts was checked."
    } else {
        " Holes were checked as far as stated above, not beyond."
    };
    format!(
        "We state that the holes of the parts listed above were made to the drawing and revision \
         named, as far as the order covers them, with no deviation known to us but those listed.{checked}{record}"
    )
}
