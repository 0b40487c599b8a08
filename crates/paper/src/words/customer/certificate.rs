//! Words of the certificate of conformance.

use quillbore_job::Form;

/// The certificate of conformance.
#[derive(Clone, Copy, Debug)]
pub struct Certificate {
    /// The paper's name.
    pub title: &'static str,
    /// What was done, in words.
    pub process: &'static str,
    /// What is not stated.
    pub not_stated: &'static str,
    /// No deviation is on record.
    pub no_deviations: &'static str,
    /// No inspection record was issued.
    pub no_record: &'static str,
    /// Name of the section of what is stated.
    pub statement: &'static str,
    /// Name beside how the holes were made.
    pub made_how: &'static str,
    /// Name beside what differs in the revision.
    pub revision: &'static str,
    /// Name beside what was checked.
    pub checked: &'static str,
    /// Name beside the deviations.
    pub deviations: &'static str,
    /// Name beside the statement itself.
    pub stated: &'static str,
    /// Caption of the work material.
    pub material: &'static str,
    /// Caption of the material's heat.
    pub heat: &'static str,
    /// Caption of the inspection record.
    pub record: &'static str,
    /// Caption of the place of issue.
    pub place: &'static str,
    /// What the statement is made by.
    pub declared: &'static str,
    /// Name beside the requirements.
    pub requirements: &'static str,
    /// Caption of the signer's position.
    pub position: &'static str,
    /// Name of the section of what was delivered.
    pub parts: &'static str,
    /// Head of the day of delivery.
    pub delivered: &'static str,
    /// Of a mark: the parts that had every hole of it checked, of how many, and its holes not good.
    pub checked_of: fn(Form, &str, [u32; 2], u32) -> String,
    /// What the parts are stated to conform to: drawing and order, as far as they are on record.
    pub conforms_to: fn(&str, &str) -> String,
    /// What was asked of the inspection.
    pub asked: fn(&str) -> String,
    /// What is stated, and only as far as it was checked; the inspection records by number.
    pub states: fn(bool, Option<&str>) -> String,
}
