//! STEP files as they come: written otherwise, cut off, tangled, or no STEP at all.

#![expect(
    clippy::expect_used,
    reason = "helpers of the tests stand outside the test functions"
)]

use std::fs;
use std::path::Path;

use quillbore_intake::drawn::{Drawn, DrawnError, Shows};
use quillbore_intake::seen::{Guessed, Seen, Why};
use quillbore_intake::step::{self, StepError};
use quillbore_job::Column;

fn corpus(name: &str) -> String {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/step-corpus");
    fs::read_to_string(folder.join(name)).expect("a file of the corpus")
}

fn read(text: &str) -> Result<Seen, StepError> {
    step::read(text.as_bytes(), &|_| false)
}

/// A file with these instances.
fn with(data: &str) -> String {
    format!("ISO-10303-21;\nHEADER;\nENDSEC;\nDATA;\n{data}\nENDSEC;\nEND-ISO-10303-21;\n")
}

fn plate() -> Seen {
    read(&corpus("plate-214-mm.step")).expect("a plate")
}

#[test]
fn what_is_no_step_file_or_cut_off_is_told_with_its_line() {
    let plate = corpus("plate-214-mm.step");
    let cut = &plate[..plate.len() / 2];
    let lines = cut.trim_end().lines().count();
    let no_end = plate.replace("ENDSEC;\nEND-ISO-10303-21;", "");
    let no_end_lines = no_end.trim_end().lines().count();
    let cases = [
        (String::new(), StepError::NotStep),
        ("0\nSECTION\n".to_owned(), StepError::NotStep),
        (
            "ISO-10303-21;\nHEADER;\nENDSEC;\n".to_owned(),
            StepError::NoData,
        ),
        (
            "ISO-10303-21;\nHEADER;\nENDSEC;\nEND-ISO-10303-21;\n".to_owned(),
            StepError::NoData,
        ),
        (cut.to_owned(), StepError::Cut(lines)),
        (no_end, StepError::Cut(no_end_lines)),
        (with("#1=A(1;\n#2=B();"), StepError::Unreadable(5)),
        (with("#1=A(1));"), StepError::Unreadable(5)),
        (with("#1=A(1);\nrubbish;"), StepError::Unreadable(6)),
        (with("#1=A('it''s;);"), StepError::Cut(7)),
        (with("#1=A(1);\n#2 A();"), StepError::Unreadable(6)),
        (
            with("#99999999999999999999999=A();"),
            StepError::Unreadable(5),
        ),
        (
            with("#1=A(1);\n\n#1=B(2);"),
            StepError::Twice { number: 1, line: 7 },
        ),
        (with("#1=A(1);"), StepError::NoSolid),
        (with(""), StepError::NoSolid),
    ];
    for (text, error) in cases {
        assert_eq!(
            read(&text),
            Err(error.clone()),
            "{}",
            &text[..text.len().min(120)]
        );
        assert!(!error.to_string().is_empty() && !error.hint().is_empty());
    }
    assert_eq!(
        step::read(plate.as_bytes(), &|_| true),
        Err(StepError::Stopped)
    );
}

#[test]
fn the_same_file_written_otherwise_shows_the_same() {
    let text = corpus("plate-214-mm.step");
    let expected = plate();
    let (first, second) = text.split_once("#100 = ").expect("an instance 100");
    let ways = [
        text.replace('\n', "\r\n"),
        text.replace('\n', "\r"),
        text.replace(" = ", "="),
        text.replace(" = ", " /* it's; (*) */ = "),
        text.replace(".,", ".0E0,"),
        format!("\u{feff}{text}"),
        format!("{first}ENDSEC;\nDATA('second',('AUTOMOTIVE_DESIGN'));\n#100 = {second}"),
        // Numbers with gaps, beyond 32 bits.
        text.replace('#', "#700000000"),
    ];
    for way in ways {
        let mut seen = read(&way).expect("the same plate");
        for (hole, known) in seen.holes.iter_mut().zip(&expected.holes) {
            hole.from.clone_from(&known.from);
        }
        assert_eq!(seen, expected, "{}", &way[..200]);
    }
}

