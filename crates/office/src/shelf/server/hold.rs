//! Holds: leases that a desk's own thread keeps alive. Those of a desk that is gone end by themselves.

use std::collections::BTreeSet;
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::Duration;

use postgres::types::Type;

use super::lines::{Lines, Patience};
use crate::names::JobKey;
use crate::shelf::error::{ShelfError, Step};
use crate::shelf::held::{Held, desk_name};

/// How long a desk that isn't heard of still holds its jobs.
pub(super) const LEASE: Duration = Duration::from_secs(60);

/// How often a desk is heard of.
const HEARD: Duration = Duration::from_secs(20);

type Token = [u8; 16];

/// What the thread is told.
enum Tell {
    Keep(Token),
    LetGo(Token),
    Settle(Sender<()>),
}

/// The holds of a desk.
#[derive(Debug)]
pub(super) struct Holds {
    lines: Arc<Lines>,
    lease: Duration,
    /// The thread's ear, once there is a thread.
    tell: Mutex<Option<Sender<Tell>>>,
}

/// One hold, until it is dropped.
#[derive(Debug)]
struct Lease {
    token: Token,
    tell: Sender<Tell>,
}

impl Drop for Lease {
    /// The window may drop it, so nobody waits for the server here.
    fn drop(&mut self) {
        let _ = self.tell.send(Tell::LetGo(self.token));
    }
}

impl Holds {
    pub(super) fn new(lines: Arc<Lines>, lease: Duration) -> Self {
        Self {
            lines,
            lease,
            tell: Mutex::default(),
        }
    }

    pub(super) fn take(&self, job: &JobKey, by: &str) -> Held {
        let mut token = Token::default();
        if getrandom::fill(&mut token).is_err() {
            return Held::Unknown;
        }
        match self.ask(job, by, token) {
            Ok(Some((true, _))) => {
                let tell = self.ear();
                let _ = tell.send(Tell::Keep(token));
                Held::Here(Box::new(Lease { token, tell }))
            }
            Ok(Some((false, by))) => Held::Elsewhere(by),
            Ok(None) | Err(_) => Held::Unknown,
        }
    }

    fn ask(
        &self,
        job: &JobKey,
        by: &str,
        token: Token,
    ) -> Result<Option<(bool, String)>, ShelfError> {
        let (job, by) = (job.as_str().to_owned(), desk_name(by));
        let seconds = self.lease.as_secs_f64();
        self.lines
            .ask(Step::Wait, Patience::LOOK, move |client, _| {
                let row = client.query_typed_one(
                    "SELECT is_held, by FROM quillbore.take_hold($1, $2, $3, $4)",
                    &[
                        (&job, Type::TEXT),
                        (&by, Type::TEXT),
                        (&token.as_slice(), Type::BYTEA),
                        (&seconds, Type::FLOAT8),
                    ],
                )?;
                Ok((row.try_get(0)?, row.try_get(1)?))
            })
    }

    /// Waits until the server knows of all that was let go.
    pub(super) fn settle(&self) {
        let (done, is_done) = channel();
        if self.ear().send(Tell::Settle(done)).is_ok() {
            let _ = is_done.recv();
        }
    }

    fn ear(&self) -> Sender<Tell> {
        let mut tell = self.tell.lock().unwrap_or_else(PoisonError::into_inner);
        let made = || {
            let (tell, told) = channel();
            let keeper = Keeper {
                lines: Arc::clone(&self.lines),
                seconds: self.lease.as_secs_f64(),
                kept: BTreeSet::new(),
            };
            let heard = HEARD.min(self.lease / 3);
            std::thread::spawn(move || keeper.run(&told, heard));
            tell
        };
        tell.get_or_insert_with(made).clone()
    }
}

/// The thread that is heard of. It ends with the desk's shelf and the last hold.
struct Keeper {
    lines: Arc<Lines>,
    seconds: f64,
    kept: BTreeSet<Token>,
}

impl Keeper {
    fn run(mut self, told: &Receiver<Tell>, heard: Duration) {
        loop {
            match told.recv_timeout(heard) {
                Ok(Tell::Keep(token)) => {
                    self.kept.insert(token);
                }
                Ok(Tell::LetGo(token)) => {
                    self.kept.remove(&token);
                    self.say(vec![token.to_vec()], -1.0);
                }
                Ok(Tell::Settle(done)) => drop(done.send(())),
                Err(RecvTimeoutError::Timeout) => {
                    let kept = self.kept.iter().map(|token| token.to_vec()).collect();
                    self.say(kept, self.seconds);
                }
                Err(RecvTimeoutError::Disconnected) => return,
            }
        }
    }

    /// Without an answer the next time says it again, and a hold that nobody renews ends by itself.
    fn say(&self, tokens: Vec<Vec<u8>>, seconds: f64) {
        if tokens.is_empty() {
            return;
        }
        let _ = self
            .lines
            .ask(Step::Wait, Patience::LOOK, move |client, _| {
                client.query_typed(
                    "SELECT quillbore.keep_holds($1, $2)",
                    &[(&tokens, Type::BYTEA_ARRAY), (&seconds, Type::FLOAT8)],
                )
            });
    }
}
