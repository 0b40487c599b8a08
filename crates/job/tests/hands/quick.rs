//! What the tests do with a price by telephone.
#![allow(
    dead_code,
    unreachable_pub,
    reason = "each test file uses another part of it"
)]
#![expect(clippy::expect_used, reason = "a helper of tests fails by panic")]

use quillbore_calc::finding::Kind;
use quillbore_calc::job_figures::{Break, PriceFigures};
use quillbore_job::quick::{Quick, QuickAnswer, QuickRange, Says};
use quillbore_job::results::results_now;
use quillbore_job::{Job, Shop};

use super::hands::done;

pub fn shop() -> &'static Shop {
    Shop::embedded().expect("the shop")
}

pub fn quick(texts: [&str; 5]) -> Quick {
    let [material, size, depth, holes, parts] = texts.map(str::to_owned);
    Quick {
        material,
        size,
        depth,
        holes,
        parts,
    }
}

pub fn answer(texts: [&str; 5]) -> QuickAnswer {
    quick(texts).answer(&Job::default(), shop())
}

pub fn range_of(answer: &QuickAnswer) -> Option<QuickRange> {
    match answer.says {
        Says::Range(range) => Some(range),
        _ => None,
    }
}

pub fn range(texts: [&str; 5]) -> QuickRange {
    range_of(&answer(texts)).expect("a range")
}

pub fn stops(texts: [&str; 5]) -> Vec<Kind> {
    match answer(texts).says {
        Says::Stopped(stops) => stops,
        _ => Vec::new(),
    }
}

/// The job that is made of what was typed.
pub fn made(quick: &Quick, base: &Job, shop: &Shop) -> Job {
    let edit = quick.edit(base, shop).expect("an edit");
    done(base, &edit)
}

pub fn priced(job: &Job, shop: &Shop) -> PriceFigures {
    results_now(job, shop).figures.price.expect("a price")
}

pub fn offered(price: &PriceFigures) -> &Break {
    price.breaks.first().expect("the offered quantity")
}
