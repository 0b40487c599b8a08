//! Hands each picture of a document to the engine once, however many pages it stands on.

use printpdf::{PdfDocument, RawImage, RawImageData, RawImageFormat, XObject, XObjectId};

use crate::page::{Document, Item, Pixels};

/// Embeds every picture that the document has.
pub(super) fn embed(document: &Document, engine: &mut PdfDocument) {
    for item in document.pages.iter().flat_map(|page| &page.items) {
        if let Item::Picture(picture) = item {
            let pixels = &picture.pixels;
            let pictures = &mut engine.resources.xobjects.map;
            pictures
                .entry(resource(pixels))
                .or_insert_with(|| XObject::Image(raw(pixels)));
        }
    }
}

/// The name a page calls a picture by: it follows from the pixels.
pub(super) fn resource(pixels: &Pixels) -> XObjectId {
    let hash = pixels.hash().to_string();
    XObjectId(format!("Picture-{}", hash.get(..16).unwrap_or(&hash)))
}

/// The pixels as the engine takes them: gray ones as gray, which a printer needs no colors for.
fn raw(pixels: &Pixels) -> RawImage {
    let (bytes, data_format) = match pixels.gray() {
        Some(gray) => (gray, RawImageFormat::R8),
        None => (pixels.rgb().to_vec(), RawImageFormat::RGB8),
    };
    RawImage {
        pixels: RawImageData::U8(bytes),
        width: pixels.width(),
        height: pixels.height(),
        data_format,
        tag: Vec::new(),
    }
}
