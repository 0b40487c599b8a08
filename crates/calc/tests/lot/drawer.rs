//! What lies in the drawer held against what a lot takes: electrodes with the pieces left of used ones,
//! guides.

use quillbore_calc::assemble::figures_now;
use quillbore_calc::finding::Kind;
use quillbore_calc::input::{Ends, JobInput, RowId, RowInput};
use quillbore_calc::tables::{Guide, Tables, Tube};
use quillbore_calc::{Idx, JobFigures};

use crate::rows::{job, row};
use crate::shop::tables;

/// A job's guides: ends drilled through each, and guides needed.
fn guides(figures: &JobFigures) -> Vec<(u64, u32)> {
    let lot = figures.lot.as_ref().unwrap();
    let all = lot.guides.iter();
    all.map(|guide| (guide.ends, guide.needed)).collect()
}

/// Guides that are short: of the lot, with jobs on the floor, in the drawer.
fn short_guides(figures: &JobFigures) -> Vec<[u32; 3]> {
    let all = figures.findings.iter();
    all.filter_map(|finding| match finding.kind {
        Kind::GuidesShort {
            guide: _,
            needed,
            together,
            stock,
        } => Some([needed, together, stock]),
        _ => None,
    })
    .collect()
}

/// The shop with so many guides of each size.
fn with_guides(stock: Option<u32>) -> Tables {
    let mut tables = tables();
    for guide in &mut tables.guides {
        guide.stock = stock;
    }
    tables
}

/// A guide of the shop lasts 500 holes.
#[test]
fn a_lot_takes_the_guides_that_its_holes_wear_out() {
    for (parts, holes, expected) in [
        (1, 1, (1, 1)),
        // 1,000 holes are two lives to the hole, 1,002 begin the third.
        (1_000, 1, (1_000, 2)),
        (501, 2, (1_002, 3)),
    ] {
        let input = job(parts, vec![row(1, holes, 0.82, 5.0)]);
        let figures = figures_now(&input, &with_guides(Some(2)));
        assert_eq!(guides(&figures), [expected]);
        let short: &[[u32; 3]] = if expected.1 > 2 { &[[3, 3, 2]] } else { &[] };
        assert_eq!(short_guides(&figures), short);
    }
    // None there is short for one hole; nobody counted is not.
    let one = job(1, vec![row(1, 1, 0.82, 5.0)]);
    let figures = figures_now(&one, &with_guides(Some(0)));
    assert_eq!(short_guides(&figures), [[1, 1, 0]]);
    let figures = figures_now(&one, &with_guides(None));
    assert!(short_guides(&figures).is_empty());
}

/// One hole begins a guide; 400 holes are one's life of 400, 401 begin the second, 1,000 / 400 = 2.5. A
/// life of less than a hole takes a new one in each: 3 / 0.5. Of a life that nobody knows one is sure.
#[test]
fn a_guide_lasts_its_life_and_the_last_one_is_begun() {
    for (ends, life_holes, guides) in [
        (0, 400.0, 0),
        (1, 400.0, 1),
        (400, 400.0, 1),
        (401, 400.0, 2),
        (1_000, 400.0, 3),
        (3, 0.5, 6),
        (1_000, 0.0, 1),
        (u64::MAX, 400.0, u32::MAX),
    ] {
        let guide = Guide {
            life_holes,
            ..tables().guides[0].clone()
        };
        assert_eq!(
            guide.needed_for(ends),
            guides,
            "{ends} ends, life {life_holes}"
        );
    }
}

/// Two small jobs take one guide, one after the other: 20 holes beside 480 of jobs on the floor are its
/// life of 500, beside 481 they begin the next.
#[test]
fn jobs_on_the_floor_share_a_guide_with_the_lot() {
    let input = job(20, vec![row(1, 1, 0.82, 5.0)]);
    for (kept_ends, short) in [(0, vec![]), (480, vec![]), (481, vec![[1, 2, 1]])] {
        let mut tables = with_guides(Some(1));
        for guide in &mut tables.guides {
            guide.kept_ends = kept_ends;
        }
        let figures = figures_now(&input, &tables);
        assert_eq!(
            (guides(&figures), short_guides(&figures)),
            (vec![(20, 1)], short)
        );
    }
}

/// Each end of a hole wears the guide as a hole does: 25 parts, 1 hole, 2 ends.
#[test]
fn both_ends_of_a_hole_wear_the_guide() {
    let both = RowInput {
        ends: Some(Ends::Both),
        ..row(1, 1, 1.12, 200.0)
    };
    let figures = figures_now(&job(25, vec![both]), &with_guides(Some(1)));
    assert_eq!(guides(&figures), [(50, 1)]);
}

