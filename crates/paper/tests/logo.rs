//! The shop's logo: how it is read, what is refused, and where it stands on papers.
#![expect(
    clippy::unwrap_used,
    clippy::panic,
    reason = "helpers of tests may panic"
)]

mod common;

use std::sync::Arc;
use std::time::{Duration, Instant};

use common::{PAINTED, PLAIN, logo, png, svg};
use lopdf::{Document as Pdf, Object};
use png::{BitDepth, ColorType};
use quillbore_job::Paper;
use quillbore_job::shop::Logo;
use quillbore_paper::logo::{BOX_MM, DrawnLogo, LogoFault, Thing};
use quillbore_paper::matter::unprintable::{self, Unprintable};
use quillbore_paper::page::{Ink, Item, Page, Path, Picture, Rule, Step, mm};
use quillbore_paper::pdf::{self, Meta};
use quillbore_paper::typeset::flow::Body;
use quillbore_paper::{Document, Sheet};

/// What a logo is drawn as, 100 points high, and its size then.
fn drawn(logo: &Logo) -> (Vec<Item>, (f64, f64)) {
    let read = DrawnLogo::read(logo).unwrap();
    let most = (1e9, 100.0);
    let mut page = Page::default();
    read.set(&mut page, (0.0, 0.0), most);
    (page.items, read.fitted(most))
}

fn paths(logo: &Logo) -> Vec<Path> {
    let path = |item| match item {
        Item::Path(path) => Some(path),
        _ => None,
    };
    drawn(logo).0.into_iter().filter_map(path).collect()
}

fn picture(logo: &Logo) -> Picture {
    match drawn(logo).0.as_slice() {
        [Item::Picture(picture)] => picture.clone(),
        other => panic!("{other:?}"),
    }
}

fn fault(logo: &Logo) -> LogoFault {
    DrawnLogo::read(logo).unwrap_err()
}

/// Left, top, right, bottom of the corners and control points of a path.
fn bounds(path: &Path) -> [f64; 4] {
    let points = path.steps.iter().flat_map(|step| match *step {
        Step::Move(x, y) | Step::Line(x, y) => vec![(x, y)],
        Step::Curve(one, two, end) => vec![one, two, end],
        Step::Close => Vec::new(),
    });
    points.fold([f64::MAX, f64::MAX, f64::MIN, f64::MIN], |edges, (x, y)| {
        let [left, top, right, bottom] = edges;
        [left.min(x), top.min(y), right.max(x), bottom.max(y)]
    })
}

#[test]
fn every_color_type_of_png_is_read_as_it_looks_on_white() {
    // Two pixels each: by hand from the definition, color times alpha and white times the rest.
    let dark_and_light = [[40, 40, 40], [200, 200, 200]];
    for (logo, expected) in [
        (
            png((2, 1), ColorType::Grayscale, BitDepth::Eight, &[40, 200]),
            dark_and_light,
        ),
        (
            png(
                (2, 1),
                ColorType::Grayscale,
                BitDepth::Sixteen,
                &[40, 7, 200, 9],
            ),
            dark_and_light,
        ),
        // Four bits: 2 of 15 is 34 of 255.
        (
            png((2, 1), ColorType::Grayscale, BitDepth::Four, &[0x2C]),
            [[34; 3], [204; 3]],
        ),
        // One bit: black, white; and the white edge is cut off, so black stands at both ends.
        (
            png((3, 1), ColorType::Grayscale, BitDepth::One, &[0b0100_0000]),
            [[0; 3], [255; 3]],
        ),
        (
            png(
                (2, 1),
                ColorType::GrayscaleAlpha,
                BitDepth::Eight,
                &[40, 255, 0, 55],
            ),
            dark_and_light,
        ),
        (
            png(
                (2, 1),
                ColorType::Rgb,
                BitDepth::Eight,
                &[1, 2, 3, 250, 0, 9],
            ),
            [[1, 2, 3], [250, 0, 9]],
        ),
        (
            png(
                (2, 1),
                ColorType::Rgb,
                BitDepth::Sixteen,
                &[1, 0, 2, 0, 3, 0, 250, 0, 0, 0, 9, 0],
            ),
            [[1, 2, 3], [250, 0, 9]],
        ),
        (
            png(
                (2, 1),
                ColorType::Rgba,
                BitDepth::Eight,
                &[255, 0, 0, 51, 0, 0, 255, 255],
            ),
            [[255, 204, 204], [0, 0, 255]],
        ),
        // Half seen green, then blue.
        (
            png((2, 1), ColorType::Indexed, BitDepth::Eight, &[0, 2]),
            [[127, 227, 127], [20, 40, 160]],
        ),
    ] {
        let picture = picture(&logo);
        assert_eq!(picture.pixels.rgb()[..6], expected.concat(), "{logo:?}");
        assert_eq!(picture.pixels.height(), 1);
    }
}

