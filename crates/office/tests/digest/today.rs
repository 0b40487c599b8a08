//! The day's list: by hand, on odd days and odd jobs.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use quillbore_job::drawer::Thing;
use quillbore_job::form::{Dates, Numbers};
use quillbore_job::shop::Calendar;
use quillbore_job::{Edit, Field, Form, Job, Line, Paper, SlipKind, apply};
use quillbore_office::digest::{Index, ShelfLine};
use quillbore_office::names::JobKey;
use quillbore_office::today::{
    Day, Group, Matter, PutOff, Short, Spot, Today, Waiting, done, hours_wanted, on_the_floor,
    today,
};
use quillbore_office::week::five_days;
use quillbore_office::words::today::{group, others};

use crate::jobs::{day, job, key, line, with_quotation, with_slip, with_traveler};

/// Wednesday.
const WEDNESDAY: &str = "2026-11-25";

/// What a list is asked with, where a test doesn't say.
struct Asked {
    jobs: Vec<Arc<ShelfLine>>,
    calendar: Calendar,
    hours: BTreeMap<JobKey, f64>,
    short: Vec<Short>,
    put_off: PutOff,
    form: Form,
}

impl Asked {
    fn of(jobs: &[&Job]) -> Self {
        Self {
            jobs: jobs.iter().map(|job| line(job)).collect(),
            calendar: five_days(),
            hours: BTreeMap::new(),
            short: Vec::new(),
            put_off: PutOff::new(),
            form: Form::default(),
        }
    }

    fn on(&self, at: &str) -> Today {
        let index = Index::new(self.jobs.clone());
        let asked = Day {
            today: day(at),
            calendar: &self.calendar,
            hours: &self.hours,
            short: &self.short,
            put_off: &self.put_off,
            form: self.form,
        };
        today(&index, &asked)
    }

    fn put_off(&mut self, line: &Waiting, until: &str) {
        self.put_off.insert(line.matter.clone(), day(until));
    }
}

/// The lines, each as group, number and sentence, with what else waits in the job.
fn told(list: &Today) -> Vec<String> {
    let told = |line: &Waiting| {
        let group = line.matter.group.key();
        let others: Vec<&str> = line.others.iter().map(|group| group.key()).collect();
        let Waiting { number, says, .. } = line;
        let told = format!("{group} {number} {says} {}", others.join(" "));
        told.trim_end().to_owned()
    };
    list.lines.iter().map(told).collect()
}

fn inquiry(number: &str) -> Job {
    let fields = [
        (Field::Customer, "Alder Finch Rotors"),
        (Field::Part, "4-118"),
        (Field::Revision, "C"),
        (Field::Quantity, "25"),
        (Field::Machine, "Wren"),
    ];
    job(number, &fields)
}

fn with_field(job: &Job, field: Field, text: &str) -> Job {
    let text = text.to_owned();
    let unit = job.unit;
    let edit = Edit::SetField { field, text, unit };
    apply(job, &edit).expect("an edit").0
}

/// A quotation of 20 November for 25 parts.
fn quoted(number: &str) -> Job {
    of_revision(with_quotation(
        &inquiry(number),
        &format!("{number}-Q1"),
        None,
        &[number],
    ))
}

/// The job, quoted in the revision that its sheet has.
fn of_revision(mut job: Job) -> Job {
    let quotation = Arc::make_mut(&mut job.issued[0]);
    quotation.lines[0].revision = "C".to_owned();
    job
}

fn ordered(number: &str, due: &str) -> Job {
    let order = [
        (Line::Date, "2026-11-23"),
        (Line::Quantity, "25"),
        (Line::Due, due),
    ];
    with_slip(&quoted(number), SlipKind::Order, &order)
}

fn on_floor(number: &str, due: &str) -> Job {
    let came = [(Line::Date, "2026-11-24"), (Line::Count, "25")];
    let here = with_slip(&ordered(number, due), SlipKind::Received, &came);
    with_traveler(&here, 25)
}

