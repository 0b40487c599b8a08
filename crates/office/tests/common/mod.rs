//! Somebody at the office: one job in hand, edited, saved and issued without any window.
#![expect(clippy::expect_used, reason = "a helper of tests fails by panic")]
#![allow(
    dead_code,
    clippy::allow_attributes,
    reason = "each test takes what it needs"
)]

use std::path::{Path, PathBuf};
use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_job::shop::sheet::{ShopEdit, ShopLine, ShopSheet, apply_shop};
use quillbore_job::{
    CellAt, Column, Edit, Field, Issued, Job, Line, Paper, Shop, SlipKind, Unit, apply,
};
use quillbore_office::Office;
use quillbore_office::disk::{Disk, RealDisk};
use quillbore_office::issue::{IssuedNow, NotIssued, Seen, ToIssue};
use quillbore_office::names::JobKey;
use quillbore_office::office::Wanted;
use quillbore_office::places;
use quillbore_office::save::{Opened, SaveError};
use quillbore_office::shelf::{Folder, Memory, Shelf};
use quillbore_paper::Sheet;

/// The day of all tests.
pub(crate) fn day() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 11, 25).expect("a day")
}

pub(crate) fn shop() -> Shop {
    Shop::embedded().expect("the shop").clone()
}

/// A sheet of the shop with name, address and currency, which no paper leaves without.
pub(crate) fn with_a_name(sheet: &ShopSheet) -> ShopSheet {
    let mut sheet = sheet.clone();
    for (line, text) in [
        (ShopLine::Name, "Heron Bore"),
        (ShopLine::Address, "2 Reed Bank"),
        (ShopLine::Currency, "USD"),
    ] {
        if sheet.line(line).is_empty() {
            let typed = ShopEdit::SetLine {
                line,
                text: text.to_owned(),
                unit: Unit::Mm,
            };
            sheet = apply_shop(&sheet, &typed).expect("an edit");
        }
    }
    sheet
}

/// An office over a folder, which is made a shelf.
pub(crate) fn office_of(root: &Path, shop: Shop) -> Arc<Office> {
    let disk: Arc<dyn Disk> = Arc::new(RealDisk::default());
    let folder = Arc::new(Folder::new(Arc::clone(&disk), root, None));
    folder
        .adopt(&places::new_mark().expect("a mark"))
        .expect("a shelf");
    Arc::new(Office::over(folder, disk, Arc::new(shop)))
}

pub(crate) fn office(root: &Path) -> Arc<Office> {
    office_of(root, shop())
}

/// An office over a shelf in memory, and that shelf.
pub(crate) fn office_in_memory() -> (Arc<Office>, Arc<Memory>) {
    let memory = Arc::new(Memory::marked(places::new_mark().expect("a mark")));
    let shelf: Arc<dyn Shelf> = memory.clone();
    let disk = Arc::new(RealDisk::default());
    let office = Office::new(shelf, None, disk, Arc::new(shop()));
    (Arc::new(office), memory)
}

pub(crate) fn key(name: &str) -> JobKey {
    JobKey::new(name).expect("a name")
}

/// Somebody with one job in hand.
pub(crate) struct Clerk {
    pub(crate) office: Arc<Office>,
    pub(crate) job: Arc<Job>,
    pub(crate) opened: Option<Opened>,
}

impl Clerk {
    pub(crate) fn with(office: &Arc<Office>, job: Job) -> Self {
        Self {
            office: Arc::clone(office),
            job: Arc::new(job),
            opened: None,
        }
    }

    pub(crate) fn opening(office: &Arc<Office>, name: &str) -> Self {
        let on_desk = office
            .open(&Wanted::Key(key(name)), "the front office", &[])
            .expect("it opens");
        Self {
            office: Arc::clone(office),
            job: on_desk.job,
            opened: Some(on_desk.opened),
        }
    }

    pub(crate) fn edit(&mut self, edit: &Edit) {
        let (job, _) = apply(&self.job, edit).expect("an edit");
        self.job = Arc::new(job);
    }

    pub(crate) fn field(&mut self, field: Field, text: &str) {
        self.edit(&Edit::SetField {
            field,
            text: text.to_owned(),
            unit: Unit::Mm,
        });
    }