#[test]
fn bodies_turned_inside_out_have_the_same_holes() {
    for name in [
        "plate-214-mm.step",
        "hollow.step",
        "closed-room.step",
        "tube.step",
    ] {
        let text = corpus(name);
        let expected = read(&text).expect("a body");
        let mut turned = String::new();
        for line in text.split_inclusive(";\n") {
            let face = line.contains("= ADVANCED_FACE(");
            turned.push_str(&if !face {
                line.to_owned()
            } else if line.contains(".T.);") {
                line.replace(".T.);", ".F.);")
            } else {
                line.replace(".F.);", ".T.);")
            });
        }
        // With the face its loops turn.
        let swap = |text: String, kind: &str| {
            let parts: Vec<String> = text
                .split_inclusive(";\n")
                .map(|line| match line.contains(kind) {
                    true if line.contains(".T.)") => line.replace(".T.)", ".F.)"),
                    true => line.replace(".F.)", ".T.)"),
                    false => line.to_owned(),
                })
                .collect();
            parts.concat()
        };
        let turned = swap(turned, "= FACE_BOUND(");
        let seen = read(&turned).expect("a body");
        assert_eq!(seen.holes, expected.holes, "{name}");
        assert_eq!(seen.refused, expected.refused, "{name}");
        assert_eq!(seen.extents, expected.extents, "{name}");
    }
}

#[test]
fn units_are_the_files_own_word() {
    let text = corpus("plate-214-mm.step");
    let unit = "SI_UNIT(.MILLI.,.METRE.)";
    let cases = [
        ("SI_UNIT($,.METRE.)", Some(1_000.0)),
        ("SI_UNIT(.CENTI.,.METRE.)", Some(10.0)),
        ("SI_UNIT(.MICRO.,.METRE.)", Some(1e-3)),
        ("LENGTH_UNIT()", None),
    ];
    for (written, mm) in cases {
        let seen = read(&text.replace(unit, written)).expect("a plate");
        let near = seen
            .unit_mm
            .zip(mm)
            .is_some_and(|(seen, mm)| (seen / mm - 1.0).abs() < 1e-12);
        assert!(near || seen.unit_mm == mm, "{written}: {:?}", seen.unit_mm);
        let factor = mm.unwrap_or(1.0);
        let widest = seen
            .holes
            .iter()
            .map(|hole| hole.diameter)
            .fold(0.0, f64::max);
        assert!(
            (widest / (3.175 * factor) - 1.0).abs() < 1e-9,
            "{written}: {widest}"
        );
    }
    // A cone's angle in degrees.
    let radian = "NAMED_UNIT(*) PLANE_ANGLE_UNIT() SI_UNIT($,.RADIAN.)";
    assert!(text.contains(radian));
    let in_degrees = text
        .replace(
            radian,
            "CONVERSION_BASED_UNIT('DEGREE',#900001) NAMED_UNIT(*) PLANE_ANGLE_UNIT()",
        )
        .replace("1.029744258677)", "59.)")
        .replace(
            "ENDSEC;\nEND",
            "#900001=PLANE_ANGLE_MEASURE_WITH_UNIT(PLANE_ANGLE_MEASURE(0.0174532925199433),#900002);\n\
             #900002=(NAMED_UNIT(*)PLANE_ANGLE_UNIT()SI_UNIT($,.RADIAN.));\nENDSEC;\nEND",
        );
    assert!(in_degrees.contains("59.)"), "the cone's angle is another");
    let seen = read(&in_degrees).expect("a plate");
    for (seen, known) in seen.holes.iter().zip(&plate().holes) {
        let depths = seen.depth.zip(known.depth);
        assert!(depths.is_some_and(|(a, b)| (a.on_axis - b.on_axis).abs() < 1e-6));
    }
}

