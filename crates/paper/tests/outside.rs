//! Papers as outside tools see them: needs qpdf and poppler-utils.
#![expect(clippy::expect_used, reason = "helpers of tests may panic")]

mod common;

use std::path::Path;
use std::process::Command;

use quillbore_paper::pdf::{self, Meta};
use quillbore_paper::{Document, Sheet, quotation, traveler};

fn run(program: &str, arguments: &[&str]) -> String {
    let output = Command::new(program).args(arguments).output();
    let output = output.expect("the tool is installed");
    let told = String::from_utf8_lossy(&output.stdout).into_owned();
    let errors = String::from_utf8_lossy(&output.stderr);
    assert!(
        output.status.success() && errors.is_empty(),
        "{program} {arguments:?}: {told}{errors}"
    );
    told
}

fn papers() -> Vec<(String, Document)> {
    let mut papers = Vec::new();
    for sample in [common::ring(), common::plate()] {
        for sheet in [Sheet::A4, Sheet::Letter] {
            let matter = sample.matter(sheet);
            let number = &sample.job.number;
            papers.push((format!("{number}-traveler-{sheet:?}"), traveler(&matter)));
            papers.push((format!("{number}-quotation-{sheet:?}"), quotation(&matter)));
        }
    }
    papers
}

fn meta() -> Meta {
    Meta {
        title: "Sample".to_owned(),
        author: "Cinder Lane Small Hole Works".to_owned(),
        date: common::day(),
    }
}

fn write(directory: &Path, name: &str, document: &Document) -> String {
    let path = directory.join(format!("{name}.pdf"));
    std::fs::write(&path, pdf::write(document, &meta()).unwrap_or_default()).unwrap_or_default();
    path.to_string_lossy().into_owned()
}

#[test]
fn checkers_find_nothing_and_every_font_is_embedded() {
    let directory = tempfile::tempdir().unwrap();
    for (name, document) in papers() {
        let path = write(directory.path(), &name, &document);
        run("qpdf", &["--check", &path]);
        let fonts = run("pdffonts", &[&path]);
        let rows: Vec<&str> = fonts.lines().skip(2).collect();
        assert!(!rows.is_empty(), "{name}");
        for row in rows {
            // Columns from the right: object and generation, uni, sub, emb.
            let columns: Vec<&str> = row.split_whitespace().rev().collect();
            assert_eq!(columns[2..5], ["yes", "yes", "yes"], "{name}: {row}");
        }
        let info = run("pdfinfo", &[&path]);
        assert!(
            info.contains(&format!("Pages:           {}", document.pages.len())),
            "{name}: {info}"
        );
    }
}

#[test]
fn text_comes_back_in_whole_words() {
    let directory = tempfile::tempdir().unwrap();
    for (name, document) in papers() {
        let path = write(directory.path(), &name, &document);
        let back = run("pdftotext", &["-layout", &path, "-"]);
        let words: Vec<&str> = back.split_whitespace().collect();
        for page in &document.pages {
            for item in &page.items {
                let quillbore_paper::page::Item::Text(run) = item else {
                    continue;
                };
                let printed: Vec<&str> = run.text.split_whitespace().collect();
                for word in printed {
                    assert!(
                        words.contains(&word),
                        "{name}: \u{201c}{word}\u{201d} of {run:?}"
                    );
                }
            }
        }
        let of = document.pages.len();
        for number in 1..=of {
            assert!(back.contains(&format!("page {number} of {of}")), "{name}");
        }
    }
}
