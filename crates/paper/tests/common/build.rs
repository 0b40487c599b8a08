//! A sample made of fields and rows of holes.

use quillbore_calc::input::{HoleEnd, RowInput};
use quillbore_calc::{Idx, JobInput, RowId};
use quillbore_job::{CellAt, Column, Edit, Field, Job, Shop, Unit};
use quillbore_paper::Issuer;

use super::figures::figures;
use super::sample::{Sample, day, set};
use super::spec::HoleSpec;

pub(super) fn build(
    number: &str,
    unit: Unit,
    fields: &[(Field, &str)],
    holes: &[HoleSpec],
) -> Sample {
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
        rests_on: None,
        pressure_bar: None,
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
        masking_min: 0.0,
        margin: None,
        price_unread: false,
        sampling: None,
        overrules: Vec::new(),
    };
    let mut figures = figures(holes, &ids, &tables);
    let machine = input
        .machine
        .and_then(|machine| machine.of(&tables.machines));
    for hole in &mut figures.holes {
        let hole = std::sync::Arc::make_mut(hole);
        hole.stand_off_mm = machine.map(|machine| machine.stand_off_mm);
    }
    let issuer = Issuer {
        name: shop.name.clone(),
        address: shop.address.clone(),
        identity: shop.identity.clone(),
        form: shop.form,
        sample_rates: shop.has_sample_rates(),
        logo: shop.logo.clone(),
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
