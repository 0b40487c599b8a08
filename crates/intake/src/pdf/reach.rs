//! How far a reader goes that looks for the end of what was begun, where the file has none.
//!
//! A damaged file is looked through for its parts, each from its beginning to its end. Where nothing ends each goes
//! on to the file's end: a megabyte of beginnings takes minutes.

use memchr::memmem;

/// How many bytes are looked at if each part is read on its own; no more than a little over `most` is counted.
pub(super) fn reach(bytes: &[u8], most: u64) -> u64 {
    let mut all = 0;
    let parts = memmem::find_iter(bytes, b"obj")
        .filter(|at| {
            *at > 0 && (bytes[at - 1].is_ascii_whitespace() || bytes[at - 1].is_ascii_digit())
        })
        .map(|at| (at + 3, false));
    // Brackets begin with a name; in pictures such signs stand by chance.
    let is_named = |at: &usize| {
        let inside = bytes[at + 2..].trim_ascii_start();
        matches!(inside.first(), Some(b'/' | b'('))
    };
    let brackets = memmem::find_iter(bytes, b"<<").filter(is_named);
    let brackets = brackets.map(|at| (at, true));
    for (at, is_bracket) in parts.chain(brackets) {
        all += end(&bytes[at..], is_bracket) as u64;
        if all > most {
            break;
        }
    }
    all
}

/// Where a part ends, or the brackets that it begins with.
fn end(bytes: &[u8], is_bracket: bool) -> usize {
    let (mut at, mut open) = (0, 0_usize);
    while let Some(sign) = bytes.get(at) {
        let rest = &bytes[at..];
        match sign {
            b'(' => at += string(rest),
            b'%' => at += memchr::memchr2(b'\n', b'\r', rest).unwrap_or(rest.len()),
            b'<' if rest.starts_with(b"<<") => {
                open += 1;
                at += 2;
            }
            b'>' if rest.starts_with(b">>") => {
                open = open.saturating_sub(1);
                at += 2;
                if is_bracket && open == 0 {
                    break;
                }
            }
            b'e' if rest.starts_with(b"endobj") => break,
            b's' if rest.starts_with(b"stream") => break,
            _ => at += 1,
        }
    }
    at.min(bytes.len())
}

/// How long a string in round brackets is.
fn string(bytes: &[u8]) -> usize {
    let (mut at, mut open) = (0, 0_usize);
    while let Some(sign) = bytes.get(at) {
        at += 1;
        match sign {
            b'\\' => at += 1,
            b'(' => open += 1,
            b')' => {
                open -= 1;
                if open == 0 {
                    return at;
                }
            }
            _ => {}
        }
    }
    bytes.len()
}

#[cfg(test)]
mod tests {
    use super::reach;

    #[test]
    fn what_never_ends_is_counted_to_the_files_end() {
        let fair = b"1 0 obj<</A(b)/C<</D 1>>>>endobj 2 0 obj(\\)x)endobj".repeat(1_000);
        assert!(reach(&fair, u64::MAX) < 2 * fair.len() as u64);
        for open in ["1 0 obj(\n", "<<(", "1 0 obj[(\\)", "<</A"] {
            let many = open.repeat(1_000);
            let long = many.len() as u64;
            assert!(reach(many.as_bytes(), u64::MAX) > 400 * long, "{open}");
            assert!(reach(many.as_bytes(), 10 * long) <= 11 * long, "{open}");
        }
    }
}
