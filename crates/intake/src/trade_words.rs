//! Trade words at the heads of hole tables, for each meaning in English, German, French, Spanish and
//! Italian.
//!
//! Sources: terms of size, limit and deviation as ISO 286-1 and ISO 14405-1 have them, of holes as
//! ISO 129-1 and ISO 15786 have them, from memory; all others common practice, no source. Words are
//! compared folded, so that case, accents, points, blanks and a plural's end don't count. A word
//! that means two things stands in [`AMBIGUOUS`]: what the column holds is then told by its values,
//! or asked.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use quillbore_job::Column;

use crate::fold::Key;
use crate::meaning::Meaning;
use Meaning::{
    Axis, DepthTolerance, Lower, LowerDeviation, Ours, Point, Tolerance, Upper, UpperDeviation,
};

/// Words of the five languages, a line each, parted by commas.
type Languages = [&'static str; 5];

#[rustfmt::skip]
const HEADS: &[(Meaning, Languages)] = &[
    (Ours(Column::Mark), [
        "mark, hole, hole id, hole mark, hole label, hole ref, hole tag, hole no, hole number, id, label, letter, item, item no, tag, pos, pos no, symbol",
        "Bohrung, Bohrung Nr, Bohrungs Nr, Bohrungsnummer, Bohr Nr, Loch, Loch Nr, Lochnummer, Pos Nr, Positionsnummer, lfd Nr, laufende Nummer, Kennung, Kennbuchstabe, Buchstabe",
        "trou, trou n°, n° trou, n° de trou, numéro de trou, numéro du trou, repère, rep, repère trou, lettre",
        "agujero, taladro, orificio, agujero n°, n° agujero, n.º de agujero, número de agujero, marca, letra",
        "foro, foro n°, n° foro, n. foro, numero foro, sigla, sigla foro, marca, rif foro, lettera",
    ]),
    (Ours(Column::Count), [
        "count, qty, quantity, quant, places, pl, plcs, pcs, no of holes, number of holes, holes per part, holes part, holes per piece, holes pc, qty per part, hole count, hole qty, number off, no reqd, no req'd, no required, number required, qty reqd, reqd, req'd, times, x times",
        "Anzahl, Anz, Stk, Stck, Stück, Stückzahl, Menge, Bohrungsanzahl, Anzahl Bohrungen, Anzahl der Bohrungen, Anzahl Löcher, Anzahl der Löcher, Bohrungen je Teil, Bohrungen pro Teil, Löcher je Teil, mal",
        "quantité, qté, nombre, nbre, nb, nombre de trous, nbre de trous, nbre trous, nb de trous, nb trous, trous par pièce, fois",
        "cantidad, cant, ctd, cdad, número de agujeros, n.º de agujeros, n° agujeros, número de taladros, agujeros por pieza, uds, unidades, veces",
        "quantità, q.tà, numero fori, numero di fori, n. fori, n. di fori, fori per pezzo, pezzi, pz, volte",
    ]),
    (Ours(Column::Size), [
        "size, dia, diam, diameter, hole dia, hole diameter, hole size, nominal, nominal dia, nominal diameter, nominal size, drill, drill dia, drill size, drill no, bore dia",
        "Durchmesser, Durchm, Dm, Bohrungsdurchmesser, Bohrdurchmesser, Lochdurchmesser, Nenndurchmesser, Nennmaß, Größe, Bohr Ø, Bohrungs Ø, Loch Ø, Nenn Ø",
        "diamètre, diamètre trou, diamètre du trou, diamètre nominal, taille, cote nominale, dimension nominale",
        "diámetro, diámetro agujero, diámetro del agujero, diámetro nominal, tamaño, medida nominal, cota nominal",
        "diametro, diametro foro, diametro del foro, diametro nominale, dimensione nominale, quota nominale, misura nominale",
    ]),
    (Tolerance, [
        "tol, tolerance, dia tol, diameter tolerance, size tol, size tolerance, hole tol, hole tolerance, tol dia, plus minus, ±, ± tol, tol ±, fit, fit class, class of fit, tolerance class",
        "Toleranz, Durchmessertoleranz, Bohrungstoleranz, Bohrtoleranz, Lochtoleranz, Maßtoleranz, Toleranz Ø, Ø Toleranz, Passung, Toleranzklasse, Toleranzfeld, Abmaß, Abmaße, Grenzabmaße",
        "tolérance, tolérance Ø, tolérance diamètre, tolérance du diamètre, ajustement, classe de tolérance, écarts",
        "tolerancia, tolerancia Ø, tolerancia diámetro, tolerancia del diámetro, ajuste, clase de tolerancia, desviaciones",
        "tolleranza, toll, tolleranza Ø, tolleranza diametro, tolleranza del diametro, accoppiamento, classe di tolleranza, scostamenti",
    ]),
    (Lower, [
        "min, minimum, low, lower, lower limit, lower limit of size, LLS, min dia, dia min, min diameter, minimum diameter, min size",
        "Mindestmaß, Kleinstmaß, Mindestdurchmesser, kleinster Durchmesser, Durchmesser min, unteres Grenzmaß, untere Grenze, unterer Grenzwert",
        "mini, cote mini, cote minimale, dimension minimale, diamètre mini, diamètre minimal, diamètre min, Ø mini, limite inférieure, lim inf",
        "mínimo, medida mínima, cota mínima, diámetro mínimo, diámetro mín, límite inferior, lím inf",
        "minimo, dimensione minima, quota minima, diametro minimo, diametro min, limite inferiore, lim inf",
    ]),
    (Upper, [
        "max, maximum, high, upper, upper limit, upper limit of size, ULS, max dia, dia max, max diameter, maximum diameter, max size",
        "Höchstmaß, Größtmaß, Höchstdurchmesser, größter Durchmesser, Durchmesser max, oberes Grenzmaß, obere Grenze, oberer Grenzwert",
        "maxi, cote maxi, cote maximale, dimension maximale, diamètre maxi, diamètre maximal, diamètre max, Ø maxi, limite supérieure, lim sup",
        "máximo, medida máxima, cota máxima, diámetro máximo, diámetro máx, límite superior, lím sup",
        "massimo, dimensione massima, quota massima, diametro massimo, diametro max, limite superiore, lim sup",
    ]),
    (LowerDeviation, [
        "lower deviation, lower dev, lower tolerance, lower tol, minus, minus tol, minus tolerance, tol minus, tolerance minus, dia tol minus, EI",
        "unteres Abmaß, unt Abmaß, unt Abm, u Abm, u Abmaß, u Tol, unt Tol, Abmaß unten, unteres Grenzabmaß, untere Toleranz, Toleranz unten, Tol unten, Minustoleranz, Toleranz minus, Ø Tol minus",
        "écart inférieur, écart inf, tolérance inférieure, tolérance inf, tol inf, tolérance mini, tol mini",
        "desviación inferior, desviación inf, desv inf, tolerancia inferior, tol inf",
        "scostamento inferiore, scostamento inf, scost inf, tolleranza inferiore, toll inf",
    ]),
    (UpperDeviation, [
        "upper deviation, upper dev, upper tolerance, upper tol, plus, plus tol, plus tolerance, tol plus, tolerance plus, dia tol plus, ES",
        "oberes Abmaß, ob Abmaß, ob Abm, o Abm, o Abmaß, o Tol, ob Tol, Abmaß oben, oberes Grenzabmaß, obere Toleranz, Toleranz oben, Tol oben, Plustoleranz, Toleranz plus, Ø Tol plus",
        "écart supérieur, écart sup, tolérance supérieure, tolérance sup, tol sup, tolérance maxi, tol maxi",
        "desviación superior, desviación sup, desv sup, tolerancia superior, tol sup",
        "scostamento superiore, scostamento sup, scost sup, tolleranza superiore, toll sup",
    ]),
    (Ours(Column::Depth), [
        "depth, deep, dp, length, hole depth, depth of hole, hole length, drill depth, axial depth, depth on axis",
        "Tiefe, Bohrtiefe, Bohrungstiefe, Lochtiefe, Länge, Bohrlänge, Bohrungslänge, Lochlänge",
        "profondeur, prof, profondeur trou, profondeur du trou, profondeur de perçage, longueur",
        "profundidad, prof, profundidad agujero, profundidad del agujero, longitud",
        "profondità, prof, profondità foro, profondità del foro, lunghezza, lungh",
    ]),
    (DepthTolerance, [
        "depth tol, depth tolerance, tol depth",
        "Tiefentoleranz, Toleranz Tiefe, Tol Tiefe, Tiefe Toleranz",
        "tolérance profondeur, tolérance de profondeur, tol prof",
        "tolerancia profundidad, tolerancia de profundidad, tol prof",
        "tolleranza profondità, tolleranza di profondità, toll prof",
    ]),
    (Ours(Column::End), [
        "end, hole end, through, thru, blind, through blind, thru blind, through or blind, hole type",
        "Ende, Bohrungsende, Bohrungsart, Lochart, durch, durchgehend, Durchgang, Durchgangsbohrung, Durchgangsloch, Sackloch, Grundloch, durchgehend Sackloch",
        "fin du trou, type de trou, débouchant, traversant, borgne, débouchant borgne",
        "tipo de agujero, pasante, ciego, pasante ciego",
        "tipo foro, tipo di foro, passante, cieco, passante cieco",
    ]),
    (Ours(Column::Angle), [
        "angle, tilt, entry angle, hole angle, drill angle, inclination, ang, ∠, α",
        "Winkel, Neigung, Neigungswinkel, Eintrittswinkel, Bohrwinkel, Bohrungswinkel, Anstellwinkel",
        "inclinaison, angle d'entrée, angle du trou",
        "ángulo, inclinación, ángulo de entrada, ángulo del agujero",
        "angolo, inclinazione, angolo foro, angolo di ingresso",
    ]),
    (Ours(Column::Surface), [
        "surface, entry surface, entry face",
        "Eintrittsfläche",
        "surface d'entrée, face d'entrée",
        "superficie de entrada, cara de entrada",
        "superficie di ingresso, superficie di entrata",
    ]),
    (Ours(Column::Exit), [
        "exit, exit surface, exit face",
        "Austritt, Austrittsfläche",
        "surface de sortie, face de sortie",
        "superficie de salida, cara de salida",
        "superficie di uscita",
    ]),
    (Ours(Column::Recess), [
        "recess, pocket, counterbore",
        "Vertiefung, Tasche, Senkung",
        "lamage, poche",
        "rebaje, cajera",
        "lamatura, tasca",
    ]),
    (Ours(Column::Broken), [
        "broken tool, broken tap, broken drill, broken",
        "abgebrochenes Werkzeug, Gewindebohrerbruch, abgebrochen",
        "outil cassé, taraud cassé",
        "herramienta rota, macho roto",
        "utensile rotto, maschio rotto",
    ]),
    (Ours(Column::Below), [
        "below face, below surface",
        "unter der Fläche",
        "sous la face",
        "bajo la cara",
        "sotto la faccia",
    ]),
    (Ours(Column::Tried), [
        "tried, tried so far, already tried",
        "schon versucht",
        "déjà essayé",
        "ya intentado",
        "già provato",
    ]),
    (Ours(Column::Wire), [
        "wire, wire dia, wire diameter, wire size, edm wire",
        "Draht, Drahtdurchmesser, Schneiddraht, Drahtstärke",
        "fil, diamètre fil, diamètre du fil",
        "hilo, diámetro hilo, diámetro del hilo",
        "filo, diametro filo, diametro del filo",
    ]),
    (Ours(Column::LeastExit), [
        "least exit, least free exit, free exit, exit dia, exit diameter, min exit, minimum exit, min exit dia",
        "Mindestaustritt, Austrittsdurchmesser, freier Austritt, kleinster Austritt",
        "diamètre de sortie, sortie mini, sortie minimale",
        "diámetro de salida, salida mínima",
        "diametro di uscita, uscita minima",
    ]),
    (Ours(Column::ToProfile), [
        "to profile, center to profile, distance to profile, profile distance, to contour, distance to contour",
        "Konturabstand, Abstand Kontur, Abstand zur Kontur, Mitte bis Kontur",
        "distance au profil, distance au contour",
        "distancia al perfil, distancia al contorno",
        "distanza dal profilo, distanza dal contorno",
    ]),
    (Ours(Column::Proved), [
        "proved by, open check, proof, checked by, checked with",
        "Nachweis, Nachweis durch, Durchgangsprüfung, geprüft mit",
        "contrôle d'ouverture, contrôlé par, contrôlé avec",
        "comprobado con, comprobado por",
        "verificato con, controllato con",
    ]),
    (Ours(Column::Behind), [
        "behind, behind exit, wall behind, back wall, gap behind, room behind, clearance behind",
        "dahinter, Abstand dahinter, Freiraum dahinter, Rückwand, Abstand Rückwand, Wand dahinter",
        "derrière, espace derrière, paroi derrière, paroi arrière, jeu derrière",
        "detrás, espacio detrás, pared detrás, pared trasera",
        "dietro, spazio dietro, parete dietro, parete posteriore",
    ]),
    (Ours(Column::Backed), [
        "backed, backing",
        "hinterlegt, Hinterlegung, hinterfüllt",
        "appui derrière, garni derrière",
        "respaldo, con respaldo",
        "riempito dietro, con riempimento",
    ]),
    (Ours(Column::Layers), [
        "layers, layer",
        "Schicht, Schichten, Schichtaufbau, Lagen",
        "couche, couches",
        "capa, capas",
        "strato, strati",
    ]),
    (Ours(Column::CoreTrapped), [
        "core trapped, trapped core, loose core",
        "loser Kern, Kern gefangen",
        "noyau piégé, noyau libre",
        "núcleo atrapado, núcleo suelto",
        "nucleo intrappolato, nucleo libero",
    ]),
    (Ours(Column::Ends), [
        "from, ends, sides, ends drilled from",
        "Bohrseiten, Seiten",
        "côtés, côtés de perçage",
        "lados, lados de taladrado",
        "lati, lati di foratura",
    ]),
    (Ours(Column::Tube), [
        "tube, electrode",
        "Elektrode, Röhrchen",
        "électrode",
        "electrodo",
        "elettrodo, tubetto",
    ]),
    (Ours(Column::DressEvery), [
        "dress, dressing, dress every",
        "abrichten, abrichten alle",
        "dressage, dresser tous les",
        "reavivar, reavivar cada",
        "ravvivatura, ravvivare ogni",
    ]),
    (Ours(Column::Note), [
        "note, notes, remark, comment",
        "Bemerkung, Anmerkung, Hinweis, Kommentar",
        "remarque, observation, commentaire",
        "nota, observación, observaciones, comentario",
        "osservazione, osservazioni, annotazione, annotazioni, commento, commenti",
    ]),
    (Meaning::Unit, [
        "unit, units, uom, unit of measure",
        "Einheit, Einheiten, Maßeinheit, ME",
        "unité, unités",
        "unidad, unidad de medida",
        "unità, unità di misura",
    ]),
    (Point(0), ["x, x pos, pos x, x coord, coord x, x coordinate, x loc, x location", "x Koordinate, Koordinate x, x Position, x Wert, Lage x, x Lage", "coordonnée x, position x", "coordenada x, posición x", "coordinata x, posizione x, quota x"]),
    (Point(1), ["y, y pos, pos y, y coord, coord y, y coordinate, y loc, y location", "y Koordinate, Koordinate y, y Position, y Wert, Lage y, y Lage", "coordonnée y, position y", "coordenada y, posición y", "coordinata y, posizione y, quota y"]),
    (Point(2), ["z, z pos, pos z, z coord, coord z, z coordinate, z loc, z location", "z Koordinate, Koordinate z, z Position, z Wert, Lage z, z Lage", "coordonnée z, position z", "coordenada z, posición z", "coordinata z, posizione z, quota z"]),
    (Axis(0), ["i, axis i, nx, ux, direction x, vector x", "Achse i, Richtung x, Vektor x", "axe i, vecteur x", "eje i, dirección x", "asse i, direzione x, vettore x"]),
    (Axis(1), ["j, axis j, ny, uy, direction y, vector y", "Achse j, Richtung y, Vektor y", "axe j, vecteur y", "eje j, dirección y", "asse j, direzione y, vettore y"]),
    (Axis(2), ["k, axis k, nz, uz, direction z, vector z", "Achse k, Richtung z, Vektor z", "axe k, vecteur z", "eje k, dirección z", "asse k, direzione z, vettore z"]),
];

/// What words that mean several things can mean; where a star stands before them, the first is taken
/// if nothing speaks against it.
#[rustfmt::skip]
pub(crate) const AMBIGUOUS: &[(&str, &[Meaning])] = &[
    ("*d, dim, dimension, Maß, Maße, cote, medida, quota, misura, cota, spec, specification, callout", &[Ours(Column::Size), Ours(Column::Depth)]),
    ("bore, bores, alésage, alésages", &[Ours(Column::Size), Ours(Column::Mark)]),
    ("t", &[Ours(Column::Depth), Tolerance, DepthTolerance]),
    ("l, lg, h, p", &[Ours(Column::Depth)]),
    ("n, no, nr, num, number, Nummer, numéro, número, numero, holes, Bohrungen, Löcher, trous, agujeros, taladros, orificios, fori", &[Ours(Column::Mark), Ours(Column::Count)]),
    ("q, st", &[Ours(Column::Count)]),
    ("type, kind, Art, Typ, tipo, fin, fine, Ausführung", &[Ours(Column::End), Ours(Column::Mark)]),
    ("feature, position, posición, posizione, Lage, ref, référence, referencia, riferimento, rif, name, Name, nom, nombre del agujero, nome, Bezeichnung, description, Beschreibung, désignation, descripción, denominación, descrizione, denominazione", &[Ours(Column::Mark), Ours(Column::Size), Ours(Column::Note)]),
    ("w", &[Ours(Column::Angle)]),
];

/// Words of columns that the hole table has no place for: what is in them is always asked about.
#[rustfmt::skip]
const OTHERS: Languages = [
    "finish, surface finish, roughness, ra, rz, thickness, wall, wall thickness, pitch, spacing, pcd, bolt circle, material, weight, price, cost, time, tool, program, position tolerance, position tol, positional, positional tolerance, location tolerance, location tol, true position, true pos, perpendicularity, straightness, roundness, circularity, cylindricity, flatness, parallelism, concentricity, coaxiality, runout, angularity, form tolerance, geometric tolerance, parts, no of parts, number of parts, qty of parts, qty parts, quantity of parts, part qty, parts qty, lot size, batch, batch size, order qty, order quantity, lot, serial, rev, drawing, date, customer, zone, sheet",
    "Oberfläche, Rauheit, Rautiefe, Oberflächengüte, Dicke, Wandstärke, Wanddicke, Teilung, Teilkreis, Werkstoff, Gewicht, Preis, Zeit, Werkzeug, Programm, Positionstoleranz, Lagetoleranz, Lage Tol, Formtoleranz, Winkeltoleranz, Rechtwinkligkeit, Geradheit, Rundheit, Zylindrizität, Ebenheit, Parallelität, Konzentrizität, Koaxialität, Rundlauf, Teile, Anzahl Teile, Anzahl der Teile, Teileanzahl, Losgröße, Bestellmenge, Los, Charge, Zeichnung, Datum, Kunde, Blatt",
    "rugosité, état de surface, épaisseur, pas, entraxe, matière, poids, prix, temps, outil, programme, localisation, tolérance de position, tolérance de localisation, perpendicularité, rectitude, circularité, cylindricité, planéité, parallélisme, concentricité, coaxialité, battement, nombre de pièces, nb de pièces, nbre de pièces, quantité de pièces, pièces, taille du lot, série, plan, client, feuille",
    "rugosidad, acabado, espesor, paso, peso, precio, tiempo, herramienta, programa, tolerancia de posición, perpendicularidad, rectitud, redondez, cilindricidad, planitud, paralelismo, concentricidad, coaxialidad, piezas, cantidad de piezas, número de piezas, lote, serie, plano, fecha, cliente, hoja",
    "rugosità, finitura, spessore, passo, materiale, prezzo, tempo, utensile, programma, tolleranza di posizione, perpendicolarità, rettilineità, rotondità, cilindricità, planarità, parallelismo, concentricità, coassialità, numero di pezzi, quantità di pezzi, numero pezzi, lotto, matricola, disegno, data, foglio",
];

/// Words that say no more than that a hole is spoken of.
#[rustfmt::skip]
const HOLE_WORDS: Languages = [
    "hole, holes, bore, bores, drilling, drilled, drill",
    "Bohrung, Bohrungen, Loch, Löcher, gebohrt",
    "trou, trous, perçage, perçages, alésage",
    "agujero, agujeros, taladro, taladros, orificio, orificios",
    "foro, fori, foratura",
];

/// Words that say nothing of what a column holds.
#[rustfmt::skip]
const FILLERS: Languages = [
    "of, the, per, part, each, for, a, and, or, total, nominal, nom, ref, finished, req, required, spec, on, value",
    "der, die, das, des, je, pro, Teil, und, oder, nach, von, gesamt, soll, nenn, Wert, fertig",
    "de, du, des, la, le, par, pièce, et, ou, d'un, total, nominal",
    "del, de, la, el, por, pieza, y, o, nominal, total",
    "di, del, della, dei, per, pezzo, e, nominale, totale",
];

/// Words above the numbers of lines.
#[rustfmt::skip]
const NUMBERINGS: Languages = [
    "pos, pos no, position, position no, item, item no, item number, no, num, number, line, line no, row",
    "Pos Nr, Positionsnummer, lfd Nr, laufende Nummer, Nr, Nummer, Zeile, lfd",
    "n°, numéro, ligne, poste",
    "n.º, número, línea, fila, posición, ítem",
    "n, numero, riga, posizione, voce",
];

/// Words at the beginning of a line that sums up.
#[rustfmt::skip]
const TOTALS: Languages = [
    "total, totals, sum, subtotal, grand, carried",
    "Summe, Gesamt, Gesamtsumme, Gesamtzahl, Gesamtanzahl, insgesamt, Zwischensumme, Zw, ges, Übertrag",
    "somme, totaux, sous-total, sous, général, générale",
    "suma, totales, general",
    "somma, totale, totali, subtotale, generale, riporto",
];

/// Words for what a unit is named for.
#[rustfmt::skip]
const DIMENSIONS: Languages = [
    "dimension, dimensions, dim, dims, unit, units, uom",
    "Maß, Maße, Maßangaben, Einheit, Einheiten, Maßeinheit, Maßeinheiten",
    "cote, cotes, unité, unités",
    "medida, medidas, cota, cotas, dimensión, dimensiones, unidad, unidades",
    "misura, misure, quota, quote, dimensione, dimensioni, unità",
];

/// What words at a head say; all of a head's words are looked up together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Heading {
    /// One meaning.
    One(Meaning),
    /// One of several; the first, if it is the usual one.
    OneOf {
        meanings: &'static [Meaning],
        usual: bool,
    },
    /// Something that the hole table has no column for.
    Other,
}

