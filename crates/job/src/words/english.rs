//! Labels, choices and offers in American shop English.

use quillbore_calc::broken::{Kind, Stuff};
use quillbore_calc::finding::Level;
use quillbore_calc::input::{Ends, HoleEnd, PartAxis, Proof};
use quillbore_calc::job_figures::Verdict;
use quillbore_calc::tables::{Family, Hazard, TubeMaterial};

use crate::typed::entry::Unit;
use crate::typed::field::{AngleBasis, Block, Field};
use crate::typed::read_cell::CellKind;
use crate::typed::row::Column;

/// Yes.
pub const YES: &str = "yes";
/// No.
pub const NO: &str = "no";
/// The hold point that a remedy writes.
pub const HOLD_TEST_PIECE: &str = "Test piece of the same material: hold until it is approved.";

/// A block's name at the head of its lines.
#[must_use]
pub const fn block(block: Block) -> &'static str {
    match block {
        Block::Inquiry => "Inquiry",
        Block::Plan => "Plan",
        Block::Price => "Price",
    }
}

/// A field's label on the sheet.
#[must_use]
pub const fn field(field: Field) -> &'static str {
    match field {
        Field::Customer => "customer",
        Field::Contact => "contact",
        Field::CustomerAddress => "customer's address",
        Field::OurNumber => "our number there",
        Field::Language => "language",
        Field::CustomerReference => "customer's reference",
        Field::Part => "part",
        Field::PartName => "part name",
        Field::Revision => "rev",
        Field::Drawing => "drawing",
        Field::DrawingRevision => "drawing rev",
        Field::Material => "material",
        Field::Condition => "condition",
        Field::Hardness => "hardness",
        Field::Coating => "coating",
        Field::Resistivity => "resistivity, measured",
        Field::SizeX => "x",
        Field::SizeY => "y",
        Field::SizeZ => "z",
        Field::Mass => "mass",
        Field::Thickness => "wall thickness",
        Field::DefaultTolerance => "title-block tolerance",
        Field::AngleBasis => "angles measured from",
        Field::Quantity => "quantity",
        Field::Breaks => "price breaks",
        Field::Due => "due",
        Field::ComesIn => "parts come in",
        Field::PartValue => "part value",
        Field::LiabilityCap => "cap per part",
        Field::Spares => "spares sent",
        Field::HoldPoints => "hold points",
        Field::AskBefore => "ask before",
        Field::Datums => "datums and pick-up",
        Field::FacesNotToClamp => "faces not to clamp",
        Field::RecastLimit => "recast limit",
        Field::Notes => "notes",
        Field::Again => "reorder of",
        Field::LaidAside => "set aside, why",
        Field::Machine => "machine",
        Field::IndexAbout => "index axis turns about",
        Field::Fixture => "fixture",
        Field::RestsOn => "rests on",
        Field::FlushPressure => "flush pressure",
        Field::Masking => "masking",
        Field::MaskingMinutes => "masking, minutes per part",
        Field::Program => "program",
        Field::Settings => "settings",
        Field::Lessons => "lessons from the last run",
        Field::SetupText => "setup",
        Field::BackingText => "backing",
        Field::FirstPiece => "first piece",
        Field::StopIf => "stop if",
        Field::After => "after drilling",
        Field::Inspection => "inspection",
        Field::Margin => "margin",
        Field::AgreedMachineHour => "machine hour, agreed",
        Field::AgreedLaborHour => "labor hour, agreed",
        Field::Currency => "currency",
        Field::ExchangeRate => "exchange rate",
        Field::ExchangeDay => "rate of",
        Field::AmountsIn => "amounts typed in",
        Field::ValuesIn => "part value, cap and prices typed in",
        Field::FixtureCost => "fixture, one-time cost",
        Field::TestPieceCost => "test piece, one-time cost",
        Field::OutsideCost => "outside work, cost per lot",
        Field::OutsidePerPart => "outside work, cost per part",
        Field::OutsideText => "outside work",
        Field::OutsideDays => "outside, working days",
        Field::LeadDays => "lead time, working days",
        Field::ValidDays => "valid for, days",
        Field::FollowUp => "follow up on",
        Field::Payment => "payment",
        Field::Delivery => "delivery",
        Field::Clauses => "clauses",
        Field::Exclusions => "exclusions",
    }
}

/// What a column of the hole table is called.
#[derive(Clone, Copy, Debug)]
pub struct ColumnWords {
    /// At its head.
    pub head: &'static str,
    /// Inside a sentence.
    pub name: &'static str,
}

