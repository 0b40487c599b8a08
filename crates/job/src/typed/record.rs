//! Records of typed cells, each kept in one list: a row of the list is all that the code has of a
//! column, beside its words.

/// A record of typed cells: makes the struct with what it has beside them, the list of its columns,
/// and what can be done to a cell by its column.
///
/// A row of the list is the column's name, its name in files, the struct's field, the value's type
/// and the reader of its text.
macro_rules! record {
    (
        $(#[$about:meta])*
        pub struct $Record:ident { $($(#[$aside_about:meta])+ pub $aside:ident: $Aside:ty,)* }

        $(#[$seen_about:meta])*
        struct $Seen:ident;
        $(#[$column_about:meta])*
        pub enum $Column:ident;
        $($(#[$doc:meta])+ $Name:ident $key:literal $field:ident: $Type:ty, $reader:expr;)+
    ) => {
        $(#[$about])*
        #[derive(Clone, Debug, Default, PartialEq)]
        pub struct $Record {
            $($(#[$aside_about])+ pub $aside: $Aside,)*
            $($(#[$doc])+ pub $field: $crate::typed::entry::Entry<$Type>,)+
        }

        $crate::ground::list::list! {
            $(#[$column_about])*
            pub enum $Column {
                /// How the text of its cells is read.
                kind: $crate::typed::read_cell::CellKind,
            }
            $($(#[$doc])+ $Name $key $reader.kind;)+
        }

        $(#[$seen_about])*
        #[derive(Debug, Default)]
        struct $Seen {
            $($field: $crate::typed::seen::Seen<$Type>,)+
        }

        impl $Seen {
            /// Reads a text into the cell of a column of a record; what was read as such before is shared.
            fn put(
                &mut self,
                record: &mut $Record,
                column: $Column,
                text: &str,
                read_in: $crate::typed::read_cell::ReadIn,
            ) {
                match column {
                    $($Column::$Name => {
                        record.$field = self.$field.entry(text, read_in, &$reader);
                    })+
                }
            }
        }

        impl $Record {
            /// Reads a text into the cell of a column.
            pub fn put(
                &mut self,
                column: $Column,
                text: &str,
                read_in: $crate::typed::read_cell::ReadIn,
            ) {
                match column {
                    $($Column::$Name => self.$field = $reader.entry(text, read_in),)+
                }
            }

            /// The cell in a column, without its type.
            #[must_use]
            pub fn cell(&self, column: $Column) -> $crate::typed::entry::CellLook<'_> {
                match column { $($Column::$Name => self.$field.look(),)+ }
            }

            /// Whether a cell can't be read.
            #[must_use]
            pub fn is_unread(&self) -> bool {
                $(self.$field.why().is_some())||+
            }

            /// Whether the cells of two in a column were read as the same.
            #[must_use]
            pub fn reads_alike(&self, other: &Self, column: $Column) -> bool {
                match column {
                    $($Column::$Name => self.$field.value() == other.$field.value(),)+
                }
            }

            /// What it has beside its cells, taken apart without a rest.
            pub(crate) const fn beside_cells(&self) -> ($(&$Aside,)*) {
                let Self { $($aside,)* $($field: _,)+ } = self;
                ($($aside,)*)
            }
        }
    };
}

pub(crate) use record;