#[test]
fn what_is_missing_or_holds_itself_is_told_and_the_rest_is_read() {
    let text = corpus("plate-214-mm.step");
    let known = plate();
    // The surface of one hole's wall is gone.
    let wall = text.find("= CYLINDRICAL_SURFACE(").expect("a cylinder");
    let begin = text[..wall].rfind('#').expect("its number");
    let end = wall + text[wall..].find('\n').expect("its end");
    let number = text[begin..wall].trim();
    let gone = format!("{}{}", &text[..begin], &text[end..]);
    let seen = read(&gone).expect("a plate");
    assert_eq!(seen.holes.len(), known.holes.len() - 1);
    let whys: Vec<&Why> = seen.refused.iter().map(|refused| &refused.why).collect();
    // What was its neighbor has an edge of its own now.
    assert_eq!(whys, [&Why::Missing(number.to_owned()), &Why::NotClosed(1)]);

    // A unit that is defined by itself, a curve that is trimmed out of itself.
    let tangled = text.replace(
        "CIRCLE('',",
        "TRIMMED_CURVE('',#900001,$,$,.T.,.PARAMETER.);\n#900001=TRIMMED_CURVE('',#900001,",
    );
    // Every circle now is the same instance: the second one is told.
    assert!(matches!(
        read(&tangled),
        Err(StepError::Twice {
            number: 900_001,
            ..
        })
    ));
    let first = text.replacen(
        "CIRCLE('',",
        "TRIMMED_CURVE('',#900001,$,$,.T.,.PARAMETER.);\n#900001=TRIMMED_CURVE('',#900001,",
        1,
    );
    let seen = read(&first).expect("a plate");
    assert!(
        seen.refused
            .iter()
            .any(|refused| matches!(refused.why, Why::TooDeep(_)))
    );

    // Assemblies that hold each other.
    let text = corpus("assembly-214.step");
    let (plain, circle) = (read(&text).expect("an assembly"), text.replace(
        "ENDSEC;\nEND",
        "#900001=NEXT_ASSEMBLY_USAGE_OCCURRENCE('x','x','',#294,#5,$);\n\
         #900002=PRODUCT_DEFINITION_SHAPE('','',#900001);\n\
         #900003=CONTEXT_DEPENDENT_SHAPE_REPRESENTATION(#900004,#900002);\n\
         #900004=(REPRESENTATION_RELATIONSHIP('','',#10,#299)REPRESENTATION_RELATIONSHIP_WITH_TRANSFORMATION(#324)SHAPE_REPRESENTATION_RELATIONSHIP());\nENDSEC;\nEND",
    ));
    let seen = read(&circle).expect("an assembly");
    assert!(
        seen.refused
            .iter()
            .any(|refused| refused.why == Why::HoldsItself),
        "{:?}",
        seen.refused
    );
    assert!(seen.holes.len() >= plain.holes.len() / 2);
}

#[test]
fn nesting_without_end_is_read_without_falling_over() {
    let deep = format!("#1=A({}{});", "(".repeat(20_000), ")".repeat(20_000));
    assert_eq!(read(&with(&deep)), Err(StepError::NoSolid));
    let deep = format!("#1=A({}", "(".repeat(20_000));
    assert!(matches!(
        read(&with(&deep)),
        Err(StepError::Unreadable(_) | StepError::Cut(_))
    ));
    // Where a solid should be, and where a number should be.
    let text = corpus("plate-214-mm.step");
    let nest = format!("({}{})", "(".repeat(20_000), ")".repeat(20_000));
    let seen = read(&text.replacen(
        "MANIFOLD_SOLID_BREP('',",
        &format!("MANIFOLD_SOLID_BREP({nest},"),
        1,
    ));
    assert_eq!(seen.expect("a plate").holes.len(), plate().holes.len());
    // Assemblies doubled again and again are more than a part has.
    let mut data = String::new();
    for level in 0..40 {
        let (rep, map) = (10 * level + 1, 10 * level + 2);
        let below = if level == 0 {
            9_001
        } else {
            10 * (level - 1) + 1
        };
        data += &format!(
            "#{rep}=SHAPE_REPRESENTATION('',(#{},#{}),$);\n#{map}=REPRESENTATION_MAP(#9002,#{below});\n\
             #{}=MAPPED_ITEM('',#{map},#9002);\n#{}=MAPPED_ITEM('',#{map},#9002);\n",
            map + 1,
            map + 2,
            map + 1,
            map + 2
        );
    }
    data += "#9001=ADVANCED_BREP_SHAPE_REPRESENTATION('',(#9003),$);\n\
             #9002=AXIS2_PLACEMENT_3D('',#9004,$,$);\n#9003=MANIFOLD_SOLID_BREP('',#9005);\n\
             #9004=CARTESIAN_POINT('',(0.,0.,0.));\n#9005=CLOSED_SHELL('',());";
    assert_eq!(read(&with(&data)), Err(StepError::TooMany));
}

