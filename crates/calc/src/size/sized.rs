//! What a tube makes: its gap, and how holes of one lot scatter about it.

use alloc::rc::Rc;
use alloc::vec::Vec;

use super::normal::{END_Z, Normal};
use crate::interpolate::linear;
use crate::job_figures::Chance;
use crate::quantity::{Limits, Spread};
use crate::spread::normal_at;

/// Quantiles of the lot's gap that a chance is the mean of: 1 to 99 in a hundred.
pub(super) const QUANTILES: usize = 99;
/// Quantiles that are looked at together where a bound is enough.
const BLOCK: usize = 11;
/// How far a setting moves the mean size at most: so many mm of diameter, or this share of twice
/// the gap, whichever is more («memory» of common practice, no source).
const MOVE_MM: f64 = 0.015;
const MOVE_SHARE: f64 = 0.25;

/// Normal deviates of the quantiles that chances are the mean of, and the normal distribution between;
/// worked out once for many tubes.
#[derive(Clone, Debug, PartialEq)]
pub struct Quantiles {
    z: Vec<f64>,
    normal: Rc<Normal>,
}

impl Default for Quantiles {
    fn default() -> Self {
        let share = |quantile: usize| (quantile + 1) as f64 / (QUANTILES + 1) as f64;
        Self {
            z: (0..QUANTILES).map(|at| normal_at(share(at))).collect(),
            normal: Rc::new(Normal::new()),
        }
    }
}

/// What a tube makes: its gap, and how holes of one lot scatter about it.
#[derive(Clone, Debug, PartialEq)]
pub struct Sized {
    /// Tube diameter d [mm].
    pub tube_mm: f64,
    /// Gap per side of a lot [mm].
    pub gap: Spread,
    /// Deviation of one hole's size about its lot [mm].
    pub deviation_mm: f64,
    /// Mean sizes at the entry at the quantiles of the lot's gap [mm].
    sizes_mm: Vec<f64>,
    normal: Rc<Normal>,
}

impl Sized {
    /// A tube with its gap and scatter.
    ///
    /// Formula: size `d + 2 g`; deviation of a hole `sqrt(scatter^2 + (tolerance / sqrt 3)^2)`, the
    /// tube's tolerance being evenly spread.
    ///
    /// - `tube_mm`: tube diameter d [mm], above 0.
    /// - `gap`: gap per side g [mm].
    /// - `scatter_mm`: table of scatter, 0 and up, against tube diameter, above 0 and rising, both
    ///   [mm]; see [`crate::tables::StartValues::size_scatter_mm`]. Linear between, ends held.
    /// - `tolerance_mm`: tolerance of the tube's diameter, plus or minus [mm], 0 and up.
    /// - `quantiles`: of the lot's gap.
    ///
    /// Result: what the tube makes: its sizes at the quantiles of the gap and a hole's deviation [mm].
    ///
    /// ```
    /// use quillbore_calc::{Limits, Spread};
    /// use quillbore_calc::size::{Quantiles, Sized};
    /// let gap = Spread::new(0.03, 0.06).unwrap();
    /// let tube = Sized::new(0.7, gap, &[(1.0, 0.008)], 0.01, &Quantiles::default());
    /// assert!((tube.deviation_mm - 0.0099).abs() < 0.00005);
    /// ```
    ///
    /// Source: definition of the gap; moments of the even distribution.
    #[must_use]
    pub fn new(
        tube_mm: f64,
        gap: Spread,
        scatter_mm: &[(f64, f64)],
        tolerance_mm: f64,
        quantiles: &Quantiles,
    ) -> Self {
        let scatter = linear(scatter_mm, tube_mm);
        let (median, sigma) = (gap.p50(), gap.sigma());
        let size = |z: &f64| tube_mm + 2.0 * median * libm::exp(sigma * z);
        Self {
            tube_mm,
            gap,
            deviation_mm: libm::sqrt(scatter * scatter + tolerance_mm * tolerance_mm / 3.0),
            sizes_mm: quantiles.z.iter().map(size).collect(),
            normal: Rc::clone(&quantiles.normal),
        }
    }

