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
    /// The server does not show that it is the one that is meant.
    NotTrusted(String),
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
            // a certificate that is refused, in the words of TLS as far as a person reads them
            Some(why) if why.kind() == io::ErrorKind::InvalidData => {
                Self::NotTrusted(why.to_string().split(" {").next().unwrap_or_default().to_owned())
            }
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
    let config = settled(written)?;
    if config.get_ssl_mode() == SslMode::Require {
        let (tls, _) = MakeRustlsConnect::with_native_certs().map_err(|_| GroupFault::NoCertificates)?;
        return Ok(config.connect(tls)?);
    }
    Ok(config.connect(NoTls)?)
}

/// What a string says, with TLS or without it: what would take the one it gets would give a password to whoever answers.
fn settled(written: &str) -> Result<Config, GroupFault> {
    // what the reader of the string says of it would quote it
    let mut config: Config = written.parse().map_err(|_| GroupFault::NotAConnection)?;
    if config.get_hosts().is_empty() {
        return Err(GroupFault::NotAConnection);
    }
    if config.get_ssl_mode() == SslMode::Prefer {
        let is_here = config.get_hosts().iter().all(is_this_machine);
        config.ssl_mode(if is_here { SslMode::Disable } else { SslMode::Require });
    }
    Ok(config)
}

fn is_this_machine(host: &Host) -> bool {
    match host {
        Host::Tcp(name) => name == "localhost" || name.parse().is_ok_and(|ip: std::net::IpAddr| ip.is_loopback()),
        #[cfg(unix)]
        Host::Unix(_) => true,
    }
}