#[test]
fn a_png_that_cannot_be_drawn_says_why() {
    let wide = png((4097, 1), ColorType::Grayscale, BitDepth::Eight, &[0; 4097]);
    assert_eq!(
        fault(&wide),
        LogoFault::TooLarge {
            width: 4097,
            height: 1
        }
    );
    let largest = png(
        (4096, 4),
        ColorType::Grayscale,
        BitDepth::Eight,
        &[0; 4096 * 4],
    );
    assert!(DrawnLogo::read(&largest).is_ok());
    let white = png((2, 2), ColorType::Grayscale, BitDepth::Eight, &[255; 4]);
    assert_eq!(fault(&white), LogoFault::Blank);
    let unseen = png((2, 1), ColorType::Rgba, BitDepth::Eight, &[0; 8]);
    assert_eq!(fault(&unseen), LogoFault::Blank);
    // A logo for a dark ground is white, and its edges are transparent.
    let for_dark = [255, 255, 255, 0, 255, 255, 255, 255];
    let for_dark = png((2, 1), ColorType::Rgba, BitDepth::Eight, &for_dark);
    assert_eq!(fault(&for_dark), LogoFault::Blank);
    // Broken off at every byte, and every byte changed: never a panic, and what is read is a picture.
    let whole = png((5, 3), ColorType::Rgb, BitDepth::Eight, &[70; 45]);
    for length in 8..whole.bytes().len() - 12 {
        let part = logo(&whole.bytes()[..length]);
        assert_eq!(fault(&part), LogoFault::Damaged, "{length}");
    }
    for at in 8..whole.bytes().len() {
        let mut bytes = whole.bytes().to_vec();
        bytes[at] ^= 0x55;
        let _ = DrawnLogo::read(&logo(bytes));
    }
    assert_eq!(
        fault(&wide).to_string(),
        "The logo has 4097 x 1 pixels, and papers take 4096 x 4096 at most"
    );
}

#[test]
fn a_png_keeps_its_proportions_and_is_no_finer_than_paper() {
    let small = png((30, 20), ColorType::Grayscale, BitDepth::Eight, &[9; 600]);
    let small = DrawnLogo::read(&small).unwrap();
    assert_eq!(small.fitted((90.0, 90.0)), (90.0, 60.0));
    assert_eq!(small.fitted((90.0, 30.0)), (45.0, 30.0));
    let large = vec![60; 4096 * 1024];
    let large = png((4096, 1024), ColorType::Grayscale, BitDepth::Eight, &large);
    let picture = picture(&large);
    // 40 mm at 1,200 pixels per inch.
    assert_eq!(
        (picture.pixels.width(), picture.pixels.height()),
        (1890, 472)
    );
}

