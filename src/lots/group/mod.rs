//! A group of sites: their books on one PostgreSQL server, which each site adds to and reads, and never changes.
//!
//! The tables and the views of a manager are SQL, printed for who sets the server up ([`postgres_setup`]); the same views
//! stand over the books themselves with DuckDB ([`duckdb_views`]).

#[cfg(feature = "group")]
mod carry;
#[cfg(feature = "group")]
mod server;

#[cfg(feature = "group")]
pub use carry::{Pulled, Transfer, pull, push};
#[cfg(feature = "group")]
pub use postgres::Client as GroupServer;
#[cfg(feature = "group")]
pub use server::{GroupFault, connect};

const VIEWS: &str = include_str!("views.sql");

/// What the owner of a database runs once: tables, views and the roles of a site and of a manager.
pub fn postgres_setup() -> String {
    [include_str!("postgres.sql"), VIEWS, include_str!("grants.sql")].concat()
}

/// The views over the JSON Lines of one folder or several.
pub fn duckdb_views() -> String {
    [include_str!("duckdb.sql"), VIEWS].concat()
}
