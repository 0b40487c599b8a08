//! Every side note of a job, in the sheet's order.

use std::cmp::Reverse;

use quillbore_calc::JobFigures;
use quillbore_calc::finding::{Kind, Level};

use super::found::found_of_job;
use super::hour_notes::{free_hours, rates_not_yet};
use super::kind::NoteKind;
use super::margin_note::margin;
use super::marks::marks_twice;
use super::note::{Beside, SideNote};
use super::records_behind::records_behind;
use super::remedy::Offer;
use super::{
    agreed_notes, count_notes, currency_notes, days_notes, depth_notes, due_notes, end_notes,
    exchange_notes, paper_notes, part_notes, promise, questions, run_notes, slip_notes,
};
use crate::asked::to_input::Asked;
use crate::asked::unread::{has_bare_angle, rests_on, row_rests_on};
use crate::edits::edit::Edit;
use crate::ground::same_name::same_name;
use crate::issued::seal::SealState;
use crate::job::Job;
use crate::shop::rows::Shop;
use crate::shop::sheet::ShopList;
use crate::shop::unknown::UnknownName;
use crate::typed::field::{AngleBasis, Block, Field};
use crate::typed::overrule::FigureKey;
use crate::typed::row::Column;
use crate::words::speaker::Speaker;
use crate::words::{edits, english, findings, names, slips};

/// Every side note; `seals` says of each issued paper how its entry stands to its seal.
pub(super) fn notes(
    job: &Job,
    shop: &Shop,
    asked: &Asked,
    figures: &JobFigures,
    seals: &[SealState],
) -> Vec<SideNote> {
    let speaker = Speaker {
        job,
        tables: &shop.tables,
        unit: job.unit,
        form: shop.form,
    };
    // A hundred thousand rows have more notes than a list that grows should make room for.
    let most = questions::at_most(job, asked, figures) + job.rows.len();
    // A note, and where its row stands: what comes of a row's own figures stands there for sure.
    let mut notes: Vec<(SideNote, Option<usize>)> = Vec::with_capacity(most);
    notes.extend(unread(job));
    let names = asked.unknown.iter();
    notes.extend(names.map(|name| (unknown(name, &speaker, shop), None)));
    notes.extend(marks_twice(job));
    notes.extend(other_name(job, shop, asked).map(|note| (note, None)));
    notes.extend(depth_notes::through(&speaker, asked));
    notes.extend(end_notes::assumed(job));
    notes.extend(count_notes::not_the_places(job));
    notes.extend(part_notes::all(&speaker, asked));
    notes.extend(
        slip_notes::all(job, figures, shop.form)
            .into_iter()
            .map(|note| (note, None)),
    );
    let of_runs = run_notes::all(&speaker, asked, shop).into_iter();
    notes.extend(of_runs.map(|note| (note, None)));
    let of_papers = paper_notes::all(job, seals).into_iter();
    notes.extend(of_papers.map(|note| (note, None)));
    notes.extend(angles_assumed(job).into_iter().map(|note| (note, None)));
    let lead_time = promise::lead_time_short(job, asked, figures, shop);
    let odd = days_notes::odd(job, lead_time.is_some(), shop.form);
    notes.extend(odd.into_iter().map(|note| (note, None)));
    notes.extend(lead_time.map(|note| (note, None)));
    let agreed = agreed_notes::all(job, shop).into_iter();
    notes.extend(agreed.map(|note| (note, None)));
    notes.extend(due_notes::past(job, shop).map(|note| (note, None)));
    let ahead = due_notes::ahead(job, shop).into_iter();
    notes.extend(ahead.map(|note| (note, None)));
    let due = due_notes::all(job, shop).into_iter();
    notes.extend(due.map(|note| (note, None)));
    notes.extend(records_behind(job, shop.form).map(|note| (note, None)));
    notes.extend(margin(figures, shop.form).map(|note| (note, None)));
    let free = free_hours(asked, figures, shop).into_iter();
    notes.extend(free.map(|note| (note, None)));
    notes.extend(rates_not_yet(job, figures, shop).map(|note| (note, None)));
    let exchange = exchange_notes::all(job, shop, figures).into_iter();
    notes.extend(exchange.map(|note| (note, None)));
    let currencies = currency_notes::all(job, shop).into_iter();
    notes.extend(currencies.map(|note| (note, None)));
    let of_job = figures.findings.iter();
    notes.extend(of_job.map(|finding| (found_of_job(job, finding), None)));
    questions::of_rows(&speaker, asked, figures, &mut notes);
    held_by_fixture(job, &mut notes);
    // The keys are sorted, not the notes: those are large, and of many rows there are many.
    notes.sort_by_cached_key(|(note, at)| (place(job, note.beside, *at), Reverse(note.level)));
    notes.into_iter().map(|(note, _)| note).collect()
}

/// A tilt that no axis reaches is seen to where somebody named the fixture that holds it.
fn held_by_fixture(job: &Job, notes: &mut [(SideNote, Option<usize>)]) {
    if job.text(Field::Fixture).trim().is_empty() {
        return;
    }
    for (note, _) in notes {
        if note.level == Level::Check
            && matches!(note.kind, NoteKind::Found(Kind::TiltOutOfRange { .. }))
        {
            note.level = Level::Note;
        }
    }
}

