//! The sink that turns pages into the engine's operations.

use printpdf::{
    Color, Line as EngineLine, LineDashPattern, LinePoint, Op, PaintMode, PdfFontHandle, Point,
    Polygon, PolygonRing, Rgb, TextItem, WindingOrder, XObjectTransform,
};

use super::fonts::resource;
use super::pictures;
use super::point::point;
use crate::page::{
    Face, Ink, Path, Picture, Rule, Sheet, Sink, Step, StraightLine, Stroke, TextRun,
};

/// Collects the operations of each page and leaves out what is already set.
pub(super) struct OpSink {
    height: f64,
    pages: Vec<Vec<Op>>,
    state: Pen,
}

#[derive(Default)]
struct Pen {
    in_text: bool,
    font: Option<(Face, u64)>,
    fill: Option<Ink>,
    stroke: Option<Stroke>,
}

impl OpSink {
    pub(super) fn new(height: f64) -> Self {
        Self {
            height,
            pages: Vec::new(),
            state: Pen::default(),
        }
    }

    pub(super) fn finish(mut self) -> Vec<Vec<Op>> {
        self.leave_text();
        self.pages
    }

    fn push(&mut self, op: Op) {
        if let Some(page) = self.pages.last_mut() {
            page.push(op);
        }
    }

    fn leave_text(&mut self) {
        if std::mem::take(&mut self.state.in_text) {
            self.push(Op::EndTextSection);
        }
    }

    fn fill(&mut self, ink: Ink) {
        if self.state.fill != Some(ink) {
            self.state.fill = Some(ink);
            self.push(Op::SetFillColor { col: color(ink) });
        }
    }

    fn stroke(&mut self, stroke: Stroke) {
        let before = self.state.stroke.replace(stroke);
        if before.map(|old| old.ink) != Some(stroke.ink) {
            self.push(Op::SetOutlineColor {
                col: color(stroke.ink),
            });
        }
        if before.map(|old| old.width) != Some(stroke.width) {
            self.push(Op::SetOutlineThickness {
                pt: point(stroke.width),
            });
        }
        if before.map(|old| old.dash) != Some(stroke.dash) {
            let dash = match stroke.dash {
                Some((dash, gap)) => LineDashPattern::new(0.0, &[point(dash).0, point(gap).0]),
                None => LineDashPattern::solid(),
            };
            self.push(Op::SetLineDashPattern { dash });
        }
    }

    fn at(&self, x: f64, y: f64) -> Point {
        Point {
            x: point(x),
            y: point(self.height - y),
        }
    }

    fn rings(&self, steps: &[Step]) -> Vec<PolygonRing> {
        let mut rings: Vec<PolygonRing> = Vec::new();
        let corner = |p: Point, bezier: bool| LinePoint { p, bezier };
        for step in steps {
            match *step {
                Step::Move(x, y) => rings.push(PolygonRing {
                    points: vec![corner(self.at(x, y), false)],
                }),
                Step::Line(x, y) => {
                    if let Some(ring) = rings.last_mut() {
                        ring.points.push(corner(self.at(x, y), false));
                    }
                }
                Step::Curve(a, b, end) => {
                    if let Some(ring) = rings.last_mut() {
                        ring.points.push(corner(self.at(a.0, a.1), true));
                        ring.points.push(corner(self.at(b.0, b.1), true));
                        ring.points.push(corner(self.at(end.0, end.1), false));
                    }
                }
                Step::Close => {}
            }
        }
        rings
    }
}

impl Sink for OpSink {
    fn page(&mut self, _sheet: Sheet, _number: usize, _of: usize) {
        self.leave_text();
        self.state = Pen::default();
        self.pages.push(Vec::new());
    }

    fn text(&mut self, run: &TextRun) {
        if !std::mem::replace(&mut self.state.in_text, true) {
            self.push(Op::StartTextSection);
        }
        let style = run.style;
        self.fill(style.ink);
        let font = (style.face, style.size.to_bits());
        if self.state.font != Some(font) {
            self.state.font = Some(font);
            self.push(Op::SetFont {
                font: PdfFontHandle::External(resource(style.face)),
                size: point(style.size),
            });
        }
        let at = self.at(run.x, run.y);
        self.push(Op::SetTextMatrix {
            matrix: printpdf::TextMatrix::Translate(at.x, at.y),
        });
        self.push(Op::ShowText {
            items: vec![TextItem::Text(run.text.clone())],
        });
    }

    fn line(&mut self, line: &StraightLine) {
        self.leave_text();
        self.stroke(line.stroke);
        let ends = [line.from, line.to];
        let points = ends.map(|(x, y)| LinePoint {
            p: self.at(x, y),
            bezier: false,
        });
        self.push(Op::DrawLine {
            line: EngineLine {
                points: points.to_vec(),
                is_closed: false,
            },
        });
    }

    fn path(&mut self, path: &Path) {
        self.leave_text();
        let mode = match (path.fill, path.stroke) {
            (None, None) => return,
            (Some(_), None) => PaintMode::Fill,
            (None, Some(_)) => PaintMode::Stroke,
            (Some(_), Some(_)) => PaintMode::FillStroke,
        };
        if let Some(ink) = path.fill {
            self.fill(ink);
        }
        if let Some(stroke) = path.stroke {
            self.stroke(stroke);
        }
        let rings = self.rings(&path.steps);
        let open = !path.steps.contains(&Step::Close);
        // The engine closes polygons: an open stroke goes out as lines.
        if open && path.fill.is_none() {
            for ring in rings {
                self.push(Op::DrawLine {
                    line: EngineLine {
                        points: ring.points,
                        is_closed: false,
                    },
                });
            }
            return;
        }
        self.push(Op::DrawPolygon {
            polygon: Polygon {
                rings,
                mode,
                winding_order: match path.rule {
                    Rule::EvenOdd => WindingOrder::EvenOdd,
                    Rule::NonZero => WindingOrder::NonZero,
                },
            },
        });
    }

    fn picture(&mut self, picture: &Picture) {
        self.leave_text();
        let Picture { at, size, pixels } = picture;
        let corner = self.at(at.0, at.1 + size.1);
        self.push(Op::UseXobject {
            id: pictures::resource(pixels),
            transform: XObjectTransform {
                translate_x: Some(corner.x),
                translate_y: Some(corner.y),
                scale_x: Some(point(size.0).0),
                scale_y: Some(point(size.1).0),
                no_auto_scale: true,
                ..XObjectTransform::default()
            },
        });
    }
}

#[expect(clippy::cast_possible_truncation, reason = "the engine stores f32")]
fn color(ink: Ink) -> Color {
    let [r, g, b] = ink.on_paper().map(|part| part as f32);
    Color::Rgb(Rgb {
        r,
        g,
        b,
        icc_profile: None,
    })
}
