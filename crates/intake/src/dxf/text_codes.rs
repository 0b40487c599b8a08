//! Texts of drawings without their codes: `%%c`, `\U+00D8`, and those of formatted text.

use std::iter::Peekable;
use std::str::Chars;

/// A text as it is read, in one line, and how much room it takes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Read {
    /// The text.
    pub(super) says: String,
    /// Letters of its longest line, and its lines.
    pub(super) size: [usize; 2],
}

/// A text of one line.
pub(super) fn plain(text: &str) -> Read {
    let mut out = String::with_capacity(text.len());
    let mut rest = text.chars().peekable();
    while let Some(sign) = rest.next() {
        match sign {
            '%' if rest.peek() == Some(&'%') => percent(&mut rest, &mut out),
            '\\' => match number_code(&mut rest) {
                Some(letter) => out.push(letter),
                None => out.push('\\'),
            },
            '^' => caret(&mut rest, &mut out),
            sign => out.push(sign),
        }
    }
    finished(&out)
}

/// A text with codes for fonts, heights, colors, lines and stacked numbers.
pub(super) fn formatted(text: &str) -> Read {
    let mut out = String::with_capacity(text.len());
    let mut rest = text.chars().peekable();
    // Whether a font of drawing signs is on, here and around each brace.
    let (mut signs, mut around) = (false, Vec::new());
    while let Some(sign) = rest.next() {
        match sign {
            '%' if rest.peek() == Some(&'%') => percent(&mut rest, &mut out),
            '^' => caret(&mut rest, &mut out),
            '{' => around.push(signs),
            '}' => signs = around.pop().unwrap_or(false),
            '\\' => {
                if let Some(letter) = number_code(&mut rest) {
                    out.push(letter);
                    continue;
                }
                match rest.next() {
                    Some('P' | 'N' | 'X') => out.push('\n'),
                    Some('~') => out.push(' '),
                    Some(sign @ ('\\' | '{' | '}')) => out.push(sign),
                    Some('f' | 'F') => {
                        let font = until_end(&mut rest).to_ascii_lowercase();
                        signs = font.contains("gdt");
                    }
                    Some('S') => stacked(&until_end(&mut rest), &mut out),
                    Some('A' | 'C' | 'c' | 'H' | 'Q' | 'T' | 'W' | 'p') => {
                        until_end(&mut rest);
                    }
                    Some('L' | 'l' | 'O' | 'o' | 'K' | 'k') | None => {}
                    Some(other) => out.extend(['\\', other]),
                }
            }
            letter if signs => out.push(drawing_sign(letter)),
            letter => out.push(letter),
        }
    }
    finished(&out)
}

/// The signs that fonts of geometric tolerances have in the place of letters; from memory.
const fn drawing_sign(letter: char) -> char {
    match letter {
        'n' => '\u{2300}',
        'x' => '\u{21a7}',
        'v' => '\u{2334}',
        'w' => '\u{2335}',
        letter => letter,
    }
}

/// What stands up to the next semicolon, which is taken.
fn until_end(rest: &mut Peekable<Chars<'_>>) -> String {
    rest.by_ref().take_while(|sign| *sign != ';').collect()
}

/// A number over another: limits, or a fraction.
fn stacked(text: &str, out: &mut String) {
    if out.ends_with(|last: char| last.is_alphanumeric()) {
        out.push(' ');
    }
    let mut halves = text.splitn(2, ['^', '#', '/']);
    let over = halves.next().unwrap_or_default().trim();
    let under = halves.next().unwrap_or_default().trim();
    if let Some([least, most]) = limits(text, out) {
        out.extend([least, "-", most]);
        return;
    }
    out.push_str(over);
    if !over.is_empty() && !under.is_empty() {
        out.push('/');
    }
    out.push_str(under);
}

/// The limits of a size that has no other number: the larger one stands over the smaller one.
fn limits<'t>(text: &'t str, before: &str) -> Option<[&'t str; 2]> {
    let (over, under) = text.split_once('^')?;
    let number = |text: &str| {
        let digits = text.starts_with(|sign: char| sign.is_ascii_digit() || sign == '.');
        let number = text.replace(',', ".").parse::<f64>().ok();
        number.filter(|number| digits && *number > 0.0)
    };
    let (over, under) = (over.trim(), under.trim());
    let (most, least) = (number(over)?, number(under)?);
    let is_alone = !before
        .trim_end()
        .ends_with(|last: char| last.is_ascii_digit());
    (is_alone && least < most && most < 2.0 * least).then_some([under, over])
}

