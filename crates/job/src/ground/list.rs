//! Lists of named things, each kept in one place: what stands in a row of the list is all that the
//! code has of it, beside its words.

/// A list of names: makes the enum, `ALL`, `KEYS`, `key` and `of_key`, and where something is said of each name, a
/// function for each thing that is said.
macro_rules! list {
    (
        $(#[$about:meta])*
        pub enum $List:ident;
        $($(#[$doc:meta])+ $Name:ident $key:literal;)+
    ) => {
        $(#[$about])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub enum $List { $($(#[$doc])+ $Name,)+ }

        impl $List {
            /// Every one, in the list's order.
            pub const ALL: &[Self] = &[$(Self::$Name,)+];

            /// Every name in files and commands, in the list's order.
            pub const KEYS: &[&str] = &[$($key,)+];

            /// Its name in files and commands: never changed once released.
            #[must_use]
            pub const fn key(self) -> &'static str {
                match self { $(Self::$Name => $key,)+ }
            }

            /// The one of this name.
            #[must_use]
            pub fn of_key(key: &str) -> Option<Self> {
                Self::ALL.iter().copied().find(|known| known.key() == key)
            }
        }
    };
    (
        $(#[$about:meta])*
        pub enum $List:ident { $($(#[$said:meta])+ $part:ident: $Type:ty,)+ }
        $($(#[$doc:meta])+ $Name:ident $key:literal $($value:expr),+;)+
    ) => {
        $crate::ground::list::list! {
            $(#[$about])*
            pub enum $List;
            $($(#[$doc])+ $Name $key;)+
        }

        const _: () = {
            struct Says { $($part: $Type,)+ }

            const fn says($($part: $Type,)+) -> Says {
                Says { $($part,)+ }
            }

            impl $List {
                const fn says(self) -> Says {
                    match self { $(Self::$Name => says($($value),+),)+ }
                }

                $($(#[$said])+
                #[must_use]
                pub const fn $part(self) -> $Type {
                    self.says().$part
                })+
            }
        };
    };
}

pub(crate) use list;
