//! What stands on a page: texts, straight lines, outlines, pictures.

use super::picture::Picture;
use super::role::Role;
use super::style::{Ink, Stroke, Style};

/// One thing on a page.
#[derive(Clone, Debug, PartialEq)]
pub enum Item {
    /// A text on one baseline.
    Text(TextRun),
    /// A straight line.
    Line(StraightLine),
    /// An outline.
    Path(Path),
    /// A picture.
    Picture(Picture),
    /// Here begins a part of the paper, which may go on over pages.
    Begin(Role),
    /// Here ends the part that was begun last.
    End,
}

impl Item {
    /// Whether it is seen.
    pub const fn is_drawn(&self) -> bool {
        !matches!(self, Self::Begin(_) | Self::End)
    }

    /// Moves it to the right by so many points; by a negative number, to the left.
    pub fn shift(&mut self, by: f64) {
        match self {
            Self::Text(run) => run.x += by,
            Self::Line(line) => {
                line.from.0 += by;
                line.to.0 += by;
            }
            Self::Path(path) => path.steps.iter_mut().for_each(|step| step.shift(by)),
            Self::Picture(picture) => picture.at.0 += by,
            Self::Begin(_) | Self::End => {}
        }
    }
}

/// A text on one baseline.
#[derive(Clone, Debug, PartialEq)]
pub struct TextRun {
    /// Left end, in points.
    pub x: f64,
    /// Baseline, in points from the top.
    pub y: f64,
    /// How it is set.
    pub style: Style,
    /// The characters, every one of which the face has.
    pub text: String,
}

impl TextRun {
    /// Its right end, in points.
    pub fn right(&self) -> f64 {
        self.x + self.style.measure(&self.text)
    }
}

/// A straight line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StraightLine {
    /// One end.
    pub from: (f64, f64),
    /// The other end.
    pub to: (f64, f64),
    /// How it is drawn.
    pub stroke: Stroke,
}

/// A step of a path.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Step {
    /// Begins a part of the path.
    Move(f64, f64),
    /// A straight line to the point.
    Line(f64, f64),
    /// A cubic curve: two control points and the end.
    Curve((f64, f64), (f64, f64), (f64, f64)),
    /// Back to where the part began.
    Close,
}

impl Step {
    fn shift(&mut self, by: f64) {
        match self {
            Self::Move(x, _) | Self::Line(x, _) => *x += by,
            Self::Curve(from, to, end) => {
                for (x, _) in [from, to, end] {
                    *x += by;
                }
            }
            Self::Close => {}
        }
    }
}

/// What of an outline is inside where its parts overlap.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Rule {
    /// What an odd number of parts enclose: a part within another cuts a hole.
    #[default]
    EvenOdd,
    /// What is wound around at all: a part cuts a hole only where it runs the other way.
    NonZero,
}

/// An outline that is filled, stroked or both.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Path {
    /// The outline.
    pub steps: Vec<Step>,
    /// What of it is inside.
    pub rule: Rule,
    /// The ink inside.
    pub fill: Option<Ink>,
    /// The line along it.
    pub stroke: Option<Stroke>,
}

impl Path {
    /// A rectangle from its upper left corner.
    pub fn rect(
        at: (f64, f64),
        size: (f64, f64),
        fill: Option<Ink>,
        stroke: Option<Stroke>,
    ) -> Self {
        let ((x, y), (w, h)) = (at, size);
        Self {
            steps: vec![
                Step::Move(x, y),
                Step::Line(x + w, y),
                Step::Line(x + w, y + h),
                Step::Line(x, y + h),
                Step::Close,
            ],
            fill,
            stroke,
            ..Self::default()
        }
    }

    /// A circle.
    pub fn circle(
        center: (f64, f64),
        radius: f64,
        fill: Option<Ink>,
        stroke: Option<Stroke>,
    ) -> Self {
        // The usual four cubic arcs: the handle length keeps within 0.03 % of the circle.
        let handle = radius * 0.552_284_75;
        let (x, y) = center;
        Self {
            steps: vec![
                Step::Move(x + radius, y),
                Step::Curve(
                    (x + radius, y + handle),
                    (x + handle, y + radius),
                    (x, y + radius),
                ),
                Step::Curve(
                    (x - handle, y + radius),
                    (x - radius, y + handle),
                    (x - radius, y),
                ),
                Step::Curve(
                    (x - radius, y - handle),
                    (x - handle, y - radius),
                    (x, y - radius),
                ),
                Step::Curve(
                    (x + handle, y - radius),
                    (x + radius, y - handle),
                    (x + radius, y),
                ),
                Step::Close,
            ],
            fill,
            stroke,
            ..Self::default()
        }
    }
}
