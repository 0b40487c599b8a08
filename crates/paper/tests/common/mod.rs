//! Invented jobs with figures set by hand, for tests of the papers.
#![allow(
    dead_code,
    unreachable_pub,
    reason = "each test file uses another part of it"
)]
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "helpers of tests may panic"
)]

use quillbore_calc::mount::Mount;
use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_calc::finding::Level;
use quillbore_calc::input::{HoleEnd, PartAxis, Place, RowInput};
use quillbore_calc::job_figures::{
    Break, CostLines, ElectrodeFigures, ElectrodeLoad, HoleFigures, HoleSteps, LaborMinutes,
    LotFigures, MachineMinutes, PriceFigures, SetupFigures, Stop, Verdict,
};
use quillbore_calc::tables::Tube;
use quillbore_calc::{Band, Idx, JobFigures, JobInput, Limits, RowId, Tables};
use quillbore_job::answer::{Answer, How};
use quillbore_job::concern::{Concern, Customer, Facts};
use quillbore_job::slip::kind;
use quillbore_job::{
    CellAt, Column, Edit, Field, Issued, Job, Line, Paper, Shop, SlipKind, Unit, apply,
};
use quillbore_paper::page::Item;
use quillbore_paper::{Document, Issuer, Matter, Remark, Sheet};
use rust_decimal::Decimal;

pub struct Sample {
    pub job: Job,
    pub input: JobInput,
    pub figures: JobFigures,
    pub tables: Tables,
    pub remarks: Vec<Remark>,
    pub answers: Vec<Answer>,
    pub issuer: Issuer,
}

impl Sample {
    pub fn matter(&self, sheet: Sheet) -> Matter<'_> {
        Matter {
            job: &self.job,
            input: &self.input,
            figures: &self.figures,
            tables: &self.tables,
            unknown: &[],
            remarks: &self.remarks,
            issuer: &self.issuer,
            sheet,
            date: day(),
            number: None,
            valid_until: None,
            answers: &self.answers,
            quotation: None,
            preview: None,
            annex: true,
        }
    }
}

pub fn day() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 11, 7).unwrap()
}

