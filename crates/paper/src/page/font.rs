//! The four faces of the papers: what a text measures, and which characters they have.

use std::sync::OnceLock;

/// The license of the fonts themselves, which travels with every copy of them.
pub const FONT_LICENSE: &str = include_str!("../../FONTS-LICENSE.txt");

/// What is printed for a character that a face doesn't have: a visible mark, and it is reported.
pub const SUBSTITUTE: char = '\u{FFFD}';

/// One of the faces embedded in the program.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Face {
    /// DejaVu Sans.
    Sans,
    /// DejaVu Sans Bold.
    SansBold,
    /// DejaVu Sans Condensed.
    Condensed,
    /// DejaVu Sans Condensed Bold.
    CondensedBold,
}

impl Face {
    /// Every face, in the order of their numbers.
    pub const ALL: [Self; 4] = [
        Self::Sans,
        Self::SansBold,
        Self::Condensed,
        Self::CondensedBold,
    ];

    /// The PostScript name the font file carries.
    pub fn name(self) -> &'static str {
        match self {
            Self::Sans => "DejaVuSans",
            Self::SansBold => "DejaVuSans-Bold",
            Self::Condensed => "DejaVuSansCondensed",
            Self::CondensedBold => "DejaVuSansCondensed-Bold",
        }
    }

    /// The whole font file.
    pub fn bytes(self) -> &'static [u8] {
        match self {
            Self::Sans => dejavu::sans::regular(),
            Self::SansBold => dejavu::sans::bold(),
            Self::Condensed => dejavu::sans_condensed::regular(),
            Self::CondensedBold => dejavu::sans_condensed::bold(),
        }
    }

    /// The bold face of the same width.
    pub fn bold(self) -> Self {
        match self {
            Self::Sans | Self::SansBold => Self::SansBold,
            Self::Condensed | Self::CondensedBold => Self::CondensedBold,
        }
    }

    /// Whether the face has a glyph for the character.
    pub fn covers(self, ch: char) -> bool {
        self.metrics().glyph(ch).is_some()
    }

    /// Width of a text set at `size` points, in points; a missing character counts as its substitute.
    pub fn measure(self, text: &str, size: f64) -> f64 {
        let metrics = self.metrics();
        let units: u32 = text.chars().map(|ch| metrics.advance(ch)).sum();
        f64::from(units) * size / 1000.0
    }

    /// Height of a capital letter at `size` points, in points.
    pub fn cap_height(self, size: f64) -> f64 {
        f64::from(self.metrics().cap_height) * size / 1000.0
    }

    pub(crate) fn metrics(self) -> &'static Metrics {
        static LOADED: [OnceLock<Metrics>; 4] = [const { OnceLock::new() }; 4];
        let slot = match self {
            Self::Sans => 0,
            Self::SansBold => 1,
            Self::Condensed => 2,
            Self::CondensedBold => 3,
        };
        LOADED[slot].get_or_init(|| Metrics::read(self.bytes()))
    }
}

/// Advances of a face in thousandths of its size, cut to whole numbers as a PDF states them.
pub(crate) struct Metrics {
    face: Option<ttf_parser::Face<'static>>,
    /// The Latin letters, which are nearly all that is ever set.
    near: Vec<Option<(u16, u32)>>,
    substitute: u32,
    cap_height: u32,
}

impl Metrics {
    /// Characters below this are looked up once.
    const NEAR: u32 = 0x180;

    fn read(bytes: &'static [u8]) -> Self {
        let face = ttf_parser::Face::parse(bytes, 0).ok();
        let mut metrics = Self {
            cap_height: face
                .as_ref()
                .and_then(|face| {
                    let height = u32::try_from(face.capital_height()?).ok()?;
                    Some(height * 1000 / u32::from(face.units_per_em()))
                })
                .unwrap_or(729),
            face,
            near: Vec::new(),
            substitute: 1000,
        };
        metrics.near = (0..Self::NEAR)
            .map(|code| char::from_u32(code).and_then(|ch| metrics.look_up(ch)))
            .collect();
        metrics.substitute = metrics.look_up(SUBSTITUTE).map_or(1000, |(_, adv)| adv);
        metrics
    }

    fn look_up(&self, ch: char) -> Option<(u16, u32)> {
        let face = self.face.as_ref()?;
        let glyph = face.glyph_index(ch)?;
        let advance = u32::from(face.glyph_hor_advance(glyph)?);
        Some((glyph.0, advance * 1000 / u32::from(face.units_per_em())))
    }

    fn find(&self, ch: char) -> Option<(u16, u32)> {
        match self.near.get(ch as usize) {
            Some(known) => *known,
            None => self.look_up(ch),
        }
    }

    fn advance(&self, ch: char) -> u32 {
        self.find(ch)
            .map_or(self.substitute, |(_, advance)| advance)
    }

    /// The number of the glyph in the font file.
    pub(crate) fn glyph(&self, ch: char) -> Option<u16> {
        self.find(ch).map(|(glyph, _)| glyph)
    }

    /// The advance of a glyph as a share of the size, as the font file has it.
    pub(crate) fn exact_advance(&self, glyph: u16) -> f32 {
        let face = self.face.as_ref();
        face.map_or(0.0, |face| {
            let advance = face.glyph_hor_advance(ttf_parser::GlyphId(glyph));
            f32::from(advance.unwrap_or_default()) / f32::from(face.units_per_em())
        })
    }

    pub(crate) fn parsed(&self) -> Option<&ttf_parser::Face<'static>> {
        self.face.as_ref()
    }
}
