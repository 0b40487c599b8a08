//! A page as a picture.

use hayro::hayro_interpret::InterpreterSettings;
use hayro::vello_cpu::color::palette::css::WHITE;
use hayro::{PixmapSettings, RenderCache, RenderSettings, render};

use super::error::PdfError;
use super::guard::Pictures;
use super::letters::Letters;
use super::open::Open;
use super::walk::Walk;

/// A page as pixels.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Picture {
    /// Pixels from left to right.
    pub width: u32,
    /// Pixels from top to bottom.
    pub height: u32,
    /// Red, green, blue and opacity of each, from the upper left; all are opaque.
    pub rgba: Vec<u8>,
    /// Pictures of the file that are too large to be shown, and are not in it.
    pub left_out: usize,
}

/// The widest and highest picture.
const LONGEST: f64 = 16_000.0;

/// Each letter and line that is painted is held until all are: a kilobyte and more.
const MOST_DRAWN: usize = 150_000;

/// Each pixel along a line takes some fifteen bytes until all are painted.
const MOST_WAY: f64 = 2e7;

/// Pictures of a page have no more pixels in all: a large sheet, finely scanned in colors.
const MOST_PIXELS: f64 = 1.2e8;

/// Paints a page, from 0, on white, with at most so many pixels; `cancel` is asked before it is painted, not while.
///
/// # Errors
/// As [`super::read`], and where the file has no such page or too much is drawn on it.
pub fn picture(
    bytes: &[u8],
    page: usize,
    most_pixels: u32,
    cancel: &dyn Fn() -> bool,
) -> Result<Picture, PdfError> {
    let open = Open::new(bytes, Pictures::Kept, cancel)?;
    let shown = open.pages().get(page).ok_or(PdfError::NoSuchPage(page))?;
    // What is drawn again and again by forms in forms is counted before it is painted.
    let mut letters = Letters::new(usize::MAX);
    let found = Walk::new(&open, bytes.len(), cancel).page(shown, &mut letters)?;
    drop(letters);
    if found.is_cut || found.letters + found.strokes > MOST_DRAWN {
        return Err(PdfError::TooMuchDrawn);
    }
    if cancel() {
        return Err(PdfError::Cancelled);
    }
    let (width, height) = shown.render_dimensions();
    let area = f64::from(width) * f64::from(height);
    let longest = f64::from(width.max(height));
    let scale = libm::sqrt(f64::from(most_pixels) / area).min(LONGEST / longest);
    let scale = scale as f32;
    let is_much = found.ink.longest * f64::from(scale) > LONGEST
        || found.ink.way * f64::from(scale) > MOST_WAY
        || found.ink.pixels > MOST_PIXELS;
    if is_much || !(width * scale >= 1.0 && height * scale >= 1.0) {
        return Err(PdfError::TooMuchDrawn);
    }
    let pixels = render(
        shown,
        &RenderCache::new(),
        &InterpreterSettings::default(),
        &RenderSettings {
            // Letters that are kept to be painted again are placed by sums that can overflow.
            glyph_caching: false,
            ..RenderSettings::default()
        },
        &PixmapSettings {
            x_scale: scale,
            y_scale: scale,
            bg_color: WHITE,
        },
    );
    Ok(Picture {
        width: pixels.width().into(),
        height: pixels.height().into(),
        rgba: pixels.data_as_u8_slice().to_vec(),
        left_out: open.left_out,
    })
}
