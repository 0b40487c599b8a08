//! What of the part's size and mass nobody said.

use crate::job::Job;
use crate::typed::field::Field;

/// The lines of size and mass in which nothing stands that can be read, in the sheet's order.
pub(crate) fn part_unknown(job: &Job) -> Vec<Field> {
    let lines = [Field::SizeX, Field::SizeY, Field::SizeZ, Field::Mass].into_iter();
    lines
        .filter(|field| job.field(*field).value().is_none())
        .collect()
}
