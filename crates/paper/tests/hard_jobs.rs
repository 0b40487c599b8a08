//! Hard jobs of our own: what is special about each stands on its papers, and no page of any of them
//! is cut, overlapping or silent.

#![expect(
    clippy::expect_used,
    reason = "helpers of the tests stand outside the test functions"
)]

mod common;

use common::{all, hard};
use quillbore_job::{Edit, Field, Job, Language, Paper, Shop, apply};
use quillbore_paper::matter::unprintable::Unprintable;
use quillbore_paper::page::Face;
use quillbore_paper::page::{Item, TextRun, mm};
use quillbore_paper::typeset::look;
use quillbore_paper::words::customer::Words;
use quillbore_paper::{BlankForm, Document, Sheet, blank, shown};

fn says(job: &Job, paper: Paper) -> String {
    let shop = Shop::embedded().expect("the shop");
    common::printed(job, shop, Sheet::A4, |matter| {
        common::prose(&quillbore_paper::document(paper, &[matter]))
    })
}

fn tells(text: &str, wanted: &[&str]) {
    for needed in wanted {
        assert!(text.contains(needed), "{needed}\nin\n{text}");
    }
}

fn run_of(item: &Item) -> Option<&TextRun> {
    match item {
        Item::Text(run) => Some(run),
        _ => None,
    }
}

fn runs(document: &Document) -> Vec<Vec<&TextRun>> {
    let pages = document.pages.iter();
    pages
        .map(|page| page.items.iter().filter_map(run_of).collect())
        .collect()
}

/// Every job in each language.
fn in_each_language() -> Vec<(String, Job, Language)> {
    let mut jobs = Vec::new();
    for (name, job) in all() {
        for &language in Language::ALL {
            let edit = Edit::SetField {
                field: Field::Language,
                text: language.key().to_owned(),
                unit: job.unit,
            };
            let (job, _) = apply(&job, &edit).expect("a language");
            jobs.push((format!("{name} in {}", language.key()), job, language));
        }
    }
    jobs
}

#[test]
fn no_page_is_cut_and_no_text_lies_on_another() {
    let shop = Shop::embedded().expect("the shop");
    for (name, job, _) in in_each_language() {
        for sheet in [Sheet::A4, Sheet::Letter] {
            let papers = Paper::ALL.iter().map(|paper| {
                let set = common::printed(&job, shop, sheet, |matter| {
                    quillbore_paper::document(*paper, &[matter])
                });
                (format!("{paper:?}"), set)
            });
            let blanks = BlankForm::ALL.iter().map(|form| {
                let set = common::printed(&job, shop, sheet, |matter| blank(*form, &matter, None));
                (format!("blank {form:?}"), set)
            });
            for (paper, document) in papers.chain(blanks) {
                let (width, height) = sheet.size();
                for (page, runs) in runs(&document).iter().enumerate() {
                    let told =
                        |run: &TextRun| format!("{name}, {paper}, page {}: {run:?}", page + 1);
                    for run in runs {
                        assert!(run.style.size >= look::LEAST, "{}", told(run));
                        assert!(
                            run.x >= mm(14.9) && run.right() <= width - mm(9.9),
                            "{}",
                            told(run)
                        );
                        assert!(run.y <= height - mm(10.0), "{}", told(run));
                    }
                    // A section's name never stands alone at the foot of a page.
                    let foot = height - mm(21.0);
                    for name in runs.iter().filter(|run| run.style == look::SECTION) {
                        let below = |run: &&TextRun| run.y > name.y + 4.0 && run.y < foot;
                        assert!(runs.iter().any(below), "{} alone", told(name));
                    }
                    for (at, one) in runs.iter().enumerate() {
                        for other in &runs[at + 1..] {
                            let apart = one.right() <= other.x + 0.6
                                || other.right() <= one.x + 0.6
                                || upper(one) >= other.y
                                || upper(other) >= one.y;
                            assert!(apart, "{}\nlies on {}", told(one), told(other));
                        }
                    }
                }
            }
        }
    }
}

