//! Texts of the drawing: where they stand, and whether they speak of a hole.

use quillbore_job::Unit;

use super::drawn::{Drawn, From};
use super::place::{Place, is_sound, length};
use crate::callout::split;

/// A text and the box that it stands in, seen along z.
#[derive(Clone, Debug)]
pub(super) struct Note<'e> {
    pub(super) says: &'e str,
    pub(super) from: From<'e>,
    /// Middle of its box.
    pub(super) middle: [f64; 2],
    /// Half its width and half its height.
    half: [f64; 2],
    /// Its direction.
    along: [f64; 2],
    /// Height of its letters.
    pub(super) height: f64,
}

/// All texts that say something.
pub(super) fn notes<'e>(drawn: &Drawn<'e, 'e>) -> Vec<Note<'e>> {
    let texts = drawn.texts.iter().filter_map(|text| {
        let what = text.what;
        let plane = if what.in_space {
            text.place
        } else {
            text.place.after(&Place::of_normal(text.normal)?)
        };
        let at = plane.point(what.at);
        let along = plane.vector(what.along);
        let scale = length(along) / length(what.along);
        let flat = libm::hypot(along[0], along[1]);
        let height = what.height * scale;
        if what.says.is_empty() || !is_sound(at) || !(flat > 0.0 && height > 0.0) {
            return None;
        }
        let along = [along[0] / flat, along[1] / flat];
        let wide = WIDTH * height * what.size[0] as f64;
        let high = height * (1.0 + LINES * (what.size[1] - 1) as f64);
        let (x, y) = (wide * (0.5 - what.anchor[0]), high * (0.5 - what.anchor[1]));
        Some(Note {
            says: &what.says,
            from: text.from,
            middle: [
                at[0] + along[0] * x - along[1] * y,
                at[1] + along[1] * x + along[0] * y,
            ],
            half: [wide / 2.0, high / 2.0],
            along,
            height,
        })
    });
    texts.filter(|note| note.height.is_finite()).collect()
}

/// Width of a letter, and from line to line, in parts of a letter's height; common practice, no source.
const WIDTH: f64 = 0.65;
const LINES: f64 = 1.6;

/// No callout is longer, in bytes.
const LONGEST: usize = 200;

impl Note<'_> {
    /// How far a point is from its box.
    pub(super) fn distance(&self, at: [f64; 2]) -> f64 {
        let [x, y] = self.seen_from_middle(at);
        let out = |along: f64, half: f64| (along.abs() - half).max(0.0);
        libm::hypot(out(x, self.half[0]), out(y, self.half[1]))
    }

    /// Half the diagonal of its box.
    pub(super) fn reach(&self) -> f64 {
        libm::hypot(self.half[0], self.half[1])
    }

    /// Left end of its box along its direction, and its height across; what stands in one line has one height.
    pub(super) fn line(&self) -> (f64, f64) {
        let [x, y] = self.middle;
        let [i, j] = self.along;
        (x * i + y * j - self.half[0], y * i - x * j)
    }

    /// Right end of its box along its direction.
    pub(super) fn ends(&self) -> f64 {
        self.line().0 + 2.0 * self.half[0]
    }

    /// True where another one runs in the same direction.
    pub(super) fn runs_as(&self, other: &Self) -> bool {
        let [x, y] = self.along;
        let [i, j] = other.along;
        x * i + y * j > 1.0 - 1e-6
    }

    /// True where it runs from left to right.
    pub(super) fn is_level(&self) -> bool {
        self.along[0] > 1.0 - 1e-6
    }

    /// True where its box stands in a circle.
    pub(super) fn is_inside(&self, center: [f64; 3], radius: f64) -> bool {
        let [x, y] = self.seen_from_middle([center[0], center[1]]);
        libm::hypot(x.abs() + self.half[0], y.abs() + self.half[1]) <= SPILLS * radius
    }

    /// True where it is short enough for the mark of something.
    pub(super) fn may_be_mark(&self) -> bool {
        self.says.chars().count() <= LONGEST_MARK && !speaks_of_hole(self.says)
    }

    fn seen_from_middle(&self, at: [f64; 2]) -> [f64; 2] {
        let (x, y) = (at[0] - self.middle[0], at[1] - self.middle[1]);
        let [i, j] = self.along;
        [x * i + y * j, y * i - x * j]
    }
}

/// Letters may be wider than they are taken to be.
const SPILLS: f64 = 1.1;

/// Letters of the longest mark.
const LONGEST_MARK: usize = 6;

/// True where a text reads as a hole's callout: it has a diameter sign, or a thread, or a size with words.
pub(crate) fn speaks_of_hole(says: &str) -> bool {
    if says.len() > LONGEST || !says.contains(|sign: char| sign.is_ascii_digit()) {
        return false;
    }
    if says.contains(DIAMETER) {
        return true;
    }
    let words = || says.split(|sign: char| sign.is_whitespace() || sign == '(' || sign == '-');
    let is_thread = |word: &str| {
        let mut signs = word.chars();
        signs.next() == Some('M') && signs.next().is_some_and(|sign| sign.is_ascii_digit())
    };
    if words().any(is_thread) {
        return true;
    }
    let has_word = words().any(|word| word.len() > 1 && word.chars().all(char::is_alphabetic));
    has_word
        && [Unit::Mm, Unit::Inch]
            .iter()
            .any(|unit| split(says, *unit).is_some())
}

/// True where a text says something of holes that no single one of them is beside: `ALL HOLES ±0.01, 12 DEEP`.
pub(super) fn speaks_of_holes(says: &str) -> bool {
    if says.len() > LONGEST || !says.contains(|sign: char| sign.is_ascii_digit()) {
        return false;
    }
    let capitals = says.to_uppercase();
    OF_HOLES.iter().any(|word| capitals.contains(word))
}

/// Words by which a note speaks of holes, or of how deep they are; common practice, no source.
const OF_HOLES: [&str; 11] = [
    "HOLE", "DEEP", "THICK", "BOHR", "TIEF", "DICKE", "TROU", "PROFOND", "PAISS", "AGUJERO", "FORO",
];

/// Signs that are written for a diameter.
pub(crate) const DIAMETER: [char; 6] = [
    '\u{2300}', '\u{2205}', '\u{d8}', '\u{f8}', '\u{3c6}', '\u{3a6}',
];

/// The numbers of a text.
pub(super) fn numbers(says: &str) -> Vec<f64> {
    let number = |sign: char| sign.is_ascii_digit() || sign == '.' || sign == ',';
    says.split(|sign| !number(sign))
        .filter_map(|part| {
            let part = part.replace(',', ".");
            part.trim_end_matches('.').parse::<f64>().ok()
        })
        .collect()
}

/// True where one of a text's numbers is this length, to the digits that callouts have.
pub(super) fn named(numbers: &[f64], length: f64) -> bool {
    numbers
        .iter()
        .any(|number| (number - length).abs() <= NAMED * length)
}

/// A callout may be rounded by so much.
const NAMED: f64 = 0.02;
