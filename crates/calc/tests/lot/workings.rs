//! Every figure's working: its inputs, put into its formula by hand, give the result shown.

use quillbore_calc::assemble::figures_now;
use quillbore_calc::figure::{CostLine, Formula, Name, Origin, Unit, Working};
use quillbore_calc::flush::{Path, Water};
use quillbore_calc::input::{Ends, Overrule, RowId, RowInput};
use quillbore_calc::promise::Floor;
use quillbore_calc::working::{days, working};
use quillbore_calc::{Figure, Idx, JobFigures, JobInput, Tables};

use crate::rows::{job, row};
use crate::shop::tables;

/// Plain, tilted, deep with several electrodes, from both ends.
fn sample() -> JobInput {
    let tilted = RowInput {
        tilt_deg: 30.0,
        ..row(2, 4, 1.12, 12.0)
    };
    let both = RowInput {
        ends: Some(Ends::Both),
        ..row(4, 1, 1.12, 200.0)
    };
    JobInput {
        breaks: vec![100],
        outside_work: 60.0,
        outside_per_part: 1.5,
        part_value: Some(800.0),
        liability_cap: Some(250.0),
        ..job(
            25,
            vec![row(1, 6, 0.82, 20.0), tilted, row(3, 1, 1.12, 200.0), both],
        )
    }
}

fn all_figures(figures: &JobFigures) -> Vec<Figure> {
    let mut all = vec![
        Figure::Setups,
        Figure::MachineHours,
        Figure::LaborHours,
        Figure::NotYetKnown,
        Figure::LotCost,
        Figure::UnitPrice(25),
        Figure::UnitPrice(100),
        Figure::LotPrice(25),
        Figure::LotPrice(100),
        Figure::AllElectrodes,
    ];
    all.extend(CostLine::ALL.map(Figure::Cost));
    for hole in &figures.holes {
        all.extend([
            Figure::Electrode(hole.row),
            Figure::Gap(hole.row),
            Figure::Feed(hole.row),
            Figure::HoleMinutes(hole.row),
            Figure::Wear(hole.row),
            Figure::TargetDepth(hole.row),
            Figure::ReachOne(hole.row),
            Figure::ElectrodesPerHole(hole.row),
            Figure::Flush(hole.row),
            Figure::Push(hole.row),
        ]);
    }
    let held = (0_u32..)
        .zip(&figures.setups)
        .filter(|(_, setup)| setup.held.is_some());
    all.extend(held.map(|(setup, _)| Figure::Clamp(setup)));
    let electrodes = figures.lot.iter().flat_map(|lot| &lot.electrodes);
    all.extend(electrodes.map(|tube| Figure::Electrodes(tube.tube)));
    all
}

/// The value that the desk shows.
fn shown(figures: &JobFigures, figure: Figure, tables: &Tables) -> f64 {
    let hole = |id: RowId| figures.holes.iter().find(|hole| hole.row == id).unwrap();
    let lot = figures
        .lot
        .as_ref()
        .unwrap_or_else(|| panic!("no lot for {figure:?}: {figures:?}"));
    let price = figures.price.as_ref().unwrap();
    match figure {
        Figure::Electrode(row) => tables.tubes[hole(row).tube.unwrap().at()].outer_mm,
        Figure::Gap(row) => hole(row).gap_mm.unwrap().p50(),
        Figure::Feed(row) => hole(row).feed_mm_min.unwrap(),
        Figure::HoleMinutes(row) => hole(row).minutes.unwrap().p50,
        Figure::Wear(row) => hole(row).wear_mm.unwrap(),
        Figure::TargetDepth(row) => hole(row).target_depth_mm.unwrap(),
        Figure::ReachOne(row) => hole(row).reach_one_mm.unwrap(),
        Figure::Flush(row) => hole(row).flush.clone().unwrap().bottom.ml_min,
        Figure::Push(row) => hole(row).push_n.unwrap(),
        Figure::Clamp(setup) => figures.setups[setup as usize].held.unwrap().clamp_n,
        Figure::ElectrodesPerHole(row) => hole(row).electrodes_per_hole.unwrap().into(),
        Figure::Electrodes(tube) => {
            let mut tubes = lot.electrodes.iter();
            tubes
                .find(|other| other.tube == tube)
                .unwrap()
                .needed
                .into()
        }
        Figure::AllElectrodes => {
            let tubes = lot.electrodes.iter();
            tubes.map(|tube| f64::from(tube.needed)).sum()
        }
        Figure::Setups => figures.setups.len() as f64,
        Figure::MachineHours => lot.machine_hours.p50,
        Figure::LaborHours => lot.labor_hours.p50,
        Figure::NotYetKnown => {
            price.cost.not_yet_known / (price.cost.sum() - price.cost.not_yet_known)
        }
        Figure::Cost(line) => price.cost.line(line),
        Figure::LotCost => price.expected_cost,
        Figure::UnitPrice(quantity) => {
            let mut breaks = price.breaks.iter();
            let line = breaks.find(|line| line.quantity == quantity).unwrap();
            f64::try_from(line.each).unwrap()
        }
        Figure::LotPrice(quantity) => {
            let mut breaks = price.breaks.iter();
            let line = breaks.find(|line| line.quantity == quantity).unwrap();
            f64::try_from(line.lot).unwrap()
        }
        Figure::Machines | Figure::WorkingDays => panic!("days are opened by themselves"),
    }
}

