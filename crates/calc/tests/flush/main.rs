//! Flow through tube and gap: published viscosities, printed flows, and brute force for the whole way.
#![expect(
    clippy::unwrap_used,
    reason = "helpers of tests stop the test as tests do"
)]

mod depth;
mod nothing;
mod path;
mod pipe;
mod steps;
mod water;

use quillbore_calc::flush::{Flow, Path, Pipe, PipeFlow, Water};

/// Fails where a figure is further from the printed one than its last digit.
fn near(found: f64, printed: f64, digit: f64, what: &str) {
    assert!(
        (found - printed).abs() <= digit,
        "{what}: {found}, printed {printed}"
    );
}

/// Water of a density [kg/m3] and a viscosity [Pa s].
fn water(density_kg_m3: f64, viscosity_pa_s: f64) -> Water {
    Water {
        density_kg_m3,
        viscosity_pa_s,
    }
}

/// Flow through a pipe.
fn flow(length_mm: f64, bore_mm: f64, bar: f64, loss: f64, water: Water) -> PipeFlow {
    let pipe = Pipe { length_mm, bore_mm };
    pipe.flow(bar, loss, &water).unwrap()
}

/// A 1 mm tube with one channel in a hole with a gap of 0.05 mm.
const PATH: Path = Path {
    tube_length_mm: 400.0,
    bore_mm: 0.35,
    channels: 1,
    tube_mm: 1.0,
    hole_mm: 1.1,
};

/// Flow with the tip at a depth [mm], in water of a temperature.
fn at(path: Path, depth: f64, bar: f64, celsius: f64) -> Flow {
    let water = Water::at(celsius).unwrap();
    path.at_depth(depth, bar, &water).unwrap()
}

/// Paths from the thinnest to the widest tube, one channel and several.
fn paths() -> impl Iterator<Item = Path> {
    let tubes = [
        (0.15, 0.05, 1),
        (0.3, 0.1, 1),
        (0.8, 0.3, 1),
        (1.0, 0.4, 3),
        (1.5, 0.9, 19),
        (3.0, 1.0, 7),
        (3.0, 2.6, 1),
        (14.0, 12.0, 1),
    ];
    tubes.into_iter().flat_map(|(tube_mm, bore_mm, channels)| {
        [0.01, 0.03, 0.1, 0.4].map(|gap| Path {
            tube_length_mm: 300.0,
            bore_mm,
            channels,
            tube_mm,
            hole_mm: tube_mm + 2.0 * gap,
        })
    })
}

/// Depths of the tip [mm].
const DEPTHS: [f64; 7] = [0.0, 0.01, 0.1, 1.0, 14.0, 60.0, 200.0];
/// Pressures [bar].
const BARS: [f64; 6] = [0.001, 0.5, 7.0, 30.0, 70.0, 200.0];
