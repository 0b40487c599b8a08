//! What papers are made of and what they say.

use quillbore_job::answer::{Answer, How};
use quillbore_job::concern::{Concern, Facts};
use quillbore_job::slip::kind;
use quillbore_job::{Job, Shop};
use quillbore_paper::page::Item;
use quillbore_paper::{Document, Issuer, Matter, Remark, Sheet};

use super::sample::{Sample, day};

/// Every text of a document, one after the other.
pub fn prose(document: &Document) -> String {
    let items = document.pages.iter().flat_map(|page| &page.items);
    let texts: Vec<&str> = items
        .filter_map(|item| match item {
            Item::Text(run) => Some(run.text.as_str()),
            _ => None,
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
    let shop = &*shop.for_job(job);
    let results = quillbore_job::results::results_now(job, shop);
    let telling = quillbore_job::results::Telling::new(job, shop);
    let notes = results.notes.iter();
    let remarks: Vec<Remark> = notes.map(|note| Remark::of(note, &telling)).collect();
    let answers = results.answers();
    let order = job.slips_of::<kind::Order>().next_back();
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
    make(Matter {
        job,
        input: &results.asked.input,
        figures: &results.figures,
        tables: &shop.tables,
        unknown: &results.asked.unknown,
        remarks: &remarks,
        answers: &answers,
        issuer: &issuer,
        language: job.language(),
        sheet: sheet.into(),
        date: day(),
        number: None,
        valid_until: None,
        quotation: order.and_then(|order| quillbore_job::order::quotation_of(job, order)),
        preview: None,
        annex: true,
    })
}
