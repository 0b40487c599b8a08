//! Which electrode burns a broken tool out, how deep, how long.

use super::size::Size;
use super::{Broken, Kind, Start};
use crate::plunge::{Asked, LARGEST_MM, Manner, Opening, ways};
use crate::quantity::{Limits, ROUNDING_MM, Spread};

/// What a drill's point slopes from the flat [deg]: half of what 118 degrees leave of 180.
const POINT_SLOPE_DEG: f64 = 31.0;

/// An electrode in stock, with what it does in full metal of what the tool is made of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stock {
    /// Outer diameter [mm].
    pub outer_mm: f64,
    /// Feed in full metal [mm/min].
    pub feed_mm_min: f64,
    /// Wear by length [-].
    pub wear: f64,
}

/// The electrode that a broken tool is burnt out with.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Choice {
    /// One plunge with this one.
    Fits(Stock),
    /// Nothing in stock fits: a thinner one opens a hole around the core.
    Opened(Stock, Opening),
    /// Nothing in stock will do: one between least and greatest is to be had.
    Bought,
    /// The hole would be wider than tubes open: other means do better.
    TooWide,
    /// No hole takes the core for certain and stays clear of thread or wall for certain: the thickest
    /// in stock that stays clear, where there is one.
    ThreadAtRisk {
        /// How much the greatest electrode is below the least [mm].
        short_mm: f64,
        /// With what it may be tried.
        electrode: Option<Stock>,
    },
}

/// What it takes to burn out a broken tool.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plan {
    /// What must be gone, on the tool's own axis [mm].
    pub core_mm: f64,
    /// The diameter that must stay whole [mm]: a thread's minor diameter, or the hole.
    pub bound_mm: f64,
    /// Least and greatest burnt hole [mm]; the least is above where the thread is at risk.
    pub burnt_mm: Limits,
    /// Least and greatest electrode for one plunge [mm]; the least is above where the thread is at
    /// risk.
    pub electrode_mm: Limits,
    /// With what.
    pub choice: Choice,
    /// Burnt hole [mm], where there is an electrode.
    pub hole_mm: Option<f64>,
    /// What stays between the burnt hole and thread or wall on the nearer side with run-out and
    /// offset at their worst [mm]; below 0 by how much it is cut.
    pub clear_mm: Option<f64>,
    /// Length that is burnt [mm].
    pub left_mm: f64,
    /// True where nobody measured it.
    pub left_assumed: bool,
    /// Length of a drill's point, part of the above [mm]: its lands end where it begins.
    pub point_mm: Option<f64>,
    /// Where the electrode's tip stops, from the part's face [mm].
    pub stop_mm: f64,
    /// Sparking [min], where there is an electrode.
    pub minutes: Option<Spread>,
    /// Electrode lost [mm], where there is one.
    pub wear_mm: Option<f64>,
}

impl Plan {
    /// The electrode that it is burnt out with, where there is one.
    pub(crate) const fn electrode(&self) -> Option<Stock> {
        match self.choice {
            Choice::Fits(with)
            | Choice::Opened(with, _)
            | Choice::ThreadAtRisk {
                electrode: Some(with),
                ..
            } => Some(with),
            Choice::ThreadAtRisk { .. } | Choice::Bought | Choice::TooWide => None,
        }
    }
}