/// The value of an input by its name.
fn input(working: &Working, name: Name) -> f64 {
    let mut inputs = working.inputs.iter().filter(|input| input.name == name);
    inputs.next().map_or_else(
        || panic!("no {name:?} in {working:?}"),
        |input| input.value.value,
    )
}

fn sum(working: &Working, unit: Unit) -> f64 {
    let inputs = working
        .inputs
        .iter()
        .filter(|input| input.value.unit == unit);
    inputs.map(|input| input.value.value).sum()
}

/// Each input of a name times the one behind it.
fn products(working: &Working, name: Name) -> f64 {
    let pairs = working.inputs.windows(2);
    let pairs = pairs.filter(|pair| pair[0].name == name);
    pairs
        .map(|pair| pair[0].value.value * pair[1].value.value)
        .sum()
}

/// The formula by hand; `None` where it is a search, whose answer is bounded instead.
fn by_hand(working: &Working) -> Option<f64> {
    let of = |name| input(working, name);
    Some(match working.formula {
        Formula::GapByDiameter => (of(Name::GapLow) * of(Name::GapHigh)).sqrt(),
        Formula::FeedByDiameter => {
            of(Name::MaterialFeed)
                * of(Name::SizeFactor)
                * of(Name::ChannelsFactor)
                * of(Name::EffortFactor)
        }
        Formula::HoleMinutes => sum(working, Unit::Min),
        Formula::Wear => of(Name::WearRatio) * of(Name::Depth),
        Formula::TargetDepth => sum(working, Unit::Mm),
        Formula::ReachOne => of(Name::Usable) / (1.0 + of(Name::WearRatio)),
        Formula::FlushByPressure => {
            let path = Path {
                tube_length_mm: of(Name::TubeLength),
                bore_mm: of(Name::Bore),
                channels: of(Name::Channels) as u8,
                tube_mm: of(Name::TubeDiameter),
                hole_mm: of(Name::TubeDiameter) + 2.0 * of(Name::Gap),
            };
            let water = Water::at(of(Name::WaterTemperature)).unwrap();
            let flow = path.at_depth(of(Name::Depth), of(Name::Pressure), &water);
            flow.unwrap().ml_min.min(of(Name::PumpFlow))
        }
        // 1 bar is 0.1 N/mm2.
        Formula::PressureOnHole => {
            let hole_mm = of(Name::LargestHole);
            of(Name::Pressure) * 0.1 * std::f64::consts::FRAC_PI_4 * hole_mm * hole_mm
        }
        // On its whole face, and pushed from above, the part of this job stays.
        Formula::HeldAgainstPush => (2.0 * of(Name::Push) - 9.81 * of(Name::PartMass)).max(0.0),
        Formula::MachineMinutes | Formula::LaborMinutes => sum(working, Unit::Min) / 60.0,
        Formula::NotYetKnown => of(Name::NotYetKnown) / of(Name::MedianCost),
        Formula::CostLines => sum(working, Unit::Money),
        Formula::ByTheHour => sum(working, Unit::Hour) * of(Name::PerHour),
        Formula::ElectrodesUsed => products(working, Name::Needed) + of(Name::BrokenRest),
        Formula::GuidesByLife => {
            let guides = working.inputs.chunks(3).map(|guide| {
                let [holes, life, price] = guide else {
                    panic!("three of each guide: {guide:?}");
                };
                holes.value.value / life.value.value * price.value.value
            });
            guides.sum()
        }
        Formula::OutsideWork => {
            of(Name::OutsideWork) + of(Name::OutsidePerPart) * of(Name::Quantity)
        }
        Formula::RedoneWork => of(Name::RedoShare) * sum(working, Unit::Money),
        Formula::PartAtRisk => {
            let stake = of(Name::PartValue).min(of(Name::Cap));
            assert_eq!(of(Name::AtStake), stake);
            stake * of(Name::PartsSpoiled)
        }
        Formula::UnitPrice => {
            let by_margin = of(Name::LotCost) / of(Name::Quantity) / (1.0 - of(Name::Margin));
            let least = of(Name::MinimumCharge) / of(Name::Quantity);
            (by_margin.max(least) * 100.0).round() / 100.0
        }
        Formula::TubesTogether => sum(working, Unit::Count),
        Formula::LotPrice => of(Name::UnitPrice) * of(Name::Quantity),
        Formula::LeadTime => of(Name::LeadTime),
        Formula::WorkingDays => by_hand_days(working, [Name::Machine, Name::Labor]),
        Formula::ElectrodeChoice
        | Formula::Chain
        | Formula::Packing
        | Formula::SetupsByDirection
        | Formula::MachineByMachine => return None,
    })
}

