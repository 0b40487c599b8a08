//! The shop's logo as papers draw it: outlines where that can be, else pixels.
//!
//! Whatever is white at its edges is cut off, so that a logo in the corner of a large sheet is as
//! large as any other.

mod fault;
mod pixels;
mod png;
mod remembered;
mod svg;

use std::sync::Arc;

use quillbore_job::shop::{Logo, LogoKind};

pub use fault::{LogoFault, MOST_PIXELS, Thing};

use crate::page::{Ink, Page, Path, Picture, Pixels, Step};

/// Most width and height that a logo has on a paper [mm].
pub const BOX_MM: (f64, f64) = (40.0, 14.0);

/// A logo that was read, in units of its own from its upper left corner.
#[derive(Clone, Debug, PartialEq)]
pub struct DrawnLogo {
    size: (f64, f64),
    art: Art,
}

#[derive(Clone, Debug, PartialEq)]
enum Art {
    Outlines(Vec<Path>),
    Picture(Arc<Pixels>),
}

impl DrawnLogo {
    /// The logo made ready to be drawn; the one that was asked for last is remembered.
    ///
    /// # Errors
    /// Where it can't be drawn.
    pub fn of(logo: &Logo) -> Result<Arc<Self>, LogoFault> {
        remembered::of(logo.hash(), || Self::read(logo))
    }

    /// The logo made ready to be drawn.
    ///
    /// # Errors
    /// Where it can't be drawn.
    pub fn read(logo: &Logo) -> Result<Self, LogoFault> {
        match logo.kind() {
            LogoKind::Png => Ok(Self::picture(png::read(logo.bytes())?)),
            LogoKind::Svg => svg::read(logo.bytes()),
        }
    }

    fn picture(pixels: Pixels) -> Self {
        Self {
            size: (pixels.width() as f64, pixels.height() as f64),
            art: Art::Picture(Arc::new(pixels)),
        }
    }

    /// Whether it is drawn by outlines, which stay sharp at any size.
    #[must_use]
    pub fn is_outlines(&self) -> bool {
        matches!(self.art, Art::Outlines(_))
    }

    /// Width and height that it has in a box of `most`, with its own proportions, in points.
    #[must_use]
    pub fn fitted(&self, most: (f64, f64)) -> (f64, f64) {
        let scale = self.scale(most);
        (self.size.0 * scale, self.size.1 * scale)
    }

    /// Draws it as large as it fits into a box of `most` with its upper left corner at `at`.
    pub fn set(&self, page: &mut Page, at: (f64, f64), most: (f64, f64)) {
        let scale = self.scale(most);
        match &self.art {
            Art::Outlines(paths) => {
                for path in paths {
                    page.path(placed(path, at, scale));
                }
            }
            Art::Picture(pixels) => page.picture(Picture {
                at,
                size: self.fitted(most),
                pixels: Arc::clone(pixels),
            }),
        }
    }

    fn scale(&self, most: (f64, f64)) -> f64 {
        (most.0 / self.size.0).min(most.1 / self.size.1)
    }
}

fn placed(path: &Path, at: (f64, f64), scale: f64) -> Path {
    let to = |(x, y): (f64, f64)| (at.0 + x * scale, at.1 + y * scale);
    let steps = path.steps.iter().map(|step| match *step {
        Step::Move(x, y) => {
            let (x, y) = to((x, y));
            Step::Move(x, y)
        }
        Step::Line(x, y) => {
            let (x, y) = to((x, y));
            Step::Line(x, y)
        }
        Step::Curve(one, two, end) => Step::Curve(to(one), to(two), to(end)),
        Step::Close => Step::Close,
    });
    Path {
        steps: steps.collect(),
        ..path.clone()
    }
}

/// Whether a color is as good as white, so that nobody sees it on a sheet.
fn is_white(rgb: &[u8]) -> bool {
    rgb.iter().all(|part| *part >= 250)
}

/// Whether an outline is as good as white.
fn is_white_path(path: &Path) -> bool {
    matches!(path.fill, Some(Ink::Own(rgb)) if is_white(&rgb))
}
