//! Papers as outside tools see them: needs qpdf, poppler-utils, zbar-tools, zxing-cpp-tools and imagemagick.
#![expect(
    clippy::panic,
    clippy::unwrap_used,
    reason = "helpers of tests may panic"
)]

mod common;

use std::path::Path;
use std::process::Command;

use quillbore_job::Paper;
use quillbore_paper::page::{Ink, Item, Path as Shape, Role, Step};
use quillbore_paper::pdf::{self, Meta};
use quillbore_paper::{Document, Sheet, code, quotation, traveler};

/// Runs a tool and gives what it printed; it may say nothing on its error channel.
fn run(program: &str, arguments: &[&str]) -> String {
    let output = Command::new(program).args(arguments).output();
    let output = output.unwrap_or_else(|error| panic!("{}: {error}", missing(program)));
    let told = String::from_utf8_lossy(&output.stdout).into_owned();
    let errors = String::from_utf8_lossy(&output.stderr);
    // Poppler takes "false" for the wrong type there: by ISO 32000-1, table 321 (from memory), it is the right one.
    let is_wrong = |line: &&str| !line.ends_with("Suspects object is wrong type (boolean)");
    let errors = errors
        .lines()
        .filter(is_wrong)
        .collect::<Vec<_>>()
        .join("\n");
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
        "convert" => "imagemagick",
        "ZXingReader" => "zxing-cpp-tools",
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
    papers.extend(with_logo("outlines", common::PLAIN));
    papers.extend(with_logo("painted", common::PAINTED));
    papers
}

/// Every paper with a logo.
fn with_logo(kind: &str, svg: &str) -> Vec<(String, Document)> {
    let mut sample = common::delivered();
    sample.issuer.logo = Some(common::logo(svg));
    let of = |paper: &Paper| {
        let name = format!("{}-{}-{kind}", sample.job.number, paper.key());
        let document = quillbore_paper::document(*paper, &[sample.matter(Sheet::A4)]);
        (name, document)
    };
    Paper::ALL.iter().map(of).collect()
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
                let Item::Text(run) = item else {
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

/// What is read aloud is what is printed, but for the edges of the pages.
#[test]
fn the_structure_has_every_word() {
    let directory = tempfile::tempdir().unwrap();
    for (name, document) in papers() {
        let path = write(directory.path(), &name, &document);
        let info = run("pdfinfo", &[&path]);
        assert!(info.contains("Tagged:          yes"), "{name}: {info}");
        let read = run("pdfinfo", &["-struct-text", &path]);
        let words: Vec<&str> = read
            .split(|c: char| c.is_whitespace() || c == '"')
            .collect();
        for page in &document.pages {
            let mut edges = Vec::new();
            for item in &page.items {
                match item {
                    Item::Begin(role) => edges.push(*role == Role::Edge),
                    Item::End => _ = edges.pop(),
                    Item::Text(run) if !edges.contains(&true) => {
                        for word in run.text.split_whitespace() {
                            let word = word.trim_matches('"');
                            assert!(words.contains(&word), "{name}: “{word}” in\n{read}");
                        }
                    }
                    _ => {}
                }
            }
        }
    }
}

/// What a telephone's reader makes of a page that was held 2 degrees off and out of focus by a sixth of a
/// millimeter, in gray and at 150 dots an inch.
fn badly_seen(picture: &str) -> String {
    let seen = picture.replace(".pgm", "-seen.png");
    let how = "-gravity south -crop 100%x15%+0+0 +repage -background white -resize 75% -rotate 2 -blur 0x1";
    // The foot, where every sheet has one.
    let how: Vec<&str> = how.split(' ').collect();
    run("convert", &[&[picture], &how[..], &[&seen]].concat());
    let told = run("ZXingReader", &["-1", "-format", "QRCode", &seen]);
    told.split('"').nth(1).unwrap_or_default().to_owned()
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
            let beside = document.pages[index]
                .items
                .iter()
                .any(|item| matches!(item, Item::Text(run) if run.text == read.trim()));
            assert_eq!(badly_seen(picture), read, "{name}");
            let says = code::read(read).unwrap();
            assert_eq!(says.sheet, u32::try_from(index + 1).ok(), "{name}: {read}");
            assert!(beside && name.starts_with(&says.job), "{name}: {read}");
        }
    }
}

