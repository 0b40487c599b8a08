//! Whether the work conducts well enough for sparks.

use crate::finding::{Kind, Level, Remedy};
use crate::quantity::Limits;
use crate::tables::Material;

/// From here on the resistivity is worth a check [ohm cm] (a design choice, not published).
pub const CHECK_FROM_OHM_CM: f64 = 1.0;

/// Above this a test piece is asked for [ohm cm] (a design choice, not published).
pub const TEST_PIECE_ABOVE_OHM_CM: f64 = 10.0;

/// Above this the work counts as not conducting [ohm cm] (memory: Koenig, Dauw, Levy, Panten, CIRP
/// Annals 37(2), 1988, 623-631, for ceramics).
pub const STOP_ABOVE_OHM_CM: f64 = 100.0;

/// What is to be said about a resistivity.
///
/// Formula: below 1 ohm cm nothing; 1 to 10 a check; above 10 to 100 a test piece; above 100 a
/// stop.
///
/// - `ohm_cm`: resistivity [ohm cm], 0 and up; `None` where nothing is known, which is a check.
///
/// Result: level, finding and remedy, or `None` where there is nothing to say.
///
/// ```
/// use quillbore_calc::conduct::judge;
/// use quillbore_calc::finding::Level;
/// assert!(judge(Some(1.2e-4)).is_none()); // a nickel alloy
/// assert_eq!(judge(Some(250.0)).unwrap().0, Level::Stop);
/// ```
///
/// Source: the limit of about 100 ohm cm is memory of the CIRP paper above; the others are ours.
#[must_use]
pub fn judge(ohm_cm: Option<f64>) -> Option<(Level, Kind, Option<Remedy>)> {
    let Some(ohm_cm) = ohm_cm else {
        return Some((
            Level::Check,
            Kind::ConductivityUnknown,
            Some(Remedy::AskTestPiece),
        ));
    };
    if ohm_cm > STOP_ABOVE_OHM_CM {
        Some((Level::Stop, Kind::DoesNotConduct { ohm_cm }, None))
    } else if ohm_cm > TEST_PIECE_ABOVE_OHM_CM {
        let kind = Kind::ConductivityTestPiece { ohm_cm };
        Some((Level::Check, kind, Some(Remedy::AskTestPiece)))
    } else if ohm_cm >= CHECK_FROM_OHM_CM {
        Some((Level::Check, Kind::ConductivityCheck { ohm_cm }, None))
    } else {
        None
    }
}

/// The resistivity that counts: a meter reading or certificate before any table.
///
/// Formula: the reading; without one the highest value of the table.
///
/// - `material`: the work material.
/// - `measured_ohm_cm`: reading or certificate [ohm cm], 0 and up; `None` where there is neither.
///
/// Result: resistivity [ohm cm], or `None` where nothing is known.
///
/// ```
/// use quillbore_calc::conduct::counts;
/// use quillbore_calc::tables::{Family, Material, TubeMaterial};
/// use quillbore_calc::{Limits, Spread};
/// let silicon = Material {
///     name: "silicon".into(),
///     family: Family::Hard,
///     density_g_cm3: 2.33,
///     resistivity_ohm_cm: Some(Limits::new(1e-3, 100.0)),
///     feed_mm_min: Spread::new(5.0, 10.0).unwrap(),
///     wear: Spread::new(0.5, 1.0).unwrap(),
///     tube_material: TubeMaterial::Brass,
///     from_family: true,
///     hazards: vec![],
/// };
/// assert_eq!(counts(&silicon, None), Some(100.0));
/// assert_eq!(counts(&silicon, Some(0.02)), Some(0.02));
/// ```
///
/// Source: ours; a table's lower end proves nothing about the piece at hand.
#[must_use]
pub fn counts(material: &Material, measured_ohm_cm: Option<f64>) -> Option<f64> {
    measured_ohm_cm.or_else(|| {
        material
            .resistivity_ohm_cm
            .map(|Limits { upper: highest, .. }| highest)
    })
}
