//! Paints a page of the page model: the same items that the PDF gets, in the same places.

use egui::epaint::{CubicBezierShape, PathShape, PathStroke};
use egui::{Color32, FontId, Painter, Pos2, Rect, Stroke, pos2};
use quillbore_paper::page::Face;
use quillbore_paper::page::{Ink, Item, Page, Path, Step, Stroke as PaperStroke};

use super::fill::filled;
use super::picture;
use crate::look::{self, Tokens};

/// Paints a page into a rectangle; `scale` is screen points a paper point.
pub fn paint_page(painter: &Painter, rect: Rect, scale: f32, page: &Page) {
    let painter = painter.with_clip_rect(painter.clip_rect().intersect(rect));
    painter.rect_filled(rect, 0.0, on_paper(Ink::Paper));
    paint(&painter, rect, scale, page, on_paper);
}

/// Paints what is drawn on a page straight onto the sheet, in the sheet's own inks.
pub fn paint_picture(painter: &Painter, rect: Rect, scale: f32, page: &Page, t: &'static Tokens) {
    let painter = painter.with_clip_rect(painter.clip_rect().intersect(rect));
    paint(&painter, rect, scale, page, |ink| match ink {
        Ink::Text => t.ink,
        Ink::Quiet => t.pencil,
        Ink::Hair => t.rule,
        Ink::Accent => t.accent,
        Ink::Wash => t.wash,
        Ink::Ghost => t.hairline,
        Ink::Paper => t.paper,
        Ink::Own(_) => on_paper(ink),
    });
}

fn paint(painter: &Painter, rect: Rect, scale: f32, page: &Page, ink: impl Fn(Ink) -> Color32) {
    let place = PagePainter {
        painter,
        origin: rect.min,
        scale,
        ink: &ink,
    };
    for item in &page.items {
        match item {
            Item::Text(run) => {
                let font = FontId::new(run.style.size as f32 * scale, family(run.style.face));
                let galley = painter.layout_no_wrap(run.text.clone(), font, ink(run.style.ink));
                let ascent = galley.rows.first().map_or(0.0, |row| {
                    row.glyphs.first().map_or(0.0, |glyph| glyph.pos.y)
                });
                let at = place.at((run.x, run.y));
                painter.galley(pos2(at.x, at.y - ascent), galley, ink(run.style.ink));
            }
            Item::Line(line) => place.segment(line.from, line.to, line.stroke),
            Item::Path(path) => place.path(path),
            Item::Begin(_) | Item::End => {}
            Item::Picture(picture) => {
                let (left, top) = picture.at;
                let end = (left + picture.size.0, top + picture.size.1);
                let rect = Rect::from_two_pos(place.at(picture.at), place.at(end));
                picture::paint(painter, rect, &picture.pixels);
            }
        }
    }
}

struct PagePainter<'a> {
    painter: &'a Painter,
    origin: Pos2,
    scale: f32,
    ink: &'a dyn Fn(Ink) -> Color32,
}

impl PagePainter<'_> {
    fn at(&self, (x, y): (f64, f64)) -> Pos2 {
        pos2(x as f32, y as f32) * self.scale + self.origin.to_vec2()
    }

    fn stroke(&self, stroke: PaperStroke) -> Stroke {
        let ink = (self.ink)(stroke.ink);
        Stroke::new((stroke.width as f32 * self.scale).max(0.6), ink)
    }

    fn segment(&self, from: (f64, f64), to: (f64, f64), stroke: PaperStroke) {
        let ends = [self.at(from), self.at(to)];
        self.along(&ends, stroke);
    }

    fn along(&self, points: &[Pos2], stroke: PaperStroke) {
        let pen = self.stroke(stroke);
        match stroke.dash {
            Some((dash, gap)) => {
                let (dash, gap) = (dash as f32 * self.scale, gap as f32 * self.scale);
                self.painter
                    .extend(egui::Shape::dashed_line(points, pen, dash, gap));
            }
            None => {
                self.painter
                    .add(PathShape::line(points.to_vec(), PathStroke::from(pen)));
            }
        }
    }

    fn path(&self, path: &Path) {
        let outlines = self.outlines(&path.steps);
        if let Some(fill) = path.fill {
            self.painter
                .add(filled(&outlines, path.rule, (self.ink)(fill)));
        }
        if let Some(stroke) = path.stroke {
            for outline in &outlines {
                self.along(outline, stroke);
            }
        }
    }

    /// The parts of a path as points; curves are flattened.
    fn outlines(&self, steps: &[Step]) -> Vec<Vec<Pos2>> {
        let mut outlines: Vec<Vec<Pos2>> = Vec::new();
        for step in steps {
            match *step {
                Step::Move(x, y) => outlines.push(vec![self.at((x, y))]),
                Step::Line(x, y) => {
                    if let Some(outline) = outlines.last_mut() {
                        outline.push(self.at((x, y)));
                    }
                }
                Step::Curve(one, two, end) => {
                    if let Some(outline) = outlines.last_mut()
                        && let Some(start) = outline.last().copied()
                    {
                        let points = [start, self.at(one), self.at(two), self.at(end)];
                        let curve = CubicBezierShape::from_points_stroke(
                            points,
                            false,
                            Color32::TRANSPARENT,
                            Stroke::NONE,
                        );
                        outline.extend(curve.flatten(Some(0.1)).into_iter().skip(1));
                    }
                }
                Step::Close => {
                    if let Some(outline) = outlines.last_mut()
                        && let Some(first) = outline.first().copied()
                    {
                        outline.push(first);
                    }
                }
            }
        }
        outlines
    }
}

fn family(face: Face) -> egui::FontFamily {
    let [sans, bold, condensed, condensed_bold] = look::paper_families();
    match face {
        Face::Sans => sans,
        Face::SansBold => bold,
        Face::Condensed => condensed,
        Face::CondensedBold => condensed_bold,
    }
}

#[expect(
    clippy::disallowed_methods,
    reason = "the papers' inks are data of the paper crate, the same on screen and in the PDF"
)]
fn on_paper(ink: Ink) -> Color32 {
    let [red, green, blue] = ink.on_paper().map(|part| (part * 255.0).round() as u8);
    Color32::from_rgb(red, green, blue)
}
