//! Words as they are compared: without case, accents, points and blanks, whatever the language.

/// A word or sign of a text, folded.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Token {
    /// Umlauts spelled out: `groesse`.
    spelled: String,
    /// Umlauts without their dots, where there are any: `grosse`.
    dropped: Option<String>,
    /// Which part of the text it stands in: strokes and brackets part it.
    pub(crate) part: usize,
    /// It stands in brackets.
    pub(crate) bracketed: bool,
}

impl Token {
    /// Whether it is this folded word.
    pub(crate) fn is(&self, word: &str) -> bool {
        self.spelled == word
    }

    /// The word with umlauts spelled out.
    pub(crate) fn spelled(&self) -> &str {
        &self.spelled
    }
}

/// Words put together into what they are looked up by, in both spellings.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Key {
    pub(crate) spelled: String,
    /// Where it is another word.
    pub(crate) dropped: Option<String>,
}

impl Key {
    /// The key of some words: blanks, points and strokes between them don't count.
    pub(crate) fn of<'a>(tokens: impl IntoIterator<Item = &'a Token>) -> Self {
        let (mut spelled, mut dropped) = (String::new(), None::<String>);
        for token in tokens {
            if token.dropped.is_some() && dropped.is_none() {
                dropped = Some(spelled.clone());
            }
            if let Some(dropped) = &mut dropped {
                *dropped += token.dropped.as_deref().unwrap_or(&token.spelled);
            }
            spelled += &token.spelled;
        }
        Self { spelled, dropped }
    }

    /// The key of a text by itself.
    pub(crate) fn of_text(text: &str) -> Self {
        if is_plain(text) {
            return Self {
                spelled: text.to_ascii_lowercase(),
                dropped: None,
            };
        }
        Self::of(&tokens(text))
    }

    /// Its spellings, each once.
    pub(crate) fn spellings(&self) -> impl Iterator<Item = &str> {
        let dropped = self.dropped.as_deref();
        std::iter::once(self.spelled.as_str()).chain(dropped)
    }
}

/// A text by which two heads are the same: `Ø-Tol. (mm)` and `ø tol mm`.
pub(crate) fn folded(text: &str) -> String {
    let words = tokens(text);
    let words: Vec<&str> = words.iter().map(Token::spelled).collect();
    words.join(" ")
}

/// The words and signs of a text.
///
/// Signs that stand for a word become it: a diameter sign `dia`, `#` and `n°` `no`, `±` `pm`, `+`
/// `plus`, a minus at an end of the text or in brackets `minus`.
pub(crate) fn tokens(text: &str) -> Vec<Token> {
    let text = text.trim();
    if !text.is_empty() && is_plain(text) {
        return vec![Token {
            spelled: text.to_ascii_lowercase(),
            dropped: None,
            part: 0,
            bracketed: false,
        }];
    }
    let letters: Vec<char> = text.chars().collect();
    let mut reading = Reading::default();
    let mut at = 0;
    while let Some(letter) = letters.get(at).copied() {
        let (before, after) = letters.split_at(at);
        let after = after.get(1..).unwrap_or_default();
        let taken = match letter {
            '+' if is_minus_behind(after) => {
                reading.sign("pm");
                if after.first() == Some(&'/') { 3 } else { 2 }
            }
            // A word that was parted at the end of a line.
            '-' if is_parted(before, after) => {
                let blanks = after.iter();
                1 + blanks.take_while(|letter| letter.is_whitespace()).count()
            }
            letter => {
                reading.letter(letter, is_at_an_end(before, after));
                1
            }
        };
        at += taken;
    }
    reading.end_word();
    reading.tokens
}

/// Whether a text is one word that is compared as it stands but for its capitals.
fn is_plain(text: &str) -> bool {
    text.bytes().all(|byte| byte.is_ascii_alphanumeric())
}

