//! The five texts of a price by telephone, and where on the sheet each of them goes.

use crate::ground::list::list;
use crate::typed::field::Field;
use crate::typed::row::Column;

/// A line or cell that somebody is led to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LeadsTo {
    /// A single line of the sheet.
    Field(Field),
    /// A column of the hole table, in its first row.
    Column(Column),
    /// The shop's rates.
    Rates,
}

list! {
    /// A field of the quick price, in the order in which one types.
    pub enum QuickField {
        /// Where on the sheet it goes.
        goes_to: LeadsTo,
    }

    /// The work material.
    Material "material" LeadsTo::Field(Field::Material);
    /// Diameter of the holes, with or without limits.
    Size "size" LeadsTo::Column(Column::Size);
    /// Their depth.
    Depth "depth" LeadsTo::Column(Column::Depth);
    /// Holes in one part.
    Holes "holes" LeadsTo::Column(Column::Count);
    /// Parts in the lot.
    Parts "parts" LeadsTo::Field(Field::Quantity);
}

/// What was typed for a price by telephone, each text as it stands.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Quick {
    /// The work material.
    pub material: String,
    /// Diameter of the holes, with or without limits.
    pub size: String,
    /// Their depth.
    pub depth: String,
    /// Holes in one part.
    pub holes: String,
    /// Parts in the lot.
    pub parts: String,
}

impl Quick {
    /// What was typed in a field.
    #[must_use]
    pub fn text(&self, field: QuickField) -> &str {
        match field {
            QuickField::Material => &self.material,
            QuickField::Size => &self.size,
            QuickField::Depth => &self.depth,
            QuickField::Holes => &self.holes,
            QuickField::Parts => &self.parts,
        }
    }

    /// The text of a field, to be typed in.
    pub const fn text_mut(&mut self, field: QuickField) -> &mut String {
        match field {
            QuickField::Material => &mut self.material,
            QuickField::Size => &mut self.size,
            QuickField::Depth => &mut self.depth,
            QuickField::Holes => &mut self.holes,
            QuickField::Parts => &mut self.parts,
        }
    }

    /// Whether nothing but white space was typed in a field.
    #[must_use]
    pub fn is_blank(&self, field: QuickField) -> bool {
        self.text(field).trim().is_empty()
    }
}