#[test]
fn a_job_stands_once_in_the_first_group_that_fits_and_tells_what_else_waits() {
    let late = ordered("26-0101", "2026-11-20");
    let call = [
        (Line::Date, "2026-11-18"),
        (Line::Who, "Pell"),
        (Line::CallAgain, "2026-11-24"),
    ];
    let late = with_slip(&late, SlipKind::Call, &call);
    let wrong = [(Line::Date, "2026-11-24"), (Line::What, "0.1 too deep")];
    let late = with_slip(&late, SlipKind::Nonconformance, &wrong);
    let mut asked = Asked::of(&[&late]);
    let list = asked.on(WEDNESDAY);
    let says = "25 parts are 5 days late (ordered).";
    assert_eq!(
        told(&list),
        [format!("late 26-0101 {says} call parts nonconformance")]
    );
    assert_eq!(
        list.foot.said(Form::default()),
        "1 late, 1 call. Nothing on the floor, 24 hours to have this week."
    );
    let first = list.lines[0].clone();
    assert_eq!(
        others(&first.others, &list.foot, Form::default()),
        "and 3 more: call today; waiting for parts; non-conformance open"
    );
    let Waiting {
        when,
        customer,
        part,
        revision,
        age,
        spot,
        ..
    } = &first;
    assert_eq!((*when, *age), (Some(day("2026-11-20")), Some(5)));
    let who = [customer.as_str(), part, revision];
    assert_eq!(who, ["Alder Finch Rotors", "4-118", "C"]);
    let due = Spot::Line {
        slip: 0,
        line: Line::Due,
    };
    assert_eq!(*spot, due);
    // Put off, it stands where the next matter stands, until its day.
    asked.put_off(&first, "2026-11-27");
    let list = asked.on(WEDNESDAY);
    assert_eq!(
        told(&list),
        ["call 26-0101 Call Pell again. parts nonconformance"]
    );
    assert_eq!(
        list.foot.said(Form::default()),
        "1 call. Nothing on the floor, 24 hours to have this week. 1 set aside."
    );
    assert_eq!(told(&asked.on("2026-11-26")).len(), 1);
    assert!(told(&asked.on("2026-11-27"))[0].starts_with("late"));
    // Late for another day is another matter.
    let other = with_line(&late, 0, Line::Due, "2026-11-19");
    asked.jobs = vec![line(&other)];
    assert!(told(&asked.on(WEDNESDAY))[0].starts_with("late"));
}

fn with_line(job: &Job, slip: u32, line: Line, text: &str) -> Job {
    let text = text.to_owned();
    let unit = job.unit;
    let edit = Edit::SetLine {
        slip,
        line,
        text,
        unit,
    };
    apply(job, &edit).expect("an edit").0
}

