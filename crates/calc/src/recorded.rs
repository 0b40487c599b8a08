//! A run record held against what the start values of today say of the same holes.

use alloc::vec::Vec;

use crate::hole::{Context, NotPlanned, PlannedFor, SharedByLot};
use crate::idx::Idx;
use crate::input::{JobInput, RowInput};
use crate::interpolate::linear_held;
use crate::learn::{Evidence, Floor, Ratio, Record};
use crate::quantity::Spread;
use crate::tables::{StartValues, Tables, Tube};

/// Beyond this factor to either side of what was planned, a figure is taken for a slip of the pen.
const BELIEVABLE: f64 = 50.0;
/// How well a spark counter is read, deviation of the logarithm (our choice, no source).
const COUNTER: f64 = 0.05;
/// How well a clock on the floor is read (our choice, no source).
const CLOCK: f64 = 0.10;
/// How well a tube's length before or after is read [mm] (our choice, no source).
const RULE_MM: f64 = 0.5;
/// Steps of pins [mm] (common practice, no source).
const PIN_STEP_MM: f64 = 0.01;

/// What was written down of a stretch of holes; what nobody wrote is `None`.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Ran {
    /// The lot, by a number of the caller's.
    pub lot: u32,
    /// The tube that was used.
    pub tube: Option<Idx<Tube>>,
    /// Holes drilled.
    pub holes: f64,
    /// How old it is [years].
    pub age_years: f64,
    /// Minutes by the spark counter [min].
    pub spark_min: Option<f64>,
    /// Minutes by the clock from the first touch-off to the last hole, stops taken off [min].
    pub clock_min: Option<f64>,
    /// Length of the tube that the holes took [mm].
    pub lost_mm: Option<f64>,
    /// Tubes broken.
    pub broken: Option<f64>,
    /// Good and spoiled parts.
    pub pieces: Option<[f64; 2]>,
    /// Sizes of holes [mm].
    pub sizes_mm: Vec<f64>,
    /// Depth that the holes reached [mm].
    pub reached_mm: Option<f64>,
}

/// A run record held against the start values.
#[derive(Clone, Debug, PartialEq)]
pub struct Recorded {
    /// What it says; figures that can't be are not in it.
    pub evidence: Evidence,
    /// What the start values say of the same holes.
    pub planned: Planned,
    /// Figures of it that nobody can believe.
    pub unbelievable: Vec<Unbelievable>,
}

/// What the start values say of the holes that were drilled.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Planned {
    /// The tube.
    pub tube: Idx<Tube>,
    /// Minutes that go with the feed [min].
    pub burn_min: f64,
    /// Minutes by the clock [min].
    pub clock_min: f64,
    /// Length of electrode lost [mm].
    pub wear_mm: f64,
    /// Gap per side [mm].
    pub gap_mm: Option<f64>,
}

/// Why a run record teaches nothing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NotUsed {
    /// It doesn't say how many holes were drilled.
    NoHoles,
    /// The job has no material that the shop knows.
    NoMaterial,
    /// The row has layers of several materials.
    SeveralMaterials,
    /// It was a broken tool or a hole opened with a thinner tube: it says nothing of plunges into full
    /// metal.
    NotFullMetal,
    /// The job has no machine that the shop has.
    NoMachine,
    /// The start values say nothing of such a hole: size or depth is missing or beyond the tables.
    NoFigures,
    /// All that it says is unbelievable; the first of it.
    Unbelievable(Unbelievable),
    /// It has none of minutes, length lost, sizes, breakages or pieces that can be used.
    Nothing,
}

/// A figure of a record that is too far from what was planned to be one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Unbelievable {
    /// Minutes by the spark counter, and what was planned [min].
    Spark(f64, f64),
    /// Minutes by the clock, and what was planned [min].
    Clock(f64, f64),
    /// Length lost, and what was planned [mm].
    Lost(f64, f64),
    /// Size by pin, and the tube that it should be larger than [mm].
    Size(f64, f64),
}

