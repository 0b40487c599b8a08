//! A page's content gone through for its letters.
//!
//! Pictures, colors and clipping are passed by. What forms draw again and again is bounded by the bytes that are
//! gone through in all.

use std::cell::OnceCell;
use std::collections::BTreeMap;

use hayro_font::FontCache;
use hayro_font::kurbo::Affine;
use hayro_syntax::content::TypedIter;
use hayro_syntax::content::ops::TypedInstruction as Op;
use hayro_syntax::object::{Array, Dict, Name, Object, Rect, Stream};
use hayro_syntax::page::{Page, Resources};

use super::error::PdfError;
use super::guard::most_unpacked;
use super::hidden::Hidden;
use super::ink::Ink;
use super::letters::Letters;
use super::open::Open;
use super::show::{font, show, show_all};
use super::text_state::{TextFont, TextState};

/// Goes through pages.
pub(super) struct Walk<'a> {
    pub(super) open: &'a Open,
    pub(super) fonts: FontCache<'a>,
    /// The font where none is named.
    pub(super) any_font: OnceCell<Option<TextFont<'a>>>,
    cancel: &'a dyn Fn() -> bool,
    hidden: Hidden,
    /// Bytes of content that may still be gone through.
    left: u64,
    most_pieces: usize,
    steps: u32,
}

/// What was found on a page beside letters.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Found {
    /// How much of the page pictures cover, each counted for itself.
    pub(super) pictured: f64,
    /// What it would take to be painted.
    pub(super) ink: Ink,
    /// Lines and outlines.
    pub(super) strokes: usize,
    /// Letters that are shown.
    pub(super) letters: usize,
    /// Letters without a meaning.
    pub(super) nameless: usize,
    /// Letters on layers that are not shown.
    pub(super) hidden: usize,
    /// Not all of it was gone through.
    pub(super) is_cut: bool,
}

impl Found {
    /// Whether most of the page is a picture.
    pub(super) fn is_picture(&self) -> bool {
        self.pictured > SCAN
    }
}

/// Pictures of a logo or a stamp cover less.
const SCAN: f64 = 0.3;

/// What a page's letters are set by.
#[derive(Clone)]
pub(super) struct State<'a> {
    pub(super) to_page: Affine,
    pub(super) text: TextState<'a>,
}

/// Where what is found goes.
pub(super) struct Into<'l> {
    pub(super) letters: &'l mut Letters,
    pub(super) found: &'l mut Found,
    area: f64,
    /// From corner to corner.
    across: f64,
}

/// Saved states beyond this change nothing any more.
const MOST_SAVED: usize = 400;

/// Forms are followed so deep.
const DEEPEST: usize = 12;

/// Beginning with a page or a form costs as much as so many bytes of it.
const OF_ONE: u64 = 500;

/// So many pieces of lines are kept of a file, and one more for so many of its bytes.
const FEWEST_PIECES: usize = 50_000;
const BYTES_OF_PIECE: usize = 20;

impl<'a> Walk<'a> {
    pub(super) fn new(open: &'a Open, bytes: usize, cancel: &'a dyn Fn() -> bool) -> Self {
        Self {
            open,
            fonts: FontCache::new(),
            cancel,
            hidden: Hidden::of(open.pdf()),
            left: 2 * most_unpacked(bytes),
            any_font: OnceCell::new(),
            most_pieces: FEWEST_PIECES + bytes / BYTES_OF_PIECE,
            steps: 0,
        }
    }

    /// How many pieces of lines may still be kept.
    pub(super) const fn most_pieces(&self) -> usize {
        self.most_pieces
    }

    /// Goes through a page.
    pub(super) fn page(
        &mut self,
        page: &Page<'a>,
        letters: &mut Letters,
    ) -> Result<Found, PdfError> {
        self.ask()?;
        let mut found = Found::default();
        let state = State {
            to_page: Affine::new(page.initial_transform(true).as_coeffs()),
            text: TextState::default(),
        };
        let (width, height) = page.render_dimensions();
        let mut into = Into {
            letters,
            found: &mut found,
            area: f64::from(width) * f64::from(height),
            across: libm::hypot(width.into(), height.into()),
        };
        if let Some(content) = page.page_stream() {
            self.content(content, page.resources(), &state, &mut into, 0)?;
        }
        let notes = page.raw().get::<Array<'_>>(b"Annots");
        for note in notes.iter().flat_map(Array::iter::<Dict<'a>>) {
            self.note(&note, page.resources(), &state, &mut into)?;
        }
        self.most_pieces = letters.left();
        Ok(found)
    }

    fn ask(&self) -> Result<(), PdfError> {
        if (self.cancel)() {
            Err(PdfError::Cancelled)
        } else {
            Ok(())
        }
    }

