//! The shop: its name and texts, what it has and what it knows, each row with its pedigree.
//!
//! The project's assets describe an invented shop; a shop's own file, in the same form, puts its
//! rows in their place.

mod build;
mod calendar;
mod disk;
mod error;
mod start;

use std::collections::BTreeMap;
use std::sync::OnceLock;

use chrono::NaiveDate;
use quillbore_calc::Tables;
use quillbore_calc::tables::Rates;

pub use calendar::Calendar;
pub use error::ShopError;

/// The project's assets, laid over each other in this order.
const ASSETS: [&str; 7] = [
    include_str!("../../../../assets/shop.ron"),
    include_str!("../../../../assets/materials.ron"),
    include_str!("../../../../assets/tubes.ron"),
    include_str!("../../../../assets/guides.ron"),
    include_str!("../../../../assets/machines.ron"),
    include_str!("../../../../assets/rates.ron"),
    include_str!("../../../../assets/start.ron"),
];

/// One shop.
#[derive(Clone, Debug, PartialEq)]
pub struct Shop {
    /// Its name, as papers print it.
    pub name: String,
    /// The lines of its address.
    pub address: Vec<String>,
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
    /// Where the rows come from.
    pub pedigree: Pedigree,
    earlier_rates: Vec<RateCard>,
    newest_rates: RateCard,
    also: BTreeMap<String, usize>,
    other_names: Vec<Vec<String>>,
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
    /// The invented shop of the project's assets.
    ///
    /// # Errors
    /// Where the assets that were built in can't be read; a test proves that they can.
    pub fn embedded() -> Result<&'static Self, ShopError> {
        static SHOP: OnceLock<Result<Shop, ShopError>> = OnceLock::new();
        SHOP.get_or_init(|| build::build(embedded_file()?))
            .as_ref()
            .map_err(Clone::clone)
    }

    /// The embedded shop with a shop's own file laid over it: rows of the same name are replaced,
    /// others added, those named under `without` left out; its rate cards replace all others.
    ///
    /// # Errors
    /// Where the file is not one of ours or a row of it can't be; nothing is taken from it then.
    pub fn with_file(own: &[u8]) -> Result<Self, ShopError> {
        let own = disk::read(own)?;
        build::build(embedded_file()?.laid_under(own)?)
    }

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

    /// The tables with the rates in force on a day.
    #[must_use]
    pub fn tables_on(&self, day: NaiveDate) -> Tables {
        self.tables_with(self.rates_on(day))
    }

    /// The material that a text names: by its own name, a number or another name, capitals, blanks
    /// and signs aside.
    #[must_use]
    pub fn material(&self, text: &str) -> Option<usize> {
        self.also.get(&plain(text)).copied()
    }

    /// Other names that a material goes by; the first ones are those that customers write.
    #[must_use]
    pub fn other_names(&self, material: usize) -> &[String] {
        self.other_names.get(material).map_or(&[], Vec::as_slice)
    }

    /// The materials that have every word of a text in one of their names, in the list's order.
    #[must_use]
    pub fn materials_like(&self, text: &str) -> Vec<usize> {
        let words: Vec<String> = text.split_whitespace().map(plain).collect();
        let fits = |name: &str| {
            let name = plain(name);
            words.iter().all(|word| name.contains(word.as_str()))
        };
        let rows = self.tables.materials.iter().zip(&self.other_names);
        rows.enumerate()
            .filter(|(_, (row, others))| fits(&row.name) || others.iter().any(|name| fits(name)))
            .map(|(at, _)| at)
            .collect()
    }

    fn tables_with(&self, card: &RateCard) -> Tables {
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

fn embedded_file() -> Result<disk::ShopFile, ShopError> {
    let mut file = disk::ShopFile::default();
    for asset in ASSETS {
        file = file.laid_under(disk::read(asset.as_bytes())?)?;
    }
    Ok(file)
}

/// A name without what people write in several ways: case, blanks, signs, "UNS" and "W.-Nr.".
fn plain(name: &str) -> String {
    let letters: Vec<char> = name.chars().flat_map(char::to_lowercase).collect();
    let is_digit = |at: Option<usize>| {
        at.and_then(|at| letters.get(at))
            .is_some_and(char::is_ascii_digit)
    };
    let kept = letters.iter().enumerate().filter(|(at, letter)| {
        let point = **letter == '.' && is_digit(at.checked_sub(1)) && is_digit(Some(at + 1));
        letter.is_alphanumeric() || point
    });
    let plain: String = kept.map(|(_, letter)| *letter).collect();
    let plain = plain
        .replace("aluminium", "aluminum")
        .replace("stainlesssteel", "stainless");
    // A number of EN 10027-2 such as 1.4301, and a number of the unified system such as S30400.
    const BEFORE_A_NUMBER: [&str; 7] = [
        "werkstoffnummer",
        "werkstoffnr",
        "wnr",
        "matnr",
        "din",
        "en",
        "uns",
    ];
    let number = BEFORE_A_NUMBER.into_iter().find_map(|word| {
        let rest = plain.strip_prefix(word)?;
        let is_en = rest.get(1..2) == Some(".") && rest.starts_with(|c: char| c.is_ascii_digit());
        let is_uns = rest.len() == 6 && rest.get(1..)?.bytes().all(|c| c.is_ascii_digit());
        (is_en || is_uns).then(|| rest.to_owned())
    });
    number.unwrap_or(plain)
}
