//! A line to the server: one connection on a thread of its own. Whoever asks waits for an answer only
//! so long: a server or network that says nothing holds that thread and nobody else.

use std::fmt;
use std::sync::mpsc::{RecvTimeoutError, Sender, channel};
use std::time::Duration;

use postgres::{Client, Config};

use super::tls::{Certificates, connect};
use crate::shelf::mark::Mark;

/// What a line is asked.
type Work = Box<dyn FnOnce(&mut Client) + Send>;

/// Why a line gave no answer.
#[derive(Debug)]
pub(super) enum Broken {
    /// The server or the network says why.
    Said(postgres::Error),
    /// Nothing came in time.
    Silent,
    /// The authorities for its certificate can't be read.
    Authorities(String),
}

/// What was seen when the line was made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Seen {
    /// The number of its tables.
    pub(super) number: i32,
    /// The number of tables that a program must know at least to work with them.
    pub(super) least_program: i32,
    pub(super) mark: Option<Mark>,
    /// A copy is on its way there, or stopped.
    pub(super) is_half_copied: bool,
}

/// A connection.
pub(super) struct Line {
    ask: Sender<Work>,
    /// Nothing where the database has no tables of ours.
    pub(super) seen: Option<Seen>,
}

impl fmt::Debug for Line {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Line({:?})", self.seen)
    }
}

/// What holds for whatever is asked on a line: a statement that takes longer is given up by the
/// server, and so is a desk that goes away in the middle.
const OPTIONS: &str = "-c statement_timeout=60s -c lock_timeout=20s \
    -c idle_in_transaction_session_timeout=60s -c default_transaction_isolation=read\\ committed \
    -c client_min_messages=error";

impl Line {
    /// Connects and looks what is there.
    pub(super) fn make(
        config: &Config,
        certificates: &Certificates,
        patience: Duration,
    ) -> Result<Self, Broken> {
        let (ask, asked) = channel::<Work>();
        let (tell, told) = channel();
        let (mut config, certificates) = (config.clone(), certificates.clone());
        config.options(OPTIONS);
        std::thread::spawn(move || {
            let made = connect(&config, &certificates).and_then(|mut client| {
                let seen = look(&mut client).map_err(Broken::Said)?;
                Ok((client, seen))
            });
            let mut client = match made {
                Ok((client, seen)) => {
                    let _ = tell.send(Ok(seen));
                    client
                }
                Err(why) => {
                    let _ = tell.send(Err(why));
                    return;
                }
            };
            for work in asked {
                work(&mut client);
            }
        });
        let seen = told.recv_timeout(patience).unwrap_or(Err(Broken::Silent))?;
        Ok(Self { ask, seen })
    }

    /// Asks the server.
    pub(super) fn ask<T: Send + 'static>(
        &self,
        patience: Duration,
        work: impl FnOnce(&mut Client) -> Result<T, postgres::Error> + Send + 'static,
    ) -> Result<T, Broken> {
        let (tell, told) = channel();
        let work: Work = Box::new(move |client| {
            let _ = tell.send(work(client));
        });
        if self.ask.send(work).is_err() {
            return Err(Broken::Silent);
        }
        match told.recv_timeout(patience) {
            Ok(answer) => answer.map_err(Broken::Said),
            Err(RecvTimeoutError::Timeout | RecvTimeoutError::Disconnected) => Err(Broken::Silent),
        }
    }
}

/// The tables of a schema, or none where there is none.
fn look(client: &mut Client) -> Result<Option<Seen>, postgres::Error> {
    use postgres::error::SqlState;
    let about = "SELECT schema_number, least_program, mark, is_half_copied FROM quillbore.about";
    match client.query_typed_one(about, &[]) {
        Ok(row) => Ok(Some(Seen {
            number: row.try_get(0)?,
            least_program: row.try_get(1)?,
            mark: row.try_get::<_, Option<&str>>(2)?.and_then(Mark::read),
            is_half_copied: row.try_get(3)?,
        })),
        Err(error) => match error.code() {
            Some(code)
                if *code == SqlState::UNDEFINED_TABLE || *code == SqlState::INVALID_SCHEMA_NAME =>
            {
                Ok(None)
            }
            _ => Err(error),
        },
    }
}
