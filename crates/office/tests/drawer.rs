//! What lies in the drawer: counted, kept for jobs on the floor, used up by run records.
#![expect(clippy::expect_used, reason = "a helper of tests fails by panic")]

mod common;

use std::sync::Arc;

use common::{Clerk, day, inquiry, key, office_in_memory, to_release, with_a_name};
use quillbore_calc::finding::Kind;
use quillbore_calc::job_figures::LotFigures;
use quillbore_job::drawer::Thing;
use quillbore_job::life;
use quillbore_job::results::results_now;
use quillbore_job::shop::sheet::{ShopColumn as Column, ShopEdit, ShopList, ShopRowAt, apply_shop};
use quillbore_job::{Line, Paper, SlipKind, Unit};
use quillbore_office::Office;
use quillbore_office::drawer::{InDrawer, drawer};
use quillbore_office::pool::Pool;
use quillbore_office::today::Short;

/// The electrode that the job's holes are drilled with.
fn electrode(clerk: &Clerk) -> (String, u32, f64) {
    let shop = clerk.office.shop_on(day());
    let lot = lot(clerk);
    let used = &lot.electrodes[0];
    let tube = used.tube.of(&shop.tables.tubes).expect("a tube");
    (tube.name.clone(), used.kit, tube.length_mm)
}

/// Its guide, and how many of it the job takes.
fn guide(clerk: &Clerk) -> (String, u32) {
    let shop = clerk.office.shop_on(day());
    let lot = lot(clerk);
    let used = &lot.guides[0];
    let guide = used.guide.of(&shop.tables.guides).expect("a guide");
    (guide.name.clone(), used.needed)
}

fn lot(clerk: &Clerk) -> LotFigures {
    let shop = clerk.office.shop_on(day());
    results_now(&clerk.job, &shop).figures.lot.expect("a lot")
}

fn count(office: &Office, name: &str, count: u32, on: &str) {
    let cells = [
        (Column::InDrawer, count.to_string()),
        (Column::Counted, on.to_owned()),
    ];
    type_in(office, ShopList::Electrodes, name, &cells);
}

/// A guide lasts 100 holes here.
fn count_guides(office: &Office, name: &str, count: u32) {
    let cells = [
        (Column::InDrawer, count.to_string()),
        (Column::Counted, "2026-11-20".to_owned()),
        (Column::Life, "100".to_owned()),
    ];
    type_in(office, ShopList::Guides, name, &cells);
}

/// Types cells of a row of the samples, or of what stands in its place.
fn type_in(office: &Office, list: ShopList, name: &str, cells: &[(Column, String)]) {
    let base = office.look_at_shop().expect("a sheet");
    let edit = ShopEdit::SetCells {
        list,
        rows: vec![(ShopRowAt::Sample(name.to_owned()), cells.to_vec())],
        unit: Unit::Mm,
    };
    let sheet = apply_shop(&base.sheet, &edit).expect("an edit");
    office
        .save_shop(&base, &with_a_name(&sheet))
        .expect("saved");
}

fn lies(office: &Office, name: &str, but: Option<&str>) -> InDrawer {
    lies_of(office, Thing::Electrode, name, but)
}

fn lies_of(office: &Office, thing: Thing, name: &str, but: Option<&str>) -> InDrawer {
    let but = but.map(key);
    let all = drawer(&office.shop(), &office.records(), but.as_ref());
    all.of(thing, name).cloned().unwrap_or_default()
}

/// The findings of one code, as whoever quotes sees them.
fn told(clerk: &Clerk, code: &str) -> Vec<Kind> {
    let own = clerk.opened.as_ref().map(|opened| &opened.key);
    let shop = clerk.office.shop_as_taught_for(day(), own);
    let findings = results_now(&clerk.job, &shop).figures.findings.into_iter();
    let kinds = findings.map(|finding| finding.kind);
    kinds.filter(|kind| kind.code() == code).collect()
}

