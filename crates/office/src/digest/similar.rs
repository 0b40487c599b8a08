//! "Have we done this before?": the jobs of the shelf that are most like one.

use std::sync::Arc;

use quillbore_calc::Idx;
use quillbore_calc::tables::{Family, Material};

use super::index::Index;
use super::line::ShelfLine;
use super::summary::Summary;

/// What a job is compared by; what is not known is not compared.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Wanted<'a> {
    /// The job's own number: it is not like itself.
    pub number: &'a str,
    /// Family of the material.
    pub family: Option<Family>,
    /// The material, as the shop calls it.
    pub material: Option<Idx<Material>>,
    /// Diameter of the row with the most holes [mm].
    pub size_mm: Option<f64>,
    /// Its depth [mm].
    pub depth_mm: Option<f64>,
    /// Parts in the lot.
    pub quantity: Option<u32>,
}

/// The shop's material and family of a text; `None` where the shop knows no such material.
type FamilyOf<'a> = &'a dyn Fn(&str) -> Option<(Idx<Material>, Family)>;

/// A job that is like another.
#[derive(Clone, Debug, PartialEq)]
pub struct Alike {
    /// Which.
    pub number: String,
    /// What the shelf knows of it.
    pub summary: Arc<ShelfLine>,
    /// How unlike it is, from 0 upward.
    pub distance: f64,
}

/// Nothing further apart than this is called similar: about another family, or ten times the size.
const FARTHEST: f64 = 3.0;

/// The jobs most like the wanted one, the most alike first, at most `most`.
///
/// Two jobs are compared on a scale of ratios: twice the diameter, twice the depth over diameter, a
/// quarter of the quantity each count about the same; another material of the same family counts as
/// little as half of that, another family more. A job with a price or hours is worth more than one
/// without, as it tells something. `family_of` gives the shop's material and family of a text.
///
/// Source: the shop's habit of looking at the last similar job, common practice, no source.
#[must_use]
pub fn similar(
    index: &Index,
    wanted: &Wanted<'_>,
    family_of: FamilyOf<'_>,
    most: usize,
) -> Vec<Alike> {
    if wanted.size_mm.is_none() {
        return Vec::new();
    }
    let mut names: std::collections::BTreeMap<&str, Option<(Idx<Material>, Family)>> =
        std::collections::BTreeMap::new();
    let mut best: Vec<(f64, usize)> = Vec::new();
    for (at, line) in index.lines.iter().enumerate() {
        let Ok(digest) = &line.says else { continue };
        if line.name == wanted.number {
            continue;
        }
        let summary = &digest.summary;
        let material = *names
            .entry(summary.material.as_str())
            .or_insert_with(|| family_of(&summary.material));
        let Some(distance) = distance(wanted, summary, material) else {
            continue;
        };
        if distance > FARTHEST || best.len() == most && best.last().is_some_and(|b| b.0 <= distance)
        {
            continue;
        }
        // The newest stands first, and stays before an older one that is just as alike.
        let place = best.partition_point(|(there, _)| *there <= distance);
        best.insert(place, (distance, at));
        best.truncate(most);
    }
    best.into_iter()
        .map(|(distance, at)| Alike {
            number: index.lines[at].name.clone(),
            summary: Arc::clone(&index.lines[at]),
            distance,
        })
        .collect()
}

fn distance(
    wanted: &Wanted<'_>,
    summary: &Summary,
    material: Option<(Idx<Material>, Family)>,
) -> Option<f64> {
    let ratio = |a: f64, b: f64| libm::fabs(libm::log2(a / b));
    let mut sum = ratio(wanted.size_mm?, summary.size_mm?);
    if let (Some(a), Some(b)) = (wanted.depth_mm, summary.depth_mm)
        && let (Some(size), Some(other)) = (wanted.size_mm, summary.size_mm)
    {
        sum += ratio(a / size, b / other);
    }
    if let (Some(a), Some(b)) = (wanted.quantity, summary.quantity) {
        sum += ratio(f64::from(a), f64::from(b)) / 2.0;
    }
    if let Some(family) = wanted.family {
        sum += match material {
            Some((name, _)) if Some(name) == wanted.material => 0.0,
            Some((_, other)) if other == family => 0.5,
            Some(_) => 2.0,
            None => 1.0,
        };
    }
    if summary.price.is_none() && summary.hours.is_none() {
        sum += 0.5;
    }
    sum.is_finite().then_some(sum)
}
