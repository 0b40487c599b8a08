//! Broken tools on the sheet, and a call about one.
#![expect(
    clippy::unwrap_used,
    reason = "helpers of tests stop the test as tests do"
)]

use quillbore_calc::broken::{Kind, Stuff};
use quillbore_calc::finding::{Burning, Kind as Found};
use quillbore_calc::input::HoleEnd;
use quillbore_job::quick::{Call, CallField, QuickRange, broken_range};
use quillbore_job::results::{foot, results_now};
use quillbore_job::to_input::to_input;
use quillbore_job::{CellAt, Column, Edit, Field, Job, Shop, Unit, apply};

fn with(job: &Job, edit: &Edit) -> Job {
    apply(job, edit).unwrap().0
}

fn cell(job: &Job, column: Column, text: &str) -> Job {
    let edit = Edit::SetCells {
        at: CellAt { row: 0, column },
        rows: vec![vec![Some(text.to_owned())]],
        unit: Unit::Mm,
    };
    with(job, &edit)
}

fn field(job: &Job, field: Field, text: &str) -> Job {
    let edit = Edit::SetField {
        field,
        text: text.to_owned(),
        unit: Unit::Mm,
    };
    with(job, &edit)
}

/// An M6 tap, 12 mm of it in a blind hole, 2 mm below the face.
fn tap() -> Job {
    let fields = [
        (Field::Material, "Steel, other"),
        (Field::Machine, "Wren"),
        (Field::Quantity, "1"),
    ];
    let job = fields
        .into_iter()
        .fold(Job::default(), |job, (of, text)| field(&job, of, text));
    let cells = [
        (Column::Mark, "A"),
        (Column::Broken, "M6 tap"),
        (Column::Depth, "12"),
        (Column::End, "blind"),
        (Column::Below, "2"),
    ];
    cells
        .into_iter()
        .fold(job, |job, (column, text)| cell(&job, column, text))
}

#[test]
fn a_row_with_a_broken_tool_asks_for_it() {
    let shop = Shop::embedded().unwrap();
    let asked = to_input(&tap(), shop);
    let row = &asked.input.rows[0];
    let tool = row.broken.as_deref().unwrap();
    assert_eq!((tool.kind, tool.stuff), (Kind::Tap, Stuff::Hss));
    assert_eq!((tool.below_face_mm, tool.left_mm), (2.0, Some(12.0)));
    assert!(!tool.through && row.end == HoleEnd::Blind);
    // It is drilled in what the tool is made of, over what is left of it.
    let [layer] = row.layers.as_slice() else {
        unreachable!("{:?}", row.layers);
    };
    let material = layer.material.of(&shop.tables.materials).unwrap();
    assert_eq!(material.name, "Tool steel, other");
    assert_eq!((layer.thickness_mm, row.depth_mm), (12.0, Some(12.0)));
    // The guide stays above the bore that the tool broke in.
    let recess = row.recess.unwrap();
    assert_eq!((recess.depth_mm, recess.width_mm), (2.0, 6.0));
    // Half a millimeter to either side is near enough.
    let limits = row.depth_limits_mm.unwrap();
    assert_eq!((limits.lower, limits.upper), (11.5, 12.5));
}

#[test]
fn without_a_length_one_and_a_half_diameters_are_assumed_and_told() {
    let shop = Shop::embedded().unwrap();
    let job = cell(&tap(), Column::Depth, "");
    let results = results_now(&job, shop);
    assert_eq!(results.asked.input.rows[0].depth_mm, Some(9.0));
    let told = results.figures.holes[0]
        .findings
        .iter()
        .any(|finding| finding.kind == Found::Burnt(Burning::LengthAssumed { left_mm: 9.0 }));
    assert!(told);
    // What is typed but can't be read is no length that anybody may assume.
    let unread = cell(&tap(), Column::Depth, "some");
    assert!(results_now(&unread, shop).figures.lot.is_none());
}

