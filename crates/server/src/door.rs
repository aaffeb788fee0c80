//! What is answered where.
//!
//! | route | body | answer |
//! | --- | --- | --- |
//! | `POST /ask/COMMAND` | JSON | JSON |
//! | `POST /packet` | a packet | its receipt |
//! | `POST /finding-photo` | an image | its digest |
//! | `GET /picture/PACKET/PHOTO`, `/thumbnail/…`, `/finding-photo/PHOTO` | | a JPEG of ours |
//! | `GET /page/PACKET/NAME` | | a page of the packet, to be saved |
//! | `/device/…` | `tablet` | |
//! | anything else | | a file of the screens |

use std::net::{IpAddr, Ipv6Addr};
use std::path::PathBuf;
use std::sync::Arc;
use std::time::Duration;

use axum::extract::{Extension, Path, Request, State};
use axum::http::{HeaderMap, HeaderValue, StatusCode, Uri, header};
use axum::middleware::{Next, from_fn_with_state};
use axum::response::{IntoResponse as _, Response};
use axum::routing::{get, post};
use axum::{Router, body::Body};
use serde_json::Value;
use tower_http::compression::CompressionLayer;
use tower_http::compression::predicate::{DefaultPredicate, NotForContentType, Predicate as _};
use web::{HEADERS, language};

use crate::connections::Peer;
use crate::guard::{Guard, session, set_cookie};
use crate::upload::{MOST_PACKET, into_file, let_come, whole};
use crate::{Answer, Answers, Caller, Identity, Refusal, Screens, Sending, Serving, Tablets, Wanted, Why};

pub use crate::guard::COOKIE;

/// Most bytes of a command: answers are short.
pub const MOST_JSON: usize = 256 * 1024;
/// Most bytes of a photograph.
pub const MOST_PHOTO: usize = 64 * 1024 * 1024;
/// How long a command may take to come.
const JSON_WITHIN: Duration = Duration::from_secs(30);
/// How long a photograph may.
const PHOTO_WITHIN: Duration = Duration::from_secs(10 * 60);
/// The page of this door.
pub(crate) const PAGE: &str = "office.html";
/// A browser that was here once asks over TLS only, for a year, and so whatever lies below the office's own name.
const TRANSPORT: HeaderValue = HeaderValue::from_static("max-age=31536000; includeSubDomains");

pub(crate) struct Inside {
    pub(crate) guard: Guard,
    answers: Arc<dyn Answers>,
    pub(crate) tablets: Arc<dyn Tablets>,
    screens: Screens,
    coming: PathBuf,
}

pub(crate) type Room = State<Arc<Inside>>;

pub(crate) fn router(identity: Identity, serving: Serving) -> Router {
    let Serving { answers, tablets, screens, coming, names } = serving;
    let inside = Arc::new(Inside { guard: Guard::new(identity, names), answers, tablets, screens, coming });
    // Only the files of the screens are packed: an answer that holds a secret never is. Faces are packed as they are.
    let packed = DefaultPredicate::new().and(NotForContentType::const_new("font/"));
    Router::new()
        .route("/ask/{command}", post(ask))
        .route("/packet", post(packet))
        .route("/finding-photo", post(finding_photo))
        .route("/finding-photo/{photo}", get(picture_of_finding))
        .route("/picture/{packet}/{photo}", get(picture))
        .route("/thumbnail/{packet}/{photo}", get(thumbnail))
        .route("/page/{packet}/{name}", get(page))
        .fallback(get(screen).layer(CompressionLayer::new().compress_when(packed)))
        .layer(from_fn_with_state(Arc::clone(&inside), from_here))
        .merge(crate::tablet::router(&inside))
        .with_state(inside)
}

/// Where a request comes from.
pub(crate) fn peer(request: &Request) -> Peer {
    // Each connection says it; one that did not would count as nowhere.
    request.extensions().get().copied().unwrap_or(Peer(IpAddr::V6(Ipv6Addr::UNSPECIFIED)))
}

/// Holds every request against where it comes from, and puts on every answer what a browser may do with it.
async fn from_here(State(inside): Room, request: Request, next: Next) -> Response {
    let response = match inside.guard.comes_from_here(request.method(), request.headers()) {
        Ok(()) => next.run(request).await,
        Err(why) => {
            let (peer, language) = (peer(&request), language(request.headers()));
            inside.no(peer, &language, why)
        }
    };
    with_headers(response)
}

