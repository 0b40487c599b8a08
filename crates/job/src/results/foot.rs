//! The foot: what is said of a job on the phone, each figure of it with the working it opens.

use std::collections::BTreeSet;

use quillbore_calc::figure::Working;
use quillbore_calc::finding::Level;
use quillbore_calc::job_figures::{Break, ElectrodeFigures, LotFigures};
use quillbore_calc::working::{days, machines, working};
use quillbore_calc::{Figure, RowId};
use rust_decimal::Decimal;

use super::kind::Missing;
use super::note::{Beside, SideNote};
use super::promise::Promise;
use super::telling::Telling;
use super::whole::Results;
use crate::asked::quick::{BrokenRange, broken_range};
use crate::job::Job;
use crate::life::{OrderedAt, ordered_at};
use crate::shop::minor_digits;
use crate::shop::rows::Shop;
use crate::typed::field::Field;
use crate::words::edits;
use crate::words::foot as words;
use crate::words::own::Rests;
use crate::words::promise::working_days_of;
use crate::words::speaker::Speaker;

/// Most letters of a stop.
const STOP_LETTERS: usize = 120;
/// Most sizes of electrodes that are told one by one.
const SIZES_TOLD: usize = 3;
/// Most tubes that are told by their names, which are longer.
const TUBES_NAMED: usize = 2;
/// Most rows that are named one by one.
const ROWS_NAMED: usize = 5;

/// The two lines of the foot.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Foot {
    /// The sentence that is said; never empty.
    pub said: Vec<Piece>,
    /// What the shop doesn't know; empty where nothing is computed.
    pub rests: Vec<Piece>,
}

/// A piece of a line.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// The words.
    pub text: String,
    /// Where they lead when they are pressed.
    pub leads: Option<Leads>,
    /// Whether it is one of the figures that matter most: each, lot, hours, electrodes.
    pub strong: bool,
}

/// Where a piece of the foot leads.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Leads {
    /// To the working whose result it is.
    Working(Figure),
    /// To a line of the sheet.
    Line(Beside),
    /// To the first cell of the hole table, which is empty.
    FirstHole,
}

impl Piece {
    /// The figure whose working it opens.
    #[must_use]
    pub const fn figure(&self) -> Option<Figure> {
        match self.leads {
            Some(Leads::Working(figure)) => Some(figure),
            Some(Leads::Line(_) | Leads::FirstHole) | None => None,
        }
    }

    fn plain(text: impl Into<String>) -> Self {
        Self {
            text: text.into(),
            leads: None,
            strong: false,
        }
    }

    fn of(text: String, figure: Figure) -> Self {
        Self {
            leads: Some(Leads::Working(figure)),
            ..Self::plain(text)
        }
    }

    fn at(text: impl Into<String>, line: Beside) -> Self {
        Self {
            leads: Some(Leads::Line(line)),
            ..Self::plain(text)
        }
    }

    fn strong(self) -> Self {
        Self {
            strong: true,
            ..self
        }
    }
}

/// The words of a line without where they lead.
#[must_use]
pub fn text(line: &[Piece]) -> String {
    line.iter().map(|piece| piece.text.as_str()).collect()
}

/// What is said of a job on the phone, and what the shop doesn't know of it.
///
/// The days are those of the lead time where one was typed, since that is what the quotation says; else
/// those that the lot takes at the shop's hours, as `promise` has them: likely to nine times in ten.
#[must_use]
pub fn foot(job: &Job, results: &Results, shop: &Shop, promise: Option<&Promise>) -> Foot {
    let said = Saying {
        job,
        results,
        shop,
        promise,
        speaker: Speaker {
            job,
            tables: &shop.tables,
            unit: job.unit,
            form: shop.form,
        },
    };
    Foot {
        said: said.sentence(),
        rests: said.rests(),
    }
}

/// The working of a figure of a job; that of its days goes by `promise`, as the foot says them.
#[must_use]
pub fn opened(
    job: &Job,
    results: &Results,
    shop: &Shop,
    promise: Option<&Promise>,
    figure: Figure,
) -> Option<Working> {
    let figures = &results.figures;
    match figure {
        Figure::WorkingDays => {
            let floor = promise.map(|promise| &promise.floor);
            days(figures, floor, job.count(Field::LeadDays))
        }
        Figure::Machines => {
            let hours_alone = shop.calendar.unattended_hours_per_day;
            machines(&results.asked.input, &shop.tables, figures, hours_alone)
        }
        _ => working(&results.asked.input, &shop.tables, figures, figure),
    }
}

