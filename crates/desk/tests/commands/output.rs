//! Where output goes wrong, what it may hold, and where the user has no folder.

use std::fs;
use std::path::Path;
use std::process::{Command, Output, Stdio};

use crate::program::{INVENTED_SHOP, demo, folder_of, names, path, program, quillbore, said};

#[cfg(target_os = "linux")]
fn full() -> Stdio {
    let full = fs::OpenOptions::new().write(true).open("/dev/full");
    Stdio::from(full.expect("a device that is full"))
}

#[cfg(target_os = "linux")]
#[test]
fn where_standard_output_is_full_it_is_told_and_so_is_what_was_done_all_the_same() {
    let folder = folder_of(&["26-0101"]);
    let table = folder.path().join("holes.csv");
    fs::write(&table, "hole;qty;dia;depth\nA;3;0,80 +-0,05;14\n").expect("written");
    let (out, made) = (folder.path().join("out"), folder.path().join("26-0300.ron"));
    let (job, shelf) = (demo("26-0102"), path(folder.path()));
    let intake = [
        "intake",
        "--holes",
        path(&table),
        "--material",
        "718",
        "--quantity",
        "5",
        "--out",
        path(&made),
    ];
    let issue = ["issue", "26-0101", "quotation", "--adopt", "--shelf", shelf];
    for (words, told, place) in [
        (
            &["figures", path(&job)][..],
            "Standard output can't be written",
            None,
        ),
        (&["--help"], "Standard output can't be written", None),
        (
            &[
                "papers",
                path(&job),
                "--shop",
                INVENTED_SHOP,
                "--out",
                path(&out),
            ],
            "The papers are printed, but",
            Some(out.clone()),
        ),
        (&intake, "The job is made, but", Some(made.clone())),
        (
            &issue,
            "The paper is issued, but",
            Some(folder.path().join("26-0101.files/26-0101-Q1.pdf")),
        ),
    ] {
        let output = program()
            .args(words)
            .stdout(full())
            .output()
            .expect("the program");
        assert_eq!(
            output.status.code(),
            Some(2),
            "{words:?}: {}",
            said(&output)
        );
        let said = said(&output);
        assert!(
            said.starts_with(told) && said.contains("No space left"),
            "{said}"
        );
        assert_eq!(said.trim().lines().count(), 1, "{said}");
        if let Some(place) = place {
            assert!(said.trim_end().ends_with(path(&place)), "{said}");
            assert!(place.exists(), "{said}");
        }
    }
}

#[cfg(target_os = "linux")]
#[test]
fn where_nothing_can_be_told_the_exit_code_tells() {
    let folder = tempfile::tempdir().expect("a folder");
    let out = folder.path().join("out");
    let job = demo("26-0105");
    let papers = [
        "papers",
        path(&job),
        "--shop",
        INVENTED_SHOP,
        "--out",
        path(&out),
    ];
    let usual = quillbore(&papers).status.code();
    for (words, code) in [(&["figures", "none.ron"][..], Some(2)), (&papers, usual)] {
        let output = program()
            .args(words)
            .stderr(full())
            .output()
            .expect("the program");
        assert_eq!(output.status.code(), code, "{words:?}");
    }
    let both = program()
        .args(papers)
        .stdout(full())
        .stderr(full())
        .status();
    assert_eq!(both.expect("the program").code(), Some(2));
}

