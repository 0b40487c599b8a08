//! Paints a page's picture of pixels: sent to the screen's memory once, as long as no other comes.

use egui::{
    Color32, ColorImage, Id, Painter, Rect, TextureFilter, TextureHandle, TextureOptions, pos2,
};
use quillbore_job::file::Hash;
use quillbore_paper::page::Pixels;

/// Paints pixels into a rectangle.
pub(super) fn paint(painter: &Painter, rect: Rect, pixels: &Pixels) {
    let whole = Rect::from_min_max(pos2(0.0, 0.0), pos2(1.0, 1.0));
    let texture = texture(painter.ctx(), pixels);
    painter.image(texture.id(), rect, whole, Color32::WHITE);
}

/// The texture of pixels; the one that was painted last is kept.
fn texture(ctx: &egui::Context, pixels: &Pixels) -> TextureHandle {
    let kept = Id::unique("the picture on papers");
    let hash = pixels.hash();
    let last: Option<(Hash, TextureHandle)> = ctx.data(|data| data.get_temp(kept));
    if let Some((_, texture)) = last.filter(|(known, _)| *known == hash) {
        return texture;
    }
    let image = ColorImage::from_rgb([pixels.width(), pixels.height()], pixels.rgb());
    // A picture has far more pixels than its place on the screen.
    let smooth = TextureOptions {
        mipmap_mode: Some(TextureFilter::Linear),
        ..TextureOptions::LINEAR
    };
    let texture = ctx.load_texture("picture", image, smooth);
    ctx.data_mut(|data| data.insert_temp(kept, (hash, texture.clone())));
    texture
}
