//! What a PDF shows, before any of it is a row of the hole table.

use quillbore_job::{Column, Unit};

use super::chart::Chart;
use super::evidence::Evidence;
use super::notice::Notice;

/// A PDF that was read.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Paged {
    /// The pages that were read, in the file's order.
    pub pages: Vec<PageSeen>,
    /// How many pages the file has, read or not.
    pub pages_in_file: usize,
    /// The unit of the lengths, where the texts say one and no other.
    pub unit: Option<Unit>,
    /// What of the texts says so.
    pub(super) evidence: Vec<Evidence>,
    /// Lines that are the name of a unit and nothing else.
    pub(super) names_of_units: Vec<Evidence>,
    /// The tables of holes on the pages.
    pub(super) charts: Vec<Chart>,
}

/// A page; lengths are points (1/72 in), from its upper left corner as it is shown.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PageSeen {
    /// How wide it is as it is shown.
    pub width: f64,
    /// How high it is as it is shown.
    pub height: f64,
    /// Its lines of text, from the top.
    pub lines: Vec<TextLine>,
    /// What of the texts speaks of holes, in the order of reading.
    pub callouts: Vec<SeenCallout>,
    /// Why there may be less text than is drawn.
    pub why_none: Vec<WhyNone>,
    /// Lines that stand outside what is shown of the page, and were left.
    pub off_page: usize,
    /// What is to be known of its tables and callouts beside what is offered.
    pub notices: Vec<Notice>,
}

/// A line of text.
#[derive(Clone, Debug, PartialEq)]
pub struct TextLine {
    /// What it says.
    pub text: String,
    /// Left, top, right, bottom of the box around it: from a quarter of its letters' size below its base line
    /// to three quarters above.
    pub place: [f64; 4],
    /// How far it is turned against the page, counterclockwise [deg], 0 to under 360.
    pub turned_deg: f64,
}

/// A text that speaks of holes.
#[derive(Clone, Debug, PartialEq)]
pub struct SeenCallout {
    /// What it says; lines that belong together with a space between.
    pub text: String,
    /// Which page, from 0.
    pub page: usize,
    /// Left, top, right, bottom.
    pub place: [f64; 4],
    /// Which part of the page that is.
    pub spot: Spot,
    /// How many holes it speaks of, where it says so.
    pub count: Option<u32>,
    /// What it says of the holes, cell by cell; nothing where it can't be taken apart, or is a line of a table.
    pub parts: Vec<Part>,
    /// What of it is to be looked at.
    pub doubts: Vec<Doubt>,
    /// Which table it is a line of, and which line.
    pub(super) row: Option<(usize, usize)>,
}

/// What goes into one cell.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Part {
    /// Which cell.
    pub column: Column,
    /// Its text.
    pub text: String,
}

/// A ninth of a page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Spot {
    /// 0 left, 1 middle, 2 right.
    pub across: u8,
    /// 0 upper, 1 middle, 2 lower.
    pub down: u8,
}

/// What of a callout is to be looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Doubt {
    /// It can't be taken apart, and is offered as the text that it is.
    AsText,
    /// It is written unseen, as programs do that guess the letters of a scan.
    Unseen,
    /// Its diameter or depth sign is a letter of a font of drawing signs.
    SignByFont,
    /// A letter of it has no meaning in the file.
    NoLetter,
}

/// Why a page shows less text than is drawn on it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WhyNone {
    /// Nothing is drawn on it.
    Blank,
    /// It is a picture, as a scan is.
    Scan,
    /// Its letters are drawn as lines or outlines.
    Strokes,
    /// So many letters have no meaning in the file.
    NoLetters(usize),
    /// So many letters are on layers that are not shown, and were left.
    Hidden(usize),
    /// It has no size that could be shown, and was left.
    NoSize,
    /// There is more on it than is read of one file.
    TooMuch,
}

impl SeenCallout {
    /// Whether it is a line of a table on the page.
    #[must_use]
    pub const fn is_of_table(&self) -> bool {
        self.row.is_some()
    }

    /// The same, with its table counted behind others.
    pub(super) fn behind_charts(mut self, charts: usize) -> Self {
        self.row = self.row.map(|(chart, line)| (chart + charts, line));
        self
    }
}

impl Spot {
    /// The ninth of a page that the middle of a box lies in.
    pub(super) fn of(place: [f64; 4], [width, height]: [f64; 2]) -> Self {
        let third = |from: f64, to: f64, all: f64| {
            let share = (from + to) / 2.0 / all;
            u8::from(share > 1.0 / 3.0) + u8::from(share > 2.0 / 3.0)
        };
        let [left, top, right, bottom] = place;
        Self {
            across: third(left, right, width),
            down: third(top, bottom, height),
        }
    }
}