/// Days by hand, from the hours of these names.
fn by_hand_days(working: &Working, [machine, labor]: [Name; 2]) -> f64 {
    let of = |name| input(working, name);
    let there = of(Name::AttendedHours);
    let day = there + of(Name::UnattendedHours);
    let per_hour = (1.0 / day).max(of(Name::AttendedShare) / there);
    let queued = of(Name::QueuedHours) * per_hour;
    let outside = working
        .inputs
        .iter()
        .find(|input| input.name == Name::OutsideDays);
    let outside = outside.map_or(0.0, |days| days.value.value);
    let work = (of(machine) * per_hour).max(of(labor) / there);
    (queued + work).ceil().max(1.0) + outside
}

#[test]
fn every_figure_opens_and_its_inputs_give_what_is_shown() {
    let (job, tables) = (sample(), tables());
    let figures = figures_now(&job, &tables);
    for figure in all_figures(&figures) {
        let working = working(&job, &tables, &figures, figure)
            .unwrap_or_else(|| panic!("{figure:?} does not open"));
        assert_eq!((working.figure, working.overruled), (figure, None));
        assert!(!working.inputs.is_empty(), "{figure:?}");
        let shown = shown(&figures, figure, &tables);
        let near = |value: f64| (value - shown).abs() <= 1e-9 * shown.abs();
        assert!(near(working.result.value), "{working:?} shows {shown}");
        if let Some(value) = by_hand(&working) {
            assert!(near(value), "{working:?} gives {value}, shown {shown}");
        }
        for opened in working.inputs.iter().filter_map(|input| input.opens) {
            assert!(
                quillbore_calc::working::working(&job, &tables, &figures, opened).is_some(),
                "{opened:?}, named by {figure:?}, does not open"
            );
        }
    }
}

#[test]
fn the_tube_s_working_tells_its_largest_and_smallest_hole() {
    let (job, tables) = (sample(), tables());
    let figures = figures_now(&job, &tables);
    for hole in &figures.holes {
        let working = working(&job, &tables, &figures, Figure::Electrode(hole.row)).unwrap();
        let of = |name| input(&working, name);
        let tube = working.result.value;
        let largest = tube + 2.0 * of(Name::GapHigh);
        let smallest = tube + 2.0 * of(Name::GapLow) - of(Name::Taper);
        assert!((of(Name::LargestHole) - largest).abs() < 1e-12);
        assert!((of(Name::SmallestHole) - smallest).abs() < 1e-12);
        // What was chosen is right more often than oversize, and the others stand beside it.
        assert!(of(Name::Inside) > of(Name::Over));
        let mut taken = working.alternatives.iter();
        assert!(
            taken.any(|other| Some(other.tube) == hole.tube),
            "{working:?}"
        );
    }
}