/// Burning out a broken tool.
///
/// Formula: least hole = core + 2 (run-out + off center); core the web of a tap or reamer (by its
/// flutes), of a drill (its electrode at least half the drill, so that the lands come free) or an
/// extractor's body. A screw's least hole is a share of its thread's minor diameter. Greatest hole =
/// bound - 2 margin; electrodes 2 g below. The smallest in stock between is chosen; where there is
/// none, the thinner one that opens such a hole in the fewest minutes, as [`ways`], with cusps
/// outside the least hole; the core needs no hole behind it to fall out, since the burn goes to its
/// end. Stop = below face + length, and a little further in an open hole. Minutes = length /
/// (feed x share of full metal), wear = rho x length.
///
/// - `broken`: the tool and how it sits.
/// - `stock`: electrodes in stock, in any order; those whose figures make no sense are passed over.
/// - `start`: start values.
///
/// Result: the plan, lengths [mm], minutes [min]; `None` where a size makes no sense or the thread has
/// no pitch. The band of minutes is that of the share of full metal alone.
///
/// An M6 tap, 12 mm left: web 0.4 x 6 = 2.4, least 2.4 + 0.5 - 0.1, greatest 4.917 - 0.2 - 0.1:
///
/// ```
/// use quillbore_calc::broken::{Broken, Choice, Kind, Start, Stock, Stuff, plan};
/// let stock = [2.0, 2.5, 3.0].map(|outer_mm| Stock { outer_mm, feed_mm_min: 4.0, wear: 0.8 });
/// let tap = Broken { left_mm: Some(12.0), ..Broken::new(Kind::Tap, Stuff::Hss, 6.0) };
/// let plan = plan(&tap, &stock, &Start::default()).unwrap();
/// assert!((plan.electrode_mm.lower - 2.8).abs() < 1e-9);
/// assert!((plan.electrode_mm.upper - 4.617).abs() < 0.001);
/// assert_eq!(plan.choice, Choice::Fits(stock[2]));
/// let minutes = plan.minutes.unwrap(); // 12 / (4 x 0.5), 12 / (4 x 0.25)
/// assert_eq!((minutes.p10, minutes.p90, plan.stop_mm), (6.0, 12.0, 12.0));
/// ```
///
/// Source: geometry; minor diameters by ISO 68-1; webs and shares are assumptions, see [`Start`].
#[must_use]
pub fn plan(broken: &Broken, stock: &[Stock], start: &Start) -> Option<Plan> {
    let size = Size::of(broken, start)?;
    let left = broken.left_or_usual_mm();
    if !left.is_finite() || left <= 0.0 {
        return None;
    }
    let electrode_mm = size.hole.map(|hole| hole - 2.0 * broken.gap_mm);
    let choice = choose(broken, &size, left, stock, start);
    let share = broken.feed_share(start);
    let slow = |full_metal: f64| Spread::new(full_metal / share.p90, full_metal / share.p10);
    let burn = match choice {
        Choice::Fits(with)
        | Choice::ThreadAtRisk {
            electrode: Some(with),
            ..
        } => Some((
            with.outer_mm + 2.0 * broken.gap_mm,
            left / with.feed_mm_min,
            with.wear * left,
        )),
        Choice::Opened(_, opening) => {
            Some((envelope(&size, start), opening.minutes, opening.wear_mm))
        }
        Choice::Bought | Choice::TooWide | Choice::ThreadAtRisk { .. } => None,
    };
    let past_end = if broken.through {
        start.past_end_mm
    } else {
        0.0
    };
    let slope = libm::tan(POINT_SLOPE_DEG.to_radians());
    let off = broken.run_out_mm + broken.off_center_mm;
    Some(Plan {
        core_mm: size.core,
        bound_mm: size.bound,
        burnt_mm: size.hole,
        electrode_mm,
        choice,
        hole_mm: burn.map(|(hole, ..)| hole),
        clear_mm: burn.map(|(hole, ..)| (size.bound - hole) / 2.0 - off),
        left_mm: left,
        left_assumed: broken.left_mm.is_none(),
        point_mm: (broken.kind == Kind::Drill).then_some(broken.nominal_mm / 2.0 * slope),
        stop_mm: broken.below_face_mm + left + past_end,
        minutes: burn.and_then(|(_, minutes, _)| slow(minutes)),
        wear_mm: burn.map(|(.., wear)| wear),
    })
}

/// The hole that is opened around the core: with room for cusps, as far as the thread allows [mm].
fn envelope(size: &Size, start: &Start) -> f64 {
    (size.hole.lower + 2.0 * start.cusp_mm).min(size.hole.upper)
}

fn choose(broken: &Broken, size: &Size, left: f64, stock: &[Stock], start: &Start) -> Choice {
    let sound = stock.iter().copied().filter(|with| {
        [with.outer_mm, with.feed_mm_min]
            .into_iter()
            .all(|figure| figure.is_finite() && figure > 0.0)
            && with.wear.is_finite()
            && with.wear >= 0.0
    });
    let Limits {
        lower: least,
        upper: greatest,
    } = size.hole.map(|hole| hole - 2.0 * broken.gap_mm);
    let clear = sound.filter(|with| with.outer_mm <= greatest + ROUNDING_MM);
    if least > greatest + ROUNDING_MM {
        return Choice::ThreadAtRisk {
            short_mm: least - greatest,
            electrode: clear.max_by(|a, b| a.outer_mm.total_cmp(&b.outer_mm)),
        };
    }
    let fits = clear
        .clone()
        .filter(|with| with.outer_mm >= least - ROUNDING_MM)
        .min_by(|a, b| a.outer_mm.total_cmp(&b.outer_mm));
    if let Some(with) = fits {
        return Choice::Fits(with);
    }
    let hole_mm = envelope(size, start);
    if hole_mm > LARGEST_MM {
        return Choice::TooWide;
    }
    let manner = Manner {
        cusp_mm: ((hole_mm - size.hole.lower) / 2.0).max(Manner::default().cusp_mm),
        ..Manner::default()
    };
    clear
        .filter_map(|with| {
            let asked = Asked {
                hole_mm,
                depth_mm: left,
                through: true,
                tube_mm: with.outer_mm,
                gap_mm: broken.gap_mm,
                plunge_min: left / with.feed_mm_min,
                wear: with.wear,
            };
            Some((with, ways(&asked, manner).cheaper()?))
        })
        .min_by(|(_, a), (_, b)| a.minutes.total_cmp(&b.minutes))
        .map_or(Choice::Bought, |(with, opening)| {
            Choice::Opened(with, opening)
        })
}