/// A plus before this is that of `+-` or `+/-`.
fn is_minus_behind(after: &[char]) -> bool {
    let minus = |letter: &char| matches!(letter, '-' | '\u{2212}' | '\u{2013}');
    match after {
        ['/', sign, ..] | [sign, ..] => minus(sign),
        [] => false,
    }
}

/// A hyphen between these parts a word at the end of a line: small letters go on behind a blank.
fn is_parted(before: &[char], after: &[char]) -> bool {
    let blank = after.first().is_some_and(|letter| letter.is_whitespace());
    let mut rest = after.iter().skip_while(|letter| letter.is_whitespace());
    let goes_on = blank && rest.next().is_some_and(|letter| letter.is_lowercase());
    goes_on && before.last().is_some_and(|letter| letter.is_alphabetic())
}

/// Whether nothing but a blank lies between a sign and an end of the text, or a bracket.
fn is_at_an_end(before: &[char], after: &[char]) -> bool {
    let filled = |letter: &&char| !letter.is_whitespace();
    let ends = |letter: Option<&char>| letter.is_none_or(|letter| "()[]".contains(*letter));
    ends(before.iter().rev().find(filled)) || ends(after.iter().find(filled))
}

#[derive(Default)]
struct Reading {
    tokens: Vec<Token>,
    spelled: String,
    dropped: String,
    part: usize,
    depth: usize,
}

impl Reading {
    fn letter(&mut self, letter: char, at_an_end: bool) {
        match letter {
            '\u{d8}' | '\u{f8}' | '\u{2300}' | '\u{2205}' | '\u{3a6}' | '\u{3c6}' => {
                self.sign("dia");
            }
            '\u{b1}' => self.sign("pm"),
            '#' | '\u{2116}' => self.sign("no"),
            '\u{2211}' | '\u{3a3}' => self.sign("sum"),
            '\u{21a7}' => self.sign("depth"),
            '\u{2220}' => self.sign("angle"),
            '\u{d7}' => self.sign("x"),
            '"' | '\u{2033}' => self.sign("inch"),
            '\u{b0}' | '\u{ba}' => self.ring(),
            '+' => self.sign("plus"),
            '-' | '\u{2212}' | '\u{2013}' if at_an_end => self.sign("minus"),
            '\'' | '\u{2019}' | '\u{200b}'..='\u{200f}' | '\u{ad}' | '\u{feff}' => {}
            '/' | '|' | '\n' | '\r' => self.next_part(0),
            '(' | '[' => self.next_part(1),
            ')' | ']' => {
                self.next_part(0);
                self.depth = self.depth.saturating_sub(1);
            }
            letter if letter.is_alphanumeric() || is_accent(letter) => self.fold(letter),
            // A point within a word is none: `q.tà`.
            '.' => {}
            _ => self.end_word(),
        }
    }

    /// The ring of `n°`, else a degree sign.
    fn ring(&mut self) {
        if self.spelled == "n" {
            self.fold('o');
            self.end_word();
        } else {
            self.sign("deg");
        }
    }

    fn sign(&mut self, word: &str) {
        self.end_word();
        word.chars().for_each(|letter| self.fold(letter));
        self.end_word();
    }

    fn next_part(&mut self, deeper: usize) {
        self.end_word();
        self.part += 1;
        self.depth += deeper;
    }

    fn end_word(&mut self) {
        if self.spelled.is_empty() {
            return;
        }
        let spelled = std::mem::take(&mut self.spelled);
        let dropped = std::mem::take(&mut self.dropped);
        self.tokens.push(Token {
            dropped: (dropped != spelled).then_some(dropped),
            spelled,
            part: self.part,
            bracketed: self.depth > 0,
        });
    }