    /// Smallest size at the exit and largest at the entry that nine lots in ten stay between on
    /// either side.
    ///
    /// Formula: `d + 2 g10 - taper` and `d + 2 g90`, with the gap's P10 and P90.
    ///
    /// - `taper_mm`: how much smaller the exit is than the entry [mm of diameter], 0 and up.
    ///
    /// Result: sizes [mm].
    ///
    /// ```
    /// use quillbore_calc::{Limits, Spread};
    /// use quillbore_calc::size::{Quantiles, Sized};
    /// let gap = Spread::new(0.03, 0.06).unwrap();
    /// let tube = Sized::new(0.7, gap, &[(1.0, 0.008)], 0.01, &Quantiles::default());
    /// let Limits { lower: least, upper: most } = tube.range_mm(0.003);
    /// assert!((least - 0.757).abs() < 1e-9 && (most - 0.82).abs() < 1e-9);
    /// ```
    ///
    /// Source: definition of the gap.
    #[must_use]
    pub fn range_mm(&self, taper_mm: f64) -> Limits {
        Limits::new(
            self.tube_mm + 2.0 * self.gap.p10 - taper_mm,
            self.tube_mm + 2.0 * self.gap.p90,
        )
    }

    /// Median size at the entry.
    ///
    /// Formula: `d + 2 g50`, with the gap's median.
    ///
    /// Result: size [mm].
    ///
    /// ```
    /// use quillbore_calc::{Limits, Spread};
    /// use quillbore_calc::size::{Quantiles, Sized};
    /// let gap = Spread::new(0.02, 0.08).unwrap(); // median 0.04
    /// let tube = Sized::new(0.7, gap, &[(1.0, 0.008)], 0.01, &Quantiles::default());
    /// assert!((tube.median_mm() - 0.78).abs() < 1e-9);
    /// ```
    ///
    /// Source: definition of the gap.
    #[must_use]
    pub fn median_mm(&self) -> f64 {
        self.tube_mm + 2.0 * self.gap.p50()
    }

    /// Chance of a size inside the limits and of one over them, for a lot whose gap is not known.
    ///
    /// Formula: mean over 99 quantiles of the lot's gap, with size m at the entry and deviation s of
    /// one hole: `inside = Phi((hi - m)/s) - Phi((lo + taper - m)/s)`, `over = 1 - Phi((hi - m)/s)`.
    ///
    /// - `limits_mm`: lower and upper limit [mm], the lower not above the upper.
    /// - `taper_mm`: how much smaller the exit is than the entry [mm of diameter], 0 and up.
    ///
    /// Result: chances [-], 0 to 1.
    ///
    /// ```
    /// use quillbore_calc::{Limits, Spread};
    /// use quillbore_calc::size::{Quantiles, Sized};
    /// // A gap that is known: 0.8 mm with a deviation of 0.01. Within one deviation of the middle
    /// // 0.6827, beyond one 0.1587 (standard normal table).
    /// let gap = Spread::new(0.05, 0.05).unwrap();
    /// let tube = Sized::new(0.7, gap, &[(1.0, 0.01)], 0.0, &Quantiles::default());
    /// let chance = tube.chance(Limits::new(0.79, 0.81), 0.0);
    /// assert!((chance.inside - 0.6827).abs() < 0.00005);
    /// assert!((chance.over - 0.1587).abs() < 0.00005);
    /// ```
    ///
    /// Source: ours; worked figures by an independent prototype in the tests.
    #[must_use]
    pub fn chance(&self, limits_mm: Limits, taper_mm: f64) -> Chance {
        let Limits { lower, upper } = limits_mm;
        let below_upper: Vec<f64> = self.below(upper).collect();
        self.chance_by(&below_upper, lower + taper_mm)
    }

