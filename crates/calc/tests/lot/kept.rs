//! What is kept from one edit to the next: it may save time, never change a figure.

use std::cell::Cell;
use std::sync::Arc;

use proptest::prelude::*;
use quillbore_calc::assemble::{Answers, Kept, Question, answer, figures, figures_now, questions};
use quillbore_calc::figure::Figure;
use quillbore_calc::input::{Ends, HoleEnd, Overrule, PartAxis, Place, RowId};
use quillbore_calc::job_figures::HoleFigures;
use quillbore_calc::{Idx, JobFigures, JobInput, Limits, Tables};

use crate::rows::{job, placed, row};
use crate::shop::tables;

/// Something that somebody does to a job, or to the shop.
#[derive(Clone, Debug)]
enum Deed {
    Depth(usize, f64),
    Size(usize, f64),
    Count(usize, u32),
    End(usize, HoleEnd),
    Both(usize),
    Tube(usize, Option<usize>),
    Put(usize),
    TakeOut(usize),
    Swap(usize, usize),
    Places(usize, u32),
    Overrule(usize, u8, f64),
    Restore,
    Quantity(Option<u32>),
    Breaks(Vec<u32>),
    Machine(Option<usize>),
    Material(usize),
    Axis(Option<PartAxis>),
    Margin(f64),
    /// The shop's own: a rate, a price, a start value.
    Rate(f64),
    TubePrice(f64),
    Pace(f64),
    /// Back to where it began: undo finds what is kept.
    Begin,
}

fn deed() -> impl Strategy<Value = Deed> {
    let at = 0..12_usize;
    let depth = prop_oneof![5.0..60.0, Just(20.0), Just(20.0)];
    let size = prop::sample::select(vec![0.62, 0.82, 1.02, 1.12, 1.62, 9.0]);
    let end = prop::sample::select(vec![HoleEnd::Through, HoleEnd::Into, HoleEnd::Blind]);
    let quantity = prop::option::weighted(0.9, 1..60_u32);
    let axis = prop::option::of(prop::sample::select(vec![PartAxis::X, PartAxis::Z]));
    let rows = prop_oneof![
        (at.clone(), depth).prop_map(|(at, depth)| Deed::Depth(at, depth)),
        (at.clone(), size).prop_map(|(at, size)| Deed::Size(at, size)),
        (at.clone(), 0..9_u32).prop_map(|(at, count)| Deed::Count(at, count)),
        (at.clone(), end).prop_map(|(at, end)| Deed::End(at, end)),
        at.clone().prop_map(Deed::Both),
        (at.clone(), prop::option::of(0..8_usize)).prop_map(|(at, tube)| Deed::Tube(at, tube)),
        at.clone().prop_map(Deed::Put),
        at.clone().prop_map(Deed::TakeOut),
        (at.clone(), at.clone()).prop_map(|(a, b)| Deed::Swap(a, b)),
        (at.clone(), 0..7_u32).prop_map(|(at, places)| Deed::Places(at, places)),
        (at, 0..7_u8, 0.01..40.0).prop_map(|(at, which, value)| Deed::Overrule(at, which, value)),
    ];
    let lot = prop_oneof![
        Just(Deed::Restore),
        quantity.prop_map(Deed::Quantity),
        prop::collection::vec(1..90_u32, 0..3).prop_map(Deed::Breaks),
        prop::option::weighted(0.9, 0..2_usize).prop_map(Deed::Machine),
        (0..2_usize).prop_map(Deed::Material),
        axis.prop_map(Deed::Axis),
        (0.0..0.6).prop_map(Deed::Margin),
        (20.0..90.0).prop_map(Deed::Rate),
        (0.5..9.0).prop_map(Deed::TubePrice),
        (0.1..0.9).prop_map(Deed::Pace),
        Just(Deed::Begin),
    ];
    prop_oneof![3 => rows, 1 => lot]
}

fn begin() -> JobInput {
    let rows = (1..=6)
        .map(|id| {
            let size = [0.82, 1.02, 1.12][id as usize % 3];
            row(id, id % 4, size, 10.0 + 3.0 * f64::from(id))
        })
        .collect();
    JobInput {
        breaks: vec![3],
        ..job(25, rows)
    }
}