/// What the foot is said of.
struct Saying<'a> {
    job: &'a Job,
    results: &'a Results,
    shop: &'a Shop,
    promise: Option<&'a Promise>,
    speaker: Speaker<'a>,
}

impl Saying<'_> {
    fn sentence(&self) -> Vec<Piece> {
        if let Some(stop) = self.stop() {
            let ended = stop.text.ends_with(words::CUT);
            let mut said = filled(words::STOPPED, |_| vec![stop.clone()]);
            said.extend((!ended).then(|| Piece::plain(words::END)));
            return said;
        }
        let Some(lot) = &self.results.figures.lot else {
            return self.missing();
        };
        let mut said = self.price();
        let parts = [Some(self.hours(lot)), self.electrodes(lot), self.days()];
        said.extend(joined(parts.into_iter().flatten(), words::COMMA));
        said.push(Piece::plain(words::END));
        said
    }

    /// What stands against quoting, first of all; what is only missing is no stop here.
    fn stop(&self) -> Option<Piece> {
        let stops = |note: &&SideNote| note.level == Level::Stop && missing(note).is_none();
        let note = self.results.notes.iter().find(stops)?;
        let told = Telling::new(self.job, self.shop);
        let said = words::in_short(&told.text(note), STOP_LETTERS);
        let said = match note.beside {
            Beside::Row(row, _) => words::stop_of(&edits::hole(self.job, row), &said),
            _ => said,
        };
        Some(Piece::at(said, note.beside))
    }

    /// What is missing before anything can be computed, each once.
    fn missing(&self) -> Vec<Piece> {
        let mut told: Vec<(Missing, Piece)> = Vec::new();
        for note in &self.results.notes {
            let Some((of, words)) = missing(note) else {
                continue;
            };
            if told.iter().all(|(other, _)| *other != of) {
                told.push((of, Piece::at(words, note.beside)));
            }
        }
        let no_holes = self.job.rows.is_empty();
        let one = told.len() == 1 && !no_holes;
        let mut pieces: Vec<Piece> = told.into_iter().map(|(_, piece)| piece).collect();
        pieces.extend(no_holes.then(|| Piece {
            leads: Some(Leads::FirstHole),
            ..Piece::plain(words::HOLES)
        }));
        if pieces.is_empty() {
            return vec![Piece::plain(words::NO_PRICE)];
        }
        filled(words::missing(one), |_| listed(pieces.clone()))
    }

    /// Price each and of the lot; nothing where there is none.
    fn price(&self) -> Vec<Piece> {
        let price = self.results.figures.price.as_ref();
        let Some(offered) = price.and_then(|price| price.breaks.first()) else {
            return Vec::new();
        };
        let Break {
            quantity,
            each,
            lot,
            minimum,
            ..
        } = *offered;
        let rates = &self.shop.tables.rates;
        let form = self.shop.form;
        let amount = |amount| form.money_exact(amount, rates.minor_digits);
        let with_currency = |shown: String| format!("{shown} {}", rates.currency);
        let (of_each, of_lot) = (Figure::UnitPrice(quantity), Figure::LotPrice(quantity));
        // From the order on its price is the one that is said: nothing worked it out, so it opens nothing.
        let ordered = ordered_at(self.job);
        let other = |at: &OrderedAt<'_>| at.currency.is_some_and(|pays| pays != rates.currency);
        if let Some(ordered) = ordered.filter(|at| at.each != each || other(at))
            && let Some(lot) = ordered.each.checked_mul(Decimal::from(ordered.parts))
        {
            let currency = ordered.currency.unwrap_or(&rates.currency);
            let digits = minor_digits(currency);
            let amount = |amount| form.money_exact(amount, digits);
            return filled(words::ORDERED, |name| {
                vec![match name {
                    "each" => Piece::plain(format!("{} {currency}", amount(ordered.each))).strong(),
                    "lot" => Piece::plain(amount(lot)).strong(),
                    _ => Piece::plain(form.count(f64::from(ordered.parts))),
                }]
            });
        }
        let range = broken_range(self.job, &self.results.figures, self.shop);
        let tools = |of: fn(&BrokenRange) -> &String| {
            range
                .as_ref()
                .map_or_else(String::new, |range| of(range).clone())
        };
        let template = if range.is_some() {
            words::BROKEN
        } else if minimum {
            words::BY_MINIMUM
        } else {
            words::PRICED
        };
        filled(template, |name| {
            vec![match name {
                "each" => Piece::of(with_currency(amount(each)), of_each).strong(),
                "range" => Piece::plain(tools(|range| &range.lot)).strong(),
                "try" => Piece::plain(tools(|range| &range.for_the_try)),
                "reckoned" => Piece::of(amount(lot), of_lot),
                "lot" if minimum => Piece::of(with_currency(amount(lot)), of_lot).strong(),
                "lot" => Piece::of(amount(lot), of_lot).strong(),
                _ => Piece::plain(form.count(f64::from(quantity))),
            }]
        })
    }

    fn electrodes(&self, lot: &LotFigures) -> Option<Vec<Piece>> {
        let tubes = lot.electrodes.as_slice();
        let together = tubes.iter().map(|of| u64::from(of.needed)).sum::<u64>();
        let all = || vec![self.count(together, Figure::AllElectrodes).strong()];
        let sizes_mm: Vec<f64> = tubes.iter().map(|of| self.outer_mm(of)).collect();
        let sizes = self.shop.form.lengths_mm(&sizes_mm, self.job.unit);
        let distinct = sizes.iter().collect::<BTreeSet<_>>().len();
        let told_apart = distinct == sizes.len();
        Some(match tubes {
            [] => return None,
            [one] => filled(words::electrodes_of_one(together), |name| match name {
                "count" => vec![self.electrodes_of(one).strong()],
                _ => vec![Piece::plain(self.speaker.length(self.outer_mm(one)))],
            }),
            few if told_apart && few.len() <= SIZES_TOLD => {
                let sizes = sizes.iter().map(String::as_str);
                let each = self.each_of(few, sizes);
                filled(words::ELECTRODES_EACH, |name| match name {
                    "count" => all(),
                    "unit" => vec![Piece::plain(self.job.unit.symbol())],
                    _ => each.clone(),
                })
            }
            few if few.len() <= TUBES_NAMED => {
                let each = self.each_of(few, few.iter().map(|of| self.tube_name(of)));
                filled(words::ELECTRODES_NAMED, |name| match name {
                    "count" => all(),
                    _ => each.clone(),
                })
            }
            many if told_apart => filled(&words::electrodes_in(many.len()), |_| all()),
            many => filled(&words::electrodes_of(many.len()), |_| all()),
        })
    }

    fn outer_mm(&self, of: &ElectrodeFigures) -> f64 {
        let tube = of.tube.of(&self.shop.tables.tubes);
        tube.map_or(f64::NAN, |tube| tube.outer_mm)
    }

    fn tube_name(&self, of: &ElectrodeFigures) -> &str {
        let tube = of.tube.of(&self.shop.tables.tubes);
        tube.map_or("?", |tube| tube.name.as_str())
    }

    fn days(&self) -> Option<Vec<Piece>> {
        let (first, last) = match (self.job.count(Field::LeadDays), self.promise) {
            (Some(typed), _) => (typed, typed),
            (None, Some(promise)) => (promise.days.p50, promise.days.p90),
            (None, None) => return None,
        };
        let piece = |days: u32| self.count(days.into(), Figure::WorkingDays);
        let mut said = vec![piece(first)];
        if last != first {
            said.extend([Piece::plain(words::TO), piece(last)]);
        }
        said.push(Piece::plain(format!(" {}", working_days_of(last))));
        Some(said)
    }

    fn rests(&self) -> Vec<Piece> {
        let figures = &self.results.figures;
        let (with, without): (Vec<_>, Vec<_>) =
            (figures.holes.iter()).partition(|hole| hole.minutes.is_some());
        if with.is_empty() {
            return Vec::new();
        }
        let mut sentences = vec![vec![Piece::plain(words::rests_on(
            Rests::of(figures),
            self.material(),
        ))]];
        let without: Vec<RowId> = without.iter().map(|hole| hole.row).collect();
        if !without.is_empty() {
            sentences.push(filled(words::WITHOUT, |_| self.rows(&without)));
        }
        if figures.price.is_some() && self.shop.has_sample_rates() {
            sentences.push(vec![Piece::plain(words::SAMPLE_RATES)]);
        }
        joined(sentences, words::NEXT)
    }

    /// The material that everything is drilled in, where it is one.
    fn material(&self) -> Option<&str> {
        let input = &self.results.asked.input;
        let mut of_rows = input.rows.iter().flat_map(|row| {
            let layers = row.layers.iter().map(|layer| Some(layer.material));
            layers.chain(row.layers.is_empty().then_some(input.material))
        });
        let first = of_rows.next()??;
        let one = of_rows.all(|other| other == Some(first));
        let material = first.of(&self.shop.tables.materials).filter(|_| one)?;
        Some(&material.name)
    }

    /// Rows by name, the first of them.
    fn rows(&self, rows: &[RowId]) -> Vec<Piece> {
        let named = rows.iter().take(ROWS_NAMED);
        let named = named.map(|row| {
            let line = Beside::Row(*row, None);
            vec![Piece::at(edits::hole(self.job, *row), line)]
        });
        let mut said = joined(named, words::COMMA);
        let more = rows.len().saturating_sub(ROWS_NAMED);
        said.extend((more > 0).then(|| Piece::plain(words::and_more(more))));
        said
    }

    fn count(&self, count: u64, figure: Figure) -> Piece {
        Piece::of(self.shop.form.count(count as f64), figure)
    }

    /// Electrodes of one tube.
    fn electrodes_of(&self, of: &ElectrodeFigures) -> Piece {
        self.count(of.needed.into(), Figure::Electrodes(of.tube))
    }

    /// Electrodes of each tube, by what tells the tubes apart.
    fn each_of<'a>(
        &self,
        tubes: &[ElectrodeFigures],
        sizes: impl Iterator<Item = &'a str>,
    ) -> Vec<Piece> {
        let each = tubes.iter().zip(sizes).map(|(of, size)| {
            filled(words::ONE_SIZE, |name| match name {
                "count" => vec![self.electrodes_of(of)],
                _ => vec![Piece::plain(size)],
            })
        });
        joined(each, words::COMMA)
    }

    fn hours(&self, lot: &LotFigures) -> Vec<Piece> {
        let [low, likely, high] = self.shop.form.hours_band(lot.machine_hours);
        let piece = |shown: &str| Piece::of(shown.to_owned(), Figure::MachineHours);
        filled(words::HOURS, |name| {
            vec![match name {
                "likely" => piece(&likely).strong(),
                "low" => piece(&low),
                _ => piece(&high),
            }]
        })
    }
}

