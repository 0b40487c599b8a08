//! What the calculation has to say beside its figures: codes and numbers, no words.

pub use crate::burning::Burning;
use crate::figure::key::Figure;
use crate::idx::Idx;
use crate::row_id::RowId;
use crate::tables::{Guide, Machine, Tube};

/// Something worth saying about a job, with what could be done about it.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// How much it matters.
    pub level: Level,
    /// What it is about.
    pub about: About,
    /// What it says, with its facts.
    pub kind: Kind,
    /// What would mend it, where the program can do so by an edit.
    pub remedy: Option<Remedy>,
}

/// How much a finding matters. "Caution" is kept for danger to people.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Level {
    /// Worth knowing.
    Note,
    /// Look at it before you promise.
    Check,
    /// It can't be done as it stands.
    Stop,
}

/// What a finding is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum About {
    /// The job as a whole.
    Job,
    /// One row of holes.
    Row(RowId),
    /// The price.
    Price,
}

/// What a finding says; lengths in mm, angles in degrees, times in minutes.
#[expect(
    missing_docs,
    reason = "the fields' names carry what they are and their unit"
)]
#[derive(Clone, Debug, PartialEq)]
pub enum Kind {
    /// No work material has been chosen.
    MaterialMissing,
    /// No machine has been chosen.
    MachineMissing,
    /// No quantity has been typed.
    QuantityMissing,
    /// A row has no readable size.
    SizeMissing,
    /// The drawing gives no limits: the shop's usual tolerance was taken.
    LimitsAssumed { lower_mm: f64, upper_mm: f64 },
    /// A row has no readable depth.
    DepthMissing,
    /// A row's depth disagrees with the sum of its layers.
    LayersDisagree { depth_mm: f64, layers_mm: f64 },
    /// The work's resistivity is worth a check (1 to 10 ohm cm).
    ConductivityCheck { ohm_cm: f64 },
    /// The work's resistivity asks for a test piece (10 to 100 ohm cm).
    ConductivityTestPiece { ohm_cm: f64 },
    /// The work does not conduct well enough (over 100 ohm cm).
    DoesNotConduct { ohm_cm: f64 },
    /// Nothing is known of the work's resistivity.
    ConductivityUnknown,
    /// No tube of the shop drills inside the limits; a tube to buy and its chance, or whether a
    /// smaller tube can plunge on a circle.
    NoTube {
        lower_mm: f64,
        upper_mm: f64,
        taper_mm: f64,
        buy: Option<crate::chance::Bought>,
        circle: bool,
    },
    /// The limits are closer than any effort holds.
    LimitsTooClose { width_mm: f64, least_mm: f64 },
    /// The drawing gives a maximum alone: a lower limit was assumed.
    LowerAssumed { lower_mm: f64, upper_mm: f64 },
    /// Not to be held: more likely than not outside, with any tube of the shop.
    LimitsNotHeld {
        held: f64,
        lower_mm: f64,
        upper_mm: f64,
        buy: Option<crate::chance::Bought>,
        circle: bool,
    },
    /// The tube that somebody chose is oversize more often than not, or hardly ever right.
    TubeMisses { inside: f64, over: f64 },
    /// Another tube has drilled this size before, by its pins.
    OtherTubeDrilledIt { tube_mm: f64, size_mm: f64 },
    /// No guide for the tube.
    NoGuide { tube_mm: f64 },
    /// The drawer holds fewer tubes than the kit, together with those of jobs on the floor, asks for; what
    /// the pieces left of used ones would drill: rows, deepest first, and how many holes of each.
    TubesShort {
        tube: Idx<Tube>,
        kit: u32,
        together: u32,
        stock: u32,
        by_stubs: alloc::vec::Vec<(RowId, u32)>,
    },
    /// The drawer holds fewer guides than the lot, together with jobs on the floor, wears out by their
    /// life, the last one begun.
    GuidesShort {
        guide: Idx<Guide>,
        needed: u32,
        together: u32,
        stock: u32,
    },
    /// The limits can be held more often than not, but are not to be promised.
    LimitsNotToBePromised {
        held: f64,
        outside: f64,
        lower_mm: f64,
        upper_mm: f64,
        buy: Option<crate::chance::Bought>,
    },
    /// The limits can be held, with care.
    LimitsTight {
        held: f64,
        outside: f64,
        buy: Option<crate::chance::Bought>,
    },
    /// A tube outside the range of known feeds.
    FeedUnknown { tube_mm: f64 },
    /// Deeper than feed and wear are known for.
    DepthUnknown { ratio: f64, most: f64 },
    /// Feed and wear are the family's, not the grade's.
    FamilyValues,
    /// Another tube material than the start values were taken with.
    OtherTubeMaterial,
    /// One channel leaves a core.
    CoreLeft,
    /// A loose core could be trapped, and no tube with several channels fits.
    CoreTrapped,
    /// The hole's axis misses the round surface.
    AxisMisses { offset_mm: f64, radius_mm: f64 },
    /// The tool misses the round surface altogether.
    ToolMisses { offset_mm: f64, radius_mm: f64 },
    /// Part of the hole lies outside the work: no closed wall.
    Overhang { by_mm: f64 },
    /// Metal beside the hole, at a side face or the side of a round bar, is thin.
    ThinSideWall { wall_mm: f64 },
    /// The hole leaves into a bore or crossing hole that it is not wholly inside of: part of the tool stays
    /// in the metal beside it.
    ExitGrazes { by_mm: f64 },
    /// The hole's axis misses the surface that it is to leave by.
    ExitMisses { offset_mm: f64, radius_mm: f64 },
    /// On a ball the offset says another angle than the one typed; the offset counts.
    AngleTwice { typed_deg: f64, offset_deg: f64 },
    /// From a depth on the flush flows slower up the gap than the shop's least.
    FlushWeak {
        from_mm: f64,
        gap_m_s: f64,
        least_m_s: f64,
    },
    /// Nose or head touch the part: the guide must stand off more than usual.
    HeadTouches {
        needed_mm: f64,
        stand_off_mm: f64,
        touches: crate::head::Touches,
    },
    /// A cavity that the hole opens into is closed by backing: the flush pushes on what closes it.
    PlugPushed { push_n: f64, cavity_mm: f64 },
    /// The flush tips or lifts the part, or nearly: it must be clamped.
    PartMoved {
        push_n: f64,
        clamp_n: f64,
        how: crate::job_figures::Moves,
    },
    /// Beside a round surface's offset an angle of its own was typed that is likely the same.
    AngleCountedTwice { typed_deg: f64, offset_deg: f64 },
    /// A blind hole was given an exit.
    ExitOfBlind,
    /// The recess that a hole begins in is too narrow for it.
    RecessTooNarrow { width_mm: f64, hole_mm: f64 },
    /// The smallest free exit of so many holes may be less than is needed: by the wire, where nobody said
    /// how much.
    ExitMayBeTight {
        smallest_mm: f64,
        needed_mm: f64,
        holes: u64,
        typed: bool,
    },
    /// The wire is thicker than the exit is at its largest.
    WireTooThick { wire_mm: f64, largest_mm: f64 },
    /// The least free exit is less than the wire.
    ExitBelowWire { least_mm: f64, wire_mm: f64 },
    /// The hole may reach the finished profile: by so much from its center, of it so much by drift.
    ProfileInReach {
        distance_mm: f64,
        reaches_mm: f64,
        drift_mm: f64,
    },
    /// The hole is wider than the finished profile is away.
    ProfileCut { distance_mm: f64, hole_mm: f64 },
    /// A hole is to be proved open by a wire of which nobody said how thick it is.
    WireMissing,
    /// A blind hole that a wire, light or air is to go through.
    BlindProof,
    /// More pressure than the machine's pump gives.
    PressureAbovePump { bar: f64, pump_bar: f64 },
    /// Something that one plunge into full metal doesn't make.
    Burnt(Burning),
    /// What the part is said to rest on is larger than it.
    RestsOnMore,
    /// A steep thin wall has no full metal at all.
    NoFullMetal { zones_mm: f64, depth_mm: f64 },
    /// Behind the exit there is less room than the lot's wear and overtravel ask for: it needs
    /// backing, or care.
    BackingNeeded { behind_mm: f64, needed_mm: f64 },
    /// The tip goes further than the wall behind the exit is away: only the planned backing keeps it off.
    BackingHolds { behind_mm: f64, past_mm: f64 },
    /// Holes scatter further in depth than the wall behind the exit is away, in two steps too.
    WallInReach {
        behind_mm: f64,
        needed_mm: f64,
        by_mm: f64,
    },
    /// The hole is deeper than any number of electrodes reaches.
    OutOfReach { depth_mm: f64, limit_mm: f64 },
    /// One hole takes several electrodes, one after another.
    ChainedElectrodes { electrodes: u32 },
    /// The other number of ends than the typed one costs the lot less [currency].
    OtherEndsCheaper { one: f64, both: f64 },
    /// Both ends were asked for, but the far one can't be drilled from.
    FarEndClosed,
    /// Two holes from both ends may miss each other.
    EndsMayMiss { by_mm: f64 },
    /// Depth over diameter is worth a note.
    DeepNote { ratio: f64 },
    /// Deep for its diameter, and the shop has drilled as deep in such material: its deepest.
    DeepDone { ratio: f64, own: f64 },
    /// Depth over diameter is worth a check.
    DeepCheck { ratio: f64 },
    /// Depth over diameter asks for a test piece.
    DeepTestPiece { ratio: f64 },
    /// A depth is only as sure as the wear: how far holes of the lot scatter, and whether each goes in
    /// two steps.
    DepthBySteps { by_mm: f64, two_steps: bool },
    /// A blind depth scatters further than its limits allow, in two steps too.
    DepthNotToBePromised {
        by_mm: f64,
        allowed_mm: f64,
        /// No limits are given: the general tolerance stands in for them.
        is_general: bool,
    },
    /// Directions were not given; one direction per row was assumed.
    DirectionsAssumed { rows: u32 },
    /// Holes begin outside of the part, wherever on it its zero is; of several rows together where each
    /// by itself would lie on it.
    OutsidePart { together: bool },
    /// So many locations of a row are those of others before them, direction and all.
    PlacesAlike { places: u32 },
    /// More than one clamping.
    SeveralSetups { setups: u32 },
    /// No machine axis reaches this tilt.
    TiltOutOfRange { tilt_deg: f64 },
    /// The part does not fit the machine.
    PartTooLarge {
        part_mm: [f64; 3],
        machine_mm: [f64; 3],
    },
    /// The part is too heavy for the machine.
    PartTooHeavy { mass_kg: f64, machine_kg: f64 },
    /// The tube is outside the machine's range.
    TubeOutsideMachine {
        tube_mm: f64,
        least_mm: f64,
        most_mm: f64,
    },
    /// The part's size or mass is not known, so nobody can say whether it fits.
    PartSizeUnknown,
    /// Two rows carry the same mark.
    MarkTwice { other: RowId },
    /// The margin on price is not from 0 to below 1, so there is no price.
    MarginImpossible { margin: f64 },
    /// The price has more digits than money can have, so there is none.
    PriceTooLarge,
    /// The minimum charge decides the price.
    MinimumCharge { minimum: f64 },
    /// The value of the customer's part is not known.
    PartValueUnknown,
    /// A figure was overruled; nothing was computed where tables or inputs are missing.
    Overruled {
        figure: Figure,
        computed: Option<f64>,
        stands: f64,
    },
}

