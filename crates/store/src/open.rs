//! Opening the store, and making a new one so that a crash while making it leaves nothing half made.

use std::fs::{File, OpenOptions};
use std::path::{Path, PathBuf};
use std::time::Duration;

use rusqlite::config::DbConfig;
use rusqlite::{Connection, OpenFlags};
use survey::{DeviceId, Stamp};

use crate::blobs::Blobs;
use crate::error::{ErrorKind, IoAt, SqlAt, StoreError};
use crate::files::{private_dir, private_file, remove_if_there, sync_dir, with_ending};
use crate::migrate::{self, MIGRATIONS};
use crate::projection;
use survey::{Phrase, say};

/// File name of the database inside the store's folder.
pub const DATABASE: &str = "underlath.sqlite";

/// "ULTH" as a number: SQLite keeps it in the file's header, so that a foreign database is known as one.
const APPLICATION_ID: i64 = 0x554C_5448;

/// How long to wait for another process that is writing.
const PATIENCE: Duration = Duration::from_secs(10);

/// The store of one device, open.
#[derive(Debug)]
pub struct Store {
    pub(crate) conn: Connection,
    pub(crate) dir: PathBuf,
    pub(crate) file: PathBuf,
    pub(crate) device: DeviceId,
    pub(crate) blobs: Blobs,
    /// Small pictures made of photographs; not records.
    pub(crate) previews: Blobs,
}

impl Store {
    /// Opens the store in `dir`, making folder, database and device when there is none yet.
    ///
    /// `now` is recorded where something is made; `fresh_device` becomes this device's id only in a new store.
    /// Errors: `Damaged`, `Newer`, `Conflict` (another program's database), `Full`, `Io`.
    pub fn open(dir: &Path, now: Stamp, fresh_device: DeviceId) -> Result<Self, StoreError> {
        private_dir(dir).doing(Phrase("store-make-surveys-folder"), dir)?;
        let file = dir.join(DATABASE);
        if !file.exists() {
            create(dir, &file, now, fresh_device)?;
        }
        let length = file.metadata().doing(Phrase("store-read-database"), &file)?.len();
        if length == 0 {
            // A new database only gets its name when it is whole, so an empty one has lost what it held.
            return Err(StoreError::damaged(Phrase("store-empty"), &file));
        }
        let mut conn = connect(&file)?;
        recognize(&conn, &file)?;
        configure(&conn, &file)?;
        migrate::run(&mut conn, MIGRATIONS, now, &file)?;
        projection::ensure(&mut conn, &file)?;
        let device = own_device(&conn, &file)?;
        let blobs = Blobs::in_dir(dir)?;
        let previews = Blobs::previews_in_dir(dir)?;
        Ok(Self { conn, dir: dir.to_owned(), file, device, blobs, previews })
    }
    /// This device's id.
    pub fn device(&self) -> DeviceId {
        self.device
    }
    /// The name this device was given; empty until it is given one.
    pub fn device_name(&self) -> Result<String, StoreError> {
        self.conn.query_row("SELECT name FROM device", [], |row| row.get(0)).at(&self.file)
    }
    /// Gives this device a name.
    pub fn name_device(&mut self, name: &str) -> Result<(), StoreError> {
        self.conn.execute("UPDATE device SET name = ?1", [name]).at(&self.file)?;
        Ok(())
    }
    /// The folder of the store.
    pub fn dir(&self) -> &Path {
        &self.dir
    }
    /// The photographs.
    pub fn blobs(&self) -> &Blobs {
        &self.blobs
    }
}

/// Opens a database file that must exist.
pub(crate) fn connect(file: &Path) -> Result<Connection, StoreError> {
    let flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_NO_MUTEX;
    let conn = Connection::open_with_flags(file, flags).at(file)?;
    conn.busy_timeout(PATIENCE).at(file)?;
    Ok(conn)
}

/// Refuses a database that is not ours before anything is written to it.
fn recognize(conn: &Connection, file: &Path) -> Result<(), StoreError> {
    let id: i64 = conn.query_row("PRAGMA application_id", [], |row| row.get(0)).at(file)?;
    if id == APPLICATION_ID {
        return Ok(());
    }
    Err(StoreError::new(
        ErrorKind::Conflict,
        Phrase("store-other-program"),
        file,
        Phrase("store-other-program-mend"),
    ))
}

