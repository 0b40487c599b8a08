//! Which of the shop's materials a text means that was typed while somebody spoke.

use quillbore_calc::hole::material_findings;
use quillbore_calc::tables::{Family, Material};
use quillbore_calc::{Idx, JobInput, Tables};

use crate::asked::choices::begun;
use crate::shop::rows::Shop;
use crate::typed::field::FieldKind;
use crate::words::english;

/// Most materials that a text may mean and still be answered.
const MOST: usize = 12;

/// How the rows of a family are named that stand for grades that the list doesn't have.
const OTHER: &str = ", other";

/// What a text means by a material.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Meant {
    /// The one that it names.
    Named(Idx<Material>),
    /// The only one that it is a part of.
    Finished(Idx<Material>),
    /// Any of these.
    AnyOf(Vec<Idx<Material>>),
    /// More of them than can be answered.
    TooMany(usize),
    /// None of the shop's.
    Unknown,
}

impl Meant {
    /// What a text means: a name, a part of one alone, a family, or words of several names.
    pub(super) fn of(text: &str, shop: &Shop) -> Self {
        if let Some(named) = shop.material(text) {
            return Self::Named(named);
        }
        if let Some(only) = begun(FieldKind::Material, shop, text) {
            return shop.material(&only).map_or(Self::Unknown, Self::Finished);
        }
        let of_family = of_family(text, shop);
        let fits = if of_family.is_empty() {
            like(text, shop)
        } else {
            of_family
        };
        match fits.len() {
            0 => Self::Unknown,
            1..=MOST => Self::AnyOf(fits),
            more => Self::TooMany(more),
        }
    }

    /// The text as it goes on the sheet.
    pub(super) fn written<'a>(&self, typed: &'a str, shop: &'a Shop) -> &'a str {
        let finished = match self {
            Self::Finished(row) => row.of(&shop.tables.materials),
            Self::Named(_) | Self::AnyOf(_) | Self::TooMany(_) | Self::Unknown => None,
        };
        finished.map_or(typed, |row| &row.name)
    }

    /// One of each kind that is priced differently.
    pub(super) fn priced(&self, tables: &Tables) -> Vec<Idx<Material>> {
        match self {
            Self::Named(row) | Self::Finished(row) => vec![*row],
            Self::AnyOf(rows) => of_each_kind(rows, tables),
            Self::TooMany(_) | Self::Unknown => Vec::new(),
        }
    }
}

/// The materials of the family that a text names.
fn of_family(text: &str, shop: &Shop) -> Vec<Idx<Material>> {
    let letters = |text: &str| -> String {
        let letters = text.chars().filter(|letter| letter.is_alphanumeric());
        let low: String = letters.flat_map(char::to_lowercase).collect();
        low.trim_end_matches('s').to_owned()
    };
    let typed = letters(text);
    let is_named = |family: Family| letters(english::family(family)) == typed;
    let rows = &shop.tables.materials;
    let named = |at: &Idx<Material>| at.of(rows).is_some_and(|row| is_named(row.family));
    listed(Idx::all(rows).filter(named).collect(), shop)
}

/// Of materials those that the list has a grade of: the rest of a family says no more than they do.
fn listed(found: Vec<Idx<Material>>, shop: &Shop) -> Vec<Idx<Material>> {
    let rows = &shop.tables.materials;
    let is_grade = |at: &Idx<Material>| at.of(rows).is_some_and(|row| !row.name.ends_with(OTHER));
    let grades: Vec<_> = found.iter().copied().filter(is_grade).collect();
    if grades.is_empty() { found } else { grades }
}

/// The materials whose names have a text's words, at the beginnings of their own where any does.
fn like(text: &str, shop: &Shop) -> Vec<Idx<Material>> {
    let like = listed(shop.materials_like(text), shop);
    let begun = |row: &Idx<Material>| begins_words(text, *row, shop);
    let begins: Vec<_> = like.iter().copied().filter(begun).collect();
    if begins.is_empty() { like } else { begins }
}

/// Whether every word of a text begins a word of one of a material's names.
fn begins_words(text: &str, at: Idx<Material>, shop: &Shop) -> bool {
    let words = |text: &str| -> Vec<String> {
        let words = text.split(|letter: char| !letter.is_alphanumeric());
        let words = words.filter(|word| !word.is_empty());
        words.map(str::to_lowercase).collect()
    };
    let typed = words(text);
    let fits = |name: &str| {
        let there = words(name);
        typed.iter().all(|word| {
            let mut there = there.iter();
            there.any(|other| other.starts_with(word.as_str()))
        })
    };
    let own = at.of(&shop.tables.materials);
    own.is_some_and(|row| fits(&row.name)) || shop.other_names(at).iter().any(|name| fits(name))
}

/// Of materials that are priced alike, the first alone: those that have something to say stay.
fn of_each_kind(rows: &[Idx<Material>], tables: &Tables) -> Vec<Idx<Material>> {
    let mut kinds: Vec<Idx<Material>> = Vec::new();
    let says = |at: Idx<Material>| {
        let input = JobInput {
            material: Some(at),
            ..JobInput::default()
        };
        material_findings(&input, tables)
    };
    let is_like = |one: Idx<Material>, other: Idx<Material>| {
        let both = one.of(&tables.materials).zip(other.of(&tables.materials));
        let alike = both.is_some_and(|(one, other)| {
            one.feed_mm_min == other.feed_mm_min
                && one.wear == other.wear
                && one.tube_material == other.tube_material
        });
        // What run records taught differs from grade to grade.
        alike && tables.lessons.evidence().is_empty() && says(one) == says(other)
    };
    for row in rows {
        if !kinds.iter().any(|kind| is_like(*kind, *row)) {
            kinds.push(*row);
        }
    }
    kinds
}
