//! The desk over an office: saved, changed, saved again, opened; a slow shelf never holds it up.

use std::path::Path;
use std::sync::Arc;
use std::sync::mpsc::{Receiver, channel};
use std::time::Duration;

use chrono::NaiveDate;
use quillbore_job::slip::{kind, line};
use quillbore_job::{Column, Edit, Field, Job, Line, Paper, Shop, SlipKind, Unit};
use quillbore_office::Office;
use quillbore_office::clerk::Clerk;
use quillbore_office::clock::{Clock, FixedClock};
use quillbore_office::disk::{Disk, RealDisk};
use quillbore_office::names::JobKey;
use quillbore_office::office::Wanted;
use quillbore_office::places;
use quillbore_office::shelf::memory::Fault;
use quillbore_office::shelf::{Folder, Memory, Shelf as _};
use quillbore_office::worker::Worker;
use quillbore_paper::Sheet;

use super::{Desk, Errand};
use crate::grid::GridAt;

fn day() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 11, 25).expect("a day")
}

fn office(root: &Path) -> Arc<Office> {
    let disk: Arc<dyn Disk> = Arc::new(RealDisk::default());
    let folder = Arc::new(Folder::new(Arc::clone(&disk), root, None));
    folder
        .adopt(&places::new_mark().expect("a mark"))
        .expect("a shelf");
    let shop = Shop::embedded().expect("the shop").clone();
    Arc::new(Office::over(folder, disk, Arc::new(shop)))
}

fn desk(office: &Arc<Office>) -> Desk {
    Desk::at_once(Arc::clone(office), Arc::new(FixedClock(day())))
}

fn open(desk: &mut Desk, office: &Office, name: &str) {
    let wanted = Wanted::Key(JobKey::new(name).expect("a name"));
    desk.take_opened(office.open(&wanted, "tests", &[]).expect("it opens"));
}

fn customer(desk: &mut Desk, text: &str) {
    let edit = Edit::SetField {
        field: Field::Customer,
        text: text.to_owned(),
        unit: Unit::Mm,
    };
    desk.edit(&edit, GridAt::default(), GridAt::default());
}

/// An inquiry that can be quoted.
fn inquiry(desk: &mut Desk, customer: &str) {
    for (field, text) in [
        (Field::Customer, customer),
        (Field::Material, "Stainless 316"),
        (Field::Machine, "Wren"),
        (Field::Quantity, "12"),
    ] {
        let edit = Edit::SetField {
            field,
            text: text.to_owned(),
            unit: Unit::Mm,
        };
        desk.edit(&edit, GridAt::default(), GridAt::default());
    }
    let cells = ["A", "6", "0.8 +-0.05", "12"].map(|text| Some(text.to_owned()));
    let holes = Edit::SetCells {
        at: quillbore_job::CellAt {
            row: 0,
            column: Column::Mark,
        },
        rows: vec![cells.to_vec()],
        unit: Unit::Mm,
    };
    desk.edit(&holes, GridAt::default(), GridAt::default());
}

fn issue(desk: &mut Desk) {
    desk.wants(Errand::Issue {
        paper: Paper::Quotation,
        sheet: Sheet::A4,
        others: Vec::new(),
    });
}

#[test]
fn a_job_is_saved_changed_saved_again_and_opened() {
    let folder = tempfile::tempdir().expect("a folder");
    let office = office(folder.path());
    let mut desk = desk(&office);
    customer(&mut desk, "Alder");
    assert!(desk.history.is_dirty() && desk.opened.is_none());
    desk.wants(Errand::SaveAs(folder.path().join("26-0001")));
    assert!(!desk.history.is_dirty(), "{}", desk.notice);
    assert_eq!(desk.job().number, "26-0001");
    customer(&mut desk, "Finch");
    desk.save();
    assert!(!desk.history.is_dirty(), "{}", desk.notice);
    desk.put(Job::default());
    assert_eq!(desk.job().text(Field::Customer), "");
    open(&mut desk, &office, "26-0001");
    assert_eq!(desk.job().text(Field::Customer), "Finch");
}

#[test]
fn a_job_that_another_desk_changed_is_not_overwritten() {
    let folder = tempfile::tempdir().expect("a folder");
    let office = office(folder.path());
    let (mut ours, mut theirs) = (desk(&office), desk(&office));
    customer(&mut ours, "ours");
    ours.save();
    open(&mut theirs, &office, "26-0101");
    customer(&mut theirs, "theirs");
    theirs.save();
    customer(&mut ours, "ours again");
    ours.save();
    assert!(ours.changed_elsewhere && ours.history.is_dirty());
    assert!(ours.notice.contains("Somebody saved"), "{}", ours.notice);
    ours.wants(Errand::SaveAs(folder.path().join("26-0101.ron")));
    assert!(ours.history.is_dirty(), "nor by another way");
    ours.save_as_next();
    assert!(!ours.history.is_dirty(), "{}", ours.notice);
    assert_eq!(ours.job().number, "26-0102");
    open(&mut theirs, &office, "26-0101");
    assert_eq!(theirs.job().text(Field::Customer), "theirs");
}