#[test]
fn shapes_and_lines_stay_outlines() {
    let logo = logo(PLAIN);
    let (items, size) = drawn(&logo);
    assert!(items.iter().all(|item| matches!(item, Item::Path(_))));
    // The white ground is not drawn, so that the plate and the word are all: 200 x 60.
    assert!((size.0 / size.1 - 200.0 / 60.0).abs() < 1e-6, "{size:?}");
    let scale = size.1 / 60.0;
    let paths = paths(&logo);
    let inks: Vec<Option<Ink>> = paths.iter().map(|path| path.fill).collect();
    let (plate, hole, word) = (
        Some(Ink::Own([0xA8, 0x43, 0x1F])),
        Some(Ink::Own([255; 3])),
        Some(Ink::Own([0x1C, 0x2B, 0x39])),
    );
    assert_eq!(inks, [&[plate][..], &[hole; 5], &[word; 3]].concat());
    assert!(
        paths
            .iter()
            .all(|path| path.stroke.is_none() && path.rule == Rule::NonZero)
    );
    let within = |path: &Path, expected: [f64; 4]| {
        for (found, expected) in bounds(path).iter().zip(expected) {
            let found = found / scale;
            assert!((found - expected).abs() < 0.02, "{found} {expected}");
        }
    };
    // Corner of the plate, in units of the file from (20, 10).
    within(&paths[0], [0.0, 0.0, 60.0, 60.0]);
    // The hole at 18 along a line turned by 45 degrees, by hand: 18 / sqrt(2) = 12.728.
    let along = 18.0 / 2_f64.sqrt();
    let (x, y) = (30.0 + along, 30.0 + along);
    let center = |path: &Path| {
        let [left, top, right, bottom] = bounds(path).map(|edge| edge / scale);
        ((left + right) / 2.0, (top + bottom) / 2.0)
    };
    let near = |found: (f64, f64), x: f64, y: f64| {
        assert!(
            (found.0 - x).abs() < 0.02 && (found.1 - y).abs() < 0.02,
            "{found:?}"
        );
    };
    near(center(&paths[2]), x, y);
    // The one that is moved by a transform of its use: 18 up before it is turned.
    near(center(&paths[5]), 30.0 + along, 30.0 - along);
    // A line of 6 from (42, -24) by (42, 18) to (64, 18), round at its corner, moved to (92, 40).
    within(
        &paths[7],
        [92.0 - 20.0 + 39.0, 6.0, 92.0 - 20.0 + 64.0, 51.0],
    );
    // Dashes of 10 with gaps of 6 on 54: four of them, the last of 6.
    let dashes = paths[8]
        .steps
        .iter()
        .filter(|step| matches!(step, Step::Move(..)));
    assert_eq!(dashes.count(), 4);
    within(
        &paths[8],
        [92.0 - 20.0 + 74.0, 27.0, 92.0 - 20.0 + 128.0, 33.0],
    );
}

#[test]
fn gradients_and_transparent_shapes_are_painted() {
    let picture = picture(&logo(PAINTED));
    let pixels = &picture.pixels;
    // 14 mm high at 600 pixels per inch, twice as wide.
    assert_eq!((pixels.width(), pixels.height()), (661, 331));
    let at = |x: f64, y: f64| {
        let x = (x * pixels.width() as f64) as usize;
        let y = (y * pixels.height() as f64) as usize;
        let first = (y * pixels.width() + x) * 3;
        [0, 1, 2].map(|part| f64::from(pixels.rgb()[first + part]))
    };
    let near = |found: [f64; 3], expected: [f64; 3]| {
        let close = found
            .iter()
            .zip(expected)
            .all(|(a, b)| (a - b).abs() <= 2.0);
        assert!(close, "{found:?} {expected:?}");
    };
    // The gradient by its definition: from (0, 170, 68) to (0, 51, 68), linear along x.
    near(at(0.001, 0.05), [0.0, 170.0, 68.0]);
    near(at(0.25, 0.05), [0.0, 170.0 - 119.0 * 0.25, 68.0]);
    near(at(0.999, 0.95), [0.0, 51.0, 68.0]);
    // White over it, half seen.
    let middle = [0.0, 110.5, 68.0].map(|part| (part + 255.0) / 2.0);
    near(at(0.5, 0.5), middle);
}

#[test]
fn what_outlines_cannot_say_is_painted_and_what_they_can_is_not() {
    let rect = "<rect x='10' y='10' width='80' height='30'/>";
    for (is_outlines, inside) in [
        (true, rect.to_owned()),
        (true, format!("<g opacity='1'>{rect}</g>")),
        (true, format!("<clipPath id='c'><rect width='100' height='50'/></clipPath><g clip-path='url(#c)'>{rect}</g>")),
        (true, format!("<symbol id='s'>{rect}</symbol><use href='#s' width='100' height='50'/>")),
        (true, format!("<svg width='100' height='50'>{rect}</svg>")),
        (true, "<rect x='10' y='10' width='20' height='9' fill='none' stroke='red' stroke-width='.1' stroke-dasharray='1 1'/>".to_owned()),
        (false, format!("<g opacity='.5'>{rect}</g>")),
        (false, format!("<g style='mix-blend-mode:multiply'>{rect}</g>")),
        (false, format!("<clipPath id='c'><circle r='50'/></clipPath><g clip-path='url(#c)'>{rect}</g>")),
        (false, format!("<clipPath id='c'><rect width='50' height='50'/></clipPath><g clip-path='url(#c)'>{rect}</g>")),
        (false, format!("<mask id='c'><rect width='50' height='50' fill='#fff'/></mask><g mask='url(#c)'>{rect}</g>")),
        // Over the edge of what is seen.
        (false, "<rect x='60' y='10' width='80' height='30'/>".to_owned()),
    ] {
        let read = DrawnLogo::read(&svg(&inside)).unwrap();
        assert_eq!(read.is_outlines(), is_outlines, "{inside}");
    }
}

