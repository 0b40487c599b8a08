//! Words of remarks that bear on what a remark says of a hole's end or angle: denials, doubts, limits,
//! and small words that change nothing.
//!
//! English, German, French, Spanish and Italian; common practice, no source.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use crate::fold::Key;

/// What a word of a remark does to what stands beside it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum NoteWord {
    /// It denies.
    Not,
    /// It leaves several things open, wherever it stands in the remark.
    Or,
    /// It narrows: no more than a part of the hole, or another hole, is spoken of.
    Limit,
    /// What follows says for what or with what.
    With,
    /// It joins two remarks.
    And,
    /// It says nothing by itself.
    Plain,
    /// It speaks of how a hole comes out.
    Exit,
    /// A hollow that a hole can come out in.
    Cavity,
    /// It begins a hollow's name, in languages where the word is as common as `in`.
    In,
    /// It speaks of a hole's angle.
    Slanted,
    /// It may stand before the angle that a hole goes in at, and says nothing of one by itself.
    Entry,
    /// It stands before an angle, or between one and what it is measured from.
    To,
    /// What an angle is measured from: the surface.
    Surface,
    /// What an angle is measured from: the surface's normal.
    Normal,
    /// The angle beside it is that of a chamfer, countersink or point, and none of the hole.
    OtherAngle,
    /// A unit of length.
    Length,
    /// It looks like a word for an end and is none in a remark.
    NoEnd,
}

#[rustfmt::skip]
const WORDS: &[(NoteWord, [&str; 5])] = &[
    (NoteWord::Not, [
        "not, no, non, never, don, doesn, isn, aren, cannot, dont, isnt",
        "nicht, kein, keine, keinen, keiner, keines, nie, nein",
        "non, pas, ne, n, jamais, aucun, aucune",
        "no, nunca, ningún, ninguno, ninguna",
        "non, no, mai, nessun, nessuno, nessuna",
    ]),
    (NoteWord::Or, [
        "or, either, maybe, perhaps, possibly, tbd, tbc, tba, unclear, unknown, confirm, clarify, optional, if, unless, except",
        "oder, od, bzw, entweder, eventuell, evtl, ggf, vielleicht, möglich, unklar, unbekannt, klären, wahlweise, falls, wenn, außer",
        "ou, soit, peut, possible, incertain, inconnu, confirmer, si, sauf",
        "o, u, quizás, quizá, posible, desconocido, confirmar, salvo, excepto",
        "o, oppure, forse, possibile, sconosciuto, confermare, se, tranne, eccetto, salvo",
    ]),
    (NoteWord::Limit, [
        "only, just, until, till, up, partly, partially, partial, half, almost, nearly, instead, was, were, formerly, previously, like, see, other, another, both, first, second, one",
        "nur, lediglich, bis, halb, teilweise, teils, fast, beinahe, statt, anstatt, war, waren, früher, vorher, wie, siehe, andere, anderer, beide, erste, zweite",
        "seulement, uniquement, jusque, jusqu, partiel, partielle, partiellement, presque, lieu, était, avant, comme, voir, autre, premier, première",
        "solo, solamente, únicamente, hasta, parcial, parcialmente, casi, lugar, antes, como, ver, otro, otra, primera, primero",
        "solo, soltanto, solamente, fino, parziale, parzialmente, quasi, invece, prima, come, vedi, vedere, altro, altra, primo",
    ]),
    (NoteWord::With, [
        "for, with, without, per",
        "für, mit, ohne, laut, gemäß, zum, zur",
        "pour, avec, sans, selon",
        "para, con, sin, según",
        "per, con, senza, secondo",
    ]),
    (NoteWord::And, ["and", "und", "et", "y", "e, ed"]),
    (NoteWord::Plain, [
        "the, a, an, all, full, fully, completely, entirely, is, are, be, end, type, hole type",
        "der, die, das, dem, den, des, ein, eine, einen, ganz, komplett, vollständig, voll, alle, alles, ist, sind, als, Ende, Art, Typ, Bohrungsart, Lochart",
        "le, la, les, l, un, une, du, de, entièrement, complètement, tout, tous, toute, toutes, est, sont, type, fin",
        "el, la, los, las, un, una, completamente, totalmente, todo, todos, es, son, tipo, fin",
        "il, lo, la, i, gli, un, uno, una, completamente, totalmente, tutto, tutti, è, sono, tipo, fine",
    ]),
    (NoteWord::Exit, [
        "exit, exits, open, opens, break, breaks, breaking, runs",
        "mündet, läuft",
        "sort, sortie",
        "sale, salida",
        "esce, uscita",
    ]),
    (NoteWord::Cavity, [
        "cavity, cavities, core, pocket, channel, slot, bore",
        "Hohlraum, Kavität, Kern, Tasche, Kanal, Nut",
        "cavité, noyau, poche, canal, rainure",
        "cavidad, núcleo, cajera, canal, ranura",
        "cavità, nucleo, tasca, canale, cava",
    ]),
    (NoteWord::In, ["", "", "dans", "", "nel, nella, nello"]),
    (NoteWord::Slanted, [
        "angle, angled, tilt, tilted, inclined, inclination, slanted, entry angle",
        "Winkel, Neigung, Neigungswinkel, Eintrittswinkel, Bohrwinkel, Bohrungswinkel, Anstellwinkel, schräg, geneigt, geneigte, Schrägbohrung",
        "angle, incliné, inclinée, inclinés, inclinées, inclinaison, oblique",
        "ángulo, inclinado, inclinada, inclinados, inclinación, oblicuo",
        "angolo, inclinato, inclinata, inclinati, inclinazione, obliquo",
    ]),
    (NoteWord::Entry, ["entry", "", "", "", ""]),
    (NoteWord::To, [
        "to, from, off, at, of, against",
        "zu, zur, zum, gegen, von, bei, unter, um",
        "à, a, par, rapport, de",
        "a, con, respecto, de",
        "a, alla, dalla, rispetto, con, di",
    ]),
    (NoteWord::Surface, ["surface, face", "Oberfläche, Fläche", "surface, face", "superficie, cara", "superficie, faccia"]),
    (NoteWord::Normal, ["normal, perpendicular", "Normale, Normalen, Senkrechte, Senkrechten", "normale, perpendiculaire", "normal, perpendicular", "normale, perpendicolare"]),
    (NoteWord::OtherAngle, [
        "chamfer, chamfered, chamfers, csk, countersink, countersunk, csink, sink, cone, conical, point, tip, taper, tapered",
        "Fase, Fasen, gefast, anfasen, Senkung, Senkungen, gesenkt, ansenken, senken, Kegel, Kegelsenkung, Konus, konisch, Spitze, Spitzenwinkel, Bohrerspitze",
        "chanfrein, chanfreiner, chanfreins, fraisure, pointe, cône, conique",
        "bisel, chaflán, avellanado, avellanar, punta, cono, cónico",
        "smusso, smussi, smussare, svasatura, svasato, svasare, punta, cono, conico",
    ]),
    (NoteWord::Length, ["mm, in, inch, inches", "Zoll", "", "", ""]),
    (NoteWord::NoEnd, ["pass", "", "pas, dans", "pas", "pass"]),
];