/// What some words mean at a head.
pub(crate) fn heading(key: &Key) -> Option<Heading> {
    let found = |word: &str| LISTS.heads.get(word).copied();
    key.spellings().find_map(found).or_else(|| {
        // A plural's end.
        ["s", "n", "en", "es"].iter().find_map(|end| {
            let cut = |word: &str| {
                let word = word.strip_suffix(end).filter(|word| word.len() >= 4);
                word.and_then(found)
            };
            key.spellings().find_map(cut)
        })
    })
}

/// Whether a folded word says no more than that a hole is spoken of.
pub(crate) fn is_hole_word(key: &Key) -> bool {
    LISTS.holes.has(key)
}

/// Whether a folded word says nothing of what a column holds.
pub(crate) fn is_filler(key: &Key) -> bool {
    LISTS.fillers.has(key)
}

/// Whether folded words stand above the numbers of lines.
pub(crate) fn is_numbering(key: &Key) -> bool {
    LISTS.numberings.has(key)
}

/// Whether a folded word begins a line that sums up.
pub(crate) fn is_total_word(key: &Key) -> bool {
    LISTS.totals.has(key) || key.spelled == "sum"
}

/// Whether a folded word is one for what a unit is named for.
pub(crate) fn is_of_dimensions(key: &Key) -> bool {
    LISTS.dimensions.has(key)
}

