//! Patterns of places, and lists as they are pasted.

use quillbore_calc::Angle;
use quillbore_calc::input::{PartAxis, Place};
use quillbore_job::Unit::{self, Inch, Mm};
use quillbore_job::places::{
    AxisPoints, Grid, HoleLine, PatternRefused, PlacesGiven, PlacesRead, PlacesUnreadable, Ring,
    grid, line, read_places, ring, split_lines,
};

const DOWN: [f64; 3] = [0.0, 0.0, -1.0];

fn deg(deg: f64) -> Angle {
    Angle::from_deg(deg).unwrap_or_default()
}

#[track_caller]
fn close(found: [f64; 3], expect: [f64; 3]) {
    for (found, expect) in found.iter().zip(expect) {
        assert!((found - expect).abs() < 1e-12, "{found} is not {expect}");
    }
}

fn square_ring() -> Ring {
    Ring {
        about: PartAxis::Z,
        count: 4,
        radius_mm: 50.0,
        along_mm: 7.0,
        start: deg(0.0),
        tilt: deg(90.0),
        lean: deg(0.0),
        first_number: 1,
    }
}

#[test]
fn a_ring_closes_and_its_holes_run_to_the_axis() {
    let places = ring(&square_ring()).unwrap();
    // Quarter turns are exact: no trace of a rounded cosine.
    let expect = [
        ([50.0, 0.0, 7.0], [-1.0, 0.0, 0.0]),
        ([0.0, 50.0, 7.0], [0.0, -1.0, 0.0]),
        ([-50.0, 0.0, 7.0], [1.0, 0.0, 0.0]),
        ([0.0, -50.0, 7.0], [0.0, 1.0, 0.0]),
    ];
    for (index, (place, (point, axis))) in places.iter().zip(expect).enumerate() {
        assert_eq!(place.number as usize, index + 1);
        assert_eq!((place.point_mm, place.axis), (point, axis));
    }
}

#[test]
fn a_ring_leans_where_it_is_told() {
    let half = 0.5_f64;
    let root = 0.75_f64.sqrt();
    for (tilt, lean, first_axis) in [
        (0.0, 0.0, DOWN),
        (30.0, 0.0, [-half, 0.0, -root]),
        (30.0, 180.0, [half, 0.0, -root]),
        (30.0, 90.0, [0.0, half, -root]),
        (30.0, 270.0, [0.0, -half, -root]),
        (60.0, 0.0, [-root, 0.0, -half]),
    ] {
        let places = ring(&Ring {
            tilt: deg(tilt),
            lean: deg(lean),
            ..square_ring()
        })
        .unwrap();
        close(places[0].axis, first_axis);
        // Turned on by a quarter: x becomes y, y becomes -x.
        close(
            places[1].axis,
            [-first_axis[1], first_axis[0], first_axis[2]],
        );
    }
}

#[test]
fn a_ring_about_another_axis() {
    let about = |about| {
        let places = ring(&Ring {
            about,
            start: deg(90.0),
            ..square_ring()
        });
        let first = places.unwrap()[0];
        (first.point_mm, first.axis)
    };
    assert_eq!(about(PartAxis::Z), ([0.0, 50.0, 7.0], [0.0, -1.0, 0.0]));
    assert_eq!(about(PartAxis::X), ([7.0, 0.0, 50.0], [0.0, 0.0, -1.0]));
    assert_eq!(about(PartAxis::Y), ([50.0, 7.0, 0.0], [-1.0, 0.0, 0.0]));
}

#[test]
fn a_ring_of_a_thousand_is_even() {
    let places = ring(&Ring {
        count: 1080,
        tilt: deg(60.0),
        first_number: 101,
        ..square_ring()
    })
    .unwrap();
    assert_eq!((places.len(), places[1079].number), (1080, 1180));
    let chord = 2.0 * 50.0 * libm::sin(std::f64::consts::PI / 1080.0);
    for (index, place) in places.iter().enumerate() {
        let next = places[(index + 1) % 1080];
        let apart =
            (place.point_mm[0] - next.point_mm[0]).hypot(place.point_mm[1] - next.point_mm[1]);
        assert!((apart - chord).abs() < 1e-9);
        let length: f64 = place.axis.iter().map(|part| part * part).sum();
        assert!((length - 1.0).abs() < 1e-12);
    }
}

