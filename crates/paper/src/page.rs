//! The page model: sheets of text runs, lines and paths, before any engine sees them.
//!
//! Lengths are points (1/72 in); the origin is the upper left corner of the sheet, y grows downward.

use std::collections::{BTreeMap, BTreeSet};

use crate::font::{Face, SUBSTITUTE};
use crate::glyphs::{self, Trouble};
use crate::sink::Sink;
use crate::symbol;

/// Millimeters as points.
pub fn mm(millimeters: f64) -> f64 {
    millimeters * 72.0 / 25.4
}

/// The paper a document is set for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sheet {
    /// ISO A4, 210 x 297 mm.
    A4,
    /// Letter, 8.5 x 11 in.
    Letter,
}

impl Sheet {
    /// Width and height in points.
    pub fn size(self) -> (f64, f64) {
        match self {
            Self::A4 => (mm(210.0), mm(297.0)),
            Self::Letter => (612.0, 792.0),
        }
    }
}

/// What a line or a letter is inked for; each look gives it a color.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Ink {
    /// Text, figures, heavy rules.
    Text,
    /// Captions, units, what stands beside the matter.
    Quiet,
    /// Hairlines.
    Hair,
    /// The one accent.
    Accent,
    /// A light ground behind text.
    Wash,
    /// The preview mark under the text.
    Ghost,
    /// The sheet itself, to cut one shape out of another.
    Paper,
}

impl Ink {
    /// Its color on paper: red, green, blue from 0 to 1.
    pub fn on_paper(self) -> [f64; 3] {
        match self {
            Self::Text => [0.08, 0.08, 0.09],
            Self::Quiet => [0.36, 0.36, 0.38],
            Self::Hair => [0.58, 0.58, 0.60],
            Self::Accent => [0.10, 0.24, 0.42],
            Self::Wash => [0.93, 0.94, 0.95],
            Self::Ghost => [0.925, 0.925, 0.93],
            Self::Paper => [1.0, 1.0, 1.0],
        }
    }
}

/// Face, size and ink of a text.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Style {
    /// The face.
    pub face: Face,
    /// The size in points.
    pub size: f64,
    /// The ink.
    pub ink: Ink,
}

impl Style {
    /// A style in the ink of text.
    pub const fn new(face: Face, size: f64) -> Self {
        Self {
            face,
            size,
            ink: Ink::Text,
        }
    }

    /// The same style in another ink.
    pub const fn ink(self, ink: Ink) -> Self {
        Self { ink, ..self }
    }

    /// The same style in the bold face.
    pub fn bold(self) -> Self {
        Self {
            face: self.face.bold(),
            ..self
        }
    }

    /// Distance from one baseline to the next, in points.
    pub fn leading(self) -> f64 {
        self.size * 1.28
    }

    /// Width of a text, in points; signs that are drawn as lines count too.
    pub fn measure(self, text: &str) -> f64 {
        if !text.contains(symbol::is_drawn) {
            return self.face.measure(text, self.size);
        }
        text.chars()
            .map(|ch| match symbol::width(ch, self.size) {
                Some(width) => width,
                None => self.face.measure(ch.encode_utf8(&mut [0; 4]), self.size),
            })
            .sum()
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

/// How a line is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stroke {
    /// Width in points.
    pub width: f64,
    /// The ink.
    pub ink: Ink,
    /// Length of dash and of gap, if it isn't a full line.
    pub dash: Option<(f64, f64)>,
}

impl Stroke {
    /// The thin line that carries the papers.
    pub const HAIR: Self = Self::new(0.35, Ink::Hair);
    /// A rule that ends or begins something.
    pub const RULE: Self = Self::new(0.7, Ink::Text);
    /// Outlines of drawings.
    pub const OUTLINE: Self = Self::new(0.6, Ink::Text);
    /// Center lines.
    pub const CENTER: Self = Self {
        width: 0.35,
        ink: Ink::Quiet,
        dash: Some((5.0, 2.0)),
    };

    /// A full line.
    pub const fn new(width: f64, ink: Ink) -> Self {
        Self {
            width,
            ink,
            dash: None,
        }
    }
}

/// A straight line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line {
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

/// An outline that is filled, stroked or both; overlapping parts cut holes (even-odd).
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Path {
    /// The outline.
    pub steps: Vec<Step>,
    /// The ink inside.
    pub fill: Option<Ink>,
    /// The line along it.
    pub stroke: Option<Stroke>,
}

/// One thing on a page.
#[derive(Clone, Debug, PartialEq)]
pub enum Item {
    /// A text on one baseline.
    Text(TextRun),
    /// A straight line.
    Line(Line),
    /// An outline.
    Path(Path),
}

/// One page.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Page {
    /// What is on it, from the ground up.
    pub items: Vec<Item>,
    troubles: BTreeMap<char, Trouble>,
}

