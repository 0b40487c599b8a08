//! What is said of a quotation in another currency than the shop's, and of rates agreed with a customer.

use chrono::NaiveDate;

use crate::typed::form::Form;

/// A rate, or its day, for no currency.
pub const NO_CURRENCY: &str = "There is an exchange rate, or the day of one, but no currency: type the currency \
     of the quotation, or delete them.";

/// Offer: what the shop has agreed with the customer.
pub const TAKE_AGREED: &str = "take what was agreed";

/// The shop has agreed something else with the customer by now.
#[must_use]
pub fn agreed_otherwise(customer: &str, agreed: &str) -> String {
    let agreed: Vec<&str> = agreed.lines().collect();
    let agreed = agreed.join(" / ");
    format!("Agreed with {customer}, by the shop's page: \u{201c}{agreed}\u{201d}.")
}

/// A currency without its rate, and without the day of it.
#[must_use]
pub fn no_rate(own: &str, currency: &str, no_day: bool) -> String {
    let missing = if no_day {
        "The exchange rate and its day are missing"
    } else {
        "The exchange rate is missing"
    };
    format!(
        "{missing}: the quotation is in {currency}. How much {currency} is 1 {own}? Until then prices \
         are in {own}."
    )
}

/// A rate without its day.
#[must_use]
pub fn no_day(own: &str, currency: &str) -> String {
    format!(
        "The day of the exchange rate is missing: the quotation is in {currency}. Until then prices are \
         in {own}."
    )
}

/// A rate for the shop's own currency.
#[must_use]
pub fn not_needed(own: &str) -> String {
    format!("The quotation is in the shop's own currency, {own}: the exchange rate is ignored.")
}

/// A rate that rounds every price to nothing.
#[must_use]
pub fn price_of_nothing(currency: &str) -> String {
    format!("At this exchange rate the price of one part is 0 {currency}: check it.")
}

/// A rate of long ago.
#[must_use]
pub fn old(dated: NaiveDate, days: i64, form: Form) -> String {
    let (dated, days) = (form.day(dated), form.count(days as f64));
    format!("Exchange rate of {dated}, {days} days old: look it up again before you quote.")
}

/// A rate of a day that is still to come.
#[must_use]
pub fn not_come(dated: NaiveDate, form: Form) -> String {
    let dated = form.day(dated);
    format!("Exchange rate of {dated}, a day that has not come yet: check the day.")
}

/// A rate that no two currencies have.
#[must_use]
pub fn odd_rate(currency: &str) -> String {
    format!("No exchange rate into {currency} is that far from 1: check the figure.")
}

/// A rate that may be read as another number.
#[must_use]
pub fn two_ways(typed: &str) -> String {
    let [decimals, thousands] = [typed.replace(',', "."), typed.replace(',', "")];
    format!(
        "\u{201c}{typed}\u{201d} is read as {decimals}, not as {thousands}: type it without the comma."
    )
}

/// A rate with its day, in the working of a price.
#[must_use]
pub fn rate(own: &str, currency: &str, rate: f64, dated: NaiveDate, form: Form) -> String {
    let (rate, dated) = (form.exact(rate), form.day(dated));
    format!("1 {own} = {rate} {currency}, of {dated}")
}

/// Hours that go by what was agreed, in the working of a price; amounts in the shop's own currency.
#[must_use]
pub fn agreed(what: AgreedHour, amount: &str, own: &str) -> String {
    let what = match what {
        AgreedHour::Machine => "machine hour",
        AgreedHour::Labor => "labor hour",
    };
    format!("agreed rate: {amount} {own} per {what}")
}

/// An hour that was agreed on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AgreedHour {
    /// Of a machine.
    Machine,
    /// Of work.
    Labor,
}

/// That amounts were typed when the shop had another currency.
#[must_use]
pub fn amounts_in_other(typed_in: &str, own: &str) -> String {
    format!(
        "Amounts on this sheet were typed in {typed_in}, the shop's currency then; they would count as {own}. Type them anew, then say so."
    )
}

/// That part value, cap and prices were typed for a quotation in another currency.
#[must_use]
pub fn values_in_other(typed_in: &str, counts_in: &str) -> String {
    format!(
        "Part value, cap and prices on this sheet were typed in {typed_in}; the quotation is in {counts_in} now, and they would count in that. Type them anew, or say that they are in {counts_in}."
    )
}

/// Words that say the amounts are in a currency.
#[must_use]
pub fn they_are_in(currency: &str) -> String {
    format!("they are in {currency} now")
}

/// That an order pays in another currency than the sheet reckons in.
#[must_use]
pub fn order_in_other(pays: &str, reckoned: &str) -> String {
    format!(
        "The order pays in {pays}, and the sheet reckons in {reckoned}: prices can't be held against each other, and no confirmation is issued."
    )
}

/// Words that make the sheet reckon in a currency.
#[must_use]
pub fn reckon_in(currency: &str) -> String {
    format!("reckon in {currency}")
}
