//! The shop as it is typed: a sheet of lines and lists, edited like a job, from which the tables are
//! built. What is not typed is as in the samples that come with the program.

pub(crate) mod disk;
mod edit;
mod families;
mod kind;
mod lists;
mod merge;
mod of_file;
mod own;
mod page;
mod samples;
mod start_text;
mod still;
mod text_rows;
mod to_file;
mod usual;

pub use disk::{read_sheet, write_sheet};
pub use edit::{ShopEdit, ShopRefused, ShopRowAt, apply_shop};
pub use kind::{MachineRates, ShopKind, ShopValue, read_shop};
pub use lists::{ShopBlock, ShopColumn, ShopLine, ShopList};
pub use merge::{ShopClash, ShopMerged, merge_shop, merge_since};
pub use own::{MOST_CHANGES, ShopChange, ShopRow, ShopSheet};
pub use page::{ShownRow, shown_rows};
pub use samples::usual_line;
pub use start_text::StartTyped;
pub use still::{Still, still_sample};
pub(crate) use text_rows::percent;
pub use to_file::{ShopFault, ShopNote};
