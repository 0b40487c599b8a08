//! The shop as a job goes by it: the rates agreed with its customer, and the currency of its quotation.

use std::borrow::Cow;
use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_calc::Tables;
use rust_decimal::prelude::ToPrimitive as _;

use super::minor::{is_step, minor_digits};
use super::rows::Shop;
use crate::job::Job;
use crate::typed::field::{Field, Value};

/// What a job agreed with its customer, and the shop without it.
#[derive(Clone, Debug, PartialEq)]
pub struct GoesBy {
    /// What was agreed.
    pub agreed: Agreed,
    /// The shop as it stands, in its own currency.
    of: Arc<Shop>,
}

/// What a job says of rates and currency, as far as it can be gone by.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Agreed {
    /// What an hour of any machine costs [shop's currency].
    pub machine_hour: Option<f64>,
    /// What an hour of work costs [shop's currency].
    pub labor_hour: Option<f64>,
    /// The currency of the quotation.
    pub exchange: Option<QuotedIn>,
}

/// The currency of a quotation that is not the shop's.
#[derive(Clone, Debug, PartialEq)]
pub struct QuotedIn {
    /// Its ISO 4217 code.
    pub currency: String,
    /// What one unit of the shop's currency is in it.
    pub rate: f64,
    /// The day of that rate.
    pub dated: NaiveDate,
}

impl Agreed {
    /// What a job says that a shop of this currency can go by: another currency counts with its rate
    /// and its day alone.
    fn of(job: &Job, own_currency: &str) -> Self {
        let hour = |field| job.field(field).value().and_then(Value::money);
        let hour = |field| hour(field).and_then(|amount| amount.to_f64());
        let quoted_in = || {
            let currency = job.field(Field::Currency).value()?.text()?;
            Some(QuotedIn {
                currency: currency.to_owned(),
                rate: job.field(Field::ExchangeRate).value()?.number()?,
                dated: job.date(Field::ExchangeDay)?,
            })
        };
        Self {
            machine_hour: hour(Field::AgreedMachineHour),
            labor_hour: hour(Field::AgreedLaborHour),
            exchange: quoted_in().filter(|quoted| quoted.currency != own_currency),
        }
    }
}

impl Shop {
    /// The shop as a job goes by it: the hours agreed with the customer in place of the card's, and all
    /// money in the currency of the quotation.
    ///
    /// Where the job says nothing of these it is the shop itself; it may be one that goes by another
    /// job already.
    #[must_use]
    pub fn for_job(&self, job: &Job) -> Cow<'_, Self> {
        let own = self.own();
        let agreed = Agreed::of(job, &own.tables.rates.currency);
        match &self.goes_by {
            None if agreed == Agreed::default() => Cow::Borrowed(self),
            Some(goes_by) if goes_by.agreed == agreed => Cow::Borrowed(self),
            Some(_) if agreed == Agreed::default() => Cow::Borrowed(own),
            _ => Cow::Owned(own.going_by(agreed)),
        }
    }

    /// The shop as it stands, whatever job it goes by: all money is in its own currency.
    #[must_use]
    pub fn own(&self) -> &Self {
        self.goes_by.as_ref().map_or(self, |goes_by| &goes_by.of)
    }

    /// The same with the hours that were agreed, in its own currency all the same.
    #[must_use]
    pub fn in_own_currency(&self) -> Cow<'_, Self> {
        match &self.goes_by {
            Some(GoesBy { agreed, of }) if agreed.exchange.is_some() => {
                let exchange = None;
                Cow::Owned(of.going_by(Agreed {
                    exchange,
                    ..agreed.clone()
                }))
            }
            _ => Cow::Borrowed(self),
        }
    }

    /// The currency that it quotes in, where that is not its own.
    #[must_use]
    pub fn quoted_in(&self) -> Option<&QuotedIn> {
        self.goes_by.as_ref()?.agreed.exchange.as_ref()
    }

    /// An amount of the shop's own currency in the one that it quotes in.
    #[must_use]
    pub fn exchanged(&self, amount: f64) -> f64 {
        self.quoted_in()
            .map_or(amount, |quoted| amount * quoted.rate)
    }

    fn going_by(&self, agreed: Agreed) -> Self {
        let mut tables = self.tables.clone();
        if let Some(labor) = agreed.labor_hour {
            tables.rates.labor_per_hour = labor;
        }
        if let Some(rate) = agreed.machine_hour {
            for machine in &mut tables.machines {
                machine.rate_per_hour = rate;
            }
        }
        if let Some(quoted) = &agreed.exchange {
            exchange(&mut tables, quoted);
        }
        Self {
            tables,
            goes_by: Some(GoesBy {
                agreed,
                of: Arc::new(self.clone()),
            }),
            ..self.clone()
        }
    }
}

/// Puts all money of the tables into another currency. The price step is a habit of the shop's prices,
/// not an amount: it stays where the other currency has it.
fn exchange(tables: &mut Tables, quoted: &QuotedIn) {
    let rate = quoted.rate;
    let rates = &mut tables.rates;
    rates.currency.clone_from(&quoted.currency);
    rates.minor_digits = minor_digits(&quoted.currency);
    for amount in [
        &mut rates.labor_per_hour,
        &mut rates.dielectric_per_hour,
        &mut rates.power_per_hour,
        &mut rates.minimum_charge,
    ] {
        *amount *= rate;
    }
    rates.try_charge = rates.try_charge.map(|charge| charge * rate);
    let digits = rates.minor_digits;
    rates.price_step = rates.price_step.filter(|step| is_step(*step, digits));
    let tubes = tables.tubes.iter_mut().map(|tube| &mut tube.price);
    let guides = tables.guides.iter_mut().map(|guide| &mut guide.price);
    let machines = tables.machines.iter_mut();
    let machines = machines.map(|machine| &mut machine.rate_per_hour);
    for amount in tubes.chain(guides).chain(machines) {
        *amount *= rate;
    }
}
