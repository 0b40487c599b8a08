//! What a drawing is made of, each thing in the coordinates of its block.

use std::collections::BTreeMap;

use super::place::Point;

/// A thing that is drawn.
#[derive(Clone, Debug)]
pub(super) struct Entity<'a> {
    /// Its handle; empty where it has none.
    pub(super) handle: &'a [u8],
    /// Where in the file: a line or a byte.
    pub(super) at: usize,
    /// Its layer, by number.
    pub(super) layer: u32,
    /// How its line is drawn.
    pub(super) line: LineBy,
    /// False where it is marked as not to be seen.
    pub(super) visible: bool,
    /// True where it stands on the sheet instead of in the model.
    pub(super) on_paper: bool,
    /// The normal of its own plane where it is not the drawing's.
    pub(super) turned: Option<Box<Point>>,
    /// What it is.
    pub(super) kind: Kind<'a>,
}

impl Entity<'_> {
    /// The normal of its own plane.
    pub(super) fn normal(&self) -> Point {
        self.turned.as_deref().copied().unwrap_or([0.0, 0.0, 1.0])
    }
}

/// What is drawn in a block, or in the drawing.
#[derive(Default)]
pub(super) struct Things<'a> {
    /// What is read.
    pub(super) entities: Vec<Entity<'a>>,
    /// What is not read, by its name.
    pub(super) others: BTreeMap<&'a [u8], Others<'a>>,
}

/// Things of one kind that is not read.
pub(super) struct Others<'a> {
    /// The handle of the first.
    pub(super) handle: &'a [u8],
    /// Where the first is: a line or a byte.
    pub(super) at: usize,
    /// How many there are.
    pub(super) times: usize,
}

/// Where an entity's line type comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum LineBy {
    /// Its layer.
    Layer,
    /// The insert that places its block.
    Block,
    /// Its own.
    Own(Line),
}

/// What a line type says.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Line {
    /// Drawn through: an edge in sight.
    Plain,
    /// Dashes alike, or dots: an edge that is hidden.
    Dashed,
    /// Long and short dashes in turn, or dashes and dots: an axis, and no edge.
    Center,
}

