//! Captions of fields that several papers have.

/// Captions of fields that several papers have.
#[derive(Clone, Copy, Debug)]
pub struct Captions {
    /// The paper's number.
    pub number: &'static str,
    /// The day.
    pub date: &'static str,
    /// The part.
    pub part: &'static str,
    /// Its revision.
    pub revision: &'static str,
    /// Who ordered.
    pub customer: &'static str,
    /// The customer's number of the order.
    pub customers_order: &'static str,
    /// The part's name.
    pub part_name: &'static str,
    /// The drawing.
    pub drawing: &'static str,
    /// What state the material is in.
    pub condition: &'static str,
    /// Its hardness.
    pub hardness: &'static str,
    /// Who signs.
    pub name: &'static str,
    /// The signature.
    pub signature: &'static str,
    /// How many parts.
    pub quantity: &'static str,
    /// How many parts were ordered.
    pub parts_ordered: &'static str,
    /// The mass.
    pub mass: &'static str,
    /// Who took it in.
    pub received_by: &'static str,
}
