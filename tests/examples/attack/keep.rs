//! Keeping what was found: each failure once, as small as it can be made.

use std::any::Any;
use std::collections::BTreeSet;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::Path;
use std::sync::Mutex;

use quillbore_tests::attack::Reader;

/// What was found in this run already, by its message without the values in it.
static FOUND: Mutex<BTreeSet<String>> = Mutex::new(BTreeSet::new());

/// What a panic says.
pub(crate) fn says(panic: &(dyn Any + Send)) -> String {
    let text = panic.downcast_ref::<String>().map(String::as_str);
    let text = text.or_else(|| panic.downcast_ref::<&str>().copied());
    text.unwrap_or("a panic without words").to_owned()
}

/// Writes a case that fails otherwise than those before, made small; whether it did.
pub(crate) fn keep(reader: &Reader, bytes: &[u8], why: &str, cases: &Path) -> bool {
    let kind = kind_of(reader, why);
    let Ok(mut found) = FOUND.lock() else {
        return false;
    };
    if !found.insert(kind.clone()) || found.len() > 200 {
        return false;
    }
    let small = smaller(reader, bytes, &kind);
    let folder = cases.join(reader.name);
    let name = format!("{:016x}", hash(&small));
    let written =
        std::fs::create_dir_all(&folder).and_then(|()| std::fs::write(folder.join(&name), &small));
    let short: String = why.chars().take(300).collect();
    println!("{}/{name} ({} bytes): {short}", reader.name, small.len());
    if let Err(error) = written {
        println!("  not kept: {error}");
    }
    true
}

/// The first words of a message: what follows are the values of this case.
fn kind_of(reader: &Reader, why: &str) -> String {
    let words: String = why
        .chars()
        .filter(|letter| !letter.is_ascii_digit())
        .take(30)
        .collect();
    format!("{} {words}", reader.name)
}

/// Leaves out whatever can be left out while the case still fails in the same way.
fn smaller(reader: &Reader, bytes: &[u8], kind: &str) -> Vec<u8> {
    const MOST_TRIES: u32 = 2_000;
    let fails = |bytes: &[u8]| {
        let stood = catch_unwind(AssertUnwindSafe(|| (reader.check)(bytes)));
        stood.is_err_and(|panic| kind_of(reader, &says(panic.as_ref())) == kind)
    };
    let (mut small, mut tries) = (bytes.to_vec(), 0);
    let mut step = small.len().div_ceil(2);
    while step > 0 && fails(bytes) {
        let mut at = 0;
        while at < small.len() && tries < MOST_TRIES {
            tries += 1;
            let end = (at + step).min(small.len());
            let mut without = small.clone();
            without.drain(at..end);
            if fails(&without) {
                small = without;
            } else {
                at += step;
            }
        }
        step /= 2;
    }
    small
}

/// FNV-1a, 64 bits (Fowler, Noll and Vo 1991): a name for the case, no more.
fn hash(bytes: &[u8]) -> u64 {
    bytes.iter().fold(0xcbf2_9ce4_8422_2325, |hash, byte| {
        (hash ^ u64::from(*byte)).wrapping_mul(0x0000_0100_0000_01b3)
    })
}
