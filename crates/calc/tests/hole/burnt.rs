//! Broken tools in rows, and sizes that a thinner tube opens.

use quillbore_calc::broken::{Broken, Kind as Tool, Stuff};
use quillbore_calc::finding::{Burning, Kind, Level};
use quillbore_calc::input::{Ends, HoleEnd};
use quillbore_calc::job_figures::HoleFigures;
use quillbore_calc::plunge::{Asked, Manner, Way, on_circle};
use quillbore_calc::recorded::{NotUsed, Ran, recorded, start_context};
use quillbore_calc::standards::threads::named;
use quillbore_calc::tables::{Tube, TubeMaterial};
use quillbore_calc::{Figure, Limits, RowInput};

use super::shop::{CARBIDE, STEEL, job, layers, tables, through};
use super::{figures, first, overruled, tube};

/// A stub of 10 mm in a blind hole.
fn stub(kind: Tool, stuff: Stuff, thread: &str) -> RowInput {
    let tool = Broken {
        left_mm: Some(10.0),
        ..Broken::of_thread(kind, stuff, named(thread).unwrap())
    };
    of_tool(tool)
}

fn of_tool(tool: Broken) -> RowInput {
    let material = match tool.stuff {
        Stuff::Carbide => CARBIDE,
        Stuff::Hss | Stuff::Steel => STEEL,
    };
    let left_mm = tool.left_or_usual_mm();
    RowInput {
        count: 1,
        limits_mm: None,
        depth_mm: Some(left_mm),
        depth_limits_mm: Some(Limits::new(left_mm - 0.5, left_mm + 0.5)),
        end: HoleEnd::Blind,
        layers: layers(&[(material, left_mm)]),
        broken: Some(Box::new(tool)),
        ..through(1.0, left_mm)
    }
}

fn said(figures: &HoleFigures) -> Vec<(Level, Burning)> {
    let of = figures.findings.iter();
    of.filter_map(|finding| match finding.kind {
        Kind::Burnt(burning) => Some((finding.level, burning)),
        _ => None,
    })
    .collect()
}

fn sparking(figures: &HoleFigures) -> f64 {
    let parts = figures.minutes_in.unwrap();
    parts.entry + parts.full_metal + parts.exit + parts.overtravel
}

/// An M3 tap: minor 3 - 1.0825 x 0.5 = 2.4587; web 0.4 x 3, least hole 1.2 + 2 x 0.25 = 1.7, greatest
/// 2.4587 - 0.2. The gap of a 3 mm tube is sqrt(0.05 x 0.12) = 0.0775: electrodes from 1.5451 to 2.1038,
/// of those in steps of 0.05 the smallest is 1.55.
#[test]
fn the_smallest_electrode_that_takes_the_core_burns_a_tap_out() {
    let found = figures(&stub(Tool::Tap, Stuff::Hss, "M3"));
    let tables = tables();
    assert_eq!(tables.tubes[found.tube.unwrap().at()].outer_mm, 1.55);
    let limits = found.limits_mm.unwrap();
    assert!((limits.lower - 1.7).abs() < 1e-9 && (limits.upper - 2.2587).abs() < 0.00005);
    let plan = found.burnt.as_ref().unwrap().tool.unwrap();
    assert!((plan.core_mm - 1.2).abs() < 1e-9);
    // 1.55 + 2 x 0.0775, and by its own narrower gap a little less.
    assert!((plan.hole_mm.unwrap() - 1.7049).abs() < 0.00005);
    let (size, gap) = (found.size_mm.unwrap(), found.gap_mm.unwrap());
    assert!(size.lower < size.upper && size.upper < 1.55 + 2.0 * 0.12);
    assert!((size.lower - (1.55 + 2.0 * gap.p10)).abs() < 1e-12);
    assert!((size.upper - (1.55 + 2.0 * gap.p90)).abs() < 1e-12);
    // In a blind hole the tube that has several channels, which leave no core, though one with a single
    // channel is as wide.
    assert!(tables.tubes[found.tube.unwrap().at()].channels > 1);
    // Neither is it judged by limits that nobody measures.
    assert_eq!((found.verdict, found.held), (None, None));
}

