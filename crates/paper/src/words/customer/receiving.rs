//! Words of the receiving slip.

/// The receiving slip.
#[derive(Clone, Copy, Debug)]
pub struct Receiving {
    /// The paper's name.
    pub title: &'static str,
    /// What the receiving slip is for.
    pub received: &'static str,
    /// What the shop signs.
    pub by_shop: &'static str,
    /// What the customer signs.
    pub by_customer: &'static str,
    /// Name of the section that is signed.
    pub signed: &'static str,
    /// Caption of the parts that are here.
    pub so_far: &'static str,
    /// Caption of the parts that are not.
    pub still_missing: &'static str,
    /// Caption of the spare parts.
    pub spares: &'static str,
    /// Name of the section of one delivery.
    pub parts: &'static str,
    /// Nothing came in yet.
    pub nothing: &'static str,
    /// Caption of the parts of a delivery.
    pub count: &'static str,
    /// Caption of the material's heat.
    pub heat: &'static str,
    /// Caption of a coating.
    pub coating: &'static str,
    /// Caption of the pieces.
    pub pieces: &'static str,
    /// Caption of damage.
    pub damage: &'static str,
    /// Caption of what was attached.
    pub files: &'static str,
}
