//! A file that was opened: its pages, and what its fonts are asked.

use hayro_font::{CMapResolverFn, FontQuery, FontResolverFn};
use hayro_syntax::object::Object;
use hayro_syntax::page::Page;
use hayro_syntax::{DecryptionError, LoadPdfError, Pdf};
use std::sync::Arc;

use super::error::PdfError;
use super::guard::{Pictures, guarded, most_unpacked};
use super::pack::unpacked;

/// A file that was opened.
pub(super) struct Open {
    pdf: Pdf,
    /// Pictures that are left out of it.
    pub(super) left_out: usize,
    /// Fonts that the file names without having them.
    pub(super) fonts: FontResolverFn,
    /// Encodings that it names.
    pub(super) encodings: CMapResolverFn,
}

impl Open {
    /// Opens a file, after a look at what it would swell to.
    pub(super) fn new(
        bytes: &[u8],
        pictures: Pictures,
        cancel: &dyn Fn() -> bool,
    ) -> Result<Self, PdfError> {
        let guarded = guarded(bytes, pictures, cancel)?;
        let pdf = Pdf::new(guarded.bytes).map_err(|error| match error {
            LoadPdfError::Decryption(DecryptionError::PasswordProtected) => PdfError::Locked,
            LoadPdfError::Decryption(_) => PdfError::LockedDark,
            LoadPdfError::Invalid => PdfError::Damaged,
        })?;
        if guarded.is_locked {
            look_inside(&pdf, most_unpacked(bytes.len()), cancel)?;
        }
        if pdf.pages().is_empty() {
            return Err(PdfError::NoPages);
        }
        Ok(Self {
            pdf,
            left_out: guarded.left_out,
            fonts: Arc::new(|query| {
                Some(match query {
                    FontQuery::Standard(font) => font.get_font_data(),
                    FontQuery::Fallback(font) => font.pick_standard_font().get_font_data(),
                })
            }),
            encodings: Arc::new(hayro_font::hayro_cmap::load_embedded),
        })
    }

    pub(super) const fn pdf(&self) -> &Pdf {
        &self.pdf
    }

    pub(super) fn pages(&self) -> &[Page<'_>] {
        self.pdf.pages()
    }
}

/// Of a file that was unlocked, what its streams come to.
fn look_inside(pdf: &Pdf, most: u64, cancel: &dyn Fn() -> bool) -> Result<(), PdfError> {
    let mut all = 0;
    for object in pdf.objects() {
        if cancel() {
            return Err(PdfError::Cancelled);
        }
        let Object::Stream(stream) = object else {
            continue;
        };
        let left = most.saturating_sub(all);
        all += unpacked(&stream.raw_data(), &stream.filters(), left).ok_or(PdfError::Swells)?;
    }
    Ok(())
}
