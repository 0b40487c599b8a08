//! Cautions of a paper that the customer signs.

use quillbore_calc::tables::Hazard;

/// Cautions in small type.
#[derive(Clone, Copy, Debug)]
pub struct Cautions {
    /// Name of the section.
    pub name: &'static str,
    /// What comes before all others.
    pub first: &'static str,
    /// Name beside cautions of the shop's own.
    pub in_this_shop: &'static str,
    /// Name beside what is said of sludge.
    pub sludge: &'static str,
    /// Name beside what the materials bring.
    pub materials: &'static str,
    /// What the materials bring, in short.
    pub of_materials: fn(&str) -> String,
    /// Cautions that hold for every job, with the pressure.
    pub always: fn(Option<&str>) -> Vec<(&'static str, String)>,
    /// The caution for a danger of materials that can kill, in full.
    pub of: fn(Hazard, &str) -> (&'static str, String),
    /// Any danger as a short noun.
    pub short: fn(Hazard) -> &'static str,
}
