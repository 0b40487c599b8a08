//! The whole way through tube and gap, against brute force and exact solutions.

use quillbore_calc::flush::{END_LOSSES, Flow, Path, Regime, Water, free_jet};

use super::{BARS, DEPTHS, PATH, at, flow, near, paths, water};

/// Friction factors and a bisection of 200 steps, written apart: the pressure over the speed in the bore.
fn brute_force(path: Path, depth: f64, bar: f64, water: Water) -> f64 {
    let (tube, bore) = (path.tube_mm / 1e3, path.bore_mm / 1e3);
    let wide = path.hole_mm / 1e3 - tube;
    let channel = bore / f64::from(path.channels).sqrt();
    let area =
        |outer: f64, inner: f64| core::f64::consts::PI / 4.0 * (outer * outer - inner * inner);
    let taken = |v: f64, d: f64, length: f64, laminar: f64, loss: f64| {
        let reynolds = water.density_kg_m3 * v * d / water.viscosity_pa_s;
        let factor = if reynolds <= 2300.0 {
            laminar / reynolds
        } else {
            0.3164 / libm::pow(reynolds, 0.25)
        };
        (factor * length / d + loss) * water.density_kg_m3 * v * v / 2.0
    };
    let pressure = |flow: f64| {
        let (down, up) = (flow / area(bore, 0.0), flow / area(tube + wide, tube));
        let ends = if depth > 0.0 { 1.5 } else { 0.0 };
        taken(down, channel, path.tube_length_mm / 1e3, 64.0, 1.5)
            + taken(up, wide, depth / 1e3, 96.0, ends)
    };
    let (mut less, mut more) = (0.0, 1.0);
    for _ in 0..200 {
        let middle = f64::midpoint(less, more);
        if pressure(middle) < bar * 1e5 {
            less = middle;
        } else {
            more = middle;
        }
    }
    less * 6e7
}

#[test]
fn brute_force_agrees() {
    let mut seen = [0; 3];
    for path in paths() {
        for depth in DEPTHS {
            for bar in BARS {
                for celsius in [5.0, 22.0, 45.0] {
                    let found = at(path, depth, bar, celsius);
                    let brute = brute_force(path, depth, bar, Water::at(celsius).unwrap());
                    near(
                        found.ml_min / brute,
                        1.0,
                        1e-9,
                        &format!("{path:?} {depth} {bar}"),
                    );
                    seen[found.regime as usize] += 1;
                }
            }
        }
    }
    assert!(seen.iter().all(|times| *times > 300), "{seen:?}");
}

/// What flows comes back: the same flow through both areas.
#[test]
fn speeds_carry_the_flow() {
    let found = at(PATH, 30.0, 50.0, 20.0);
    let area = core::f64::consts::PI / 4.0;
    near(
        found.bore_m_s * area * 0.35 * 0.35 * 60.0,
        found.ml_min,
        1e-9,
        "bore",
    );
    near(
        found.gap_m_s * area * (1.21 - 1.0) * 60.0,
        found.ml_min,
        1e-9,
        "gap",
    );
}

/// At the face nothing stands behind the bore.
#[test]
fn free_outlet_at_the_face() {
    for bar in BARS {
        let pipe = flow(400.0, 0.35, bar, END_LOSSES, Water::at(20.0).unwrap());
        let found = at(PATH, 0.0, bar, 20.0);
        near(found.ml_min / pipe.ml_min, 1.0, 1e-12, "face");
        assert_eq!(found.regime, pipe.regime);
    }
}

/// The step from the open into the hole: the gap's ends take their part at once, and the speed up the gap
/// is the one below the face, never faster than a jet that loses 1.5 velocity heads.
#[test]
fn from_the_open_into_the_hole() {
    for path in paths() {
        for bar in BARS {
            let [face, below] = [0.0, 1e-7].map(|depth| at(path, depth, bar, 20.0));
            assert!(face.ml_min >= below.ml_min, "{path:?} {bar}");
            near(
                below.gap_m_s / face.gap_m_s,
                1.0,
                1e-4,
                "speed below the face",
            );
            assert!(face.gap_m_s >= below.gap_m_s);
            let jet = free_jet(bar, &Water::at(20.0).unwrap()).unwrap();
            assert!(face.gap_m_s < jet / 1.5_f64.sqrt(), "{path:?} {bar}");
        }
    }
    // A common tube hardly feels it: 1.2 percent of the pressure, worked by hand.
    let [face, below] = [0.0, 1e-7].map(|depth| at(PATH, depth, 50.0, 20.0));
    near(below.ml_min / face.ml_min, 0.993, 0.001, "common tube");
}

/// Three channels of 0.2 mm have the area of one of 0.3464, but let each a third of the flow through.
#[test]
fn several_channels_are_narrower_each() {
    let path = Path {
        bore_mm: 0.2 * 3_f64.sqrt(),
        channels: 3,
        ..PATH
    };
    for bar in BARS {
        let each = flow(400.0, 0.2, bar, END_LOSSES, Water::at(20.0).unwrap());
        near(
            at(path, 0.0, bar, 20.0).ml_min / each.ml_min,
            3.0,
            1e-9,
            "three",
        );
    }
}

/// Exact laminar solutions: a slot `12 mu L v / g^2`, and the ring between two cylinders (Bird, Stewart,
/// Lightfoot, Transport Phenomena: flow through an annulus).
#[test]
fn exact_laminar_gaps() {
    let water = water(1000.0, 1.0e-3);
    let slot = Path {
        tube_length_mm: 100.0,
        bore_mm: 10.0,
        channels: 1,
        tube_mm: 11.0,
        hole_mm: 11.02,
    };
    let found = slot.at_depth(100.0, 0.1, &water).unwrap();
    let exact = 1e-5 * 1e-5 * 1e4 / (12.0 * 1e-3 * 0.1);
    near(found.gap_m_s / exact, 1.0, 1e-6, "slot");
    for (tube_mm, gap) in [(0.15, 0.03), (0.3, 0.05), (1.0, 0.05), (3.0, 0.2)] {
        let ring = Path {
            tube_length_mm: 1.0,
            bore_mm: tube_mm * 0.9,
            channels: 1,
            tube_mm,
            hole_mm: tube_mm + 2.0 * gap,
        };
        // So little pressure that ends and bore take nothing worth the name.
        let found = ring.at_depth(200.0, 1e-4, &water).unwrap();
        let (inner, outer) = (tube_mm / 2e3, tube_mm / 2e3 + gap / 1e3);
        let squares = outer * outer - inner * inner;
        let profile = outer * outer + inner * inner - squares / libm::log(outer / inner);
        let exact = 10.0 / (8.0 * 1e-3 * 0.2) * profile;
        near(
            found.gap_m_s / exact,
            1.0,
            0.02,
            &format!("{tube_mm} {gap}"),
        );
    }
}

/// A pump that gives a quarter of what would flow: a quarter of each speed. One that gives as much, or more,
/// changes nothing.
#[test]
fn no_more_than_the_pump_gives() {
    let free = Flow {
        ml_min: 8000.0,
        bore_m_s: 40.0,
        gap_m_s: 4.0,
        regime: Regime::Turbulent,
    };
    let quarter = Flow {
        ml_min: 2000.0,
        bore_m_s: 10.0,
        gap_m_s: 1.0,
        regime: Regime::Turbulent,
    };
    assert_eq!(free.at_most(2000.0), quarter);
    for enough in [8000.0, 9000.0] {
        assert_eq!(free.at_most(enough), free);
    }
}
