//! Closed rings of edges: each piece of the drawing's web, walked around its outer side.

use std::collections::BTreeMap;

use super::drawn::{Arc, Edge};

/// A ring: its points, and what it encloses.
#[derive(Clone, Debug)]
pub(super) struct Ring {
    pub(super) points: Vec<[f64; 2]>,
    pub(super) area: f64,
    pub(super) least: [f64; 2],
    pub(super) most: [f64; 2],
}

/// The outer rings of all pieces of a web of edges; ends within `hair` meet. `corner` is the least of all points.
pub(super) fn rings(edges: &[&Edge], arcs: &[&Arc<'_>], hair: f64, corner: [f64; 2]) -> Vec<Ring> {
    if edges.len() + CUTS * arcs.len() > MOST_EDGES {
        return Vec::new();
    }
    let mut web = Web::new(hair, corner);
    for edge in edges {
        web.join(edge.ends[0], edge.ends[1], None);
    }
    for (number, arc) in arcs.iter().enumerate() {
        // Cut where it is farthest along x or y, so that a piece's leftmost point is one of its ends.
        let (start, turn) = (arc.start(), arc.turn.to_degrees());
        let mut cuts: Vec<f64> = [90.0, 180.0, 270.0, 360.0]
            .map(|corner| (corner - start).rem_euclid(360.0))
            .into_iter()
            .filter(|cut| *cut > 0.0 && *cut < turn)
            .collect();
        cuts.push(turn);
        cuts.sort_by(f64::total_cmp);
        let mut from = 0.0;
        for to in cuts {
            let span = (number, start + from, start + to);
            web.join(arc.at(span.1), arc.at(span.2), Some(span));
            from = to;
        }
    }
    web.cut_loose_ends();
    web.sort(arcs);
    web.walk_all(arcs)
}

/// More edges on one layer are a picture and no part; they would fill the memory.
const MOST_EDGES: usize = 100_000;

/// An arc may be cut into so many.
const CUTS: usize = 3;

impl Ring {
    /// Of points that go round.
    pub(super) fn of(points: Vec<[f64; 2]>) -> Option<Self> {
        let (mut least, mut most) = ([f64::INFINITY; 2], [f64::NEG_INFINITY; 2]);
        for point in &points {
            for axis in 0..2 {
                least[axis] = least[axis].min(point[axis]);
                most[axis] = most[axis].max(point[axis]);
            }
        }
        let first = *points.first()?;
        let mut twice = 0.0;
        for (at, point) in points.iter().enumerate() {
            let next = points[(at + 1) % points.len()];
            twice += (point[0] - first[0]) * (next[1] - first[1])
                - (next[0] - first[0]) * (point[1] - first[1]);
        }
        let area = twice.abs() / 2.0;
        (area > 0.0 && area.is_finite()).then_some(Self {
            points,
            area,
            least,
            most,
        })
    }

    /// Its width and its height.
    pub(super) fn sides(&self) -> [f64; 2] {
        [self.most[0] - self.least[0], self.most[1] - self.least[1]]
    }

    /// True where it is a box that stands upright.
    pub(super) fn is_box(&self) -> bool {
        let [wide, high] = self.sides();
        self.area >= FULL * wide * high
    }

    /// True where a point stands in its box.
    pub(super) fn has_in_box(&self, point: [f64; 2]) -> bool {
        (0..2).all(|axis| self.least[axis] < point[axis] && point[axis] < self.most[axis])
    }

    /// True where a point stands in it.
    pub(super) fn has(&self, point: [f64; 2]) -> bool {
        let mut inside = false;
        let mut last = self.points.last();
        for next in &self.points {
            if let Some(from) = last
                && (from[1] > point[1]) != (next[1] > point[1])
            {
                let part = (point[1] - from[1]) / (next[1] - from[1]);
                inside ^= point[0] < from[0] + part * (next[0] - from[0]);
            }
            last = Some(next);
        }
        inside
    }
}

/// A box fills its sides to so much.
const FULL: f64 = 0.999;

/// An arc between two points: its number, from and to which angle in degrees.
type Span = (usize, f64, f64);

/// An edge between two points.
#[derive(Clone, Copy)]
struct Joint {
    ends: [usize; 2],
    /// The arc that it is, if it is one.
    span: Option<Span>,
    /// In which direction it leaves each of its ends, in radians.
    leaves: [f64; 2],
}

struct Web {
    hair: f64,
    corner: [f64; 2],
    cells: BTreeMap<(i64, i64), Vec<usize>>,
    points: Vec<[f64; 2]>,
    joints: Vec<Joint>,
    /// Which joints meet at each point.
    at: Vec<Vec<usize>>,
    gone: Vec<bool>,
}

impl Web {
    const fn new(hair: f64, corner: [f64; 2]) -> Self {
        Self {
            hair,
            corner,
            cells: BTreeMap::new(),
            points: Vec::new(),
            joints: Vec::new(),
            at: Vec::new(),
            gone: Vec::new(),
        }
    }

    fn join(&mut self, from: [f64; 2], to: [f64; 2], span: Option<Span>) {
        let ends = [self.point(from), self.point(to)];
        if ends[0] != ends[1] {
            for end in ends {
                self.at[end].push(self.joints.len());
            }
            self.joints.push(Joint {
                ends,
                span,
                leaves: [0.0; 2],
            });
            self.gone.push(false);
        }
    }

    /// The number of a point; one within a hair is the same.
    fn point(&mut self, point: [f64; 2]) -> usize {
        let [x, y] =
            [0, 1].map(|axis| ((point[axis] - self.corner[axis]) / self.hair).floor() as i64);
        for near_x in [x, x.saturating_sub(1), x.saturating_add(1)] {
            for near_y in [y, y.saturating_sub(1), y.saturating_add(1)] {
                for number in self.cells.get(&(near_x, near_y)).into_iter().flatten() {
                    let other = self.points[*number];
                    if libm::hypot(other[0] - point[0], other[1] - point[1]) <= self.hair {
                        return *number;
                    }
                }
            }
        }
        let number = self.points.len();
        self.cells.entry((x, y)).or_default().push(number);
        self.points.push(point);
        self.at.push(Vec::new());
        number
    }

    /// Takes off what ends in the open, again and again.
    fn cut_loose_ends(&mut self) {
        let mut ends: Vec<usize> = (0..self.points.len()).collect();
        while let Some(point) = ends.pop() {
            let mut left = self.at[point].iter().filter(|joint| !self.gone[**joint]);
            if let (Some(joint), None) = (left.next().copied(), left.next()) {
                self.gone[joint] = true;
                let [a, b] = self.joints[joint].ends;
                ends.push(if a == point { b } else { a });
            }
        }
        for joints in &mut self.at {
            joints.retain(|joint| !self.gone[*joint]);
        }
    }

    fn walk_all(&self, arcs: &[&Arc<'_>]) -> Vec<Ring> {
        let mut order: Vec<usize> = (0..self.points.len())
            .filter(|point| !self.at[*point].is_empty())
            .collect();
        // From the left: the first point of each piece stands on its outer side.
        order.sort_by(|a, b| {
            let (a_at, b_at) = (self.points[*a], self.points[*b]);
            a_at[0]
                .total_cmp(&b_at[0])
                .then(a_at[1].total_cmp(&b_at[1]))
                .then(a.cmp(b))
        });
        let mut met = vec![false; self.points.len()];
        let mut rings = Vec::new();
        for start in order {
            if met[start] {
                continue;
            }
            self.meet_all(start, &mut met);
            rings.extend(Ring::of(self.walk(start, arcs)));
        }
        rings
    }

    /// Marks a whole piece as met.
    fn meet_all(&self, start: usize, met: &mut [bool]) {
        let mut open = vec![start];
        while let Some(point) = open.pop() {
            if std::mem::replace(&mut met[point], true) {
                continue;
            }
            let joints = self.at[point].iter();
            open.extend(joints.flat_map(|joint| self.joints[*joint].ends));
        }
    }

    /// Around the outer side of a piece, from its leftmost point, with the open to the right.
    fn walk(&self, start: usize, arcs: &[&Arc<'_>]) -> Vec<[f64; 2]> {
        let mut points = Vec::new();
        // Directions run from west through south to west, and nothing of the piece stands west of here.
        let Some(first) = self.at[start].first().copied() else {
            return points;
        };
        let (mut at, mut joint) = (start, first);
        for _ in 0..=2 * self.joints.len() {
            let to = self.lay(at, joint, arcs, &mut points);
            let next = self.next_joint(to, joint);
            if to == start && next == first {
                break;
            }
            (at, joint) = (to, next);
        }
        points
    }

    /// The joint next to the one that it came by, counterclockwise; that one itself where it is alone.
    fn next_joint(&self, point: usize, came_by: usize) -> usize {
        let joints = &self.at[point];
        let key = self.leaves(point, came_by);
        let place = joints.partition_point(|joint| {
            let other = self.leaves(point, *joint);
            other.0.total_cmp(&key.0).then(other.1.cmp(&key.1)).is_le()
        });
        joints
            .get(place)
            .or_else(|| joints.first())
            .copied()
            .unwrap_or(came_by)
    }

    /// The direction in which a joint leaves a point, and its number.
    fn leaves(&self, point: usize, joint: usize) -> (f64, usize) {
        let Joint { ends, leaves, .. } = self.joints[joint];
        (leaves[usize::from(ends[0] != point)], joint)
    }

    /// Sorts what meets at each point by direction.
    fn sort(&mut self, arcs: &[&Arc<'_>]) {
        for joint in 0..self.joints.len() {
            let [a, b] = self.joints[joint].ends;
            self.joints[joint].leaves = [
                self.direction(a, joint, arcs),
                self.direction(b, joint, arcs),
            ];
        }
        let mut at = std::mem::take(&mut self.at);
        for (point, joints) in at.iter_mut().enumerate() {
            joints.sort_by(|a, b| {
                let (a, b) = (self.leaves(point, *a), self.leaves(point, *b));
                a.0.total_cmp(&b.0).then(a.1.cmp(&b.1))
            });
        }
        self.at = at;
    }

    /// In which direction a joint leaves a point, in radians; an arc a little way along it.
    fn direction(&self, point: usize, joint: usize, arcs: &[&Arc<'_>]) -> f64 {
        let Joint { ends, span, .. } = self.joints[joint];
        let here = self.points[point];
        let there = match span {
            Some((number, from, to)) => {
                let part = if ends[0] == point { 0.05 } else { 0.95 };
                arcs[number].at(from + (to - from) * part)
            }
            None => self.points[if ends[0] == point { ends[1] } else { ends[0] }],
        };
        libm::atan2(there[1] - here[1], there[0] - here[0])
    }

    /// Adds the points of a joint but its last, which it returns.
    fn lay(
        &self,
        from: usize,
        joint: usize,
        arcs: &[&Arc<'_>],
        points: &mut Vec<[f64; 2]>,
    ) -> usize {
        let Joint { ends, span, .. } = self.joints[joint];
        let forward = ends[0] == from;
        points.push(self.points[from]);
        if let Some((number, start, end)) = span {
            let steps = ((end - start) / STEP).ceil().clamp(1.0, 90.0) as u32;
            for step in 1..steps {
                let part = f64::from(if forward { step } else { steps - step }) / f64::from(steps);
                points.push(arcs[number].at(start + (end - start) * part));
            }
        }
        if forward { ends[1] } else { ends[0] }
    }
}

/// Arcs of a ring are drawn in steps of at most so many degrees.
pub(super) const STEP: f64 = 7.5;