#[cfg(unix)]
#[test]
fn a_reader_that_has_enough_is_no_failure_and_a_closed_output_harms_nothing() {
    let folder = tempfile::tempdir().expect("a folder");
    let job = demo("26-0102");
    let mut child = program()
        .args(["figures", path(&job)])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program");
    drop(child.stdout.take());
    let output = child.wait_with_output().expect("it ends");
    assert_eq!(
        (output.status.code(), said(&output)),
        (Some(0), String::new())
    );
    // The shell's own way to close them; what is written must not go into a file of ours.
    for closed in [">&-", "2>&-", ">&- 2>&-", "<&- >&- 2>&-"] {
        let out = folder.path().join("out");
        let line = format!("exec \"$0\" papers \"$1\" --shop \"$3\" --out \"$2\" {closed}");
        let output = Command::new("sh")
            .args([
                "-c",
                &line,
                env!("CARGO_BIN_EXE_quillbore"),
                path(&job),
                path(&out),
                INVENTED_SHOP,
            ])
            .output()
            .expect("a shell");
        assert_eq!(output.status.code(), Some(0), "{closed}: {}", said(&output));
        for paper in names(&out) {
            let bytes = fs::read(out.join(&paper)).expect("a paper");
            assert!(bytes.starts_with(b"%PDF"), "{closed}: {paper}");
        }
        fs::remove_dir_all(&out).expect("taken away");
    }
}

/// Signs that steer a terminal or turn a line around.
const STEERING: &str = "\u{1b}[2J\u{7}\u{8}\u{7f}\u{9b}31m\u{202e}\u{2066}\r";

fn steers(text: &str) -> bool {
    let steering = |sign: char| {
        (sign.is_control() && sign != '\n') || STEERING.contains(sign) && !sign.is_ascii()
    };
    text.chars().any(steering)
}

fn all(output: &Output) -> String {
    let text = String::from_utf8(output.stdout.clone()).expect("text");
    text + &String::from_utf8(output.stderr.clone()).expect("text")
}

#[cfg(unix)]
#[test]
fn nothing_in_a_job_or_a_table_or_a_name_steers_the_terminal() {
    let folder = tempfile::tempdir().expect("a folder");
    let text = fs::read_to_string(demo("26-0105")).expect("a demo job");
    let mut job = quillbore_job::file::read_job(text.as_bytes()).expect("a job");
    let field = |field| quillbore_job::Edit::SetField {
        field,
        text: format!("x{STEERING}y"),
        unit: quillbore_job::Unit::Mm,
    };
    use quillbore_job::Field;
    for edit in [
        Field::Customer,
        Field::Part,
        Field::Material,
        Field::Machine,
    ]
    .map(field)
    {
        job = quillbore_job::apply(&job, &edit).expect("an edit").0;
    }
    let named = folder.path().join(format!("odd{STEERING}"));
    fs::create_dir(&named).expect("a folder");
    let file = named.join("26-0105.ron");
    fs::write(&file, quillbore_job::file::write_job(&job)).expect("written");
    let table = named.join(format!("t{STEERING}.csv"));
    let heads = format!("hole;qty;dia;depth;fin{STEERING}ish\nA{STEERING};3;0,8;1{STEERING}4;q\n");
    fs::write(&table, heads).expect("written");
    let made = named.join("26-0300.ron");
    let out = named.join("out");
    let intake = |more: &[&str]| {
        let words = [
            "intake",
            "--holes",
            path(&table),
            "--material",
            "7\u{1b}18",
            "--quantity",
            "5",
            "--out",
            path(&made),
        ];
        quillbore(&[&words, more].concat())
    };
    let missing = named.join("none.ron");
    for output in [
        quillbore(&["figures", path(&file)]),
        quillbore(&["figures", path(&file), "--json"]),
        quillbore(&["papers", path(&file), "--out", path(&out)]),
        quillbore(&["issue", path(&file), "quotation"]),
        quillbore(&["figures", path(&missing)]),
        quillbore(&["figures", STEERING]),
        quillbore(&[&format!("--{STEERING}")]),
        quillbore(&["figures", path(&file), "--date", STEERING]),
        intake(&[]),
        intake(&["--column", "5=leave it out"]),
        quillbore(&["figures", path(&made)]),
    ] {
        let said = all(&output);
        assert!(!said.is_empty() && !steers(&said), "{said:?}");
    }
    let figures = quillbore(&["figures", path(&file)]);
    assert!(
        all(&figures).contains("x\\u{1b}[2J\\u{7}"),
        "{}",
        all(&figures)
    );
    // JSON still says what was typed.
    let told = quillbore(&["figures", path(&file), "--json"]);
    let json: serde_json::Value = serde_json::from_slice(&told.stdout).expect("JSON");
    assert!(
        json["material"]
            .as_str()
            .is_some_and(|said| said.contains(STEERING.trim_end()))
    );
}

