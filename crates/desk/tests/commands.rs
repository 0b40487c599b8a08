//! The real binary without a window: exit codes, keys of the figures, refusals.
#![expect(clippy::expect_used, reason = "a helper of tests fails by panic")]

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

fn demo(number: &str) -> PathBuf {
    let demos = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../demo-jobs");
    demos.join(format!("{number}.ron"))
}

fn quillbore(words: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_quillbore"))
        .args(words)
        .env_remove("DISPLAY")
        .env_remove("WAYLAND_DISPLAY")
        .env(
            "XDG_DATA_HOME",
            std::env::current_exe()
                .expect("a path")
                .with_extension("data"),
        )
        .output()
        .expect("the program")
}

fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

fn path(path: &Path) -> &str {
    path.to_str().expect("a plain path")
}

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
        &["quantity", "machine_hours", "labor_hours", "electrodes"],
    );
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
    assert!(hole["push_n"].is_null() && figures["price"]["chance_of_loss"].is_null());
    assert_eq!(figures["calibrated"], false);
}

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
        let words = ["papers", path(&job), "--out", path(&out), "--replace"];
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
fn papers_are_the_same_twice_and_a_foreign_file_is_not_overwritten() {
    let folder = tempfile::tempdir().expect("a folder");
    let out = folder.path().join("out");
    let job = demo("26-0102");
    let words = [
        "papers",
        path(&job),
        "--out",
        path(&out),
        "--date",
        "2026-11-25",
    ];
    let first = quillbore(&words);
    assert_eq!(first.status.code(), Some(0), "{}", said(&first));
    let paths = String::from_utf8(first.stdout).expect("paths");
    assert_eq!(paths.lines().count(), 2, "quotation and traveler: {paths}");
    let traveler = out.join("26-0102-traveler.pdf");
    let bytes = fs::read(&traveler).expect("the traveler");
    assert!(
        quillbore(&words).status.success(),
        "the same bytes are fine"
    );
    assert_eq!(fs::read(&traveler).expect("the traveler"), bytes);
    fs::write(&traveler, "a letter").expect("written");
    let refused = quillbore(&words);
    assert_eq!(refused.status.code(), Some(2));
    assert!(
        said(&refused).contains("nothing was written"),
        "{}",
        said(&refused)
    );
    assert_eq!(fs::read(&traveler).expect("the letter"), b"a letter");
    let replaced = quillbore(&[words.as_slice(), &["--replace"]].concat());
    assert!(replaced.status.success());
    assert_eq!(fs::read(&traveler).expect("the traveler"), bytes);
}

