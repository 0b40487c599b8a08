//! What a page would take to be painted: the way that its lines go, and the pictures in it.

use hayro_font::kurbo::{Affine, Point};
use hayro_syntax::content::ops::TypedInstruction as Op;
use hayro_syntax::object::Dict;

/// What a page would take.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Ink {
    /// How far its lines and outlines go, each piece no farther than the page [pt].
    pub(super) way: f64,
    /// The longer side of its largest picture [pt].
    pub(super) longest: f64,
    /// Pixels of its pictures, as they say.
    pub(super) pixels: f64,
    last: Point,
}

impl Ink {
    /// Follows a line; true where that is all that was asked.
    pub(super) fn line(&mut self, op: &Op<'_, '_>, to_page: Affine, most: f64) -> bool {
        let point = |x: f64, y: f64| to_page * Point::new(x, y);
        match op {
            Op::MoveTo(to) => self.last = point(to.0.as_f64(), to.1.as_f64()),
            Op::LineTo(to) => self.go(point(to.0.as_f64(), to.1.as_f64()), most),
            Op::CubicTo(to) => {
                for (x, y) in [(to.0, to.1), (to.2, to.3), (to.4, to.5)] {
                    self.go(point(x.as_f64(), y.as_f64()), most);
                }
            }
            Op::CubicStartTo(to) => {
                for (x, y) in [(to.0, to.1), (to.2, to.3)] {
                    self.go(point(x.as_f64(), y.as_f64()), most);
                }
            }
            Op::CubicEndTo(to) => {
                for (x, y) in [(to.0, to.1), (to.2, to.3)] {
                    self.go(point(x.as_f64(), y.as_f64()), most);
                }
            }
            Op::RectPath(of) => {
                let [x, y, wide, high] = [of.0, of.1, of.2, of.3].map(|each| each.as_f64());
                self.last = point(x, y);
                for (x, y) in [(x + wide, y), (x + wide, y + high), (x, y + high), (x, y)] {
                    self.go(point(x, y), most);
                }
            }
            _ => return false,
        }
        true
    }

    /// Takes a picture in.
    pub(super) fn picture(&mut self, says: &Dict<'_>, to_page: Affine) {
        let [a, b, c, d, ..] = to_page.as_coeffs();
        let side = libm::hypot(a, b).max(libm::hypot(c, d));
        self.longest = self
            .longest
            .max(if side.is_finite() { side } else { f64::MAX });
        let long = |short: &[u8], name: &[u8]| {
            let said = says.get::<f64>(short).or_else(|| says.get::<f64>(name));
            said.map_or(1.0, f64::abs)
        };
        let pixels = long(b"W", b"Width") * long(b"H", b"Height");
        self.pixels += if pixels.is_finite() {
            pixels
        } else {
            f64::MAX / 1e6
        };
    }

    fn go(&mut self, to: Point, most: f64) {
        let way = (to - self.last).hypot();
        self.way += if way.is_finite() { way.min(most) } else { most };
        self.last = to;
    }
}
