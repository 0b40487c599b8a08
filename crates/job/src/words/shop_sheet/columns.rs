//! The heads of the columns of the shop's lists.

use crate::shop::sheet::ShopColumn;
use crate::typed::entry::Unit;

/// What a column is called.
#[must_use]
pub const fn column(column: ShopColumn) -> &'static str {
    match column {
        ShopColumn::Name => "name",
        ShopColumn::ValidFrom => "valid from",
        ShopColumn::MachineHour => "machine hour",
        ShopColumn::LaborHour => "labor hour",
        ShopColumn::DielectricHour => "dielectric",
        ShopColumn::PowerHour => "power",
        ShopColumn::Margin => "margin",
        ShopColumn::Minimum => "minimum",
        ShopColumn::TryCharge => "try charge",
        ShopColumn::PriceStep => "price step",
        ShopColumn::Redo => "redone holes",
        ShopColumn::PartRisk => "part risk",
        ShopColumn::Metal => "metal",
        ShopColumn::Outer => "diameter",
        ShopColumn::Bore => "bore",
        ShopColumn::Channels => "channels",
        ShopColumn::NewLength => "length",
        ShopColumn::Price => "price",
        ShopColumn::InDrawer => "in drawer",
        ShopColumn::Kept => "kept",
        ShopColumn::Free => "free",
        ShopColumn::Learned => "learned",
        ShopColumn::Counted => "counted on",
        ShopColumn::Stubs => "stubs",
        ShopColumn::ForElectrode => "for electrode",
        ShopColumn::Life => "life, holes",
        ShopColumn::ElectrodeFrom => "electrode from",
        ShopColumn::ElectrodeTo => "electrode to",
        ShopColumn::LongestElectrode => "longest electrode",
        ShopColumn::PartX => "part x",
        ShopColumn::PartY => "part y",
        ShopColumn::PartZ => "part z",
        ShopColumn::PartMass => "part mass",
        ShopColumn::Stroke => "stroke",
        ShopColumn::HeldBack => "held back",
        ShopColumn::StandOff => "stand-off",
        ShopColumn::NoseDiameter => "nose",
        ShopColumn::NoseLength => "nose length",
        ShopColumn::HeadDiameter => "head above it",
        ShopColumn::Pressure => "pressure",
        ShopColumn::Changer => "changer",
        ShopColumn::IndexAxis => "index axis",
        ShopColumn::TiltFrom => "tilt from",
        ShopColumn::TiltTo => "tilt to",
        ShopColumn::Tilts => "what tilts",
        ShopColumn::TableRapid => "table rapid",
        ShopColumn::HeadRapid => "head rapid",
        ShopColumn::Attended => "attended",
        ShopColumn::Contact => "contact",
        ShopColumn::Address => "address",
        ShopColumn::Email => "mail address",
        ShopColumn::Phone => "telephone",
        ShopColumn::TheirNumber => "our number there",
        ShopColumn::Language => "language",
        ShopColumn::Currency => "currency",
        ShopColumn::ExchangeRate => "exchange rate",
        ShopColumn::ExchangeDay => "rate of day",
        ShopColumn::Sampling => "sampling",
        ShopColumn::Clauses => "clauses",
        ShopColumn::Payment => "payment",
        ShopColumn::Delivery => "delivery",
        ShopColumn::OtherNames => "other names",
        ShopColumn::Family => "family",
        ShopColumn::FeedFrom => "feed low",
        ShopColumn::FeedTo => "feed high",
        ShopColumn::WearFrom => "wear low",
        ShopColumn::WearTo => "wear high",
        ShopColumn::Density => "density",
        ShopColumn::ResistivityFrom => "resistivity low",
        ShopColumn::ResistivityTo => "resistivity high",
        ShopColumn::Hazards => "hazards",
        ShopColumn::Day => "day",
        ShopColumn::What => "what",
        ShopColumn::Value => "value",
        ShopColumn::Note => "note",
    }
}

