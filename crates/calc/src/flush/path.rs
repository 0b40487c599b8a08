//! The whole way of the water: down through the tube, and back up between tube and hole.

use super::resistance::{Channel, Resistance};
use super::{END_LOSSES, ML_MIN_PER_M3_S, PA_PER_BAR, Regime, WIDEST_BORE_MM, Water, counts};

/// A tube electrode in its hole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Path {
    /// Length of the tube [mm], above 0.
    pub tube_length_mm: f64,
    /// Bore of one channel, or bore of the same area as several [mm], above 0 and below the tube's
    /// diameter, up to 12.
    pub bore_mm: f64,
    /// Number of channels, 1 and up; several are as wide as each other.
    pub channels: u8,
    /// Tube diameter d [mm], below the hole's.
    pub tube_mm: f64,
    /// Hole diameter D [mm].
    pub hole_mm: f64,
}

/// How water flows through the tube and up the gap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Flow {
    /// Flow [ml/min].
    pub ml_min: f64,
    /// Mean speed in the bore [m/s].
    pub bore_m_s: f64,
    /// Mean speed up the gap [m/s]; at the face that right below it.
    pub gap_m_s: f64,
    /// How it flows: the less certain of bore and gap.
    pub regime: Regime,
}

impl Flow {
    /// What is left of it where the pump gives no more.
    ///
    /// Formula: speeds in proportion to the flow; the pressure falls to what that flow takes.
    ///
    /// - `ml_min`: most that the pump gives [ml/min], above 0.
    ///
    /// Result: flow [ml/min] and speeds [m/s].
    ///
    /// ```
    /// use quillbore_calc::flush::{Flow, Regime};
    /// let wide = Flow { ml_min: 8000.0, bore_m_s: 40.0, gap_m_s: 4.0, regime: Regime::Turbulent };
    /// let held = wide.at_most(2000.0);
    /// assert_eq!((held.ml_min, held.bore_m_s, held.gap_m_s), (2000.0, 10.0, 1.0));
    /// assert_eq!(wide.at_most(9000.0), wide);
    /// ```
    ///
    /// Source: continuity.
    #[must_use]
    pub fn at_most(self, ml_min: f64) -> Self {
        let share = ml_min / self.ml_min;
        if share < 1.0 {
            Self {
                ml_min,
                bore_m_s: self.bore_m_s * share,
                gap_m_s: self.gap_m_s * share,
                regime: self.regime,
            }
        } else {
            self
        }
    }
}

impl Path {
    /// Flow with the tip at a depth.
    ///
    /// Formula: the pump's pressure is what bore and gap take at the same flow, each
    /// `(f L/D + K) rho v^2 / 2`. Bore: its length, channels of `b / sqrt(n)` each, f as in
    /// [`super::Pipe::flow`]. Gap: length z, hydraulic diameter `D - d`, area `pi/4 (D^2 - d^2)`,
    /// `f = 96/Re` up to Re 2,300, Blasius above, and Re stays at 2,300 under the pressures between. K is
    /// [`super::END_LOSSES`] for the bore's ends, and the same of the gap's speed for where water enters
    /// the gap and leaves it. At depth 0 the bore ends in the open, and the speed up the gap is that right
    /// below the face. The flow that the pump can give has no say.
    ///
    /// - `depth_mm`: depth z of the tip [mm], 0 and up.
    /// - `pressure_bar`: pressure at the tube's upper end [bar], above 0.
    /// - `water`: its density rho [kg/m3] and viscosity [Pa s].
    ///
    /// Result: flow [ml/min] and speeds [m/s]; `None` where path or argument is no such figure.
    ///
    /// ```
    /// use quillbore_calc::flush::{Path, Water};
    /// let path = Path {
    ///     tube_length_mm: 400.0, bore_mm: 0.35, channels: 1, tube_mm: 1.0, hole_mm: 1.1,
    /// };
    /// let water = Water { density_kg_m3: 998.2, viscosity_pa_s: 1.0e-3 };
    /// let at_face = path.at_depth(0.0, 50.0, &water).unwrap();
    /// assert!((at_face.ml_min - 87.0).abs() < 0.5);
    /// let deep = path.at_depth(100.0, 50.0, &water).unwrap();
    /// assert!(deep.ml_min < at_face.ml_min);
    /// ```
    ///
    /// Source: as [`super::Pipe::flow`]; 96 for a slot, exact in the limit of a thin gap; end losses of
    /// the gap by those of a sharp pipe.
    #[must_use]
    pub fn at_depth(&self, depth_mm: f64, pressure_bar: f64, water: &Water) -> Option<Flow> {
        let known = depth_mm >= 0.0 && counts(pressure_bar) && self.counts() && water.counts();
        if !known {
            return None;
        }
        let (bore, gap) = (self.bore(), self.gap(depth_mm));
        let (down, up) = (bore.with(water), gap.with(water));
        let pressure_pa = pressure_bar * PA_PER_BAR;
        let back = down.flow_and_through(&up, pressure_pa);
        let in_gap = Regime::of(up.reynolds(back));
        // Above the work nothing stands behind the bore.
        let (flow, behind) = if depth_mm > 0.0 {
            (back, in_gap)
        } else {
            (down.flow(pressure_pa), Regime::Laminar)
        };
        (counts(flow) && counts(back)).then(|| Flow {
            ml_min: flow * ML_MIN_PER_M3_S,
            bore_m_s: flow / bore.area_m2,
            gap_m_s: back / gap.area_m2,
            regime: Regime::of(down.reynolds(flow)).or_worse(behind),
        })
    }

