//! The sink that draws a page by the engine.

use krilla::color::rgb;
use krilla::geom::{PathBuilder, Point, Size, Transform};
use krilla::num::NormalizedF32;
use krilla::paint::{Fill, FillRule, Stroke as EngineStroke, StrokeDash};
use krilla::surface::Surface;

use super::fonts::{Fonts, glyphs};
use super::pictures::Pictures;
use super::tags::Tags;
use crate::page::{
    Ink, Path, Picture, Role, Rule, Sheet, Sink, Step, StraightLine, Stroke, TextRun,
};

/// Draws one page, and tells its structure what is drawn.
pub(super) struct PageSink<'a, 's> {
    pub(super) surface: &'a mut Surface<'s>,
    pub(super) fonts: &'a Fonts,
    pub(super) pictures: &'a mut Pictures,
    pub(super) tags: &'a mut Tags,
    /// Where the text before ended that belongs to the same part.
    pub(super) last_end: Option<(f64, f64)>,
}

impl PageSink<'_, '_> {
    /// Ends the page.
    pub(super) fn finish(self) {
        self.tags.close(self.surface);
    }

    fn draw(&mut self, steps: &[Step], fill: Option<Fill>, stroke: Option<Stroke>) {
        let mut builder = PathBuilder::new();
        for step in steps {
            match *step {
                Step::Move(x, y) => builder.move_to(point(x), point(y)),
                Step::Line(x, y) => builder.line_to(point(x), point(y)),
                Step::Curve(a, b, end) => builder.cubic_to(
                    point(a.0),
                    point(a.1),
                    point(b.0),
                    point(b.1),
                    point(end.0),
                    point(end.1),
                ),
                Step::Close => builder.close(),
            }
        }
        let Some(path) = builder.finish() else {
            return;
        };
        self.tags.drawing(self.surface);
        self.surface.set_fill(fill);
        self.surface.set_stroke(stroke.map(pen));
        self.surface.draw_path(&path);
    }
}

impl Sink for PageSink<'_, '_> {
    fn page(&mut self, _sheet: Sheet, _number: usize, _of: usize) {}

    fn text(&mut self, run: &TextRun) {
        let style = run.style;
        self.tags.text(point(run.y - style.size), self.surface);
        self.surface.set_stroke(None);
        self.surface.set_fill(Some(fill(style.ink)));
        // Words that only stand apart are read as one: a space between them is a character, too.
        let goes_on = |(x, y): (f64, f64)| (x - run.x).abs() < 0.05 && (y - run.y).abs() < 0.05;
        let is_apart = self.last_end.is_some_and(|end| !goes_on(end));
        self.last_end = Some((run.right(), run.y));
        let (text, x) = if is_apart {
            (format!(" {}", run.text), run.x - style.measure(" "))
        } else {
            (run.text.clone(), run.x)
        };
        let (glyphs, text) = glyphs(style.face, &text);
        let at = Point::from_xy(point(x), point(run.y));
        let font = self.fonts.of(style.face);
        self.surface
            .draw_glyphs(at, &glyphs, font, &text, point(style.size), false);
    }

    fn line(&mut self, line: &StraightLine) {
        let steps = [
            Step::Move(line.from.0, line.from.1),
            Step::Line(line.to.0, line.to.1),
        ];
        self.draw(&steps, None, Some(line.stroke));
    }

    fn path(&mut self, path: &Path) {
        if path.fill.is_none() && path.stroke.is_none() {
            return;
        }
        let rule = match path.rule {
            Rule::EvenOdd => FillRule::EvenOdd,
            Rule::NonZero => FillRule::NonZero,
        };
        let fill = path.fill.map(|ink| Fill { rule, ..fill(ink) });
        self.draw(&path.steps, fill, path.stroke);
    }

    fn picture(&mut self, picture: &Picture) {
        let Picture { at, size, pixels } = picture;
        let size = Size::from_wh(point(size.0), point(size.1));
        let (Some(size), Some(image)) = (size, self.pictures.of(pixels)) else {
            return;
        };
        self.tags.drawing(self.surface);
        let place = Transform::from_translate(point(at.0), point(at.1));
        self.surface.push_transform(&place);
        self.surface.draw_image(image, size);
        self.surface.pop();
    }

    fn begin(&mut self, role: &Role) {
        if !matches!(role, Role::Sign(_)) {
            self.last_end = None;
        }
        self.tags.begin(role, self.surface);
    }

    fn end(&mut self) {
        if !self.tags.is_sign() {
            self.last_end = None;
        }
        self.tags.end(self.surface);
    }
}

/// Points as the engine takes them, rounded to a hundredth so that numbers stay short.
#[expect(clippy::cast_possible_truncation, reason = "the engine stores f32")]
fn point(points: f64) -> f32 {
    ((points * 100.0).round() / 100.0) as f32
}

fn fill(ink: Ink) -> Fill {
    Fill {
        paint: color(ink).into(),
        opacity: NormalizedF32::ONE,
        rule: FillRule::NonZero,
    }
}

fn pen(stroke: Stroke) -> EngineStroke {
    EngineStroke {
        paint: color(stroke.ink).into(),
        width: point(stroke.width),
        dash: stroke.dash.map(|(dash, gap)| StrokeDash {
            array: vec![point(dash), point(gap)],
            offset: 0.0,
        }),
        ..EngineStroke::default()
    }
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a share of one becomes a byte"
)]
fn color(ink: Ink) -> rgb::Color {
    let [red, green, blue] = ink
        .on_paper()
        .map(|part| (part.clamp(0.0, 1.0) * 255.0).round() as u8);
    rgb::Color::new(red, green, blue)
}
