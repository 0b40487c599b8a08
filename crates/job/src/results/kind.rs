//! What a side note is about, as a kind: what gates a paper goes by it, never by a sentence or a code.

use core::mem::discriminant;

use quillbore_calc::finding::Kind;

use super::run_fault::RunFault;
use crate::ground::list::list;

/// What a side note says.
#[derive(Clone, Debug, PartialEq)]
pub enum NoteKind {
    /// The calculation found it.
    Found(Kind),
    /// A text can't be read.
    Unread,
    /// A name that the shop's tables don't have.
    UnknownName,
    /// Angles that don't say what they are measured from.
    AngleBasisAssumed,
    /// A material that is written by another name than the shop's own.
    MaterialByOtherName,
    /// A depth that says through, and a hole that is to be blind.
    ThroughAndBlind,
    /// A depth that says through, taken from what the hole goes through.
    DepthFromWall,
    /// A hole whose end nobody gave, taken for a through one.
    EndAssumed,
    /// A count beside locations of another number.
    CountIsNotPlaces,
    /// A hole that is deeper than the part is long in any direction.
    DeeperThanPart,
    /// A blind hole that comes through the wall.
    BlindThroughWall,
    /// A through hole whose depth ends inside the wall.
    ShorterThanWall,
    /// An answer to what is no longer found.
    AnswerToNothing,
    /// An order differs from quotation or sheet.
    OrderDiffers,
    /// An order doesn't say what it pays.
    OrderWithoutPrice,
    /// An order pays less than today's price.
    OrderBelowPrice,
    /// An order pays more than today's price.
    OrderAbovePrice,
    /// A hold point is not released yet.
    HoldOpen,
    /// A tube grew in a run record.
    TubeGrew,
    /// An entry of a run record can't be.
    Run(RunFault),
    /// A withdrawal withdraws nothing.
    WithdrawsNothing,
    /// A withdrawn paper stands again.
    StandsAgain,
    /// Parts go out while a non-conformance is open.
    DeliveredOpen,
    /// The entry of an issued paper was changed.
    EntryChanged,
    /// The entry of an issued paper has a seal that is not known here.
    SealUnknown,
    /// Entries of issued papers have no seal.
    NotSealed,
    /// The sheet went on while a traveler is on the floor.
    TravelerOutdated,
    /// A lead time that the lot is not done in more often than not.
    LeadTimeShort,
    /// A quotation in another currency, without all that its prices rest on.
    ExchangeMissing,
    /// An order pays in another currency than the sheet reckons in.
    OrderInOtherCurrency,
    /// Amounts were typed when the shop had another currency.
    AmountsInOtherCurrency,
    /// An exchange rate of a day long past, or of one that has not come.
    ExchangeOfOtherDay,
    /// A rate of exchange that can be read in two ways, or beyond any.
    ExchangeOdd,
    /// Parts go out whose holes are not recorded.
    RecordsBehind,
    /// No rate card is in force yet.
    RatesNotYet,
    /// A margin that nobody earns.
    MarginOdd,
    /// A number of days that is hardly meant.
    DaysOdd,
    /// An hour of the machine or of work that costs nothing.
    HourFree,
    /// A due date that has passed before the job is ordered.
    DuePast,
    /// A due date on a day on which the shop doesn't work.
    DueOnDayOff,
    /// What happened is dated on a day that has not come.
    SlipAhead,
    /// An exchange rate where the quotation is in the shop's own currency.
    ExchangeNotNeeded,
    /// The shop has agreed something else with the customer by now.
    AgreedOtherwise,
}

list! {
    /// What is not there yet, or not to be made out, before a job can be quoted.
    pub enum Missing;

    /// The work material.
    Material "material";
    /// The machine.
    Machine "machine";
    /// The quantity.
    Quantity "quantity";
    /// The size of a hole.
    Size "size";
    /// The depth of a hole.
    Depth "depth";
    /// A text that can be read.
    Reading "reading";
    /// A name that is in the shop's tables.
    Name "name";
    /// The rate and day of another currency, or that currency.
    Exchange "exchange";
}

