//! What stands in the drawing once every block is placed, in the drawing's own coordinates.

use super::entity::{Dimension, Leader, Line, Text};
use super::place::{Place, Point};

/// What is drawn.
#[derive(Default)]
pub(super) struct Drawn<'e, 'a> {
    /// Whole circles.
    pub(super) rounds: Vec<Round<'a>>,
    /// Arcs that may close to circles, or be part of an outline.
    pub(super) arcs: Vec<Arc<'a>>,
    /// Straight edges.
    pub(super) edges: Vec<Edge>,
    /// Texts, and where they are placed.
    pub(super) texts: Vec<Placed<'e, 'a, Text>>,
    /// Dimensions, and where they are placed.
    pub(super) dimensions: Vec<Placed<'e, 'a, Dimension<'a>>>,
    /// Texts that stand on the sheet while the part stands in the model.
    pub(super) on_sheet: Vec<&'e str>,
    /// Leaders, and where they are placed.
    pub(super) leaders: Vec<Placed<'e, 'a, Leader<'a>>>,
    /// The inserts that things stand in, each with the one that it stands in itself.
    pub(super) within: Vec<From<'a>>,
    /// Least and most of all edges in sight; the least is above the most where there is none.
    pub(super) reach: Reach,
}

/// Where in the file something was read, and in which insert it stands.
#[derive(Clone, Copy, Debug)]
pub(super) struct From<'a> {
    /// Its handle; empty where it has none.
    pub(super) handle: &'a [u8],
    /// Its line or byte.
    pub(super) at: usize,
    /// The insert, by its number among [`Drawn::within`].
    pub(super) within: Option<u32>,
}

impl<'a> Drawn<'_, 'a> {
    /// Where something stands in the file: the handles of its inserts and its own. What has none goes by its
    /// line.
    pub(super) fn path(&self, from: From<'a>) -> String {
        let mut parts = vec![from.name()];
        let mut within = from.within;
        while let Some(insert) = within.and_then(|at| self.within.get(at as usize)) {
            parts.push(insert.name());
            within = insert.within;
        }
        parts.reverse();
        parts.join("/")
    }
}

impl From<'_> {
    fn name(&self) -> String {
        if self.handle.is_empty() {
            format!(":{}", self.at)
        } else {
            String::from_utf8_lossy(self.handle).into_owned()
        }
    }
}

/// How an edge is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Look {
    /// Its layer.
    pub(super) layer: u32,
    /// Its line.
    pub(super) line: Line,
    /// False where its layer is off or frozen, or it is marked as not to be seen.
    pub(super) shown: bool,
}

/// A circle.
#[derive(Clone, Debug)]
pub(super) struct Round<'a> {
    pub(super) center: Point,
    pub(super) radius: f64,
    /// Normal of its plane.
    pub(super) normal: Point,
    pub(super) look: Look,
    pub(super) drawn: As,
    pub(super) from: From<'a>,
    /// How much was laid before it.
    pub(super) order: u32,
    /// What else it was read of.
    pub(super) also: Vec<From<'a>>,
}

/// As what a circle is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum As {
    /// A circle.
    Circle,
    /// Arcs or lines that close.
    Closed,
    /// A free curve, which is off the circle by so much.
    Curve(f64),
}

/// An arc.
#[derive(Clone, Debug)]
pub(super) struct Arc<'a> {
    pub(super) center: Point,
    pub(super) radius: f64,
    pub(super) normal: Point,
    /// From the center to where it begins; it runs counterclockwise about its normal.
    pub(super) begins: Point,
    /// How far it turns, in radians.
    pub(super) turn: f64,
    pub(super) look: Look,
    pub(super) from: From<'a>,
    /// How much was laid before it.
    pub(super) order: u32,
    /// False where it is a part of a chain that closes otherwise.
    pub(super) alone: bool,
}

/// A straight edge, seen along z.
#[derive(Clone, Copy, Debug)]
pub(super) struct Edge {
    pub(super) ends: [[f64; 2]; 2],
    pub(super) look: Look,
}

/// Something and where it is placed.
pub(super) struct Placed<'e, 'a, T> {
    pub(super) what: &'e T,
    pub(super) place: Place,
    pub(super) from: From<'a>,
    /// Normal of its own plane.
    pub(super) normal: Point,
}

/// Least and most along each axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Reach {
    pub(super) least: Point,
    pub(super) most: Point,
}

impl Default for Reach {
    fn default() -> Self {
        Self {
            least: [f64::INFINITY; 3],
            most: [f64::NEG_INFINITY; 3],
        }
    }
}

impl Reach {
    /// Takes a point in, and so much around it.
    pub(super) fn take(&mut self, point: Point, around: Point) {
        for axis in 0..3 {
            self.least[axis] = self.least[axis].min(point[axis] - around[axis]);
            self.most[axis] = self.most[axis].max(point[axis] + around[axis]);
        }
    }

    /// True where nothing was taken in.
    pub(super) fn is_empty(&self) -> bool {
        self.least[0] > self.most[0]
    }
}
