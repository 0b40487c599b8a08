//! Conductivity thresholds.

use quillbore_calc::conduct::judge;
use quillbore_calc::finding::{Kind, Level, Remedy};

/// Thresholds 1 and 10 ohm cm are design choices; about 100 is memory of Koenig, Dauw, Levy and
/// Panten, CIRP Annals 37(2), 1988, 623-631.
#[test]
fn thresholds() {
    let check = |ohm_cm: f64, expected: Option<(Level, Kind)>| {
        let found = judge(Some(ohm_cm)).map(|(level, kind, _)| (level, kind));
        assert_eq!(found, expected, "{ohm_cm}");
    };
    let looked_at = |ohm_cm| Some((Level::Check, Kind::ConductivityCheck { ohm_cm }));
    let tried = |ohm_cm| Some((Level::Check, Kind::ConductivityTestPiece { ohm_cm }));
    let refused = |ohm_cm| Some((Level::Stop, Kind::DoesNotConduct { ohm_cm }));
    check(1.2e-4, None);
    check(0.999, None);
    check(1.0, looked_at(1.0));
    check(10.0, looked_at(10.0));
    check(10.01, tried(10.01));
    check(100.0, tried(100.0));
    check(100.1, refused(100.1));
    check(1e5, refused(1e5));
}

#[test]
fn nothing_known_asks_for_a_test_piece() {
    let (level, kind, remedy) = judge(None).unwrap();
    assert_eq!((level, kind), (Level::Check, Kind::ConductivityUnknown));
    assert_eq!(remedy, Some(Remedy::AskTestPiece));
}