/// How words begin that speak of a hole's end without being one for it.
const OF_ENDS: [&str; 32] = [
    "sack",
    "grundloch",
    "grundbohr",
    "blind",
    "borgn",
    "cieg",
    "ciec",
    "durchgang",
    "durchgeh",
    "durchgaeng",
    "durchbohr",
    "durchbruch",
    "through",
    "thru",
    "debouch",
    "travers",
    "pasant",
    "passant",
    "kreuz",
    "cross",
    "incroci",
    "intersec",
    "muend",
    "trifft",
    "meets",
    "connect",
    "rencontre",
    "encuentra",
    "incontra",
    "hits",
    "closed",
    "geschlossen",
];

/// What stands anywhere in such a word, as of `nichtdurchgehend`.
const IN_WORDS_OF_ENDS: [&str; 3] = ["durchgeh", "sackloch", "durchgang"];

/// All that one word does.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct NoteWords(u32);

impl NoteWords {
    /// What a folded word does.
    pub(crate) fn of(key: &Key) -> Self {
        let listed = key.spellings().filter_map(|word| LISTED.get(word));
        Self(listed.fold(0, |all, words| all | words.0))
    }

    /// Whether it does this.
    pub(crate) const fn has(self, said: NoteWord) -> bool {
        self.0 & (1 << said as u32) != 0
    }
}

/// Whether a folded word that is none for an end speaks of one all the same.
pub(crate) fn speaks_of_an_end(key: &Key) -> bool {
    let begins = OF_ENDS.iter().any(|begin| key.spelled.starts_with(begin));
    let within = IN_WORDS_OF_ENDS
        .iter()
        .any(|part| key.spelled.contains(part));
    (begins || within) && key.spelled != "throughout"
}

static LISTED: LazyLock<BTreeMap<String, NoteWords>> = LazyLock::new(|| {
    let mut listed: BTreeMap<String, NoteWords> = BTreeMap::new();
    for (said, languages) in WORDS {
        let words = languages.iter().flat_map(|words| words.split(','));
        for word in words.filter(|word| !word.trim().is_empty()) {
            for spelling in Key::of_text(word).spellings() {
                listed.entry(spelling.to_owned()).or_default().0 |= 1 << *said as u32;
            }
        }
    }
    listed
});
