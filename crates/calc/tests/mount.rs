//! Where the machine's axes stand, by geometry: from tilt and index back to the way out of the hole, and
//! table coordinates square to it.

use quillbore_calc::direction::{across, quarter};
use quillbore_calc::mount::Mount;
use quillbore_calc::tables::Tilts;

type Vector = [f64; 3];

fn dot(a: Vector, b: Vector) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

fn cross(a: Vector, b: Vector) -> Vector {
    [
        a[1] * b[2] - a[2] * b[1],
        a[2] * b[0] - a[0] * b[2],
        a[0] * b[1] - a[1] * b[0],
    ]
}

/// `cosine` of one and `sine` of another vector.
fn turned(one: Vector, other: Vector, degrees: f64) -> Vector {
    let (sine, cosine) = degrees.to_radians().sin_cos();
    [0, 1, 2].map(|at| cosine * one[at] + sine * other[at])
}

#[track_caller]
fn same(found: Vector, expected: Vector) {
    let near = found
        .iter()
        .zip(expected)
        .all(|(a, b)| (a - b).abs() < 1e-9);
    assert!(near, "{found:?}, expected {expected:?}");
}

/// The table's x and y as vectors of the part, read off where three points stand.
fn table(mount: Mount, way_in: Vector) -> [Vector; 2] {
    let at = [0, 1, 2].map(|axis| {
        let mut point = [0.0; 3];
        point[axis] = 1.0;
        mount.seat(way_in, point, Tilts::Table).table_mm
    });
    [0, 1].map(|xy| [at[0][xy], at[1][xy], at[2][xy]])
}

/// x, y and the way back to the tool are square to each other, right-handed and at full length; so a
/// point's distance from another as the tool sees it is the table's way.
#[track_caller]
fn square_to_the_tool(mount: Mount, way_in: Vector) -> [Vector; 2] {
    let [x, y] = table(mount, way_in);
    same([dot(x, x), dot(y, y), dot(x, y)], [1.0, 1.0, 0.0]);
    same(cross(x, y), way_in.map(|part| -part));
    [x, y]
}

/// Axes of a part, and those of a slanted boss on it.
fn axes() -> Vec<Vector> {
    let boss = [2.0 / 3.0, -1.0 / 3.0, 2.0 / 3.0];
    let faces = [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0], boss];
    let opposite = faces.map(|axis| axis.map(|part| -part));
    faces.into_iter().chain(opposite).collect()
}

const TILTS: [f64; 8] = [-90.0, -60.0, -30.0, -5.0, 5.0, 30.0, 60.0, 90.0];
const TURNS: [f64; 6] = [0.0, 40.0, 90.0, 175.0, 270.0, 359.0];

/// On a face the way out leans from what points up toward the plane's side, and y is what the head
/// swings about.
#[test]
fn on_a_face_the_tilt_leads_back_to_the_way_out() {
    for up in axes() {
        for toward in [across(up), quarter(up)] {
            let mount = Mount::Face { up, toward };
            for tilt in TILTS {
                let out = turned(up, toward, tilt);
                let way_in = out.map(|part| -part);
                let angles = mount.seat(way_in, [0.0; 3], Tilts::Table).angles;
                same([angles.tilt_deg, angles.index_deg, 0.0], [tilt, 0.0, 0.0]);
                let [_, y] = square_to_the_tool(mount, way_in);
                same(y, cross(up, toward));
            }
            // Square to the face nothing tilts, and up to a tenth of a degree counts as square.
            for (tilt, told) in [(0.0, 0.0), (0.09, 0.0), (-0.09, 0.0), (0.11, 0.11)] {
                let way_in = turned(up, toward, tilt).map(|part| -part);
                let angles = mount.seat(way_in, [0.0; 3], Tilts::Table).angles;
                same([angles.tilt_deg, angles.index_deg, 0.0], [told, 0.0, 0.0]);
            }
        }
    }
}

/// On an upright index axis the tilt is the angle to it and the turn brings the way out round; y, what
/// the head swings about, is square to the axis.
#[test]
fn on_an_upright_axis_tilt_and_turn_lead_back_to_the_way_out() {
    for axis in axes() {
        let mount = Mount::Upright(axis);
        for tilt in [5.0, 30.0, 60.0, 90.0, 120.0, 175.0] {
            for turn in TURNS {
                let flat = turned(across(axis), quarter(axis), turn);
                let way_in = turned(axis, flat, tilt).map(|part| -part);
                let angles = mount.seat(way_in, [0.0; 3], Tilts::Table).angles;
                same([angles.tilt_deg, angles.index_deg, 0.0], [tilt, turn, 0.0]);
                let [_, y] = square_to_the_tool(mount, way_in);
                same(y, cross(axis, flat));
            }
        }
        // Along the axis there is no turn, and x and y are the part's own.
        let way_in = axis.map(|part| -part);
        let angles = mount.seat(way_in, [0.0; 3], Tilts::Table).angles;
        same([angles.tilt_deg, angles.index_deg, 0.0], [0.0; 3]);
        let [x, y] = square_to_the_tool(mount, way_in);
        same(x, across(axis));
        same(y, quarter(axis));
    }
}

