//! Figures that the estimator overruled: what stands, and what was computed.

use quillbore_calc::finding::{Kind, Level};
use quillbore_calc::job_figures::HoleFigures;
use quillbore_calc::{Figure, RowInput};

use super::shop::*;
use super::{close, figures, first, overruled};

/// What the finding about an overruled figure says: computed and standing.
fn said(found: &HoleFigures, figure: Figure) -> (Option<f64>, f64) {
    let mut about = found
        .findings
        .iter()
        .filter_map(|finding| match finding.kind {
            Kind::Overruled {
                figure: other,
                computed,
                stands,
            } if other == figure => {
                assert_eq!(finding.level, Level::Note);
                Some((computed, stands))
            }
            _ => None,
        });
    let one = about.next().unwrap();
    assert_eq!(about.next(), None);
    one
}

fn row() -> RowInput {
    through(0.8, 20.0)
}

#[test]
fn gap() {
    let plain = figures(&row()).gap_mm.unwrap();
    let figure = Figure::Gap(row().id);
    let found = first(&overruled(&row(), figure, 0.03), &tables());
    let gap = found.gap_mm.unwrap();
    close(gap.p50(), 0.03, 1e-12);
    close(gap.p90 / gap.p10, plain.p90 / plain.p10, 1e-9);
    let (computed, stands) = said(&found, figure);
    close(computed.unwrap(), plain.p50(), 1e-12);
    assert_eq!(stands, 0.03);
    // Size and verdict follow.
    close(found.size_mm.unwrap().upper, 0.7 + 2.0 * gap.p90, 1e-9);
}

#[test]
fn feed() {
    let plain = figures(&row());
    let figure = Figure::Feed(row().id);
    let found = first(&overruled(&row(), figure, 10.0), &tables());
    assert_eq!(found.feed_mm_min, Some(10.0));
    assert_eq!(said(&found, figure), (plain.feed_mm_min, 10.0));
    let ratio = plain.feed_mm_min.unwrap() / 10.0;
    let [before, after] = [&plain, &found].map(|f| f.minutes_in.unwrap().sparking());
    close(after, before * ratio, 1e-9);
}

/// Of a layered hole the feed is that of the first layer; the others keep their proportion.
#[test]
fn feed_of_layers() {
    let row = RowInput {
        layers: layers(&[(CARBIDE, 5.0), (STEEL, 15.0)]),
        ..row()
    };
    let plain = figures(&row);
    let stands = plain.feed_mm_min.unwrap() / 2.0;
    let found = first(&overruled(&row, Figure::Feed(row.id), stands), &tables());
    let [before, after] = [&plain, &found].map(|f| f.minutes_in.unwrap().sparking());
    close(after, 2.0 * before, 1e-9);
}

#[test]
fn wear() {
    let plain = figures(&row());
    let figure = Figure::Wear(row().id);
    let found = first(&overruled(&row(), figure, 5.0), &tables());
    close(found.wear_mm.unwrap(), 5.0, 1e-12);
    close(found.wear_ratio.unwrap(), 0.25, 1e-12);
    let (computed, stands) = said(&found, figure);
    close(computed.unwrap(), plain.wear_mm.unwrap(), 1e-12);
    assert_eq!(stands, 5.0);
    // What was typed is off by the lot (0.27) and the hole (0.15) alone.
    let spread = found.wear_high_mm.unwrap() / found.wear_mm.unwrap();
    close(
        libm::log(spread) / 1.281_551_565_5,
        f64::hypot(0.27, 0.15),
        1e-9,
    );
    assert!(found.reach_one_mm > plain.reach_one_mm);
}

#[test]
fn minutes() {
    let plain = figures(&row());
    let figure = Figure::HoleMinutes(row().id);
    let found = first(&overruled(&row(), figure, 4.0), &tables());
    let (band, before) = (found.minutes.unwrap(), plain.minutes.unwrap());
    close(band.p50, 4.0, 1e-12);
    assert!(band.p90 / band.p50 < before.p90 / before.p50);
    // The parts stay as computed, for the working.
    assert_eq!(found.minutes_in, plain.minutes_in);
    let (computed, stands) = said(&found, figure);
    close(computed.unwrap(), before.p50, 1e-12);
    assert_eq!(stands, 4.0);
}

#[test]
fn electrode() {
    let tables = tables();
    let figure = Figure::Electrode(row().id);
    let found = first(&overruled(&row(), figure, 0.65), &tables);
    assert_eq!(tables.tubes[found.tube.unwrap().at()].outer_mm, 0.65);
    assert_eq!(said(&found, figure), (Some(0.7), 0.65));
    // A size that the shop does not have is a stop, and nothing is made up.
    let none = first(&overruled(&row(), figure, 0.72), &tables);
    assert_eq!((none.tube, none.minutes), (None, None));
    let codes: Vec<_> = none
        .findings
        .iter()
        .map(|f| (f.level, f.kind.code()))
        .collect();
    assert!(codes.contains(&(Level::Stop, "no-tube")), "{codes:?}");
}

/// After a test burn: a size without any known feed gets its minutes from what was overruled.
#[test]
fn after_a_test_burn() {
    let mut tables = tables();
    tables.start.feed_by_diameter = vec![(1.0, 1.0), (2.0, 0.6)];
    let plain = first(&job(vec![row()]), &tables);
    assert_eq!((plain.feed_mm_min, plain.minutes), (None, None));
    assert!(plain.wear_mm.is_some() && plain.gap_mm.is_some());

    let feed = first(&overruled(&row(), Figure::Feed(row().id), 12.0), &tables);
    assert!(feed.minutes.is_some());
    assert_eq!(said(&feed, Figure::Feed(row().id)), (None, 12.0));

    let figure = Figure::HoleMinutes(row().id);
    let minutes = first(&overruled(&row(), figure, 2.5), &tables);
    close(minutes.minutes.unwrap().p50, 2.5, 1e-12);
    assert_eq!(
        (minutes.minutes_in, said(&minutes, figure)),
        (None, (None, 2.5))
    );
}

/// What stands, stands also where nothing can be computed.
#[test]
fn without_a_material() {
    for (figure, value) in [
        (Figure::HoleMinutes(row().id), 2.5),
        (Figure::Wear(row().id), 14.0),
    ] {
        let mut input = overruled(&row(), figure, value);
        input.material = None;
        let found = first(&input, &tables());
        assert_eq!(said(&found, figure), (None, value));
        match figure {
            Figure::Wear(_) => close(found.wear_mm.unwrap(), 14.0, 1e-12),
            _ => close(found.minutes.unwrap().p50, 2.5, 1e-12),
        }
    }
}

/// Another row's overrule, and one that is no figure, change nothing.
#[test]
fn only_its_own() {
    let plain = figures(&row());
    let other = quillbore_calc::RowId(8);
    for (figure, value) in [
        (Figure::Gap(other), 0.01),
        (Figure::HoleMinutes(other), 9.0),
        (Figure::Gap(row().id), f64::NAN),
        (Figure::Wear(row().id), 0.0),
        (Figure::Feed(row().id), -3.0),
        (Figure::HoleMinutes(row().id), f64::INFINITY),
    ] {
        assert_eq!(
            first(&overruled(&row(), figure, value), &tables()),
            plain,
            "{figure:?}"
        );
    }
}