#[test]
fn wear_ratios_shown_are_the_start_values_at_that_depth() {
    let (job, tables) = (sample(), tables());
    let figures = figures_now(&job, &tables);
    // Row 1: 0.7 mm tube in tool steel. Median wear sqrt(0.4 x 1.2); between 1.3 at 0.5 mm and 1 at
    // 1 mm, ln-ln, 1.3^(ln(1/0.7)/ln 2); rise (sqrt 1.5 - 1) over 100 diameters.
    let of_depth = |depth: f64| {
        let by_size = libm::pow(1.3, libm::log(1.0 / 0.7) / libm::log(2.0));
        let rise = (1.5_f64.sqrt() - 1.0) / 70.0;
        0.48_f64.sqrt() * by_size * (1.0 + rise * depth)
    };
    let ratio = |figure| {
        let working = working(&job, &tables, &figures, figure).unwrap();
        input(&working, Name::WearRatio)
    };
    let reach = figures.holes[0].reach_one_mm.unwrap();
    assert!((ratio(Figure::Wear(RowId(1))) - of_depth(20.0)).abs() < 1e-9);
    assert!((ratio(Figure::ReachOne(RowId(1))) - of_depth(reach)).abs() < 1e-9);
}

#[test]
fn an_overrule_stands_beside_the_computed_result() {
    let tables = tables();
    let plain = figures_now(&sample(), &tables);
    for figure in all_figures(&plain) {
        // A setup more, and else a tenth more; these are computed only.
        if matches!(
            figure,
            Figure::TargetDepth(_)
                | Figure::ReachOne(_)
                | Figure::ElectrodesPerHole(_)
                | Figure::Flush(_)
                | Figure::Push(_)
                | Figure::Clamp(_)
                | Figure::LotPrice(_)
                | Figure::Cost(_)
                | Figure::AllElectrodes
        ) {
            continue;
        }
        let computed = shown(&plain, figure, &tables);
        let value = match figure {
            Figure::Electrode(RowId(1)) => 0.5,
            // Row 3 is 200 mm deep: no feed is known beyond 200 diameters.
            Figure::Electrode(_) => 1.2,
            Figure::Electrodes(_) | Figure::Setups => computed + 1.0,
            Figure::UnitPrice(_) => computed + 1.25,
            _ => computed * 1.1,
        };
        let job = JobInput {
            overrules: vec![Overrule { figure, value }],
            ..sample()
        };
        let figures = figures_now(&job, &tables);
        let opened = working(&job, &tables, &figures, figure).unwrap();
        let near = |value: f64| (value - computed).abs() <= 1e-9 * computed;
        assert_eq!(opened.overruled, Some(value), "{figure:?}");
        assert!(near(opened.result.value), "{opened:?}, computed {computed}");
        if let Some(value) = by_hand(&opened) {
            assert!(near(value), "{opened:?} gives {value}, computed {computed}");
        }
        let stands = shown(&figures, figure, &tables);
        if figure != Figure::Setups {
            assert!(
                (stands - value).abs() < 1e-9 * value,
                "{figure:?} shows {stands}"
            );
        }
    }
}

#[test]
fn an_overruled_input_says_so_where_it_is_used() {
    let tables = tables();
    let job = JobInput {
        overrules: vec![Overrule {
            figure: Figure::MachineHours,
            value: 40.0,
        }],
        ..sample()
    };
    let figures = figures_now(&job, &tables);
    let cost = working(&job, &tables, &figures, Figure::LotCost).unwrap();
    let machine = cost
        .inputs
        .iter()
        .find(|input| input.name == Name::Machine)
        .unwrap();
    assert_eq!(
        (machine.origin, machine.opens, machine.value.value),
        (
            Origin::Overruled,
            Some(Figure::Cost(CostLine::Machine)),
            40.0 * 60.0
        )
    );
    let hours = working(&job, &tables, &figures, Figure::Cost(CostLine::Machine)).unwrap();
    let hours = &hours.inputs[0];
    assert_eq!(
        (hours.origin, hours.opens, hours.value.value),
        (Origin::Overruled, Some(Figure::MachineHours), 40.0)
    );
    // What the price rests on is the cost that stands.
    let price = working(&job, &tables, &figures, Figure::UnitPrice(25)).unwrap();
    assert!((input(&price, Name::LotCost) - sum(&cost, Unit::Money)).abs() < 1e-9);
}

