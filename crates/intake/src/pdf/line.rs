//! A line of text on a page.

use super::letters::turned_deg;
use super::seen::TextLine;

/// A line of text, its lengths along and across its direction.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Line {
    pub(super) text: String,
    /// Unit vector of its direction; y goes down.
    pub(super) along: [f64; 2],
    /// Where it begins and ends along its direction.
    pub(super) from: f64,
    pub(super) to: f64,
    /// Where its base line lies across, down from where it points.
    pub(super) base: f64,
    /// Size of its letters.
    pub(super) size: f64,
    /// How far what stands in it goes above and below, across.
    pub(super) top: f64,
    pub(super) bottom: f64,
    pub(super) marks: Marks,
}

/// What is to be known of letters beside what they say.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Marks {
    /// Neither filled nor stroked.
    pub(super) is_unseen: bool,
    /// A sign that only the font's name tells.
    pub(super) sign_by_font: bool,
    /// No meaning in the file.
    pub(super) no_letter: bool,
}

impl Marks {
    /// What is to be known of both.
    pub(super) const fn and(self, other: Self) -> Self {
        Self {
            is_unseen: self.is_unseen || other.is_unseen,
            sign_by_font: self.sign_by_font || other.sign_by_font,
            no_letter: self.no_letter || other.no_letter,
        }
    }
}

/// How far its box goes below and above its base line, in parts of its letters' size.
pub(super) const BELOW: f64 = 0.25;
pub(super) const ABOVE: f64 = 0.75;

/// The lines by direction, base line and place.
pub(super) fn in_order(lines: &[Line]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..lines.len()).collect();
    order.sort_by(|a, b| {
        let [one, other] = [a, b].map(|at| &lines[*at]);
        one.way()
            .cmp(&other.way())
            .then(one.base.total_cmp(&other.base))
            .then(one.from.total_cmp(&other.from))
    });
    order
}

impl Line {
    /// Its direction, so rounded that lines of one direction have the same.
    pub(super) fn way(&self) -> [i64; 2] {
        self.along.map(|part| (part * 1e4).round() as i64)
    }

    /// As it is told.
    pub(super) fn seen(&self) -> TextLine {
        TextLine {
            text: self.text.clone(),
            place: self.place(),
            turned_deg: turned_deg(self.along),
        }
    }

    /// Left, top, right, bottom of the box around it.
    pub(super) fn place(&self) -> [f64; 4] {
        let [i, j] = self.along;
        let mut place = [
            f64::INFINITY,
            f64::INFINITY,
            f64::NEG_INFINITY,
            f64::NEG_INFINITY,
        ];
        for u in [self.from, self.to] {
            for v in [self.top, self.bottom] {
                let (x, y) = (u * i - v * j, u * j + v * i);
                place = around(place, [x, y, x, y]);
            }
        }
        place
    }

    /// Takes another's place along and across, and what is to be known of it.
    pub(super) fn take(&mut self, other: &Self) {
        self.to = self.to.max(other.to);
        self.top = self.top.min(other.top);
        self.bottom = self.bottom.max(other.bottom);
        self.marks = self.marks.and(other.marks);
    }

    /// Middle along its direction.
    pub(super) fn middle(&self) -> f64 {
        (self.from + self.to) / 2.0
    }
}

/// The box around two.
pub(super) fn around(one: [f64; 4], other: [f64; 4]) -> [f64; 4] {
    [
        one[0].min(other[0]),
        one[1].min(other[1]),
        one[2].max(other[2]),
        one[3].max(other[3]),
    ]
}

/// The lines whose middle lies on the page, from its top, and how many others there are.
pub(super) fn within(lines: Vec<Line>, width: f64, height: f64) -> (Vec<Line>, usize) {
    let all = lines.len();
    let mut placed: Vec<([f64; 4], Line)> = lines
        .into_iter()
        .map(|line| (line.place(), line))
        .filter(|([left, top, right, bottom], _)| {
            (0.0..=width).contains(&((left + right) / 2.0))
                && (0.0..=height).contains(&((top + bottom) / 2.0))
        })
        .collect();
    placed.sort_by(|(a, one), (b, other)| {
        a[1].total_cmp(&b[1])
            .then(a[0].total_cmp(&b[0]))
            .then_with(|| one.text.cmp(&other.text))
    });
    let off = all - placed.len();
    (placed.into_iter().map(|(_, line)| line).collect(), off)
}
