//! A drawing on A3 with two thousand texts, every fourth of which is a callout: read, and shown.
#![expect(clippy::unwrap_used, reason = "a bench fails by panic")]

use std::fmt::Write as _;
use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use quillbore_intake::pdf;

const TEXTS: usize = 2_000;

/// One page with its texts in forty columns.
fn drawing() -> Vec<u8> {
    let mut content = String::new();
    for at in 0..TEXTS {
        let (x, y) = (20 + 28 * (at % 40), 20 + 16 * (at / 40));
        let size = 300 + at;
        let text = match at % 4 {
            0 => format!("4X \\3300.{size} THRU"),
            1 => format!("NOTE {at}"),
            _ => format!("{at}.5"),
        };
        writeln!(
            content,
            "BT /F 3 Tf {x} {y} Td ({text}) Tj ET {x} {y} m {y} {x} l S"
        )
        .unwrap();
    }
    format!(
        "%PDF-1.7\n1 0 obj<</Type/Catalog/Pages 2 0 R>>endobj\n2 0 obj<</Type/Pages/Kids[3 0 R]/Count 1>>endobj\n\
         3 0 obj<</Type/Page/MediaBox[0 0 1191 842]/Contents 4 0 R/Resources<</Font<</F 5 0 R>>>>>>endobj\n\
         4 0 obj<</Length {}>>stream\n{content}\nendstream endobj\n\
         5 0 obj<</Type/Font/Subtype/Type1/BaseFont/Helvetica/Encoding/WinAnsiEncoding>>endobj\n\
         trailer<</Root 1 0 R/Size 6>>\n",
        content.len() + 1
    )
    .into_bytes()
}

fn of_a_drawing(c: &mut Criterion) {
    let bytes = drawing();
    let paged = pdf::read(&bytes, &|_| false).unwrap();
    assert_eq!(paged.pages[0].callouts.len(), TEXTS / 4);
    let mut group = c.benchmark_group("pdf");
    group.sample_size(20);
    group.bench_function("2,000 texts", |b| {
        b.iter(|| pdf::read(black_box(&bytes), &|_| false).unwrap());
    });
    group.bench_function("two million pixels", |b| {
        b.iter(|| pdf::picture(black_box(&bytes), 0, 2_000_000, &|| false).unwrap());
    });
    group.finish();
}

criterion_group!(benches, of_a_drawing);
criterion_main!(benches);
