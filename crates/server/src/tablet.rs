//! What tablets are answered. They are no browsers: they carry a secret of their own, no cookie, and come from no page.
//!
//! | route | body | answer |
//! | --- | --- | --- |
//! | `POST /device/pair` | JSON | JSON; the one route without a secret |
//! | `PUT /device/packet/PACKET` | a recipe | what is missing |
//! | `PUT /device/packet/PACKET/segment/SEGMENT` | bytes, `Content-Range: bytes A-B/N` | how much is here; 409 where they do not follow on |
//! | `POST /device/packet/PACKET` | | the receipt; 409 with what is missing |
//! | `GET /device/catalog?have=VERSION` | | the catalog that was published last; 204 where it is that one, or none was |

use std::sync::Arc;
use std::time::Duration;

use axum::Router;
use axum::body::Body;
use axum::extract::rejection::QueryRejection;
use axum::extract::{Extension, Path, Query, Request, State};
use axum::http::{HeaderMap, HeaderValue, StatusCode, header};
use axum::middleware::{Next, from_fn_with_state};
use axum::response::{IntoResponse as _, Response};
use axum::routing::{get, post, put};
use serde::Deserialize;
use serde_json::Value;
use web::language;

use crate::connections::Peer;
use crate::door::{Inside, Room, peer, refused, with_headers};
use crate::upload::{let_come, whole};
use crate::{Refusal, Why};

/// Most bytes of a recipe.
pub const MOST_RECIPE: usize = 24 << 20;
/// Most bytes of a piece.
pub const MOST_PIECE: usize = 4 << 20;
/// Most bytes of what a tablet says to be paired.
const MOST_PAIR: usize = 16 << 10;
/// How long each may take to come: a piece of 32 kB on a line of 300 bytes a second.
const WITHIN: Duration = Duration::from_secs(120);

/// Who answers tablets. Called from several threads, one call at a time or more.
pub trait Tablets: Send + Sync + 'static {
    /// Pairs a tablet.
    ///
    /// # Errors
    /// What the tablet is told.
    fn pair(&self, tablet: &Asking, ask: Value) -> Result<Value, Refusal>;

    /// Whether the tablet is known; asked before a byte of a body is taken.
    ///
    /// # Errors
    /// What the tablet is told.
    fn may_send(&self, tablet: &Asking) -> Result<(), Refusal>;

    /// Begins a packet by its recipe.
    ///
    /// # Errors
    /// What the tablet is told.
    fn begin(&self, tablet: &Asking, packet: &str, recipe: &[u8]) -> Result<Value, Refusal>;

    /// Takes a piece of a segment.
    ///
    /// # Errors
    /// What the tablet is told.
    fn piece(&self, tablet: &Asking, packet: &str, piece: &Piece<'_>) -> Result<Told, Refusal>;

    /// Takes the packet in, once all of it is here.
    ///
    /// # Errors
    /// What the tablet is told.
    fn finish(&self, tablet: &Asking, packet: &str) -> Result<Told, Refusal>;

    /// The catalog that was published last; nothing where the tablet has it, or there is none.
    ///
    /// # Errors
    /// What the tablet is told.
    fn catalog(&self, tablet: &Asking, have: Option<&str>) -> Result<Told, Refusal>;
}

/// A tablet that asks, as far as the network knows.
#[derive(Clone, PartialEq, Eq)]
pub struct Asking {
    /// Tag of the language it is in.
    pub language: String,
    /// The address the connection comes from.
    pub from: std::net::IpAddr,
    /// Its secret.
    pub token: Option<String>,
}

/// A piece of a segment as it comes in.
#[derive(Clone, Copy)]
pub struct Piece<'a> {
    /// The segment, by its digest.
    pub segment: &'a str,
    /// Where it begins in it.
    pub from: u64,
    /// How long the segment is.
    pub of: u64,
    /// Its bytes.
    pub bytes: &'a [u8],
}

/// What a tablet is told.
#[derive(Clone, Debug, PartialEq)]
pub enum Told {
    /// It is as hoped for.
    Well(Value),
    /// It is otherwise, and this is how it stands.
    Otherwise(Value),
    /// There is nothing new.
    Nothing,
}

