//! What is looked at before a file is read: what its streams would swell to, how many parts it has.
//!
//! The library unpacks whole streams and lays out all pages at once. A file of a few kilobytes could so take all
//! memory there is; what it says of itself is no measure, so that each stream is unpacked here first, and counted.

use std::ops::Range;

use hayro_syntax::Filter;
use hayro_syntax::object::{Array, Dict, MaybeRef, Name, Object};
use hayro_syntax::reader::{Reader, ReaderContext, ReaderExt as _};
use memchr::memmem;

use super::error::PdfError;
use super::pack::{inflated, unpacked};
use super::reach::reach;

/// What becomes of pictures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Pictures {
    /// They are not read, so that those that are packed are emptied.
    Emptied,
    /// They are shown, unless they are larger than anybody needs.
    Kept,
}

/// A file that may be read.
pub(super) struct Guarded {
    /// Its bytes, with pictures emptied.
    pub(super) bytes: Vec<u8>,
    /// Pictures that were too large and are left out.
    pub(super) left_out: usize,
    /// It is locked: what its streams unpack to is only seen once they are unlocked.
    pub(super) is_locked: bool,
}

/// How much a file may unpack to: so many times its size, and so much beside.
pub(super) const fn most_unpacked(bytes: usize) -> u64 {
    16 * bytes as u64 + 16_000_000
}

/// A picture may unpack to this: a large sheet in colors.
const MOST_PICTURE: u64 = 300_000_000;

/// Pages, fonts and all other parts of a file are written in such brackets.
const fn most_parts(bytes: usize) -> usize {
    let most = 15_000 + bytes / 64;
    if most < 150_000 { most } else { 150_000 }
}

/// A file says within so many bytes that it is a PDF.
const HEAD: usize = 1024;

/// Whether bytes begin as a PDF does.
pub(super) fn begins_as_pdf(bytes: &[u8]) -> bool {
    let head = &bytes[..bytes.len().min(HEAD)];
    memmem::find(head, b"%PDF-").is_some()
}

/// Looks a file over.
pub(super) fn guarded(
    bytes: &[u8],
    pictures: Pictures,
    cancel: &dyn Fn() -> bool,
) -> Result<Guarded, PdfError> {
    if !begins_as_pdf(bytes) {
        return Err(PdfError::NotPdf);
    }
    let mut parts = memmem::find_iter(bytes, b"<<").count();
    let most_reached = 8 * most_unpacked(bytes.len());
    if parts > most_parts(bytes.len()) || reach(bytes, most_reached) > most_reached {
        return Err(PdfError::TooManyParts);
    }
    let streams = streams(bytes, cancel)?;
    let is_locked = has_name(bytes, b"Encrypt");
    if is_locked {
        look_at_locked(bytes, &streams)?;
    }
    let most = most_unpacked(bytes.len());
    let (mut all, mut emptied, mut left_out) = (0, Vec::new(), 0);
    for stream in streams.iter().filter(|_| !is_locked) {
        if cancel() {
            return Err(PdfError::Cancelled);
        }
        let data = &bytes[stream.data.clone()];
        let left = most.saturating_sub(all);
        if stream.is_picture {
            let is_kept = pictures == Pictures::Kept
                && stream
                    .filters
                    .as_ref()
                    .is_some_and(|filters| unpacked(data, filters, MOST_PICTURE).is_some());
            if !is_kept {
                emptied.push(stream.data.clone());
                left_out += 1;
            }
            continue;
        }
        let filters = stream.filters.as_deref().ok_or(PdfError::Swells)?;
        all += unpacked(data, filters, left).ok_or(PdfError::Swells)?;
        if stream.holds_parts {
            inflated(data, left, |part| {
                parts += memmem::find_iter(part, b"<<").count();
            });
        }
    }
    if parts > most_parts(bytes.len()) {
        return Err(PdfError::TooManyParts);
    }
    let mut bytes = bytes.to_vec();
    for data in emptied {
        // No filter makes anything of these.
        let ends = data.end.min(data.start + EMPTIED);
        bytes[data.start..ends].fill(b'>');
    }
    Ok(Guarded {
        bytes,
        left_out,
        is_locked,
    })
}