#[test]
fn lines_and_grids() {
    let places = line(&HoleLine {
        count: 3,
        from_mm: [1.0, 2.0, 0.0],
        step_mm: [0.5, 0.0, 0.0],
        axis: [0.0, 0.0, -2.0],
        first_number: 5,
    })
    .unwrap();
    assert_eq!(places[2].point_mm, [2.0, 2.0, 0.0]);
    assert_eq!((places[2].number, places[2].axis), (7, DOWN));
    let places = grid(&Grid {
        columns: 3,
        rows: 2,
        from_mm: [0.0; 3],
        column_step_mm: [10.0, 0.0, 0.0],
        row_step_mm: [0.0, 5.0, 0.0],
        axis: DOWN,
        first_number: 1,
    })
    .unwrap();
    let points: Vec<[f64; 3]> = places.iter().map(|place| place.point_mm).collect();
    assert_eq!(points[2], [20.0, 0.0, 0.0]);
    assert_eq!(points[3], [0.0, 5.0, 0.0]);
    assert_eq!((points.len(), points[5]), (6, [20.0, 5.0, 0.0]));
}

#[test]
fn patterns_that_cannot_be_made() {
    let ring_with = |change: fn(&mut Ring)| {
        let mut pattern = square_ring();
        change(&mut pattern);
        ring(&pattern).map(|places| places.len())
    };
    assert_eq!(
        ring_with(|ring| ring.count = 0),
        Err(PatternRefused::NoHoles)
    );
    assert_eq!(
        ring_with(|ring| ring.count = 100_001),
        Err(PatternRefused::TooMany)
    );
    assert_eq!(
        ring_with(|ring| ring.first_number = u32::MAX),
        Err(PatternRefused::TooMany)
    );
    assert_eq!(
        ring_with(|ring| ring.radius_mm = 0.0),
        Err(PatternRefused::Unusable)
    );
    assert_eq!(
        ring_with(|ring| ring.radius_mm = f64::NAN),
        Err(PatternRefused::Unusable)
    );
    let still = HoleLine {
        count: 2,
        from_mm: [0.0; 3],
        step_mm: [0.0; 3],
        axis: DOWN,
        first_number: 1,
    };
    assert_eq!(line(&still), Err(PatternRefused::Unusable));
    let nowhere = HoleLine {
        count: 1,
        axis: [0.0; 3],
        ..still
    };
    assert_eq!(line(&nowhere), Err(PatternRefused::Unusable));
    let huge = Grid {
        columns: u32::MAX,
        rows: u32::MAX,
        from_mm: [0.0; 3],
        column_step_mm: [1.0; 3],
        row_step_mm: [1.0; 3],
        axis: DOWN,
        first_number: 1,
    };
    assert_eq!(grid(&huge), Err(PatternRefused::TooMany));
    for why in [
        PatternRefused::NoHoles,
        PatternRefused::TooMany,
        PatternRefused::Unusable,
    ] {
        assert!(why.hint().ends_with('.') && !why.to_string().is_empty());
    }
}

fn given(unit: Unit, vector: AxisPoints) -> PlacesGiven {
    PlacesGiven {
        unit,
        vector,
        axis: DOWN,
        first_number: 1,
    }
}

fn read(text: &str) -> Result<PlacesRead, PlacesUnreadable> {
    read_places(&split_lines(text), &given(Mm, AxisPoints::IntoWork))
}

fn place(number: u32, point_mm: [f64; 3], axis: [f64; 3]) -> Place {
    Place {
        number,
        point_mm,
        axis,
    }
}