#[test]
fn what_is_beside_the_view_is_not_drawn_and_white_edges_are_cut() {
    let read = |inside| DrawnLogo::read(&svg(inside)).unwrap();
    let shape = |read: &DrawnLogo| {
        let (width, height) = read.fitted((1000.0, 1000.0));
        width / height
    };
    let beside =
        read("<rect x='10' y='10' width='20' height='10'/><rect x='200' width='5' height='90'/>");
    assert!(beside.is_outlines());
    assert!((shape(&beside) - 2.0).abs() < 1e-6);
    // Painted: half of a circle of 20 at the edge is 20 x 40 high.
    let over = read("<circle cx='100' cy='25' r='20' fill='#123'/>");
    assert!(!over.is_outlines());
    assert!((shape(&over) - 0.5).abs() < 0.01, "{}", shape(&over));
    for inside in [
        "",
        "<rect width='9' height='9' fill='none'/>",
        "<rect width='9' height='9' fill='#fffffe'/>",
        "<rect x='200' width='9' height='9'/>",
        "<rect width='9' height='9' visibility='hidden'/>",
        "<g display='none'><text>not seen</text></g>",
        "<rect width='9' height='9' opacity='0'/>",
    ] {
        assert_eq!(fault(&svg(inside)), LogoFault::Blank, "{inside}");
    }
}

#[test]
fn what_an_svg_holds_and_papers_do_not_draw_is_named() {
    let pixel = "data:image/png;base64,iVBORw0KGgo=";
    for (inside, thing) in [
        ("<text x='5' y='20'>Hand &amp; Co</text>".to_owned(), Thing::Text),
        ("<g><text><tspan>a</tspan></text></g>".to_owned(), Thing::Text),
        ("<defs><text id='t'>a</text></defs><use href='#t'/>".to_owned(), Thing::Text),
        ("<flowRoot><flowPara>a</flowPara></flowRoot>".to_owned(), Thing::Text),
        (format!("<image width='9' height='9' href='{pixel}'/>"), Thing::Picture),
        ("<image width='9' height='9' xlink:href='photo.png'/>".to_owned(), Thing::Picture),
        ("<pattern id='p' width='2' height='2'><rect width='1' height='1'/></pattern><rect width='9' height='9' fill='url(#p)'/>".to_owned(), Thing::Pattern),
        ("<pattern id='p'/><style>.a{stroke:url('#p')}</style><rect class='a' width='9' height='9'/>".to_owned(), Thing::Pattern),
        ("<filter id='f'><feGaussianBlur stdDeviation='2'/></filter><rect width='9' height='9' filter='url(#f)'/>".to_owned(), Thing::Filter),
        ("<rect width='9' height='9' style='filter: blur(2px)'/>".to_owned(), Thing::Filter),
        ("<marker id='m'><path d='M0 0h1v1'/></marker><path d='M0 0h9' stroke='red' marker-end='url(#m)'/>".to_owned(), Thing::Marker),
        ("<foreignObject width='9' height='9'><p xmlns='http://www.w3.org/1999/xhtml'>a</p></foreignObject>".to_owned(), Thing::WebPage),
    ] {
        assert_eq!(fault(&svg(&inside)), LogoFault::Holds(thing), "{inside}");
    }
    assert_eq!(
        fault(&svg("<text>a</text>")).hint(),
        "Save the text as paths, or the logo as PNG"
    );
    // The same where nothing draws it, and text without a letter.
    let rect = "<rect width='9' height='9'/>";
    for inside in [
        "<defs><text>a</text><image href='a.png'/></defs>",
        "<filter id='f'><feImage href='a.png'/></filter><pattern id='p'><text>a</text></pattern>",
        "<text> <tspan> </tspan></text>",
        "<g style='display:none'><text>a</text></g>",
        "<metadata><text>a</text></metadata>",
        "<switch><foreignObject requiredExtensions='x'/><g><path d='M0 0h1v1'/></g></switch>",
        "<a xlink:href='http://a.example/'><path d='M0 0h1v1'/></a>",
        "<x:own xmlns:x='urn:x'><text>a</text></x:own>",
    ] {
        let logo = svg(&format!("{inside}{rect}"));
        assert!(DrawnLogo::read(&logo).is_ok(), "{inside}");
    }
}

