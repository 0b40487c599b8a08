//! What is typed to find jobs, as it is understood.

use chrono::NaiveDate;
use quillbore_job::shop::Calendar;
use quillbore_job::{Form, Shop, Unit};

use super::phrases::meant;
use super::text::Name;
use super::wants::{Asked, Want};
use crate::words;

/// What decides how a typed text is understood.
#[derive(Clone, Copy, Debug)]
pub struct Asking<'a> {
    /// Today.
    pub today: NaiveDate,
    /// When the shop works: by it weeks are reckoned.
    pub calendar: &'a Calendar,
    /// The unit of bare numbers.
    pub unit: Unit,
    /// How the shop writes numbers: by it one with two readings is read.
    pub form: Form,
}

/// What is typed to find jobs: some words mean something, each of the others has to stand somewhere in
/// a job's text. A job is found that is all of it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Query {
    pub(super) wants: Vec<Want>,
    /// Words that are only letters, in small ones.
    pub(super) letters: Vec<String>,
}

impl Query {
    /// Understands a text; capitals don't matter.
    ///
    /// | words | jobs that they find |
    /// |---|---|
    /// | `late` | ordered parts were due before today and are not delivered |
    /// | `due today`, `due this week`, `due next week`, `due 2026-11-27` | parts are due then, and the job is not delivered or set aside; weeks by the shop's calendar ([`Week`](crate::week::Week)) |
    /// | `no answer`, `no answer 14 days`, `no answer 2 weeks` | a quotation has no answer, for so long at least |
    /// | `material 718`, `customer alder`, `machine barrow` | the word stands in that name; a material may go by another one ([`Query::with_materials`]) |
    /// | `size 0.8`, `size 1/32"`, `size .031 in`, `size 0.7-0.9` | the diameter of the row with the most holes is within 0.005 mm of it, or of its limits |
    /// | `depth 20` | the depth of that row is within 0.05 mm of it |
    /// | `l/d 20` | depth over diameter is at least that |
    /// | `price over 1000` | the lot is worth more than that in the shop's own currency |
    ///
    /// `over` and `under` may stand before the value of a size, a depth, an l/d and a price, which needs
    /// one of them; several words about one thing all count. A price or a day that has two readings is read
    /// by the shop's form; where that doesn't decide it, no job is found, and it is told. Whatever isn't understood so is letters, a
    /// state's word among them, and so is a word between quotation marks.
    #[must_use]
    pub fn read(typed: &str, by: &Asking<'_>) -> Self {
        let words: Vec<&str> = typed.split_whitespace().collect();
        let mut query = Self::default();
        let mut rest = words.as_slice();
        while let Some((first, after)) = rest.split_first() {
            if let Some((want, count)) = meant(rest, by) {
                query.wants.push(want);
                rest = &rest[count..];
            } else {
                query.letters.push(unquoted(first).to_lowercase());
                rest = after;
            }
        }
        query
    }

    /// A text of which every word is only letters.
    #[must_use]
    pub fn letters(typed: &str) -> Self {
        let words = typed.split_whitespace();
        Self {
            wants: Vec::new(),
            letters: words.map(str::to_lowercase).collect(),
        }
    }

    /// The same where a material is meant by any of the names that a shop knows it by: `material 718` finds
    /// jobs for which somebody typed its number.
    #[must_use]
    pub fn with_materials(mut self, shop: &Shop) -> Self {
        for want in &mut self.wants {
            if let Want::Named {
                name: Asked::Material,
                letters,
                or,
            } = want
                && letters.chars().count() > 1
            {
                let meant = shop.materials_like(letters);
                let rows = meant.iter().filter_map(|at| {
                    let row = at.of(&shop.tables.materials)?;
                    Some(std::iter::once(&row.name).chain(shop.other_names(*at)))
                });
                *or = rows.flatten().map(|name| name.to_lowercase()).collect();
            }
        }
        self
    }

    /// The letters of which names must have one, in small ones.
    pub(super) fn names(&self) -> Vec<(Name, Vec<String>)> {
        let wants = self.wants.iter();
        let named = wants.filter_map(|want| match want {
            Want::Named { name, letters, or } => {
                let letters = std::iter::once(letters.to_lowercase());
                Some((name.name(), letters.chain(or.iter().cloned()).collect()))
            }
            _ => None,
        });
        named.collect()
    }

    /// How the text was understood, in one line, with prices in the shop's `currency`; empty where all of
    /// it is only letters.
    #[must_use]
    pub fn said(&self, currency: &str, unit: Unit, form: Form) -> String {
        words::find::understood(&self.wants, &self.letters, currency, (unit, form))
    }
}

fn unquoted(word: &str) -> &str {
    let inner = word
        .strip_prefix('"')
        .and_then(|inner| inner.strip_suffix('"'));
    inner.filter(|inner| !inner.is_empty()).unwrap_or(word)
}
