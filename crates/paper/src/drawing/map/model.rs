//! What a map shows: the part, and its holes in drilling order.

use std::collections::BTreeMap;

use quillbore_calc::direction::across;
use quillbore_calc::input::JobInput;
use quillbore_calc::job_figures::{ElectrodeLoad, JobFigures};
use quillbore_calc::mount::Mount;
use quillbore_calc::outline::{Mouth, Outline, outline};
use quillbore_calc::tables::Tube;
use quillbore_calc::{Idx, RowId};
use quillbore_job::{Field, Job};

use super::BETWEEN;
use crate::matter::axes::seen_from_exit;
use crate::matter::mark_in;
use crate::words::drawing::{self as words, Lies};

/// Places that are no farther apart are one [mm].
const SAME_MM: f64 = 0.01;
/// What a map shows at least, from side to side [mm].
const AROUND_MM: f64 = 30.0;
/// A hole may begin so far beside an outline that a file shows [mm].
const OUTSIDE_MM: f64 = 1.0;

pub(super) type Vector = [f64; 3];

/// The holes of a clamping as they are drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Map {
    /// In drilling order.
    pub spots: Vec<Spot>,
    /// The part, where its size and its zero are known.
    pub outline: Option<Outline>,
    /// What a drawing or a solid shows of the part's outline along its z, rings of points [mm].
    pub contour: Vec<Vec<[f64; 2]>>,
    /// To the right, away and up as the operator sees the part, in its own coordinates; on a lying index
    /// axis that axis instead of up.
    pub seen: [Vector; 3],
    /// It is seen along a lying index axis.
    pub is_lying: bool,
}

/// One hole on a map.
#[derive(Clone, Debug, PartialEq)]
pub struct Spot {
    /// Its row.
    pub row: RowId,
    /// Its mark.
    pub mark: String,
    /// Its number on the drawing.
    pub number: u32,
    /// Where the electrode enters, in the part's coordinates [mm].
    pub at_mm: Vector,
    /// The way out of the hole.
    pub out: Vector,
    /// Its diameter [mm], where it is known.
    pub size_mm: f64,
    /// What it is drilled with.
    pub tube: Option<Idx<Tube>>,
    /// The number of the electrode that begins here, where one part is all there is.
    pub electrode: Option<u32>,
}

impl Map {
    /// The map of a clamping by its index; nothing where none of its holes has a location.
    #[must_use]
    pub fn of(job: &Job, input: &JobInput, figures: &JobFigures, setup: usize) -> Option<Self> {
        let clamped = figures.setups.get(setup)?;
        let mut electrodes = Electrodes::before(figures, setup);
        let spot = |stop: &quillbore_calc::job_figures::Stop| {
            let at = job.row_index(stop.row)?;
            let (row, hole) = (input.rows.get(at)?, figures.holes.get(at)?);
            let electrode = electrodes.next(hole.tube, 1);
            let place = row.places.get(stop.place?)?;
            let place = if stop.far {
                seen_from_exit(place, row.depth_mm.unwrap_or(0.0))
            } else {
                *place
            };
            let mouth = Mouth::of(&place);
            let size = |limits: quillbore_calc::Limits| (limits.lower + limits.upper) / 2.0;
            Some(Spot {
                row: stop.row,
                mark: mark_in(job, stop.row),
                number: place.number,
                at_mm: mouth.at_mm,
                out: mouth.out,
                size_mm: hole.limits_mm.map_or(0.0, size),
                tube: hole.tube,
                electrode,
            })
        };
        let spots: Vec<Spot> = clamped.order.iter().filter_map(spot).collect();
        let wall = job.length(Field::Thickness).map(quillbore_calc::Length::mm);
        let map = Self::new(spots, input.part_mm, wall, &clamped.mount)?;
        Some(map.with_contour(contour(job)))
    }

