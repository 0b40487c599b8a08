//! Customers, and what was agreed with them.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use rust_decimal::Decimal;

use crate::typed::field::Field;
use crate::typed::language::Language;

/// A customer.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Customer {
    /// The name, as jobs give it.
    pub name: String,
    /// Whom to talk to.
    pub contact: String,
    /// The lines of the address.
    pub address: Vec<String>,
    /// The mail address.
    pub email: String,
    /// The telephone number.
    pub phone: String,
    /// The number that the shop has there.
    pub their_number: String,
    /// The language of the papers that go there, where it is named.
    pub language: Option<Language>,
    /// The currency of quotations, where it is another than the shop's.
    pub exchange: Option<Exchange>,
    /// Margin on price, 0 to below 1.
    pub margin: Option<f64>,
    /// What an hour of a machine costs [shop's currency].
    pub machine_hour: Option<Decimal>,
    /// What an hour of work costs [shop's currency].
    pub labor_hour: Option<Decimal>,
    /// How parts are sampled or inspected.
    pub sampling: String,
    /// Clauses that go on quotations.
    pub clauses: Vec<String>,
    /// When they pay.
    pub payment: String,
    /// How parts come and go.
    pub delivery: String,
    /// What was typed of the agreement and can't be read, by the field of a job that it would go into: it goes
    /// there as it is, and is told there, too.
    pub unread: BTreeMap<Field, String>,
}

/// A currency that is not the shop's.
#[derive(Clone, Debug, PartialEq)]
pub struct Exchange {
    /// Its ISO 4217 code.
    pub currency: String,
    /// What one unit of the shop's currency is in it; without it nothing is quoted.
    pub rate: Option<Decimal>,
    /// The day of that rate; without it nothing is quoted.
    pub dated: Option<NaiveDate>,
}
