//! One frame of the whole window with a job of 10,000 rows: its run and its tessellation, at rest and
//! while one scrolls.
#![expect(
    clippy::expect_used,
    reason = "a bench that can't begin has nothing to measure"
)]

use std::hint::black_box;
use std::path::Path;
use std::sync::Arc;

use chrono::NaiveDate;
use criterion::{Criterion, criterion_group, criterion_main};
use egui::{Context, Event, RawInput, Rect, pos2, vec2};
use quillbore_desk::app::{App, WindowParts};
use quillbore_desk::desk::Desk;
use quillbore_desk::dialogs::{Dialogs, PathAnswer, PathQuestion};
use quillbore_desk::grid::GridAt;
use quillbore_desk::look;
use quillbore_desk::settings::Settings;
use quillbore_job::{CellAt, Column, Edit, Field, Shop, Unit};
use quillbore_office::clerk::Clerk;
use quillbore_office::clock::FixedClock;
use quillbore_office::disk::{Disk, RealDisk};
use quillbore_office::hole_file::Readers;
use quillbore_office::listing::Listing;
use quillbore_office::shelf::{Folder, Shelf as _};
use quillbore_office::start::Standing;
use quillbore_office::{Office, places};

const ROWS: usize = 10_000;

struct NoDialogs;

impl Dialogs for NoDialogs {
    fn ask(&mut self, _: PathQuestion) {}
    fn answer(&mut self) -> Option<(PathQuestion, PathAnswer)> {
        None
    }
}

fn clock() -> Arc<FixedClock> {
    let day = NaiveDate::from_ymd_opt(2026, 11, 27).expect("a day");
    Arc::new(FixedClock(day))
}

fn office(root: &Path) -> Arc<Office> {
    let disk: Arc<dyn Disk> = Arc::new(RealDisk::default());
    let folder = Arc::new(Folder::new(Arc::clone(&disk), root, None));
    let mark = places::new_mark().expect("a mark");
    folder.adopt(&mark).expect("a shelf");
    let shop = Shop::embedded().expect("the shop").clone();
    Arc::new(Office::over(folder, disk, Arc::new(shop)))
}

/// A job whose rows differ in size and depth.
fn desk(office: &Arc<Office>) -> Desk {
    let mut desk = Desk::at_once(Arc::clone(office), clock());
    let at = GridAt::default();
    for (field, text) in [
        (Field::Customer, "Grove Pump Works"),
        (Field::Part, "GP-12"),
        (Field::Material, "718"),
        (Field::Machine, "Wren"),
        (Field::Quantity, "12"),
    ] {
        let edit = Edit::SetField {
            field,
            text: text.to_owned(),
            unit: Unit::Mm,
        };
        desk.edit(&edit, at, at);
    }
    let row = |row: usize| {
        let size = format!("{:.2} +-0.05", 0.5 + (row % 60) as f64 * 0.01);
        let depth = format!("{:.1}", 5.0 + (row % 97) as f64 * 0.1);
        [
            row.to_string(),
            "3".to_owned(),
            size,
            depth,
            "through".to_owned(),
        ]
        .map(Some)
        .to_vec()
    };
    let edit = Edit::SetCells {
        at: CellAt {
            row: 0,
            column: Column::Mark,
        },
        rows: (0..ROWS).map(row).collect(),
        unit: Unit::Mm,
    };
    desk.edit(&edit, at, at);
    assert_eq!(desk.job().rows.len(), ROWS);
    desk
}

fn frame(c: &mut Criterion) {
    let folder = tempfile::tempdir().expect("a folder");
    let office = office(folder.path());
    let another = Arc::clone(&office);
    let ctx = Context::default();
    look::dress(&ctx);
    let mut app = App::new(
        &ctx,
        WindowParts {
            first: desk(&office),
            make_desk: Box::new(move || Desk::at_once(Arc::clone(&another), clock())),
            clerk: Clerk::at_once(Arc::clone(&office)),
            list: Listing::at_once(Arc::clone(&office.shelf), clock()),
            dialogs: Box::new(NoDialogs),
            open_path: Box::new(|_| Ok(())),
            open_samples: Box::new(|| Ok(())),
            is_samples: false,
            has_samples: false,
            open_mail: Box::new(|_| Ok(())),
            settings: Settings::default(),
            settings_path: None,
            shelf_root: std::path::PathBuf::default(),
            shop_watch: None,
            shelf_news: None,
            readers: Readers::at_once(Arc::clone(&office.disk)),
            drafts: None,
            standing: Standing::Ready,
            office,
        },
    );
    let mut draw = |events: Vec<Event>| {
        let input = RawInput {
            screen_rect: Some(Rect::from_min_size(pos2(0.0, 0.0), vec2(1280.0, 800.0))),
            events,
            ..RawInput::default()
        };
        let mut out = ctx.run_ui(input, |ui| app.frame(ui));
        // Nothing is painted here, so that the font's texture has nowhere to go.
        out.textures_delta.clear();
        ctx.tessellate(out.shapes, out.pixels_per_point)
    };
    for _ in 0..5 {
        draw(Vec::new());
    }
    let mut group = c.benchmark_group("window with 10,000 rows, one frame");
    group.bench_function("at rest", |b| {
        b.iter(|| black_box(draw(vec![Event::PointerMoved(pos2(400.0, 300.0))])));
    });
    let mut scroll = 0.0_f32;
    group.bench_function("scrolling the table", |b| {
        b.iter(|| {
            scroll = if scroll > 0.0 { -30.0 } else { 30.0 };
            black_box(draw(vec![
                Event::PointerMoved(pos2(400.0, 480.0)),
                Event::MouseWheel {
                    unit: egui::MouseWheelUnit::Point,
                    delta: vec2(0.0, -scroll),
                    phase: egui::TouchPhase::Move,
                    source: egui::MouseWheelSource::Unknown,
                    modifiers: egui::Modifiers::NONE,
                },
            ]))
        });
    });
}

criterion_group!(benches, frame);
criterion_main!(benches);
