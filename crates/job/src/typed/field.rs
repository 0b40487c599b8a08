//! The single lines of a job's sheet: one list, from which window, file, intake and papers read.

use chrono::NaiveDate;
use quillbore_calc::{Angle, Length, Limits};
use rust_decimal::Decimal;

use crate::ground::list::list;
use crate::typed::language::Language;

/// A block of the job's sheet, in the order of the trade.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Block {
    /// Who asks for what.
    Inquiry,
    /// How it is going to be done.
    Plan,
    /// What it costs.
    Price,
}

/// How a field's text is read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FieldKind {
    /// One line of text.
    Line,
    /// Several lines of text.
    Lines,
    /// A length.
    Length,
    /// A length, or nothing at all.
    LengthOrNone,
    /// A mass in kg or lb.
    Mass,
    /// A pressure in bar or psi.
    Pressure,
    /// As much of a face as a part rests on: two sides, or a diameter.
    RestsOn,
    /// A whole number of things.
    Count,
    /// Several whole numbers: `10, 25, 50`.
    Counts,
    /// An amount of the rate card's currency.
    Money,
    /// A share in percent.
    Percent,
    /// A day.
    Date,
    /// A resistivity in ohm cm.
    Resistivity,
    /// A tolerance without a size: `+-0.05`, `+.003/-0`.
    Tolerance,
    /// One of the shop's materials, by name.
    Material,
    /// One of the shop's machines, by name.
    Machine,
    /// From the normal or from the surface.
    AngleBasis,
    /// Yes or no.
    YesNo,
    /// An axis of the part, or none.
    PartAxis,
    /// A whole number of things, or none of them.
    CountOrNone,
    /// Minutes.
    Minutes,
    /// Minutes, or none of them.
    MinutesOrNone,
    /// A currency by its ISO 4217 code.
    Currency,
    /// A plain number above 0.
    Number,
    /// One of these words.
    OneOf(&'static [&'static str]),
}

impl FieldKind {
    /// Whether a bare number of it is in the unit that the job is typed in.
    #[must_use]
    pub const fn is_measured(self) -> bool {
        matches!(
            self,
            Self::Length
                | Self::LengthOrNone
                | Self::Mass
                | Self::Tolerance
                | Self::Pressure
                | Self::RestsOn
        )
    }
}

/// What a field's text was read as.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// Text as it stands; names of materials and machines too.
    Text(String),
    /// A length.
    Length(Length),
    /// A mass in kg.
    MassKg(f64),
    /// A pressure [bar].
    PressureBar(f64),
    /// As much of a face as a part rests on.
    RestsOn(quillbore_calc::input::Rest),
    /// A whole number.
    Count(u32),
    /// Several whole numbers, rising, each once.
    Counts(Vec<u32>),
    /// An amount of money.
    Money(Decimal),
    /// A share, 0 to 1.
    Share(f64),
    /// A day.
    Date(NaiveDate),
    /// A resistivity [ohm cm].
    Resistivity(f64),
    /// Lower and upper deviation of a tolerance.
    Tolerance(Limits<Length>),
    /// How drawings of this job give angles.
    AngleBasis(AngleBasis),
    /// Yes or no.
    YesNo(bool),
    /// An axis of the part, or none.
    PartAxis(Option<quillbore_calc::input::PartAxis>),
    /// Minutes.
    Minutes(f64),
    /// A plain number.
    Number(f64),
}

impl Value {
    /// A whole number.
    #[must_use]
    pub const fn count(&self) -> Option<u32> {
        match self {
            Self::Count(count) => Some(*count),
            _ => None,
        }
    }

    /// A day.
    #[must_use]
    pub const fn date(&self) -> Option<NaiveDate> {
        match self {
            Self::Date(day) => Some(*day),
            _ => None,
        }
    }

    /// An amount of money.
    #[must_use]
    pub const fn money(&self) -> Option<Decimal> {
        match self {
            Self::Money(amount) => Some(*amount),
            _ => None,
        }
    }

    /// A length.
    #[must_use]
    pub const fn length(&self) -> Option<Length> {
        match self {
            Self::Length(length) => Some(*length),
            _ => None,
        }
    }

    /// Text as it stands, or one word of a list.
    #[must_use]
    pub fn text(&self) -> Option<&str> {
        match self {
            Self::Text(text) => Some(text),
            _ => None,
        }
    }

    /// Yes or no.
    #[must_use]
    pub const fn yes_no(&self) -> Option<bool> {
        match self {
            Self::YesNo(yes) => Some(*yes),
            _ => None,
        }
    }

    /// A plain number.
    #[must_use]
    pub const fn number(&self) -> Option<f64> {
        match self {
            Self::Number(number) => Some(*number),
            _ => None,
        }
    }

