//! Workings that multiply: what is shown of the factors comes to what is shown of the result, by a pocket
//! calculator.
#![expect(clippy::expect_used, reason = "helpers of tests fail by panic")]

mod hands;

use hands::{cells, field};
use quillbore_calc::Figure;
use quillbore_calc::figure::CostLine;
use quillbore_job::results::foot::opened;
use quillbore_job::results::results_now;
use quillbore_job::words::speaker::Speaker;
use quillbore_job::{Field, Job, Shop};

/// A row of holes in a part worth something, and how many parts there are.
fn job(row: &[&str], quantity: &str) -> Job {
    let mut job = cells(&Job::default(), 0, row);
    for (name, text) in [
        (Field::Material, "Stainless 316"),
        (Field::Machine, "Wren"),
        (Field::Quantity, quantity),
        (Field::PartValue, "830"),
    ] {
        job = field(&job, name, text);
    }
    job
}

/// The number at the beginning of a text: `7.0498 h`, `2.5 %`, `1,204.50 USD`.
fn number(said: &str) -> f64 {
    let digits: String = {
        let number = said.chars().take_while(|c| !c.is_alphabetic() && *c != '%');
        number.filter(|c| c.is_ascii_digit() || *c == '.').collect()
    };
    let number: f64 = digits.parse().expect("a number");
    if said.contains('%') {
        number / 100.0
    } else {
        number
    }
}

/// What a line of the cost shows: its inputs, and its result.
fn shown(job: &Job, shop: &Shop, line: CostLine) -> (Vec<String>, String) {
    let results = results_now(job, shop);
    let working = opened(job, &results, shop, None, Figure::Cost(line)).expect("a working");
    let speaker = Speaker {
        job,
        tables: &shop.tables,
        unit: job.unit,
        form: shop.form,
    };
    (speaker.inputs(&working), speaker.result(&working))
}

#[test]
fn factors_as_shown_come_to_the_result_as_shown() {
    let mut shop = Shop::embedded().expect("the shop").clone();
    // Rates as an exchange rate leaves them, with no end of digits, and a share with three decimals.
    for exchange in [1.0, 0.92] {
        shop.tables.rates.labor_per_hour /= exchange;
        shop.tables.rates.power_per_hour /= exchange;
        shop.tables.rates.redo_share = 0.042_75;
        for (row, quantity) in [
            // A thin part, a deep hole, a thousand pieces.
            (["A", "1", "0.80 +-0.05", "0.4", "through"], "1"),
            (["A", "3", "1.50 +-0.05", "180", "blind"], "4"),
            (["A", "24", "0.50 +-0.03", "6", "through"], "1000"),
        ] {
            let job = job(&row, quantity);
            for line in [
                CostLine::Machine,
                CostLine::Labor,
                CostLine::Dielectric,
                CostLine::Power,
                CostLine::PartRisk,
            ] {
                let (inputs, result) = shown(&job, &shop, line);
                let [.., one, other] = inputs.as_slice() else {
                    unreachable!("{line:?}: {inputs:?}");
                };
                let product = number(one) * number(other);
                let product = (product * 100.0).round() / 100.0;
                assert!(
                    (product - number(&result)).abs() < 1e-9,
                    "{line:?}: {inputs:?} are {product}, not {result}"
                );
                // No more of them than it takes.
                assert!(one.len() < 16 && other.len() < 20, "{inputs:?}");
            }
            let (inputs, result) = shown(&job, &shop, CostLine::Redo);
            assert_eq!(inputs[0], "4.275 %");
            let lines: f64 = inputs[1..].iter().map(|line| number(line)).sum();
            // Each of the lines is rounded to a cent.
            let off = (0.042_75 * lines - number(&result)).abs();
            assert!(off < 0.006, "{inputs:?}: {result}");
        }
    }
}

/// Whole hours stay whole, and no digit is shown that says nothing.
#[test]
fn factors_have_no_more_digits_than_it_takes() {
    let mut shop = Shop::embedded().expect("the shop").clone();
    shop.tables.rates.labor_per_hour = 0.0;
    let job = job(&["A", "3", "1.50 +-0.05", "12", "through"], "4");
    let (inputs, result) = shown(&job, &shop, CostLine::Labor);
    assert_eq!(number(&result), 0.0);
    let decimals = inputs[0].split_once('.').map_or(0, |(_, part)| part.len());
    assert!(decimals <= "1 h".len(), "{inputs:?}");
}