#[test]
fn mapped_items_stretch_turn_and_shift() {
    let text = corpus("plate-214-mm.step");
    let mapped = text
        .replace("#3 = SHAPE_DEFINITION_REPRESENTATION(#4,#10);", "#3 = SHAPE_DEFINITION_REPRESENTATION(#4,#900001);")
        .replace(
            "ENDSEC;\nEND",
            "#900001=SHAPE_REPRESENTATION('',(#900002),$);\n\
             #900002=MAPPED_ITEM('',#900003,#900004);\n\
             #900003=REPRESENTATION_MAP(#11,#10);\n\
             #900004=CARTESIAN_TRANSFORMATION_OPERATOR_3D('','',$,#900006,#900007,#900005,2.,#900008);\n\
             #900005=CARTESIAN_POINT('',(100.,0.,0.));\n\
             #900006=DIRECTION('',(0.,1.,0.));\n\
             #900007=DIRECTION('',(-1.,0.,0.));\n\
             #900008=DIRECTION('',(0.,0.,1.));\nENDSEC;\nEND",
        );
    assert!(mapped.contains("#4,#900001"));
    let seen = read(&mapped).expect("a plate");
    let known = plate();
    assert_eq!(seen.holes.len(), known.holes.len());
    for (seen, known) in seen.holes.iter().zip(&known.holes) {
        let [x, y, z] = known.entry;
        let wanted = [100.0 - 2.0 * y, 2.0 * x, 2.0 * z];
        let near = seen
            .entry
            .iter()
            .zip(wanted)
            .all(|(a, b)| (a - b).abs() < 1e-9);
        assert!(near, "{:?} for {wanted:?}", seen.entry);
        assert!((seen.diameter - 2.0 * known.diameter).abs() < 1e-9);
    }
    // As a mirrored part is placed: lengths below nothing.
    let mirrored = mapped.replace("#900005,2.,", "#900005,-2.,");
    let seen = read(&mirrored).expect("a plate");
    assert_eq!(seen.holes.len(), known.holes.len());
    for (seen, known) in seen.holes.iter().zip(&known.holes) {
        let ([x, y, z], [a, b, c]) = (known.entry, known.axis);
        let near = |seen: [f64; 3], wanted: [f64; 3]| {
            seen.iter().zip(wanted).all(|(a, b)| (a - b).abs() < 1e-9)
        };
        assert!(
            near(seen.entry, [100.0 + 2.0 * y, -2.0 * x, -2.0 * z]),
            "{seen:?}"
        );
        assert!(near(seen.axis, [b, -a, -c]), "{seen:?}");
        assert!((seen.diameter - 2.0 * known.diameter).abs() < 1e-9);
    }
    let uneven = mapped.replace(
        "CARTESIAN_TRANSFORMATION_OPERATOR_3D(",
        "CARTESIAN_TRANSFORMATION_OPERATOR_3D_NON_UNIFORM(",
    );
    let seen = read(&uneven).expect("a plate");
    assert!(
        seen.holes.is_empty()
            || seen
                .refused
                .iter()
                .any(|refused| refused.why == Why::Stretched)
    );
}

#[test]
fn a_solid_that_is_not_closed_says_so() {
    // A bottom is left out of the shell.
    let text = corpus("crowns.step");
    let shell = text.find("CLOSED_SHELL(").expect("a shell");
    let list = shell + text[shell..].find(",(").expect("a list") + 2;
    let next = list + text[list..].find(',').expect("more than one") + 1;
    let open = format!("{}{}", &text[..list], &text[next..]);
    let seen = read(&open).expect("a block");
    let told = seen
        .refused
        .iter()
        .any(|refused| matches!(refused.why, Why::NotClosed(_)));
    assert!(told, "{:?}", seen.refused);
}

#[test]
fn an_angle_that_nothing_shows_is_left_open() {
    // A rounded mouth in a ball that is gone from the shell: nothing tells what lies around the mouth.
    let text = corpus("broken-ball.step");
    let whole = read(&text).expect("a ball");
    assert!(
        whole.holes[0]
            .begins
            .is_some_and(|begins| begins.tilt_deg.is_some())
    );
    let of = |kind: &str| {
        let line = text.lines().find(|line| line.contains(kind));
        let (number, _) = line.and_then(|line| line.split_once(" =")).expect("a line");
        number.to_owned()
    };
    let ball = format!(",{},", of("= SPHERICAL_SURFACE("));
    let face = of_surface(&text, &ball);
    let shell = text
        .lines()
        .find(|line| line.contains("= CLOSED_SHELL("))
        .expect("a shell");
    let without = shell
        .replace(&format!("({face},"), "(")
        .replace(&format!(",{face},"), ",")
        .replace(&format!(",{face})"), ")");
    assert_ne!(shell, without);
    let drawn = drawn(&text.replace(shell, &without));
    let hole = drawn.seen().holes.first().expect("a hole");
    assert_eq!(hole.begins.map(|begins| begins.tilt_deg), Some(None));
    let (cells, doubts) = drawn.cells(hole);
    assert_eq!(cells.get(&Column::Angle), None);
    let told = |words: &str| doubts.iter().any(|doubt| doubt.contains(words));
    assert!(
        told("its axis meets no surface where it begins"),
        "{doubts:?}"
    );
}

