//! Who may ask.
//!
//! Any page a browser shows can send requests to loopback, and any program of this machine can open a connection. So
//! requests are held against where they come from (`web::from_here`: the printed host, our origin, our page), and against
//! the cookie of this run, which stops other programs and other people of this machine.
//!
//! The cookie is given once, for the token of the printed address, which is then used up. It can be read by no script
//! (`HttpOnly`), is sent with no request that another page starts (`SameSite=Strict`), and carries the port in its name,
//! because browsers do not tell cookies apart by port.

use std::net::SocketAddr;
use std::sync::{Mutex, PoisonError};

use axum::http::{HeaderMap, Method};
use web::{Foreign, cookies, from_here, same};

use crate::{Secrets, Why};

/// What one run lets in.
pub(crate) struct Guard {
    host: String,
    cookie: String,
    session: String,
    token: Mutex<Option<String>>,
}

impl Guard {
    pub(crate) fn new(at: SocketAddr, secrets: Secrets) -> Self {
        Self {
            host: at.to_string(),
            cookie: format!("underlath-{}", at.port()),
            session: secrets.session,
            token: Mutex::new(Some(secrets.token)),
        }
    }

    /// Holds a request against everything but the cookie.
    pub(crate) fn comes_from_here(&self, method: &Method, headers: &HeaderMap) -> Result<(), Why> {
        from_here(method, headers, "http", |host| host == self.host).map_err(|foreign| match foreign {
            Foreign::Host => Why::Host,
            Foreign::Origin => Why::Origin,
        })
    }

    /// Holds a request against the cookie of this run.
    pub(crate) fn is_known(&self, headers: &HeaderMap) -> Result<(), Why> {
        let known = cookies(headers, &self.cookie).any(|value| same(value, &self.session));
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

#[cfg(test)]
mod tests {
    use super::*;
    use axum::http::HeaderName;

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
    fn the_printed_host_and_pages_of_it_are_from_here() {
        let (host, ours) = (("host", AT), ("origin", "http://127.0.0.1:4000"));
        for (method, list, told) in [
            (Method::GET, &[host][..], Ok(())),
            (Method::POST, &[host, ours], Ok(())),
            (Method::GET, &[("host", "localhost:4000")], Err(Why::Host)),
            (Method::GET, &[("host", "127.0.0.1:4001")], Err(Why::Host)),
            (Method::POST, &[host, ("origin", "https://127.0.0.1:4000")], Err(Why::Origin)),
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
