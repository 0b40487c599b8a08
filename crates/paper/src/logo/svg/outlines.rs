//! An SVG as filled outlines, where it has nothing but shapes and lines in full colors.

use resvg::tiny_skia::PathSegment;
use resvg::usvg::tiny_skia_path::{self, PathStroker};
use resvg::usvg::{
    BlendMode, ClipPath, Fill, FillRule, Group, Node, Paint, PaintOrder, Path as Shape, Rect,
    Stroke, Transform, Tree,
};

use crate::logo::fault::LogoFault;
use crate::logo::{is_white_path, placed};
use crate::page::{Ink, Path, Rule, Step};

/// Most steps that all outlines have together: more is drawn as pixels, which every printer bears.
const MOST_STEPS: usize = 6_000;
/// Most dashes of one line.
const MOST_DASHES: f32 = 2_000.0;
/// What lies farther over an edge than this share of the whole counts as over it.
const OVER: f32 = 0.002;

/// Width and height of all outlines, and the outlines from their upper left corner.
type Outlines = ((f64, f64), Vec<Path>);

/// The outlines of a tree, or `None` where outlines don't say all of it.
pub(super) fn of(tree: &Tree) -> Option<Result<Outlines, LogoFault>> {
    let size = tree.size();
    let mut gathered = Gathered {
        view: Rect::from_xywh(0.0, 0.0, size.width(), size.height())?,
        paths: Vec::new(),
        steps: 0,
    };
    gathered.group(tree.root(), Transform::identity())?;
    let mut paths = gathered.paths;
    // White on white, with nothing under it, only makes the logo smaller in its box.
    let seen = paths.iter().position(|(path, _)| !is_white_path(path));
    paths.drain(..seen.unwrap_or(paths.len()));
    let bounds = paths.iter().map(|(_, bounds)| *bounds).reduce(joined);
    let Some(bounds) = bounds else {
        return Some(Err(LogoFault::Blank));
    };
    let (width, height) = (f64::from(bounds.width()), f64::from(bounds.height()));
    if width <= 0.0 || height <= 0.0 {
        return Some(Err(LogoFault::Blank));
    }
    let corner = (f64::from(bounds.left()), f64::from(bounds.top()));
    let moved = paths.iter().map(|(path, _)| moved(path, corner));
    Some(Ok(((width, height), moved.collect())))
}

struct Gathered {
    view: Rect,
    paths: Vec<(Path, Rect)>,
    steps: usize,
}

impl Gathered {
    /// Gathers a group; where it stands is added up on the way, as the library's own sum of it is
    /// wrong where a symbol is used that is not cut.
    fn group(&mut self, group: &Group, around: Transform) -> Option<()> {
        let is_plain = group.opacity().get() >= 1.0
            && group.blend_mode() == BlendMode::Normal
            && group.mask().is_none()
            && group.filters().is_empty();
        if !is_plain {
            return None;
        }
        let transform = around.pre_concat(group.transform());
        let before = self.paths.len();
        for child in group.children() {
            match child {
                Node::Group(group) => self.group(group, transform)?,
                Node::Path(shape) => self.shape(shape, transform)?,
                Node::Image(_) | Node::Text(_) => return None,
            }
        }
        let Some(clip) = group.clip_path() else {
            return Some(());
        };
        let kept = kept(clip, transform)?;
        let all_kept = self.paths[before..]
            .iter()
            .all(|(_, bounds)| is_inside(*bounds, kept));
        all_kept.then_some(())
    }

    fn shape(&mut self, shape: &Shape, transform: Transform) -> Option<()> {
        if !shape.is_visible() {
            return Some(());
        }
        if shape.paint_order() == PaintOrder::FillAndStroke {
            self.filled(shape, shape.fill(), transform)?;
            self.stroked(shape, shape.stroke(), transform)
        } else {
            self.stroked(shape, shape.stroke(), transform)?;
            self.filled(shape, shape.fill(), transform)
        }
    }

    fn filled(&mut self, shape: &Shape, fill: Option<&Fill>, transform: Transform) -> Option<()> {
        let Some(fill) = fill else { return Some(()) };
        let ink = ink(fill.paint(), fill.opacity().get())?;
        let rule = match fill.rule() {
            FillRule::NonZero => Rule::NonZero,
            FillRule::EvenOdd => Rule::EvenOdd,
        };
        self.outline(shape.data().clone(), transform, rule, ink)
    }

    fn stroked(
        &mut self,
        shape: &Shape,
        stroke: Option<&Stroke>,
        transform: Transform,
    ) -> Option<()> {
        let Some(stroke) = stroke else {
            return Some(());
        };
        let ink = ink(stroke.paint(), stroke.opacity().get())?;
        // A line far larger than what is seen of it takes long to be outlined.
        let around = shape.stroke_bounding_box().transform(transform)?;
        if is_outside(around, self.view) {
            return Some(());
        }
        if !is_inside(around, self.view) {
            return None;
        }
        if self.steps + shape.data().len() > MOST_STEPS || dashes(shape, stroke) > MOST_DASHES {
            return None;
        }
        // As fine as it is in the box on a good printer.
        let fine = 2_000.0 / self.view.width().max(self.view.height());
        let scale = PathStroker::compute_resolution_scale(&transform.post_scale(fine, fine));
        let pen = stroke.to_tiny_skia();
        let dashed = match &pen.dash {
            Some(dash) => shape.data().dash(dash, scale)?,
            None => shape.data().clone(),
        };
        // A line without length has no outline, and is not seen either.
        match dashed.stroke(&pen, scale) {
            Some(outline) => self.outline(outline, transform, Rule::NonZero, ink),
            None => Some(()),
        }
    }

