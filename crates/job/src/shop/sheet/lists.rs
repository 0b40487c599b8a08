//! What a shop says of itself: single lines, and lists with their columns.

use super::kind::ShopKind;
use super::kind::words::{FAMILIES, METALS, PAPER_SIZES, SIDES, TILTS};
use crate::ground::list::list;
use crate::life::drawer::Thing;
use crate::typed::form::{Dates, Numbers};
use crate::typed::language::Language;

list! {
    /// A single line of the shop's sheet, in the sheet's order.
    pub enum ShopLine {
        /// The block of the sheet that it stands in.
        block: ShopBlock,
        /// How its text is read.
        kind: ShopKind,
    }

    /// Its name, as papers print it.
    Name "name" ShopBlock::Identity, ShopKind::Line;
    /// The lines of its address.
    Address "address" ShopBlock::Identity, ShopKind::Lines;
    /// Whom customers ask.
    Contact "contact" ShopBlock::Identity, ShopKind::Line;
    /// The telephone number.
    Phone "phone" ShopBlock::Identity, ShopKind::Line;
    /// The mail address.
    Email "email" ShopBlock::Identity, ShopKind::Line;
    /// A number that papers have to show, such as one of the tax office.
    Registration "registration" ShopBlock::Identity, ShopKind::Line;
    /// The currency of all prices, as an ISO 4217 code.
    Currency "currency" ShopBlock::Identity, ShopKind::Currency;
    /// The size of its sheets.
    PaperSize "paper_size" ShopBlock::Identity, ShopKind::OneOf(PAPER_SIZES);
    /// The sides of the sheets that are printed.
    Sides "sides" ShopBlock::Identity, ShopKind::OneOf(SIDES);
    /// How numbers are written.
    Numbers "numbers" ShopBlock::Identity, ShopKind::OneOf(Numbers::KEYS);
    /// How days are written.
    Dates "dates" ShopBlock::Identity, ShopKind::OneOf(Dates::KEYS);
    /// Plus or minus where neither row nor drawing gives limits.
    UsualTolerance "usual_tolerance" ShopBlock::Identity, ShopKind::Length;
    /// Terms of a quotation, one a line.
    Terms "terms" ShopBlock::Texts, ShopKind::Lines;
    /// What a quotation leaves out unless it says otherwise, one a line.
    Exclusions "exclusions" ShopBlock::Texts, ShopKind::Lines;
    /// Cautions beside the program's own, one a line.
    Cautions "cautions" ShopBlock::Texts, ShopKind::Lines;
    /// Days of the week that are worked.
    WorkDays "work_days" ShopBlock::Calendar, ShopKind::WorkDays;
    /// Attended hours of a working day.
    HoursPerDay "hours_per_day" ShopBlock::Calendar, ShopKind::Hours;
    /// Hours of a working day that machines may run alone.
    UnattendedHours "unattended_hours" ShopBlock::Calendar, ShopKind::HoursOrNone;
}

/// A block of the shop's sheet that has single lines.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum ShopBlock {
    /// Who it is, and how it writes.
    Identity,
    /// What papers say beside the figures.
    Texts,
    /// When it works.
    Calendar,
}

