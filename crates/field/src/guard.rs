//! Who may ask.
//!
//! Any page a browser shows can send requests to loopback, and any program of this machine can open a connection. So:
//!
//! | held against | stops |
//! | --- | --- |
//! | `Host` is the printed one | names of others that are made to point here |
//! | `Origin`, where sent, is ours; a request that writes must send it | forms and scripts of other pages |
//! | `Sec-Fetch-Site`, where sent, is ours or the address bar | the same, where a browser leaves `Origin` out |
//! | the cookie of this run | other programs and other people of this machine |
//!
//! The cookie is given once, for the token of the printed address, which is then used up. It can be read by no script
//! (`HttpOnly`), is sent with no request that another page starts (`SameSite=Strict`), and carries the port in its name,
//! because browsers do not tell cookies apart by port.

use std::net::SocketAddr;
use std::sync::{Mutex, PoisonError};

use axum::http::{HeaderMap, HeaderName, Method, header};
use subtle::ConstantTimeEq as _;

use crate::{Secrets, Why};

/// Whether a request was started by a page of ours, of others, or typed.
pub(crate) const FETCH_SITE: HeaderName = HeaderName::from_static("sec-fetch-site");

/// What one run lets in.
pub(crate) struct Guard {
    host: String,
    origin: String,
    cookie: String,
    session: String,
    token: Mutex<Option<String>>,
}

impl Guard {
    pub(crate) fn new(at: SocketAddr, secrets: Secrets) -> Self {
        Self {
            host: at.to_string(),
            origin: format!("http://{at}"),
            cookie: format!("underlath-{}", at.port()),
            session: secrets.session,
            token: Mutex::new(Some(secrets.token)),
        }
    }

    /// Holds a request against everything but the cookie.
    pub(crate) fn comes_from_here(&self, method: &Method, headers: &HeaderMap) -> Result<(), Why> {
        if only(headers, &header::HOST) != One::Is(&self.host) {
            return Err(Why::Host);
        }
        let writes = method != Method::GET && method != Method::HEAD;
        match only(headers, &header::ORIGIN) {
            One::Is(origin) if origin == self.origin => {}
            One::None if !writes => {}
            _ => return Err(Why::Origin),
        }
        match only(headers, &FETCH_SITE) {
            // Browsers of before 2023 send none.
            One::None | One::Is("same-origin") => Ok(()),
            // Typed, or opened from another program.
            One::Is("none") if !writes => Ok(()),
            _ => Err(Why::Origin),
        }
    }

    /// Holds a request against the cookie of this run.
    pub(crate) fn is_known(&self, headers: &HeaderMap) -> Result<(), Why> {
        let sent = headers.get_all(header::COOKIE).iter().filter_map(|v| v.to_str().ok());
        let mut pairs = sent.flat_map(|line| line.split(';')).filter_map(|pair| pair.trim().split_once('='));
        let known = pairs.any(|(name, value)| name == self.cookie && same(value, &self.session));
        if known { Ok(()) } else { Err(Why::Cookie) }
    }

    /// Takes the token, which is then used up, for the cookie to be set.
    pub(crate) fn enter(&self, token: &str) -> Result<String, Why> {
        let mut kept = self.token.lock().unwrap_or_else(PoisonError::into_inner);
        if !kept.as_deref().is_some_and(|kept| same(kept, token)) {
            return Err(Why::Token);
        }
        *kept = None;
        Ok(format!("{}={}; HttpOnly; SameSite=Strict; Path=/", self.cookie, self.session))
    }
}

/// Compares in a time that does not tell how many letters agree.
fn same(a: &str, b: &str) -> bool {
    a.as_bytes().ct_eq(b.as_bytes()).into()
}

/// A header that may be sent once.
#[derive(PartialEq, Eq)]
enum One<'a> {
    None,
    Is(&'a str),
    Several,
}