    fn outline(
        &mut self,
        outline: tiny_skia_path::Path,
        transform: Transform,
        rule: Rule,
        ink: Ink,
    ) -> Option<()> {
        self.steps += outline.len();
        if self.steps > MOST_STEPS {
            return None;
        }
        let outline = outline.transform(transform)?;
        let bounds = outline.compute_tight_bounds()?;
        if is_outside(bounds, self.view) {
            return Some(());
        }
        if !is_inside(bounds, self.view) {
            return None;
        }
        let path = Path {
            steps: steps(&outline),
            rule,
            fill: Some(ink),
            stroke: None,
        };
        self.paths.push((path, bounds));
        Some(())
    }
}

/// The ink of a full color.
fn ink(paint: &Paint, opacity: f32) -> Option<Ink> {
    match paint {
        Paint::Color(color) if opacity >= 1.0 => {
            Some(Ink::Own([color.red, color.green, color.blue]))
        }
        Paint::Color(_)
        | Paint::LinearGradient(_)
        | Paint::RadialGradient(_)
        | Paint::Pattern(_) => None,
    }
}

/// How many dashes a line has at most: its length is no more than that of its control points.
pub(super) fn dashes(shape: &Shape, stroke: &Stroke) -> f32 {
    let Some(dashes) = stroke.dasharray() else {
        return 0.0;
    };
    let points = shape.data().points();
    let length: f32 = points
        .windows(2)
        .map(|ends| ends[0].distance(ends[1]))
        .sum();
    let closing = shape.data().bounds().width() + shape.data().bounds().height();
    (length + closing) * dashes.len() as f32 / dashes.iter().sum::<f32>()
}

/// What a clip keeps, where that is an upright rectangle: many programs write one around all that
/// there is.
fn kept(clip: &ClipPath, around: Transform) -> Option<Rect> {
    let [Node::Path(shape)] = clip.root().children() else {
        return None;
    };
    let transform = around.pre_concat(clip.transform());
    let outline = shape.data().clone().transform(transform)?;
    let (points, bounds) = (outline.points(), outline.bounds());
    let at_corner = |point: &tiny_skia_path::Point| {
        (point.x == bounds.left() || point.x == bounds.right())
            && (point.y == bounds.top() || point.y == bounds.bottom())
    };
    let is_straight = !outline
        .segments()
        .any(|segment| matches!(segment, PathSegment::QuadTo(..) | PathSegment::CubicTo(..)));
    // From corner to corner all around, without turning back.
    let goes_on = points.windows(3).all(|three| three[0] != three[2]);
    let is_rectangle = (4..=5).contains(&points.len())
        && points.iter().all(at_corner)
        && is_straight
        && goes_on
        && bounds.width() > 0.0
        && bounds.height() > 0.0;
    (is_rectangle && clip.clip_path().is_none()).then_some(bounds)
}

fn is_outside(bounds: Rect, view: Rect) -> bool {
    bounds.right() <= view.left()
        || bounds.left() >= view.right()
        || bounds.bottom() <= view.top()
        || bounds.top() >= view.bottom()
}

fn is_inside(bounds: Rect, view: Rect) -> bool {
    let over = view.width().max(view.height()) * OVER;
    bounds.left() >= view.left() - over
        && bounds.right() <= view.right() + over
        && bounds.top() >= view.top() - over
        && bounds.bottom() <= view.bottom() + over
}

/// The rectangle around two.
pub(super) fn joined(one: Rect, two: Rect) -> Rect {
    let (left, top) = (one.left().min(two.left()), one.top().min(two.top()));
    let (right, bottom) = (one.right().max(two.right()), one.bottom().max(two.bottom()));
    Rect::from_ltrb(left, top, right, bottom).unwrap_or(one)
}

/// The steps of an outline; quadratic curves as cubic ones.
fn steps(outline: &tiny_skia_path::Path) -> Vec<Step> {
    let at = |point: tiny_skia_path::Point| (f64::from(point.x), f64::from(point.y));
    let mut steps = Vec::with_capacity(outline.len());
    let mut from = (0.0, 0.0);
    for segment in outline.segments() {
        let (step, end) = match segment {
            PathSegment::MoveTo(to) => (Step::Move(at(to).0, at(to).1), at(to)),
            PathSegment::LineTo(to) => (Step::Line(at(to).0, at(to).1), at(to)),
            PathSegment::QuadTo(by, to) => {
                let (by, to) = (at(by), at(to));
                let third = |end: (f64, f64)| {
                    let toward = |end: f64, by: f64| end + (by - end) * 2.0 / 3.0;
                    (toward(end.0, by.0), toward(end.1, by.1))
                };
                (Step::Curve(third(from), third(to), to), to)
            }
            PathSegment::CubicTo(one, two, to) => (Step::Curve(at(one), at(two), at(to)), at(to)),
            PathSegment::Close => (Step::Close, from),
        };
        steps.push(step);
        from = end;
    }
    steps
}

fn moved(path: &Path, corner: (f64, f64)) -> Path {
    placed(path, (-corner.0, -corner.1), 1.0)
}
