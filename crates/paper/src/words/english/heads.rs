//! Heads of columns that several papers have.

use crate::words::customer::Heads;

/// What customers read of them in English.
pub(super) const WORDS: Heads = Heads {
    mark: MARK,
    holes: HOLES,
    in_one_part: IN_ONE_PART,
    at_least: AT_LEAST,
    at_most: AT_MOST,
    depth: DEPTH,
    end: END,
    from_normal: FROM_NORMAL,
    from_surface: FROM_SURFACE,
    remark: REMARK,
    serials: SERIALS,
    parts: PARTS,
    quantity: QUANTITY,
    in_parts: IN_PARTS,
    price_each: PRICE_EACH,
    price_of_lot: PRICE_OF_LOT,
};

/// A row of holes.
pub const MARK: &str = "Mark";
/// How many holes.
pub const HOLES: &str = "Holes";
/// Of one part.
pub const IN_ONE_PART: &str = "in one part";
/// The size as on the drawing.
pub const DRAWING_SAYS: &str = "Drawing says";
/// The lower limit.
pub const AT_LEAST: &str = "at least";
/// The upper limit.
pub const AT_MOST: &str = "at most";
/// The depth.
pub const DEPTH: &str = "Depth on the axis";
/// Where a hole ends.
pub const END: &str = "End";
/// The angle to the surface's normal.
pub const FROM_NORMAL: &str = "from normal";
/// The angle to the surface.
pub const FROM_SURFACE: &str = "from surface";
/// What else is to be said.
pub const REMARK: &str = "Remark";
/// The day.
pub const DATE: &str = "Date";
/// Who it was.
pub const NAME: &str = "Name";
/// The pieces by their serial numbers.
pub const SERIALS: &str = "Serial numbers";
/// How many parts.
pub const PARTS: &str = "Parts";
/// How many parts are asked for.
pub const QUANTITY: &str = "Quantity";
/// What a count is of.
pub const IN_PARTS: &str = "parts";
/// The price of one part.
pub const PRICE_EACH: &str = "Price each";
/// The price of all parts.
pub const PRICE_OF_LOT: &str = "Price of the lot";
/// What did not pass.
pub const NOT_GOOD: &str = "not good";
/// The electrode.
pub const ELECTRODE: &str = "Electrode";
