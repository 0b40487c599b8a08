//! The steps of the disk in memory.

use std::io::{self, ErrorKind};
use std::path::Path;
use std::sync::Arc;

use quillbore_office::disk::{Disk, Found, Kind, Lock, Look, Stamp};

use super::{HeldPath, MemoryDisk, Node};

fn look_of(node: &Node) -> Look {
    let (kind, stamp) = match node {
        Node::File { stamp, .. } => (Kind::File, *stamp),
        Node::Folder => (Kind::Folder, Stamp::default()),
        Node::Link => (Kind::Link, Stamp::default()),
        Node::Other => (Kind::Other, Stamp::default()),
    };
    Look { kind, stamp }
}

impl Disk for MemoryDisk {
    fn list(&self, folder: &Path) -> io::Result<Vec<Found>> {
        self.whole_step()?;
        let mut state = self.state();
        match state.nodes.get(folder) {
            Some(Node::Folder) => {}
            Some(Node::Link) => panic!("{} is a link", folder.display()),
            Some(_) => return Err(ErrorKind::NotADirectory.into()),
            None => return Err(ErrorKind::NotFound.into()),
        }
        let missed = state.missed.take();
        let there = state.nodes.iter();
        let inside = there
            .filter(|(path, _)| path.parent() == Some(folder) && missed.as_ref() != Some(*path));
        Ok(inside
            .map(|(path, node)| Found {
                name: path.file_name().expect("a name").to_owned(),
                look: look_of(node),
            })
            .collect())
    }

    fn look(&self, path: &Path) -> io::Result<Look> {
        self.whole_step()?;
        let state = self.state();
        let node = state.nodes.get(path).ok_or(ErrorKind::NotFound)?;
        Ok(look_of(node))
    }

    fn read(&self, path: &Path, most: u64) -> io::Result<Vec<u8>> {
        self.whole_step()?;
        let mut state = self.state();
        let short = state.short_read.take().unwrap_or(usize::MAX);
        state.inside(path)?;
        match state.nodes.get(path) {
            Some(Node::File { bytes, .. }) if bytes.len() as u64 > most => {
                Err(ErrorKind::FileTooLarge.into())
            }
            Some(Node::File { bytes, .. }) => Ok(bytes[..short.min(bytes.len())].to_vec()),
            Some(_) => Err(ErrorKind::Other.into()),
            None => Err(ErrorKind::NotFound.into()),
        }
    }

    fn make_folder(&self, path: &Path) -> io::Result<()> {
        self.whole_step()?;
        let mut state = self.state();
        state.inside(path)?;
        match state.nodes.get(path) {
            None => {
                state.insert(path, Node::Folder);
                Ok(())
            }
            Some(Node::Folder) => Ok(()),
            Some(_) => Err(ErrorKind::AlreadyExists.into()),
        }
    }

    fn write_new(&self, path: &Path, bytes: &[u8]) -> io::Result<()> {
        if self.node(path).is_some() {
            return Err(ErrorKind::AlreadyExists.into());
        }
        let (done, result) = match self.step() {
            Ok(()) => (bytes.len(), Ok(())),
            Err((Some(short), error)) => (short.min(bytes.len()), Err(error)),
            Err((None, error)) => return Err(error),
        };
        let mut state = self.state();
        state.inside(path)?;
        // Another desk may have been let in at this step.
        if state.nodes.contains_key(path) {
            return Err(ErrorKind::AlreadyExists.into());
        }
        let stamp = state.next_stamp(&bytes[..done]);
        state.unsynced.insert(stamp.changed_ns);
        let bytes = bytes[..done].into();
        state.insert(path, Node::File { bytes, stamp });
        result
    }

    fn sync_file(&self, path: &Path) -> io::Result<()> {
        self.whole_step()?;
        let mut state = self.state();
        match state.nodes.get(path) {
            Some(Node::File { stamp, .. }) => {
                let file = stamp.changed_ns;
                state.unsynced.remove(&file);
                Ok(())
            }
            Some(_) => Err(ErrorKind::Other.into()),
            None => Err(ErrorKind::NotFound.into()),
        }
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        self.whole_step()?;
        let mut state = self.state();
        state.inside(to)?;
        if !matches!(state.nodes.get(to), None | Some(Node::File { .. })) {
            return Err(ErrorKind::Other.into());
        }
        let node = state.nodes.remove(from).ok_or(ErrorKind::NotFound)?;
        let before = state.nodes.insert(to.to_owned(), node.clone());
        let stands = Some(node.clone());
        state.note(vec![
            (to.to_owned(), before, stands),
            (from.to_owned(), Some(node), None),
        ]);
        Ok(())
    }

    fn name_new(&self, from: &Path, to: &Path) -> io::Result<()> {
        self.whole_step()?;
        let mut state = self.state();
        state.inside(to)?;
        if state.nodes.contains_key(to) {
            return Err(ErrorKind::AlreadyExists.into());
        }
        if state.one_name {
            return Err(ErrorKind::PermissionDenied.into());
        }
        let node = state.nodes.get(from).cloned();
        state.insert(to, node.ok_or(ErrorKind::NotFound)?);
        Ok(())
    }

    fn sync_folder(&self, path: &Path) -> io::Result<()> {
        self.whole_step()?;
        let mut state = self.state();
        if !matches!(state.nodes.get(path), Some(Node::Folder)) {
            return Err(ErrorKind::NotFound.into());
        }
        state.unsettled.remove(path);
        Ok(())
    }

    fn remove(&self, path: &Path) -> io::Result<()> {
        self.whole_step()?;
        let mut state = self.state();
        state.inside(path)?;
        match state.nodes.get(path) {
            Some(Node::Folder) => Err(ErrorKind::IsADirectory.into()),
            Some(_) => {
                let before = state.nodes.remove(path);
                state.note(vec![(path.to_owned(), before, None)]);
                Ok(())
            }
            None => Err(ErrorKind::NotFound.into()),
        }
    }

    fn hold(&self, path: &Path) -> io::Result<Lock> {
        // One thread plays all desks, so nobody lets go while another waits.
        match self.hold_now(path) {
            Err(error) if error.kind() == ErrorKind::WouldBlock => Err(ErrorKind::TimedOut.into()),
            other => other,
        }
    }

    fn hold_now(&self, path: &Path) -> io::Result<Lock> {
        self.whole_step()?;
        let mut state = self.state();
        state.inside(path)?;
        match state.nodes.get(path) {
            Some(Node::File { .. }) => {}
            Some(_) => return Err(ErrorKind::Other.into()),
            None => {
                let stamp = state.next_stamp(b"");
                let bytes = [].into();
                state.insert(path, Node::File { bytes, stamp });
            }
        }
        if state.no_locks {
            return Ok(Lock::unknown());
        }
        if !self.held.lock().expect("locks").insert(path.to_owned()) {
            return Err(ErrorKind::WouldBlock.into());
        }
        Ok(Lock::real(HeldPath {
            held: Arc::clone(&self.held),
            path: path.to_owned(),
        }))
    }
}
