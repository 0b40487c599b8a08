//! Frames of the window while its shelf is a server over a line of 40 ms there and back, beside those
//! with a shelf in memory, which answers at once: typing, saving, the day's list, finding, issuing. A
//! frame that waited for the server would take 40 ms longer, or twice and three times that.
#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "a bench that can't begin has nothing to measure"
)]
#![allow(
    dead_code,
    unreachable_pub,
    reason = "the server and the hands of the tests have more"
)]

#[path = "../../tests/window/hands.rs"]
mod hands;
#[path = "../../../office/tests/common/postgres.rs"]
mod postgres;
mod slow_line;

use std::sync::Arc;
use std::time::{Duration, Instant};

use egui::{Event, Key, Modifiers};
use egui_kittest::{Harness, kittest::Queryable as _};
use quillbore_desk::app::App;
use quillbore_desk::desk::Desk;
use quillbore_job::{CellAt, Column, Edit, Shop, Unit};
use quillbore_office::clerk::Clerk;
use quillbore_office::clock::FixedClock;
use quillbore_office::digest::digester;
use quillbore_office::disk::RealDisk;
use quillbore_office::listing::Listing;
use quillbore_office::office::shelf_news::ShelfNews;
use quillbore_office::shelf::server::{Address, Brings, Server};
use quillbore_office::shelf::{Mark, Memory, Shelf};
use quillbore_office::worker::Worker;
use quillbore_office::{Office, places};

use hands::{Window, day, inquire, window_around};
use postgres::Cluster;
use slow_line::slow_line;

/// There and back.
const ROUND_TRIP: Duration = Duration::from_millis(40);

/// A frame of a screen.
const FRAME: Duration = Duration::from_micros(16_667);

/// Work of one kind, and the frames that it took.
struct Took {
    what: &'static str,
    frames: Vec<Duration>,
}

fn main() {
    // Where it is only tried, as `cargo test --benches` does, each work is done once.
    let turns = if std::env::args().any(|word| word == "--bench") {
        20
    } else {
        1
    };
    let memory: Arc<dyn Shelf> = Arc::new(Memory::marked(mark()));
    let at_once = frames(memory, turns);
    let cluster = Cluster::start("");
    let address = cluster.database();
    Cluster::desk(&address).adopt(&mark()).expect("a mark");
    let port = slow_line(cluster.socket(), ROUND_TRIP / 2);
    let far = format!(
        "postgresql://shop@127.0.0.1:{port}/{}",
        address.database_name()
    );
    let brings = Brings {
        digester: Some(digester()),
        ..Brings::default()
    };
    let server: Arc<dyn Shelf> = Arc::new(Server::new(
        Address::read(&far).expect("an address"),
        brings,
    ));
    let begun = Instant::now();
    server.mark().expect("the mark");
    println!(
        "the line is made in {:.0} ms",
        begun.elapsed().as_secs_f64() * 1e3
    );
    let over_line = frames(server, turns);
    println!(
        "{:28} {:>22} {:>22}",
        "frames of [ms]", "memory: median / worst", "line: median / worst"
    );
    for (near, far) in at_once.iter().zip(&over_line) {
        let shown = |took: &Took| format!("{:.1} / {:.1}", median(took), worst(took));
        println!("{:28} {:>22} {:>22}", near.what, shown(near), shown(far));
    }
}

fn mark() -> Mark {
    places::new_mark().expect("a mark")
}

fn sorted(took: &Took) -> Vec<f64> {
    let mut frames: Vec<f64> = took
        .frames
        .iter()
        .map(|frame| frame.as_secs_f64() * 1e3)
        .collect();
    frames.sort_by(f64::total_cmp);
    frames
}

fn median(took: &Took) -> f64 {
    let frames = sorted(took);
    frames.get(frames.len() / 2).copied().unwrap_or_default()
}

fn worst(took: &Took) -> f64 {
    sorted(took).last().copied().unwrap_or_default()
}

/// Works in the window as somebody does, a frame for each of the screen's.
fn frames(shelf: Arc<dyn Shelf>, turns: usize) -> Vec<Took> {
    let shop = Arc::new(Shop::embedded().expect("the shop").clone());
    let office = Arc::new(Office::new(
        shelf,
        None,
        Arc::new(RealDisk::default()),
        shop,
    ));
    let clerk = Clerk::on_thread(Arc::clone(&office), || {});
    let make = {
        let (office, clerk) = (Arc::clone(&office), clerk.for_another());
        move || {
            let worker = Worker::on_thread(|| {});
            Desk::new(
                Arc::clone(&office),
                Arc::new(FixedClock(day())),
                clerk.for_another(),
                worker,
            )
        }
    };
    let mut first = make();
    inquiry(&mut first);
    let cache = tempfile::tempdir().expect("a folder");
    let list = Listing::on_thread(
        Arc::clone(&office.shelf),
        Arc::new(FixedClock(day())),
        cache.path().join("list.cache"),
        || {},
    );
    let news = ShelfNews::of(office.shelf.as_ref(), || {});
    let mut harness = window_around(first, office, move |parts| {
        parts.clerk = clerk;
        parts.list = list;
        parts.shelf_news = news;
        parts.make_desk = Box::new(make);
    });
    let mut all = Vec::new();
    let mut work = |what: &'static str,
                    harness: &mut Harness<'static, Window>,
                    frames: usize,
                    act: &dyn Fn(&mut Harness<'static, Window>)| {
        act(harness);
        let mut took = Vec::with_capacity(frames);
        for _ in 0..frames {
            let begun = Instant::now();
            harness.step();
            let frame = begun.elapsed();
            took.push(frame);
            std::thread::sleep(FRAME.saturating_sub(frame));
        }
        match all.iter_mut().find(|there: &&mut Took| there.what == what) {
            Some(there) => there.frames.extend(took),
            None => all.push(Took { what, frames: took }),
        }
    };
    for turn in 0..turns {
        work("typing", &mut harness, 20, &|harness| {
            harness.get_by_label("hole 1 depth").click();
            harness.event(Event::Text(format!("{}", 10 + turn % 5)));
            harness.key_press(Key::Enter);
        });
        work("saving", &mut harness, 60, &|harness| {
            harness.key_press_modifiers(Modifiers::COMMAND, Key::S);
        });
        work("the day's list", &mut harness, 40, &|harness| {
            harness.key_press(Key::F5);
        });
        work("back on the sheet", &mut harness, 20, &|harness| {
            harness.key_press(Key::F5);
        });
        work("finding", &mut harness, 40, &|harness| {
            harness.key_press_modifiers(Modifiers::COMMAND, Key::F);
            harness.event(Event::Text("26-01".to_owned()));
        });
        work("left", &mut harness, 10, &|harness| {
            harness.key_press(Key::Escape);
        });
    }
    let app: &App = harness.state().app();
    assert!(
        !app.desk().job().number.is_empty(),
        "saved: {}",
        app.desk().notice
    );
    all
}

/// A job of forty rows.
fn inquiry(desk: &mut Desk) {
    inquire(desk);
    let at = quillbore_desk::grid::GridAt::default();
    let row = |row: usize| {
        let cells = [
            format!("H{row}"),
            "2".to_owned(),
            "0.8 +-0.05".to_owned(),
            format!("{}", 8 + row % 9),
        ];
        cells.map(Some).to_vec()
    };
    let edit = Edit::SetCells {
        at: CellAt {
            row: 0,
            column: Column::Mark,
        },
        rows: (0..40).map(row).collect(),
        unit: Unit::Mm,
    };
    desk.edit(&edit, at, at);
}