    pub(crate) fn pin(&mut self, kind: SlipKind, lines: &[(Line, &str)]) {
        let lines = lines.iter().map(|(line, text)| (*line, (*text).to_owned()));
        self.edit(&Edit::AddSlip {
            kind,
            lines: lines.collect(),
            unit: Unit::Mm,
        });
    }

    pub(crate) fn type_on(&mut self, slip: u32, line: Line, text: &str) {
        self.edit(&Edit::SetLine {
            slip,
            line,
            text: text.to_owned(),
            unit: Unit::Mm,
        });
    }

    pub(crate) fn holes(&mut self, cells: [&str; 4]) {
        let cells = cells.map(|text| Some(text.to_owned()));
        self.edit(&Edit::SetCells {
            at: CellAt {
                row: 0,
                column: Column::Mark,
            },
            rows: vec![cells.to_vec()],
            unit: Unit::Mm,
        });
    }

    pub(crate) fn save(&mut self) -> Result<(), SaveError> {
        let opened = self.office.save(&self.job, self.opened.as_ref(), day())?;
        self.job = Arc::clone(&opened.base);
        self.opened = Some(opened);
        Ok(())
    }

    pub(crate) fn seen(&self) -> Seen {
        Seen {
            job: Arc::clone(&self.job),
            opened: self.opened.clone(),
        }
    }

    pub(crate) fn to_issue(&self, paper: Paper) -> ToIssue {
        ToIssue {
            paper,
            own: self.seen(),
            others: Vec::new(),
            sheet: Sheet::A4,
            day: day(),
            lessons: self.office.teaching(day()).lessons,
            without_records: false,
            shop: self.office.shop_version(),
        }
    }

    pub(crate) fn try_issue(&mut self, paper: Paper) -> Result<IssuedNow, NotIssued> {
        let issued = self.office.issue(&self.to_issue(paper))?;
        self.job = Arc::clone(&issued.opened.base);
        self.opened = Some(issued.opened.clone());
        Ok(issued)
    }

    pub(crate) fn issue(&mut self, paper: Paper) -> Issued {
        match self.try_issue(paper) {
            Ok(now) => now.issued,
            Err(not) => {
                let said = quillbore_office::words::issue::not_issued(&not);
                unreachable!("{said}")
            }
        }
    }

    /// Why a paper is not issued, as it is said.
    pub(crate) fn refused(&mut self, paper: Paper) -> String {
        match self.try_issue(paper) {
            Ok(now) => unreachable!("{} was issued", now.issued.number),
            Err(not) => quillbore_office::words::issue::not_issued(&not),
        }
    }

    pub(crate) fn number(&self) -> &str {
        &self.job.number
    }
}

/// An inquiry that can be quoted.
pub(crate) fn inquiry(office: &Arc<Office>) -> Clerk {
    let mut clerk = Clerk::with(office, Job::default());
    for (field, text) in [
        (Field::Customer, "Grove Pump Works"),
        (Field::Material, "Stainless 316"),
        (Field::Machine, "Wren"),
        (Field::Quantity, "12"),
        (Field::ValidDays, "30"),
    ] {
        clerk.field(field, text);
    }
    clerk.holes(["A", "6", "0.8 +-0.05", "12"]);
    clerk
}

/// A job that was quoted.
pub(crate) fn quoted(office: &Arc<Office>) -> Clerk {
    let mut clerk = inquiry(office);
    clerk.issue(Paper::Quotation);
    clerk
}

/// A job whose traveler can be released.
pub(crate) fn to_release(office: &Arc<Office>) -> Clerk {
    let mut clerk = quoted(office);
    let each = clerk.job.issued[0].lines[0]
        .each
        .expect("a price")
        .to_string();
    clerk.pin(
        SlipKind::Order,
        &[(Line::Quantity, "12"), (Line::Each, &each)],
    );
    clerk.pin(SlipKind::Received, &[(Line::Count, "12")]);
    clerk.save().expect("saved");
    clerk
}

/// The file of a paper in a shelf's folder.
pub(crate) fn pdf(root: &Path, number: &str) -> PathBuf {
    let job = number.rsplit_once('-').expect("a paper's number").0;
    root.join(format!("{job}.files/{number}.pdf"))
}
