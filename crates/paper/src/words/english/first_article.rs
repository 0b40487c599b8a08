//! Words of the first article inspection report.

use crate::words::customer::{CharacteristicsForm, FirstArticle, MaterialsForm, PartForm};

/// What it says in English.
pub(super) const WORDS: FirstArticle = FirstArticle {
    title: "First article report",
    what: "First article inspection by the fields of SAE AS9102 (Rev C), for the holes that we drilled; \
           everything else of the part is the customer's. A field that nobody filled is blank.",
    part: PartForm {
        name: "1 Part",
        remark: "numbers before the fields are those of the standard's first form",
        part_number: "1 part number",
        part_name: "2 part name",
        serial: "3 serial number",
        report: "4 report identifier",
        part_revision: "5 part revision",
        part_revision_too: "part revision",
        drawing: "6 drawing number",
        drawing_revision: "7 drawing revision",
        changes: "8 additional changes",
        process: "9 process: traveler, program",
        organization: "10 organization",
        supplier_code: "11 supplier code",
        order: "12 purchase order",
        kinds: [
            [
                "13 Detail or assembly: ",
                "detail; the part as the customer sent it, with the holes drilled here.",
            ],
            [
                "14 Full or partial: ",
                "partial; the holes drilled here and nothing else of the part.",
            ],
            [
                "15 to 18 Assembly and index of its parts: ",
                "none; a detail has no index.",
            ],
        ],
        baseline: "14 baseline part number and revision",
        reason: "14 reason for a partial report",
        only_here: "only the holes of this order are made here",
        comments: "26 comments",
        nonconforming: "19 Documented non-conformances: ",
        has_nonconformances: |some| {
            if some {
                "yes, as follows."
            } else {
                "none is on record."
            }
        },
        signed: [
            "20, 21 Verified; what the report says was measured or is blank.",
            "22, 23 Reviewed and approved for the shop.",
            "24, 25 Customer's approval, where it is asked for.",
        ],
    },
    materials: MaterialsForm {
        name: "2 Materials, special processes, functional tests",
        material: "Material or process",
        specification: "Specification, condition",
        code: "Code",
        source: "Supplier",
        approval: "Customer's approval",
        certificate: "Certificate no., heat",
        heat: |heats| format!("heat {heats}"),
        customer: "the customer, as sent",
        drilling: "Electrical discharge machining of holes, rotating tube electrode",
        by_drawing: "by the drawing",
        recast: |limit| format!("recast layer: {limit}"),
        special: "Electrical discharge machining leaves a recast layer: it counts as a special process \
                  where the customer's order or specification says so. The approval is the customer's \
                  to note.",
        test: "Functional test",
        procedure: "Procedure",
        acceptance: "Acceptance report",
        open_test: "Holes open",
        open_how: "prove every open hole open by pin, wire or light, as on the traveler",
        asked_test: "Asked of the inspection",
    },
    characteristics: CharacteristicsForm {
        name: "3 Characteristics",
        remark: "one line for each characteristic of the holes",
        number: "Char. no.",
        location: "Sheet, zone",
        designator: "Designator",
        requirement: "Requirement",
        result: "Result",
        tooling: "Gauge, calibrated until",
        trouble: "Non-conf. no.",
        no_holes: "No holes are in the table.",
        depth: |depth, unit| format!("depth {depth}\u{a0}{unit}"),
        depth_general: |depth, unit, allowed| {
            format!("depth {depth} \u{b1}{allowed}\u{a0}{unit}, general tolerance")
        },
        angle: |angle| format!("angle {angle}\u{b0}"),
        position: "location, entry: as drawn",
        only_measured: "Results are what was typed of this piece; a blank was not measured. Accepted is \
                        said where every hole of the line was checked and none found not good, of blind holes \
                        where their depth is on record too.",
        measured: "Measured as noted above.",
    },
};