    /// The same by the shares of holes below the upper limit, and the smallest size at the entry that
    /// is not too small at the exit [mm].
    pub(crate) fn chance_by(&self, below_upper: &[f64], least_mm: f64) -> Chance {
        // Sizes rise: the first are below the least for certain, and the last above it.
        let reach = END_Z * self.deviation_mm;
        let sizes = &self.sizes_mm;
        let from = sizes.partition_point(|size| *size <= least_mm - reach);
        let to = sizes.partition_point(|size| *size < least_mm + reach);
        let mut inside = 0.0;
        for (below_upper, size) in below_upper.iter().zip(sizes).take(to).skip(from) {
            inside += (below_upper - self.share(least_mm - size)).max(0.0);
        }
        inside = below_upper
            .iter()
            .skip(to)
            .fold(inside, |sum, below| sum + below);
        let over: f64 = below_upper.iter().map(|below| 1.0 - below).sum();
        let quantiles = QUANTILES as f64;
        Chance {
            inside: inside / quantiles,
            over: over / quantiles,
        }
    }

    /// No tube's chance of being right less that of oversize is more than this, found in a tenth of the
    /// time.
    ///
    /// Between two sizes the share inside is at most that of the one nearer to the middle of the
    /// limits, and the share over at least that of the smaller.
    pub(crate) fn most_score(&self, limits_mm: Limits, taper_mm: f64) -> f64 {
        let (least, upper) = (limits_mm.lower + taper_mm, limits_mm.upper);
        let middle = f64::midpoint(least, upper);
        let inside = |size: f64| (self.share(upper - size) - self.share(least - size)).max(0.0);
        let mut most = 0.0;
        for block in self.sizes_mm.chunks(BLOCK) {
            if let (Some(first), Some(last)) = (block.first(), block.last()) {
                let nearest = inside(middle.clamp(*first, *last));
                let over = 1.0 - self.share(upper - first);
                most += (nearest - over) * block.len() as f64;
            }
        }
        // Shares are known to 1e-8.
        most / QUANTILES as f64 + 1e-6
    }

    /// True where no size of the tube can lie inside the limits.
    pub(crate) fn is_far_from(&self, limits_mm: Limits, taper_mm: f64) -> bool {
        let reach = END_Z * self.deviation_mm;
        let (first, last) = (self.sizes_mm.first(), self.sizes_mm.last());
        first.is_none_or(|least| *least > limits_mm.upper + reach)
            || last.is_none_or(|most| *most < limits_mm.lower + taper_mm - reach)
    }

    /// Whether it can hold the limits at all, its setting moved as far as that goes.
    pub(super) fn may_hold(&self, limits_mm: Limits, taper_mm: f64) -> bool {
        // A setting moves a size by less than half the gap, so what is far off by twice the move is out.
        let widest = self.sizes_mm.last().map_or(0.0, |most| most - self.tube_mm);
        let slack = (MOVE_SHARE * widest).max(MOVE_MM);
        let widened = Limits::new(limits_mm.lower - slack, limits_mm.upper + slack);
        !self.is_far_from(widened, taper_mm)
    }

    /// Shares of holes below a size at the entry, quantile by quantile of the lot's gap.
    pub(crate) fn below(&self, size_mm: f64) -> impl Iterator<Item = f64> {
        self.sizes_mm
            .iter()
            .map(move |size| self.share(size_mm - size))
    }

    /// Share of holes whose size lies less than `margin_mm` above the lot's own.
    fn share(&self, margin_mm: f64) -> f64 {
        self.normal.below(margin_mm / self.deviation_mm)
    }

    /// Raises the share of holes inside both limits, quantile by quantile of the lot's gap, to what this tube
    /// gives once its setting has been moved toward their middle; see [`super::held`].
    pub(super) fn raise(&self, best: &mut [f64; QUANTILES], limits_mm: Limits, taper_mm: f64) {
        let [lower, upper] = [limits_mm.lower + taper_mm, limits_mm.upper];
        let middle = f64::midpoint(lower, upper);
        let inside = |size: f64| (self.share(upper - size) - self.share(lower - size)).max(0.0);
        // In the middle a tube gives the most that it can.
        let centered = inside(middle);
        for (best, size) in best.iter_mut().zip(&self.sizes_mm) {
            if *best >= centered {
                continue;
            }
            let most = (MOVE_SHARE * (size - self.tube_mm)).max(MOVE_MM);
            let off = middle - size;
            let given = if off.abs() <= most {
                centered
            } else {
                inside(size + off.clamp(-most, most))
            };
            *best = best.max(given);
        }
    }
}