fn done(deed: &Deed, input: &mut JobInput, tables: &mut Tables) {
    let rows = input.rows.len();
    let new_id = input.rows.iter().map(|row| row.id.0).max().unwrap_or(0) + 1;
    let of = |at: usize| (rows > 0).then(|| at % rows);
    match deed.clone() {
        Deed::Depth(at, depth) => of(at).into_iter().for_each(|at| {
            input.rows[at].depth_mm = Some(depth);
        }),
        Deed::Size(at, size) => of(at).into_iter().for_each(|at| {
            input.rows[at].limits_mm = Some(Limits::new(size - 0.05, size + 0.05));
        }),
        Deed::Count(at, count) => of(at)
            .into_iter()
            .for_each(|at| input.rows[at].count = count),
        Deed::End(at, end) => of(at).into_iter().for_each(|at| input.rows[at].end = end),
        Deed::Both(at) => of(at).into_iter().for_each(|at| {
            input.rows[at].ends = match input.rows[at].ends {
                None => Some(Ends::Both),
                Some(Ends::Both) => Some(Ends::One),
                Some(Ends::One) => None,
            };
        }),
        Deed::Tube(at, tube) => of(at)
            .into_iter()
            .for_each(|at| input.rows[at].tube = tube.map(Idx::new)),
        Deed::Put(at) => {
            let at = at.min(rows);
            input.rows.insert(at, row(new_id, 2, 1.02, 14.0));
        }
        Deed::TakeOut(at) => of(at).into_iter().for_each(|at| {
            input.rows.remove(at);
        }),
        Deed::Swap(a, b) => {
            if let (Some(a), Some(b)) = (of(a), of(b)) {
                input.rows.swap(a, b);
            }
        }
        Deed::Places(at, places) => of(at).into_iter().for_each(|at| {
            let axes = (0..places).map(|place| {
                let turn = f64::from(place) * 1.1;
                [-libm::cos(turn), -libm::sin(turn), 0.0]
            });
            let placed = placed(1, &axes.collect::<Vec<_>>()).places;
            // Half of them in one direction, so that there is an order to search.
            let down = |place: Place| Place {
                axis: [0.0, 0.0, -1.0],
                ..place
            };
            input.rows[at].places = if places % 2 == 0 {
                placed.into_iter().map(down).collect()
            } else {
                placed
            };
        }),
        Deed::Overrule(at, which, value) => {
            let id = of(at).map_or(RowId(1), |at| input.rows[at].id);
            let figure = [
                Figure::Feed(id),
                Figure::Wear(id),
                Figure::Gap(id),
                Figure::HoleMinutes(id),
                Figure::Electrode(id),
                Figure::MachineHours,
                Figure::NotYetKnown,
            ][usize::from(which)];
            input.overrules.push(Overrule { figure, value });
        }
        Deed::Restore => input.overrules.clear(),
        Deed::Quantity(quantity) => input.quantity = quantity,
        Deed::Breaks(breaks) => input.breaks = breaks,
        Deed::Machine(machine) => input.machine = machine.map(Idx::new),
        Deed::Material(material) => {
            input.material = Some(Idx::new(material % tables.materials.len()));
        }
        Deed::Axis(axis) => input.index_about = axis,
        Deed::Margin(margin) => input.margin = Some(margin),
        Deed::Rate(rate) => tables.rates.labor_per_hour = rate,
        Deed::TubePrice(price) => tables.tubes[3].price = price,
        Deed::Pace(zone_feed) => tables.start.zone_feed = zone_feed,
        Deed::Begin => {
            *input = begin();
            *tables = crate::shop::tables();
        }
    }
}

fn kept_figures(kept: &mut Kept, input: &JobInput, tables: &Tables) -> JobFigures {
    kept.prepare(input, tables).figures(&Answers::default())
}

/// A gap that was overruled in one row says nothing of another row of the same limits, whichever came first.
#[test]
fn an_overruled_gap_is_of_its_row_alone() {
    let (mut input, mut tables) = (begin(), tables());
    let mut kept = Kept::default();
    let deeds = [
        Deed::TakeOut(0),
        Deed::Put(5),
        Deed::Overrule(5, 2, 0.159_235_696_671_688_21),
        Deed::Put(0),
    ];
    for deed in deeds {
        done(&deed, &mut input, &mut tables);
        let fresh = figures(&input, &tables, &Answers::default());
        assert_eq!(kept_figures(&mut kept, &input, &tables), fresh);
    }
    let like: Vec<_> = {
        let fresh = figures(&input, &tables, &Answers::default());
        let gap = |row: &HoleFigures| row.gap_mm.map(|gap| gap.p10.to_bits());
        let rows = fresh.holes.iter().filter(|row| row.held.is_some());
        rows.map(|row| (row.limits_mm, gap(row), row.held))
            .collect()
    };
    // Two rows of the same limits, one with the gap that was typed: each is held by its own.
    let differ = like.iter().enumerate().any(|(at, one)| {
        let mut others = like[at + 1..].iter();
        others.any(|other| one.0 == other.0 && one.1 != other.1 && one.2 != other.2)
    });
    assert!(differ, "{like:?}");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, ..ProptestConfig::default() })]

    #[test]
    fn figures_are_the_same_with_what_is_kept_and_without(
        deeds in prop::collection::vec(deed(), 1..40),
    ) {
        let (mut input, mut tables) = (begin(), tables());
        let mut kept = Kept::default();
        for deed in deeds {
            done(&deed, &mut input, &mut tables);
            let fresh = figures(&input, &tables, &Answers::default());
            prop_assert_eq!(kept_figures(&mut kept, &input, &tables), fresh, "after {:?}", deed);
            let anew = questions(&input, &tables);
            prop_assert_eq!(kept.prepare(&input, &tables).questions(), anew, "after {:?}", deed);
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 6, ..ProptestConfig::default() })]

    #[test]
    fn settled_figures_are_the_same_whichever_answers_came_first(
        deeds in prop::collection::vec(deed(), 1..6),
    ) {
        let (mut input, mut tables) = (begin(), tables());
        let (mut kept, mut answers) = (Kept::default(), Answers::default());
        for deed in deeds {
            done(&deed, &mut input, &mut tables);
            let prepared = kept.prepare(&input, &tables);
            answers.note(&prepared.questions());
            // One answer at a time, as a worker gives them.
            while let Some(next) = prepared.open(&answers).into_iter().next() {
                let found = next.answer(&|| false).unwrap();
                answers.put(next, found);
            }
            let settled = prepared.figures(&answers);
            prop_assert!(settled.settled);
            prop_assert_eq!(settled, figures_now(&input, &tables), "after {:?}", deed);
        }
    }
}