#[test]
fn an_svg_leads_to_nothing_outside_itself() {
    for inside in [
        "<use href='other.svg#mark'/>",
        "<use xlink:href='http://a.example/mark.svg#a'/>",
        "<rect width='9' height='9' fill='url(other.svg#a)'/>",
        "<rect width='9' height='9' style=\"clip-path:url('file:///etc/passwd#a')\"/>",
        "<style>@import url('http://a.example/a.css');</style><rect width='9' height='9'/>",
    ] {
        assert_eq!(fault(&svg(inside)), LogoFault::Elsewhere, "{inside}");
    }
    let named = "<!DOCTYPE svg [<!ENTITY x SYSTEM 'file:///etc/hostname'>]>\
                 <svg xmlns='http://www.w3.org/2000/svg'><text>&x;</text></svg>";
    assert!(DrawnLogo::read(&logo(named)).is_err());
}

#[test]
fn an_svg_that_is_none_says_where() {
    let broken = logo("<svg xmlns='http://www.w3.org/2000/svg'>\n<g>\n</svg>");
    assert_eq!(fault(&broken), LogoFault::NotXml { line: 3 });
    assert_eq!(
        fault(&broken).to_string(),
        "Line 3 of the logo's SVG can't be read"
    );
    let flat = logo("<svg xmlns='http://www.w3.org/2000/svg' width='0' height='9'/>");
    assert_eq!(fault(&flat), LogoFault::NoSize);
}

/// Files that are made to take all memory, all time or all of the stack.
fn bombs() -> Vec<(&'static str, Arc<Logo>)> {
    let rect = "<rect width='9' height='9'/>";
    let mut doubled = String::from("<g id='g0'><rect width='9' height='9'/></g>");
    for level in 1..40 {
        let below = format!("<use href='#g{}'/>", level - 1);
        doubled += &format!("<g id='g{level}'>{}</g>", below.repeat(10));
    }
    let chain: String = (1..8000)
        .map(|at| format!("<use id='u{at}' href='#u{}'/>", at - 1))
        .collect();
    let around = |name: &str, by: &str| {
        let of = |id: &str, to: &str| {
            format!("<{name} id='{id}'><rect width='9' height='9' {by}='url(#{to})'/></{name}>")
        };
        let circle = [of("a", "b"), of("b", "c"), of("c", "a")].concat();
        svg(&format!(
            "{circle}<rect width='9' height='9' {by}='url(#a)'/>"
        ))
    };
    let layers = format!(
        "{}{rect}{}",
        "<g opacity='.9'>".repeat(40),
        "</g>".repeat(40)
    );
    let steps = "l9 9 9-9-18 0".repeat(36_000);
    let stops = "<stop offset='0.5' stop-color='red'/>".repeat(5_000);
    let rules = "g g g g g g g g g g x, g g g g g g g g g y {fill:red}".repeat(100);
    let entity = format!("<!DOCTYPE svg [<!ENTITY a '{}'>]>", "x".repeat(200_000));
    let entity = format!(
        "{entity}<svg xmlns='http://www.w3.org/2000/svg'>{}</svg>",
        format!("<g class='{}'/>", "&a;".repeat(250)).repeat(100)
    );
    let see_through = "<rect width='100' height='50' opacity='.5'/>".repeat(9_000);
    let wide = "<rect x='-9e8' y='-9e8' width='9e9' height='9e9' fill='#123'/>";
    vec![
        ("uses of uses", svg(&doubled)),
        ("a chain of uses", svg(&chain)),
        ("clips in a circle", around("clipPath", "clip-path")),
        ("masks in a circle", around("mask", "mask")),
        ("patterns in a circle", around("pattern", "fill")),
        ("a use of itself", svg("<g id='g'><use href='#g'/></g>")),
        (
            "deep",
            svg(&format!(
                "{}{}",
                "<g>".repeat(70_000),
                "</g>".repeat(70_000)
            )),
        ),
        ("layers", svg(&layers)),
        (
            "many steps",
            svg(&format!(
                "<path d='M0 0{steps}' stroke='red' stroke-linejoin='round'/>"
            )),
        ),
        (
            "many dashes",
            svg("<path d='M0 0H100' stroke='red' stroke-dasharray='1e-6'/>"),
        ),
        (
            "many dashes, painted",
            svg("<path d='M0 0H100' opacity='.5' stroke='red' stroke-dasharray='1e-6'/>"),
        ),
        (
            "many stops",
            svg(&format!(
                "<linearGradient id='l'>{stops}</linearGradient><g fill='url(#l)'>{}</g>",
                "<path d='M0 0h1v1'/>".repeat(9_000)
            )),
        ),
        (
            "rules",
            svg(&format!(
                "<style>{rules}</style>{}{rect}{}",
                "<g>".repeat(40),
                "</g>".repeat(40)
            )),
        ),
        ("entities", logo(entity)),
        ("see-through", svg(&see_through)),
        ("wide", svg(wide)),
        (
            "wide, painted",
            svg(&format!("<g opacity='.5'>{}</g>", wide.repeat(900))),
        ),
        (
            "a huge arc",
            svg("<path d='M0 0A1e38 50.8 113 1 0 99 48' stroke='red'/>"),
        ),
        (
            "far and fine",
            logo(
                "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 1e-3 0.1' stroke='red'><circle cx='24283' r='92.85'/></svg>",
            ),
        ),
        (
            "huge numbers",
            svg("<path d='M0 0L1e38 1e38L-1e38 1e38z' stroke='red' stroke-width='1e38'/>"),
        ),
        (
            "huge view",
            logo(
                "<svg xmlns='http://www.w3.org/2000/svg' width='1e30' height='1e-30'><rect width='1e38' height='1e38'/></svg>",
            ),
        ),
    ]
}