#[test]
fn every_group_has_its_lines_in_order() {
    let differs = with_line(&ordered("26-0102", "2026-12-18"), 0, Line::Quantity, "20");
    let here = [(Line::Date, "2026-11-24"), (Line::Count, "25")];
    let here = with_slip(&ordered("26-0103", "2026-12-18"), SlipKind::Received, &here);
    let some = [(Line::Count, "10")];
    let some = with_slip(&ordered("26-0104", "2026-12-18"), SlipKind::Received, &some);
    let none = ordered("26-0105", "2026-12-11");
    let follow_up = with_field(&quoted("26-0106"), Field::FollowUp, "2026-11-25");
    let soon = with_field(&quoted("26-0108"), Field::FollowUp, "2026-12-01");
    let in_part = on_floor("26-0109", "2026-11-23");
    let in_part = with_slip(&in_part, SlipKind::Delivery, &[(Line::Count, "15")]);
    let last = on_floor("26-0110", "2026-11-24");
    let last = with_slip(&last, SlipKind::Delivery, &[(Line::Count, "24")]);
    let wrong = with_slip(&quoted("26-0111"), SlipKind::Nonconformance, &[]);
    let wrong = with_slip(&wrong, SlipKind::Reply, &[(Line::Outcome, "declined")]);
    let mut asked = Asked::of(&[
        &differs,
        &here,
        &some,
        &none,
        &follow_up,
        &quoted("26-0107"),
        &soon,
        &in_part,
        &last,
        &wrong,
        &on_floor("26-0112", WEDNESDAY),
        &on_floor("26-0113", "2026-11-28"),
        &on_floor("26-0114", "2026-11-30"),
        &inquiry("26-0115"),
    ]);
    asked.jobs.push(Arc::new(ShelfLine {
        name: "26-0116".to_owned(),
        job: Some(key("26-0116")),
        says: Err("Not a job. Restore it.".to_owned()),
    }));
    asked.jobs.push(Arc::new(ShelfLine {
        name: "notes.txt".to_owned(),
        job: None,
        says: Err("no job".to_owned()),
    }));
    let short = |name: &str, here, wanted, job: Option<&str>| Short {
        thing: if name.starts_with("Guide") {
            Thing::Guide
        } else {
            Thing::Electrode
        },
        name: name.to_owned(),
        here,
        wanted,
        job: job.map(key),
    };
    asked.short = vec![
        short("Electrode 0.70 mm", 3, 9, Some("26-0112")),
        short("Guide 0.70 mm", 0, 1, None),
    ];
    asked.hours = [("26-0109", 12.0), ("26-0112", 24.0), ("26-0113", 5.4)]
        .map(|(job, hours)| (key(job), hours))
        .into();
    let list = asked.on(WEDNESDAY);
    assert_eq!(
        told(&list),
        [
            "late 26-0109 10 parts are 2 days late (on the floor).",
            "late 26-0110 1 part is 1 day late (on the floor).",
            "call 26-0106 Ask what became of Q1, out for 5 days.",
            "differs 26-0102 The order is for 20 parts, a quantity that was not quoted; the nearest is 25. \
             There is 1 more difference. parts",
            "to_release 26-0103 25 parts are here; their traveler is not released.",
            "parts 26-0105 Waiting for 25 parts.",
            "parts 26-0104 10 of 25 parts are here.",
            "no_answer 26-0107 No answer to Q1 for 5 days.",
            "no_answer 26-0108 No answer to Q1 for 5 days; ask on 1 Dec 2026.",
            "due 26-0112 25 parts are due today (on the floor).",
            "due 26-0113 25 parts are due in 3 days (on the floor).",
            "nonconformance 26-0111 A non-conformance is open.",
            "short 26-0112 Electrode 0.70 mm: 3 in the drawer, 9 wanted.",
            "short  Guide 0.70 mm: none in the drawer, 1 wanted.",
            "cant_read 26-0116 Not a job. Restore it.",
        ]
    );
    assert_eq!(
        list.foot.said(Form::default()),
        "2 late, 1 call. 41 hours and 2 jobs without hours on the floor, 24 to have this week. 1 job can't be read."
    );
    let floor = on_the_floor(&Index::new(asked.jobs.clone()));
    let floor: Vec<&str> = floor.iter().map(JobKey::as_str).collect();
    assert_eq!(
        floor,
        ["26-0114", "26-0113", "26-0112", "26-0110", "26-0109"]
    );
    let wanted = hours_wanted(&Index::new(asked.jobs.clone()), &list);
    let wanted: Vec<&str> = wanted.iter().map(JobKey::as_str).collect();
    assert_eq!(wanted[..floor.len()], floor[..]);
    let listed: BTreeSet<&str> = wanted.iter().copied().collect();
    assert_eq!(listed.len(), wanted.len(), "each once: {wanted:?}");
    for job in ["26-0105", "26-0104", "26-0107"] {
        assert!(listed.contains(job), "{job} in {wanted:?}");
    }
    let hours: Vec<Option<f64>> = list.lines.iter().map(|line| line.hours).collect();
    assert_eq!(
        (hours[0], hours[1], hours[9]),
        (Some(12.0), None, Some(24.0))
    );
    let groups: Vec<(Group, usize)> = list
        .groups()
        .map(|(group, lines)| (group, lines.len()))
        .collect();
    assert_eq!(groups[..2], [(Group::Late, 2), (Group::CallToday, 1)]);
    assert_eq!(groups.iter().map(|(_, count)| count).sum::<usize>(), 15);
    let spots: Vec<&Spot> = list.lines.iter().map(|line| &line.spot).collect();
    assert_eq!(*spots[2], Spot::Field(Field::FollowUp));
    let accepted = Spot::Line {
        slip: 0,
        line: Line::Accepted,
    };
    assert_eq!(*spots[3], accepted);
    assert_eq!(*spots[4], Spot::Issue(Paper::Traveler));
    assert_eq!(*spots[5], Spot::NewSlip(SlipKind::Received));
    let number = "26-0107-Q1".to_owned();
    assert_eq!(*spots[7], Spot::Issued { number });
    let name = "Electrode 0.70 mm".to_owned();
    assert_eq!(
        *spots[12],
        Spot::Drawer {
            thing: Thing::Electrode,
            name
        }
    );
    assert_eq!(*spots[14], Spot::File);
    let electrode = &list.lines[12];
    assert_eq!(
        (electrode.customer.as_str(), electrode.when),
        ("Alder Finch Rotors", Some(day(WEDNESDAY)))
    );
    // All of it can be put off.
    for line in &list.lines {
        asked.put_off(line, "2026-11-26");
    }
    let list = asked.on(WEDNESDAY);
    assert_eq!(told(&list), ["parts 26-0102 Waiting for 20 parts."]);
    assert_eq!(list.foot.set_aside, 15);
    // And looked at, each with the place where it is seen to.
    assert_eq!(list.aside.len(), 15);
    let back = Some(day("2026-11-26"));
    assert!(list.aside.iter().all(|line| line.put_off == back));
    let of_electrode = |line: &&Waiting| matches!(line.spot, Spot::Drawer { .. });
    assert!(list.aside.iter().any(|line| of_electrode(&line)));
}

