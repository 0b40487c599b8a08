//! A shelf that moves house.

use std::path::Path;
use std::sync::Arc;

use quillbore_office::copy_shelf::{Copied, NotCopied, copy};
use quillbore_office::disk::RealDisk;
use quillbore_office::shelf::{Commit, CommitError, Cursor, Folder, Shelf, ShelfError};

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
    let desk = Cluster::desk(&address);
    assert_eq!(desk.mark(), Ok(Some(mark(2))));
    let copied = copy(&folder, &server, &mut |_| true).expect("copied");
    assert_eq!((copied.documents.len(), copied.files), (1, 1));
    assert!(copied.is_all() && copied.is_new);
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

/// A folder that is a shelf, with so many jobs.
fn folder(place: &Path, number: u8, jobs: u32) -> Folder {
    let folder = Folder::new(Arc::new(RealDisk::default()), place, None);
    folder.adopt(&mark(number)).expect("a mark");
    for at in 0..jobs {
        let doc = job(&format!("26-{number}{at:03}"));
        let commit = Commit::one(doc, format!("job {at}").into_bytes(), None);
        folder.commit(&commit).expect("saved");
    }
    folder
}

#[test]
fn half_a_copy_is_no_shelf_that_anybody_works_in_until_it_is_whole() {
    let (from, place) = (
        tempfile::tempdir().expect("a folder"),
        tempfile::tempdir().expect("a folder"),
    );
    let from = folder(from.path(), 1, 30);
    let address = shared().database();
    let at_folder = || Folder::new(Arc::new(RealDisk::default()), place.path(), None);
    let at_server = || Cluster::desk(&address);
    let places: [&dyn Fn() -> Box<dyn Shelf>; 2] =
        [&|| Box::new(at_folder()), &|| Box::new(at_server())];
    for at in places {
        let stopped = copy(&from, at().as_ref(), &mut |so_far| so_far.done < 7).expect("a part");
        assert!(!stopped.is_done && !stopped.is_all());
        let desk = at();
        let half = |refused: Result<(), ShelfError>| {
            assert!(
                matches!(refused, Err(ShelfError::HalfCopied { .. })),
                "{refused:?}"
            );
        };
        half(desk.mark().map(drop));
        half(desk.adopt(&mark(9)));
        let save = Commit::one(job("26-9999"), b"too early".to_vec(), None);
        assert!(matches!(
            desk.commit(&save),
            Err(CommitError::Shelf(ShelfError::HalfCopied { .. }))
        ));
        // Nor is it the first of another copy.
        let other = tempfile::tempdir().expect("a folder");
        let onto_other = Folder::new(Arc::new(RealDisk::default()), other.path(), None);
        let refused = copy(at().as_ref(), &onto_other, &mut |_| true);
        assert!(
            matches!(
                refused,
                Err(NotCopied::Shelf(ShelfError::HalfCopied { .. }))
            ),
            "{refused:?}"
        );
        let copied = copy(&from, at().as_ref(), &mut |_| true).expect("copied");
        assert_eq!((copied.documents.len(), copied.there.len()), (23, 7));
        let desk = at();
        assert_eq!(desk.mark(), Ok(Some(mark(1))));
        desk.commit(&save).expect("saved");
        // A whole one stays one while it is brought up.
        let again = copy(&from, at().as_ref(), &mut |so_far| so_far.done < 3).expect("a part");
        assert!(!again.is_done);
        assert_eq!(at().mark(), Ok(Some(mark(1))));
    }
}

#[test]
fn of_two_shelves_that_are_copied_to_one_empty_place_at_once_one_gets_it() {
    let (one, two) = (
        tempfile::tempdir().expect("a folder"),
        tempfile::tempdir().expect("a folder"),
    );
    let shelves = [folder(one.path(), 1, 12), folder(two.path(), 2, 12)];
    for round in 0..6 {
        let place = tempfile::tempdir().expect("a folder");
        let address = shared().database();
        let at: &(dyn Fn() -> Box<dyn Shelf> + Sync) = match round % 2 {
            0 => &|| {
                Box::new(Folder::new(
                    Arc::new(RealDisk::default()),
                    place.path(),
                    None,
                ))
            },
            _ => &|| Box::new(Cluster::desk(&address)),
        };
        let ended: Vec<_> = std::thread::scope(|threads| {
            let copies = shelves
                .each_ref()
                .map(|from| threads.spawn(move || copy(from, at().as_ref(), &mut |_| true)));
            copies
                .into_iter()
                .map(|copy| copy.join().expect("an end"))
                .collect()
        });
        let done = ended
            .iter()
            .filter(|ended| ended.as_ref().is_ok_and(Copied::is_all))
            .count();
        let refused = |ended: &&Result<Copied, NotCopied>| {
            matches!(ended, Err(NotCopied::AnotherShelf { .. }))
        };
        assert_eq!(
            (done, ended.iter().filter(refused).count()),
            (1, 1),
            "{round}: {ended:?}"
        );
        assert_eq!(
            at().changes(&Cursor::default())
                .expect("a list")
                .there
                .len(),
            12
        );
    }
}

