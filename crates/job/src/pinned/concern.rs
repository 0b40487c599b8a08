//! Findings that concern the customer: which of them are told, and which want an answer before a
//! quotation is issued and before a traveler is released. One list, of kinds.

use std::collections::BTreeMap;

use quillbore_calc::RowId;
use quillbore_calc::finding::{About, Burning, Finding, Kind, Level};

use crate::ground::list::list;

list! {
    /// What a check asks that concerns the customer.
    pub enum Concern;

    /// Limits that can't be promised.
    Limits "limits";
    /// Limits that the drawing doesn't give and the shop assumed.
    AssumedLimits "assumed_limits";
    /// A wall behind the exit that may be hit.
    WallBehind "wall_behind";
    /// A step in the middle of a hole that is drilled from both ends.
    Step "step";
    /// A blind depth that can't be promised.
    Depth "depth";
}

/// How a finding concerns the customer.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Customer {
    /// It stays in the shop.
    #[default]
    Shop,
    /// The customer is told of it.
    Told(Told),
    /// The customer is asked, or the shop takes it on itself.
    Asked(Concern),
}

/// What the customer is told before ordering, without being asked for an answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Told {
    /// Limits are as close as the process holds.
    LimitsTight,
    /// The material conducts poorly: its grade has to be certain.
    ConductivityCheck,
    /// The material may not conduct well enough.
    ConductivityTestPiece,
    /// The material does not conduct well enough, as far as is known.
    DoesNotConduct,
    /// Deeper for its diameter than was drilled before.
    DeepTestPiece,
    /// The depth is set by the first hole.
    DepthBySteps,
    /// The same, where the drawing gives the depth's limits.
    DepthByStepsInLimits,
    /// A lower limit that the drawing doesn't give.
    LowerAssumed,
    /// A loose core could be trapped.
    CoreTrapped,
    /// A broken tool comes out or not, and its thread may suffer.
    NotGuaranteed,
    /// The smallest exit may be less than a wire needs.
    ExitMayBeTight,
    /// A start hole may drift as far as the finished profile.
    ProfileInReach,
}

/// How a finding of this kind concerns the customer: the one list of it.
#[must_use]
pub const fn customer(kind: &Kind) -> Customer {
    match kind {
        Kind::LimitsNotToBePromised { .. } => Customer::Asked(Concern::Limits),
        Kind::LimitsAssumed { .. } => Customer::Asked(Concern::AssumedLimits),
        Kind::BackingNeeded { .. } | Kind::WallInReach { .. } => {
            Customer::Asked(Concern::WallBehind)
        }
        Kind::DepthNotToBePromised { .. } => Customer::Asked(Concern::Depth),
        Kind::EndsMayMiss { .. } => Customer::Asked(Concern::Step),
        Kind::LimitsTight { .. } => Customer::Told(Told::LimitsTight),
        Kind::ConductivityCheck { .. } => Customer::Told(Told::ConductivityCheck),
        Kind::ConductivityTestPiece { .. } => Customer::Told(Told::ConductivityTestPiece),
        Kind::DoesNotConduct { .. } => Customer::Told(Told::DoesNotConduct),
        Kind::DeepTestPiece { .. } => Customer::Told(Told::DeepTestPiece),
        Kind::DepthBySteps { .. } => Customer::Told(Told::DepthBySteps),
        Kind::LowerAssumed { .. } => Customer::Told(Told::LowerAssumed),
        Kind::CoreTrapped => Customer::Told(Told::CoreTrapped),
        Kind::Burnt(Burning::NotGuaranteed { .. }) => Customer::Told(Told::NotGuaranteed),
        Kind::ExitMayBeTight { .. } => Customer::Told(Told::ExitMayBeTight),
        Kind::ProfileInReach { .. } => Customer::Told(Told::ProfileInReach),
        Kind::MaterialMissing
        | Kind::MachineMissing
        | Kind::QuantityMissing
        | Kind::SizeMissing
        | Kind::DepthMissing
        | Kind::LayersDisagree { .. }
        | Kind::ConductivityUnknown
        | Kind::NoTube { .. }
        | Kind::LimitsTooClose { .. }
        | Kind::LimitsNotHeld { .. }
        | Kind::TubeMisses { .. }
        | Kind::OtherTubeDrilledIt { .. }
        | Kind::NoGuide { .. }
        | Kind::TubesShort { .. }
        | Kind::GuidesShort { .. }
        | Kind::FeedUnknown { .. }
        | Kind::DepthUnknown { .. }
        | Kind::FamilyValues
        | Kind::OtherTubeMaterial
        | Kind::CoreLeft
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
        | Kind::PressureAbovePump { .. }
        | Kind::RestsOnMore
        | Kind::Burnt(_)
        | Kind::HeadTouches { .. }
        | Kind::PartMoved { .. }
        | Kind::ExitGrazes { .. }
        | Kind::ExitMisses { .. }
        | Kind::AngleTwice { .. }
        | Kind::NoFullMetal { .. }
        | Kind::BackingHolds { .. }
        | Kind::OutOfReach { .. }
        | Kind::ChainedElectrodes { .. }
        | Kind::OtherEndsCheaper { .. }
        | Kind::FarEndClosed
        | Kind::DeepNote { .. }
        | Kind::DeepDone { .. }
        | Kind::DeepCheck { .. }
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
        | Kind::Overruled { .. } => Customer::Shop,
    }
}

