//! A line to a server's socket on which everything takes its time, however much is on its way.

use std::io::{Read, Write};
use std::net::{Shutdown, TcpListener, TcpStream};
use std::os::unix::net::UnixStream;
use std::path::Path;
use std::sync::mpsc::channel;
use std::thread;
use std::time::{Duration, Instant};

/// Opens the line, each way late by so much; its near port.
pub(crate) fn slow_line(socket_folder: &Path, late: Duration) -> u16 {
    let listener = TcpListener::bind("127.0.0.1:0").expect("a port");
    let port = listener.local_addr().expect("a port").port();
    let socket = socket_folder.join(".s.PGSQL.5432");
    thread::spawn(move || {
        for desk in listener.incoming().flatten() {
            let _ = desk.set_nodelay(true);
            let Ok(server) = UnixStream::connect(&socket) else {
                continue;
            };
            let (from_desk, from_server) = (desk.try_clone(), server.try_clone());
            let (from_desk, from_server) =
                (from_desk.expect("an end"), from_server.expect("an end"));
            pass(from_desk, server, late, |server| {
                drop(server.shutdown(Shutdown::Both));
            });
            pass(from_server, desk, late, |desk: TcpStream| {
                drop(desk.shutdown(Shutdown::Both));
            });
        }
    });
    port
}

/// Passes on what comes, late; an end on one side is one on the other.
fn pass<To: Write + Send + 'static>(
    mut from: impl Read + Send + 'static,
    mut to: To,
    late: Duration,
    end: fn(To),
) {
    let (put, on_its_way) = channel::<(Instant, Vec<u8>)>();
    thread::spawn(move || {
        let mut buffer = vec![0; 1 << 16];
        while let Ok(count @ 1..) = from.read(&mut buffer) {
            if put
                .send((Instant::now() + late, buffer[..count].to_vec()))
                .is_err()
            {
                return;
            }
        }
    });
    thread::spawn(move || {
        for (due, bytes) in on_its_way {
            thread::sleep(due.saturating_duration_since(Instant::now()));
            if to.write_all(&bytes).is_err() {
                break;
            }
        }
        end(to);
    });
}