#[test]
fn a_kit_is_kept_used_and_given_back() {
    let (office, _) = office_in_memory();
    let mut job = to_release(&office);
    let (name, kit, new_mm) = electrode(&job);
    assert!(kit >= 3, "{kit} of {name}");
    count(&office, &name, kit + 2, "2026-11-20");
    assert_eq!(lies(&office, &name, None).free(), Some(i64::from(kit) + 2));
    job.issue(Paper::Traveler);
    let now = lies(&office, &name, None);
    assert_eq!((now.reserved, now.free()), (kit, Some(2)));
    // Its own kit is not held against it: it may be looked at and released again.
    assert_eq!(
        lies(&office, &name, Some(job.number())).free(),
        Some(i64::from(kit) + 2)
    );
    // One new electrode, the same one again for another stretch, and a piece left of another run.
    let (new, rest) = (new_mm.to_string(), (new_mm / 2.0).to_string());
    for (number, before) in [("1", &new), ("1", &rest), ("2", &rest)] {
        let lines = [
            (Line::Date, "2026-11-24"),
            (Line::ElectrodeNumber, number),
            (Line::TubeBefore, before),
            (Line::Holes, "3"),
        ];
        job.pin(SlipKind::Run, &lines);
    }
    job.save().expect("saved");
    let now = lies(&office, &name, None);
    assert_eq!((now.used, now.reserved), (1, kit - 2));
    // A count after that has it in already.
    count(&office, &name, 9, "2026-11-24");
    // Whether it was there when they were counted nobody knows: they stay kept as long as the job is here.
    let now = lies(&office, &name, None);
    assert_eq!((now.used, now.reserved), (0, kit));
    job.pin(SlipKind::Delivery, &[(Line::Count, "12")]);
    job.save().expect("saved");
    let now = lies(&office, &name, None);
    assert_eq!((now.reserved, now.free()), (0, Some(9)));
}

/// Whoever quotes hears that what lies there is promised to another job already.
#[test]
fn what_is_promised_is_short_for_the_next_job() {
    let (office, _) = office_in_memory();
    let mut first = to_release(&office);
    let (name, kit, _) = electrode(&first);
    count(&office, &name, kit, "2026-11-20");
    let short = |clerk: &Clerk| !told(clerk, "tubes-short").is_empty();
    let second = inquiry(&office);
    assert!(!short(&second), "nobody keeps any yet");
    first.issue(Paper::Traveler);
    assert!(short(&second), "all are kept for the first");
    assert!(!short(&first), "which keeps them itself");
    let _: &Arc<Office> = &second.office;
}

/// Guides are kept from release to delivery, for whoever looks at the shelf anew as well; runs use up
/// none. The lot has 12 parts of 6 holes, 72 in all, and a guide lasts 100: 2 guides do for two such jobs
/// (144 holes), one does not.
#[test]
fn guides_are_kept_until_delivery() {
    let (office, _) = office_in_memory();
    let mut first = to_release(&office);
    let (name, needed) = guide(&first);
    assert_eq!(needed, 1);
    let of = |office: &Office| lies_of(office, Thing::Guide, &name, None);
    let anew = || {
        let mut pool = Pool::new(office.shop());
        pool.look(office.shelf.as_ref()).expect("a look");
        let lies = drawer(&office.shop(), &pool, None);
        lies.of(Thing::Guide, &name).cloned().unwrap_or_default()
    };
    count_guides(&office, &name, 1);
    let second = inquiry(&office);
    assert_eq!(told(&second, "guides-short"), []);
    first.issue(Paper::Traveler);
    let now = of(&office);
    assert_eq!((now.kept_ends, now.reserved, now.free()), (72, 1, Some(0)));
    assert_eq!(anew(), now);
    // Its own are not held against it; the next job hears of it before anything is promised.
    let own = lies_of(&office, Thing::Guide, &name, Some(first.number()));
    assert_eq!((own.kept_ends, own.free()), (0, Some(1)));
    assert_eq!(told(&first, "guides-short"), []);
    let short = told(&second, "guides-short");
    assert!(
        matches!(
            short[..],
            [Kind::GuidesShort {
                needed: 1,
                together: 2,
                stock: 1,
                ..
            }]
        ),
        "{short:?}"
    );
    let run = [(Line::Date, "2026-11-24"), (Line::Holes, "30")];
    first.pin(SlipKind::Run, &run);
    first.save().expect("saved");
    assert_eq!(of(&office), now);
    // It broke, and was counted so: the day's list tells it.
    count_guides(&office, &name, 0);
    let short = drawer(&office.shop(), &office.records(), None).short();
    let expected = Short {
        thing: Thing::Guide,
        name: name.clone(),
        here: 0,
        wanted: 1,
        job: None,
    };
    assert_eq!(short, [expected]);
    first.pin(SlipKind::Delivery, &[(Line::Count, "12")]);
    first.save().expect("saved");
    let now = of(&office);
    assert_eq!((now.reserved, now.used), (0, 0));
    assert_eq!(anew(), now);
}

