//! What a row is drilled in: one material, or layers.

use alloc::vec::Vec;

use super::context::Context;
use super::facts::{MaterialFacts, TubeFacts};
use super::feed_wear::FeedWear;
use super::own::Own;
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
    /// What the shop's records made of it.
    pub(super) own: FeedWear<Own>,
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

    /// Feed and wear of the row's material or layers with a tube, drilled so deep from one end [mm].
    pub(super) fn stuff(
        &self,
        row: &RowInput,
        facts: &TubeFacts,
        plan: &Plan,
        from_end_mm: f64,
    ) -> Stuff {
        let of = |material: Idx<Material>| material.beside(&self.materials);
        let effort = plan.effort(&self.start.effort_by_width);
        let full_metal = plan.burnt.as_ref().map_or(1.0, |burnt| burnt.feed_share);
        let by_tube = facts.feed().map(|feed| feed * effort * full_metal);
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
                full_metal,
            });
        if row.layers.is_empty() {
            let material = self.setting.material.and_then(of);
            let own = self.own(self.setting.material, facts, from_end_mm);
            return Stuff {
                feed: material.zip(by_tube).map(|(material, factor)| {
                    Profile::one(material.feed * factor / own.feed.factor)
                }),
                feed_steps,
                ratio: material
                    .map(|material| Profile::one(material.wear * facts.wear * own.wear.factor)),
                sigmas: FeedWear {
                    feed: material.map_or(0.0, |material| material.feed_sigma),
                    wear: material.map_or(0.0, |material| material.wear_sigma),
                },
                own,
            };
        }
        let of_layer = |layer: &Layer| LayerFacts {
            thickness_mm: layer.thickness_mm.max(0.0),
            material: of(layer.material).copied(),
            own: self.own(Some(layer.material), facts, from_end_mm),
        };
        let layers: Vec<LayerFacts> = row.layers.iter().map(of_layer).collect();
        let profile = |figure: &dyn Fn(&LayerFacts) -> Option<f64>| {
            let layers = layers.iter();
            Profile::layered(layers.map(|layer| (layer.thickness_mm, figure(layer))))
        };
        let depth_mm = plan.depth_mm.unwrap_or(f64::MAX);
        let (sigmas, own) = together(&layers, depth_mm, self.own_of_none());
        Stuff {
            feed: profile(&|layer| {
                let (material, factor) = layer.material.zip(by_tube)?;
                Some(material.feed * factor / layer.own.feed.factor)
            }),
            ratio: profile(&|layer| {
                Some(layer.material?.wear * facts.wear * layer.own.wear.factor)
            }),
            feed_steps,
            sigmas,
            own,
        }
    }
}

/// A layer with what is known of its material.
struct LayerFacts {
    thickness_mm: f64,
    material: Option<MaterialFacts>,
    own: FeedWear<Own>,
}

/// Deviations of feed and wear of layers down to a depth, and what the records made of them, each
/// layer's by the minutes and by the length that it takes.
fn together(
    layers: &[LayerFacts],
    depth_mm: f64,
    none: FeedWear<Own>,
) -> (FeedWear<f64>, FeedWear<Own>) {
    let [mut minutes, mut feed_sum, mut lost, mut wear_sum] = [0.0; 4];
    let (mut by_minutes, mut by_length) = (Vec::new(), Vec::new());
    let mut left = depth_mm;
    for layer in layers {
        let thickness = layer.thickness_mm.clamp(0.0, left);
        left -= thickness;
        if let Some(material) = layer.material {
            minutes += thickness / material.feed;
            feed_sum += thickness / material.feed * material.feed_sigma;
            lost += thickness * material.wear;
            wear_sum += thickness * material.wear * material.wear_sigma;
            by_minutes.push((thickness / material.feed, layer.own.feed));
            by_length.push((thickness * material.wear, layer.own.wear));
        }
    }
    let share = |sum: f64, all: f64| if all > 0.0 { sum / all } else { 0.0 };
    let sigmas = FeedWear {
        feed: share(feed_sum, minutes),
        wear: share(wear_sum, lost),
    };
    let own = FeedWear {
        feed: Own::together(by_minutes.into_iter(), none.feed),
        wear: Own::together(by_length.into_iter(), none.wear),
    };
    (sigmas, own)
}