#[test]
fn the_foot_says_the_range_and_what_the_try_costs() {
    let shop = Shop::embedded().unwrap();
    let job = tap();
    let results = results_now(&job, shop);
    let said = foot::text(&foot::foot(&job, &results, shop, None).said);
    let range = broken_range(&job, &results.figures, shop).unwrap();
    assert!(said.starts_with(&range.lot), "{said}");
    assert!(said.contains(&format!("{} to try.", range.for_the_try)));
    // The range holds the price that it is reckoned at, and the cost's P10 and P90 at the same margin.
    let price = results.figures.price.as_ref().unwrap();
    let [from, to] = QuickRange::of(std::slice::from_ref(&results.figures), &shop.tables)
        .unwrap()
        .lot;
    assert!(from <= price.breaks[0].lot && price.breaks[0].lot <= to);
    let mut dearer = shop.clone();
    let tables = &mut dearer.tables;
    tables.rates.try_charge = Some(75.0);
    let range = broken_range(&job, &results.figures, &dearer).unwrap();
    assert_eq!(range.for_the_try, "75");
    // Other jobs have a price, not a range.
    let holes = cell(&cell(&job, Column::Broken, ""), Column::Size, "0.8 +-0.1");
    assert_eq!(broken_range(&holes, &results.figures, &dearer), None);
}

#[test]
fn a_call_is_answered_from_tool_and_material_on_and_becomes_the_job() {
    let shop = Shop::embedded().unwrap();
    let base = Job::default();
    let mut call = Call::default();
    assert_eq!(call.told(&base, shop).said, "");
    *call.text_mut(CallField::Tool) = "M6 tap".to_owned();
    let said = call.told(&base, shop).said;
    assert_eq!(said, "Type part material for a price.");
    *call.text_mut(CallField::Material) = "Steel, other".to_owned();
    let told = call.told(&base, shop);
    assert!(told.said.contains("machine hours"), "{}", told.said);
    assert!(told.said.contains("Neither thread nor hole is guaranteed"));
    assert!(
        told.checks
            .iter()
            .any(|check| check.contains("Nobody measured"))
    );
    *call.text_mut(CallField::Left) = "soon".to_owned();
    let said = call.told(&base, shop).said;
    assert!(
        said.starts_with("Length left \u{201c}soon\u{201d}: "),
        "{said}"
    );
    *call.text_mut(CallField::Left) = "12".to_owned();
    *call.text_mut(CallField::Tried) = "hammer".to_owned();
    *call.text_mut(CallField::ComesIn) = "Tuesday, by van".to_owned();
    let told = call.told(&base, shop);
    let job = with(&base, &call.edit(&base, shop).unwrap());
    let row = &job.rows[0];
    assert_eq!((row.broken.text(), row.depth.text()), ("M6 tap", "12"));
    assert_eq!(row.tried.text(), "hammer");
    assert_eq!(job.text(Field::ComesIn), "Tuesday, by van");
    assert_eq!(job.text(Field::Quantity), "1");
    let machine = told.machine.unwrap().of(&shop.tables.machines).unwrap();
    assert_eq!(job.text(Field::Machine), machine.name);
    // The sheet says what the call said: the same range, now with all searches done.
    let results = results_now(&job, shop);
    assert!(results.figures.price.is_some());
    // A sheet that is begun asks for no call.
    assert_eq!(call.edit(&job, shop), None);
}

#[test]
fn a_tool_without_a_family_in_the_list_is_told() {
    let mut shop = Shop::embedded().unwrap().clone();
    shop.tables
        .materials
        .retain(|material| material.family != quillbore_calc::tables::Family::Carbide);
    let job = cell(&tap(), Column::Broken, "M6 tap carbide");
    let results = results_now(&job, &shop);
    assert!(results.figures.lot.is_none());
    assert!(!results.asked.unknown.is_empty());
}