    /// The same with the outline that a file shows, where it is around these holes: rows may have come from
    /// elsewhere since.
    #[must_use]
    pub fn with_contour(mut self, rings: Vec<Vec<[f64; 2]>>) -> Self {
        if rings.is_empty() {
            return self;
        }
        let points = rings.iter().flatten();
        let [least, most] = extent_of(points.map(|&[x, y]| [x, y, 0.0]), 0.0);
        let is_in = |spot: &Spot| {
            (0..2).all(|i| (least[i] - OUTSIDE_MM..=most[i] + OUTSIDE_MM).contains(&spot.at_mm[i]))
        };
        if self.spots.iter().all(is_in) {
            self.contour = rings;
        }
        self
    }

    /// The map of these holes of a part of this size and wall; nothing where there are none.
    #[must_use]
    pub fn new(
        spots: Vec<Spot>,
        part_mm: Option<Vector>,
        wall_mm: Option<f64>,
        mount: &Mount,
    ) -> Option<Self> {
        if spots.is_empty() {
            return None;
        }
        let mouths: Vec<Mouth> = spots
            .iter()
            .map(|spot| Mouth {
                at_mm: spot.at_mm,
                out: spot.out,
            })
            .collect();
        Some(Self {
            outline: part_mm.and_then(|size| outline(size, wall_mm, &mouths)),
            contour: Vec::new(),
            seen: seen(mount),
            is_lying: matches!(mount, Mount::Lying(_)),
            spots,
        })
    }

    /// A point as it is seen: to the right, away, up.
    pub(super) fn at(&self, point: Vector) -> Vector {
        self.seen.map(|axis| dot(point, axis))
    }

    /// Corners of the part, least and most, in its own coordinates.
    pub(super) fn corners(&self) -> Option<[Vector; 8]> {
        let [low, high] = self.outline.as_ref()?.corners_mm;
        let pick =
            |index: usize| [0, 1, 2].map(|i| if index >> i & 1 == 0 { low[i] } else { high[i] });
        Some([0, 1, 2, 3, 4, 5, 6, 7].map(pick))
    }

    /// Where the part's zero lies as the operator sees the part, in words; nothing where the part's size
    /// or its zero is not known.
    pub(super) fn zero(&self) -> Option<String> {
        let corners = self.corners()?;
        let zero = self.at([0.0; 3]);
        let lies = |axis: usize| {
            let along = corners.map(|corner| self.at(corner)[axis]);
            let least = along.iter().copied().fold(f64::MAX, f64::min);
            let most = along.iter().copied().fold(f64::MIN, f64::max);
            let near = |mm: f64| (zero[axis] - mm).abs() < SAME_MM;
            if near(least) {
                Lies::Low
            } else if near(most) {
                Lies::High
            } else if near((least + most) / 2.0) {
                Lies::Middle
            } else {
                Lies::Between
            }
        };
        Some(words::zero([0, 1, 2].map(lies), self.is_lying))
    }

    /// Least and most of all that is drawn, as it is seen.
    pub(super) fn extent(&self) -> [Vector; 2] {
        let spots = self.spots.iter().map(|spot| spot.at_mm);
        let z = self.spots.first().map_or(0.0, |spot| spot.at_mm[2]);
        let contour = self.contour.iter().flatten().map(|&[x, y]| [x, y, z]);
        let all = spots
            .chain(self.corners().into_iter().flatten())
            .chain(contour);
        extent_of(all.map(|point| self.at(point)), AROUND_MM)
    }

    /// Points for each millimeter of both views in a room, and how high they are then.
    pub(super) fn fit(&self, width: f64, height: f64, around: f64) -> (f64, f64) {
        let [least, most] = self.extent();
        let [wide, deep, high] = [0, 1, 2].map(|i| (most[i] - least[i]).max(1.0));
        let room = (width - 2.0 * around, height - 4.0 * around - BETWEEN);
        let scale = (room.0 / wide).min(room.1 / (deep + high)).max(1e-6);
        (scale, (deep + high) * scale + 4.0 * around + BETWEEN)
    }
}

/// Least and most of points; what lies on one spot is no larger than what is `around` it, above and below
/// a third of that.
pub(super) fn extent_of(points: impl Iterator<Item = Vector>, around: f64) -> [Vector; 2] {
    let (mut least, mut most) = ([f64::INFINITY; 3], [f64::NEG_INFINITY; 3]);
    for point in points {
        for i in 0..3 {
            least[i] = least[i].min(point[i]);
            most[i] = most[i].max(point[i]);
        }
    }
    for (i, around) in [around, around, around / 3.0].into_iter().enumerate() {
        let lacks = (around - (most[i] - least[i])).max(0.0) / 2.0;
        (least[i], most[i]) = (least[i] - lacks, most[i] + lacks);
    }
    [least, most]
}