#[test]
fn a_shelf_that_was_saved_often_since_is_brought_up_and_copied_by_two_at_once() {
    let address = shared().database();
    let server = Cluster::desk(&address);
    server.adopt(&mark(1)).expect("a mark");
    let save = |text: &str| {
        let over = server
            .read(&job("26-0101"))
            .expect("read")
            .map(|there| there.version);
        let commit = Commit::one(job("26-0101"), text.as_bytes().to_vec(), over);
        server.commit(&commit).expect("saved");
    };
    save("first");
    let place = tempfile::tempdir().expect("a folder");
    let folder = || Folder::new(Arc::new(RealDisk::default()), place.path(), None);
    copy(&server, &folder(), &mut |_| true).expect("copied");
    ["second", "third", "fourth"].into_iter().for_each(save);
    let both: Vec<_> = std::thread::scope(|threads| {
        let copies = [(), ()].map(|()| threads.spawn(|| copy(&server, &folder(), &mut |_| true)));
        copies.map(|copy| copy.join().expect("an end")).into()
    });
    for ended in both {
        assert!(ended.as_ref().is_ok_and(Copied::is_all), "{ended:?}");
    }
    assert_eq!(folder().read(&job("26-0101")), server.read(&job("26-0101")));
}

#[test]
fn what_a_hand_put_on_a_server_is_named_and_no_paper_is_touched_by_it() {
    let cluster = shared();
    let address = cluster.database();
    let database = address.database_name();
    let server = Cluster::desk(&address);
    server.adopt(&mark(1)).expect("a mark");
    let large = vec![7; 3_000_000];
    let commit = Commit {
        attachments: vec![
            beside(&key("26-0101"), "a.pdf", b"%PDF"),
            beside(&key("26-0101"), "b.stp", &large),
        ],
        ..Commit::one(job("26-0101"), b"a job".to_vec(), None)
    };
    // Parts of what nobody stored yet, too: they make way.
    cluster.sql(database, "SELECT quillbore.put_part(sha256('%PDF'), 1, 'evil'), quillbore.put_part(sha256('%PDF'), 0, 'evil')");
    server.commit(&commit).expect("saved");
    cluster.sql(database, "SELECT quillbore.put_part(version, part, 'evil') FROM quillbore.attachment, generate_series(-1, 4) part");
    let there = |name: &str| server.attachment(&key("26-0101"), &crate::common::forms::name(name));
    assert_eq!(there("a.pdf"), Ok(Some(b"%PDF".to_vec())));
    assert!(there("b.stp") == Ok(Some(large)));
    let mut client = cluster.client(database, "shop").expect("a line");
    for evil in ["../evil", "a/b", "", ".hidden", "two\nlines"] {
        let put = "SELECT came_to FROM quillbore.put($1, 'c', 'k', ARRAY[$2], ARRAY[NULL]::bytea[], \
            ARRAY[sha256('x')], ARRAY['x']::bytea[], '{}', '{}', '{}', '{}', '{}')";
        assert!(
            client.query(put, &[&mark(1).as_str(), &evil]).is_err(),
            "{evil}"
        );
    }
    let until = "SELECT quillbore.take_hold('26-0101', 'x', 'y', 1e9)";
    client.batch_execute(until).expect("held");
    let row = client.query_one(
        "SELECT until < clock_timestamp() + interval '11 minutes' FROM quillbore.hold",
        &[],
    );
    assert!(row.expect("a hold").get::<_, bool>(0));
    // The owner can do everything; what no shelf keeps is named.
    cluster.sql(database, "INSERT INTO quillbore.attachment SELECT '26-0101', 'con.pdf', version, 'x' FROM quillbore.content LIMIT 1");
    assert_eq!(server.strays(), Ok(vec!["26-0101/con.pdf".to_owned()]));
}
