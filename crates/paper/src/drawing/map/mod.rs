//! A map of the holes of a clamping, to scale: from above, and from the side with the ways the electrode
//! comes from.

mod details;
mod labels;
mod model;
mod room;
mod strip;
mod view;

use quillbore_calc::RowId;
use quillbore_job::{Form, Unit};

use crate::page::{Page, Stroke, mm};
use crate::shown;
use crate::typeset::look::CAPTION;
use details::Detail;
pub use model::{Map, Spot};
pub use strip::{strip, unplaced};
use view::View;

/// Space around a view on paper, for the labels of what lies at its edge.
const AROUND: f64 = 7.0 * 72.0 / 25.4;
/// Between the two views.
const BETWEEN: f64 = 4.0 * 72.0 / 25.4;
/// From the view's name to its upper edge: the cross at the part's zero has room between.
const NAME_ABOVE: f64 = 9.0;
/// How long the way that an electrode comes from is drawn.
const WAY: f64 = 6.0 * 72.0 / 25.4;

/// How a map is looked at.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Look {
    /// How figures are written.
    pub form: Form,
    /// The unit of the scale.
    pub unit: Unit,
    /// The row that is picked out.
    pub picked: Option<RowId>,
    /// How many times larger than the whole map, 1 and up: larger ones show the view from above alone.
    pub zoom: f64,
    /// Space around each view, in points of the paper.
    pub around: f64,
    /// What of the map stands in the middle then, from its left and from its top, as shares of the whole.
    pub middle: (f64, f64),
}

impl Look {
    /// The whole map.
    #[must_use]
    pub const fn whole(form: Form, unit: Unit) -> Self {
        Self {
            form,
            unit,
            picked: None,
            zoom: 1.0,
            around: AROUND,
            middle: (0.5, 0.5),
        }
    }
}

/// What of a map was drawn.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Drawn {
    /// How high it is.
    pub high: f64,
    /// Where its spots stand in the view from above, in their order.
    pub spots: Vec<(f64, f64)>,
    /// Spots whose label has no room.
    pub unlabeled: usize,
    /// Points of the paper a millimeter.
    pub scale: f64,
}

/// Draws a map into a place of left, top, width and height.
pub fn draw(page: &mut Page, map: &Map, place: (f64, f64, f64, f64), look: &Look) -> Drawn {
    if look.zoom > 1.0 {
        return draw_zoomed(page, map, place, look);
    }
    draw_whole(page, map, place, look, &[])
}

/// Draws both views, with frames around what stands larger beside the map.
fn draw_whole(
    page: &mut Page,
    map: &Map,
    place: (f64, f64, f64, f64),
    look: &Look,
    larger: &[Detail],
) -> Drawn {
    let (left, top, width, height) = place;
    let around = look.around;
    let (scale, high) = map.fit(width, height, look.around);
    let [least, most] = map.extent();
    let across = (most[0] - least[0]).max(1.0) * scale;
    let left = left + (width - across) / 2.0;
    let deep = (most[1] - least[1]).max(1.0) * scale;
    let above = View {
        map,
        axes: [0, 1],
        corner: (left, top + around),
        origin: (least[0], most[1]),
        scale,
        picked: look.picked,
    };
    above.draw(page);
    let side = View {
        axes: [0, 2],
        corner: (left, top + 3.0 * around + BETWEEN + deep),
        origin: (least[0], most[2]),
        ..above
    };
    let below = (left - around, side.corner.1 - WAY - 4.0);
    let edges = (left - around, left + across + around);
    let (mut reserved, framed) = details::frames(page, &above.places(), larger, edges);
    reserved.push((below, CAPTION.measure(&side.named())));
    let unlabeled = above.labels(page, edges, 0..map.spots.len(), (&reserved, &framed));
    side.draw(page);
    side.ways(page);
    page.text(
        left - around,
        top + around - NAME_ABOVE,
        CAPTION,
        &above.named(),
    );
    page.text(below.0, below.1, CAPTION, &side.named());
    bar(page, (left, top + high - 2.0), scale, look);
    Drawn {
        high,
        spots: above.places(),
        unlabeled,
        scale,
    }
}

/// The view from above alone, larger than its place.
fn draw_zoomed(
    page: &mut Page,
    map: &Map,
    (left, top, width, height): (f64, f64, f64, f64),
    look: &Look,
) -> Drawn {
    let [least, most] = map.extent();
    let [wide, deep] = [0, 1].map(|i| (most[i] - least[i]).max(1.0));
    let around = look.around;
    let room = (width - 2.0 * around, height - 3.0 * around);
    let scale = (room.0 / wide).min(room.1 / deep).max(1e-6) * look.zoom;
    let above = View {
        map,
        axes: [0, 1],
        corner: (
            left + width / 2.0 - look.middle.0 * wide * scale,
            top + height / 2.0 - look.middle.1 * deep * scale,
        ),
        origin: (least[0], most[1]),
        scale,
        picked: look.picked,
    };
    above.draw(page);
    let seen: Vec<usize> = (above.places().iter().enumerate())
        .filter(|(_, (x, y))| (left..=left + width).contains(x) && (top..=top + height).contains(y))
        .map(|(index, _)| index)
        .collect();
    let unlabeled = above.labels(page, (left, left + width), seen, (&[], &[]));
    bar(page, (left + 4.0, top + height - 4.0), scale, look);
    Drawn {
        high: height,
        spots: above.places(),
        unlabeled,
        scale,
    }
}

/// A length to measure by.
fn bar(page: &mut Page, (left, y): (f64, f64), scale: f64, look: &Look) {
    let per = match look.unit {
        Unit::Mm => 1.0,
        Unit::Inch => quillbore_calc::quantity::MM_PER_INCH,
    };
    let steps = [
        0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0,
    ];
    let fits = |length: &&f64| **length * per * scale >= mm(12.0);
    let length = steps.iter().find(fits).copied().unwrap_or(500.0);
    let right = left + length * per * scale;
    page.rule(left, right, y, Stroke::RULE);
    for x in [left, right] {
        page.line((x, y - 2.0), (x, y + 2.0), Stroke::RULE);
    }
    let decimals = match length {
        length if length >= 1.0 => 0,
        length if length >= 0.1 => 1,
        _ => 2,
    };
    let said = shown::with_unit(look.form, length * per, look.unit, decimals);
    page.text(right + 4.0, y + 2.8, CAPTION, &said);
}
