//! The day's list: what waits, whom to call, what is late. A job stands once, in the first group that
//! fits it; what else waits in it is counted there.

mod done;
mod foot;
mod group;
mod list;
mod matter;
mod seen;
mod spot;
mod waiting;

pub use done::done;
pub use foot::{Floor, Foot, Out, hours_wanted, on_the_floor};
pub use group::Group;
pub use list::{Day, Today, today};
pub use matter::{Matter, PutOff};
pub use spot::Spot;
pub use waiting::{Short, Waiting};
