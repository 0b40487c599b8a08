//! The drawings: hatching stays inside, angles are true, maps are to scale.
#![expect(clippy::expect_used, reason = "helpers of tests fail by panic")]

use quillbore_calc::RowId;
use quillbore_calc::mount::Mount;
use quillbore_job::{Form, Unit};
use quillbore_paper::drawing::face::Face;
use quillbore_paper::drawing::hatch::hatch;
use quillbore_paper::drawing::map::{self, Look, Map, Spot};
use quillbore_paper::drawing::section::{self, Section};
use quillbore_paper::drawing::{spread, tubes};
use quillbore_paper::page::{Ink, Item, Page, Path, Step, StraightLine, Stroke};

fn lines(page: &Page) -> Vec<&StraightLine> {
    page.items
        .iter()
        .filter_map(|item| match item {
            Item::Line(line) => Some(line),
            _ => None,
        })
        .collect()
}

#[test]
fn hatching_stays_inside_at_its_spacing() {
    for rising in [true, false] {
        let mut page = Page::default();
        let outline = [(10.0, 10.0), (50.0, 10.0), (50.0, 30.0), (10.0, 30.0)];
        hatch(&mut page, &outline, 4.0, rising, Stroke::HAIR);
        let lines = lines(&page);
        // The levels run over 40 + 20 points, a line every 4 times the root of 2: ten or eleven.
        assert!((10..=11).contains(&lines.len()), "{}", lines.len());
        for line in lines {
            for (x, y) in [line.from, line.to] {
                assert!((9.999..=50.001).contains(&x) && (9.999..=30.001).contains(&y));
            }
            let (dx, dy) = (line.to.0 - line.from.0, line.to.1 - line.from.1);
            assert!((dx.abs() - dy.abs()).abs() < 1e-9, "45 degrees");
            // Downward is positive: a line that rises to the right has dx and dy of unlike sign.
            assert_eq!(dx * dy < 0.0, rising);
        }
    }
}

#[test]
fn walls_of_a_section_stand_at_the_true_angle() {
    for tilt_deg in [0.0_f64, 30.0, 60.0] {
        let section = Section {
            tilt_deg,
            blind: false,
            entry: Face::Square,
            exit: Face::Square,
            layers: Vec::new(),
            wall_behind: false,
            stub: None,
        };
        let mut page = Page::default();
        section::draw(&mut page, &section, (0.0, 0.0, 100.0, 50.0));
        let walls: Vec<_> = lines(&page)
            .into_iter()
            .filter(|line| line.stroke == Stroke::OUTLINE && line.from.1 != line.to.1)
            .collect();
        assert_eq!(walls.len(), 2);
        for wall in walls {
            let (dx, dy) = (wall.to.0 - wall.from.0, wall.to.1 - wall.from.1);
            let drawn = libm::atan2(dx, dy).to_degrees();
            assert!((drawn - tilt_deg).abs() < 1e-9, "{drawn} for {tilt_deg}");
        }
    }
}

fn texts(page: &Page) -> Vec<(f64, f64, f64, &str)> {
    let texts = page.items.iter().filter_map(|item| match item {
        Item::Text(run) => Some((run.x, run.right(), run.y, run.text.as_str())),
        _ => None,
    });
    texts.collect()
}

fn load(numbers: &str, holes: &[(&str, u32, f64)], left_mm: f64) -> tubes::Load {
    tubes::Load {
        numbers: numbers.to_owned(),
        name: "brass 0.70 x 400".to_owned(),
        outer_mm: 0.7,
        length_mm: 400.0,
        cut_mm: 0.0,
        usable_mm: 300.0,
        left_mm,
        holes: holes
            .iter()
            .map(|(mark, count, wear)| ((*mark).to_owned(), *count, *wear))
            .collect(),
    }
}

/// A tube of 400 mm on 400 points with its ruler: 100 held back, 10 holes of 20 mm wear from the tip.
#[test]
fn a_tube_stands_to_scale_with_a_tick_for_each_hole() {
    let chart = tubes::Chart {
        loads: vec![load("1", &[("A", 10, 20.0)], 100.0)],
        all: 1,
        unit: Unit::Mm,
        form: Form::default(),
    };
    // Wide enough for the name beside the tube: 36 mm of name and 3 mm for the ruler's last figure.
    let beside = (36.0 + 3.0) * 72.0 / 25.4;
    let mut page = Page::default();
    let drawn = tubes::draw(&mut page, &chart, (0.0, 0.0, 400.0 + beside, 150.0));
    assert_eq!(drawn, 1);
    let chuck = 36.0 * 72.0 / 25.4;
    let ticks: Vec<f64> = lines(&page)
        .iter()
        .filter(|line| line.stroke == Stroke::new(0.4, Ink::Text))
        .map(|line| line.from.0 - chuck)
        .collect();
    assert_eq!(ticks.len(), 10);
    for (index, at) in (1..).zip(&ticks) {
        let by_hand = 400.0 - 20.0 * f64::from(index);
        assert!((at - by_hand).abs() < 1e-9, "{at} for {by_hand}");
    }
    let said: Vec<&str> = texts(&page).iter().map(|text| text.3).collect();
    for expected in ["no. 1", "brass 0.70 x 400", "100 mm left", "0", "400"] {
        assert!(said.contains(&expected), "{expected}: {said:?}");
    }
}