/// A code of two percent signs, of which the first is taken already.
fn percent(rest: &mut Peekable<Chars<'_>>, out: &mut String) {
    rest.next();
    match rest.peek().copied() {
        Some('c' | 'C') => out.push('\u{2300}'),
        Some('d' | 'D') => out.push('\u{b0}'),
        Some('p' | 'P') => out.push('\u{b1}'),
        Some('%') => out.push('%'),
        Some('u' | 'U' | 'o' | 'O' | 'k' | 'K') => {}
        Some(first) if first.is_ascii_digit() => {
            let mut code = 0_u32;
            for _ in 0..3 {
                if let Some(digit) = rest.peek().and_then(|sign| sign.to_digit(10)) {
                    code = code * 10 + digit;
                    rest.next();
                }
            }
            out.extend(char::from_u32(code).filter(|letter| !letter.is_control()));
            return;
        }
        _ => {
            out.push_str("%%");
            return;
        }
    }
    rest.next();
}

/// A letter by its number, of which the backslash is taken already: `U+00D8`. Nothing else is taken.
fn number_code(rest: &mut Peekable<Chars<'_>>) -> Option<char> {
    let mut ahead = rest.clone();
    if !matches!(ahead.next(), Some('U' | 'u')) || ahead.next() != Some('+') {
        return None;
    }
    let mut code = 0;
    for _ in 0..4 {
        code = code * 16 + ahead.next()?.to_digit(16)?;
    }
    let letter = char::from_u32(code)?;
    *rest = ahead;
    Some(letter)
}

/// A control sign, of which the caret is taken already: `^I` is a tab.
fn caret(rest: &mut Peekable<Chars<'_>>, out: &mut String) {
    match rest.peek() {
        Some(' ') => out.push('^'),
        Some('@'..='_') => out.push(' '),
        _ => {
            out.push('^');
            return;
        }
    }
    rest.next();
}

fn finished(text: &str) -> Read {
    let lines = text.lines().map(|line| line.trim().chars().count());
    let longest = lines.clone().max().unwrap_or(0);
    let words: Vec<&str> = text.split_whitespace().collect();
    Read {
        says: words.join(" "),
        size: [longest, lines.count().max(1)],
    }
}

#[cfg(test)]
mod tests {
    use super::{formatted, plain};

    #[test]
    fn codes_of_a_line() {
        for (raw, expect) in [
            ("4x %%c0.8 %%P0.02", "4x \u{2300}0.8 \u{b1}0.02"),
            (r"\U+2300.0315 THRU", "\u{2300}.0315 THRU"),
            ("%%u2X%%u %%2160.8 30%%d", "2X \u{d8}0.8 30\u{b0}"),
            ("100%%% a^Ib ^ c %%", "100% a b ^c %%"),
            (r"C:\part \U+23", r"C:\part \U+23"),
            ("%%", "%%"),
            ("%%9", ""),
        ] {
            assert_eq!(plain(raw).says, expect, "{raw}");
        }
    }

    #[test]
    fn codes_of_formatted_text() {
        for (raw, expect) in [
            (
                r"\A1;{\H1.5x;\C1;4x} %%c0.8\P15 DEEP",
                "4x \u{2300}0.8 15 DEEP",
            ),
            (r"%%c1.2\S+0.1^ -0.05; THRU", "\u{2300}1.2 +0.1/-0.05 THRU"),
            (r"1\S1/2; DIA", "1 1/2 DIA"),
            (r"\S+.001^;", "+.001"),
            (r"%%c\S1,42^ 1,38;", "\u{2300}1,38-1,42"),
            (r"{\H0.5x;\S.820^.790;} THRU", ".790-.820 THRU"),
            (
                r"{\fAIGDT|b0;n}0.5 n {\Famgdt;x{\fArial;x}x}",
                "\u{2300}0.5 n \u{21a7}x\u{21a7}",
            ),
            (r"a\\b\{c\}\~d", r"a\b{c} d"),
            (r"\pxqc;\LTHRU\l ALL\", "THRU ALL"),
            ("}}}{{", ""),
            (r"\S", ""),
            (r"\fArial", ""),
        ] {
            assert_eq!(formatted(raw).says, expect, "{raw}");
        }
        assert_eq!(formatted(r"ab\Pabcd\Pa").size, [4, 3]);
    }
}
