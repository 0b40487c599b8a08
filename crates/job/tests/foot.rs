//! The foot: every form of its sentence, and that each figure in it opens the working whose result it
//! is.
#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "a helper of tests fails by panic"
)]

mod hands;

use std::path::Path;

use chrono::NaiveDate;
use hands::{cells, done, field, ring};
use proptest::prelude::*;
use quillbore_calc::Figure;
use quillbore_calc::figure::{Formula, Name};
use quillbore_job::file::read_job;
use quillbore_job::results::foot::{Foot, Leads, Piece, foot, opened, text};
use quillbore_job::results::promise::{Promise, promise};
use quillbore_job::results::{Beside, Results, results_now, results_quick};
use quillbore_job::to_input::key_of;
use quillbore_job::words::speaker::Speaker;
use quillbore_job::{Column, Edit, Field, Job, Shop, Unit};

fn shop() -> &'static Shop {
    Shop::embedded().expect("the shop")
}

fn today() -> NaiveDate {
    hands::day(3, 2)
}

/// A job with all that its foot is said of.
struct Said<'a> {
    job: &'a Job,
    shop: &'a Shop,
    results: Results,
    promise: Option<Promise>,
}

impl<'a> Said<'a> {
    fn of(job: &'a Job, shop: &'a Shop) -> Self {
        Self::by(results_now(job, shop), job, shop)
    }

    fn by(results: Results, job: &'a Job, shop: &'a Shop) -> Self {
        let promise = promise(job, &results, shop, 0.0, today());
        Self {
            job,
            shop,
            results,
            promise,
        }
    }

    fn foot(&self) -> Foot {
        foot(self.job, &self.results, self.shop, self.promise.as_ref())
    }

    /// Every figure of the foot opens a working that ends in just the number that the piece prints.
    fn holds(&self) -> usize {
        let speaker = Speaker {
            job: self.job,
            tables: &self.shop.tables,
            unit: self.job.unit,
            form: self.shop.form,
        };
        let foot = self.foot();
        let mut held = 0;
        for piece in foot.said.iter().chain(&foot.rests) {
            let Some(figure) = piece.figure() else {
                continue;
            };
            let promise = self.promise.as_ref();
            let opened = opened(self.job, &self.results, self.shop, promise, figure);
            let opened = opened.unwrap_or_else(|| panic!("{piece:?} does not open"));
            let ends_in = speaker.stands(&opened);
            let ends_in = ends_in.unwrap_or_else(|| speaker.result(&opened));
            let mut numbers = ends_in.split(' ').map(|word| word.trim_end_matches(','));
            let number = piece.text.split(' ').next().expect("a number");
            assert!(
                number.starts_with(|c: char| c.is_ascii_digit()),
                "{piece:?}"
            );
            assert!(numbers.any(|word| word == number), "{piece:?}: {ends_in}");
            assert!(!speaker.figure(figure).is_empty());
            held += 1;
        }
        held
    }
}

fn lines(job: &Job, shop: &Shop) -> (String, String) {
    let foot = Said::of(job, shop).foot();
    (text(&foot.said), text(&foot.rests))
}

fn sentence(job: &Job, shop: &Shop) -> String {
    lines(job, shop).0
}

/// The jobs of a folder of the project.
fn jobs(folder: &str) -> Vec<(String, Job)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../..")
        .join(folder);
    let mut jobs: Vec<(String, Job)> = std::fs::read_dir(folder)
        .expect("the folder")
        .map(|entry| {
            let path = entry.expect("a file").path();
            let name = path
                .file_stem()
                .expect("a name")
                .to_string_lossy()
                .into_owned();
            let bytes = std::fs::read(&path).expect("its bytes");
            (name, read_job(&bytes).expect("a job"))
        })
        .collect();
    jobs.sort_by(|one, other| one.0.cmp(&other.0));
    jobs
}

fn all_jobs() -> Vec<(String, Job)> {
    let mut all = jobs("demo-jobs");
    all.extend(jobs("tests/hard-jobs"));
    all
}

