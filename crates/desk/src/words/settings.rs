//! What is written at the settings of a desk.

/// The head of the block.
pub const HEAD: &str = "Settings";

/// Before the sheet sizes.
pub const PRINTED_ON: &str = "papers are printed on";

/// The sheet size of the rest of the world.
pub const A4: &str = "A4";

/// The sheet size of North America.
pub const LETTER: &str = "Letter";

/// Before the desk's own name.
pub const DESK_NAME: &str = "other desks know this one as";

/// Before the folder of the shelf.
pub const SHELF: &str = "the shelf, from the next start on";

/// Where everything else comes from.
pub const FROM_SHOP_FILE: &str = "Rates, machines, materials, tubes, texts and address come from the shop's own file, named by --shop at the start; without one they are those of the invented shop.";

/// Closes the settings.
pub const DONE: &str = "close";
