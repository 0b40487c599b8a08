//! How the flush of a hole flows.

use crate::flush::Flow;

/// How the dielectric flows through a row's electrode and back up the gap, at the gap's median.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Flushed {
    /// Pressure at the pump [bar].
    pub pressure_bar: f64,
    /// Above the work, where the tube ends in the open.
    pub face: Flow,
    /// With the tip at the bottom.
    pub bottom: Flow,
    /// How deep that is, from the end that is drilled deepest [mm].
    pub depth_mm: f64,
    /// Share of the flow there that is metal of work and electrode, by volume [-].
    pub debris_share: Option<f64>,
    /// Depth from which on the flush is slower up the gap than the shop's least [mm]; `None` where it is
    /// fast enough all the way.
    pub weak_from_mm: Option<f64>,
}
