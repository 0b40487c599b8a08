//! The traveler: what it says, in which order, and what it leaves blank.

mod common;

use std::collections::BTreeSet;

use quillbore_calc::Idx;
use quillbore_calc::job_figures::{Chance, GuideFigures};
use quillbore_calc::tables::{Hazard, Tube};
use quillbore_job::slip::RUN_COLUMNS;
use quillbore_job::words::runs::head;
use quillbore_job::{Job, Line, SlipKind, Unit};
use quillbore_paper::page::{Document, Item, mm};
use quillbore_paper::pdf::{self, Meta};
use quillbore_paper::typeset::flow::Body;
use quillbore_paper::words::cautions;
use quillbore_paper::{Matter, Sheet, traveler};

fn texts(document: &Document) -> Vec<String> {
    let items = document.pages.iter().flat_map(|page| &page.items);
    items
        .filter_map(|item| match item {
            Item::Text(run) => Some(run.text.clone()),
            _ => None,
        })
        .collect()
}

/// All text in one string, wrapped lines joined again.
fn prose(document: &Document) -> String {
    let text = texts(document).join(" ");
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn its_parts_stand_in_the_order_of_the_work() {
    let order = [
        "Traveler",
        "job",
        "part",
        "rev",
        "quantity",
        "due",
        "customer's PO",
        "STOP",
        "Drill by this",
        "Drawing",
        "Part",
        "Material",
        "Received",
        "Machine",
        "Setup",
        "Kit",
        "Holes",
        "First piece",
        "Stop if \u{2026}",
        "Order, and when to change the electrode",
        "Run record",
        "After",
        "Operations",
        "Inspection",
        "Cautions",
        "Annex: hole locations",
    ];
    for (sample, annex) in [(common::ring(), true), (common::plate(), false)] {
        for sheet in [Sheet::A4, Sheet::Letter] {
            let texts = texts(&traveler(&sample.matter(sheet)));
            let mut at = 0;
            for name in &order[..order.len() - usize::from(!annex)] {
                let found = texts[at..].iter().position(|text| text == name);
                assert!(
                    found.is_some(),
                    "{name} after {:?}",
                    &texts[at.saturating_sub(1)]
                );
                at += found.unwrap_or_default();
            }
        }
    }
}

#[test]
fn what_the_floor_needs_is_all_there() {
    let sample = common::ring();
    let text = prose(&traveler(&sample.matter(Sheet::A4)));
    for needed in [
        "26-0107",
        "4-118",
        "18 Dec 2026",
        "One part is worth 3,400 USD; the shop's liability is limited to 1,000 USD of it; 1 spare part for trials.",
        "Ask before: any rework of a hole",
        "Hold: Test piece of the same heat: hold until it is approved.",
        "AF-4-118-2",
        "Nickel alloy 718",
        "nickel in mist and sludge; chromium in mist and sludge",
        "Barrow",
        "F-31, index plate 36, shelf 4",
        "on 12, off 24, peak 9 A",
        "seal land at 230 mm, ground",
        "wax ring in the groove",
        "brass 0.70 x 400",
        "guide 0.70",
        "0.80 \u{b1}0.05",
        "0.750 0.850",
        "14.00",
        "30.0 60.0",
        "65.0 25.0",
        "28.40 16.00",
        "0.93",
        "A \u{d7} 11, B \u{d7} 2",
        "1\u{2013}8 A \u{d7} 11, B \u{d7} 2 12 too short for this job's holes",
        "9 A \u{d7} 4 131 keep, mark its length: still drills A",
        "Check: Only 6.00 mm free behind the exit",
        "Section the test piece through A 2.",
        "The wall at the seal land turns blue.",
        "more electrode than this (length before less after, dressing left out): A: 19.8 mm (12.4 mm planned)",
        "Drill setup 1: 1,080 holes of A, B in 36 directions; 35 index moves per part;",
        "index axis horizontal, the part's +z along table x; index: the part's side that faces the electrode, 0 at +x, counted toward +y; tilt: at plus the electrode leans toward the part's +z.",
        "B, A in turn of each number, 1 to 540.",
        "flow test of every ring at the customer's",
        "0.04 mm",
        "9 by plan, 2 more if wear is high, 1 spare",
        "Planned minutes, wear and settings rest on start values, not on runs of this shop",
        "One hole: minutes 0.65 to 1.40; electrode used up 12.4 mm, if wear is high 19.8 mm.",
        "Mass not known: weigh the part, or ask, before anybody lifts it.",
        "go to a hospital at once",
        "70 bar (1020 psi)",
    ] {
        assert!(text.contains(needed), "{needed}\nin\n{text}");
    }
}

#[test]
fn the_kit_carries_the_next_sizes_and_the_row_says_how_sure_the_first_one_is() {
    let mut sample = common::ring();
    let next: Vec<Idx<Tube>> = ["brass 0.60 x 300", "brass 0.80 x 400"]
        .into_iter()
        .filter_map(|name| Idx::find(&sample.tables.tubes, |tube| tube.name == name))
        .collect();
    assert_eq!(next.len(), 2, "tubes of the shop");
    let hole = std::sync::Arc::make_mut(&mut sample.figures.holes[0]);
    hole.neighbors = next;
    hole.first_choice = Some(Chance {
        inside: 0.784,
        over: 0.026,
    });
    let text = prose(&traveler(&sample.matter(Sheet::A4)));
    for needed in [
        "For the first piece, if its size is off Take for Guide \
         brass 0.60 x 300 1 A guide 0.60 brass 0.80 x 400 1 A guide 0.80",
        "Chance that the first hole is within its limits: 78 %; too large: 3 %. Once that is measured and \
         corrected, the limits are comfortable.",
    ] {
        assert!(text.contains(needed), "{needed}\nin\n{text}");
    }
}

/// Two guides are told where they are fetched; one is only named.
#[test]
fn the_kit_says_how_many_guides_to_take() {
    for (needed, told) in [(1, "A guide 0.70"), (2, "A 2 x guide 0.70")] {
        let mut sample = common::ring();
        let guide = sample.tables.guide_for(0.7).expect("a guide");
        let lot = sample.figures.lot.as_mut().expect("a lot");
        lot.guides = vec![GuideFigures {
            guide,
            ends: 900,
            needed,
        }];
        let text = prose(&traveler(&sample.matter(Sheet::A4)));
        assert!(text.contains(told), "{told}\nin\n{text}");
    }
}

#[test]
fn inch_jobs_are_in_inches_and_invent_nothing() {
    let sample = common::plate();
    let text = prose(&traveler(&sample.matter(Sheet::Letter)));
    for needed in [
        ".031 +.003/-0 0.03100 0.03400 1.250 through 0.0 90.0",
        // A maximum has no lower limit; what is not chosen is not printed as a figure.
        "1/32 MAX \u{2013} 0.03125 0.500 blind 0.0 90.0 not chosen yet \u{2013} 0.500 \u{2013}",
        "2 electrodes one after another in each hole.",
        "lengths in inches",
        "Value of one part not known: treat as high value; no spare part for trials is on record.",
        "The part is the customer's and can't be bought again here.",
    ] {
        assert!(text.contains(needed), "{needed}\nin\n{text}");
    }
}

#[test]
fn every_hazard_has_a_caution_that_defers_to_local_rules() {
    let check = |hazard: Hazard, needed: &[&str]| {
        let mut sample = common::plate();
        let index = sample.input.material.expect("a material");
        sample.tables.materials[index.at()].hazards = vec![hazard];
        let text = prose(&traveler(&sample.matter(Sheet::A4)));
        assert!(text.contains(cautions::short(hazard)), "{hazard:?}");
        for words in
            needed
                .iter()
                .chain(&["Local codes", "licensed", "high-pressure fluid injection"])
        {
            assert!(text.contains(words), "{hazard:?}: {words}\nin\n{text}");
        }
    };
    check(
        Hazard::BurningFines,
        &["hydrogen", "metal fires", "fire authority"],
    );
    check(Hazard::Nickel, &["Nickel is in mist", "local waste rules"]);
    check(Hazard::Cobalt, &["Cobalt is in mist", "local waste rules"]);
    check(
        Hazard::Chromium,
        &["Chromium is in mist", "local waste rules"],
    );
    check(
        Hazard::CopperLead,
        &["Copper and lead", "local waste rules"],
    );
    check(
        Hazard::Beryllium,
        &["beryllium in mist or dust", "the law asks for"],
    );
}

#[test]
fn the_run_record_leaves_room_for_a_hand() {
    for sample in [common::ring(), common::plate()] {
        for sheet in [Sheet::A4, Sheet::Letter] {
            let document = traveler(&sample.matter(sheet));
            let page = document.pages.iter().find(|page| {
                page.items
                    .iter()
                    .any(|item| matches!(item, Item::Text(run) if run.text == "Run record"))
            });
            let items = page.map(|page| page.items.as_slice()).unwrap_or_default();
            let from = items
                .iter()
                .position(|item| matches!(item, Item::Text(run) if run.text == "Run record"))
                .unwrap_or_default();
            let to = items
                .iter()
                .position(
                    |item| matches!(item, Item::Text(run) if run.text.starts_with("machine hours")),
                )
                .unwrap_or_default();
            let left = Body::of(sheet).left;
            let levels: Vec<f64> = items[from..to]
                .iter()
                .filter_map(|item| match item {
                    Item::Line(line) if (line.from.0 - left).abs() < 1e-6 => Some(line.from.1),
                    _ => None,
                })
                .collect();
            let rows = &levels[1..];
            assert!(rows.len() > 6, "{} rows", rows.len());
            for pair in rows.windows(2) {
                assert!(
                    pair[1] - pair[0] >= mm(7.0),
                    "a row of {} points",
                    pair[1] - pair[0]
                );
            }
        }
    }
}

/// Whoever types a record in finds each blank of the page in the table on the screen, in its order.
#[test]
fn the_blanks_of_the_run_record_are_the_columns_of_its_table() {
    let mut sample = common::ring();
    let texts = [
        "2026-05-04",
        "101-112",
        "A",
        "36",
        "E7",
        "brass 0.70 x 300",
        "41.5",
        "37.5",
        "3.5",
        "12.5",
        "96",
        "241",
        "29",
        "3",
        "11",
        "2",
        "0.79 / 0.81",
        "Moss",
    ];
    let lines: Vec<(Line, &str)> = RUN_COLUMNS
        .iter()
        .zip(texts)
        .map(|(column, text)| (column.line(), text))
        .collect();
    common::pin(&mut sample.job, SlipKind::Run, &lines);
    for sheet in [Sheet::A4, Sheet::Letter] {
        let document = traveler(&sample.matter(sheet));
        let pages = document.pages.iter().map(|page| {
            let texts = page.items.iter().filter_map(|item| match item {
                Item::Text(run) => Some(run.text.as_str()),
                _ => None,
            });
            texts.collect::<Vec<_>>()
        });
        let page = pages
            .into_iter()
            .find(|texts| texts.contains(&"Run record"))
            .expect("a page with the record");
        let from = page
            .iter()
            .position(|text| *text == "Run record")
            .expect("its name");
        let said = page[from..].join(" ");
        // Heads wrap, and units stand between them; each begins behind the one before it.
        let mut at = said.find("Date").expect("the first head");
        for column in &RUN_COLUMNS {
            let head = head(column.line(), Unit::Mm).name();
            for word in head.split(' ') {
                let found = said[at..].to_lowercase().find(word);
                at += found.unwrap_or_else(|| panic!("{word} of {head} in {}", &said[at..]));
            }
        }
        // What was typed stands in its columns, in the same order.
        for (column, text) in RUN_COLUMNS.iter().zip(texts) {
            let printed = if column.line() == Line::Date {
                "4 May 2026"
            } else {
                text
            };
            for word in printed.split(' ') {
                let found = said[at..].find(word);
                at += found
                    .unwrap_or_else(|| panic!("{word} of {:?} in {}", column.line(), &said[at..]));
            }
        }
        let minutes = "from the first touch-off to the last hole";
        assert!(said.contains(minutes), "{said}");
    }
}

#[test]
fn a_thousand_places_go_into_a_compact_annex() {
    let sample = common::ring();
    let full = traveler(&sample.matter(Sheet::A4));
    let text = prose(&full);
    assert!(text.contains(
        "Mark A: 0.80 \u{b1}0.05, 540 locations all at z \u{2212}12.000, from down 60.00"
    ));
    let numbers: BTreeSet<String> = texts(&full)
        .into_iter()
        .filter(|text| text.parse::<u32>().is_ok())
        .collect();
    for number in 1..=540_u32 {
        assert!(numbers.contains(&number.to_string()), "place {number}");
    }
    let short = traveler(&Matter {
        annex: false,
        ..sample.matter(Sheet::A4)
    });
    assert!(short.pages.len() <= 7, "{} pages", short.pages.len());
    let annex = full.pages.len() - short.pages.len();
    // 540 lines of five figures in 8 points.
    assert!(annex <= 6, "{annex} pages of annex");
    assert!(!prose(&short).contains("Annex"));
}

#[test]
fn every_page_is_numbered_framed_and_inside_the_margins() {
    for sample in [common::ring(), common::plate()] {
        for sheet in [Sheet::A4, Sheet::Letter] {
            let document = traveler(&Matter {
                preview: Some("parts not received"),
                ..sample.matter(sheet)
            });
            let of = document.pages.len();
            let (width, height) = sheet.size();
            for (index, page) in document.pages.iter().enumerate() {
                let runs: Vec<_> = page
                    .items
                    .iter()
                    .filter_map(|item| match item {
                        Item::Text(run) => Some(run),
                        _ => None,
                    })
                    .collect();
                for needed in [
                    format!("page {} of {of}", index + 1),
                    format!("{}-T/{}", sample.job.number, index + 1),
                    "PREVIEW  parts not received".to_owned(),
                ] {
                    assert!(runs.iter().any(|run| run.text == needed), "{needed}");
                }
                for run in runs {
                    let inside = run.x >= mm(15.0) - 1e-6
                        && run.right() <= width - mm(10.0) + 1e-6
                        && run.y <= height - mm(10.0);
                    assert!(
                        inside,
                        "page {}: {run:?} ends at {}",
                        index + 1,
                        run.right()
                    );
                }
            }
        }
    }
}

#[test]
fn many_rows_repeat_their_heads() {
    let sample = common::rows(100);
    let document = traveler(&sample.matter(Sheet::Letter));
    let with_head = document
        .pages
        .iter()
        .filter(|page| {
            page.items
                .iter()
                .any(|item| matches!(item, Item::Text(run) if run.text.starts_with("Drawing")))
        })
        .count();
    assert!(with_head >= 3, "{with_head} pages with the heads");
    let marks = texts(&document).iter().filter(|text| *text == "S1").count();
    assert!(marks >= 101, "{marks} marks");
}

#[test]
fn an_empty_job_gives_a_paper_of_blanks() {
    let mut sample = common::plate();
    sample.job = Job::default();
    sample.input.rows.clear();
    sample.input.material = None;
    sample.input.machine = None;
    sample.figures.holes.clear();
    sample.figures.setups.clear();
    sample.figures.lot = None;
    sample.figures.price = None;
    let text = prose(&traveler(&sample.matter(Sheet::A4)));
    assert!(text.contains("The hole table is empty: nothing may be drilled from this paper."));
    assert!(text.contains("the material is not in the shop's list; ask before the first burn"));
}

#[test]
fn a_name_beyond_the_fonts_is_reported_and_the_same_job_gives_the_same_bytes() {
    let mut sample = common::ring();
    sample.issuer.name = "\u{4E2D} Works".to_owned();
    let meta = Meta {
        title: "Traveler 26-0107".to_owned(),
        author: sample.issuer.name.clone(),
        date: common::day(),
    };
    let document = traveler(&sample.matter(Sheet::A4));
    assert_eq!(document.missing(), BTreeSet::from(['\u{4E2D}']));
    let first = pdf::write(&document, &meta).unwrap();
    let again = pdf::write(&traveler(&sample.matter(Sheet::A4)), &meta).unwrap();
    assert!(first == again);
}
