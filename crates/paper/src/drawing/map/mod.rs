//! A map of the holes of a clamping, to scale: from above, and from the side with the ways the electrode
//! comes from.

mod view;

use quillbore_calc::RowId;
use quillbore_calc::direction::across;
use quillbore_calc::mount::Mount;
use quillbore_job::{Form, Unit};

use crate::matter::Matter;
use crate::matter::axes::{Mounted, end_of, mounted};
use crate::page::{Page, Role, Stroke, mm};
use crate::shown;
use crate::typeset::flow::Flow;
use crate::typeset::look::{CAPTION, SMALL, STRONG};
use crate::words::drawing as words;
use crate::words::phrases;
use view::View;

/// Height of both views at most.
const HEIGHT: f64 = 118.0 * 72.0 / 25.4;
/// Space around a view, for the labels of what lies at its edge.
const AROUND: f64 = 7.0 * 72.0 / 25.4;
/// Between the two views.
const BETWEEN: f64 = 4.0 * 72.0 / 25.4;
/// How long the way that an electrode comes from is drawn.
const WAY: f64 = 6.0 * 72.0 / 25.4;
/// What a map shows at least, from side to side [mm].
const AROUND_MM: f64 = 30.0;
/// Holes whose numbers and order are drawn at most: more are a field.
const MOST_LABELED: usize = 2_000;
/// What lies as near to a face as this lies on it [mm].
const NEAR_MM: f64 = 0.01;

type Vector = [f64; 3];

/// The holes of a clamping as they are drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Map {
    /// In drilling order.
    pub spots: Vec<Spot>,
    /// Corners of the part, least and most, where its size and its zero are known; [mm].
    pub outline_mm: Option<[Vector; 2]>,
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
}

impl Map {
    /// The map of a clamping; nothing where none of its holes has a location.
    #[must_use]
    pub fn of(matter: &Matter<'_>, mounted: &Mounted) -> Option<Self> {
        let spots: Vec<Spot> = (mounted.stops.iter())
            .filter_map(|stop| {
                let place = end_of(matter, stop.row, stop.place, stop.far)?;
                let figures = matter.figures_of(stop.row);
                let limits = figures.and_then(|figures| figures.limits_mm);
                Some(Spot {
                    row: stop.row,
                    mark: matter.mark(stop.row),
                    number: place.number,
                    at_mm: place.point_mm,
                    out: place.axis.map(|part| -part),
                    size_mm: limits.map_or(0.0, |limits| (limits.lower + limits.upper) / 2.0),
                })
            })
            .collect();
        Self::new(spots, matter.input.part_mm, &mounted.mount)
    }

    /// The map of these holes of a part of this size; nothing where there are none.
    #[must_use]
    pub fn new(spots: Vec<Spot>, part_mm: Option<Vector>, mount: &Mount) -> Option<Self> {
        if spots.is_empty() {
            return None;
        }
        Some(Self {
            outline_mm: outline(part_mm, &spots),
            seen: seen(mount),
            is_lying: matches!(mount, Mount::Lying(_)),
            spots,
        })
    }

    /// A point as it is seen: to the right, away, up.
    fn at(&self, point: Vector) -> Vector {
        self.seen.map(|axis| dot(point, axis))
    }

    /// Least and most of all that is drawn, as it is seen.
    fn extent(&self) -> [Vector; 2] {
        let spots = self.spots.iter().map(|spot| spot.at_mm);
        let corners = self.outline_mm.iter().flat_map(corners);
        let all = spots.chain(corners).map(|point| self.at(point));
        let (mut least, mut most) = ([f64::INFINITY; 3], [f64::NEG_INFINITY; 3]);
        for point in all {
            for i in 0..3 {
                least[i] = least[i].min(point[i]);
                most[i] = most[i].max(point[i]);
            }
        }
        // A hole by itself is no larger than what is around it.
        for (i, around) in [AROUND_MM, AROUND_MM, AROUND_MM / 3.0]
            .into_iter()
            .enumerate()
        {
            let lacks = (around - (most[i] - least[i])).max(0.0) / 2.0;
            (least[i], most[i]) = (least[i] - lacks, most[i] + lacks);
        }
        [least, most]
    }

    /// Points for each millimeter of both views in a room, and how high they are then.
    fn fit(&self, width: f64, height: f64) -> (f64, f64) {
        let [least, most] = self.extent();
        let [wide, deep, high] = [0, 1, 2].map(|i| (most[i] - least[i]).max(1.0));
        let room = (width - 2.0 * AROUND, height - 4.0 * AROUND - BETWEEN);
        let scale = (room.0 / wide).min(room.1 / (deep + high)).max(1e-6);
        (scale, (deep + high) * scale + 4.0 * AROUND + BETWEEN)
    }
}

