//! Drawings read: a plate with 10,000 holes and as many callouts, each hole by itself and all in one block.
#![expect(clippy::unwrap_used, reason = "a bench fails by panic")]

use std::fmt::Write as _;
use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use quillbore_intake::dxf::read;

const COLUMNS: usize = 100;

fn drawing(blocks: &str, entities: &str) -> Vec<u8> {
    format!(
        "0\nSECTION\n2\nBLOCKS\n{blocks}0\nENDSEC\n0\nSECTION\n2\nENTITIES\n{entities}0\nENDSEC\n0\nEOF\n"
    )
    .into_bytes()
}

/// Holes in rows of a hundred, a callout beside each, a rectangle around all.
fn plate() -> Vec<u8> {
    let mut entities = String::from(
        "0\nLWPOLYLINE\n8\nPART\n70\n1\n10\n-5\n20\n-5\n10\n1000\n20\n-5\n10\n1000\n20\n1000\n10\n-5\n20\n1000\n",
    );
    for at in 0..COLUMNS * COLUMNS {
        let (x, y) = (at % COLUMNS * 10, at / COLUMNS * 10);
        write!(
            entities,
            "0\nCIRCLE\n5\n{at:X}\n8\nHOLES\n10\n{x}.25\n20\n{y}.5\n40\n0.4\n\
             0\nTEXT\n8\nTEXTS\n10\n{x}.75\n20\n{y}.5\n40\n1\n1\n%%c0.8 %%p0.02 THRU\n"
        )
        .unwrap();
    }
    drawing("", &entities)
}

fn read_drawings(criterion: &mut Criterion) {
    let plate = plate();
    let block = "0\nBLOCK\n2\nSPOT\n10\n0\n20\n0\n0\nCIRCLE\n10\n1\n20\n1\n40\n0.4\n0\nENDBLK\n";
    let insert = "0\nINSERT\n2\nSPOT\n10\n0\n20\n0\n70\n100\n71\n100\n44\n10\n45\n10\n";
    let array = drawing(block, insert);
    for (name, bytes) in [
        ("10,000 holes with callouts", plate),
        ("10,000 holes in one array", array),
    ] {
        assert_eq!(
            read(&bytes, &|_| false).unwrap().holes.len(),
            COLUMNS * COLUMNS
        );
        criterion.bench_function(name, |bench| {
            bench.iter(|| read(black_box(&bytes), &|_| false));
        });
    }
}

criterion_group!(benches, read_drawings);
criterion_main!(benches);
