//! Start values of burning out broken tools, as arguments.

use alloc::vec::Vec;

use crate::quantity::Spread;

/// Start values of burning out broken tools; the defaults are assumptions where nothing else is said,
/// since no table was found.
#[derive(Clone, Debug, PartialEq)]
pub struct Start {
    /// Web of a tap or reamer relative to its diameter, against the number of flutes, rising; linear
    /// between, ends held.
    pub web_by_flutes: Vec<(f64, f64)>,
    /// Web of a drill relative to its diameter; the upper end of 0.16 to 0.25.
    pub drill_web: f64,
    /// Electrode that frees a drill's lands, relative to the drill; the lower end of 0.5 to 0.6
    /// (common practice, no source).
    pub drill_frees: f64,
    /// Burnt hole that lets the coil of a screw be picked out, relative to the thread's minor diameter.
    pub stud_share: f64,
    /// Body of an extractor relative to its diameter.
    pub extractor_body: f64,
    /// Feed in a fluted tool relative to full metal.
    pub fluted_feed: Spread,
    /// Feed in a screw or an extractor's body relative to full metal: no flutes, but loose pieces.
    pub solid_feed: Spread,
    /// Travel past the end of a tool in an open hole [mm].
    pub past_end_mm: f64,
    /// Cusps that may stay around the core where a tube plunges on a circle, per side [mm].
    pub cusp_mm: f64,
}

impl Default for Start {
    fn default() -> Self {
        Self {
            web_by_flutes: alloc::vec![
                (2.0, 0.35),
                (3.0, 0.40),
                (4.0, 0.48),
                (5.0, 0.54),
                (6.0, 0.60)
            ],
            drill_web: 0.25,
            drill_frees: 0.5,
            stud_share: 0.85,
            extractor_body: 0.75,
            fluted_feed: Spread {
                p10: 0.25,
                p90: 0.5,
            },
            solid_feed: Spread { p10: 0.7, p90: 1.0 },
            past_end_mm: 0.5,
            cusp_mm: 0.1,
        }
    }
}
