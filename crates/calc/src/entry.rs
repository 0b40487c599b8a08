//! Entry and exit: the length over which the tool's disc is only partly in metal.
//!
//! The tool is a disc of the electrode's diameter that travels along the hole's axis. A surface
//! makes a zone as long as the largest less the smallest axial height of the surface over the
//! disc. Where the axis itself crosses lies somewhere in the zone: in its middle for a plane, at
//! its very beginning for a tool that meets the crown of a round surface.

/// The same at a hole's entry and at its exit.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct AtEnds<T> {
    /// At the entry.
    pub entry: T,
    /// At the exit.
    pub exit: T,
}

/// A zone, split where the hole's axis crosses the surface.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Zone {
    /// Travel in the zone before the axis crosses [mm].
    pub before_mm: f64,
    /// Travel in the zone after the axis has crossed [mm].
    pub after_mm: f64,
}

impl Zone {
    /// No zone: a surface square to the axis, or a closed bottom.
    pub const NONE: Self = Self {
        before_mm: 0.0,
        after_mm: 0.0,
    };

    /// Length of the whole zone.
    ///
    /// Formula: what lies before the axis crosses and what lies after.
    ///
    /// Result: length [mm].
    ///
    /// ```
    /// use quillbore_calc::entry::Zone;
    /// assert_eq!(Zone { before_mm: 0.5, after_mm: 0.25 }.length_mm(), 0.75);
    /// ```
    ///
    /// Source: definition.
    #[must_use]
    pub fn length_mm(self) -> f64 {
        self.before_mm + self.after_mm
    }

    /// The same surface on the far side, left instead of entered.
    ///
    /// Formula: before and after change places.
    ///
    /// Result: zone [mm].
    ///
    /// ```
    /// use quillbore_calc::entry::round;
    /// // Into a round bar at its crown the axis crosses first, out of it last.
    /// let entered = round(0.6, 0.0, 1.0).zone;
    /// let left = entered.mirrored();
    /// assert_eq!((entered.before_mm, left.after_mm), (0.0, 0.0));
    /// assert!((left.before_mm - 0.268).abs() < 0.0005);
    /// ```
    ///
    /// Source: geometry.
    #[must_use]
    pub fn mirrored(self) -> Self {
        Self {
            before_mm: self.after_mm,
            after_mm: self.before_mm,
        }
    }
}

/// Zone at a plane.
///
/// Formula: `d tan t`, half of it before and half after the axis crosses.
///
/// - `tube_mm`: electrode diameter d [mm], above 0.
/// - `tilt_deg`: angle t between the hole's axis and the plane's normal [deg], below 90 either way.
///
/// Result: zone [mm]; `None` from 90 degrees on, where the axis never crosses the plane.
///
/// ```
/// use quillbore_calc::entry::flat;
/// assert!((flat(1.0, 30.0).unwrap().length_mm() - 0.577).abs() < 0.0005);
/// ```
///
/// Source: geometry.
#[must_use]
pub fn flat(tube_mm: f64, tilt_deg: f64) -> Option<Zone> {
    if tilt_deg == 0.0 {
        return Some(Zone::NONE);
    }
    let tilt = tilt_deg.abs();
    if tilt.is_nan() || tilt >= 90.0 {
        return None;
    }
    let half = tube_mm / 2.0 * libm::tan(tilt.to_radians());
    Some(Zone {
        before_mm: half,
        after_mm: half,
    })
}

/// Longer axis of the mouth that a hole makes in a tilted surface.
///
/// Formula: `D / cos t`.
///
/// - `hole_mm`: hole diameter D [mm], above 0.
/// - `tilt_deg`: angle t between the hole's axis and the surface's normal [deg], below 90 either
///   way.
///
/// Result: length [mm]; `None` from 90 degrees on.
///
/// ```
/// use quillbore_calc::entry::mouth;
/// assert!((mouth(1.0, 45.0).unwrap() - 1.4142).abs() < 0.00005);
/// ```
///
/// Source: geometry.
#[must_use]
pub fn mouth(hole_mm: f64, tilt_deg: f64) -> Option<f64> {
    if tilt_deg == 0.0 {
        return Some(hole_mm);
    }
    let tilt = tilt_deg.abs();
    (tilt < 90.0).then(|| hole_mm / libm::cos(tilt.to_radians()))
}