fn overruled(job: &Job, figure: Figure, text: &str) -> Job {
    let edit = Edit::Overrule {
        figure: key_of(figure, &shop().tables).expect("a key"),
        text: text.to_owned(),
        reason: "as last time".to_owned(),
        unit: Unit::Mm,
    };
    done(job, &edit)
}

/// A ring with all that its hours need, its table these rows of mark, count, size, depth and end.
fn priced(rows: &[[&str; 5]]) -> Job {
    let mut job = field(&ring(), Field::Material, "Inconel 718");
    job = field(&job, Field::Machine, "Barrow");
    for (at, row) in rows.iter().enumerate() {
        job = cells(&job, at, row);
    }
    job
}

const SIZES: [[&str; 5]; 5] = [
    ["A", "36", "0.80 +-0.05", "14", "through"],
    ["B", "4", "1.20 +-0.05", "14", "through"],
    ["C", "2", "1.60 +-0.05", "14", "through"],
    ["D", "2", "2.00 +-0.05", "14", "through"],
    ["E", "1", "0.50 +-0.05", "14", "through"],
];

#[test]
fn every_figure_opens_the_working_whose_result_it_is() {
    let mut held = 0;
    let mut spoken = 0;
    for (name, job) in all_jobs() {
        for unit in [Unit::Mm, Unit::Inch] {
            for lead in [None, Some(""), Some("12")] {
                let mut job = job.clone();
                job.unit = unit;
                if let Some(lead) = lead {
                    job = field(&job, Field::LeadDays, lead);
                }
                let said = Said::of(&job, shop());
                let line = text(&said.foot().said);
                assert!(line.chars().count() <= 150, "{name}: {line}");
                assert!(line.ends_with('.'), "{name}: {line}");
                // An order's price was typed: it opens nothing.
                let typed = if line.starts_with("Ordered at") { 2 } else { 0 };
                spoken += usize::from(line.contains("machine hours"));
                held += said.holds() + typed;
            }
        }
    }
    // Each, lot, three of hours, electrodes and days in most of them.
    assert!(spoken > 60 && held >= 7 * spoken, "{held} of {spoken}");
}

#[test]
fn every_figure_still_opens_it_where_somebody_overruled() {
    let mut held = 0;
    for (name, job) in all_jobs() {
        let results = results_now(&job, shop());
        let Some(lot) = &results.figures.lot else {
            continue;
        };
        for (figure, value) in [
            (Figure::UnitPrice(lot.quantity), "48.205"),
            (Figure::MachineHours, "9.96"),
            (Figure::LaborHours, "123.4"),
            (Figure::HoleMinutes(job.rows[0].id), "7.5"),
            (Figure::Electrodes(lot.electrodes[0].tube), "1234"),
            (Figure::NotYetKnown, "30 %"),
            (Figure::Wear(job.rows[0].id), "1.5"),
        ] {
            let job = overruled(&job, figure, value);
            let job = field(&job, Field::LeadDays, "");
            let said = Said::of(&job, shop());
            let some = said.holds();
            let stops = text(&said.foot().said).starts_with("Can't be quoted");
            let ordered = text(&said.foot().said).starts_with("Ordered at");
            let least = if ordered { 5 } else { 7 };
            assert!(some >= least || stops, "{name}, {value}: {some}");
            held += some;
        }
    }
    assert!(held > 500, "{held}");
}

