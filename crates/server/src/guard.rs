//! Whose name the office is asked by, and the cookie.
//!
//! Somebody else's name may be made to point here; a browser would then take us for a page of theirs. So the office answers
//! to bare addresses, to names its certificate is for, and to those it was told.

use std::net::IpAddr;

use axum::http::uri::Authority;
use axum::http::{HeaderMap, Method, header};
use web::{Foreign, cookies, from_here};

use crate::{Identity, NextSession, Why};

/// The cookie. `__Host-`: browsers take it over TLS only, for this host alone, for all paths.
pub const COOKIE: &str = "__Host-underlath-office";

/// What the office answers to.
pub(crate) struct Guard {
    identity: Identity,
    names: Vec<String>,
}

impl Guard {
    pub(crate) fn new(identity: Identity, names: Vec<String>) -> Self {
        Self { identity, names }
    }

    /// Holds a request against everything but the session.
    pub(crate) fn comes_from_here(&self, method: &Method, headers: &HeaderMap) -> Result<(), Why> {
        from_here(method, headers, "https", |host| self.is_ours(host)).map_err(|foreign| match foreign {
            Foreign::Host => Why::Host,
            Foreign::Origin => Why::Origin,
        })
    }

    /// Holds a request of a tablet against what only a browser sends: where such a header stands, it is a page that asks.
    pub(crate) fn comes_from_a_tablet(&self, headers: &HeaderMap) -> Result<(), Why> {
        let mut hosts = headers.get_all(header::HOST).iter();
        match (hosts.next().and_then(|host| host.to_str().ok()), hosts.next()) {
            (Some(host), None) if self.is_ours(host) => {}
            _ => return Err(Why::Host),
        }
        let of_a_browser = [header::ORIGIN, header::COOKIE, header::REFERER];
        let page = of_a_browser.iter().any(|name| headers.contains_key(name))
            || headers.keys().any(|name| name.as_str().starts_with("sec-fetch-"));
        if page { Err(Why::Origin) } else { Ok(()) }
    }

    fn is_ours(&self, host: &str) -> bool {
        // A name before an @ is part of no Host.
        let Some(authority) = host.parse::<Authority>().ok().filter(|_| !host.contains('@')) else {
            return false;
        };
        let name = authority.host();
        // What stands behind the name is a port or nothing.
        if authority.as_str().len() > name.len() && authority.port_u16().is_none() {
            return false;
        }
        let bare = name.strip_prefix('[').and_then(|n| n.strip_suffix(']')).unwrap_or(name);
        bare.parse::<IpAddr>().is_ok()
            || self.names.iter().any(|ours| ours.eq_ignore_ascii_case(name))
            || self.identity.is_for(name)
    }
}

/// The secret of the browser's session. Two cookies of the name, which no browser sends, count as none.
pub(crate) fn session(headers: &HeaderMap) -> Option<String> {
    let mut sent = cookies(headers, COOKIE);
    match (sent.next(), sent.next()) {
        (Some(secret), None) => Some(secret.to_owned()),
        _ => None,
    }
}

/// What the browser is told about its session.
pub(crate) fn set_cookie(next: &NextSession) -> Option<String> {
    let (secret, seconds) = match next {
        NextSession::Same => return None,
        NextSession::New { secret, seconds } => (secret.as_str(), *seconds),
        NextSession::Over => ("", 0),
    };
    Some(format!("{COOKIE}={secret}; Secure; HttpOnly; SameSite=Strict; Path=/; Max-Age={seconds}"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use axum::http::HeaderName;

    fn guard() -> Guard {
        let made = crate::make(&["office.example".to_owned()], &[], 1_775_000_000_000).unwrap();
        let identity = Identity::from_pem(made.certificate.as_bytes(), made.key.as_bytes()).unwrap();
        Guard::new(identity, vec!["desk.example".to_owned()])
    }

    #[test]
    fn the_office_answers_to_addresses_and_to_its_own_names() {
        let guard = guard();
        for (host, told) in [
            ("192.0.2.7:8443", true),
            ("192.0.2.7", true),
            ("[2001:db8::1]:8443", true),
            ("office.example:8443", true),
            ("Office.Example", true),
            ("desk.example:1", true),
            ("rebound.example:8443", false),
            ("office.example.rebound.example", false),
            ("me@office.example", false),
            ("office.example:port", false),
            ("office.example/", false),
            ("", false),
            ("[", false),
        ] {
            assert_eq!(guard.is_ours(host), told, "{host}");
        }
    }

    #[test]
    fn a_tablet_is_no_page() {
        let guard = guard();
        let told = |more: &[(&'static str, &'static str)]| {
            let mut headers = HeaderMap::new();
            for (name, value) in more {
                headers.append(HeaderName::from_static(name), value.parse().unwrap());
            }
            guard.comes_from_a_tablet(&headers)
        };
        let host = ("host", "192.0.2.7:8443");
        assert_eq!(told(&[host]), Ok(()));
        assert_eq!(told(&[]), Err(Why::Host));
        assert_eq!(told(&[host, host]), Err(Why::Host));
        assert_eq!(told(&[("host", "rebound.example:8443")]), Err(Why::Host));
        for page in [
            ("origin", "https://192.0.2.7:8443"),
            ("origin", "null"),
            ("cookie", "a=b"),
            ("referer", "https://192.0.2.7:8443/"),
            ("sec-fetch-site", "same-origin"),
            ("sec-fetch-mode", "cors"),
        ] {
            assert_eq!(told(&[host, page]), Err(Why::Origin), "{page:?}");
        }
    }

    #[test]
    fn pages_of_others_may_not_ask() {
        let guard = guard();
        let headers = |origin: &'static str| {
            let mut headers = HeaderMap::new();
            headers.insert(HeaderName::from_static("host"), "office.example:8443".parse().unwrap());
            headers.insert(HeaderName::from_static("origin"), origin.parse().unwrap());
            headers
        };
        for (origin, told) in [
            ("https://office.example:8443", Ok(())),
            ("http://office.example:8443", Err(Why::Origin)),
            ("https://office.example", Err(Why::Origin)),
            ("https://desk.example:8443", Err(Why::Origin)),
            ("null", Err(Why::Origin)),
        ] {
            assert_eq!(guard.comes_from_here(&Method::POST, &headers(origin)), told, "{origin}");
        }
    }

    #[test]
    fn the_cookie_is_for_this_host_over_tls_and_for_no_script() {
        let new = NextSession::New { secret: "5ecret".to_owned(), seconds: 60 };
        let set = set_cookie(&new).unwrap();
        assert_eq!(
            set,
            "__Host-underlath-office=5ecret; Secure; HttpOnly; SameSite=Strict; Path=/; Max-Age=60"
        );
        let over = set_cookie(&NextSession::Over).unwrap();
        assert!(
            over.starts_with("__Host-underlath-office=; Secure;") && over.ends_with("Max-Age=0"),
            "{over}"
        );
        assert_eq!(set_cookie(&NextSession::Same), None);
        let mut headers = HeaderMap::new();
        headers.append("cookie", "a=b; __Host-underlath-office=5ecret".parse().unwrap());
        assert_eq!(session(&headers).as_deref(), Some("5ecret"));
        headers.append("cookie", "__Host-underlath-office=other".parse().unwrap());
        assert_eq!(session(&headers), None);
    }
}