#[test]
fn where_nothing_waits_the_quotations_that_are_out_are_told() {
    let said = |jobs: &[&Job], at| Asked::of(jobs).on(at).foot.said(Form::default());
    assert_eq!(said(&[], WEDNESDAY), "Nothing waits.");
    assert_eq!(said(&[&inquiry("26-0101")], WEDNESDAY), "Nothing waits.");
    let one = quoted("26-0101");
    assert_eq!(
        said(&[&one], "2026-11-26"),
        "Nothing waits but answers. 1 quotation is out, 6 days."
    );
    assert_eq!(
        said(&[&one], "2026-11-20"),
        "Nothing waits but answers. 1 quotation is out, since today."
    );
    let two = quoted("26-0102");
    // One paper for three jobs is one quotation.
    let joint = |number: &str| {
        let of = ["26-0103", "26-0104", "26-0105"];
        with_quotation(&inquiry(number), "26-0103-Q1", None, &of)
    };
    let three = ["26-0103", "26-0104", "26-0105"].map(joint);
    assert_eq!(
        said(&[&one, &two, &three[0], &three[1], &three[2]], "2026-11-21"),
        "Nothing waits but answers. 3 quotations are out, the oldest 1 day."
    );
    // And whoever asks what became of it calls once.
    let asked = three.map(|job| with_field(&job, Field::FollowUp, "2026-11-24"));
    let asked = Asked::of(&[&asked[0], &asked[1], &asked[2]]);
    let foot = asked.on(WEDNESDAY).foot;
    assert_eq!((foot.calls, foot.waits), (1, true));
}

#[test]
fn a_job_that_was_set_aside_waits_for_nothing_but_what_was_promised_and_what_is_wrong() {
    let late = ordered("26-0101", "2026-11-20");
    let wrong = [(Line::HolesNamed, "A3"), (Line::What, "too deep\nby 0.1")];
    let late = with_slip(&late, SlipKind::Nonconformance, &wrong);
    let aside = with_field(&late, Field::LaidAside, "they build it no more");
    let says = "nonconformance 26-0101 A3: too deep / by 0.1";
    assert_eq!(told(&Asked::of(&[&aside]).on(WEDNESDAY)), [says]);
    let call = [(Line::CallAgain, "2026-11-25")];
    let call = with_slip(&aside, SlipKind::Call, &call);
    let list = Asked::of(&[&call]).on(WEDNESDAY);
    assert_eq!(told(&list), ["call 26-0101 Call again. nonconformance"]);
}

