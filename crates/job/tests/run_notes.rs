//! Entries of run records that can't be: each is told beside its line, and changes nothing else.

#![expect(clippy::expect_used, reason = "helpers of tests fail by panic")]

mod hands;

use hands::{cells, field, pin, ring};
use quillbore_calc::finding::Level;
use quillbore_job::drawer::Thing;
use quillbore_job::results::{Beside, NoteKind, Results, RunFault, Telling, results_quick};
use quillbore_job::slip::kind;
use quillbore_job::{Field, Job, Line, Shop, SlipKind, life};

fn shop() -> &'static Shop {
    Shop::embedded().expect("the shop")
}

fn results(job: &Job) -> Results {
    results_quick(job, shop())
}

/// What is said of run records: slip, line, fault.
fn told(job: &Job) -> Vec<(u32, Line, RunFault)> {
    let notes = results(job).notes.into_iter();
    notes
        .filter_map(|note| match (note.kind, note.beside) {
            (NoteKind::Run(fault), Beside::Slip(slip, Some(line))) => Some((slip, line, fault)),
            _ => None,
        })
        .collect()
}

fn said(job: &Job) -> Vec<String> {
    let results = results(job);
    let telling = Telling::new(job, shop());
    let notes = results.notes.iter();
    let of_runs = notes.filter(|note| matches!(note.kind, NoteKind::Run(_)));
    of_runs
        .map(|note| telling.text(note).into_owned())
        .collect()
}

fn run(job: &Job, lines: &[(Line, &str)]) -> Job {
    let mut all = vec![(Line::Mark, "A")];
    all.retain(|(line, _)| lines.iter().all(|(other, _)| other != line));
    all.extend_from_slice(lines);
    pin(job, SlipKind::Run, &all)
}

/// 25 rings with 36 holes A, 14 mm deep, and 4 holes B, 0.5 mm deep; the parts are here.
fn base() -> Job {
    let job = cells(&ring(), 1, &["B", "4", "1.0", "0.5", "through"]);
    pin(&job, SlipKind::Received, &[(Line::Count, "25")])
}

#[test]
fn a_record_that_can_be_is_left_in_peace() {
    // What becomes of the scrap is said.
    let mut job = pin(
        &base(),
        SlipKind::Nonconformance,
        &[(Line::NotSent, "1"), (Line::Closed, "2026-05-06")],
    );
    for lines in [
        &[
            (Line::Date, "2026-05-04"),
            (Line::Holes, "900"),
            (Line::TubeUsed, "brass 0.30 x 400"),
            (Line::TubeBefore, "400"),
            (Line::TubeAfter, "212"),
            (Line::Dressed, "188"),
            (Line::DepthReached, "14.2"),
            (Line::SparkMinutes, "96"),
            (Line::FloorMinutes, "126"),
            (Line::StopMinutes, "30"),
            (Line::Good, "24"),
            (Line::Scrap, "1"),
            (Line::Pins, "0.80 / 0.82"),
        ][..],
        // The same parts stand on a line of another mark; a thin wall is left by the tip's own length.
        &[
            (Line::Mark, " b "),
            (Line::Holes, "100"),
            (Line::Good, "25"),
            (Line::DepthReached, "3"),
            (Line::Pins, ".031 in, .032 in"),
        ],
        // Nothing stood still, nothing broke, nothing was dressed off.
        &[
            (Line::FloorMinutes, "60"),
            (Line::StopMinutes, "0"),
            (Line::Breakages, "0"),
            (Line::Dressed, "0"),
        ],
        // What was not typed is not wrong.
        &[],
    ] {
        job = run(&job, lines);
    }
    assert_eq!(told(&job), []);
}

