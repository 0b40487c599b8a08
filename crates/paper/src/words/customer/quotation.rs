//! Words of the quotation, many of which the confirmation has, too.

use quillbore_job::concern::Told;
use quillbore_job::{Field, Form};

use crate::words::kinds::Kinds;

/// The quotation.
#[derive(Clone, Copy, Debug)]
pub struct Quotation {
    /// The paper's name.
    pub title: &'static str,
    /// What it is until it is issued.
    pub draft: &'static str,
    /// The rates are not the shop's own yet.
    pub sample_rates: &'static str,
    /// The minimum charge decided a price.
    pub minimum: &'static str,
    /// What the price comes to for each start hole.
    pub per_hole: fn(&str) -> String,
    /// Caption of the customer.
    pub for_whom: &'static str,
    /// Caption of whom it goes to.
    pub contact: &'static str,
    /// Caption of the customer's number of the inquiry.
    pub customers_reference: &'static str,
    /// Caption of the drawing.
    pub drawing_and_revision: &'static str,
    /// Caption of the material.
    pub material: &'static str,
    /// Caption of the part's size.
    pub size: &'static str,
    /// Name of the section of what is offered.
    pub scope: &'static str,
    /// Head of the size.
    pub size_drawn: &'static str,
    /// There are no rows.
    pub no_holes: &'static str,
    /// Lead of what the customer asks of the inspection.
    pub inspection: &'static str,
    /// A hole that is drilled from both its ends.
    pub both_ends: &'static str,
    /// A hole whose exit is backed.
    pub backed: &'static str,
    /// Lead of points at which the work waits for the customer.
    pub hold_points: &'static str,
    /// Lead of work that is done elsewhere.
    pub outside: &'static str,
    /// Lead of the recast limit.
    pub recast: &'static str,
    /// Lead of the thickness of the wall.
    pub wall: &'static str,
    /// Lead of the drawing's general tolerance.
    pub tolerance: &'static str,
    /// Name of the section of prices, and head of a price.
    pub price: &'static str,
    /// What the prices are for.
    pub price_remark: &'static str,
    /// There is no price yet.
    pub not_priced: &'static str,
    /// Head of what is charged once.
    pub charged_once: &'static str,
    /// What is charged once, by the field that its cost was typed in.
    pub charge: fn(Field) -> &'static str,
    /// Name of the section of conditions.
    pub conditions: &'static str,
    /// Name beside the lead time.
    pub lead_time: &'static str,
    /// Name beside how long the quotation stands.
    pub valid_name: &'static str,
    /// Name beside what the customer is asked.
    pub please_confirm: &'static str,
    /// Name beside what the customer agreed to.
    pub agreed: &'static str,
    /// Name beside what the price rests on.
    pub assumed: &'static str,
    /// Name beside what the price leaves out.
    pub not_included: &'static str,
    /// Name beside the terms.
    pub terms: &'static str,
    /// Name of the section that the customer signs.
    pub acceptance: &'static str,
    /// What the customer does with it.
    pub acceptance_remark: &'static str,
    /// What the customer signs.
    pub we_order: &'static str,
    /// What the customer does with the points that are to be confirmed.
    pub tick: &'static str,
    /// What is assumed where a broken tool sits in a thread.
    pub thread: &'static str,
    /// Assumptions that every quotation of this process rests on, one paragraph each.
    pub assumptions: [&'static str; 4],
    /// Neither lead time nor an end of validity was written down.
    pub to_be_agreed: &'static str,
    /// Taxes and freight.
    pub net: &'static str,
    /// Holes that are offered as through ones because nobody gave their end, by their marks.
    pub ends_assumed: fn(&[String]) -> String,
    /// What a customer is told of a finding; none of one that is told with its facts.
    pub for_the_customer: fn(Told) -> Option<&'static str>,
    /// That a lower limit was assumed to an upper one.
    pub lower_assumed: fn(&str, &str) -> String,
    /// Which quotations it takes the place of.
    pub replaces: fn(&str) -> String,
    /// What is offered, by the kinds of holes that there are.
    pub offered: fn(Kinds) -> &'static str,
    /// What is offered of broken tools.
    pub offered_tools: &'static str,
    /// How far the price of burning them out may go, from and to.
    pub tools_range: fn(&str, &str) -> String,
    /// Lead time in days.
    pub lead: fn(Form, u32) -> String,
    /// How long the quotation stands.
    pub valid: fn(Form, u32, &str) -> String,
    /// The minimum charge, where it decided.
    pub minimum_note: fn(&str) -> String,
    /// The most that the shop is liable for.
    pub liability: fn(&str) -> String,
    /// The last day that the quotation stands.
    pub until: fn(&str) -> String,
    /// The drawing in its revision.
    pub drawing: fn(&str, &str) -> String,
}
