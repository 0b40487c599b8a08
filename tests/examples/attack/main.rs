//! Throws changed bytes at every reader and keeps those that one of them does not stand.
//!
//! `attack [--runs N] [--seconds N] [--seed N] [--only READER]`

mod change;
mod keep;
mod packed;
mod seeds;

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::Path;
use std::process::ExitCode;
use std::time::{Duration, Instant};

use quillbore_tests::attack::{READERS, Reader};

/// A case that takes longer than this is kept as well.
const SLOW: Duration = Duration::from_secs(10);

struct Asked {
    runs: u64,
    seconds: u64,
    seed: u64,
    only: Option<String>,
}

fn main() -> ExitCode {
    let asked = match read(std::env::args().skip(1)) {
        Ok(asked) => asked,
        Err(word) => {
            eprintln!("what is {word}? attack [--runs N] [--seconds N] [--seed N] [--only READER]");
            return ExitCode::from(2);
        }
    };
    let cases = Path::new(env!("CARGO_MANIFEST_DIR")).join("attack/cases");
    let readers: Vec<&Reader> = READERS
        .iter()
        .filter(|reader| asked.only.as_deref().is_none_or(|only| only == reader.name))
        .collect();
    let shares: u64 = readers.iter().map(|reader| u64::from(reader.share)).sum();
    if shares == 0 {
        eprintln!("no reader has that name");
        return ExitCode::from(2);
    }
    std::panic::set_hook(Box::new(|_| {}));
    let (mut all, mut found) = (0, 0);
    for reader in readers {
        let share = |whole: u64| whole * u64::from(reader.share) / shares;
        let until = Instant::now() + Duration::from_secs(share(asked.seconds * 1_000) / 1_000 + 1);
        let (runs, kept) = attack(reader, share(asked.runs), until, asked.seed, &cases);
        println!("{:>8}: {runs} runs, {kept} found", reader.name);
        all += runs;
        found += kept;
    }
    println!("     all: {all} runs, {found} found");
    if found == 0 {
        ExitCode::SUCCESS
    } else {
        ExitCode::FAILURE
    }
}

fn read(mut words: impl Iterator<Item = String>) -> Result<Asked, String> {
    let mut asked = Asked {
        runs: 1_000_000,
        seconds: 100_000,
        seed: 1,
        only: None,
    };
    while let Some(word) = words.next() {
        let value = words.next().ok_or_else(|| word.clone())?;
        let number = || value.parse::<u64>().map_err(|_| value.clone());
        match word.as_str() {
            "--runs" => asked.runs = number()?,
            "--seconds" => asked.seconds = number()?,
            "--seed" => asked.seed = number()?,
            "--only" => asked.only = Some(value),
            _ => return Err(word),
        }
    }
    Ok(asked)
}

/// So many runs of one reader, or as long as there is time; how many they were, and how many cases
/// were kept.
fn attack(reader: &Reader, runs: u64, until: Instant, seed: u64, cases: &Path) -> (u64, u64) {
    let seeds = seeds::of(reader.name);
    let mut random = fastrand::Rng::with_seed(seed);
    let (mut done, mut kept) = (0, 0);
    while done < runs && (done % 64 != 0 || Instant::now() < until) {
        let bytes = change::changed(&mut random, &seeds);
        let begun = Instant::now();
        let stood = catch_unwind(AssertUnwindSafe(|| (reader.check)(&bytes)));
        done += 1;
        let why = match stood {
            Err(panic) => keep::says(panic.as_ref()),
            Ok(()) if begun.elapsed() > SLOW => "slow".to_owned(),
            Ok(()) => continue,
        };
        if keep::keep(reader, &bytes, &why, cases) {
            kept += 1;
        }
    }
    (done, kept)
}
