//! The flow never jumps, and goes the way it must.

use quillbore_calc::flush::{Flow, Path, Regime, Water};

use super::{BARS, DEPTHS, at, near, paths};

/// Small steps: the flow never jumps, and goes the way it must.
#[test]
fn flow_goes_one_way_in_small_steps() {
    let water = Water::at(20.0).unwrap();
    let walk = |what: &str, falls: bool, of: &dyn Fn(f64) -> Flow| {
        let mut before = of(0.0);
        for step in 1..=4000 {
            let here = of(f64::from(step) / 4000.0);
            let more = here.ml_min / before.ml_min - 1.0;
            let way = if falls { -more } else { more };
            assert!(
                (-1e-9..0.01).contains(&way),
                "{what} {step}: {here:?} {before:?}"
            );
            before = here;
        }
    };
    for path in paths() {
        let flow = |path: Path, depth: f64, bar: f64| path.at_depth(depth, bar, &water).unwrap();
        walk("depth", true, &|x| {
            flow(path, 1e-9 + path.hole_mm * 0.1 * x, 50.0)
        });
        walk("depth", true, &|x| flow(path, 0.02 + 200.0 * x * x, 50.0));
        walk("pressure", false, &|x| {
            flow(path, 20.0, libm::exp(6.0 * x - 1.0))
        });
        let length = |x| Path {
            tube_length_mm: 50.0 + 550.0 * x,
            ..path
        };
        walk("length", true, &|x| flow(length(x), 20.0, 50.0));
        let bore = |x| Path {
            bore_mm: path.bore_mm * (0.5 + 0.49 * x),
            ..path
        };
        walk("bore", false, &|x| flow(bore(x), 20.0, 50.0));
        let gap = |x| Path {
            hole_mm: path.tube_mm + 0.02 * libm::exp(3.0 * x),
            ..path
        };
        walk("gap", false, &|x| flow(gap(x), 20.0, 50.0));
    }
}

/// Warmer water flows better where a law holds; where Re stays at the turn, less of it is needed to get
/// there.
#[test]
fn warmer_water_flows_better_where_a_law_holds() {
    let mut sure = 0;
    for path in paths() {
        for depth in DEPTHS {
            for bar in BARS {
                let mut before = at(path, depth, bar, 5.0);
                for step in 1..=55 {
                    let here = at(path, depth, bar, 5.0 + f64::from(step));
                    if before.regime == here.regime && here.regime != Regime::Uncertain {
                        assert!(here.ml_min > before.ml_min, "{path:?} {depth} {bar} {step}");
                        sure += 1;
                    }
                    near(here.ml_min / before.ml_min, 1.0, 0.035, "step");
                    before = here;
                }
            }
        }
    }
    assert!(sure > 10_000, "{sure}");
}
