//! The certificate the office shows: the one named, or one that is made once and kept in its folder.

use std::fs;
use std::net::{IpAddr, Ipv4Addr, Ipv6Addr, SocketAddr, UdpSocket};
use std::path::Path;

use actions::{Error, Kind, Stamp};
use server::{Identity, IdentityError};
use words::msg;

use crate::args::Office;
use crate::fail;

/// Stands before the certificate, outside what PEM reads.
const UNTIL: &str = "Valid until: ";
/// How long before its end another one is made.
const BEFORE_MS: i64 = 30 * 24 * 60 * 60 * 1000;

/// The certificate, and whether it was made just now.
pub fn identity(args: &Office, dir: &Path, now: Stamp) -> Result<(Identity, bool), Error> {
    if let (Some(certificate), Some(key)) = (&args.certificate, &args.key) {
        return Ok((read(certificate, key)?, false));
    }
    let folder = dir.join("tls");
    let (certificate, key) = (folder.join("certificate.pem"), folder.join("key.pem"));
    if certificate.is_file() && key.is_file() {
        let kept = read(&certificate, &key)?;
        let fits = args.name.iter().all(|name| kept.is_for(name));
        if fits && until(&certificate)? - BEFORE_MS > now.unix_ms() {
            return Ok((kept, false));
        }
    }
    let names: Vec<String> = std::iter::once("localhost".to_owned()).chain(args.name.clone()).collect();
    let own = [IpAddr::V4(Ipv4Addr::LOCALHOST), IpAddr::V6(Ipv6Addr::LOCALHOST)];
    let mut addresses: Vec<IpAddr> = own.into_iter().chain(seen_from_outside(args.address)).collect();
    addresses.sort();
    addresses.dedup();
    let made = server::make(&names, &addresses, now.unix_ms()).map_err(|said| {
        Error::new(Kind::Input, msg!("error-certificate-name", names = args.name.join(", "), said = said))
    })?;
    let until = Stamp::new(made.until_ms, 0)
        .map_err(|e| Error::new(Kind::Internal, msg!("error-internal", said = e.to_string())))?;
    let text = format!("{UNTIL}{until}\n{}", made.certificate);
    // The key first: a certificate without its key is made anew.
    let _ = fs::remove_file(&certificate); // none there is as good
    keys::write_secret(&key, made.key.as_bytes()).map_err(|e| fail::file(&key, &e))?;
    keys::write_whole(&certificate, text.as_bytes()).map_err(|e| fail::file(&certificate, &e))?;
    Ok((read(&certificate, &key)?, true))
}

fn read(certificate: &Path, key: &Path) -> Result<Identity, Error> {
    let bytes = |path: &Path| fs::read(path).map_err(|e| fail::file(path, &e));
    Identity::from_pem(&bytes(certificate)?, &bytes(key)?).map_err(|e| {
        let (path, said) = match e {
            IdentityError::Certificate(said) | IdentityError::Both(said) => (certificate, said),
            IdentityError::Key(said) => (key, said),
        };
        let message = msg!("error-certificate", path = path.display().to_string(), said = said);
        Error::new(Kind::Input, message).hint(msg!("error-certificate-hint"))
    })
}

/// Until when the kept certificate is valid; one that does not say so is over.
fn until(certificate: &Path) -> Result<i64, Error> {
    let text = fs::read_to_string(certificate).map_err(|e| fail::file(certificate, &e))?;
    let said = text.lines().find_map(|line| line.strip_prefix(UNTIL)?.parse::<Stamp>().ok());
    Ok(said.map_or(i64::MIN / 2, |until| until.unix_ms()))
}

/// The address under which others of the network see this machine. A datagram socket is asked which of its addresses it
/// would send from; nothing is sent. 192.0.2.1 and 2001:db8::1 are addresses of examples (RFC 5737, RFC 3849).
pub fn seen_from_outside(bound: SocketAddr) -> Option<IpAddr> {
    if !bound.ip().is_unspecified() {
        return Some(bound.ip());
    }
    let asked = |from: &str, to: &str| {
        let socket = UdpSocket::bind(from).ok()?;
        socket.connect(to).ok()?;
        Some(socket.local_addr().ok()?.ip()).filter(|ip| !ip.is_unspecified())
    };
    asked("0.0.0.0:0", "192.0.2.1:9").or_else(|| asked("[::]:0", "[2001:db8::1]:9"))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn args(names: &[&str]) -> Office {
        Office {
            what: None,
            address: "127.0.0.1:0".parse().unwrap(),
            certificate: None,
            key: None,
            name: names.iter().map(|n| (*n).to_owned()).collect(),
            watch: None,
            scanner: None,
            log_to: None,
            log_ca: None,
        }
    }

    fn at(text: &str) -> Stamp {
        text.parse().unwrap()
    }

    #[test]
    fn a_certificate_is_made_once_and_again_when_a_name_is_new_or_its_end_is_near() {
        let dir = tempfile::tempdir().unwrap();
        let now = at("2026-04-14T09:30:00-05:00");
        let print = |names: &[&str], now| {
            let (identity, new) = identity(&args(names), dir.path(), now).unwrap();
            (identity.fingerprint(), new)
        };
        let (first, new) = print(&[], now);
        assert!(new);
        assert_eq!(print(&[], now), (first.clone(), false));
        let (second, new) = print(&["office.example"], now);
        assert!(new && second != first);
        assert_eq!(print(&[], now), (second.clone(), false), "a name more is no harm");
        assert_eq!(print(&["office.example"], at("2028-05-20T00:00:00Z")), (second.clone(), false));
        let (third, new) = print(&["office.example"], at("2028-06-01T00:00:00Z"));
        assert!(new && third != second);
        #[cfg(unix)]
        {
            use std::os::unix::fs::PermissionsExt as _;
            let mode = fs::metadata(dir.path().join("tls/key.pem")).unwrap().permissions().mode();
            assert_eq!(mode & 0o077, 0);
        }
    }

    #[test]
    fn a_certificate_that_is_none_is_refused_by_its_path() {
        let dir = tempfile::tempdir().unwrap();
        let file = dir.path().join("a.pem");
        fs::write(&file, "nothing").unwrap();
        let args = Office { certificate: Some(file.clone()), key: Some(file.clone()), ..args(&[]) };
        let refused = identity(&args, dir.path(), at("2026-04-14T09:30:00-05:00")).err().unwrap();
        assert!(refused.to_string().contains("a.pem"), "{refused}");
    }
}
