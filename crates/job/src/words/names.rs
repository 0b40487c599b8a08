//! Names of columns and fields inside a sentence.

use crate::field::Field;
use crate::row::Column;

/// A column's name inside a sentence.
#[must_use]
pub const fn column(column: Column) -> &'static str {
    match column {
        Column::Mark => "mark",
        Column::Count => "count",
        Column::Size => "size",
        Column::Depth => "depth",
        Column::End => "end",
        Column::Angle => "angle",
        Column::Surface => "surface",
        Column::Behind => "room behind",
        Column::Backed => "backing",
        Column::Layers => "layers",
        Column::CoreTrapped => "trapped core",
        Column::Ends => "ends drilled from",
        Column::Tube => "tube",
        Column::DressEvery => "dressing",
        Column::Note => "note",
    }
}

/// A field's name inside a sentence.
#[must_use]
pub const fn field(field: Field) -> &'static str {
    match field {
        Field::Customer => "customer",
        Field::Contact => "contact",
        Field::CustomerReference => "customer's reference",
        Field::Part => "part number",
        Field::PartName => "part name",
        Field::Revision => "part revision",
        Field::Drawing => "drawing",
        Field::DrawingRevision => "drawing revision",
        Field::Material => "material",
        Field::Condition => "condition",
        Field::Hardness => "hardness",
        Field::Coating => "coating",
        Field::Resistivity => "resistivity",
        Field::SizeX => "part size along x",
        Field::SizeY => "part size along y",
        Field::SizeZ => "part size along z",
        Field::Mass => "part mass",
        Field::Thickness => "wall thickness",
        Field::DefaultTolerance => "default tolerance",
        Field::AngleBasis => "angle basis",
        Field::Quantity => "quantity",
        Field::Breaks => "further quantities",
        Field::Due => "due date",
        Field::PartValue => "value of a part",
        Field::LiabilityCap => "liability cap",
        Field::Spares => "spares",
        Field::HoldPoints => "hold points",
        Field::AskBefore => "ask before",
        Field::Datums => "datums",
        Field::FacesNotToClamp => "faces not to clamp",
        Field::RecastLimit => "recast limit",
        Field::Notes => "notes",
        Field::Again => "job before",
        Field::LaidAside => "why it was laid aside",
        Field::Machine => "machine",
        Field::IndexAbout => "index axis",
        Field::Fixture => "fixture",
        Field::Program => "program",
        Field::Settings => "settings",
        Field::Lessons => "what the last run taught",
        Field::SetupText => "setup",
        Field::BackingText => "backing",
        Field::FirstPiece => "first piece",
        Field::StopIf => "stop if",
        Field::After => "after drilling",
        Field::Inspection => "inspection",
        Field::Margin => "margin",
        Field::FixtureCost => "fixture cost",
        Field::TestPieceCost => "test piece cost",
        Field::OutsideCost => "outside cost per lot",
        Field::OutsidePerPart => "outside cost per part",
        Field::OutsideText => "outside work",
        Field::LeadDays => "lead time",
        Field::ValidDays => "validity",
        Field::FollowUp => "follow-up date",
        Field::Exclusions => "exclusions",
    }
}