/// Red, green and blue of a page at points of the sheet, as poppler draws it.
fn colors(path: &str, points: &[(f64, f64)]) -> Vec<[u8; 3]> {
    const PER_INCH: f64 = 200.0;
    let picture = path.replace(".pdf", "");
    let resolution = PER_INCH.to_string();
    run(
        "pdftoppm",
        &["-singlefile", "-r", &resolution, path, &picture],
    );
    let bytes = std::fs::read(format!("{picture}.ppm")).unwrap();
    // Portable pixmap: P6, width, height, 255, each on lines of their own, then the pixels.
    let head: Vec<usize> = bytes
        .split(u8::is_ascii_whitespace)
        .skip(1)
        .take(3)
        .map(|word| String::from_utf8_lossy(word).parse().unwrap())
        .collect();
    let (width, pixels) = (head[0], head[0] * head[1] * 3);
    let pixels = &bytes[bytes.len() - pixels..];
    let at = |(x, y): &(f64, f64)| {
        let pixel = |point: f64| (point / 72.0 * PER_INCH) as usize;
        let first = (pixel(*y) * width + pixel(*x)) * 3;
        [0, 1, 2].map(|part| pixels[first + part])
    };
    points.iter().map(at).collect()
}

#[test]
fn a_logo_stands_in_its_colors_where_the_page_has_it() {
    let directory = tempfile::tempdir().unwrap();
    for (name, document) in with_logo("outlines", common::PLAIN) {
        let path = write(directory.path(), &name, &document);
        assert_eq!(
            run("pdfimages", &["-list", &path]).lines().count(),
            2,
            "{name}"
        );
        let paths: Vec<&Shape> = shapes(&document);
        // The plate is pierced in its middle, and has its color beside.
        let [left, top, right, bottom] = edges(paths[0]);
        let middle = ((left + right) / 2.0, (top + bottom) / 2.0);
        let beside = (middle.0, top + (bottom - top) * 0.75);
        let outside = (left - 2.0, middle.1);
        let found = colors(&path, &[middle, beside, outside]);
        assert_eq!(found, [[255; 3], [0xA8, 0x43, 0x1F], [255; 3]], "{name}");
    }
    for (name, document) in with_logo("painted", common::PAINTED) {
        let path = write(directory.path(), &name, &document);
        let list = run("pdfimages", &["-list", &path]);
        let rows: Vec<Vec<&str>> = list
            .lines()
            .skip(2)
            .map(|row| row.split_whitespace().collect())
            .collect();
        assert_eq!(rows.len(), 1, "{name}: {list}");
        assert_eq!(rows[0][2..6], ["image", "661", "331", "icc"], "{name}");
        let picture = document.pages[0].items.iter().find_map(|item| match item {
            Item::Picture(picture) => Some(picture),
            _ => None,
        });
        let picture = picture.unwrap();
        let at = |x: f64, y: f64| {
            (
                picture.at.0 + picture.size.0 * x,
                picture.at.1 + picture.size.1 * y,
            )
        };
        let points = [at(0.5, 0.5), at(0.25, 0.05), at(-0.02, 0.5)];
        // By the gradient's definition, half of it with as much white in the middle.
        let expected = [[128, 183, 162], [0, 140, 68], [255, 255, 255]];
        let found = colors(&path, &points);
        let near = found.as_flattened().iter().zip(expected.as_flattened());
        assert!(
            near.clone().all(|(a, b)| a.abs_diff(*b) <= 4),
            "{name}: {found:?}"
        );
    }
}

/// The outlines with colors of their own on the first page.
fn shapes(document: &Document) -> Vec<&Shape> {
    let items = document.pages[0].items.iter();
    items
        .filter_map(|item| match item {
            Item::Path(path) if matches!(path.fill, Some(Ink::Own(_))) => Some(path),
            _ => None,
        })
        .collect()
}

/// Left, top, right and bottom of an outline's corners.
fn edges(path: &Shape) -> [f64; 4] {
    let corners = path.steps.iter().filter_map(|step| match *step {
        Step::Move(x, y) | Step::Line(x, y) | Step::Curve(_, _, (x, y)) => Some((x, y)),
        Step::Close => None,
    });
    corners.fold([f64::MAX, f64::MAX, f64::MIN, f64::MIN], |edges, (x, y)| {
        let [left, top, right, bottom] = edges;
        [left.min(x), top.min(y), right.max(x), bottom.max(y)]
    })
}
