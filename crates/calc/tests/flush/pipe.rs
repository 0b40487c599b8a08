//! Pipes, jets, and where the laminar law may be asked.

use quillbore_calc::flush::{END_LOSSES, Pipe, Regime, free_jet, jet_force, laminar_drop};

use super::{flow, near, water};

/// Worked without this code: 400 mm, 50 bar, free outlet, losses at both ends; viscosity 1.0 mPa s.
#[test]
fn printed_flows_of_tubes() {
    let water = water(998.2, 1.0e-3);
    for (bore, m_s, reynolds, digit, ml_min, newton, newton_digit) in [
        (0.10, 3.9, 390.0, 1.0, 1.8, 0.0001, 0.0001),
        (0.30, 13.6, 4070.0, 10.0, 58.0, 0.013, 0.001),
        (0.35, 15.1, 5280.0, 10.0, 87.0, 0.022, 0.001),
        (0.40, 16.6, 6610.0, 10.0, 125.0, 0.034, 0.001),
        (0.50, 19.2, 9600.0, 100.0, 227.0, 0.073, 0.001),
        (0.70, 24.0, 16_800.0, 100.0, 554.0, 0.22, 0.01),
        (1.00, 30.0, 30_000.0, 100.0, 1415.0, 0.71, 0.01),
    ] {
        let found = flow(400.0, bore, 50.0, END_LOSSES, water);
        near(found.m_s, m_s, 0.1, "speed");
        near(found.reynolds, reynolds, digit, "Reynolds");
        near(
            found.ml_min,
            ml_min,
            if bore < 0.2 { 0.1 } else { 1.0 },
            "flow",
        );
        let force = jet_force(found.ml_min, found.m_s, &water).unwrap();
        near(force, newton, newton_digit, "force");
        let regime = if bore < 0.2 {
            Regime::Laminar
        } else {
            Regime::Turbulent
        };
        assert_eq!(found.regime, regime, "{bore}");
    }
    // Printed 11.4 m/s, Re 2270, 21 ml/min: neither law gives that. The laminar one asks for 15.1 m/s (Re
    // 3013), Blasius' for 10.2 (Re 2043); here Re stays at 2300 between them, 1.3 percent more than printed.
    let between = flow(400.0, 0.20, 50.0, END_LOSSES, water);
    near(between.reynolds, 2300.0, 1e-6, "Reynolds");
    assert_eq!(between.regime, Regime::Uncertain);
    near(between.m_s / 11.4, 1.0, 0.014, "near to what is printed");
    let force = jet_force(between.ml_min, between.m_s, &water).unwrap();
    near(force, 0.004, 0.001, "force");
}

/// Worked without this code: 300 mm, 7 MPa, no losses at the ends, viscosity 1.0016 mPa s.
#[test]
fn printed_flows_without_end_losses() {
    let water = water(998.2, 1.0016e-3);
    for (bore, m_s, m_s_digit, reynolds, ml_min, digit) in [
        (0.10, 7.28, 0.01, 726.0, 3.43, 0.01),
        (0.30, 19.71, 0.01, 5892.0, 83.6, 0.1),
        (0.50, 28.4, 0.1, 14_144.0, 334.0, 1.0),
    ] {
        let found = flow(300.0, bore, 70.0, 0.0, water);
        near(found.m_s, m_s, m_s_digit, "speed");
        near(found.reynolds, reynolds, 1.0, "Reynolds");
        near(found.ml_min, ml_min, digit, "flow");
        assert_ne!(found.regime, Regime::Uncertain);
    }
    // 0.20 is printed by Blasius' law, as here, but between the laws' ranges.
    let wider = flow(300.0, 0.20, 70.0, 0.0, water);
    near(wider.m_s, 14.75, 0.01, "speed");
    near(wider.reynolds, 2940.0, 1.0, "Reynolds");
    assert_eq!(wider.regime, Regime::Uncertain);
    // 0.15 is printed by Blasius' law at Re 1796, below where it holds; the laminar one asks for 16.4 m/s
    // (Re 2449). Here Re stays at 2300, and the speed is 15.4 in place of 12.0 m/s.
    let narrow = flow(300.0, 0.15, 70.0, 0.0, water);
    near(narrow.reynolds, 2300.0, 1e-6, "Reynolds");
    assert!(narrow.m_s > 12.01 && narrow.m_s < 16.38, "{narrow:?}");
    assert_eq!(narrow.regime, Regime::Uncertain);
}