/// A desk whose clerk works on a thread of its own, and what the clerk wakes.
fn desk_with_a_thread(office: &Arc<Office>) -> (Desk, Receiver<()>) {
    let (wake, woken) = channel();
    let clerk = Clerk::on_thread(Arc::clone(office), move || {
        let _ = wake.send(());
    });
    let clock = Arc::new(FixedClock(day()));
    let desk = Desk::new(Arc::clone(office), clock, clerk, Worker::at_once());
    (desk, woken)
}

/// Waits until nothing is under way.
fn settle(desk: &mut Desk, woken: &Receiver<()>) {
    while desk.is_busy() {
        woken
            .recv_timeout(Duration::from_secs(60))
            .expect("the clerk goes on");
        desk.poll();
    }
}

#[test]
fn what_is_typed_while_a_slow_shelf_saves_is_neither_lost_nor_called_saved() {
    let folder = tempfile::tempdir().expect("a folder");
    let office = office(folder.path());
    let (mut desk, woken) = desk_with_a_thread(&office);
    customer(&mut desk, "Alder");
    desk.save();
    desk.save();
    customer(&mut desk, "Alder Finch");
    settle(&mut desk, &woken);
    // The second save saves what was typed meanwhile, or nothing was typed since.
    let saved = office.job_numbered("26-0101").expect("it is on the shelf");
    assert_eq!(desk.job().text(Field::Customer), "Alder Finch");
    let same = saved.text(Field::Customer) == "Alder Finch";
    assert_eq!(same, !desk.history.is_dirty());
    assert_eq!(desk.job().number, "26-0101");
    let numbers = office.shelf.highest_number(26);
    assert_eq!(numbers, Ok(Some(101)), "saving twice makes one job");
}

/// Whatever the shelf does first: a paper says what the sheet said when it was pressed for, or there is
/// none, and pressing twice makes one.
#[test]
fn a_paper_is_issued_as_it_was_pressed_for_and_once() {
    for saves_first in [false, true] {
        let folder = tempfile::tempdir().expect("a folder");
        let office = office(folder.path());
        let (mut desk, woken) = desk_with_a_thread(&office);
        inquiry(&mut desk, "Grove Pump Works");
        if saves_first {
            desk.save();
        }
        issue(&mut desk);
        // Unless it is done already.
        if desk.is_busy() {
            issue(&mut desk);
            let said = desk.notice.contains("still being issued");
            assert!(said, "{}", desk.notice);
        }
        customer(&mut desk, "Dunmoor Hydraulics");
        settle(&mut desk, &woken);
        let issued = &desk.job().issued;
        match issued.as_slice() {
            [] => assert!(desk.notice.starts_with("Not issued"), "{}", desk.notice),
            [_] => {
                let stored = office.job_numbered("26-0101").expect("it is on the shelf");
                assert_eq!(stored.text(Field::Customer), "Grove Pump Works");
                assert_eq!(stored.issued.len(), 1);
            }
            more => panic!("{}", more.len()),
        }
        assert_eq!(desk.job().text(Field::Customer), "Dunmoor Hydraulics");
    }
}

/// A clock that a test moves.
#[derive(Debug)]
struct Moved(std::sync::Mutex<NaiveDate>);

impl Clock for Moved {
    fn today(&self) -> NaiveDate {
        *self.0.lock().expect("a day")
    }
}

#[test]
fn after_midnight_it_is_another_day_with_its_own_rates() {
    let folder = tempfile::tempdir().expect("a folder");
    // The shop's second rate card of the year is valid from July.
    let june = NaiveDate::from_ymd_opt(2026, 6, 30).expect("a day");
    let clock = Arc::new(Moved(std::sync::Mutex::new(june)));
    let mut desk = Desk::at_once(office(folder.path()), clock.clone());
    let before = desk.shop.tables.rates.labor_per_hour;
    let july = june.succ_opt().expect("a day");
    *clock.0.lock().expect("a day") = july;
    desk.poll();
    assert_eq!(desk.day, july);
    assert!(
        desk.shop.tables.rates.labor_per_hour > before,
        "the new card counts"
    );
}

fn withdraw(desk: &mut Desk) {
    let slip = Edit::AddSlip {
        kind: SlipKind::Withdrawal,
        lines: vec![(Line::Paper, "26-0101-q1".to_owned())],
        unit: Unit::Mm,
    };
    desk.edit(&slip, GridAt::default(), GridAt::default());
}

