//! Holes of drawings and solids as rows: every cell is read, nothing is lost between file and table.
#![expect(
    clippy::unwrap_used,
    reason = "helpers of tests stop the test as tests do"
)]

use std::path::{Path, PathBuf};

use quillbore_intake::drawn::{Drawn, DrawnError, Shows};
use quillbore_job::{Column, Field, Job, RowsAt, Unit, apply};

fn files(corpus: &str, ends: &str) -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../../tests")
        .join(corpus);
    let files = std::fs::read_dir(folder)
        .unwrap()
        .map(|file| file.unwrap().path());
    let mut files: Vec<PathBuf> = files
        .filter(|file| file.extension().is_some_and(|is| is == ends))
        .collect();
    files.sort();
    assert!(files.len() > 10, "{corpus}");
    files
}

fn read(file: &Path) -> Result<Drawn, DrawnError> {
    let name = file.file_name().unwrap().to_string_lossy().into_owned();
    let bytes = std::fs::read(file).unwrap();
    let shows = Shows::of(&bytes, &name).unwrap();
    Drawn::read(shows, &bytes, &name, &|_| false)
}

/// The job that comes of a file, and what is told.
fn taken(drawn: &Drawn) -> (Job, Vec<String>) {
    let job = Job::default();
    let taken = drawn.take(&job, RowsAt::Append).unwrap();
    let (job, _) = apply(&job, &taken.edit).unwrap();
    assert_eq!(job.rows.len(), taken.rows);
    (job, taken.report.whole)
}

#[test]
fn every_hole_of_every_file_is_a_place_of_a_row_that_is_read() {
    let all = files("step-corpus", "step")
        .into_iter()
        .chain(files("dxf-corpus", "dxf"));
    let mut rows = 0;
    for file in all {
        let mut drawn = match read(&file) {
            Ok(drawn) => drawn,
            Err(DrawnError::NoHoles(_)) => continue,
            Err(error) => panic!("{}: {error}", file.display()),
        };
        drawn.say_unit(Unit::Mm);
        let (job, _) = taken(&drawn);
        let holes: usize = drawn.kinds().map(|kind| kind.holes.len()).sum();
        let places: usize = job.rows.iter().map(|row| row.places.len()).sum();
        assert_eq!(places, holes, "{}", file.display());
        for (row, kind) in job.rows.iter().zip(drawn.kinds()) {
            let (hole, count) = (kind.first, kind.holes.len());
            for &column in Column::ALL {
                let cell = row.cell(column);
                assert_eq!(
                    cell.why,
                    None,
                    "{}: {column:?} {:?}",
                    file.display(),
                    cell.text
                );
            }
            assert_eq!(
                row.count.value().copied().map(usize::try_from),
                Some(Ok(count))
            );
            let size = row.size.value().unwrap();
            let off = 0.021 * hole.diameter;
            assert!(
                size.lower.mm() - off <= hole.diameter && hole.diameter <= size.upper.mm() + off
            );
            if let (Some(depth), Some(seen)) = (row.depth.value(), hole.depth) {
                let mm = depth.nominal.unwrap().mm();
                assert!((mm - seen.on_axis).abs() < 1e-3, "{}: {mm}", file.display());
            }
            rows += 1;
        }
    }
    assert!(rows > 60, "{rows}");
}

/// Marks, limits, depths and ends of a chart that has columns of other things, too.
#[test]
fn a_chart_gives_its_marks_and_cells() {
    let name =
        Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/dxf-corpus/places-r2010.dxf");
    let (job, told) = taken(&read(&name).unwrap());
    let texts = |column: Column| -> Vec<&str> {
        job.rows.iter().map(|row| row.cell(column).text).collect()
    };
    assert_eq!(texts(Column::Mark), ["B", "C", "A", "D"]);
    assert_eq!(
        texts(Column::Size),
        [
            "\u{2300}0.70",
            "\u{2300}0.80 \u{b1}0.02",
            "\u{2300}1.20",
            "\u{2300}2.0"
        ]
    );
    assert_eq!(texts(Column::Depth), ["8", "THRU", "12", ""]);
    assert_eq!(texts(Column::End), ["blind", "", "", "THRU"]);
    assert_eq!(texts(Column::Count), ["1", "3", "1", "1"]);
    let blind = |said: &&String| said.starts_with("B: ") && said.contains("taken as blind");
    assert!(told.iter().any(|said| blind(&said)), "{told:#?}");
    // Of `A` the chart says two.
    let says = "A: the chart says 2 of them, and the drawing shows 1.";
    assert!(told.iter().any(|said| said == says), "{told:#?}");
}

