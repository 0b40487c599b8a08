//! What is written at the settings of a desk.

/// The head of the block.
pub const HEAD: &str = "Settings";

/// Before the sheet sizes.
pub const PRINTED_ON: &str = "paper size, where the shop's page says none";

/// The sheet size of the rest of the world.
pub const A4: &str = "A4";

/// The sheet size of North America.
pub const LETTER: &str = "Letter";

/// Before the desk's own name.
pub const DESK_NAME: &str = "other desks know this one as";

/// Before the folder of the shelf.
pub const SHELF: &str = "the shelf, from the next start on";

/// Before the printer.
pub const PRINTER: &str = "printer, empty for the system's usual one";

/// Before the print command.
pub const PRINT_COMMAND: &str = "print command, empty for lp; {printer} and {file} stand for both";

/// Where everything else comes from.
pub const FROM_SHOP: &str = "Name, rates, machines, electrodes, materials, customers and texts stand on the shop's page (F7).";

/// Closes the settings.
pub const DONE: &str = "close";
