//! What run records teach: factors on the start values, each with how sure it is.

mod evidence;
mod fit;
mod gaussian;
mod learned;
mod lessons;
mod lot;
mod record;
mod terms;
mod test_burn;
mod told;

pub use evidence::{BreakageClass, Evidence};
pub use learned::{Believed, Factor, Learned, Prediction, learn};
pub use lessons::{Behind, Breakage, Lessons};
pub(crate) use lessons::{Pinned, family_id, grade_id, machine_id};
pub use record::{Floor, Likeness, Ratio, Record, Told};
pub use terms::{CLASS_ENDS_MM, Learns, Term};
pub use test_burn::{BurnAndWear, after_test_burn};