#[test]
fn an_end_of_a_line_in_a_job_makes_no_line_of_its_own() {
    let folder = tempfile::tempdir().expect("a folder");
    let text = fs::read_to_string(demo("26-0102")).expect("a demo job");
    let forged = text.replace("Bramblewick Die Shop", "Bramblewick\\nhole A: 1 minute");
    assert_ne!(forged, text);
    let job = folder.path().join("26-0102.ron");
    fs::write(&job, forged).expect("written");
    let figures = quillbore(&["figures", path(&job)]);
    assert_eq!(figures.status.code(), Some(0), "{}", said(&figures));
    let told = all(&figures);
    assert!(told.contains("Bramblewick\\nhole A: 1 minute"), "{told}");
    assert!(
        !told.lines().any(|line| line.starts_with("hole A: 1")),
        "{told}"
    );
}

#[cfg(all(unix, not(target_os = "macos")))]
#[test]
fn without_a_home_a_shelf_must_be_named_and_none_is_made_elsewhere() {
    let folder = tempfile::tempdir().expect("a folder");
    let shelf = folder_of(&["26-0102"]);
    for (home, data) in [
        (None, None),
        (Some(""), Some("")),
        (Some("home"), Some("./data")),
        (Some("/"), None),
    ] {
        let run = |words: &[&str]| {
            let mut program = program();
            program.args(words).current_dir(folder.path());
            program.env_remove("HOME").env_remove("XDG_DATA_HOME");
            home.map(|home| program.env("HOME", home));
            data.map(|data| program.env("XDG_DATA_HOME", data));
            program.output().expect("the program")
        };
        for words in [
            &["figures", "26-0102"][..],
            &["issue", "26-0102", "quotation"],
            &[],
        ] {
            let refused = run(words);
            assert_eq!(refused.status.code(), Some(2), "{words:?}");
            let said = said(&refused);
            assert!(
                said.contains("There is no usual shelf") && said.contains("--shelf DIR"),
                "{said}"
            );
            assert_eq!(names(folder.path()), [""; 0], "{home:?}");
        }
        let done = run(&["figures", "26-0102", "--shelf", path(shelf.path())]);
        assert_eq!(done.status.code(), Some(0), "{}", said(&done));
    }
    assert!(!Path::new("/.local/share/quillbore").exists());
}

#[cfg(all(unix, not(target_os = "macos")))]
#[test]
fn a_display_that_is_not_there_is_told_as_that_and_names_no_source_file() {
    let folder = tempfile::tempdir().expect("a folder");
    let shelf = folder.path().join("shelf");
    let run = |name: &str, value: &str| {
        let mut program = program();
        program.args(["--shelf", path(&shelf)]).env(name, value);
        program.env("XDG_RUNTIME_DIR", folder.path());
        program.output().expect("the program")
    };
    for (name, value) in [("DISPLAY", ":4099"), ("WAYLAND_DISPLAY", "none-there")] {
        let output = run(name, value);
        assert_eq!(output.status.code(), Some(2), "{name}");
        let said = said(&output);
        let told = format!("The display ({name}={value}) can't be reached");
        assert!(
            said.contains(&told) && said.contains("quillbore papers"),
            "{said}"
        );
        assert!(!said.contains("OpenGL") && !said.contains(".rs"), "{said}");
        assert_eq!(said.trim().lines().count(), 1, "{said}");
    }
    for name in ["DISPLAY", "WAYLAND_DISPLAY"] {
        let output = run(name, "");
        assert_eq!(output.status.code(), Some(2), "{name}");
        assert!(
            said(&output).contains("There is no display"),
            "{}",
            said(&output)
        );
    }
}
