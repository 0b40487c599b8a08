//! Breaks text into lines of a given width.

use crate::page::{Page, Style};

/// A stretch of text in one style.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span<'a> {
    /// How it is set.
    pub style: Style,
    /// The characters; a newline breaks the line, a no-break space doesn't.
    pub text: &'a str,
}

impl<'a> Span<'a> {
    /// A stretch of text in one style.
    pub const fn new(style: Style, text: &'a str) -> Self {
        Self { style, text }
    }
}

/// A line that was broken to fit.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SetLine {
    pieces: Vec<(Style, String)>,
    /// Its width in points.
    pub width: f64,
    /// Distance to the next baseline in points.
    pub leading: f64,
}

impl SetLine {
    /// Sets the line with its left end at `x`, its upper edge at `top`.
    pub fn set(&self, page: &mut Page, x: f64, top: f64) {
        let cap = self
            .pieces
            .iter()
            .map(|(style, _)| style.face.cap_height(style.size))
            .fold(0.0, f64::max);
        let baseline = top + (self.leading + cap) / 2.0;
        let mut left = x;
        for (style, text) in &self.pieces {
            left = page.text(left, baseline, *style, text);
        }
    }
}

/// Total height of lines in points.
pub fn height(lines: &[SetLine]) -> f64 {
    lines.iter().map(|line| line.leading).sum()
}

/// Smallest size that a text is shrunk to, in points: what a reader at a bench still makes out.
const SMALLEST: f64 = crate::typeset::look::LEAST;

/// The style in which the text fits on one line, made smaller where it must be, down to the smallest
/// that can be read.
pub fn shrink(text: &str, room: f64, style: Style) -> Style {
    let wide = style.measure(text);
    if wide <= room || wide <= 0.0 {
        return style;
    }
    // Widths go with the size; a little less, so that rounding never breaks the line.
    let size = (style.size * room / wide * 0.999).max(SMALLEST.min(style.size));
    Style { size, ..style }
}

/// The text, cut with an ellipsis where it is too wide.
pub fn fit(text: &str, room: f64, style: Style) -> String {
    if style.measure(text) <= room {
        return text.to_owned();
    }
    let short: String = text
        .chars()
        .scan(style.measure("\u{2026}"), |used, ch| {
            *used += style.measure(ch.encode_utf8(&mut [0; 4]));
            (*used <= room).then_some(ch)
        })
        .collect();
    format!("{}\u{2026}", short.trim_end())
}

/// Breaks spans into lines no wider than `width`; a word that is wider by itself is cut.
pub fn wrap(spans: &[Span<'_>], width: f64) -> Vec<SetLine> {
    if let [span] = spans
        && !span.text.contains('\n')
    {
        let whole = span.style.measure(span.text);
        if whole <= width {
            return vec![SetLine {
                pieces: vec![(span.style, span.text.to_owned())],
                width: whole,
                leading: span.style.leading(),
            }];
        }
    }
    let mut setter = Setter {
        width,
        lines: vec![SetLine::default()],
    };
    for word in words(spans) {
        setter.place(&word);
    }
    let mut lines = setter.lines;
    let fallback = spans.first().map_or(0.0, |span| span.style.leading());
    for line in &mut lines {
        if line.leading == 0.0 {
            line.leading = fallback;
        }
    }
    lines
}

/// Pieces without a place to break between them, and what stands before them.
struct Word<'a> {
    before: Before,
    pieces: Vec<(Style, &'a str)>,
}

#[derive(Clone, Copy, PartialEq)]
enum Before {
    Nothing,
    Space(Style),
    Break,
}

fn words<'a>(spans: &[Span<'a>]) -> Vec<Word<'a>> {
    let mut words = Vec::new();
    let mut open = Word {
        before: Before::Nothing,
        pieces: Vec::new(),
    };
    for span in spans {
        let mut rest = span.text;
        while !rest.is_empty() {
            let end = end_of_word(rest);
            let (piece, tail) = rest.split_at(end);
            if !piece.is_empty() {
                open.pieces.push((span.style, piece));
            }
            let mut after = tail.chars();
            let before = match after.next() {
                Some('\n') => Before::Break,
                Some(_) => Before::Space(span.style),
                None => break,
            };
            rest = after.as_str();
            // A break outlives the spaces around it; several spaces are one.
            if open.pieces.is_empty() && before != Before::Break && open.before != Before::Nothing {
                continue;
            }
            if !open.pieces.is_empty() || before == Before::Break {
                words.push(std::mem::replace(
                    &mut open,
                    Word {
                        before,
                        pieces: Vec::new(),
                    },
                ));
            }
        }
    }
    words.push(open);
    words
}