/// On a lying index axis square to it is no tilt; x is the axis as the tool sees it, so that a turn
/// leaves it alone.
#[test]
fn on_a_lying_axis_tilt_and_turn_lead_back_to_the_way_out() {
    for axis in axes() {
        for mount in [
            Mount::Lying(axis),
            Mount::Inclined {
                about: Some(axis),
                up: axis,
            },
        ] {
            for tilt in [-60.0, -30.0, 0.0, 30.0, 60.0] {
                for turn in TURNS {
                    let flat = turned(across(axis), quarter(axis), turn);
                    let way_in = turned(flat, axis, tilt).map(|part| -part);
                    let angles = mount.seat(way_in, [0.0; 3], Tilts::Table).angles;
                    // What the fixture inclines takes no tilt of the machine.
                    let of_machine = if matches!(mount, Mount::Lying(_)) {
                        tilt
                    } else {
                        0.0
                    };
                    same(
                        [angles.tilt_deg, angles.index_deg, 0.0],
                        [of_machine, turn, 0.0],
                    );
                    let [x, _] = square_to_the_tool(mount, way_in);
                    assert!((dot(x, axis) - libm::cos(tilt.to_radians())).abs() < 1e-9);
                }
            }
        }
    }
}

/// Clamped inclined without an index axis, the way out points up by itself.
#[test]
fn inclined_in_a_fixture_nothing_moves() {
    for up in axes() {
        let mount = Mount::Inclined { about: None, up };
        let way_in = up.map(|part| -part);
        let angles = mount.seat(way_in, [0.0; 3], Tilts::Table).angles;
        same([angles.tilt_deg, angles.index_deg, 0.0], [0.0; 3]);
        let [x, y] = square_to_the_tool(mount, way_in);
        same(x, across(up));
        same(y, quarter(up));
    }
}

/// A point's coordinates are counted from the part's zero: on a face tilted by 30 degrees 10 mm along
/// the plane are foreshortened to 8.66, 4 mm across it are not.
#[test]
fn a_point_stands_where_the_tool_sees_it() {
    let mount = Mount::Face {
        up: [0.0, 0.0, 1.0],
        toward: [1.0, 0.0, 0.0],
    };
    let way_in = [-0.5, 0.0, -0.75_f64.sqrt()];
    let seat = |point| mount.seat(way_in, point, Tilts::Table).table_mm;
    let near = |found: [f64; 2], x: f64, y: f64| {
        assert!(
            (found[0] - x).abs() < 1e-9 && (found[1] - y).abs() < 1e-9,
            "{found:?}"
        );
    };
    near(seat([10.0, 4.0, 0.0]), 8.660_254_037_844_386, 4.0);
    // 2 mm higher it stands 2 sin 30 further from the side that the tool comes from.
    near(seat([10.0, 4.0, 2.0]), 8.660_254_037_844_386 - 1.0, 4.0);
}

/// Under a head that tilts the part lies as it is clamped: x and y are those of an upright electrode on the
/// same side of the index axis, whatever the tilt, and y is what the head swings about.
#[test]
fn under_a_head_that_tilts_x_and_y_are_those_without_a_tilt() {
    let point = [12.5, -3.0, 40.25];
    let at =
        |mount: Mount, out: Vector, tilts| mount.seat(out.map(|part| -part), point, tilts).table_mm;
    #[track_caller]
    fn alike([x, y]: [f64; 2], [other_x, other_y]: [f64; 2]) {
        same([x, y, 0.0], [other_x, other_y, 0.0]);
    }
    for up in axes() {
        let side = across(up);
        let face = Mount::Face { up, toward: side };
        for tilt in TILTS {
            let leaning = turned(up, side, tilt);
            alike(
                at(face, leaning, Tilts::Head),
                [dot(point, side), dot(point, cross(up, side))],
            );
            // Seen along the tilted tool x is another, unless the point has no height.
            let tilted = at(face, leaning, Tilts::Table);
            let radians = tilt.to_radians();
            let seen = dot(point, side) * libm::cos(radians) - dot(point, up) * libm::sin(radians);
            alike(tilted, [seen, dot(point, cross(up, side))]);
        }
        for turn in TURNS {
            let flat = turned(side, quarter(up), turn);
            let upright = Mount::Upright(up);
            let lying = Mount::Lying(up);
            for tilt in [5.0, 30.0, 60.0] {
                alike(
                    at(upright, turned(up, flat, tilt), Tilts::Head),
                    [dot(point, flat), dot(point, cross(up, flat))],
                );
                alike(
                    at(lying, turned(flat, up, tilt), Tilts::Head),
                    at(lying, flat, Tilts::Table),
                );
            }
        }
    }
}
