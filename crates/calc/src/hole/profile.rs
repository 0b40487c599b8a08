//! A material's figure along the hole's axis: one material, or layers.

use alloc::vec::Vec;

use crate::burn::{DepthLaw, minutes_between, minutes_over};
use crate::span::Span;
use crate::wear::{lost, lost_over};

/// A feed or a wear ratio along the axis, from one end on.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Profile {
    /// The figure of the first material.
    first: f64,
    /// Where each layer ends [mm] and its figure; empty for one material. The last goes on.
    layers: Vec<(f64, f64)>,
}

impl Profile {
    /// One material throughout.
    pub(super) const fn one(value: f64) -> Self {
        Self {
            first: value,
            layers: Vec::new(),
        }
    }

    /// Layers by thickness [mm] and figure, in order; `None` where a figure is not known.
    pub(super) fn layered(layers: impl Iterator<Item = (f64, Option<f64>)>) -> Option<Self> {
        let mut end = 0.0;
        let layers: Vec<(f64, f64)> = layers
            .map(|(thickness, value)| {
                end += thickness;
                value.map(|value| (end, value))
            })
            .collect::<Option<_>>()?;
        let first = layers.first()?.1;
        Some(Self { first, layers })
    }

    /// The figure at the surface.
    pub(super) const fn first(&self) -> f64 {
        self.first
    }

    /// The figure at a depth; that of the layer above where two meet.
    pub(super) fn at(&self, depth_mm: f64) -> f64 {
        let layer = self.layers.iter().find(|(end, _)| depth_mm <= *end);
        layer
            .or(self.layers.last())
            .map_or(self.first, |(_, value)| *value)
    }

    /// The same figures, each multiplied by `factor`.
    pub(super) fn scaled(mut self, factor: f64) -> Self {
        self.first *= factor;
        for (_, value) in &mut self.layers {
            *value *= factor;
        }
        self
    }

    /// The same way from the far end of a hole of this depth.
    pub(super) fn reversed(&self, depth_mm: f64) -> Self {
        let starts = core::iter::once(0.0).chain(self.layers.iter().map(|(end, _)| *end));
        let mut layers: Vec<(f64, f64)> = starts
            .zip(&self.layers)
            .filter(|(start, _)| *start < depth_mm)
            .map(|(start, (_, value))| (depth_mm - start, *value))
            .collect();
        layers.reverse();
        Self {
            first: layers.first().map_or(self.first, |(_, value)| *value),
            layers,
        }
    }

    /// Minutes of full metal between two depths, the figures being feeds [min].
    pub(super) fn minutes(&self, from_mm: f64, to_mm: f64, law: DepthLaw) -> f64 {
        if self.layers.is_empty() {
            let value = self.first;
            minutes_between(
                Span {
                    from_mm,
                    to_mm,
                    value,
                },
                law,
            )
        } else {
            minutes_over(self.spans(from_mm, to_mm), law)
        }
    }

    /// Electrode length lost between two depths, the figures being wear ratios [mm].
    pub(super) fn lost(&self, from_mm: f64, to_mm: f64, rise: f64) -> f64 {
        if self.layers.is_empty() {
            lost(self.first, rise, from_mm, to_mm)
        } else {
            lost_over(self.spans(from_mm, to_mm), rise)
        }
    }

    /// The stretches between two depths [mm]; the last layer is taken to go on.
    pub(super) fn spans(&self, from_mm: f64, to_mm: f64) -> impl Iterator<Item = Span> {
        let last = self.layers.len().saturating_sub(1);
        let whole = self.layers.is_empty().then_some(Span {
            from_mm,
            to_mm,
            value: self.first,
        });
        let mut start = f64::NEG_INFINITY;
        let layers = self
            .layers
            .iter()
            .enumerate()
            .filter_map(move |(place, (end, value))| {
                let end = if place == last { f64::INFINITY } else { *end };
                let span = Span {
                    from_mm: start.max(from_mm),
                    to_mm: end.min(to_mm),
                    value: *value,
                };
                start = end;
                (span.to_mm > span.from_mm).then_some(span)
            });
        whole.into_iter().chain(layers)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn carbide_on_steel() -> Profile {
        let layers = [(3.0, Some(5.0)), (10.0, Some(20.0))];
        Profile::layered(layers.into_iter()).unwrap()
    }

    fn listed(profile: &Profile, from: f64, to: f64) -> Vec<(f64, f64, f64)> {
        profile
            .spans(from, to)
            .map(|span| (span.from_mm, span.to_mm, span.value))
            .collect()
    }

    #[test]
    fn spans_cover_the_stretch_once() {
        let profile = carbide_on_steel();
        assert_eq!(
            listed(&profile, 0.0, 13.0),
            [(0.0, 3.0, 5.0), (3.0, 13.0, 20.0)]
        );
        assert_eq!(listed(&profile, 4.0, 5.0), [(4.0, 5.0, 20.0)]);
        // The last layer goes on past its end.
        assert_eq!(listed(&profile, 12.0, 99.0), [(12.0, 99.0, 20.0)]);
        assert_eq!(listed(&Profile::one(7.0), 1.0, 2.0), [(1.0, 2.0, 7.0)]);
    }

    #[test]
    fn figures_by_depth() {
        let profile = carbide_on_steel();
        assert_eq!(profile.first(), 5.0);
        assert_eq!(
            [1.0, 3.0, 3.1, 50.0].map(|z| profile.at(z)),
            [5.0, 5.0, 20.0, 20.0]
        );
        assert_eq!(profile.clone().scaled(2.0).at(4.0), 40.0);
        assert_eq!(Profile::one(7.0).at(4.0), 7.0);
    }

    #[test]
    fn from_the_far_end() {
        let far = carbide_on_steel().reversed(13.0);
        assert_eq!(
            listed(&far, 0.0, 13.0),
            [(0.0, 10.0, 20.0), (10.0, 13.0, 5.0)]
        );
        assert_eq!(far.first(), 20.0);
        assert_eq!(far.reversed(13.0), carbide_on_steel());
        // A hole that ends before the second layer never meets it.
        let short = carbide_on_steel().reversed(2.0);
        assert_eq!(listed(&short, 0.0, 2.0), [(0.0, 2.0, 5.0)]);
        assert_eq!(carbide_on_steel().reversed(3.0).first(), 5.0);
        assert_eq!(Profile::one(7.0).reversed(9.0), Profile::one(7.0));
    }

    #[test]
    fn one_unknown_layer_leaves_the_whole_unknown() {
        let layers = [(3.0, Some(5.0)), (10.0, None)];
        assert_eq!(Profile::layered(layers.into_iter()), None);
        assert_eq!(Profile::layered(core::iter::empty()), None);
    }
}
