//! A disk in memory that can go wrong at any step, read less than there is, lose what was not synced
//! when the power goes, in any order, and let another desk in between two steps.

mod steps;

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard};

use quillbore_office::disk::Stamp;

/// What goes wrong at a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fault {
    /// It fails; a write after so many bytes.
    Once { short: usize, kind: ErrorKind },
    /// From here on nothing works any more: the power is gone, after so many bytes.
    Dead { short: usize },
    /// A read ends after so many bytes, and says nothing of that.
    ShortRead { short: usize },
}

impl Fault {
    /// Every way in which a step can go wrong.
    pub fn all() -> Vec<Self> {
        let shorts = [0, 1, 40, usize::MAX];
        let kinds = [
            ErrorKind::StorageFull,
            ErrorKind::PermissionDenied,
            ErrorKind::Interrupted,
            ErrorKind::WriteZero,
            ErrorKind::NotFound,
        ];
        let once = shorts
            .iter()
            .flat_map(|&short| kinds.map(|kind| Self::Once { short, kind }));
        let dead = shorts.iter().map(|&short| Self::Dead { short });
        once.chain(dead).collect()
    }
}

/// What stands under a name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Node {
    File { bytes: Arc<[u8]>, stamp: Stamp },
    Folder,
    Link,
    Other,
}

/// What another desk does between two steps.
type Meanwhile = Box<dyn FnOnce() + Send>;

/// The disk; its clones are the same disk.
#[derive(Clone, Default)]
pub struct MemoryDisk {
    state: Arc<Mutex<State>>,
    held: Arc<Mutex<BTreeSet<PathBuf>>>,
}

#[derive(Default)]
struct State {
    nodes: BTreeMap<PathBuf, Node>,
    /// Changes of each folder's names that the medium does not have yet.
    unsettled: BTreeMap<PathBuf, Vec<Change>>,
    /// Files whose content the medium does not have yet, by the time of their stamp, which no other
    /// file has.
    unsynced: BTreeSet<i64>,
    clock: i64,
    steps: usize,
    fault: Option<(usize, Fault)>,
    meanwhile: Option<(usize, Meanwhile)>,
    /// A name that the next listing misses, as one can that another desk renames at that moment.
    missed: Option<PathBuf>,
    one_name: bool,
    no_locks: bool,
    /// The step that is being done reads so many bytes at most.
    short_read: Option<usize>,
}

/// Names that changed at once, with what stood under each before, and what after.
type Change = Vec<(PathBuf, Option<Node>, Option<Node>)>;

struct HeldPath {
    held: Arc<Mutex<BTreeSet<PathBuf>>>,
    path: PathBuf,
}

impl Drop for HeldPath {
    fn drop(&mut self) {
        self.held.lock().expect("locks").remove(&self.path);
    }
}

impl fmt::Debug for HeldPath {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "HeldPath({})", self.path.display())
    }
}

impl fmt::Debug for MemoryDisk {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("MemoryDisk")
    }
}

impl MemoryDisk {
    /// A disk with an empty folder.
    pub fn with_folder(path: &Path) -> Self {
        let disk = Self::default();
        disk.put(path, Node::Folder);
        disk
    }

    /// As a memory stick: files have one name only.
    pub fn with_one_name(self) -> Self {
        self.state().one_name = true;
        self
    }

    /// As some network disks: nobody is kept out.
    pub fn without_locks(self) -> Self {
        self.state().no_locks = true;
        self
    }

