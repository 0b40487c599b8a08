//! A PostgreSQL server of a test's own: in a folder of its own, on a socket, gone when the test is.

use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::OnceLock;
use std::sync::atomic::{AtomicU32, Ordering};
use std::time::{Duration, Instant};

use postgres::{Client, NoTls};
use quillbore_office::shelf::server::{Address, Brings, Server};

/// What is said where a server's programs are missing.
const MISSING: &str = "this test starts a PostgreSQL server of its own: install postgresql";

/// What is said where its clock can't be set.
const NO_CLOCK: &str = "this test sets the clock of a server of its own: install faketime";

/// A server that runs as long as the test's program; one that was killed comes back.
pub struct Cluster {
    folder: PathBuf,
    port: u16,
    /// Ends the server with the program, since it waits for the end of its input.
    _watched: Child,
}

/// The server of all tests of a program, which need not outlive a power cut.
pub fn shared() -> &'static Cluster {
    static SHARED: OnceLock<Cluster> = OnceLock::new();
    SHARED.get_or_init(|| Cluster::start("-c fsync=off -c full_page_writes=off"))
}

impl Cluster {
    /// Makes a server and waits until it answers; `options` are put behind its own.
    pub fn start(options: &str) -> Self {
        Self::start_after("", "", options, 5432)
    }

    /// A server whose clock can be set wrong, by [`Cluster::set_clock`].
    pub fn with_a_clock() -> Self {
        let clock = format!(
            "env LD_PRELOAD={} FAKETIME_TIMESTAMP_FILE=$PWD/clock FAKETIME_NO_CACHE=1 \
             FAKETIME_DONT_FAKE_MONOTONIC=1",
            clock_library().display()
        );
        Self::start_after("echo +0 >clock;", &clock, "", 5432)
    }

    /// Sets its clock so many seconds before or behind ours.
    pub fn set_clock(&self, seconds: i64) {
        let new = self.folder.join("clock.new");
        std::fs::write(&new, format!("{seconds:+}\n")).expect("a clock");
        // As one step: it is read at every call.
        std::fs::rename(&new, self.folder.join("clock")).expect("a clock");
    }

    /// A server that listens on a port of this machine, too.
    pub fn on_port(port: u16) -> Self {
        let options = format!("-c listen_addresses=127.0.0.1 -c port={port}");
        Self::start_after("", "", &options, port)
    }

    /// A server whose whole disk has so many megabytes.
    pub fn on_a_small_disk(megabytes: u32) -> Self {
        let mount = format!(
            "mkdir data; mount -t tmpfs -o size={megabytes}m tmpfs data || {{ rm -rf $PWD; exit 1; }};"
        );
        Self::start_after(
            &mount,
            "",
            "-c max_wal_size=32MB -c min_wal_size=32MB",
            5432,
        )
    }

    fn start_after(before: &str, under: &str, options: &str, port: u16) -> Self {
        let bin = bin();
        let folder = tempfile::Builder::new().prefix("qb-pg").tempdir();
        let folder = folder.expect("a folder").keep();
        let cluster = Self {
            _watched: watched(&folder, &bin, [before, under], options),
            folder,
            port,
        };
        cluster.wait();
        cluster
    }

    /// The folder of its socket.
    pub fn socket(&self) -> &Path {
        &self.folder
    }

    /// An empty database, with its address.
    pub fn database(&self) -> Address {
        static NEXT: AtomicU32 = AtomicU32::new(1);
        let name = format!("shelf{}", NEXT.fetch_add(1, Ordering::Relaxed));
        self.sql("postgres", &format!("CREATE DATABASE {name}"));
        self.address(&name, "shop")
    }

    /// The address of a database for a user.
    pub fn address(&self, database: &str, user: &str) -> Address {
        let host = self.folder.to_str().expect("a path").replace('/', "%2F");
        let text = format!("postgresql://{user}@/{database}?host={host}");
        Address::read(&text).expect("an address")
    }

    /// A desk at a database.
    pub fn desk(address: &Address) -> Server {
        Server::new(address.clone(), Brings::default())
    }