/// A run record held against what the start values of today say of the same holes.
///
/// Formula: recorded over planned for spark minutes, length lost and gap; minutes by the clock with
/// their planned parts. Pins tell the smallest hole, at the exit: `g = (size + taper - tube) / 2`.
///
/// - `by_start`: the job by the start values alone, see [`start_context`].
/// - `tables`: what the shop knows.
/// - `row`: the row that was drilled.
/// - `ran`: what was written down.
///
/// Result: what it says; an error where the start values say nothing of it. A figure that is more than
/// 50 times off to either side, or no positive number, is told as unbelievable and left out.
///
/// ```
/// use quillbore_calc::recorded::{Ran, recorded, start_context};
/// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
/// # use shop::*;
/// let (input, tables) = (job(vec![through(0.8, 20.0)]), tables());
/// let context = start_context(&input, &tables);
/// let ran = |spark_min| Ran { holes: 12.0, spark_min: Some(spark_min), ..Ran::default() };
/// let told = recorded(&context, &tables, &input.rows[0], &ran(26.0)).unwrap();
/// // 12 holes are planned with about 13 minutes of sparking.
/// let burn = told.evidence.record.burn.unwrap().of_planned;
/// assert!((burn * told.planned.burn_min - 26.0).abs() < 1e-9);
/// let told = recorded(&context, &tables, &input.rows[0], &ran(1e9));
/// assert!(told.is_err(), "nothing else was written down");
/// ```
///
/// Source: ours.
///
/// # Errors
/// Where nothing can be learned of it.
pub fn recorded(
    by_start: &ByStart<'_>,
    tables: &Tables,
    row: &RowInput,
    ran: &Ran,
) -> Result<Recorded, NotUsed> {
    if !(ran.holes > 0.0 && ran.holes.is_finite()) {
        return Err(NotUsed::NoHoles);
    }
    let reached;
    let row = match ran.reached_mm.filter(|depth| *depth > 0.0) {
        Some(depth_mm) => {
            reached = RowInput {
                depth_mm: Some(depth_mm),
                depth_limits_mm: None,
                ..row.clone()
            };
            &reached
        }
        None => row,
    };
    let ByStart { context, lot } = by_start;
    let planned = context.planned_for(row, ran.tube, ran.holes, lot)?;
    let mut reading = Reading {
        ran,
        planned,
        unbelievable: Vec::new(),
    };
    let burn = reading.burn();
    let wear = reading.wear();
    let floor = reading.floor();
    let gap = reading.gap(tables);
    let broken = ran
        .broken
        .filter(|broken| *broken >= 0.0 && broken.is_finite());
    let pieces = ran.pieces.filter(|pieces| {
        let each = pieces
            .iter()
            .all(|count| *count >= 0.0 && count.is_finite());
        each && pieces.iter().sum::<f64>() > 0.0
    });
    let tells = [
        burn.is_some(),
        wear.is_some(),
        floor.is_some(),
        gap.is_some(),
    ];
    if !tells.contains(&true) && broken.is_none() && pieces.is_none() {
        let first = reading.unbelievable.first();
        return Err(first.map_or(NotUsed::Nothing, |first| NotUsed::Unbelievable(*first)));
    }
    let evidence = Evidence {
        record: Record {
            lot: ran.lot,
            like: planned.like,
            holes: ran.holes,
            age_years: ran.age_years.max(0.0),
            burn,
            wear,
            floor,
            gap,
        },
        ends: planned.ends,
        broken,
        class: planned.class,
        pieces,
        size_mm: gap.and(mean(&ran.sizes_mm)),
        deep: planned.deep,
        thin: planned.thin,
    };
    Ok(Recorded {
        evidence,
        planned: Planned {
            tube: planned.tube,
            burn_min: planned.burn_min,
            clock_min: planned.burn_min + planned.wear_min + planned.handling_min,
            wear_mm: planned.wear_mm,
            gap_mm: planned.gap.map(Spread::p50),
        },
        unbelievable: reading.unbelievable,
    })
}

/// A job as [`recorded`] holds its records against: by the start values alone.
#[derive(Clone, Debug)]
pub struct ByStart<'a> {
    context: Context<'a>,
    lot: SharedByLot,
}

/// A job as [`recorded`] holds its records against: by the start values alone, whatever was learned and
/// whatever somebody overruled.
///
/// Formula: holes by that of [`Context::new`] without records; a part is loaded and indexed as often as
/// the clampings of the whole job ask for, and its holes share that evenly: a part with three marks that
/// is loaded once is not loaded three times over in the records of the three. So do those of one tube its
/// first electrode, which goes in before the clock runs.
///
/// - `input`: the job.
/// - `tables`: what the shop knows.
///
/// Result: one context for all records of the job.
///
/// ```
/// use quillbore_calc::recorded::{Ran, recorded, start_context};
/// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
/// # use shop::*;
/// let tables = tables();
/// let ran = Ran { holes: 12.0, clock_min: Some(30.0), ..Ran::default() };
/// let planned = |rows| {
///     let input = job(rows);
///     let context = start_context(&input, &tables);
///     recorded(&context, &tables, &input.rows[0], &ran).unwrap().planned.clock_min
/// };
/// // Another mark of the same size takes on half of the loading: of sqrt(2 x 5) min for each part,
/// // of a change it has more, sqrt(2 x 3) min: its share of the first, not waited for, is halved.
/// let [row, other] = [through(0.8, 20.0), through(0.8, 20.0)];
/// let [alone, beside] = [planned(vec![row.clone()]), planned(vec![row, other])];
/// assert!((alone - beside - (f64::sqrt(10.0) - 0.1 * f64::sqrt(6.0)) / 2.0).abs() < 0.0005);
/// ```
///
/// Source: ours.
#[must_use]
pub fn start_context<'a>(input: &JobInput, tables: &'a Tables) -> ByStart<'a> {
    let context = Context::by_start_values(input, tables);
    let lot = context.shared_by_lot(input);
    ByStart { context, lot }
}