#[test]
fn each_entry_that_cannot_be_is_told_beside_its_line() {
    for (lines, line, fault) in [
        (&[(Line::Mark, "Q")][..], Line::Mark, RunFault::UnknownMark),
        (&[(Line::Mark, "A, B")], Line::Mark, RunFault::UnknownMark),
        (
            &[(Line::TubeUsed, "brass 0.31 x 400")],
            Line::TubeUsed,
            RunFault::UnknownTube,
        ),
        (
            &[
                (Line::TubeUsed, "Brass 0.30 x 200"),
                (Line::TubeBefore, "412"),
            ],
            Line::TubeBefore,
            RunFault::TubeTooLong,
        ),
        (
            &[(Line::TubeBefore, "4000")],
            Line::TubeBefore,
            RunFault::TubeTooLong,
        ),
        (
            &[
                (Line::TubeBefore, "300"),
                (Line::TubeAfter, "250"),
                (Line::Dressed, "50.1"),
            ],
            Line::Dressed,
            RunFault::DressedTooMuch,
        ),
        (
            &[(Line::DepthReached, "28.1")],
            Line::DepthReached,
            RunFault::TooDeep,
        ),
        (
            &[(Line::Mark, "B"), (Line::DepthReached, "3.6")],
            Line::DepthReached,
            RunFault::TooDeep,
        ),
        (
            &[(Line::FloorMinutes, "10001")],
            Line::FloorMinutes,
            RunFault::ManyMinutes,
        ),
        (
            &[(Line::FloorMinutes, "60"), (Line::StopMinutes, "60")],
            Line::FloorMinutes,
            RunFault::ClockTooShort,
        ),
        (
            &[
                (Line::SparkMinutes, "50"),
                (Line::FloorMinutes, "60"),
                (Line::StopMinutes, "20"),
            ],
            Line::FloorMinutes,
            RunFault::ClockTooShort,
        ),
        (&[(Line::Good, "26")], Line::Good, RunFault::TooManyParts),
        (
            &[(Line::Good, "24"), (Line::Scrap, "1")],
            Line::Scrap,
            RunFault::ScrapUnsaid,
        ),
        (&[(Line::Holes, "901")], Line::Holes, RunFault::TooManyHoles),
        (&[(Line::Pins, "0.80 go")], Line::Pins, RunFault::PinsUnread),
    ] {
        let before = base();
        let job = run(&before, lines);
        assert_eq!(told(&job), [(1, line, fault)], "{lines:?}");
        let [said] = said(&job).try_into().expect("one sentence");
        assert!(said.ends_with('.') && said.contains(": "), "{said}");
        // It moves no figure, and nothing that stands in the way of a paper.
        let (was, is) = (results(&before), results(&job));
        assert_eq!(was.figures, is.figures, "{lines:?}");
        assert_eq!(was.found(), is.found(), "{lines:?}");
        let levels = is
            .notes
            .iter()
            .filter(|note| matches!(note.kind, NoteKind::Run(_)));
        for note in levels {
            assert_eq!(note.code(), fault.key());
            assert!(note.level != Level::Stop && note.question.is_none());
        }
    }
}

#[test]
fn lines_of_a_mark_are_counted_together() {
    let twice = |parts: &str| {
        let job = run(&base(), &[(Line::Good, "13"), (Line::Holes, "468")]);
        run(
            &job,
            &[(Line::Mark, "a"), (Line::Good, parts), (Line::Holes, "432")],
        )
    };
    assert_eq!(told(&twice("12")), []);
    assert_eq!(
        told(&twice("13")),
        [(2, Line::Good, RunFault::TooManyParts)]
    );
    // It is told once, however many lines follow.
    let more = run(&twice("13"), &[(Line::Good, "1"), (Line::Holes, "1")]);
    assert_eq!(
        told(&more),
        [
            (2, Line::Good, RunFault::TooManyParts),
            (3, Line::Holes, RunFault::TooManyHoles)
        ]
    );
    // Spares, and parts that are done again, may come out of it once more.
    let spares = field(&twice("13"), Field::Spares, "1");
    assert_eq!(told(&spares), []);
    let redone = pin(&twice("13"), SlipKind::Nonconformance, &[(Line::Redo, "1")]);
    assert_eq!(told(&redone), []);
}

#[test]
fn a_line_without_a_mark_is_of_the_only_row() {
    let lines = [
        (Line::Mark, ""),
        (Line::DepthReached, "100"),
        (Line::Holes, "901"),
    ];
    let one_row = pin(&ring(), SlipKind::Received, &[(Line::Count, "25")]);
    assert_eq!(
        told(&run(&one_row, &lines)),
        [
            (1, Line::Holes, RunFault::TooManyHoles),
            (1, Line::DepthReached, RunFault::TooDeep)
        ]
    );
    assert_eq!(told(&run(&base(), &lines)), []);
}

#[test]
fn what_nobody_counted_is_held_against_nothing() {
    let lines = [(Line::Good, "4000000"), (Line::Holes, "1000000")];
    // No parts are here: the order's quantity says how many holes there can be, not how many parts.
    let asked = run(&ring(), &[(Line::Good, "400"), (Line::Holes, "901")]);
    assert_eq!(told(&asked), [(0, Line::Holes, RunFault::TooManyHoles)]);
    let nobody = run(&field(&ring(), Field::Quantity, ""), &lines);
    assert_eq!(told(&nobody), []);
    // A count that can't be read multiplies to nothing.
    let unread = cells(&base(), 0, &["A", "many", "0.80 +-0.05", "14"]);
    assert_eq!(told(&run(&unread, &[(Line::Holes, "90000")])), []);
    // A row without a depth asks for none.
    let no_depth = cells(&base(), 0, &["A", "36", "0.80 +-0.05", ""]);
    assert_eq!(told(&run(&no_depth, &[(Line::DepthReached, "400")])), []);
}

