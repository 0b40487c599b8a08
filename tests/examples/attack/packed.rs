//! Packed files changed inside: a part changed as any bytes are, left out, doubled, or given something that
//! means much to a reader of sheets.

use std::io::{Cursor, Read as _, Write as _};

use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipArchive, ZipWriter};

use crate::change::changed_bytes;
use crate::seeds::Seeds;

/// A part by its name, unpacked.
pub(crate) type Part = (String, Vec<u8>);

/// No part is unpacked any further.
const LARGEST: u64 = 1_000_000;

/// Pieces of sheets that ask for more than a hole table has, or for what isn't there.
const PIECES: &[&str] = &[
    " r=\"XFD1048576\"",
    " r=\"A1048577\"",
    " s=\"65535\"",
    " t=\"s\"",
    " t=\"inlineStr\"",
    " t=\"d\"",
    " t=\"b\"",
    " t=\"e\"",
    " ref=\"A1:XFD1048576\"",
    " uniqueCount=\"18446744073709551615\"",
    " uniqueCount=\"4000000000\"",
    "<c><v>1</v></c>",
    "<c r=\"B2\" t=\"s\"><v>99999</v></c>",
    "<c r=\"C3\"><f t=\"shared\" si=\"4294967295\" ref=\"A1:XFD1048576\">A1</f></c>",
    "<c r=\"D4\"><f>1/0</f></c>",
    "<row r=\"4294967295\">",
    "<row r=\"1\"><c r=\"A1\" t=\"str\"><v>thru</v></c></row>",
    "<mergeCells><mergeCell ref=\"A1:XFD1048576\"/></mergeCells>",
    "<mergeCell ref=\"B9:A1\"/>",
    "<dimension ref=\"A1:XFD1048576\"/>",
    "<sheet name=\"A\" sheetId=\"1\" r:id=\"rId1\"/>",
    "<numFmt numFmtId=\"164\" formatCode=\"0.00&quot; mm&quot;\"/>",
    "<xf numFmtId=\"14\"/>",
    " table:number-rows-repeated=\"4294967295\"",
    " table:number-columns-repeated=\"4294967295\"",
    " table:number-rows-repeated=\"-1\"",
    " table:number-rows-spanned=\"4294967295\"",
    " table:formula=\"of:=1\"",
    " office:value=\"1e308\"",
    " office:value-type=\"date\"",
    " office:value-type=\"float\"",
    "<table:table-cell/>",
    "<table:covered-table-cell table:formula=\"x\"/>",
    "<table:table-row>",
    "</table:table-row>",
    "<table:table table:name=\"A\">",
    "</table:table>",
    "<office:annotation>",
    "<text:p>4x \u{2300}0.8 THRU</text:p>",
    "<text:s text:c=\"4294967295\"/>",
    "<![CDATA[",
    "]]>",
    "<!DOCTYPE a [<!ENTITY b \"b\">]>",
    "&#x110000;",
    "&lt",
    "/>",
    "</",
];

/// The parts of packed bytes; `None` where they are not packed, or a part can't be unpacked.
pub(crate) fn parts(bytes: &[u8]) -> Option<Vec<Part>> {
    let mut archive = ZipArchive::new(Cursor::new(bytes)).ok()?;
    let mut parts = Vec::new();
    for at in 0..archive.len() {
        let part = archive.by_index(at).ok()?;
        let name = part.name().ok()?.into_owned();
        let mut unpacked = Vec::new();
        part.take(LARGEST).read_to_end(&mut unpacked).ok()?;
        parts.push((name, unpacked));
    }
    (!parts.is_empty()).then_some(parts)
}

/// Changes one to some of the parts.
pub(crate) fn change(random: &mut fastrand::Rng, seeds: &Seeds, parts: &mut Vec<Part>) {
    let changes = 1 + random.usize(..4) * usize::from(random.bool());
    for _ in 0..changes {
        if parts.is_empty() {
            return;
        }
        let at = random.usize(..parts.len());
        match random.u8(..20) {
            0 => drop(parts.remove(at)),
            1 => {
                let (name, _) = parts[random.usize(..parts.len())].clone();
                parts[at].0 = name;
            }
            2 => {
                let other = seeds.one(random).to_vec();
                let other = self::parts(&other).unwrap_or_default();
                parts.extend(other.into_iter().take(1));
            }
            3..=11 => {
                let bytes = std::mem::take(&mut parts[at].1);
                parts[at].1 = changed_bytes(random, seeds, bytes);
            }
            _ => {
                let piece = PIECES[random.usize(..PIECES.len())];
                put_piece(random, &mut parts[at].1, piece);
            }
        }
    }
}

/// Puts a piece where it may be understood: attributes at the end of a tag's name, tags before another tag.
fn put_piece(random: &mut fastrand::Rng, bytes: &mut Vec<u8>, piece: &str) {
    let from = random.usize(..=bytes.len());
    let is_wanted = |byte: &u8| match piece.as_bytes() {
        [b' ', ..] => *byte == b' ' || *byte == b'>',
        _ => *byte == b'<',
    };
    let found = bytes[from..].iter().position(is_wanted);
    let at = found.map_or(bytes.len(), |found| from + found);
    bytes.splice(at..at, piece.bytes());
}

/// Packs parts as they are; of several with one name the first.
pub(crate) fn packed(parts: &[Part]) -> Vec<u8> {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, bytes) in parts {
        let options = SimpleFileOptions::default().compression_method(CompressionMethod::Deflated);
        if zip.start_file(name.as_str(), options).is_ok() {
            let written = zip.write_all(bytes);
            assert!(written.is_ok(), "memory takes all: {written:?}");
        }
    }
    zip.finish().map(Cursor::into_inner).unwrap_or_default()
}
