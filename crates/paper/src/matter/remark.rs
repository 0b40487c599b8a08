//! What is to be said beside the lines of a job, as papers tell it, and to whom.

use quillbore_calc::RowId;
use quillbore_calc::finding::{Kind, Level};
use quillbore_job::Block;
use quillbore_job::concern::Customer;
use quillbore_job::results::{Beside, NoteKind, SideNote, Telling};

/// A sentence about the job or about one of its rows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Remark {
    /// How much it matters.
    pub level: Level,
    /// The row it is about, if it is about one.
    pub row: Option<RowId>,
    /// The sentence.
    pub text: String,
    /// How it concerns the customer.
    pub customer: Customer,
    /// Whether the floor is told: what is about prices, papers and slips is the office's.
    pub floor: bool,
}

impl Remark {
    /// The remark that a side note is, in words.
    #[must_use]
    pub fn of(note: &SideNote, telling: &Telling<'_>) -> Self {
        let (row, floor) = match note.beside {
            Beside::Row(row, _) => (Some(row), true),
            Beside::Field(field) => (None, field.block() != Block::Price),
            Beside::Plan => (None, true),
            Beside::Price | Beside::Papers | Beside::Slip(..) => (None, false),
        };
        Self {
            level: note.level,
            row,
            text: telling.text(note).into_owned(),
            customer: note.customer,
            floor: floor && !is_of_the_office(&note.kind),
        }
    }
}

/// Whether what stands beside holes and plan concerns money or the office alone.
const fn is_of_the_office(kind: &NoteKind) -> bool {
    match kind {
        NoteKind::Found(kind) => is_finding_of_the_office(kind),
        NoteKind::AnswerToNothing
        | NoteKind::LeadTimeShort
        | NoteKind::ExchangeMissing
        | NoteKind::OrderInOtherCurrency
        | NoteKind::AmountsInOtherCurrency
        | NoteKind::ExchangeOfOtherDay
        | NoteKind::ExchangeOdd
        | NoteKind::EndAssumed
        | NoteKind::CountIsNotPlaces
        | NoteKind::RecordsBehind
        | NoteKind::RatesNotYet
        | NoteKind::MarginOdd
        | NoteKind::DaysOdd
        | NoteKind::HourFree
        | NoteKind::DuePast
        | NoteKind::DueOnDayOff
        | NoteKind::SlipAhead
        | NoteKind::ExchangeNotNeeded
        | NoteKind::AgreedOtherwise => true,
        NoteKind::Unread
        | NoteKind::UnknownName
        | NoteKind::AngleBasisAssumed
        | NoteKind::MaterialByOtherName
        | NoteKind::ThroughAndBlind
        | NoteKind::DepthFromWall
        | NoteKind::OrderDiffers
        | NoteKind::OrderWithoutPrice
        | NoteKind::OrderBelowPrice
        | NoteKind::OrderAbovePrice
        | NoteKind::HoldOpen
        | NoteKind::TubeGrew
        | NoteKind::Run(_)
        | NoteKind::WithdrawsNothing
        | NoteKind::StandsAgain
        | NoteKind::DeliveredOpen
        | NoteKind::EntryChanged
        | NoteKind::SealUnknown
        | NoteKind::NotSealed
        | NoteKind::TravelerOutdated
        | NoteKind::DeeperThanPart
        | NoteKind::BlindThroughWall
        | NoteKind::ShorterThanWall => false,
    }
}

const fn is_finding_of_the_office(kind: &Kind) -> bool {
    match kind {
        Kind::OtherEndsCheaper { .. }
        | Kind::PartValueUnknown
        | Kind::Overruled { .. }
        | Kind::TubesShort { .. }
        | Kind::GuidesShort { .. } => true,
        Kind::MaterialMissing
        | Kind::MachineMissing
        | Kind::QuantityMissing
        | Kind::SizeMissing
        | Kind::LimitsAssumed { .. }
        | Kind::DepthMissing
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
        | Kind::MinimumCharge { .. } => false,
    }
}