/// Whatever the place, nothing of the chart stands outside it, and what doesn't fit is told.
#[test]
fn a_chart_stays_in_its_place() {
    let loads: Vec<tubes::Load> = (1..=12)
        .map(|number| {
            load(
                &number.to_string(),
                &[("A", 40, 5.0), ("BB", 3, 20.0)],
                40.0,
            )
        })
        .collect();
    let chart = tubes::Chart {
        loads,
        all: 12,
        unit: Unit::Inch,
        form: Form::default(),
    };
    for (width, height, fit) in [(145.0, 110.0, 2), (205.0, 110.0, 2), (530.0, 110.0, 3)] {
        let mut page = Page::default();
        let drawn = tubes::draw(&mut page, &chart, (3.0, 5.0, width, height));
        assert_eq!(drawn, fit, "{width} x {height}");
        for (left, right, y, text) in texts(&page) {
            let inside = left >= 2.0 && right <= 3.0 + width && y <= 5.0 + height && y >= 5.0;
            assert!(
                inside,
                "{text} at {left} to {right}, {y} in {width} x {height}"
            );
        }
        for line in lines(&page) {
            for (x, y) in [line.from, line.to] {
                assert!((2.9..=3.1 + width).contains(&x), "{x} in {width}");
                assert!((5.0..=5.0 + height).contains(&y), "{y} in {height}");
            }
        }
    }
    let mut page = Page::default();
    let none = tubes::Chart {
        loads: Vec::new(),
        all: 0,
        unit: Unit::Mm,
        form: Form::default(),
    };
    assert_eq!(tubes::draw(&mut page, &none, (0.0, 0.0, 100.0, 100.0)), 0);
    assert!(page.items.is_empty());
}

/// 10 to 40 with 20 likely, 50 marked, on 104 points: 2 points a unit.
#[test]
fn a_spread_is_a_bar_from_nothing_up() {
    let spread = spread::Spread {
        what: "machine hours".to_owned(),
        band: quillbore_calc::Band {
            p10: 10.0,
            p50: 20.0,
            p90: 40.0,
        },
        said: ["10", "20", "40"].map(str::to_owned),
        marked: Some((50.0, "price 50".to_owned())),
    };
    let mut page = Page::default();
    spread::draw(&mut page, &[spread], (0.0, 0.0, 104.0));
    let upright = |width: f64| -> Vec<f64> {
        let lines = lines(&page).into_iter();
        let lines = lines.filter(|line| line.from.0 == line.to.0);
        let lines = lines.filter(|line| line.stroke.width == width);
        lines.map(|line| line.from.0).collect()
    };
    assert_eq!(upright(1.4), [40.0], "likely");
    assert_eq!(upright(1.0), [100.0], "price");
    let hatched = lines(&page);
    let hatched = hatched.iter().filter(|line| line.stroke.width == 0.3);
    for line in hatched {
        for x in [line.from.0, line.to.0] {
            assert!((19.999..=80.001).contains(&x), "{x}");
        }
    }
    let texts = texts(&page);
    assert_eq!(texts[0].3, "machine hours: 10, likely 20, 40");
    let (left, right, _, said) = texts[1];
    assert_eq!(said, "price 50");
    assert!(left > 0.0 && right <= 104.0 + 1e-9, "{left} to {right}");
}

/// Nothing is drawn of a cost that is nothing, and nothing panics.
#[test]
fn a_spread_of_nothing_has_no_bar() {
    let nothing = spread::Spread {
        what: "labor hours".to_owned(),
        band: quillbore_calc::Band {
            p10: 0.0,
            p50: 0.0,
            p90: 0.0,
        },
        said: ["0", "0", "0"].map(str::to_owned),
        marked: None,
    };
    let mut page = Page::default();
    spread::draw(&mut page, &[nothing], (0.0, 0.0, 104.0));
    assert!(lines(&page).is_empty());
}

fn bounds_of(path: &Path) -> [f64; 4] {
    let points = path.steps.iter().filter_map(|step| match *step {
        Step::Move(x, y) | Step::Line(x, y) => Some((x, y)),
        _ => None,
    });
    points.fold([f64::MAX, f64::MAX, f64::MIN, f64::MIN], |edges, (x, y)| {
        let [left, top, right, bottom] = edges;
        [left.min(x), top.min(y), right.max(x), bottom.max(y)]
    })
}