impl Kind {
    /// The finding's code: lower-case words joined by hyphens, stable from version to version.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::MaterialMissing => "material-missing",
            Self::MachineMissing => "machine-missing",
            Self::QuantityMissing => "quantity-missing",
            Self::SizeMissing => "size-missing",
            Self::LimitsAssumed { .. } => "limits-assumed",
            Self::DepthMissing => "depth-missing",
            Self::LayersDisagree { .. } => "layers-disagree",
            Self::ConductivityCheck { .. } => "conductivity-check",
            Self::ConductivityTestPiece { .. } => "conductivity-test-piece",
            Self::DoesNotConduct { .. } => "does-not-conduct",
            Self::ConductivityUnknown => "conductivity-unknown",
            Self::NoTube { .. } => "no-tube",
            Self::LimitsTooClose { .. } => "limits-too-close",
            Self::LowerAssumed { .. } => "lower-assumed",
            Self::LimitsNotHeld { .. } => "limits-not-held",
            Self::TubeMisses { .. } => "tube-misses",
            Self::OtherTubeDrilledIt { .. } => "other-tube-drilled-it",
            Self::NoGuide { .. } => "no-guide",
            Self::TubesShort { .. } => "tubes-short",
            Self::GuidesShort { .. } => "guides-short",
            Self::LimitsNotToBePromised { .. } => "limits-not-to-be-promised",
            Self::LimitsTight { .. } => "limits-tight",
            Self::FeedUnknown { .. } => "feed-unknown",
            Self::DepthUnknown { .. } => "depth-unknown",
            Self::FamilyValues => "family-values",
            Self::OtherTubeMaterial => "other-tube-material",
            Self::CoreLeft => "core-left",
            Self::CoreTrapped => "core-trapped",
            Self::AxisMisses { .. } => "axis-misses",
            Self::ToolMisses { .. } => "tool-misses",
            Self::Overhang { .. } => "overhang",
            Self::ThinSideWall { .. } => "thin-side-wall",
            Self::ExitGrazes { .. } => "exit-grazes",
            Self::ExitMisses { .. } => "exit-misses",
            Self::AngleTwice { .. } => "angle-twice",
            Self::FlushWeak { .. } => "flush-weak",
            Self::HeadTouches { .. } => "head-touches",
            Self::PlugPushed { .. } => "plug-pushed",
            Self::PartMoved { .. } => "part-moved",
            Self::AngleCountedTwice { .. } => "angle-counted-twice",
            Self::ExitOfBlind => "exit-of-blind",
            Self::RecessTooNarrow { .. } => "recess-too-narrow",
            Self::ExitMayBeTight { .. } => "exit-may-be-tight",
            Self::WireTooThick { .. } => "wire-too-thick",
            Self::ExitBelowWire { .. } => "exit-below-wire",
            Self::ProfileInReach { .. } => "profile-in-reach",
            Self::ProfileCut { .. } => "profile-cut",
            Self::WireMissing => "wire-missing",
            Self::BlindProof => "blind-proof",
            Self::PressureAbovePump { .. } => "pressure-above-pump",
            Self::Burnt(burning) => burning.code(),
            Self::RestsOnMore => "rests-on-more",
            Self::NoFullMetal { .. } => "no-full-metal",
            Self::BackingNeeded { .. } => "backing-needed",
            Self::BackingHolds { .. } => "backing-holds",
            Self::WallInReach { .. } => "wall-in-reach",
            Self::OutOfReach { .. } => "out-of-reach",
            Self::ChainedElectrodes { .. } => "chained-electrodes",
            Self::OtherEndsCheaper { .. } => "other-ends-cheaper",
            Self::FarEndClosed => "far-end-closed",
            Self::EndsMayMiss { .. } => "ends-may-miss",
            Self::DeepNote { .. } => "deep-note",
            Self::DeepDone { .. } => "deep-done-before",
            Self::DeepCheck { .. } => "deep-check",
            Self::DeepTestPiece { .. } => "deep-test-piece",
            Self::DepthBySteps { .. } => "depth-by-steps",
            Self::DepthNotToBePromised { .. } => "depth-not-to-be-promised",
            Self::DirectionsAssumed { .. } => "directions-assumed",
            Self::OutsidePart { .. } => "outside-part",
            Self::PlacesAlike { .. } => "places-alike",
            Self::SeveralSetups { .. } => "several-setups",
            Self::TiltOutOfRange { .. } => "tilt-out-of-range",
            Self::PartTooLarge { .. } => "part-too-large",
            Self::PartTooHeavy { .. } => "part-too-heavy",
            Self::TubeOutsideMachine { .. } => "tube-outside-machine",
            Self::PartSizeUnknown => "part-size-unknown",
            Self::MarkTwice { .. } => "mark-twice",
            Self::MarginImpossible { .. } => "margin-impossible",
            Self::PriceTooLarge => "price-too-large",
            Self::MinimumCharge { .. } => "minimum-charge",
            Self::PartValueUnknown => "part-value-unknown",
            Self::Overruled { .. } => "overruled",
        }
    }
}

/// What would mend a finding; the job crate turns it into an edit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Remedy {
    /// Put backing behind the exit of this row.
    AddBacking(RowId),
    /// Drill this row from both ends.
    DrillBothEnds(RowId),
    /// Drill this row from its entry only.
    DrillOneEnd(RowId),
    /// Use this tube for this row.
    UseTube(RowId, Idx<Tube>),
    /// Use this machine.
    UseMachine(Idx<Machine>),
    /// Turn the part about this of its axes on the machine's index axis.
    IndexAbout(crate::input::PartAxis),
    /// Take the sum of the layers as the depth.
    DepthFromLayers(RowId),
    /// Give this row a mark that no other row has.
    NewMark(RowId),
    /// Ask for a test piece before the lot.
    AskTestPiece,
}
