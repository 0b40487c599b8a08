//! A finished paper and its pages, on which texts, lines, outlines and pictures are put.

use std::collections::{BTreeMap, BTreeSet};

use quillbore_job::Language;

use super::font::{Face, SUBSTITUTE};
use super::item::{Item, Path, StraightLine, TextRun};
use super::picture::Picture;
use super::role::Role;
use super::sheet::Sheet;
use super::sign;
use super::sign_lines;
use super::sink::Sink;
use super::style::{Ink, Stroke, Style};
use super::trouble::{self, Trouble};

/// Pages that a paper has at most: two reams. More is nothing that goes with parts or to a customer,
/// and would fill the memory before the printer.
pub const MOST_PAGES: usize = 1_000;

/// A finished paper.
#[derive(Clone, Debug, PartialEq)]
pub struct Document {
    /// The paper it is set for.
    pub sheet: Sheet,
    /// Its pages in order.
    pub pages: Vec<Page>,
    /// It would have more than [`MOST_PAGES`]: those are not set, and so it can't be printed.
    pub is_cut: bool,
    /// The language that it is in.
    pub language: Language,
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
            if sign::is_drawn(ch) {
                left = self.run(left, y, style, std::mem::take(&mut plain));
                self.begin(Role::Sign(ch));
                self.items.extend(sign_lines::of(ch, left, y, style));
                self.end();
                left += sign::width(ch, style.size).unwrap_or(0.0);
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
        self.items
            .push(Item::Line(StraightLine { from, to, stroke }));
    }

    /// Draws a level line.
    pub fn rule(&mut self, left: f64, right: f64, y: f64, stroke: Stroke) {
        self.line((left, y), (right, y), stroke);
    }

    /// Draws an outline.
    pub fn path(&mut self, path: Path) {
        self.items.push(Item::Path(path));
    }

    /// Puts a picture.
    pub fn picture(&mut self, picture: Picture) {
        self.items.push(Item::Picture(picture));
    }

    /// Begins a part of the paper; what is put on the page until its end belongs to it.
    pub fn begin(&mut self, role: Role) {
        self.items.push(Item::Begin(role));
    }

    /// Ends the part that was begun last.
    pub fn end(&mut self) {
        self.items.push(Item::End);
    }

    /// Puts a part of the paper on the page.
    pub fn part<T>(&mut self, role: Role, put: impl FnOnce(&mut Self) -> T) -> T {
        self.begin(role);
        let made = put(self);
        self.end();
        made
    }

    /// Moves all that is on it to the right by so many points; by a negative number, to the left.
    pub fn shift(&mut self, by: f64) {
        self.items.iter_mut().for_each(|item| item.shift(by));
    }

    /// Whether nothing is to be seen on it.
    pub fn is_blank(&self) -> bool {
        !self.items.iter().any(Item::is_drawn)
    }

    /// Draws an upright rectangle from its upper left corner.
    pub fn rect(
        &mut self,
        at: (f64, f64),
        size: (f64, f64),
        fill: Option<Ink>,
        stroke: Option<Stroke>,
    ) {
        self.path(Path::rect(at, size, fill, stroke));
    }

    /// Draws a circle.
    pub fn circle(
        &mut self,
        center: (f64, f64),
        radius: f64,
        fill: Option<Ink>,
        stroke: Option<Stroke>,
    ) {
        self.path(Path::circle(center, radius, fill, stroke));
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
        if trouble::is_unseen(ch) {
            return None;
        }
        if ch.is_whitespace() || ch.is_control() {
            return Some(' ');
        }
        let trouble = trouble::trouble(ch, face);
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

impl Page {
    /// Plays the things of this page into a sink.
    pub fn play(&self, sink: &mut dyn Sink) {
        for item in &self.items {
            match item {
                Item::Text(run) => sink.text(run),
                Item::Line(line) => sink.line(line),
                Item::Path(path) => sink.path(path),
                Item::Picture(picture) => sink.picture(picture),
                Item::Begin(role) => sink.begin(role),
                Item::End => sink.end(),
            }
        }
    }
}