#[test]
fn a_column_of_a_hole_table_that_is_not_understood_must_be_said() {
    let folder = tempfile::tempdir().expect("a folder");
    let table = folder.path().join("holes.csv");
    let text =
        "hole;qty;dia;finish;depth\nA;36;0,80 +-0,05;Ra 1.6;14\nB;4;1,0 +-0,05;Ra 3.2;thru\n";
    fs::write(&table, text).expect("written");
    let job = folder.path().join("26-0300.ron");
    let words = [
        "intake",
        "--holes",
        path(&table),
        "--material",
        "718",
        "--quantity",
        "25",
        "--thickness",
        "10",
        "--out",
        path(&job),
    ];
    let refused = quillbore(&words);
    assert_eq!(refused.status.code(), Some(2), "{}", said(&refused));
    assert!(
        said(&refused)
            .contains("Column 4 \u{201c}finish\u{201d} (Ra 1.6; Ra 3.2) is not understood"),
        "{}",
        said(&refused)
    );
    assert!(!job.exists(), "nothing was written");
    for (column, says) in [
        ("finish", "does not say what the column holds"),
        ("finish=color", "A column can't hold \u{201c}color\u{201d}"),
        (
            "gloss=note",
            "The table has no column \u{201c}gloss\u{201d}",
        ),
        (
            "finish=depth",
            "Two columns can't both be \u{201c}depth\u{201d}",
        ),
    ] {
        let refused = quillbore(&[words.as_slice(), &["--column", column]].concat());
        assert_eq!(refused.status.code(), Some(2), "{column}");
        assert!(
            said(&refused).contains(says),
            "{column}: {}",
            said(&refused)
        );
        assert!(!job.exists());
    }
    let done = quillbore(&[words.as_slice(), &["--column", "finish=leave it out"]].concat());
    assert!(matches!(done.status.code(), Some(0 | 1)), "{}", said(&done));
    let report = String::from_utf8_lossy(&done.stdout).into_owned();
    assert!(
        report.contains("Left out: column 4 \u{201c}finish\u{201d} (Ra 1.6; Ra 3.2).")
            && report.contains("line 2: taken: left out: \u{201c}finish Ra 1.6\u{201d}")
            && report.contains("Through: 10.00 mm deep, by the wall's thickness."),
        "{report}"
    );
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

#[test]
fn a_hole_table_becomes_a_job_row_by_row() {
    let folder = tempfile::tempdir().expect("a folder");
    let table = folder.path().join("holes.csv");
    fs::write(
        &table,
        "hole;qty;dia;depth\nA;36;0,80 +-0,05;14\nB;4;about 1;10\n",
    )
    .expect("written");
    let job = folder.path().join("26-0300.ron");
    let words = [
        "intake",
        "--holes",
        path(&table),
        "--material",
        "Nickel alloy 718",
        "--quantity",
        "25",
        "--out",
        path(&job),
    ];
    let output = quillbore(&words);
    assert!(
        matches!(output.status.code(), Some(0 | 1)),
        "{}",
        said(&output)
    );
    let report = String::from_utf8_lossy(&output.stdout).into_owned();
    assert!(
        report.contains("about 1"),
        "what can't be read is told: {report}"
    );
    let text = fs::read_to_string(&job).expect("the job");
    assert!(text.contains("about 1") && text.contains("0,80 +-0,05"));
    let kept = quillbore_job::file::read_job(text.as_bytes()).expect("a job");
    let [kept] = kept.reports.as_slice() else {
        panic!("one report: {:?}", kept.reports);
    };
    assert_eq!(
        quillbore_job::words::reports::summary(kept),
        "holes.csv: 2 lines, 1 as it stands, 1 to look at"
    );
    let told = quillbore_job::words::reports::line(&kept.lines[0]);
    assert!(
        report.lines().any(|line| line == told),
        "{told} in {report}"
    );
    assert!(
        kept.whole.iter().all(|said| report.contains(said)) && report.contains("line 2: taken\n"),
        "{:?} in {report}",
        kept.whole
    );
    let mut other = words;
    other[6] = "26";
    let again = quillbore(&other);
    assert_eq!(again.status.code(), Some(2), "a job is never overwritten");
    assert_eq!(fs::read_to_string(&job).expect("the job"), text);
}

/// A folder with these demo jobs in it, which nobody said is a shelf.
fn folder_of(jobs: &[&str]) -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    for job in jobs {
        let to = folder.path().join(format!("{job}.ron"));
        fs::copy(demo(job), to).expect("a demo job");
    }
    folder
}

fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = fs::read_dir(folder)
        .expect("the folder")
        .map(|entry| {
            entry
                .expect("an entry")
                .file_name()
                .to_string_lossy()
                .into_owned()
        })
        .collect();
    names.sort_unstable();
    names
}

#[test]
fn a_paper_is_issued_from_a_shelf_by_number_and_by_file() {
    let folder = folder_of(&["26-0101"]);
    let shelf = path(folder.path());
    let issue = |job: &str, more: &[&str]| {
        let mut words = vec!["issue", job, "quotation", "--date", "2026-11-25"];
        words.extend(more);
        quillbore(&words)
    };
    // Nobody said yet that the folder is a shelf: nothing is written to it.
    let refused = issue("26-0101", &["--shelf", shelf]);
    assert_eq!(refused.status.code(), Some(2), "{}", said(&refused));
    assert!(said(&refused).contains("shelf"), "{}", said(&refused));
    assert_eq!(names(folder.path()), ["26-0101.ron"]);
    let issued = issue("26-0101", &["--shelf", shelf, "--adopt"]);
    assert_eq!(issued.status.code(), Some(0), "{}", said(&issued));
    let place = String::from_utf8(issued.stdout).expect("a path");
    let place = Path::new(place.trim_end());
    assert_eq!(place, folder.path().join("26-0101.files/26-0101-Q1.pdf"));
    let paper = fs::read(place).expect("the paper");
    assert!(paper.starts_with(b"%PDF"));
    // By its file, with another number; the first paper stays as it is.
    let file = folder.path().join("26-0101.ron");
    let issued = issue(path(&file), &["--sheet", "letter"]);
    assert_eq!(issued.status.code(), Some(0), "{}", said(&issued));
    assert!(folder.path().join("26-0101.files/26-0101-Q2.pdf").is_file());
    assert_eq!(fs::read(place).expect("the paper"), paper);
    let job = fs::read_to_string(&file).expect("the job");
    assert!(job.contains("\"26-0101-Q1\"") && job.contains("\"26-0101-Q2\""));
}

