//! What the work material has to say: whether it conducts, and whose figures are taken.

use alloc::vec::Vec;

use super::setting::Setting;
use crate::conduct::{counts, judge};
use crate::finding::{About, Finding, Kind, Level};
use crate::idx::Idx;
use crate::input::JobInput;
use crate::tables::{Material, Tables};

/// Findings about the work material of the whole job, to be said once and not with each row.
///
/// Formula: resistivity by [`crate::conduct`]; whether feed and wear are the grade's own.
///
/// - `input`: the job. Where all rows are layered, the layers speak for themselves.
/// - `tables`: the shop's tables.
///
/// Result: findings about the job, none where no material is chosen.
///
/// ```
/// use quillbore_calc::hole::material_findings;
/// use quillbore_calc::Limits;
/// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
/// # use shop::*;
/// let mut tables = tables();
/// tables.materials[STEEL.at()].resistivity_ohm_cm = Some(Limits::new(1e-5, 50.0));
/// let input = job(vec![]);
/// let said = material_findings(&input, &tables);
/// assert_eq!(said[0].kind.code(), "conductivity-test-piece");
/// ```
///
/// Source: [`crate::conduct`].
#[must_use]
pub fn material_findings(input: &JobInput, tables: &Tables) -> Vec<Finding> {
    let mut said = Vec::new();
    let layered = !input.rows.is_empty() && input.rows.iter().all(|row| !row.layers.is_empty());
    if let (Some(index), false) = (input.material, layered) {
        about_material(&Setting::of(input), tables, index, About::Job, &mut said);
    }
    said
}

pub(super) fn about_material(
    setting: &Setting,
    tables: &Tables,
    which: Idx<Material>,
    about: About,
    said: &mut Vec<Finding>,
) {
    let Some(material) = which.of(&tables.materials) else {
        return;
    };
    // A reading was taken of the job's own material.
    let measured = setting
        .measured_resistivity_ohm_cm
        .filter(|_| setting.material == Some(which));
    let judged = judge(counts(material, measured));
    let family = material
        .from_family
        .then_some((Level::Note, Kind::FamilyValues, None));
    said.extend(
        judged
            .into_iter()
            .chain(family)
            .map(|(level, kind, remedy)| Finding {
                level,
                about,
                kind,
                remedy,
            }),
    );
}
