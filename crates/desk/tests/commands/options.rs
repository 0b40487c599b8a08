//! Options that look like values, values that look like options, and words that are no text.

use std::fs;

use crate::program::{INVENTED_SHOP, demo, names, path, quillbore, said};

/// A hole table beside the words that make a job of it, all but material and quantity.
fn table(folder: &std::path::Path) -> Vec<String> {
    let table = folder.join("holes.csv");
    fs::write(&table, "hole;qty;dia;depth\nA;3;0,80 +-0,05;14\n").expect("written");
    let out = folder.join("26-0300.ron");
    let words = ["intake", "--holes", path(&table), "--out", path(&out)];
    words.map(str::to_owned).to_vec()
}

fn intake(folder: &std::path::Path, more: &[&str]) -> std::process::Output {
    let words = table(folder);
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    quillbore(&[words.as_slice(), more].concat())
}

#[test]
fn an_option_is_never_taken_for_the_value_of_the_one_before() {
    let folder = tempfile::tempdir().expect("a folder");
    for (more, told) in [
        (
            &["--material", "--quantity", "5"][..],
            "--material has no value; if \u{201c}--quantity\u{201d} is meant as the \
             value, type \u{201c}--material=--quantity\u{201d}",
        ),
        (
            &["--quantity", "5", "--material"],
            "--material has no value",
        ),
        (&["--material", "--", "718"], "--material has no value"),
        (
            &["--material", "", "--quantity", "5"],
            "The value of --material is empty",
        ),
        (
            &["--material=", "--quantity", "5"],
            "The value of --material is empty",
        ),
        (
            &["--quantity", "5", "--quantity", "6"],
            "--quantity is given twice",
        ),
        (&["718"], "\u{201c}718\u{201d} is not understood here"),
    ] {
        let refused = intake(folder.path(), more);
        assert_eq!(refused.status.code(), Some(2), "{more:?}");
        assert!(
            said(&refused).contains(told),
            "{more:?}: {}",
            said(&refused)
        );
        assert_eq!(names(folder.path()), ["holes.csv"], "{more:?}");
    }
    let job = demo("26-0102");
    let out = folder.path().join("out");
    for (words, told) in [
        (
            &["--replace=yes", "--out", path(&out)][..],
            "--replace takes no value",
        ),
        (&["--out", ""], "The value of --out is empty"),
        (&["--out", path(&out), ""], "An empty word"),
        (&["--out", path(&out), "--out=x"], "--out is given twice"),
        (&["--out", "-"], "--out has no value"),
    ] {
        let refused = quillbore(&[&["papers", path(&job)], words].concat());
        assert_eq!(refused.status.code(), Some(2), "{words:?}");
        assert!(
            said(&refused).contains(told),
            "{words:?}: {}",
            said(&refused)
        );
        assert!(!out.exists(), "{words:?}");
    }
}

#[test]
fn a_value_that_begins_with_a_dash_is_given_behind_an_equals_sign_and_a_number_as_it_is() {
    let folder = tempfile::tempdir().expect("a folder");
    let more = [
        "--material=718",
        "--quantity",
        "5",
        "--customer=--x=y",
        "--part",
        "-101",
    ];
    let done = intake(folder.path(), &more);
    assert!(matches!(done.status.code(), Some(0 | 1)), "{}", said(&done));
    let job = fs::read(folder.path().join("26-0300.ron")).expect("the job");
    let job = quillbore_job::file::read_job(&job).expect("a job");
    assert_eq!(job.text(quillbore_job::Field::Customer), "--x=y");
    assert_eq!(job.text(quillbore_job::Field::Part), "-101");
    assert_eq!(job.text(quillbore_job::Field::Material), "718");
    // Behind two dashes everything is a name.
    let dashed = folder.path().join("26-0300.ron");
    let figures = quillbore(&["figures", "--json", "--", path(&dashed)]);
    assert!(
        matches!(figures.status.code(), Some(0 | 1)),
        "{}",
        said(&figures)
    );
    let none = quillbore(&["figures", "--", "--json"]);
    assert_eq!(none.status.code(), Some(2));
    assert!(said(&none).contains("--json"), "{}", said(&none));
}

#[cfg(unix)]
#[test]
fn a_path_that_is_no_text_stays_what_it_is_and_a_value_that_is_none_is_refused() {
    use std::ffi::{OsStr, OsString};
    use std::os::unix::ffi::OsStrExt as _;

    let folder = tempfile::tempdir().expect("a folder");
    let odd = |name: &[u8]| folder.path().join(OsStr::from_bytes(name)).into_os_string();
    let run = |words: &[OsString]| {
        crate::program::program()
            .args(words)
            .output()
            .expect("the program")
    };
    let words = |words: &[&str]| -> Vec<OsString> { words.iter().map(OsString::from).collect() };
    let job = demo("26-0102");
    for name in [b"one\xff".as_slice(), b"two\xc3("] {
        let mut asked = words(&["papers", path(&job), "--shop", INVENTED_SHOP, "--out"]);
        asked.push(odd(name));
        let printed = run(&asked);
        assert_eq!(printed.status.code(), Some(0), "{}", said(&printed));
        let out = std::path::PathBuf::from(odd(name));
        assert_eq!(names(&out).len(), 2, "{name:?}");
        let told = String::from_utf8(printed.stdout).expect("text");
        assert!(told.contains("\\x"), "every byte is shown: {told}");
    }
    assert_eq!(names(folder.path()).len(), 2, "no folder of another name");
    let mut joined = OsString::from("--out=");
    joined.push(odd(b"one\xff"));
    let mut asked = words(&["papers", path(&job), "--shop", INVENTED_SHOP]);
    asked.push(joined);
    assert_eq!(run(&asked).status.code(), Some(0));
    assert_eq!(names(folder.path()).len(), 2);
    // A job's file by such a path: the folder may be no text, the name is the job's own.
    let copy = std::path::PathBuf::from(odd(b"one\xff")).join("26-0102.ron");
    fs::copy(&job, &copy).expect("copied");
    let asked = [words(&["figures"]), vec![copy.into_os_string()]].concat();
    assert_eq!(run(&asked).status.code(), Some(0));
    let text = OsString::from(OsStr::from_bytes(b"7\xff18"));
    let mut asked: Vec<OsString> = table(folder.path()).iter().map(OsString::from).collect();
    asked.extend(words(&["--quantity", "5", "--material"]));
    asked.push(text);
    let refused = run(&asked);
    assert_eq!(refused.status.code(), Some(2));
    assert!(
        said(&refused).contains("\u{201c}7\\xff18\u{201d} after --material is not text"),
        "{}",
        said(&refused)
    );
    assert!(!folder.path().join("26-0300.ron").exists());
}