#[test]
fn what_of_a_free_form_matters_is_told_with_its_length() {
    // Written as free forms by a kernel, cylinders are round to its last digits.
    let nurbs = drawn(&corpus("plate-nurbs.step"));
    for hole in &nurbs.seen().holes {
        assert_eq!(hole.guessed.len(), 1);
        assert_eq!(nurbs.cells(hole).1, [""; 0]);
    }
    let mut hole = nurbs.seen().holes[0].clone();
    hole.guessed = vec![Guessed::NotQuiteRound(0.0123)];
    assert_eq!(
        nurbs.cells(&hole).1,
        ["a free form that is up to 0.0123 mm off the circle that was taken for it"]
    );
}

fn drawn(text: &str) -> Drawn {
    Drawn::read(Shows::Solid, text.as_bytes(), "part.step", &|_| false).expect("holes")
}

#[test]
fn faces_that_are_not_joined_are_told() {
    // A plate with a straight hole, each of its seven faces a sheet of its own.
    let told = |text: &str| match Drawn::read(Shows::Solid, text.as_bytes(), "a.step", &|_| false) {
        Ok(drawn) => drawn.told(),
        Err(DrawnError::NoHoles(told)) => told,
        Err(error) => panic!("{error}"),
    };
    let loose = told(&corpus("loose/plate.step"));
    assert!(
        loose
            .iter()
            .any(|line| line.contains("7 faces are not joined to those beside them")),
        "{loose:?}"
    );
    for name in [
        "plate-214-mm.step",
        "hollow-203.step",
        "bends.step",
        "assembly-242.step",
    ] {
        let told = told(&corpus(name));
        assert!(
            !told.iter().any(|line| line.contains("not joined")),
            "{told:?}"
        );
    }
}

#[test]
fn a_body_that_stands_twice_in_one_place_is_taken_once() {
    let text = corpus("plate-214-mm.step");
    let twice = text
        .replace(
            "#3 = SHAPE_DEFINITION_REPRESENTATION(#4,#10);",
            "#3 = SHAPE_DEFINITION_REPRESENTATION(#4,#900001);",
        )
        .replace(
            "ENDSEC;\nEND",
            "#900001=SHAPE_REPRESENTATION('',(#900002,#900004,#900005),$);\n\
             #900002=MAPPED_ITEM('',#900003,#11);\n\
             #900003=REPRESENTATION_MAP(#11,#10);\n\
             #900004=MAPPED_ITEM('',#900003,#11);\n\
             #900005=MAPPED_ITEM('',#900003,#900006);\n\
             #900006=AXIS2_PLACEMENT_3D('',#900007,$,$);\n\
             #900007=CARTESIAN_POINT('',(0.,0.,50.));\nENDSEC;\nEND",
        );
    assert!(twice.contains("#4,#900001"));
    let (seen, known) = (read(&twice).expect("plates"), plate());
    // Twice in one place, and once 50 above it.
    assert_eq!(seen.holes.len(), 2 * known.holes.len());
    let (both, above): (Vec<_>, Vec<_>) = seen.holes.iter().partition(|hole| hole.entry[2] < 30.0);
    assert_eq!(both.len(), above.len());
    assert!(
        both.iter()
            .all(|hole| hole.guessed == [Guessed::DrawnTwice])
    );
    assert!(above.iter().all(|hole| hole.guessed.is_empty()));
}

#[test]
fn limits_in_the_file_are_told() {
    let text = corpus("plate-242-mm.step");
    assert_eq!(drawn(&text).told(), [""; 0]);
    let with_limits = text.replace(
        "ENDSEC;\nEND",
        "#900001=PLUS_MINUS_TOLERANCE(#900002,#900003);\n\
         #900002=TOLERANCE_VALUE(#900004,#900005);\n\
         #900011=PLUS_MINUS_TOLERANCE(#900002,#900013);\nENDSEC;\nEND",
    );
    assert_eq!(
        drawn(&with_limits).told(),
        [
            "Not taken: the file has limits of 2 sizes, which are not read: type those of the holes; in the file #900001."
        ]
    );
}

