//! What the customer is asked about checks, and what was answered.

use quillbore_job::answer::{Answer, How};
use quillbore_job::concern::Concern;

use crate::words::customer::{Answers, Lengths};

/// What customers read of them in German.
pub(super) const WORDS: Answers = Answers {
    please_confirm,
    offered,
};

const fn please_confirm(concern: Concern) -> &'static str {
    match concern {
        Concern::Limits => {
            "Diese Grenzen können mit den Elektroden, die wir haben, nicht zugesagt werden; bitte \
             nennen Sie uns Maß und Toleranz, die Sie annehmen können."
        }
        Concern::AssumedLimits => {
            "Die Zeichnung gibt keine Grenzen an; bitte sagen Sie uns, ob die oben genannten genügen."
        }
        Concern::WallBehind => {
            "Der Freiraum hinter dem Austritt ist kleiner, als die Elektrode ihn braucht; bitte \
             sagen Sie uns, ob die Wand dort Spuren haben darf oder ob etwas dahinter eingelegt \
             werden kann."
        }
        Concern::Step => {
            "Von beiden Seiten gebohrt, können sich die beiden Hälften verfehlen; bitte nennen Sie \
             uns den Absatz in der Mitte, den Sie annehmen können."
        }
        Concern::Depth => {
            "Eine Bohrtiefe ist so genau wie der Verschleiß der Elektrode, und diese Grenzen sind \
             enger; bitte nennen Sie uns Tiefe und Toleranz, die Sie annehmen können."
        }
    }
}

fn offered(answer: &Answer, lengths: &Lengths, date: &str) -> String {
    let Lengths { given, by, .. } = lengths;
    let what = match (answer.concern, answer.how) {
        (Concern::Limits, How::Agreed) => format!(
            "Die Grenzen ({given}) können nicht für jede Bohrung zugesagt werden; der Kunde ist \
             damit einverstanden"
        ),
        (Concern::Limits, How::Accepted) => format!(
            "Die Grenzen ({given}) sind enger, als dieses Verfahren sie in jeder Bohrung hält; \
             angeboten wird laut Zeichnung"
        ),
        (Concern::AssumedLimits, _) => {
            format!("Die Zeichnung gibt keine Grenzen an; angenommen: {given}")
        }
        (Concern::WallBehind, _) => {
            format!("Die Wand {given} hinter dem Austritt darf Spuren der Elektrode haben")
        }
        (Concern::Depth, _) => {
            let limits = if lengths.is_general {
                format!("ohne Angabe gilt nach ISO 2768-m {given} nach jeder Seite")
            } else {
                format!("zulässig ist {given} nach jeder Seite")
            };
            format!("Die Tiefe der Grundbohrung kann um {by} abweichen; {limits}")
        }
        (Concern::Step, _) => format!(
            "Von beiden Seiten gebohrt; wo sich die Hälften treffen, kann ein Absatz bis {by} bleiben"
        ),
    };
    match answer.how {
        How::Agreed => format!(
            "{what}. Vereinbart mit {}, {date}.",
            answer.said.trim_end_matches('.')
        ),
        How::Accepted => format!("{what}."),
    }
}
