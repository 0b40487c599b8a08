//! The map of the holes beside the sheet, as the traveler draws it: pointing at a row points at its holes,
//! pressing a hole goes to its row.

use std::sync::Arc;

use egui::{Align, Layout, Rect, Response, Sense, Ui, UiBuilder, pos2, vec2};
use quillbore_calc::RowId;
use quillbore_job::Job;
use quillbore_job::results::{Beside, Results};
use quillbore_paper::drawing::map::{self, Drawn, Look, Map};
use quillbore_paper::page::Page;

use super::shared::Shared;
use crate::grid::GridAt;
use crate::look;
use crate::preview::paint_picture;
use crate::view::SheetView;
use crate::words::map as words;

/// Below the map, for what it shows and what can be done with it.
const SAID: f32 = 20.0;
/// Screen points a paper point; the smallest words are as large as the smallest here.
const SCALE: f32 = 1.5;
/// Space around each view.
const AROUND: f64 = 10.0;
/// As near to a hole as this counts as on it, in screen points.
const ON: f32 = 9.0;
/// Farthest in.
const MOST_ZOOM: f64 = 400.0;
/// One step nearer.
const STEP: f64 = 2.0;

/// How the map is looked at.
pub struct MapView {
    /// The clamping that was asked for; otherwise the first that the row at the cursor is drilled in.
    setup: Option<(RowId, usize)>,
    /// How many times larger than the whole, 1 and up.
    zoom: f64,
    /// What stands in the middle then, as shares of the whole.
    middle: (f64, f64),
    /// The row whose hole the pointer is on.
    pub hovered: Option<RowId>,
    /// The row of the hole table that the pointer is on.
    pub pointed: Option<RowId>,
    /// It stands in the margin in the place of the picture.
    pub in_margin: bool,
    kept: Option<Kept>,
}

impl Default for MapView {
    fn default() -> Self {
        Self {
            setup: None,
            zoom: 1.0,
            middle: (0.5, 0.5),
            hovered: None,
            pointed: None,
            in_margin: false,
            kept: None,
        }
    }
}

impl MapView {
    /// How many times larger than the whole it is.
    #[must_use]
    pub fn zoom(&self) -> f64 {
        self.zoom
    }

    /// Shows all of it.
    fn whole(&mut self) {
        (self.zoom, self.middle) = (1.0, (0.5, 0.5));
    }
}

/// The map as it was worked out last.
struct Kept {
    job: Arc<Job>,
    results: Arc<Results>,
    setup: usize,
    map: Option<Arc<Map>>,
}

/// Whether there is anything to draw: a row with locations.
pub(super) fn has_map(shared: &Shared<'_>) -> bool {
    shared.job.rows.iter().any(|row| !row.places.is_empty())
}

/// The map in a place that it always takes up.
pub(super) fn map_ui(ui: &mut Ui, place: Rect, shared: &Shared<'_>, view: &mut SheetView) {
    let t = look::tokens(ui);
    look::hairline_at(ui.painter(), place.x_range(), place.top(), t.hairline);
    let frame = place.with_max_y(place.bottom() - SAID);
    let below = Rect::from_min_max(pos2(place.left(), frame.bottom()), place.max);
    let at_cursor = shared
        .job
        .rows
        .get(view.grid.cursor().row)
        .map(|row| row.id);
    let setups = setups_of(shared, at_cursor);
    let asked = view.map.setup.filter(|(row, _)| Some(*row) == at_cursor);
    let setup = asked.map_or_else(|| setups.first().copied().unwrap_or(0), |(_, setup)| setup);
    let Some(drawn) = kept(shared, &mut view.map, setup) else {
        look::clipped(ui, below, words::NONE, look::small(), t.pencil);
        return;
    };
    let id = ui.scope_id().with("map of the holes");
    let response = ui.interact(frame, id, Sense::click_and_drag());
    let told = words::told(
        setup + 1,
        shared.results.figures.setups.len(),
        drawn.spots.len(),
    );
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, &told));
    move_about(ui, &response, frame, &mut view.map);
    let mut page = Page::default();
    let size = frame.size() / SCALE;
    let look = Look {
        picked: view.map.pointed.or(at_cursor),
        zoom: view.map.zoom,
        middle: view.map.middle,
        around: AROUND,
        ..Look::whole(shared.shop.form, shared.job.unit)
    };
    // The figure of the scale hangs below its line.
    let inner = (0.0, 0.0, f64::from(size.x), f64::from(size.y) - 4.0);
    let shown = map::draw(&mut page, &drawn, inner, &look);
    paint_picture(ui.painter(), frame, SCALE, &page, t);
    let spot = at_pointer(&response, frame, &shown).and_then(|at| drawn.spots.get(at));
    view.map.hovered = spot.map(|spot| spot.row);
    if let Some(spot) = spot {
        let at = spot.at_mm.map(|mm| shared.speaker().length(mm));
        let said = words::spot(&spot.mark, spot.number, &at);
        let row = shared.job.row_index(spot.row);
        if let Some(row) = row.filter(|_| response.clicked()) {
            view.grid.go_to(GridAt::new(row, view.grid.cursor().col));
            view.bring = Some(Beside::Row(spot.row, None));
        }
        response.on_hover_text_at_pointer(said);
    }
    words_ui(ui, below, (setup, &setups, at_cursor), &told, &mut view.map);
}

