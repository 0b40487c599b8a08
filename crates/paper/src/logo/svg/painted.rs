//! An SVG as pixels: what has gradients, is partly transparent, or is cut by other shapes.

use resvg::tiny_skia::Pixmap;
use resvg::usvg::{ClipPath, Group, Mask, Node, Path, Rect, Transform, Tree};

use super::outlines::{dashes, joined};
use crate::logo::fault::LogoFault;
use crate::logo::pixels::{self, finest};
use crate::page::Pixels;

/// How fine it is painted [pixels per inch].
const FINE: f64 = 600.0;
/// Most strokes of the brush, and most pixels that all of them cover.
const MOST_STROKES: u32 = 1_000;
const MOST_COVERED: f64 = 150e6;
/// Most sheets that are held over one another while it is painted.
const MOST_LAYERS: u32 = 8;
/// Most dashes of one line.
const MOST_DASHES: f32 = 20_000.0;
/// How far from the edges something may lie, in sizes of the whole.
const FARTHEST: f32 = 10.0;

/// The pixels of a tree.
pub(super) fn of(tree: &Tree) -> Result<Pixels, LogoFault> {
    let size = tree.size();
    let view = Rect::from_xywh(0.0, 0.0, size.width(), size.height()).ok_or(LogoFault::NoSize)?;
    let mut painting = Painting {
        view,
        strokes: 0,
        covered: 0.0,
        bounds: None,
    };
    painting.group(tree.root(), Transform::identity(), 0)?;
    let bounds = painting.bounds.ok_or(LogoFault::Blank)?;
    let seen = common(bounds, view).ok_or(LogoFault::Blank)?;
    let (wide, high) = finest(FINE);
    let scale = (wide / f64::from(seen.width())).min(high / f64::from(seen.height()));
    if painting.covered * scale * scale > MOST_COVERED {
        return Err(LogoFault::TooMuch);
    }
    let pixels = |length: f32| ((f64::from(length) * scale).round() as u32).max(1);
    let (width, height) = (pixels(seen.width()), pixels(seen.height()));
    let mut sheet = Pixmap::new(width, height).ok_or(LogoFault::TooMuch)?;
    // Whole pixels each way, so that no edge is paler than what it bounds.
    let across = width as f32 / seen.width();
    let down = height as f32 / seen.height();
    let place = Transform::from_translate(-seen.left(), -seen.top()).post_scale(across, down);
    resvg::render(tree, place, &mut sheet.as_mut());
    // The colors come multiplied by their opacity.
    let rgb = sheet.data().chunks_exact(4).flat_map(|pixel| {
        let white = 255 - pixel[3];
        [0, 1, 2].map(|part| pixel[part].saturating_add(white))
    });
    pixels::tidy(width as usize, &rgb.collect::<Vec<u8>>())
}

/// Counts what it takes to paint a tree, before anything is painted.
struct Painting {
    view: Rect,
    strokes: u32,
    /// The areas of all strokes, one upon the other.
    covered: f64,
    /// All that is painted, clips and masks aside.
    bounds: Option<Rect>,
}

impl Painting {
    fn group(&mut self, group: &Group, around: Transform, layers: u32) -> Result<(), LogoFault> {
        let transform = around.pre_concat(group.transform());
        let mut layers = layers;
        if group.should_isolate() {
            layers += 1;
            self.strokes += 1;
        }
        if self.strokes > MOST_STROKES || layers > MOST_LAYERS {
            return Err(LogoFault::TooMuch);
        }
        let others = self.bounds.take();
        for child in group.children() {
            match child {
                Node::Group(below) => self.group(below, transform, layers)?,
                Node::Path(shape) => self.shape(shape, transform)?,
                Node::Image(_) | Node::Text(_) => {}
            }
        }
        let own = self.bounds;
        if group.should_isolate() {
            // A sheet for the group, cut, and laid over what was there.
            self.cover(own, 3.0);
        }
        if let Some(clip) = group.clip_path() {
            self.clip(clip, transform, own, layers)?;
        }
        if let Some(mask) = group.mask() {
            self.mask(mask, transform, own, layers)?;
        }
        self.bounds = both(others, own);
        Ok(())
    }

    /// Counts what covers an area, as far as sheets reach beyond what is seen.
    fn cover(&mut self, bounds: Option<Rect>, times: f64) {
        let (view, width, height) = (self.view, self.view.width(), self.view.height());
        let sheet = Rect::from_ltrb(
            view.left() - 2.0 * width,
            view.top() - 2.0 * height,
            view.right() + 2.0 * width,
            view.bottom() + 2.0 * height,
        );
        let on_sheet = bounds
            .zip(sheet)
            .and_then(|(bounds, sheet)| common(bounds, sheet));
        self.covered += on_sheet.map_or(0.0, |on_sheet| {
            times * f64::from(on_sheet.width()) * f64::from(on_sheet.height())
        });
    }

    fn shape(&mut self, shape: &Path, transform: Transform) -> Result<(), LogoFault> {
        self.strokes += 1;
        let dashes = shape.stroke().map_or(0.0, |stroke| dashes(shape, stroke));
        let bounds = shape.stroke_bounding_box().transform(transform);
        let bounds = bounds.ok_or(LogoFault::TooMuch)?;
        // Far from all that is seen, the library's numbers run over.
        let far = self.view.width().max(self.view.height()) * FARTHEST;
        let is_near = bounds.left() > self.view.left() - far
            && bounds.top() > self.view.top() - far
            && bounds.right() < self.view.right() + far
            && bounds.bottom() < self.view.bottom() + far;
        if dashes > MOST_DASHES || !is_near {
            return Err(LogoFault::TooMuch);
        }
        self.cover(Some(bounds), 2.0);
        self.bounds = both(self.bounds, Some(bounds));
        Ok(())
    }

    /// A clip is painted as a group of its own, as large as what it cuts; so is the clip that cuts it.
    fn clip(
        &mut self,
        clip: &ClipPath,
        around: Transform,
        cut: Option<Rect>,
        layers: u32,
    ) -> Result<(), LogoFault> {
        self.strokes += 1;
        self.cover(cut, 3.0);
        let transform = around.pre_concat(clip.transform());
        self.group(clip.root(), transform, layers + 1)?;
        clip.clip_path()
            .map_or(Ok(()), |clip| self.clip(clip, around, cut, layers + 1))
    }

    /// A mask goes the same way.
    fn mask(
        &mut self,
        mask: &Mask,
        around: Transform,
        cut: Option<Rect>,
        layers: u32,
    ) -> Result<(), LogoFault> {
        self.strokes += 1;
        self.cover(cut, 5.0);
        self.group(mask.root(), around, layers + 1)?;
        mask.mask()
            .map_or(Ok(()), |mask| self.mask(mask, around, cut, layers + 1))
    }
}

/// The rectangle around what there is of two.
fn both(one: Option<Rect>, two: Option<Rect>) -> Option<Rect> {
    match (one, two) {
        (Some(one), Some(two)) => Some(joined(one, two)),
        (one, two) => one.or(two),
    }
}

/// What two rectangles have in common.
fn common(one: Rect, two: Rect) -> Option<Rect> {
    Rect::from_ltrb(
        one.left().max(two.left()),
        one.top().max(two.top()),
        one.right().min(two.right()),
        one.bottom().min(two.bottom()),
    )
}
