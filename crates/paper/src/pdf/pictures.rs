//! Pictures as the engine takes them, each once, however many pages it stands on.

use std::collections::BTreeMap;
use std::hash::{Hash, Hasher};
use std::sync::Arc;

use krilla::image::{BitsPerComponent, CustomImage, Image, ImageColorspace};

use crate::page::Pixels;

/// The pictures that were put on a page.
#[derive(Default)]
pub(super) struct Pictures(BTreeMap<String, Image>);

impl Pictures {
    /// The picture for these pixels; none where they make no picture.
    pub(super) fn of(&mut self, pixels: &Pixels) -> Option<Image> {
        let key = pixels.hash().to_string();
        if let Some(known) = self.0.get(&key) {
            return Some(known.clone());
        }
        let image = Image::from_custom(Rows::of(pixels)?, false).ok()?;
        self.0.insert(key, image.clone());
        Some(image)
    }
}

/// Rows of pixels: gray ones as gray, which a printer needs no colors for.
#[derive(Clone)]
struct Rows {
    bytes: Arc<Vec<u8>>,
    size: (u32, u32),
    is_gray: bool,
    known_by: String,
}

impl Rows {
    fn of(pixels: &Pixels) -> Option<Self> {
        let (bytes, is_gray) = match pixels.gray() {
            Some(gray) => (gray, true),
            None => (pixels.rgb().to_vec(), false),
        };
        let side = |side: usize| u32::try_from(side).ok().filter(|side| *side > 0);
        Some(Self {
            bytes: Arc::new(bytes),
            size: (side(pixels.width())?, side(pixels.height())?),
            is_gray,
            known_by: pixels.hash().to_string(),
        })
    }
}

impl Hash for Rows {
    fn hash<H: Hasher>(&self, state: &mut H) {
        self.known_by.hash(state);
    }
}

impl CustomImage for Rows {
    fn color_channel(&self) -> &[u8] {
        &self.bytes
    }

    fn alpha_channel(&self) -> Option<&[u8]> {
        None
    }

    fn bits_per_component(&self) -> BitsPerComponent {
        BitsPerComponent::Eight
    }

    fn size(&self) -> (u32, u32) {
        self.size
    }

    fn icc_profile(&self) -> Option<&[u8]> {
        None
    }

    fn color_space(&self) -> ImageColorspace {
        if self.is_gray {
            ImageColorspace::Luma
        } else {
            ImageColorspace::Rgb
        }
    }
}
