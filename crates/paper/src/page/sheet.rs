//! Sheets and the unit of the page model: points (1/72 in) from the upper left corner, y down.

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
    /// Letter, or A4 where a shop doesn't print on that.
    #[must_use]
    pub const fn of(on_letter: bool) -> Self {
        if on_letter { Self::Letter } else { Self::A4 }
    }

    /// Width and height in points.
    pub fn size(self) -> (f64, f64) {
        match self {
            Self::A4 => (mm(210.0), mm(297.0)),
            Self::Letter => (612.0, 792.0),
        }
    }
}
