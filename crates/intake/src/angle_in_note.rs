//! The angle of a hole, as a remark says it.
//!
//! It is read only where a clause gives one angle and nothing else; those of chamfers, countersinks
//! and points are none of the hole. Common practice, no source.

use crate::clauses::{Part, Remark};
use crate::note_words::NoteWord;
use crate::signs::Kind;

/// What a remark says of a hole's angle.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum AngleSaid {
    /// Nothing.
    Nothing,
    /// This, in English.
    Is(String),
    /// It speaks of it, but what it says is in doubt.
    InDoubt,
}

/// Reads a remark.
pub(crate) fn angle_in(remark: &Remark<'_>) -> AngleSaid {
    let clauses = remark.clauses.iter();
    let each = clauses.map(|parts| clause(remark.text, parts));
    let mut speaks = each.filter(|says| *says != AngleSaid::Nothing);
    match (speaks.next(), speaks.next()) {
        (None, _) => AngleSaid::Nothing,
        (Some(says), None) if !remark.is_open() => says,
        _ => AngleSaid::InDoubt,
    }
}

fn clause(remark: &str, parts: &[Part<'_>]) -> AngleSaid {
    if parts.iter().any(|part| part.is(NoteWord::OtherAngle)) {
        return AngleSaid::Nothing;
    }
    let kind = |at: usize| parts.get(at).map(|part| part.kind);
    let is_angle = |at: &usize| {
        let degrees = parts.get(at + 1).is_some_and(Part::is_degrees);
        let warmth = parts.get(at + 2).is_some_and(|unit| {
            kind(at + 1) == Some(Kind::Degree)
                && matches!(unit.text, "C" | "F")
                && parts
                    .get(at + 1)
                    .is_some_and(|sign| sign.at.end == unit.at.start)
        });
        // `0,5x45°` is a chamfer.
        let chamfer = *at >= 2
            && kind(at - 1) == Some(Kind::Times)
            && kind(at - 2).is_some_and(Kind::is_number);
        kind(*at).is_some_and(Kind::is_number) && degrees && !warmth && !chamfer
    };
    let mut angles = (0..parts.len()).filter(is_angle);
    match angles.next() {
        Some(at) => said(remark, parts, at).map_or(AngleSaid::InDoubt, AngleSaid::Is),
        None if parts.iter().any(|part| part.is(NoteWord::Slanted)) => AngleSaid::InDoubt,
        None => AngleSaid::Nothing,
    }
}

/// The angle whose number stands at a place, where nothing else stands there.
fn said(remark: &str, parts: &[Part<'_>], at: usize) -> Option<String> {
    let (before, from) = parts.split_at(at);
    let introduces = |part: &Part<'_>| {
        part.end.is_some()
            || part.is_hole()
            || [
                NoteWord::Slanted,
                NoteWord::Entry,
                NoteWord::To,
                NoteWord::Plain,
            ]
            .into_iter()
            .any(|said| part.is(said))
            || part.is_sign("@=:\u{2220}\"'*")
    };
    if !before.iter().all(introduces) {
        return None;
    }
    let number = from.first()?;
    let degrees = from.get(1)?;
    let arc = 2 + arc_parts(from.get(2..)?);
    let last = from.get(arc - 1)?;
    let mut said = match degrees.kind {
        Kind::Degree => remark.get(number.at.start..last.at.end)?.to_owned(),
        _ if arc == 2 => format!("{} deg", number.text),
        _ => return None,
    };
    let small = |part: &&Part<'_>| {
        part.is(NoteWord::Slanted)
            || part.is(NoteWord::Entry)
            || part.is_hole()
            || part.is(NoteWord::To)
            || part.is(NoteWord::Plain)
    };
    let mut rest = from.get(arc..)?.iter().skip_while(small).peekable();
    match rest.next() {
        None => {}
        // The surface's normal, in one order of words or the other.
        Some(basis)
            if basis.is(NoteWord::Surface)
                && rest.next_if(|part| part.is(NoteWord::Normal)).is_some() =>
        {
            said.push_str(" to normal");
        }
        Some(basis) if basis.is(NoteWord::Surface) => said.push_str(" to surface"),
        Some(basis) if basis.is(NoteWord::Normal) => said.push_str(" to normal"),
        Some(_) => return None,
    }
    rest.all(|part| part.is(NoteWord::Slanted)).then_some(said)
}

