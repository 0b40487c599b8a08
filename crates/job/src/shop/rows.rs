//! What a shop is: its texts, its tables, its rate cards.

use std::collections::BTreeMap;
use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_calc::tables::{Material, Rates};
use quillbore_calc::{Idx, Tables};

use super::bad_cards::BadCard;
use super::calendar::Calendar;
use super::customer::Customer;
use super::goes_by::GoesBy;
use super::logo::Logo;
use super::plain::plain;
use super::sheet::ShopNote;
use crate::ground::stands_in::StandsIn;
use crate::life::drawer::Thing;
use crate::typed::form::Form;

/// One shop.
#[derive(Clone, Debug, PartialEq)]
pub struct Shop {
    /// Its name, as papers print it.
    pub name: String,
    /// The lines of its address.
    pub address: Vec<String>,
    /// How customers reach it.
    pub identity: Identity,
    /// Its logo, where it has one.
    pub logo: Option<Arc<Logo>>,
    /// Its customers, by their names.
    pub customers: Vec<Customer>,
    /// What its papers say beside the figures.
    pub texts: Texts,
    /// Plus or minus where neither row nor drawing gives limits [mm].
    pub usual_tolerance_mm: f64,
    /// When it works.
    pub calendar: Calendar,
    /// What the calculation asks for, with the newest rate card; [`Shop::tables_on`] goes by a day.
    ///
    /// Materials are sorted by name, tubes by outer diameter, guides by tube diameter.
    pub tables: Tables,
    /// The day whose rates its tables go by, where they were asked for a day.
    pub day: Option<NaiveDate>,
    /// What a job agreed with its customer, where the tables go by that; see [`Shop::for_job`].
    pub goes_by: Option<GoesBy>,
    /// Where the rows come from.
    pub pedigree: Pedigree,
    /// The days on which electrodes and guides were counted, by their names.
    pub counted: BTreeMap<(Thing, String), NaiveDate>,
    /// Whether its papers are laid out for letter rather than A4, where it says which.
    pub on_letter: Option<bool>,
    /// Whether its papers are printed on both sides of a sheet.
    pub on_both_sides: bool,
    /// How it writes numbers and days.
    pub form: Form,
    /// What of its sheet can't be used, and why.
    pub not_used: Vec<ShopNote>,
    /// What papers would print of a sample; see [`Shop::stands_in`].
    pub(super) samples_say: Vec<StandsIn>,
    /// Its rate cards that can't be used as they are typed.
    pub(super) bad_cards: Vec<BadCard>,
    /// Rates of a sheet are still as in the samples.
    pub(super) sample_rates: bool,
    pub(super) earlier_rates: Vec<RateCard>,
    pub(super) newest_rates: RateCard,
    pub(super) also: BTreeMap<String, Idx<Material>>,
    pub(super) other_names: Vec<Vec<String>>,
}

/// How customers reach a shop, and what papers have to show beside its name.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Identity {
    /// Whom customers ask.
    pub contact: String,
    /// The telephone number.
    pub phone: String,
    /// The mail address.
    pub email: String,
    /// A number that papers have to show, such as one of the tax office.
    pub registration: String,
}

/// What a shop's papers say beside the figures.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Texts {
    /// Terms of a quotation.
    pub terms: Vec<String>,
    /// What a quotation leaves out unless it says otherwise.
    pub exclusions: Vec<String>,
    /// Cautions that the shop adds to the program's own.
    pub cautions: Vec<String>,
}

/// Where the rows of a shop come from, in the order of its tables.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Pedigree {
    /// Density, resistivity and hazards of each material.
    pub materials: Vec<String>,
    /// Feed and wear of each material.
    pub process: Vec<String>,
    /// Each tube.
    pub tubes: Vec<String>,
    /// Each guide.
    pub guides: Vec<String>,
    /// Each machine.
    pub machines: Vec<String>,
    /// Each start value, by its name in the calculation's tables.
    pub start: BTreeMap<&'static str, String>,
}

/// A rate card.
#[derive(Clone, Debug, PartialEq)]
pub struct RateCard {
    /// The first day that it is in force.
    pub valid_from: NaiveDate,
    /// Its rates.
    pub rates: Rates,
    /// The rate of each machine [per hour].
    pub machines_per_hour: BTreeMap<String, f64>,
    /// Where it comes from.
    pub pedigree: String,
}

impl Shop {
    /// The rate card in force on a day; before the first one's day, the first one.
    #[must_use]
    pub fn rates_on(&self, day: NaiveDate) -> &RateCard {
        if self.newest_rates.valid_from <= day {
            return &self.newest_rates;
        }
        let in_force = self
            .earlier_rates
            .iter()
            .rfind(|card| card.valid_from <= day);
        in_force
            .or_else(|| self.earlier_rates.first())
            .unwrap_or(&self.newest_rates)
    }

    /// The shop as it is on a day: its tables with the rates in force then.
    #[must_use]
    pub fn on(&self, day: NaiveDate) -> Self {
        Self {
            tables: self.tables_on(day),
            day: Some(day),
            ..self.clone()
        }
    }

    /// The tables with the rates in force on a day.
    #[must_use]
    pub fn tables_on(&self, day: NaiveDate) -> Tables {
        self.tables_with(self.rates_on(day))
    }

    /// Whether its rates are still those that come with the program.
    #[must_use]
    pub fn has_sample_rates(&self) -> bool {
        self.sample_rates
            || Self::embedded().is_ok_and(|sample| {
                self.newest_rates == sample.newest_rates
                    && self.earlier_rates == sample.earlier_rates
            })
    }

    /// The material that a text names: by its own name, a number or another name, capitals, blanks
    /// and signs aside.
    #[must_use]
    pub fn material(&self, text: &str) -> Option<Idx<Material>> {
        self.also.get(&plain(text)).copied()
    }

    /// Whether it knows the same materials by the same names as another shop.
    #[must_use]
    pub fn names_materials_as(&self, other: &Self) -> bool {
        self.also == other.also
    }

    /// Other names that a material goes by; the first ones are those that customers write.
    #[must_use]
    pub fn other_names(&self, material: Idx<Material>) -> &[String] {
        material
            .beside(&self.other_names)
            .map_or(&[], Vec::as_slice)
    }

    /// The materials that have every word of a text in one of their names, in the list's order.
    #[must_use]
    pub fn materials_like(&self, text: &str) -> Vec<Idx<Material>> {
        let words: Vec<String> = text.split_whitespace().map(plain).collect();
        let fits = |name: &str| {
            let name = plain(name);
            words.iter().all(|word| name.contains(word.as_str()))
        };
        let rows = self.tables.materials.iter().zip(&self.other_names);
        rows.enumerate()
            .filter(|(_, (row, others))| fits(&row.name) || others.iter().any(|name| fits(name)))
            .map(|(at, _)| Idx::new(at))
            .collect()
    }

    pub(super) fn tables_with(&self, card: &RateCard) -> Tables {
        let mut tables = self.tables.clone();
        tables.rates = card.rates.clone();
        for machine in &mut tables.machines {
            if let Some(rate) = card.machines_per_hour.get(&machine.name) {
                machine.rate_per_hour = *rate;
            }
        }
        tables
    }
}