#[test]
fn an_svg_made_to_harm_is_told_or_drawn_soon() {
    for (name, logo) in bombs() {
        let begun = Instant::now();
        let read = DrawnLogo::read(&logo);
        let took = begun.elapsed();
        println!(
            "{name}: {took:?} {:?}",
            read.as_ref().map(DrawnLogo::is_outlines)
        );
        // In a test build, on a busy machine; the libraries are built fast.
        assert!(took < Duration::from_secs(20), "{name}: {took:?}");
        if let Ok(read) = read {
            let (width, height) = read.fitted((100.0, 100.0));
            assert!(
                width.is_finite() && height.is_finite() && width > 0.0 && height > 0.0,
                "{name}"
            );
        }
    }
    for (name, expected) in [
        ("uses of uses", LogoFault::TooMuch),
        ("clips in a circle", LogoFault::Circle),
        ("masks in a circle", LogoFault::Circle),
        ("a use of itself", LogoFault::Circle),
        ("deep", LogoFault::TooMuch),
        ("many dashes, painted", LogoFault::TooMuch),
        ("a huge arc", LogoFault::TooMuch),
        ("many stops", LogoFault::TooMuch),
        ("rules", LogoFault::TooMuch),
        ("entities", LogoFault::TooMuch),
        ("see-through", LogoFault::TooMuch),
    ] {
        let found = bombs().into_iter().find(|(bomb, _)| *bomb == name);
        assert_eq!(fault(&found.unwrap().1), expected, "{name}");
    }
}

/// Everything that a paper with a logo is made of: sample, paper and document.
fn papers(logo: Option<&Arc<Logo>>, sheet: Sheet) -> Vec<(Paper, Document)> {
    let mut sample = common::delivered();
    sample.issuer.logo = logo.cloned();
    let of = |paper: &Paper| {
        let document = quillbore_paper::document(*paper, &[sample.matter(sheet)]);
        (*paper, document)
    };
    Paper::ALL.iter().map(of).collect()
}

/// Where a logo's things lie on a page: left, top, right, bottom.
fn place(page: &Page) -> Option<[f64; 4]> {
    let boxes = page.items.iter().filter_map(|item| match item {
        Item::Picture(picture) => {
            let ((x, y), (width, height)) = (picture.at, picture.size);
            Some([x, y, x + width, y + height])
        }
        Item::Path(path) if matches!(path.fill, Some(Ink::Own(_))) => Some(bounds(path)),
        _ => None,
    });
    boxes.reduce(|one, two| {
        let [left, top, right, bottom] = one;
        [
            left.min(two[0]),
            top.min(two[1]),
            right.max(two[2]),
            bottom.max(two[3]),
        ]
    })
}

