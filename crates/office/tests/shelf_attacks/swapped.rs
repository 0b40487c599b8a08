//! Somebody swaps names while a desk works: what is guaranteed of a name in the shelf's folders is
//! that no link under it is followed, however fast it comes to stand there.

use std::fs;
use std::os::unix::fs::symlink;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, Instant};

use quillbore_office::disk::{Disk as _, RealDisk};
use quillbore_office::shelf::Version;

use super::place::Place;
use crate::common::forms::{job, key, put};

/// Says that it is done when it is dropped.
struct Done<'a>(&'a AtomicBool);

impl Drop for Done<'_> {
    fn drop(&mut self) {
        self.0.store(true, Ordering::Relaxed);
    }
}

/// Gives a name to a plain file and to a link outside by turns, as fast as can be.
fn swapping(place: &Place, name: &str, file: &[u8], work: impl FnOnce()) {
    let path = place.root().join(name);
    let (plain, link) = (place.outside().join("plain"), place.outside().join("link"));
    let done = AtomicBool::new(false);
    std::thread::scope(|threads| {
        threads.spawn(|| {
            while !done.load(Ordering::Relaxed) {
                fs::write(&plain, file).expect("a file");
                fs::rename(&plain, &path).expect("its name");
                symlink(place.outside().join("letter.txt"), &link).expect("a link");
                fs::rename(&link, &path).expect("its name");
            }
        });
        // The other thread may take its time to begin.
        while fs::symlink_metadata(&path).is_err() {
            std::thread::yield_now();
        }
        // Also where the work fails, lest the other thread goes on for ever.
        let _done = Done(&done);
        work();
    });
}

#[test]
fn a_job_that_is_swapped_for_a_link_is_never_read_through_it() {
    let place = Place::new();
    let (mut seen, mut refused) = (0, 0);
    swapping(&place, "26-0101.ron", b"a job", || {
        let desk = place.desk();
        let begun = Instant::now();
        while seen + refused < 40_000 || seen == 0 || refused == 0 {
            match desk.read(&job("26-0101")) {
                Ok(Some(stored)) => {
                    assert_eq!(stored.bytes, b"a job");
                    seen += 1;
                }
                Ok(None) | Err(_) => refused += 1,
            }
            assert!(
                begun.elapsed() < Duration::from_secs(60),
                "{seen}, {refused}"
            );
        }
    });
}

#[test]
fn a_job_that_is_swapped_for_a_link_is_never_written_through_it() {
    let place = Place::new();
    let letter = place.outside().join("letter.txt");
    let before = fs::metadata(&letter).expect("a letter");
    swapping(&place, "26-0101.ron", b"a job", || {
        let desk = place.desk();
        for _ in 0..60 {
            let _ = put(
                &desk,
                &job("26-0101"),
                b"saved over",
                Some(Version::of(b"a job")),
            );
        }
    });
    let after = fs::metadata(&letter).expect("a letter");
    assert_eq!(fs::read(&letter).expect("a letter"), b"private");
    assert_eq!(before.permissions(), after.permissions());
    assert_eq!(before.modified().ok(), after.modified().ok());
}

#[test]
fn a_lock_and_a_note_that_are_swapped_for_a_link_are_never_opened_through_it() {
    for name in ["open.lock", "open-at.txt", "saving.lock"] {
        let place = Place::new();
        fs::create_dir(place.root().join("26-0101.files")).expect("a folder");
        let letter = place.outside().join("letter.txt");
        let before = fs::metadata(&letter).expect("a letter");
        swapping(&place, &format!("26-0101.files/{name}"), b"", || {
            let (desk, other) = (place.desk(), place.desk());
            for _ in 0..100 {
                let _ours = desk.hold(&key("26-0101"), "front office");
                if let quillbore_office::shelf::Held::Elsewhere(by) =
                    other.hold(&key("26-0101"), "the other")
                {
                    assert!(["front office", ""].contains(&by.as_str()), "{by}");
                }
            }
            let _ = put(&desk, &job("26-0101"), b"a job", None);
        });
        let after = fs::metadata(&letter).expect("a letter");
        assert_eq!(fs::read(&letter).expect("a letter"), b"private");
        assert_eq!(before.permissions(), after.permissions());
    }
}

/// Between writing a file and giving it its name, somebody puts a link in its place: rights and time
/// that the file is to get must not go to what the link leads to.
#[test]
fn what_was_written_and_swapped_for_a_link_gives_its_rights_to_nothing_outside() {
    let place = Place::new();
    let (root, disk) = (place.root(), RealDisk::default());
    let before = place.snapshot();
    for there in [true, false] {
        let (from, to) = (root.join(".26-0101.ron.0.new"), root.join("26-0101.ron"));
        if there {
            fs::write(&to, "a job").expect("a job");
            let rights = std::os::unix::fs::PermissionsExt::from_mode(0o666);
            fs::set_permissions(&to, rights).expect("rights");
        }
        symlink(place.outside().join("letter.txt"), &from).expect("a link");
        disk.rename(&from, &to).expect_err("it is a link");
        assert_eq!(fs::read(&to).ok(), there.then(|| b"a job".to_vec()));
        assert_eq!(place.snapshot(), before);
        fs::remove_file(&from).expect("the link");
        let _ = fs::remove_file(&to);
    }
}