/// What an answer was given for; lengths in mm, chances from 0 to 1.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Facts {
    /// What drawing and sheet say of it.
    pub given: Vec<f64>,
    /// How far it may go wrong by the calculation; zero where nothing is computed.
    pub by: f64,
}

impl Facts {
    /// Whether what was answered then still stands: the same drawing, and nothing that came out worse
    /// by more than a tenth.
    #[must_use]
    pub fn cover(&self, now: &Self) -> bool {
        /// Lengths nearer than that are the same, in every unit that drawings are made in.
        const SAME_MM: f64 = 0.000_5;
        /// A calculation comes out a little otherwise with every table that is better known.
        const WORSE: f64 = 1.1;
        let same = |(then, now): (&f64, &f64)| (then - now).abs() <= SAME_MM;
        self.given.len() == now.given.len()
            && self.given.iter().zip(&now.given).all(same)
            && now.by <= self.by * WORSE + SAME_MM
    }

    /// The worse of two findings about one thing.
    fn or_worse(self, other: Self) -> Self {
        if other.by > self.by { other } else { self }
    }
}

/// The facts of a finding that an answer rests on.
fn facts(kind: &Kind) -> Facts {
    let (given, by) = match kind {
        Kind::LimitsNotToBePromised {
            held,
            lower_mm,
            upper_mm,
            ..
        } => (vec![*lower_mm, *upper_mm], 1.0 - held),
        Kind::LimitsAssumed { lower_mm, upper_mm } => (vec![*lower_mm, *upper_mm], 0.0),
        Kind::BackingNeeded {
            behind_mm,
            needed_mm,
        }
        | Kind::WallInReach {
            behind_mm,
            needed_mm,
            ..
        } => (vec![*behind_mm], needed_mm - behind_mm),
        Kind::DepthNotToBePromised {
            by_mm, allowed_mm, ..
        } => (vec![*allowed_mm], *by_mm),
        Kind::EndsMayMiss { by_mm } => (Vec::new(), *by_mm),
        _ => (Vec::new(), 0.0),
    };
    Facts { given, by }
}

/// What a finding asks about a row; a note asks nothing, and a stop only where an answer can lift it.
#[must_use]
pub fn asked(finding: &Finding) -> Option<(RowId, Concern, Facts)> {
    let (About::Row(row), Customer::Asked(concern)) = (finding.about, customer(&finding.kind))
    else {
        return None;
    };
    let asks = match finding.level {
        Level::Note => false,
        Level::Check => true,
        Level::Stop => concern == Concern::WallBehind,
    };
    asks.then(|| (row, concern, facts(&finding.kind)))
}

/// Everything that these findings ask, each thing once and at its worst.
#[must_use]
pub fn all_asked<'a>(
    findings: impl IntoIterator<Item = &'a Finding>,
) -> BTreeMap<(RowId, Concern), Facts> {
    let mut all: BTreeMap<(RowId, Concern), Facts> = BTreeMap::new();
    for (row, concern, facts) in findings.into_iter().filter_map(asked) {
        let key = (row, concern);
        let worst = match all.remove(&key) {
            Some(there) => there.or_worse(facts),
            None => facts,
        };
        all.insert(key, worst);
    }
    all
}
