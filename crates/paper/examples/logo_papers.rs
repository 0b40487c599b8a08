//! Writes every paper of an invented job with an invented logo, as PDF, into the folder that
//! `QUILLBORE_PAPERS` names: to be looked at.

#[path = "../tests/common/mod.rs"]
mod common;

use std::path::Path;

use common::{PAINTED, PLAIN, logo, png};
use png::{BitDepth, ColorType};
use quillbore_job::Paper;
use quillbore_paper::Sheet;
use quillbore_paper::pdf::{self, Meta};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let folder = std::env::var("QUILLBORE_PAPERS")?;
    let folder = Path::new(&folder);
    std::fs::create_dir_all(folder)?;
    let mut ring = Vec::new();
    for (x, y) in (0..200).flat_map(|y| (0..200).map(move |x| (x, y))) {
        let far = f64::from((x - 100) * (x - 100) + (y - 100) * (y - 100)).sqrt();
        // A ring with a soft edge, seen through outside of it.
        let seen = ((far - 50.0).min(96.0 - far) / 2.0).clamp(0.0, 1.0);
        ring.extend([20, 60, 110 + (y / 2) as u8, (seen * 255.0) as u8]);
    }
    let ring = png((200, 200), ColorType::Rgba, BitDepth::Eight, &ring);
    let logos = [
        ("none", None),
        ("outlines", Some(logo(PLAIN))),
        ("painted", Some(logo(PAINTED))),
        ("png", Some(ring)),
    ];
    for (name, logo) in logos {
        let mut sample = common::delivered();
        sample.issuer.logo = logo;
        for paper in Paper::ALL {
            for sheet in [Sheet::A4, Sheet::Letter] {
                let document = quillbore_paper::document(*paper, &[sample.matter(sheet)]);
                let meta = Meta {
                    title: format!("{} with a logo", paper.key()),
                    author: sample.issuer.name.clone(),
                    date: common::day(),
                };
                let file = format!("{}-{name}-{sheet:?}.pdf", paper.key());
                std::fs::write(folder.join(file), pdf::write(&document, &meta)?)?;
            }
        }
    }
    Ok(())
}