#[test]
fn one_size_two_three_and_more() {
    let job = |sizes: usize| field(&priced(&SIZES[..sizes]), Field::LeadDays, "8");
    let electrodes = |sizes: usize| {
        let said = sentence(&job(sizes), shop());
        let (_, after) = said.split_once("), ").expect("the hours end");
        after.to_owned()
    };
    let counts = |sizes: usize| -> Vec<u32> {
        let results = results_now(&job(sizes), shop());
        let lot = results.figures.lot.expect("a lot");
        lot.electrodes.iter().map(|of| of.needed).collect()
    };
    let one = counts(1)[0];
    assert_eq!(
        electrodes(1),
        format!("{one} electrodes 0.70 mm, 8 working days.")
    );
    let two = counts(2);
    assert_eq!(
        electrodes(2),
        format!(
            "{} electrodes ({} x 0.70, {} x 1.10 mm), 8 working days.",
            two[0] + two[1],
            two[0],
            two[1]
        )
    );
    let three = counts(3);
    assert_eq!(
        electrodes(3),
        format!(
            "{} electrodes ({} x 0.70, {} x 1.10, {} x 1.50 mm), 8 working days.",
            three.iter().sum::<u32>(),
            three[0],
            three[1],
            three[2]
        )
    );
    for sizes in [4, 5] {
        let all = counts(sizes).iter().sum::<u32>();
        assert_eq!(
            electrodes(sizes),
            format!("{all} electrodes in {sizes} sizes, 8 working days.")
        );
    }
    let inches = Job {
        unit: Unit::Inch,
        ..job(2)
    };
    let inches = sentence(&inches, shop());
    assert!(
        inches.contains(" x 0.0276, ") && inches.contains(" x 0.0433 in)"),
        "{inches}"
    );
}

#[test]
fn the_sentence_is_said_in_the_order_of_the_phone() {
    let job = field(&priced(&SIZES[..1]), Field::LeadDays, "8");
    let said = Said::of(&job, shop());
    let price = said.results.figures.price.as_ref().expect("a price");
    let lot = said.results.figures.lot.as_ref().expect("a lot");
    let offered = &price.breaks[0];
    let hours = lot.machine_hours;
    assert!(hours.p50 > 10.0, "whole hours from ten on");
    let foot = said.foot();
    assert_eq!(
        text(&foot.said),
        format!(
            "{} USD each, {} for 25. {:.0} machine hours ({:.0} to {:.0}), {} electrodes 0.70 mm, 8 working days.",
            offered.each,
            grouped(&offered.lot.to_string()),
            hours.p50,
            hours.p10,
            hours.p90,
            lot.electrodes[0].needed
        )
    );
    let strong: Vec<&Piece> = foot.said.iter().filter(|piece| piece.strong).collect();
    let figures = [
        Figure::UnitPrice(25),
        Figure::LotPrice(25),
        Figure::MachineHours,
        Figure::Electrodes(lot.electrodes[0].tube),
    ];
    assert_eq!(
        strong
            .iter()
            .filter_map(|piece| piece.figure())
            .collect::<Vec<_>>(),
        figures
    );
    assert_eq!(
        text(&foot.rests),
        "Not calibrated: no runs in Nickel alloy 718. Sample rates."
    );
}

fn grouped(money: &str) -> String {
    let (whole, part) = money.split_once('.').expect("digits");
    match whole.len() {
        0..=3 => money.to_owned(),
        length => {
            let (thousands, rest) = whole.split_at(length - 3);
            format!("{thousands},{rest}.{part}")
        }
    }
}

/// What is typed is what the quotation says; without it, what the lot takes by the shop's hours.
#[test]
fn days_are_the_lead_time_or_what_the_lot_takes() {
    let job = priced(&SIZES[..1]);
    let days = |job: &Job| {
        let said = Said::of(job, shop());
        let promise = said.promise.as_ref();
        let opened = opened(job, &said.results, shop(), promise, Figure::WorkingDays);
        let line = text(&said.foot().said);
        let (_, last) = line.rsplit_once(", ").expect("several parts");
        (last.to_owned(), opened, promise.map(|promise| promise.days))
    };
    let (said, takes, promised) = days(&job);
    let promised = promised.expect("a promise");
    assert!(promised.p50 < promised.p90);
    let (p50, p90) = (promised.p50, promised.p90);
    assert_eq!(said, format!("{p50} to {p90} working days."));
    assert_eq!(takes.expect("it opens").formula, Formula::WorkingDays);
    for (typed, shown) in [
        ("1", "1 working day."),
        ("8", "8 working days."),
        ("0", "0 working days."),
    ] {
        let (said, typed, _) = days(&field(&job, Field::LeadDays, typed));
        assert_eq!(said, shown);
        let typed = typed.expect("it opens");
        assert_eq!((typed.formula, typed.high), (Formula::LeadTime, None));
        let late = typed
            .inputs
            .iter()
            .find(|input| input.name == Name::LateDays);
        assert_eq!(late.expect("beside it").value.value, f64::from(p90));
    }
    // Where nobody asked when the lot is done a lead time stands alone, and without one no days are said.
    let unasked = |job: &Job| {
        let results = results_now(job, shop());
        let opened = opened(job, &results, shop(), None, Figure::WorkingDays);
        let inputs = opened.map(|opened| opened.inputs.len());
        (text(&foot(job, &results, shop(), None).said), inputs)
    };
    let (said, inputs) = unasked(&job);
    assert!(said.ends_with(" electrodes 0.70 mm."), "{said}");
    assert_eq!(inputs, None);
    let (said, inputs) = unasked(&field(&job, Field::LeadDays, "8"));
    assert!(
        said.ends_with(" electrodes 0.70 mm, 8 working days."),
        "{said}"
    );
    assert_eq!(inputs, Some(1));
}