/// With 400 holes to a guide two such jobs do with one.
#[test]
fn small_jobs_share_a_guide() {
    let (office, _) = office_in_memory();
    let mut first = to_release(&office);
    let (name, _) = guide(&first);
    let cells = [
        (Column::InDrawer, "1".to_owned()),
        (Column::Counted, "2026-11-20".to_owned()),
        (Column::Life, "400".to_owned()),
    ];
    type_in(&office, ShopList::Guides, &name, &cells);
    first.issue(Paper::Traveler);
    let second = inquiry(&office);
    assert_eq!(told(&second, "guides-short"), []);
    let mut next = to_release(&office);
    next.issue(Paper::Traveler);
    let now = lies_of(&office, Thing::Guide, &name, None);
    assert_eq!(
        (now.kept_ends, now.reserved, now.is_short()),
        (144, 1, false)
    );
}

/// Pieces that lie there are told where new ones are short, until a run took them.
#[test]
fn pieces_are_told_until_they_are_taken() {
    let (office, _) = office_in_memory();
    let mut first = to_release(&office);
    let (name, _, new_mm) = electrode(&first);
    let piece = new_mm * 0.8;
    let cells = [
        (Column::InDrawer, "0".to_owned()),
        (Column::Counted, "2026-11-20".to_owned()),
        (Column::Stubs, format!("{piece}; 2 x 20")),
    ];
    type_in(&office, ShopList::Electrodes, &name, &cells);
    let holes = |clerk: &Clerk| -> u32 {
        match &told(clerk, "tubes-short")[..] {
            [Kind::TubesShort { by_stubs, .. }] => by_stubs.iter().map(|(_, holes)| holes).sum(),
            other => panic!("{other:?}"),
        }
    };
    let second = inquiry(&office);
    assert!(holes(&second) > 0);
    let taken = (piece - 2.0).to_string();
    let run = [
        (Line::Date, "2026-11-24"),
        (Line::TubeUsed, name.as_str()),
        (Line::TubeBefore, taken.as_str()),
        (Line::Holes, "1"),
    ];
    first.pin(SlipKind::Run, &run);
    first.save().expect("saved");
    // The scrap of 20 mm is left.
    let now = lies(&office, &name, None);
    assert_eq!((now.used, now.pieces), (0, vec![(2, 20.0)]));
    assert_eq!(holes(&second), 0);
}

/// Parts that are released once more are drilled once: their kit is kept once.
#[test]
fn parts_released_twice_keep_one_kit() {
    let (office, _) = office_in_memory();
    let mut job = to_release(&office);
    let (name, kit, _) = electrode(&job);
    count(&office, &name, 100, "2026-11-20");
    job.issue(Paper::Traveler);
    job.issue(Paper::Traveler);
    assert_eq!(lies(&office, &name, None).reserved, kit);
}

/// Some of the parts take their share of the kit, and no more parts go to the floor than came.
#[test]
fn a_lot_of_its_own_keeps_its_share_and_has_to_be_here() {
    let (office, _) = office_in_memory();
    let mut job = to_release(&office);
    let (name, kit, _) = electrode(&job);
    count(&office, &name, 100, "2026-11-20");
    job.pin(SlipKind::Release, &[(Line::Quantity, "4")]);
    job.issue(Paper::Traveler);
    // 4 of 12.
    assert_eq!(lies(&office, &name, None).reserved, kit.div_ceil(3));
    job.pin(SlipKind::Release, &[(Line::Quantity, "9")]);
    let in_the_way = life::blockers(Paper::Traveler, &job.job, &life::Found::default(), None);
    let more = life::Blocker::MoreThanHere {
        parts: 9,
        here: 12,
        released: 4,
    };
    assert_eq!(in_the_way, [more]);
}
