//! Opening a hole that no tube fits, with one tube, for holes of 1.5 to 12.7 mm.
//!
//! Either the tube plunges over the whole depth, beside where it was before, on circles about the
//! hole's axis; or it plunges once and then goes round on growing circles, layer by layer. Sparks
//! take metal away by its volume, so minutes and wear go with the metal that a plunge still meets.
//! These are minutes of sparking: what comes between two plunges is the caller's.

mod circle;
mod covered;
mod layered;
mod rings;

pub use circle::on_circle;
pub use layered::layered;

use crate::quantity::ROUNDING_MM;

/// Most plunges that one hole is opened with (ours): beyond, the tube is far too thin for the hole.
pub const MOST_PLUNGES: u32 = 200;

/// Largest hole that is opened with a tube [mm]: half an inch (ours).
pub const LARGEST_MM: f64 = 12.7;

/// The hole, the tube, and one plunge of the tube into full metal over the hole's depth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Asked {
    /// Hole diameter D [mm].
    pub hole_mm: f64,
    /// Depth L [mm].
    pub depth_mm: f64,
    /// True where the hole goes through, so that a middle that is left falls out.
    pub through: bool,
    /// Outer diameter d of the tube [mm].
    pub tube_mm: f64,
    /// Gap per side g [mm].
    pub gap_mm: f64,
    /// Minutes of one plunge into full metal over the depth [min].
    pub plunge_min: f64,
    /// Wear by length rho of such a plunge [-].
    pub wear: f64,
}

/// How the tube is led; the defaults are ours, no source.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Manner {
    /// Highest cusp that may stay between two plunges at the wall [mm]; 0.02 by default.
    pub cusp_mm: f64,
    /// Least share of a plunge's minutes that the next one takes, however little metal it meets [-];
    /// 0.2 by default.
    pub least_share: f64,
    /// Thickness of a layer [mm]; 0.1 by default.
    pub layer_mm: f64,
    /// Removal rate on circles relative to that of a plunge [-]; 0.5 by default.
    pub efficiency: f64,
}

impl Default for Manner {
    fn default() -> Self {
        Self {
            cusp_mm: 0.02,
            least_share: 0.2,
            layer_mm: 0.1,
            efficiency: 0.5,
        }
    }
}

/// The way in which a hole is opened.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// Plunge beside plunge.
    OnCircle,
    /// One plunge, then circles layer by layer.
    Layered,
}

/// What it takes to open a hole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Opening {
    /// In which way.
    pub way: Way,
    /// Plunges over the whole depth.
    pub plunges: u32,
    /// Circles on which the tube plunges or goes round; a plunge in the middle counts as one.
    pub rings: u32,
    /// Layers in which it goes round; 0 where it only plunges.
    pub layers: u32,
    /// Sparking [min].
    pub minutes: f64,
    /// Tube lost [mm].
    pub wear_mm: f64,
    /// Share of the hole's metal that is sparked away [-]; the rest are cusps and slug.
    pub metal_share: f64,
    /// Thickness of the middle that falls out [mm], where one does.
    pub slug_mm: Option<f64>,
}

/// Both ways of opening a hole, each where it can be done.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ways {
    /// Plunge beside plunge.
    pub on_circle: Option<Opening>,
    /// One plunge, then circles layer by layer.
    pub layered: Option<Opening>,
}

impl Ways {
    /// The way that takes fewer minutes.
    ///
    /// Formula: the least minutes; plunges where both take the same.
    ///
    /// Result: the opening; `None` where neither can be done.
    ///
    /// ```
    /// use quillbore_calc::plunge::{Asked, Manner, Way, ways};
    /// let asked = |hole_mm| Asked {
    ///     hole_mm, depth_mm: 10.0, through: true, tube_mm: 1.0, gap_mm: 0.05,
    ///     plunge_min: 2.0, wear: 0.5,
    /// };
    /// let way = |hole_mm| ways(&asked(hole_mm), Manner::default()).cheaper().unwrap().way;
    /// // A little wider: each plunge takes its least share, six of them twice the minutes of one.
    /// assert_eq!([way(1.3), way(3.0)], [Way::Layered, Way::OnCircle]);
    /// ```
    ///
    /// Source: ours.
    #[must_use]
    pub fn cheaper(&self) -> Option<Opening> {
        match (self.on_circle, self.layered) {
            (Some(plunges), Some(layers)) if layers.minutes < plunges.minutes => Some(layers),
            (plunges, layers) => plunges.or(layers),
        }
    }
}

/// Both ways of opening a hole with a tube.
///
/// Formula: [`on_circle`] and [`layered`].
///
/// - `asked`: hole, tube and one plunge.
/// - `manner`: how the tube is led.
///
/// Result: both openings, minutes [min] and tube lost [mm].
///
/// ```
/// use quillbore_calc::plunge::{Asked, Manner, ways};
/// let asked = Asked {
///     hole_mm: 1.1, depth_mm: 10.0, through: false, tube_mm: 1.0, gap_mm: 0.05,
///     plunge_min: 2.0, wear: 0.5,
/// };
/// // The tube fits: one plunge either way.
/// let both = ways(&asked, Manner::default());
/// assert_eq!(both.on_circle.unwrap().minutes, 2.0);
/// assert_eq!(both.layered.unwrap().minutes, 2.0);
/// ```
///
/// Source: as those.
#[must_use]
pub fn ways(asked: &Asked, manner: Manner) -> Ways {
    Ways {
        on_circle: on_circle(asked, manner),
        layered: layered(asked, manner),
    }
}

/// Radii of the hole, of one plunge and of the circle on which plunges touch the hole's wall [mm].
#[derive(Clone, Copy)]
struct Radii {
    hole: f64,
    plunge: f64,
    circle: f64,
}

impl Asked {
    /// The radii; `None` unless all figures make sense and the tube goes into the hole.
    fn radii(&self) -> Option<Radii> {
        let positive = [self.hole_mm, self.depth_mm, self.tube_mm]
            .into_iter()
            .all(|figure| figure.is_finite() && figure > 0.0);
        let not_negative = [self.gap_mm, self.plunge_min, self.wear]
            .into_iter()
            .all(|figure| figure.is_finite() && figure >= 0.0);
        let (hole, plunge) = (self.hole_mm / 2.0, self.tube_mm / 2.0 + self.gap_mm);
        if !positive || !not_negative || plunge > hole + ROUNDING_MM {
            return None;
        }
        // A tube that fits leaves no trace of a circle behind, whatever binary fractions say.
        let circle = hole - plunge;
        Some(if circle <= ROUNDING_MM {
            Radii {
                hole: plunge,
                plunge,
                circle: 0.0,
            }
        } else {
            Radii {
                hole,
                plunge,
                circle,
            }
        })
    }
}
