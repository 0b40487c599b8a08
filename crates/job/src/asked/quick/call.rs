//! A price for burning out a broken tool while the caller waits, and the job that the call makes.

use quillbore_calc::finding::{Kind, Level};
use quillbore_calc::price::money;
use quillbore_calc::tables::{Machine, Rates};
use quillbore_calc::{Idx, JobFigures};
use rust_decimal::Decimal;

use super::answer::is_unread;
use super::meant::Meant;
use super::range::QuickRange;
use super::told::{range_said, speaker};
use super::tried::Tried;
use super::{field_edit, put};
use crate::asked::to_input::to_input;
use crate::edits::apply::apply;
use crate::edits::edit::Edit;
use crate::job::Job;
use crate::shop::rows::Shop;
use crate::shop::unknown::UnknownName;
use crate::typed::call::{Call, CallField};
use crate::typed::field::Field;
use crate::typed::form::Form;
use crate::typed::quick::{LeadsTo, Quick};
use crate::words::call as words;
use crate::words::own::Rests;
use crate::words::{foot, quick as quick_words};

/// What is said to a caller.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CallTold {
    /// The price from and to, or what is in the way of one.
    pub said: String,
    /// What to look at before anything is promised, sentence by sentence.
    pub checks: Vec<String>,
    /// What the range rests on; empty where there is none.
    pub rests: String,
    /// The machine that it is said for.
    pub machine: Option<Idx<Machine>>,
}

/// What a job that burns broken tools out may cost, as it is said.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BrokenRange {
    /// The lot from and to, with the currency.
    pub lot: String,
    /// What is asked where a tool can't be got out.
    pub for_the_try: String,
}

/// What a job that burns broken tools out may cost; `None` for all other jobs, and where there is no price.
#[must_use]
pub fn broken_range(job: &Job, figures: &JobFigures, shop: &Shop) -> Option<BrokenRange> {
    job.has_broken_tool().then_some(())?;
    let rates = &shop.tables.rates;
    let range = QuickRange::of(std::slice::from_ref(figures), &shop.tables)?;
    let lot = quick_words::amounts(range.lot, rates.minor_digits, shop.form);
    Some(BrokenRange {
        lot: format!("{lot} {}", rates.currency),
        for_the_try: try_charge(rates, shop.form),
    })
}

/// What is asked where a tool can't be got out; `None` where money has no digits for it.
#[must_use]
pub fn for_the_try(rates: &Rates) -> Option<Decimal> {
    let charge = rates.try_charge.unwrap_or(rates.minimum_charge);
    money(charge, rates.minor_digits)
}

/// The same as it is said.
fn try_charge(rates: &Rates, form: Form) -> String {
    let charge = for_the_try(rates).unwrap_or_default();
    quick_words::amounts([charge, charge], rates.minor_digits, form)
}

impl Call {
    /// What is said at once, as the sheet would price what was typed.
    #[must_use]
    pub fn told(&self, base: &Job, shop: &Shop) -> CallTold {
        self.tried(base, shop).unwrap_or_else(|said| CallTold {
            said,
            ..CallTold::default()
        })
    }

    /// The edit that makes an empty job the one that the caller told of, on the machine that the price
    /// was said for; none where nothing was typed, or where the job isn't empty any more.
    #[must_use]
    pub fn edit(&self, base: &Job, shop: &Shop) -> Option<Edit> {
        let mut edits = self.typed(base, shop)?;
        let machine = self.told(base, shop).machine;
        let machine = machine.and_then(|machine| machine.of(&shop.tables.machines));
        if base.field(Field::Machine).is_empty()
            && let Some(machine) = machine
        {
            edits.push(field_edit(base, Field::Machine, &machine.name));
        }
        Edit::together(edits)
    }

    /// The edits that put what was said on the sheet, one part of it; none where nothing was.
    fn typed(&self, base: &Job, shop: &Shop) -> Option<Vec<Edit>> {
        if !Quick::is_offered(base) {
            return None;
        }
        let said = |field: &CallField| !self.is_blank(*field);
        let fields = CallField::ALL.iter().copied().filter(said);
        let meant = Meant::of(self.text(CallField::Material), shop);
        let edits =
            fields.filter_map(|field| put(base, field.goes_to(), self.text(field), &meant, shop));
        let mut edits: Vec<Edit> = edits.collect();
        if edits.is_empty() {
            return None;
        }
        edits.push(field_edit(base, Field::Quantity, words::ONE));
        Some(edits)
    }

    /// The answer, or the sentence that says what is in the way of one.
    fn tried(&self, base: &Job, shop: &Shop) -> Result<CallTold, String> {
        let Some(edits) = self.typed(base, shop) else {
            return Ok(CallTold::default());
        };
        let job = match Edit::together(edits).map(|edit| apply(base, &edit)) {
            Some(done) => done.map_err(|refused| quick_words::refused(&refused))?.0,
            None => base.clone(),
        };
        self.in_the_way(&job, shop)?;
        let asked = to_input(&job, shop);
        if is_unread(&asked) {
            return Err(quick_words::SHEET_UNREAD.to_owned());
        }
        let meant = Meant::of(self.text(CallField::Material), shop);
        let tried = Tried::best(&asked.input, &meant.priced(&shop.tables), &shop.tables);
        let speaker = speaker(&job, shop);
        let stops = tried.kinds(Level::Stop);
        let range = QuickRange::of(&tried.figures, &shop.tables);
        let said = match range.filter(|_| stops.is_empty()) {
            Some(range) => {
                let rates = &shop.tables.rates;
                range_said(&range, rates, shop.form)
                    + &words::terms(&try_charge(rates, shop.form), &rates.currency)
            }
            None => {
                let first = stops.first().map(|kind| speaker.finding(kind));
                quick_words::stopped(first.as_deref())
            }
        };
        let checks = tried.kinds(Level::Check);
        let material = job.text(Field::Material).trim();
        let rests = tried.figures.first().map(Rests::of);
        Ok(CallTold {
            said,
            checks: checks
                .iter()
                .map(|kind: &Kind| speaker.finding(kind))
                .collect(),
            rests: rests.map_or_else(String::new, |rests| foot::rests_on(rests, Some(material))),
            machine: tried.machine,
        })
    }

    /// What can't be read, else what is missing.
    fn in_the_way(&self, job: &Job, shop: &Shop) -> Result<(), String> {
        let row = job.rows.first();
        let why = |field: CallField| match field.goes_to() {
            LeadsTo::Field(on_sheet) => job.field(on_sheet).why(),
            LeadsTo::Column(column) => row.and_then(|row| row.cell(column).why),
            LeadsTo::Rates => None,
        };
        let all = CallField::ALL.iter().copied();
        let unread = all.filter_map(|field| {
            let why = why(field)?;
            Some(words::unread(field, self.text(field), why))
        });
        let unread: Vec<String> = unread.collect();
        if !unread.is_empty() {
            return Err(unread.join(" "));
        }
        let needed = [CallField::Tool, CallField::Material].into_iter();
        let missing: Vec<CallField> = needed.filter(|field| self.is_blank(*field)).collect();
        if !missing.is_empty() {
            return Err(words::missing(&missing));
        }
        let material = self.text(CallField::Material);
        match Meant::of(material, shop) {
            Meant::Unknown => {
                let name = material.trim().to_owned();
                Err(speaker(job, shop).unknown(&UnknownName::Material(name)))
            }
            Meant::TooMany(number) => Err(quick_words::many_materials(material, number)),
            Meant::Named(_) | Meant::Finished(_) | Meant::AnyOf(_) => Ok(()),
        }
    }
}
