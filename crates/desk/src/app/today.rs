//! The day's list in the window: worked out where it is to be seen, and the way from a line to its place.

use std::collections::BTreeMap;
use std::sync::Arc;

use chrono::{Days, NaiveDate};
use egui::Context;
use quillbore_job::read_quantity::date;
use quillbore_job::results::Beside;
use quillbore_job::shop::sheet::ShopList;
use quillbore_job::{Field, Job};
use quillbore_office::clerk::Request;
use quillbore_office::drawer::drawer;
use quillbore_office::names::JobKey;
use quillbore_office::office::Wanted;
use quillbore_office::today::{
    self, Day, Matter, PutOff, Spot as Place, Today, Waiting, hours_wanted,
};

use super::App;
use crate::shop::Part;
use crate::spot::Spot;
use crate::today::{MadeOf, TodayAsk};
use crate::view::Target;
use crate::words::today as words;

impl App {
    /// Lays the page over the sheet, or puts it away.
    pub(super) fn lay_out_today(&mut self) {
        let open = !self.today.open;
        self.close_pages();
        self.today.open = open;
        self.today.is_fresh = true;
        if open {
            // What was done last time is no news.
            self.today.notice.clear();
            self.list.look_again();
            self.note_seen();
        }
    }

    /// The first thing in the morning: the list is laid out where nobody looked at it on this day yet.
    pub(super) fn begin_the_day(&mut self) {
        let today = self.desk().day.to_string();
        if self.settings_path.is_some() && self.settings.today_seen != today {
            self.today.open = true;
            self.today.is_fresh = true;
            self.note_seen();
        }
    }

    fn note_seen(&mut self) {
        self.settings.today_seen = self.desk().day.to_string();
        self.keep_settings();
    }

    /// Works the list out anew where shelf, day, shop, drawer or what is put off are others than before.
    pub(super) fn look_at_day(&mut self) {
        if !self.today.open {
            return;
        }
        // That nothing waits is said of a shelf that was read.
        let why = self.list.not_read();
        if why.is_some() || self.list.is_first_look() {
            self.today.not_read = why.map(str::to_owned);
            (self.today.list, self.today.of) = (None, None);
            return;
        }
        let desk = &self.jobs[self.at].desk;
        let (day, shop, pool) = (desk.day, self.office.shop(), desk.records().cloned());
        let same = |of: &MadeOf| {
            of.pool.as_ref().map(Arc::as_ptr) == pool.as_ref().map(Arc::as_ptr)
                && of.version == self.list.version
                && of.changes == self.today.changes
                && of.day == day
                && Arc::ptr_eq(&of.shop, &shop)
        };
        if self.today.of.as_ref().is_some_and(same) {
            return;
        }
        let short = pool
            .as_deref()
            .map_or_else(Vec::new, |pool| drawer(&shop, pool, None).short());
        let put_off = self.put_off();
        let list = today::today(
            &self.list.index,
            &Day {
                today: day,
                calendar: &shop.calendar,
                hours: &self.today.hours,
                short: &short,
                put_off: &put_off,
                form: shop.form,
            },
        );
        self.ask_hours(&list, day);
        self.today.list = Some(Arc::new(list));
        self.today.stay_in_list();
        self.today.of = Some(MadeOf {
            version: self.list.version,
            changes: self.today.changes,
            day,
            shop,
            pool,
        });
    }

    /// Asks for the hours of the jobs on the floor, which the foot adds up, and of those on the list.
    fn ask_hours(&mut self, list: &Today, day: NaiveDate) {
        let jobs = hours_wanted(&self.list.index, list);
        if jobs != self.today.asked {
            self.today.asked.clone_from(&jobs);
            self.clerk.ask(Request::HoursEach { jobs, day });
        }
    }

    /// Takes in the hours of these jobs.
    pub(super) fn take_hours(&mut self, hours: BTreeMap<JobKey, f64>) {
        if hours != self.today.hours {
            self.today.hours = hours;
            self.today.changes += 1;
        }
    }

    fn put_off(&self) -> PutOff {
        let kept = self.settings.put_off.iter();
        let read =
            kept.filter_map(|(matter, day)| Some((Matter::read(matter)?, day.parse().ok()?)));
        read.collect()
    }

    /// Does what the page asks.
    pub(super) fn today_asks(&mut self, ctx: &Context, ask: TodayAsk) {
        match ask {
            TodayAsk::Open(line) => self.open_waiting(ctx, &line),
            TodayAsk::Done(line) => self.done(&line),
            TodayAsk::SetAside(line, until) => self.set_aside(&line, &until),
            TodayAsk::BringBack(line) => self.bring_back(&line),
            TodayAsk::ShowAside => {
                self.today.with_aside ^= true;
                self.today.stay_in_list();
            }
            TodayAsk::Close => self.today.open = false,
            TodayAsk::Tell(said) => self.today.notice = said,
        }
    }

