//! What is said of a logo that can't be drawn.

/// The PNG is broken off or damaged.
pub const DAMAGED: &str = "The logo's PNG is damaged or breaks off";
/// What to do about it.
pub const SAVE_ANEW: &str = "Save the logo anew, or choose another file";
/// What to do about too many pixels.
pub const SAVE_SMALLER: &str =
    "Save the logo smaller: 1,900 pixels across is as fine as papers print it";
/// Every pixel is as good as white.
pub const BLANK: &str = "The logo is white or transparent all over, and would not be seen on paper";
/// What to do about it.
pub const IN_COLOR: &str = "Choose the logo as it stands on a light ground";
/// The SVG has neither width and height nor a view box.
pub const NO_SIZE: &str = "The logo's SVG has no size: it needs width and height, or a viewBox";
/// A part leads back to itself.
pub const CIRCLE: &str = "A part of the logo's SVG leads back to itself by its links";
/// More than papers draw.
pub const TOO_MUCH: &str = "The logo's SVG holds more than papers can draw";
/// It leads to another file.
pub const ELSEWHERE: &str =
    "The logo's SVG leads to another file, and papers read nothing but the logo's own";
/// What to do about it.
pub const ALL_IN_ONE: &str = "Save the logo with everything in it, or as PNG";
/// What to do about something that is not drawn.
pub const AS_PNG: &str = "Save the logo as PNG";
/// What to do about text.
pub const AS_PATHS: &str = "Save the text as paths, or the logo as PNG";

/// Text that papers can't set.
pub const TEXT: &str = "text, and papers set no fonts but their own";
/// A picture within the SVG.
pub const PICTURE: &str = "a picture of pixels, and papers draw its outlines only";
/// A pattern.
pub const PATTERN: &str = "an area filled with a pattern, which papers can't draw";
/// A filter.
pub const FILTER: &str = "a filter (shadow, blur or the like), which papers can't draw";
/// A marker.
pub const MARKER: &str = "a marker (an arrowhead or the like), which papers can't draw";
/// A piece of a web page.
pub const WEB_PAGE: &str = "a piece of a web page, which papers can't draw";

/// A PNG with more pixels than one may have.
pub fn too_large(width: u32, height: u32, most: u32) -> String {
    format!("The logo has {width} x {height} pixels, and papers take {most} x {most} at most")
}

/// An SVG that is not well-formed.
pub fn not_xml(line: u32) -> String {
    format!("Line {line} of the logo's SVG can't be read")
}

/// Something in it that papers don't draw.
pub fn holds(what: &str) -> String {
    format!("The logo's SVG holds {what}")
}
