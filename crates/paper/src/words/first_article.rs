//! Words of the first article inspection report; the fields are those that AS9102 names, with their numbers
//! where these are published.

/// The report's name.
pub const TITLE: &str = "First article report";
/// What it is, and of what.
pub const WHAT: &str = "First article inspection by the fields of SAE AS9102, for the holes that we drilled; everything else of the part is the \
     customer's. A field that nobody filled is blank.";
/// Name of the first form.
pub const PART: &str = "1 Part";
/// What the numbers of its fields are.
pub const PART_REMARK: &str = "numbers before the fields are those of the standard's first form";
/// Name of the second form.
pub const MATERIALS: &str = "2 Materials, special processes, functional tests";
/// Name of the third form.
pub const CHARACTERISTICS: &str = "3 Characteristics";
/// What its lines are.
pub const CHARACTERISTICS_REMARK: &str = "one line for each toleranced attribute of the holes";

/// Captions of the first form.
pub const PART_NUMBER: &str = "1 part number";
/// The part's name.
pub const PART_NAME: &str = "2 part name";
/// The piece's serial number.
pub const SERIAL: &str = "3 serial number";
/// The report's number.
pub const REPORT: &str = "4 report identifier";
/// The part's revision.
pub const PART_REVISION: &str = "5 part revision";
/// The drawing's number.
pub const DRAWING: &str = "6 drawing number";
/// The drawing's revision.
pub const DRAWING_REVISION: &str = "7 drawing revision";
/// Changes that are not in the revision.
pub const CHANGES: &str = "8 additional changes";
/// What it was made by.
pub const PROCESS: &str = "9 process: traveler, program";
/// Who made it.
pub const ORGANIZATION: &str = "10 organization";
/// What the customer calls that.
pub const SUPPLIER_CODE: &str = "11 supplier code";
/// The order.
pub const ORDER: &str = "12 purchase order";
/// Detail or assembly.
pub const DETAIL: &str = "13 Detail or assembly: ";
/// Which it is.
pub const DETAIL_SAID: &str =
    "detail; the part as the customer sent it, with the holes drilled here.";
/// Full or partial.
pub const PARTIAL: &str = "14 Full or partial: ";
/// Which it is.
pub const PARTIAL_SAID: &str = "partial; the holes drilled here and nothing else of the part.";
/// What is assembled.
pub const ASSEMBLY: &str = "15, 16 Assembly and index of its parts: ";
/// None.
pub const ASSEMBLY_SAID: &str = "none; a detail has no index.";
/// The part that a partial report rests on.
pub const BASELINE: &str = "14 baseline part number";
/// Why it is partial.
pub const REASON: &str = "14 reason for a partial report";
/// Whether anything is not as asked.
pub const NONCONFORMING: &str = "Non-conformances: ";
/// Who made the report.
pub const PREPARED: &str =
    "Report prepared; what it says was measured or is named as not measured.";
/// Who stands for it.
pub const APPROVED: &str = "Report approved for the shop.";
/// Who accepts it.
pub const CUSTOMER_APPROVAL: &str = "Customer's approval, where it is asked for.";

/// How many non-conformances are on record.
pub fn nonconforming(count: usize) -> &'static str {
    if count == 0 {
        "none is on record."
    } else {
        "yes, as follows."
    }
}

/// Heads of the second form.
pub const MATERIAL: &str = "Material or process";
/// What is asked of it.
pub const SPECIFICATION: &str = "Specification";
/// Its code.
pub const CODE: &str = "Code";
/// Who supplied or did it.
pub const SOURCE: &str = "Supplier";
/// Whether the customer approved them.
pub const APPROVAL: &str = "Customer's approval";
/// What proves it.
pub const CERTIFICATE: &str = "Certificate, heat";
/// The customer.
pub const CUSTOMER: &str = "the customer, as sent";
/// The work done here.
pub const DRILLING: &str = "Electrical discharge machining of holes, rotating tube electrode";
/// Nothing is asked beyond the drawing.
pub const BY_DRAWING: &str = "by the drawing";
/// What a special process is for the reader.
pub const SPECIAL: &str = "Electrical discharge machining leaves a recast layer: it counts as a special process where the customer's \
     order or specification says so. The approval is the customer's to note.";
/// Head of a test.
pub const TEST: &str = "Functional test";
/// How it is done.
pub const PROCEDURE: &str = "Procedure";
/// What came of it.
pub const ACCEPTANCE: &str = "Acceptance report";
/// Open holes.
pub const OPEN_TEST: &str = "Holes open";
/// How that is proved.
pub const OPEN_HOW: &str = "every open hole proved open by pin, wire or light, as on the traveler";
/// What the customer asks for.
pub const ASKED_TEST: &str = "As asked for";

/// A limit on the recast layer.
pub fn recast(limit: &str) -> String {
    format!("recast layer: {limit}")
}

/// Heads of the third form.
pub const NUMBER: &str = "Char. no.";
/// Where on the drawing.
pub const LOCATION: &str = "Sheet, zone";
/// Key or critical.
pub const DESIGNATOR: &str = "Designator";
/// What is asked.
pub const REQUIREMENT: &str = "Requirement";
/// What was found.
pub const RESULT: &str = "Result";
/// What it was measured with.
pub const TOOLING: &str = "Gauge, calibrated until";
/// Whether it is accepted.
pub const ACCEPTED: &str = "Accepted";
/// The number of its non-conformance.
pub const TROUBLE: &str = "Non-conf. no.";
/// Anything else.
pub const REMARK: &str = "Remark";
/// Nothing was typed.
pub const NO_HOLES: &str = "No holes are in the table.";
/// The location of holes.
pub const POSITION: &str = "location, entry: as drawn";
/// What blanks mean.
pub const ONLY_MEASURED: &str = "Results are what was typed of this piece; a blank was not measured. Accepted is said where every \
     hole of the line was checked and none found not good.";
/// What who measured signs.
pub const MEASURED: &str = "Measured as noted above, with gauges in calibration.";

/// A requirement of a row.
pub fn of_mark(mark: &str, asked: &str) -> String {
    format!("{mark}: {asked}")
}

/// Sizes of so many holes.
pub fn size(count: &str, limits: &str, unit: &str) -> String {
    let count = match count {
        "" | "1" => String::new(),
        count => format!("{count}\u{a0}\u{d7} "),
    };
    format!("{count}\u{2300}\u{a0}{limits}\u{a0}{unit}")
}

/// From one limit to the other.
pub fn between(lower: &str, upper: &str) -> String {
    format!("{lower}\u{a0}\u{2013}\u{a0}{upper}")
}

/// A depth.
pub fn depth(depth: &str, unit: &str) -> String {
    format!("depth {depth}\u{a0}{unit}")
}

/// An angle.
pub fn angle(angle: &str) -> String {
    format!("angle {angle}\u{b0}")
}

/// Whether all of a line is as asked.
pub fn accepted(yes: bool) -> &'static str {
    if yes { "yes" } else { "no" }
}

/// A gauge by its number, until when it is calibrated, and how warm it was.
pub fn gauge(number: &str, until: &str, temperature: &str) -> String {
    let mut said = number.trim().to_owned();
    if !until.is_empty() {
        said += &format!(", until {until}");
    }
    if !temperature.trim().is_empty() {
        said += &format!("; {}", temperature.trim());
    }
    said.trim_start_matches([',', ';', ' ']).to_owned()
}