/// What a column is called.
#[must_use]
pub const fn column(column: Column) -> ColumnWords {
    const fn words(head: &'static str, name: &'static str) -> ColumnWords {
        ColumnWords { head, name }
    }
    match column {
        Column::Mark => words("mark", "mark"),
        Column::Count => words("count", "count"),
        Column::Size => words("size", "size"),
        Column::Depth => words("depth", "depth"),
        Column::End => words("end", "end"),
        Column::Angle => words("angle", "angle"),
        Column::Surface => words("surface", "surface"),
        Column::Exit => words("exit", "exit surface"),
        Column::Recess => words("recess", "recess"),
        Column::Broken => words("broken tool", "broken tool"),
        Column::Below => words("below face", "depth below the face"),
        Column::Tried => words("tried so far", "what was tried"),
        Column::Wire => words("wire", "wire diameter"),
        Column::LeastExit => words("least exit", "least free exit"),
        Column::ToProfile => words("center to profile", "distance from center to profile"),
        Column::Proved => words("proved by", "proof that it is open"),
        Column::Behind => words("clearance behind", "clearance behind"),
        Column::Backed => words("backed", "backing"),
        Column::Layers => words("layers", "layers"),
        Column::CoreTrapped => words("core trapped", "trapped core"),
        Column::Ends => words("drilled from", "ends drilled from"),
        Column::Tube => words("electrode", "electrode"),
        Column::DressEvery => words("dress every", "dressing"),
        Column::Characteristic => words("char. no.", "characteristic number"),
        Column::Zone => words("zone", "drawing zone"),
        Column::Note => words("note", "note"),
    }
}

/// The unit that stands in a column's head; empty where its cells have none.
#[must_use]
pub const fn column_unit(column: Column, unit: Unit) -> &'static str {
    match column.kind() {
        CellKind::Size | CellKind::Depth | CellKind::Length | CellKind::Distance => unit.symbol(),
        CellKind::Angle => "\u{b0}",
        CellKind::Every => "holes",
        CellKind::Mark
        | CellKind::Holes
        | CellKind::HoleEnd
        | CellKind::Surface
        | CellKind::Exit
        | CellKind::Recess
        | CellKind::Broken
        | CellKind::Proof
        | CellKind::YesNo
        | CellKind::Layers
        | CellKind::Ends
        | CellKind::Tube
        | CellKind::Note => "",
    }
}

/// What a tool is, by word.
#[must_use]
pub const fn tool(kind: Kind) -> &'static str {
    match kind {
        Kind::Tap => "tap",
        Kind::Drill => "drill",
        Kind::Stud => "screw",
        Kind::Reamer => "reamer",
        Kind::Extractor => "extractor",
    }
}

/// What a tool is made of, by word.
#[must_use]
pub const fn stuff(stuff: Stuff) -> &'static str {
    match stuff {
        Stuff::Hss => "high-speed steel",
        Stuff::Carbide => "carbide",
        Stuff::Steel => "steel",
    }
}

/// A finding's level, by word.
#[must_use]
pub const fn level(level: Level) -> &'static str {
    match level {
        Level::Stop => "stop",
        Level::Check => "check",
        Level::Note => "note",
    }
}

/// A verdict on a size.
#[must_use]
pub const fn verdict(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Comfortable => "comfortable",
        Verdict::Tight => "tight",
        Verdict::NotToBePromised => "not to be promised",
        Verdict::NotHeld => "not to be held",
    }
}

/// Where a hole ends.
#[must_use]
pub const fn hole_end(end: HoleEnd) -> &'static str {
    match end {
        HoleEnd::Through => "through",
        HoleEnd::Into => "into",
        HoleEnd::Blind => "blind",
    }
}

/// How a hole is proved open.
#[must_use]
pub const fn proof(proof: Proof) -> &'static str {
    match proof {
        Proof::Pin => "pin",
        Proof::Light => "light",
        Proof::Wire => "wire",
        Proof::Air => "air",
        Proof::PinThrough => "pin-through",
    }
}

/// The ends that a hole is drilled from.
#[must_use]
pub const fn ends(ends: Ends) -> &'static str {
    match ends {
        Ends::One => "one end",
        Ends::Both => "both ends",
    }
}

/// What an angle is measured from.
#[must_use]
pub const fn angle_basis(basis: AngleBasis) -> &'static str {
    match basis {
        AngleBasis::FromNormal => "from the normal",
        AngleBasis::FromSurface => "from the surface",
    }
}

