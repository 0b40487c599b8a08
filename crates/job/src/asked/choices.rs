//! What a line chooses among, and what a text typed on it means by that.

use quillbore_calc::input::PartAxis;

use crate::shop::rows::Shop;
use crate::typed::field::{AngleBasis, FieldKind};
use crate::words::english;

const AXES: [Option<PartAxis>; 4] = [
    None,
    Some(PartAxis::X),
    Some(PartAxis::Y),
    Some(PartAxis::Z),
];

/// The names that a line of a kind chooses among: the shop's and the trade's; none where it is typed
/// freely.
#[must_use]
pub fn choices(kind: FieldKind, shop: &Shop) -> Option<Vec<String>> {
    let tables = &shop.tables;
    Some(match kind {
        FieldKind::Material => tables
            .materials
            .iter()
            .map(|row| row.name.clone())
            .collect(),
        FieldKind::Machine => tables.machines.iter().map(|row| row.name.clone()).collect(),
        FieldKind::AngleBasis => [AngleBasis::FromNormal, AngleBasis::FromSurface]
            .map(|basis| english::angle_basis(basis).to_owned())
            .to_vec(),
        FieldKind::YesNo => vec![english::YES.to_owned(), english::NO.to_owned()],
        FieldKind::OneOf(words) => words.iter().map(|word| (*word).to_owned()).collect(),
        FieldKind::PartAxis => AXES
            .map(|axis| english::part_axis(axis).to_owned())
            .to_vec(),
        _ => return None,
    })
}

/// Those of the choices that a typed text may mean: every word of it is a part of their name, or it is
/// near to another name of theirs.
#[must_use]
pub fn choices_like(kind: FieldKind, shop: &Shop, typed: &str) -> Vec<String> {
    let typed = typed.to_lowercase();
    let by_other_name = materials_like(kind, shop, &typed);
    let fits = |name: &String| has_words(name, &typed) || by_other_name.contains(name);
    let all = choices(kind, shop).unwrap_or_default();
    all.into_iter().filter(fits).collect()
}

/// The shop's customers whose names hold every word of a typed text; none where it is the name of one.
#[must_use]
pub fn customers_like(shop: &Shop, typed: &str) -> Vec<String> {
    let typed = typed.trim().to_lowercase();
    let names = || shop.customers.iter().map(|known| &known.name);
    if names().any(|name| name.to_lowercase() == typed) {
        return Vec::new();
    }
    let like = names().filter(|name| has_words(name, &typed));
    like.cloned().collect()
}

/// Whether every word of a text in small letters is a part of a name.
fn has_words(name: &str, typed: &str) -> bool {
    let low = name.to_lowercase();
    typed.split_whitespace().all(|word| low.contains(word))
}

/// The one name that a typed text is a part of; none where the shop knows the text itself, or where
/// several fit.
#[must_use]
pub fn begun(kind: FieldKind, shop: &Shop, typed: &str) -> Option<String> {
    let typed = typed.trim().to_lowercase();
    if typed.is_empty() || shop.material(&typed).is_some() {
        return None;
    }
    let names = choices(kind, shop)?;
    if names.iter().any(|name| name.to_lowercase() == typed) {
        return None;
    }
    let mut found = choices_like(kind, shop, &typed).into_iter();
    match (found.next(), found.next()) {
        (Some(one), None) => Some(one),
        _ => None,
    }
}

/// The own names of the materials that a text may mean by another name.
fn materials_like(kind: FieldKind, shop: &Shop, typed: &str) -> Vec<String> {
    if kind != FieldKind::Material || typed.trim().is_empty() {
        return Vec::new();
    }
    let rows = shop.materials_like(typed).into_iter();
    rows.filter_map(|at| Some(at.of(&shop.tables.materials)?.name.clone()))
        .collect()
}