#[test]
fn what_the_customer_signs_stands_on_one_page() {
    let shop = Shop::embedded().expect("the shop");
    for (name, job, language) in in_each_language() {
        let words = Words::of(language);
        let (quotation, signature) = (&words.quotation, words.captions.signature);
        for sheet in [Sheet::A4, Sheet::Letter] {
            let document = common::printed(&job, shop, sheet, |matter| {
                quillbore_paper::document(Paper::Quotation, &[matter])
            });
            let page_of = |text: &str| {
                runs(&document)
                    .iter()
                    .position(|page| page.iter().any(|run| run.text == text))
                    .unwrap_or_else(|| panic!("{name}: no {text}"))
            };
            let all: Vec<&str> = runs(&document)
                .iter()
                .flatten()
                .map(|run| run.text.as_str())
                .collect();
            // Nobody signs for a price that isn't there.
            if all.contains(&quotation.not_priced) {
                assert!(!all.contains(&quotation.acceptance), "{name}");
                continue;
            }
            let signed = page_of(quotation.acceptance);
            assert_eq!(signed, page_of(signature), "{name} on {sheet:?}");
            // Nor on a page that says nothing of what is signed.
            let page = &runs(&document)[signed];
            assert!(page.iter().any(|run| run.text == quotation.terms), "{name}");
        }
    }
}

/// Where a run's capitals end, less a hair.
fn upper(run: &TextRun) -> f64 {
    run.y - Face::cap_height(run.style.face, run.style.size) + 0.6
}

#[test]
fn the_floor_sees_no_money_but_what_the_part_is_worth() {
    for (name, job) in all() {
        let text = says(&job, Paper::Traveler);
        let worth = text
            .find("no spare part for trials")
            .or(text.find("for trials"));
        let worth = worth.expect("what the part is worth");
        for (at, _) in text.match_indices("USD") {
            assert!(
                at < worth && worth - at < 160,
                "{name}: {}",
                &text[at - 60..at + 3]
            );
        }
    }
}

#[test]
fn no_price_reaches_the_floor() {
    let job = hard("order-differs");
    let text = says(&job, Paper::Traveler);
    for price in ["pays", "price", "180"] {
        assert!(!text.contains(price), "{price} in {text}");
    }
}

#[test]
fn papers_follow_an_order_that_differs_from_the_sheet() {
    let job = hard("order-differs");
    let traveler = says(&job, Paper::Traveler);
    tells(
        &traveler,
        &[
            "rev D quantity 8 of 12 due 4 Dec 2026",
            "customer's PO PO-4500-88217-0003/REV-D/LINE-10 call-off R-1",
            "The order is for part revision D; planned: C.",
            "No answer yet, mark B: ",
            "Check: This lot has 8 parts; electrodes and times here are worked out for 10 parts.",
            "drawing rev 5",
            "Only mentioned, not here: drawing revision 6 (Ida Fenn, 28 Oct 2026).",
            "Reorder of job 25-0311 – new guide before the first hole",
            "Hold: source inspection, 3 days of notice, notice given on 10 Nov 2026: first vane",
            "Ship with the trays; mark each tray with the PO.",
            "blanket order, called off in parts",
            "first eight to the coater",
            "Vanes come in their own trays",
            "size x, y, z 120 mm × 64 mm × 48 mm wall thickness 3.2 mm mass of one part 6.4 kg",
            "coated; 27 HRC; 0.3 mm, chipped at two hooks; hook of V305 chipped",
            "the drawing measures from the surface (bold)",
        ],
    );
    // The order's number is never broken.
    let shop = Shop::embedded().expect("the shop");
    for &paper in &[
        Paper::Traveler,
        Paper::Confirmation,
        Paper::Receiving,
        Paper::Inspection,
    ] {
        let document = common::printed(&job, shop, Sheet::Letter, |matter| {
            quillbore_paper::document(paper, &[matter])
        });
        let whole = |run: &&TextRun| run.text == "PO-4500-88217-0003/REV-D/LINE-10";
        assert!(runs(&document).iter().flatten().any(whole), "{paper:?}");
    }
}