#[test]
fn a_sunday_looks_at_the_week_that_comes_and_days_off_shorten_a_week() {
    let due = |number, due| on_floor(number, due);
    let jobs = [
        due("26-0101", "2026-11-27"),
        due("26-0102", "2026-11-29"),
        due("26-0103", "2026-11-30"),
        due("26-0104", "2026-12-06"),
        due("26-0105", "2026-12-07"),
    ];
    let mut asked = Asked::of(&jobs.each_ref());
    let numbers = |list: &Today| -> Vec<String> {
        let due = (list.lines.iter()).filter(|line| line.matter.group == Group::DueThisWeek);
        due.map(|line| line.number[5..].to_owned()).collect()
    };
    let list = asked.on(WEDNESDAY);
    assert_eq!(numbers(&list), ["01", "02"]);
    let sunday = asked.on("2026-11-29");
    assert_eq!(numbers(&sunday), ["02", "03", "04"]);
    assert_eq!((sunday.foot.late, sunday.foot.week_hours), (1, 40.0));
    assert_eq!(
        sunday.foot.said(Form::default()),
        "1 late. 5 jobs without hours on the floor, 40 to have in the week of 30 Nov 2026."
    );
    assert_eq!(
        group(Group::DueThisWeek, &sunday.foot, Form::default()),
        "due in the week of 30 Nov 2026"
    );
    assert_eq!(
        group(Group::DueThisWeek, &list.foot, Form::default()),
        "due this week"
    );
    // Thursday, Friday and Monday off: what is due on Monday has to be ready today.
    for off in ["2026-11-26", "2026-11-27", "2026-11-30"] {
        asked.calendar.days_off.insert(day(off));
    }
    asked.calendar.unattended_hours_per_day = 4.5;
    let list = asked.on(WEDNESDAY);
    assert_eq!(numbers(&list), ["01", "02", "03"]);
    assert!((list.foot.week_hours - 12.5).abs() < 1e-12);
}

#[test]
fn what_is_no_date_is_told_where_it_matters() {
    let soon = with_line(&ordered("26-0101", ""), 0, Line::Due, "soon");
    let some = [(Line::Count, "a box")];
    let some = with_slip(&ordered("26-0102", "2026-12-18"), SlipKind::Received, &some);
    let call = [(Line::Who, "Pell"), (Line::CallAgain, "next week")];
    let call = with_slip(&inquiry("26-0103"), SlipKind::Call, &call);
    let asap = with_field(&ordered("26-0104", ""), Field::Due, "ASAP");
    assert_eq!(
        told(&Asked::of(&[&soon, &some, &call, &asap]).on(WEDNESDAY)),
        [
            "call 26-0103 Call: call again on \u{201c}next week\u{201d} can't be read.",
            "differs 26-0101 Order: due \u{201c}soon\u{201d} can't be read. parts",
            "differs 26-0104 Due date \u{201c}ASAP\u{201d} on the sheet can't be read. parts",
            "parts 26-0102 Parts received: count \u{201c}a box\u{201d} can't be read. parts",
        ]
    );
}

