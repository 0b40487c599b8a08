//! Locations that can't be as they are typed.

use quillbore_calc::assemble::quick;
use quillbore_calc::finding::{About, Kind};
use quillbore_calc::input::{JobInput, Place, RowId};

use crate::rows::{job, row};
use crate::shop::tables;

fn place(number: u32, point_mm: [f64; 3], axis: [f64; 3]) -> Place {
    Place {
        number,
        point_mm,
        axis,
    }
}

const DOWN: [f64; 3] = [0.0, 0.0, -1.0];

/// What is said of these rows of locations on a part of 100 by 75 by 40.
fn said(rows: [Vec<Place>; 2], part_mm: Option<[f64; 3]>) -> Vec<(About, Kind)> {
    let rows = (1..).zip(rows).map(|(id, places)| {
        let mut row = row(id, 0, 1.0, 20.0);
        row.places = places;
        row
    });
    let input = JobInput {
        part_mm,
        ..job(5, rows.collect())
    };
    let of_places =
        |kind: &Kind| matches!(kind, Kind::OutsidePart { .. } | Kind::PlacesAlike { .. });
    let findings = quick(&input, &tables()).findings.into_iter();
    findings
        .filter(|finding| of_places(&finding.kind))
        .map(|finding| (finding.about, finding.kind))
        .collect()
}

#[test]
fn holes_outside_of_the_part_are_told_wherever_its_zero_is() {
    let size = Some([100.0, 75.0, 40.0]);
    let on = |x: f64, z: f64| vec![place(1, [x, 10.0, z], DOWN)];
    // Zero on the lower left corner of the upper or of the lower face, and in the middle.
    for (one, other) in [(20.0, 80.0), (-20.0, -80.0), (-40.0, 40.0)] {
        assert_eq!(said([on(one, 0.0), on(other, 0.0)], size), []);
        assert_eq!(said([on(one, 40.0), on(other, 40.0)], size), []);
    }
    // A meter off; without a size nobody knows.
    let out = Kind::OutsidePart { together: false };
    let far = [on(20.0, 0.0), on(1_000.0, 0.0)];
    assert_eq!(said(far.clone(), size), [(About::Row(RowId(2)), out)]);
    assert_eq!(said(far, None), []);
    // Each by itself lies on the part, 80 to the left and 80 to the right of one zero: together they don't.
    let apart = Kind::OutsidePart { together: true };
    let both = said([on(-80.0, 0.0), on(80.0, 0.0)], size);
    assert_eq!(both, [(About::Job, apart)]);
}

#[test]
fn locations_on_each_other_are_told() {
    let at = |number, x| place(number, [x, 10.0, 0.0], DOWN);
    let rows = |places: Vec<Place>| said([places, vec![at(1, 5.0)]], None);
    assert_eq!(rows(vec![at(1, 5.0), at(2, 15.0)]), []);
    let alike = |places| (About::Row(RowId(1)), Kind::PlacesAlike { places });
    assert_eq!(rows(vec![at(1, 5.0), at(2, 5.0), at(3, 5.001)]), [alike(2)]);
    // The same spot from another side is another hole.
    let tilted = place(2, [5.0, 10.0, 0.0], [0.6, 0.0, -0.8]);
    assert_eq!(rows(vec![at(1, 5.0), tilted]), []);
}