/// The unit of a column's bare numbers; empty where there is none.
#[must_use]
pub const fn column_unit(column: ShopColumn, unit: Unit) -> &'static str {
    match column {
        ShopColumn::Outer
        | ShopColumn::Bore
        | ShopColumn::NewLength
        | ShopColumn::Stubs
        | ShopColumn::ForElectrode
        | ShopColumn::ElectrodeFrom
        | ShopColumn::ElectrodeTo
        | ShopColumn::LongestElectrode
        | ShopColumn::PartX
        | ShopColumn::PartY
        | ShopColumn::PartZ
        | ShopColumn::Stroke
        | ShopColumn::HeldBack
        | ShopColumn::StandOff
        | ShopColumn::NoseDiameter
        | ShopColumn::NoseLength
        | ShopColumn::HeadDiameter => unit.symbol(),
        ShopColumn::TableRapid | ShopColumn::HeadRapid => match unit {
            Unit::Mm => "mm/min",
            Unit::Inch => "in/min",
        },
        ShopColumn::PartMass => match unit {
            Unit::Mm => "kg",
            Unit::Inch => "lb",
        },
        ShopColumn::MachineHour | ShopColumn::LaborHour => "per hour",
        ShopColumn::DielectricHour | ShopColumn::PowerHour => "per hour",
        ShopColumn::Margin | ShopColumn::Redo | ShopColumn::PartRisk | ShopColumn::Attended => "%",
        ShopColumn::Minimum | ShopColumn::TryCharge => "per lot",
        ShopColumn::Price => "each",
        ShopColumn::Pressure => "bar",
        ShopColumn::TiltFrom | ShopColumn::TiltTo => "degrees",
        ShopColumn::FeedFrom | ShopColumn::FeedTo => "mm/min",
        ShopColumn::WearFrom | ShopColumn::WearTo => "mm/mm",
        ShopColumn::Density => "g/cm3",
        ShopColumn::ResistivityFrom | ShopColumn::ResistivityTo => "uohm cm",
        _ => "",
    }
}