/// What an entity is; what is large stands apart, since most entities are small.
#[derive(Clone, Debug)]
pub(super) enum Kind<'a> {
    /// A circle in its own plane.
    Circle {
        /// Its center.
        center: Point,
        /// Its radius.
        radius: f64,
    },
    /// An arc in its own plane.
    Arc(Box<Arc>),
    /// An ellipse or a part of one.
    Ellipse(Box<Ellipse>),
    /// A line between two points.
    Line(Box<[Point; 2]>),
    /// Points joined by lines and arcs.
    Chain(Box<Chain>),
    /// A free curve, as points upon it.
    Curve(Vec<Point>),
    /// A block placed, once or in rows and columns.
    Insert(Box<Insert<'a>>),
    /// A text.
    Text(Box<Text>),
    /// A dimension.
    Dimension(Box<Dimension<'a>>),
    /// A line that leads from a thing to a text.
    Leader(Box<Leader<'a>>),
    /// A number that it needs is missing or none.
    Unreadable,
}

/// An arc in its own plane, counterclockwise.
#[derive(Clone, Copy, Debug)]
pub(super) struct Arc {
    /// Its center.
    pub(super) center: Point,
    /// Its radius.
    pub(super) radius: f64,
    /// Where it begins, in degrees.
    pub(super) start: f64,
    /// Where it ends, in degrees.
    pub(super) end: f64,
}

/// An ellipse or a part of one, in the drawing's coordinates.
#[derive(Clone, Copy, Debug)]
pub(super) struct Ellipse {
    /// Its center.
    pub(super) center: Point,
    /// From its center to the end of its longer half.
    pub(super) major: Point,
    /// The shorter half in parts of the longer.
    pub(super) ratio: f64,
    /// Parameter at which it begins, in radians.
    pub(super) start: f64,
    /// Parameter at which it ends, in radians.
    pub(super) end: f64,
}

impl Kind<'_> {
    /// True where it draws edges.
    pub(super) fn is_geometry(&self) -> bool {
        !matches!(
            self,
            Self::Text(_) | Self::Dimension(_) | Self::Leader(_) | Self::Unreadable
        )
    }

    /// The words that it shows, where it is a text or has one of its own.
    pub(super) fn says(&self) -> Option<&str> {
        match self {
            Self::Text(text) => Some(&text.says),
            Self::Dimension(dimension) => Some(&dimension.says),
            Self::Leader(leader) => leader.says.as_deref(),
            _ => None,
        }
    }

    /// How much is laid down where it is placed, in edges.
    pub(super) fn weight(&self) -> usize {
        match self {
            Self::Chain(chain) => 1 + chain.points.len(),
            Self::Curve(points) => 1 + points.len(),
            Self::Ellipse(_) => 12,
            _ => 1,
        }
    }
}

/// Points joined by lines and arcs.
#[derive(Clone, Debug)]
pub(super) struct Chain {
    /// The points, and the bulge of what joins each to the next: the tangent of a quarter of the arc's turn.
    pub(super) points: Vec<(Point, f64)>,
    /// True where the last is joined to the first.
    pub(super) closed: bool,
    /// True where the points stand in the drawing's coordinates instead of the chain's own plane.
    pub(super) in_space: bool,
}

/// A block placed, once or in rows and columns.
#[derive(Clone, Debug)]
pub(super) struct Insert<'a> {
    /// The block's name as it stands in the file.
    pub(super) block: &'a [u8],
    /// Where its base point comes to stand, in the insert's plane.
    pub(super) at: Point,
    /// By what it is scaled.
    pub(super) scale: Point,
    /// By how much it is turned, in degrees.
    pub(super) turned: f64,
    /// How many columns and rows.
    pub(super) times: [u32; 2],
    /// From column to column and from row to row.
    pub(super) steps: [f64; 2],
}

/// A text.
#[derive(Clone, Debug)]
pub(super) struct Text {
    /// What it says, without codes, in one line.
    pub(super) says: String,
    /// Where it is put.
    pub(super) at: Point,
    /// Height of its letters.
    pub(super) height: f64,
    /// Which point of its box stands there: 0 left or bottom, 0.5 middle, 1 right or top.
    pub(super) anchor: [f64; 2],
    /// Letters of its longest line, and its lines.
    pub(super) size: [usize; 2],
    /// Its direction; in the drawing's coordinates where `in_space` is true.
    pub(super) along: Point,
    /// True where it stands in the drawing's coordinates instead of its own plane.
    pub(super) in_space: bool,
}

/// A dimension of which something may be a hole's diameter.
#[derive(Clone, Debug)]
pub(super) struct Dimension<'a> {
    /// What it says, with `<>` where the measure stands; nothing where it says the measure alone.
    pub(super) says: String,
    /// What was measured; `None` where the file doesn't say.
    pub(super) measured: Option<f64>,
    /// The two ends of what is measured.
    pub(super) ends: [Point; 2],
    /// True where it is the dimension of a diameter.
    pub(super) of_diameter: bool,
    /// True where it is that of a radius: its ends are the center and a point of the arc.
    pub(super) of_radius: bool,
    /// The name of the block that its lines and its text stand in; empty where it has none.
    pub(super) block: &'a [u8],
}

/// A line that leads from a thing to a text.
#[derive(Clone, Debug)]
pub(super) struct Leader<'a> {
    /// Where its arrows point.
    pub(super) tips: Vec<Point>,
    /// Where it ends.
    pub(super) end: Point,
    /// The text that it has itself.
    pub(super) says: Option<String>,
    /// The handle of its text.
    pub(super) text: &'a [u8],
}
