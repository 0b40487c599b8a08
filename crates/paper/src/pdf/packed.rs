//! The objects of a PDF that are not streams, put together in compressed streams (ISO 32000-1, 7.5.7 and
//! 7.5.8): the structure of a long paper is thousands of them.

use std::io::Write as _;
use std::ops::Range;

use flate2::Compression;
use flate2::write::ZlibEncoder;

/// Objects in one stream: a reader unpacks a stream to get at one of them.
const TOGETHER: usize = 200;

/// Bytes of a row in the table of objects: its kind, where it is, its place there.
const ROW: usize = 7;

/// Before a row that is told by its difference from the one above (PNG, 9.2).
const UP: u8 = 2;

/// Where an object is in the packed document.
#[derive(Clone, Copy)]
enum Place {
    Free,
    /// Bytes from the beginning.
    At(usize),
    /// The stream that it is in, and its place there.
    In(usize, usize),
}

/// The same document packed; `None` where it isn't built as the engine builds them: with one table of
/// objects, each from its place to the next.
pub(super) fn packed(document: &[u8]) -> Option<Vec<u8>> {
    let table = Table::of(document)?;
    let mut places = vec![Place::Free; table.size];
    let first = table.spans.first()?.1.start;
    let mut out = document[..first].to_vec();
    let mut small: Vec<(usize, &[u8])> = Vec::new();
    for (number, span) in &table.spans {
        let body = body(&document[span.clone()], *number)?;
        if body.ends_with(b"endstream") {
            *places.get_mut(*number)? = Place::At(out.len());
            object(&mut out, *number, body);
        } else {
            small.push((*number, body));
        }
    }
    for together in small.chunks(TOGETHER) {
        let stream = places.len();
        for (index, (number, _)) in together.iter().enumerate() {
            *places.get_mut(*number)? = Place::In(stream, index);
        }
        places.push(Place::At(out.len()));
        object(&mut out, stream, &stream_of(together)?);
    }
    let start = out.len();
    let number = places.len();
    places.push(Place::At(start));
    object(&mut out, number, &table_of(&places, table.trailer)?);
    out.extend(format!("startxref\n{start}\n%%EOF").bytes());
    Some(out)
}

/// What the document says of its objects at its end.
struct Table<'a> {
    /// Objects, the free one included.
    size: usize,
    /// Number and bytes of each, as they follow each other.
    spans: Vec<(usize, Range<usize>)>,
    /// What stands in the trailer's dictionary beside the number of objects.
    trailer: &'a str,
}

impl<'a> Table<'a> {
    fn of(document: &'a [u8]) -> Option<Self> {
        let end = document.len().saturating_sub(64);
        let end = end + find(&document[end..], b"startxref")?;
        let last = text(&document[end..])?.trim_end().strip_suffix("%%EOF")?;
        let start: usize = last.strip_prefix("startxref")?.trim().parse().ok()?;
        let whole = text(document.get(start..end)?)?;
        let (table, trailer) = whole.strip_prefix("xref")?.split_once("trailer")?;
        let mut words = table.split_whitespace();
        let (first, size) = (words.next()?, words.next()?.parse().ok()?);
        let rows: Vec<&str> = words.collect();
        if first != "0" || rows.len() != size * 3 {
            return None;
        }
        let mut starts = Vec::new();
        for (number, row) in rows.chunks(3).enumerate() {
            if row[2] == "n" {
                starts.push((row[0].parse::<usize>().ok()?, number));
            }
        }
        starts.sort_unstable();
        let ends = starts.iter().skip(1).map(|(at, _)| *at).chain([start]);
        let spans = starts.iter().zip(ends);
        let spans = spans
            .map(|((at, number), end)| (*number, *at..end))
            .collect();
        let dictionary = trailer.trim().strip_prefix("<<")?.strip_suffix(">>")?;
        let trailer = dictionary.strip_prefix(&format!("/Size {size}"))?;
        Some(Self {
            size,
            spans,
            trailer,
        })
    }
}

fn text(bytes: &[u8]) -> Option<&str> {
    std::str::from_utf8(bytes).ok()
}

fn find(bytes: &[u8], what: &[u8]) -> Option<usize> {
    bytes.windows(what.len()).position(|window| window == what)
}

/// What stands between the words that begin and end an object.
fn body(object: &[u8], number: usize) -> Option<&[u8]> {
    let begun = object.strip_prefix(format!("{number} 0 obj").as_bytes())?;
    let ended = begun.trim_ascii().strip_suffix(b"endobj")?;
    Some(ended.trim_ascii())
}

fn object(out: &mut Vec<u8>, number: usize, body: &[u8]) {
    out.extend(format!("{number} 0 obj\n").bytes());
    out.extend(body);
    out.extend(b"\nendobj\n\n");
}

/// Objects in a stream: the number and the place of each, then all of them.
fn stream_of(objects: &[(usize, &[u8])]) -> Option<Vec<u8>> {
    let (mut head, mut bodies) = (String::new(), Vec::new());
    for (number, body) in objects {
        head += &format!("{number} {} ", bodies.len());
        bodies.extend_from_slice(body);
        bodies.push(b' ');
    }
    let about = format!("/Type/ObjStm/N {}/First {}", objects.len(), head.len());
    compressed(&about, &[head.as_bytes(), &bodies].concat())
}