/// In interrupted metal a quarter to a half of the feed is left: by the median sqrt(1/4 x 1/2), so that it
/// sparks 2 sqrt 2 times as long as a hole as deep with the same tube, and wears as much.
#[test]
fn interrupted_metal_is_slower_and_wears_as_much() {
    let tap = stub(Tool::Tap, Stuff::Hss, "M3");
    let found = figures(&tap);
    let plain = RowInput {
        limits_mm: Some(Limits::new(1.5, 1.9)),
        tube: found.tube,
        broken: None,
        ..tap.clone()
    };
    let plain = figures(&plain);
    let ratio = sparking(&found) / sparking(&plain);
    assert!((ratio - 8.0_f64.sqrt()).abs() < 1e-9, "{ratio}");
    assert_eq!(found.wear_mm, plain.wear_mm);
    // What isn't known of the interruption widens the minutes.
    let width = |figures: &HoleFigures| {
        let minutes = figures.minutes.unwrap();
        minutes.p90 / minutes.p10
    };
    assert!(width(&found) > width(&plain));
    // A screw has no flutes: 0.7 to 1.0 of the feed.
    let screw = figures(&stub(Tool::Stud, Stuff::Steel, "M2"));
    assert!((screw.steps.feed.unwrap().full_metal - 0.7_f64.sqrt()).abs() < 1e-12);
}

/// An M8 tap of four flutes has a web of 0.48 x 8 and wants a hole from 3.84 + 2 x 0.25 on, and 0.1 all round for
/// cusps: a 2 mm tube, the widest there is, is plunged on a circle.
/// The machine is set for the wear of one plunge, the electrode loses that of all.
#[test]
fn a_core_wider_than_any_tube_is_opened_and_each_plunge_set_by_its_own_wear() {
    let tap = stub(Tool::Tap, Stuff::Hss, "M8");
    let found = figures(&tap);
    let opening = found.burnt.as_ref().unwrap().opening.unwrap();
    assert_eq!(opening.way, Way::OnCircle);
    assert!(opening.plunges > 3);
    // It is led to the least hole that takes the core whatever cusps stay.
    let hole_mm = found.burnt.as_ref().unwrap().tool.unwrap().hole_mm.unwrap();
    assert_eq!(found.size_mm, Some(Limits::new(hole_mm, hole_mm)));
    assert!((hole_mm - 4.54).abs() < 1e-9, "{hole_mm}");
    let plain = RowInput {
        limits_mm: Some(Limits::new(1.9, 2.4)),
        tube: found.tube,
        broken: None,
        ..tap
    };
    let plain = figures(&plain);
    // So many plunges, each of its share, in metal that a tap interrupts: sqrt 8 as in a tap of M3. The gap is
    // that of the tap's diameter, sqrt(0.08 x 0.20) from 6 mm on.
    let one = Asked {
        hole_mm,
        depth_mm: 10.0,
        through: true,
        tube_mm: tables().tubes[found.tube.unwrap().at()].outer_mm,
        gap_mm: 0.016_f64.sqrt(),
        plunge_min: 1.0,
        wear: 1.0,
    };
    let manner = Manner {
        cusp_mm: 0.1,
        ..Manner::default()
    };
    let by_hand = on_circle(&one, manner).unwrap();
    assert_eq!(by_hand.plunges, opening.plunges);
    let longer = sparking(&found) / sparking(&plain);
    assert!(
        (longer - by_hand.minutes * 8.0_f64.sqrt()).abs() < 1e-9,
        "{longer} {by_hand:?}"
    );
    let more = found.wear_mm.unwrap() / plain.wear_mm.unwrap();
    assert!(
        (more - by_hand.wear_mm / 10.0).abs() < 1e-9,
        "{more} {by_hand:?}"
    );
    let set = |of: &HoleFigures| {
        let never_beyond_mm = of.depth_plan.unwrap().never_beyond_mm;
        [of.machine_depth_mm.unwrap(), never_beyond_mm]
    };
    for (opened, one) in set(&found).into_iter().zip(set(&plain)) {
        assert!((opened - one).abs() < 1e-9, "{opened} {one}");
    }
    // How a circle wears is less sure: the first try is no deeper than that of one plunge.
    let first_try = |of: &HoleFigures| of.depth_plan.unwrap().first_try_mm;
    assert!(first_try(&found) <= first_try(&plain));
    let [all, one] = [&found, &plain].map(|of| of.wear_mm.unwrap());
    assert!(all > 1.5 * one, "{all} {one}");
    assert!(said(&found).iter().any(|(level, burning)| {
        let opened =
            matches!(burning, Burning::Opened { plunges, .. } if *plunges == opening.plunges);
        opened && *level == Level::Check
    }));
}