/// Where a line stands on the sheet: inquiry, rows, plan, price, papers, slips.
fn place(job: &Job, beside: Beside, at: Option<usize>) -> (u8, u32, u16) {
    let row_at = |row| at.or_else(|| job.row_index(row));
    match beside {
        Beside::Field(field) => match field.block() {
            Block::Inquiry => (0, field as u32, 0),
            Block::Plan => (2, field as u32, 0),
            Block::Price => (3, field as u32, 0),
        },
        Beside::Row(row, column) => (
            1,
            row_at(row).map_or(u32::MAX, |at| u32::try_from(at).unwrap_or(u32::MAX)),
            column.map_or(0, |column| column as u16 + 1),
        ),
        Beside::Plan => (2, u32::MAX, 0),
        Beside::Price => (3, u32::MAX, 0),
        Beside::Papers => (4, 0, 0),
        Beside::Slip(slip, line) => (5, slip, line.map_or(0, |line| line as u16 + 1)),
    }
}

/// Every cell that could not be read, with its own sentence.
fn unread(job: &Job) -> Vec<(SideNote, Option<usize>)> {
    let note = |beside, label: &str, text: &str, why: &str| {
        let text = format!("{label} \u{201c}{text}\u{201d}: {why}");
        SideNote::new(Level::Check, NoteKind::Unread, beside, text)
    };
    // Nobody may quote or drill by a figure that stands there without what was typed.
    let stop = |mut note: SideNote, rests: bool| {
        if rests {
            note.level = Level::Stop;
        }
        note
    };
    let fields = job.fields.iter().filter_map(|(field, entry)| {
        let why = entry.why()?;
        let beside = Beside::Field(*field);
        let note = note(beside, names::field(*field), entry.text(), why);
        Some((stop(note, rests_on(*field)), None))
    });
    let overrules = job.overrules.iter().filter_map(|overrule| {
        let why = overrule.value.why()?;
        let beside = match &overrule.figure {
            FigureKey::NotYetKnown | FigureKey::UnitPrice(_) => Beside::Price,
            figure => figure
                .row()
                .map_or(Beside::Plan, |row| Beside::Row(row, None)),
        };
        let label = edits::figure(job, &overrule.figure);
        let note = note(beside, &label, overrule.value.text(), why);
        Some((stop(note, true), None))
    });
    let rows = job.rows.iter().enumerate();
    let unread = rows.filter(|(_, row)| row.is_unread());
    let cells = unread.flat_map(|(at, row)| {
        Column::ALL.iter().filter_map(move |column| {
            let cell = row.cell(*column);
            let why = cell.why?;
            let beside = Beside::Row(row.id, Some(*column));
            let label = english::column(*column).head;
            let note = note(beside, label, cell.text, why);
            Some((stop(note, row_rests_on(row, *column)), Some(at)))
        })
    });
    let slips = job.slips.iter().flat_map(|slip| {
        slip.lines.iter().filter_map(move |(line, entry)| {
            let why = entry.why()?;
            let beside = Beside::Slip(slip.id, Some(*line));
            let label = slips::line_in(slip.kind, *line);
            Some((note(beside, label, entry.text(), why), None))
        })
    });
    let sheet = fields.chain(overrules).chain(cells);
    sheet.chain(slips).collect()
}

/// Angles whose text doesn't say what they are measured from, while the sheet doesn't either.
fn angles_assumed(job: &Job) -> Option<SideNote> {
    let tilted = job.rows.iter().any(|row| has_bare_angle(row));
    let field = Field::AngleBasis;
    let words = english::angle_basis(AngleBasis::FromNormal).to_owned();
    let offer = Offer {
        words: words.clone(),
        edit: Edit::SetField {
            field,
            text: words,
            unit: job.unit,
        },
    };
    let said = english::angles_assumed().to_owned();
    let note = SideNote::new(
        Level::Check,
        NoteKind::AngleBasisAssumed,
        Beside::Field(field),
        said,
    );
    (tilted && job.field(field).is_empty()).then(|| note.offering(Some(offer)))
}

/// A material that is written by another name than the shop's own.
fn other_name(job: &Job, shop: &Shop, asked: &Asked) -> Option<SideNote> {
    let row = asked.input.material?.of(&shop.tables.materials)?;
    let field = Field::Material;
    let written = job.text(field).trim();
    let said = || english::material_by_other_name(written, &row.name);
    (!same_name(written, &row.name)).then(|| {
        let beside = Beside::Field(field);
        SideNote::new(Level::Note, NoteKind::MaterialByOtherName, beside, said())
    })
}

fn unknown(name: &UnknownName, speaker: &Speaker<'_>, shop: &Shop) -> SideNote {
    let beside = match name {
        UnknownName::Material(_) => Beside::Field(Field::Material),
        UnknownName::Machine(_) => Beside::Field(Field::Machine),
        UnknownName::Tube(row, _) => Beside::Row(*row, Some(Column::Tube)),
        UnknownName::LayerMaterial(row, _) => Beside::Row(*row, Some(Column::Layers)),
        UnknownName::OverruledTube(_) => Beside::Plan,
    };
    // A row that the shop has, and that can't be used as it stands there.
    let (list, typed) = match name {
        UnknownName::Material(typed) | UnknownName::LayerMaterial(_, typed) => {
            (ShopList::Materials, typed)
        }
        UnknownName::Machine(typed) => (ShopList::Machines, typed),
        UnknownName::Tube(_, typed) | UnknownName::OverruledTube(typed) => {
            (ShopList::Electrodes, typed)
        }
    };
    let mut left_out = shop.not_used.iter();
    let left_out = left_out
        .find(|note| note.row.is_some_and(|(of, _)| of == list) && same_name(&note.name, typed));
    let said = left_out.map_or_else(
        || speaker.unknown(name),
        |note| findings::left_out(typed, note),
    );
    SideNote::new(Level::Stop, NoteKind::UnknownName, beside, said)
}