#[test]
fn what_is_in_the_way_in_the_window_is_in_the_way_of_a_command() {
    let folder = folder_of(&["26-0101", "26-0105"]);
    let shelf = ["--shelf", path(folder.path()), "--adopt"];
    let run = |words: &[&str]| quillbore(&[words, &shelf].concat());
    let release = run(&["release", "26-0101"]);
    assert_eq!(release.status.code(), Some(1), "{}", said(&release));
    assert!(
        said(&release).contains("the order is not here"),
        "{}",
        said(&release)
    );
    let quotation = run(&["issue", "26-0105", "quotation"]);
    assert_eq!(quotation.status.code(), Some(1), "{}", said(&quotation));
    // The same words as of the preview.
    let out = tempfile::tempdir().expect("a folder");
    let previewed = quillbore(&["papers", path(&demo("26-0105")), "--out", path(out.path())]);
    let why = said(&quotation);
    let why = why
        .trim()
        .trim_start_matches("Not issued: ")
        .trim_end_matches('.');
    assert!(
        said(&previewed).contains(why),
        "{why} in {}",
        said(&previewed)
    );
    for words in [
        &["issue", "26-0101", "quotatio"][..],
        &["issue", "26-0101"],
        &["issue", "26-0999", "quotation"],
        &["issue", "../26-0101", "quotation"],
        &["issue", "26-0101", "traveler", "--with", "26-0105"],
        &["issue", "26-0101", "quotation", "--with", "../26-0105"],
        &["release", "26-0101", "--parts", "0"],
        &["release"],
    ] {
        let refused = run(words);
        assert_eq!(
            refused.status.code(),
            Some(2),
            "{words:?}: {}",
            said(&refused)
        );
    }
    let papers = names(folder.path())
        .into_iter()
        .filter(|name| name.ends_with(".files"));
    assert_eq!(papers.count(), 0, "nothing was written beside a job");
}

#[cfg(unix)]
#[test]
fn a_pipe_named_as_a_job_a_table_or_a_shop_is_refused_at_once() {
    let folder = tempfile::tempdir().expect("a folder");
    let pipe = folder.path().join("26-0101.ron");
    let made = Command::new("mkfifo").arg(&pipe).status().expect("mkfifo");
    assert!(made.success());
    let job = demo("26-0101");
    let out = folder.path().join("new.ron");
    let holes = [
        "intake",
        "--holes",
        path(&pipe),
        "--material",
        "x",
        "--quantity",
        "1",
        "--out",
        path(&out),
    ];
    for words in [
        &["figures", path(&pipe)][..],
        &["papers", path(&pipe), "--out", path(folder.path())],
        &["figures", path(&job), "--shop", path(&pipe)],
        &["issue", path(&pipe), "quotation"],
        &holes,
    ] {
        let refused = quillbore(words);
        assert_eq!(refused.status.code(), Some(2), "{words:?}");
        assert!(
            said(&refused).contains("pipe") || said(&refused).contains("no plain file"),
            "{}",
            said(&refused)
        );
    }
}

#[cfg(unix)]
#[test]
fn a_paper_is_never_printed_through_a_link() {
    let folder = tempfile::tempdir().expect("a folder");
    let (out, secret) = (folder.path().join("out"), folder.path().join("secret"));
    fs::create_dir(&out).expect("a folder");
    fs::write(&secret, "as it was").expect("written");
    std::os::unix::fs::symlink(&secret, out.join("26-0101-traveler.pdf")).expect("a link");
    let job = demo("26-0101");
    let words = ["papers", path(&job), "--out", path(&out), "--replace"];
    let refused = quillbore(&words);
    assert_eq!(refused.status.code(), Some(2), "{}", said(&refused));
    assert_eq!(fs::read(&secret).expect("the file"), b"as it was");
    assert_eq!(names(&out), ["26-0101-traveler.pdf"]);
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