/// What a tool meets at a round surface: a cylinder square to the hole's axis, or a ball.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Round {
    /// Zone at the near side; the whole chord where the tool hangs over the edge.
    pub zone: Zone,
    /// Length of metal on the axis from side to side [mm]; 0 where the axis misses.
    pub axis_chord_mm: f64,
    /// Longest length of metal under the tool from side to side [mm]; 0 where the tool misses.
    pub longest_chord_mm: f64,
    /// How the tool lies to the surface.
    pub meeting: Meeting,
}

/// How a tool lies to a round surface.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Meeting {
    /// The whole disc meets the surface.
    Whole,
    /// The disc hangs over the edge: no closed wall.
    Overhang {
        /// By how much [mm].
        by_mm: f64,
    },
    /// The axis misses the surface, the disc still bites.
    AxisMisses,
    /// The disc misses the surface altogether.
    ToolMisses,
}

/// Zone and chords at a cylinder square to the hole's axis, or at a ball.
///
/// Formula: with electrode radius r, zone `sqrt(R^2 - max(0, e-r)^2) - sqrt(R^2 - (e+r)^2)`; the
/// axis crosses at height `sqrt(R^2 - e^2)`; chord on the axis `2 sqrt(R^2 - e^2)`, longest chord
/// `2 sqrt(R^2 - max(0, e-r)^2)`. Where `e + r > R` the tool overhangs and the zone reaches to the
/// middle of the chord; `e >= R` the axis misses; `e - r >= R` the tool misses.
///
/// - `radius_mm`: radius R of the surface [mm], above 0.
/// - `offset_mm`: distance e of the hole's axis from the cylinder's axis or the ball's center [mm],
///   either way.
/// - `tube_mm`: electrode diameter [mm], above 0.
///
/// Result: zone and chords [mm] and how the tool lies.
///
/// ```
/// use quillbore_calc::entry::round;
/// let met = round(0.6, 0.0, 1.0);
/// assert!((met.zone.length_mm() - 0.268).abs() < 0.0005);
/// assert_eq!(met.zone.before_mm, 0.0);
/// ```
///
/// Source: geometry; checked against brute force over the disc.
#[must_use]
pub fn round(radius_mm: f64, offset_mm: f64, tube_mm: f64) -> Round {
    let (e, r) = (offset_mm.abs(), tube_mm / 2.0);
    let height =
        |from_axis: f64| libm::sqrt((radius_mm * radius_mm - from_axis * from_axis).max(0.0));
    let [highest, on_axis, lowest] = [height((e - r).max(0.0)), height(e), height(e + r)];
    let meeting = if e - r >= radius_mm {
        Meeting::ToolMisses
    } else if e >= radius_mm {
        Meeting::AxisMisses
    } else if e + r > radius_mm {
        Meeting::Overhang {
            by_mm: e + r - radius_mm,
        }
    } else {
        Meeting::Whole
    };
    Round {
        zone: Zone {
            before_mm: highest - on_axis,
            after_mm: on_axis - lowest,
        },
        axis_chord_mm: 2.0 * on_axis,
        longest_chord_mm: 2.0 * highest,
        meeting,
    }
}

/// Angle between the hole's axis and a round surface's normal where the axis crosses it.
///
/// Formula: `sin t = e / R`.
///
/// - `radius_mm`: radius R of the surface [mm], above 0.
/// - `offset_mm`: offset e of the hole's axis [mm], either way.
///
/// Result: angle [deg]; `None` where the axis misses.
///
/// ```
/// use quillbore_calc::entry::tilt_on_round;
/// assert!((tilt_on_round(10.0, 5.0).unwrap() - 30.0).abs() < 1e-9);
/// ```
///
/// Source: geometry.
#[must_use]
pub fn tilt_on_round(radius_mm: f64, offset_mm: f64) -> Option<f64> {
    let sine = offset_mm.abs() / radius_mm;
    (sine < 1.0).then(|| libm::asin(sine).to_degrees())
}
