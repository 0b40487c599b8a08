//! What is written on the page of the first start.

use quillbore_job::shop::sheet::ShopColumn;
use quillbore_job::words::shop_sheet as shop;

use crate::shop::StartLine;

/// The head of the page.
pub const HEAD: &str = "Your shop in a few lines";

/// What they are for.
pub const ABOUT: &str = "Nothing has to be filled in now: what is left in pencil is a sample. Before a paper leaves, type name, address and currency, also where the pencil is right; quotations say so until the rates are yours. Everything can be changed on the shop's page (F7).";

/// Goes on to the first job.
pub const START: &str = "start quoting";

/// Opens the whole page of the shop.
pub const ALL: &str = "all of the shop";

/// Opens the sample jobs in a window of their own.
pub const SAMPLES: &str = "see sample jobs";

/// Removes the sample jobs.
pub const REMOVE_SAMPLES: &str = "remove the sample jobs";

/// That the sample jobs are opened.
pub const SAMPLES_OPEN: &str =
    "The sample jobs open in a window of their own: nothing of them counts for your shop.";

/// That the sample jobs are gone.
pub const SAMPLES_REMOVED: &str = "The sample jobs are removed.";

/// That the sample jobs can't be opened.
#[must_use]
pub fn samples_not_opened(why: &str) -> String {
    format!("The sample jobs can't be opened: {why}. From a terminal: quillbore --samples")
}

/// The label of a place.
#[must_use]
pub const fn label(line: StartLine) -> &'static str {
    match line {
        StartLine::Of(line) => shop::line(line),
        StartLine::Unit => "mm or in",
        StartLine::Rate(ShopColumn::MachineHour) => "machine, per hour",
        StartLine::Rate(ShopColumn::LaborHour) => "labor, per hour",
        StartLine::Rate(ShopColumn::Margin) => "margin on price, %",
        StartLine::Rate(ShopColumn::Minimum) => "minimum charge per lot",
        StartLine::Machine(ShopColumn::Name) => "a machine: its name",
        StartLine::Rate(column) | StartLine::Machine(column) => shop::column(column),
        StartLine::Sizes => "electrode diameters in the drawer, such as 0.3 0.5 0.8",
    }
}

/// What a place is for.
#[must_use]
pub const fn about(line: StartLine) -> &'static str {
    match line {
        StartLine::Of(line) => shop::line_about(line),
        StartLine::Unit => "What bare lengths are meant in on the shop's pages.",
        StartLine::Rate(column) | StartLine::Machine(column) => shop::column_about(column),
        StartLine::Sizes => {
            "With spaces between. With diameters of your own the sample electrodes are no choice any more."
        }
    }
}
