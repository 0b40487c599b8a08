//! What is no plain file is refused.

use std::fs;
use std::process::Command;

use crate::program::{demo, names, path, quillbore, said};

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
            said(&refused).contains("pipe") || said(&refused).contains("not a plain file"),
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

#[test]
fn a_file_that_is_too_large_is_told_with_the_limit_in_megabytes() {
    let folder = tempfile::tempdir().expect("a folder");
    let large = folder.path().join("large.csv");
    let file = fs::File::create(&large).expect("made");
    // Nothing but a length, which takes no room.
    file.set_len(64 * 1024 * 1024 + 1).expect("a length");
    let (job, out) = (demo("26-0101"), folder.path().join("new.ron"));
    let intake = ["intake", "--holes", path(&large), "--material", "718"];
    let intake = [&intake[..], &["--quantity", "5", "--out", path(&out)]].concat();
    for words in [
        &["figures", path(&job), "--shop", path(&large)][..],
        &intake,
    ] {
        let refused = quillbore(words);
        assert_eq!(refused.status.code(), Some(2), "{words:?}");
        let said = said(&refused);
        assert!(said.starts_with("The file is larger than 64 MB;"), "{said}");
    }
}
