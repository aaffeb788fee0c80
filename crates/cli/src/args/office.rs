//! What can be typed after `office`.

use std::net::SocketAddr;
use std::path::PathBuf;

use clap::{Args as ClapArgs, Subcommand};

/// The office over the network.
#[derive(ClapArgs, Debug)]
#[command(args_conflicts_with_subcommands = true)]
pub struct Office {
    /// What to do besides
    #[command(subcommand)]
    pub what: Option<OfficeVerb>,
    /// Address and port to listen on; 127.0.0.1 is this machine only, 0.0.0.0 the whole network
    #[arg(long, value_name = "ADDRESS:PORT", default_value = "0.0.0.0:8443")]
    pub address: SocketAddr,
    /// Certificate in PEM, with those that vouch for it [default: one made here and kept in the office's folder]
    #[arg(long, value_name = "FILE", requires = "key")]
    pub certificate: Option<PathBuf>,
    /// Key of that certificate in PEM
    #[arg(long, value_name = "FILE", requires = "certificate")]
    pub key: Option<PathBuf>,
    /// A name by which browsers reach the office; may be given several times
    #[arg(long, value_name = "NAME")]
    pub name: Vec<String>,
    /// Take packets in that appear in this folder, and set them aside in it
    #[arg(long, value_name = "DIR")]
    pub watch: Option<PathBuf>,
    /// Have this program look at each packet and photograph before it is kept; it is started with the file’s path and ends with 0 where it found nothing, 1 where it found something
    #[arg(long, value_name = "PROGRAM")]
    pub scanner: Option<PathBuf>,
    /// Send the lines of the audit log to this machine too, over TLS (RFC 5424, RFC 5425)
    #[arg(long, value_name = "HOST:PORT", requires = "log_ca")]
    pub log_to: Option<String>,
    /// Certificates in PEM by which that machine is known
    #[arg(long, value_name = "FILE", requires = "log_to")]
    pub log_ca: Option<PathBuf>,
}

/// The verbs of the office.
#[derive(Subcommand, Debug)]
pub enum OfficeVerb {
    /// Write the whole office into one file, while it goes on working
    Backup(OfficeBackup),
    /// Print what was done at the office, a line of JSON each, for a program that collects such lines
    Log(OfficeLog),
    /// Give somebody of the office another password, read from standard input; for an owner who forgot theirs
    Password(OfficePassword),
    /// Put the office back from such a file, into an empty folder
    Restore(OfficeRestore),
}

/// A backup.
#[derive(ClapArgs, Debug)]
pub struct OfficeBackup {
    /// The file to write, which must not be there yet
    pub file: PathBuf,
}

/// Lines of the audit log.
#[derive(ClapArgs, Debug)]
pub struct OfficeLog {
    /// Only lines after this number
    #[arg(long, value_name = "NUMBER", default_value_t = 0)]
    pub after: u64,
}

/// Another password.
#[derive(ClapArgs, Debug)]
pub struct OfficePassword {
    /// Name of the person
    pub name: String,
}

/// A backup to restore.
#[derive(ClapArgs, Debug)]
pub struct OfficeRestore {
    /// The file written by “office backup”
    pub file: PathBuf,
}
