//! What a caller with a broken tool says, in the order in which a call goes, and where on the sheet each of it goes.

use crate::ground::list::list;
use crate::typed::field::Field;
use crate::typed::quick::LeadsTo;
use crate::typed::row::Column;

list! {
    /// A question of a call about a broken tool, in the order in which it is asked.
    pub enum CallField {
        /// Where on the sheet it goes.
        goes_to: LeadsTo,
    }

    /// Its thread or size, what it is, what it is made of.
    Tool "tool" LeadsTo::Column(Column::Broken);
    /// What the part is made of.
    Material "material" LeadsTo::Field(Field::Material);
    /// The part's size along x.
    SizeX "size_x" LeadsTo::Field(Field::SizeX);
    /// Along y.
    SizeY "size_y" LeadsTo::Field(Field::SizeY);
    /// Along z.
    SizeZ "size_z" LeadsTo::Field(Field::SizeZ);
    /// How heavy it is.
    Mass "mass" LeadsTo::Field(Field::Mass);
    /// Through or blind.
    End "end" LeadsTo::Column(Column::End);
    /// How deep below the face the stub begins.
    Below "below" LeadsTo::Column(Column::Below);
    /// How long what is left is.
    Left "left" LeadsTo::Column(Column::Depth);
    /// What was tried.
    Tried "tried" LeadsTo::Column(Column::Tried);
    /// What the part is worth.
    Value "value" LeadsTo::Field(Field::PartValue);
    /// When it is needed.
    Due "due" LeadsTo::Field(Field::Due);
    /// Whether and when the part comes in.
    ComesIn "comes_in" LeadsTo::Field(Field::ComesIn);
    /// Who it is for.
    Customer "customer" LeadsTo::Field(Field::Customer);
    /// Name and number.
    Contact "contact" LeadsTo::Field(Field::Contact);
}

/// What a caller said, each text as it stands.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Call {
    texts: [String; CallField::ALL.len()],
}

impl Call {
    /// What was said to a question.
    #[must_use]
    pub fn text(&self, field: CallField) -> &str {
        &self.texts[field as usize]
    }

    /// The same, to be typed in.
    pub const fn text_mut(&mut self, field: CallField) -> &mut String {
        &mut self.texts[field as usize]
    }

    /// Whether nothing but white space was said to a question.
    #[must_use]
    pub fn is_blank(&self, field: CallField) -> bool {
        self.text(field).trim().is_empty()
    }
}