/// A drawing of these entities, each pair of words a group code and its value; `_` stands for a space.
fn small(header: &str, entities: &str) -> Drawn {
    let all = format!(
        "0 SECTION 2 HEADER {header} 0 ENDSEC 0 SECTION 2 ENTITIES {entities} 0 ENDSEC 0 EOF"
    );
    let lines: Vec<String> = all
        .split_whitespace()
        .map(|word| word.replace('_', " "))
        .collect();
    let bytes = (lines.join("\n") + "\n").into_bytes();
    Drawn::read(Shows::Drawing, &bytes, "a.dxf", &|_| false).unwrap()
}

/// Four lines around a plate.
fn plate(x: f64, y: f64, wide: f64, high: f64) -> String {
    let corners = [(x, y), (x + wide, y), (x + wide, y + high), (x, y + high)];
    let side = |at: usize| {
        let (from, to) = (corners[at], corners[(at + 1) % 4]);
        format!(
            "0 LINE 10 {} 20 {} 11 {} 21 {} ",
            from.0, from.1, to.0, to.1
        )
    };
    (0..4).map(side).collect()
}

const HOLE: &str = "0 CIRCLE 5 2F 10 10 20 4 40 0.4 ";

#[test]
fn settings_and_words_that_differ_are_asked() {
    let inch = "9 $INSUNITS 70 1";
    let words = "0 TEXT 10 0 20 -5 40 2 1 ALL_DIMENSIONS_IN_MILLIMETERS ";
    let mut drawn = small(inch, &format!("{HOLE}{words}"));
    assert_eq!(drawn.unit(), None);
    assert_eq!(
        drawn.evidence().unwrap(),
        "The file's settings say that its lengths are in inches, and a text in it says \u{201c}ALL DIMENSIONS IN MILLIMETERS\u{201d}."
    );
    let error = drawn.take(&Job::default(), RowsAt::Append).unwrap_err();
    assert!(matches!(error, DrawnError::UnitsDiffer(_)), "{error}");
    drawn.say_unit(Unit::Mm);
    let (job, told) = taken(&drawn);
    assert_eq!(job.rows[0].size.text(), "0.8");
    assert_eq!(job.rows[0].places[0].point_mm, [10.0, 4.0, 0.0]);
    assert!(told[0].ends_with("Lengths were read in millimeters, as was said."));
    // The same words beside settings that agree with them.
    let agrees = small("9 $INSUNITS 70 4", &format!("{HOLE}{words}"));
    assert_eq!(agrees.unit(), Some(Unit::Mm));
}

#[test]
fn a_unit_that_somebody_says_stands_above_the_files() {
    let mut drawn = small("9 $INSUNITS 70 1", HOLE);
    drawn.say_unit(Unit::Mm);
    let (job, told) = taken(&drawn);
    assert_eq!(job.rows[0].size.text(), "0.8");
    let [x, y, _] = job.rows[0].places[0].point_mm;
    assert!((x - 10.0).abs() < 1e-12 && (y - 4.0).abs() < 1e-12);
    assert_eq!(
        told[0],
        "The file says that its lengths are in inches; they were read in millimeters, as was said."
    );
    // And back again.
    drawn.say_unit(Unit::Inch);
    assert!((drawn.seen().holes[0].diameter - 0.8 * 25.4).abs() < 1e-12);
    // A meter is a thousand millimeters: nothing is said against it.
    let mut meters = small("9 $INSUNITS 70 6", "0 CIRCLE 10 0.01 20 0.004 40 0.0004 ");
    meters.say_unit(Unit::Mm);
    let (job, told) = taken(&meters);
    assert_eq!(job.rows[0].size.text(), "0.8");
    assert_eq!(
        told[0],
        "The file says that its lengths are in meters; they were turned into millimeters."
    );
}

/// A solid names its unit as surely as its lengths.
#[test]
fn a_solid_keeps_its_unit() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/step-corpus");
    let mut drawn = read(&folder.join("plate-214-inch.step")).unwrap();
    let before = drawn.clone();
    drawn.say_unit(Unit::Mm);
    assert_eq!(drawn, before);
    assert_eq!(drawn.unit(), Some(Unit::Inch));
}

#[test]
fn what_is_guessed_of_some_holes_of_a_row_is_told() {
    // Three in sight, the third of two circles; one switched off has a row of its own.
    let holes = "0 CIRCLE 10 10 20 4 40 0.4 0 CIRCLE 10 20 20 4 40 0.4 0 CIRCLE 10 30 20 4 40 0.4 \
                 0 CIRCLE 10 30 20 4 40 0.8 0 CIRCLE 60 1 10 40 20 4 40 0.4 ";
    let drawn = small("9 $INSUNITS 70 4", holes);
    let (job, told) = taken(&drawn);
    let counts: Vec<usize> = job.rows.iter().map(|row| row.places.len()).collect();
    assert_eq!(counts, [3, 1]);
    for sentence in [
        "A: 1 of its 3 holes: taken of two circles about one point, beside 1.6 mm.",
        "B: on a layer that is off, or marked as not to be seen.",
    ] {
        assert!(told.iter().any(|said| said == sentence), "{told:#?}");
    }
}

