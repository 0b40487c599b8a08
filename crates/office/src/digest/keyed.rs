//! How kinds of slips and their lines are written into a cache: by the names that job files have.

/// Writes and reads the things of a list by their keys.
macro_rules! keyed {
    ($($(#[$doc:meta])+ $module:ident: $List:ty;)+) => {
        $($(#[$doc])+
        pub(super) mod $module {
            use std::borrow::Cow;

            use serde::de::Error as _;
            use serde::{Deserialize as _, Deserializer, Serializer};

            pub(crate) fn serialize<S: Serializer>(of: &$List, to: S) -> Result<S::Ok, S::Error> {
                to.serialize_str(of.key())
            }

            pub(crate) fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<$List, D::Error> {
                let key = Cow::<'de, str>::deserialize(from)?;
                <$List>::of_key(&key).ok_or_else(|| D::Error::custom("no such name"))
            }
        })+
    };
}

keyed! {
    /// Kinds of slips.
    slip_kind: quillbore_job::SlipKind;
    /// Lines of slips.
    line: quillbore_job::Line;
}
