//! Words of the certificate of conformance.

use quillbore_job::Form;

use crate::words::customer::Certificate;

/// What it says in English.
pub(super) const WORDS: Certificate = Certificate {
    title: "Certificate of conformance",
    process: "The holes of this order were drilled by electrical discharge machining with a \
              rotating tube electrode, flushed with dielectric. Sparking leaves a recast layer and \
              below it a layer changed by heat; they remain in the holes where nothing else is stated here.",
    not_stated: "Material, heat treatment and all features that we did not make are as supplied by the \
                 customer and are not covered by this statement.",
    no_deviations: "No deviation is on record.",
    no_record: "none was issued",
    statement: "Statement",
    made_how: "Process",
    revision: "Revision",
    checked: "Checked",
    deviations: "Deviations",
    stated: "Stated",
    material: "material, as supplied",
    heat: "heat, as supplied",
    record: "inspection record",
    place: "place of issue",
    declared: "A supplier's declaration with the elements of ISO/IEC 17050-1: issuer and address above, \
               object, requirements, place, date and signature.",
    requirements: "Conforms to",
    position: "position",
    parts: "Parts",
    delivered: "Delivered",
    checked_of,
    conforms_to,
    asked: |text| format!("Asked of the inspection: {text}"),
    states,
};

fn checked_of(form: Form, mark: &str, [parts, of]: [u32; 2], not_good: u32) -> String {
    let shown = |count: u32| form.count(f64::from(count));
    let mut said = if parts == 0 {
        format!("{mark}: no check of every hole is on record")
    } else {
        let [parts, of] = [parts, of].map(shown);
        format!("{mark}: size of every hole checked on {parts} of {of} parts")
    };
    if not_good > 0 {
        said += &format!(", {} found not good", shown(not_good));
    }
    said
}

fn conforms_to(drawing: &str, order: &str) -> String {
    match (drawing, order) {
        ("", "") => "No drawing and no order number are on record.".to_owned(),
        (drawing, "") => format!("drawing {drawing}"),
        ("", order) => format!("order {order}"),
        (drawing, order) => format!("drawing {drawing}; order {order}"),
    }
}

fn states(all_checked: bool, record: Option<&str>) -> String {
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
