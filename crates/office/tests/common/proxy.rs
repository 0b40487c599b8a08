//! A line to a server that can be cut at any message, or kept shut.

use std::io::{Read, Write};
use std::net::{Shutdown, TcpListener, TcpStream};
use std::os::unix::net::UnixStream;
use std::path::Path;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::sync::{Arc, Mutex, Weak};

/// No message: the line holds.
const NEVER: u64 = u64::MAX;

/// The two ends of a line.
struct Ends {
    desk: TcpStream,
    server: UnixStream,
}

impl Ends {
    fn cut(&self) {
        let _ = self.desk.shutdown(Shutdown::Both);
        let _ = self.server.shutdown(Shutdown::Both);
    }
}

/// What the line does.
struct State {
    /// Messages that went over it, both ways, since they were last counted.
    messages: AtomicU64,
    /// The message at which it is cut.
    cut_at: AtomicU64,
    /// Nobody gets through.
    is_shut: AtomicBool,
    /// What runs over it now.
    open: Mutex<Vec<Weak<Ends>>>,
}

/// A line to a server's socket.
pub struct Proxy {
    state: Arc<State>,
    port: u16,
}

impl Proxy {
    /// A line to the server whose socket is in a folder.
    pub fn to(folder: &Path) -> Self {
        let listener = TcpListener::bind("127.0.0.1:0").expect("a port");
        let port = listener.local_addr().expect("a port").port();
        let state = Arc::new(State {
            messages: AtomicU64::new(0),
            cut_at: AtomicU64::new(NEVER),
            is_shut: AtomicBool::new(false),
            open: Mutex::default(),
        });
        let socket = folder.join(".s.PGSQL.5432");
        let of = Arc::clone(&state);
        std::thread::spawn(move || {
            for desk in listener.incoming().flatten() {
                if !of.is_shut.load(Ordering::SeqCst)
                    && let Ok(server) = UnixStream::connect(&socket)
                {
                    serve(&of, Ends { desk, server });
                }
            }
        });
        Self { state, port }
    }

    /// The port of its near end.
    pub const fn port(&self) -> u16 {
        self.port
    }

    /// Counts messages from here on, and cuts the line at one of them, once.
    pub fn cut_at(&self, message: u64) {
        self.state.messages.store(0, Ordering::SeqCst);
        self.state.cut_at.store(message, Ordering::SeqCst);
    }

    /// Whether the message at which it was to be cut came.
    pub fn was_cut(&self) -> bool {
        self.state.cut_at.load(Ordering::SeqCst) == NEVER
    }

    /// Lets nobody through any more, or everybody again.
    pub fn shut(&self, is_shut: bool) {
        self.state.is_shut.store(is_shut, Ordering::SeqCst);
        if is_shut {
            cut(&self.state);
        }
    }
}

fn cut(state: &State) {
    let mut open = state.open.lock().expect("the open lines");
    for ends in open.drain(..).filter_map(|ends| ends.upgrade()) {
        ends.cut();
    }
}

fn serve(state: &Arc<State>, ends: Ends) {
    let _ = ends.desk.set_nodelay(true);
    let ends = Arc::new(ends);
    let mut open = state.open.lock().expect("the open lines");
    open.retain(|ends| ends.strong_count() > 0);
    open.push(Arc::downgrade(&ends));
    drop(open);
    for is_desk in [true, false] {
        let (state, ends) = (Arc::clone(state), Arc::clone(&ends));
        std::thread::spawn(move || {
            match is_desk {
                true => pass(&state, &ends.desk, &ends.server, true),
                false => pass(&state, &ends.server, &ends.desk, false),
            }
            // An end on one side is one on the other.
            ends.cut();
        });
    }
}

/// Passes messages on, one by one; the first of a desk has no letter before its length.
fn pass(state: &State, mut from: impl Read, mut to: impl Write, mut is_first: bool) {
    loop {
        let mut message = vec![0; if is_first { 4 } else { 5 }];
        if from.read_exact(&mut message).is_err() {
            return;
        }
        is_first = false;
        let begins = message.len();
        let length = message[begins - 4..].try_into().expect("four bytes");
        let length = u32::from_be_bytes(length) as usize;
        message.resize(begins + length - 4, 0);
        if from.read_exact(&mut message[begins..]).is_err() {
            return;
        }
        let number = state.messages.fetch_add(1, Ordering::SeqCst);
        let order = Ordering::SeqCst;
        if state
            .cut_at
            .compare_exchange(number, NEVER, order, order)
            .is_ok()
        {
            cut(state);
            return;
        }
        if to.write_all(&message).is_err() {
            return;
        }
    }
}
