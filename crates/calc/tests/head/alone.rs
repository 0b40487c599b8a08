//! Hours alone, by hand and part by part.

use quillbore_calc::head::{Run, Stops, Unattended};

use crate::Figures;

const NIGHT: Unattended = Unattended {
    minutes_per_piece: 45.0,
    pieces: 12,
    electrodes_per_piece: 2.0,
    electrodes: 30,
    hours: 14.0,
};

#[test]
fn nights_by_hand() {
    for (night, hours, pieces, stops) in [
        // 12 parts of 45 min are 9 h, and 24 of 30 electrodes.
        (NIGHT, 9.0, 12, Stops::Pieces),
        // 15 parts by electrodes.
        (
            Unattended {
                pieces: 20,
                ..NIGHT
            },
            11.25,
            15,
            Stops::Electrodes,
        ),
        // 18 by time, and two thirds of one.
        (
            Unattended {
                pieces: 20,
                electrodes: 99,
                ..NIGHT
            },
            14.0,
            18,
            Stops::Person,
        ),
        // One electrode in the chuck and no changer: half of the first part.
        (
            Unattended {
                electrodes: 1,
                ..NIGHT
            },
            0.375,
            0,
            Stops::Electrodes,
        ),
        // One piece, and nothing wears.
        (
            Unattended {
                pieces: 1,
                electrodes: 1,
                electrodes_per_piece: 0.0,
                ..NIGHT
            },
            0.75,
            1,
            Stops::Pieces,
        ),
        // Two limits at once.
        (
            Unattended {
                electrodes: 24,
                hours: 9.0,
                ..NIGHT
            },
            9.0,
            12,
            Stops::Pieces,
        ),
        (
            Unattended {
                hours: 0.0,
                ..NIGHT
            },
            0.0,
            0,
            Stops::Person,
        ),
        (Unattended { pieces: 0, ..NIGHT }, 0.0, 0, Stops::Pieces),
        // One part of 100 h.
        (
            Unattended {
                minutes_per_piece: 6000.0,
                ..NIGHT
            },
            14.0,
            0,
            Stops::Person,
        ),
        // A tenth of an electrode for each of three parts.
        (
            Unattended {
                pieces: 3,
                electrodes_per_piece: 0.1,
                electrodes: 1,
                ..NIGHT
            },
            2.25,
            3,
            Stops::Pieces,
        ),
    ] {
        let run = night.run().unwrap();
        assert!((run.hours - hours).abs() < 1e-9, "{night:?} {run:?}");
        assert_eq!((run.pieces, run.stops), (pieces, stops), "{night:?}");
    }
}

/// Part after part, each in turn held against what is there.
#[test]
fn part_by_part() {
    let mut figures = Figures(13);
    for _ in 0..3000 {
        let night = Unattended {
            minutes_per_piece: figures.between(1.0, 200.0),
            pieces: figures.between(0.0, 40.0) as u32,
            electrodes_per_piece: figures.between(0.0, 5.0),
            electrodes: figures.between(0.0, 60.0) as u32,
            hours: figures.between(0.0, 60.0),
        };
        let mut done = 0;
        while done < night.pieces
            && f64::from(done + 1) * night.electrodes_per_piece <= f64::from(night.electrodes)
            && f64::from(done + 1) * night.minutes_per_piece <= night.hours * 60.0
        {
            done += 1;
        }
        let Run {
            hours,
            pieces,
            stops,
        } = night.run().unwrap();
        assert_eq!(pieces, done, "{night:?}");
        assert!(hours <= night.hours);
        let whole = (hours - night.hours).abs() < 1e-9;
        assert_eq!(whole, stops == Stops::Person, "{night:?}");
        assert_eq!(pieces == night.pieces, stops == Stops::Pieces, "{night:?}");
    }
}

#[test]
fn nothing() {
    for bad in [f64::NAN, f64::INFINITY, -1.0] {
        assert_eq!(
            Unattended {
                minutes_per_piece: bad,
                ..NIGHT
            }
            .run(),
            None
        );
        assert_eq!(
            Unattended {
                electrodes_per_piece: bad,
                ..NIGHT
            }
            .run(),
            None
        );
        assert_eq!(
            Unattended {
                hours: bad,
                ..NIGHT
            }
            .run(),
            None
        );
    }
    assert_eq!(
        Unattended {
            minutes_per_piece: 0.0,
            ..NIGHT
        }
        .run(),
        None
    );
}
