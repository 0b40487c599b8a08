//! What a row is drilled in: one material, or layers.

use super::context::Context;
use super::facts::{MaterialFacts, TubeFacts};
use super::feed_wear::FeedWear;
use super::planned::Plan;
use super::profile::Profile;
use crate::idx::Idx;
use crate::input::{Layer, RowInput};
use crate::job_figures::FeedSteps;
use crate::tables::{Material, TubeMaterial};

/// Deviations of a row's material, weighted over its layers, and the tube material it wants.
pub(super) struct Stuff {
    pub(super) feed: Option<Profile>,
    pub(super) feed_steps: Option<FeedSteps>,
    pub(super) ratio: Option<Profile>,
    pub(super) sigmas: FeedWear<f64>,
}

impl Context<'_> {
    /// The tube material that the start values were taken with; of layers, that of the slowest.
    pub(super) fn wished_material(&self, row: &RowInput) -> Option<TubeMaterial> {
        let of = |material: Idx<Material>| material.beside(&self.materials);
        if row.layers.is_empty() {
            return self
                .setting
                .material
                .and_then(of)
                .map(|facts| facts.tube_material);
        }
        let facts = row.layers.iter().filter_map(|layer| of(layer.material));
        facts
            .min_by(|a, b| a.feed.total_cmp(&b.feed))
            .map(|facts| facts.tube_material)
    }

    /// Feed and wear of the row's material or layers with a tube.
    pub(super) fn stuff(&self, row: &RowInput, facts: &TubeFacts, plan: &Plan) -> Stuff {
        let of = |material: Idx<Material>| material.beside(&self.materials);
        let effort = plan.effort(&self.tables.start.effort_by_width);
        let by_tube = facts.feed().map(|feed| feed * effort);
        let at_entry = match row.layers.first() {
            Some(layer) => of(layer.material),
            None => self.setting.material.and_then(of),
        };
        let feed_steps = at_entry
            .zip(facts.feed_by_size)
            .map(|(material, size)| FeedSteps {
                material_mm_min: material.feed,
                size,
                channels: facts.feed_by_channels,
                effort,
            });
        if row.layers.is_empty() {
            let material = self.setting.material.and_then(of);
            return Stuff {
                feed: material
                    .zip(by_tube)
                    .map(|(material, factor)| Profile::one(material.feed * factor)),
                feed_steps,
                ratio: material.map(|material| Profile::one(material.wear * facts.wear)),
                sigmas: FeedWear {
                    feed: material.map_or(0.0, |material| material.feed_sigma),
                    wear: material.map_or(0.0, |material| material.wear_sigma),
                },
            };
        }
        let layers = || {
            let of_layer = |layer: &Layer| (layer.thickness_mm.max(0.0), of(layer.material));
            row.layers.iter().map(of_layer)
        };
        let depth_mm = plan.depth_mm.unwrap_or(f64::MAX);
        Stuff {
            feed: Profile::layered(layers().map(|(thickness, material)| {
                let feed = material.zip(by_tube);
                (
                    thickness,
                    feed.map(|(material, factor)| material.feed * factor),
                )
            })),
            ratio: Profile::layered(layers().map(|(thickness, material)| {
                (
                    thickness,
                    material.map(|material| material.wear * facts.wear),
                )
            })),
            feed_steps,
            sigmas: sigmas(layers(), depth_mm),
        }
    }
}

/// Deviations of feed and wear of layers down to a depth, each layer's by the minutes and by the length
/// that it takes.
fn sigmas<'a>(
    layers: impl Iterator<Item = (f64, Option<&'a MaterialFacts>)>,
    depth_mm: f64,
) -> FeedWear<f64> {
    let [mut minutes, mut feed_sum, mut lost, mut wear_sum] = [0.0; 4];
    let mut left = depth_mm;
    for (thickness, material) in layers {
        let thickness = thickness.clamp(0.0, left);
        left -= thickness;
        if let Some(material) = material {
            minutes += thickness / material.feed;
            feed_sum += thickness / material.feed * material.feed_sigma;
            lost += thickness * material.wear;
            wear_sum += thickness * material.wear * material.wear_sigma;
        }
    }
    let share = |sum: f64, all: f64| if all > 0.0 { sum / all } else { 0.0 };
    FeedWear {
        feed: share(feed_sum, minutes),
        wear: share(wear_sum, lost),
    }
}
