//! Texts that a page shows, letter by letter.

use hayro_font::hayro_cmap::BfString;
use hayro_font::kurbo::Point;
use hayro_font::{FontGlyph, StandardFont};
use hayro_syntax::object::{Array, Dict, Name, Object};
use hayro_syntax::page::Resources;

use super::letters::Letter;
use super::line::Marks;
use super::text_state::{Set, TextFont};
use super::walk::{Into, State, Walk};

/// The font of a name.
pub(super) fn font<'a>(
    walk: &Walk<'a>,
    resources: &Resources<'a>,
    name: &Name<'_>,
) -> Option<TextFont<'a>> {
    let (fonts, encodings) = (&walk.open.fonts, &walk.open.encodings);
    match resources.get_font(name) {
        Some(dict) => Some(TextFont {
            font: walk.fonts.font(&dict, fonts, encodings)?,
            has_signs: has_signs(&dict),
        }),
        None => any(walk),
    }
}

/// The font that readers take where a file names none.
fn any<'a>(walk: &Walk<'a>) -> Option<TextFont<'a>> {
    let load = || {
        let fonts = &walk.open.fonts;
        let font = walk.fonts.standard_font(StandardFont::Helvetica, fonts)?;
        Some(TextFont {
            font,
            has_signs: false,
        })
    };
    walk.any_font.get_or_init(load).clone()
}

/// Whether a font's name says that it has the signs of geometric dimensioning and tolerancing (GD&T).
fn has_signs(font: &Dict<'_>) -> bool {
    let name = font.get::<Name<'_>>(b"BaseFont");
    name.is_some_and(|name| name.as_str().to_ascii_lowercase().contains("gdt"))
}

/// The sign that stands in the place of a letter in such fonts; from memory, and so told wherever it is used.
fn sign(letter: char) -> Option<&'static str> {
    // Fonts of signs have their own place for each of 256 codes.
    let code = match u32::from(letter) {
        code @ 0xf000..=0xf0ff => code - 0xf000,
        code => code,
    };
    Some(match char::from_u32(code)?.to_ascii_lowercase() {
        'n' => "\u{2300}",
        'x' => "\u{21a7}",
        'v' => "\u{2334}",
        'w' => "\u{2335}",
        _ => return None,
    })
}

/// Shows texts and goes back between them.
pub(super) fn show_all<'a>(
    walk: &Walk<'a>,
    state: &mut State<'a>,
    texts: &Array<'_>,
    into: &mut Into<'_>,
) {
    for part in texts.iter::<Object<'_>>() {
        match part {
            Object::Number(by) => state.text.go_back(by.as_f64()),
            Object::String(text) => show(walk, state, text.as_bytes(), into),
            _ => {}
        }
    }
}

/// Shows a text.
pub(super) fn show<'a>(walk: &Walk<'a>, state: &mut State<'a>, text: &[u8], into: &mut Into<'_>) {
    if state.text.font.is_none() {
        state.text.font = any(walk);
    }
    let Some(font) = state.text.font.clone() else {
        return;
    };
    let mut at = 0;
    while at < text.len() {
        let (code, length) = font.font.read_code(text, at);
        at += length.max(1);
        let advance = font.font.code_advance(code);
        let origin = font.font.origin_displacement(code);
        let is_word_space = code == 32 && length == 1;
        let set = state.text.letter([advance.x, advance.y], is_word_space);
        if !walk.is_shown() {
            into.found.hidden += 1;
            continue;
        }
        into.found.letters += 1;
        let glyph = font.font.glyph(font.font.map_code(code), code);
        let said = match &glyph {
            FontGlyph::Outline(glyph) => glyph.as_unicode(),
            FontGlyph::Type3(glyph) => glyph.as_unicode(),
        };
        let mut room = [0; 4];
        let said = match &said {
            Some(BfString::Char(letter)) => letter.encode_utf8(&mut room),
            Some(BfString::String(letters)) => letters.as_str(),
            None => "\u{fffd}",
        };
        place(&font, said, &set, [origin.x, origin.y], state, into);
    }
}

fn place(
    font: &TextFont<'_>,
    said: &str,
    set: &Set,
    origin: [f64; 2],
    state: &State<'_>,
    into: &mut Into<'_>,
) {
    let mut marks = Marks {
        is_unseen: state.text.is_unseen,
        ..Marks::default()
    };
    let by_font = said
        .chars()
        .next()
        .filter(|_| font.has_signs)
        .and_then(sign);
    marks.sign_by_font = by_font.is_some();
    let said = by_font.unwrap_or(said);
    let clean: String = said.chars().map(as_text).collect();
    if clean.contains('\u{fffd}') {
        marks.no_letter = true;
        into.found.nameless += 1;
    }
    let matrix = state.to_page * set.matrix;
    let begins = matrix * Point::new(origin[0] / 1000.0, origin[1] / 1000.0);
    let [a, b, c, d, ..] = matrix.as_coeffs();
    // Lines of upright letters that run down are read down.
    let is_level = state.text.is_level();
    let (along, across) = if is_level {
        ([a, b], [c, d])
    } else {
        ([-c, -d], [a, b])
    };
    let length = libm::hypot(along[0], along[1]);
    let unit = [along[0] / length, along[1] / length];
    let size = (across[0] * unit[1] - across[1] * unit[0]).abs();
    let sign = if is_level { 1.0 } else { -1.0 };
    let letter = Letter {
        text: &clean,
        at: [begins.x, begins.y],
        along: unit,
        size,
        wide: set.wide * length * sign,
        step: set.step * length * sign,
        marks,
    };
    if !into.letters.push(&letter) {
        into.found.is_cut = true;
    }
}

/// A character as lines of text have it.
fn as_text(letter: char) -> char {
    match letter {
        '\u{a0}' | '\u{2002}'..='\u{200a}' | '\u{202f}' => ' ',
        // No character at all, by whatever wrote the file.
        '\u{fffe}' | '\u{ffff}' | '\u{feff}' => '\u{fffd}',
        letter if letter.is_control() => ' ',
        letter => letter,
    }
}