/// The clampings that a row is drilled in.
fn setups_of(shared: &Shared<'_>, row: Option<RowId>) -> Vec<usize> {
    let setups = shared.results.figures.setups.iter().enumerate();
    let here = setups.filter(|(_, setup)| row.is_some_and(|row| setup.rows.contains(&row)));
    here.map(|(at, _)| at).collect()
}

/// The map of a clamping, worked out anew where job or figures changed.
fn kept(shared: &Shared<'_>, view: &mut MapView, setup: usize) -> Option<Arc<Map>> {
    let stands = view.kept.as_ref().filter(|kept| {
        kept.setup == setup
            && Arc::ptr_eq(&kept.job, shared.job)
            && Arc::ptr_eq(&kept.results, shared.results)
    });
    if let Some(kept) = stands {
        return kept.map.clone();
    }
    let results = shared.results;
    let found = Map::of(shared.job, &results.asked.input, &results.figures, setup);
    let found = found.map(Arc::new);
    view.kept = Some(Kept {
        job: Arc::clone(shared.job),
        results: Arc::clone(results),
        setup,
        map: found.clone(),
    });
    found
}

/// The wheel goes nearer where the pointer is, a drag moves what is seen, a second press shows all again.
fn move_about(ui: &Ui, response: &Response, frame: Rect, view: &mut MapView) {
    if response.double_clicked() {
        view.whole();
        return;
    }
    let Some(at) = response.hover_pos() else {
        return;
    };
    let from_middle = (at - frame.center()) / frame.size();
    let wheel = ui.input(|input| input.smooth_scroll_delta().y);
    if wheel != 0.0 {
        let before = view.zoom;
        let step = 1.0 + f64::from(wheel.abs()) / 200.0;
        let nearer = if wheel > 0.0 {
            before * step
        } else {
            before / step
        };
        view.zoom = nearer.clamp(1.0, MOST_ZOOM);
        // What is under the pointer stays there.
        let by = 1.0 / before - 1.0 / view.zoom;
        view.middle.0 += f64::from(from_middle.x) * by;
        view.middle.1 += f64::from(from_middle.y) * by;
    }
    if response.dragged() && view.zoom > 1.0 {
        let by = response.drag_delta() / frame.size();
        view.middle.0 -= f64::from(by.x) / view.zoom;
        view.middle.1 -= f64::from(by.y) / view.zoom;
    }
    let within = |share: f64| share.clamp(0.0, 1.0);
    view.middle = (within(view.middle.0), within(view.middle.1));
}

/// The spot under the pointer.
fn at_pointer(response: &Response, frame: Rect, shown: &Drawn) -> Option<usize> {
    let at = response.hover_pos()?;
    let far = |(x, y): &(f64, f64)| {
        let spot = frame.min + vec2(*x as f32, *y as f32) * SCALE;
        spot.distance(at)
    };
    let near = shown.spots.iter().map(far).enumerate();
    let (index, far) = near.min_by(|a, b| a.1.total_cmp(&b.1))?;
    (far <= ON).then_some(index)
}

/// What the map shows, and the words that change how it is looked at.
fn words_ui(
    ui: &mut Ui,
    place: Rect,
    (setup, setups, row): (usize, &[usize], Option<RowId>),
    told: &str,
    view: &mut MapView,
) {
    ui.scope_builder(UiBuilder::new().max_rect(place), |ui| {
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            if look::quiet_word(ui, words::NEARER).clicked() {
                view.zoom = (view.zoom * STEP).min(MOST_ZOOM);
            }
            if look::quiet_word(ui, words::WHOLE).clicked() {
                view.whole();
            }
            if setups.len() > 1 && look::quiet_word(ui, words::NEXT_SETUP).clicked() {
                let at = setups.iter().position(|at| *at == setup).unwrap_or(0);
                view.setup = row.map(|row| (row, setups[(at + 1) % setups.len()]));
            }
            let room = ui.available_rect_before_wrap();
            let pencil = look::tokens(ui).pencil;
            look::clipped_label(ui, room, told, look::small(), pencil);
        });
    });
}