fn only<'a>(headers: &'a HeaderMap, name: &HeaderName) -> One<'a> {
    let mut values = headers.get_all(name).iter();
    match (values.next(), values.next()) {
        (None, _) => One::None,
        (Some(value), None) => value.to_str().map_or(One::Several, One::Is),
        (Some(_), Some(_)) => One::Several,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const AT: &str = "127.0.0.1:4000";

    fn guard() -> Guard {
        let secrets = Secrets { token: "t0ken".to_owned(), session: "5ession".to_owned() };
        Guard::new(AT.parse().unwrap(), secrets)
    }

    fn headers(list: &[(&'static str, &'static str)]) -> HeaderMap {
        let mut headers = HeaderMap::new();
        for (name, value) in list {
            headers.append(HeaderName::from_static(name), value.parse().unwrap());
        }
        headers
    }

    #[test]
    fn requests_are_held_against_host_origin_and_fetch_site() {
        let (host, ours) = (("host", AT), ("origin", "http://127.0.0.1:4000"));
        let site = |s| ("sec-fetch-site", s);
        for (method, list, told) in [
            (Method::GET, &[host][..], Ok(())),
            (Method::GET, &[host, site("none")], Ok(())),
            (Method::GET, &[host, ours, site("same-origin")], Ok(())),
            (Method::POST, &[host, ours, site("same-origin")], Ok(())),
            (Method::POST, &[host, ours], Ok(())),
            (Method::GET, &[], Err(Why::Host)),
            (Method::GET, &[("host", "localhost:4000")], Err(Why::Host)),
            (Method::GET, &[("host", "127.0.0.1")], Err(Why::Host)),
            (Method::GET, &[("host", "127.0.0.1:4001")], Err(Why::Host)),
            (Method::GET, &[("host", "rebound.example:4000")], Err(Why::Host)),
            (Method::GET, &[host, host], Err(Why::Host)),
            (Method::POST, &[host], Err(Why::Origin)),
            (Method::POST, &[host, ("origin", "null")], Err(Why::Origin)),
            (Method::POST, &[host, ("origin", "http://127.0.0.1:4001")], Err(Why::Origin)),
            (Method::POST, &[host, ("origin", "https://127.0.0.1:4000")], Err(Why::Origin)),
            (Method::POST, &[host, ours, ("origin", "http://elsewhere.example")], Err(Why::Origin)),
            (Method::GET, &[host, ("origin", "http://elsewhere.example")], Err(Why::Origin)),
            (Method::GET, &[host, site("cross-site")], Err(Why::Origin)),
            (Method::GET, &[host, site("same-site")], Err(Why::Origin)),
            (Method::POST, &[host, ours, site("none")], Err(Why::Origin)),
            (Method::POST, &[host, ours, site("cross-site")], Err(Why::Origin)),
        ] {
            assert_eq!(guard().comes_from_here(&method, &headers(list)), told, "{method} {list:?}");
        }
    }

    #[test]
    fn the_cookie_of_this_run_and_no_other_is_known() {
        for (list, told) in [
            (&[("cookie", "underlath-4000=5ession")][..], true),
            (&[("cookie", "a=b; underlath-4000=5ession; c=d")], true),
            (&[("cookie", "a=b"), ("cookie", "underlath-4000=5ession")], true),
            (&[], false),
            (&[("cookie", "underlath-4000=")], false),
            (&[("cookie", "underlath-4000=5ess")], false),
            (&[("cookie", "underlath-4001=5ession")], false),
            (&[("cookie", "underlath-4000=t0ken")], false),
        ] {
            assert_eq!(guard().is_known(&headers(list)).is_ok(), told, "{list:?}");
        }
    }

    #[test]
    fn a_token_opens_once_and_a_wrong_one_never() {
        let guard = guard();
        assert_eq!(guard.enter("t0ke"), Err(Why::Token));
        assert_eq!(guard.enter(""), Err(Why::Token));
        let cookie = guard.enter("t0ken").unwrap();
        assert_eq!(cookie, "underlath-4000=5ession; HttpOnly; SameSite=Strict; Path=/");
        assert_eq!(guard.enter("t0ken"), Err(Why::Token));
    }
}