/// So many bytes say how a stream is packed.
const EMPTIED: usize = 8;

/// A stream of the file, by what is said before it.
struct Stream {
    /// Where its data begin; they go on to the end of the file.
    data: Range<usize>,
    /// Where the next stream's data end at the latest.
    ends: usize,
    /// How it is packed; `None` where another part of the file says that.
    filters: Option<Vec<Filter>>,
    is_picture: bool,
    /// It may hold other parts of the file.
    holds_parts: bool,
    /// It may say where the parts of the file are.
    is_index: bool,
}

/// All streams, in the file's order.
fn streams(bytes: &[u8], cancel: &dyn Fn() -> bool) -> Result<Vec<Stream>, PdfError> {
    let mut found: Vec<Stream> = Vec::new();
    let mut effort = 0;
    let ends: Vec<usize> = memmem::find_iter(bytes, b"endstream").collect();
    let mut end = ends.iter().copied().peekable();
    for (number, at) in memmem::find_iter(bytes, b"stream").enumerate() {
        if number % 1024 == 0 && cancel() {
            return Err(PdfError::Cancelled);
        }
        let behind = bytes.get(at + 6).copied();
        let is_end = at >= 3 && &bytes[at - 3..at] == b"end";
        if is_end || !matches!(behind, Some(b'\r' | b'\n')) {
            continue;
        }
        let before = bytes[..at].trim_ascii_end();
        if !before.ends_with(b">>") {
            if is_behind_remark(before) {
                return Err(PdfError::Damaged);
            }
            continue;
        }
        while end.next_if(|end| *end < at).is_some() {}
        let ends = end.peek().copied().unwrap_or(bytes.len());
        // A reader looks for the end of a stream from its beginning on.
        effort += (ends - at) as u64;
        let dict = dict_before(bytes, at, &mut effort);
        if effort > 8 * most_unpacked(bytes.len()) {
            return Err(PdfError::TooManyParts);
        }
        let line_end = if bytes[at + 6..].starts_with(b"\r\n") {
            2
        } else {
            1
        };
        let data = at + 6 + line_end..bytes.len();
        found.push(match dict {
            Some(dict) => Stream {
                data,
                ends,
                filters: filters(&dict),
                is_picture: is_named(&dict, b"Subtype", b"Image"),
                holds_parts: dict.contains_key(b"N") && dict.contains_key(b"First"),
                is_index: dict.contains_key(b"W") && dict.contains_key(b"Size"),
            },
            None => return Err(PdfError::Damaged),
        });
    }
    Ok(found)
}

/// Whether a remark stands between brackets and what follows them: no program writes one there, and whoever looks
/// for the brackets alone would pass it by.
fn is_behind_remark(before: &[u8]) -> bool {
    let tail = &before[before.len().saturating_sub(256)..];
    memmem::rfind(tail, b">>").is_some_and(|at| tail[at + 2..].trim_ascii_start().starts_with(b"%"))
}

/// The brackets that end before a stream's data, and what stands in them.
fn dict_before<'a>(bytes: &'a [u8], at: usize, effort: &mut u64) -> Option<Dict<'a>> {
    let from = at.saturating_sub(LONGEST_DICT);
    let before = &bytes[from..at];
    let opened = memmem::rfind_iter(before, b"<<").take(MOST_NESTED);
    for begins in opened {
        let part = &before[begins..];
        *effort += part.len() as u64;
        let mut reader = Reader::new(part);
        let Some(dict) = reader.read_with_context::<Dict<'a>>(&ReaderContext::dummy()) else {
            continue;
        };
        if part[reader.offset()..].trim_ascii().is_empty() {
            return Some(dict);
        }
    }
    None
}

