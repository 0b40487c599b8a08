//! What a packed stream comes to, counted without keeping it.

use std::borrow::Cow;

use flate2::{Decompress, FlushDecompress, Status};
use hayro_syntax::Filter;

/// How many bytes a stream has once its filters are undone, each step of them counted; `None` where that is more
/// than `most`, or can't be told.
///
/// The data may go on behind the stream's own end: what packs it has an end of its own.
pub(super) fn unpacked(data: &[u8], filters: &[Filter], most: u64) -> Option<u64> {
    let mut data = Cow::Borrowed(data);
    let mut all = 0;
    for (at, filter) in filters.iter().enumerate() {
        let left = most.checked_sub(all)?;
        let is_last = at + 1 == filters.len();
        match filter {
            Filter::FlateDecode => {
                let mut kept = (!is_last).then(Vec::new);
                all += inflated(&data, left, |part| {
                    if let Some(kept) = &mut kept {
                        kept.extend_from_slice(part);
                    }
                })?;
                data = Cow::Owned(kept.unwrap_or_default());
            }
            Filter::Ascii85Decode | Filter::AsciiHexDecode => {
                let is_85 = matches!(filter, Filter::Ascii85Decode);
                let kept = if is_85 {
                    of_85(&data, left)?
                } else {
                    of_hex(&data, left)?
                };
                all += kept.len() as u64;
                data = Cow::Owned(kept);
            }
            // Old ways to pack, behind which nothing was ever packed again.
            Filter::LzwDecode if is_last => all += of_lzw(&data, left)?,
            Filter::RunLengthDecode if is_last => all += of_runs(&data, left)?,
            Filter::LzwDecode | Filter::RunLengthDecode => return None,
            Filter::Crypt => {}
            // A picture, which is read by its own library and only where it is shown.
            Filter::CcittFaxDecode
            | Filter::Jbig2Decode
            | Filter::DctDecode
            | Filter::JpxDecode => return Some(all),
        }
    }
    (all <= most).then_some(all)
}

/// Gives what is inflated part by part; how much it was.
pub(super) fn inflated(data: &[u8], most: u64, mut part: impl FnMut(&[u8])) -> Option<u64> {
    let is_headed = data.len() >= 2
        && data[0] & 0xf == 8
        && (u16::from(data[0]) << 8 | u16::from(data[1])).is_multiple_of(31)
        && data[1] & 0x20 == 0;
    // By the check sum behind it nothing is told: readers go without.
    let data = if is_headed { &data[2..] } else { data };
    let mut inflate = Decompress::new(false);
    let mut room = vec![0; 1 << 15];
    loop {
        let (before, read) = (inflate.total_out(), inflate.total_in());
        let rest = data.get(usize::try_from(read).ok()?..)?;
        let status = inflate.decompress(rest, &mut room, FlushDecompress::None);
        let made = usize::try_from(inflate.total_out() - before).ok()?;
        part(room.get(..made)?);
        if inflate.total_out() > most {
            return None;
        }
        let moved = made > 0 || inflate.total_in() > read;
        match status {
            Ok(Status::Ok | Status::BufError) if moved => {}
            // At its end, or where it is damaged: a reader gets no further.
            Ok(Status::StreamEnd | Status::Ok | Status::BufError) | Err(_) => {
                return Some(inflate.total_out());
            }
        }
    }
}

fn of_85(data: &[u8], most: u64) -> Option<Vec<u8>> {
    let (mut kept, mut group, mut digits) = (Vec::new(), 0_u32, 0_u8);
    for byte in data {
        match byte {
            b'z' if digits == 0 => kept.extend([0; 4]),
            b'!'..=b'u' => {
                group = group.wrapping_mul(85).wrapping_add(u32::from(byte - b'!'));
                digits += 1;
                if digits == 5 {
                    kept.extend(group.to_be_bytes());
                    (group, digits) = (0, 0);
                }
            }
            byte if byte.is_ascii_whitespace() || *byte == 0 => {}
            _ => break,
        }
        if kept.len() as u64 > most {
            return None;
        }
    }
    if digits > 1 {
        for _ in digits..5 {
            group = group.wrapping_mul(85).wrapping_add(84);
        }
        kept.extend(&group.to_be_bytes()[..usize::from(digits) - 1]);
    }
    Some(kept)
}

fn of_hex(data: &[u8], most: u64) -> Option<Vec<u8>> {
    let (mut kept, mut first) = (Vec::new(), None);
    for byte in data {
        let digit = match byte {
            b'0'..=b'9' => byte - b'0',
            b'a'..=b'f' => byte - b'a' + 10,
            b'A'..=b'F' => byte - b'A' + 10,
            byte if byte.is_ascii_whitespace() || *byte == 0 => continue,
            _ => break,
        };
        match first.take() {
            Some(first) => kept.push(first << 4 | digit),
            None => first = Some(digit),
        }
        if kept.len() as u64 > most {
            return None;
        }
    }
    kept.extend(first.map(|first| first << 4));
    Some(kept)
}

