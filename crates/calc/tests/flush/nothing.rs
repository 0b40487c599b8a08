//! What is no figure gives nothing.

use quillbore_calc::flush::{END_LOSSES, Path, Pipe, Water, free_jet, jet_force, laminar_drop};

use super::PATH;

/// What is no such figure gives nothing.
#[test]
fn odd_figures_give_nothing() {
    let water = Water::at(20.0).unwrap();
    let odd = [0.0, -1.0, f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 1e300];
    let path = |change: &dyn Fn(&mut Path)| {
        let mut path = PATH;
        change(&mut path);
        assert_eq!(path.at_depth(10.0, 50.0, &water), None, "{path:?}");
        assert_eq!(path.weak_from(1.0, 200.0, 50.0, &water), None, "{path:?}");
        assert_eq!(path.debris_share(20.0, 0.8, 0.0, 87.0), None, "{path:?}");
    };
    for value in odd.into_iter().take(5) {
        path(&|path| path.tube_length_mm = value);
        path(&|path| path.bore_mm = value);
        path(&|path| path.tube_mm = value);
        path(&|path| path.hole_mm = value);
        assert_eq!(PATH.at_depth(10.0, value, &water), None, "{value}");
        assert_eq!(PATH.weak_from(1.0, 200.0, value, &water), None);
        assert_eq!(PATH.weak_from(value, 200.0, 50.0, &water), None);
        assert_eq!(free_jet(value, &water), None);
        assert_eq!(jet_force(value, 10.0, &water), None);
        assert_eq!(jet_force(10.0, value, &water), None);
        let [density, viscosity] = [
            Water {
                density_kg_m3: value,
                ..water
            },
            Water {
                viscosity_pa_s: value,
                ..water
            },
        ];
        for other in [density, viscosity] {
            assert_eq!(PATH.at_depth(10.0, 50.0, &other), None);
            assert_eq!(PATH.weak_from(1.0, 200.0, 50.0, &other), None);
            assert_eq!(free_jet(50.0, &other), None);
            assert_eq!(jet_force(100.0, 10.0, &other), None);
            let pipe = Pipe {
                length_mm: 300.0,
                bore_mm: 0.3,
            };
            assert_eq!(pipe.flow(50.0, END_LOSSES, &other), None);
            assert_eq!(laminar_drop(&pipe, 1.0, &other), None);
        }
        for pipe in [
            Pipe {
                length_mm: value,
                bore_mm: 0.3,
            },
            Pipe {
                length_mm: 300.0,
                bore_mm: value,
            },
        ] {
            assert_eq!(pipe.flow(50.0, END_LOSSES, &water), None);
            assert_eq!(laminar_drop(&pipe, 1.0, &water), None);
        }
        let pipe = Pipe {
            length_mm: 300.0,
            bore_mm: 0.3,
        };
        assert_eq!(pipe.flow(value, END_LOSSES, &water), None);
        assert_eq!(laminar_drop(&pipe, value, &water), None);
    }
    path(&|path| path.channels = 0);
    path(&|path| path.hole_mm = path.tube_mm);
    path(&|path| path.bore_mm = path.tube_mm);
    path(&|path| (path.bore_mm, path.tube_mm, path.hole_mm) = (12.1, 14.0, 14.2));
    for depth in [-1.0, f64::NAN, f64::INFINITY] {
        assert_eq!(PATH.at_depth(depth, 50.0, &water), None, "{depth}");
    }
    assert_eq!(PATH.weak_from(1.0, -1.0, 50.0, &water), None);
    assert_eq!(PATH.weak_from(1.0, f64::NAN, 50.0, &water), None);
    let pipe = |bore_mm| Pipe {
        length_mm: 300.0,
        bore_mm,
    };
    for loss in [-1.0, f64::NAN, f64::INFINITY] {
        assert_eq!(pipe(0.3).flow(50.0, loss, &water), None, "{loss}");
    }
    assert_eq!(pipe(12.1).flow(50.0, END_LOSSES, &water), None);
    assert!(pipe(12.0).flow(50.0, END_LOSSES, &water).is_some());
    assert_eq!(laminar_drop(&pipe(12.1), 1.0, &water), None);
    assert!(laminar_drop(&pipe(12.0), 1.0, &water).is_some());
    // Its fourth power is 0, so that no finite pressure is enough; a Reynolds number it has.
    assert_eq!(laminar_drop(&pipe(1e-90), 1.0, &water), None);
    // Huge but finite: nothing, or a figure that is one.
    for value in [1e-300, 1e300, f64::MAX, f64::MIN_POSITIVE] {
        let shapes = [
            Path {
                tube_length_mm: value,
                ..PATH
            },
            Path {
                hole_mm: 1.0 + value,
                ..PATH
            },
            PATH,
        ];
        for (path, depth, bar) in shapes
            .into_iter()
            .flat_map(|path| [(path, 10.0, 50.0), (path, value, 50.0), (path, 10.0, value)])
        {
            if let Some(found) = path.at_depth(depth, bar, &water) {
                assert!(found.ml_min.is_finite() && found.ml_min > 0.0, "{found:?}");
                assert!(found.gap_m_s.is_finite() && found.bore_m_s.is_finite());
            }
            if let Some(depth) = path.weak_from(value, 200.0, bar, &water) {
                assert!((0.0..=200.0).contains(&depth));
            }
        }
    }
}
