//! The head of the machine over the part: how near its guide comes to a hole, how many parts stand under
//! it, and how long it works alone.
//!
//! The tube is guided close to the entry by a guide in a nose; above the nose the head widens. On a tilted
//! hole, in a recess or beside a face that rises, nose or head touches the part before the guide is as near
//! as it should be. What part and head are clamped with is not known here and not counted.

mod alone;
mod block;
mod line;
mod loading;
mod rows;
mod shape;
mod stand_off;
mod turned;

pub use alone::{Run, Stops, Unattended};
pub use loading::{Footprint, Holds, Loading, Piece, Table, loading};
pub use rows::put_clearances;
pub use shape::Head;
pub use stand_off::{Clearance, Recess, Touches, free_stand_off, free_stand_off_on_plane};