impl NoteKind {
    /// Its stable code, for what is printed and written: lower-case words joined by hyphens.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::Found(kind) => kind.code(),
            Self::Unread => "unread",
            Self::UnknownName => "unknown-name",
            Self::AngleBasisAssumed => "angle-basis-assumed",
            Self::MaterialByOtherName => "material-by-other-name",
            Self::ThroughAndBlind => "through-and-blind",
            Self::DepthFromWall => "depth-from-wall",
            Self::DeeperThanPart => "deeper-than-part",
            Self::BlindThroughWall => "blind-through-wall",
            Self::ShorterThanWall => "shorter-than-wall",
            Self::AnswerToNothing => "answer-to-nothing",
            Self::OrderDiffers => "order-differs",
            Self::OrderWithoutPrice => "order-without-price",
            Self::OrderBelowPrice => "order-below-price",
            Self::OrderAbovePrice => "order-above-price",
            Self::HoldOpen => "hold-open",
            Self::TubeGrew => "tube-grew",
            Self::Run(fault) => fault.key(),
            Self::WithdrawsNothing => "withdraws-nothing",
            Self::StandsAgain => "stands-again",
            Self::DeliveredOpen => "delivered-open",
            Self::EntryChanged => "entry-changed",
            Self::SealUnknown => "seal-unknown",
            Self::NotSealed => "not-sealed",
            Self::TravelerOutdated => "traveler-outdated",
            Self::LeadTimeShort => "lead-time-short",
            Self::ExchangeMissing => "exchange-missing",
            Self::OrderInOtherCurrency => "order-in-other-currency",
            Self::AmountsInOtherCurrency => "amounts-in-other-currency",
            Self::ExchangeOfOtherDay => "exchange-of-other-day",
            Self::ExchangeOdd => "exchange-odd",
            Self::EndAssumed => "end-assumed",
            Self::CountIsNotPlaces => "count-is-not-places",
            Self::RecordsBehind => "records-behind",
            Self::RatesNotYet => "rates-not-yet",
            Self::MarginOdd => "margin-odd",
            Self::DaysOdd => "days-odd",
            Self::HourFree => "hour-free",
            Self::DuePast => "due-past",
            Self::DueOnDayOff => "due-on-day-off",
            Self::SlipAhead => "slip-ahead",
            Self::ExchangeNotNeeded => "exchange-not-needed",
            Self::AgreedOtherwise => "agreed-otherwise",
        }
    }

    /// Whether two are of one kind, whatever their facts.
    #[must_use]
    pub fn is_like(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Run(one), Self::Run(other)) => one == other,
            (Self::Found(one), Self::Found(other)) => discriminant(one) == discriminant(other),
            (one, other) => discriminant(one) == discriminant(other),
        }
    }

    /// Whether it says that figures are without what stands on the sheet.
    #[must_use]
    pub const fn is_unread(&self) -> bool {
        match self {
            Self::Unread | Self::UnknownName => true,
            Self::Found(_)
            | Self::AngleBasisAssumed
            | Self::MaterialByOtherName
            | Self::ThroughAndBlind
            | Self::DepthFromWall
            | Self::DeeperThanPart
            | Self::BlindThroughWall
            | Self::ShorterThanWall
            | Self::AnswerToNothing
            | Self::OrderDiffers
            | Self::OrderWithoutPrice
            | Self::OrderBelowPrice
            | Self::OrderAbovePrice
            | Self::HoldOpen
            | Self::TubeGrew
            | Self::Run(_)
            | Self::WithdrawsNothing
            | Self::StandsAgain
            | Self::DeliveredOpen
            | Self::EntryChanged
            | Self::SealUnknown
            | Self::NotSealed
            | Self::TravelerOutdated
            | Self::LeadTimeShort
            | Self::ExchangeMissing
            | Self::OrderInOtherCurrency
            | Self::AmountsInOtherCurrency
            | Self::ExchangeOfOtherDay
            | Self::ExchangeOdd
            | Self::EndAssumed
            | Self::CountIsNotPlaces
            | Self::RecordsBehind
            | Self::RatesNotYet
            | Self::MarginOdd
            | Self::DaysOdd
            | Self::HourFree
            | Self::DuePast
            | Self::DueOnDayOff
            | Self::SlipAhead
            | Self::ExchangeNotNeeded
            | Self::AgreedOtherwise => false,
        }
    }

    /// Whether it says that something has to be bought before a date is promised.
    #[must_use]
    pub const fn is_short_supply(&self) -> bool {
        matches!(
            self,
            Self::Found(Kind::TubesShort { .. } | Kind::GuidesShort { .. })
        )
    }

    /// Whether it says that an order pays another price than today's.
    pub(super) const fn is_order_price(&self) -> bool {
        match self {
            Self::OrderBelowPrice | Self::OrderAbovePrice => true,
            Self::Found(_)
            | Self::Unread
            | Self::UnknownName
            | Self::AngleBasisAssumed
            | Self::MaterialByOtherName
            | Self::ThroughAndBlind
            | Self::DepthFromWall
            | Self::DeeperThanPart
            | Self::BlindThroughWall
            | Self::ShorterThanWall
            | Self::AnswerToNothing
            | Self::OrderDiffers
            | Self::OrderWithoutPrice
            | Self::HoldOpen
            | Self::TubeGrew
            | Self::Run(_)
            | Self::WithdrawsNothing
            | Self::StandsAgain
            | Self::DeliveredOpen
            | Self::EntryChanged
            | Self::SealUnknown
            | Self::NotSealed
            | Self::TravelerOutdated
            | Self::LeadTimeShort
            | Self::ExchangeMissing
            | Self::OrderInOtherCurrency
            | Self::AmountsInOtherCurrency
            | Self::ExchangeOfOtherDay
            | Self::ExchangeOdd
            | Self::EndAssumed
            | Self::CountIsNotPlaces
            | Self::RecordsBehind
            | Self::RatesNotYet
            | Self::MarginOdd
            | Self::DaysOdd
            | Self::HourFree
            | Self::DuePast
            | Self::DueOnDayOff
            | Self::SlipAhead
            | Self::ExchangeNotNeeded
            | Self::AgreedOtherwise => false,
        }
    }

    /// Whether it is about what the floor sees to before and during the burn: the office has nothing to do
    /// about it, and the traveler says it.
    #[must_use]
    pub const fn is_for_the_floor(&self) -> bool {
        matches!(
            self,
            Self::Found(Kind::CoreLeft | Kind::BackingHolds { .. })
        )
    }

    /// What is missing before a quotation where a job has this note, if something is.
    #[must_use]
    pub const fn missing(&self) -> Option<Missing> {
        match self {
            Self::Found(kind) => missing(kind),
            Self::Unread => Some(Missing::Reading),
            Self::UnknownName => Some(Missing::Name),
            Self::ExchangeMissing => Some(Missing::Exchange),
            Self::AngleBasisAssumed
            | Self::MaterialByOtherName
            | Self::ThroughAndBlind
            | Self::DepthFromWall
            | Self::DeeperThanPart
            | Self::BlindThroughWall
            | Self::ShorterThanWall
            | Self::AnswerToNothing
            | Self::OrderDiffers
            | Self::OrderWithoutPrice
            | Self::OrderBelowPrice
            | Self::OrderAbovePrice
            | Self::HoldOpen
            | Self::TubeGrew
            | Self::Run(_)
            | Self::WithdrawsNothing
            | Self::StandsAgain
            | Self::DeliveredOpen
            | Self::EntryChanged
            | Self::SealUnknown
            | Self::NotSealed
            | Self::TravelerOutdated
            | Self::LeadTimeShort
            | Self::OrderInOtherCurrency
            | Self::AmountsInOtherCurrency
            | Self::ExchangeOfOtherDay
            | Self::ExchangeOdd
            | Self::EndAssumed
            | Self::CountIsNotPlaces
            | Self::RecordsBehind
            | Self::RatesNotYet
            | Self::MarginOdd
            | Self::DaysOdd
            | Self::HourFree
            | Self::DuePast
            | Self::DueOnDayOff
            | Self::SlipAhead
            | Self::ExchangeNotNeeded
            | Self::AgreedOtherwise => None,
        }
    }
}