/// Holes straight down into the top of a plate of 100 x 75 x 40 mm whose zero is a corner of its lower face.
fn plate_map() -> Map {
    let spot = |at_mm: [f64; 3], number| Spot {
        row: RowId(1),
        mark: "A".to_owned(),
        number,
        at_mm,
        out: [0.0, 0.0, 1.0],
        size_mm: 0.8,
        tube: None,
        electrode: None,
    };
    let spots = vec![
        spot([25.0, 15.0, 40.0], 1),
        spot([45.0, 15.0, 40.0], 2),
        spot([25.0, 60.0, 40.0], 3),
    ];
    let mount = Mount::Face {
        up: [0.0, 0.0, 1.0],
        toward: [1.0, 0.0, 0.0],
    };
    Map::new(spots, Some([100.0, 75.0, 40.0]), None, &mount).expect("a map")
}

/// An L whose corner is cut out, as a drawing shows it.
fn l_shape() -> Vec<Vec<[f64; 2]>> {
    let ring = [
        [0.0, 0.0],
        [100.0, 0.0],
        [100.0, 30.0],
        [40.0, 30.0],
        [40.0, 75.0],
        [0.0, 75.0],
    ];
    vec![ring.to_vec()]
}

/// From above the outline of a drawing is drawn with its six corners, from the side what the size takes up.
#[test]
fn the_outline_of_a_drawing_is_drawn_from_above() {
    let paths = |map: &Map| {
        let mut page = Page::default();
        let place = (50.0, 50.0, 500.0, 330.0);
        map::draw(
            &mut page,
            map,
            place,
            &Look::whole(Form::default(), Unit::Mm),
        );
        let paths = page.items.iter().filter_map(|item| match item {
            Item::Path(path) => Some(path.steps.len()),
            _ => None,
        });
        paths.filter(|steps| *steps == 7).count()
    };
    assert_eq!(paths(&plate_map()), 0);
    assert_eq!(paths(&plate_map().with_contour(l_shape())), 1);
    // An outline that the holes are not in is another part's.
    let far: Vec<Vec<[f64; 2]>> = l_shape()
        .iter()
        .map(|ring| ring.iter().map(|[x, y]| [x + 60.0, *y]).collect())
        .collect();
    assert_eq!(paths(&plate_map().with_contour(far)), 0);
    assert!(plate_map().with_contour(Vec::new()).contour.is_empty());
}

/// From above holes 20 mm apart are as far apart as 20 mm of the scale, and the side view stands below.
#[test]
fn a_map_is_to_scale_and_its_views_stand_under_each_other() {
    let map = plate_map();
    let corners = map.outline.map(|outline| outline.corners_mm);
    assert_eq!(corners, Some([[0.0; 3], [100.0, 75.0, 40.0]]));
    let mut page = Page::default();
    let place = (50.0, 50.0, 500.0, 330.0);
    let look = Look::whole(Form::default(), Unit::Mm);
    let high = map::draw(&mut page, &map, place, &look).high;
    assert!(high <= 330.0 + 1e-6, "{high}");
    let texts = page.items.iter().filter_map(|item| match item {
        Item::Text(run) => Some(run),
        _ => None,
    });
    let labels: Vec<_> = texts.collect();
    let at = |text: &str| {
        let found = labels.iter().find(|run| run.text == text);
        found.map_or_else(|| panic!("{text} in {labels:?}"), |run| (run.x, run.y))
    };
    let (one, two, three) = (at("A 1"), at("2"), at("3"));
    // The part itself is drawn twice: 100 by 75 from above, 100 by 40 below it.
    let parts = page.items.iter().filter_map(|item| match item {
        Item::Path(path) if path.steps.len() == 5 && path.fill.is_none() => Some(bounds_of(path)),
        _ => None,
    });
    let parts: Vec<[f64; 4]> = parts.collect();
    let [above, side] = parts.as_slice() else {
        panic!("{parts:?}")
    };
    let scale = (above[2] - above[0]) / 100.0;
    assert!(((above[3] - above[1]) / scale - 75.0).abs() < 1e-6);
    assert!(((side[3] - side[1]) / scale - 40.0).abs() < 1e-6);
    assert!((above[0] - side[0]).abs() < 1e-6 && side[1] > above[3]);
    assert!(((two.0 - one.0) / scale - 20.0).abs() < 0.01);
    assert!(((one.1 - three.1) / scale - 45.0).abs() < 0.01);
}