#[test]
fn every_paper_has_the_logo_at_the_binding_edge_of_its_first_page_alone() {
    let tall = png((20, 40), ColorType::Grayscale, BitDepth::Eight, &[0; 800]);
    for (logo, shape) in [
        (logo(PLAIN), 200.0 / 60.0),
        (tall, 0.5),
        (logo(PAINTED), 2.0),
    ] {
        for sheet in [Sheet::A4, Sheet::Letter] {
            for (paper, document) in papers(Some(&logo), sheet) {
                let body = Body::of(sheet);
                let [left, top, right, bottom] = place(&document.pages[0]).unwrap();
                let (width, height) = (right - left, bottom - top);
                assert!(
                    (width / height - shape).abs() < 0.01,
                    "{paper:?} {width} {height}"
                );
                let (wide, high) = match paper {
                    Paper::Label => (38.0, 13.0),
                    // Its title is long, and leaves less than the whole box beside the name.
                    Paper::Certificate => (width / mm(1.0), BOX_MM.1),
                    _ => BOX_MM,
                };
                assert!(
                    width <= mm(wide) + 0.01 && height <= mm(high) + 0.01,
                    "{paper:?}"
                );
                // As large as the box: one of its sides is full.
                let full = (width - mm(wide)).abs() < 0.01 || (height - mm(high)).abs() < 0.01;
                assert!(full, "{paper:?} {width} {height}");
                let least = match paper {
                    Paper::Certificate => mm(29.0),
                    _ => mm(34.0),
                };
                assert!(width > least || height > mm(12.9), "{paper:?} {width}");
                if paper != Paper::Label {
                    assert!((left - body.left).abs() < 0.01, "{paper:?} {left}");
                    assert!(top > body.top - 0.01, "{paper:?} {top}");
                }
                for page in &document.pages[1..] {
                    assert_eq!(place(page), None, "{paper:?}");
                }
            }
        }
    }
}

#[test]
fn name_and_address_stand_beside_the_logo_and_nothing_lies_on_it() {
    for logo in [logo(PLAIN), logo(PAINTED)] {
        for (paper, document) in papers(Some(&logo), Sheet::A4) {
            let page = &document.pages[0];
            let [left, top, right, bottom] = place(page).unwrap();
            for item in &page.items {
                let Item::Text(run) = item else { continue };
                let high = run.style.face.cap_height(run.style.size);
                let apart = run.x >= right - 0.01
                    || run.right() <= left + 0.01
                    || run.y <= top
                    || run.y - high >= bottom;
                assert!(apart, "{paper:?}: {run:?} on {left} {top} {right} {bottom}");
            }
            if matches!(paper, Paper::Traveler) {
                continue;
            }
            let issuer = common::delivered().issuer;
            for text in [&issuer.name, &issuer.address.join(", ")] {
                let beside = page.items.iter().any(|item| {
                    matches!(item, Item::Text(run) if run.text == *text
                        && run.y > top
                        && run.y < bottom + 0.01
                        && (run.x > right || run.right() < left))
                });
                assert!(beside, "{paper:?}: {text}");
            }
        }
    }
}

#[test]
fn a_long_name_makes_the_logo_smaller_and_stands_beside_it() {
    let mut sample = common::delivered();
    sample.issuer.logo = Some(logo(PLAIN));
    sample.issuer.name =
        "Hollow Reed and Daughters Small Hole Drilling Company of the Lower Valley, Limited".into();
    sample.issuer.address = vec!["A long address that has no room beside the logo".repeat(3)];
    for paper in [Paper::Certificate, Paper::Quotation] {
        let document = quillbore_paper::document(paper, &[sample.matter(Sheet::A4)]);
        let [left, _, right, _] = place(&document.pages[0]).unwrap();
        assert!(right - left < mm(39.0), "{paper:?}");
        let name = document.pages[0].items.iter().find_map(|item| match item {
            Item::Text(run) if run.text == sample.issuer.name => Some(run),
            _ => None,
        });
        let name = name.unwrap();
        assert!(
            name.x > right && name.style.size >= 5.8,
            "{paper:?} {name:?}"
        );
    }
}

#[test]
fn without_a_logo_the_head_is_as_it_was() {
    // Title, name and address by the measures of the head: 6.4 and 12 mm under its upper edge.
    for (paper, document) in papers(None, Sheet::A4) {
        assert!(place(&document.pages[0]).is_none());
        if matches!(paper, Paper::Label | Paper::Traveler) {
            continue;
        }
        let body = Body::of(Sheet::A4);
        let at = |y: f64| {
            let items = document.pages[0].items.iter();
            let here =
                items.filter(|item| matches!(item, Item::Text(run) if (run.y - y).abs() < 0.01));
            here.count()
        };
        assert_eq!(at(body.top + mm(6.4)), 2, "{paper:?}");
        assert_eq!(at(body.top + mm(12.0)), 1, "{paper:?}");
    }
}

