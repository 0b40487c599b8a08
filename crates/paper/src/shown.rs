//! Figures as papers show them: fixed decimals, so that a column stands point under point.

use quillbore_calc::Limits;
use quillbore_calc::quantity::MM_PER_INCH;
use quillbore_job::{Form, Unit};

/// A length in the job's unit.
pub fn length(form: Form, mm: f64, unit: Unit, decimals: usize) -> String {
    let value = match unit {
        Unit::Mm => mm,
        Unit::Inch => mm / MM_PER_INCH,
    };
    form.fixed(value, decimals)
}

/// Decimals of limits and sizes: the usual ones, and up to two more where a limit needs them.
pub fn fine(unit: Unit, limits_mm: impl Iterator<Item = Limits>) -> usize {
    let usual = match unit {
        Unit::Mm => 3,
        Unit::Inch => 4,
    };
    let each = limits_mm.flat_map(|limits| [limits.lower, limits.upper]);
    each.fold(usual, |decimals, mm| {
        (decimals..usual + 2)
            .find(|decimals| exact(mm, unit, *decimals))
            .unwrap_or(usual + 2)
    })
}

/// Whether a length is told in full by so many decimals.
fn exact(mm: f64, unit: Unit, decimals: usize) -> bool {
    let value = match unit {
        Unit::Mm => mm,
        Unit::Inch => mm / MM_PER_INCH,
    };
    let scale = [1.0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6][decimals.min(6)];
    // Well under any tolerance, well over the noise of a conversion.
    (value * scale - (value * scale).round()).abs() < 1e-6
}

/// A lower limit; a maximum alone has none.
pub fn lower(form: Form, mm: f64, unit: Unit, decimals: usize) -> String {
    if mm > 0.0 {
        length(form, mm, unit, decimals)
    } else {
        "\u{2013}".to_owned()
    }
}

/// Decimals of depths and coordinates.
pub fn middling(unit: Unit) -> usize {
    match unit {
        Unit::Mm => 2,
        Unit::Inch => 3,
    }
}

/// A length with its unit, in as many decimals more than usual as it was typed with, two at most.
pub fn in_full(form: Form, mm: f64, unit: Unit) -> String {
    let usual = middling(unit);
    let decimals = (usual..usual + 2).find(|decimals| exact(mm, unit, *decimals));
    with_unit(form, mm, unit, decimals.unwrap_or(usual + 2))
}

/// Decimals of lengths that a rule on the bench decides.
pub fn coarse(unit: Unit) -> usize {
    match unit {
        Unit::Mm => 0,
        Unit::Inch => 1,
    }
}

/// What stands where nothing is known.
pub fn missing() -> String {
    "\u{2013}".to_owned()
}

/// A text as it was typed, or what stands where there is none.
pub fn or_missing(typed: &str) -> String {
    match typed.trim() {
        "" => missing(),
        typed => typed.to_owned(),
    }
}

/// A size or tolerance as it was typed, with the plus-minus sign as one.
pub fn plus_minus(typed: &str) -> String {
    typed.replace("+/-", "\u{b1}").replace("+-", "\u{b1}")
}

/// A length that must not be overdone: the last decimal is left off, never rounded up.
pub fn at_most(form: Form, mm: f64, unit: Unit, decimals: usize) -> String {
    let scale = 10_f64.powi(i32::try_from(decimals).unwrap_or(0));
    let value = match unit {
        Unit::Mm => mm,
        Unit::Inch => mm / MM_PER_INCH,
    };
    // A hair more than the noise of a conversion.
    form.fixed((value * scale + 1e-6).floor() / scale, decimals)
}

/// A share in whole percent.
pub fn percent(form: Form, share: f64) -> String {
    format!("{}\u{a0}%", form.fixed(share * 100.0, 0))
}

/// A length with its unit; the space between doesn't break.
pub fn with_unit(form: Form, mm: f64, in_unit: Unit, decimals: usize) -> String {
    format!(
        "{}\u{a0}{}",
        length(form, mm, in_unit, decimals),
        in_unit.symbol()
    )
}

/// Minutes, as hours too once they are many.
pub fn minutes(form: Form, minutes: f64) -> String {
    if minutes < 90.0 {
        format!("{}\u{a0}min", form.fixed(minutes, 0))
    } else {
        format!("{}\u{a0}h", form.fixed(minutes / 60.0, 1))
    }
}

/// Numbers that follow each other: one, or the first and the last.
pub fn numbers(first: u32, last: u32) -> String {
    if first == last {
        first.to_string()
    } else {
        format!("{first}\u{2013}{last}")
    }
}
