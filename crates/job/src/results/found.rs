//! What the calculation found, as side notes.

use std::sync::Arc;

use quillbore_calc::finding::{About, Finding, Kind};

use super::kind::NoteKind;
use super::note::{Beside, Offering, SideNote};
use crate::job::Job;
use crate::job::part_unknown::part_unknown;
use crate::pinned::concern::customer;
use crate::typed::field::Field;

/// What the calculation found, of the row that stands there.
pub(super) fn found(finding: &Finding, at: Option<usize>) -> SideNote {
    let remedy = |remedy| Offering::Remedy { remedy, at };
    SideNote {
        offering: finding.remedy.map(|of| Box::new(remedy(of))),
        customer: customer(&finding.kind),
        ..SideNote::new(
            finding.level,
            NoteKind::Found(finding.kind.clone()),
            beside(finding),
            // Shared by all: it takes no room of its own.
            Arc::<str>::default(),
        )
    }
}

/// What the calculation found of the job as a whole; what is not known of the part stands beside the
/// first line that doesn't say it.
pub(super) fn found_of_job(job: &Job, finding: &Finding) -> SideNote {
    let mut note = found(finding, None);
    if finding.kind == Kind::PartSizeUnknown
        && let Some(field) = part_unknown(job).first()
    {
        note.beside = Beside::Field(*field);
    }
    note
}

/// The line that a finding of the calculation stands beside.
fn beside(finding: &Finding) -> Beside {
    match finding.about {
        About::Row(row) => Beside::Row(row, None),
        About::Price => match finding.kind {
            Kind::PartValueUnknown => Beside::Field(Field::PartValue),
            Kind::MarginImpossible { .. } => Beside::Field(Field::Margin),
            _ => Beside::Price,
        },
        About::Job => match finding.kind {
            Kind::MaterialMissing
            | Kind::ConductivityUnknown
            | Kind::ConductivityCheck { .. }
            | Kind::ConductivityTestPiece { .. }
            | Kind::DoesNotConduct { .. }
            | Kind::FamilyValues => Beside::Field(Field::Material),
            Kind::MachineMissing => Beside::Field(Field::Machine),
            Kind::QuantityMissing => Beside::Field(Field::Quantity),
            Kind::PartSizeUnknown | Kind::PartTooLarge { .. } | Kind::OutsidePart { .. } => {
                Beside::Field(Field::SizeX)
            }
            Kind::PartTooHeavy { .. } => Beside::Field(Field::Mass),
            Kind::PartValueUnknown => Beside::Field(Field::PartValue),
            _ => Beside::Plan,
        },
    }
}