/// The packings and orders among some questions.
fn searches(questions: &[Question]) -> Vec<&Question> {
    let is_search = |question: &&Question| !matches!(question, Question::Draw(_));
    questions.iter().filter(is_search).collect()
}

#[test]
fn an_edit_of_a_row_asks_only_its_tube_again() {
    let (input, tables) = (begin(), tables());
    let answers = answer(&questions(&input, &tables));
    let open = |input: &JobInput| Kept::default().prepare(input, &tables).open(&answers);
    assert!(open(&input).is_empty());
    // Rows 3 and 6 are the 0.82 mm ones: their tube has a kit and two quantities.
    let figures = figures_now(&input, &tables);
    let tube = figures.holes[2].tube;
    let of_tube = figures
        .holes
        .iter()
        .filter(|hole| hole.tube == tube)
        .count();
    assert!(of_tube >= 2 && of_tube < figures.holes.len());
    let mut deeper = input.clone();
    deeper.rows[2].depth_mm = Some(33.0);
    let mut longer = input.clone();
    longer.rows.push(row(77, 3, 0.82, 21.0));
    let mut shorter = input.clone();
    shorter.rows.remove(2);
    for edited in [deeper, longer, shorter] {
        let open = open(&edited);
        let searches = searches(&open);
        // First plans and settled ones of two quantities and of the kit.
        assert_eq!(searches.len(), 6, "{searches:?}");
    }
    // Another row above moves all indexes, and asks nothing of the other tubes.
    let mut above = input.clone();
    above.rows.insert(0, row(78, 3, 0.82, 21.0));
    assert_eq!(searches(&open(&above)).len(), 6);
    // A name, a rate, a margin asks nothing at all.
    let mut renamed = input;
    for (at, row) in renamed.rows.iter_mut().enumerate() {
        row.id = RowId(900 + at as u32);
    }
    renamed.margin = Some(0.5);
    assert!(open(&renamed).is_empty());
}

/// Five holes in a row along x, so that their order is asked, as all else is.
fn in_a_row(pitch_mm: f64, depth_mm: f64) -> JobInput {
    let mut places = placed(1, &[[0.0, 0.0, -1.0]; 5]);
    for (at, place) in (0_u8..).zip(&mut places.places) {
        place.point_mm = [f64::from(at) * pitch_mm, 0.0, 0.0];
    }
    places.depth_mm = Some(depth_mm);
    job(25, vec![places])
}

/// Each kind of question stands for itself: the orders of two jobs and their draws lie side by side,
/// and each job takes its own.
#[test]
fn answers_of_every_kind_lie_side_by_side() {
    let tables = tables();
    let jobs = [in_a_row(4.0, 20.0), in_a_row(5.0, 24.0)];
    let mut answers = Answers::default();
    let asked = jobs.each_ref().map(|input| questions(input, &tables));
    for question in asked.iter().flatten() {
        answers.put(question.clone(), question.answer(&|| false).unwrap());
    }
    for kind in [
        |question: &Question| matches!(question, Question::Order(_)),
        |question: &Question| matches!(question, Question::Draw(_)),
    ] {
        let [one, other] = asked
            .each_ref()
            .map(|asked| asked.iter().find(|asked| kind(asked)));
        assert!(one.is_some() && other.is_some() && one != other);
    }
    for (input, asked) in jobs.iter().zip(&asked) {
        assert!(asked.iter().all(|question| answers.has(question)));
        let found = figures(input, &tables, &answers);
        assert!(found.settled);
        assert_eq!(found, figures_now(input, &tables));
    }
}