#[test]
fn what_has_no_value_does_not_open() {
    let tables = tables();
    let mut job = sample();
    job.rows[0].depth_mm = None;
    let figures = figures_now(&job, &tables);
    for figure in [
        Figure::HoleMinutes(RowId(1)),
        Figure::Wear(RowId(99)),
        Figure::MachineHours,
        Figure::Electrodes(Idx::new(0)),
        Figure::UnitPrice(25),
    ] {
        assert_eq!(working(&job, &tables, &figures, figure), None, "{figure:?}");
    }
    assert!(working(&job, &tables, &figures, Figure::Gap(RowId(1))).is_some());
}

#[test]
fn a_typed_share_of_what_is_not_yet_known_stands_in_the_cost() {
    // 30 % typed in place of the computed share: the lines hold 0.3 of the others, and the working
    // still shows what was computed.
    let tables = tables();
    let plain = figures_now(&sample(), &tables).price.unwrap();
    let typed = JobInput {
        overrules: vec![Overrule {
            figure: Figure::NotYetKnown,
            value: 0.3,
        }],
        ..sample()
    };
    let price = figures_now(&typed, &tables).price.unwrap();
    assert!((price.cost.share_not_yet_known() - 0.3).abs() < 1e-12);
    assert!((plain.cost.share_not_yet_known() - plain.not_yet_known_share).abs() < 1e-12);
    assert_eq!(price.not_yet_known_share, plain.not_yet_known_share);
    assert!((plain.not_yet_known_share - 0.3).abs() > 0.01);
}

#[test]
fn hours_open_with_their_spread_and_nothing_else_has_one() {
    let tables = tables();
    let overruled = JobInput {
        overrules: vec![Overrule {
            figure: Figure::MachineHours,
            value: 40.0,
        }],
        ..sample()
    };
    for job in [sample(), overruled] {
        let figures = figures_now(&job, &tables);
        let lot = figures.lot.as_ref().unwrap();
        for figure in all_figures(&figures) {
            let opened = working(&job, &tables, &figures, figure).unwrap();
            let band = match figure {
                Figure::MachineHours => Some(lot.machine_hours),
                Figure::LaborHours => Some(lot.labor_hours),
                _ => None,
            };
            let spread = (opened.low, opened.high);
            assert_eq!(
                spread,
                (band.map(|b| b.p10), band.map(|b| b.p90)),
                "{figure:?}"
            );
            if let Some(band) = band {
                let stands = opened.overruled.unwrap_or(opened.result.value);
                assert!((stands - band.p50).abs() <= 1e-9 * stands, "{opened:?}");
                assert!(band.p10 < stands && stands < band.p90, "{opened:?}");
            }
        }
    }
}

#[test]
fn a_lot_by_the_minimum_charge_says_so() {
    let mut tables = tables();
    tables.rates.minimum_charge = 1e6;
    // A million over 7 is 142857.142857...: rounded up it keeps the lot from falling below.
    let job = JobInput {
        quantity: Some(7),
        breaks: vec![],
        ..sample()
    };
    let figures = figures_now(&job, &tables);
    let lot = working(&job, &tables, &figures, Figure::LotPrice(7)).unwrap();
    assert_eq!(input(&lot, Name::UnitPrice), 142_857.15);
    assert_eq!(input(&lot, Name::MinimumCharge), 1e6);
    assert_eq!(lot.result.value, 1_000_000.05);
    let each = working(&job, &tables, &figures, Figure::UnitPrice(7)).unwrap();
    assert_eq!(each.result.value, 142_857.15);
}

/// The working names the step, and cost over quantity and margin, rounded to it by hand, is the price.
#[test]
fn a_price_each_by_the_shops_step_says_so() {
    let mut tables = tables();
    tables.rates.price_step = Some(0.5);
    let job = sample();
    let figures = figures_now(&job, &tables);
    let each = working(&job, &tables, &figures, Figure::UnitPrice(25)).unwrap();
    assert_eq!(input(&each, Name::PriceStep), 0.5);
    let exact = input(&each, Name::LotCost) / 25.0 / (1.0 - input(&each, Name::Margin));
    assert!(exact > 10.0, "20 steps and more: {exact}");
    assert_eq!(each.result.value, (exact * 2.0).round() / 2.0);
    let lot = working(&job, &tables, &figures, Figure::LotPrice(25)).unwrap();
    assert_eq!(lot.result.value, each.result.value * 25.0);
}