/// A textbook's problem: a needle of 0.35 mm and 3.14 cm, 1 g/s. Its solution, 85,254.55 Pa, is a trap:
/// at Re 3638 the laminar law doesn't hold, a smooth pipe's Blasius gives 197 kPa.
#[test]
fn laminar_law_says_where_it_does_not_hold() {
    let thousand = water(1000.0, 1.0e-3);
    let needle = Pipe {
        length_mm: 31.4,
        bore_mm: 0.35,
    };
    let found = laminar_drop(&needle, 60.0, &thousand).unwrap();
    near(found.pressure_pa, 85_254.55, 0.01, "needle");
    near(found.reynolds, 3638.0, 0.5, "Reynolds");
    assert_eq!(found.regime, Regime::Uncertain);
    let [less, more] = [196.5e3, 197.5e3].map(|pa| flow(31.4, 0.35, pa / 1e5, 0.0, thousand));
    assert!(
        less.ml_min < 60.0 && 60.0 < more.ml_min,
        "{less:?} {more:?}"
    );
    // Ten times as much flow is turbulent for sure, a tenth laminar.
    let regime = |ml_min| laminar_drop(&needle, ml_min, &thousand).unwrap().regime;
    assert_eq!(regime(600.0), Regime::Turbulent);
    assert_eq!(regime(6.0), Regime::Laminar);
    // 1 ml/min through 0.75 mm: 3.77 cm/s, Re 28, 2.1 kPa a meter.
    let wide = Pipe {
        length_mm: 1000.0,
        bore_mm: 0.75,
    };
    let found = laminar_drop(&wide, 1.0, &water(998.2, 1.0e-3)).unwrap();
    near(found.pressure_pa, 2100.0, 100.0, "a meter");
    near(found.reynolds, 28.0, 1.0, "Reynolds");
    assert_eq!(found.regime, Regime::Laminar);
    let back = flow(
        1000.0,
        0.75,
        found.pressure_pa / 1e5,
        0.0,
        water(998.2, 1.0e-3),
    );
    near(back.ml_min, 1.0, 1e-12, "inverse");
    near(back.m_s, 0.0377, 0.0001, "speed");
}

/// Worked without this code: sqrt(2 p / rho).
#[test]
fn printed_jets() {
    let water = water(998.2, 1.0016e-3);
    near(free_jet(70.0, &water).unwrap(), 118.4, 0.1, "7 MPa");
    near(free_jet(100.0, &water).unwrap(), 141.5, 0.1, "10 MPa");
}

/// The bounds are part of what is said: the same on both sides of each.
#[test]
fn regime_by_reynolds_number() {
    let water = water(1000.0, 1.0e-3);
    let pipe = Pipe {
        length_mm: 100.0,
        bore_mm: 1.0,
    };
    let per_reynolds = core::f64::consts::PI / 4.0 * 60.0 / 1000.0;
    for (reynolds, regime) in [
        (1999.0, Regime::Laminar),
        (2001.0, Regime::Uncertain),
        (3999.0, Regime::Uncertain),
        (4001.0, Regime::Turbulent),
    ] {
        let found = laminar_drop(&pipe, reynolds * per_reynolds, &water).unwrap();
        near(found.reynolds, reynolds, 1e-6, "Reynolds");
        assert_eq!(found.regime, regime, "{reynolds}");
    }
}

/// At 2,000 and at 4,000 to the last bit it is uncertain: densities are tried from bit to bit until one gives
/// that number.
#[test]
fn bounds_of_what_is_uncertain() {
    let pipe = Pipe {
        length_mm: 100.0,
        bore_mm: 1.0,
    };
    let per_reynolds = core::f64::consts::PI / 4.0 * 60.0 / 1000.0;
    for bound in [2000.0, 4000.0] {
        let start = f64::to_bits(1000.0) - 50;
        let exact = (start..start + 100).find_map(|bits| {
            let water = water(f64::from_bits(bits), 1.0e-3);
            let found = laminar_drop(&pipe, bound * per_reynolds, &water).unwrap();
            (found.reynolds == bound).then_some(found.regime)
        });
        assert_eq!(exact, Some(Regime::Uncertain), "{bound}");
    }
}
