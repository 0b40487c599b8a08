//! A job as another one, under another number.

use crate::job::Job;
use crate::pinned::slip::lists::SlipKind;

impl Job {
    /// The job under a number, with the numbers of the papers that stayed behind.
    ///
    /// Under another number it is another job: papers that were issued are the first one's, and so are
    /// the slips that only speak of them. Everything else goes with it. A job that has no number yet
    /// only gets one.
    #[must_use]
    pub fn as_copy(&self, number: &str) -> (Self, Vec<String>) {
        let mut job = self.clone();
        number.clone_into(&mut job.number);
        if self.number.is_empty() || self.number == number {
            return (job, Vec::new());
        }
        job.issued.clear();
        job.slips.retain(|slip| match slip.kind {
            // How a quotation ended, and that a paper no longer stands.
            SlipKind::Reply | SlipKind::Withdrawal => false,
            SlipKind::Call
            | SlipKind::Order
            | SlipKind::Release
            | SlipKind::Received
            | SlipKind::Hold
            | SlipKind::Run
            | SlipKind::Inspection
            | SlipKind::Nonconformance
            | SlipKind::Delivery => true,
        });
        let left = self.issued.iter().map(|issued| issued.number.clone());
        (job, left.collect())
    }
}
