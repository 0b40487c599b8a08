//! How holes of pieces are named where somebody types them, in whatever language papers tell it.

/// Words between holes and the pieces that have them, as they are typed.
pub const BETWEEN: [&str; 3] = [" of ", " on ", " in "];
