//! Encryption on the line: the server's certificate is held against an authority and its name, always.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use postgres::{Client, Config, NoTls};
use rustls::pki_types::CertificateDer;
use rustls::pki_types::pem::PemObject as _;
use rustls::{ClientConfig, RootCertStore};
use tokio_postgres_rustls::MakeRustlsConnect;

use super::line::Broken;

/// Whether and with which authorities a line is encrypted.
#[derive(Clone, Debug)]
pub(super) struct Certificates {
    pub(super) is_encrypted: bool,
    /// A file of authorities, in place of the system's.
    pub(super) file: Option<PathBuf>,
}

/// Connects to a server.
pub(super) fn connect(config: &Config, certificates: &Certificates) -> Result<Client, Broken> {
    if !certificates.is_encrypted {
        return config.connect(NoTls).map_err(Broken::Said);
    }
    let authorities = authorities(certificates.file.as_deref())?;
    let provider = Arc::new(rustls::crypto::ring::default_provider());
    let tls = ClientConfig::builder_with_provider(provider)
        .with_safe_default_protocol_versions()
        .map_err(|error| Broken::Authorities(error.to_string()))?
        .with_root_certificates(authorities)
        .with_no_client_auth();
    config
        .connect(MakeRustlsConnect::new(tls))
        .map_err(Broken::Said)
}

fn authorities(file: Option<&Path>) -> Result<RootCertStore, Broken> {
    let mut store = RootCertStore::empty();
    match file {
        Some(file) => {
            let told = |why: String| Broken::Authorities(format!("{}: {why}", file.display()));
            let found = CertificateDer::pem_file_iter(file).map_err(|why| told(why.to_string()))?;
            for certificate in found {
                let certificate = certificate.map_err(|why| told(why.to_string()))?;
                store
                    .add(certificate)
                    .map_err(|why| told(why.to_string()))?;
            }
        }
        None => {
            let found = rustls_native_certs::load_native_certs();
            store.add_parsable_certificates(found.certs);
        }
    }
    Ok(store)
}