/// The face on a surface.
fn of_surface(text: &str, surface: &str) -> String {
    let on = |line: &&str| line.contains("= ADVANCED_FACE(") && line.contains(surface);
    let line = text.lines().find(on).expect("a face");
    let (number, _) = line.split_once(" =").expect("a number");
    number.to_owned()
}

#[test]
fn the_outline_is_the_parts_own() {
    let seen = plate();
    let mut corners = seen.outline.first().cloned().unwrap_or_default();
    corners.sort_by(|a, b| a[0].total_cmp(&b[0]).then(a[1].total_cmp(&b[1])));
    assert_eq!(
        corners,
        [[0.0, 0.0], [0.0, 30.0], [40.0, 0.0], [40.0, 30.0]]
    );
    assert_eq!(seen.outline.len(), 1, "mouths of holes are no part of it");
    // A pocket that goes through is.
    let seen = read(&corpus("no-holes.step")).expect("a part");
    assert!(!seen.outline.is_empty());
}

#[test]
fn walls_and_edges_written_in_other_ways_are_the_same() {
    let text = corpus("plate-214-mm.step");
    let expected = plate();
    let mut more = String::new();
    let mut number = 900_000;
    let mut next = |instance: String| {
        number += 1;
        more += &format!("#{number}={instance};\n");
        number
    };
    let mut written = String::new();
    let mut walls = 0;
    for line in text.split_inclusive(";\n") {
        let arguments = |kind: &str| {
            let (head, rest) = line.split_once(kind)?;
            let (place, radius) = rest.trim_end_matches(");\n").split_once(',')?;
            Some((head, place, radius.parse::<f64>().ok()?))
        };
        if let Some((head, place, radius)) = arguments("CYLINDRICAL_SURFACE('',") {
            walls += 1;
            let half = radius * 0.5;
            let new = match walls % 3 {
                0 => {
                    let circle = next(format!("CIRCLE('',{place},{radius:?})"));
                    let way = axis_of(&text, place);
                    let vector = next(format!("VECTOR('',{way},1.)"));
                    format!("SURFACE_OF_LINEAR_EXTRUSION('',#{circle},#{vector});\n")
                }
                1 => {
                    let inner = next(format!("CYLINDRICAL_SURFACE('',{place},{half:?})"));
                    format!("OFFSET_SURFACE('',#{inner},{half:?},.F.);\n")
                }
                _ => {
                    let whole = next(format!("CYLINDRICAL_SURFACE('',{place},{radius:?})"));
                    format!("RECTANGULAR_TRIMMED_SURFACE('',#{whole},0.,6.,-99.,99.,.T.,.T.);\n")
                }
            };
            written += &format!("{head}{new}");
        } else if let Some((head, place, radius)) = arguments("CIRCLE('',") {
            let circle = next(format!("CIRCLE('',{place},{radius:?})"));
            let ends = "(PARAMETER_VALUE(0.)),(PARAMETER_VALUE(6.3)),.T.,.PARAMETER.";
            written += &format!("{head}TRIMMED_CURVE('',#{circle},{ends});\n");
        } else {
            written += line;
        }
    }
    let written = written.replace("ENDSEC;\nEND", &format!("{more}ENDSEC;\nEND"));
    for kind in [
        "_EXTRUSION",
        "OFFSET_SURFACE",
        "_TRIMMED_SURFACE",
        "TRIMMED_CURVE",
    ] {
        assert!(written.contains(kind), "{kind}");
    }
    let seen = read(&written).expect("a plate");
    assert_eq!(seen.refused, []);
    assert_eq!(seen.holes.len(), expected.holes.len());
    for (seen, known) in seen.holes.iter().zip(&expected.holes) {
        assert!((seen.diameter - known.diameter).abs() < 1e-12);
        let places = (seen.entry, seen.axis, seen.end);
        assert_eq!(places, (known.entry, known.axis, known.end));
        assert_eq!(seen.depth, known.depth);
    }
}

/// The number of the axis of a placement.
fn axis_of(text: &str, place: &str) -> String {
    let placement = format!("\n{place} = AXIS2_PLACEMENT_3D('',");
    let (_, rest) = text.split_once(&placement).expect("a placement");
    rest.split(',').nth(1).expect("an axis").to_owned()
}

