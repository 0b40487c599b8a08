//! Reads holes on standard input, `x,y` in mm on each line, and prints a short order as line
//! numbers from 0.
//!
//! `--closed` comes back to the first hole, `--kicks N` says how long to look. The length goes to
//! standard error.

use std::io::{Read, Write};
use std::process::ExitCode;

use quillbore_calc::order::{Ends, Metric, OrderEffort, hole_order};

fn main() -> ExitCode {
    // A reader that went away early is no fault of the holes, but the order is not told either.
    match run() {
        Ok(lines) => std::io::stdout()
            .write_all(lines.as_bytes())
            .map_or(ExitCode::from(2), |()| ExitCode::SUCCESS),
        Err(sentence) => {
            eprintln!("{sentence}");
            ExitCode::from(2)
        }
    }
}

fn run() -> Result<String, String> {
    let wishes = Wishes::read(std::env::args().skip(1))?;
    let mut text = String::new();
    std::io::stdin()
        .read_to_string(&mut text)
        .map_err(|why| format!("Standard input can't be read as text: {why}."))?;
    let points = read_points(&text)?;
    let mut effort = OrderEffort::for_holes(points.len());
    effort.kicks = wishes.kicks.unwrap_or(effort.kicks);
    let found = hole_order(&points, Metric::Straight, wishes.ends, &effort);
    eprintln!("{} holes, {:.3} mm", points.len(), found.length);
    Ok(found.order.iter().map(|line| format!("{line}\n")).collect())
}

struct Wishes {
    ends: Ends,
    kicks: Option<u64>,
}

impl Wishes {
    fn read(mut arguments: impl Iterator<Item = String>) -> Result<Self, String> {
        let mut wishes = Wishes {
            ends: Ends::Open,
            kicks: None,
        };
        while let Some(argument) = arguments.next() {
            match argument.as_str() {
                "--closed" => wishes.ends = Ends::Closed,
                "--kicks" => {
                    let number = arguments.next().unwrap_or_default();
                    let kicks = number.parse();
                    wishes.kicks =
                        Some(kicks.map_err(|_| {
                            format!("--kicks wants a whole number, not \"{number}\".")
                        })?);
                }
                _ => {
                    return Err(format!(
                        "\"{argument}\" is not known here; give --closed, --kicks N or nothing."
                    ));
                }
            }
        }
        Ok(wishes)
    }
}

/// Every line must be a hole: the answer is in line numbers.
fn read_points(text: &str) -> Result<Vec<[f64; 2]>, String> {
    // Spreadsheets like to put a byte order mark first.
    let text = text.trim_start_matches('\u{feff}').trim_end();
    let lines = text.lines().enumerate();
    lines
        .map(|(at, line)| {
            let (x, y) = line.split_once(',').unwrap_or_default();
            let value = |text: &str| {
                text.trim()
                    .parse()
                    .ok()
                    .filter(|value: &f64| value.abs() <= 1e9)
            };
            match (value(x), value(y)) {
                (Some(x), Some(y)) => Ok([x, y]),
                _ => Err(format!(
                    "Line {at} (counted from 0) is \"{}\"; write it as x,y in mm, such as 12.5,-3.",
                    line.chars().take(40).collect::<String>()
                )),
            }
        })
        .collect()
}
