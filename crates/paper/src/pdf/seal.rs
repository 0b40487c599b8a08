//! Puts the last hand to the engine's document: what it makes random or writes wrongly.

use lopdf::{Document, Object, StringFormat, dictionary};
use sha2::{Digest, Sha256};

use super::error::PdfError;
use super::meta::Meta;

/// Fixes identity and dates, and returns the bytes.
pub(super) fn seal(mut raw: Document, meta: &Meta) -> Result<Vec<u8>, PdfError> {
    raw.version = "1.7".to_owned();
    label(&mut raw, meta)?;
    raw.compress();
    let id = identity(&raw, meta);
    raw.trailer.set("ID", Object::Array(vec![id.clone(), id]));
    let mut bytes = Vec::new();
    raw.save_to(&mut bytes)
        .map_err(|why| PdfError::Engine(why.to_string()))?;
    Ok(bytes)
}

/// Replaces the engine's information dictionary, which carries a PDF/X key that isn't true.
fn label(raw: &mut Document, meta: &Meta) -> Result<(), PdfError> {
    let date = Object::string_literal(meta.date.format("D:%Y%m%d").to_string());
    let info = dictionary! {
        "Title" => lopdf::text_string(&meta.title),
        "Author" => lopdf::text_string(&meta.author),
        "Creator" => lopdf::text_string("Quillbore"),
        "CreationDate" => date.clone(),
        "ModDate" => date,
    };
    let at = raw
        .trailer
        .get(b"Info")
        .and_then(Object::as_reference)
        .map_err(|why| PdfError::Engine(why.to_string()))?;
    raw.objects.insert(at, Object::Dictionary(info));
    let catalog = raw
        .catalog_mut()
        .map_err(|why| PdfError::Engine(why.to_string()))?;
    catalog.set("Lang", lopdf::text_string("en-US"));
    catalog.set(
        "ViewerPreferences",
        dictionary! { "DisplayDocTitle" => true },
    );
    Ok(())
}

/// A name for the file that follows from its content, where the engine rolls dice.
fn identity(raw: &Document, meta: &Meta) -> Object {
    let mut hash = Sha256::new();
    hash.update(meta.title.as_bytes());
    hash.update(meta.date.to_string().as_bytes());
    for object in raw.objects.values() {
        if let Object::Stream(stream) = object {
            hash.update(&stream.content);
        }
    }
    let digest = hash.finalize();
    Object::String(digest[..16].to_vec(), StringFormat::Hexadecimal)
}