/// Settings that hold for one connection.
fn configure(conn: &Connection, file: &Path) -> Result<(), StoreError> {
    // FULL: the write-ahead log is fsynced at every commit. `fullfsync` makes that real on macOS, nothing elsewhere.
    conn.execute_batch(
        "PRAGMA synchronous = FULL; PRAGMA fullfsync = ON; PRAGMA checkpoint_fullfsync = ON;
         PRAGMA foreign_keys = ON; PRAGMA cell_size_check = ON; PRAGMA recursive_triggers = ON;",
    )
    .at(file)?;
    let mode: String = conn.query_row("PRAGMA journal_mode = WAL", [], |row| row.get(0)).at(file)?;
    let level: i64 = conn.query_row("PRAGMA synchronous", [], |row| row.get(0)).at(file)?;
    if mode != "wal" || level != 2 {
        return Err(StoreError::new(
            ErrorKind::Io,
            say!("store-no-journal", mode = mode, level = level.to_string()),
            file,
            Phrase("store-no-journal-mend"),
        ));
    }
    for (setting, on) in [
        (DbConfig::SQLITE_DBCONFIG_DEFENSIVE, true), // no writing to the schema behind SQLite's back
        (DbConfig::SQLITE_DBCONFIG_TRUSTED_SCHEMA, false), // a prepared file cannot call functions
        (DbConfig::SQLITE_DBCONFIG_DQS_DML, false),  // "name" is a name, never a text
        (DbConfig::SQLITE_DBCONFIG_DQS_DDL, false),
    ] {
        conn.set_db_config(setting, on).at(file)?;
    }
    conn.set_prepared_statement_cache_capacity(64);
    Ok(())
}

fn own_device(conn: &Connection, file: &Path) -> Result<DeviceId, StoreError> {
    let mut statement = conn.prepare("SELECT id FROM device").at(file)?;
    let ids: Vec<[u8; 16]> =
        statement.query_map([], |row| row.get(0)).at(file)?.collect::<rusqlite::Result<_>>().at(file)?;
    match ids[..] {
        [id] => Ok(DeviceId::from_bytes(id)),
        _ => Err(StoreError::damaged(Phrase("store-no-device"), file)),
    }
}

/// Makes a whole new database under another name and then gives it its own. A lock keeps two processes apart.
fn create(dir: &Path, file: &Path, now: Stamp, device: DeviceId) -> Result<(), StoreError> {
    let lock_file = dir.join("underlath.lock");
    let lock = open_lock(&lock_file).doing(Phrase("store-make-lock"), &lock_file)?;
    lock.lock().doing(Phrase("store-lock-folder"), &lock_file)?;
    if file.exists() {
        return Ok(());
    }
    let orphan = with_ending(file, "-wal");
    if orphan.exists() {
        return Err(StoreError::damaged(Phrase("store-gone"), &orphan));
    }
    let fresh = with_ending(file, ".new");
    for ending in ["", "-journal", "-wal", "-shm"] {
        let leftover = with_ending(&fresh, ending);
        remove_if_there(&leftover).doing(Phrase("store-remove-half-database"), &leftover)?;
    }
    private_file(&fresh).doing(Phrase("store-make-database"), &fresh)?;
    let mut conn = connect(&fresh)?;
    conn.execute_batch(&format!("PRAGMA page_size = 4096; PRAGMA application_id = {APPLICATION_ID};"))
        .at(&fresh)?;
    configure(&conn, &fresh)?;
    migrate::run(&mut conn, MIGRATIONS, now, &fresh)?;
    conn.execute(
        "INSERT INTO device (only_row, id, name, created_at) VALUES (1, ?1, '', ?2)",
        (device.as_bytes(), now.to_string()),
    )
    .at(&fresh)?;
    projection::ensure(&mut conn, &fresh)?;
    conn.close().map_err(|(_, e)| StoreError::from_sql(&e, &fresh))?;
    File::open(&fresh).and_then(|f| f.sync_all()).doing(Phrase("store-write-database"), &fresh)?;
    std::fs::rename(&fresh, file).doing(Phrase("store-name-database"), file)?;
    sync_dir(dir).doing(Phrase("store-write-surveys-folder"), dir)
}

fn open_lock(path: &Path) -> std::io::Result<File> {
    let mut options = OpenOptions::new();
    options.write(true).create(true).truncate(false);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    options.open(path)
}
