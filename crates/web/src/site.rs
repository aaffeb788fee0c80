//! Where a request comes from: a page of ours, of others, or the address bar.

use http::{HeaderMap, HeaderName, Method, header};

/// Whether a request was started by a page of ours, of others, or typed.
const FETCH_SITE: HeaderName = HeaderName::from_static("sec-fetch-site");

/// What tells that a request is not from here.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Foreign {
    /// Asked by another name than ours.
    Host,
    /// Asked by another page.
    Origin,
}

/// Holds a request against everything but a cookie. `is_ours` knows the door's own names, with their ports.
///
/// # Errors
/// What is foreign about it.
pub fn from_here(
    method: &Method,
    headers: &HeaderMap,
    scheme: &str,
    is_ours: impl FnOnce(&str) -> bool,
) -> Result<(), Foreign> {
    let host = match only(headers, &header::HOST) {
        One::Is(host) if is_ours(host) => host,
        _ => return Err(Foreign::Host),
    };
    let writes = method != Method::GET && method != Method::HEAD;
    match only(headers, &header::ORIGIN) {
        One::Is(origin) if origin.strip_prefix(scheme).and_then(|o| o.strip_prefix("://")) == Some(host) => {}
        One::None if !writes => {}
        _ => return Err(Foreign::Origin),
    }
    match only(headers, &FETCH_SITE) {
        // Browsers of before 2023 send none.
        One::None | One::Is("same-origin") => Ok(()),
        // Typed, or opened from another program.
        One::Is("none") if !writes => Ok(()),
        _ => Err(Foreign::Origin),
    }
}

/// Values of the cookies of this name, in the order they were sent.
pub fn cookies<'h>(headers: &'h HeaderMap, name: &'h str) -> impl Iterator<Item = &'h str> {
    let sent = headers.get_all(header::COOKIE).iter().filter_map(|v| v.to_str().ok());
    let pairs = sent.flat_map(|line| line.split(';')).filter_map(|pair| pair.trim().split_once('='));
    pairs.filter(move |(named, _)| *named == name).map(|(_, value)| value)
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
            (Method::GET, &[], Err(Foreign::Host)),
            (Method::GET, &[("host", "localhost:4000")], Err(Foreign::Host)),
            (Method::GET, &[("host", "127.0.0.1")], Err(Foreign::Host)),
            (Method::GET, &[("host", "127.0.0.1:4001")], Err(Foreign::Host)),
            (Method::GET, &[("host", "rebound.example:4000")], Err(Foreign::Host)),
            (Method::GET, &[host, host], Err(Foreign::Host)),
            (Method::POST, &[host], Err(Foreign::Origin)),
            (Method::POST, &[host, ("origin", "null")], Err(Foreign::Origin)),
            (Method::POST, &[host, ("origin", AT)], Err(Foreign::Origin)),
            (Method::POST, &[host, ("origin", "http://127.0.0.1:4001")], Err(Foreign::Origin)),
            (Method::POST, &[host, ("origin", "http://127.0.0.1:4000/")], Err(Foreign::Origin)),
            (Method::POST, &[host, ("origin", "https://127.0.0.1:4000")], Err(Foreign::Origin)),
            (Method::POST, &[host, ours, ("origin", "http://elsewhere.example")], Err(Foreign::Origin)),
            (Method::GET, &[host, ("origin", "http://elsewhere.example")], Err(Foreign::Origin)),
            (Method::GET, &[host, site("cross-site")], Err(Foreign::Origin)),
            (Method::GET, &[host, site("same-site")], Err(Foreign::Origin)),
            (Method::POST, &[host, ours, site("none")], Err(Foreign::Origin)),
            (Method::POST, &[host, ours, site("cross-site")], Err(Foreign::Origin)),
        ] {
            let held = from_here(&method, &headers(list), "http", |h| h == AT);
            assert_eq!(held, told, "{method} {list:?}");
        }
    }

    #[test]
    fn cookies_are_found_by_their_whole_name() {
        for (list, found) in [
            (&[("cookie", "a=1")][..], &["1"][..]),
            (&[("cookie", "b=2; a=1; c=d")], &["1"]),
            (&[("cookie", "b=2"), ("cookie", "a=1")], &["1"]),
            (&[("cookie", "a=1; a=2")], &["1", "2"]),
            (&[], &[]),
            (&[("cookie", "a=")], &[""]),
            (&[("cookie", "aa=1; xa=1; a")], &[]),
        ] {
            let headers = headers(list);
            assert_eq!(cookies(&headers, "a").collect::<Vec<_>>(), found, "{list:?}");
        }
    }
}
