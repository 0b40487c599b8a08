//! How a figure came about: formula, inputs, result.

use alloc::vec::Vec;

use super::key::Figure;
use crate::chance::Chance;
use crate::finding::Remedy;
use crate::idx::Idx;
use crate::tables::{Guide, Machine, Tube};

/// How a figure came about: formula, inputs, result.
#[derive(Clone, Debug, PartialEq)]
pub struct Working {
    /// The figure that was opened.
    pub figure: Figure,
    /// The formula, which the job crate puts into the trade's terms.
    pub formula: Formula,
    /// What went in, in the formula's order.
    pub inputs: Vec<Input>,
    /// What came out, before any overrule.
    pub result: Quantity,
    /// The value that an overrule put in its place.
    pub overruled: Option<f64>,
    /// One time in ten the figure that stands is below this, in the result's unit; of hours only.
    pub low: Option<f64>,
    /// One time in ten it is above this; of hours, and of days that weren't typed.
    pub high: Option<f64>,
    /// What could be taken instead, each by an edit; only an electrode has any.
    pub alternatives: Vec<Alternative>,
}

/// A tube that a hole could be begun with.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Alternative {
    /// The tube.
    pub tube: Idx<Tube>,
    /// Its chance of being right, and of oversize.
    pub chance: Chance,
    /// Puts it in place.
    pub remedy: Remedy,
}

/// One input of a working.
#[derive(Clone, Debug, PartialEq)]
pub struct Input {
    /// What it is.
    pub name: Name,
    /// Its value and unit.
    pub value: Quantity,
    /// Where it came from.
    pub origin: Origin,
    /// A figure that can be opened in turn.
    pub opens: Option<Figure>,
}

/// A value with its unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Quantity {
    /// The number.
    pub value: f64,
    /// Its unit.
    pub unit: Unit,
}

/// Units that figures come in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// Bar.
    Bar,
    /// Degrees Celsius.
    Celsius,
    /// Milliliters a minute.
    MlPerMin,
    /// Meters a second.
    MetersPerSecond,
    /// Newtons.
    Newton,
    /// Kilograms.
    Kilogram,
    /// Millimeters.
    Mm,
    /// Degrees.
    Deg,
    /// Minutes.
    Min,
    /// Hours.
    Hour,
    /// Millimeters a minute.
    MmPerMin,
    /// A plain number or ratio.
    Number,
    /// A count of things.
    Count,
    /// Currency of the rate card.
    Money,
    /// Currency an hour.
    MoneyPerHour,
    /// Working days.
    Day,
    /// A share, shown as percent.
    Share,
}

/// Where an input came from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Origin {
    /// Typed in the job.
    Typed,
    /// From the shop's rate card.
    RateCard,
    /// From the shop's machines, tubes or guides.
    ShopTable,
    /// A start value that no record has narrowed yet.
    StartValue,
    /// A start value as the shop's run records make it.
    Runs,
    /// Computed; the figure can be opened where one is named.
    Computed,
    /// Overruled by the estimator.
    Overruled,
}

/// Formulas that a working can show.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Formula {
    /// The job on each machine of the shop, one after another.
    MachineByMachine,
    /// What tube and gap let through at the pump's pressure.
    FlushByPressure,
    /// Pressure on the hole's area.
    PressureOnHole,
    /// What holds the part against twice the push.
    HeldAgainstPush,
    /// Tube with the greatest chance of being right less that of oversize.
    ElectrodeChoice,
    /// Gap interpolated by tube diameter.
    GapByDiameter,
    /// Material feed times size, channels and condition.
    FeedByDiameter,
    /// Sum of touch-off, entry, full metal, exit, overtravel, retract and changes.
    HoleMinutes,
    /// Wear ratio times travel.
    Wear,
    /// Stand-off, depth, what of the exit zone lies beyond it, and overtravel.
    TargetDepth,
    /// U over one plus wear ratio.
    ReachOne,
    /// Depths reached one electrode after another.
    Chain,
    /// Nested fit of holes on electrodes.
    Packing,
    /// Sum of the electrodes of all tubes.
    TubesTogether,
    /// Directions that one clamping reaches.
    SetupsByDirection,
    /// Sum of machine minutes.
    MachineMinutes,
    /// Sum of labor minutes.
    LaborMinutes,
    /// Cost at the medians, and what the mean of all that is not yet known adds.
    NotYetKnown,
    /// Sum of cost lines.
    CostLines,
    /// Hours times their rate.
    ByTheHour,
    /// Each electrode times its price, and what of broken ones is left unused.
    ElectrodesUsed,
    /// Holes over the life of each guide, times its price.
    GuidesByLife,
    /// For the lot, and for each part.
    OutsideWork,
    /// A share of machine, labor and electrodes.
    RedoneWork,
    /// What is at stake times the parts expected to be spoiled.
    PartAtRisk,
    /// Cost over one minus margin, not below the minimum charge, rounded once.
    UnitPrice,
    /// Price of one part, extended.
    LotPrice,
    /// Hours over those of a working day, rounded up, and days outside.
    WorkingDays,
    /// The lead time as typed.
    LeadTime,
}

