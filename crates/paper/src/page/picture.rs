//! Pictures on a page: rows of pixels in a box.

use std::sync::Arc;

use quillbore_job::file::{Hash, hash};

/// Pixels in a box on a page.
#[derive(Clone, Debug, PartialEq)]
pub struct Picture {
    /// Upper left corner, in points.
    pub at: (f64, f64),
    /// Width and height, in points.
    pub size: (f64, f64),
    /// What is in it.
    pub pixels: Arc<Pixels>,
}

/// Rows of pixels from the top, each red, green, blue; white is the sheet.
#[derive(Clone, PartialEq, Eq)]
pub struct Pixels {
    width: usize,
    rgb: Vec<u8>,
    hash: Hash,
}

impl Pixels {
    /// Pixels in rows of `width`; what would make no whole row is left out.
    #[must_use]
    pub fn new(width: usize, mut rgb: Vec<u8>) -> Self {
        let row = width.max(1) * 3;
        rgb.truncate(rgb.len() / row * row);
        let whole = [(width as u64).to_be_bytes().as_slice(), &rgb].concat();
        let hash = hash(&whole);
        Self { width, rgb, hash }
    }

    /// Pixels in a row.
    #[must_use]
    pub fn width(&self) -> usize {
        self.width
    }

    /// Rows.
    #[must_use]
    pub fn height(&self) -> usize {
        self.rgb.len() / (self.width.max(1) * 3)
    }

    /// Red, green and blue of each pixel.
    #[must_use]
    pub fn rgb(&self) -> &[u8] {
        &self.rgb
    }

    /// What size and colors are known by, the same in every run.
    #[must_use]
    pub fn hash(&self) -> Hash {
        self.hash
    }

    /// The gray of each pixel, where none has a color.
    #[must_use]
    pub fn gray(&self) -> Option<Vec<u8>> {
        let pixels = self.rgb.chunks_exact(3);
        pixels
            .map(|pixel| (pixel[0] == pixel[1] && pixel[1] == pixel[2]).then_some(pixel[0]))
            .collect()
    }
}

impl std::fmt::Debug for Pixels {
    /// Size and hash: thousands of numbers tell nobody anything.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let (width, height) = (self.width(), self.height());
        write!(f, "Pixels({width} x {height} {})", self.hash)
    }
}