/// Units that stay with the figure before them.
const UNITS: [&str; 17] = [
    "mm", "in", "\u{b5}m", "kg", "lb", "bar", "psi", "min", "h", "%", "\u{b0}C", "HRC", "HB", "HV",
    "USD", "EUR", "GBP",
];

/// Where the first word ends: at a break or a space, but for one between a figure and its unit.
fn end_of_word(text: &str) -> usize {
    let ends = text.match_indices([' ', '\n']);
    let is_end = |(at, space): &(usize, &str)| {
        let is_figure = text[..*at].ends_with(|ch: char| ch.is_ascii_digit());
        if *space == "\n" || !is_figure {
            return true;
        }
        let unit = text[at + 1..].split([' ', '\n']).next().unwrap_or("");
        let unit = unit.trim_end_matches([',', '.', ';', ':', ')', '?']);
        !UNITS.contains(&unit)
    };
    let mut ends = ends.filter(is_end);
    ends.next().map_or(text.len(), |(at, _)| at)
}

struct Setter {
    width: f64,
    lines: Vec<SetLine>,
}

impl Setter {
    fn place(&mut self, word: &Word<'_>) {
        let width: f64 = word
            .pieces
            .iter()
            .map(|(style, text)| style.measure(text))
            .sum();
        if width > self.width
            && let [(style, text)] = word.pieces[..]
            && let Some((figure, unit)) = text.split_once(' ')
        {
            // A figure with its unit is too wide for the line.
            let mut before = word.before;
            for part in [figure, unit] {
                self.place(&Word {
                    before,
                    pieces: vec![(style, part)],
                });
                before = Before::Space(style);
            }
            return;
        }
        let open = self.lines.last().map_or(0.0, |line| line.width);
        let gap = match word.before {
            Before::Space(style) if open > 0.0 => style.measure(" "),
            Before::Break => {
                self.lines.push(SetLine::default());
                0.0
            }
            Before::Space(_) | Before::Nothing => 0.0,
        };
        let open = self.lines.last().map_or(0.0, |line| line.width);
        if open > 0.0 && open + gap + width > self.width {
            self.lines.push(SetLine::default());
        } else if gap > 0.0
            && let Before::Space(style) = word.before
        {
            self.append(style, " ", gap);
        }
        for &(style, text) in &word.pieces {
            self.append_cut(style, text);
        }
    }

    /// Appends a piece, cut wherever the line is full.
    fn append_cut(&mut self, style: Style, text: &str) {
        let mut rest = text;
        loop {
            let open = self.lines.last().map_or(0.0, |line| line.width);
            // Only as far as the line goes: a word of a megabyte is measured once, not once a line.
            let mut taken = 0.0;
            let mut end = 0;
            for (index, ch) in rest.char_indices() {
                let step = style.measure(&rest[index..index + ch.len_utf8()]);
                if open + taken + step > self.width + 1e-9 && (open > 0.0 || index > 0) {
                    break;
                }
                taken += step;
                end = index + ch.len_utf8();
            }
            let (head, tail) = rest.split_at(end);
            if !head.is_empty() {
                self.append(style, head, taken);
            }
            if tail.is_empty() {
                return;
            }
            self.lines.push(SetLine::default());
            rest = tail;
        }
    }

    fn append(&mut self, style: Style, text: &str, width: f64) {
        let Some(line) = self.lines.last_mut() else {
            return;
        };
        line.width += width;
        line.leading = line.leading.max(style.leading());
        match line.pieces.last_mut() {
            Some((last, open)) if *last == style => open.push_str(text),
            _ => line.pieces.push((style, text.to_owned())),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{Span, wrap};
    use crate::typeset::look::BODY;

    fn lines(text: &str, width: f64) -> Vec<String> {
        let lines = wrap(&[Span::new(BODY, text)], width);
        let texts = lines.iter().map(|line| {
            let pieces = line.pieces.iter();
            pieces.map(|(_, text)| text.as_str()).collect::<String>()
        });
        texts.collect()
    }

    #[test]
    fn a_figure_and_its_unit_stay_on_one_line() {
        let width = BODY.measure("by 0.058 m");
        assert_eq!(
            lines("miss by 0.058 mm: ask", width),
            ["miss by", "0.058 mm:", "ask"]
        );
        // What is no unit goes on as before, and what is wider than the line is parted all the same.
        let width = BODY.measure("of 5 hole");
        assert_eq!(lines("one of 5 holes", width), ["one of 5", "holes"]);
        let narrow = BODY.measure("0.058 ");
        assert_eq!(lines("0.058 mm", narrow), ["0.058", "mm"]);
    }
}