#[test]
fn one_is_not_said_as_several() {
    let job = priced(&[["A", "1", "0.80 +-0.05", "5", "through"]]);
    let job = field(&field(&job, Field::Quantity, "1"), Field::LeadDays, "1");
    let said = sentence(&job, shop());
    assert!(
        said.ends_with(" machine hours (0.5 to 1.5), 1 electrode 0.70 mm, 1 working day."),
        "{said}"
    );
}

/// A shop with rates of its own.
fn own_rates(currency: &str, minor_digits: u32, minimum: f64) -> Shop {
    let file = format!(
        r#"(format: 2, rates: [(valid_from: "2026-01-01", currency: "{currency}",
        minor_digits: {minor_digits}, labor_per_hour: 65.0, machines_per_hour: {{}},
        dielectric_per_hour: 2.5, power_per_hour: 1.2, margin: 0.3, minimum_charge: {minimum:?},
        redo_share: 0.03, part_risk_share: 0.005, pedigree: "ours")])"#
    );
    Shop::with_file(file.as_bytes()).expect("a shop")
}

#[test]
fn the_minimum_charge_makes_the_lots_price() {
    let shop = own_rates("USD", 2, 500.0);
    let job = priced(&[["A", "1", "0.80 +-0.05", "5", "through"]]);
    let job = field(&job, Field::Quantity, "7");
    let said = Said::of(&job, &shop);
    assert!(said.holds() >= 6);
    let foot = said.foot();
    // 500 / 7 = 71.4286, rounded up so that the lot doesn't fall below it: 71.43 x 7 = 500.01, by hand.
    let line = text(&foot.said);
    assert!(line.starts_with("Minimum 500.01 USD for 7; "), "{line}");
    // Nothing is said of the price each: another part may cost nothing more.
    let figures: Vec<Figure> = foot.said.iter().filter_map(Piece::figure).collect();
    assert_eq!(figures[0], Figure::LotPrice(7));
    assert!(!figures.contains(&Figure::UnitPrice(7)));
    // Where somebody sets the price each, no minimum is said.
    let set = overruled(&job, Figure::UnitPrice(7), "12");
    let line = sentence(&set, &shop);
    assert!(line.starts_with("12.00 USD each, 84.00 for 7. "), "{line}");
    let (_, rests) = lines(&set, &shop);
    assert_eq!(rests, "Not calibrated: no runs in Nickel alloy 718.");
}

#[test]
fn a_thousand_pieces_stay_in_one_line() {
    let mut rows = SIZES;
    rows[0][1] = "120";
    let job = field(&priced(&rows), Field::Quantity, "1000");
    let said = Said::of(&job, shop());
    let line = text(&said.foot().said);
    assert!(line.contains(" for 1,000. "), "{line}");
    assert!(line.contains(" electrodes in 5 sizes, "), "{line}");
    assert!(line.chars().count() <= 150, "{line}");
    assert!(said.holds() >= 7);
}

