//! Two desks change the shop's sheet and one job at once: what both did stands, or is told.
#![expect(clippy::expect_used, reason = "a helper of tests fails by panic")]

mod common;

use std::collections::BTreeMap;
use std::sync::Arc;
use std::thread;

use common::{day, office, office_in_memory};
use quillbore_job::merge::Clash;
use quillbore_job::shop::sheet::{
    ShopClash, ShopColumn as Column, ShopEdit, ShopList as List, ShopRowAt as At, ShopSheet,
    apply_shop,
};
use quillbore_job::shop_history::Changing;
use quillbore_job::{Edit, Field, Job, Unit, apply};
use quillbore_office::Office;
use quillbore_office::office::shop::SheetStands;
use quillbore_office::save::{Opened, save};

const ROUNDS: u32 = 1_000;

/// Numbers that come about the same way in every run (splitmix64, public domain).
struct Dice(u64);

impl Dice {
    fn below(&mut self, most: u64) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        (z ^ (z >> 31)) % most
    }
}

/// One desk: what it knows of the shelf, and what it typed in this round.
struct Desk {
    office: Arc<Office>,
    base: SheetStands,
    job: Opened,
}

/// A cell that somebody typed in, by the row's name.
type Typed = BTreeMap<(String, Column), String>;

const MACHINES: [&str; 4] = ["Barrow", "Steeple", "Wren", "Plover"];
const COLUMNS: [Column; 3] = [Column::Stroke, Column::Pressure, Column::PartX];

/// Types into some cells of some machines.
fn typed(sheet: &ShopSheet, dice: &mut Dice, said: &mut Typed) -> ShopSheet {
    let mut sheet = sheet.clone();
    for _ in 0..=dice.below(2) {
        let name = MACHINES[dice.below(4) as usize];
        let column = COLUMNS[dice.below(3) as usize];
        let text = (100 + dice.below(800)).to_string();
        let own = sheet.own(List::Machines).iter().find(|row| {
            row.stands_for.as_deref() == Some(name) || row.cell(Column::Name).text() == name
        });
        let at = match own {
            Some(row) => At::Own(row.id),
            None if name == "Plover" => At::New,
            None => At::Sample(name.to_owned()),
        };
        let mut cells = vec![(column, text.clone())];
        if at == At::New {
            cells.push((Column::Name, name.to_owned()));
        }
        let edit = ShopEdit::SetCells {
            list: List::Machines,
            rows: vec![(at, cells)],
            unit: Unit::Mm,
        };
        sheet = apply_shop(&sheet, &edit).expect("an edit");
        said.insert((name.to_owned(), column), text);
    }
    sheet
}

fn cell<'a>(sheet: &'a ShopSheet, (name, column): &(String, Column)) -> Vec<&'a str> {
    let rows = sheet.own(List::Machines).iter();
    let named = rows.filter(|row| {
        row.stands_for.as_deref() == Some(name) || row.cell(Column::Name).text() == name
    });
    named.map(|row| row.cell(*column).text()).collect()
}

fn play(left: Arc<Office>, right: Arc<Office>, rounds: u32) {
    let key = common::key("26-0001");
    let first = save(&left.shelf, &key, &Arc::new(Job::default()), None).expect("a job");
    let mut desks = [left, right].map(|office| Desk {
        base: office.look_at_shop().expect("a sheet"),
        office,
        job: first.clone(),
    });
    for round in 0..rounds {
        let mut dice = Dice(u64::from(round));
        let mut said = [Typed::new(), Typed::new()];
        let sheets: Vec<ShopSheet> = {
            let pairs = desks.iter().zip(&mut said);
            pairs
                .map(|(desk, said)| typed(&desk.base.sheet, &mut dice, said))
                .collect()
        };
        let notes = [Field::Notes, Field::Contact];
        let both_in_one = dice.below(3) == 0;
        let jobs: Vec<(Field, Job)> = {
            let each = desks.iter().enumerate();
            let typed = each.map(|(at, desk)| {
                let field = notes[if both_in_one { 0 } else { at }];
                let text = format!("round {round} desk {at}");
                let edit = Edit::SetField {
                    field,
                    text,
                    unit: Unit::Mm,
                };
                (field, apply(&desk.job.base, &edit).expect("an edit").0)
            });
            typed.collect()
        };
        // Both save at the same moment.
        let ends: Vec<_> = thread::scope(|scope| {
            let works = desks
                .iter()
                .zip(&sheets)
                .zip(&jobs)
                .map(|((desk, sheet), (_, job))| {
                    scope.spawn(move || {
                        let saved = desk.office.save_shop(&desk.base, sheet).expect("saved");
                        let job = Arc::new(job.clone());
                        let of_job =
                            save(&desk.job.shelf, &desk.job.key, &job, Some(desk.job.version));
                        let (opened, clashes) = match of_job {
                            Ok(opened) => (opened, Vec::new()),
                            Err(error) => {
                                assert!(error.is_changed(), "{error:?}");
                                let merged = desk.office.merge(&job, &desk.job).expect("merged");
                                (merged.saved.expect("saved"), merged.clashes)
                            }
                        };
                        (saved, opened, clashes)
                    })
                });
            let works: Vec<_> = works.collect();
            works
                .into_iter()
                .map(|work| work.join().expect("a desk"))
                .collect()
        });
        let now = desks[0].office.look_at_shop().expect("a sheet");
        let told: Vec<&ShopClash> = ends.iter().flat_map(|(saved, ..)| &saved.clashes).collect();
        for at in [0, 1] {
            for (place, text) in &said[at] {
                let stands = cell(&now.sheet, place);
                let other = said[1 - at].get(place);
                let is_told = |clash: &&ShopClash| matches!(clash, ShopClash::Cell(_, _, column, theirs) if *column == place.1 && theirs.text == *text);
                // New rows of one name both stay; the page tells that a name stands twice.
                assert!(
                    stands.contains(&text.as_str())
                        || (other.is_some() && told.iter().any(is_told)),
                    "round {round}: {place:?} {text} is lost: {stands:?}, {told:?}"
                );
            }
        }
        let stored = now_stored(&desks[0].office, &first);
        for (at, (field, _)) in jobs.iter().enumerate() {
            let text = format!("round {round} desk {at}");
            let is_told = ends.iter().flat_map(|(.., clashes)| clashes).any(|clash| {
                matches!(clash, Clash::Field(of, theirs) if of == field && theirs.text == text)
            });
            let stands = stored.base.text(*field) == text;
            assert!(stands || is_told, "round {round}: {text} is lost");
        }
        for desk in &mut desks {
            desk.base = desk.office.look_at_shop().expect("a sheet");
            desk.job = stored.clone();
        }
    }
}

