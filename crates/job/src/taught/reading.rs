//! One run record as the calculation reads it.

use quillbore_calc::Idx;
use quillbore_calc::recorded::Ran;
use quillbore_calc::tables::{Tables, Tube};

use crate::ground::same_name::same_name;
use crate::life::electrode_numbers::electrode_numbers;
use crate::life::untaught::Why;
use crate::pinned::slip::lists::{kind, line};
use crate::pinned::slip::view::View;
use crate::typed::entry::Unit;
use crate::typed::read_quantity::pin_sizes;

/// What is longer than a tube comes by less than this was measured so [mm].
const LENGTH_SLACK_MM: f64 = 2.0;

/// One run record as the calculation reads it, with what of it can't be used.
pub(super) struct Reading {
    pub(super) ran: Ran,
    pub(super) without: Vec<Why>,
}

/// What a record says of its holes; pieces are for the whole job to say.
pub(super) fn read(run: View<'_, kind::Run>, unit: Unit, tables: &Tables) -> Result<Reading, Why> {
    let unread = run.slip().lines.iter();
    let unread = unread.filter(|(_, entry)| entry.why().is_some());
    let mut without: Vec<Why> = unread.map(|(line, _)| Why::Unread(*line)).collect();
    let tube = tube(run, tables)?;
    let lost_mm = lost_mm(run, tube, tables).unwrap_or_else(|why| {
        without.push(why);
        None
    });
    let clock_min = clock_min(run).unwrap_or_else(|why| {
        without.push(why);
        None
    });
    let spark_min = run.get(line::SparkMinutes);
    // One of the two is mistyped, and nobody can say which.
    let is_short = clock_min
        .zip(spark_min)
        .is_some_and(|(clock, spark)| spark > clock + 1e-9);
    if is_short {
        without.push(Why::ClockTooShort);
    }
    let pins = run.get(line::Pins);
    // The job may show another unit by now.
    let typed_in = run.entry(line::Pins).unit().unwrap_or(unit);
    let sizes = pin_sizes(pins, typed_in);
    if sizes.is_none() && !pins.is_empty() {
        without.push(Why::PinsInWords(pins.to_owned()));
    }
    let ran = Ran {
        tube,
        holes: run.get(line::Holes).map_or(0.0, f64::from),
        spark_min: spark_min.filter(|_| !is_short),
        clock_min: clock_min.filter(|_| !is_short),
        lost_mm,
        broken: run.get(line::Breakages).map(f64::from),
        sizes_mm: sizes
            .unwrap_or_default()
            .iter()
            .map(|size| size.mm())
            .collect(),
        reached_mm: run.get(line::DepthReached).map(quillbore_calc::Length::mm),
        ..Ran::default()
    };
    Ok(Reading { ran, without })
}

fn tube(run: View<'_, kind::Run>, tables: &Tables) -> Result<Option<Idx<Tube>>, Why> {
    let name = run.get(line::TubeUsed);
    if name.is_empty() {
        return Ok(None);
    }
    let found = Idx::find(&tables.tubes, |tube| same_name(&tube.name, name));
    found.map(Some).ok_or_else(|| Why::NoTube(name.to_owned()))
}

/// Length of the tube that the holes took; none where nobody measured it.
fn lost_mm(
    run: View<'_, kind::Run>,
    tube: Option<Idx<Tube>>,
    tables: &Tables,
) -> Result<Option<f64>, Why> {
    let (Some(before), Some(after)) = (run.get(line::TubeBefore), run.get(line::TubeAfter)) else {
        return Ok(None);
    };
    let dressed_mm = run
        .get(line::Dressed)
        .map_or(0.0, quillbore_calc::Length::mm);
    let (before_mm, after_mm) = (before.mm(), after.mm());
    let longest = tables.tubes.iter().map(|tube| tube.length_mm);
    let new_mm = match tube.and_then(|tube| tube.of(&tables.tubes)) {
        Some(tube) => tube.length_mm,
        None => longest.fold(0.0, f64::max),
    };
    if before_mm > new_mm + LENGTH_SLACK_MM {
        return Err(Why::TubeTooLong { before_mm, new_mm });
    }
    let numbered = || electrode_numbers(run.get(line::ElectrodeNumber)).len() as u32;
    let used = run
        .get(line::Electrodes)
        .unwrap_or_else(|| numbered().max(1));
    if used > 1 {
        return Err(Why::SeveralElectrodes(used));
    }
    if let Some(broken) = run.get(line::Breakages).filter(|broken| *broken > 0) {
        return Err(Why::Broke(broken));
    }
    let lost_mm = before_mm - after_mm - dressed_mm;
    if lost_mm <= 0.0 {
        return Err(Why::NothingLost);
    }
    Ok(Some(lost_mm))
}

/// Minutes by the clock, stops taken off.
fn clock_min(run: View<'_, kind::Run>) -> Result<Option<f64>, Why> {
    let Some(clock) = run.get(line::FloorMinutes) else {
        return Ok(None);
    };
    let left = clock - run.get(line::StopMinutes).unwrap_or(0.0);
    if left <= 0.0 {
        return Err(Why::AllStops);
    }
    Ok(Some(left))
}