/// What is said before a stream is no longer.
const LONGEST_DICT: usize = 100_000;

/// And has no more brackets in it.
const MOST_NESTED: usize = 400;

/// How a stream is packed; `None` where that stands in another part of the file.
fn filters(dict: &Dict<'_>) -> Option<Vec<Filter>> {
    let mut filters = Vec::new();
    for key in [b"F".as_slice(), b"Filter"] {
        let Some(said) = dict.get_raw::<Object<'_>>(key) else {
            continue;
        };
        match said {
            MaybeRef::Ref(_) => return None,
            MaybeRef::NotRef(Object::Name(name)) => filters.extend(filter(&name)),
            MaybeRef::NotRef(Object::Array(names)) => of_array(&names, &mut filters)?,
            MaybeRef::NotRef(_) => {}
        }
    }
    Some(filters)
}

fn of_array(names: &Array<'_>, filters: &mut Vec<Filter>) -> Option<()> {
    for name in names.raw_iter() {
        match name {
            MaybeRef::Ref(_) => return None,
            MaybeRef::NotRef(Object::Name(name)) => filters.extend(filter(&name)),
            MaybeRef::NotRef(_) => {}
        }
    }
    Some(())
}

fn filter(name: &Name<'_>) -> Option<Filter> {
    Some(match name.as_str() {
        "FlateDecode" | "Fl" => Filter::FlateDecode,
        "ASCII85Decode" | "A85" => Filter::Ascii85Decode,
        "ASCIIHexDecode" | "AHx" => Filter::AsciiHexDecode,
        "LZWDecode" | "LZW" => Filter::LzwDecode,
        "RunLengthDecode" | "RL" => Filter::RunLengthDecode,
        "CCITTFaxDecode" | "CCF" => Filter::CcittFaxDecode,
        "JBIG2Decode" => Filter::Jbig2Decode,
        "DCTDecode" | "DCT" => Filter::DctDecode,
        "JPXDecode" => Filter::JpxDecode,
        "Crypt" => Filter::Crypt,
        _ => return None,
    })
}

fn is_named(dict: &Dict<'_>, key: &[u8], name: &[u8]) -> bool {
    matches!(dict.get_raw::<Name<'_>>(key), Some(MaybeRef::NotRef(said)) if said.as_ref() == name)
}

/// Of a locked file no stream is seen through. Where parts of the file lie in streams these are unpacked as soon
/// as it is opened, so that none may be so long that it could come to too much.
fn look_at_locked(bytes: &[u8], streams: &[Stream]) -> Result<(), PdfError> {
    let has_parts = has_name(bytes, b"ObjStm") || streams.iter().any(|stream| stream.is_index);
    let most = most_unpacked(bytes.len());
    let could =
        |stream: &Stream| (stream.ends - stream.data.start.min(stream.ends)) as u64 * MOST_PACKED;
    if has_parts && streams.iter().any(|stream| could(stream) > most) {
        return Err(PdfError::LockedDark);
    }
    Ok(())
}

/// Nothing is packed closer by the ways that such parts are packed in (zlib, "Technical Details").
const MOST_PACKED: u64 = 1032;

/// Whether a name stands in the file, however its letters are written.
fn has_name(bytes: &[u8], name: &[u8]) -> bool {
    memchr::memchr_iter(b'/', bytes).any(|at| {
        let mut rest = &bytes[at + 1..];
        name.iter().all(|letter| {
            let (read, length) = match rest {
                [b'#', high, low, ..] => {
                    let digit = |digit: u8| char::from(digit).to_digit(16);
                    let code = digit(*high)
                        .zip(digit(*low))
                        .map(|(high, low)| high << 4 | low);
                    (code.and_then(|code| u8::try_from(code).ok()), 3)
                }
                [letter, ..] => (Some(*letter), 1),
                [] => (None, 0),
            };
            rest = &rest[length..];
            read == Some(*letter)
        })
    })
}