fn now_stored(office: &Office, opened: &Opened) -> Opened {
    let wanted = quillbore_office::office::Wanted::Key(opened.key.clone());
    office.open(&wanted, "test", &[]).expect("a job").opened
}

#[test]
fn both_desks_edits_stand_or_are_told_1000_rounds() {
    let (left, memory) = office_in_memory();
    let shelf: Arc<dyn quillbore_office::shelf::Shelf> = memory;
    let disk = Arc::clone(&left.disk);
    let right = Arc::new(Office::new(shelf, None, disk, left.shop()));
    play(left, right, ROUNDS);
}

#[test]
fn the_same_over_a_folder() {
    let folder = tempfile::tempdir().expect("a folder");
    let left = office(folder.path());
    let disk = Arc::clone(&left.disk);
    let again = quillbore_office::shelf::Folder::new(Arc::clone(&disk), folder.path(), None);
    let right = Arc::new(Office::over(Arc::new(again), disk, left.shop()));
    play(left, right, 40);
}

/// The shop that everything is figured by is what stands on the shelf, as soon as it was looked at.
#[test]
fn a_saved_sheet_is_the_shop_of_both_desks() {
    let (left, memory) = office_in_memory();
    let shelf: Arc<dyn quillbore_office::shelf::Shelf> = memory;
    let right = Office::new(shelf, None, Arc::clone(&left.disk), left.shop());
    let base = left.look_at_shop().expect("none yet");
    assert!(base.version.is_none());
    let edit = ShopEdit::SetCells {
        list: List::Rates,
        rows: vec![(
            At::New,
            vec![
                (Column::ValidFrom, "2026-01-01".to_owned()),
                (Column::LaborHour, "33".to_owned()),
            ],
        )],
        unit: Unit::Mm,
    };
    let mut history = quillbore_job::shop_history::ShopHistory::new((*base.sheet).clone());
    let who = Changing {
        day: day(),
        by: "left",
    };
    assert_eq!(history.do_edit(&edit, who), Ok(true));
    left.save_shop(&base, history.now()).expect("saved");
    assert_eq!(left.shop_on(day()).tables.rates.labor_per_hour, 33.0);
    assert_eq!(right.shop_on(day()).tables.rates.labor_per_hour, 50.0);
    right.look_at_shop().expect("looked");
    assert_eq!(right.shop_on(day()).tables.rates.labor_per_hour, 33.0);
    // What another version wrote is told, and the shop stays as it was.
    let newer = "(format: 9, unit: mm)";
    let commit = quillbore_office::shelf::Commit::one(
        quillbore_office::shelf::Doc::Shop,
        newer.into(),
        left.look_at_shop().expect("a sheet").version,
    );
    left.shelf.commit(&commit).expect("written");
    let told = right.look_at_shop().expect_err("newer").to_string();
    assert!(told.contains("newer version"), "{told}");
    assert_eq!(right.shop_on(day()).tables.rates.labor_per_hour, 33.0);
    assert!(right.save_shop(&base, history.now()).is_err());
}