#[test]
fn a_call_is_done_by_a_slip_of_today_and_all_else_where_it_stands() {
    let call = [(Line::Who, "Pell"), (Line::CallAgain, "2026-11-24")];
    let promised = with_slip(&ordered("26-0101", "2026-11-20"), SlipKind::Call, &call);
    let vague = [(Line::CallAgain, "soon")];
    let vague = with_slip(&inquiry("26-0102"), SlipKind::Call, &vague);
    let follow_up = with_field(&quoted("26-0103"), Field::FollowUp, "2026-11-23");
    let follow_up = with_field(&follow_up, Field::Contact, " Marn ");
    for (job, who) in [(&vague, ""), (&follow_up, "Marn")] {
        let list = Asked::of(&[job]).on(WEDNESDAY);
        let edit = done(&list.lines[0], job, day(WEDNESDAY), Form::PLAIN, "Ines").expect("a call");
        let (called, _) = apply(job, &edit).expect("an edit");
        let after = Asked::of(&[&called]).on(WEDNESDAY);
        let calls = after
            .lines
            .iter()
            .filter(|line| line.matter.group == Group::CallToday);
        assert_eq!((calls.count(), after.foot.calls), (0, 0));
        let slip = called.slips.last().expect("a slip");
        let line = |line| slip.line(line).text();
        assert_eq!(
            [line(Line::Date), line(Line::By), line(Line::Who)],
            [WEDNESDAY, "Ines", who]
        );
    }
    let mut asked = Asked::of(&[&promised]);
    let late = asked.on(WEDNESDAY).lines.remove(0);
    assert_eq!(
        done(&late, &promised, day(WEDNESDAY), Form::PLAIN, ""),
        None
    );
    asked.put_off(&late, "2026-12-01");
    let call = asked.on(WEDNESDAY).lines.remove(0);
    let edit = done(&call, &promised, day(WEDNESDAY), Form::PLAIN, "").expect("a call");
    let (called, _) = apply(&promised, &edit).expect("an edit");
    assert_eq!(
        called.slips.last().expect("a slip").line(Line::Who).text(),
        "Pell"
    );
    // Its slip is gone meanwhile: somebody else saw to it.
    assert_eq!(
        done(&call, &inquiry("26-0101"), day(WEDNESDAY), Form::PLAIN, ""),
        None
    );
}

#[test]
fn hours_on_several_machines_are_held_against_one_machine_at_a_time() {
    let barrow = with_field(&on_floor("26-0102", "2026-12-18"), Field::Machine, "Barrow");
    let wren = with_field(&on_floor("26-0103", "2026-12-18"), Field::Machine, "wren");
    let mut asked = Asked::of(&[&on_floor("26-0101", "2026-11-26"), &barrow, &wren]);
    asked.hours = [("26-0101", 9.5), ("26-0102", 8.0), ("26-0103", 12.5)]
        .map(|(job, hours)| (key(job), hours))
        .into();
    let foot = asked.on(WEDNESDAY).foot;
    assert_eq!(
        foot.said(Form::default()),
        "Nothing late, no calls. 30 hours on the floor, 22 of them on wren; 24 to have on each machine \
         this week."
    );
    let one = Matter::read("late\t26-0101\t2026-11-20");
    assert_eq!(one.map(|one| one.group), Some(Group::Late));
}

/// The list says days and hours as the shop writes them, also what differs in an order that was looked
/// at under another form.
#[test]
fn the_list_is_written_in_the_shops_form() {
    let soon = with_field(&quoted("26-0108"), Field::FollowUp, "2026-12-01");
    let differs = with_field(&ordered("26-0102", "2026-12-18"), Field::Due, "2026-12-11");
    let mut asked = Asked::of(&[&differs, &soon, &on_floor("26-0112", WEDNESDAY)]);
    asked.hours = [(key("26-0112"), 12_345.6)].into();
    let usual = told(&asked.on(WEDNESDAY)).join("\n");
    assert!(
        usual.contains("due on 18 Dec 2026, the sheet says 11 Dec 2026."),
        "{usual}"
    );
    assert!(usual.contains("; ask on 1 Dec 2026."), "{usual}");
    asked.form = Form {
        numbers: Numbers::ApostrophePoint,
        dates: Dates::Points,
    };
    let list = asked.on(WEDNESDAY);
    let other = told(&list).join("\n");
    assert!(
        other.contains("due on 18.12.2026, the sheet says 11.12.2026."),
        "{other}"
    );
    assert!(other.contains("; ask on 01.12.2026."), "{other}");
    let foot = list.foot.said(asked.form);
    assert!(foot.contains("12'346 hours on the floor"), "{foot}");
}