/// Folded words.
struct Set(std::collections::BTreeSet<String>);

impl Set {
    fn of(languages: Languages) -> Self {
        Self(
            languages
                .iter()
                .flat_map(|words| folded_words(words))
                .collect(),
        )
    }

    fn has(&self, key: &Key) -> bool {
        key.spellings().any(|word| self.0.contains(word))
    }
}

struct Lists {
    heads: BTreeMap<String, Heading>,
    holes: Set,
    fillers: Set,
    numberings: Set,
    totals: Set,
    dimensions: Set,
}

static LISTS: LazyLock<Lists> = LazyLock::new(|| {
    let mut heads = BTreeMap::new();
    for (meaning, languages) in HEADS {
        for word in languages.iter().flat_map(|words| folded_words(words)) {
            heads.insert(word, Heading::One(*meaning));
        }
    }
    for (words, meanings) in AMBIGUOUS {
        let usual = words.starts_with('*');
        for word in folded_words(words) {
            heads
                .entry(word)
                .or_insert(Heading::OneOf { meanings, usual });
        }
    }
    for word in OTHERS.iter().flat_map(|words| folded_words(words)) {
        heads.entry(word).or_insert(Heading::Other);
    }
    Lists {
        heads,
        holes: Set::of(HOLE_WORDS),
        fillers: Set::of(FILLERS),
        numberings: Set::of(NUMBERINGS),
        totals: Set::of(TOTALS),
        dimensions: Set::of(DIMENSIONS),
    }
});