pub(crate) fn router(inside: &Arc<Inside>) -> Router<Arc<Inside>> {
    Router::new()
        .route("/device/pair", post(pair))
        .route("/device/catalog", get(catalog))
        .route("/device/packet/{packet}", put(begin).post(finish))
        .route("/device/packet/{packet}/segment/{segment}", put(piece))
        .layer(from_fn_with_state(Arc::clone(inside), from_a_tablet))
}

/// Holds every request against what a page of a browser could send.
async fn from_a_tablet(State(inside): Room, request: Request, next: Next) -> Response {
    let response = match inside.guard.comes_from_a_tablet(request.headers()) {
        Ok(()) => next.run(request).await,
        Err(why) => {
            let (peer, language) = (peer(&request), language(request.headers()));
            inside.no(peer, &language, why)
        }
    };
    with_headers(response)
}

async fn pair(
    State(inside): Room,
    Extension(from): Extension<Peer>,
    headers: HeaderMap,
    body: Body,
) -> Response {
    let asking = asking(&headers, from);
    let body = match whole(body, MOST_PAIR, WITHIN).await {
        Ok(body) => body,
        Err(why) => return inside.no(Peer(asking.from), &asking.language, why),
    };
    let Ok(ask) = serde_json::from_slice::<Value>(&body) else {
        return inside.no(Peer(asking.from), &asking.language, Why::Json);
    };
    beside(inside, asking, move |inside, asking| inside.tablets.pair(asking, ask).map(Told::Well)).await
}

async fn begin(
    State(inside): Room,
    Path(packet): Path<String>,
    Extension(from): Extension<Peer>,
    headers: HeaderMap,
    body: Body,
) -> Response {
    let asking = asking(&headers, from);
    let body = match taken(&inside, &asking, body, MOST_RECIPE).await {
        Ok(body) => body,
        Err(response) => return response,
    };
    beside(inside, asking, move |inside, asking| inside.tablets.begin(asking, &packet, &body).map(Told::Well))
        .await
}

async fn piece(
    State(inside): Room,
    Path((packet, segment)): Path<(String, String)>,
    Extension(from): Extension<Peer>,
    headers: HeaderMap,
    body: Body,
) -> Response {
    let asking = asking(&headers, from);
    let Some((from, to, of)) = headers.get(header::CONTENT_RANGE).and_then(range) else {
        let_come(body);
        return inside.no(Peer(asking.from), &asking.language, Why::Range);
    };
    let body = match taken(&inside, &asking, body, MOST_PIECE).await {
        Ok(body) => body,
        Err(response) => return response,
    };
    if body.len() as u64 != to - from + 1 {
        return inside.no(Peer(asking.from), &asking.language, Why::Unread);
    }
    beside(inside, asking, move |inside, asking| {
        inside.tablets.piece(asking, &packet, &Piece { segment: &segment, from, of, bytes: &body })
    })
    .await
}

async fn finish(
    State(inside): Room,
    Path(packet): Path<String>,
    Extension(from): Extension<Peer>,
    headers: HeaderMap,
) -> Response {
    let asking = asking(&headers, from);
    beside(inside, asking, move |inside, asking| {
        inside.tablets.may_send(asking)?;
        inside.tablets.finish(asking, &packet)
    })
    .await
}

#[derive(Deserialize)]
struct Have {
    have: Option<String>,
}

async fn catalog(
    State(inside): Room,
    query: Result<Query<Have>, QueryRejection>,
    Extension(from): Extension<Peer>,
    headers: HeaderMap,
) -> Response {
    let asking = asking(&headers, from);
    let Ok(Query(Have { have })) = query else {
        return inside.no(Peer(asking.from), &asking.language, Why::Page);
    };
    beside(inside, asking, move |inside, asking| inside.tablets.catalog(asking, have.as_deref())).await
}

