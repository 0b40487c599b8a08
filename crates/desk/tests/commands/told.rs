//! What is told by exit code, by a sentence and by the README.

use std::fs;
use std::path::Path;
use std::process::Output;

use crate::program::{INVENTED_SHOP, demo, path, quillbore, said};

#[test]
fn exit_codes_tell_done_done_with_a_stop_and_could_not() {
    let code = |number| quillbore(&["figures", path(&demo(number))]).status.code();
    assert_eq!(code("26-0102"), Some(0));
    let output = quillbore(&["figures", "no-such-job.ron"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(output.stdout.is_empty() && said(&output).contains("no-such-job.ron"));
    let output = quillbore(&["paperz", "x"]);
    assert_eq!(output.status.code(), Some(2), "{}", said(&output));
    let folder = tempfile::tempdir().expect("a folder");
    let stopped = folder.path().join("26-0001.ron");
    let text = fs::read_to_string(demo("26-0102")).expect("a demo job");
    let deep = text.replacen("\"thickness\": (\"", "\"thickness\": (\"9000", 1);
    assert_ne!(deep, text);
    fs::write(&stopped, deep).expect("written");
    let output = quillbore(&["figures", path(&stopped)]);
    assert_eq!(
        output.status.code(),
        Some(1),
        "a depth that no electrode reaches"
    );
}

#[test]
fn what_cannot_be_printed_is_told_with_its_field_and_exit_code_1() {
    let folder = tempfile::tempdir().expect("a folder");
    let text = fs::read_to_string(demo("26-0102")).expect("a demo job");
    let papers = |customer: &str| {
        let job = folder.path().join("26-0102.ron");
        let named = text.replace("Bramblewick Die Shop", customer);
        assert_ne!(named, text);
        fs::write(&job, named).expect("written");
        let out = folder.path().join("out");
        let words = [
            "papers",
            path(&job),
            "--shop",
            INVENTED_SHOP,
            "--out",
            path(&out),
            "--replace",
        ];
        quillbore(&words)
    };
    for (customer, told) in [
        (
            "\u{6771}\u{96f2} Works",
            "lacks characters in \u{201c}customer\u{201d}: \u{6771} (U+6771), \u{96f2} (U+96F2)",
        ),
        (
            "Works \u{5d0}",
            "\u{201c}customer\u{201d} has text that runs from right to left",
        ),
    ] {
        let output = papers(customer);
        assert_eq!(output.status.code(), Some(1), "{}", said(&output));
        assert!(said(&output).contains(told), "{}", said(&output));
        let paths = String::from_utf8(output.stdout).expect("paths");
        assert_eq!(paths.lines().count(), 2, "they are printed all the same");
    }
    let output = papers("\u{413}\u{440}\u{443}\u{448}\u{430} \u{159}ada \u{3b1}");
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
}

#[test]
fn without_a_display_one_sentence_names_what_works_without_one() {
    if cfg!(any(windows, target_os = "macos")) {
        return;
    }
    let folder = tempfile::tempdir().expect("a folder");
    let output = quillbore(&["--shelf", path(&folder.path().join("shelf"))]);
    assert_eq!(output.status.code(), Some(2));
    let said = said(&output);
    assert!(
        said.contains("no display") && said.contains("quillbore papers"),
        "{said}"
    );
    assert_eq!(said.trim().lines().count(), 1);
}

#[test]
fn papers_say_with_exit_code_1_that_they_are_not_ready_and_why() {
    let folder = tempfile::tempdir().expect("a folder");
    let out = folder.path().join("out");
    let text = fs::read_to_string(demo("26-0102")).expect("a demo job");
    let next = text.find("next_slip: ").map_or(0, |at| {
        let digits: String = text[at + 11..]
            .chars()
            .take_while(char::is_ascii_digit)
            .collect();
        digits.parse().unwrap_or(0)
    });
    assert_eq!(next, 0, "no slips yet in {text}");
    let with_order = |lines: &str| {
        let slip =
            format!("slips: [(id: 0, kind: \"order\", lines: {{{lines}}})], next_slip: 1,\n)");
        let end = text.trim_end().strip_suffix(')').expect("a struct");
        format!("{end}{slip}\n")
    };
    let job = folder.path().join("26-0102.ron");
    let run = |text: &str| {
        fs::write(&job, text).expect("written");
        let words = [
            "papers",
            path(&job),
            "--shop",
            INVENTED_SHOP,
            "--out",
            path(&out),
            "--date",
            "2026-11-25",
        ];
        quillbore(&[words.as_slice(), &["--replace"]].concat())
    };
    let quantity = text.split("\"quantity\": (\"").nth(1).expect("a quantity");
    let quantity = quantity.split('"').next().expect("a quantity");
    // No quotation stands, and nobody accepted that; a price is missing.
    let waiting = run(&with_order(&format!("\"quantity\": (\"{quantity}\", mm)")));
    assert_eq!(waiting.status.code(), Some(1), "{}", said(&waiting));
    for told in [
        "confirmation: not issued: the order differs (quotation)",
        "the order has no price each",
        "traveler: not released: the order differs",
    ] {
        assert!(
            said(&waiting).contains(told),
            "{told} in {}",
            said(&waiting)
        );
    }
    let paths = String::from_utf8_lossy(&waiting.stdout).into_owned();
    assert!(
        paths.lines().all(|line| Path::new(line).is_file()),
        "{paths}"
    );
    let accepted = "\"each\": (\"400\", mm), \"accepted\": (\"Pell, by phone\", mm)";
    let settled = run(&with_order(&format!(
        "\"quantity\": (\"{quantity}\", mm), {accepted}"
    )));
    assert_eq!(settled.status.code(), Some(0), "{}", said(&settled));
}

/// What the README says of options and of JSON keys is what the program has.
#[test]
fn the_readme_names_every_option_and_every_key() {
    let readme = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../README.md");
    let readme = fs::read_to_string(readme).expect("the README");
    let options = |text: &str| -> Vec<String> {
        let words = text.split(|letter: char| !letter.is_ascii_alphanumeric() && letter != '-');
        let mut options: Vec<String> = words
            .filter(|word| word.starts_with("--") && word.len() > 3)
            .map(str::to_owned)
            .collect();
        options.sort_unstable();
        options.dedup();
        options
    };
    let of_cargo = ["--release", "--workspace"];
    let told: Vec<String> = options(&readme)
        .into_iter()
        .filter(|option| !of_cargo.contains(&option.as_str()))
        .collect();
    assert_eq!(told, options(&quillbore_office::commands::usage()));

    fn keys(value: &serde_json::Value, found: &mut Vec<String>) {
        match value {
            serde_json::Value::Object(object) => {
                for (key, value) in object {
                    found.push(key.clone());
                    keys(value, found);
                }
            }
            serde_json::Value::Array(values) => values.iter().for_each(|value| keys(value, found)),
            _ => {}
        }
    }
    let mut found = Vec::new();
    for job in ["25-0388", "26-0101", "26-0104", "26-0105"] {
        let output = quillbore(&["figures", path(&demo(job)), "--json"]);
        let figures = serde_json::from_slice(&output.stdout).expect("JSON");
        keys(&figures, &mut found);
    }
    found.sort_unstable();
    found.dedup();
    assert!(found.len() > 70, "{found:?}");
    for key in found {
        assert!(
            readme.contains(&format!("`{key}`")),
            "{key} is not in the README"
        );
    }
}

/// A margin of 100 % was priced at the rate card's, with exit code 0.
#[test]
fn a_margin_that_cannot_be_had_is_a_stop_and_no_price_comes_of_another() {
    let folder = tempfile::tempdir().expect("a folder");
    let text = fs::read_to_string(demo("26-0102")).expect("a demo job");
    for margin in ["100 %", "-5 %", "abc"] {
        let typed = text.replacen(
            "  fields: {\n",
            &format!("  fields: {{\n    \"margin\": (\"{margin}\", mm),\n"),
            1,
        );
        assert_ne!(typed, text);
        let job = folder.path().join("26-0102.ron");
        fs::write(&job, typed).expect("written");
        let figures = quillbore(&["figures", path(&job), "--json", "--date", "2026-11-25"]);
        assert_eq!(figures.status.code(), Some(1), "{}", said(&figures));
        let json: serde_json::Value = serde_json::from_slice(&figures.stdout).expect("JSON");
        assert!(json["price"].is_null(), "{margin}");
        let stop = json["findings"].as_array().expect("findings").iter();
        let stop = stop.filter(|finding| finding["level"] == "stop");
        let texts: Vec<&str> = stop
            .filter_map(|finding| finding["text"].as_str())
            .collect();
        assert!(texts.iter().any(|text| text.contains(margin)), "{texts:?}");
        let out = folder.path().join("out");
        let words = [
            "papers",
            path(&job),
            "--shop",
            INVENTED_SHOP,
            "--out",
            path(&out),
            "--replace",
        ];
        let papers = quillbore(&words);
        assert_eq!(papers.status.code(), Some(1), "{}", said(&papers));
        assert!(
            said(&papers).contains("there is no price yet"),
            "{}",
            said(&papers)
        );
    }
}

/// A typed shop with a guide that can't be used: standard error says which and why, a line for each, and
/// standard output is the same as without it.
#[test]
fn what_of_the_shop_is_not_used_is_told_beside_the_figures() {
    use quillbore_job::Unit;
    use quillbore_job::shop::sheet::{
        ShopColumn, ShopEdit, ShopList, ShopRowAt, ShopSheet, apply_shop, write_sheet,
    };
    let folder = tempfile::tempdir().expect("a folder");
    let with = |name: &str, cells: &[(ShopColumn, &str)]| {
        let cells = cells
            .iter()
            .map(|(column, text)| (*column, (*text).to_owned()));
        let edit = ShopEdit::SetCells {
            list: ShopList::Guides,
            rows: vec![(ShopRowAt::New, cells.collect())],
            unit: Unit::Mm,
        };
        let sheet = apply_shop(&ShopSheet::default(), &edit).expect("an edit");
        let file = folder.path().join(name);
        fs::write(&file, write_sheet(&sheet)).expect("written");
        file
    };
    // Both sizes are no job's, so that no figure goes by them.
    let good = with("good.ron", &[(ShopColumn::ForElectrode, "9.1")]);
    let bad = [
        (ShopColumn::ForElectrode, "9.1"),
        (ShopColumn::Life, "long"),
    ];
    let bad = with("bad.ron", &bad);
    let job = demo("26-0102");
    for words in [&["figures"][..], &["figures", "--json"]] {
        let run = |shop: &Path| {
            let named = [path(&job), "--shop", path(shop)];
            quillbore(&[words, &named].concat())
        };
        let (with_good, with_bad) = (run(&good), run(&bad));
        assert_eq!(said(&with_good), "");
        let told = said(&with_bad);
        assert_eq!(told.lines().count(), 1, "{told}");
        assert!(told.contains("Guide guide 9.10, life, holes: "), "{told}");
        assert!(
            told.contains("Correct it in ") && told.contains("bad.ron"),
            "{told}"
        );
        assert_eq!(with_good.stdout, with_bad.stdout);
        assert_eq!(with_good.status.code(), with_bad.status.code());
    }
    let out = folder.path().join("out");
    let papers = quillbore(&[
        "papers",
        path(&job),
        "--out",
        path(&out),
        "--shop",
        path(&bad),
    ]);
    assert!(said(&papers).contains("life, holes: "), "{}", said(&papers));
}

/// A job that lies on no shelf is figured by the shop of the shelf that is named.
#[test]
fn a_job_from_elsewhere_goes_by_the_shop_of_the_named_shelf() {
    use quillbore_job::Unit;
    use quillbore_job::shop::sheet::{ShopEdit, ShopLine, ShopSheet, apply_shop, write_sheet};
    let folder = tempfile::tempdir().expect("a folder");
    let edit = ShopEdit::SetLine {
        line: ShopLine::Currency,
        text: "CHF".to_owned(),
        unit: Unit::Mm,
    };
    let sheet = apply_shop(&ShopSheet::default(), &edit).expect("an edit");
    fs::write(folder.path().join("shop.ron"), write_sheet(&sheet)).expect("written");
    let job = demo("26-0102");
    let alone = quillbore(&["figures", path(&job)]);
    let named = quillbore(&["figures", path(&job), "--shelf", path(folder.path())]);
    let out = |output: &Output| String::from_utf8_lossy(&output.stdout).into_owned();
    assert!(out(&alone).contains(" USD each"), "{}", out(&alone));
    assert!(
        out(&named).contains(" CHF each") && !out(&named).contains(" USD each"),
        "{}{}",
        out(&named),
        said(&named)
    );
    // Amounts on the sheet were typed in the currency of another shop.
    assert!(out(&named).contains("typed in USD"), "{}", out(&named));
}