#[test]
fn rows_name_their_layers_and_not_the_one_that_every_drawing_has() {
    let holes = "0 CIRCLE 5 2A 8 0 10 10 20 4 40 0.4 0 CIRCLE 5 2B 8 DRILL 10 20 20 4 40 0.5 \
                 0 CIRCLE 5 2C 8 DRILL 10 30 20 4 40 0.6 0 CIRCLE 5 2D 8 SMALL 10 40 20 4 40 0.6 ";
    let (_, told) = taken(&small("9 $INSUNITS 70 4", holes));
    for sentence in [
        "A: 1 hole of 0.8 mm; in the file 2A.",
        "B: 1 hole of 1 mm, on layer \u{201c}DRILL\u{201d}; in the file 2B.",
        "C: 2 holes of 1.2 mm, on layers \u{201c}DRILL\u{201d}, \u{201c}SMALL\u{201d}; in the file 2C, 2D.",
    ] {
        assert!(told.iter().any(|said| said == sentence), "{told:#?}");
    }
}

#[test]
fn equal_callouts_reach_as_many_holes_as_they_name_together() {
    let holes = "0 CIRCLE 10 10 20 4 40 0.4 0 CIRCLE 10 20 20 4 40 0.4 0 CIRCLE 10 10 20 24 40 0.4 \
                 0 CIRCLE 10 20 20 24 40 0.4 ";
    let text = |y: f64, says: &str| format!("0 TEXT 10 21 20 {y} 40 1 1 {says} ");
    let alike = text(5.0, "2X_%%c0.8_%%p0.02_THRU") + &text(25.0, "2X_%%c0.8_%%p0.02_THRU");
    let (job, told) = taken(&small("9 $INSUNITS 70 4", &format!("{holes}{alike}")));
    assert_eq!(job.rows.len(), 1);
    assert_eq!(job.rows[0].size.text(), "\u{2300}0.8 \u{b1}0.02");
    let says = "A: 2 of its 4 holes: its text stands at another one: 4 holes are spoken of, and there are 4 of this size.";
    assert!(told.iter().any(|said| said == says), "{told:#?}");
    // Callouts that differ: nobody can say which of the others is whose.
    let unlike = text(5.0, "2X_%%c0.8_%%p0.02_THRU") + &text(25.0, "2X_%%c0.8_%%p0.05_THRU");
    let (job, told) = taken(&small("9 $INSUNITS 70 4", &format!("{holes}{unlike}")));
    let counts: Vec<usize> = job.rows.iter().map(|row| row.places.len()).collect();
    assert_eq!(counts, [2, 1, 1]);
    let says = "its text speaks of 2 holes, and the drawing shows 4 of this size: look which ones it means.";
    let told: Vec<&String> = told.iter().filter(|said| said.ends_with(says)).collect();
    assert_eq!(told.len(), 2, "{told:#?}");
}

#[test]
fn what_is_said_of_holes_and_stands_at_none_is_told() {
    let notes = "0 TEXT 10 0 20 -20 40 2 1 ALL_HOLES_%%p0.01,_12_DEEP 0 TEXT 10 0 20 -30 40 2 1 SHEET_1_OF_1 ";
    let radius = "0 DIMENSION 70 4 10 10 20 4 15 10.4 25 4 42 0.4 1 2X_R<>_%%p0.01_BLIND_5_DEEP ";
    let (job, told) = taken(&small(
        "9 $INSUNITS 70 4",
        &format!("{HOLE}{notes}{radius}"),
    ));
    assert_eq!(job.rows[0].size.text(), "0.8");
    let says = "Texts that belong to none of the holes: \u{201c}2X R0.4 \u{b1}0.01 BLIND 5 DEEP\u{201d}, \
                \u{201c}ALL HOLES \u{b1}0.01, 12 DEEP\u{201d}.";
    assert!(told.iter().any(|said| said == says), "{told:#?}");
}