#[test]
fn lists_without_a_head_are_read_by_their_width() {
    for (text, expect) in [
        (
            "1\t2\n3\t4",
            [
                place(1, [1.0, 2.0, 0.0], DOWN),
                place(2, [3.0, 4.0, 0.0], DOWN),
            ],
        ),
        (
            "1 2 3\n4 5 6",
            [
                place(1, [1.0, 2.0, 3.0], DOWN),
                place(2, [4.0, 5.0, 6.0], DOWN),
            ],
        ),
        (
            "1,5 2 3\n4 5 6",
            [
                place(1, [1.5, 2.0, 3.0], DOWN),
                place(2, [4.0, 5.0, 6.0], DOWN),
            ],
        ),
        (
            "7;1,5;2;3\n9;4;5;6",
            [
                place(7, [1.5, 2.0, 3.0], DOWN),
                place(9, [4.0, 5.0, 6.0], DOWN),
            ],
        ),
        (
            "1.5, 2, 3\n4, 5, -6",
            [
                place(1, [1.5, 2.0, 3.0], DOWN),
                place(2, [4.0, 5.0, -6.0], DOWN),
            ],
        ),
        (
            "1 1 2 3 0 0 -1\n2 4 5 6 0 3 -4",
            [
                place(1, [1.0, 2.0, 3.0], DOWN),
                place(2, [4.0, 5.0, 6.0], [0.0, 0.6, -0.8]),
            ],
        ),
        (
            "1 2 3 0 0\n\n4 5 6 90 90",
            [
                place(1, [1.0, 2.0, 3.0], DOWN),
                place(2, [4.0, 5.0, 6.0], [0.0, 1.0, 0.0]),
            ],
        ),
    ] {
        let found = read(text).unwrap();
        assert_eq!((found.places.len(), found.refused.len()), (2, 0), "{text}");
        for (found, expect) in found.places.iter().zip(expect) {
            assert_eq!(
                (found.number, found.point_mm),
                (expect.number, expect.point_mm)
            );
            close(found.axis, expect.axis);
        }
    }
}

#[test]
fn a_head_names_columns_units_and_what_says_nothing() {
    let found =
        read("No.\tY [in]\tX (mm)\tremark\ti\tj\tk\n4\t1\t2\tby the rim\t0\t0\t-1").unwrap();
    assert_eq!(found.places, [place(4, [2.0, 25.4, 0.0], DOWN)]);
    assert_eq!(found.ignored, ["remark"]);
    let inches = read_places(
        &split_lines("x\ty\n1\t2 mm"),
        &given(Inch, AxisPoints::IntoWork),
    )
    .unwrap();
    assert_eq!(inches.places[0].point_mm, [25.4, 2.0, 0.0]);
    let outward = read_places(
        &split_lines("x y z i j k\n1 2 3 0 0 1"),
        &given(Mm, AxisPoints::OutOfWork),
    );
    assert_eq!(outward.unwrap().places[0].axis, DOWN);
    let tilted = read(
        "x	y	tilt
1	2	90",
    )
    .unwrap();
    close(tilted.places[0].axis, [1.0, 0.0, 0.0]);
    // 45 in both views is 54.7356 from vertical (Machinery's Handbook, 31st ed., pp. 121-122).
    let views = read(
        "x	y	front	side
1	2	45	45
1	2	90	0",
    )
    .unwrap();
    let third = (1.0_f64 / 3.0).sqrt();
    close(views.places[0].axis, [third, third, -third]);
    assert!(views.refused[0].why.contains("a view's angle reaches 90"));
}

#[test]
fn lines_that_cannot_be_read_are_named() {
    let found = read("x\ty\ti\tj\tk\n1\t2\t0\t0\t-1\n\nx1\t2\t0\t0\t-1\n1\t\t0\t0\t-1\n1\t2\t0\t0\t0\n1\t2\t0\t0\t-1\textra").unwrap();
    assert_eq!(found.places.len(), 1);
    let said: Vec<(usize, bool)> = found
        .refused
        .iter()
        .zip([
            "is not a length",
            "is missing",
            "direction is zero",
            "under no column",
        ])
        .map(|(refused, says)| (refused.line, refused.why.contains(says)))
        .collect();
    assert_eq!(
        said,
        [(4, true), (5, true), (6, true), (7, true)],
        "{:?}",
        found.refused
    );
    let twice = read("1 1 2 3\n1 4 5 6").unwrap();
    assert!(
        twice.refused[0]
            .why
            .contains("Hole location 1 is there already")
    );
}

#[test]
fn lists_that_cannot_be_read_at_all() {
    for (text, why) in [
        ("", PlacesUnreadable::Empty),
        (" \n\t\n", PlacesUnreadable::Empty),
        (
            "1 2 3 4 5 6",
            PlacesUnreadable::ColumnsUnknown { columns: 6 },
        ),
        ("1", PlacesUnreadable::ColumnsUnknown { columns: 1 }),
        (
            "x\ty\tX\n1\t2\t3",
            PlacesUnreadable::ColumnTwice {
                head: "X".to_owned(),
            },
        ),
    ] {
        assert_eq!(read(text), Err(why.clone()), "{text}");
        assert!(why.hint().ends_with('.') && !why.to_string().is_empty());
    }
    let many = "1 2\n".repeat(100_001);
    assert_eq!(read(&many), Err(PlacesUnreadable::TooMany));
}