/// The length alone of what is packed by LZW: each code stands for as many bytes as the one before it and one.
fn of_lzw(data: &[u8], most: u64) -> Option<u64> {
    const CLEAR: usize = 256;
    const END: usize = 257;
    let mut lengths: Vec<u64> = Vec::new();
    let (mut before, mut all) = (None, 0_u64);
    let (mut bits, mut held, mut bytes) = (0_u32, 0_u32, data.iter());
    loop {
        let known = 258 + lengths.len();
        // One earlier or later by what the file says: the wider one is never shorter in all.
        let width = match known {
            ..=510 => 9,
            511..=1022 => 10,
            1023..=2046 => 11,
            _ => 12,
        };
        while held < width {
            let Some(byte) = bytes.next() else {
                return Some(all);
            };
            bits = bits << 8 | u32::from(*byte);
            held += 8;
        }
        held -= width;
        let code = (bits >> held & ((1 << width) - 1)) as usize;
        match code {
            CLEAR => {
                lengths.clear();
                before = None;
                continue;
            }
            END => return Some(all),
            _ => {}
        }
        let length = match code {
            ..CLEAR => 1,
            code => match lengths.get(code - 258) {
                Some(length) => *length,
                None => before.map_or(1, |before| before + 1),
            },
        };
        if let Some(before) = before.filter(|_| known < 4096) {
            lengths.push(before + 1);
        }
        before = Some(length);
        all += length;
        if all > most {
            return None;
        }
    }
}

fn of_runs(data: &[u8], most: u64) -> Option<u64> {
    let (mut at, mut all) = (0, 0_u64);
    while let Some(length) = data.get(at) {
        match length {
            128 => break,
            0..=127 => {
                all += u64::from(*length) + 1;
                at += usize::from(*length) + 2;
            }
            129.. => {
                all += 257 - u64::from(*length);
                at += 2;
            }
        }
        if all > most {
            return None;
        }
    }
    Some(all)
}

#[cfg(test)]
mod tests {
    use std::io::Write as _;

    use hayro_syntax::Filter;

    use super::unpacked;

    fn packed(bytes: &[u8]) -> Vec<u8> {
        let mut zlib = flate2::write::ZlibEncoder::new(Vec::new(), flate2::Compression::best());
        zlib.write_all(bytes).expect("in memory");
        zlib.finish().expect("in memory")
    }

    #[test]
    fn counts_what_comes_out_and_stops_where_that_is_too_much() {
        let zeros = packed(&vec![0; 1_000_000]);
        let twice = packed(&zeros);
        let flate = Filter::FlateDecode;
        assert_eq!(unpacked(&zeros, &[flate], 1_000_000), Some(1_000_000));
        assert_eq!(unpacked(&zeros, &[flate], 999_999), None);
        let both = 1_000_000 + zeros.len() as u64;
        assert_eq!(unpacked(&twice, &[flate, flate], both), Some(both));
        assert_eq!(unpacked(&twice, &[flate, flate], both - 1), None);
        // What follows it in the file changes nothing.
        let behind: Vec<u8> = zeros.iter().copied().chain(*b"\nendstream").collect();
        assert_eq!(unpacked(&behind, &[flate], u64::MAX), Some(1_000_000));
    }

    /// The examples of ISO 32000-1, 7.4.2 to 7.4.5 are from memory; the codes of 7.4.4.2 are
    /// 80 0B 60 50 22 0C 0C 85 01 for 45 45 45 45 45 65 45 45 45 66.
    #[test]
    fn old_ways_to_pack() {
        let lzw = [0x80, 0x0b, 0x60, 0x50, 0x22, 0x0c, 0x0c, 0x85, 0x01];
        assert_eq!(unpacked(&lzw, &[Filter::LzwDecode], 100), Some(10));
        let runs = [2, 1, 2, 3, 253, 7, 128, 9];
        assert_eq!(unpacked(&runs, &[Filter::RunLengthDecode], 100), Some(7));
        assert_eq!(unpacked(b"9jqo^~>", &[Filter::Ascii85Decode], 9), Some(4));
        assert_eq!(
            unpacked(b"4d 61 6E2>9", &[Filter::AsciiHexDecode], 9),
            Some(4)
        );
        assert_eq!(
            unpacked(&runs, &[Filter::RunLengthDecode, Filter::FlateDecode], 100),
            None
        );
    }
}
