//! What goes into a working, each with as many digits as it takes to come to its result by hand.

use quillbore_calc::figure::{Formula, Input, Name, Origin, Quantity, Unit, Working};

use super::speaker::Speaker;
use crate::typed::form::hours_decimals;

/// Most digits beyond the usual ones: no amount of a lot asks for more.
const MOST_DIGITS: usize = 9;

/// Further decimals of a share that somebody typed: as it was typed.
const OF_TYPED_SHARE: usize = 3;

impl Speaker<'_> {
    /// What each input of a working says. Where inputs are multiplied, those that are rounded have as many
    /// digits as it takes for their product to be the result as it is shown.
    #[must_use]
    pub fn inputs(&self, working: &Working) -> Vec<String> {
        let result = self.said(working.result);
        let gives = |digits: &usize| {
            let product = product(working, |input| self.factor(input, *digits).1);
            product.is_none_or(|value| {
                let unit = working.result.unit;
                self.said(Quantity { value, unit }) == result
            })
        };
        // Where no number of digits does, as over rounded sums, the usual ones do.
        let digits = (0..=MOST_DIGITS).find(gives).unwrap_or(0);
        let inputs = working.inputs.iter();
        inputs.map(|input| self.factor(input, digits).0).collect()
    }

    /// An input with some digits beyond the usual ones, and the number that this says.
    fn factor(&self, input: &Input, more: usize) -> (String, f64) {
        let Quantity { value, unit } = input.value;
        let form = self.form;
        if let Name::StopsOn(_) = input.name {
            let stops = if value == 1.0 { "stop" } else { "stops" };
            return (format!("{} {stops}", form.count(value)), value);
        }
        match unit {
            Unit::Hour => {
                let least = hours_decimals(value);
                let most = least + more;
                let said = format!("{} h", form.between(value, least, most));
                (said, rounded(value, most))
            }
            Unit::MoneyPerHour => {
                let rates = &self.tables.rates;
                let least = usize::try_from(rates.minor_digits).unwrap_or(0);
                let most = least + more;
                let number = rounded(value, most);
                if number == rounded(value, least) {
                    return (self.quantity(value, unit), number);
                }
                let amount = form.between(value, least, most);
                (format!("{amount} {}/h", rates.currency), number)
            }
            Unit::Share => {
                let is_given = matches!(input.origin, Origin::RateCard | Origin::Typed);
                let most = 1 + if is_given { OF_TYPED_SHARE } else { more };
                let said = format!("{} %", form.between(value * 100.0, 0, most));
                (said, rounded(value * 100.0, most) / 100.0)
            }
            Unit::Number => {
                let significant = 3 + more;
                let digits = significant - 1;
                let number = format!("{value:.digits$e}").parse().unwrap_or(value);
                (form.number(value, significant), number)
            }
            _ => (self.quantity(value, unit), value),
        }
    }
}

/// What the inputs of a working come to where it multiplies; none where it doesn't.
fn product(working: &Working, number: impl Fn(&Input) -> f64) -> Option<f64> {
    let numbers = working.inputs.iter().map(number);
    let numbers: Vec<f64> = numbers.collect();
    match (working.formula, numbers.as_slice()) {
        (Formula::ByTheHour, [hours, rate]) => Some(hours * rate),
        (Formula::RedoneWork, [share, lines @ ..]) => Some(share * lines.iter().sum::<f64>()),
        (Formula::PartAtRisk, [.., stake, spoiled]) => Some(stake * spoiled),
        _ => None,
    }
}

fn rounded(value: f64, decimals: usize) -> f64 {
    format!("{value:.decimals$}").parse().unwrap_or(value)
}
