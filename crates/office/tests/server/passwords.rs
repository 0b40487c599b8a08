//! Passwords and certificates of a server that is reached over a network.

use std::path::PathBuf;
use std::process::Command;

use quillbore_office::shelf::server::{Address, Brings, Kept, Password, Server};
use quillbore_office::shelf::{Shelf, ShelfError};
use rcgen::{BasicConstraints, CertificateParams, IsCa, Issuer, KeyPair};

use crate::common::forms::mark;
use crate::common::postgres::Cluster;

/// A server that wants passwords and encryption, and the authority of its certificate.
struct Scene {
    cluster: Cluster,
    folder: tempfile::TempDir,
    port: u16,
}

fn scene() -> Scene {
    let folder = tempfile::tempdir().expect("a folder");
    let authority = |name: &str| {
        let mut params = CertificateParams::new(Vec::new()).expect("parameters");
        params.is_ca = IsCa::Ca(BasicConstraints::Unconstrained);
        params
            .distinguished_name
            .push(rcgen::DnType::CommonName, name);
        let key = KeyPair::generate().expect("a key");
        let certificate = params.self_signed(&key).expect("a certificate");
        std::fs::write(folder.path().join(name), certificate.pem()).expect("written");
        Issuer::new(params, key)
    };
    let ours = authority("ours.crt");
    authority("another.crt");
    let free = std::net::TcpListener::bind("127.0.0.1:0").expect("a port");
    let port = free.local_addr().expect("a port").port();
    drop(free);
    let key = KeyPair::generate().expect("a key");
    let params = CertificateParams::new(vec!["localhost".to_owned()]).expect("parameters");
    let certificate = params.signed_by(&key, &ours).expect("a certificate");
    let cluster = Cluster::on_port(port);
    let data = cluster.socket().join("data");
    std::fs::write(data.join("server.crt"), certificate.pem()).expect("written");
    std::fs::write(data.join("server.key"), key.serialize_pem()).expect("written");
    std::fs::write(
        data.join("pg_hba.conf"),
        "local all shop trust\nhostssl all all 127.0.0.1/32 scram-sha-256\n",
    )
    .expect("written");
    let done = Command::new("sh")
        .arg("-c")
        .arg("chown --reference=PG_VERSION server.key server.crt; chmod 600 server.key")
        .current_dir(&data)
        .status();
    assert!(done.is_ok_and(|done| done.success()));
    for set in [
        "ALTER SYSTEM SET ssl = on",
        "CREATE ROLE jo LOGIN SUPERUSER PASSWORD 'a secret'",
        "CREATE DATABASE shelf",
    ] {
        cluster.sql("postgres", set);
    }
    Scene {
        cluster,
        folder,
        port,
    }
}

impl Scene {
    fn address(&self, host: &str, authority: &str) -> Address {
        let file = self.folder.path().join(authority);
        let text = format!(
            "postgresql://jo@{host}:{}/shelf?sslmode=verify-full&sslrootcert={}",
            self.port,
            file.display()
        );
        Address::read(&text).expect("an address")
    }

    fn desk(&self, address: Address, said: Option<&str>, file: Option<PathBuf>) -> Server {
        let kept = Kept {
            said: said.map(Password::new),
            file,
        };
        Server::new(
            address,
            Brings {
                kept,
                ..Brings::default()
            },
        )
    }
}

#[test]
fn a_server_over_a_network_is_reached_by_password_and_certificate_alone() {
    let scene = scene();
    scene.cluster.kill();
    let good = || scene.address("localhost", "ours.crt");
    // It comes back on its port.
    let desk = scene.desk(good(), Some("a secret"), None);
    let begun = std::time::Instant::now();
    while let Err(error) = desk.adopt(&mark(1)) {
        assert!(begun.elapsed().as_secs() < 60, "{error}");
        std::thread::sleep(std::time::Duration::from_millis(100));
    }
    assert_eq!(desk.mark(), Ok(Some(mark(1))));
    // Without a password, with another one, and then as somebody types it.
    for said in [None, Some("a guess")] {
        let desk = scene.desk(good(), said, None);
        let refused = desk.mark();
        assert!(
            matches!(refused, Err(ShelfError::NoEntry { .. })),
            "{refused:?}"
        );
        assert!(desk.wants_password());
        desk.give_password("a secret");
        assert_eq!(
            (desk.mark(), desk.wants_password()),
            (Ok(Some(mark(1))), false)
        );
    }
    // From the user's own file.
    let file = scene.folder.path().join("passwords");
    std::fs::write(
        &file,
        format!("localhost:{}:shelf:jo:a secret\n", scene.port),
    )
    .expect("written");
    use std::os::unix::fs::PermissionsExt as _;
    let private = std::fs::Permissions::from_mode(0o600);
    // Others may read it: it is passed over, and that is said.
    let desk = scene.desk(good(), None, Some(file.clone()));
    let Err(ShelfError::NoEntry { says, .. }) = desk.mark() else {
        panic!("a password that others may read was taken");
    };
    assert!(
        says.contains("none was given") && says.contains("is passed over"),
        "{says}"
    );
    std::fs::set_permissions(&file, private).expect("private");
    let desk = scene.desk(good(), None, Some(file));
    assert_eq!(desk.mark(), Ok(Some(mark(1))));
    // Nowhere is it shown.
    let shown = format!("{desk:?} {:?}", scene.desk(good(), Some("a secret"), None));
    assert!(!shown.contains("a secret"), "{shown}");
    // Another authority, and another name than that of the certificate.
    for (host, authority) in [
        ("localhost", "another.crt"),
        ("127.0.0.1", "ours.crt"),
        ("localhost", "none.crt"),
    ] {
        let desk = scene.desk(scene.address(host, authority), Some("a secret"), None);
        let refused = desk.mark();
        let Err(ShelfError::NoServer { says, .. }) = &refused else {
            panic!("{host} {authority}: {refused:?}");
        };
        assert!(says.contains("certificate"), "{says}");
    }
    // Without encryption the server lets nobody in.
    let plain = format!(
        "postgresql://jo@localhost:{}/shelf?sslmode=disable",
        scene.port
    );
    let desk = scene.desk(
        Address::read(&plain).expect("an address"),
        Some("a secret"),
        None,
    );
    assert!(desk.mark().is_err());
}
