//! Figures of one column have equally many decimals, in every table of every paper: what stands below
//! one another is compared by the eye, digit under digit.

mod common;

use std::collections::{BTreeMap, BTreeSet};

use quillbore_job::{Job, Paper, Shop, Unit};
use quillbore_paper::page::{Item, Role};
use quillbore_paper::{BlankForm, Document, Sheet, blank, document};

/// Columns that hold what somebody typed, as it was typed, by the beginnings of their heads: a digit more
/// would say that somebody had read it off the clock. Numbers of characteristics are names, and what was found of them stands as typed.
const TYPED: &[&str] = &["Sparking", "Floor", "Stops", "Char. no.", "Result"];

/// A column of a table: its head, and what stands in it.
type Columns = Vec<(String, Vec<String>)>;

/// The columns of every table, in the order of the pages. A table in tiers has the columns of each tier.
fn tables(document: &Document) -> Vec<Columns> {
    let mut tables = Vec::new();
    let mut reader = Reader::default();
    for item in document.pages.iter().flat_map(|page| &page.items) {
        if let Some(table) = reader.take(item) {
            tables.push(table);
        }
    }
    tables
}

#[derive(Default)]
struct Reader {
    open: Vec<Role>,
    /// The heads of each tier.
    heads: Vec<Vec<String>>,
    /// The rows of cells.
    rows: Vec<Vec<String>>,
    row: Vec<(bool, String)>,
}

impl Reader {
    fn take(&mut self, item: &Item) -> Option<Columns> {
        // Heads on a later page are said once.
        let is_again = self.open.contains(&Role::Edge);
        match item {
            Item::Begin(role) => {
                match role {
                    Role::Head => self.row.push((true, String::new())),
                    Role::Cell { .. } => self.row.push((false, String::new())),
                    _ => {}
                }
                self.open.push(role.clone());
            }
            Item::End => {
                let role = self.open.pop();
                match role {
                    Some(Role::Row) => self.end_row(is_again),
                    Some(Role::Table) => return Some(self.end_table()),
                    _ => {}
                }
            }
            Item::Text(run) if self.open.contains(&Role::Row) => {
                if let Some((_, text)) = self.row.last_mut() {
                    text.push_str(&run.text);
                    text.push(' ');
                }
            }
            _ => {}
        }
        None
    }

    fn end_row(&mut self, is_again: bool) {
        let row = std::mem::take(&mut self.row);
        let is_heads = row.iter().any(|(is_head, _)| *is_head);
        let texts: Vec<String> = row.iter().map(|(_, text)| text.trim().to_owned()).collect();
        // A remark under a row is one cell alone.
        match (is_heads, texts.len()) {
            (true, _) if !is_again => self.heads.push(texts),
            (false, 2..) => self.rows.push(texts),
            _ => {}
        }
    }

    fn end_table(&mut self) -> Columns {
        let heads = std::mem::take(&mut self.heads);
        let rows = std::mem::take(&mut self.rows);
        let tiers = heads.len().max(1);
        let mut columns: Columns = Vec::new();
        for (tier, heads) in heads.into_iter().enumerate() {
            let of_tier: Vec<&Vec<String>> = rows.iter().skip(tier).step_by(tiers).collect();
            for (at, head) in heads.into_iter().enumerate() {
                let cells = of_tier.iter().filter_map(|row| row.get(at).cloned());
                columns.push((head, cells.collect()));
            }
        }
        columns
    }
}

/// The decimals of a plain number, with a comma or not between its thousands.
fn decimals(text: &str) -> Option<usize> {
    let text = text.trim_start_matches(['-', '\u{2212}', '+']);
    let (whole, decimals) = text.split_once('.').unwrap_or((text, ""));
    let is_whole = whole.starts_with(|ch: char| ch.is_ascii_digit())
        && whole.chars().all(|ch| ch.is_ascii_digit() || ch == ',');
    let is_plain = is_whole && decimals.bytes().all(|byte| byte.is_ascii_digit());
    is_plain.then_some(decimals.len())
}

fn uneven(said: &str, document: &Document, seen: &mut usize, found: &mut BTreeMap<String, String>) {
    for (head, cells) in tables(document).into_iter().flatten() {
        let counts: BTreeSet<usize> = cells.iter().filter_map(|cell| decimals(cell)).collect();
        *seen += usize::from(counts.iter().any(|count| *count > 0));
        let is_typed = TYPED.iter().any(|typed| head.starts_with(typed));
        if counts.len() > 1 && !is_typed {
            found.insert(format!("{said}: {head}"), cells.join(" | "));
        }
    }
}

#[test]
fn figures_of_a_column_have_equally_many_decimals() {
    let shop = Shop::embedded().expect("the shop");
    let (mut seen, mut found) = (0, BTreeMap::new());
    let jobs = common::all().into_iter().flat_map(|(name, job)| {
        // The same job as it is shown in the other unit.
        let unit = match job.unit {
            Unit::Mm => Unit::Inch,
            Unit::Inch => Unit::Mm,
        };
        let other = Job {
            unit,
            ..job.clone()
        };
        [(name.clone(), job), (format!("{name} in {unit:?}"), other)]
    });
    for (name, job) in jobs {
        common::printed(&job, shop, Sheet::A4, |matter| {
            for paper in Paper::ALL {
                let said = format!("{name}, {}", paper.key());
                uneven(&said, &document(*paper, &[matter]), &mut seen, &mut found);
            }
            for form in BlankForm::ALL {
                let said = format!("{name}, blank {}", form.key());
                uneven(&said, &blank(*form, &matter, None), &mut seen, &mut found);
            }
        });
    }
    assert!(seen > 100, "only {seen} columns with decimals were seen");
    assert!(found.is_empty(), "{found:#?}");
}

#[test]
fn a_number_is_told_from_a_text() {
    for (text, wanted) in [
        ("12", Some(0)),
        ("1,234.50", Some(2)),
        ("\u{2212}0.5", Some(1)),
        ("0.48 to 0.53", None),
        ("3/64 in", None),
        ("\u{2013}", None),
        ("", None),
    ] {
        assert_eq!(decimals(text), wanted, "{text}");
    }
}
