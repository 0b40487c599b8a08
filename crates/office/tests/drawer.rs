//! What lies in the drawer: counted, kept for jobs on the floor, used up by run records.
#![expect(clippy::expect_used, reason = "a helper of tests fails by panic")]

mod common;

use std::sync::Arc;

use common::{Clerk, day, inquiry, key, office_in_memory, to_release};
use quillbore_job::shop::sheet::{ShopColumn as Column, ShopEdit, ShopList, ShopRowAt, apply_shop};
use quillbore_job::{Line, Paper, SlipKind, Unit};
use quillbore_office::Office;
use quillbore_office::drawer::{InDrawer, drawer};

/// The electrode that the job's holes are drilled with.
fn electrode(clerk: &Clerk) -> (String, u32, f64) {
    let shop = clerk.office.shop_on(day());
    let results = quillbore_job::results::results_now(&clerk.job, &shop);
    let lot = results.figures.lot.expect("a lot");
    let used = &lot.electrodes[0];
    let tube = used.tube.of(&shop.tables.tubes).expect("a tube");
    (tube.name.clone(), used.kit, tube.length_mm)
}

fn count(office: &Office, name: &str, count: u32, on: &str) {
    let base = office.look_at_shop().expect("a sheet");
    let edit = ShopEdit::SetCells {
        list: ShopList::Electrodes,
        rows: vec![(
            ShopRowAt::Sample(name.to_owned()),
            vec![
                (Column::InDrawer, count.to_string()),
                (Column::Counted, on.to_owned()),
            ],
        )],
        unit: Unit::Mm,
    };
    let sheet = apply_shop(&base.sheet, &edit).expect("an edit");
    office.save_shop(&base, &sheet).expect("saved");
}

fn lies(office: &Office, name: &str, but: Option<&str>) -> InDrawer {
    let but = but.map(key);
    let all = drawer(&office.shop(), &office.records(), but.as_ref());
    all.get(name).copied().unwrap_or_default()
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
    assert_eq!(lies(&office, &name, None).used, 0);
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
    let short = |clerk: &Clerk| {
        let own = clerk.opened.as_ref().map(|opened| &opened.key);
        let shop = clerk.office.shop_as_taught_for(day(), own);
        let results = quillbore_job::results::results_now(&clerk.job, &shop);
        results
            .notes
            .iter()
            .any(|note| note.code() == "tubes-short")
    };
    let second = inquiry(&office);
    assert!(!short(&second), "nobody keeps any yet");
    first.issue(Paper::Traveler);
    assert!(short(&second), "all are kept for the first");
    assert!(!short(&first), "which keeps them itself");
    let _: &Arc<Office> = &second.office;
}