#[test]
fn a_wall_behind_and_a_blind_bottom_have_their_first_try_and_their_limit() {
    let text = says(&hard("wall-behind"), Paper::Traveler);
    tells(
        &text,
        &[
            "Depths that the first hole decides",
            "First try: setting in Tip never beyond in Clearance behind in",
            "Two steps: each later hole to 80 % of the setting found, measure as above, then what is missing.",
            "Set after the first hole",
            "Clearance behind: 0.020 in.",
            "A loose core could be trapped: take it out, keep it with the part and show it to who inspects.",
            "Backing behind the exit.",
            "Depth as drawn: .500 ±.010.",
            "Entry: cylinder R.5.",
            "Dress the tip before every hole.",
            "the depth of a blind hole is not known any more",
            "Drawing: bottom may be conical",
        ],
    );
    // The numbers are the calculation's, rounded down, and the same in both tables.
    let shop = Shop::embedded().expect("the shop");
    common::printed(&hard("wall-behind"), shop, Sheet::A4, |matter| {
        let plans: Vec<[String; 2]> = matter
            .figures
            .holes
            .iter()
            .filter_map(|hole| hole.depth_plan)
            .map(|plan| {
                [plan.first_try_mm, plan.never_beyond_mm]
                    .map(|mm| shown::at_most(matter.form(), mm, matter.job.unit, 3))
            })
            .collect();
        assert!(plans.len() >= 2, "{plans:?}");
        for [setting, tip] in plans {
            assert!(
                text.matches(&format!("{setting} {tip}")).count() >= 2,
                "{setting} {tip}"
            );
        }
    });
}

#[test]
fn no_kind_of_hole_and_no_load_is_left_out_in_silence() {
    let traveler = says(&hard("thirty-serials"), Paper::Traveler);
    // Through, inclined, blind, and two with a wall behind: each has its section.
    assert_eq!(traveler.matches("° from normal").count(), 5);
    let mut sample = common::plate();
    let lot = sample.figures.lot.as_mut().expect("a lot");
    let load = lot.electrodes[0].plan[0].clone();
    lot.electrodes[0].plan = (0..15)
        .map(|number| quillbore_calc::job_figures::ElectrodeLoad {
            left_mm: f64::from(number),
            times: 1,
            ..load.clone()
        })
        .collect();
    let text = common::prose(&quillbore_paper::traveler(&sample.matter(Sheet::A4)));
    // With the other two kinds of the second tube seventeen, of which twelve are drawn.
    let told = "more lines of the list above are not drawn";
    assert!(text.contains(told), "{text}");
    for number in 1..=15 {
        let line = format!(" {number} setup 1: S1 × 11, S3 × 2 ");
        assert!(text.contains(&line), "{line} in {text}");
    }
}

#[test]
fn what_is_left_of_an_electrode_is_kept_only_where_it_drills_a_whole_hole() {
    // A goes 16.0 from the surface, exit and overtravel in it, and wears 12.4: it takes 28.4.
    let told = |left_mm: f64, dress_every: Option<u32>| {
        let mut sample = common::ring();
        let lot = sample.figures.lot.as_mut().expect("a lot");
        lot.electrodes[0].plan[0].left_mm = left_mm;
        sample.input.rows[0].dress_every = dress_every;
        let text = common::prose(&quillbore_paper::traveler(&sample.matter(Sheet::A4)));
        text.contains("still drills A") && text.matches("still drills A").count() == 2
    };
    assert!(told(28.5, None) && told(28.5, Some(0)));
    assert!(
        !told(28.3, None),
        "longer than its depth and its wear is not enough"
    );
    let dressing = common::ring().tables.start.dressing_mm;
    assert!(!told(28.5, Some(4)), "it is dressed before");
    assert!(told(28.5 + dressing, Some(4)));
}

#[test]
fn dangers_of_every_layer_are_told() {
    let text = says(&hard("layers"), Paper::Traveler);
    tells(
        &text,
        &[
            "Hazard of Beryllium copper C17200: BERYLLIUM in mist and dust; copper and lead",
            "Hazard of Magnesium AZ31B: fines burn and give off hydrogen",
            "Hazard of Unobtainium: not known",
            "Beryllium copper C17200: beryllium in mist or dust can ruin the lungs for life.",
            "Fines of Magnesium AZ31B, Titanium grade 2 burn fiercely",
            "Layers from the entry: 6.00 mm Magnesium AZ31B, then 4.00 mm Titanium grade 2, then 10.00 mm Stainless 316.",
            "NOT BY HAND: more than one person lifts even at best",
            "Beryllium: only with the enclosed bench and the written program.",
        ],
    );
}

