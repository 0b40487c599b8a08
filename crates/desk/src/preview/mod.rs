//! Pages on the screen, painted from the same model as the PDF.

mod fill;
mod page;

pub use fill::even_odd;
pub use page::{paint_page, paint_picture};