const fn missing(kind: &Kind) -> Option<Missing> {
    match kind {
        Kind::MaterialMissing => Some(Missing::Material),
        Kind::MachineMissing => Some(Missing::Machine),
        Kind::QuantityMissing => Some(Missing::Quantity),
        Kind::SizeMissing => Some(Missing::Size),
        Kind::DepthMissing => Some(Missing::Depth),
        Kind::LimitsAssumed { .. }
        | Kind::LayersDisagree { .. }
        | Kind::ConductivityCheck { .. }
        | Kind::ConductivityTestPiece { .. }
        | Kind::DoesNotConduct { .. }
        | Kind::ConductivityUnknown
        | Kind::NoTube { .. }
        | Kind::LimitsTooClose { .. }
        | Kind::LowerAssumed { .. }
        | Kind::LimitsNotHeld { .. }
        | Kind::TubeMisses { .. }
        | Kind::OtherTubeDrilledIt { .. }
        | Kind::NoGuide { .. }
        | Kind::TubesShort { .. }
        | Kind::GuidesShort { .. }
        | Kind::LimitsNotToBePromised { .. }
        | Kind::LimitsTight { .. }
        | Kind::FeedUnknown { .. }
        | Kind::DepthUnknown { .. }
        | Kind::FamilyValues
        | Kind::OtherTubeMaterial
        | Kind::CoreLeft
        | Kind::CoreTrapped
        | Kind::AxisMisses { .. }
        | Kind::ToolMisses { .. }
        | Kind::Overhang { .. }
        | Kind::ThinSideWall { .. }
        | Kind::FlushWeak { .. }
        | Kind::PlugPushed { .. }
        | Kind::AngleCountedTwice { .. }
        | Kind::ExitOfBlind
        | Kind::RecessTooNarrow { .. }
        | Kind::WireTooThick { .. }
        | Kind::ExitBelowWire { .. }
        | Kind::ProfileCut { .. }
        | Kind::WireMissing
        | Kind::BlindProof
        | Kind::ExitMayBeTight { .. }
        | Kind::ProfileInReach { .. }
        | Kind::PressureAbovePump { .. }
        | Kind::RestsOnMore
        | Kind::Burnt(_)
        | Kind::HeadTouches { .. }
        | Kind::PartMoved { .. }
        | Kind::ExitGrazes { .. }
        | Kind::ExitMisses { .. }
        | Kind::AngleTwice { .. }
        | Kind::NoFullMetal { .. }
        | Kind::BackingNeeded { .. }
        | Kind::BackingHolds { .. }
        | Kind::WallInReach { .. }
        | Kind::OutOfReach { .. }
        | Kind::ChainedElectrodes { .. }
        | Kind::OtherEndsCheaper { .. }
        | Kind::FarEndClosed
        | Kind::EndsMayMiss { .. }
        | Kind::DeepNote { .. }
        | Kind::DeepDone { .. }
        | Kind::DeepCheck { .. }
        | Kind::DeepTestPiece { .. }
        | Kind::DepthBySteps { .. }
        | Kind::DepthNotToBePromised { .. }
        | Kind::DirectionsAssumed { .. }
        | Kind::OutsidePart { .. }
        | Kind::PlacesAlike { .. }
        | Kind::SeveralSetups { .. }
        | Kind::TiltOutOfRange { .. }
        | Kind::PartTooLarge { .. }
        | Kind::PartTooHeavy { .. }
        | Kind::TubeOutsideMachine { .. }
        | Kind::PartSizeUnknown
        | Kind::MarkTwice { .. }
        | Kind::MarginImpossible { .. }
        | Kind::PriceTooLarge
        | Kind::MinimumCharge { .. }
        | Kind::PartValueUnknown
        | Kind::Overruled { .. } => None,
    }
}
