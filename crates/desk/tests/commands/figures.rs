//! Figures on the command line: every promised key.

use quillbore_job::Unit;
use quillbore_job::shop::sheet::{ShopEdit, ShopLine, ShopSheet, apply_shop, write_sheet};

use crate::program::{demo, path, quillbore, said};

#[test]
fn figures_have_every_promised_key_and_null_for_what_is_not_computed() {
    let output = quillbore(&[
        "figures",
        path(&demo("26-0101")),
        "--json",
        "--date",
        "2026-11-25",
    ]);
    assert!(
        matches!(output.status.code(), Some(0 | 1)),
        "{}",
        said(&output)
    );
    let figures: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
    let keys = |value: &serde_json::Value, wanted: &[&str]| {
        let object = value.as_object().expect("an object");
        for key in wanted {
            assert!(
                object.contains_key(*key),
                "{key} is missing in {value:.100}"
            );
        }
    };
    keys(
        &figures,
        &[
            "job",
            "format",
            "material",
            "records_behind",
            "calibrated",
            "holes",
            "setups",
            "lot",
            "price",
            "promise",
            "findings",
        ],
    );
    let hole = &figures["holes"][0];
    keys(
        hole,
        &[
            "mark",
            "places",
            "diameter_mm",
            "depth_mm",
            "tilt_deg",
            "electrode",
            "side_gap_mm",
            "size_mm",
            "verdict",
            "feed_mm_min",
            "minutes",
            "minutes_in",
            "wear_mm",
            "target_depth_mm",
            "reach_one_mm",
            "limit_mm",
            "electrodes_per_hole",
            "ends",
            "flush",
            "push_n",
            "findings",
        ],
    );
    keys(
        &hole["electrode"],
        &[
            "diameter_mm",
            "bore_mm",
            "channels",
            "material",
            "length_mm",
        ],
    );
    keys(&hole["minutes"], &["p10", "p50", "p90"]);
    keys(
        &hole["minutes_in"],
        &[
            "touch_off",
            "entry",
            "full_metal",
            "exit",
            "overtravel",
            "retract",
            "changes",
        ],
    );
    keys(
        &figures["setups"][0],
        &["name", "directions", "holes", "travel_mm", "clamp_n"],
    );
    keys(
        &figures["lot"],
        &[
            "quantity",
            "machine_hours",
            "labor_hours",
            "electrodes",
            "guides",
        ],
    );
    keys(&figures["lot"]["guides"][0], &["name", "ends", "needed"]);
    keys(
        &figures["price"],
        &[
            "currency",
            "offered_quantity",
            "chance_of_loss",
            "breaks",
            "one_off",
        ],
    );
    keys(
        &figures["promise"],
        &[
            "working_days_p50",
            "working_days_p90",
            "date_p50",
            "date_p90",
        ],
    );
    keys(
        &hole["flush"],
        &[
            "pressure_bar",
            "free_ml_min",
            "bottom_ml_min",
            "gap_m_s",
            "regime",
            "debris_share",
            "weak_from_mm",
        ],
    );
    assert!(hole["push_n"].is_number() && figures["price"]["chance_of_loss"].is_null());
    assert_eq!(figures["calibrated"], false);
}

/// A shop's form is that of what is read; what programs read is the same in all.
#[test]
fn lines_follow_the_shops_form_and_json_does_not() {
    let folder = tempfile::tempdir().expect("a folder");
    let said_by = |numbers: &str, dates: &str, json: bool| {
        let mut sheet = ShopSheet::default();
        for (line, text) in [(ShopLine::Numbers, numbers), (ShopLine::Dates, dates)] {
            let edit = ShopEdit::SetLine {
                line,
                text: text.to_owned(),
                unit: Unit::Mm,
            };
            sheet = apply_shop(&sheet, &edit).expect("an edit");
        }
        let shop = folder.path().join("shop.ron");
        std::fs::write(&shop, write_sheet(&sheet)).expect("it is written");
        let job = demo("26-0103");
        let mut words = vec!["figures", path(&job), "--date", "2026-11-25"];
        words.extend(["--shop", path(&shop)]);
        words.extend(json.then_some("--json"));
        let output = quillbore(&words);
        let told = said(&output);
        assert!(matches!(output.status.code(), Some(0 | 1)), "{told}");
        String::from_utf8(output.stdout).expect("text")
    };
    let usual = said_by("1,234.5", "31 Jan 2026", false);
    let other = said_by("1.234,5", "31.01.2026", false);
    assert_ne!(usual, other);
    let swapped = |text: &str| -> String {
        let swap = |sign| match sign {
            ',' => '.',
            '.' => ',',
            sign => sign,
        };
        text.chars().map(swap).collect()
    };
    let lot = usual.lines().find(|line| line.contains(" the lot"));
    let lot = lot.expect("a price").trim();
    let amount = lot.split_whitespace().nth(2).expect("the price each");
    assert!(other.contains(&swapped(amount)), "{amount}: {other}");
    let json = said_by("1,234.5", "31 Jan 2026", true);
    assert_eq!(said_by("1.234,5", "31.01.2026", true), json);
    assert_eq!(said_by("1 234,5", "Jan 31, 2026", true), json);
}
