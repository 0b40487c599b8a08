//! Hears of what other desks save, the moment they do.

use std::sync::{Arc, Weak};
use std::time::Duration;

use postgres::fallible_iterator::FallibleIterator as _;

use super::lines::{Lines, Patience};
use super::tls::connect;
use crate::shelf::form::Wake;

/// A line on which nothing is said for so long is asked whether it is still there.
const QUIET: Duration = Duration::from_secs(15);

/// Between two tries to reach a server that is gone.
const AGAIN: Duration = Duration::from_secs(1);

/// Calls `wake` when anybody saved, and when the line was away and something may have been missed; ends
/// once nobody listens any more.
pub(super) fn watch(lines: Arc<Lines>, listens: Weak<()>, wake: Wake) {
    std::thread::spawn(move || {
        let mut was_there = true;
        while listens.strong_count() > 0 {
            let is_there = hear(&lines, &listens, &wake);
            // Whoever looks now finds out that the server is gone; once is enough.
            if is_there || was_there {
                wake();
            }
            was_there = is_there;
            std::thread::sleep(AGAIN);
        }
    });
}

/// Whether there was a line, until it broke.
fn hear(lines: &Lines, listens: &Weak<()>, wake: &Wake) -> bool {
    let (config, certificates) = lines.reached();
    let Ok(mut client) = connect(&config, &certificates) else {
        return false;
    };
    if client.batch_execute("LISTEN quillbore").is_err() {
        return false;
    }
    wake();
    while listens.strong_count() > 0 {
        let heard = client.notifications().timeout_iter(QUIET).next();
        let is_there = match heard {
            Ok(Some(_)) => {
                wake();
                true
            }
            Ok(None) => client.is_valid(Patience::LOOK.lines).is_ok(),
            Err(_) => false,
        };
        if !is_there {
            break;
        }
    }
    true
}