/// Nothing is wide enough beyond half an inch; nothing is thin enough in a thread of M1.6 that a carbide
/// tap's web fills; a tap without a pitch has no thread to spare.
#[test]
fn what_can_t_be_burnt_out_stops() {
    let wide = of_tool(Broken::new(Tool::Drill, Stuff::Hss, 40.0));
    assert!(said(&figures(&wide)).iter().any(|(level, burning)| {
        matches!(burning, Burning::TooWide { .. }) && *level == Level::Stop
    }));
    let thin = stub(Tool::Tap, Stuff::Carbide, "M1.6");
    let thin = figures(&thin);
    // Web 0.64 + 0.5 = 1.14 against 1.6 - 1.0825 x 0.35 - 0.2 = 1.0211.
    let (level, short_mm) = said(&thin)
        .iter()
        .find_map(|(level, burning)| match burning {
            Burning::AtRisk { short_mm, tube_mm } => {
                assert!(tube_mm.is_some());
                Some((*level, *short_mm))
            }
            _ => None,
        })
        .unwrap();
    assert_eq!(level, Level::Check);
    assert!((short_mm - 0.1189).abs() < 0.00005, "{short_mm}");
    // Half of what the hole leaves of the minor diameter, 1.6 - 1.0825 x 0.35, and 0.25 off the middle.
    let hole_mm = thin.burnt.as_ref().unwrap().tool.unwrap().hole_mm.unwrap();
    let cuts_mm = said(&thin).iter().find_map(|(_, burning)| match burning {
        Burning::MayCut { by_mm } => Some(*by_mm),
        _ => None,
    });
    let by_hand_mm = 0.25 - (1.221_114 - hole_mm) / 2.0;
    assert!(
        (cuts_mm.unwrap() - by_hand_mm).abs() < 0.0005,
        "{cuts_mm:?}"
    );
    let roomy = figures(&stub(Tool::Tap, Stuff::Hss, "M3"));
    let may_cut = |(_, burning): &(Level, Burning)| matches!(burning, Burning::MayCut { .. });
    assert!(!said(&roomy).iter().any(may_cut));
    assert!(thin.minutes.is_some());
    let unknown = of_tool(Broken::new(Tool::Tap, Stuff::Hss, 13.0));
    let unknown = figures(&unknown);
    assert_eq!(said(&unknown), [(Level::Stop, Burning::SizeUnknown)]);
    let code = Kind::Burnt(Burning::SizeUnknown).code();
    assert_eq!(code, "broken-size-unknown");
    assert_eq!(unknown.minutes, None);
}

/// A length that nobody measured is told, and so are a size beside the tool and a second end.
#[test]
fn what_is_assumed_or_not_used_is_told() {
    let tool = Broken {
        left_mm: None,
        ..Broken::new(Tool::Drill, Stuff::Hss, 3.0)
    };
    let row = RowInput {
        limits_mm: Some(Limits::new(0.7, 0.9)),
        ends: Some(Ends::Both),
        ..of_tool(tool)
    };
    let found = figures(&row);
    let said = said(&found);
    let has = |wanted: &Burning| said.iter().any(|(_, burning)| burning == wanted);
    assert!(has(&Burning::LengthAssumed { left_mm: 4.5 }));
    assert!(has(&Burning::SizeNotUsed));
    assert!(has(&Burning::FromOneEnd));
    assert_eq!(found.ends, Some(Ends::One));
}