#[test]
fn answers_that_nobody_asks_for_are_let_go_in_the_end() {
    let (input, tables) = (begin(), tables());
    let asked = questions(&input, &tables);
    let mut answers = answer(&asked);
    for _ in 0..64 {
        answers.note(&[]);
        assert!(asked.iter().all(|question| answers.has(question)));
    }
    answers.note(&[]);
    assert!(!asked.iter().any(|question| answers.has(question)));
}

/// Twelve holes in an even grid of 10 mm are visited in eleven moves of 10 as soon as their order was
/// found; until then they are swept, which here is longer.
#[test]
fn an_order_that_was_found_is_the_one_that_is_drilled() {
    let mut places = placed(1, &[[0.0, 0.0, -1.0]; 12]);
    for (at, place) in (0_u8..).zip(&mut places.places) {
        place.point_mm = [f64::from(at % 4) * 10.0, f64::from(at / 4) * 10.0, 0.0];
    }
    let (input, tables) = (job(25, vec![places]), tables());
    let travel = |figures: &JobFigures| figures.setups[0].travel_mm.unwrap();
    let found = figures_now(&input, &tables);
    assert!(found.settled && (travel(&found) - 110.0).abs() < 1e-9);
    let swept = figures(&input, &tables, &Answers::default());
    assert!(!swept.settled && travel(&swept) > 110.0 + 1.0);
}

/// 64 turns for every kind of question, counted from when it was last asked for.
#[test]
fn an_answer_is_kept_from_when_it_was_last_asked_for() {
    let tables = tables();
    let [asked, other] =
        [in_a_row(4.0, 20.0), in_a_row(5.0, 24.0)].map(|job| questions(&job, &tables));
    let mut answers = answer(&asked);
    for question in &other {
        answers.put(question.clone(), question.answer(&|| false).unwrap());
    }
    let has = |answers: &Answers, asked: &[Question]| {
        let mut had = asked.iter().map(|question| answers.has(question));
        let first = had.next();
        assert!(had.all(|had| Some(had) == first), "all of them or none");
        first
    };
    // What only the second asks is asked for once more, everything else never.
    let other: Vec<Question> = other
        .into_iter()
        .filter(|question| !asked.contains(question))
        .collect();
    answers.note(&other);
    for _ in 0..63 {
        answers.note(&[]);
        assert_eq!(has(&answers, &asked), Some(true));
    }
    answers.note(&[]);
    assert_eq!(has(&answers, &asked), Some(false));
    assert_eq!(has(&answers, &other), Some(true));
    answers.note(&[]);
    assert_eq!(has(&answers, &other), Some(false));
}

/// A row that nobody touched is taken over as it is, also after material or tables were others for once
/// and after its neighbors moved; with another material or other tables every row is worked out anew.
#[test]
fn rows_that_stand_are_taken_over() {
    let (mut input, mut tables) = (begin(), tables());
    let mut kept = Kept::default();
    let mut before = Vec::new();
    let mut taken_over = |input: &JobInput, tables: &Tables| {
        let holes = kept_figures(&mut kept, input, tables).holes;
        let stood =
            |hole: &&Arc<HoleFigures>| before.iter().any(|before| Arc::ptr_eq(before, hole));
        let number = holes.iter().filter(stood).count();
        before = holes;
        number
    };
    assert_eq!(taken_over(&input, &tables), 0);
    // A row in the middle is edited; one is put in above and one taken out below.
    input.rows[2].depth_mm = Some(31.0);
    assert_eq!(taken_over(&input, &tables), 5);
    input.rows.insert(0, row(90, 2, 1.02, 14.0));
    input.rows.pop();
    assert_eq!(taken_over(&input, &tables), 5);
    // Another material is another setting, another start value another shop.
    input.material = Some(Idx::new(1));
    assert_eq!(taken_over(&input, &tables), 0);
    assert_eq!(taken_over(&input, &tables), 6);
    tables.start.zone_feed = 0.4;
    assert_eq!(taken_over(&input, &tables), 0);
    assert_eq!(taken_over(&input, &tables), 6);
}

#[test]
fn a_question_that_is_stopped_has_no_answer() {
    let mut input = begin();
    input.rows[0].places = placed(1, &[[0.0, 0.0, -1.0]; 9]).places;
    for question in questions(&input, &tables()) {
        let asked = Cell::new(0_u32);
        let stopped = question.answer(&|| {
            asked.set(asked.get() + 1);
            true
        });
        // What simple rules settle is answered before anybody could stop it.
        assert_eq!(stopped.is_none(), asked.get() > 0, "{question:?}");
    }
}
