//! Flow through a straight round pipe.

use super::resistance::Channel;
use super::{ML_MIN_PER_M3_S, PA_PER_BAR, Regime, WIDEST_BORE_MM, Water, counts};

/// A straight round pipe.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pipe {
    /// Length [mm], above 0.
    pub length_mm: f64,
    /// Bore [mm], above 0 to 12.
    pub bore_mm: f64,
}

/// How water flows through a pipe.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PipeFlow {
    /// Flow [ml/min].
    pub ml_min: f64,
    /// Mean speed [m/s].
    pub m_s: f64,
    /// Reynolds number [-].
    pub reynolds: f64,
    /// How it flows.
    pub regime: Regime,
}

impl Pipe {
    /// Flow under a pressure.
    ///
    /// Formula: `p = (f L/d + K) rho v^2 / 2`, with `f = 64/Re` up to Re 2,300 and Blasius'
    /// `f = 0.3164/Re^0.25` above, `Re = rho v d / mu`. Blasius asks for more pressure at 2,300 than the
    /// laminar law does: under the pressures between the two Re stays at 2,300, so that the flow never
    /// jumps, and never falls where the pressure rises. There it falls with the viscosity: warmer water
    /// turns turbulent sooner.
    ///
    /// - `pressure_bar`: pressure p at the pump over that at the end [bar], above 0.
    /// - `loss`: velocity heads K lost at the ends [-], 0 and up; [`super::END_LOSSES`] for sharp ends.
    /// - `water`: its density rho [kg/m3] and viscosity mu [Pa s].
    ///
    /// Result: flow [ml/min], speed [m/s], Reynolds number [-]; `None` where an argument is no such
    /// figure, and for bores above 12 mm.
    ///
    /// ```
    /// use quillbore_calc::flush::{END_LOSSES, Pipe, Regime, Water};
    /// let water = Water { density_kg_m3: 998.2, viscosity_pa_s: 1.0e-3 };
    /// let pipe = Pipe { length_mm: 400.0, bore_mm: 0.5 };
    /// let flow = pipe.flow(50.0, END_LOSSES, &water).unwrap();
    /// assert!((flow.ml_min - 227.0).abs() < 0.5);
    /// assert_eq!(flow.regime, Regime::Turbulent);
    /// ```
    ///
    /// Source: Darcy and Weisbach; Hagen and Poiseuille; Blasius 1913 for smooth pipes, to Re 100,000;
    /// what holds between the laws is ours.
    #[must_use]
    pub fn flow(&self, pressure_bar: f64, loss: f64, water: &Water) -> Option<PipeFlow> {
        let known = self.counts() && counts(pressure_bar) && loss >= 0.0 && water.counts();
        if !known {
            return None;
        }
        let channel = Channel {
            loss,
            ..Channel::round(self.bore_mm, self.length_mm)
        };
        let pipe = channel.with(water);
        let flow = pipe.flow(pressure_bar * PA_PER_BAR);
        let reynolds = pipe.reynolds(flow);
        (counts(flow) && counts(reynolds)).then(|| PipeFlow {
            ml_min: flow * ML_MIN_PER_M3_S,
            m_s: flow / channel.area_m2,
            reynolds,
            regime: Regime::of(reynolds),
        })
    }

    /// True for a pipe that can be reckoned with.
    fn counts(&self) -> bool {
        counts(self.length_mm) && counts(self.bore_mm) && self.bore_mm <= WIDEST_BORE_MM
    }
}

/// What the laminar law says that a flow takes of the pressure, and whether it may be asked.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LaminarDrop {
    /// Pressure drop by the laminar law [Pa].
    pub pressure_pa: f64,
    /// Reynolds number [-].
    pub reynolds: f64,
    /// How it flows: the pressure holds for [`Regime::Laminar`] alone, in any other it is too low.
    pub regime: Regime,
}

/// Pressure drop of a flow by the laminar law, without losses at the ends.
///
/// Formula: `128 mu L Q / (pi d^4)`; `Re = 4 rho Q / (pi d mu)`.
///
/// - `pipe`: length L and bore d [mm].
/// - `ml_min`: flow Q [ml/min], above 0.
/// - `water`: its density rho [kg/m3] and viscosity mu [Pa s].
///
/// Result: pressure [Pa], Reynolds number [-], and whether the law holds at it; `None` where an argument
/// is no such figure, and for bores above 12 mm.
///
/// ```
/// use quillbore_calc::flush::{Pipe, Regime, Water, laminar_drop};
/// let water = Water { density_kg_m3: 998.2, viscosity_pa_s: 1.0e-3 };
/// let pipe = Pipe { length_mm: 1000.0, bore_mm: 0.75 };
/// let drop = laminar_drop(&pipe, 1.0, &water).unwrap();
/// assert!((drop.pressure_pa - 2100.0).abs() < 50.0);
/// assert_eq!(drop.regime, Regime::Laminar);
/// ```
///
/// Source: Hagen and Poiseuille.
#[must_use]
pub fn laminar_drop(pipe: &Pipe, ml_min: f64, water: &Water) -> Option<LaminarDrop> {
    if !pipe.counts() || !counts(ml_min) || !water.counts() {
        return None;
    }
    let (bore, length) = (pipe.bore_mm / 1000.0, pipe.length_mm / 1000.0);
    let flow = ml_min / ML_MIN_PER_M3_S;
    let of_circle = core::f64::consts::PI * bore;
    let pressure_pa =
        128.0 * water.viscosity_pa_s * length * flow / (of_circle * bore * bore * bore);
    let reynolds = 4.0 * water.density_kg_m3 * flow / (of_circle * water.viscosity_pa_s);
    (counts(pressure_pa) && counts(reynolds)).then(|| LaminarDrop {
        pressure_pa,
        reynolds,
        regime: Regime::of(reynolds),
    })
}