/// What a column is for, and how it is typed.
#[must_use]
pub const fn column_about(column: ShopColumn) -> &'static str {
    match column {
        ShopColumn::Name => "What the row is called; papers print it.",
        ShopColumn::ValidFrom => "The first day that the card counts, such as 2027-01-01.",
        ShopColumn::MachineHour => {
            "What an hour of a machine costs: 68 for all, or each by its name: big one 70; small one 76."
        }
        ShopColumn::LaborHour => "What an hour of work at the machine or bench costs.",
        ShopColumn::DielectricHour => "Dielectric, filters and resin, for an hour of the machine.",
        ShopColumn::PowerHour => "Power, for an hour of the machine.",
        ShopColumn::Margin => "Margin on the price: price = cost / (1 - margin).",
        ShopColumn::Minimum => "Least that one lot is sold for.",
        ShopColumn::TryCharge => {
            "What is asked where a broken tool can't be got out. Empty: the minimum."
        }
        ShopColumn::PriceStep => {
            "Prices each are rounded to it: 0.05, 0.5, 1. Empty: to the smallest coin."
        }
        ShopColumn::Redo => {
            "Allowance for holes that are done again, on machine, labor and electrodes."
        }
        ShopColumn::PartRisk => "Chance that one part is spoiled, apart from what its holes add.",
        ShopColumn::Metal => "Brass or copper.",
        ShopColumn::Outer => "Outer diameter: 0.5, or 1/32 in.",
        ShopColumn::Bore => "Bore of the channel; of several, that of one channel of equal area.",
        ShopColumn::Channels => "1, or more where the electrode leaves no core.",
        ShopColumn::NewLength => "Length of a new one.",
        ShopColumn::Price => "What one costs.",
        ShopColumn::InDrawer => {
            "How many lay in the drawer when they were counted, of electrodes new ones; empty: nobody counted."
        }
        ShopColumn::Kept => {
            "Kept for jobs on the floor: the kits and guides of their travelers, less the electrodes that their run records used up."
        }
        ShopColumn::Free => {
            "Counted, less the electrodes that runs used up since, less what is kept; below zero more is promised than lies there."
        }
        ShopColumn::Learned => {
            "What the shop's own runs make of it: a factor, and how many runs it rests on."
        }
        ShopColumn::Counted => "The day of the count: what was used up since is taken off.",
        ShopColumn::Stubs => {
            "Pieces left of used ones by their length: 180; 2 x 95. Where new ones are short, the holes that these would drill are told."
        }
        ShopColumn::ForElectrode => "The diameter of the electrodes that it guides.",
        ShopColumn::Life => "Holes that a guide lasts.",
        ShopColumn::ElectrodeFrom | ShopColumn::ElectrodeTo => {
            "Electrode diameters that the machine drives."
        }
        ShopColumn::LongestElectrode => "Longest electrode that it takes.",
        ShopColumn::PartX | ShopColumn::PartY | ShopColumn::PartZ => {
            "Largest part along this axis."
        }
        ShopColumn::PartMass => "Heaviest part that the table takes.",
        ShopColumn::Stroke => "Stroke of the drilling axis.",
        ShopColumn::HeldBack => {
            "Length of an electrode that chuck, guide, stand-off and reserve hold back together."
        }
        ShopColumn::StandOff => "From the guide to the work, a part of what is held back.",
        ShopColumn::NoseDiameter => {
            "Diameter of the nose that holds the guide; with length and head it tells where the head touches a part."
        }
        ShopColumn::NoseLength => "From the guide's lower end up to the head.",
        ShopColumn::HeadDiameter => "Diameter of the head where the nose ends in it.",
        ShopColumn::Pressure => "Flush pressure at the pump.",
        ShopColumn::Changer => "Yes where the machine changes electrodes by itself.",
        ShopColumn::IndexAxis => "Yes where a rotary axis turns the part.",
        ShopColumn::TiltFrom | ShopColumn::TiltTo => {
            "Tilt of head or table from upright; empty where it doesn't tilt."
        }
        ShopColumn::Tilts => {
            "Head or table: by it the traveler tells the table's x and y of tilted holes. Empty: it tells none."
        }
        ShopColumn::TableRapid => "Rapid speed of the table's axes.",
        ShopColumn::HeadRapid => "Rapid speed of the drilling axis.",
        ShopColumn::Attended => "Share of its running time that somebody stands by.",
        ShopColumn::Contact => "Whom to talk to; a new job takes it on.",
        ShopColumn::Address => "One line below the other, or with semicolons between.",
        ShopColumn::Email => "Letters with papers go there.",
        ShopColumn::Phone => "The telephone number.",
        ShopColumn::TheirNumber => "The number that your shop has at the customer's.",
        ShopColumn::Language => {
            "The language of the papers that go there, English or German; empty: English."
        }
        ShopColumn::Currency => "Quotations are in it, a code of ISO 4217; empty: in the shop's.",
        ShopColumn::ExchangeRate => "What one unit of the shop's currency is in the customer's.",
        ShopColumn::ExchangeDay => "The day of that exchange rate.",
        ShopColumn::Sampling => "How parts are sampled or inspected; a new job takes it on.",
        ShopColumn::Clauses => "Clauses for quotations; a new job takes them on.",
        ShopColumn::Payment => "When it is paid; printed on quotations and confirmations.",
        ShopColumn::Delivery => "How parts come and go; printed on quotations and confirmations.",
        ShopColumn::OtherNames => "What customers write for it, with semicolons between.",
        ShopColumn::Family => "It decides start values and dangers.",
        ShopColumn::FeedFrom | ShopColumn::FeedTo => {
            "Feed of a 1 mm electrode in a shallow hole; one in ten lies below low, one in ten above high."
        }
        ShopColumn::WearFrom | ShopColumn::WearTo => {
            "Length lost for each length drilled, of a 1 mm electrode in a shallow hole."
        }
        ShopColumn::Density => "For the mass of parts.",
        ShopColumn::ResistivityFrom | ShopColumn::ResistivityTo => {
            "For whether it can be drilled at all."
        }
        ShopColumn::Hazards => {
            "Burning fines, nickel, cobalt, chromium, beryllium, copper or lead, with semicolons between."
        }
        ShopColumn::Day => "A day such as 2026-12-24.",
        ShopColumn::What => "What day it is.",
        ShopColumn::Value => {
            "A number, a band such as 60 to 100, or points by diameter such as 0.1: 0.23; 0.3: 0.55."
        }
        ShopColumn::Note => "Where the row comes from, or anything else; papers never print it.",
    }
}