    fn state(&self) -> MutexGuard<'_, State> {
        self.state.lock().expect("the disk's state")
    }

    /// Puts something there behind everybody's back, for good.
    pub fn put(&self, path: &Path, node: Node) {
        self.state().nodes.insert(path.to_owned(), node);
    }

    /// Puts a file there behind everybody's back, for good.
    pub fn put_file(&self, path: &Path, bytes: &[u8]) {
        let stamp = self.state().next_stamp(bytes);
        let bytes = bytes.into();
        self.put(path, Node::File { bytes, stamp });
    }

    /// Takes something away behind everybody's back, with all that is in it.
    pub fn take(&self, path: &Path) {
        self.state().take(path);
    }

    /// What stands under a name.
    pub fn node(&self, path: &Path) -> Option<Node> {
        self.state().nodes.get(path).cloned()
    }

    /// A file's content.
    pub fn file(&self, path: &Path) -> Option<Vec<u8>> {
        match self.node(path) {
            Some(Node::File { bytes, .. }) => Some(bytes.to_vec()),
            _ => None,
        }
    }

    /// Every name on the disk.
    pub fn names(&self) -> Vec<PathBuf> {
        self.state().nodes.keys().cloned().collect()
    }

    /// Steps so far.
    pub fn steps(&self) -> usize {
        self.state().steps
    }

    /// Makes a step go wrong, counted from the next one on.
    pub fn break_at(&self, ahead: usize, fault: Fault) {
        let mut state = self.state();
        state.fault = Some((state.steps + ahead, fault));
    }

    /// Lets another desk in right before a step, counted from the next one on.
    pub fn meanwhile(&self, ahead: usize, what: impl FnOnce() + Send + 'static) {
        let mut state = self.state();
        state.meanwhile = Some((state.steps + ahead, Box::new(what)));
    }

    /// Makes the next listing miss a name.
    pub fn miss(&self, path: &Path) {
        self.state().missed = Some(path.to_owned());
    }

    /// Makes the disk well again; whether anything had gone wrong by then.
    pub fn mend(&self) -> bool {
        let mut state = self.state();
        state.meanwhile = None;
        let fault = state.fault.take();
        fault.is_some_and(|(at, _)| at < state.steps)
    }

    /// Cuts the power. Of the changes of names in each folder that nobody settled those stay that
    /// `stays` says, by folder and place in their order: a disk brings names to the medium in any
    /// order. A file whose content nobody synced is whole where `stays` says so of its path and its
    /// length, else it ends in the middle, or has nothing in it. Locks are free again.
    pub fn cut_power(&self, mut stays: impl FnMut(&Path, usize) -> bool) {
        let mut state = self.state();
        let unsynced = std::mem::take(&mut state.unsynced);
        let unsettled = std::mem::take(&mut state.unsettled);
        // What is in a folder first, since the folder itself may go.
        for (folder, changes) in unsettled.into_iter().rev() {
            let mut stand: BTreeMap<PathBuf, Option<Node>> = BTreeMap::new();
            for (at, change) in changes.into_iter().enumerate() {
                let stays = stays(&folder, at);
                for (path, before, after) in change {
                    let stands = stand.entry(path).or_insert(before);
                    if stays {
                        *stands = after;
                    }
                }
            }
            for (path, stands) in stand {
                match stands {
                    Some(node) => drop(state.nodes.insert(path, node)),
                    None => state.take(&path),
                }
            }
        }
        for (path, node) in &mut state.nodes {
            if let Node::File { bytes, stamp } = node
                && unsynced.contains(&stamp.changed_ns)
                && !stays(path, bytes.len())
            {
                let half = bytes.len() / 2 * usize::from(bytes.len() % 2 == 0);
                *bytes = bytes[..half].into();
            }
        }
        self.held.lock().expect("locks").clear();
    }

    /// Files whose content the medium does not have.
    pub fn unsynced(&self) -> Vec<PathBuf> {
        let state = self.state();
        let unsynced = |node: &Node| match node {
            Node::File { stamp, .. } => state.unsynced.contains(&stamp.changed_ns),
            _ => false,
        };
        let nodes = state.nodes.iter().filter(|(_, node)| unsynced(node));
        nodes.map(|(path, _)| path.clone()).collect()
    }

    /// Counts a step; where it fails, says how many bytes of it were done, if it began at all.
    fn step(&self) -> Result<(), (Option<usize>, io::Error)> {
        let mut state = self.state();
        let steps = state.steps;
        if let Some((_, what)) = state.meanwhile.take_if(|(at, _)| *at == steps) {
            drop(state);
            what();
            state = self.state();
        }
        let now = state.steps;
        state.steps += 1;
        state.short_read = None;
        match state.fault {
            Some((at, Fault::Once { short, kind })) if at == now => Err((Some(short), kind.into())),
            Some((at, Fault::ShortRead { short })) if at == now => {
                state.short_read = Some(short);
                Ok(())
            }
            Some((at, Fault::Dead { short })) if at <= now => {
                Err(((at == now).then_some(short), ErrorKind::Other.into()))
            }
            _ => Ok(()),
        }
    }

    fn whole_step(&self) -> io::Result<()> {
        self.step().map_err(|(_, error)| error)
    }
}

impl State {
    fn next_stamp(&mut self, bytes: &[u8]) -> Stamp {
        self.clock += 1;
        Stamp {
            changed_ns: self.clock,
            bytes: bytes.len() as u64,
        }
    }

    fn take(&mut self, path: &Path) {
        self.nodes.retain(|name, _| !name.starts_with(path));
    }

    /// That the folder of a name is there, and no link: nothing of ours may ever go through one.
    fn inside(&self, path: &Path) -> io::Result<()> {
        let above = path.parent().expect("a folder above");
        match self.nodes.get(above) {
            Some(Node::Folder) => Ok(()),
            Some(Node::Link) => panic!("{} leads through a link", path.display()),
            Some(Node::File { .. } | Node::Other) => Err(ErrorKind::NotADirectory.into()),
            None => Err(ErrorKind::NotFound.into()),
        }
    }

    fn note(&mut self, change: Change) {
        let (path, _, _) = change.first().expect("a name");
        let folder = path.parent().expect("a folder above").to_owned();
        self.unsettled.entry(folder).or_default().push(change);
    }

    fn insert(&mut self, path: &Path, node: Node) {
        let after = Some(node.clone());
        let before = self.nodes.insert(path.to_owned(), node);
        self.note(vec![(path.to_owned(), before, after)]);
    }
}
