//! A stretch of the hole's axis in one material, with the figure that the material gives it.

/// A stretch of the hole's axis and its material's figure: a feed, or a wear ratio.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span {
    /// Where it begins, from the surface [mm].
    pub from_mm: f64,
    /// Where it ends, from the surface [mm].
    pub to_mm: f64,
    /// Feed at the face [mm/min] or wear by length in a shallow hole [-].
    pub value: f64,
}