#[test]
fn sentences_name_what_stands_there_and_keep_to_a_line() {
    let job = run(
        &base(),
        &[
            (Line::Mark, "Q"),
            (Line::TubeUsed, "brass 0.30 x 200"),
            (Line::TubeBefore, "16 in"),
            (Line::Pins, "0.80 go"),
        ],
    );
    assert_eq!(
        said(&job),
        [
            "No row of the hole table has the mark \u{201c}Q\u{201d}: type a row's mark, one on each line.",
            "The electrode was 406.40 mm long before, but a new one of that size is 400.00 mm: check the length, its \
             unit, and which electrode was used.",
            "\u{201c}0.80 go\u{201d} holds other words than sizes, so none is read from it: type sizes \
             alone, such as 0.80 / 0.82, and the rest under trouble.",
        ]
    );
    let long = run(&base(), &[(Line::Mark, &"Q".repeat(5_000))]);
    assert!(said(&long)[0].chars().count() < 150);
}

#[test]
fn no_minutes_are_told_as_what_cannot_be_read() {
    let job = run(
        &base(),
        &[(Line::SparkMinutes, "0"), (Line::StopMinutes, "0")],
    );
    let unread: Vec<Beside> = results(&job)
        .notes
        .into_iter()
        .filter(|note| note.kind == NoteKind::Unread)
        .map(|note| note.beside)
        .collect();
    assert_eq!(unread, [Beside::Slip(1, Some(Line::SparkMinutes))]);
}

/// Parts that are scrap stay to be delivered until a non-conformance says that they are done again or never
/// will be; one that is scrap at two marks is one part.
#[test]
fn scrap_is_told_until_somebody_says_what_becomes_of_it() {
    let ordered = pin(&base(), SlipKind::Order, &[(Line::Quantity, "25")]);
    let scrap = [(Line::Good, "24"), (Line::Scrap, "1")];
    let of_b = [&scrap[..], &[(Line::Mark, "B")]].concat();
    let ran = run(&run(&ordered, &scrap), &of_b);
    let sent = pin(&ran, SlipKind::Delivery, &[(Line::Count, "24")]);
    // Beside the newest line that counts any.
    let newest = ran.slips_of::<kind::Run>().last().expect("a record").id();
    assert_eq!(told(&sent), [(newest, Line::Scrap, RunFault::ScrapUnsaid)]);
    assert!(said(&sent)[0].contains("1 part is scrap"));
    assert_eq!(life::left_to_deliver(&sent), Some(1));
    let with = |line| pin(&sent, SlipKind::Nonconformance, &[(line, "1")]);
    let again = with(Line::Redo);
    assert_eq!(
        (told(&again), life::left_to_deliver(&again)),
        (vec![], Some(1))
    );
    let never = with(Line::NotSent);
    assert_eq!(
        (told(&never), life::left_to_deliver(&never)),
        (vec![], Some(0))
    );
    assert_eq!(life::state(&never), life::State::Delivered);
    // One more that never goes out than there are.
    let twice = pin(&never, SlipKind::Nonconformance, &[(Line::NotSent, "1")]);
    let [(_, line, fault)] = told(&twice)[..] else {
        panic!("{:?}", told(&twice));
    };
    assert_eq!((line, fault), (Line::NotSent, RunFault::MoreThanOrdered));
    assert!(said(&twice)[0].contains("24 delivered and 2 not to be delivered"));
}

/// Of an electrode that lies counted a record says how many it took.
#[test]
fn a_record_that_says_no_number_of_electrodes_is_told_where_they_are_counted() {
    let mut shop = shop().clone();
    let told = |shop: &Shop, lines: &[(Line, &str)]| {
        let named = [
            &[(Line::TubeUsed, "brass 0.70 x 400"), (Line::Holes, "9")],
            lines,
        ]
        .concat();
        let notes = results_quick(&run(&base(), &named), shop).notes.into_iter();
        notes
            .filter(|note| note.kind == NoteKind::Run(RunFault::ElectrodesUnsaid))
            .map(|note| note.level)
            .collect::<Vec<_>>()
    };
    assert_eq!(told(&shop, &[]), []);
    for tube in &mut shop.tables.tubes {
        tube.stock = Some(12);
    }
    assert_eq!(told(&shop, &[]), [Level::Note]);
    for said in [
        (Line::Electrodes, "2"),
        (Line::ElectrodeNumber, "1 to 2"),
        (Line::TubeAfter, "140"),
    ] {
        assert_eq!(told(&shop, &[said]), []);
    }
}

/// What was used on the day of a count may be off it or not: that is told at the line.
#[test]
fn a_record_of_the_day_of_a_count_is_told() {
    let mut shop = shop().clone();
    let day = quillbore_job::read_quantity::date("2026-05-04").expect("a day");
    let name = "brass 0.70 x 400";
    shop.counted
        .insert((Thing::Electrode, name.to_owned()), day);
    let told = |date| {
        let lines = [
            (Line::TubeUsed, name),
            (Line::Date, date),
            (Line::Electrodes, "2"),
        ];
        let notes = results_quick(&run(&base(), &lines), &shop)
            .notes
            .into_iter();
        notes
            .filter(|note| note.kind == NoteKind::Run(RunFault::CountedThatDay))
            .count()
    };
    assert_eq!((told("2026-05-04"), told("2026-05-05")), (1, 0));
}