    /// What is written on a page beside its content, as marks and remarks are.
    fn note(
        &mut self,
        note: &Dict<'a>,
        resources: &Resources<'a>,
        state: &State<'a>,
        into: &mut Into<'_>,
    ) -> Result<(), PdfError> {
        const HIDDEN: u32 = 1 << 1;
        const NO_VIEW: u32 = 1 << 5;
        if note.get::<u32>(b"F").unwrap_or(0) & (HIDDEN | NO_VIEW) != 0 {
            return Ok(());
        }
        let looks = note
            .get::<Dict<'_>>(b"AP")
            .and_then(|looks| looks.get::<Object<'_>>(b"N"));
        let form = match looks {
            Some(Object::Stream(form)) => Some(form),
            Some(Object::Dict(states)) => note
                .get::<Name<'_>>(b"AS")
                .and_then(|now| states.get::<Stream<'_>>(now.as_ref())),
            _ => None,
        };
        let (Some(form), Some(rect)) = (form, note.get::<Rect>(b"Rect")) else {
            return Ok(());
        };
        let Some(inner) = form.dict().get::<[f64; 4]>(b"BBox") else {
            return Ok(());
        };
        let matrix = matrix(form.dict());
        let corners = [[0, 1], [2, 1], [0, 3], [2, 3]].map(|[x, y]| {
            let point = matrix * hayro_font::kurbo::Point::new(inner[x], inner[y]);
            [point.x, point.y]
        });
        let least = |axis: usize| {
            corners
                .iter()
                .map(|corner| corner[axis])
                .fold(f64::INFINITY, f64::min)
        };
        let most = |axis: usize| {
            corners
                .iter()
                .map(|corner| corner[axis])
                .fold(f64::NEG_INFINITY, f64::max)
        };
        let scale = |to: f64, axis: usize| to / (most(axis) - least(axis));
        let [x, y] = [scale(rect.x1 - rect.x0, 0), scale(rect.y1 - rect.y0, 1)];
        let place = Affine::new([
            x,
            0.0,
            0.0,
            y,
            rect.x0 - x * least(0),
            rect.y0 - y * least(1),
        ]);
        let state = State {
            to_page: state.to_page * place,
            ..state.clone()
        };
        self.form(&form, resources, &state, into, 0)
    }

    /// Goes through a form.
    fn form(
        &mut self,
        form: &Stream<'a>,
        resources: &Resources<'a>,
        state: &State<'a>,
        into: &mut Into<'_>,
        depth: usize,
    ) -> Result<(), PdfError> {
        if depth >= DEEPEST {
            into.found.is_cut = true;
            return Ok(());
        }
        let dict = form.dict();
        let Ok(content) = form.decoded_data() else {
            return Ok(());
        };
        let own = dict.get::<Dict<'_>>(b"Resources").map(Resources::new);
        let state = State {
            to_page: state.to_page * matrix(dict),
            text: state.text.clone(),
        };
        self.hidden.begin_on(dict, b"OC");
        let resources = own.as_ref().unwrap_or(resources);
        let done = self.content(&content, resources, &state, into, depth + 1);
        self.hidden.end();
        done
    }

    fn content(
        &mut self,
        content: &[u8],
        resources: &Resources<'a>,
        begins: &State<'a>,
        into: &mut Into<'_>,
        depth: usize,
    ) -> Result<(), PdfError> {
        let Some(left) = self.left.checked_sub(content.len() as u64 + OF_ONE) else {
            into.found.is_cut = true;
            return Ok(());
        };
        self.left = left;
        let mut fonts: BTreeMap<Vec<u8>, Option<TextFont<'a>>> = BTreeMap::new();
        let (mut state, mut saved, mut beyond) = (begins.clone(), Vec::new(), 0_usize);
        let mut ops = TypedIter::new(content);
        while let Some(op) = ops.next() {
            self.steps = self.steps.wrapping_add(1);
            if self.steps.is_multiple_of(4096) {
                self.ask()?;
            }
            match op {
                Op::SaveState(_) if saved.len() < MOST_SAVED => saved.push(state.clone()),
                Op::SaveState(_) => beyond += 1,
                Op::RestoreState(_) => match beyond.checked_sub(1) {
                    Some(less) => beyond = less,
                    None => state = saved.pop().unwrap_or(state),
                },
                Op::Transform(by) => {
                    let by = [by.0, by.1, by.2, by.3, by.4, by.5].map(|each| each.as_f64());
                    state.to_page *= Affine::new(by);
                }
                Op::TextFont(named) => {
                    let key = named.0.as_ref().to_vec();
                    let found = fonts.entry(key);
                    let found = found.or_insert_with(|| font(self, resources, named.0));
                    state.text.font.clone_from(found);
                    state.text.size = named.1.as_f64();
                }
                Op::XObject(named) => {
                    if let Some(drawn) = resources.get_x_object(named.0) {
                        self.drawn(&drawn, resources, &state, into, depth)?;
                    }
                }
                Op::InlineImage(drawn) => into.picture(drawn.0.dict(), &state),
                Op::BeginMarkedContent(_) => self.hidden.begin(),
                Op::BeginMarkedContentWithProperties(named) => match named.1 {
                    Object::Name(name) if named.0.as_ref() == b"OC" => {
                        self.hidden.begin_on(&resources.properties, name.as_ref());
                    }
                    _ => self.hidden.begin(),
                },
                Op::EndMarkedContent(_) => self.hidden.end(),
                Op::StrokePath(_)
                | Op::CloseAndStrokePath(_)
                | Op::FillPathNonZero(_)
                | Op::FillPathNonZeroCompatibility(_)
                | Op::FillPathEvenOdd(_)
                | Op::FillAndStrokeNonZero(_)
                | Op::FillAndStrokeEvenOdd(_)
                | Op::CloseFillAndStrokeNonZero(_)
                | Op::CloseFillAndStrokeEvenOdd(_) => into.found.strokes += 1,
                Op::ShowText(said) => show(self, &mut state, said.0.as_bytes(), into),
                Op::NextLineAndShowText(said) => {
                    state.text.next_line_below();
                    show(self, &mut state, said.0.as_bytes(), into);
                }
                Op::ShowTextWithParameters(said) => {
                    state.text.word_space = said.0.as_f64();
                    state.text.letter_space = said.1.as_f64();
                    state.text.next_line_below();
                    show(self, &mut state, said.2.as_bytes(), into);
                }
                Op::ShowTexts(said) => show_all(self, &mut state, said.0, into),
                other => {
                    if !into.found.ink.line(&other, state.to_page, into.across) {
                        set(&mut state.text, &other);
                    }
                }
            }
        }
        Ok(())
    }

    fn drawn(
        &mut self,
        drawn: &Stream<'a>,
        resources: &Resources<'a>,
        state: &State<'a>,
        into: &mut Into<'_>,
        depth: usize,
    ) -> Result<(), PdfError> {
        match drawn
            .dict()
            .get::<Name<'_>>(b"Subtype")
            .as_ref()
            .map(Name::as_str)
        {
            Some("Form") => self.form(drawn, resources, state, into, depth),
            Some("Image") => {
                into.picture(drawn.dict(), state);
                Ok(())
            }
            _ => Ok(()),
        }
    }

    /// Whether what is drawn now is shown.
    pub(super) fn is_shown(&self) -> bool {
        self.hidden.is_shown()
    }
}

impl Into<'_> {
    /// A picture fills the unit square.
    fn picture(&mut self, says: &Dict<'_>, state: &State<'_>) {
        self.found.ink.picture(says, state.to_page);
        let area = state.to_page.determinant().abs() / self.area;
        if area.is_finite() {
            self.found.pictured += area.min(1.0);
        }
    }
}

/// What sets the state of texts and nothing else.
fn set(text: &mut TextState<'_>, op: &Op<'_, '_>) {
    match op {
        Op::BeginText(_) => text.begin(),
        Op::SetTextMatrix(by) => {
            let by = [by.0, by.1, by.2, by.3, by.4, by.5].map(|each| each.as_f64());
            text.set(Affine::new(by));
        }
        Op::NextLine(by) => text.next_line(by.0.as_f64(), by.1.as_f64()),
        Op::NextLineUsingLeading(_) => text.next_line_below(),
        Op::NextLineAndSetLeading(by) => {
            text.leading = -by.1.as_f64();
            text.next_line(by.0.as_f64(), by.1.as_f64());
        }
        Op::CharacterSpacing(by) => text.letter_space = by.0.as_f64(),
        Op::WordSpacing(by) => text.word_space = by.0.as_f64(),
        Op::HorizontalScaling(by) => text.stretch = by.0.as_f64() / 100.0,
        Op::TextLeading(by) => text.leading = by.0.as_f64(),
        Op::TextRise(by) => text.rise = by.0.as_f64(),
        Op::TextRenderingMode(mode) => text.is_unseen = matches!(mode.0.as_i64(), 3 | 7),
        _ => {}
    }
}

/// How a form is placed.
fn matrix(form: &Dict<'_>) -> Affine {
    form.get::<[f64; 6]>(b"Matrix")
        .map_or(Affine::IDENTITY, Affine::new)
}
