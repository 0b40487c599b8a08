//! What a line of the day's list is about, so that it can be put off.

use std::collections::BTreeMap;

use chrono::NaiveDate;

use super::group::Group;
use crate::names::JobKey;

/// What a line of the day's list is about. It stays the same from day to day as long as it is the same
/// matter: another slip, another paper or another due day is another one.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Matter {
    /// The group that it stands in.
    pub group: Group,
    /// The job; none of what is short for no job by name.
    pub job: Option<JobKey>,
    /// Which of the job's in that group: a slip, a paper, a day, an electrode.
    pub of: String,
}

/// Until which day matters are put off: on that day they stand in the list again.
pub type PutOff = BTreeMap<Matter, NaiveDate>;

impl Matter {
    /// As it is kept, in one line.
    #[must_use]
    pub fn text(&self) -> String {
        let job = self.job.as_ref().map_or("", JobKey::as_str);
        let of = self.of.replace(char::is_control, " ");
        format!("{}\t{job}\t{of}", self.group.key())
    }

    /// Reads what was kept; `None` where it is no such line.
    #[must_use]
    pub fn read(text: &str) -> Option<Self> {
        let mut parts = text.splitn(3, '\t');
        let (group, job, of) = (parts.next()?, parts.next()?, parts.next()?);
        let group = Group::ALL.into_iter().find(|known| known.key() == group)?;
        let job = match job {
            "" => None,
            job => Some(JobKey::new(job).ok()?),
        };
        let of = of.to_owned();
        Some(Self { group, job, of })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_matter_comes_back_as_it_was_kept() {
        let jobs = [None, Some("26-0107"), Some("ring 4 (old)")];
        for (group, job) in Group::ALL.into_iter().flat_map(|group| {
            let jobs = jobs.iter();
            jobs.map(move |job| (group, job.map(|job| JobKey::new(job).expect("a name"))))
        }) {
            let of = "electrode 0.70 mm".to_owned();
            let matter = Matter { group, job, of };
            assert_eq!(Matter::read(&matter.text()), Some(matter));
        }
        for text in [
            "",
            "late",
            "late\t26-0107",
            "soon\t26-0107\t",
            "late\ta/b\t",
        ] {
            assert_eq!(Matter::read(text), None, "{text:?}");
        }
        let lines = Matter {
            group: Group::Short,
            job: None,
            of: "two\nlines".to_owned(),
        };
        assert_eq!(lines.text(), "short\t\ttwo lines");
    }
}
