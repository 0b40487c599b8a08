//! Words of the first article inspection report; the fields are those that AS9102 names, with their
//! numbers where these are published.

/// The first article inspection report.
#[derive(Clone, Copy, Debug)]
pub struct FirstArticle {
    /// The report's name.
    pub title: &'static str,
    /// What it is, and of what.
    pub what: &'static str,
    /// The first form.
    pub part: PartForm,
    /// The second form.
    pub materials: MaterialsForm,
    /// The third form.
    pub characteristics: CharacteristicsForm,
}

/// The first form: what the report is of, and who stands for it.
#[derive(Clone, Copy, Debug)]
pub struct PartForm {
    /// Its name.
    pub name: &'static str,
    /// What the numbers of its fields are.
    pub remark: &'static str,
    /// Caption of the part's number.
    pub part_number: &'static str,
    /// Caption of the part's name.
    pub part_name: &'static str,
    /// Caption of the piece's serial number.
    pub serial: &'static str,
    /// Caption of the report's number.
    pub report: &'static str,
    /// Caption of the part's revision.
    pub part_revision: &'static str,
    /// The same on the other forms, where it has no number.
    pub part_revision_too: &'static str,
    /// Caption of the drawing's number.
    pub drawing: &'static str,
    /// Caption of the drawing's revision.
    pub drawing_revision: &'static str,
    /// Caption of changes that are not in the revision.
    pub changes: &'static str,
    /// Caption of what it was made by.
    pub process: &'static str,
    /// Caption of who made it.
    pub organization: &'static str,
    /// Caption of what the customer calls that.
    pub supplier_code: &'static str,
    /// Caption of the order.
    pub order: &'static str,
    /// Detail or assembly, full or partial, what is assembled: each lead with what it is.
    pub kinds: [[&'static str; 2]; 3],
    /// Caption of the part that a partial report rests on.
    pub baseline: &'static str,
    /// Caption of why it is partial.
    pub reason: &'static str,
    /// Why a report of ours is one.
    pub only_here: &'static str,
    /// Caption of what else is to be said.
    pub comments: &'static str,
    /// Lead of whether anything is not as asked.
    pub nonconforming: &'static str,
    /// Whether non-conformances are on record.
    pub has_nonconformances: fn(bool) -> &'static str,
    /// Who made the report, stands for it, and accepts it.
    pub signed: [&'static str; 3],
}

/// The second form: materials, special processes, functional tests.
#[derive(Clone, Copy, Debug)]
pub struct MaterialsForm {
    /// Its name.
    pub name: &'static str,
    /// Head of the material or process.
    pub material: &'static str,
    /// Head of what is asked of it.
    pub specification: &'static str,
    /// Head of its code.
    pub code: &'static str,
    /// Head of who supplied or did it.
    pub source: &'static str,
    /// Head of whether the customer approved them.
    pub approval: &'static str,
    /// Head of what proves it.
    pub certificate: &'static str,
    /// The heats of a material.
    pub heat: fn(&str) -> String,
    /// The customer, as the source of the material.
    pub customer: &'static str,
    /// The work done here.
    pub drilling: &'static str,
    /// Nothing is asked beyond the drawing.
    pub by_drawing: &'static str,
    /// A limit on the recast layer.
    pub recast: fn(&str) -> String,
    /// What a special process is for the reader.
    pub special: &'static str,
    /// Head of a test.
    pub test: &'static str,
    /// Head of how it is done.
    pub procedure: &'static str,
    /// Head of what came of it.
    pub acceptance: &'static str,
    /// That holes are open.
    pub open_test: &'static str,
    /// How that is proved.
    pub open_how: &'static str,
    /// What the customer asks for.
    pub asked_test: &'static str,
}

/// The third form: every characteristic, with what was found.
#[derive(Clone, Copy, Debug)]
pub struct CharacteristicsForm {
    /// Its name.
    pub name: &'static str,
    /// What its lines are.
    pub remark: &'static str,
    /// Head of the characteristic's number.
    pub number: &'static str,
    /// Head of where it is on the drawing.
    pub location: &'static str,
    /// Head of whether it is key or critical.
    pub designator: &'static str,
    /// Head of what is asked.
    pub requirement: &'static str,
    /// Head of what was found.
    pub result: &'static str,
    /// Head of what it was measured with.
    pub tooling: &'static str,
    /// Head of the number of its non-conformance.
    pub trouble: &'static str,
    /// There are no rows.
    pub no_holes: &'static str,
    /// The depth of holes, and what it is in.
    pub depth: fn(&str, &str) -> String,
    /// The depth of holes, what it is in, and the tolerance that holds where the drawing gives it none.
    pub depth_general: fn(&str, &str, &str) -> String,
    /// The angle of holes.
    pub angle: fn(&str) -> String,
    /// The location of holes.
    pub position: &'static str,
    /// What blanks mean.
    pub only_measured: &'static str,
    /// What who measured signs.
    pub measured: &'static str,
}
