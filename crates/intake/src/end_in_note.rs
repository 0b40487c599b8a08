//! Where a hole ends, as a remark says it.
//!
//! A wrong end costs more than a question: a remark is read only where a clause of it begins with the
//! words for one end and says nothing that could turn them. Common practice, no source.

use crate::cell_words::CellWord;
use crate::clauses::{Part, Remark};
use crate::note_words::{NoteWord, speaks_of_an_end};
use crate::signs::Kind;

/// What a remark says of a hole's end.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum EndSaid {
    /// Nothing.
    Nothing,
    /// This.
    Is(CellWord),
    /// It speaks of it, but what it says is in doubt.
    InDoubt {
        /// The ends that it names.
        names: Vec<CellWord>,
        /// It denies something.
        denies: bool,
    },
}

/// What one clause says.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Clause {
    Nothing,
    Is(CellWord),
    InDoubt,
}

/// Reads a remark.
pub(crate) fn end_in(remark: &Remark<'_>) -> EndSaid {
    let clauses = &remark.clauses;
    let each = clauses
        .iter()
        .map(|parts| clause(parts, clauses.len() == 1));
    let mut speaks = each.filter(|says| *says != Clause::Nothing);
    let Some(first) = speaks.next() else {
        return EndSaid::Nothing;
    };
    let agreed = speaks.all(|says| says == first);
    let open = remark.is_open();
    let bare_no = clauses.iter().any(|parts| is_bare_answer(parts));
    match first {
        Clause::Is(end) if agreed && !open && !bare_no => EndSaid::Is(end),
        _ => EndSaid::InDoubt {
            names: remark.parts().filter_map(|part| part.end).collect(),
            denies: remark.parts().any(|part| part.is(NoteWord::Not)),
        },
    }
}

/// A yes or no by itself answers something else of the remark.
fn is_bare_answer(parts: &[Part<'_>]) -> bool {
    let answers = |part: &Part<'_>| {
        part.is(NoteWord::Not)
            || matches!(part.kind, Kind::Word(Some(CellWord::Yes | CellWord::No)))
    };
    parts.iter().all(answers)
}

fn clause(parts: &[Part<'_>], alone: bool) -> Clause {
    let named = parts.iter().any(|part| part.end.is_some());
    let spoken = |part: &Part<'_>| part.end.is_none() && speaks_of_an_end(part.key());
    let hollow = |part: &Part<'_>| part.is_hole() || part.is(NoteWord::Cavity);
    let mut behind_in = parts
        .iter()
        .skip_while(|part| !part.is(NoteWord::In))
        .skip(1);
    let hinted = parts.iter().any(spoken) || behind_in.any(hollow);
    if !named && !hinted {
        return Clause::Nothing;
    }
    let turned = parts
        .iter()
        .any(|part| part.is(NoteWord::Not) || part.is(NoteWord::Limit));
    if hinted || turned {
        return Clause::InDoubt;
    }
    said_first(parts, alone).map_or(Clause::InDoubt, Clause::Is)
}

/// The end that a clause begins with, where nothing behind it can turn it.
fn said_first(parts: &[Part<'_>], alone: bool) -> Option<CellWord> {
    let says_nothing = |part: &Part<'_>| {
        part.end.is_none() && (part.is_hole() || part.is(NoteWord::Plain) || part.is_sign("-:\"'*"))
    };
    let exits = |part: &Part<'_>| part.is(NoteWord::Exit);
    let begins = parts
        .iter()
        .position(|part| !says_nothing(part) && !exits(part))?;
    let (before, from) = parts.split_at(begins);
    let end = from.first()?.end?;
    if end != CellWord::Into && before.iter().any(exits) {
        return None;
    }
    let of_phrase =
        |part: &&Part<'_>| part.end == Some(end) || says_nothing(part) && !part.is_sign(":");
    let phrase = from.iter().take_while(of_phrase).count();
    let (phrase, tail) = from.split_at(phrase);
    let mut words = phrase.iter().filter(|part| part.end.is_some());
    let abbreviated = words.all(|part| part.key().spelled.len() <= SHORT);
    let holds = match end {
        _ if abbreviated => tail.is_empty() && alone,
        CellWord::Into => is_hollow(tail),
        _ => tail.is_empty() || is_measure(tail, end) || is_purpose(tail),
    };
    holds.then_some(end)
}

/// Letters of an abbreviation such as `DG` at most: it is one only where nothing else stands there.
const SHORT: usize = 3;

/// `cavity`, `B`, `3`: what a hole comes out in.
fn is_hollow(tail: &[Part<'_>]) -> bool {
    let hollow = |part: &&Part<'_>| {
        part.end.is_none()
            && (part.is(NoteWord::Cavity) || part.is(NoteWord::Plain) || part.is_hole())
    };
    let named = tail.iter().skip_while(hollow).collect::<Vec<_>>();
    match named.as_slice() {
        [] => true,
        [mark] => mark.is_capital() || mark.kind == Kind::Whole,
        [mark, number] => {
            mark.is_capital() && number.kind == Kind::Whole && mark.at.end == number.at.start
        }
        _ => false,
    }
}

/// A depth or an angle and nothing else; a bare number behind `through` may be something else.
fn is_measure(tail: &[Part<'_>], end: CellWord) -> bool {
    let says = |part: &Part<'_>| {
        part.is_degrees()
            || matches!(
                part.kind,
                Kind::DepthSign | Kind::Word(Some(CellWord::Deep))
            )
    };
    let measures = |part: &Part<'_>| {
        part.kind.is_number() || says(part) || part.is(NoteWord::Length) || part.is_sign("\"'=")
    };
    tail.iter().all(measures) && (end == CellWord::Blind || tail.iter().any(says))
}

