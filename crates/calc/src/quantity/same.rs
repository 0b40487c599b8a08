//! When two lengths count as the same: the only tolerances that lengths are compared with.

/// Lengths that differ by less are one length but for binary fractions [mm]: a nanometer, the step
/// that electrodes are packed in.
pub const ROUNDING_MM: f64 = 1e-6;

/// Diameters that differ by less are one size [mm]: nobody makes or measures closer.
pub const SAME_SIZE_MM: f64 = 1e-3;
