//! Threads: major diameter, pitch and basic minor diameter.
//!
//! Basic profile of ISO 68-1 and ASME B1.1: `H = (sqrt 3 / 2) P`, `D1 = D - 2 (5/8) H`.

use crate::quantity::MM_PER_INCH;

/// `D - D1` in pitches: `5 sqrt(3) / 8`.
const DEPTH_IN_PITCHES: f64 = 1.082_531_754_730_548_3;

/// A thread by its designation.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Thread {
    /// Designation, for example `M6`, `M10x1` or `1/4-20`.
    pub designation: &'static str,
    /// Major diameter D [mm].
    pub major_mm: f64,
    /// Pitch P [mm].
    pub pitch_mm: f64,
}

/// The thread of a designation.
///
/// Formula: looked up among [`COARSE`], [`FINE`], [`UNC`] and [`UNF`].
///
/// - `designation`: as the tables write it, for example `M6`, `M10x1`, `1/4-20`, `#10-32`.
///
/// Result: the thread, or `None` for one that is not in the tables.
///
/// ```
/// use quillbore_calc::standards::threads::named;
/// assert_eq!(named("M6").unwrap().pitch_mm, 1.0);
/// assert!(named("M6x0.1").is_none());
/// ```
///
/// Source: see the tables.
#[must_use]
pub fn named(designation: &str) -> Option<Thread> {
    [&COARSE[..], &FINE, &UNC, &UNF]
        .into_iter()
        .flatten()
        .find(|thread| thread.designation == designation)
        .copied()
}

impl Thread {
    /// Basic minor diameter of the internal thread.
    ///
    /// Formula: `D1 = D - 1.082532 P`.
    ///
    /// Result: minor diameter [mm]: what a burnt hole must stay below for the thread to live.
    ///
    /// ```
    /// use quillbore_calc::standards::threads::named;
    /// assert!((named("M6").unwrap().minor_mm() - 4.917).abs() < 0.001);
    /// ```
    ///
    /// Source: basic profile of ISO 68-1; the same for ASME B1.1.
    #[must_use]
    pub fn minor_mm(&self) -> f64 {
        self.major_mm - DEPTH_IN_PITCHES * self.pitch_mm
    }
}

/// ISO metric coarse threads, M1.6 to M12.
///
/// Source: ISO 261 and ISO 724 from a table that reproduces them; rows marked so are memory.
pub const COARSE: [Thread; 17] = [
    metric("M1.6", 1.6, 0.35),
    metric("M1.8", 1.8, 0.35), // memory
    metric("M2", 2.0, 0.4),
    metric("M2.2", 2.2, 0.45), // memory
    metric("M2.5", 2.5, 0.45),
    metric("M3", 3.0, 0.5),
    metric("M3.5", 3.5, 0.6),
    metric("M4", 4.0, 0.7),
    metric("M4.5", 4.5, 0.75), // memory
    metric("M5", 5.0, 0.8),
    metric("M6", 6.0, 1.0),
    metric("M7", 7.0, 1.0), // memory
    metric("M8", 8.0, 1.25),
    metric("M9", 9.0, 1.25), // memory
    metric("M10", 10.0, 1.5),
    metric("M11", 11.0, 1.5), // memory
    metric("M12", 12.0, 1.75),
];

/// ISO metric fine threads.
///
/// Source: an open hole table for CAD; minor diameters of M8 to M12 also in an ISO 724 table.
pub const FINE: [Thread; 24] = [
    metric("M1.6x0.2", 1.6, 0.2),
    metric("M1.8x0.2", 1.8, 0.2),
    metric("M2x0.25", 2.0, 0.25),
    metric("M2.2x0.25", 2.2, 0.25),
    metric("M2.5x0.35", 2.5, 0.35),
    metric("M3x0.35", 3.0, 0.35),
    metric("M3.5x0.35", 3.5, 0.35),
    metric("M4x0.5", 4.0, 0.5),
    metric("M4.5x0.5", 4.5, 0.5),
    metric("M5x0.5", 5.0, 0.5),
    metric("M6x0.75", 6.0, 0.75),
    metric("M7x0.75", 7.0, 0.75),
    metric("M8x0.75", 8.0, 0.75),
    metric("M8x1", 8.0, 1.0),
    metric("M9x0.75", 9.0, 0.75),
    metric("M9x1", 9.0, 1.0),
    metric("M10x0.75", 10.0, 0.75),
    metric("M10x1", 10.0, 1.0),
    metric("M10x1.25", 10.0, 1.25),
    metric("M11x0.75", 11.0, 0.75),
    metric("M11x1", 11.0, 1.0),
    metric("M12x1", 12.0, 1.0),
    metric("M12x1.25", 12.0, 1.25),
    metric("M12x1.5", 12.0, 1.5),
];

/// Unified coarse threads, #1 to 1/2 in.
///
/// Source: a public drill and tap chart.
pub const UNC: [Thread; 14] = [
    unified("#1-64", 730, 64),
    unified("#2-56", 860, 56),
    unified("#3-48", 990, 48),
    unified("#4-40", 1120, 40),
    unified("#5-40", 1250, 40),
    unified("#6-32", 1380, 32),
    unified("#8-32", 1640, 32),
    unified("#10-24", 1900, 24),
    unified("#12-24", 2160, 24),
    unified("1/4-20", 2500, 20),
    unified("5/16-18", 3125, 18),
    unified("3/8-16", 3750, 16),
    unified("7/16-14", 4375, 14),
    unified("1/2-13", 5000, 13),
];

/// Unified fine threads, #0 to 1/2 in.
///
/// Source: a public drill and tap chart.
pub const UNF: [Thread; 15] = [
    unified("#0-80", 600, 80),
    unified("#1-72", 730, 72),
    unified("#2-64", 860, 64),
    unified("#3-56", 990, 56),
    unified("#4-48", 1120, 48),
    unified("#5-44", 1250, 44),
    unified("#6-40", 1380, 40),
    unified("#8-36", 1640, 36),
    unified("#10-32", 1900, 32),
    unified("#12-28", 2160, 28),
    unified("1/4-28", 2500, 28),
    unified("5/16-24", 3125, 24),
    unified("3/8-24", 3750, 24),
    unified("7/16-20", 4375, 20),
    unified("1/2-20", 5000, 20),
];

const fn metric(designation: &'static str, major_mm: f64, pitch_mm: f64) -> Thread {
    Thread {
        designation,
        major_mm,
        pitch_mm,
    }
}

/// A unified thread from ten-thousandths of an inch and threads per inch.
const fn unified(designation: &'static str, major: u16, per_inch: u8) -> Thread {
    Thread {
        designation,
        major_mm: major as f64 * MM_PER_INCH / 10_000.0,
        pitch_mm: MM_PER_INCH / per_inch as f64,
    }
}