    /// Depth from which on the water in the gap is slower than it must be.
    ///
    /// Formula: the depth z at which bore and gap take the whole pressure at the flow `v A` of the gap's
    /// least speed; friction in the gap rises with the depth in proportion, see [`Path::at_depth`].
    ///
    /// - `least_m_s`: speed v that it must have [m/s], above 0.
    /// - `to_mm`: depth down to which is asked [mm], 0 and up.
    /// - `pressure_bar`: pressure at the tube's upper end [bar], above 0.
    /// - `water`: its density [kg/m3] and viscosity [Pa s].
    ///
    /// Result: depth [mm], 0 where it is too slow at the face already; `None` where it is fast enough
    /// all the way, or where path or argument is no such figure.
    ///
    /// ```
    /// use quillbore_calc::flush::{Path, Water};
    /// let path = Path {
    ///     tube_length_mm: 400.0, bore_mm: 0.35, channels: 1, tube_mm: 1.0, hole_mm: 1.1,
    /// };
    /// let water = Water::at(20.0).unwrap();
    /// let weak = path.weak_from(6.0, 300.0, 50.0, &water).unwrap();
    /// let there = path.at_depth(weak, 50.0, &water).unwrap();
    /// assert!((there.gap_m_s - 6.0).abs() < 1e-9);
    /// ```
    ///
    /// Source: closed form of the inverse of [`Path::at_depth`].
    #[must_use]
    pub fn weak_from(
        &self,
        least_m_s: f64,
        to_mm: f64,
        pressure_bar: f64,
        water: &Water,
    ) -> Option<f64> {
        let asked = counts(least_m_s) && to_mm >= 0.0 && counts(pressure_bar);
        if !asked || !self.counts() || !water.counts() {
            return None;
        }
        let ends = self.gap(0.0);
        let one_mm = Channel {
            loss: 0.0,
            ..self.gap(1.0)
        };
        let flow = least_m_s * ends.area_m2;
        let takes = |channel: Channel| Resistance::pressure_pa(&channel.with(water), flow);
        let left = pressure_bar * PA_PER_BAR - takes(self.bore()) - takes(ends);
        let depth_mm = left.max(0.0) / takes(one_mm);
        (depth_mm <= to_mm).then_some(depth_mm)
    }

    /// Share of what is eroded in the water that carries it away.
    ///
    /// Formula: `(f pi/4 (D^2 - core^2) + w f pi/4 (d^2 - b^2)) / Q`: metal of work and tube over flow.
    ///
    /// - `feed_mm_min`: feed f [mm/min], above 0.
    /// - `wear_ratio`: wear by length w [-], 0 and up.
    /// - `core_mm`: diameter of a core that is left [mm], 0 for none, up to D; one channel leaves one of
    ///   the bore's diameter.
    /// - `ml_min`: flow Q [ml/min], above 0.
    ///
    /// Result: share by volume [-], above 1 where more metal comes than water; `None` where path or
    /// argument is no such figure.
    ///
    /// ```
    /// use quillbore_calc::flush::Path;
    /// let path = Path {
    ///     tube_length_mm: 400.0, bore_mm: 0.35, channels: 1, tube_mm: 1.0, hole_mm: 1.1,
    /// };
    /// // 17.08 mm3 of the work and 11.03 mm3 of the tube a minute, in 87 ml.
    /// let share = path.debris_share(20.0, 0.8, 0.35, 87.0).unwrap();
    /// assert!((share - 0.000323).abs() < 0.0000005);
    /// ```
    ///
    /// Source: geometry; definition of wear by length.
    #[must_use]
    pub fn debris_share(
        &self,
        feed_mm_min: f64,
        wear_ratio: f64,
        core_mm: f64,
        ml_min: f64,
    ) -> Option<f64> {
        let core_fits = (0.0..=self.hole_mm).contains(&core_mm);
        let known = counts(feed_mm_min) && wear_ratio >= 0.0 && counts(ml_min);
        if !core_fits || !known || !self.counts() {
            return None;
        }
        let ring = |outer: f64, inner: f64| {
            core::f64::consts::FRAC_PI_4 * (outer - inner) * (outer + inner)
        };
        let of_work = ring(self.hole_mm, core_mm);
        let of_tube = wear_ratio * ring(self.tube_mm, self.bore_mm);
        let share = feed_mm_min * (of_work + of_tube) / (ml_min * MM3_PER_ML);
        share.is_finite().then_some(share)
    }

    /// The bore, with all of its channels.
    fn bore(&self) -> Channel {
        let one = Channel::round(self.bore_mm, self.tube_length_mm);
        Channel {
            width_m: one.width_m / libm::sqrt(f64::from(self.channels)),
            ..one
        }
    }

    /// The gap down to a depth, with what is lost at its ends.
    fn gap(&self, depth_mm: f64) -> Channel {
        let wide_mm = self.hole_mm - self.tube_mm;
        let ring_mm2 = core::f64::consts::FRAC_PI_4 * wide_mm * (self.hole_mm + self.tube_mm);
        Channel {
            width_m: wide_mm / 1000.0,
            area_m2: ring_mm2 / 1e6,
            length_m: depth_mm / 1000.0,
            laminar: 96.0,
            loss: END_LOSSES,
        }
    }

    /// True for a path that can be reckoned with.
    fn counts(&self) -> bool {
        let rising = counts(self.bore_mm)
            && self.bore_mm <= WIDEST_BORE_MM
            && self.bore_mm < self.tube_mm
            && self.tube_mm < self.hole_mm;
        rising && self.hole_mm.is_finite() && counts(self.tube_length_mm) && self.channels > 0
    }
}

/// Cubic millimeters in a milliliter.
const MM3_PER_ML: f64 = 1000.0;