struct HoleSpec {
    cells: [&'static str; 6],
    places: u32,
    limits: Limits,
    depth: f64,
    tilt: f64,
    blind: bool,
    behind: Option<f64>,
    tube: &'static str,
    minutes: f64,
    wear: f64,
}

fn set(job: &mut Job, edit: &Edit) {
    *job = apply(job, edit).unwrap().0;
}

fn build(number: &str, unit: Unit, fields: &[(Field, &str)], holes: &[HoleSpec]) -> Sample {
    let shop = Shop::embedded().unwrap();
    let tables = shop.tables_on(day());
    let mut job = Job {
        number: number.to_owned(),
        opened: Some(day()),
        ..Job::default()
    };
    set(&mut job, &Edit::SetUnit(unit));
    for (field, text) in fields {
        let text = (*text).to_owned();
        set(
            &mut job,
            &Edit::SetField {
                field: *field,
                text,
                unit,
            },
        );
    }
    let columns = [
        Column::Mark,
        Column::Count,
        Column::Size,
        Column::Depth,
        Column::End,
        Column::Angle,
    ];
    for (index, hole) in holes.iter().enumerate() {
        for (column, text) in columns.iter().zip(hole.cells) {
            let at = CellAt {
                row: index,
                column: *column,
            };
            let rows = vec![vec![Some(text.to_owned())]];
            set(&mut job, &Edit::SetCells { at, rows, unit });
        }
    }
    let ids: Vec<RowId> = job.rows.iter().map(|row| row.id).collect();
    let input = JobInput {
        material: shop.material(job.text(Field::Material)),
        machine: Idx::find(&tables.machines, |machine| {
            machine.name == job.text(Field::Machine)
        }),
        measured_resistivity_ohm_cm: None,
        quantity: Some(25),
        breaks: Vec::new(),
        part_mm: None,
        mass_kg: None,
        part_value: None,
        liability_cap: None,
        index_about: None,
        rows: holes
            .iter()
            .zip(&ids)
            .map(|(hole, id)| row_input(hole, *id))
            .collect(),
        one_off: Vec::new(),
        outside_work: 0.0,
        outside_per_part: 0.0,
        margin: None,
        overrules: Vec::new(),
    };
    let figures = figures(holes, &ids, &tables);
    let issuer = Issuer {
        name: shop.name.clone(),
        address: shop.address.clone(),
        terms: shop.texts.terms.clone(),
        exclusions: shop.texts.exclusions.clone(),
        cautions: shop.texts.cautions.clone(),
    };
    Sample {
        job,
        input,
        figures,
        tables,
        remarks: Vec::new(),
        answers: Vec::new(),
        issuer,
    }
}

fn row_input(hole: &HoleSpec, id: RowId) -> RowInput {
    RowInput {
        id,
        count: hole.places,
        limits_mm: Some(hole.limits),
        depth_mm: Some(hole.depth),
        end: if hole.blind {
            HoleEnd::Blind
        } else {
            HoleEnd::Through
        },
        tilt_deg: hole.tilt,
        behind_mm: hole.behind,
        ..RowInput::default()
    }
}

fn tube_named(tables: &Tables, name: &str) -> Idx<Tube> {
    match Idx::find(&tables.tubes, |tube| tube.name == name) {
        Some(tube) => tube,
        None => panic!("no tube {name}"),
    }
}

fn figures(holes: &[HoleSpec], ids: &[RowId], tables: &Tables) -> JobFigures {
    let rows: Vec<HoleFigures> = holes
        .iter()
        .zip(ids)
        .map(|(hole, id)| hole_figures(hole, *id, tables))
        .collect();
    let mut electrodes: Vec<ElectrodeFigures> = Vec::new();
    for (hole, id) in holes.iter().zip(ids) {
        let tube = tube_named(tables, hole.tube);
        if electrodes.iter().any(|known| known.tube == tube) {
            continue;
        }
        electrodes.push(ElectrodeFigures {
            tube,
            ends: 0,
            needed: 9,
            at_least: 9,
            if_wear_high: 11,
            kit: 12,
            breakages: 0.5,
            spares: 1,
            band: band(9.0),
            plan: vec![
                ElectrodeLoad {
                    times: 8,
                    holes: vec![(*id, 11), (*ids.last().unwrap(), 2)],
                    left_mm: 12.0,
                },
                ElectrodeLoad {
                    times: 1,
                    holes: vec![(*id, 4)],
                    left_mm: 131.0,
                },
            ],
            by_order: 10,
        });
    }
    let total: f64 = holes
        .iter()
        .map(|hole| hole.minutes * f64::from(hole.places) * 25.0)
        .sum();
    JobFigures {
        holes: rows.into_iter().map(Arc::new).collect(),
        setups: vec![
            SetupFigures {
                directions: 36,
                rows: ids.to_vec(),
                holes: holes.iter().map(|hole| hole.places).sum(),
                turned_over: false,
                index_moves: 35,
                tilts: 0,
                guide_changes: 1,
                passes: 2,
                travel_mm: Some(812.0),
                mount: Mount::Lying([0.0, 0.0, 1.0]),
                order: Vec::new(),
            },
            SetupFigures {
                directions: 1,
                rows: vec![ids[0]],
                holes: 4,
                turned_over: true,
                index_moves: 0,
                tilts: 1,
                guide_changes: 0,
                passes: 1,
                mount: Mount::Face {
                    up: [0.0, 0.0, 1.0],
                    toward: [1.0, 0.0, 0.0],
                },
                travel_mm: None,
                order: Vec::new(),
            },
        ],
        lot: Some(LotFigures {
            quantity: 25,
            hole_minutes: Vec::new(),
            machine_hours: band(total / 60.0),
            labor_hours: band(total / 120.0),
            machine: MachineMinutes {
                set_up: 45.0,
                first_piece: 8.0,
                load: 50.0,
                holes: total,
                ..MachineMinutes::default()
            },
            labor: LaborMinutes {
                receive: 12.0,
                wash: 60.0,
                inspect: 240.0,
                pack: 50.0,
                ..LaborMinutes::default()
            },
            electrodes,
        }),
        price: Some(PriceFigures {
            currency: "USD".to_owned(),
            cost: CostLines {
                machine: 800.0,
                ..CostLines::default()
            },
            not_yet_known_share: 0.0,
            lot_cost: band(900.0),
            expected_cost: 990.0,
            breaks: [(25, 4820), (50, 4430), (100, 4175)]
                .into_iter()
                .map(|(quantity, cents)| {
                    let each = Decimal::new(cents, 2);
                    Break {
                        quantity,
                        unit_cost: 33.7,
                        computed_each: each,
                        each,
                        lot: each * Decimal::from(quantity),
                        minimum: quantity == 25,
                        overruled: false,
                    }
                })
                .collect(),
            one_off: vec![
                ("fixture".to_owned(), Decimal::new(18000, 2)),
                ("test piece".to_owned(), Decimal::new(9000, 2)),
            ],
            margin: 0.3,
            markup: 0.4286,
        }),
        findings: Vec::new(),
        settled: true,
    }
}

fn hole_figures(hole: &HoleSpec, row: RowId, tables: &Tables) -> HoleFigures {
    let tube = tube_named(tables, hole.tube);
    let outer = tables.tubes[tube.at()].outer_mm;
    let usable = tables.tubes[tube.at()].length_mm - 95.0;
    HoleFigures {
        row,
        steps: HoleSteps::default(),
        places: hole.places,
        limits_mm: Some(hole.limits),
        depth_mm: Some(hole.depth),
        tilt_deg: hole.tilt,
        tube: Some(tube),
        guide: Idx::find(&tables.guides, |guide| (guide.tube_mm - outer).abs() < 1e-9),
        gap_mm: None,
        size_mm: Some(hole.limits),
        first_choice: None,
        held: None,
        bought: None,
        outside_in_lot: None,
        neighbors: Vec::new(),
        depth_plan: None,
        verdict: Some(Verdict::Comfortable),
        feed_mm_min: Some(19.0),
        wear_ratio: Some(0.9),
        minutes: Some(band(hole.minutes)),
        minutes_in: None,
        zones_mm: None,
        mouth_mm: None,
        wear_mm: Some(hole.wear),
        wear_high_mm: Some(hole.wear * 1.6),
        overtravel_mm: Some(2.0),
        target_depth_mm: Some(hole.depth + 10.0),
        machine_depth_mm: Some(hole.depth + hole.wear + 2.0),
        usable_mm: Some(usable),
        reach_one_mm: Some(160.0),
        limit_mm: Some(305.0),
        electrodes_per_hole: Some(if hole.depth > 150.0 { 2 } else { 1 }),
        ends: None,
        findings: Vec::new(),
    }
}

fn band(p50: f64) -> Band {
    Band {
        p10: p50 * 0.7,
        p50,
        p90: p50 * 1.5,
    }
}

/// A ring with 1,080 angled holes in two rows of places.
pub fn ring() -> Sample {
    let fields = [
        (Field::Customer, "Alder Finch Rotors"),
        (Field::Contact, "Wilma Oakes, purchasing, 555 0142"),
        (Field::CustomerReference, "RFQ 88-1402"),
        (Field::Part, "4-118"),
        (Field::PartName, "Cooling ring"),
        (Field::Revision, "C"),
        (Field::Drawing, "AF-4-118-2"),
        (Field::DrawingRevision, "C"),
        (Field::Material, "Nickel alloy 718"),
        (
            Field::Condition,
            "solution treated and aged before drilling",
        ),
        (Field::Hardness, "42 HRC"),
        (Field::Coating, "none; bare spot at flange"),
        (Field::Quantity, "25"),
        (Field::Due, "2026-12-18"),
        (Field::PartValue, "3400"),
        (Field::LiabilityCap, "1000"),
        (Field::Spares, "1"),
        (
            Field::HoldPoints,
            "Test piece of the same heat: hold until it is approved.\nFirst ring: customer's inspector sees it.",
        ),
        (
            Field::AskBefore,
            "any rework of a hole\nleaving it to run at night",
        ),
        (Field::Datums, "A flange face, B bore 212.00, C keyway"),
        (Field::FacesNotToClamp, "seal land at 230 mm, ground"),
        (Field::RecastLimit, "0.04 mm"),
        (Field::Machine, "Barrow"),
        (Field::Fixture, "F-31, index plate 36, shelf 4"),
        (Field::Program, "4-118-C.nc"),
        (
            Field::Settings,
            "on 12, off 24, peak 9 A, servo 55 V, capacitor 2; flush 65 bar, spindle 400 rpm",
        ),
        (
            Field::SetupText,
            "Ring flat on F-31, bore on the mandrel, three side clamps at the flange. Pick up C with the edge finder, zero on A and B.",
        ),
        (
            Field::BackingText,
            "wax ring in the groove, melted out at 80 \u{b0}C, weighed before and after",
        ),
        (
            Field::FirstPiece,
            "Drill A 1 to A 4, pin them at entry and exit. Section the test piece through A 2.",
        ),
        (Field::StopIf, "The wall at the seal land turns blue."),
        (
            Field::Inspection,
            "flow test of every ring at the customer's",
        ),
        (Field::LeadDays, "8"),
        (Field::ValidDays, "30"),
        (Field::Exclusions, "Removal of the wax beyond melting out."),
    ];
    let mut sample = build(
        "26-0107",
        Unit::Mm,
        &fields,
        &[
            HoleSpec {
                cells: ["A", "540", "0.80 +-0.05", "14", "through", "30"],
                places: 540,
                limits: Limits::new(0.75, 0.85),
                depth: 14.0,
                tilt: 30.0,
                blind: false,
                behind: Some(6.0),
                tube: "brass 0.70 x 400",
                minutes: 0.93,
                wear: 12.4,
            },
            HoleSpec {
                cells: ["B", "540", "0.60 +0.05/-0", "6.2", "through", "65"],
                places: 540,
                limits: Limits::new(0.6, 0.65),
                depth: 6.2,
                tilt: 65.0,
                blind: false,
                behind: None,
                tube: "brass 0.50 x 400",
                minutes: 0.61,
                wear: 6.9,
            },
        ],
    );
    for index in 0..2 {
        let row = sample.job.rows[index].id;
        let places: Vec<Place> = (0..540_u32).map(|number| place(number, index)).collect();
        sample.input.rows[index].places.clone_from(&places);
        set(&mut sample.job, &Edit::SetPlaces { row, places });
    }
    sample.input.index_about = Some(PartAxis::Z);
    // One setup, both rows in turn at each index.
    sample.figures.setups.truncate(1);
    let rows: Vec<RowId> = sample.job.rows.iter().map(|row| row.id).collect();
    sample.figures.setups[0].order = (0..540)
        .flat_map(|place| [(rows[1], place), (rows[0], place)])
        .map(|(row, place)| Stop {
            row,
            place: Some(place),
            far: false,
        })
        .collect();
    sample.remarks = vec![
        Remark {
            level: Level::Check,
            row: Some(sample.job.rows[0].id),
            text: "Only 6.00 mm free behind the exit, overtravel and wear ask for 7.20 mm: the far wall would be hit.".to_owned(),
            customer: Customer::Asked(Concern::WallBehind),
            floor: true,
        },
        Remark {
            level: Level::Note,
            row: Some(sample.job.rows[1].id),
            text: "A tube with one channel leaves a thin core: see that it falls out and is counted.".to_owned(),
            customer: Customer::Shop,
            floor: true,
        },
    ];
    sample
}

fn place(number: u32, row: usize) -> Place {
    let turn = f64::from(number) * std::f64::consts::TAU / 540.0;
    let (sin, cos) = (libm::sin(turn), libm::cos(turn));
    let radius = 106.0;
    Place {
        number: number + 1,
        point_mm: [radius * cos, radius * sin, -12.0 - 8.0 * row as f64],
        axis: [-cos * 0.866_025_4, -sin * 0.866_025_4, -0.5],
    }
}

/// A die plate in inches with blind and through holes, little known of it.
pub fn plate() -> Sample {
    let fields = [
        (Field::Customer, "Pinfold Tool and Die"),
        (Field::Part, "DP-7"),
        (Field::Revision, "2"),
        (Field::Material, "Tool steel D2"),
        (Field::Condition, "hardened"),
        (Field::Quantity, "2"),
        (Field::Machine, "Steeple"),
    ];
    let spec = |mark: &'static str,
                size: &'static str,
                depth: &'static str,
                end: &'static str,
                limits: Limits,
                mm: f64| HoleSpec {
        cells: [mark, "8", size, depth, end, ""],
        places: 8,
        limits,
        depth: mm,
        tilt: 0.0,
        blind: end == "blind",
        behind: None,
        tube: "brass 0.70 x 600",
        minutes: mm / 15.0,
        wear: mm * 0.8,
    };
    let mut sample = build(
        "26-0112",
        Unit::Inch,
        &fields,
        &[
            spec(
                "S1",
                ".031 +.003/-0",
                "1.25",
                "through",
                Limits::new(0.787_4, 0.863_6),
                31.75,
            ),
            spec(
                "S2",
                "1/32 MAX",
                ".5",
                "blind",
                Limits::new(0.0, 0.793_75),
                12.7,
            ),
            spec(
                "S3",
                ".031 +-.002",
                "7.5",
                "through",
                Limits::new(0.736_6, 0.838_2),
                190.5,
            ),
        ],
    );
    let hole = Arc::make_mut(&mut sample.figures.holes[1]);
    hole.tube = None;
    hole.machine_depth_mm = None;
    hole.minutes = None;
    sample
}

/// The die plate with its first row repeated until it has `count` more rows.
pub fn rows(count: u32) -> Sample {
    let mut sample = plate();
    let (row, hole, input) = (
        sample.job.rows[0].clone(),
        sample.figures.holes[0].clone(),
        sample.input.rows[0].clone(),
    );
    for number in 0..count {
        let id = RowId(1000 + number);
        let mut row = (*row).clone();
        row.id = id;
        sample.job.rows.push(row.into());
        let mut hole = Arc::clone(&hole);
        Arc::make_mut(&mut hole).row = id;
        sample.figures.holes.push(hole);
        sample.input.rows.push(RowInput {
            id,
            ..input.clone()
        });
    }
    sample
}

/// The plate after its whole life: ordered, received, drilled with trouble, sent in two deliveries.
pub fn delivered() -> Sample {
    let mut sample = plate();
    let slips: &[(SlipKind, &[(Line, &str)])] = &[
        (
            SlipKind::Order,
            &[
                (Line::Date, "2026-11-02"),
                (Line::Number, "BT-7781"),
                (Line::Quantity, "4"),
                (Line::Each, "512.5"),
                (Line::DrawingRevision, "7"),
                (Line::Terms, "14 days"),
                (Line::Accepted, "the owner, since the lot is small"),
            ],
        ),
        (
            SlipKind::Release,
            &[
                (Line::Number, "call 1"),
                (Line::Quantity, "3"),
                (Line::Due, "2026-11-20"),
            ],
        ),
        (
            SlipKind::Received,
            &[
                (Line::Date, "2026-11-03"),
                (Line::Count, "4"),
                (Line::Heat, "H4471"),
                (Line::Serials, "101-104"),
                (Line::Damage, "scratch on 104"),
                (Line::Files, "scratch-104.jpg"),
            ],
        ),
        (
            SlipKind::Run,
            &[
                (Line::Mark, "S2"),
                (Line::Serials, "101-102"),
                (Line::Pins, "0.79 to 0.80"),
            ],
        ),
        (
            SlipKind::Inspection,
            &[
                (Line::Mark, "s1"),
                (Line::Serials, "102"),
                (Line::Pins, "1.21 to 1.23"),
                (Line::Checked, "8"),
                (Line::NotGood, "0"),
            ],
        ),
        (
            SlipKind::Nonconformance,
            &[
                (Line::HolesNamed, "S1 of 103"),
                (Line::What, "entry edge chipped"),
                (Line::Decision, "use as it is"),
            ],
        ),
        (
            SlipKind::Delivery,
            &[
                (Line::Date, "2026-11-06"),
                (Line::Count, "3"),
                (Line::Serials, "101-103"),
            ],
        ),
    ];
    for (kind, lines) in slips {
        pin(&mut sample.job, *kind, lines);
    }
    sample
}

/// Pins a slip to a job.
pub fn pin(job: &mut Job, kind: SlipKind, lines: &[(Line, &str)]) {
    let lines = lines.iter().map(|(line, text)| (*line, (*text).to_owned()));
    let edit = Edit::AddSlip {
        kind,
        lines: lines.collect(),
        unit: Unit::Mm,
    };
    set(job, &edit);
}

/// Lets a job know of a paper that was issued.
pub fn issue(job: &mut Job, paper: Paper) {
    let number = job.next_paper_number(paper);
    let issued = Issued {
        file: format!("{number}.pdf"),
        paper,
        date: day(),
        valid_until: None,
        kept_by: None,
        hash: quillbore_job::file::hash(number.as_bytes()),
        lines: Vec::new(),
        rests_on: Vec::new(),
        pages: Vec::new(),
        replaces: job.to_replace(paper),
        inputs: None,
        seal: None,
        number,
    };
    job.issued.push(issued.sealed().into());
}

/// Every text of a document, one after the other.
pub fn prose(document: &Document) -> String {
    let items = document.pages.iter().flat_map(|page| &page.items);
    let texts: Vec<&str> = items
        .filter_map(|item| match item {
            Item::Text(run) => Some(run.text.as_str()),
            Item::Line(_) | Item::Path(_) => None,
        })
        .collect();
    texts.join(" ").replace("  ", " ")
}

/// An answer to a check of a row of a sample.
pub fn answer(sample: &Sample, row: usize, concern: Concern, facts: &[f64], how: How) -> Answer {
    Answer {
        row: sample.job.rows[row].id,
        concern,
        facts: Facts {
            given: facts.to_vec(),
            by: 0.12,
        },
        how,
        said: match how {
            How::Agreed => "Wilma Oakes".to_owned(),
            How::Accepted => "they are reamed afterwards".to_owned(),
        },
        by: "Pell".to_owned(),
        date: day(),
    }
}

/// What papers of a job are made of, with its results as they come out today; `make` makes the paper.
pub fn printed<T>(job: &Job, shop: &Shop, sheet: Sheet, make: impl FnOnce(Matter<'_>) -> T) -> T {
    let results = quillbore_job::results::results_now(job, shop);
    let telling = quillbore_job::results::Telling::new(job, &shop.tables);
    let notes = results.notes.iter();
    let remarks: Vec<Remark> = notes.map(|note| Remark::of(note, &telling)).collect();
    let answers = results.answers();
    let order = job.slips_of::<kind::Order>().next_back();
    let issuer = Issuer {
        name: shop.name.clone(),
        address: shop.address.clone(),
        terms: shop.texts.terms.clone(),
        exclusions: shop.texts.exclusions.clone(),
        cautions: shop.texts.cautions.clone(),
    };
    make(Matter {
        job,
        input: &results.asked.input,
        figures: &results.figures,
        tables: &shop.tables,
        unknown: &results.asked.unknown,
        remarks: &remarks,
        answers: &answers,
        issuer: &issuer,
        sheet,
        date: day(),
        number: None,
        valid_until: None,
        quotation: order.and_then(|order| quillbore_job::order::quotation_of(job, order)),
        preview: None,
        annex: true,
    })
}