/// The words of a list, each folded in both spellings.
fn folded_words(words: &str) -> impl Iterator<Item = String> {
    words.split(',').flat_map(|word| {
        let key = Key::of_text(word);
        key.spellings().map(str::to_owned).collect::<Vec<_>>()
    })
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use super::{AMBIGUOUS, HEADS, Heading, OTHERS, folded_words, heading};
    use crate::fold::Key;

    #[test]
    fn no_word_stands_under_two_meanings() {
        let mut seen = BTreeMap::new();
        let heads = HEADS.iter().flat_map(|(meaning, languages)| {
            languages
                .iter()
                .map(move |words| (*words, format!("{meaning:?}")))
        });
        let ambiguous = AMBIGUOUS
            .iter()
            .map(|(words, several)| (*words, format!("{several:?}")));
        let others = OTHERS.iter().map(|words| (*words, "other".to_owned()));
        for (words, meaning) in heads.chain(ambiguous).chain(others) {
            for word in folded_words(words) {
                assert!(!word.is_empty(), "{words}");
                let before = seen.insert(word.clone(), meaning.clone());
                assert!(before.is_none_or(|before| before == meaning), "{word}");
            }
        }
    }

    #[test]
    fn plurals_are_the_words() {
        let of = |word: &str| heading(&Key::of_text(word));
        for (plural, word) in [
            ("Toleranzen", "Toleranz"),
            ("Tiefen", "Tiefe"),
            ("Bemerkungen", "Bemerkung"),
            ("remarques", "remarque"),
            ("diámetros", "diámetro"),
            ("diameters", "diameter"),
        ] {
            assert!(matches!(of(plural), Some(Heading::One(_))), "{plural}");
            assert_eq!(of(plural), of(word));
        }
        assert_eq!(of("whatever"), None);
    }
}
