//! What a channel takes of the pressure, and the flow at which two in a row take all of it.

use super::{END_LOSSES, Water};

/// Reynolds number up to which a flow is reckoned as laminar [-].
const TURN: f64 = 2300.0;

/// A channel's measures.
#[derive(Clone, Copy, Debug)]
pub(super) struct Channel {
    /// Hydraulic diameter D [m].
    pub(super) width_m: f64,
    /// Area A of the whole section [m2].
    pub(super) area_m2: f64,
    /// Length [m].
    pub(super) length_m: f64,
    /// Friction factor of a laminar flow times Reynolds number [-]: 64 for round, 96 for a slot.
    pub(super) laminar: f64,
    /// Velocity heads lost at the ends [-].
    pub(super) loss: f64,
}

/// Pressure over flow: `square Q^2 + linear Q + blasius Q^1.75` [Pa], Q in [m3/s].
#[derive(Clone, Copy, Debug)]
struct Law {
    square: f64,
    linear: f64,
    blasius: f64,
}

/// A channel for one water.
#[derive(Clone, Copy, Debug)]
pub(super) struct Resistance {
    /// Reynolds number per flow [s/m3].
    reynolds_s_m3: f64,
    laminar: Law,
    turbulent: Law,
}

impl Channel {
    /// A round channel with losses at both ends.
    pub(super) fn round(bore_mm: f64, length_mm: f64) -> Self {
        let width_m = bore_mm / 1000.0;
        Self {
            width_m,
            area_m2: core::f64::consts::PI / 4.0 * width_m * width_m,
            length_m: length_mm / 1000.0,
            laminar: 64.0,
            loss: END_LOSSES,
        }
    }

    /// The channel for one water.
    pub(super) fn with(&self, water: &Water) -> Resistance {
        let reynolds_s_m3 =
            water.density_kg_m3 * self.width_m / (water.viscosity_pa_s * self.area_m2);
        // A velocity head per flow squared, and how many of them friction takes per friction factor.
        let head = water.density_kg_m3 / (2.0 * self.area_m2 * self.area_m2);
        let long = head * self.length_m / self.width_m;
        let square = head * self.loss;
        Resistance {
            reynolds_s_m3,
            laminar: Law {
                square,
                linear: self.laminar / reynolds_s_m3 * long,
                blasius: 0.0,
            },
            turbulent: Law {
                square,
                linear: 0.0,
                blasius: 0.3164 / libm::sqrt(libm::sqrt(reynolds_s_m3)) * long,
            },
        }
    }
}

impl Resistance {
    /// Reynolds number of a flow in [m3/s].
    pub(super) fn reynolds(&self, flow: f64) -> f64 {
        flow * self.reynolds_s_m3
    }

    /// Pressure that a flow in [m3/s] takes [Pa]; the lower one where the laws meet.
    pub(super) fn pressure_pa(&self, flow: f64) -> f64 {
        let laminar = flow <= self.turn();
        let law = if laminar {
            &self.laminar
        } else {
            &self.turbulent
        };
        law.pressure_pa(flow)
    }

    /// Flow under a pressure in [Pa] [m3/s].
    pub(super) fn flow(&self, pressure_pa: f64) -> f64 {
        if pressure_pa <= self.laminar.pressure_pa(self.turn()) {
            return self.laminar.flow(pressure_pa, self.turn());
        }
        // Never below the turn: between what the two laws ask there, the flow stays.
        let freely = self.turbulent.flow(pressure_pa, f64::INFINITY);
        freely.max(self.turn())
    }

    /// Flow under a pressure in [Pa] through this channel and one behind it [m3/s].
    pub(super) fn flow_and_through(&self, behind: &Self, pressure_pa: f64) -> f64 {
        let (soon, late) = if self.turn() <= behind.turn() {
            (self, behind)
        } else {
            (behind, self)
        };
        let laminar = soon.laminar.and(late.laminar);
        if pressure_pa <= laminar.pressure_pa(soon.turn()) {
            return laminar.flow(pressure_pa, soon.turn());
        }
        let mixed = soon.turbulent.and(late.laminar);
        if pressure_pa <= mixed.pressure_pa(late.turn()) {
            let freely = mixed.flow(pressure_pa, late.turn());
            return freely.max(soon.turn());
        }
        let turbulent = soon.turbulent.and(late.turbulent);
        turbulent.flow(pressure_pa, f64::INFINITY).max(late.turn())
    }

    /// Flow at which it turns turbulent [m3/s].
    fn turn(&self) -> f64 {
        TURN / self.reynolds_s_m3
    }
}

impl Law {
    /// Two channels in a row.
    fn and(self, behind: Self) -> Self {
        Self {
            square: self.square + behind.square,
            linear: self.linear + behind.linear,
            blasius: self.blasius + behind.blasius,
        }
    }

    /// Pressure over flow.
    fn pressure_pa(&self, flow: f64) -> f64 {
        flow * (self.square * flow + self.linear + self.blasius * three_quarters(flow))
    }

    /// Its inverse, where that is not above a bound.
    fn flow(&self, pressure_pa: f64, most: f64) -> f64 {
        if self.blasius == 0.0 {
            let root = libm::sqrt(self.linear * self.linear + 4.0 * self.square * pressure_pa);
            return 2.0 * pressure_pa / (self.linear + root);
        }
        // No term takes more than the whole pressure: an upper bound by each of the three.
        let by_blasius = libm::pow(pressure_pa / self.blasius, 4.0 / 7.0);
        let by_linear = pressure_pa / self.linear;
        let by_square = libm::sqrt(pressure_pa / self.square);
        let mut flow = most.min(by_blasius).min(by_linear).min(by_square);
        // The law is convex: from above, Newton's steps never pass the root.
        for _ in 0..MOST_STEPS {
            let friction = self.blasius * three_quarters(flow);
            let over = flow * (self.square * flow + self.linear + friction) - pressure_pa;
            let step = over / (2.0 * self.square * flow + self.linear + 1.75 * friction);
            flow -= step;
            if step <= CLOSE * flow {
                break;
            }
        }
        flow
    }
}

/// `x^0.75`.
fn three_quarters(x: f64) -> f64 {
    let root = libm::sqrt(x);
    root * libm::sqrt(root)
}

/// Steps after which figures that are none are given up.
const MOST_STEPS: u32 = 40;

/// Last step, as a share of the flow: the next one would be its square.
const CLOSE: f64 = 1e-8;
