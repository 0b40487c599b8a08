//! Cautions of a paper that the customer signs: those of the traveler.

use crate::words::cautions;
use crate::words::customer::Cautions;

/// What they say in English.
pub(super) const WORDS: Cautions = Cautions {
    name: cautions::NAME,
    first: cautions::FIRST,
    in_this_shop: cautions::IN_THIS_SHOP,
    sludge: cautions::SLUDGE,
    materials: cautions::MATERIALS,
    of_materials: cautions::of_materials,
    always: cautions::always,
    of: cautions::of,
    short: cautions::short,
};
