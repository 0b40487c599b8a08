//! Papers as outside tools see them: needs qpdf, poppler-utils and zbar-tools.
#![expect(clippy::panic, reason = "helpers of tests may panic")]

mod common;

use std::path::Path;
use std::process::Command;

use quillbore_job::Paper;
use quillbore_paper::pdf::{self, Meta};
use quillbore_paper::{Document, Sheet, code, quotation, traveler};

/// Runs a tool and gives what it printed; it may say nothing on its error channel.
fn run(program: &str, arguments: &[&str]) -> String {
    let output = Command::new(program).args(arguments).output();
    let output = output.unwrap_or_else(|error| panic!("{}: {error}", missing(program)));
    let told = String::from_utf8_lossy(&output.stdout).into_owned();
    let errors = String::from_utf8_lossy(&output.stderr);
    assert!(
        output.status.success() && errors.is_empty(),
        "{program} {arguments:?}: {told}{errors}"
    );
    told
}

/// What to install where a tool is missing.
fn missing(program: &str) -> String {
    let package = match program {
        "zbarimg" => "zbar-tools",
        "qpdf" => "qpdf",
        _ => "poppler-utils",
    };
    format!("{program} can't be started; install it with: apt-get install {package}")
}

fn papers() -> Vec<(String, Document)> {
    let mut papers = Vec::new();
    for sample in [common::ring(), common::plate()] {
        for sheet in [Sheet::A4, Sheet::Letter] {
            let matter = sample.matter(sheet);
            let number = &sample.job.number;
            papers.push((format!("{number}-traveler-{sheet:?}"), traveler(&matter)));
            papers.push((
                format!("{number}-quotation-{sheet:?}"),
                quotation(&[matter]),
            ));
        }
    }
    let sample = common::delivered();
    for paper in Paper::ALL {
        for sheet in [Sheet::A4, Sheet::Letter] {
            let name = format!("{}-{}-after-{sheet:?}", sample.job.number, paper.key());
            papers.push((
                name,
                quillbore_paper::document(*paper, &[sample.matter(sheet)]),
            ));
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

#[test]
fn a_scanner_reads_the_code_of_every_sheet() {
    let directory = tempfile::tempdir().unwrap();
    for (name, document) in papers() {
        let path = write(directory.path(), &name, &document);
        let picture = path.replace(".pdf", "");
        run("pdftoppm", &["-gray", "-r", "200", &path, &picture]);
        let mut pictures: Vec<String> = std::fs::read_dir(directory.path())
            .unwrap()
            .map(|entry| entry.unwrap().path().to_string_lossy().into_owned())
            .filter(|file| file.starts_with(&format!("{picture}-")) && file.ends_with(".pgm"))
            .collect();
        pictures.sort();
        assert_eq!(pictures.len(), document.pages.len(), "{name}");
        for (index, picture) in pictures.iter().enumerate() {
            let all = run(
                "zbarimg",
                &[
                    "--quiet",
                    "--raw",
                    "--nodbus",
                    "-Sdisable",
                    "-Sqrcode.enable",
                    picture,
                ],
            );
            // A label bears its code twice, large on itself and small in the foot.
            let read = all.lines().next().unwrap_or_default();
            assert!(all.lines().all(|line| line == read), "{name}: {all}");
            let beside = document.pages[index].items.iter().any(
                |item| matches!(item, quillbore_paper::page::Item::Text(run) if run.text == read.trim()),
            );
            let says = code::read(read).unwrap();
            assert_eq!(says.sheet, u32::try_from(index + 1).ok(), "{name}: {read}");
            assert!(beside && name.starts_with(&says.job), "{name}: {read}");
        }
    }
}
