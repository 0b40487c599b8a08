//! The page of a drawing in PDF, painted beside the window.

use egui::{ColorImage, Context, TextureFilter, TextureOptions, Vec2};

use super::App;
use crate::incoming::Shown;
use crate::view::Waiting;
use crate::words::incoming as words;

/// The longer side of a page as it is painted: its small letters can be read.
const LONGER_SIDE: f32 = 2_600.0;

/// How many pixels a page of a size is painted with; a texture has no longer side than `most`.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    clippy::cast_precision_loss,
    reason = "some millions of pixels"
)]
fn pixels(size: Vec2, most: usize) -> u32 {
    // A pixel less on each side, since the painter may round up.
    let longer = LONGER_SIDE.min(most as f32) - 2.0;
    (longer * longer * size.min_elem() / size.max_elem()).max(1.0) as u32
}

impl App {
    /// Has the page painted that stands beside the callouts of a drawing in PDF.
    pub(super) fn paint_page(&mut self, ctx: &Context) {
        let id = self.jobs[self.at].id;
        let Some(Waiting::Pages(offering)) = &mut self.jobs[self.at].view.waiting else {
            return;
        };
        let of = (id, offering.file.path.clone(), offering.page);
        let side = ctx.input(|input| input.max_texture_side);
        let is_painting = self
            .incoming
            .painting
            .as_ref()
            .is_some_and(|(is, _)| *is == of);
        if offering.shown == Shown::Painting && !is_painting {
            // Another job's page took its place.
            offering.shown = Shown::Wanted;
        }
        if offering.shown == Shown::Wanted {
            let pixels = offering.size().map_or(1, |size| pixels(size, side));
            let painting = self.incoming.readers.paint(of.1.clone(), of.2, pixels);
            self.incoming.painting = Some((of.clone(), painting));
            offering.shown = Shown::Painting;
        }
        let Some((_, painting)) = self.incoming.painting.as_ref().filter(|(is, _)| *is == of)
        else {
            return;
        };
        let Some(painted) = painting.take() else {
            return;
        };
        self.incoming.painting = None;
        offering.shown = match painted {
            // The window stops at a texture that is larger than it can show.
            Ok(page) if page.width.max(page.height) as usize > side => {
                Shown::Failed(words::not_shown(""))
            }
            Ok(page) => {
                let size = [page.width, page.height].map(|pixels| pixels as usize);
                let image = ColorImage::from_rgba_unmultiplied(size, &page.rgba);
                let name = format!("page {}", of.2);
                // Without smaller copies fine letters of a whole page would be left out in part.
                let smooth = TextureOptions::LINEAR.with_mipmap_mode(Some(TextureFilter::Linear));
                Shown::Ready(ctx.load_texture(name, image, smooth))
            }
            Err(Some(failure)) => Shown::Failed(words::not_shown(&failure.to_string())),
            Err(None) => Shown::Failed(words::not_shown("")),
        };
    }
}