impl From<NotPlanned> for NotUsed {
    fn from(not: NotPlanned) -> Self {
        match not {
            NotPlanned::NoMaterial => Self::NoMaterial,
            NotPlanned::SeveralMaterials => Self::SeveralMaterials,
            NotPlanned::NotFullMetal => Self::NotFullMetal,
            NotPlanned::NoMachine => Self::NoMachine,
            NotPlanned::NoFigures => Self::NoFigures,
        }
    }
}

/// A record being read.
struct Reading<'a> {
    ran: &'a Ran,
    planned: PlannedFor,
    unbelievable: Vec<Unbelievable>,
}

impl Reading<'_> {
    fn burn(&mut self) -> Option<Ratio> {
        let (ran_min, planned) = (self.ran.spark_min?, self.planned.burn_min);
        let told = Unbelievable::Spark(ran_min, planned);
        self.ratio(ran_min, planned, COUNTER, told)
    }

    fn wear(&mut self) -> Option<Ratio> {
        let (lost_mm, planned) = (self.ran.lost_mm?, self.planned.wear_mm);
        let told = Unbelievable::Lost(lost_mm, planned);
        // Both ends of the difference are read off a rule.
        let by_rule = core::f64::consts::SQRT_2 * RULE_MM / lost_mm;
        self.ratio(lost_mm, planned, libm::hypot(COUNTER, by_rule), told)
    }

    fn floor(&mut self) -> Option<Floor> {
        let minutes = self.ran.clock_min?;
        let PlannedFor {
            burn_min,
            wear_min,
            handling_min,
            ..
        } = self.planned;
        let planned = burn_min + wear_min + handling_min;
        let told = Unbelievable::Clock(minutes, planned);
        let Ratio { reading, .. } = self.ratio(minutes, planned, CLOCK, told)?;
        Some(Floor {
            minutes,
            burn_min,
            wear_min,
            handling_min,
            reading,
        })
    }

    fn gap(&mut self, tables: &Tables) -> Option<Ratio> {
        let sizes = &self.ran.sizes_mm;
        let tube_mm = self.planned.like.tube_mm;
        let count = sizes.len() as f64;
        let mean_mm = mean(sizes)?;
        let gap_mm = (mean_mm + self.planned.taper_mm - tube_mm) / 2.0;
        let told = Unbelievable::Size(mean_mm, tube_mm);
        let reading = gap_reading_mm(&tables.start, tube_mm, count) / gap_mm;
        let planned = self.planned.gap?.p50();
        self.ratio(gap_mm, planned, reading, told)
    }

    fn ratio(
        &mut self,
        recorded: f64,
        planned: f64,
        reading: f64,
        told: Unbelievable,
    ) -> Option<Ratio> {
        let of_planned = recorded / planned;
        if !(1.0 / BELIEVABLE..=BELIEVABLE).contains(&of_planned) {
            self.unbelievable.push(told);
            return None;
        }
        Some(Ratio {
            of_planned,
            reading,
        })
    }
}

fn mean(sizes_mm: &[f64]) -> Option<f64> {
    let count = sizes_mm.len() as f64;
    (count > 0.0).then(|| sizes_mm.iter().sum::<f64>() / count)
}

/// How far a gap per side by pins may be off: the tube's tolerance, the holes' scatter and the pins'
/// steps, by half [mm].
fn gap_reading_mm(start: &StartValues, tube_mm: f64, count: f64) -> f64 {
    let tolerance = start.tube_tolerance_mm;
    let scatter = linear_held(start.size_scatter_mm.iter().copied(), tube_mm).unwrap_or(0.0);
    let square =
        tolerance * tolerance / 3.0 + scatter * scatter / count + PIN_STEP_MM * PIN_STEP_MM / 12.0;
    libm::sqrt(square) / 2.0
}