/// What a browser may do with an answer.
pub(crate) fn with_headers(mut response: Response) -> Response {
    let headers = response.headers_mut();
    for (name, value) in HEADERS {
        headers.insert(name, HeaderValue::from_static(value));
    }
    headers.insert(header::STRICT_TRANSPORT_SECURITY, TRANSPORT);
    response
}

async fn screen(
    State(inside): Room,
    uri: Uri,
    Extension(from): Extension<Peer>,
    headers: HeaderMap,
) -> Response {
    match inside.screens.file(uri.path(), PAGE) {
        Some((media, bytes)) => ([(header::CONTENT_TYPE, media)], bytes).into_response(),
        None => inside.no(from, &language(&headers), Why::Page),
    }
}

async fn ask(
    State(inside): Room,
    Path(command): Path<String>,
    Extension(from): Extension<Peer>,
    headers: HeaderMap,
    body: Body,
) -> Response {
    let caller = caller(&headers, from);
    let body = match whole(body, MOST_JSON, JSON_WITHIN).await {
        Ok(body) => body,
        Err(why) => return inside.no(Peer(caller.from), &caller.language, why),
    };
    // Only a script of the same page can send this type without asking first.
    let said = headers.get(header::CONTENT_TYPE).is_some_and(|t| t == "application/json");
    let Some(args) = said.then(|| serde_json::from_slice::<Value>(&body).ok()).flatten() else {
        return inside.no(Peer(caller.from), &caller.language, Why::Json);
    };
    beside(inside, caller, move |inside, caller| {
        let Answer { value, session } = inside.answers.ask(caller, &command, args)?;
        let mut response = json(&value);
        if let Some(set) = set_cookie(&session) {
            // A secret is hexadecimal digits; whatever else it were, the browser gets no cookie of it.
            if let Ok(set) = HeaderValue::from_str(&set) {
                response.headers_mut().insert(header::SET_COOKIE, set);
            }
        }
        Ok(response)
    })
    .await
}

fn json(answer: &Value) -> Response {
    ([(header::CONTENT_TYPE, "application/json")], answer.to_string()).into_response()
}

/// A packet: its bytes are the body, and its address says nothing of it. Whoever may not send one is told before it comes.
async fn packet(
    State(inside): Room,
    Extension(from): Extension<Peer>,
    headers: HeaderMap,
    body: Body,
) -> Response {
    let caller = caller(&headers, from);
    if let Err(response) = may_send(&inside, &caller, Sending::Packet).await {
        let_come(body);
        return response;
    }
    let length = headers.get(header::CONTENT_LENGTH).and_then(|v| v.to_str().ok()?.parse().ok());
    let coming = match into_file(body, length, &inside.coming, MOST_PACKET).await {
        Ok(coming) => coming,
        Err(why) => return inside.no(Peer(caller.from), &caller.language, why),
    };
    beside(inside, caller, move |inside, caller| {
        Ok(json(&inside.answers.take_packet(caller, coming.path())?))
    })
    .await
}

/// The photograph of a finding; which one is said when the finding is entered, by its digest.
async fn finding_photo(
    State(inside): Room,
    Extension(from): Extension<Peer>,
    headers: HeaderMap,
    body: Body,
) -> Response {
    let caller = caller(&headers, from);
    if let Err(response) = may_send(&inside, &caller, Sending::FindingPhoto).await {
        let_come(body);
        return response;
    }
    let bytes = match whole(body, MOST_PHOTO, PHOTO_WITHIN).await {
        Ok(bytes) => bytes,
        Err(why) => return inside.no(Peer(caller.from), &caller.language, why),
    };
    beside(inside, caller, move |inside, caller| {
        Ok(json(&inside.answers.take_finding_photo(caller, &bytes)?))
    })
    .await
}

async fn may_send(inside: &Arc<Inside>, caller: &Caller, what: Sending) -> Result<(), Response> {
    let (there, asked) = (Arc::clone(inside), caller.clone());
    match tokio::task::spawn_blocking(move || there.answers.may_send(&asked, what)).await {
        Ok(Ok(())) => Ok(()),
        Ok(Err(refusal)) => Err(refused(refusal.status(), &refusal)),
        Err(_) => Err(inside.no(Peer(caller.from), &caller.language, Why::Ended)),
    }
}

async fn picture(
    room: Room,
    Path((packet, photo)): Path<(String, String)>,
    from: Extension<Peer>,
    headers: HeaderMap,
) -> Response {
    of_packet(room, packet, photo, false, caller(&headers, from.0)).await
}

async fn thumbnail(
    room: Room,
    Path((packet, photo)): Path<(String, String)>,
    from: Extension<Peer>,
    headers: HeaderMap,
) -> Response {
    of_packet(room, packet, photo, true, caller(&headers, from.0)).await
}

