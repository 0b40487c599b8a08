//! What F1 says of the place one is at: what can be typed there, and the keys that save most.

use quillbore_job::read_cell::CellKind;
use quillbore_job::{Field, FieldKind};

/// Closes it.
pub const ESC: &str = "Esc";

/// The word that closes it.
pub const CLOSE: &str = "close";

/// What is said where one is at nothing that is typed on.
pub const NOWHERE: &str = "Go to a field or a cell, and F1 says what can be typed there.";

/// The keys that save most, each with what it does.
pub const KEYS: &[(&str, &str)] = &[
    (
        "Ctrl+N",
        "a new sheet; its first line gives a price from two fields on",
    ),
    (
        "Ctrl+V",
        "pastes a table, also where no cell is chosen; it is shown before it lands",
    ),
    ("Ctrl+Enter", "shows what comes next; again does it"),
    (
        "F3, Enter",
        "goes to the next stop or check, and takes its remedy",
    ),
    ("Enter, Tab", "down the column, along the row"),
    ("\"", "in a cell: what stands above"),
    ("Ctrl+D", "fills a selection down"),
    ("Ctrl+K", "every command with its keys"),
];

/// What a field is for, where its name alone may leave one guessing; empty elsewhere.
#[must_use]
pub const fn purpose(field: Field) -> &'static str {
    match field {
        Field::SizeX | Field::SizeY | Field::SizeZ => {
            "The part's size: whether it fits the machine, and how deep a hole can be at most."
        }
        Field::Mass => {
            "The part's mass: whether the machine's table bears it, and how it is lifted."
        }
        Field::Thickness => {
            "The wall that the holes go through: a through hole without a depth is as deep as that at its angle, and depths are held against it."
        }
        Field::DefaultTolerance => {
            "What the drawing's title block allows for sizes without limits of their own."
        }
        Field::AngleBasis => {
            "30\u{b0} from the normal is 60\u{b0} from the surface: say which the drawing means."
        }
        Field::Breaks => "Other quantities that the customer wants prices for.",
        Field::PartValue => {
            "What one part is worth as it comes to us, in the quotation's currency: the risk of spoiling one is in the price."
        }
        Field::LiabilityCap => {
            "What we pay at most for a part that we spoil, in the quotation's currency, as it is printed there."
        }
        Field::Spares => {
            "Parts that the customer sends besides, for setting up and for spoiled ones."
        }
        Field::HoldPoints => {
            "Where the floor stops until somebody has looked, printed on the traveler."
        }
        Field::RecastLimit => {
            "The thickest recast layer that the customer allows, as the drawing says it."
        }
        Field::IndexAbout => {
            "The axis of the part about which the machine's index axis turns it between holes."
        }
        Field::BackingText => "What is put behind the exits so that nothing there is marked.",
        Field::StopIf => "When the floor stops and asks, printed on the traveler.",
        Field::Margin => "Share of the price that stays; empty: the rate card's.",
        Field::AgreedMachineHour | Field::AgreedLaborHour => {
            "What was agreed with this customer, in the shop's currency, in place of the rate card's; no paper shows it."
        }
        Field::Language => "The language of the papers that go to the customer; empty: English.",
        Field::Currency => "The currency of the quotation; empty: the shop's.",
        Field::ExchangeRate => {
            "What one unit of the shop's currency is in the quotation's; no paper shows it."
        }
        Field::ExchangeDay => "The day of the exchange rate; no paper shows it.",
        Field::AmountsIn => {
            "The shop's own currency when the amounts of this sheet were typed; it is noted by itself."
        }
        Field::ValuesIn => {
            "The currency of the quotation when part value, cap and prices were typed; it is noted by itself."
        }
        Field::FixtureCost | Field::TestPieceCost => {
            "What it costs once, in the shop's currency; it is a line of its own on the quotation, with the margin on it."
        }
        Field::OutsideDays => {
            "Days that the parts are away for work outside; they are in the promise."
        }
        Field::LeadDays => {
            "Working days that the quotation promises; the promise under the price says what it takes."
        }
        Field::FollowUp => "The day to ask what became of the quotation.",
        Field::Notes => "For the floor: it is printed on the traveler, and not on the quotation.",
        Field::Exclusions => "What the quotation says is not included, line by line.",
        Field::LaidAside => "Why nobody goes on with this job; empty it to go on.",
        _ => "",
    }
}

