//! What a run record tells, as ratios to what the start values say of the same holes.

use super::terms::Learns;

/// What of a lot decides how it burns.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Likeness {
    /// The machine, by a number of the caller's.
    pub machine: u32,
    /// The material's family, by a number of the caller's.
    pub family: u32,
    /// The grade, by a number of the caller's; one grade lies in one family.
    pub grade: u32,
    /// The electrode's material, by a number of the caller's.
    pub electrode: u32,
    /// The tube's diameter [mm], above 0.
    pub tube_mm: f64,
    /// Depth of metal from one end [mm], 0 and up.
    pub depth_mm: f64,
}

impl Likeness {
    /// A lot of which nothing is known: no record speaks of it but as of any.
    pub const UNKNOWN: Self = Self {
        machine: u32::MAX,
        family: u32::MAX,
        grade: u32::MAX,
        electrode: u32::MAX,
        tube_mm: 1.0,
        depth_mm: 20.0,
    };
}

/// A figure of a record against what the start values of today say of the same holes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ratio {
    /// Recorded over planned [-], above 0.
    pub of_planned: f64,
    /// How far the reading itself may be off, as a deviation of the logarithm [-], 0 and up.
    pub reading: f64,
}

/// Minutes on the floor, of which nobody knows what burned and what was handling.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Floor {
    /// Recorded, without stops [min], above 0.
    pub minutes: f64,
    /// Planned minutes that go with the feed [min], 0 and up.
    pub burn_min: f64,
    /// Planned minutes that go with the wear: electrode changes [min], 0 and up.
    pub wear_min: f64,
    /// Planned minutes of handling [min], 0 and up.
    pub handling_min: f64,
    /// How far the reading itself may be off, as a deviation of the logarithm [-], 0 and up.
    pub reading: f64,
}

/// What was recorded of a stretch of holes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Record {
    /// The lot, by a number of the caller's: records of one lot share what is the lot's own.
    pub lot: u32,
    /// What it was like.
    pub like: Likeness,
    /// Holes that it speaks of, above 0.
    pub holes: f64,
    /// How old it is [years], 0 and up.
    pub age_years: f64,
    /// Spark minutes.
    pub burn: Option<Ratio>,
    /// Length of electrode lost.
    pub wear: Option<Ratio>,
    /// Minutes on the floor, where spark minutes are not known.
    pub floor: Option<Floor>,
    /// Gap per side.
    pub gap: Option<Ratio>,
}

/// A figure that a record tells.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Told {
    /// Minutes by the spark counter.
    Spark,
    /// Length of electrode lost.
    Wear,
    /// Minutes by the clock.
    Clock,
    /// Gap per side.
    Gap,
}

impl Ratio {
    /// Whether something can be learned of it.
    pub(super) fn is_usable(&self) -> bool {
        is_above_zero(self.of_planned) && self.reading >= 0.0 && self.reading.is_finite()
    }
}

impl Floor {
    /// Planned minutes in all [min].
    #[must_use]
    pub const fn planned(&self) -> f64 {
        self.burn_min + self.wear_min + self.handling_min
    }

    /// Minutes that such a stretch takes by factors on its parts.
    ///
    /// Formula: planned minutes that go with feed, wear and handling, each times its factor.
    ///
    /// - `factor`: on each of burn, wear and handling [-], above 0.
    ///
    /// Result: minutes by the clock [min].
    ///
    /// ```
    /// use quillbore_calc::learn::{Floor, Learns};
    /// let floor = Floor { minutes: 0.0, burn_min: 60.0, wear_min: 10.0, handling_min: 20.0, reading: 0.0 };
    /// assert_eq!(floor.by_factors(|factor| if factor == Learns::Burn { 1.5 } else { 1.0 }), 120.0);
    /// ```
    ///
    /// Source: arithmetic.
    #[must_use]
    pub fn by_factors(&self, factor: impl Fn(Learns) -> f64) -> f64 {
        self.burn_min * factor(Learns::Burn)
            + self.wear_min * factor(Learns::Wear)
            + self.handling_min * factor(Learns::Handling)
    }

    /// Whether something can be learned of it.
    pub(super) fn is_usable(&self) -> bool {
        let parts = [
            self.burn_min,
            self.wear_min,
            self.handling_min,
            self.reading,
        ];
        is_above_zero(self.minutes)
            && is_above_zero(self.planned())
            && parts.iter().all(|part| *part >= 0.0)
    }
}

impl Record {
    /// Whether it tells anything of a factor.
    ///
    /// Formula: minutes by the clock tell of burn and handling; the other figures of their own.
    ///
    /// - `factor`: which.
    ///
    /// Result: whether it does.
    ///
    /// ```
    /// use quillbore_calc::learn::{Learns, Likeness, Ratio, Record};
    /// let wear = Some(Ratio { of_planned: 1.2, reading: 0.05 });
    /// let record = Record {
    ///     lot: 0, like: Likeness::UNKNOWN, holes: 12.0, age_years: 0.0,
    ///     burn: None, wear, floor: None, gap: None,
    /// };
    /// let told = Learns::ALL.map(|factor| record.speaks_of(factor));
    /// assert_eq!(told, [false, true, false, false]);
    /// ```
    ///
    /// Source: ours.
    #[must_use]
    pub const fn speaks_of(&self, factor: Learns) -> bool {
        match factor {
            Learns::Burn => self.burn.is_some() || self.floor.is_some(),
            Learns::Wear => self.wear.is_some(),
            Learns::Handling => self.floor.is_some(),
            Learns::Gap => self.gap.is_some(),
        }
    }

    /// Whether its likeness and its numbers of holes and years are such as can be.
    pub(super) fn is_usable(&self) -> bool {
        is_above_zero(self.like.tube_mm)
            && is_above_zero(self.holes)
            && [self.like.depth_mm, self.age_years]
                .iter()
                .all(|length| *length >= 0.0 && length.is_finite())
    }
}

fn is_above_zero(number: f64) -> bool {
    number > 0.0 && number.is_finite()
}
