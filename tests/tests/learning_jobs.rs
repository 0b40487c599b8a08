//! Run records through the whole calculation: a thousand shops whose truth is richer than what the
//! program believes of shops, and in each the hours, the wear and the cost of a lot to come.
#![expect(clippy::expect_used, reason = "helpers of tests fail by panic")]

use quillbore_calc::learn::Evidence;
use quillbore_job::Shop;
use quillbore_tests::shops::{Chance, MONTHS, TrueShop};
use quillbore_tests::shops_jobs::{Told, came_true, foretold, job_of, record_of, tables_of};

const SHOPS: u64 = 1_000;
const COUNTS: [u32; 5] = [0, 1, 3, 10, 30];

/// How predictions came out at one number of records.
#[derive(Clone, Debug, Default)]
struct Outcome {
    lots: usize,
    held: [usize; 3],
    hours_off: Vec<f64>,
}

impl Outcome {
    fn add(&mut self, told: &Told<[f64; 3]>, came: &Told<f64>) {
        self.lots += 1;
        let all = [
            (told.hours, came.hours),
            (told.wear, came.wear),
            (told.cost, came.cost),
        ];
        for (held, ([low, _, high], came)) in self.held.iter_mut().zip(all) {
            *held += usize::from(low <= came && came <= high);
        }
        self.hours_off
            .push(libm::log(came.hours / told.hours[1]).abs());
    }

    fn shares(&self) -> [f64; 3] {
        self.held.map(|held| held as f64 / self.lots as f64)
    }

    fn median_error(&self) -> f64 {
        let mut off = self.hours_off.clone();
        off.sort_by(f64::total_cmp);
        off[off.len() / 2]
    }
}

/// One shop: the lot to come foretold by ever more records, half of them of its own grade.
fn one_shop(seed: u64, outcomes: &mut [Outcome; 5]) {
    let shop = Shop::embedded().expect("the shop");
    let tables = tables_of(&shop.tables);
    let mut chance = Chance::new(seed);
    let truth = TrueShop::new(&mut chance);
    let of = (chance.below(6) as u32, chance.below(4) as u32);
    let mut lot = truth.lot(Some(of), MONTHS, &mut chance);
    let input = job_of(&mut lot, &tables, &mut chance);
    let comes_out = truth.comes_out(&lot, &mut chance);
    let beside = truth.beside(&mut chance);
    let came = came_true(&input, &tables, &lot, comes_out, beside).expect("a lot");
    let mut evidence: Vec<Evidence> = Vec::new();
    let mut number = 0;
    for (count, outcome) in COUNTS.into_iter().zip(outcomes) {
        while number < 2 * count {
            let of = (number % 2 == 0).then_some(of);
            let mut past = truth.lot(of, chance.below(MONTHS - 2), &mut chance);
            evidence.extend(record_of(&truth, &mut past, number, &tables, &mut chance));
            number += 1;
        }
        let told = foretold(&input, &tables, &evidence).expect("figures");
        outcome.add(&told, &came);
    }
}

fn some_shops(first: u64) -> [Outcome; 5] {
    let mut outcomes = <[Outcome; 5]>::default();
    for seed in (first..SHOPS).step_by(2) {
        one_shop(seed, &mut outcomes);
    }
    outcomes
}

#[test]
fn hours_wear_and_cost_hold_what_they_say() {
    let (mut outcomes, others) = std::thread::scope(|scope| {
        let even = scope.spawn(|| some_shops(0));
        let odd = scope.spawn(|| some_shops(1));
        (even.join().expect("a half"), odd.join().expect("a half"))
    });
    for (outcome, other) in outcomes.iter_mut().zip(others) {
        outcome.lots += other.lots;
        outcome.hours_off.extend(other.hours_off);
        for (held, more) in outcome.held.iter_mut().zip(other.held) {
            *held += more;
        }
    }
    let start = outcomes[0].median_error();
    for (count, outcome) in COUNTS.into_iter().zip(&outcomes) {
        let [hours, wear, cost] = outcome.shares();
        let error = outcome.median_error() / start;
        println!(
            "{count:>3} records: hours {hours:.3}, wear {wear:.3}, cost {cost:.3} held; error {error:.3}"
        );
    }
    for (count, outcome) in COUNTS.into_iter().zip(&outcomes) {
        // Goals of the project, not of any source.
        let most = match count {
            0 | 1 => 1.0,
            3 => 0.75,
            _ => 0.65,
        };
        assert!(
            outcome.median_error() <= most * start,
            "{count} records: {outcome:?}"
        );
        for share in outcome.shares() {
            assert!(
                (0.75..=0.85).contains(&share),
                "{count} records: {outcome:?}"
            );
        }
    }
}