#[test]
fn both_sides_have_their_own_directions_and_setups() {
    let text = says(&hard("two-sides"), Paper::Traveler);
    tells(
        &text,
        &[
            // Setup 1: +z up, −x along table x, so −y along table y. Setup 2: −z up, +x along table x, so
            // −y along table y again.
            "Setup 1: the part's +z up, its −x along table x",
            "Mark A: 1.00 ±0.08, 4 locations all at y 15.000, z 0.000, from down 0.00, turn 0.00, setup 1, table y −15.000,",
            "No. x table x 1 20.000 −20.000",
            "Setup 2: the part's −z up, its +x along table x",
            "Mark B: 1.00 ±0.08, 4 locations all at y 45.000, z −40.000, from down 180.00, turn 0.00, setup 2, table y −45.000,",
            "No. x table x 1 20.000 20.000",
            "Mark D: 1.00 ±0.1, 2 locations from the exit all at y 60.000, z −40.000, from down 180.00,",
            "Setup 4: the part's +x up, its +z along table x.",
            "No hole locations are given for F: take them from the drawing.",
            "F (locations from the drawing)",
        ],
    );
}

#[test]
fn of_thirty_serials_each_has_only_what_is_its_own() {
    let job = hard("thirty-serials");
    let record = says(&job, Paper::Inspection);
    for serial in ["SN074", "SN088"] {
        for mark in ["A", "B", "C", "D", "E", "F"] {
            let line = format!("{serial} {mark}");
            assert!(record.contains(&line), "{line}");
        }
    }
    tells(
        &record,
        &[
            "A 0.48 to 0.53 SN071-SN100 20 Oct 2026 Pell",
            "SN074 A 0.49 to 0.52 8 of 8 0 yes Moss, 22 Oct 2026",
            "SN088 A 3: 0.58 1 of 8 1 no step where the electrode broke; Moss, 22 Oct 2026; non-conformance 1: Hole oversize",
            "non-conformance 2: Scratch at the mouth",
            "Checked as far as noted above.",
        ],
    );
    for (once, times) in [
        ("0.48 to 0.53", 1),
        ("0.49 to 0.52", 1),
        ("non-conformance 2:", 2),
    ] {
        assert_eq!(record.matches(once).count(), times, "{once}");
    }
    let certificate = says(&job, Paper::Certificate);
    for inside in ["found at packing", "parts good"] {
        assert!(
            !certificate.contains(inside) && !record.contains(inside),
            "{inside}"
        );
    }
    tells(
        &certificate,
        &[
            "B: size of every hole checked on 30 of 30 parts",
            "A: size of every hole checked on 1 of 30 parts, 1 found not good",
            "C: no check of every hole is on record",
            "inspection record none was issued",
        ],
    );
    assert!(!certificate.contains("Every hole of these parts was checked"));
    tells(
        &says(&job, Paper::Traveler),
        &[
            "pieces 7 to 30: on copies of this page, or on blank pages of the hole inspection record",
            "Last time – from this job's own run (A, 20 Oct 2026): dress after every ten holes",
        ],
    );
}

#[test]
fn a_name_that_cannot_be_printed_is_told_with_its_field() {
    let shop = Shop::embedded().expect("the shop");
    let said = common::printed(&hard("non-latin"), shop, Sheet::A4, |matter| {
        let document = quillbore_paper::document(Paper::Traveler, &[matter]);
        let found = quillbore_paper::matter::unprintable::of(&document, &[matter]);
        found.iter().map(Unprintable::sentence).collect::<Vec<_>>()
    });
    assert_eq!(said.len(), 3, "{said:?}");
    tells(
        &said.join("\n"),
        &[
            "The papers' font lacks characters in “customer”: 東 (U+6771), 雲 (U+96F2),",
            "“notes” has text that runs from right to left, which the papers would print backwards: ל (U+05DC)",
            "The papers' font lacks characters in “hole α, note”: 穴 (U+7A74).",
        ],
    );
    // What isn't printed may hold anything: the label names neither note nor notes.
    let label = common::printed(&hard("non-latin"), shop, Sheet::A4, |matter| {
        let document = quillbore_paper::document(Paper::Label, &[matter]);
        quillbore_paper::matter::unprintable::of(&document, &[matter])
    });
    let fields: Vec<&str> = label
        .iter()
        .map(|one| match one {
            Unprintable::Text { what, .. } => what.as_str(),
            Unprintable::Logo(_) => "logo",
        })
        .collect();
    assert_eq!(fields, ["customer"]);
    for (name, job) in all() {
        if name != "non-latin" {
            for &paper in Paper::ALL {
                let found = common::printed(&job, shop, Sheet::A4, |matter| {
                    let document = quillbore_paper::document(paper, &[matter]);
                    quillbore_paper::matter::unprintable::of(&document, &[matter])
                });
                assert_eq!(found, [], "{name}");
            }
        }
    }
}