/// A part is drawn where its holes begin on it and go into it: of one whose zero lies on its upper face below
/// that, of a round one around its middle, and nowhere where a hole would begin in the air.
#[test]
fn the_part_lies_where_its_holes_go_in() {
    let map = |at_mm: [f64; 3], out: [f64; 3]| {
        let spots = vec![Spot {
            at_mm,
            out,
            ..plate_map().spots[0].clone()
        }];
        let mount = Mount::Lying([0.0, 0.0, 1.0]);
        let map = Map::new(spots, Some([100.0, 100.0, 40.0]), None, &mount).expect("a map");
        map.outline.map(|outline| outline.corners_mm[0])
    };
    let (up, left) = ([0.0, 0.0, 1.0], [-1.0, 0.0, 0.0]);
    assert_eq!(map([30.0, 30.0, 0.0], up), Some([0.0, 0.0, -40.0]));
    assert_eq!(map([-50.0, 0.0, 10.0], left), Some([-50.0, -50.0, 0.0]));
    assert_eq!(map([300.0, 0.0, 0.0], up), None);
    // Round is what holes begin on the curved side of.
    let spots = vec![Spot {
        at_mm: [30.0, -40.0, 10.0],
        out: [0.6, -0.8, 0.0],
        ..plate_map().spots[0].clone()
    }];
    let mount = Mount::Lying([0.0, 0.0, 1.0]);
    let ring = Map::new(spots, Some([100.0, 100.0, 40.0]), Some(8.0), &mount).expect("a map");
    let round = ring
        .outline
        .and_then(|outline| outline.round)
        .expect("round");
    assert_eq!((round.radius_mm, round.inner_mm), (50.0, Some(42.0)));
}

/// What is written on a map of these spots on a plate of 100 by 75 by 40, and what of it was drawn.
fn mapped(spots: Vec<Spot>) -> (Vec<String>, map::Drawn, usize) {
    let mount = Mount::Face {
        up: [0.0, 0.0, 1.0],
        toward: [1.0, 0.0, 0.0],
    };
    let size = Some([100.0, 75.0, 40.0]);
    let drawn = Map::new(spots, size, None, &mount).expect("a map");
    let mut page = Page::default();
    let look = Look::whole(Form::default(), Unit::Mm);
    let shown = map::draw(&mut page, &drawn, (50.0, 50.0, 500.0, 330.0), &look);
    let said = texts(&page).iter().map(|text| text.3.to_owned()).collect();
    (said, shown, page.items.len())
}

fn spot_of(mark: &str, number: u32, at: (f64, f64)) -> Spot {
    Spot {
        mark: mark.to_owned(),
        number,
        at_mm: [at.0, at.1, 40.0],
        ..plate_map().spots[0].clone()
    }
}

/// Holes on one spot are named together, by their number once where it is the same.
#[test]
fn holes_at_one_spot_are_named_together() {
    let at = (20.0, 20.0);
    let far = spot_of("D", 4, (80.0, 60.0));
    let same = ["A", "B", "C", "E"].map(|mark| spot_of(mark, 7, at));
    let (said, shown, _) = mapped(same.into_iter().chain([far.clone()]).collect());
    assert!(
        said.contains(&"A, B, C and 1 more 7".to_owned()),
        "{said:?}"
    );
    assert!(said.contains(&"D 4".to_owned()), "{said:?}");
    assert_eq!((shown.spots.len(), shown.unlabeled), (5, 0));
    let other = vec![spot_of("A", 1, at), spot_of("B", 2, at), far];
    let (said, ..) = mapped(other);
    assert!(said.contains(&"A 1, B 2".to_owned()), "{said:?}");
}

/// Where an electrode begins the map says which; the first one is in the chuck already.
#[test]
fn an_electrode_that_begins_is_named() {
    let mut spots: Vec<Spot> = (1..=3)
        .map(|number| spot_of("A", number, (20.0 * f64::from(number), 30.0)))
        .collect();
    (spots[0].electrode, spots[2].electrode) = (Some(1), Some(2));
    let (said, ..) = mapped(spots);
    assert!(said.contains(&"3: electrode no. 2".to_owned()), "{said:?}");
    assert_eq!(
        said.iter()
            .filter(|text| text.contains("electrode"))
            .count(),
        1
    );
}

/// A field of ten thousand is drawn as dots that can be told apart, and nobody waits for it.
#[test]
fn ten_thousand_holes_are_a_field_of_dots() {
    let spots = (0..10_000_u32).map(|index| {
        let (column, row) = (f64::from(index % 125), f64::from(index / 125));
        spot_of("A", index + 1, (column * 0.8, row * 0.9))
    });
    let (said, shown, items) = mapped(spots.collect());
    assert!(said.contains(&"A 1".to_owned()));
    assert!(shown.unlabeled > 8_000, "{}", shown.unlabeled);
    // A stroke for each in each view, and what is written.
    assert!(items < 22_500, "{items}");
}
