//! Minutes of sparking: the feed's depth law, its integral, and the partly covered zones.

use crate::entry::{AtEnds, Zone};
use crate::quantity::Limits;
use crate::span::Span;

/// How the feed falls with depth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DepthLaw {
    /// Depth at which the feed is halved [mm]; infinite where it does not fall.
    pub halved_mm: f64,
    /// Exponent m [-], above 0.
    pub exponent: f64,
}

impl DepthLaw {
    /// A feed that does not fall with depth.
    pub const NONE: Self = Self {
        halved_mm: f64::INFINITY,
        exponent: 1.0,
    };

    /// `(z/(d s))^m`.
    pub(crate) fn slowing(self, depth_mm: f64) -> f64 {
        let ratio = depth_mm.max(0.0) / self.halved_mm;
        if self.exponent == 1.5 {
            // The start value's exponent, many times as fast as a general power.
            ratio * libm::sqrt(ratio)
        } else {
            libm::pow(ratio, self.exponent)
        }
    }

    /// Share of the depth law in the minutes to a depth: `A = (z/(d s))^m / (m + 1)`.
    pub(crate) fn share(self, depth_mm: f64) -> f64 {
        self.slowing(depth_mm) / (self.exponent + 1.0)
    }
}

/// Feed at a depth.
///
/// Formula: `f(z) = f0 / (1 + (z/(d s))^m)`.
///
/// - `feed_mm_min`: feed at the face f0 [mm/min], above 0.
/// - `depth_mm`: depth z on the axis [mm], 0 and up.
/// - `law`: `d s` [mm] and m [-].
///
/// Result: feed [mm/min]. Valid as far as the depth law is: start values are for 0 to about 200
/// diameters.
///
/// ```
/// use quillbore_calc::burn::{DepthLaw, feed_at};
/// let law = DepthLaw { halved_mm: 56.0, exponent: 1.5 };
/// assert_eq!(feed_at(20.0, 56.0, law), 10.0);
/// ```
///
/// Source: form of the law by common practice, no source.
#[must_use]
pub fn feed_at(feed_mm_min: f64, depth_mm: f64, law: DepthLaw) -> f64 {
    feed_mm_min / (1.0 + law.slowing(depth_mm))
}

/// Minutes of full metal from the face to a depth.
///
/// Formula: `T(L) = (L/f0) (1 + (L/(d s))^m / (m+1))`, the integral of `dz/f(z)` from 0 to L.
///
/// - `feed_mm_min`: feed at the face f0 [mm/min], above 0.
/// - `depth_mm`: depth L on the axis [mm]; below 0 counts as 0.
/// - `law`: `d s` [mm] and m [-].
///
/// Result: minutes [min]. Valid as [`feed_at`].
///
/// ```
/// use quillbore_calc::burn::{DepthLaw, minutes_to};
/// let law = DepthLaw { halved_mm: 0.7 * 80.0, exponent: 1.5 };
/// assert!((minutes_to(20.0, 14.0, law) - 0.735).abs() < 1e-9);
/// ```
///
/// Source: closed form of the integral.
#[must_use]
pub fn minutes_to(feed_mm_min: f64, depth_mm: f64, law: DepthLaw) -> f64 {
    depth_mm.max(0.0) / feed_mm_min * (1.0 + law.share(depth_mm))
}

/// Minutes of full metal between two depths in one material.
///
/// Formula: `T(to) - T(from)` with the material's own f0, see [`minutes_to`].
///
/// - `span`: from and to [mm], and the feed at the face [mm/min].
/// - `law`: `d s` [mm] and m [-].
///
/// Result: minutes [min], 0 where the span is empty. Valid as [`feed_at`].
///
/// ```
/// use quillbore_calc::burn::{DepthLaw, minutes_between};
/// use quillbore_calc::span::Span;
/// let span = Span { from_mm: 2.0, to_mm: 5.0, value: 15.0 };
/// assert!((minutes_between(span, DepthLaw::NONE) - 0.2).abs() < 1e-12);
/// ```
///
/// Source: closed form of the integral.
#[must_use]
pub fn minutes_between(span: Span, law: DepthLaw) -> f64 {
    if span.to_mm <= span.from_mm {
        return 0.0;
    }
    minutes_to(span.value, span.to_mm, law) - minutes_to(span.value, span.from_mm, law)
}