/// A tube that somebody chose is the one that burns, opening the hole where it is thinner than it must be.
#[test]
fn a_chosen_tube_burns() {
    let tables = tables();
    let tap = stub(Tool::Tap, Stuff::Hss, "M3");
    let typed = RowInput {
        tube: Some(tube(&tables, 1.0, 400.0, 1)),
        ..tap.clone()
    };
    let found = first(&job(vec![typed]), &tables);
    assert_eq!(tables.tubes[found.tube.unwrap().at()].outer_mm, 1.0);
    assert!(found.burnt.unwrap().opening.is_some());
    let input = overruled(&tap, Figure::Electrode(tap.id), 1.8);
    let found = first(&input, &tables);
    assert_eq!(tables.tubes[found.tube.unwrap().at()].outer_mm, 1.8);
    assert_eq!(found.burnt.unwrap().opening, None);
}

/// 3.4 to 3.6 mm, and no tube above 2.0: the hole is opened, in as many plunges as the circle asks for, and no
/// closer limits than a tenth are.
#[test]
fn a_size_that_no_tube_makes_is_opened() {
    let row = through(3.5, 10.0);
    let found = figures(&row);
    let tables = tables();
    let outer_mm = tables.tubes[found.tube.unwrap().at()].outer_mm;
    let opening = found.burnt.as_ref().unwrap().opening.unwrap();
    let gap_mm = found.gap_mm.unwrap().p50();
    let taper_mm = 0.03 * 10.0 / 100.0;
    let asked = Asked {
        hole_mm: 3.5 + taper_mm / 2.0,
        depth_mm: 10.0,
        through: true,
        tube_mm: outer_mm,
        gap_mm,
        plunge_min: 1.0,
        wear: 1.0,
    };
    let by_hand = on_circle(&asked, Manner::default()).unwrap();
    assert_eq!(
        (opening.plunges, opening.slug_mm),
        (by_hand.plunges, by_hand.slug_mm)
    );
    let size = found.size_mm.unwrap();
    assert!((size.lower - 3.5).abs() < 1e-9 && size.upper == size.lower);
    // Nothing else is told of it, and steel wants brass.
    let opened = Burning::Opened {
        tube_mm: outer_mm,
        plunges: opening.plunges,
        slug_mm: None,
        buy: None,
    };
    assert_eq!(said(&found), [(Level::Check, opened)]);
    let material = tables.tubes[found.tube.unwrap().at()].material;
    assert_eq!(material, TubeMaterial::Brass);
    let plain = RowInput {
        tube: found.tube,
        limits_mm: Some(Limits::new(outer_mm, outer_mm + 0.4)),
        ..row.clone()
    };
    let plain = figures(&plain);
    assert!((sparking(&found) / sparking(&plain) - by_hand.minutes).abs() < 1e-9);
    let worn = found.wear_mm.unwrap() / plain.wear_mm.unwrap();
    assert!(
        (worn - by_hand.wear_mm / 10.0).abs() < 1e-9,
        "{worn} {by_hand:?}"
    );
    // Between two plunges it comes out and goes down again, 2 x its way at 1,000 mm/min.
    let [retract, once] = [&found, &plain].map(|of| of.minutes_in.unwrap().retract);
    let way_mm = found.steps.tip_mm.unwrap();
    let between = f64::from(opening.plunges - 1) * 2.0 * way_mm / 1000.0;
    assert!((retract - once - between).abs() < 1e-9);
    let close = RowInput {
        limits_mm: Some(Limits::new(3.46, 3.54)),
        ..row.clone()
    };
    let close = figures(&close);
    assert_eq!((close.burnt, close.tube), (None, None));
    let large = figures(&through(13.0, 10.0));
    assert_eq!(large.burnt, None);
}

/// Holes from 1.5 mm on are opened by a thinner tube, smaller ones are not.
#[test]
fn no_hole_below_a_millimeter_and_a_half_is_opened() {
    let mut tables = tables();
    tables.tubes.retain(|tube| tube.outer_mm <= 1.0);
    let of = |lower: f64| {
        let row = RowInput {
            limits_mm: Some(Limits::new(lower, lower + 0.2)),
            ..through(lower + 0.1, 10.0)
        };
        first(&job(vec![row]), &tables)
    };
    assert!(of(1.5).burnt.is_some());
    assert_eq!((of(1.49).burnt, of(1.3).burnt), (None, None));
}

