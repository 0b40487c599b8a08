//! Parts on the table, counted by hand and one by one.

use quillbore_calc::head::{Footprint, Holds, Loading, Piece, Table, loading};

use crate::Figures;

fn stand(footprint: Footprint, size_mm: [f64; 2], spacing: f64) -> u32 {
    let piece = Piece {
        footprint,
        mass_kg: None,
    };
    let table = Table {
        size_mm,
        mass_kg: 100.0,
    };
    loading(&piece, &table, spacing).unwrap().pieces
}

#[test]
fn rectangles_by_hand() {
    let rectangle = |sides, table, spacing| stand(Footprint::Rectangle(sides), table, spacing);
    // One fills the table, to its edge; a hair more doesn't fit.
    assert_eq!(rectangle([300.0, 200.0], [300.0, 200.0], 10.0), 1);
    assert_eq!(rectangle([200.0, 300.0], [300.0, 200.0], 10.0), 1);
    assert_eq!(rectangle([300.0, 200.1], [300.0, 200.0], 10.0), 0);
    // 3 of 0.1 in 0.3, which no binary fraction says.
    assert_eq!(rectangle([0.1, 0.1], [0.3, 0.3], 0.0), 9);
    // 4 of 70 with 3 gaps of 6 are 298; 2 of 90 with a gap are 186. The other way 3 by 2.
    assert_eq!(rectangle([70.0, 90.0], [300.0, 200.0], 6.0), 8);
    assert_eq!(rectangle([70.0, 90.0], [297.0, 200.0], 6.0), 6);
}

#[test]
fn round_ones_by_hand() {
    let round = |diameter, table, spacing| stand(Footprint::Round(diameter), table, spacing);
    assert_eq!(round(50.0, [50.0, 50.0], 10.0), 1);
    assert_eq!(round(50.0, [49.0, 500.0], 10.0), 0);
    assert_eq!(round(10.0, [20.0, 20.0], 0.0), 4);
    // Rows of 3, 2 and 3 on 30 by 27.33; in a square pattern 3 by 2.
    assert_eq!(round(10.0, [30.0, 27.33], 0.0), 8);
    assert_eq!(round(10.0, [30.0, 27.32], 0.0), 6);
    // The same stood on end.
    assert_eq!(round(10.0, [27.33, 30.0], 0.0), 8);
    // 8 of 10 and 2 between: pitch 12, rows 10.39 apart.
    assert_eq!(round(10.0, [34.0, 30.79], 2.0), 8);
}

/// The square of ten diameters holds 105 in rows that are moved, eleven of 10 and 9 «memory»: as many as are
/// known in that pattern.
#[test]
fn square_of_ten_diameters() {
    assert_eq!(stand(Footprint::Round(1.0), [10.0, 10.0], 0.0), 105);
}

/// Stood on the table one by one, none overlaps another nor stands over the edge.
#[test]
fn one_by_one() {
    let mut figures = Figures(11);
    for _ in 0..3000 {
        let table = [figures.between(1.0, 100.0), figures.between(1.0, 100.0)];
        let (diameter, spacing) = (figures.between(3.0, 60.0), figures.between(0.0, 5.0));
        let found = stand(Footprint::Round(diameter), table, spacing);
        let counted = [false, true].into_iter().flat_map(|moved| {
            let pitch = diameter + spacing;
            let apart = if moved {
                pitch * 0.75_f64.sqrt()
            } else {
                pitch
            };
            [table, [table[1], table[0]]].map(|[length, depth]| {
                let (mut number, mut row) = (0, 0);
                while diameter + f64::from(row) * apart <= depth {
                    let from = if moved && row % 2 == 1 {
                        pitch / 2.0
                    } else {
                        0.0
                    };
                    let mut column = 0;
                    while from + diameter + f64::from(column) * pitch <= length {
                        (number, column) = (number + 1, column + 1);
                    }
                    row += 1;
                }
                number
            })
        });
        assert_eq!(
            found,
            counted.max().unwrap(),
            "{table:?} {diameter} {spacing}"
        );
    }
}

#[test]
fn more_room_holds_no_less() {
    let mut figures = Figures(12);
    for _ in 0..3000 {
        let sides = [figures.between(1.0, 80.0), figures.between(1.0, 80.0)];
        let (spacing, table) = (
            figures.between(0.0, 9.0),
            [(); 2].map(|()| figures.between(1.0, 400.0)),
        );
        for footprint in [Footprint::Rectangle(sides), Footprint::Round(sides[0])] {
            let at = stand(footprint, table, spacing);
            assert!(stand(footprint, table.map(|side| side + 3.0), spacing) >= at);
            assert!(stand(footprint, table, spacing * 1.1) <= at);
            assert_eq!(stand(footprint, [table[1], table[0]], spacing), at);
        }
    }
}

#[test]
fn by_mass() {
    let table = Table {
        size_mm: [300.0, 200.0],
        mass_kg: 50.0,
    };
    let at = |mass_kg| {
        let piece = Piece {
            footprint: Footprint::Rectangle([90.0, 90.0]),
            mass_kg: Some(mass_kg),
        };
        loading(&piece, &table, 5.0).unwrap()
    };
    let held = |pieces, holds| Loading { pieces, holds };
    assert_eq!(at(1.0), held(6, Holds::Size));
    assert_eq!(at(8.0), held(6, Holds::Size));
    assert_eq!(at(10.0), held(5, Holds::Mass));
    assert_eq!(at(51.0), held(0, Holds::Mass));
}

#[test]
fn nothing() {
    let good = Piece {
        footprint: Footprint::Round(20.0),
        mass_kg: Some(1.0),
    };
    let table = Table {
        size_mm: [300.0, 200.0],
        mass_kg: 50.0,
    };
    for bad in [f64::NAN, f64::INFINITY, -1.0] {
        assert_eq!(loading(&good, &table, bad), None);
        assert_eq!(
            loading(
                &Piece {
                    mass_kg: Some(bad),
                    ..good
                },
                &table,
                0.0
            ),
            None
        );
        assert_eq!(
            loading(
                &Piece {
                    footprint: Footprint::Round(bad),
                    ..good
                },
                &table,
                0.0
            ),
            None
        );
        assert_eq!(
            loading(
                &good,
                &Table {
                    size_mm: [300.0, bad],
                    ..table
                },
                0.0
            ),
            None
        );
    }
    assert_eq!(
        loading(
            &good,
            &Table {
                mass_kg: f64::NAN,
                ..table
            },
            0.0
        ),
        None
    );
    // No end of dust: as many as can be counted.
    let dust = Piece {
        footprint: Footprint::Round(1e-9),
        mass_kg: None,
    };
    assert_eq!(loading(&dust, &table, 0.0).unwrap().pieces, u32::MAX);
}
