//! Issuing: a paper leaves the house under a number that no other has, made of what stands on the
//! shelf at that moment, and its job names it.
//!
//! It looks first and writes once: every search and draw is settled for the version that somebody
//! looked at, then one commit compares the versions of the shop and of all jobs under their locks,
//! writes the paper as a new file and the jobs that name it. Where somebody saved meanwhile nothing is
//! written.

pub mod interrupted;
pub mod joint;
mod number;
pub(crate) mod outcome;
mod plan;
mod ready;

use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_calc::learn::Lessons;
use quillbore_job::life;
use quillbore_job::results::{Results, results_now};
use quillbore_job::same_name::same_name;
use quillbore_job::{Field, Job, Paper, Shop};
use quillbore_paper::Sheet;

pub use outcome::{IssuedNow, NotIssued};
pub use ready::{Ready, ready, rests_on};

use crate::drawer::put_free;
use crate::failure::Failure;
use crate::names::AttachmentName;
use crate::office::{Office, to_open};
use crate::print::Sitting;
use crate::save::Opened;
use crate::shelf::{Version, Write};
use crate::words::issue as words;
use plan::{Plan, Put, Standing};

/// How often another paper may turn out to have the number.
const TRIES: u32 = 1_000;

/// A job as somebody looks at it, with what it rests on.
#[derive(Clone, Debug)]
pub struct Seen {
    /// The job, with what is not saved yet.
    pub job: Arc<Job>,
    /// Where it was opened from; `None` for one that is on no shelf yet.
    pub opened: Option<Opened>,
}

/// A paper that is to be issued.
#[derive(Clone, Debug)]
pub struct ToIssue {
    /// Which paper.
    pub paper: Paper,
    /// The job that keeps it.
    pub own: Seen,
    /// The other jobs on one quotation with it.
    pub others: Vec<Seen>,
    /// The sheet it is printed on.
    pub sheet: Sheet,
    /// The day on it, whose rates count.
    pub day: NaiveDate,
    /// What run records taught when its figures were seen.
    pub lessons: Arc<Lessons>,
    /// The shelf's run records had not been read when its figures were seen, or could not be.
    pub without_records: bool,
    /// The shop's sheet that its figures were seen by, as [`Office::shop_version`] tells it.
    pub shop: Option<Version>,
}

impl Office {
    /// Issues a paper of one job, or a quotation of several.
    ///
    /// # Errors
    /// Where something is in the way, somebody saved the job or changed the shop meanwhile, run records that
    /// count were not in its figures, or a step fails; nothing is issued then.
    pub fn issue(&self, wanted: &ToIssue) -> Result<IssuedNow, NotIssued> {
        let by_shop = self.shop_to_issue_by(wanted.shop)?;
        if wanted.without_records {
            let looked = self.look_at_records();
            looked.map_err(|why| why.behind(words::NO_RECORDS))?;
            return Err(NotIssued::RecordsRead);
        }
        let mut shop = self.shop_on(wanted.day);
        shop.tables.lessons = Arc::clone(&wanted.lessons);
        let own = wanted.own.opened.as_ref().map(|opened| &opened.key);
        put_free(&mut shop, &self.shop(), &self.records(), own);
        let own_results = self.settled(&wanted.own, wanted.paper, &shop, None)?;
        let own_currency = currency(&shop, &wanted.own.job);
        let mut results = Vec::new();
        for other in &wanted.others {
            let number = other.job.number.clone();
            let its = currency(&shop, &other.job);
            if its != own_currency {
                return Err(words::other_currency(&own_currency, &number, &its).into());
            }
            results.push(self.settled(other, wanted.paper, &shop, Some(number.clone()))?);
            let [own, asks] =
                [&wanted.own.job, &other.job].map(|job| job.text(Field::Customer).trim());
            if !same_name(own, asks) {
                return Err(words::other_customer(own, &number, asks).into());
            }
        }
        let mut others = Vec::new();
        for other in &wanted.others {
            let opened = other.opened.clone().ok_or_else(words::other_unsaved)?;
            let job = Arc::clone(&other.job);
            let other = Standing { job, opened };
            other.may_issue()?;
            others.push(other);
        }
        // A number is part of what is printed, so a new job gets it first; nothing that is known
        // beforehand may be in the way from here on.
        let (own, numbered) = match &wanted.own.opened {
            Some(opened) => {
                let (job, opened) = (Arc::clone(&wanted.own.job), opened.clone());
                (Standing { job, opened }, None)
            }
            None => {
                let saved = self.save(&wanted.own.job, None, wanted.day);
                let opened = saved.map_err(Failure::from)?;
                let job = Arc::clone(&opened.base);
                let numbered = Some(Box::new(opened.clone()));
                (Standing { job, opened }, numbered)
            }
        };
        let mut standing = vec![own];
        standing.extend(others);
        let sittings: Vec<Sitting<'_>> = standing
            .iter()
            .zip(std::iter::once(&own_results).chain(&results))
            .map(|(standing, results)| Sitting {
                job: &standing.job,
                results,
            })
            .collect();
        // A job of another shelf is written there, where this shop's sheet isn't.
        let is_here = |one: &Standing| one.opened.shelf.place() == self.shelf.place();
        let by_shop = by_shop.filter(|_| standing.first().is_some_and(is_here));
        let done = issue_standing(wanted, &shop, by_shop.as_ref(), &standing, &sittings);
        done.map_err(|not| match not {
            NotIssued::ShopChanged { .. } => match self.look_at_shop() {
                Ok(_) => NotIssued::ShopChanged { numbered },
                Err(failure) => NotIssued::Failed { failure, numbered },
            },
            NotIssued::SavedMeanwhile { jobs, .. } => NotIssued::SavedMeanwhile { jobs, numbered },
            NotIssued::Failed { failure, .. } => NotIssued::Failed { failure, numbered },
            not @ (NotIssued::InTheWay { .. } | NotIssued::RecordsRead) => not,
        })
    }