macro_rules! lists {
    ($($(#[$doc:meta])+ $Name:ident $key:literal [$($column:ident)+];)+) => {
        list! {
            /// A list of the shop's sheet, in the sheet's order.
            pub enum ShopList {
                /// Its columns, from the left.
                columns: &'static [ShopColumn],
            }
            $($(#[$doc])+ $Name $key &[$(ShopColumn::$column,)+];)+
        }
    };
}

lists! {
    /// What hours and losses cost, from a day on.
    Rates "rates" [ValidFrom MachineHour LaborHour Margin Minimum TryCharge PriceStep DielectricHour PowerHour Redo PartRisk Note];
    /// Electrodes: what there is, and what lies in the drawer.
    Electrodes "electrodes" [Name Outer InDrawer Kept Free Counted Metal Bore Channels NewLength Price Stubs Note];
    /// Guides: what there is, and what lies in the drawer.
    Guides "guides" [Name ForElectrode Life Price InDrawer Kept Free Counted Note];
    /// The machines.
    Machines "machines" [Name MachineHour ElectrodeFrom ElectrodeTo LongestElectrode PartX PartY PartZ PartMass Stroke HeldBack StandOff NoseDiameter NoseLength HeadDiameter Pressure Changer IndexAxis TiltFrom TiltTo Tilts TableRapid HeadRapid Attended Note];
    /// Customers, with what was agreed with them.
    Customers "customers" [Name Contact Address Email Phone TheirNumber Language Currency ExchangeRate ExchangeDay Margin MachineHour LaborHour Sampling Clauses Payment Delivery Note];
    /// Work materials of the shop's own.
    Materials "materials" [Name OtherNames Family FeedFrom FeedTo WearFrom WearTo Metal Density ResistivityFrom ResistivityTo Hazards Note];
    /// Feed and wear of whole families of materials.
    Families "families" [Name FeedFrom FeedTo WearFrom WearTo Metal Note];
    /// Holidays and shutdowns.
    DaysOff "days_off" [Day What];
    /// Start values of the process.
    StartValues "start_values" [Name Value Learned Note];
}

impl ShopList {
    /// The list that a thing of the drawer stands in.
    #[must_use]
    pub const fn of(thing: Thing) -> Self {
        match thing {
            Thing::Electrode => Self::Electrodes,
            Thing::Guide => Self::Guides,
        }
    }
}

list! {
    /// A column of a list.
    pub enum ShopColumn {
        /// How its text is read.
        kind: ShopKind,
    }

    /// What the row is called.
    Name "name" ShopKind::Line;
    /// The first day that a card is in force.
    ValidFrom "valid_from" ShopKind::Date;
    /// What an hour of a machine costs: of all alike, or of each by its name.
    MachineHour "machine_hour" ShopKind::MachineRates;
    /// What an hour of work costs.
    LaborHour "labor_hour" ShopKind::Money;
    /// What dielectric, filters and resin cost for an hour of a machine.
    DielectricHour "dielectric_hour" ShopKind::Money;
    /// What power costs for an hour of a machine.
    PowerHour "power_hour" ShopKind::Money;
    /// Margin on price.
    Margin "margin" ShopKind::Percent;
    /// Least that one lot is sold for.
    Minimum "minimum" ShopKind::Money;
    /// What is asked where a broken tool can't be got out.
    TryCharge "try_charge" ShopKind::Money;
    /// Step that prices are rounded to.
    PriceStep "price_step" ShopKind::Money;
    /// Allowance for redone holes.
    Redo "redo" ShopKind::Percent;
    /// Chance that one part of the customer's is spoiled.
    PartRisk "part_risk" ShopKind::Percent;
    /// What an electrode is made of.
    Metal "metal" ShopKind::OneOf(METALS);
    /// Outer diameter of an electrode.
    Outer "outer" ShopKind::Length;
    /// Bore of one channel, or equivalent bore of several.
    Bore "bore" ShopKind::Length;
    /// Channels of an electrode.
    Channels "channels" ShopKind::Count;
    /// Length of a new electrode.
    NewLength "new_length" ShopKind::Length;
    /// What one costs.
    Price "price" ShopKind::Money;
    /// How many lay in the drawer when they were counted.
    InDrawer "in_drawer" ShopKind::CountOrNone;
    /// How many are kept for jobs on the floor.
    Kept "kept" ShopKind::Computed;
    /// How many are free by now.
    Free "free" ShopKind::Computed;
    /// The day that they were counted.
    Counted "counted" ShopKind::Date;
    /// Pieces left of used electrodes.
    Stubs "stubs" ShopKind::Stubs;
    /// The diameter of the electrodes that a guide guides.
    ForElectrode "for_electrode" ShopKind::Length;
    /// Holes that a guide lasts.
    Life "life" ShopKind::Number;
    /// Smallest electrode that a machine drives.
    ElectrodeFrom "electrode_from" ShopKind::Length;
    /// Largest electrode that a machine drives.
    ElectrodeTo "electrode_to" ShopKind::Length;
    /// Longest electrode that a machine takes.
    LongestElectrode "longest_electrode" ShopKind::Length;
    /// Largest part along x.
    PartX "part_x" ShopKind::Length;
    /// Largest part along y.
    PartY "part_y" ShopKind::Length;
    /// Largest part along z.
    PartZ "part_z" ShopKind::Length;
    /// Heaviest part.
    PartMass "part_mass" ShopKind::Mass;
    /// Stroke of the drilling axis.
    Stroke "stroke" ShopKind::Length;
    /// Length of an electrode that chuck, guide, stand-off and reserve hold back.
    HeldBack "held_back" ShopKind::Length;
    /// Stand-off of the guide, a part of that.
    StandOff "stand_off" ShopKind::LengthOrNone;
    /// Diameter of the nose that holds the guide.
    NoseDiameter "nose" ShopKind::Length;
    /// Length of the nose, from the guide's end up to the head.
    NoseLength "nose_length" ShopKind::Length;
    /// Diameter of the head above the nose.
    HeadDiameter "head" ShopKind::Length;
    /// Flush pressure at the pump [bar].
    Pressure "pressure" ShopKind::Number;
    /// Whether electrodes are changed by the machine.
    Changer "changer" ShopKind::YesNo;
    /// Whether a rotary axis indexes the part.
    IndexAxis "index_axis" ShopKind::YesNo;
    /// Smallest tilt from upright [deg].
    TiltFrom "tilt_from" ShopKind::Degrees;
    /// Largest tilt from upright [deg].
    TiltTo "tilt_to" ShopKind::Degrees;
    /// What tilts.
    Tilts "tilts" ShopKind::OneOf(TILTS);
    /// Rapid speed of the table's axes, in a minute.
    TableRapid "table_rapid" ShopKind::Length;
    /// Rapid speed of the drilling axis, in a minute.
    HeadRapid "head_rapid" ShopKind::Length;
    /// Share of its running time that a person stands by.
    Attended "attended" ShopKind::Share;
    /// Whom to talk to.
    Contact "contact" ShopKind::Line;
    /// The lines of an address.
    Address "address" ShopKind::Lines;
    /// The mail address.
    Email "email" ShopKind::Line;
    /// The telephone number.
    Phone "phone" ShopKind::Line;
    /// The number that the shop has at the customer's.
    TheirNumber "their_number" ShopKind::Line;
    /// The language of the papers that go there.
    Language "language" ShopKind::OneOf(Language::KEYS);
    /// The currency that quotations are in, as an ISO 4217 code.
    Currency "currency" ShopKind::Currency;
    /// What one unit of the shop's currency is in the customer's.
    ExchangeRate "exchange_rate" ShopKind::Number;
    /// The day of that rate.
    ExchangeDay "exchange_day" ShopKind::Date;
    /// How it is sampled or inspected.
    Sampling "sampling" ShopKind::Line;
    /// Clauses that go on quotations, one a line.
    Clauses "clauses" ShopKind::Lines;
    /// When it is paid.
    Payment "payment" ShopKind::Line;
    /// How parts come and go.
    Delivery "delivery" ShopKind::Line;
    /// Other names of a material.
    OtherNames "other_names" ShopKind::Names;
    /// The family of a material.
    Family "family" ShopKind::OneOf(FAMILIES);
    /// Feed of a 1 mm electrode in a shallow hole, low [mm/min].
    FeedFrom "feed_from" ShopKind::Number;
    /// The same, high [mm/min].
    FeedTo "feed_to" ShopKind::Number;
    /// Length lost of a 1 mm electrode for each length drilled, low.
    WearFrom "wear_from" ShopKind::Number;
    /// The same, high.
    WearTo "wear_to" ShopKind::Number;
    /// Density [g/cm3].
    Density "density" ShopKind::Number;
    /// Lowest resistivity [uohm cm].
    ResistivityFrom "resistivity_from" ShopKind::Number;
    /// Highest resistivity [uohm cm].
    ResistivityTo "resistivity_to" ShopKind::Number;
    /// What a material endangers.
    Hazards "hazards" ShopKind::Hazards;
    /// A day that is not worked.
    Day "day" ShopKind::Date;
    /// What day it is.
    What "what" ShopKind::Line;
    /// A start value: a number, a band, or a curve over the diameter.
    Value "value" ShopKind::StartValue;
    /// What the shop's own runs make of a start value.
    Learned "learned" ShopKind::Computed;
    /// Where the row comes from, or anything else.
    Note "note" ShopKind::Line;
}
