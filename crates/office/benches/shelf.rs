//! A shelf of 50,000 jobs in memory: each key of a search, the jobs most like one, the cache, and
//! what one save costs the list. Where it is only tried, as `cargo test --benches` does, it takes 200.
#![expect(clippy::unwrap_used, reason = "a bench fails by panic")]

mod many;
#[path = "many/searched.rs"]
mod searched;

use std::hint::black_box;
use std::sync::Arc;

use criterion::{BatchSize, Criterion, criterion_group, criterion_main};
use quillbore_calc::Idx;
use quillbore_calc::tables::Family;
use quillbore_job::file::write_job;
use quillbore_office::digest::{Follower, Index, ShelfLine, Wanted, half_joint, similar};
use quillbore_office::shelf::{Commit, Doc, Mark, Memory, Shelf};

use many::{MATERIALS, jobs};
use searched::{find, job, key};

/// A shelf in memory, and what is known of it.
fn followed() -> Follower {
    let shelf = Memory::marked(Mark::of([7; 16]));
    for at in 0..jobs() {
        let job = job(at);
        let bytes = write_job(&job).into_bytes();
        let commit = Commit::one(Doc::Job(key(&job)), bytes, None);
        shelf.commit(&commit).unwrap();
    }
    let mut follower = Follower::default();
    follower.look(&shelf, &mut |_| true).unwrap();
    follower
}

fn searches(criterion: &mut Criterion, index: &Index) {
    for typed in [
        "",
        "a",
        "al",
        "ald",
        "alder",
        "alder 4-1",
        "26",
        "26-0",
        "PO 71",
        "ask before",
        "zzz",
    ] {
        criterion.bench_function(&format!("find {typed:?} in 50000"), |bench| {
            bench.iter(|| find(index, black_box(typed)));
        });
    }
    let wanted = Wanted {
        number: "20-0001",
        family: Some(Family::Nickel),
        material: Some(Idx::new(0)),
        size_mm: Some(0.8),
        depth_mm: Some(14.0),
        quantity: Some(25),
    };
    let family_of = |name: &str| {
        let at = MATERIALS.iter().position(|material| *material == name)?;
        let family = [
            Family::Nickel,
            Family::Steel,
            Family::ToolSteel,
            Family::Carbide,
        ][at];
        Some((Idx::new(at), family))
    };
    criterion.bench_function("the five most alike of 50000", |bench| {
        bench.iter(|| similar(index, black_box(&wanted), &family_of, 5));
    });
}

/// What a window does when it opens a job.
fn openings(criterion: &mut Criterion, index: &Index) {
    criterion.bench_function("half-done joint quotations of 50000", |bench| {
        bench.iter(|| half_joint(black_box(&index.lines)).len());
    });
}

/// What a window does when a job of its own was saved: digest, list, search, all on its own thread.
fn saves(criterion: &mut Criterion, index: &Index) {
    let changed = job(jobs() / 2);
    let key = key(&changed);
    let save = |index: &mut Arc<Index>, follower: &mut Follower| {
        let line = follower.took(&key, black_box(&changed));
        Arc::make_mut(index).put(line);
        find(index, black_box("alder 4-1"))
    };
    let mut follower = Follower::default();
    criterion.bench_function("a save of one job among 50000", |bench| {
        let mut index = Arc::new(index.clone());
        bench.iter(|| save(&mut index, &mut follower));
    });
    criterion.bench_function("the same, while somebody else reads the list", |bench| {
        let shared = Arc::new(index.clone());
        let another = || Arc::clone(&shared);
        bench.iter_batched(
            another,
            |mut index| save(&mut index, &mut follower),
            BatchSize::PerIteration,
        );
    });
    // As many fresh lines as there may be before a new base is made.
    let mut crowded = index.clone();
    for at in 0..200 {
        let job = job(at * 240);
        crowded.put(Arc::new(ShelfLine::of(&self::key(&job), &job)));
    }
    criterion.bench_function("the same, after 200 other saves", |bench| {
        let mut index = Arc::new(crowded.clone());
        bench.iter(|| save(&mut index, &mut follower));
    });
}

fn shelf(criterion: &mut Criterion) {
    let mut follower = followed();
    let lines = follower.lines();
    let index = Index::new(lines.clone());
    searches(criterion, &index);
    openings(criterion, &index);
    saves(criterion, &index);
    let bytes = follower.to_cache();
    criterion.bench_function("read the cache of 50000", |bench| {
        bench.iter(|| Follower::from_cache(black_box(&bytes)).unwrap().len());
    });
    criterion.bench_function("index of 50000", |bench| {
        bench.iter(|| Index::new(black_box(&lines).clone()).lines.len());
    });
    criterion.bench_function("index of 50000 brought up to one change", |bench| {
        let mut index = index.clone();
        let mut changed = lines.clone();
        let job = job(jobs() / 2);
        changed[0] = Arc::new(ShelfLine::of(&key(&job), &job));
        let ways = [changed, lines.clone()];
        let mut turns = (0..2).cycle();
        bench.iter(|| {
            let turn = turns.next().unwrap_or(0);
            index.follow(ways[turn].clone());
            index.lines.len()
        });
    });
}

criterion_group!(benches, shelf);
criterion_main!(benches);