/// The middle of a blind hole is burnt, too, that of a through hole falls out.
#[test]
fn a_blind_hole_takes_the_minutes_of_its_middle() {
    let through = through(6.0, 10.0);
    let blind = RowInput {
        end: HoleEnd::Blind,
        ..through.clone()
    };
    let [through, blind] =
        [through, blind].map(|row| figures(&row).burnt.unwrap().opening.unwrap());
    assert!(through.slug_mm.is_some() && blind.slug_mm.is_none());
    assert!(blind.minutes > through.minutes);
}

/// Tubes that would go in but for their gap are no way to open it, however many there are.
#[test]
fn a_tube_goes_in_with_its_gap() {
    let mut tables = tables();
    let template = tables
        .tubes
        .iter()
        .find(|tube| tube.outer_mm == 1.0)
        .unwrap()
        .clone();
    tables.tubes.retain(|tube| tube.outer_mm == 1.0);
    tables
        .tubes
        .extend([1.78, 1.785, 1.79, 1.795].map(|outer_mm| Tube {
            outer_mm,
            ..template.clone()
        }));
    let row = RowInput {
        limits_mm: Some(Limits::new(1.74, 1.86)),
        ..through(1.8, 10.0)
    };
    let found = first(&job(vec![row]), &tables);
    assert_eq!(tables.tubes[found.tube.unwrap().at()].outer_mm, 1.0);
    assert!(found.burnt.unwrap().opening.is_some());
}

/// Of two tubes the one that opens it in fewer minutes: each alone, then both.
#[test]
fn the_quicker_of_two_tubes_opens_it() {
    let minutes = |outers: &[f64], hole_mm: f64, depth_mm: f64| {
        let mut tables = tables();
        tables.tubes.retain(|tube| outers.contains(&tube.outer_mm));
        let row = RowInput {
            limits_mm: Some(Limits::new(hole_mm - 0.1, hole_mm + 0.1)),
            ..through(hole_mm, depth_mm)
        };
        sparking(&first(&job(vec![row]), &tables))
    };
    for (hole_mm, depth_mm) in [(3.0, 10.0), (6.0, 25.0), (10.0, 40.0)] {
        for pair in [[0.5, 1.0], [0.5, 2.0], [1.0, 2.0]] {
            let [one, other] = pair.map(|outer| minutes(&[outer], hole_mm, depth_mm));
            let both = minutes(&pair, hole_mm, depth_mm);
            assert!(
                (both - one.min(other)).abs() < 1e-9,
                "{pair:?}: {one} {other} {both}"
            );
        }
    }
}

/// Its records say nothing of plunges into full metal.
#[test]
fn records_of_what_was_burnt_or_opened_teach_nothing() {
    let tables = tables();
    let ran = Ran {
        holes: 1.0,
        clock_min: Some(30.0),
        ..Ran::default()
    };
    for row in [stub(Tool::Tap, Stuff::Hss, "M3"), through(3.5, 10.0)] {
        let input = job(vec![row]);
        let context = start_context(&input, &tables);
        let found = recorded(&context, &tables, &input.rows[0], &ran);
        assert_eq!(found.err(), Some(NotUsed::NotFullMetal));
    }
}

/// Longer stubs, thicker tools and carbide never burn faster.
#[test]
fn more_to_burn_never_takes_less() {
    let minutes = |row: &RowInput| figures(row).minutes.map(|minutes| minutes.p50);
    let mut last = 0.0;
    for left in 1..60 {
        let tool = Broken {
            left_mm: Some(f64::from(left)),
            ..Broken::of_thread(Tool::Tap, Stuff::Hss, named("M4").unwrap())
        };
        let now = minutes(&of_tool(tool)).unwrap();
        assert!(now > last, "{left}");
        last = now;
    }
    let [hss, carbide] = [Stuff::Hss, Stuff::Carbide].map(|stuff| stub(Tool::Tap, stuff, "M4"));
    assert!(minutes(&carbide) > minutes(&hss));
}
