//! Why run records teach nothing.

use quillbore_calc::recorded::{NotUsed, Unbelievable};

use super::slips;
use crate::life::untaught::Why;
use crate::typed::form::Form;

/// Why a record, or a figure of it, teaches nothing, and what to do about it.
#[must_use]
pub fn why(why: &Why, form: Form) -> String {
    match why {
        Why::LeftOut(reason) => format!("left out: {reason}"),
        Why::Unread(line) => format!("{} can't be read: correct it", slips::line(*line)),
        Why::NoRow(mark) if mark.is_empty() => {
            "names no hole mark: type the mark of the row that was drilled".to_owned()
        }
        Why::NoRow(mark) => {
            format!("no row of the job has the mark {mark}: type it as in the hole table")
        }
        Why::NoTube(name) => {
            format!("the shop has no electrode {name}: choose it from the list of electrodes")
        }
        Why::NotYet => "its date is after today: correct the date".to_owned(),
        Why::NotUsed(NotUsed::Unbelievable(what)) | Why::Unbelievable(what) => unbelievable(*what, form),
        Why::NotUsed(not) => not_used(*not).to_owned(),
        Why::NothingLost => {
            "the electrode is no shorter after than before, dressing deducted: measure or type again"
                .to_owned()
        }
        Why::TubeTooLong { before_mm, new_mm } => {
            let [before, new] = [*before_mm, *new_mm].map(|mm| form.fixed(mm, 0));
            format!(
                "an electrode of {before} mm, which is {new} mm long when new: correct the length before"
            )
        }
        Why::SeveralElectrodes(count) => format!(
            "{} electrodes in one line: the wear counts where each electrode has a line of its own",
            form.count(f64::from(*count))
        ),
        Why::Broke(_) => {
            "an electrode broke, so its length says nothing about the wear; the breakage counts"
                .to_owned()
        }
        Why::AllStops => "the stops are as long as the clock ran: correct one of them".to_owned(),
        Why::ClockTooShort => {
            "the sparking took longer than the clock ran, stops taken off: correct one of them"
                .to_owned()
        }
        Why::PinsInWords(text) => {
            format!("sizes by pin count where they are numbers alone, not \u{201c}{text}\u{201d}")
        }
        Why::MorePieces { told, received } => {
            let [told, received] = [*told, *received].map(|count| form.count(f64::from(count)));
            format!("{told} pieces good or scrap, but {received} were received: correct the counts")
        }
    }
}

const fn not_used(not: NotUsed) -> &'static str {
    match not {
        NotUsed::NoHoles => "doesn't say how many holes were drilled: type the number of holes",
        NotUsed::NoMaterial => {
            "its job has no material that the shop knows: choose one from the list"
        }
        NotUsed::SeveralMaterials => {
            "its holes go through layers of several materials, whose minutes can't be told apart"
        }
        NotUsed::NotFullMetal => {
            "a broken tool, or a hole opened with a thinner electrode, says nothing of plunges into full metal"
        }
        NotUsed::NoMachine => "its job has no machine of this shop: choose one from the list",
        NotUsed::NoFigures => {
            "there are no start values for such a hole, so there is nothing to compare it with"
        }
        NotUsed::Unbelievable(_) | NotUsed::Nothing => {
            "has neither minutes nor lengths, sizes, breakages or pieces that can be used"
        }
    }
}

fn unbelievable(what: Unbelievable, form: Form) -> String {
    let (name, unit, told, planned) = match what {
        Unbelievable::Spark(told, planned) => ("sparking", "min", told, planned),
        Unbelievable::Clock(told, planned) => ("by the clock", "min", told, planned),
        Unbelievable::Lost(told, planned) => ("length lost", "mm", told, planned),
        Unbelievable::Size(told, tube) => {
            let [told, tube] = [told, tube].map(|mm| form.fixed(mm, 3));
            return format!(
                "holes of {told} mm are not possible with an electrode of {tube} mm: correct size or electrode"
            );
        }
    };
    let [told, planned] = [told, planned].map(|value| form.fixed(value, 1));
    format!("{name} {told} {unit} is not possible where the start values say {planned}: correct it")
}
