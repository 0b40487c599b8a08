//! A shelf that moves house.

use std::sync::Arc;

use quillbore_office::copy_shelf::{NotCopied, copy};
use quillbore_office::disk::RealDisk;
use quillbore_office::shelf::{Commit, Folder, Shelf};

use crate::common::forms::{beside, job, key, mark};
use crate::common::postgres::{Cluster, shared};

#[test]
fn a_copy_onto_a_shelf_that_was_only_made_is_the_same_shelf_and_onto_one_in_use_is_refused() {
    let place = tempfile::tempdir().expect("a folder");
    let folder = Folder::new(Arc::new(RealDisk::default()), place.path(), None);
    folder.adopt(&mark(1)).expect("a mark");
    let commit = Commit {
        attachments: vec![beside(&key("26-0101"), "a.pdf", b"%PDF")],
        ..Commit::one(job("26-0101"), b"a job".to_vec(), None)
    };
    folder.commit(&commit).expect("saved");
    let address = shared().database();
    let server = Cluster::desk(&address);
    server.adopt(&mark(2)).expect("a mark");
    let copied = copy(&folder, &server, &mut |_| true).expect("copied");
    assert_eq!((copied.documents, copied.files), (1, 1));
    // A desk that comes later, and the one that copied, see one shelf.
    assert_eq!(server.mark(), Ok(Some(mark(1))));
    assert_eq!(Cluster::desk(&address).mark(), Ok(Some(mark(1))));
    assert_eq!(server.read(&job("26-0101")), folder.read(&job("26-0101")));
    // Something is kept there: it stays the shelf that it is.
    for kept in ["a job", "a file"] {
        let used = Cluster::desk(&shared().database());
        used.adopt(&mark(3)).expect("a mark");
        let mut commit = match kept {
            "a job" => Commit::one(job("26-0007"), b"theirs".to_vec(), None),
            _ => Commit::default(),
        };
        if kept == "a file" {
            commit
                .attachments
                .push(beside(&key("26-0007"), "b.pdf", b"%PDF"));
        }
        used.commit(&commit).expect("saved");
        let refused = copy(&folder, &used, &mut |_| true);
        assert!(
            matches!(refused, Err(NotCopied::AnotherShelf { .. })),
            "{kept}: {refused:?}"
        );
        assert_eq!(used.mark(), Ok(Some(mark(3))));
    }
}