async fn of_packet(
    State(inside): Room,
    packet: String,
    photo: String,
    small: bool,
    caller: Caller,
) -> Response {
    beside(inside, caller, move |inside, caller| {
        let wanted = Wanted::OfPacket { packet: &packet, photo: &photo, small };
        Ok(jpeg(inside.answers.picture(caller, &wanted)?))
    })
    .await
}

async fn picture_of_finding(
    State(inside): Room,
    Path(photo): Path<String>,
    Extension(from): Extension<Peer>,
    headers: HeaderMap,
) -> Response {
    beside(inside, caller(&headers, from), move |inside, caller| {
        Ok(jpeg(inside.answers.picture(caller, &Wanted::OfFinding { photo: &photo })?))
    })
    .await
}

fn jpeg(bytes: Vec<u8>) -> Response {
    ([(header::CONTENT_TYPE, "image/jpeg")], bytes).into_response()
}

/// A page is something a packet brought: it is saved, never shown as a page of ours.
async fn page(
    State(inside): Room,
    Path((packet, name)): Path<(String, String)>,
    Extension(from): Extension<Peer>,
    headers: HeaderMap,
) -> Response {
    beside(inside, caller(&headers, from), move |inside, caller| {
        let bytes = inside.answers.page(caller, &packet, &name)?;
        let sent = [
            (header::CONTENT_TYPE, "application/octet-stream".to_owned()),
            (header::CONTENT_DISPOSITION, format!("attachment; filename=\"{}\"", plain(&name))),
        ];
        Ok((sent, bytes).into_response())
    })
    .await
}

/// A file name without anything that a header or a file system reads in its own way.
fn plain(name: &str) -> String {
    let kept = |c: char| if c.is_ascii_alphanumeric() || matches!(c, '.' | '-' | '_') { c } else { '-' };
    name.chars().map(kept).take(120).collect()
}

/// Runs what waits for the disk beside the connections.
async fn beside(
    inside: Arc<Inside>,
    caller: Caller,
    work: impl FnOnce(&Inside, &Caller) -> Result<Response, Refusal> + Send + 'static,
) -> Response {
    let (there, peer, language) = (Arc::clone(&inside), Peer(caller.from), caller.language.clone());
    let ended = tokio::task::spawn_blocking(move || work(&there, &caller)).await;
    match ended {
        Ok(Ok(response)) => response,
        Ok(Err(refusal)) => refused(refusal.status(), &refusal),
        Err(_) => inside.no(peer, &language, Why::Ended),
    }
}

impl Inside {
    /// A refusal of the door itself. Whoever answers is told of it beside the connections, because they write it down.
    pub(crate) fn no(&self, Peer(from): Peer, language: &str, why: Why) -> Response {
        // An address that leads nowhere is mistyped every day.
        if why != Why::Page {
            let answers = Arc::clone(&self.answers);
            drop(tokio::task::spawn_blocking(move || answers.turned_away(from, why)));
        }
        refused(why.status(), &self.answers.say(language, why))
    }
}

impl Why {
    const fn status(self) -> StatusCode {
        match self {
            Self::Host | Self::Origin => StatusCode::FORBIDDEN,
            Self::Page => StatusCode::NOT_FOUND,
            Self::Json | Self::Range | Self::Unread => StatusCode::BAD_REQUEST,
            Self::TooLarge { .. } => StatusCode::PAYLOAD_TOO_LARGE,
            Self::Full => StatusCode::INSUFFICIENT_STORAGE,
            Self::Disk | Self::Ended => StatusCode::INTERNAL_SERVER_ERROR,
        }
    }
}

pub(crate) fn refused(status: StatusCode, refusal: &Refusal) -> Response {
    (status, [(header::CONTENT_TYPE, "application/json")], refusal.body()).into_response()
}

fn caller(headers: &HeaderMap, Peer(from): Peer) -> Caller {
    Caller { language: language(headers), from, session: session(headers) }
}

#[cfg(test)]
mod tests {
    use super::plain;

    #[test]
    fn a_name_in_a_header_holds_nothing_that_is_read_in_another_way() {
        for (name, plainly) in [
            ("office.pdf", "office.pdf"),
            ("a\"; x=\"b.pdf", "a---x--b.pdf"),
            ("../../etc/passwd", "..-..-etc-passwd"),
            ("Año.pdf", "A-o.pdf"),
            ("a\r\nb", "a--b"),
        ] {
            assert_eq!(plain(name), plainly);
        }
        assert_eq!(plain(&"a".repeat(500)).len(), 120);
    }
}
