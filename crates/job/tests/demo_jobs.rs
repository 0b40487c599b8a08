//! The demo jobs: whole, priced, and of customers that are nobody's, least of all the shop's own.

#![expect(clippy::unwrap_used, reason = "a helper that fails is a failed test")]

#[path = "hands/notes.rs"]
mod notes_told;

use notes_told::said;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use quillbore_calc::finding::Level;
use quillbore_job::file::{read_job, write_job};
use quillbore_job::results::results_now;
use quillbore_job::{Field, Job, Shop};

fn shop() -> &'static Shop {
    Shop::embedded().unwrap()
}

/// Every demo job by its number, with its file's text.
fn demo_jobs() -> BTreeMap<String, (Job, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../demo-jobs");
    let files = std::fs::read_dir(folder).unwrap();
    let jobs = files.map(|entry| {
        let path = entry.unwrap().path();
        let text = std::fs::read_to_string(&path).unwrap();
        let job = read_job(text.as_bytes()).unwrap();
        let stem = path.file_stem().unwrap().to_string_lossy().into_owned();
        assert_eq!(job.number, stem);
        (stem, (job, text))
    });
    jobs.collect()
}

#[test]
fn they_stand_in_the_newest_format_as_it_is_written() {
    let jobs = demo_jobs();
    assert_eq!(jobs.len(), 10);
    for (number, (job, text)) in jobs {
        assert_eq!(write_job(&job), text, "{number}");
    }
}

#[test]
fn nothing_that_an_estimator_asks_for_is_missing() {
    for (number, (job, _)) in demo_jobs() {
        for field in [
            Field::Customer,
            Field::Contact,
            Field::Part,
            Field::PartName,
            Field::Revision,
            Field::Drawing,
            Field::DrawingRevision,
            Field::Material,
            Field::Condition,
            Field::SizeX,
            Field::SizeY,
            Field::SizeZ,
            Field::Mass,
            Field::AngleBasis,
            Field::Quantity,
            Field::PartValue,
            Field::Datums,
            Field::Machine,
            Field::LeadDays,
            Field::ValidDays,
        ] {
            assert!(!job.text(field).is_empty(), "{number}: {field:?}");
        }
        let material = shop().material(job.text(Field::Material)).unwrap();
        let own = &shop().tables.materials[material.at()].name;
        assert_eq!(own, job.text(Field::Material), "{number}");
    }
}

/// One of them stops, to show what a stop looks like: its customer asks for limits that no tube
/// holds.
#[test]
fn each_has_a_price_and_one_shows_a_stop() {
    for (number, (job, _)) in demo_jobs() {
        let results = results_now(&job, shop());
        let quantity = job.count(Field::Quantity).unwrap();
        let price = results.figures.price.as_ref().unwrap();
        assert!(
            price.breaks.iter().any(|at| at.quantity == quantity),
            "{number}"
        );
        let bad: Vec<String> = results
            .notes
            .iter()
            .filter(|note| {
                matches!(note.code(), "unread" | "unknown-name") || note.level == Level::Stop
            })
            .map(|note| said(&job, note))
            .collect();
        match number.as_str() {
            "26-0105" => assert!(
                bad.len() == 1 && bad[0].starts_with("Not to be held"),
                "{bad:?}"
            ),
            _ => assert_eq!(bad, Vec::<String>::new(), "{number}"),
        }
    }
}

/// Two of them are of one customer, who comes again.
#[test]
fn the_shop_shares_no_name_with_its_customers() {
    let words = |text: &str| -> BTreeSet<String> {
        let words = text.split(|letter: char| !letter.is_alphanumeric());
        let usual = ["", "4", "and", "works", "shop", "die", "hole", "small"];
        let words = words.map(str::to_lowercase);
        words
            .filter(|word| !usual.contains(&word.as_str()))
            .collect()
    };
    let mut own = words(&shop().name);
    own.extend(shop().address.iter().flat_map(|line| words(line)));
    let mut customers = BTreeSet::new();
    for (number, (job, _)) in demo_jobs() {
        let customer = words(job.text(Field::Customer));
        assert!(!customer.is_empty());
        let shared: Vec<&String> = customer.intersection(&own).collect();
        assert_eq!(shared, [""; 0], "{number}");
        customers.insert(job.text(Field::Customer).to_owned());
    }
    assert_eq!(customers.len(), 6);
}
