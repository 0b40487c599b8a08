//! Pages on the screen, painted from the same model as the PDF.

mod fill;
mod page;
mod picture;

pub use fill::filled;
pub use page::{paint_page, paint_picture};
