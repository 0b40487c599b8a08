//! How text is set where a page is gone through (ISO 32000-1, 9.3 and 9.4, from memory).

use hayro_font::Font;
use hayro_font::kurbo::Affine;

/// The state of texts.
#[derive(Clone, Debug)]
pub(super) struct TextState<'a> {
    pub(super) letter_space: f64,
    pub(super) word_space: f64,
    /// Width of letters against their font's.
    pub(super) stretch: f64,
    pub(super) leading: f64,
    pub(super) size: f64,
    pub(super) rise: f64,
    /// Neither filled nor stroked.
    pub(super) is_unseen: bool,
    pub(super) font: Option<TextFont<'a>>,
    matrix: Affine,
    line: Affine,
}

/// A font, with what its name says.
#[derive(Clone, Debug)]
pub(super) struct TextFont<'a> {
    pub(super) font: Font<'a>,
    /// It has drawing signs in the place of letters.
    pub(super) has_signs: bool,
}

/// A letter that was set: where it begins, and both directions times its size.
pub(super) struct Set {
    pub(super) matrix: Affine,
    /// How far it goes along its line, in its own size.
    pub(super) wide: f64,
    /// How far the next one stands behind it.
    pub(super) step: f64,
}

impl Default for TextState<'_> {
    fn default() -> Self {
        Self {
            letter_space: 0.0,
            word_space: 0.0,
            stretch: 1.0,
            leading: 0.0,
            size: 1.0,
            rise: 0.0,
            is_unseen: false,
            font: None,
            matrix: Affine::IDENTITY,
            line: Affine::IDENTITY,
        }
    }
}

impl TextState<'_> {
    /// Texts begin here.
    pub(super) const fn begin(&mut self) {
        self.matrix = Affine::IDENTITY;
        self.line = Affine::IDENTITY;
    }

    /// The next line is set by this.
    pub(super) const fn set(&mut self, matrix: Affine) {
        self.matrix = matrix;
        self.line = matrix;
    }

    /// A line begins beside the beginning of the one before.
    pub(super) fn next_line(&mut self, x: f64, y: f64) {
        self.line *= Affine::translate((x, y));
        self.matrix = self.line;
    }

    /// A line begins below.
    pub(super) fn next_line_below(&mut self) {
        self.next_line(0.0, -self.leading);
    }

    /// Goes back by thousandths of the size.
    pub(super) fn go_back(&mut self, thousandths: f64) {
        let back = -thousandths / 1000.0 * self.size;
        self.go(back);
    }

    /// Sets a letter and goes behind it; `advance` in thousandths of the size.
    pub(super) fn letter(&mut self, advance: [f64; 2], is_word_space: bool) -> Set {
        let is_level = self.is_level();
        let width = if is_level {
            self.size * self.stretch
        } else {
            self.size
        };
        let scale = Affine::new([width, 0.0, 0.0, self.size, 0.0, self.rise]);
        let along = advance[usize::from(!is_level)] / 1000.0;
        let word = if is_word_space { self.word_space } else { 0.0 };
        let space = self.letter_space + word;
        let set = Set {
            matrix: self.matrix * scale,
            wide: along,
            step: along
                + if self.size == 0.0 {
                    0.0
                } else {
                    space / self.size
                },
        };
        self.go(along * self.size + space);
        set
    }

    /// Whether its lines run along, not down.
    pub(super) fn is_level(&self) -> bool {
        self.font
            .as_ref()
            .is_none_or(|font| font.font.is_horizontal())
    }

    fn go(&mut self, by: f64) {
        self.matrix *= if self.is_level() {
            Affine::translate((by * self.stretch, 0.0))
        } else {
            Affine::translate((0.0, by))
        };
    }
}