/// What one drills by stands on the first page, readable at arm's length. Worked by hand for the nozzle body
/// on "Wren", which holds 75 mm back: hole B is set to 10.85 mm, the tip's 6.25 mm and 4.60 mm used up, so
/// that 85.85 mm are needed, and a rule shows 86.
#[test]
fn the_floors_block_is_on_the_first_page_and_large() {
    let shop = Shop::embedded().expect("the shop");
    let job = all().remove("25-0388").expect("a demo job");
    let document = common::printed(&job, shop, Sheet::A4, |matter| {
        quillbore_paper::document(Paper::Traveler, &[matter])
    });
    let large: Vec<&str> = runs(&document)[0]
        .iter()
        .filter(|run| run.style.size >= 11.0)
        .map(|run| run.text.as_str())
        .collect();
    for wanted in [
        "B",
        "brass 0.50 x 300",
        "guide 0.50",
        "10.85",
        "6.00",
        "1.00",
        "86",
    ] {
        assert!(large.contains(&wanted), "{wanted} in {large:?}");
    }
    // Nothing but the paper's and the job's name is larger than the word that stops.
    let stop = runs(&document)[0]
        .iter()
        .find(|run| run.text == "STOP")
        .expect("it")
        .style
        .size;
    let larger = runs(&document)[0]
        .iter()
        .filter(|run| run.style.size > stop)
        .count();
    assert_eq!(larger, 0);
}

/// Whoever measures by a first article report reads size, limits and unit in one glance.
#[test]
fn a_first_article_report_never_parts_a_size_from_its_limits_and_unit() {
    let shop = Shop::embedded().expect("the shop");
    let mut seen = 0;
    for (name, job, _) in in_each_language() {
        for sheet in [Sheet::A4, Sheet::Letter] {
            let document = common::printed(&job, shop, sheet, |matter| {
                quillbore_paper::document(Paper::FirstArticle, &[matter])
            });
            let runs = runs(&document);
            let sizes = runs.iter().flatten();
            for run in sizes.filter(|run| run.text.contains('\u{2300}')) {
                assert!(run.text.ends_with(job.unit.symbol()), "{name}: {run:?}");
                seen += 1;
            }
        }
    }
    assert!(seen > 60, "{seen}");
}

/// Nothing of any paper is set smaller than can be read on a shop floor.
#[test]
fn no_text_is_under_eight_points() {
    let shop = Shop::embedded().expect("the shop");
    for (name, job, _) in in_each_language() {
        for &paper in Paper::ALL {
            let document = common::printed(&job, shop, Sheet::A4, |matter| {
                quillbore_paper::document(paper, &[matter])
            });
            for run in runs(&document).iter().flatten() {
                assert!(run.style.size >= 8.0 - 1e-9, "{name}, {paper:?}: {run:?}");
            }
        }
    }
}

/// What came in, what is agreed and what the floor needs stand on the receipt; neither it nor the quotation
/// promises limits or pins of a hole that nobody measures.
#[test]
fn broken_tools_have_a_receipt_with_their_range() {
    let job = hard("broken-tools");
    let receipt = says(&job, Paper::ToolReceipt);
    tells(
        &receipt,
        &[
            "Broken tool receipt",
            "M. Orrin, 555 0142",
            "by van on Monday",
            "160 mm x 80 mm x 60 mm",
            "4 kg",
            "M6 tap",
            "high-speed steel",
            "hammer and punch",
            "1/4-20 tap, carbide",
            "assumed",
            "Price from ",
            "If it can't be got out, ",
            "Neither thread nor hole is guaranteed",
            "our liability is limited to 500 ",
            "read and agreed, the work may begin: name, date",
            "each beside the last",
            "first plunge set to, from touching the stub",
            "Find the axis by the hole or thread",
            "Fluid under pressure:",
        ],
    );
    let quotation = says(&job, Paper::Quotation);
    tells(
        &quotation,
        &[
            "Burning out the broken tools below",
            "Tried so far: hammer and punch.",
            "Below the face: 2.00 mm.",
            "the lot may come to ",
            "neither the tool's coming out whole nor the thread",
        ],
    );
    for promised in ["checked by pin", "2.90", "4.717"] {
        assert!(!quotation.contains(promised), "{promised}\nin\n{quotation}");
    }
    let traveler = says(&job, Paper::Traveler);
    tells(&traveler, &["Tried so far: hammer and punch.", "M12 screw"]);
}

