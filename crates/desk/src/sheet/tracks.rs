//! Fields in rows of twelve tracks, each at a fixed place: Tab runs by row, Enter goes down.

use egui::{Rect, Ui, pos2, vec2};
use quillbore_job::{FieldKind, Line};

use super::field::{FieldAt, LONG, field_ui, is_long};
use super::measures::{FIELD, Measures, TRACKS};
use super::shared::{Anchors, Shared};
use crate::spot::Spot;
use crate::view::{Ask, SheetView};

/// A row of fields, each with how many tracks it takes.
pub(super) type TrackRow = Vec<(Spot, u8)>;

/// Draws rows of fields where the `Ui` stands; gives the tracks that are left free in the last row, for
/// a word.
pub(super) fn tracks_ui(
    ui: &mut Ui,
    rows: &[TrackRow],
    shared: &Shared<'_>,
    view: &mut SheetView,
    anchors: &mut Anchors,
    asks: &mut Vec<Ask>,
) -> Rect {
    let width = ui.available_width();
    let origin = ui.cursor().min;
    let mut y = origin.y;
    let mut free = Rect::from_min_size(origin, vec2(0.0, FIELD));
    for (index, row) in rows.iter().enumerate() {
        let long = row.iter().any(|(spot, _)| is_long(*spot));
        let height = if long { LONG } else { FIELD };
        let mut track = 0;
        for (spot, tracks) in row {
            let left = origin.x + Measures::track_left(width, track);
            let size = vec2(Measures::tracks(width, *tracks), height - 1.0);
            let place = Rect::from_min_size(pos2(left, y), size);
            let field = FieldAt {
                spot: *spot,
                place,
                down: below(rows, index, track),
            };
            field_ui(ui, field, shared, view, anchors, asks);
            track += tracks;
        }
        let left = origin.x + Measures::track_left(width, track);
        let left_over = Measures::tracks(width, TRACKS.saturating_sub(track));
        free = Rect::from_min_size(pos2(left, y), vec2(left_over, height));
        y += height;
    }
    ui.advance_cursor_after_rect(Rect::from_min_max(origin, pos2(origin.x + width, y)));
    free
}

/// The field that stands under a track of a row; under the last row the next column begins.
fn below(rows: &[TrackRow], row: usize, track: u8) -> Option<Spot> {
    let at = |row: &TrackRow, wanted: u8| {
        let mut left = 0;
        row.iter().find_map(|(spot, tracks)| {
            let here = (left..left + tracks).contains(&wanted);
            left += tracks;
            here.then_some(*spot)
        })
    };
    if let Some(spot) = rows.get(row + 1).and_then(|next| at(next, track)) {
        return Some(spot);
    }
    let mut left = 0;
    rows.first()?.iter().find_map(|(spot, tracks)| {
        let begins = left;
        left += tracks;
        (begins > track).then_some(*spot)
    })
}

/// Fields that have no fixed rows of their own, put into rows as they come, each as wide as its kind
/// needs.
pub(super) fn flowed(spots: impl IntoIterator<Item = Spot>) -> Vec<TrackRow> {
    let mut rows: Vec<TrackRow> = Vec::new();
    let mut taken = TRACKS;
    for spot in spots {
        let tracks = tracks_of(spot);
        if taken + tracks > TRACKS {
            rows.push(Vec::new());
            taken = 0;
        }
        taken += tracks;
        if let Some(row) = rows.last_mut() {
            row.push((spot, tracks));
        }
    }
    rows
}

/// How many tracks a field of its kind takes.
fn tracks_of(spot: Spot) -> u8 {
    match spot.kind() {
        FieldKind::Lines => TRACKS,
        FieldKind::Line if matches!(spot, Spot::Line(_, Line::Date)) => 2,
        FieldKind::Line | FieldKind::Material | FieldKind::Machine => 4,
        FieldKind::Date => 2,
        _ => 3,
    }
}
