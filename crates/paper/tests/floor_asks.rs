//! What somebody on the floor asks of a traveler that nobody explains.

#![expect(
    clippy::expect_used,
    reason = "helpers of the tests stand outside the test functions"
)]

mod common;

use std::path::Path;

use quillbore_calc::tables::Tilts;
use quillbore_job::file::read_job;
use quillbore_job::{Edit, Field, Job, Paper, Shop, Unit, apply};
use quillbore_paper::Sheet;

fn read(path: &str) -> Vec<u8> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    std::fs::read(root.join(path)).unwrap_or_default()
}

fn open(path: &str) -> Job {
    read_job(&read(path)).unwrap_or_default()
}

fn traveler(job: &Job, shop: &Shop) -> String {
    common::printed(job, shop, Sheet::A4, |matter| {
        common::prose(&quillbore_paper::document(Paper::Traveler, &[matter]))
    })
}

fn embedded() -> &'static Shop {
    Shop::embedded().expect("the shop")
}

#[track_caller]
fn tells(text: &str, wanted: &[&str]) {
    for needed in wanted {
        assert!(text.contains(needed), "{needed}\nin\n{text}");
    }
}

fn typed(job: &Job, field: Field, text: &str) -> Job {
    let edit = Edit::SetField {
        field,
        text: text.to_owned(),
        unit: Unit::Mm,
    };
    apply(job, &edit).expect("a field").0
}

/// Every setup has its own lines to sign; of one setup the lines name none.
#[test]
fn every_setup_is_signed_for() {
    let several = traveler(&open("tests/hard-jobs/two-sides.ron"), embedded());
    for setup in 1..=4 {
        tells(
            &several,
            &[
                &format!("Setup {setup}: zeroed; flush and ground proved (who sets up)."),
                &format!("Setup {setup}: first piece measured and approved by who inspects."),
            ],
        );
    }
    assert!(!several.contains("Setup 5: zeroed"));
    let one = traveler(&open("demo-jobs/26-0101.ron"), embedded());
    tells(&one, &["Set up, picked up, zeroed as above"]);
    assert!(!one.contains("Setup 1: zeroed"));
}

/// Where the head tilts, the table's x and y are the clamped part's; where nobody said what tilts, a tilted
/// hole has none.
#[test]
fn the_tables_x_and_y_of_tilted_holes_go_by_what_tilts() {
    let job = open("tests/hard-jobs/two-sides.ron");
    let with = |tilts| {
        let mut shop = embedded().clone();
        for machine in &mut shop.tables.machines {
            machine.tilts = tilts;
        }
        traveler(&job, &shop)
    };
    // C 1 of the hub: at x 30 and y 30 on the face that is up, 30 degrees off; x runs against the part's.
    let head = with(Some(Tilts::Head));
    tells(
        &head,
        &[
            "The head tilts",
            "1 30.000 0.000 30.00 0.00 1 \u{2212}30.000",
        ],
    );
    // 30 cos 30 = 25.981.
    let table = with(Some(Tilts::Table));
    tells(
        &table,
        &[
            "The table tilts",
            "1 30.000 0.000 30.00 0.00 1 \u{2212}25.981",
        ],
    );
    let unsaid = with(None);
    tells(
        &unsaid,
        &[
            "Whether head or table tilts does not stand in the shop's sheet",
            "table x \u{2013}, table y \u{2013}, tilt 30.00",
        ],
    );
}

/// A spare part is begun on and has a box of its own; nobody claims one that is not on record.
#[test]
fn a_spare_part_is_tried_on_first() {
    let job = open("demo-jobs/26-0101.ron");
    tells(
        &traveler(&job, embedded()),
        &[
            "1 spare part for trials.",
            "try on the spare part: a hole or two of every mark",
            "Part drilled: 1 2 3 4 spare",
        ],
    );
    let none = traveler(&typed(&job, Field::Spares, "0"), embedded());
    tells(&none, &["no spare part for trials."]);
    assert!(!none.contains("try on the spare"));
    let unsaid = traveler(&typed(&job, Field::Spares, ""), embedded());
    tells(&unsaid, &["no spare part for trials is on record."]);
}

/// Backing that was put in comes out again, and a wall is told from where the tip is.
#[test]
fn backing_comes_out_and_the_wall_is_told_from_the_surface() {
    let ring = traveler(&open("demo-jobs/26-0101.ron"), embedded());
    // 4.50 deep and 6.00 clear behind, of which the spark bridges 0.07, counted from where the edge of a 0.70
    // electrode touches at 30 degrees: 0.35 tan 30 before the axis.
    tells(&ring, &["Take the backing out", "11.18 10.63 6.00 10.70"]);
    let hub = traveler(&open("tests/hard-jobs/two-sides.ron"), embedded());
    assert!(!hub.contains("Take the backing out"));
}

/// Who drills into a backed bore reads beside the setting that nobody stands before its plug; of the
/// holes of the hard job one alone does.
#[test]
fn a_closed_bore_is_told_of_beside_the_setting() {
    let seat = traveler(&open("tests/hard-jobs/surfaces.ron"), embedded());
    let warned = "hold what closes it: nobody in front of it.";
    assert_eq!(seat.matches(warned).count(), 1);
    let hub = traveler(&open("tests/hard-jobs/two-sides.ron"), embedded());
    assert_eq!(hub.matches(warned).count(), 0);
}