    /// Has a statement done by the server's owner.
    pub fn sql(&self, database: &str, statement: &str) {
        let done = self.client(database, "shop");
        let done = done.and_then(|mut client| client.batch_execute(statement));
        done.unwrap_or_else(|why| panic!("{statement}: {why:?}"));
    }

    /// A line of somebody who is no desk.
    pub fn client(&self, database: &str, user: &str) -> Result<Client, postgres::Error> {
        let mut config = postgres::Config::new();
        config.host_path(&self.folder).port(self.port);
        config.user(user).dbname(database);
        config.connect(NoTls)
    }

    /// Kills the server as a power cut would; it comes back by itself.
    pub fn kill(&self) {
        let id = std::fs::read_to_string(self.folder.join("data/postmaster.pid"));
        let Some(id) = id.ok().and_then(|id| Some(id.lines().next()?.to_owned())) else {
            return;
        };
        // Its own immediate stop: all of its programs end at once, and nothing is written any more.
        let _ = Command::new("kill").args(["-QUIT", &id]).status();
    }

    /// Waits until it answers.
    pub fn wait(&self) {
        let begun = Instant::now();
        while let Err(why) = self.client("postgres", "shop") {
            assert!(
                self.folder.is_dir(),
                "this test mounts a small disk of its own, which root alone may"
            );
            assert!(
                begun.elapsed() < Duration::from_secs(60),
                "{why:?}\n{}",
                self.said_last()
            );
            std::thread::sleep(Duration::from_millis(50));
        }
    }

    /// The last lines of its log.
    pub fn said_last(&self) -> String {
        let log = std::fs::read_to_string(self.folder.join("log")).unwrap_or_default();
        let lines: Vec<&str> = log.lines().collect();
        lines[lines.len().saturating_sub(40)..].join("\n")
    }
}

/// The folder of the server's programs.
fn bin() -> PathBuf {
    let said = Command::new("pg_config").arg("--bindir").output();
    let said = said
        .ok()
        .and_then(|said| String::from_utf8(said.stdout).ok());
    let said = said.map(|said| PathBuf::from(said.trim()));
    let debian = std::fs::read_dir("/usr/lib/postgresql")
        .into_iter()
        .flatten();
    let debian = debian.flatten().map(|version| version.path().join("bin"));
    let mut all: Vec<PathBuf> = said.into_iter().chain(debian).collect();
    all.retain(|bin| bin.join("initdb").is_file());
    all.sort();
    all.pop().expect(MISSING)
}

/// The library that gives a program another clock.
fn clock_library() -> PathBuf {
    let found = Command::new("sh")
        .args(["-c", "ls /usr/lib/*/faketime/libfaketime.so.1 /usr/lib/faketime/libfaketime.so.1 2>/dev/null"])
        .output();
    let found = found
        .ok()
        .and_then(|found| String::from_utf8(found.stdout).ok());
    let first = found.as_deref().and_then(|found| found.lines().next());
    PathBuf::from(first.expect(NO_CLOCK))
}

/// Starts a server that ends once the program that asked for it is gone, however that ended. The
/// superuser of a machine may not run one: the user that the package makes does.
fn watched(folder: &Path, bin: &Path, [before, under]: [&str; 2], options: &str) -> Child {
    let script = format!(
        "set -e; cd {folder}; as=; {before} \
         if [ \"$(id -u)\" = 0 ]; then \
           chown -R postgres {folder}; as='setpriv --reuid=postgres --regid=postgres --clear-groups'; \
         fi; \
         $as {bin}/initdb -D data -U shop -A trust -E UTF8 --locale=C --no-sync --wal-segsize=4 >log 2>&1; \
         ( while [ ! -e ended ]; do \
             $as {under} {bin}/postgres -D data -k {folder} -c listen_addresses= -c max_connections=200 \
               {options} >>log 2>&1 || true; \
           done ) & \
         cat >/dev/null; touch ended; kill -INT $(head -n 1 data/postmaster.pid) || true; wait; \
         umount data 2>/dev/null || true; rm -rf {folder}",
        folder = folder.display(),
        bin = bin.display(),
    );
    Command::new("sh")
        .args(["-c", &script])
        .stdin(Stdio::piped())
        .spawn()
        .expect("a shell")
}