/// What can be typed in a field, and some of it.
#[must_use]
pub const fn field(kind: FieldKind) -> (&'static str, &'static [&'static str]) {
    match kind {
        FieldKind::Line => (
            "One line of text, as it stands on the papers that have a place for it.",
            &[],
        ),
        FieldKind::Lines => (
            "Several lines of text, as they stand on the papers that have a place for them.",
            &[],
        ),
        FieldKind::Length => (
            "A length; a number without a unit is in the job's unit",
            &["12.5", "12,5", "25/2", "0.5 in", "3/64\""],
        ),
        FieldKind::LengthOrNone => ("A length, 0 for none", &["12.5", "0.5 in", "0"]),
        FieldKind::Mass => (
            "A mass; a number without a unit is in kg, in lb where the job is in inches",
            &["4.2", "4.2 kg", "350 g", "9 lb"],
        ),
        FieldKind::Pressure => (
            "A pressure; a number without a unit is in bar, in psi where the job is in inches",
            &["70", "70 bar", "1000 psi", "7 MPa"],
        ),
        FieldKind::RestsOn => (
            "As much of its lower face as the part rests on, about the middle; empty: all of it",
            &["60 x 40", "ring d80", "whole face"],
        ),
        FieldKind::Count => ("A whole number from 1 on", &["25"]),
        FieldKind::CountOrNone => ("A whole number, 0 for none", &["25", "0"]),
        FieldKind::Counts => ("Quantities to be priced, too", &["10, 25, 50", "10/25/50"]),
        FieldKind::Money => (
            "An amount of money, without its currency",
            &["1800", "1250.50"],
        ),
        FieldKind::Percent => ("A share in percent", &["30", "30 %"]),
        FieldKind::Date => ("A day", &["2026-12-24", "24 Dec 2026", "24.12.2026"]),
        FieldKind::Resistivity => ("A resistivity, as measured or certified", &["1e-4 ohm cm"]),
        FieldKind::Tolerance => (
            "A tolerance for sizes that have none",
            &["+-0.05", "+.003/-0"],
        ),
        FieldKind::Material => (
            "A material of the shop's list: its name, a UNS, EN or W.-Nr. number, or what customers write",
            &["Nickel alloy 718", "2.4668"],
        ),
        FieldKind::Machine => ("A machine of the shop's list", &[]),
        FieldKind::AngleBasis => (
            "What angles on the drawing are measured from",
            &["from the normal", "from the surface"],
        ),
        FieldKind::YesNo => ("Yes or no", &["yes", "no"]),
        FieldKind::PartAxis => (
            "The axis of the part that the index axis turns",
            &["x", "y", "z", "none"],
        ),
        FieldKind::Minutes => ("Minutes", &["2.5", "90 s", "1 h 30 min"]),
        FieldKind::MinutesOrNone => ("Minutes, 0 for none", &["2.5", "0"]),
        FieldKind::Currency => ("A currency by its ISO 4217 code", &["USD", "EUR"]),
        FieldKind::Number => ("A number above 0", &["0.92", "150"]),
        FieldKind::OneOf(words) => ("One word of the list", words),
    }
}

/// What can be typed in a cell of the hole table, and some of it.
#[must_use]
pub const fn cell(kind: CellKind) -> (&'static str, &'static [&'static str]) {
    match kind {
        CellKind::Mark => ("The hole's mark on the drawing", &["A", "H12"]),
        CellKind::Holes => ("Holes in one part", &["36", "36x", "2x18"]),
        CellKind::Size => (
            "A diameter with its limits",
            &["0.80 +-0.02", "0.8 +0.05/-0", "0.78-0.82", "1 H7", "#60"],
        ),
        CellKind::Depth => ("The depth along the axis", &["14", "14 +-0.1", "through"]),
        CellKind::HoleEnd => ("How the hole ends", &["through", "into", "blind"]),
        CellKind::Angle => (
            "The angle at the entry",
            &["30", "30\u{b0}15'", "60 from surface"],
        ),
        CellKind::Surface => (
            "The surface at the entry",
            &[
                "flat",
                "cylinder R20",
                "ball R10",
                "edge offset 0.3",
                "bore d12",
            ],
        ),
        CellKind::Exit => (
            "The surface at the exit, with its angle; empty: of a wall as thick everywhere, or the other side of a round bar",
            &[
                "flat",
                "flat 30",
                "bore d12 offset 2",
                "crossing hole d3 at 30",
                "cylinder R20",
            ],
        ),
        CellKind::Recess => (
            "The pocket or bore that the hole begins in: how wide, and how deep",
            &["d12 x 8", "12 wide 8 deep"],
        ),
        CellKind::Broken => (
            "The tool that broke in the part: its thread or size, what it is, what it is made of",
            &[
                "M6 tap",
                "1/4-20 tap, carbide",
                "3.3 mm drill",
                "M8 screw",
                "5 mm extractor in M8",
            ],
        ),
        CellKind::Proof => (
            "How each hole is proved open; empty: by pin",
            &["pin", "light", "wire", "air", "pin-through"],
        ),
        CellKind::Length => ("A length, 0 for none", &["6", "6 mm", "1/4\""]),
        CellKind::Distance => ("A length", &["0.25", "0.25 mm", ".010 in"]),
        CellKind::YesNo => ("Yes or no", &["yes", "no"]),
        CellKind::Layers => ("Thicknesses from the entry on, each with its material", &[]),
        CellKind::Ends => ("The ends that a hole is drilled from", &["one", "both"]),
        CellKind::Tube => (
            "An electrode of the shop's list; empty: the one that fits best",
            &[],
        ),
        CellKind::Every => (
            "Holes between two dressings of the tip",
            &["3", "every 3 holes", "none"],
        ),
        CellKind::Note => ("Anything else; it is printed beside the hole.", &[]),
    }
}

/// Both in one sentence.
#[must_use]
pub fn said((what, examples): (&str, &[&str])) -> String {
    match examples {
        [] => what.to_owned(),
        examples => format!("{what}: {}", examples.join("; ")),
    }
}

#[cfg(test)]
mod tests {
    use quillbore_job::{CellAt, Column, Edit, Field, Job, Shop, Unit, apply};

    use super::{cell, field};

    #[test]
    fn every_example_is_read() {
        let job = Job::default();
        for &of in Field::ALL {
            for &text in field(of.kind()).1 {
                let edit = Edit::SetField {
                    field: of,
                    text: text.to_owned(),
                    unit: Unit::Mm,
                };
                let (job, _) = apply(&job, &edit).expect("an edit");
                assert_eq!(job.field(of).why(), None, "{of:?}: {text}");
            }
        }
        for &column in Column::ALL {
            for &text in cell(column.kind()).1 {
                let edit = Edit::SetCells {
                    at: CellAt { row: 0, column },
                    rows: vec![vec![Some(text.to_owned())]],
                    unit: Unit::Mm,
                };
                let (job, _) = apply(&job, &edit).expect("an edit");
                assert_eq!(job.rows[0].cell(column).why, None, "{column:?}: {text}");
            }
        }
        let shop = Shop::embedded().expect("the shop");
        for name in ["Nickel alloy 718", "2.4668"] {
            assert!(shop.material(name).is_some(), "{name}");
        }
    }
}
