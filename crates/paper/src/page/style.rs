//! How texts and lines look: ink, face and size, stroke.

use super::font::Face;
use super::sign;

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
    /// A color of its own, as a logo has: red, green, blue, the same in every look.
    Own([u8; 3]),
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
            Self::Own(color) => color.map(|part| f64::from(part) / 255.0),
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
        if !text.contains(sign::is_drawn) {
            return self.face.measure(text, self.size);
        }
        text.chars()
            .map(|ch| match sign::width(ch, self.size) {
                Some(width) => width,
                None => self.face.measure(ch.encode_utf8(&mut [0; 4]), self.size),
            })
            .sum()
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
