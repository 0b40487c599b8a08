//! The drawings: hatching stays inside, angles are true.

use quillbore_paper::drawing::hatch::hatch;
use quillbore_paper::drawing::section::{self, Section};
use quillbore_paper::page::{Item, Page, StraightLine, Stroke};

fn lines(page: &Page) -> Vec<&StraightLine> {
    page.items
        .iter()
        .filter_map(|item| match item {
            Item::Line(line) => Some(line),
            Item::Text(_) | Item::Path(_) => None,
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
            round: false,
            layers: Vec::new(),
            wall_behind: false,
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
