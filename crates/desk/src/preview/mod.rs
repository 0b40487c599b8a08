//! Pages on the screen, painted from the same model as the PDF.

mod fill;

pub use fill::even_odd;