#[test]
fn a_stop_is_all_that_is_said_and_leads_to_its_line() {
    let (_, job) = jobs("demo-jobs")
        .into_iter()
        .find(|(name, _)| name == "26-0105")
        .expect("the job that stops");
    let foot = Said::of(&job, shop()).foot();
    let line = text(&foot.said);
    assert!(line.starts_with("Can't be quoted: hole "), "{line}");
    assert!(
        line.contains(", not to be held: with the shop's electrodes only "),
        "{line}"
    );
    assert!(line.ends_with('.') && !line.ends_with(".."), "{line}");
    let stops = foot.said.iter().filter_map(|piece| piece.leads);
    let stops: Vec<Leads> = stops.collect();
    assert!(
        matches!(stops.as_slice(), [Leads::Line(Beside::Row(row, None))] if job.row(*row).is_some()),
        "{stops:?}"
    );
    // What can't be read and what the shop doesn't have stops, too, and is pressed to go there.
    let job = priced(&SIZES[..1]);
    for (of, typed, said) in [
        (
            Field::Margin,
            "100 %",
            "Can't be quoted: margin \u{201c}100 %\u{201d}: ",
        ),
        (
            Field::Material,
            "Unheardium",
            "Can't be quoted: \u{201c}Unheardium\u{201d} is not in the shop's list of materials",
        ),
    ] {
        let job = field(&job, of, typed);
        let foot = Said::of(&job, shop()).foot();
        assert!(text(&foot.said).starts_with(said), "{}", text(&foot.said));
        let leads = Leads::Line(Beside::Field(of));
        assert!(foot.said.iter().any(|piece| piece.leads == Some(leads)));
    }
}

#[test]
fn what_is_missing_is_named_and_leads_there() {
    let empty = Job::default();
    let (said, rests) = lines(&empty, shop());
    assert_eq!(
        said,
        "No price yet: material, quantity, machine and holes are missing."
    );
    assert_eq!(rests, "");
    let job = priced(&[
        ["A", "4", "", "14", "through"],
        ["", "1", "", "", "through"],
    ]);
    let (said, _) = lines(&job, shop());
    assert_eq!(said, "No price yet: a size and a depth are missing.");
    let job = cells(&job, 0, &["A", "4", "0.80 +-0.05"]);
    let job = cells(&job, 1, &["", "1", "0.80 +-0.05"]);
    let foot = Said::of(&job, shop()).foot();
    assert_eq!(text(&foot.said), "No price yet: a depth is missing.");
    let row = Beside::Row(job.rows[1].id, None);
    assert_eq!(foot.said[1].leads, Some(Leads::Line(row)));
    assert_eq!(
        text(&foot.rests),
        "Not calibrated: no runs in Nickel alloy 718. Without minutes: row 2."
    );
    assert!(
        foot.rests
            .iter()
            .any(|piece| piece.leads == Some(Leads::Line(row)))
    );
    let job = field(&priced(&SIZES[..1]), Field::Quantity, "");
    let foot = Said::of(&job, shop()).foot();
    assert_eq!(text(&foot.said), "No price yet: quantity is missing.");
    let quantity = Leads::Line(Beside::Field(Field::Quantity));
    assert_eq!(foot.said[1].leads, Some(quantity));
}

#[test]
fn many_rows_without_minutes_are_counted() {
    let with: Vec<String> = (0..9).map(|at| format!("H{at}")).collect();
    let mut job = priced(&SIZES[..1]);
    for (at, mark) in with.iter().enumerate() {
        job = cells(&job, at + 1, &[mark, "1", "0.80 +-0.05", "", "through"]);
    }
    let (_, rests) = lines(&job, shop());
    assert_eq!(
        rests,
        "Not calibrated: no runs in Nickel alloy 718. Without minutes: hole H0, hole H1, hole H2, hole H3, hole H4 and 4 more."
    );
}

