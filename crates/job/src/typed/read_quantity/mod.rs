//! Reading what was typed: pure, exact until one final division, and never a panic.
//!
//! Every function takes the text to the letter and the unit that bare numbers are meant in, and
//! gives the value or a [`Misread`], whose sentence says what is wrong and what to type instead.
//! A lone comma is a decimal comma; a unit in the text wins over the context's.

mod amounts;
mod angle;
mod beside;
mod broken;
mod choices;
mod currency;
mod date;
mod depth;
mod deviations;
mod exact;
mod figures;
mod held;
mod layers;
mod length;
mod measure;
pub(crate) mod misread;
mod number;
mod pins;
mod recess;
mod sampling;
mod scan;
mod size;
mod surface;
mod text;
mod twice;
mod whole;

pub use amounts::{mass_kg, money, resistivity_ohm_cm, share};
pub use angle::{angle_basis, tilt, turn};
pub use broken::broken;
pub use choices::{ends, hole_end, one_of_words as one_of, part_axis, proof, yes_no};
pub use currency::currency;
pub use date::date;
pub use depth::depth;
pub use deviations::tolerance;
pub use figures::{
    degrees_of_tilt, feed_mm_min, hours, minutes, minutes_or_none, number_or_none, plain_number,
    vector_part,
};
pub use held::{pressure_bar, rests_on};
pub use layers::layers;
pub use length::{coordinate, length, length_or_zero};
pub use misread::{Misread, What};
pub use pins::pin_sizes;
pub use recess::recess;
pub use sampling::sampling;
pub use size::size;
pub use surface::{bisecting_deg, exit, surface};
pub use text::{line, lines};
pub use whole::{days, dress_every, holes, quantities, whole};