/// Minutes of full metal through layers.
///
/// Formula: sum of [`minutes_between`] over the layers.
///
/// - `spans`: the layers with their feeds at the face [mm/min], in any order.
/// - `law`: `d s` [mm] and m [-].
///
/// Result: minutes [min]. Valid as [`feed_at`].
///
/// ```
/// use quillbore_calc::burn::{DepthLaw, minutes_over};
/// use quillbore_calc::span::Span;
/// let carbide_on_steel = [
///     Span { from_mm: 0.0, to_mm: 3.0, value: 5.0 },
///     Span { from_mm: 3.0, to_mm: 13.0, value: 20.0 },
/// ];
/// assert!((minutes_over(carbide_on_steel, DepthLaw::NONE) - 1.1).abs() < 1e-12);
/// ```
///
/// Source: closed form of the integral, layers by difference.
#[must_use]
pub fn minutes_over(spans: impl IntoIterator<Item = Span>, law: DepthLaw) -> f64 {
    spans
        .into_iter()
        .map(|span| minutes_between(span, law))
        .sum()
}

/// A hole's way through metal.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cut {
    /// Depth L on the axis [mm].
    pub depth_mm: f64,
    /// Zone in which the tool's disc enters.
    pub entry: Zone,
    /// Zone in which it leaves; [`Zone::NONE`] for a closed bottom.
    pub exit: Zone,
}

impl Cut {
    /// Travel with any metal under the tool.
    ///
    /// Formula: the depth and what of the zones lies outside the axis' own:
    /// `L + entry before + exit after`.
    ///
    /// Result: travel [mm].
    ///
    /// ```
    /// use quillbore_calc::burn::Cut;
    /// use quillbore_calc::entry::flat;
    /// // A 1.5 mm wall at 60 degrees, tube 0.8 mm: zones of 0.8 tan 60 = 1.3856, half before the
    /// // axis.
    /// let zone = flat(0.8, 60.0).unwrap();
    /// let cut = Cut { depth_mm: 3.0, entry: zone, exit: zone };
    /// assert!((cut.travel_mm() - 4.3856).abs() < 0.00005);
    /// ```
    ///
    /// Source: geometry.
    #[must_use]
    pub fn travel_mm(&self) -> f64 {
        self.depth_mm + self.entry.before_mm + self.exit.after_mm
    }

    /// Travel with metal under the whole tool.
    ///
    /// Formula: the depth less what of the zones lies inside it, not below 0:
    /// `L - entry after - exit before`.
    ///
    /// Result: travel [mm].
    ///
    /// ```
    /// use quillbore_calc::burn::Cut;
    /// use quillbore_calc::entry::flat;
    /// let zone = flat(0.8, 60.0).unwrap();
    /// let cut = Cut { depth_mm: 3.0, entry: zone, exit: zone };
    /// assert!((cut.full_metal_mm() - 1.6144).abs() < 0.00005); // 3 - 1.3856
    /// ```
    ///
    /// Source: geometry.
    #[must_use]
    pub fn full_metal_mm(&self) -> f64 {
        (self.depth_mm - self.entry.after_mm - self.exit.before_mm).max(0.0)
    }

    /// Depths on the axis at which the entry zone ends and the exit zone begins.
    ///
    /// Formula: `entry after` and `L - exit before`. Where the two zones overlap there is no full
    /// metal; they part the depth in proportion.
    ///
    /// Result: depths [mm], the first not above the second.
    ///
    /// ```
    /// use quillbore_calc::burn::Cut;
    /// use quillbore_calc::entry::Zone;
    /// use quillbore_calc::Limits;
    /// let cut = |depth_mm| Cut {
    ///     depth_mm,
    ///     entry: Zone { before_mm: 0.0, after_mm: 3.0 },
    ///     exit: Zone { before_mm: 1.0, after_mm: 0.0 },
    /// };
    /// assert_eq!(cut(10.0).bounds_mm(), Limits::new(3.0, 9.0));
    /// assert_eq!(cut(2.0).bounds_mm(), Limits::new(1.5, 1.5)); // 3 to 1
    /// ```
    ///
    /// Source: geometry; how overlapping zones part is ours.
    #[must_use]
    pub fn bounds_mm(&self) -> Limits {
        let zones = self.entry.after_mm + self.exit.before_mm;
        if zones <= self.depth_mm {
            Limits::new(self.entry.after_mm, self.depth_mm - self.exit.before_mm)
        } else {
            let part = self.depth_mm * self.entry.after_mm / zones;
            Limits::new(part, part)
        }
    }
}

/// Minutes of a cut by part [min].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CutMinutes {
    /// In the entry zone.
    pub entry: f64,
    /// In full metal.
    pub full_metal: f64,
    /// In the exit zone.
    pub exit: f64,
}