/// How many parts behind the degrees are minutes and seconds: `15'`, `15'30"`.
fn arc_parts(behind: &[Part<'_>]) -> usize {
    let is_arc = |at: usize, signs: &str| {
        behind.get(at).is_some_and(|part| part.kind.is_number())
            && behind.get(at + 1).is_some_and(|part| part.is_sign(signs))
    };
    match (
        is_arc(0, "'\u{2032}\u{2019}"),
        is_arc(2, "\"\u{2033}\u{201d}"),
    ) {
        (true, true) => 4,
        (true, false) => 2,
        (false, _) => 0,
    }
}

#[cfg(test)]
mod tests {
    use super::AngleSaid;
    use crate::clauses::{Remark, without_loose_accents};

    fn angle_in(remark: &str) -> AngleSaid {
        super::angle_in(&Remark::of(&without_loose_accents(remark)))
    }

    /// Remarks that give one angle and nothing against it. Common practice, no source.
    #[test]
    fn angles_that_remarks_say() {
        for (remark, angle) in [
            ("30 Grad", "30 deg"),
            ("30\u{b0}", "30\u{b0}"),
            ("22,5\u{b0}", "22,5\u{b0}"),
            ("22\u{b0}30'", "22\u{b0}30'"),
            ("30 deg to surface", "30 deg to surface"),
            ("30\u{b0} from the normal", "30\u{b0} to normal"),
            ("25\u{b0} to surface normal", "25\u{b0} to normal"),
            ("25 deg from the surface normal", "25 deg to normal"),
            ("30 Grad zur Oberfläche", "30 deg to surface"),
            ("30\u{b0} alla superficie", "30\u{b0} to surface"),
            ("30\u{b0} par rapport à la normale", "30\u{b0} to normal"),
            ("Winkel 30\u{b0}", "30\u{b0}"),
            ("Winkel: 30 Grad", "30 deg"),
            ("unter 30\u{b0}", "30\u{b0}"),
            ("30\u{b0} geneigt", "30\u{b0}"),
            ("angle of 30 deg", "30 deg"),
            ("incliné à 45 degrés", "45 deg"),
            ("45 grados", "45 deg"),
            ("inclinato di 20 gradi", "20 deg"),
            ("Sackloch, 30\u{b0}", "30\u{b0}"),
            ("Sackloch 30\u{b0}", "30\u{b0}"),
            ("30\u{b0}, Senkung 90\u{b0}", "30\u{b0}"),
        ] {
            assert_eq!(
                angle_in(remark),
                AngleSaid::Is(angle.to_owned()),
                "{remark}"
            );
        }
    }

    #[test]
    fn angles_in_doubt_are_not_read() {
        for remark in [
            "30\u{b0} or 45\u{b0}",
            "30\u{b0}?",
            "30\u{b0}/45\u{b0}",
            "30\u{b0} \u{b1}1\u{b0}",
            "not 30\u{b0}",
            "ca. 30\u{b0}",
            "about 30 deg",
            "every 30\u{b0}",
            "30\u{b0} to the horizontal",
            "30\u{b0} zur Achse B",
            "-30\u{b0}",
            "schräg gebohrt",
            "Winkel 30",
            "angle per drawing",
        ] {
            assert_eq!(angle_in(remark), AngleSaid::InDoubt, "{remark}");
        }
    }

    #[test]
    fn other_remarks_say_nothing_of_an_angle() {
        for remark in [
            "",
            "gratfrei",
            "durchgehend",
            "Fase 0,5 x 45\u{b0}",
            "0,5x45\u{b0}",
            "4x 90\u{b0}",
            "Senkung 90\u{b0}",
            "csk 82 deg",
            "Sackloch mit Spitze 118\u{b0}",
            "svasatura 90 gradi",
            "aged at 160\u{b0}C",
            "grado 7",
        ] {
            assert_eq!(angle_in(remark), AngleSaid::Nothing, "{remark}");
        }
    }
}