/// The table of all objects, as a stream.
fn table_of(places: &[Place], trailer: &str) -> Option<Vec<u8>> {
    let mut rows = Vec::new();
    let mut above = [0; ROW];
    for place in places {
        let (kind, where_is, index) = match *place {
            Place::Free => (0, 0, u16::MAX.into()),
            Place::At(at) => (1, at, 0),
            Place::In(stream, index) => (2, stream, index),
        };
        let mut row = [0; ROW];
        row[0] = kind;
        row[1..5].copy_from_slice(&u32::try_from(where_is).ok()?.to_be_bytes());
        row[5..].copy_from_slice(&u16::try_from(index).ok()?.to_be_bytes());
        // What a row has beyond the one above it, since most differ by one.
        rows.push(UP);
        rows.extend(
            row.iter()
                .zip(above)
                .map(|(byte, above)| byte.wrapping_sub(above)),
        );
        above = row;
    }
    let size = places.len();
    let about = format!(
        "/Type/XRef/Size {size}/W[1 4 2]/DecodeParms<</Predictor 12/Columns {ROW}>>{trailer}"
    );
    compressed(&about, &rows)
}

fn compressed(about: &str, bytes: &[u8]) -> Option<Vec<u8>> {
    let mut packer = ZlibEncoder::new(Vec::new(), Compression::default());
    packer.write_all(bytes).ok()?;
    let packed = packer.finish().ok()?;
    let length = packed.len();
    let mut out = format!("<<{about}/Filter/FlateDecode/Length {length}>>\nstream\n").into_bytes();
    out.extend(packed);
    out.extend(b"\nendstream");
    Some(out)
}

#[cfg(test)]
mod tests {
    use std::fmt::Write as _;

    use lopdf::Document;

    use super::*;

    /// A document as the engine builds them: one page with a stream, and so many objects more.
    fn plain(more: usize) -> Vec<u8> {
        let mut objects = vec![
            "<</Type/Catalog/Pages 2 0 R>>".to_owned(),
            "<</Type/Pages/Count 1/Kids[3 0 R]>>".to_owned(),
            "<</Type/Page/Parent 2 0 R/MediaBox[0 0 9 9]/Contents 4 0 R>>".to_owned(),
            "<</Length 9>>\nstream\n0 0 9 9 re\nendstream".to_owned(),
        ];
        objects.extend((0..more).map(|number| format!("<</Number {number}/Name(endobj stream)>>")));
        let mut out = String::from("%PDF-1.7\n\n");
        let mut rows = String::from("0000000000 65535 f\r\n");
        for (index, body) in objects.iter().enumerate() {
            write!(rows, "{:010} 00000 n\r\n", out.len()).unwrap_or_default();
            write!(out, "{} 0 obj\n{body}\nendobj\n\n", index + 1).unwrap_or_default();
        }
        let (start, size) = (out.len(), objects.len() + 1);
        write!(
            out,
            "xref\n0 {size}\n{rows}trailer\n<</Size {size}/Root 1 0 R/ID[(a)(b)]>>\nstartxref\n{start}\n%%EOF"
        )
        .unwrap_or_default();
        out.into_bytes()
    }

    /// Every object is the one that it was, and a document of many is smaller.
    #[test]
    fn packed_objects_are_those_that_were_packed() {
        for more in [0, 1, TOGETHER - 3, TOGETHER - 2, 1000] {
            let before = plain(more);
            let after = packed(&before).unwrap_or_default();
            let [old, new] = [&before, &after].map(|bytes| Document::load_mem(bytes));
            let (Ok(old), Ok(new)) = (old, new) else {
                panic!("{more} more objects can't be read back");
            };
            for (id, object) in &old.objects {
                assert_eq!(new.objects.get(id), Some(object), "{id:?} of {more}");
            }
            let id = |document: &Document| document.trailer.get(b"ID").cloned().ok();
            assert_eq!(id(&old), id(&new));
            assert_eq!(old.get_pages(), new.get_pages());
            assert_eq!(after, packed(&before).unwrap_or_default());
        }
        let many = plain(1000);
        let small = packed(&many).map_or(usize::MAX, |bytes| bytes.len());
        assert!(small * 5 < many.len(), "{small} of {}", many.len());
    }

    /// What isn't built so is left alone: cut anywhere, packed already, or none.
    #[test]
    fn what_is_built_otherwise_is_left_alone() {
        let whole = plain(3);
        for length in 0..whole.len() {
            assert!(packed(&whole[..length]).is_none(), "{length}");
        }
        let once = packed(&whole).unwrap_or_default();
        assert!(packed(&once).is_none());
        assert!(packed(b"no document at all").is_none());
        let other = String::from_utf8_lossy(&whole).replace("4 0 obj", "7 0 obj");
        assert!(packed(other.as_bytes()).is_none());
    }
}