#[test]
fn a_logo_that_cannot_be_drawn_is_told_with_every_paper() {
    let mut sample = common::delivered();
    sample.issuer.logo = Some(svg("<text>Hand and Co</text>"));
    let matter = sample.matter(Sheet::A4);
    for paper in Paper::ALL {
        let document = quillbore_paper::document(*paper, &[matter]);
        assert!(place(&document.pages[0]).is_none());
        let told = unprintable::of(&document, &[matter]);
        let told: Vec<String> = told.iter().map(Unprintable::sentence).collect();
        assert_eq!(
            told,
            [
                "The logo's SVG holds text, and papers set no fonts but their own. Save the text \
                 as paths, or the logo as PNG."
            ]
        );
    }
}

fn meta() -> Meta {
    Meta {
        title: "Sample".to_owned(),
        author: "Cinder Lane Small Hole Works".to_owned(),
        date: common::day(),
    }
}

fn pictures(bytes: &[u8]) -> Vec<(i64, i64, i64)> {
    let pdf = Pdf::load_mem(bytes).unwrap();
    let streams = pdf
        .objects
        .values()
        .filter_map(|object| object.as_stream().ok());
    let pictures = streams.filter(|stream| {
        let kind = stream.dict.get(b"Subtype").and_then(Object::as_name);
        kind.is_ok_and(|kind| kind == b"Image")
    });
    pictures
        .map(|stream| {
            let number = |key: &[u8]| stream.dict.get(key).and_then(Object::as_i64).unwrap();
            // Colors by a profile that is in the paper: an array of its name and the profile.
            let space = stream.dict.get(b"ColorSpace").unwrap();
            let (_, space) = pdf.dereference(space).unwrap();
            let profile = &space.as_array().unwrap()[1];
            let (_, profile) = pdf.dereference(profile).unwrap();
            let profile = &profile.as_stream().unwrap().dict;
            let channels = profile.get(b"N").and_then(Object::as_i64).unwrap();
            (number(b"Width"), number(b"Height"), channels)
        })
        .collect()
}

#[test]
fn a_paper_with_a_logo_has_the_same_bytes_each_time() {
    let gray = png((20, 40), ColorType::Grayscale, BitDepth::Eight, &[0; 800]);
    let red = png(
        (2, 1),
        ColorType::Rgb,
        BitDepth::Eight,
        &[200, 0, 0, 9, 9, 9],
    );
    for (logo, expected) in [
        (logo(PLAIN), vec![]),
        (logo(PAINTED), vec![(661, 331, 3)]),
        (gray, vec![(20, 40, 1)]),
        (red, vec![(2, 1, 3)]),
    ] {
        for (paper, document) in papers(Some(&logo), Sheet::A4) {
            let bytes = pdf::write(&document, &meta()).unwrap();
            // Read anew, and not from memory.
            let anew = Logo::new(logo.bytes().to_vec()).unwrap();
            let other = png((3, 3), ColorType::Grayscale, BitDepth::Eight, &[0; 9]);
            assert!(DrawnLogo::of(&other).is_ok());
            let (_, again) = papers(Some(&Arc::new(anew)), Sheet::A4)
                .into_iter()
                .find(|(other, _)| *other == paper)
                .unwrap();
            assert!(bytes == pdf::write(&again, &meta()).unwrap(), "{paper:?}");
            assert_eq!(pictures(&bytes), expected, "{paper:?}");
        }
    }
}

#[test]
fn a_picture_on_many_pages_is_in_the_pdf_once() {
    let red = png(
        (2, 1),
        ColorType::Rgb,
        BitDepth::Eight,
        &[200, 0, 0, 9, 9, 9],
    );
    let wide = png(
        (1, 2),
        ColorType::Rgb,
        BitDepth::Eight,
        &[200, 0, 0, 9, 9, 9],
    );
    let (red, wide) = (DrawnLogo::of(&red).unwrap(), DrawnLogo::of(&wide).unwrap());
    let page = |logo: &DrawnLogo| {
        let mut page = Page::default();
        logo.set(&mut page, (20.0, 20.0), (50.0, 50.0));
        page
    };
    let document = Document {
        sheet: Sheet::A4,
        pages: vec![page(&red), page(&red), page(&wide)],
        is_cut: false,
        language: quillbore_job::Language::English,
    };
    let bytes = pdf::write(&document, &meta()).unwrap();
    let mut found = pictures(&bytes);
    found.sort();
    let rgb = || 3;
    // The same colors in another shape are another picture.
    assert_eq!(found, [(1, 2, rgb()), (2, 1, rgb())]);
}