/// 250 holes by one electrode and 250 by another of the same diameter are one guide's life, one more
/// begins the second: they are added before they are rounded.
#[test]
fn two_electrodes_of_one_diameter_share_a_guide() {
    let mut tables = with_guides(Some(1));
    let at = Idx::find(&tables.tubes, |tube| tube.outer_mm == 0.7).unwrap();
    let long = Tube {
        name: "brass 0.7 long".into(),
        length_mm: 450.0,
        ..tables.tubes[at.at()].clone()
    };
    tables.tubes.push(long);
    let other = Idx::new(tables.tubes.len() - 1);
    let by = |id, holes, tube| RowInput {
        tube: Some(tube),
        ..row(id, holes, 0.82, 5.0)
    };
    for (more, expected) in [(0, (500, 1)), (1, (501, 2))] {
        let input = job(1, vec![by(1, 250, at), by(2, 250 + more, other)]);
        let figures = figures_now(&input, &tables);
        assert_eq!(figures.lot.as_ref().unwrap().electrodes.len(), 2);
        assert_eq!(guides(&figures), [expected]);
        assert_eq!(short_guides(&figures).len(), more as usize);
    }
}

/// What the finding says of short electrodes: the kit, and what pieces would drill.
fn short(input: &JobInput, stubs: &[(u32, f64)]) -> (u32, Vec<(RowId, u32)>) {
    let mut tables = tables();
    for tube in &mut tables.tubes {
        tube.stock = Some(0);
        tube.stubs = stubs.to_vec();
    }
    let figures = figures_now(input, &tables);
    let mut all = figures.findings.into_iter();
    let found = all.find_map(|finding| match finding.kind {
        Kind::TubesShort { kit, by_stubs, .. } => Some((kit, by_stubs)),
        _ => None,
    });
    found.unwrap()
}

/// The length of a piece that drills so many holes of a row, and half of one more: what chuck, guide
/// and stand-off hold back (100 mm, 8 of them stand-off), how far the tip reaches, and what the kit's
/// wear and dressing take of it.
fn piece_mm(input: &JobInput, holes: f64, dressed_mm: f64) -> f64 {
    let figures = figures_now(input, &tables());
    let hole = &figures.holes[0];
    let lost = hole.wear_high_mm.unwrap() + dressed_mm;
    100.0 + hole.target_depth_mm.unwrap() - 8.0 + (holes + 0.5) * lost
}

#[test]
fn pieces_left_are_told_by_the_holes_that_they_would_drill() {
    let input = job(25, vec![row(1, 1, 0.82, 20.0)]);
    let three = piece_mm(&input, 3.0, 0.0);
    assert!(three < 400.0, "{three}");
    assert_eq!(short(&input, &[(1, three)]).1, [(RowId(1), 3)]);
    assert_eq!(short(&input, &[(2, three)]).1, [(RowId(1), 6)]);
    // Shorter than what is held back, or than the hole is deep: scrap.
    let none = piece_mm(&input, 0.0, 0.0);
    for scrap in [95.0, 100.0, 120.0, none] {
        assert_eq!(short(&input, &[(5, scrap)]).1, [], "{scrap}");
    }
    // All of the lot, and no more than that.
    assert_eq!(short(&input, &[(500, three)]).1, [(RowId(1), 25)]);
    // A through hole needs no dressing; where it is dressed before each, 3 mm more go with each.
    let dressed = RowInput {
        dress_every: Some(1),
        ..row(1, 1, 0.82, 20.0)
    };
    let dressed = job(25, vec![dressed]);
    let three = piece_mm(&dressed, 3.0, 3.0);
    assert_eq!(short(&dressed, &[(1, three)]).1, [(RowId(1), 3)]);
    // A piece longer than a new one is taken for a new one.
    assert_eq!(short(&input, &[(1, 900.0)]), short(&input, &[(1, 400.0)]));
}

#[test]
fn pieces_never_change_plan_or_price() {
    let input = job(25, vec![row(1, 1, 0.82, 20.0), row(2, 4, 0.82, 5.0)]);
    let without = figures_now(&input, &tables());
    let mut tables = tables();
    for tube in &mut tables.tubes {
        tube.stubs = vec![(40, 390.0)];
    }
    // Enough new ones lie there: nothing is said of pieces either.
    assert_eq!(figures_now(&input, &tables), without);
    let (kit, by_stubs) = short(&input, &[(40, 390.0)]);
    assert_eq!(kit, without.lot.unwrap().electrodes[0].kit);
    assert_eq!(by_stubs, [(RowId(1), 25), (RowId(2), 100)]);
}

/// A hole that takes several new electrodes is none for pieces of used ones.
#[test]
fn holes_that_chain_electrodes_are_left_to_new_ones() {
    let deep = row(1, 1, 1.12, 200.0);
    let figures = figures_now(&job(2, vec![deep.clone()]), &tables());
    assert!(figures.holes[0].electrodes_per_hole.unwrap() > 1);
    assert_eq!(short(&job(2, vec![deep]), &[(9, 400.0)]).1, []);
}