#[test]
fn a_representation_that_says_something_of_a_placed_body_is_no_other_place() {
    let text = corpus("assembly-214.step");
    let solid = text
        .split(" = MANIFOLD_SOLID_BREP")
        .next()
        .and_then(|before| before.rsplit('#').next())
        .expect("a body");
    // As files write it to which the volume, or a color, of a body was added.
    let said = text.replace(
        "ENDSEC;\nEND",
        &format!("#900001=SHAPE_REPRESENTATION('',(#{solid}),$);\nENDSEC;\nEND"),
    );
    assert_ne!(said, text);
    assert_eq!(
        read(&said).expect("an assembly"),
        read(&text).expect("an assembly")
    );
}

/// A bore of radius 5 and height 3 through two flat faces, its wall two halves that are free forms of degree 3.
fn halves() -> String {
    let point = |number: u32, [x, y, z]: [f64; 3]| {
        format!("#{number}=CARTESIAN_POINT('',({x:.1},{y:.1},{z:.1}));\n")
    };
    let mut data = String::new();
    // The control points of each half, above and below; weights 1, 1/3, 1/3, 1 make half a circle of them.
    let half = |y: f64, ends: [f64; 2], z: f64| {
        [[ends[0], 7.5], [ends[0], y], [ends[1], y], [ends[1], 7.5]].map(|[x, y]| [x, y, z])
    };
    let both = [(17.5, [5.0, 15.0]), (-2.5, [15.0, 5.0])];
    for (at, (y, ends)) in (0_u32..).zip(both) {
        for (level, z) in [(0_u32, 3.0), (1, 0.0)] {
            let first = 100 + 20 * at + 10 * level;
            for (number, p) in (first..).zip(half(y, ends, z)) {
                data += &point(number, p);
            }
            let list: Vec<String> = (first..first + 4)
                .map(|number| format!("#{number}"))
                .collect();
            data += &format!(
                "#{}=(BOUNDED_CURVE()B_SPLINE_CURVE(3,({}),.UNSPECIFIED.,.F.,.F.)\
                 B_SPLINE_CURVE_WITH_KNOTS((4,4),(0.0,0.5),.UNSPECIFIED.)CURVE()\
                 GEOMETRIC_REPRESENTATION_ITEM()\
                 RATIONAL_B_SPLINE_CURVE((1.0,0.333333333333,0.333333333333,1.0))\
                 REPRESENTATION_ITEM(''));\n",
                first + 4,
                list.join(",")
            );
        }
        let net = |from: u32| format!("(#{},#{},#{},#{})", from, from + 1, from + 2, from + 3);
        let first = 100 + 20 * at;
        data += &format!(
            "#{}=(BOUNDED_SURFACE()B_SPLINE_SURFACE(1,3,({},{}),.UNSPECIFIED.,.F.,.F.,.F.)\
             B_SPLINE_SURFACE_WITH_KNOTS((2,2),(4,4),(0.000998003992,0.999001996008),(0.0,0.5),.UNSPECIFIED.)\
             GEOMETRIC_REPRESENTATION_ITEM()RATIONAL_B_SPLINE_SURFACE(\
             ((1.0,0.333333333333,0.333333333333,1.0),(1.0,0.333333333333,0.333333333333,1.0)))\
             REPRESENTATION_ITEM('')SURFACE());\n",
            200 + at,
            net(first),
            net(first + 10)
        );
    }
    // Vertices at x 5 and 15, above and below, the two lines between them, and the halves of the circles.
    for (number, of) in [(300, 100), (301, 103), (302, 110), (303, 113)] {
        data += &format!("#{number}=VERTEX_POINT('',#{of});\n");
    }
    data += "#310=DIRECTION('',(0.,0.,-1.));\n#311=VECTOR('',#310,1.);\n\
             #312=LINE('',#100,#311);\n#313=LINE('',#103,#311);\n\
             #320=EDGE_CURVE('',#300,#301,#104,.T.);\n#321=EDGE_CURVE('',#301,#300,#124,.T.);\n\
             #322=EDGE_CURVE('',#302,#303,#114,.T.);\n#323=EDGE_CURVE('',#303,#302,#134,.T.);\n\
             #324=EDGE_CURVE('',#300,#302,#312,.T.);\n#325=EDGE_CURVE('',#301,#303,#313,.T.);\n";
    // A block around it: corners above and below, edges above, below and upright.
    let corners = [[0.0, 0.0], [20.0, 0.0], [20.0, 15.0], [0.0, 15.0]];
    for (at, [x, y]) in (0_u32..).zip(corners) {
        let [a, b] = corners[(at as usize + 1) % 4];
        data += &point(600 + at, [x, y, 3.0]);
        data += &point(604 + at, [x, y, 0.0]);
        let next = (at + 1) % 4;
        data += &format!(
            "#{0}=VERTEX_POINT('',#{2});\n#{1}=VERTEX_POINT('',#{3});\n",
            610 + at,
            614 + at,
            600 + at,
            604 + at
        );
        data += &format!(
            "#{}=DIRECTION('',({:.1},{:.1},0.));\n",
            620 + at,
            a - x,
            b - y
        );
        data += &format!("#{}=VECTOR('',#{},1.);\n", 624 + at, 620 + at);
        for (line, from, along) in [
            (630 + at, 600 + at, 624 + at),
            (634 + at, 604 + at, 624 + at),
            (680 + at, 600 + at, 311),
        ] {
            data += &format!("#{line}=LINE('',#{from},#{along});\n");
        }
        for (edge, [from, to], line) in [
            (640 + at, [610 + at, 610 + next], 630 + at),
            (644 + at, [614 + at, 614 + next], 634 + at),
            (648 + at, [610 + at, 614 + at], 680 + at),
        ] {
            data += &format!("#{edge}=EDGE_CURVE('',#{from},#{to},#{line},.T.);\n");
        }
        // The side's normal points out of the block.
        data += &format!(
            "#{}=DIRECTION('',({:.1},{:.1},0.));\n",
            660 + at,
            b - y,
            x - a
        );
        data += &format!(
            "#{}=AXIS2_PLACEMENT_3D('',#{},#{},$);\n#{}=PLANE('',#{});\n",
            664 + at,
            600 + at,
            660 + at,
            668 + at,
            664 + at
        );
    }
    let mut number = 700;
    let mut face = |loops: &[Vec<(u32, char)>], surface: u32| {
        let mut bounds = Vec::new();
        for edges in loops {
            let mut used = Vec::new();
            for (edge, along) in edges {
                data += &format!("#{number}=ORIENTED_EDGE('',*,*,#{edge},.{along}.);\n");
                used.push(format!("#{number}"));
                number += 1;
            }
            data += &format!(
                "#{number}=EDGE_LOOP('',({}));\n#{}=FACE_BOUND('',#{number},.T.);\n",
                used.join(","),
                number + 1
            );
            bounds.push(format!("#{}", number + 1));
            number += 2;
        }
        data += &format!(
            "#{number}=ADVANCED_FACE('',({}),#{surface},.T.);\n",
            bounds.join(",")
        );
        number += 1;
        format!("#{}", number - 1)
    };
    let all = |first: u32, along: char| (first..first + 4).map(|edge| (edge, along)).collect();
    let back = |first: u32| (first..first + 4).rev().map(|edge| (edge, 'F')).collect();
    let mut faces = vec![
        face(&[vec![(322, 'T'), (325, 'F'), (320, 'F'), (324, 'T')]], 200),
        face(&[vec![(323, 'T'), (324, 'F'), (321, 'F'), (325, 'T')]], 201),
        face(&[all(640, 'T'), vec![(320, 'T'), (321, 'T')]], 501),
        face(&[back(644), vec![(323, 'F'), (322, 'F')]], 503),
    ];
    for at in 0..4 {
        let next = (at + 1) % 4;
        let side = vec![
            (640 + at, 'F'),
            (648 + at, 'T'),
            (644 + at, 'T'),
            (648 + next, 'F'),
        ];
        faces.push(face(&[side], 668 + at));
    }
    data += "#500=AXIS2_PLACEMENT_3D('',#100,$,$);\n#501=PLANE('',#500);\n\
             #502=AXIS2_PLACEMENT_3D('',#110,#310,$);\n#503=PLANE('',#502);\n";
    data += &format!(
        "#510=CLOSED_SHELL('',({}));\n#511=MANIFOLD_SOLID_BREP('',#510);\n\
         #512=SHAPE_REPRESENTATION('',(#511),$);",
        faces.join(",")
    );
    with(&data)
}

#[test]
fn a_wall_of_two_free_halves_closes_where_a_line_runs_through_the_middle_of_an_arc() {
    let seen = read(&halves()).expect("a bore");
    let holes: Vec<_> = seen.holes.iter().map(|hole| hole.diameter).collect();
    assert!(
        matches!(holes[..], [diameter] if (diameter - 10.0).abs() < 1e-6),
        "{holes:?}, not taken {:?}",
        seen.refused
    );
    let depth = seen.holes[0].depth.expect("a depth").on_axis;
    assert!((depth - 3.0).abs() < 1e-6, "{depth}");
}
