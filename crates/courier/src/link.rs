//! The link by which a tablet is paired: where the office is, which certificate it will show, and a code that works once.
//!
//! `underlath-office:192.0.2.7:8443?sum=…&code=…&firm=Hale%20%26%20Daughter`. It is read strictly: whatever is spelled
//! otherwise than it is written is refused.

use std::fmt;
use std::str::FromStr;

use percent_encoding::{NON_ALPHANUMERIC, percent_decode_str, utf8_percent_encode};
use survey::Digest;

const SCHEME: &str = "underlath-office:";
/// Letters of a link; the longest that is written has a name of 253 and a firm of 120 letters, four bytes each.
const MOST: usize = 2_400;
/// Letters of a firm's name.
const MOST_FIRM: usize = 120;
/// Letters of a code.
const CODE: std::ops::RangeInclusive<usize> = 16..=64;

/// SHA-256 of a certificate (its DER), the way its sum is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fingerprint(Digest);

impl Fingerprint {
    /// That of a certificate.
    pub fn of(certificate: &[u8]) -> Self {
        Self(Digest::of(certificate))
    }
    /// In lower-case hexadecimal digits.
    pub fn hex(&self) -> String {
        self.0.hex()
    }
}

/// Pairs of capital digits with colons, as browsers show it and the office prints it.
impl fmt::Display for Fingerprint {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (n, byte) in self.0.as_bytes().iter().enumerate() {
            if n > 0 {
                f.write_str(":")?;
            }
            write!(f, "{byte:02X}")?;
        }
        Ok(())
    }
}

impl FromStr for Fingerprint {
    type Err = LinkError;
    /// Reads it with colons or without, capitals or not.
    fn from_str(text: &str) -> Result<Self, LinkError> {
        let digits: String = text.chars().filter(|c| *c != ':').map(|c| c.to_ascii_lowercase()).collect();
        digits.parse().map(Self).map_err(|_| LinkError::Part("sum"))
    }
}

/// An invitation as a link.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Link {
    /// Where the office is: a name or an address, and a port.
    pub address: String,
    /// The certificate it will show.
    pub fingerprint: Fingerprint,
    /// The code that works once.
    pub code: String,
    /// Name of the firm, for the person who pairs.
    pub firm: String,
}

/// Why a text is no link.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum LinkError {
    /// Something else altogether.
    #[error("this is no link of an office; it begins with “underlath-office:”")]
    Other,
    /// One of its parts.
    #[error("the part “{0}” of the link cannot be read; it was cut short or altered")]
    Part(&'static str),
}

impl fmt::Display for Link {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { address, fingerprint, code, firm } = self;
        let firm = utf8_percent_encode(firm, NON_ALPHANUMERIC);
        write!(f, "{SCHEME}{address}?sum={}&code={code}&firm={firm}", fingerprint.hex())
    }
}

impl FromStr for Link {
    type Err = LinkError;
    fn from_str(text: &str) -> Result<Self, LinkError> {
        let text = text.trim();
        let rest = text.strip_prefix(SCHEME).filter(|_| text.len() <= MOST).ok_or(LinkError::Other)?;
        let (at, rest) = rest.split_once('?').ok_or(LinkError::Part("address"))?;
        let at = address(at).ok_or(LinkError::Part("address"))?;
        let mut parts = rest.split('&');
        let mut part = |name: &'static str| {
            let (found, value) = parts.next()?.split_once('=')?;
            (found == name).then_some(value)
        };
        let fingerprint = part("sum").ok_or(LinkError::Part("sum"))?.parse()?;
        let code = part("code").filter(|code| is_code(code)).ok_or(LinkError::Part("code"))?.to_owned();
        let firm = part("firm").and_then(firm).ok_or(LinkError::Part("firm"))?;
        let link = Self { address: at, fingerprint, code, firm };
        // Whatever follows, or is spelled in another way.
        if link.to_string() == text { Ok(link) } else { Err(LinkError::Part("firm")) }
    }
}