    /// Results that rest on every search and draw, never on a quick estimate, where nothing is in
    /// the way of the paper.
    fn settled(
        &self,
        seen: &Seen,
        paper: Paper,
        shop: &Shop,
        of: Option<String>,
    ) -> Result<Results, NotIssued> {
        let results = results_now(&seen.job, &shop.for_job(&seen.job));
        let before = self.before(&seen.job);
        let blockers = life::blockers(paper, &seen.job, &results.found(), before.as_deref());
        if blockers.is_empty() {
            return Ok(results);
        }
        Err(NotIssued::InTheWay { of, blockers })
    }
}

/// The currency that a job is quoted in.
fn currency(shop: &Shop, job: &Job) -> String {
    shop.for_job(job).tables.rates.currency.clone()
}

/// Issues a paper of jobs that stand on a shelf, under the first number that nobody else takes.
fn issue_standing(
    wanted: &ToIssue,
    shop: &Shop,
    by_shop: Option<&Write>,
    standing: &[Standing],
    sittings: &[Sitting<'_>],
) -> Result<IssuedNow, NotIssued> {
    let keeper = standing.first().ok_or_else(words::no_job)?;
    keeper.may_issue()?;
    let (shelf, key) = (&keeper.opened.shelf, &keeper.opened.key);
    // Names that are taken by what is no file, such as a folder, and so is not listed.
    let mut taken: Vec<AttachmentName> = Vec::new();
    for _ in 0..TRIES {
        let mut beside = shelf.attachments(key).map_err(Failure::from)?;
        beside.extend(taken.iter().cloned());
        let number = number::next(&keeper.job, wanted.paper, &beside)?;
        let (paper, day, sheet) = (wanted.paper, wanted.day, wanted.sheet);
        let made = ready(paper, number, sittings, shop, day, sheet)?;
        let entries = joint::entries(&made.issued, standing.iter().map(|one| &one.job));
        let plan = Plan::new(standing, &entries).map_err(Failure::from)?;
        let name = AttachmentName::new(&made.issued.file).map_err(Failure::from)?;
        match plan.put(shelf.as_ref(), key, &name, &made, by_shop)? {
            Put::NameTaken => taken.push(name),
            Put::Done(told) => {
                // Where no copy can be laid, it is on the shelf all the same.
                let place = to_open(shelf.as_ref(), key, &name, &made.bytes);
                let place = place.unwrap_or_else(|_| shelf.place_of(key, &name));
                let done = plan.done(place, told);
                return Ok(done.ok_or_else(words::no_job)?);
            }
        }
    }
    Err(words::no_number_left().into())
}