/// Names of what goes into formulas.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Name {
    /// Price of one part on a machine [currency].
    OnMachine(Idx<Machine>),
    /// Stops that a machine comes to.
    StopsOn(Idx<Machine>),
    /// Parts that stand on the machine's table at once.
    PiecesPerLoading,
    /// Hours that it runs with nobody at it [h].
    HoursAlone,
    /// Parts that it does meanwhile.
    PiecesAlone,
    /// Flush pressure at the pump [bar].
    Pressure,
    /// Temperature of the dielectric [degC].
    WaterTemperature,
    /// Bore of the electrode [mm].
    Bore,
    /// Its channels.
    Channels,
    /// Flow above the work [ml/min].
    FreeFlow,
    /// Most that the pump gives [ml/min].
    PumpFlow,
    /// Speed up the gap [m/s].
    GapSpeed,
    /// Metal in the flow [-].
    DebrisShare,
    /// Push of the flush [N].
    Push,
    /// Mass of the part [kg].
    PartMass,
    /// Force along the support [N].
    StopForce,
    /// Lower limit of the hole.
    LowerLimit,
    /// Upper limit of the hole.
    UpperLimit,
    /// Tube diameter.
    TubeDiameter,
    /// Tube tolerance.
    TubeTolerance,
    /// Tube length.
    TubeLength,
    /// Length held back.
    HeldBack,
    /// Stroke of the drilling axis.
    Stroke,
    /// Usable length U.
    Usable,
    /// Gap per side, median.
    Gap,
    /// Gap per side, ninetieth percentile.
    GapHigh,
    /// Gap per side, tenth percentile.
    GapLow,
    /// Taper between entry and exit.
    Taper,
    /// Smallest hole at the exit.
    SmallestHole,
    /// Largest hole at the entry.
    LargestHole,
    /// Feed of the material at 1 mm.
    MaterialFeed,
    /// Factor for the tube's size.
    SizeFactor,
    /// Factor for several channels.
    ChannelsFactor,
    /// Feed at the face.
    Feed,
    /// Depth on the axis.
    Depth,
    /// Angle from the normal.
    Tilt,
    /// Entry zone.
    EntryZone,
    /// Exit zone.
    ExitZone,
    /// What of the exit zone lies beyond the axis' own exit.
    BeyondExit,
    /// Travel in metal.
    Travel,
    /// Touch-off.
    TouchOff,
    /// Minutes in the entry zone.
    Entry,
    /// Minutes in full metal.
    FullMetal,
    /// Minutes in the exit zone.
    Exit,
    /// Overtravel.
    Overtravel,
    /// Retract.
    Retract,
    /// Electrode changes inside the hole.
    Changes,
    /// Wear ratio.
    WearRatio,
    /// Wear of one hole.
    Wear,
    /// Depth law: depth at which the feed is halved.
    DepthHalved,
    /// Depth law: exponent.
    DepthExponent,
    /// Stand-off of the guide.
    StandOff,
    /// Electrodes in one hole.
    ElectrodesPerHole,
    /// Limit of reach.
    ReachLimit,
    /// Holes in the lot on this tube.
    HolesInLot,
    /// Electrodes at least.
    AtLeast,
    /// Electrodes needed at the median wear.
    Needed,
    /// Electrodes in the kit, at high wear, with spares.
    Kit,
    /// Directions of one part.
    Directions,
    /// Setting up.
    SetUp,
    /// First piece.
    FirstPiece,
    /// Loading.
    Load,
    /// Index and tilt moves.
    Index,
    /// Turn-overs.
    TurnOver,
    /// Travel between holes.
    TableTravel,
    /// Minutes in holes.
    Holes,
    /// Minutes in all holes that don't stand apart.
    OtherHoles,
    /// Electrode changes between holes.
    ElectrodeChanges,
    /// Guide changes.
    GuideChanges,
    /// Dressing.
    Dressing,
    /// Loading, turning over, tilting, changes by hand.
    Handling,
    /// Standing by the running machine.
    StandBy,
    /// Receiving and checking.
    Receive,
    /// Masking.
    Masking,
    /// Washing.
    Wash,
    /// Checking by pin, and that holes are open.
    Inspect,
    /// Packing.
    Pack,
    /// A cost line: machine.
    Machine,
    /// A cost line: labor.
    Labor,
    /// A cost line: electrodes.
    ElectrodeCost,
    /// A cost line: guides.
    GuideCost,
    /// A cost line: dielectric.
    Dielectric,
    /// A cost line: power.
    Power,
    /// A cost line: outside work.
    OutsideWork,
    /// A cost line: breakage and redo.
    Redo,
    /// A cost line: the customer's part at risk.
    PartRisk,
    /// A cost line: not yet known.
    NotYetKnown,
    /// Cost of the lot at the medians.
    MedianCost,
    /// Chance that the first tube is right at once.
    Inside,
    /// Chance that it is oversize.
    Over,
    /// Chance of a hole inside both limits once the first piece is measured.
    Held,
    /// Factor for close limits.
    EffortFactor,
    /// Factor for the interrupted metal of a broken tool.
    InterruptedFactor,
    /// Plunges that open a hole.
    Plunges,
    /// Factor on the feed by the shop's run records.
    RunsFactor,
    /// Breakages: their changes, and half a hole each.
    Breakages,
    /// Electrodes where wear is high.
    IfWearHigh,
    /// Spares for breakage.
    Spares,
    /// Hours of the machine.
    MachineHours,
    /// Hours of labor.
    LaborHours,
    /// What an hour costs.
    PerHour,
    /// Price of one electrode or guide.
    PriceOfOne,
    /// What of broken electrodes is left unused.
    BrokenRest,
    /// Holes of the lot through this guide.
    HolesOnGuide(Idx<Guide>),
    /// Holes that a guide lasts.
    GuideLife,
    /// Outside work for each part.
    OutsidePerPart,
    /// Share of work that is done again.
    RedoShare,
    /// Value of one part.
    PartValue,
    /// Most that the shop answers for.
    Cap,
    /// What the shop answers for if it spoils a part.
    AtStake,
    /// Parts of the lot expected to be spoiled.
    PartsSpoiled,
    /// Quantity.
    Quantity,
    /// Cost of the lot.
    LotCost,
    /// Cost of one part.
    UnitCost,
    /// Margin on price.
    Margin,
    /// Markup on cost.
    Markup,
    /// Minimum charge.
    MinimumCharge,
    /// Step that prices are rounded to.
    PriceStep,
    /// Price of one part.
    UnitPrice,
    /// Machine hours that one lot in ten exceeds.
    MachineHigh,
    /// Labor hours that one lot in ten exceeds.
    LaborHigh,
    /// Hours of a working day with somebody there.
    AttendedHours,
    /// Further hours of a working day that machines may run alone.
    UnattendedHours,
    /// Share of a running machine's time that somebody stands by it.
    AttendedShare,
    /// Machine hours of other lots that come first.
    QueuedHours,
    /// Working days that the parts are away.
    OutsideDays,
    /// Lead time.
    LeadTime,
    /// Working days that as many lots exceed as not.
    LikelyDays,
    /// Working days that one lot in ten exceeds.
    LateDays,
}