/// A name or address with a port: nothing else can stand in a `Host` header.
fn address(text: &str) -> Option<String> {
    let (host, port) = text.rsplit_once(':')?;
    let number: u16 = port.parse().ok()?;
    let bare = host.strip_prefix('[').and_then(|h| h.strip_suffix(']'));
    let is_host = match bare {
        Some(v6) => v6.parse::<std::net::Ipv6Addr>().is_ok(),
        None => {
            let letter = |c: char| c.is_ascii_alphanumeric() || matches!(c, '.' | '-');
            (1..=253).contains(&host.len()) && host.chars().all(letter)
        }
    };
    (is_host && number > 0 && port == number.to_string()).then(|| text.to_owned())
}

fn is_code(code: &str) -> bool {
    CODE.contains(&code.len()) && code.bytes().all(|b| b.is_ascii_alphanumeric() || b == b'-')
}

fn firm(text: &str) -> Option<String> {
    let firm = percent_decode_str(text).decode_utf8().ok()?;
    let fits = (1..=MOST_FIRM).contains(&firm.chars().count()) && !firm.chars().any(char::is_control);
    fits.then(|| firm.into_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn link(address: &str, firm: &str) -> Link {
        Link {
            address: address.to_owned(),
            fingerprint: Fingerprint::of(b"certificate"),
            code: "0123456789abcdef".to_owned(),
            firm: firm.to_owned(),
        }
    }

    #[test]
    fn a_link_is_read_as_it_is_written() {
        for address in ["192.0.2.7:8443", "[2001:db8::1]:8443", "office.example:443", "localhost:1"] {
            for firm in ["Hale & Daughter", "Año = Nuevo?", "a", "%41"] {
                let link = link(address, firm);
                assert_eq!(link.to_string().parse(), Ok(link.clone()));
                assert_eq!(format!("  {link}\n").parse(), Ok(link));
            }
        }
        let shown = Fingerprint::of(b"certificate").to_string();
        assert_eq!((shown.len(), shown.parse()), (95, Ok(Fingerprint::of(b"certificate"))));
    }

    #[test]
    fn whatever_is_spelled_otherwise_is_refused() {
        let whole = link("192.0.2.7:8443", "Hale").to_string();
        for (text, fault) in [
            (String::new(), LinkError::Other),
            ("https://192.0.2.7:8443".to_owned(), LinkError::Other),
            (whole.replace("underlath", "Underlath"), LinkError::Other),
            (format!("{whole}{}", "x".repeat(MOST)), LinkError::Other),
            (whole.replace(":8443", ""), LinkError::Part("address")),
            (whole.replace(":8443", ":0"), LinkError::Part("address")),
            (whole.replace(":8443", ":08443"), LinkError::Part("address")),
            (whole.replace("192.0.2.7", "me@192.0.2.7"), LinkError::Part("address")),
            (whole.replace("192.0.2.7", "a/b"), LinkError::Part("address")),
            (whole.replace("192.0.2.7", "[x]"), LinkError::Part("address")),
            (whole.replace("sum=", "sum=f"), LinkError::Part("sum")),
            (whole.replace("code=0123456789abcdef", "code=0123"), LinkError::Part("code")),
            (whole.replace("code=0123456789abcdef", "code=0123456789abcde\""), LinkError::Part("code")),
            (whole.replace("firm=Hale", "firm="), LinkError::Part("firm")),
            (whole.replace("firm=Hale", "firm=%0A"), LinkError::Part("firm")),
            (whole.replace("firm=Hale", "firm=%FF"), LinkError::Part("firm")),
            (whole.replace("firm=Hale", "firm=Ha le"), LinkError::Part("firm")),
            (whole.replace("&firm=Hale", ""), LinkError::Part("firm")),
            (format!("{whole}&more=1"), LinkError::Part("firm")),
        ] {
            assert_eq!(text.parse::<Link>(), Err(fault), "{text}");
        }
    }
}
