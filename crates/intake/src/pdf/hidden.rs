//! Layers of a page that are not shown (ISO 32000-1, 8.11, from memory): what is drawn on them is left.

use std::collections::BTreeSet;

use hayro_syntax::Pdf;
use hayro_syntax::object::{Array, Dict, MaybeRef, Name, Object};

/// Which layers are off, and whether what is drawn now is shown.
pub(super) struct Hidden {
    off: BTreeSet<(u32, i32)>,
    /// Of each content that was begun and not ended, whether it is shown.
    shown: Vec<bool>,
    /// Those that were begun beyond [`DEEPEST`].
    deeper: usize,
}

/// Content within content is followed so deep.
const DEEPEST: usize = 1_000;

impl Hidden {
    /// The layers of a file as they are when it is opened.
    pub(super) fn of(pdf: &Pdf) -> Self {
        let mut hidden = Self {
            off: BTreeSet::new(),
            shown: Vec::new(),
            deeper: 0,
        };
        let catalog = pdf.xref().get::<Dict<'_>>(pdf.xref().root_id());
        let layers = catalog.and_then(|catalog| catalog.get::<Dict<'_>>(b"OCProperties"));
        let Some((layers, now)) = layers.and_then(|layers| {
            let now = layers.get::<Dict<'_>>(b"D")?;
            Some((layers, now))
        }) else {
            return hidden;
        };
        let is_off = now
            .get::<Name<'_>>(b"BaseState")
            .is_some_and(|state| state.as_ref() == b"OFF");
        if is_off {
            hidden.off.extend(refs(&layers, b"OCGs"));
        }
        for on in refs(&now, b"ON") {
            hidden.off.remove(&on);
        }
        hidden.off.extend(refs(&now, b"OFF"));
        hidden
    }

    /// Whether what is drawn now is shown.
    pub(super) fn is_shown(&self) -> bool {
        self.shown.last().copied().unwrap_or(true)
    }

    /// Content begins that is on no layer of its own.
    pub(super) fn begin(&mut self) {
        self.push(true);
    }

    /// Content begins on the layer that stands under a key.
    pub(super) fn begin_on(&mut self, dict: &Dict<'_>, key: &[u8]) {
        let is_on = dict.get::<Dict<'_>>(key).is_none_or(|layer| {
            let of_several = layer
                .get::<Name<'_>>(b"Type")
                .is_some_and(|name| name.as_ref() == b"OCMD");
            if of_several {
                self.is_on_by_several(&layer)
            } else {
                let id = dict.get_ref(key).map(|id| (id.obj_number, id.gen_number));
                id.is_none_or(|id| !self.off.contains(&id))
            }
        });
        self.push(is_on);
    }

    /// What was begun last ends.
    pub(super) fn end(&mut self) {
        match self.deeper.checked_sub(1) {
            Some(deeper) => self.deeper = deeper,
            None => drop(self.shown.pop()),
        }
    }

    fn push(&mut self, is_on: bool) {
        if self.shown.len() == DEEPEST {
            self.deeper += 1;
        } else {
            self.shown.push(self.is_shown() && is_on);
        }
    }

    fn is_on_by_several(&self, layer: &Dict<'_>) -> bool {
        let mut of = refs(layer, b"OCGs");
        of.extend(
            layer
                .get_ref(b"OCGs")
                .map(|id| (id.obj_number, id.gen_number)),
        );
        if of.is_empty() {
            return true;
        }
        let on = |id: &(u32, i32)| !self.off.contains(id);
        match layer.get::<Name<'_>>(b"P").as_ref().map(Name::as_str) {
            Some("AllOn") => of.iter().all(on),
            Some("AnyOff") => !of.iter().all(on),
            Some("AllOff") => !of.iter().any(on),
            _ => of.iter().any(on),
        }
    }
}

/// The parts of the file that a list names.
fn refs(dict: &Dict<'_>, key: &[u8]) -> Vec<(u32, i32)> {
    let list = dict.get::<Array<'_>>(key);
    let named = list.iter().flat_map(Array::raw_iter);
    let ids = named.filter_map(|each: MaybeRef<Object<'_>>| each.as_obj_ref());
    ids.map(|id| (id.obj_number, id.gen_number)).collect()
}
