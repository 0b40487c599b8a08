//! A text as a two-dimensional code (ISO/IEC 18004), drawn as lines on the page.

use qrcode::{Color, EcLevel, QrCode};

use crate::page::{Ink, Page, Path, Step, Stroke, mm};

/// The side that a symbol has at least, so that any telephone reads it off a dirty sheet [mm].
const LEAST_SIDE: f64 = 14.0;
/// A dot of a printer of 600 dpi [pt]: modules are whole dots wide.
const DOT: f64 = 72.0 / 600.0;
/// Modules of the largest symbol that the foot has room for: version 4.
const MOST: usize = 33;
/// White modules around a symbol (ISO/IEC 18004).
const QUIET: f64 = 4.0;

/// A code ready to be set.
#[derive(Clone, Debug, PartialEq)]
pub struct DrawnCode {
    across: usize,
    module: f64,
    dark: Vec<bool>,
}

impl DrawnCode {
    /// The code of a text, corrected as strongly as its smallest symbol allows and never less than
    /// by level M; `None` where the text is too long for the foot of a sheet.
    #[must_use]
    pub fn new(text: &str) -> Option<Self> {
        let at = |level| QrCode::with_error_correction_level(text, level).ok();
        let least = at(EcLevel::M)?;
        let across = least.width();
        if across > MOST {
            return None;
        }
        let same = |code: &QrCode| code.width() == across;
        let code = at(EcLevel::H)
            .filter(same)
            .or_else(|| at(EcLevel::Q).filter(same))
            .unwrap_or(least);
        let module = (mm(LEAST_SIDE) / across as f64 / DOT).ceil() * DOT;
        Some(Self {
            across,
            module,
            dark: code
                .into_colors()
                .into_iter()
                .map(|color| color == Color::Dark)
                .collect(),
        })
    }

    /// The same code with modules of so many points, where there is more room than in a foot.
    #[must_use]
    pub fn modules_of(self, module: f64) -> Self {
        Self { module, ..self }
    }

    /// Its side without the white around it, in points.
    #[must_use]
    pub fn side(&self) -> f64 {
        self.module * self.across as f64
    }

    /// Width of the white that has to be around it, in points.
    #[must_use]
    pub fn quiet(&self) -> f64 {
        self.module * QUIET
    }

    /// Draws it, its first module's upper left corner at `at`: a line as thick as a module for each run of dark
    /// modules in a row, which takes half of the bytes of rectangles on every page.
    pub fn set(&self, page: &mut Page, at: (f64, f64)) {
        let mut steps = Vec::new();
        for (row, dark) in self.dark.chunks(self.across).enumerate() {
            let middle = at.1 + self.module * (row as f64 + 0.5);
            let mut column = 0;
            for run in dark.chunk_by(|a, b| a == b) {
                let left = at.0 + self.module * column as f64;
                column += run.len();
                let right = at.0 + self.module * column as f64;
                if run.first() == Some(&true) {
                    steps.extend([Step::Move(left, middle), Step::Line(right, middle)]);
                }
            }
        }
        page.path(Path {
            steps,
            stroke: Some(Stroke::new(self.module, Ink::Text)),
            ..Path::default()
        });
    }
}