#[test]
fn a_yen_has_no_digits_and_a_shops_own_rates_are_no_sample() {
    let yen = own_rates("JPY", 0, 25_000.0);
    let job = field(&priced(&SIZES[..2]), Field::Quantity, "1000");
    let said = Said::of(&job, &yen);
    assert!(said.holds() >= 9);
    let (line, rests) = lines(&job, &yen);
    let (price, _) = line.split_once(". ").expect("a price");
    assert!(
        price.contains(" JPY each, ") && !price.contains('.'),
        "{line}"
    );
    assert_eq!(rests, "Not calibrated: no runs in Nickel alloy 718.");
    let minimum = field(&priced(&SIZES[4..]), Field::Quantity, "1");
    let line = sentence(&minimum, &yen);
    assert!(line.starts_with("Minimum 25,000 JPY for 1; "), "{line}");
    // Half a yen goes away from zero, in foot and working alike.
    let set = overruled(&job, Figure::UnitPrice(1000), "1234.5");
    let line = sentence(&set, &yen);
    assert!(
        line.starts_with("1,235 JPY each, 1,235,000 for 1,000. "),
        "{line}"
    );
    assert!(Said::of(&set, &yen).holds() >= 9);
}

/// Two tubes of one diameter are told apart by their names.
#[test]
fn tubes_of_the_same_size_are_told_by_name() {
    let tubes = &shop().tables.tubes;
    let of = |tube: &&quillbore_calc::tables::Tube| tube.outer_mm == 0.7;
    let names: Vec<&str> = tubes
        .iter()
        .filter(of)
        .map(|tube| tube.name.as_str())
        .collect();
    assert!(names.len() > 1, "{names:?}");
    let mut job = priced(&[
        ["A", "36", "0.80 +-0.05", "14", "through"],
        ["B", "36", "0.80 +-0.05", "14", "through"],
    ]);
    for (row, name) in names.iter().take(2).enumerate() {
        let edit = Edit::SetCells {
            at: quillbore_job::CellAt {
                row,
                column: Column::Tube,
            },
            rows: vec![vec![Some((*name).to_owned())]],
            unit: Unit::Mm,
        };
        job = done(&job, &edit);
    }
    let line = sentence(&job, shop());
    for name in &names[..2] {
        assert!(line.contains(&format!(" x {name}")), "{line}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 100,
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    /// Whatever somebody typed or set: foot and working print the same number.
    #[test]
    fn any_price_and_any_hours_are_printed_alike(
        quantity in 1..1_000_000_u32,
        digits in 0..4_u32,
        minimum in prop_oneof![Just(0.0), 0.0..1e9],
        each in prop::option::of(0.0..1e6),
        hours in prop::option::of(0.0..1e5),
        rows in 1..6_usize,
    ) {
        let shop = own_rates("USD", digits, minimum);
        let mut job = field(&priced(&SIZES[..rows]), Field::Quantity, &quantity.to_string());
        if let Some(each) = each {
            job = overruled(&job, Figure::UnitPrice(quantity), &format!("{each:.4}"));
        }
        if let Some(hours) = hours {
            job = overruled(&job, Figure::MachineHours, &format!("{hours:.3}"));
        }
        let said = Said::by(results_quick(&job, &shop), &job, &shop);
        prop_assert!(said.holds() >= 6, "{}", text(&said.foot().said));
    }
}

/// From the order on the foot says the order's price, and not today's.
#[test]
fn the_orders_price_is_said_once_there_is_one() {
    let job = priced(&SIZES[..1]);
    let today = sentence(&job, shop());
    assert!(!today.starts_with("Ordered"), "{today}");
    let each = [
        (quillbore_job::Line::Each, "98"),
        (quillbore_job::Line::Quantity, "10"),
    ];
    let job = hands::pin(&job, quillbore_job::SlipKind::Order, &each);
    let line = sentence(&job, shop());
    assert!(
        line.starts_with("Ordered at 98.00 USD each, 980.00 for 10. "),
        "{line}"
    );
    // An order that says no price leaves today's.
    let silent = hands::pin(
        &priced(&SIZES[..1]),
        quillbore_job::SlipKind::Order,
        &[(quillbore_job::Line::Number, "PO 1")],
    );
    assert_eq!(sentence(&silent, shop()), today);
}
