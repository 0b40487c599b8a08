//! Why text could not be read: codes and facts, whose sentences stand in `words::misread`.

/// What a text was to be read as.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum What {
    /// A length.
    Length,
    /// A depth on the hole's axis.
    Depth,
    /// A hole size with its limits.
    Size,
    /// A tolerance without a size.
    Tolerance,
    /// An angle at an entry.
    Angle,
    /// Holes in a row.
    Holes,
    /// How often the electrode's tip is dressed.
    DressEvery,
    /// A whole number.
    Whole,
    /// A number of days.
    Days,
    /// A list of quantities.
    Quantities,
    /// Where a hole ends.
    End,
    /// The surface at an entry.
    Surface,
    /// Yes or no.
    YesNo,
    /// The ends that a hole is drilled from.
    Ends,
    /// Layers from the entry on.
    Layers,
    /// A mass.
    Mass,
    /// A pressure.
    Pressure,
    /// A surface at an exit.
    Exit,
    /// What a part rests on.
    RestsOn,
    /// A recess.
    Recess,
    /// A broken tool.
    Broken,
    /// A thread without its pitch, of a size that has no usual one here.
    ThreadPitch,
    /// How a hole is proved open.
    Proof,
    /// An amount of money.
    Money,
    /// A share in percent.
    Percent,
    /// A day.
    Date,
    /// A resistivity.
    Resistivity,
    /// An axis of the part.
    PartAxis,
    /// What angles are measured from.
    AngleBasis,
    /// A feed.
    Feed,
    /// A time in minutes.
    Minutes,
    /// A time in hours.
    Hours,
    /// A part of a direction's vector.
    VectorPart,
    /// A plain angle, of any sign.
    Turn,
    /// A plain number.
    Number,
    /// A currency.
    Currency,
    /// Days of the week.
    WorkDays,
    /// What an hour of machines costs.
    MachineRates,
    /// Dangers of a material.
    Hazards,
    /// A start value.
    StartValue,
    /// An inspection level.
    InspectionLevel,
    /// An acceptance quality limit.
    AcceptanceLimit,
}

/// Why a text could not be read.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Misread {
    /// Not one of the words that a line may hold.
    NotOneOf {
        /// What was typed.
        found: String,
        /// The words.
        words: &'static [&'static str],
    },
    /// The text has more characters than any quantity needs.
    TooLong {
        /// How many it may have.
        most: usize,
    },
    /// The text is not what the place asks for.
    Not {
        /// What it was to be.
        what: What,
        /// What was found instead.
        found: String,
    },
    /// The text starts well, but something is left over.
    LeftOver {
        /// What it was to be.
        what: What,
        /// What is left over.
        rest: String,
    },
    /// More digits than can be meant.
    TooManyDigits {
        /// The number as typed.
        number: String,
    },
    /// A number whose points and commas group nothing.
    Separators {
        /// The number as typed.
        number: String,
    },
    /// Two readings are possible.
    TwoReadings {
        /// The text in question.
        text: String,
        /// One reading, written so that it can only mean that.
        one: String,
        /// The other.
        other: String,
    },
    /// A fraction with a zero below the line.
    ZeroBelow {
        /// The fraction as typed.
        fraction: String,
    },
    /// A fraction without a unit where bare numbers are millimeters.
    FractionWithoutUnit {
        /// The fraction as typed.
        fraction: String,
    },
    /// A metric length and one of inches stand side by side and are not the same.
    TwoUnits {
        /// The first, with its unit.
        first: String,
        /// The second, with its unit.
        second: String,
    },
    /// Bare numbers between different units.
    MixedUnits,
    /// A drill size with a tolerance without a unit where bare numbers are millimeters.
    DrillToleranceWithoutUnit,
    /// A value below zero where none can be.
    Negative {
        /// What it was to be.
        what: What,
    },
    /// Zero where nothing can be zero.
    Zero {
        /// What it was to be.
        what: What,
    },
    /// Larger than anything in the trade.
    TooLarge {
        /// What it was to be.
        what: What,
        /// The largest that is taken, with its unit.
        most: &'static str,
    },
    /// A trillion or more of money.
    MoneyTooLarge {
        /// What it was to be.
        what: What,
    },
    /// A part of a thing where only whole ones count.
    NotWhole {
        /// What it was to be.
        what: What,
        /// What was typed.
        found: String,
    },
    /// No drill of that number or letter.
    NoSuchDrill {
        /// The drill as typed.
        drill: String,
    },
    /// A drill's name where a drill can't be.
    DrillIsADiameter {
        /// The drill as typed.
        drill: String,
    },
    /// Only a lower limit.
    MinimumAlone,
    /// Only one deviation.
    OneDeviation {
        /// The deviation as typed.
        typed: String,
    },
    /// A second deviation without a sign.
    DeviationWithoutSign {
        /// The deviation as typed.
        typed: String,
    },
    /// Two numbers that are no pair of limits.
    NoPair {
        /// The first as typed.
        first: String,
        /// The second as typed.
        second: String,
    },
    /// A drill with another size beside it.
    DrillAndSize {
        /// The drill as typed.
        drill: String,
        /// The size beside it as typed.
        size: String,
    },
    /// Two limits that are the same.
    EqualLimits,
    /// A day: spreadsheets make one of a fraction that is typed into them.
    IsADate {
        /// As typed.
        date: String,
    },
    /// A lower limit that is not above zero.
    LowerLimitNotAboveZero,
    /// A class of shafts on a hole.
    ShaftClass {
        /// The class as typed.
        class: String,
    },
    /// A class of fit that the table doesn't have at that size.
    NoSuchClass {
        /// The class as typed.
        class: String,
    },
    /// A class of fit on a bare number where bare numbers are inches.
    ClassOnInches {
        /// The class as typed.
        class: String,
    },
    /// Only the least or the most that a depth may be.
    DepthLimitAlone {
        /// The limit as typed.
        typed: String,
    },
    /// An angle outside its range.
    AngleRange {
        /// True where it is measured from the surface.
        from_surface: bool,
    },
    /// Minutes or seconds of arc of sixty and more.
    ArcPart,
    /// An edge whose metal has no angle, or none of less than 180 degrees.
    EdgeRange,
    /// A share that must be below one hundred percent.
    ShareRange,
    /// A day that no calendar has.
    NoSuchDay,
    /// A year of two digits.
    ShortYear,
    /// A resistivity without a unit.
    ResistivityWithoutUnit {
        /// The number as typed.
        number: String,
    },
    /// A sign or code of a currency.
    CurrencyMark {
        /// The mark as typed.
        mark: String,
    },
    /// A layer without its thickness in front.
    LayerWithoutThickness {
        /// The layer as typed.
        layer: String,
    },
    /// More things than can be meant.
    TooMany {
        /// How many are taken.
        most: usize,
    },
    /// More text than the line holds.
    TextTooLong {
        /// How many characters it holds.
        most: usize,
    },
    /// Several lines of text where one is asked for is fine, but signs that can't be printed are not.
    Unprintable,
}