/// Minutes of a cut: entry zone, full metal and exit zone.
///
/// Formula: full metal by [`minutes_over`]; a zone takes as long as its length in full metal at
/// that depth, divided by the zone feed: `T_zone = T_full / zone_feed`. What a zone travels outside
/// the axis' own length L is taken at the feed of L's near end.
///
/// - `cut`: depth L [mm] and zones [mm].
/// - `zone_feed`: feed in zones relative to full metal [-], above 0 and up to 1.
/// - `end_feeds`: full-metal feed at the surface and at L [mm/min], above 0.
/// - `full`: minutes of full metal between two depths on the axis [min], 0 and up, see
///   [`minutes_over`].
///
/// Result: minutes by part [min]. A thin steep wall may have no full metal at all.
///
/// A 1.5 mm wall, 60 degrees from the normal, tube 0.8 mm, zone feed one half takes as long as
/// 7.157 mm of full metal:
///
/// ```
/// use quillbore_calc::burn::{Cut, DepthLaw, cut_minutes, minutes_between};
/// use quillbore_calc::entry::{AtEnds, flat};
/// use quillbore_calc::span::Span;
/// let zone = flat(0.8, 60.0).unwrap();
/// let cut = Cut { depth_mm: 1.5 / 0.5, entry: zone, exit: zone };
/// let full = |from_mm, to_mm| minutes_between(Span { from_mm, to_mm, value: 1.0 }, DepthLaw::NONE);
/// let parts = cut_minutes(&cut, 0.5, AtEnds { entry: 1.0, exit: 1.0 }, full);
/// assert!((parts.entry + parts.full_metal + parts.exit - 7.157).abs() < 0.0005);
/// ```
///
/// Source: geometry; the zone feed by common practice, no source.
#[must_use]
pub fn cut_minutes(
    cut: &Cut,
    zone_feed: f64,
    end_feeds: AtEnds<f64>,
    full: impl Fn(f64, f64) -> f64,
) -> CutMinutes {
    let Limits {
        lower: entered,
        upper: leaves,
    } = cut.bounds_mm();
    let zone = |outside_mm: f64, feed: f64, from: f64, to: f64| {
        if outside_mm == 0.0 && from == to {
            0.0
        } else {
            (outside_mm / feed + full(from, to)) / zone_feed
        }
    };
    CutMinutes {
        entry: zone(cut.entry.before_mm, end_feeds.entry, 0.0, entered),
        full_metal: full(entered, leaves),
        exit: zone(cut.exit.after_mm, end_feeds.exit, leaves, cut.depth_mm),
    }
}

/// Overtravel past a clear exit.
///
/// Formula: the larger of a least length and so many tube diameters.
///
/// - `tube_mm`: tube diameter d [mm], above 0.
/// - `least_mm`: least overtravel [mm], 0 and up.
/// - `diameters`: overtravel in diameters [-], 0 and up.
///
/// Result: overtravel [mm]. A back wall may allow less: see [`room_behind`].
///
/// ```
/// use quillbore_calc::burn::overtravel;
/// assert_eq!(overtravel(0.3, 1.0, 2.5), 1.0);
/// assert_eq!(overtravel(2.0, 1.0, 2.5), 5.0);
/// ```
///
/// Source: common practice, no source.
#[must_use]
pub fn overtravel(tube_mm: f64, least_mm: f64, diameters: f64) -> f64 {
    least_mm.max(diameters * tube_mm)
}

/// What overtravel a back wall leaves, and whether backing is needed.
///
/// Formula: backing is needed where `overtravel + wear uncertainty > room`; without it the
/// overtravel is held to the room.
///
/// - `overtravel_mm`: overtravel wanted [mm], 0 and up.
/// - `wear_uncertainty_mm`: how much less than planned the electrode may wear, so that its tip goes
///   further [mm], 0 and up.
/// - `behind_mm`: free distance behind the exit [mm]; below 0 counts as 0.
///
/// Result: overtravel allowed [mm] and, where backing is needed, the room it stands in for [mm].
///
/// ```
/// use quillbore_calc::burn::room_behind;
/// assert_eq!(room_behind(2.0, 1.5, 4.0), (2.0, None));
/// assert_eq!(room_behind(2.0, 1.5, 1.0), (1.0, Some(3.5)));
/// ```
///
/// Source: geometry.
#[must_use]
pub fn room_behind(
    overtravel_mm: f64,
    wear_uncertainty_mm: f64,
    behind_mm: f64,
) -> (f64, Option<f64>) {
    let needed = overtravel_mm + wear_uncertainty_mm;
    if needed > behind_mm {
        (overtravel_mm.min(behind_mm.max(0.0)), Some(needed))
    } else {
        (overtravel_mm, None)
    }
}

/// Minutes to draw the electrode out of the hole.
///
/// Formula: `depth / rapid`.
///
/// - `tip_mm`: depth of the tip from the work's surface [mm], 0 and up.
/// - `rapid_mm_min`: rapid speed of the drilling axis [mm/min], above 0.
///
/// Result: minutes [min].
///
/// ```
/// use quillbore_calc::burn::retract_minutes;
/// assert_eq!(retract_minutes(50.0, 1000.0), 0.05);
/// ```
///
/// Source: kinematics.
#[must_use]
pub fn retract_minutes(tip_mm: f64, rapid_mm_min: f64) -> f64 {
    tip_mm / rapid_mm_min
}