/// An axis of the part, or none.
#[must_use]
pub const fn part_axis(axis: Option<PartAxis>) -> &'static str {
    match axis {
        None => "none",
        Some(PartAxis::X) => "x",
        Some(PartAxis::Y) => "y",
        Some(PartAxis::Z) => "z",
    }
}

/// A tube's material.
#[must_use]
pub const fn tube_material(material: TubeMaterial) -> &'static str {
    match material {
        TubeMaterial::Brass => "brass",
        TubeMaterial::Copper => "copper",
    }
}

/// A family of materials.
#[must_use]
pub const fn family(family: Family) -> &'static str {
    match family {
        Family::Steel => "carbon and alloy steel",
        Family::ToolSteel => "tool steel",
        Family::Stainless => "stainless steel",
        Family::Nickel => "nickel alloys",
        Family::Cobalt => "cobalt alloys",
        Family::Titanium => "titanium",
        Family::Aluminum => "aluminum",
        Family::Copper => "copper alloys",
        Family::Magnesium => "magnesium",
        Family::Refractory => "refractory metals",
        Family::Zirconium => "zirconium",
        Family::Carbide => "tungsten carbide",
        Family::Special => "special alloys",
        Family::Graphite => "graphite",
        Family::Hard => "hard conductors",
        Family::Precious => "precious metals",
    }
}

/// What a work material endangers, as a short noun.
#[must_use]
pub const fn hazard(hazard: Hazard) -> &'static str {
    match hazard {
        Hazard::BurningFines => "burning fines and hydrogen",
        Hazard::Nickel => "nickel",
        Hazard::Cobalt => "cobalt",
        Hazard::Chromium => "chromium",
        Hazard::Beryllium => "beryllium",
        Hazard::CopperLead => "copper and lead",
    }
}

/// What a one-off charge is called.
#[must_use]
pub const fn one_off(field: Field) -> &'static str {
    match field {
        Field::FixtureCost => "fixture",
        Field::TestPieceCost => "test piece",
        _ => "one-time charge",
    }
}

/// Offer: backing.
#[must_use]
pub const fn remedy_backing() -> &'static str {
    "add backing"
}

/// Offer: both ends.
#[must_use]
pub const fn remedy_both_ends() -> &'static str {
    "drill it from both ends"
}

/// Offer: one end.
#[must_use]
pub const fn remedy_one_end() -> &'static str {
    "drill it from one end"
}

/// Offer: this tube.
#[must_use]
pub fn remedy_tube(name: &str) -> String {
    format!("use {name}")
}

/// Offer: this machine.
#[must_use]
pub fn remedy_machine(name: &str) -> String {
    format!("put it on {name}")
}

/// Offer: index about this axis.
#[must_use]
pub fn remedy_index(axis: PartAxis) -> String {
    format!("index the part about its {} axis", part_axis(Some(axis)))
}

/// Offer: depth from the layers.
#[must_use]
pub fn remedy_depth_from_layers(depth: &str) -> String {
    format!("use {depth} as the depth")
}

/// Offer: a free mark.
#[must_use]
pub fn remedy_mark(mark: &str) -> String {
    format!("call this row {mark}")
}

/// Offer: hold for a test piece.
#[must_use]
pub const fn remedy_test_piece() -> &'static str {
    "hold for a test piece"
}

/// A run record in which a tube grew.
#[must_use]
pub const fn tube_grew() -> &'static str {
    "The electrode is longer after than before: one of the two lengths is mistyped, or another electrode was put in."
}

/// Angles whose drawing doesn't say what they are measured from.
#[must_use]
pub const fn angles_assumed() -> &'static str {
    "The angles were read as from the normal. Check the drawing; if they are from the surface, say so \
     here. If not, confirm:"
}

/// A material written by another name.
#[must_use]
pub fn material_by_other_name(written: &str, own: &str) -> String {
    format!(
        "\u{201c}{written}\u{201d} is {own} in the shop's list; papers print that name, and the \
         drawing's in brackets."
    )
}

/// A material as papers name it: the shop's own name, and in brackets what the drawing says where
/// that tells more.
#[must_use]
pub fn material_named(own: Option<&str>, written: &str) -> String {
    let written = written.trim();
    let letters = |name: &str| -> String {
        let letters = name.chars().filter(|letter| letter.is_alphanumeric());
        letters.flat_map(char::to_lowercase).collect()
    };
    match own {
        None => written.to_owned(),
        Some(own) if letters(own).contains(&letters(written)) => own.to_owned(),
        Some(own) => format!("{own} ({written})"),
    }
}
