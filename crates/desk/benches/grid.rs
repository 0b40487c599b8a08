//! One frame of a table with 10,000 rows and 14 columns: the UI's run and its tessellation.

use std::{borrow::Cow, hint::black_box};

use criterion::{Criterion, criterion_group, criterion_main};
use egui::{Context, Event, RawInput, Rect, pos2, vec2};
use quillbore_desk::{
    grid::{CellState, GridAt, GridColumn, GridModel, GridView, grid_ui},
    look,
};

struct Many {
    columns: Vec<GridColumn>,
    texts: Vec<Vec<String>>,
}

impl GridModel for Many {
    fn row_name(&self) -> &str {
        "hole"
    }
    fn row_count(&self) -> usize {
        self.texts.len()
    }
    fn columns(&self) -> &[GridColumn] {
        &self.columns
    }
    fn text(&self, at: GridAt) -> Cow<'_, str> {
        Cow::Borrowed(&self.texts[at.row][at.col])
    }
    fn state(&self, at: GridAt) -> CellState {
        if at.row % 7 == 3 && at.col == 4 {
            CellState::Unread
        } else {
            CellState::Plain
        }
    }
}

fn frame(c: &mut Criterion) {
    let columns: Vec<GridColumn> = (0..14)
        .map(|i| GridColumn {
            head: format!("column {i}"),
            unit: "mm".to_owned(),
            word: format!("figure {i}"),
            width: 70.0,
            right: i > 0,
            read_only: i > 9,
        })
        .collect();
    let texts = (0..10_000)
        .map(|row| (0..14).map(|col| format!("{row}.{col:02}")).collect())
        .collect();
    let model = Many { columns, texts };
    let ctx = Context::default();
    look::dress(&ctx);
    let mut view = GridView::default();
    let mut asks = Vec::new();
    let mut scroll = 0.0_f32;
    c.bench_function("table of 10,000 rows x 14, one frame, scrolling", |b| {
        b.iter(|| {
            scroll = if scroll > 0.0 { -30.0 } else { 30.0 };
            let input = RawInput {
                screen_rect: Some(Rect::from_min_size(pos2(0.0, 0.0), vec2(1280.0, 800.0))),
                events: vec![
                    Event::PointerMoved(pos2(400.0, 300.0)),
                    Event::MouseWheel {
                        unit: egui::MouseWheelUnit::Point,
                        delta: vec2(0.0, -scroll),
                        phase: egui::TouchPhase::Move,
                        source: egui::MouseWheelSource::Unknown,
                        modifiers: egui::Modifiers::NONE,
                    },
                ],
                ..RawInput::default()
            };
            let mut out = ctx.run_ui(input, |ui| {
                grid_ui(
                    ui,
                    "holes",
                    &model,
                    &mut view,
                    vec2(1260.0, 760.0),
                    &mut asks,
                );
            });
            // Nothing is painted here, so that the font's texture has nowhere to go.
            out.textures_delta.clear();
            black_box(ctx.tessellate(out.shapes, out.pixels_per_point))
        });
    });
}

criterion_group!(benches, frame);
criterion_main!(benches);