/// For what the hole is, or with what: no other hole is named.
fn is_purpose(tail: &[Part<'_>]) -> bool {
    let other = |part: &Part<'_>| part.end.is_some() || part.is_hole() || part.is_capital();
    tail.first().is_some_and(|first| first.is(NoteWord::With)) && !tail.iter().any(other)
}

#[cfg(test)]
mod tests {
    use super::EndSaid;
    use crate::cell_words::CellWord;
    use crate::clauses::{Remark, without_loose_accents};

    fn end_in(remark: &str) -> EndSaid {
        super::end_in(&Remark::of(&without_loose_accents(remark)))
    }

    /// Remarks that say one end and nothing against it. Common practice, no source.
    #[test]
    fn ends_that_remarks_say() {
        let truth: [(CellWord, &[&str]); 3] = [
            (
                CellWord::Through,
                &[
                    "durchgehend",
                    "durch",
                    "DG",
                    "THRU ALL",
                    "through hole for pin, ream after",
                    "Thru-hole",
                    "drill thru, c'bore 3 deep",
                    "ganz durch",
                    "durch und durch",
                    "durch/durchgehend",
                    "durchgehend, gratfrei, keine Fase",
                    "durchgehend ohne Grat",
                    "Durchgangsbohrung",
                    "durchgehend 30 Grad",
                    "débouchant",
                    "de\u{301}bouchant",
                    "trous débouchants",
                    "trou traversant pour goupille",
                    "passante",
                    "foro passante",
                    "agujero pasante, sin rebaba",
                    "Ende: durchgehend",
                ],
            ),
            (
                CellWord::Blind,
                &[
                    "Sackloch",
                    "Sackloch, Grund egal",
                    "Sackloch (Grund egal)",
                    "Sackloch - Grund egal",
                    "Grat entfernen; Sackloch",
                    "Sackloch 12 tief",
                    "Sackloch Tiefe 12 mm",
                    "Sackloch mit flachem Grund",
                    "Sackl.",
                    "SL",
                    "blind",
                    "BLIND HOLE",
                    "blind 12",
                    "blind, 30\u{b0}",
                    "borgne",
                    "trou borgne, fond plat",
                    "ciego",
                    "foro cieco con fondo piano",
                    "Grundloch",
                    "end: blind",
                ],
            ),
            (
                CellWord::Into,
                &[
                    "into cavity",
                    "into hole B",
                    "opens into the bore",
                    "into B2",
                    "kreuzend",
                ],
            ),
        ];
        for (end, remarks) in truth {
            for remark in remarks {
                assert_eq!(end_in(remark), EndSaid::Is(end), "{remark}");
            }
        }
    }

    #[test]
    fn ends_in_doubt_are_not_read() {
        for remark in [
            "not through",
            "nicht durchgehend",
            "nichtdurchgehend",
            "non-through",
            "non débouchant",
            "pas débouchant",
            "no pasante",
            "non passante",
            "kein Sackloch",
            "don't drill through",
            "blind or through?",
            "through?",
            "durchgehend oder Sackloch",
            "durchgehend/Sackloch",
            "A: durchgehend",
            "E durchgehend",
            "durchgängig",
            "trifft Bohrung B",
            "starts blind, finish through",
            "A durchgehend, B Sackloch",
            "durchgehend: nein",
            "durchgehend, nein",
            "Sackloch, evtl. durchgehend",
            "drill through coating only",
            "through coating",
            "through first wall only",
            "through 2",
            "durch die Beschichtung",
            "durchgehend bis Nut",
            "durchgehend außer Pos. 3",
            "durchgehend mit Bohrung B",
            "through into cavity",
            "5 mm from through hole B",
            "trifft Sackloch B",
            "wie Sackloch B",
            "Sackloch B",
            "statt Sackloch",
            "Sackloch war durchgehend",
            "Gewinde durchgehend",
            "blind, do not break through",
            "Sackbohrloch",
            "Kreuzbohrung zu B",
            "mündet in B",
            "sortie dans la cavité",
            "débouche dans alésage 3",
            "passante nel foro B",
            "SL, gratfrei",
            "M3 SL 8",
        ] {
            let said = end_in(remark);
            assert!(
                matches!(said, EndSaid::InDoubt { .. }),
                "{remark}: {said:?}"
            );
        }
    }

    #[test]
    fn other_remarks_say_nothing_of_an_end() {
        for remark in [
            "",
            "gratfrei",
            "siehe Ansicht X",
            "30 Grad",
            "deburr throughout",
            "pas de bavure",
            "voir dans le plan",
            "pass/fail gauge",
            "Grund egal",
            "not critical",
            "x",
            "?",
        ] {
            assert_eq!(end_in(remark), EndSaid::Nothing, "{remark}");
        }
    }

    #[test]
    fn a_doubt_tells_what_it_names_and_denies() {
        let doubt = |names: &[CellWord], denies| EndSaid::InDoubt {
            names: names.to_vec(),
            denies,
        };
        assert_eq!(
            end_in("nicht durchgehend"),
            doubt(&[CellWord::Through], true)
        );
        assert_eq!(
            end_in("blind or through?"),
            doubt(&[CellWord::Blind, CellWord::Through], false)
        );
    }
}
