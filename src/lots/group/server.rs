//! The connection to the server of the group. What a connection string says is never said again: it may hold a password.

use std::error::Error as _;
use std::io;

use postgres::config::{Host, SslMode};
use postgres::error::SqlState;
use postgres::{Client, Config, NoTls};
use tokio_postgres_rustls::MakeRustlsConnect;

/// Why nothing was carried.
#[derive(Debug)]
pub enum GroupFault {
    /// It is no connection string.
    NotAConnection,
    /// This machine trusts no certificate, and the server is elsewhere.
    NoCertificates,
    /// The machine or the network says so.
    Machine(io::Error),
    /// The database has no tables of a group.
    NotSetUp,
    /// The login may not do that.
    NotAllowed(String),
    /// The server or what speaks with it says so.
    Server(String),
}

impl From<postgres::Error> for GroupFault {
    fn from(error: postgres::Error) -> Self {
        if let Some(said) = error.as_db_error() {
            let words = said.message().to_owned();
            return match *said.code() {
                SqlState::UNDEFINED_TABLE | SqlState::INVALID_SCHEMA_NAME => Self::NotSetUp,
                SqlState::INSUFFICIENT_PRIVILEGE => Self::NotAllowed(words),
                _ => Self::Server(words),
            };
        }
        let of_machine = error.source().and_then(|source| source.downcast_ref::<io::Error>());
        match of_machine {
            // what TLS says is wrapped as a fault of the machine
            Some(why) => Self::Machine(io::Error::new(why.kind(), why.to_string())),
            None => Self::Server(error.source().map_or_else(|| error.to_string(), ToString::to_string)),
        }
    }
}

/// Opens the connection. A server that is not this machine is spoken with by TLS and must show a certificate that this machine
/// trusts, unless the string says `sslmode=disable`.
///
/// # Errors
/// Where the string cannot be read, or the server not be reached or does not let one in.
pub fn connect(written: &str) -> Result<Client, GroupFault> {
    // what the reader of the string says of it would quote it
    let mut config: Config = written.parse().map_err(|_| GroupFault::NotAConnection)?;
    if config.get_hosts().is_empty() {
        return Err(GroupFault::NotAConnection);
    }
    let elsewhere = config.get_hosts().iter().any(|host| !is_this_machine(host));
    match config.get_ssl_mode() {
        SslMode::Disable => {}
        SslMode::Prefer if !elsewhere => {}
        _ => {
            config.ssl_mode(SslMode::Require);
            let (tls, _) = MakeRustlsConnect::with_native_certs().map_err(|_| GroupFault::NoCertificates)?;
            return Ok(config.connect(tls)?);
        }
    }
    Ok(config.connect(NoTls)?)
}

fn is_this_machine(host: &Host) -> bool {
    match host {
        Host::Tcp(name) => name == "localhost" || name.parse().is_ok_and(|ip: std::net::IpAddr| ip.is_loopback()),
        #[cfg(unix)]
        Host::Unix(_) => true,
    }
}
