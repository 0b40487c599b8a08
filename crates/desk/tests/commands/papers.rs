//! Papers printed and issued from the command line.

use std::fs;
use std::path::Path;

use crate::program::{INVENTED_SHOP, demo, folder_of, names, path, quillbore, said};

#[test]
fn papers_are_the_same_twice_and_a_foreign_file_is_not_overwritten() {
    let folder = tempfile::tempdir().expect("a folder");
    let out = folder.path().join("out");
    let job = demo("26-0102");
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
    assert_eq!(names(folder.path()), ["26-0101.ron", "shop.ron"]);
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
        .lines()
        .next()
        .expect("a sentence")
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
fn papers_are_replaced_all_or_none() {
    use std::os::unix::fs::PermissionsExt as _;

    let folder = tempfile::tempdir().expect("a folder");
    let out = folder.path().join("out");
    let job = demo("26-0102");
    let run = || {
        let only = "quotation,traveler,quotation,label";
        let words = [
            "papers",
            path(&job),
            "--shop",
            INVENTED_SHOP,
            "--out",
            path(&out),
            "--only",
            only,
        ];
        quillbore(&[words.as_slice(), &["--date", "2026-11-25", "--replace"]].concat())
    };
    let first = run();
    let printed = String::from_utf8(first.stdout).expect("paths");
    assert_eq!(printed.lines().count(), 3, "each once: {printed}");
    let paper = |name: &str| out.join(format!("26-0102-{name}.pdf"));
    let today =
        ["quotation", "traveler", "label"].map(|name| (name, fs::read(paper(name)).expect("it")));
    let set_up = |in_the_way: &dyn Fn(&Path)| {
        fs::remove_dir_all(&out).expect("taken away");
        fs::create_dir(&out).expect("a folder");
        fs::write(paper("quotation"), "of yesterday").expect("written");
        fs::write(paper("label"), "of yesterday").expect("written");
        in_the_way(&paper("traveler"));
        names(&out)
    };
    let read_only = |path: &Path| {
        fs::write(path, "signed").expect("written");
        fs::set_permissions(path, fs::Permissions::from_mode(0o444)).expect("read-only");
    };
    let link = |path: &Path| std::os::unix::fs::symlink("elsewhere", path).expect("a link");
    let a_folder = |path: &Path| fs::create_dir(path).expect("a folder");
    type Way<'a> = (&'a str, &'a dyn Fn(&Path));
    let ways: [Way<'_>; 3] = [
        ("read-only", &read_only),
        ("a link", &link),
        ("a folder", &a_folder),
    ];
    for (what, way) in ways {
        let before = set_up(way);
        let refused = run();
        assert_eq!(refused.status.code(), Some(2), "{what}");
        assert!(
            said(&refused).contains("26-0102-traveler.pdf"),
            "{}",
            said(&refused)
        );
        assert!(
            refused.stdout.is_empty(),
            "{what}: no path of what is not there"
        );
        assert_eq!(names(&out), before, "{what}: nothing new, nothing left");
        for name in ["quotation", "label"] {
            assert_eq!(
                fs::read(paper(name)).expect("it"),
                b"of yesterday",
                "{what}"
            );
        }
    }
    set_up(&|path: &Path| fs::write(path, "of yesterday").expect("written"));
    assert!(matches!(run().status.code(), Some(0 | 1)));
    for (name, bytes) in today {
        assert_eq!(fs::read(paper(name)).expect("it"), bytes, "{name}");
    }
    assert_eq!(names(&out).len(), 3, "nothing is left beside them");
}

/// A folder or a letter that happens to be called like the job, where the command is run.
#[test]
fn a_number_is_one_on_the_shelf_whatever_else_has_that_name() {
    let shelf = folder_of(&["26-0101"]);
    let here = tempfile::tempdir().expect("a folder");
    let figures = || {
        std::process::Command::new(env!("CARGO_BIN_EXE_quillbore"))
            .args(["figures", "26-0101", "--shelf", path(shelf.path())])
            .current_dir(here.path())
            .output()
            .expect("the program")
    };
    fs::create_dir(here.path().join("26-0101")).expect("a folder");
    let of_folder = figures();
    assert!(
        matches!(of_folder.status.code(), Some(0 | 1)),
        "{}",
        said(&of_folder)
    );
    fs::remove_dir(here.path().join("26-0101")).expect("taken away");
    fs::write(here.path().join("26-0101"), "a letter").expect("written");
    let of_letter = figures();
    assert_eq!(of_letter.stdout, of_folder.stdout, "{}", said(&of_letter));
}

#[test]
fn a_job_stands_once_on_a_quotation_however_often_it_is_named() {
    let folder = folder_of(&["26-0101"]);
    // Another inquiry of the same customer.
    let job = fs::read_to_string(demo("26-0101")).expect("a demo job");
    let other = folder.path().join("26-0102.ron");
    fs::write(&other, job.replace("26-0101", "26-0102")).expect("written");
    let shelf = ["--shelf", path(folder.path()), "--adopt"];
    let issue =
        |with: &[&str]| quillbore(&[&["issue", "26-0101", "quotation"], with, &shelf].concat());
    let itself = issue(&["--with", "26-0102,26-0101"]);
    assert_eq!(itself.status.code(), Some(2));
    assert!(
        said(&itself).contains("can't be on it twice"),
        "{}",
        said(&itself)
    );
    assert_eq!(
        names(folder.path()),
        ["26-0101.ron", "26-0102.ron", "shop.ron"]
    );
    let twice = issue(&["--with", "26-0102, 26-0102", "--with", "26-0102"]);
    assert_eq!(twice.status.code(), Some(0), "{}", said(&twice));
    let other = fs::read_to_string(&other).expect("the other job");
    assert!(other.contains("26-0101-Q1"), "it knows of the quotation");
}

/// What of a sheet is in the way is told with its place and as it was typed, also of another job of the quotation.
#[test]
fn what_can_not_be_read_is_named_with_its_place_and_what_was_typed() {
    let folder = folder_of(&["26-0101", "26-0102"]);
    let file = folder.path().join("26-0102.ron");
    let text = fs::read_to_string(&file).expect("the job");
    let fields = "  fields: {\n    \"margin\": (\"abc\", mm),\n";
    let mut unread = text.replacen("  fields: {\n", fields, 1);
    assert_ne!(unread, text);
    for (key, word) in [("lead_days", "soonish "), ("size", "wide ")] {
        let key = format!("\"{key}\": (\"");
        let at = unread.find(&key).expect("typed") + key.len();
        unread.insert_str(at, word);
    }
    fs::write(&file, &unread).expect("written");
    let out = tempfile::tempdir().expect("a folder");
    let papers = quillbore(&["papers", path(&file), "--out", path(out.path())]);
    let shelf = ["--shelf", path(folder.path()), "--adopt"];
    let run = |words: &[&str]| quillbore(&[words, &shelf].concat());
    let issued = run(&["issue", "26-0102", "quotation"]);
    let joint = run(&["issue", "26-0101", "quotation", "--with", "26-0102"]);
    for output in [&papers, &issued, &joint] {
        assert_eq!(output.status.code(), Some(1), "{}", said(output));
        let told = said(output);
        for line in [
            "stop: margin \u{201c}abc\u{201d}: ",
            "lead time \u{201c}soonish ",
            ": size \u{201c}wide ",
        ] {
            assert_eq!(told.matches(line).count(), 1, "{line} in {told}");
        }
        let hole = told.lines().find(|line| line.contains("wide "));
        assert!(
            hole.is_some_and(|line| line.starts_with("stop: hole ")),
            "{told}"
        );
    }
    assert!(said(&joint).contains("in 26-0102 "), "{}", said(&joint));
    // A line of a slip, with the slip that it stands on.
    let order =
        "slips: [(id: 0, kind: \"order\", lines: {\"each\": (\"a lot\", mm)})], next_slip: 1,\n)";
    let end = text.trim_end().strip_suffix(')').expect("a struct");
    fs::write(&file, format!("{end}{order}\n")).expect("written");
    let confirmed = run(&["issue", "26-0102", "confirmation"]);
    assert_eq!(confirmed.status.code(), Some(1), "{}", said(&confirmed));
    let told = said(&confirmed);
    assert!(
        told.contains(": order: ") && told.contains("\u{201c}a lot\u{201d}"),
        "{told}"
    );
}

/// A shelf with a shop of its own issues by that one alone.
#[test]
fn no_paper_is_issued_by_another_shop_than_the_shelfs_own() {
    let folder = folder_of(&["26-0101"]);
    let elsewhere = tempfile::tempdir().expect("a folder");
    let shop = elsewhere.path().join("other.ron");
    let own = folder.path().join("shop.ron");
    fs::rename(&own, &shop).expect("moved away");
    let issue = |words: &[&str]| {
        let shelf = [
            "--shelf",
            path(folder.path()),
            "--shop",
            path(&shop),
            "--adopt",
        ];
        quillbore(&[words, &shelf].concat())
    };
    // Where there is none the named one counts.
    let issued = issue(&["issue", "26-0101", "quotation"]);
    assert_eq!(issued.status.code(), Some(0), "{}", said(&issued));
    fs::copy(&shop, &own).expect("a shop of its own");
    let before = fs::read(folder.path().join("26-0101.ron")).expect("the job");
    for words in [
        &["issue", "26-0101", "quotation"][..],
        &["release", "26-0101"],
    ] {
        let refused = issue(words);
        assert_eq!(refused.status.code(), Some(2), "{}", said(&refused));
        let told = said(&refused);
        assert!(
            told.contains("a shop of its own") && told.contains("leave --shop out"),
            "{told}"
        );
    }
    assert!(!folder.path().join("26-0101.files/26-0101-Q2.pdf").exists());
    assert_eq!(
        fs::read(folder.path().join("26-0101.ron")).expect("the job"),
        before
    );
    // Looking is no issuing, and without it the paper leaves.
    let figures = [
        "figures",
        "26-0101",
        "--shelf",
        path(folder.path()),
        "--shop",
        path(&shop),
    ];
    assert_eq!(quillbore(&figures).status.code(), Some(0));
    let words = [
        "issue",
        "26-0101",
        "quotation",
        "--shelf",
        path(folder.path()),
    ];
    let issued = quillbore(&words);
    assert_eq!(issued.status.code(), Some(0), "{}", said(&issued));
}

#[test]
fn blank_forms_are_printed_as_often_as_they_are_wanted_and_issue_nothing() {
    let folder = folder_of(&["26-0101"]);
    let out = folder.path().join("out");
    let job = folder.path().join("26-0101.ron");
    let before = fs::read(&job).expect("the job");
    let run = |more: &[&str]| {
        let words = ["papers", path(&job), "--out", path(&out)];
        let by = ["--shop", INVENTED_SHOP, "--date", "2026-11-25"];
        quillbore(&[words.as_slice(), &by, more].concat())
    };
    let both = ["--blank", "run-record,inspection,run-record"];
    let first = run(&both);
    assert_eq!(first.status.code(), Some(0), "{}", said(&first));
    let files = [
        "26-0101-blank-inspection.pdf",
        "26-0101-blank-run-record.pdf",
    ];
    assert_eq!(names(&out), files);
    let paper = out.join(files[1]);
    let one = fs::read(&paper).expect("a page");
    assert!(one.starts_with(b"%PDF"));
    assert_eq!(run(&both).status.code(), Some(0), "the same bytes are fine");
    // More pages are another file, which takes the place of the first only when that is said.
    let more = ["--blank", "run-record", "--pages", "4"];
    assert_eq!(run(&more).status.code(), Some(2));
    assert_eq!(fs::read(&paper).expect("the page"), one);
    let replaced = run(&[&more[..], &["--replace"]].concat());
    assert_eq!(replaced.status.code(), Some(0), "{}", said(&replaced));
    assert!(fs::read(&paper).expect("pages") != one);
    assert_eq!(fs::read(&job).expect("the job"), before);
    // With papers named beside them, both are written.
    let named = run(&["--only", "traveler", "--blank", "inspection"]);
    assert_eq!(named.status.code(), Some(0), "{}", said(&named));
    assert!(out.join("26-0101-traveler.pdf").is_file());
    for (words, sentence) in [
        (&["--blank", "traveler"][..], "run-record, inspection"),
        (&["--pages", "2"], "--blank"),
        (&["--blank", "inspection", "--pages", "0"], "from 1 to"),
        (&["--blank", "inspection", "--pages", "x"], "from 1 to"),
        (&["--blank", "inspection", "--pages", "126"], "from 1 to"),
    ] {
        let refused = run(words);
        assert_eq!(refused.status.code(), Some(2), "{words:?}");
        assert!(said(&refused).contains(sentence), "{}", said(&refused));
    }
}

#[test]
fn a_threading_list_is_written_once_and_replaced_only_when_that_is_said() {
    let folder = tempfile::tempdir().expect("a folder");
    let out = folder.path().join("out");
    let job = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/hard-jobs/start-holes.ron");
    let run = |more: &[&str]| {
        let words = ["papers", path(&job), "--out", path(&out), "--threading"];
        let by = ["--shop", INVENTED_SHOP, "--date", "2026-11-25"];
        quillbore(&[words.as_slice(), &by, more].concat())
    };
    let first = run(&[]);
    assert!(said(&first).contains("C: its 2 holes have no locations"));
    let files = names(&out);
    assert_eq!(files.len(), 1, "{files:?}");
    assert!(files[0].ends_with("-threading.csv"), "{files:?}");
    let list = out.join(&files[0]);
    let bytes = fs::read(&list).expect("the list");
    let text = String::from_utf8(bytes.clone()).expect("text");
    assert!(text.starts_with("number,mark,x (mm),y (mm)"), "{text}");
    assert_eq!(
        run(&[]).status.code(),
        first.status.code(),
        "the same bytes are fine"
    );
    fs::write(&list, "another").expect("written");
    assert_eq!(run(&[]).status.code(), Some(2));
    assert_eq!(fs::read(&list).expect("the other"), b"another");
    assert_eq!(run(&["--replace"]).status.code(), first.status.code());
    assert_eq!(fs::read(&list).expect("the list"), bytes);
}

#[test]
fn a_job_without_holes_has_no_blank_forms() {
    let folder = tempfile::tempdir().expect("a folder");
    let (job, out) = (folder.path().join("7.ron"), folder.path().join("out"));
    let empty = quillbore_job::file::write_job(&quillbore_job::Job::default());
    fs::write(&job, empty).expect("written");
    let words = ["papers", path(&job), "--out", path(&out), "--blank"];
    let refused = quillbore(&[&words[..], &["run-record"]].concat());
    assert_eq!(refused.status.code(), Some(2), "{}", said(&refused));
    assert!(
        said(&refused).contains("no rows of holes"),
        "{}",
        said(&refused)
    );
    assert!(!out.exists());
}