#[test]
fn a_lot_rests_on_the_price_each_that_stands() {
    let tables = tables();
    let job = JobInput {
        overrules: vec![Overrule {
            figure: Figure::UnitPrice(25),
            value: 48.205,
        }],
        ..sample()
    };
    let figures = figures_now(&job, &tables);
    let lot = working(&job, &tables, &figures, Figure::LotPrice(25)).unwrap();
    let each = &lot.inputs[0];
    assert_eq!(
        (each.origin, each.opens, each.value.value),
        (Origin::Overruled, Some(Figure::UnitPrice(25)), 48.21)
    );
    // 48.21 x 25 = 1205.25, by hand.
    assert_eq!((lot.result.value, lot.overruled), (1205.25, None));
}

#[test]
fn overruled_minutes_of_a_hole_are_told_in_the_hours() {
    let tables = tables();
    let rows = |count: u32| (1..=count).map(|id| row(id, 1, 0.82, 20.0)).collect();
    for (count, lines) in [(3, 3), (40, 2)] {
        let job = JobInput {
            overrules: vec![Overrule {
                figure: Figure::HoleMinutes(RowId(2)),
                value: 9.0,
            }],
            ..job(10, rows(count))
        };
        let figures = figures_now(&job, &tables);
        let opened = working(&job, &tables, &figures, Figure::MachineHours).unwrap();
        let in_holes = |input: &&quillbore_calc::figure::Input| {
            matches!(input.name, Name::Holes | Name::OtherHoles)
        };
        let holes: Vec<_> = opened.inputs.iter().filter(in_holes).collect();
        assert_eq!(holes.len(), lines);
        let mut overruled = holes.iter().filter(|i| i.origin == Origin::Overruled);
        let one = overruled.next().unwrap();
        assert_eq!(one.opens, Some(Figure::HoleMinutes(RowId(2))));
        // Nine minutes in each of ten parts.
        assert!((one.value.value - 90.0).abs() < 1e-9, "{one:?}");
        assert!(overruled.next().is_none());
        let by_hand = by_hand(&opened).unwrap();
        assert!((by_hand - opened.result.value).abs() < 1e-9, "{opened:?}");
    }
}

#[test]
fn days_open_with_what_they_come_of() {
    let (job, tables) = (sample(), tables());
    let figures = figures_now(&job, &tables);
    let day = Floor {
        attended_hours: 8.0,
        unattended_hours: 0.0,
        attended_share: 0.35,
        queued_hours: 0.0,
        outside_days: 0,
    };
    let night = Floor {
        unattended_hours: 16.0,
        queued_hours: 30.0,
        outside_days: 3,
        ..day
    };
    for floor in [day, night] {
        let opened = days(&figures, Some(&floor), None).unwrap();
        assert_eq!(opened.figure, Figure::WorkingDays);
        assert_eq!(Some(opened.result.value), by_hand(&opened));
        let late = by_hand_days(&opened, [Name::MachineHigh, Name::LaborHigh]);
        assert_eq!((opened.low, opened.high), (None, Some(late)));
        assert!(opened.result.value < late, "{opened:?}");
        let typed = days(&figures, Some(&floor), Some(4)).unwrap();
        assert_eq!((typed.result.value, typed.high), (4.0, None));
        assert_eq!(by_hand(&typed), Some(4.0));
        assert_eq!(input(&typed, Name::LikelyDays), opened.result.value);
        assert_eq!(input(&typed, Name::LateDays), late);
    }
    assert_eq!(days(&figures, None, None), None);
    let alone = days(&figures, None, Some(0)).unwrap();
    assert_eq!((alone.result.value, alone.inputs.len()), (0.0, 1));
    let nobody = Floor {
        attended_hours: 0.0,
        ..day
    };
    assert_eq!(days(&figures, Some(&nobody), None), None);
    assert_eq!(
        working(&job, &tables, &figures, Figure::WorkingDays),
        None,
        "nothing of the shop's day is in a job's figures"
    );
}