/// The newest outline that a file has shown of a job's part [mm].
fn contour(job: &Job) -> Vec<Vec<[f64; 2]>> {
    #[expect(
        clippy::cast_precision_loss,
        reason = "a part is far smaller than what an f64 counts in micrometers"
    )]
    let mm = |um: i64| um as f64 / 1e3;
    let mut reports = job.reports.iter().rev();
    let shown = reports.find(|report| !report.outline.is_empty());
    let rings = shown.map(|report| report.outline.as_slice());
    let rings = rings.unwrap_or_default().iter();
    rings
        .map(|ring| ring.iter().map(|point| point.map(mm)).collect())
        .collect()
}

/// Which electrode begins where: of one part alone, since in a lot it is another place in each.
struct Electrodes<'a> {
    /// Of each tube its loads, the electrode to begin, and the holes until then.
    of_tube: Vec<(Idx<Tube>, &'a [ElectrodeLoad], u32, u64)>,
}

impl<'a> Electrodes<'a> {
    /// As far as the clampings before this one take them.
    fn before(figures: &'a JobFigures, setup: usize) -> Self {
        let lot = figures.lot.as_ref().filter(|lot| lot.quantity == 1);
        let electrodes = lot.map_or(&[][..], |lot| &lot.electrodes);
        // An electrode that is used up whole inside a hole is no change between holes.
        let plain = |tube: Idx<Tube>| {
            let mut holes = figures.holes.iter().filter(|hole| hole.tube == Some(tube));
            holes.all(|hole| hole.electrodes_per_hole.is_none_or(|count| count < 2))
        };
        let of_tube = electrodes.iter().filter(|of| plain(of.tube));
        let mut begun = Self {
            of_tube: of_tube.map(|of| (of.tube, &of.plan[..], 1, 0)).collect(),
        };
        let holes = figures.holes.iter().map(|hole| (hole.row, hole));
        let holes: BTreeMap<RowId, _> = holes.collect();
        for clamped in figures.setups.iter().take(setup) {
            for stop in &clamped.order {
                let hole = holes.get(&stop.row);
                let count = hole
                    .filter(|_| stop.place.is_none())
                    .map_or(1, |hole| hole.places);
                begun.next(hole.and_then(|hole| hole.tube), count);
            }
        }
        begun
    }

    /// The electrode that begins with the next holes of a tube.
    fn next(&mut self, tube: Option<Idx<Tube>>, count: u32) -> Option<u32> {
        let mut known = self.of_tube.iter_mut();
        let (_, loads, number, left) = known.find(|(of, ..)| Some(*of) == tube)?;
        let mut begins = None;
        for _ in 0..count {
            if *left == 0 {
                let mut before = 0;
                let load = loads.iter().find(|load| {
                    before += load.times;
                    *number <= before
                })?;
                *left = load.holes.iter().map(|(_, count)| u64::from(*count)).sum();
                begins = Some(*number);
                *number += 1;
            }
            *left = left.saturating_sub(1);
        }
        begins
    }
}

/// To the right, away and up of a part as it is clamped: the table's x and y, where nothing turns it.
fn seen(mount: &Mount) -> [Vector; 3] {
    let (up, right) = match *mount {
        Mount::Face { up, toward } => (up, toward),
        Mount::Upright(axis) => (axis, across(axis)),
        // Its sides come up one after the other: it is seen along the axis that turns it.
        Mount::Lying(axis) => (axis, across(axis)),
        Mount::Inclined { up, .. } => (up, across(up)),
    };
    [right, cross(up, right), up]
}

fn dot(a: Vector, b: Vector) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

fn cross(a: Vector, b: Vector) -> Vector {
    [
        a[1] * b[2] - a[2] * b[1],
        a[2] * b[0] - a[0] * b[2],
        a[0] * b[1] - a[1] * b[0],
    ]
}
