//! A quick price as the running sentence of the foot, in pieces that can be pressed.

use quillbore_calc::price::money;
use quillbore_calc::tables::Rates;
use rust_decimal::Decimal;

use super::answer::{QuickAnswer, Says};
use super::assumed::Assumed;
use super::range::{Minimum, QuickRange};
use crate::job::Job;
use crate::shop::rows::Shop;
use crate::shop::unknown::UnknownName;
use crate::typed::form::Form;
use crate::typed::quick::{LeadsTo, Quick};
use crate::words::foot;
use crate::words::quick as words;
use crate::words::speaker::Speaker;

/// Most assumptions that one sentence names.
const MOST_SAID: usize = 4;

/// A piece of what is said; one that leads somewhere can be pressed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Told {
    /// The words.
    pub text: String,
    /// Where somebody would say otherwise.
    pub leads_to: Option<LeadsTo>,
}

impl QuickAnswer {
    /// What the range rests on; empty where there is none.
    #[must_use]
    pub fn rests_told(&self, quick: &Quick) -> String {
        let material = quick.material.trim();
        let rests = self
            .rests
            .map(|rests| foot::rests_on(rests, Some(material)));
        rests.unwrap_or_default()
    }

    /// The running sentence: the range, machine hours, and the first few assumptions.
    #[must_use]
    pub fn told(&self, quick: &Quick, base: &Job, shop: &Shop) -> Vec<Told> {
        let speaker = speaker(base, shop);
        let said = match &self.says {
            Says::Nothing => return Vec::new(),
            Says::Missing(fields) => words::missing(fields),
            Says::Unread(fields) => {
                let sentences = fields
                    .iter()
                    .map(|(field, why)| words::unread(*field, quick.text(*field), why));
                sentences.collect::<Vec<_>>().join(" ")
            }
            Says::UnknownMaterial => {
                let name = quick.material.trim().to_owned();
                speaker.unknown(&UnknownName::Material(name))
            }
            Says::ManyMaterials(number) => words::many_materials(&quick.material, *number),
            Says::Refused(refused) => words::refused(refused),
            Says::SheetUnread => words::SHEET_UNREAD.to_owned(),
            Says::Stopped(stops) => {
                let first = stops.first().map(|kind| speaker.finding(kind));
                words::stopped(first.as_deref())
            }
            Says::Range(range) => range_said(range, &shop.tables.rates, shop.form),
        };
        let mut told = vec![plain(said)];
        told.extend(self.first_assumed(&speaker));
        told
    }

    /// Every assumption, and where somebody would say otherwise.
    #[must_use]
    pub fn all_assumed(&self, base: &Job, shop: &Shop) -> Vec<Told> {
        let speaker = speaker(base, shop);
        let all = self.assumed.iter();
        all.map(|assumed| pressed(assumed, &speaker)).collect()
    }

    /// What to look at before anything is promised, sentence by sentence.
    #[must_use]
    pub fn checks_told(&self, base: &Job, shop: &Shop) -> Vec<String> {
        let speaker = speaker(base, shop);
        let checks = self.checks.iter();
        checks.map(|kind| speaker.finding(kind)).collect()
    }

    /// The assumptions that are said, each a piece of its own, as a sentence.
    fn first_assumed(&self, speaker: &Speaker<'_>) -> Vec<Told> {
        let said = self.assumed.iter().filter(|assumed| assumed.is_said());
        let mut said: Vec<&Assumed> = said.collect();
        if matches!(self.says, Says::Stopped(_)) {
            // It may be these limits alone that can't be held.
            said.sort_by_key(|assumed| !matches!(assumed, Assumed::Tolerance(_)));
        }
        let mut pieces = Vec::new();
        for assumed in said.into_iter().take(MOST_SAID) {
            let first = pieces.is_empty();
            let before = if first { words::ASSUMED } else { words::AND };
            pieces.push(plain(before.to_owned()));
            pieces.push(pressed(assumed, speaker));
        }
        if !pieces.is_empty() {
            pieces.push(plain(words::END.to_owned()));
        }
        pieces
    }
}

pub(super) const fn speaker<'a>(base: &'a Job, shop: &'a Shop) -> Speaker<'a> {
    Speaker {
        job: base,
        tables: &shop.tables,
        unit: base.unit,
        form: shop.form,
    }
}

const fn plain(text: String) -> Told {
    Told {
        text,
        leads_to: None,
    }
}

fn pressed(assumed: &Assumed, speaker: &Speaker<'_>) -> Told {
    Told {
        text: assumed.words(speaker),
        leads_to: Some(assumed.leads_to()),
    }
}

/// A range, with the lot's where there is more than one part, and its machine hours.
pub(super) fn range_said(range: &QuickRange, rates: &Rates, form: Form) -> String {
    let QuickRange {
        quantity,
        each,
        lot,
        minimum,
        hours,
    } = *range;
    let amounts = |both: [Decimal; 2]| words::amounts(both, rates.minor_digits, form);
    let parts = form.count(f64::from(quantity));
    let currency = &rates.currency;
    let charge = money(rates.minimum_charge, rates.minor_digits).unwrap_or_default();
    let [charge, most] = [charge, lot[1]].map(|amount| amounts([amount, amount]));
    let price = match minimum {
        Minimum::Decides => words::minimum(&charge, currency, &parts),
        Minimum::Begins => words::from_minimum(&charge, &most, currency, &parts),
        Minimum::Exceeded => {
            let mut said = words::each(&amounts(each), currency);
            if quantity > 1 {
                said += &words::lot(&amounts(lot), &parts);
            }
            said
        }
    };
    price + &words::hours(hours, form)
}