impl Page {
    /// Sets a text with its left end at `x` and returns its right end.
    pub fn text(&mut self, x: f64, y: f64, style: Style, text: &str) -> f64 {
        let mut left = x;
        let mut plain = String::with_capacity(text.len());
        for ch in text.chars() {
            if symbol::is_drawn(ch) {
                left = self.run(left, y, style, std::mem::take(&mut plain));
                left += symbol::draw(self, ch, left, y, style);
            } else {
                plain.extend(self.printable(ch, style.face));
            }
        }
        self.run(left, y, style, plain)
    }

    /// Sets a text with its right end at `x`.
    pub fn text_right(&mut self, x: f64, y: f64, style: Style, text: &str) {
        self.text(x - style.measure(text), y, style, text);
    }

    /// Sets a text around `x`.
    pub fn text_center(&mut self, x: f64, y: f64, style: Style, text: &str) {
        self.text(x - style.measure(text) / 2.0, y, style, text);
    }

    /// Draws a straight line.
    pub fn line(&mut self, from: (f64, f64), to: (f64, f64), stroke: Stroke) {
        self.items.push(Item::Line(Line { from, to, stroke }));
    }

    /// Draws a level line.
    pub fn rule(&mut self, left: f64, right: f64, y: f64, stroke: Stroke) {
        self.line((left, y), (right, y), stroke);
    }

    /// Draws an outline.
    pub fn path(&mut self, path: Path) {
        self.items.push(Item::Path(path));
    }

    /// Draws an upright rectangle from its upper left corner.
    pub fn rect(
        &mut self,
        at: (f64, f64),
        size: (f64, f64),
        fill: Option<Ink>,
        stroke: Option<Stroke>,
    ) {
        let ((x, y), (w, h)) = (at, size);
        self.path(Path {
            steps: vec![
                Step::Move(x, y),
                Step::Line(x + w, y),
                Step::Line(x + w, y + h),
                Step::Line(x, y + h),
                Step::Close,
            ],
            fill,
            stroke,
        });
    }

    /// Draws a circle.
    pub fn circle(
        &mut self,
        center: (f64, f64),
        radius: f64,
        fill: Option<Ink>,
        stroke: Option<Stroke>,
    ) {
        // The usual four cubic arcs: the handle length keeps within 0.03 % of the circle.
        let handle = radius * 0.552_284_75;
        let (x, y) = center;
        self.path(Path {
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
        });
    }

    fn run(&mut self, x: f64, y: f64, style: Style, text: String) -> f64 {
        let run = TextRun { x, y, style, text };
        let right = run.right();
        if !run.text.trim().is_empty() {
            self.items.push(Item::Text(run));
        }
        right
    }

    /// The character as it is printed: other spaces are a space, one that the face lacks is the
    /// substitute; what can't be printed as it is read is noted.
    fn printable(&mut self, ch: char, face: Face) -> Option<char> {
        if glyphs::is_unseen(ch) {
            return None;
        }
        if ch.is_whitespace() || ch.is_control() {
            return Some(' ');
        }
        let trouble = glyphs::trouble(ch, face);
        if let Some(trouble) = trouble {
            self.troubles.insert(ch, trouble);
        }
        Some(match trouble {
            Some(Trouble::NoGlyph) => SUBSTITUTE,
            _ if face.covers(ch) => ch,
            _ => SUBSTITUTE,
        })
    }
}

/// A finished paper.
#[derive(Clone, Debug, PartialEq)]
pub struct Document {
    /// The paper it is set for.
    pub sheet: Sheet,
    /// Its pages in order.
    pub pages: Vec<Page>,
}

impl Document {
    /// The characters that no glyph was there for; each was printed as [`SUBSTITUTE`].
    pub fn missing(&self) -> BTreeSet<char> {
        let all = self.troubles().into_iter();
        let missing = all.filter(|(_, trouble)| *trouble == Trouble::NoGlyph);
        missing.map(|(ch, _)| ch).collect()
    }

    /// The characters that can't be printed as they are read, and why.
    pub fn troubles(&self) -> BTreeMap<char, Trouble> {
        let pages = self.pages.iter();
        pages.flat_map(|page| page.troubles.clone()).collect()
    }

    /// Plays every page into a sink.
    pub fn play(&self, sink: &mut dyn Sink) {
        for (index, page) in self.pages.iter().enumerate() {
            sink.page(self.sheet, index + 1, self.pages.len());
            page.play(sink);
        }
    }
}

impl Page {
    /// Plays the things of this page into a sink.
    pub fn play(&self, sink: &mut dyn Sink) {
        for item in &self.items {
            match item {
                Item::Text(run) => sink.text(run),
                Item::Line(line) => sink.line(line),
                Item::Path(path) => sink.path(path),
            }
        }
    }
}
