//! An SVG as outlines, or as pixels where outlines don't say all of it.
//!
//! The library that reads it follows every link as often as it finds it, and calls itself for each
//! nested element; so what is in the file is weighed before.

mod bounded;
mod drawn;
mod entities;
mod links;
mod numbers;
mod outlines;
mod painted;
mod styles;

use std::panic::catch_unwind;

use resvg::usvg::roxmltree::{self, Document, ParsingOptions};
use resvg::usvg::{self, ImageHrefResolver, Options, Tree};

use self::links::Ids;
use self::styles::Styles;
use super::fault::LogoFault;
use super::{Art, DrawnLogo};

/// Elements, texts and comments that a file has at most.
const MOST_NODES: u32 = 20_000;

/// Reads an SVG.
pub(super) fn read(bytes: &[u8]) -> Result<DrawnLogo, LogoFault> {
    // A few shapes at the limits of its numbers are known to end the library that paints; a logo is
    // not worth the work that is open beside it.
    catch_unwind(|| weighed(bytes)).unwrap_or(Err(LogoFault::TooMuch))
}

fn weighed(bytes: &[u8]) -> Result<DrawnLogo, LogoFault> {
    let text = std::str::from_utf8(bytes).map_err(|_| LogoFault::NotXml { line: 1 })?;
    let text = text.strip_prefix('\u{FEFF}').unwrap_or(text);
    entities::check(text)?;
    let parsing = ParsingOptions {
        // Drawing programs put short names for their own addresses there.
        allow_dtd: true,
        nodes_limit: MOST_NODES,
        ..ParsingOptions::default()
    };
    let xml = Document::parse_with_options(text, parsing).map_err(|why| not_xml(&why))?;
    let styles = Styles::of(&xml)?;
    let (root, ids) = (xml.root_element(), Ids::of(&xml));
    bounded::check(root, &styles, &ids)?;
    drawn::check(root, &styles, &ids)?;
    let tree = Tree::from_xmltree(&xml, &nothing_else()).map_err(|why| unread(&why))?;
    match outlines::of(&tree) {
        Some(found) => {
            let (size, paths) = found?;
            let art = Art::Outlines(paths);
            Ok(DrawnLogo { size, art })
        }
        None => painted::of(&tree).map(DrawnLogo::picture),
    }
}

/// How an SVG is read: nothing but what is in it.
fn nothing_else() -> Options<'static> {
    Options {
        resources_dir: None,
        image_href_resolver: ImageHrefResolver {
            resolve_data: Box::new(|_, _, _| None),
            resolve_string: Box::new(|_, _| None),
        },
        ..Options::default()
    }
}

fn unread(why: &usvg::Error) -> LogoFault {
    match why {
        usvg::Error::InvalidSize => LogoFault::NoSize,
        usvg::Error::ParsingFailed(why) => not_xml(why),
        usvg::Error::ElementsLimitReached
        | usvg::Error::NotAnUtf8Str
        | usvg::Error::SvgzFeatureNotEnabled
        | usvg::Error::MalformedGZip => LogoFault::TooMuch,
    }
}

fn not_xml(why: &roxmltree::Error) -> LogoFault {
    match why {
        roxmltree::Error::NodesLimitReached | roxmltree::Error::EntityReferenceLoop(_) => {
            LogoFault::TooMuch
        }
        _ => LogoFault::NotXml {
            line: why.pos().row,
        },
    }
}
