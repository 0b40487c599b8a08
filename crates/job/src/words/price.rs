//! What the price is made of, in words.

use quillbore_calc::job_figures::{Drivers, PriceFigures, TestBurn};

use crate::typed::form::Form;

/// Heads of a spread: its P10, P50 and P90.
pub const BAND: [&str; 3] = ["low", "likely", "high"];

/// What the price rests on.
pub const EXPECTED_COST: &str = "expected cost";

/// What the mean of all that nobody knows yet adds to the cost at the medians.
#[must_use]
pub fn not_yet_known(share: f64, form: Form) -> String {
    let sign = if share < 0.0 { "\u{2212}" } else { "+" };
    format!("not yet known {sign}{}", form.percent(share.abs()))
}

/// Lines in which the risk of a price is said.
pub const RISK_LINES: usize = 3;

/// What the price of the offered quantity risks, sentence by sentence; nothing until the lot was drawn.
///
/// A percentage is said once the shop's own runs have narrowed the cost; until then a range.
#[must_use]
pub fn risk(price: &PriceFigures, minor_digits: u32, form: Form) -> Vec<String> {
    let Some(risk) = &price.risk else {
        return Vec::new();
    };
    let each = form.money(risk.each_at_a_tenth, minor_digits);
    let whole = |cost: f64| form.money(cost, 0);
    let first = if price.calibrated {
        let [full, paid_out] = [risk.below_full_cost, risk.below_paid_out].map(chance);
        format!(
            "Chance of a loss: {full}; of not even covering out-of-pocket cost: {paid_out}. The chance of a \
             loss is one in ten at {each} each."
        )
    } else {
        let [low, high] = [price.lot_cost.p10, price.lot_cost.p90].map(whole);
        format!(
            "The lot costs {low} to {high}: not calibrated, so no chance of a loss is given. Nine lots in \
             ten cost less than {each} each."
        )
    };
    let Drivers {
        burn,
        wear,
        handling,
        rest,
    } = risk.drivers;
    let mut drivers = [
        ("burn time", burn),
        ("wear", wear),
        ("handling", handling),
        ("the rest", rest),
    ];
    drivers.sort_by(|a, b| b.1.total_cmp(&a.1));
    let drivers = drivers.map(|(what, share)| format!("{what} {}", form.percent_rough(share)));
    let mut said = vec![
        first,
        format!("The spread comes from {}.", drivers.join(", ")),
    ];
    let [none, burns @ ..] = &risk.test_burns;
    let width = |burn: &TestBurn| burn.p90 - burn.p10;
    // What narrows by less than a twentieth is not worth a piece.
    let worth: Vec<String> = (burns.iter())
        .filter(|burn| width(burn) < 0.95 * width(none))
        .map(|burn| {
            // Held against the range that stands above: what a burn narrows is a share of it.
            let lot = &price.lot_cost;
            let low = whole(lot.p10 * burn.p10 / none.p10);
            let high = whole(lot.p90 * burn.p90 / none.p90);
            let noun = if burn.holes == 1 { "hole" } else { "holes" };
            format!("with {} {noun} to {low} to {high}", burn.holes)
        })
        .collect();
    said.push(if worth.is_empty() {
        "A test burn would hardly narrow it.".to_owned()
    } else {
        let [low, high] = [price.lot_cost.p10, price.lot_cost.p90].map(whole);
        format!(
            "A test burn would narrow {low} to {high}: {}.",
            worth.join(", ")
        )
    });
    said
}

/// A chance, never said to be none or certain.
fn chance(share: f64) -> String {
    match share {
        none if none < 0.01 => "under 1 %".to_owned(),
        sure if sure > 0.99 => "over 99 %".to_owned(),
        share => format!("{:.0} %", share * 100.0),
    }
}

/// That a margin is hardly meant.
#[must_use]
pub(crate) fn margin_odd(margin: f64, times: f64, form: Form) -> String {
    format!(
        "At a margin of {} the price is {} times the cost: see that it is meant, here, in the agreement \
         with the customer or in the rates.",
        form.percent(margin),
        form.count(libm::round(times))
    )
}

/// That an hour of a machine costs nothing.
#[must_use]
pub(crate) fn machine_hour_free(machine: &str) -> String {
    format!(
        "An hour of {machine} costs nothing here: see that it is meant, in the agreement with the customer, \
         in the rates or in the machine's row."
    )
}

/// That the first rate card counts before its day.
pub(crate) fn rates_not_yet(from: &str) -> String {
    format!("No rate card is in force yet: the first one, of {from}, counts before its day.")
}

/// That an hour of work costs nothing.
#[must_use]
pub(crate) const fn labor_hour_free() -> &'static str {
    "An hour of labor costs nothing here: see that it is meant, in the agreement with the customer or in the rates."
}