#[test]
fn a_withdrawal_undone_after_it_was_saved_leaves_a_trace() {
    let folder = tempfile::tempdir().expect("a folder");
    let office = office(folder.path());
    let mut desk = desk(&office);
    inquiry(&mut desk, "Grove Pump Works");
    issue(&mut desk);
    assert_eq!(desk.job().issued.len(), 1, "{}", desk.notice);
    withdraw(&mut desk);
    desk.undo();
    desk.save();
    assert!(desk.job().slips.is_empty(), "nobody has read of it");
    withdraw(&mut desk);
    desk.save();
    desk.undo();
    assert!(desk.job().slips.is_empty());
    desk.save();
    assert!(!desk.history.is_dirty(), "{}", desk.notice);
    open(&mut desk, &office, "26-0101");
    let slip = desk.job().slips_of::<kind::Withdrawal>().next();
    let slip = slip.expect("the trace");
    assert!(slip.get(line::StandsAgain).contains("undone"));
    assert!(!desk.job().is_withdrawn(&desk.job().issued[0]));
}

#[test]
fn a_paper_is_not_issued_by_a_shop_that_another_desk_changed_since_it_was_seen() {
    use quillbore_job::shop::sheet::{
        ShopColumn, ShopEdit, ShopLine, ShopList, ShopRowAt, apply_shop,
    };

    let folder = tempfile::tempdir().expect("a folder");
    let (here, there) = (office(folder.path()), office(folder.path()));
    let mut desk = desk(&here);
    inquiry(&mut desk, "Alder");
    desk.save();
    let each = |desk: &Desk| {
        let price = desk.results().figures.price.as_ref().expect("a price");
        price.breaks[0].each
    };
    let before = each(&desk);
    let base = there.look_at_shop().expect("the sheet");
    let rates = [
        (ShopColumn::ValidFrom, "2026-01-01"),
        (ShopColumn::LaborHour, "155"),
    ];
    let edit = ShopEdit::SetCells {
        list: ShopList::Rates,
        rows: vec![(
            ShopRowAt::New,
            rates.map(|(of, text)| (of, text.to_owned())).to_vec(),
        )],
        unit: Unit::Mm,
    };
    let mut sheet = apply_shop(&base.sheet, &edit).expect("an edit");
    for (line, text) in [
        (ShopLine::Name, "Heron Bore"),
        (ShopLine::Address, "2 Reed Bank"),
        (ShopLine::Currency, "CHF"),
    ] {
        let edit = ShopEdit::SetLine {
            line,
            text: text.to_owned(),
            unit: Unit::Mm,
        };
        sheet = apply_shop(&sheet, &edit).expect("an edit");
    }
    there.save_shop(&base, &sheet).expect("saved");
    issue(&mut desk);
    assert!(desk.job().issued.is_empty(), "{}", desk.notice);
    let said = "Not issued: another desk changed the shop";
    assert!(desk.notice.starts_with(said), "{}", desk.notice);
    assert!(!desk.changed_elsewhere && !desk.history.is_dirty());
    let now = each(&desk);
    assert_ne!(now, before, "it is reckoned anew");
    issue(&mut desk);
    let [issued] = desk.job().issued.as_slice() else {
        panic!("{}", desk.notice)
    };
    assert_eq!(issued.lines[0].each, Some(now));
}

#[test]
fn a_paper_waits_until_the_run_records_are_read_and_then_for_a_look() {
    let shelf = || Arc::new(Memory::marked(places::new_mark().expect("a mark")));
    // The records come from a shelf that is away, the job goes to one that is there.
    let (jobs, records) = (shelf(), shelf());
    let mut office = Office::new(
        jobs,
        None,
        Arc::new(RealDisk::default()),
        Arc::new(Shop::embedded().expect("the shop").clone()),
    );
    office.teaches = records.clone();
    records.break_at(0, Fault::Gone);
    let mut desk = Desk::at_once(Arc::new(office), Arc::new(FixedClock(day())));
    desk.poll();
    assert!(desk.notice.contains("run records"), "{}", desk.notice);
    inquiry(&mut desk, "Grove Pump Works");
    desk.save();
    desk.poll();
    issue(&mut desk);
    assert_eq!(desk.job().issued.len(), 0);
    assert!(
        desk.notice.starts_with("Not issued, since"),
        "{}",
        desk.notice
    );
    assert!(
        desk.notice.contains("not there any more"),
        "{}",
        desk.notice
    );
    // They are back, and were not looked at since.
    records.mend();
    issue(&mut desk);
    assert_eq!(desk.job().issued.len(), 0);
    assert!(
        desk.notice.starts_with("Not issued: these figures"),
        "{}",
        desk.notice
    );
    issue(&mut desk);
    assert_eq!(desk.job().issued.len(), 1, "{}", desk.notice);
}