/// A blind hole is accepted once its depth is on record too: a pin tells its size alone.
#[test]
fn a_blind_hole_is_accepted_with_its_depth() {
    let path = "tests/hard-jobs/first-article.ron";
    let with = open(path);
    let text = String::from_utf8(read(path)).unwrap_or_default();
    let lines = text.lines().filter(|line| !line.contains("depth_found"));
    let text: Vec<&str> = lines.collect();
    let without = read_job(text.join("\n").as_bytes()).unwrap_or_default();
    let says = |job: &Job, paper| {
        common::printed(job, embedded(), Sheet::A4, |matter| {
            common::prose(&quillbore_paper::document(paper, &[matter]))
        })
    };
    tells(
        &says(&with, Paper::Inspection),
        &["N01 D 0.69 to 0.71 3.95 to 4.04 4 of 4 0 yes"],
    );
    tells(
        &says(&without, Paper::Inspection),
        &[
            "N01 D 0.69 to 0.71 4 of 4 0 gauge",
            "N01 C 0.68 to 0.71 4 of 4 0 yes",
        ],
    );
    tells(
        &says(&with, Paper::FirstArticle),
        &["4 \u{b1}0.10", "general tolerance", "3.95 to 4.04"],
    );
}

/// Where the tip is looked at on its way, and where that is not needed: by the limit and the setting of each mark.
#[test]
fn the_tip_is_looked_at_where_it_could_pass_its_limit() {
    let ring = open("demo-jobs/26-0101.ron");
    // Set to 11.18, the wall is reached at 10.63.
    let told = traveler(&ring, embedded());
    tells(
        &told,
        &[
            "No sign by a travel of 10.63 mm: draw out, see where the tip is; it goes no further than 6.65 mm.",
        ],
    );
    // Blind, 12.00 + 0.20, from 0.20 before the axis at 30 degrees; the first try is set beyond that.
    let hub = traveler(&open("tests/hard-jobs/two-sides.ron"), embedded());
    tells(&hub, &["First hole: draw out at a travel of 12.40 mm"]);
    assert!(!hub.contains("No sign by a travel"));
    let text = String::from_utf8(read("demo-jobs/26-0101.ron")).unwrap_or_default();
    let far = text.replace("\"behind\": (\"6\", mm)", "\"behind\": (\"30\", mm)");
    assert_ne!(far, text);
    let far = read_job(far.as_bytes()).unwrap_or_default();
    let far = traveler(&far, embedded());
    tells(&far, &["At this setting the tip can't pass its limit."]);
    assert!(!far.contains("No sign by a travel"));
}

/// Halves are seen to meet on one part before the others are turned; where the zero lies is told of each setup.
#[test]
fn one_part_is_drilled_from_both_ends_before_the_others() {
    let hub = traveler(&open("tests/hard-jobs/two-sides.ron"), embedded());
    tells(
        &hub,
        &[
            "the first piece goes through the setups of its holes from both ends (1, 2)",
            "picked up on every part, unless",
            "Setup 1 the part's zero, the large cross, as it lies here: rear right corner; stops are at these two sides; height: upper face",
            "Setup 2 the part's zero, the large cross, as it lies here: rear left corner; stops are at these two sides; height: lower face",
            "Setup 3 the part's zero, the large cross, as it lies here: front right corner",
            // One channel leaves a core in the half.
            "set to 36.04 mm: then draw out and see the tip (a core stands in it), about 20.50 mm, 18.25 mm at least, else go on",
            "2.25 mm of travel further, then stop, pin it",
        ],
    );
    let ring = traveler(&open("demo-jobs/26-0101.ron"), embedded());
    tells(
        &ring,
        &["as it lies here: in the middle; along the index axis: the face that is seen here"],
    );
    assert!(!ring.contains("from both ends"));
}

/// Of many marks what holds for all is told once: each mark has short words, and below stands what they mean.
#[test]
fn many_marks_have_short_words_and_one_explanation() {
    let few = traveler(&open("tests/hard-jobs/two-sides.ron"), embedded());
    assert!(few.contains("Not through at it: draw out") && !few.contains("Else:"));
    let mut job = open("tests/hard-jobs/two-sides.ron");
    let first = job.rows[0].clone();
    job.rows.extend((100..120).map(|id| {
        std::sync::Arc::new(quillbore_job::Row {
            id: quillbore_calc::RowId(id),
            ..quillbore_job::Row::clone(&first)
        })
    }));
    let many = traveler(&job, embedded());
    tells(
        &many,
        &[
            "Through: 2.25 mm. Else: 42.25 mm. Free: 33.97 mm.",
            "First try. Look at 12.40 mm.",
            "Else: not through at the setting: draw out, see the wear, set to that tip plus that wear",
            "Look: on the first hole draw out at that travel",
        ],
    );
    assert!(!many.contains("Not through at it: draw out"));
}