#[test]
fn a_chart_whose_marks_stand_nowhere_goes_by_size_and_count() {
    let cell = |x: f64, y: f64, says: &str| format!("0 TEXT 10 {x} 20 {y} 40 2 1 {says} ");
    let line = |y: f64, cells: [&str; 4]| -> String {
        let places = [100.0, 115.0, 130.0, 150.0].into_iter().zip(cells);
        places.map(|(x, says)| cell(x, y, says)).collect()
    };
    let chart = line(50.0, ["HOLE", "QTY", "DIA", "DEPTH"])
        + &line(45.0, ["A", "2", "0.8", "7"])
        + &line(40.0, ["B", "1", "1.2", "9"])
        + &line(35.0, ["C", "4", "0.5", "THRU"]);
    let holes = "0 CIRCLE 10 10 20 4 40 0.4 0 CIRCLE 10 20 20 4 40 0.4 0 CIRCLE 10 30 20 4 40 0.6 \
                 0 CIRCLE 10 40 20 4 40 0.25 ";
    let (job, told) = taken(&small("9 $INSUNITS 70 4", &format!("{holes}{chart}")));
    let cells = |column: Column| -> Vec<String> {
        let rows = job.rows.iter();
        rows.map(|row| row.cell(column).text.to_owned()).collect()
    };
    assert_eq!(cells(Column::Size), ["0.5", "0.8", "1.2"]);
    assert_eq!(cells(Column::Depth), ["", "7", "9"]);
    // Four are named and one is there: the line is told.
    let says = "Texts that belong to none of the holes: \u{201c}C 4 0.5 THRU\u{201d}.";
    assert!(told.iter().any(|said| said == says), "{told:#?}");
}

#[test]
fn circles_that_all_but_lie_on_each_other_are_one_hole() {
    let holes = "0 CIRCLE 10 10 20 4 40 0.4 0 CIRCLE 10 10.01 20 4 40 0.4 0 CIRCLE 10 20 20 4 40 0.4 \
                 0 CIRCLE 10 20.1 20 4 40 0.4 ";
    let (job, _) = taken(&small("9 $INSUNITS 70 4", holes));
    let places: Vec<f64> = job
        .rows
        .iter()
        .flat_map(|row| row.places.iter())
        .map(|place| place.point_mm[0])
        .collect();
    assert_eq!(places, [10.0, 20.0, 20.1]);
}

#[test]
fn a_drawing_far_from_its_zero_is_counted_from_its_corner() {
    let far = plate(4_500_000.0, 5_500_000.0, 80.0, 50.0);
    let holes = "0 CIRCLE 10 4500010 20 5500020 40 0.4 0 CIRCLE 10 0 20 0 40 0.4 ";
    let drawn = small("9 $INSUNITS 70 4", &format!("{far}{holes}"));
    let (job, told) = taken(&drawn);
    assert_eq!(job.rows[0].places.len(), 1);
    assert_eq!(job.rows[0].places[0].point_mm, [10.0, 20.0, 0.0]);
    assert_eq!(job.field(Field::SizeX).text(), "80");
    for sentence in [
        "The drawing stands farther from its zero than a part is long: places are counted from its x 4500000, y 5500000.",
        "Not taken: 1 hole of 0.8 mm, more than a kilometer away from the others.",
    ] {
        assert!(told.iter().any(|said| said == sentence), "{told:#?}");
    }
}

#[test]
fn frames_and_views_are_told() {
    let sheet = plate(0.0, 0.0, 420.0, 297.0);
    let views = plate(50.0, 50.0, 100.0, 60.0) + &plate(50.0, 150.0, 100.0, 60.0);
    let holes = "0 CIRCLE 10 60 20 60 40 0.4 0 CIRCLE 10 60 20 160 40 0.4 ";
    let drawn = small("9 $INSUNITS 70 4", &format!("{sheet}{views}{holes}"));
    let (job, told) = taken(&drawn);
    assert_eq!(job.field(Field::SizeX).text(), "100");
    for sentence in [
        "A box of 420 x 297 mm was taken for the frame of a sheet, and not for the part.",
        "Two outlines of one size hold the same 1 hole: where they are views of one part, its holes are counted twice.",
    ] {
        assert!(told.iter().any(|said| said == sentence), "{told:#?}");
    }
}

#[test]
fn texts_that_say_another_size_and_texts_that_cannot_be_read_are_told_apart() {
    let beside = |text: &str| format!("{HOLE}0 TEXT 10 11 20 4 40 1 1 {text} ");
    for (text, sentence) in [
        (
            "%%c0.9_THRU",
            "A: the text beside it, \u{201c}\u{2300}0.9 THRU\u{201d}, speaks of another size than the 0.8 mm that it is drawn with.",
        ),
        (
            "%%c0.8_THRU_(EDM)",
            "A: the text beside it, \u{201c}\u{2300}0.8 THRU (EDM)\u{201d}, could not be taken apart, and stands in the note as it is.",
        ),
    ] {
        let (_, told) = taken(&small("9 $INSUNITS 70 4", &beside(text)));
        assert!(told.iter().any(|said| said == sentence), "{told:#?}");
    }
}