/// The body of somebody who may send it; whoever may not is told before it comes.
async fn taken(
    inside: &Arc<Inside>,
    asking: &Asking,
    body: Body,
    most: usize,
) -> Result<axum::body::Bytes, Response> {
    let (there, asked) = (Arc::clone(inside), asking.clone());
    let may = match tokio::task::spawn_blocking(move || there.tablets.may_send(&asked)).await {
        Ok(Ok(())) => Ok(()),
        Ok(Err(refusal)) => Err(refused(refusal.status(), &refusal)),
        Err(_) => Err(inside.no(Peer(asking.from), &asking.language, Why::Ended)),
    };
    if let Err(response) = may {
        let_come(body);
        return Err(response);
    }
    whole(body, most, WITHIN).await.map_err(|why| inside.no(Peer(asking.from), &asking.language, why))
}

/// `bytes A-B/N`, all three known, as RFC 9110, 14.4 writes it.
fn range(value: &HeaderValue) -> Option<(u64, u64, u64)> {
    let (range, of) = value.to_str().ok()?.strip_prefix("bytes ")?.split_once('/')?;
    let (from, to) = range.split_once('-')?;
    let number = |text: &str| text.bytes().all(|b| b.is_ascii_digit()).then(|| text.parse::<u64>().ok())?;
    let (from, to, of) = (number(from)?, number(to)?, number(of)?);
    (from <= to && to < of).then_some((from, to, of))
}

/// Runs what waits for the disk beside the connections.
async fn beside(
    inside: Arc<Inside>,
    asking: Asking,
    work: impl FnOnce(&Inside, &Asking) -> Result<Told, Refusal> + Send + 'static,
) -> Response {
    let (there, peer, language) = (Arc::clone(&inside), Peer(asking.from), asking.language.clone());
    let (status, value) = match tokio::task::spawn_blocking(move || work(&there, &asking)).await {
        Ok(Ok(Told::Well(value))) => (StatusCode::OK, value),
        Ok(Ok(Told::Otherwise(value))) => (StatusCode::CONFLICT, value),
        Ok(Ok(Told::Nothing)) => return StatusCode::NO_CONTENT.into_response(),
        Ok(Err(refusal)) => return refused(refusal.status(), &refusal),
        Err(_) => return inside.no(peer, &language, Why::Ended),
    };
    (status, [(header::CONTENT_TYPE, "application/json")], value.to_string()).into_response()
}

fn asking(headers: &HeaderMap, Peer(from): Peer) -> Asking {
    Asking { language: language(headers), from, token: bearer(headers) }
}

/// The secret of a tablet. Two of them, which no tablet sends, count as none.
fn bearer(headers: &HeaderMap) -> Option<String> {
    let mut sent = headers.get_all(header::AUTHORIZATION).iter();
    match (sent.next(), sent.next()) {
        (Some(one), None) => one.to_str().ok()?.strip_prefix("Bearer ").map(str::to_owned),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_range_is_read_as_it_is_written_and_in_no_other_way() {
        for (text, read) in [
            ("bytes 0-0/1", Some((0, 0, 1))),
            ("bytes 10-19/20", Some((10, 19, 20))),
            ("bytes 10-20/20", None),
            ("bytes 5-4/20", None),
            ("bytes 0-4/*", None),
            ("bytes */20", None),
            ("bytes +1-4/20", None),
            ("bytes 1 -4/20", None),
            ("bytes 0-4", None),
            ("items 0-4/20", None),
            ("bytes 0-99999999999999999999/99999999999999999999", None),
            ("", None),
        ] {
            assert_eq!(range(&HeaderValue::from_static(text)), read, "{text}");
        }
    }

    #[test]
    fn a_secret_stands_in_one_header_alone() {
        let mut headers = HeaderMap::new();
        assert_eq!(bearer(&headers), None);
        headers.append("authorization", HeaderValue::from_static("Basic 5ecret"));
        assert_eq!(bearer(&headers), None);
        headers.insert("authorization", HeaderValue::from_static("Bearer 5ecret"));
        assert_eq!(bearer(&headers).as_deref(), Some("5ecret"));
        headers.append("authorization", HeaderValue::from_static("Bearer other"));
        assert_eq!(bearer(&headers), None);
    }
}
