//! Where the machine's axes stand: by geometry, and as the setups were counted.

mod common;

use std::collections::BTreeSet;
use std::path::Path;

use quillbore_calc::input::Ends;
use quillbore_calc::mount::Mount;
use quillbore_calc::tables::Tilts;
use quillbore_job::file::read_job;
use quillbore_job::{Job, Shop};
use quillbore_paper::matter::axes::{self, Mounted};
use quillbore_paper::{Matter, Sheet};

type Vector = [f64; 3];

fn dot(a: Vector, b: Vector) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

fn open(path: &str) -> Job {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../..")
        .join(path);
    let bytes = std::fs::read(path).unwrap_or_default();
    read_job(&bytes).unwrap_or_default()
}

/// Way in and entry of a stop, in the part's coordinates.
fn way(matter: &Matter<'_>, stop: &axes::PlacedStop) -> (Vector, Vector) {
    let row = matter.job.row(stop.row);
    let place = row
        .map(|row| row.places[stop.place])
        .unwrap_or(quillbore_calc::input::Place {
            number: 0,
            point_mm: [0.0; 3],
            axis: [0.0; 3],
        });
    if !stop.far {
        return (place.axis, place.point_mm);
    }
    let depth = matter
        .figures
        .holes
        .iter()
        .find(|hole| hole.row == stop.row);
    let depth = depth.and_then(|hole| hole.depth_mm).unwrap_or_default();
    (
        place.axis.map(|part| -part),
        [0, 1, 2].map(|i| place.point_mm[i] + place.axis[i] * depth),
    )
}

fn check(matter: &Matter<'_>, setups: &[Mounted]) -> usize {
    let mut seen = 0;
    for setup in setups {
        for stop in &setup.stops {
            let (angles, mount) = (stop.angles, setup.mount);
            seen += 1;
            let (way, point) = way(matter, stop);
            let out = way.map(|part| -part);
            // x and y are square to the tool, or to what points up under a head that tilts: together with
            // the height along that they are the point.
            let upright = match (axes::tilting(matter), mount) {
                (Some(Tilts::Head), Mount::Face { up, .. } | Mount::Upright(up)) => up,
                _ => out,
            };
            let [x, y] = stop.table_mm.unwrap_or([f64::NAN; 2]);
            let height = dot(point, upright);
            let whole = x * x + y * y + height * height;
            assert!(
                (whole - dot(point, point)).abs() < 1e-6 * whole.max(1.0),
                "{stop:?}"
            );
            let tilt = angles.tilt_deg.to_radians();
            match mount {
                Mount::Face { up, toward } => {
                    // The tool leans from up toward table x by just the tilt.
                    assert!((dot(out, up) - libm::cos(tilt)).abs() < 1e-9, "{stop:?}");
                    assert!(
                        (dot(out, toward) - libm::sin(tilt)).abs() < 1e-9,
                        "{stop:?}"
                    );
                }
                Mount::Upright(axis) => {
                    assert!((dot(out, axis) - libm::cos(tilt)).abs() < 1e-9, "{stop:?}");
                }
                Mount::Lying(axis) => {
                    assert!((dot(out, axis) - libm::sin(tilt)).abs() < 1e-9, "{stop:?}");
                }
                Mount::Inclined { .. } => assert!(angles.tilt_deg.abs() < 1e-9),
            }
        }
    }
    seen
}

#[test]
fn seats_are_where_geometry_puts_them_and_agree_with_the_setups() {
    let shop = Shop::embedded().unwrap_or_else(|why| panic!("{why}"));
    for file in [
        "demo-jobs/26-0101.ron",
        "demo-jobs/26-0102.ron",
        "tests/hard-jobs/two-sides.ron",
    ] {
        common::printed(&open(file), shop, Sheet::A4, |matter| {
            let setups = axes::mounted(&matter);
            // Every location has its seat, and one for its exit where it is drilled from there too.
            let rows = matter.input.rows.iter().zip(&matter.figures.holes);
            let stops: usize = rows
                .map(|(row, hole)| match hole.ends {
                    Some(Ends::Both) => row.places.len() * 2,
                    _ => row.places.len(),
                })
                .sum();
            assert!(stops > 0, "{file}");
            assert_eq!(check(&matter, &setups), stops, "{file}");
            assert_eq!(setups.len(), matter.figures.setups.len());
            let mut met = BTreeSet::new();
            for (setup, figures) in setups.iter().zip(&matter.figures.setups) {
                // As many tilts as the setup was counted with, one tube after another.
                let tilts: BTreeSet<i64> = setup
                    .stops
                    .iter()
                    .map(|stop| (stop.angles.tilt_deg * 10.0).round() as i64)
                    .collect();
                assert!(
                    tilts.len() <= figures.tilts as usize + 1,
                    "{file}: {tilts:?} {figures:?}"
                );
                // The order is the setup's own, and no stop is drilled twice.
                let stops = setup.stops.iter();
                let of_stops = stops.map(|stop| (stop.row, Some(stop.place), stop.far));
                let placed = figures.order.iter().filter(|stop| stop.place.is_some());
                let of_order = placed.map(|stop| (stop.row, stop.place, stop.far));
                assert!(of_order.eq(of_stops), "{file}");
                for stop in &setup.stops {
                    assert!(
                        met.insert((stop.row, stop.place, stop.far)),
                        "{file}: {stop:?}"
                    );
                }
            }
        });
    }
}

#[test]
fn opposite_ways_in_are_told_apart() {
    let shop = Shop::embedded().unwrap_or_else(|why| panic!("{why}"));
    let job = open("tests/hard-jobs/two-sides.ron");
    common::printed(&job, shop, Sheet::A4, |matter| {
        let setups = axes::mounted(&matter);
        let up = |index: usize| match setups[index].mount {
            Mount::Face { up, .. } => up,
            other => panic!("{other:?}"),
        };
        assert_eq!(up(0), [0.0, 0.0, 1.0]);
        assert_eq!(up(1), [0.0, 0.0, -1.0]);
        let text = common::prose(&quillbore_paper::traveler(&matter));
        assert!(text.contains("from down 0.00") && text.contains("from down 180.00"));
    });
}