    /// Minutes.
    #[must_use]
    pub const fn minutes(&self) -> Option<f64> {
        match self {
            Self::Minutes(minutes) => Some(*minutes),
            _ => None,
        }
    }
}

/// What an angle on the drawing is measured from.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum AngleBasis {
    /// From the surface's normal.
    #[default]
    FromNormal,
    /// From the surface itself.
    FromSurface,
}

/// An angle as typed and as the calculation uses it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TiltAngle {
    /// Angle between the hole's axis and the surface's normal.
    pub from_normal: Angle,
    /// What the drawing measured it from.
    pub basis: AngleBasis,
}

list! {
    /// A single line of the job's sheet, in the sheet's order.
    pub enum Field {
        /// The block of the sheet that it stands in.
        block: Block,
        /// How its text is read.
        kind: FieldKind,
    }

    /// Who asks.
    Customer "customer" Block::Inquiry, FieldKind::Line;
    /// Whom to talk to, and how to reach them.
    Contact "contact" Block::Inquiry, FieldKind::Line;
    /// The customer's address, line by line.
    CustomerAddress "customer_address" Block::Inquiry, FieldKind::Lines;
    /// The number that the shop has at the customer's.
    OurNumber "our_number" Block::Inquiry, FieldKind::Line;
    /// The language of the papers that go to the customer, where it is another than the shop's.
    Language "language" Block::Inquiry, FieldKind::OneOf(Language::KEYS);
    /// The customer's number of the inquiry.
    CustomerReference "customer_reference" Block::Inquiry, FieldKind::Line;
    /// Part number.
    Part "part" Block::Inquiry, FieldKind::Line;
    /// What the part is.
    PartName "part_name" Block::Inquiry, FieldKind::Line;
    /// Revision of the part.
    Revision "revision" Block::Inquiry, FieldKind::Line;
    /// Drawing number.
    Drawing "drawing" Block::Inquiry, FieldKind::Line;
    /// Revision of the drawing.
    DrawingRevision "drawing_revision" Block::Inquiry, FieldKind::Line;
    /// Work material.
    Material "material" Block::Inquiry, FieldKind::Material;
    /// Its condition: annealed, aged, hardened before or after.
    Condition "condition" Block::Inquiry, FieldKind::Line;
    /// Its hardness as the drawing gives it.
    Hardness "hardness" Block::Inquiry, FieldKind::Line;
    /// Coating or scale, and where it is bare for the ground.
    Coating "coating" Block::Inquiry, FieldKind::Line;
    /// Resistivity by meter or certificate.
    Resistivity "resistivity" Block::Inquiry, FieldKind::Resistivity;
    /// Size of the part along x.
    SizeX "size_x" Block::Inquiry, FieldKind::Length;
    /// Size of the part along y.
    SizeY "size_y" Block::Inquiry, FieldKind::Length;
    /// Size of the part along z.
    SizeZ "size_z" Block::Inquiry, FieldKind::Length;
    /// Mass of one part.
    Mass "mass" Block::Inquiry, FieldKind::Mass;
    /// Wall that through holes without a depth of their own go through, square to its surface.
    Thickness "thickness" Block::Inquiry, FieldKind::Length;
    /// Tolerance of sizes that have none of their own (title block).
    DefaultTolerance "default_tolerance" Block::Inquiry, FieldKind::Tolerance;
    /// What angles of this drawing are measured from.
    AngleBasis "angle_basis" Block::Inquiry, FieldKind::AngleBasis;
    /// Parts in the lot.
    Quantity "quantity" Block::Inquiry, FieldKind::Count;
    /// Further quantities to be priced.
    Breaks "breaks" Block::Inquiry, FieldKind::Counts;
    /// When the customer wants it.
    Due "due" Block::Inquiry, FieldKind::Date;
    /// When and how the parts come in, as the customer said.
    ComesIn "comes_in" Block::Inquiry, FieldKind::Line;
    /// Value of one part to the customer.
    PartValue "part_value" Block::Inquiry, FieldKind::Money;
    /// Most that the shop is liable for per spoiled part.
    LiabilityCap "liability_cap" Block::Inquiry, FieldKind::Money;
    /// Spare parts sent for trials.
    Spares "spares" Block::Inquiry, FieldKind::Count;
    /// Points where work waits for a yes.
    HoldPoints "hold_points" Block::Inquiry, FieldKind::Lines;
    /// What the floor asks before it does.
    AskBefore "ask_before" Block::Inquiry, FieldKind::Lines;
    /// Datums and how the part is picked up.
    Datums "datums" Block::Inquiry, FieldKind::Line;
    /// Faces that must not be clamped.
    FacesNotToClamp "faces_not_to_clamp" Block::Inquiry, FieldKind::Line;
    /// Most recast that the drawing allows, as it says it.
    RecastLimit "recast_limit" Block::Inquiry, FieldKind::Line;
    /// Anything else.
    Notes "notes" Block::Inquiry, FieldKind::Lines;
    /// Number of the job that this one does again.
    Again "again" Block::Inquiry, FieldKind::Line;
    /// Why the job was set aside.
    LaidAside "laid_aside" Block::Inquiry, FieldKind::Line;

    /// Machine.
    Machine "machine" Block::Plan, FieldKind::Machine;
    /// Axis of the part that the machine's index axis turns.
    IndexAbout "index_about" Block::Plan, FieldKind::PartAxis;
    /// Fixture and where it lies.
    Fixture "fixture" Block::Plan, FieldKind::Line;
    /// As much of its lower face as the part rests on, where that is not all of it.
    RestsOn "rests_on" Block::Plan, FieldKind::RestsOn;
    /// Flush pressure, where it is another than the machine's.
    FlushPressure "flush_pressure" Block::Plan, FieldKind::Pressure;
    /// What is masked before drilling, and what of it is taken off again.
    Masking "masking" Block::Plan, FieldKind::Lines;
    /// Minutes that masking and taking it off again take for one part.
    MaskingMinutes "masking_min" Block::Plan, FieldKind::Minutes;
    /// Program.
    Program "program" Block::Plan, FieldKind::Line;
    /// Settings as free text.
    Settings "settings" Block::Plan, FieldKind::Lines;
    /// What the last run of this work taught; read before anything is set up.
    Lessons "lessons" Block::Plan, FieldKind::Lines;
    /// How it is set up, clamped, zeroed.
    SetupText "setup" Block::Plan, FieldKind::Lines;
    /// What backs the exits and how it is proved out.
    BackingText "backing" Block::Plan, FieldKind::Line;
    /// First piece: what is checked and who says go.
    FirstPiece "first_piece" Block::Plan, FieldKind::Lines;
    /// When the floor stops and calls.
    StopIf "stop_if" Block::Plan, FieldKind::Lines;
    /// What follows drilling: wash, dry, deburr, rust, pack.
    After "after" Block::Plan, FieldKind::Lines;
    /// How it is inspected beyond a pin in every hole.
    Inspection "inspection" Block::Plan, FieldKind::Lines;

    /// Margin on price for this job.
    Margin "margin" Block::Price, FieldKind::Percent;
    /// What an hour of any machine costs, as agreed with this customer.
    AgreedMachineHour "agreed_machine_hour" Block::Price, FieldKind::Money;
    /// What an hour of work costs, as agreed with this customer.
    AgreedLaborHour "agreed_labor_hour" Block::Price, FieldKind::Money;
    /// The currency of the quotation, where it is another than the shop's.
    Currency "currency" Block::Price, FieldKind::Currency;
    /// What one unit of the shop's currency is in it.
    ExchangeRate "exchange_rate" Block::Price, FieldKind::Number;
    /// The day of that rate.
    ExchangeDay "exchange_day" Block::Price, FieldKind::Date;
    /// The shop's own currency when the amounts of the sheet were typed.
    AmountsIn "amounts_in" Block::Price, FieldKind::Currency;
    /// The currency of the quotation when part value, cap and prices of the sheet were typed.
    ValuesIn "values_in" Block::Price, FieldKind::Currency;
    /// What a fixture costs the shop, once.
    FixtureCost "fixture_cost" Block::Price, FieldKind::Money;
    /// What a test piece costs the shop, once.
    TestPieceCost "test_piece_cost" Block::Price, FieldKind::Money;
    /// Outside work per lot.
    OutsideCost "outside_cost" Block::Price, FieldKind::Money;
    /// Outside work per part.
    OutsidePerPart "outside_per_part" Block::Price, FieldKind::Money;
    /// What the outside work is, and whose.
    OutsideText "outside" Block::Price, FieldKind::Line;
    /// Working days that the parts are away for it.
    OutsideDays "outside_days" Block::Price, FieldKind::CountOrNone;
    /// Lead time in working days after order, parts and drawing are in.
    LeadDays "lead_days" Block::Price, FieldKind::Count;
    /// Days that a quotation stands.
    ValidDays "valid_days" Block::Price, FieldKind::Count;
    /// When to ask what became of the quotation.
    FollowUp "follow_up" Block::Price, FieldKind::Date;
    /// When the customer pays.
    Payment "payment" Block::Price, FieldKind::Line;
    /// How parts come and go.
    Delivery "delivery" Block::Price, FieldKind::Line;
    /// Clauses that were agreed with this customer.
    Clauses "clauses" Block::Price, FieldKind::Lines;
    /// Exclusions and assumptions of this job.
    Exclusions "exclusions" Block::Price, FieldKind::Lines;
}