/// One broken tool takes one page: on A4 in both languages, on Letter in English.
#[test]
fn the_receipt_of_one_tool_is_one_page() {
    let shop = Shop::embedded().expect("the shop");
    let mut job = hard("broken-tools");
    let edit = Edit::DeleteRows {
        rows: job.rows.iter().skip(1).map(|row| row.id).collect(),
    };
    job = apply(&job, &edit).expect("an edit").0;
    for (sheet, language) in [
        (Sheet::A4, Language::English),
        (Sheet::A4, Language::German),
        (Sheet::Letter, Language::English),
    ] {
        common::printed(&job, shop, sheet, |matter| {
            let matter = quillbore_paper::matter::Matter { language, ..matter };
            let document = quillbore_paper::document(Paper::ToolReceipt, &[matter]);
            assert_eq!(document.pages.len(), 1, "{sheet:?} {language:?}");
        });
    }
}

/// What the customer says of the wire stands on traveler, quotation and inspection record, each hole asks for
/// its proof, and pins only where limits were given.
#[test]
fn start_holes_ask_for_their_wire_and_their_proof() {
    let job = hard("start-holes");
    let traveler = says(&job, Paper::Traveler);
    tells(
        &traveler,
        &[
            "Start hole for wire 0.25 mm. Free exit at least 0.50 mm. Center to profile 1.50 mm. Each hole proved open by: light.",
            "Start hole for wire 0.10 mm.",
            "Each hole proved open by: wire put through.",
            "Inspect: each hole as its row of the hole table says",
            "open: light",
        ],
    );
    assert!(!traveler.contains("a pin in every hole") && !traveler.contains("Plugged holes"));
    let record = says(&job, Paper::Inspection);
    tells(&record, &["open by", "wire put through", "0.400 0.600"]);
    let quotation = says(&job, Paper::Quotation);
    assert!(!quotation.contains("0.750") && quotation.contains("0.600"));
    tells(
        &quotation,
        &[
            "every hole checked as stated with it",
            "Start hole for wire 0.25 mm.",
        ],
    );
}

/// What a part's price comes to for each hole stands beside it where all holes are start holes.
#[test]
fn start_holes_are_priced_by_the_hole() {
    let mut job = hard("start-holes");
    // The third row's wire is too thick for it, and the second lies in the profile: no price with them.
    for _ in 0..2 {
        let last = job.rows.last().expect("a row").id;
        let edit = Edit::DeleteRows { rows: vec![last] };
        (job, _) = apply(&job, &edit).expect("an edit");
    }
    tells(&says(&job, Paper::Quotation), &["for each start hole"]);
    tells(&says(&hard("first-article"), Paper::Quotation), &["Price"]);
    assert!(!says(&hard("first-article"), Paper::Quotation).contains("start hole"));
}

/// Cooling holes: masking stands before the drilling, a line for each hole waits for what is found plugged.
#[test]
fn cooling_holes_are_masked_and_have_lines_for_what_is_plugged() {
    let traveler = says(&hard("cooling-holes"), Paper::Traveler);
    let at = |said: &str| {
        traveler
            .find(said)
            .unwrap_or_else(|| panic!("{said} in {traveler}"))
    };
    assert!(at("Mask: Inner passage filled with wax") < at("First piece: drill"));
    tells(&traveler, &["(6 min a part)"]);
    tells(
        &traveler,
        &[
            "Each hole proved open by: airflow.",
            "Each hole proved open by: pin put through.",
            "Plugged holes",
            "A 19 20",
            "B 1 2 3 4 5 6",
        ],
    );
    assert!(!says(&hard("two-sides"), Paper::Traveler).contains("Plugged holes"));
}