/// Sets the maps of all clampings.
pub fn strip(matter: &Matter<'_>, flow: &mut Flow) {
    let mounted = mounted(matter);
    let maps: Vec<(usize, Map)> = (mounted.iter().enumerate())
        .filter_map(|(index, mounted)| Some((index, Map::of(matter, mounted)?)))
        .collect();
    let mut is_first = true;
    for (index, map) in maps {
        let width = flow.body().width();
        let (_, high) = map.fit(width, HEIGHT);
        let all = high + SMALL.leading() + mm(2.0);
        if std::mem::take(&mut is_first) {
            flow.section(words::MAP, words::MAP_REMARK, all);
        }
        flow.need(all);
        let top = flow.take(all);
        let left = flow.body().left;
        let said = phrases::setup(index + 1);
        let page = flow.page();
        page.text(
            left,
            top + STRONG.size,
            STRONG,
            said.trim().trim_end_matches(':'),
        );
        page.part(Role::Figure(words::map_of(map.spots.len())), |page| {
            let place = (left, top + SMALL.leading(), width, HEIGHT);
            draw(page, &map, place, (matter.form(), matter.job.unit));
        });
    }
}

/// Draws a map into a place of left, top, width and height; gives how high it is.
pub fn draw(
    page: &mut Page,
    map: &Map,
    (left, top, width, height): (f64, f64, f64, f64),
    (form, unit): (Form, Unit),
) -> f64 {
    let (scale, high) = map.fit(width, height);
    let [least, most] = map.extent();
    let across = (most[0] - least[0]).max(1.0) * scale;
    let left = left + (width - across) / 2.0;
    let deep = (most[1] - least[1]).max(1.0) * scale;
    let above = View {
        map,
        axes: [0, 1],
        corner: (left, top + AROUND),
        origin: (least[0], most[1]),
        scale,
    };
    above.draw(page);
    above.labels(page);
    let side = View {
        axes: [0, 2],
        corner: (left, top + 3.0 * AROUND + BETWEEN + deep),
        origin: (least[0], most[2]),
        ..above
    };
    side.draw(page);
    side.ways(page);
    page.text(left - AROUND, top + AROUND - 3.0, CAPTION, &above.named());
    page.text(
        left - AROUND,
        top + 3.0 * AROUND + BETWEEN + deep - WAY - 4.0,
        CAPTION,
        &side.named(),
    );
    bar(page, (left, top + high - 2.0), scale, (form, unit));
    high
}

/// A length to measure by.
fn bar(page: &mut Page, (left, y): (f64, f64), scale: f64, (form, unit): (Form, Unit)) {
    let per = match unit {
        Unit::Mm => 1.0,
        Unit::Inch => quillbore_calc::quantity::MM_PER_INCH,
    };
    let steps = [
        0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0,
    ];
    let fits = |length: &&f64| **length * per * scale >= mm(12.0);
    let length = steps.iter().find(fits).copied().unwrap_or(500.0);
    let right = left + length * per * scale;
    page.rule(left, right, y, Stroke::RULE);
    for x in [left, right] {
        page.line((x, y - 2.0), (x, y + 2.0), Stroke::RULE);
    }
    let said = shown::with_unit(form, length * per, unit, 0);
    page.text(right + 4.0, y + 2.8, CAPTION, &said);
}

/// The part about its zero, where all holes begin on it and go into it: each axis by itself, since zero may
/// be in the middle of a round part and on its lower or upper face.
fn outline(part_mm: Option<Vector>, spots: &[Spot]) -> Option<[Vector; 2]> {
    let size = part_mm?;
    let of_axis = |i: usize| -> Option<(f64, f64)> {
        let half = size[i] / 2.0;
        let ways = [(0.0, size[i]), (-size[i], 0.0), (-half, half)];
        // A hair within the hole is a hair within the part.
        let goes_in = |spot: &Spot| [spot.at_mm[i], spot.at_mm[i] - spot.out[i]];
        let within = |(low, high): &(f64, f64)| {
            let mut all = spots.iter().flat_map(goes_in);
            all.all(|at| at >= low - NEAR_MM && at <= high + NEAR_MM)
        };
        // Square to a face a hole begins on it, unless that lies in a recess.
        let on_face = |(low, high): &(f64, f64)| {
            spots.iter().all(|spot| match spot.out[i] {
                out if out > 0.9 => (spot.at_mm[i] - high).abs() < NEAR_MM,
                out if out < -0.9 => (spot.at_mm[i] - low).abs() < NEAR_MM,
                _ => true,
            })
        };
        let mut found = ways.into_iter().filter(within);
        let on_face = found.clone().find(on_face);
        on_face.or_else(|| found.next())
    };
    let [x, y, z] = [of_axis(0)?, of_axis(1)?, of_axis(2)?];
    Some([[x.0, y.0, z.0], [x.1, y.1, z.1]])
}

fn corners([low, high]: &[Vector; 2]) -> [Vector; 8] {
    let pick = |index: usize| [0, 1, 2].map(|i| if index >> i & 1 == 0 { low[i] } else { high[i] });
    [0, 1, 2, 3, 4, 5, 6, 7].map(pick)
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
