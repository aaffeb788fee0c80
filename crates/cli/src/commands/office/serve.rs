//! `underlath office`: the door, opened.

use std::env;
use std::fs::{File, TryLockError};
use std::io;
use std::net::{IpAddr, SocketAddr};
use std::path::Path;
use std::sync::Arc;

use actions::{Clock as _, Error, Kind};
use apart::Apart;
use office::people::People;
use office::{Desk, Scanner};
use serde_json::json;
use server::{SCREENS, Serving};
use words::msg;

use super::certificate::{identity, seen_from_outside};
use super::collect;
use super::house::{AtDesk, Houses, InUse};
use super::line::{Ground, Line};
use super::people_said::error as people_error;
use super::reception::{Desks, Reception};
use super::watch;
use crate::args::Office;
use crate::commands::Room;
use crate::commands::shelf::FirmShelf;
use crate::fail;
use crate::out::Out;
use crate::world::{SystemClock, fill};

/// The page of the office among the screens.
const PAGE: &str = "office.html";
/// The folder of what is coming.
const COMING: &str = "coming";

pub fn run(args: &Office, dir: &Path, room: &Room<'_>, out: &mut Out) -> Result<(), Error> {
    // A fault of the catalog is said here and not on every screen.
    let shelf = FirmShelf::new(room, None)?;
    let catalog = shelf.catalog()?;
    let in_use = Arc::new(InUse::new(shelf, catalog));
    // This program once more, which then does nothing but that.
    let pictures =
        Apart::new(env::current_exe().map_err(|e| {
            Error::new(Kind::Internal, msg!("photo-apart-not-started", said = e.to_string()))
        })?);
    // The office's own folder is made by the desk.
    let reading = Desk::open(dir).map_err(fail::office)?;
    let _alone = alone(dir)?;
    let scanner = args.scanner.as_deref().map(|program| Scanner::tried(program, &dir.join(COMING)));
    let scanner = scanner.transpose().map_err(fail::office)?;
    let open = || -> Result<Desk, Error> {
        let mut desk = Desk::open(dir).map_err(fail::office)?;
        desk.look_with(scanner.clone());
        Ok(desk)
    };
    let (receiving, filing) = (open()?, open()?);
    // The office's own folder is there by now.
    let watched = args.watch.as_deref().map(|folder| watch::folder(folder, dir)).transpose()?;
    let houses = |desk| -> Box<dyn Houses> {
        Box::new(AtDesk::new(desk, Arc::clone(&in_use), pictures.clone(), watched.clone()))
    };
    let desks = Desks { reading: houses(reading), receiving: houses(receiving), filing: houses(filing) };
    let people = Arc::new(People::open(dir).map_err(people_error)?);
    let (identity, new) = identity(args, dir, SystemClock.now())?;
    let fingerprint = identity.fingerprint();
    let door = server::Office::open(args.address, identity).map_err(|e| port(args.address, &e))?;
    let token = people.one_time_token(&mut fill).map_err(people_error)?;
    let address = address(args, door.at());
    let link = token.map(|token| format!("{address}/{PAGE}#set-up/{token}"));
    let sum = fingerprint.parse().map_err(|e: courier::LinkError| {
        Error::new(Kind::Internal, msg!("error-internal", said = e.to_string()))
    })?;
    let ground = Ground {
        dir,
        address: &address,
        fingerprint: sum,
        words: out.words(),
        people: Arc::clone(&people),
        scanner: scanner.clone(),
    };
    let line = Arc::new(Line::open(&ground)?);
    if let Some(folder) = &watched {
        watch::begin(folder, dir, &line, out.words())?;
    }
    let outside = || seen_from_outside(door.at()).unwrap_or(door.at().ip()).to_string();
    let named = args.name.first().cloned().unwrap_or_else(outside);
    if let Some(collector) = collect::collector(args.log_to.as_deref(), args.log_ca.as_deref(), &named)? {
        collect::begin(collector, dir, Arc::clone(&people), out.words())?;
    }
    let watched = watched.map(|folder| folder.display().to_string());
    let have = SCREENS.have(PAGE);
    if out.json() {
        out.value(&json!({
            "address": address,
            "listening": door.at(),
            "fingerprint": fingerprint,
            "set_up": link,
            "screens": have,
            "watched": watched,
            "scanner": args.scanner,
            "log_to": args.log_to,
        }));
    } else {
        out.tell(msg!("office-open", address = address));
        out.tell_in(2, msg!("office-fingerprint", sum = fingerprint));
        if new {
            out.tell_in(2, msg!("office-certificate-new"));
        }
        if !have {
            out.tell_in(2, msg!("office-no-screens"));
        }
        if let Some(folder) = watched {
            out.tell_in(2, msg!("office-watches", folder = folder));
        }
        if let Some(program) = &args.scanner {
            out.tell_in(2, msg!("office-scans", program = program.display().to_string()));
        }
        if let Some(to) = &args.log_to {
            out.tell_in(2, msg!("office-log-goes", to = to));
        }
        if let Some(link) = link {
            out.tell(msg!("office-set-up"));
            out.line(format!("  {link}"));
        }
        out.tell(msg!("office-how"));
    }
    let serving = Serving {
        answers: Arc::new(Reception::new(people, Arc::clone(&line), desks, out.words())),
        tablets: line,
        screens: SCREENS,
        coming: dir.join(COMING),
        names: args.name.clone(),
    };
    door.serve(serving).map_err(|e| fail::file(dir, &e))
}

/// One program serves an office: what is coming in belongs to it, and is swept by the next.
fn alone(dir: &Path) -> Result<File, Error> {
    let path = dir.join("serving.lock");
    let file = File::create(&path).map_err(|e| fail::file(&path, &e))?;
    match file.try_lock() {
        Ok(()) => Ok(file),
        Err(TryLockError::WouldBlock) => {
            let message = msg!("error-office-served", path = dir.display().to_string());
            Err(Error::new(Kind::Conflict, message).hint(msg!("error-office-served-hint")))
        }
        Err(TryLockError::Error(e)) => Err(fail::file(&path, &e)),
    }
}

/// The address to open: by name where one was given, otherwise as others of the network see this machine.
fn address(args: &Office, at: SocketAddr) -> String {
    let port = at.port();
    match (args.name.first(), seen_from_outside(at)) {
        (Some(name), _) => format!("https://{name}:{port}"),
        (None, Some(IpAddr::V6(ip))) => format!("https://[{ip}]:{port}"),
        (None, Some(ip)) => format!("https://{ip}:{port}"),
        (None, None) => format!("https://localhost:{port}"),
    }
}

fn port(address: SocketAddr, e: &io::Error) -> Error {
    let (at, said) = (address.to_string(), e.to_string());
    match e.kind() {
        io::ErrorKind::AddrInUse => {
            Error::new(Kind::Conflict, msg!("error-port-taken", port = at)).hint(msg!("error-address-hint"))
        }
        io::ErrorKind::PermissionDenied => {
            Error::new(Kind::Input, msg!("error-port-denied", port = at, said = said))
                .hint(msg!("error-address-hint"))
        }
        _ => Error::new(Kind::Input, msg!("error-address", address = at, said = said))
            .hint(msg!("error-address-hint")),
    }
}
