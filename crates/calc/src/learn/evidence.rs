//! What one run record says, beside its four factors.

use super::record::Record;

/// What one run record says.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Evidence {
    /// Its factors.
    pub record: Record,
    /// Ends that it drilled, 0 and up.
    pub ends: f64,
    /// Tubes broken, where somebody counted, 0 and up.
    pub broken: Option<f64>,
    /// How easily tubes break in such holes.
    pub class: BreakageClass,
    /// Good and spoiled parts, where somebody counted, 0 and up.
    pub pieces: Option<[f64; 2]>,
    /// Mean size by pins [mm], where it could be used.
    pub size_mm: Option<f64>,
    /// Depth from one end in tube diameters [-].
    pub deep: f64,
    /// The tube counts as thin where depth over diameter is judged.
    pub thin: bool,
}

/// How easily tubes break, as the start values tell holes apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum BreakageClass {
    /// As most do.
    Usual,
    /// Thin tubes.
    Thin,
    /// Thin tubes in deep holes.
    ThinDeep,
}