    fn bring_back(&mut self, line: &Waiting) {
        self.settings.put_off.remove(&line.matter.text());
        self.keep_settings();
        self.today.changes += 1;
        self.today.notice = words::back(called(line));
    }

    fn set_aside(&mut self, line: &Waiting, typed: &str) {
        let today = self.desk().day;
        let Some(until) = day_to_come(typed, today) else {
            self.today.notice = words::no_day(typed);
            // Asked again, with what was typed.
            self.today.until = Some(typed.to_owned());
            return;
        };
        let until_said = self.office.shop().form.day(until);
        self.today.notice = words::set_aside(called(line), &until_said);
        self.settings
            .put_off
            .insert(line.matter.text(), until.to_string());
        // What came back long ago is forgotten.
        self.settings.put_off.retain(|_, day| {
            let day = day.parse::<NaiveDate>();
            day.is_ok_and(|day| day > today)
        });
        self.keep_settings();
        self.today.changes += 1;
    }

    /// Notes a promised call as made, in a job that is not open here; all else is done in its place.
    fn done(&mut self, line: &Waiting) {
        let Some(key) = line.matter.job.clone() else {
            self.today.notice = words::DONE_IN_ITS_PLACE.to_owned();
            return;
        };
        if self.jobs.iter().any(|job| job.is_key(&key)) {
            self.today.notice = words::OPEN_HERE.to_owned();
            return;
        }
        if line.matter.group != today::Group::CallToday {
            self.today.notice = words::DONE_IN_ITS_PLACE.to_owned();
            return;
        }
        let (day, by) = (self.desk().day, self.desk().name.clone());
        self.clerk.ask(Request::Done {
            line: Box::new(line.clone()),
            day,
            by,
        });
    }

    /// Takes in a job in which a call was noted.
    pub(super) fn take_done(&mut self, key: &JobKey, job: &Job) {
        self.list.took(key, job);
        self.today.notice = words::noted(key.as_str());
    }

    /// Opens the job of a line, and goes to the place where it is seen to.
    fn open_waiting(&mut self, ctx: &Context, line: &Waiting) {
        if let Place::Drawer { thing, .. } = &line.spot {
            self.lay_out_shop();
            self.shop.go = Some(Part::List(ShopList::of(*thing)));
            return;
        }
        let Some(key) = line.matter.job.clone() else {
            return;
        };
        self.today.open = false;
        self.to_place = Some((key.clone(), line.spot.clone()));
        self.open(ctx, Wanted::Key(key));
        self.go_to_place();
    }

    /// Goes to the place that somebody came for, where its job is on top.
    pub(super) fn go_to_place(&mut self) {
        let opened = self.desk().opened.as_ref();
        let here = opened.map(|opened| opened.key.clone());
        let is_here = |(job, _): &mut (JobKey, Place)| here.as_ref() == Some(job);
        let Some((_, place)) = self.to_place.take_if(is_here) else {
            return;
        };
        match place {
            Place::Field(field) => self.go_to(Target::Spot(Spot::Field(field))),
            Place::Line { slip, line } => {
                let view = self.view_mut();
                view.open_slips.insert(slip);
                view.focus = Some(Spot::Line(slip, line));
            }
            Place::Issue(paper) => self.view_mut().paper = Some(paper),
            Place::Issued { .. } => self.go_to(Target::Beside(Beside::Papers)),
            // What is added next stands in the head, with its key.
            Place::NewSlip(_) => self.go_to(Target::Spot(Spot::Field(Field::Customer))),
            Place::Drawer { .. } | Place::File => {}
        }
    }
}

/// What a line is called in a sentence: its job's number, or what it says where it is no job's.
fn called(line: &Waiting) -> &str {
    if line.number.is_empty() {
        &line.says
    } else {
        &line.number
    }
}

/// A day to come as somebody types it: a date, or a number of days.
fn day_to_come(typed: &str, today: NaiveDate) -> Option<NaiveDate> {
    let typed = typed.trim();
    if typed.eq_ignore_ascii_case(words::TOMORROW) {
        return today.succ_opt();
    }
    let days = typed.trim_end_matches(['d', 'D']).trim();
    if let Ok(days) = days.parse::<u64>()
        && (1..=3650).contains(&days)
    {
        return today.checked_add_days(Days::new(days));
    }
    date(typed).ok().filter(|day| *day > today)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_day_to_come_is_a_date_or_a_number_of_days() {
        let today: NaiveDate = "2026-11-27".parse().expect("a day");
        let day = |typed| day_to_come(typed, today).map(|day| day.to_string());
        assert_eq!(day("Tomorrow").as_deref(), Some("2026-11-28"));
        assert_eq!(day("3").as_deref(), Some("2026-11-30"));
        assert_eq!(day("2026-12-01").as_deref(), Some("2026-12-01"));
        for none in [
            "",
            "0",
            "-1",
            "yesterday",
            "2026-11-27",
            "2026-11-01",
            "99999",
        ] {
            assert_eq!(day(none), None, "{none}");
        }
    }
}