    fn fold(&mut self, letter: char) {
        let (spelled, dropped) = match letter {
            '\u{e4}' | '\u{c4}' => ("ae", "a"),
            '\u{f6}' | '\u{d6}' => ("oe", "o"),
            '\u{fc}' | '\u{dc}' => ("ue", "u"),
            // The dots of a letter that was taken apart.
            '\u{308}' => ("e", ""),
            '\u{df}' | '\u{1e9e}' => ("ss", "ss"),
            '\u{e6}' | '\u{c6}' => ("ae", "ae"),
            '\u{153}' | '\u{152}' => ("oe", "oe"),
            '\u{3bc}' | '\u{b5}' => ("u", "u"),
            letter if is_accent(letter) => ("", ""),
            letter => {
                for lower in letter.to_lowercase().filter(|lower| !is_accent(*lower)) {
                    let plain = without_accent(lower);
                    self.spelled.push(plain);
                    self.dropped.push(plain);
                }
                return;
            }
        };
        self.spelled += spelled;
        self.dropped += dropped;
    }
}

const fn is_accent(letter: char) -> bool {
    matches!(letter, '\u{300}'..='\u{36f}')
}

/// A small letter of French, Spanish or Italian without its accent.
const fn without_accent(letter: char) -> char {
    match letter {
        '\u{e0}'..='\u{e3}' | '\u{e5}' => 'a',
        '\u{e7}' => 'c',
        '\u{e8}'..='\u{eb}' => 'e',
        '\u{ec}'..='\u{ef}' => 'i',
        '\u{f1}' => 'n',
        '\u{f2}'..='\u{f5}' => 'o',
        '\u{f9}'..='\u{fb}' => 'u',
        letter => letter,
    }
}

#[cfg(test)]
mod tests {
    use super::{Key, folded, tokens};

    #[test]
    fn one_word_however_it_is_written() {
        for (texts, key) in [
            (
                &["Größe", "GRÖSSE", "Groesse", "gro\u{308}ße"][..],
                "groesse",
            ),
            (
                &["Diamètre", "diametre", "DIAM\u{c8}TRE", "diame\u{300}tre"],
                "diametre",
            ),
            (&["Pos.-Nr.", "pos nr", "Pos. Nr.", "POSNR"], "posnr"),
            (&["q.tà", "Q.TA", "qta"], "qta"),
            (&["Q'ty", "qty."], "qty"),
            (&["n° trou", "N°trou", "nº trou", "# trou"], "notrou"),
            (
                &["Bohrungs-\ntiefe", "Bohrungs- tiefe", "Bohrungstiefe"],
                "bohrungstiefe",
            ),
            (&["\u{2300}-Tol.", "ø tol", "Ø TOL"], "diatol"),
            (&["Tol. +", "Tol (+)", "tol+"], "tolplus"),
            (&["Tol. -", "Tol (\u{2212})", "tol\u{2013}"], "tolminus"),
            (&["+/- Tol", "\u{b1}Tol", "+-Tol"], "pmtol"),
        ] {
            for text in texts {
                assert_eq!(Key::of_text(text).spelled, key, "{text}");
            }
        }
        assert_eq!(Key::of_text("Größe").dropped.as_deref(), Some("grosse"));
        let two = Key::of_text("Ø Größe tief");
        assert_eq!(two.spelled, "diagroessetief");
        assert_eq!(two.dropped.as_deref(), Some("diagrossetief"));
        assert_eq!(
            Key::of_text("Tiefe 2").spellings().collect::<Vec<_>>(),
            ["tiefe2"]
        );
    }

    #[test]
    fn strokes_and_brackets_part_a_text() {
        let parts: Vec<(String, usize, bool)> = tokens("Tiefe/depth (mm)")
            .iter()
            .map(|token| (token.spelled().to_owned(), token.part, token.bracketed))
            .collect();
        assert_eq!(
            parts,
            [
                ("tiefe".to_owned(), 0, false),
                ("depth".to_owned(), 1, false),
                ("mm".to_owned(), 2, true)
            ]
        );
        assert_eq!(folded(" \u{2300} [MM] "), "dia mm");
        assert_eq!(folded("-_."), "minus");
    }
}