/// What a note says is missing, and its words; what can't be read and names that nobody has stand
/// there, and stop.
const fn missing(note: &SideNote) -> Option<(Missing, &'static str)> {
    let Some(of) = note.kind.missing() else {
        return None;
    };
    let words = match of {
        Missing::Material => words::MATERIAL,
        Missing::Machine => words::MACHINE,
        Missing::Quantity => words::QUANTITY,
        Missing::Size => words::SIZE,
        Missing::Depth => words::DEPTH,
        Missing::Reading | Missing::Name | Missing::Exchange => return None,
    };
    Some((of, words))
}

/// A template with what its names in braces stand for.
fn filled(template: &str, mut stands: impl FnMut(&str) -> Vec<Piece>) -> Vec<Piece> {
    let mut pieces = Vec::new();
    let mut rest = template;
    while let Some((before, (name, after))) = rest
        .split_once('{')
        .and_then(|(before, after)| Some((before, after.split_once('}')?)))
    {
        if !before.is_empty() {
            pieces.push(Piece::plain(before));
        }
        pieces.extend(stands(name));
        rest = after;
    }
    if !rest.is_empty() {
        pieces.push(Piece::plain(rest));
    }
    pieces
}

/// Parts of a line one after another.
fn joined(parts: impl IntoIterator<Item = Vec<Piece>>, between: &str) -> Vec<Piece> {
    let mut pieces = Vec::new();
    for part in parts {
        if !pieces.is_empty() {
            pieces.push(Piece::plain(between));
        }
        pieces.extend(part);
    }
    pieces
}

/// Pieces as a list: commas, and "and" before the last.
fn listed(mut pieces: Vec<Piece>) -> Vec<Piece> {
    let last = pieces.pop();
    let mut said = joined(pieces.into_iter().map(|piece| vec![piece]), words::COMMA);
    if !said.is_empty() {
        said.push(Piece::plain(words::AND));
    }
    said.extend(last);
    said
}
